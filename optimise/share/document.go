package share

import (
	"mediabuy/optimise"
	"mediabuy/quotes"
	"mediabuy/units"
)

// Document is a split bill as one machine-readable answer. Money is a decimal
// string with the currency's digits; lists are never null. An infeasible job has
// no total, members or splits.
type Document struct {
	Status   optimise.Status `json:"status"` // "optimal" when every order was proven cheapest
	Currency string          `json:"currency"`
	Rule     Rule            `json:"rule"`
	Reason   string          `json:"reason,omitempty"`
	Total    string          `json:"total,omitempty"`
	Members  []DocMember     `json:"members"` // by name
	Stable   bool            `json:"stable"`
	// BetterOffAlone are the groups that would pay less by themselves, the most
	// first.
	BetterOffAlone []DocObjection `json:"better_off_alone"`
	// Exact is true when every group was settled, so that Stable speaks of all.
	Exact  bool       `json:"exact"`
	Splits []DocSplit `json:"splits"` // every rule worked out
	Groups []DocGroup `json:"groups"` // by size, then names
	Apart  *DocApart  `json:"apart,omitempty"`
	Hosts  []DocHost  `json:"hosts"` // cheapest first

	Infeasible []optimise.DocumentObstacle  `json:"infeasible,omitempty"`
	Warnings   []optimise.DocumentComplaint `json:"warnings"`
}

// DocMember is what one member pays. Alone and Saves are null when there is no
// plan for its beds alone; LeavingCostsOthers is what the others would pay more
// if it left, null when they have no plan. All are null, too, where none was
// found in time; the groups say which.
type DocMember struct {
	Member             string  `json:"member"`
	Pays               string  `json:"pays"`
	Alone              *string `json:"alone"`
	Saves              *string `json:"saves"`
	LeavingCostsOthers *string `json:"leaving_costs_others"`
	Litres             float64 `json:"litres"`
}

// DocObjection is a group that would pay less by itself.
type DocObjection struct {
	Members []string `json:"members"`
	By      string   `json:"by"`
}

// DocSplit is the bill split by one rule.
type DocSplit struct {
	Rule           Rule           `json:"rule"`
	Pays           []DocPart      `json:"pays"` // by name
	Stable         bool           `json:"stable"`
	BetterOffAlone []DocObjection `json:"better_off_alone"`
}

// DocPart is one member's part. StandardError is there only where the part is
// estimated, in money.
type DocPart struct {
	Member        string   `json:"member"`
	Pays          string   `json:"pays"`
	StandardError *float64 `json:"standard_error,omitempty"`
}

// DocGroup is a group of members and its cost by itself, null when it has no
// plan of its own, or, where it is not proven, none was found in time.
type DocGroup struct {
	Members []string `json:"members"`
	Alone   *string  `json:"alone"`
	Pays    string   `json:"pays"`
	Proven  bool     `json:"proven"`
}

// DocApart is separate orders that come to less than the pooled one.
type DocApart struct {
	Orders [][]string `json:"orders"`
	Total  string     `json:"total"`
}

// DocHost is one site that takes delivery for all.
type DocHost struct {
	Site    string   `json:"site"`
	Members []string `json:"members"`
	Total   *string  `json:"total"`
	Saves   *string  `json:"saves"`
}

// NewDocument sets out a result, the rule asked for and the warnings of the
// job's report, which may be nil.
func NewDocument(res *Result, rule Rule, rep *quotes.Report) *Document {
	job := res.Plan.Job
	digits := job.Settings.CurrencyDigits
	text := func(m units.Money) string { return m.Text(digits) }
	maybe := func(m *units.Money) *string {
		if m == nil {
			return nil
		}
		t := m.Text(digits)
		return &t
	}
	d := &Document{
		Status: optimise.Infeasible, Currency: job.Settings.Currency, Rule: rule, Members: []DocMember{}, BetterOffAlone: []DocObjection{},
		Splits: []DocSplit{}, Groups: []DocGroup{}, Hosts: []DocHost{}, Warnings: optimise.DocumentWarnings(rep),
	}
	if res.Plan.Bill == nil {
		d.Infeasible = optimise.NewDocument(res.Plan, nil).Infeasible
		return d
	}
	d.Status = optimise.TimeLimit
	if res.Proven {
		d.Status = optimise.Optimal
	}
	d.Reason, d.Total, d.Exact = res.Chosen.Reason, text(res.Total), res.Exact
	objections := func(list []Objection) []DocObjection {
		out := []DocObjection{}
		for _, o := range list {
			out = append(out, DocObjection{o.Members, text(o.By)})
		}
		return out
	}
	for _, m := range res.Members {
		d.Members = append(d.Members, DocMember{m.Name, text(m.Pays), maybe(m.Alone), maybe(m.Saves), maybe(m.Leaving), units.Tidy(float64(m.Litres))})
	}
	d.Stable, d.BetterOffAlone = res.Chosen.Stable, objections(res.Chosen.Objections)
	for _, sp := range res.Splits {
		out := DocSplit{Rule: sp.Rule, Stable: sp.Stable, BetterOffAlone: objections(sp.Objections)}
		for i, pays := range sp.Pays {
			part := DocPart{Member: res.Members[i].Name, Pays: text(pays)}
			if sp.Error != nil {
				e := units.Tidy(sp.Error[i])
				part.StandardError = &e
			}
			out.Pays = append(out.Pays, part)
		}
		d.Splits = append(d.Splits, out)
	}
	for _, g := range res.Groups {
		d.Exact = d.Exact && !g.Unsettled()
		d.Groups = append(d.Groups, DocGroup{g.Members, maybe(g.Cost), text(g.Pays), g.Proven})
	}
	if res.Apart != nil {
		d.Apart = &DocApart{res.Apart.Orders, text(res.Apart.Total)}
	}
	for _, h := range res.Hosts {
		d.Hosts = append(d.Hosts, DocHost{h.Site, h.Members, maybe(h.Total), maybe(h.Saves)})
	}
	return d
}

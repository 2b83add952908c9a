// Package statement sets out a shared bill for those who pay it: one statement
// for each member, a page for the treasurer, and the treasurer's sections for a
// report on the whole purchase. The papers are pages of package page; each has a
// CSV beside it.
//
// Every amount comes from the [share.Result] as it stands, so papers made from
// the same result agree to the cent.
package statement

import (
	"fmt"
	"slices"
	"strings"

	"mediabuy/optimise/share"
	"mediabuy/papers/page"
	"mediabuy/papers/safe"
	"mediabuy/quotes"
	"mediabuy/units"
)

// Paper is one paper with the same as CSV.
type Paper struct {
	Name string // of its files, safe, without ending
	Page *page.Page
	CSV  []byte
}

// Papers are the treasurer's page and every member's statement. Members whose
// names would make the same file name get a number.
func Papers(res *share.Result, system units.System) []Paper {
	words := [][]string{{"treasurer"}}
	for _, m := range res.Members {
		words = append(words, []string{"statement", m.Name})
	}
	names := safe.FileNames(words)
	out := []Paper{{names[0], Treasurer(res, system), TreasurerCSV(res)}}
	for i := range res.Members {
		out = append(out, Paper{names[i+1], Member(res, i, system), MemberCSV(res, i)})
	}
	return out
}

// Width is how wide the papers are as plain text, in columns: a page of a
// printed letter.
const Width = 96

// Unproven is what stands at the head of every paper of a result that is not
// proven.
const Unproven = "Not proven: time was up for some of the orders compared, and a cheaper one may exist."

// scribe writes one result in words and cells.
type scribe struct {
	res    *share.Result
	system units.System
}

// newPage begins a paper.
func (s scribe) newPage(title, subtitle, foot string) *page.Page {
	set := s.res.Plan.Job.Settings
	p := &page.Page{Title: title, Subtitle: subtitle, Day: set.Date.Time, Foot: fmt.Sprintf("%s, prices of %s", foot, set.Date)}
	if !s.res.Proven {
		p.Alarm = Unproven
	}
	return p
}

// money is an amount with its currency.
func (s scribe) money(m units.Money) string {
	return units.FormatMoney(m, s.res.Plan.Job.Settings.Currency)
}

func (s scribe) moneyCell(m units.Money) page.Cell {
	return page.Num(s.money(m), m.Float(), s.res.Plan.Job.Settings.CurrencyDigits)
}

// maybeCell is an amount, or why there is none.
func (s scribe) maybeCell(m *units.Money, settled bool) page.Cell {
	switch {
	case m != nil:
		return s.moneyCell(*m)
	case settled:
		return page.Text("none")
	}
	return page.Text("not settled")
}

// moreOrLess is "$12.00 more" or "$12.00 less".
func (s scribe) moreOrLess(m units.Money) string {
	if m.Sign() < 0 {
		return s.money(m.Neg()) + " less"
	}
	return s.money(m) + " more"
}

// alone says how a member alone is priced where tables are shared, and nothing where
// none is. Told to one member it is said of a table that the member's own beds stand on;
// "" is all of them.
func (s scribe) alone(to string) string {
	on := map[string][]string{}
	for _, b := range s.res.Plan.Job.Beds {
		if b.Table == "" || b.Limit == nil {
			continue
		}
		for _, p := range b.Member {
			if !slices.Contains(on[b.Table], p.Member) {
				on[b.Table] = append(on[b.Table], p.Member)
			}
		}
	}
	for _, members := range on {
		if len(members) > 1 && (to == "" || slices.Contains(members, to)) {
			return AloneWords
		}
	}
	return ""
}

// AloneWords says in one sentence how a member alone is priced where a table is
// shared.
const AloneWords = "Where a table carries beds of several members, whoever orders alone is priced with only its part of the table's limit: what the table may carry beyond its frames is shared out by the volume that stands on it."

// unsettled reports whether the cost of a group alone is not known because time
// was up.
func (s scribe) unsettled(members []string) bool {
	return slices.ContainsFunc(s.res.Groups, func(g share.Group) bool {
		return g.Unsettled() && slices.Equal(g.Members, members)
	})
}

// others are all members but the i-th.
func (s scribe) others(i int) []string {
	var out []string
	for k, m := range s.res.Members {
		if k != i {
			out = append(out, m.Name)
		}
	}
	return out
}

// bedName is a bed, with how many there are of it.
func bedName(b *quotes.Bed) string {
	if b.Count > 1 {
		return fmt.Sprintf("%s × %d", b.Name, b.Count)
	}
	return b.Name
}

// bedNames lists a member's beds, with its part of those that are shared.
func bedNames(m share.Member) string {
	var out []string
	for _, b := range m.Beds {
		name := bedName(b.Bed)
		if len(b.Bed.Member) > 1 {
			name += " (" + percent(b.Share) + ")"
		}
		out = append(out, name)
	}
	return strings.Join(out, ", ")
}

func percent(f float64) string { return fmt.Sprintf("%.3g %%", 100*f) }

package web

import (
	"context"
	"fmt"
	"net/http"

	"mediabuy/optimise/breakeven"
	"mediabuy/papers/chart"
	"mediabuy/web/internal/desk"
	"mediabuy/web/internal/figure"
)

// rulesView is what each rule, limit and supplier is worth.
type rulesView struct{ Groups []ruleGroup }

type ruleGroup struct {
	Name    string
	Note    string
	Switch  bool // a rule that can be switched off to see
	Choices []ruleView
}

// ruleView is one change of the job and what it comes to.
type ruleView struct {
	ID, Name, Total, Against, Buy string
	Cheaper                       bool
}

// rulesPart says what each rule costs.
func (h *Handler) rulesPart(w http.ResponseWriter, r *http.Request) error {
	a, err := h.planned(r)
	if err != nil {
		return err
	}
	plan, err := h.today(r.Context(), a)
	if err != nil {
		return err
	}
	what, err := desk.Remember(r.Context(), &a.More, "rules", func(ctx context.Context) (*breakeven.WhatIf, error) {
		return breakeven.LookElsewhere(ctx, a.Job, plan, nil, breakeven.Options{TimeLimit: h.desk.Search(a.Job).TimeLimit})
	})
	if err != nil {
		return err
	}
	sc := h.scribe(r, a.Job)
	v := rulesView{Groups: []ruleGroup{
		{Name: "Rules of the beds", Switch: true, Note: "A rule switched off here is off for this question only; the files stay as they are. Rules keep plants, fish and frames safe.", Choices: others(sc, "rule", what.Rules)},
		{Name: "More weight allowed", Switch: true, Note: "What a stronger frame would be worth.", Choices: others(sc, "limit", what.Limits)},
		{Name: "Without a supplier", Choices: others(sc, "without", what.LeaveOut)},
	}}
	return h.apart(w, r, a, "What does each rule cost?", "/ask", "part/rules", v)
}

func others(s figure.Scribe, kind string, list []breakeven.Other) []ruleView {
	var out []ruleView
	for i, o := range list {
		v := ruleView{ID: fmt.Sprintf("%s-%d", kind, i), Name: chart.ChangeWords(o.Name, s.System)}
		switch {
		case o.NoAnswer:
			v.Against = "not known: time was up"
		case o.Infeasible:
			v.Against = "nothing fills the beds then"
		default:
			v.Total, v.Buy, v.Cheaper = s.Money(o.Total), breakeven.BuyWords(o.Buy), o.Difference.Sign() < 0
			v.Against = s.More(o.Difference)
			if o.Unproven {
				v.Against += ", best found"
			}
		}
		out = append(out, v)
	}
	return out
}

package web

import (
	"context"
	"net/http"

	"mediabuy/optimise/risk"
	"mediabuy/papers/chart"
	"mediabuy/web/internal/desk"
	"mediabuy/web/internal/figure"
)

// surenessView is cost against sureness: its drawing and each purchase on it.
type surenessView struct {
	Words string
	Chart *figure.Chart // nil where time was up before there was anything to draw
	Rows  []sureView
}

type sureView struct {
	Cases, Cost, More, InAll, Buy string
	Chosen, Worth                 bool
}

// filledView is how sure the plan fills every bed.
type filledView struct {
	Words string
	Warns bool
}

// filledPart says in how many cases the plan fills every bed, which is one assessment and
// so stands beside the plan at once.
func (h *Handler) filledPart(w http.ResponseWriter, r *http.Request) error {
	a, err := h.planned(r)
	if err != nil {
		return err
	}
	report, err := h.filled(r.Context(), a)
	if err != nil {
		return err
	}
	v := filledView{Words: "How sure it fills every bed was not worked out in time."}
	if report != nil {
		sc := h.scribe(r, a.Job)
		v = filledView{Words: report.Words(sc.Money, sc.Volume) + report.BudgetWords(a.Plan, sc.Money), Warns: report.Sure < risk.FairlySure}
	}
	return h.apart(w, r, a, "How sure it fills every bed", "/", "part/filled", v)
}

// filled is how sure the plan fills every bed; nil where that was not worked out in time.
func (h *Handler) filled(ctx context.Context, a *desk.Answer) (*risk.Report, error) {
	return desk.Remember(ctx, &a.More, "filled", func(ctx context.Context) (*risk.Report, error) {
		return risk.Assessed(ctx, a.Reached, risk.AssessLimit(h.desk.Search(a.Job).TimeLimit, 0))
	})
}

// surenessPart sets cost against sureness, which takes a dozen searches.
func (h *Handler) surenessPart(w http.ResponseWriter, r *http.Request) error {
	a, err := h.planned(r)
	if err != nil {
		return err
	}
	c, err := desk.Remember(r.Context(), &a.More, "sureness", func(ctx context.Context) (*risk.Curve, error) {
		report, err := h.filled(ctx, a)
		if err != nil {
			return nil, err
		}
		return risk.NewCurve(ctx, a.Job, a.Plan, report, h.desk.Search(a.Job))
	})
	if err != nil {
		return err
	}
	sc := h.scribe(r, a.Job)
	v := surenessView{Words: c.Words(sc.Money)}
	worth := c.Worth()
	for i, p := range c.Points {
		row := sureView{Cases: p.Cases(), Cost: sc.Money(p.Total()), More: sc.More(p.Total().Sub(a.Plan.Bill.Total)), InAll: "not known", Buy: p.Bought(), Chosen: p.Chosen, Worth: i == worth}
		if m, ok := p.InAll(); ok {
			row.InAll = sc.Money(m)
		}
		v.Rows = append(v.Rows, row)
	}
	if i := c.Chosen(); i >= 0 {
		p := chart.OfCurve(a.Job.Settings.Currency, c)
		x := p.Lines[0].X
		drawing := figure.Draw(p, figure.Span{Lo: x[0], Hi: x[len(x)-1]}, 100*c.Points[i].Sure, v.Words)
		drawing.DotWords = "The dot is the plan."
		v.Chart = &drawing
	}
	return h.apart(w, r, a, "What more sureness costs", "/", "part/sureness", v)
}

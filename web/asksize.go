package web

import (
	"context"
	"fmt"
	"math"
	"net/http"
	"slices"
	"strconv"

	"mediabuy/optimise"
	"mediabuy/optimise/breakeven"
	"mediabuy/papers/chart"
	"mediabuy/units"
	"mediabuy/web/internal/desk"
	"mediabuy/web/internal/figure"
	"mediabuy/web/internal/refusal"
)

// sizeView is the whole job made larger or smaller.
type sizeView struct {
	Factor   string
	Sentence string
	Buy      string
	Flipped  bool          // other suppliers than today's
	Chart    *figure.Chart // nil until the script asks: it takes a dozen searches
	Changes  []string      // where the suppliers change
}

// Bounds of the size of a job that is asked about, in its own size.
const (
	leastSize = 0.1
	mostSize  = 4
)

func (h *Handler) sizePart(w http.ResponseWriter, r *http.Request) error {
	ctx, done := h.desk.Newest(r.Context(), lane(r, "size"))
	defer done()
	r = r.WithContext(ctx)
	a, err := h.planned(r)
	if err != nil {
		return err
	}
	v, err := h.size(r, a, r.URL.Query().Get("factor"), true)
	if err != nil {
		return err
	}
	render(w, http.StatusOK, "part/size", v)
	return nil
}

// size solves the job at another size, and draws its cost over the size if asked to.
func (h *Handler) size(r *http.Request, a *desk.Answer, factor string, draw bool) (*sizeView, error) {
	f, err := strconv.ParseFloat(factor, 64)
	if err != nil || !(f >= leastSize && f <= mostSize) {
		return nil, refusal.New(http.StatusBadRequest, fmt.Sprintf("the size %q is not from %g to %g", factor, leastSize, float64(mostSize)), "1 is the job as it is")
	}
	sc := h.scribe(r, a.Job)
	v := &sizeView{Factor: strconv.FormatFloat(f, 'f', -1, 64)}
	plan := a.Plan
	if f != 1 {
		plan, err = desk.Remember(r.Context(), &a.More, "size "+v.Factor, func(ctx context.Context) (*optimise.Plan, error) {
			job := breakeven.Scaled(a.Job, f)
			job.Settings.Budget = nil
			return optimise.Solve(ctx, job, h.desk.Search(job))
		})
		if err != nil {
			return nil, err
		}
	}
	if plan.Bill == nil {
		v.Sentence = fmt.Sprintf("At %s times the size no mix of these quotes can satisfy the beds.", v.Factor)
		return v, nil
	}
	litres := plan.Job.Demand()
	name, per := sc.Per()
	each := units.MoneyOf(units.DecimalOf(plan.Bill.Total.Float() * float64(per/litres)))
	v.Sentence = fmt.Sprintf("At %s times the size, %s, the job costs %s: %s per %s, from %s.", v.Factor, sc.Volume(litres), sc.Money(plan.Bill.Total), sc.PerMoney(each), name, units.Listed(plan.Bill.Suppliers()))
	if f == 1 {
		v.Sentence = fmt.Sprintf("As it is, %s, the job costs %s: %s per %s, from %s.", sc.Volume(litres), sc.Money(plan.Bill.Total), sc.PerMoney(each), name, units.Listed(plan.Bill.Suppliers()))
	}
	if plan.Status != optimise.Optimal {
		v.Sentence += " Not proven: time was up."
	}
	v.Buy, v.Flipped = breakeven.BuyWords(breakeven.BoughtOf(plan.Purchase)), !slices.Equal(plan.Bill.Suppliers(), a.Plan.Bill.Suppliers())
	if !draw {
		return v, nil
	}
	return v, h.sizes(r, a, sc, v, f)
}

// sizes draws the job's cost over its size, and says between which sizes the
// suppliers change.
func (h *Handler) sizes(r *http.Request, a *desk.Answer, sc figure.Scribe, v *sizeView, f float64) error {
	today, err := h.today(r.Context(), a)
	if err != nil {
		return err
	}
	if today.Status != optimise.Optimal {
		return nil // the sentence is all that can be said
	}
	all, err := desk.Remember(r.Context(), &a.More, "sizes", func(ctx context.Context) (*breakeven.Sizes, error) {
		return breakeven.BySize(ctx, a.Job, today, breakeven.Options{TimeLimit: h.desk.Search(a.Job).TimeLimit})
	})
	if err != nil {
		return err
	}
	p := chart.Panel{Title: "Least cost by the size of the job", XWords: "size of the job, in times that of today", YWords: "least cost of the whole job, " + sc.Code}
	line := chart.Line{Name: "cheapest buy"}
	for _, s := range all.Sizes {
		if !s.Infeasible && !s.NoAnswer {
			line.X, line.Y = append(line.X, s.Factor), append(line.Y, s.Total.Float())
		}
	}
	if len(line.X) == 0 {
		return nil
	}
	p.Lines = []chart.Line{line}
	p.Marks = []chart.Mark{{X: 1, Label: "today", Today: true}}
	for _, c := range all.Changes {
		p.Marks = append(p.Marks, chart.Mark{X: c.To, Y: onLine(line, c.To), Label: suppliersWords(c.Above) + " instead of " + suppliersWords(c.Below)})
		v.Changes = append(v.Changes, fmt.Sprintf("%s: %s instead of %s", betweenWords(c.From, c.To), suppliersWords(c.Above), suppliersWords(c.Below)))
	}
	drawing := figure.Draw(p, figure.Span{Lo: leastSize, Hi: mostSize}, f, v.Sentence)
	v.Chart = &drawing
	return nil
}

// betweenWords says between which sizes something changes, in whole percents that hold both.
func betweenWords(from, to float64) string {
	const slip = 1e-9 // what binary fractions add to a whole percent is no part of it
	return fmt.Sprintf("between %.0f and %.0f %% of the size", math.Floor(100*from+slip), math.Ceil(100*to-slip))
}

// onLine is the height of a line at x, which lies between two of its points.
func onLine(l chart.Line, x float64) float64 {
	i, _ := slices.BinarySearch(l.X, x)
	switch {
	case i == 0:
		return l.Y[0]
	case i == len(l.X):
		return l.Y[i-1]
	}
	return l.Y[i-1] + (l.Y[i]-l.Y[i-1])*(x-l.X[i-1])/(l.X[i]-l.X[i-1])
}

func suppliersWords(names []string) string {
	if len(names) == 0 {
		return "nobody, as nothing fills the beds"
	}
	return units.Listed(names)
}

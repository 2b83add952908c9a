package web

import (
	"cmp"
	"context"
	"fmt"
	"html/template"
	"net/http"
	"slices"
	"strings"
	"time"

	"mediabuy/optimise"
	"mediabuy/optimise/bill"
	"mediabuy/optimise/risk"
	"mediabuy/optimise/suitability"
	"mediabuy/papers/caution"
	"mediabuy/quotes"
	"mediabuy/quotes/files"
	"mediabuy/units"
	"mediabuy/web/internal/begin"
	"mediabuy/web/internal/desk"
	"mediabuy/web/internal/figure"
	"mediabuy/web/internal/refusal"
	"mediabuy/web/internal/typing"
)

// patience is how long a page waits for its answer before it is sent without: a
// page should stand within a third of a second, and the script fetches the answer
// when it is there.
const patience = 200 * time.Millisecond

// saved is the answer to the files as they are, waited for as long as wait says;
// 0 is until the request ends.
func (h *Handler) saved(ctx context.Context, wait time.Duration) (*desk.Answer, error) {
	t, err := h.folder.Read()
	if err != nil {
		return nil, err
	}
	return h.desk.Ask(ctx, t, true, wait)
}

// seeView is the whole answer.
type seeView struct {
	frame
	Strip  strip
	Answer answerView
}

func (h *Handler) seePage(w http.ResponseWriter, r *http.Request) error {
	if !h.opt.ReadOnly {
		t, err := h.folder.Read()
		if err != nil {
			return err
		}
		if begin.Empty(t) {
			h.startPage(w, r, t)
			return nil
		}
	}
	a, err := h.saved(r.Context(), patience)
	if err != nil {
		return err
	}
	v := seeView{frame: h.frameOf(r, a, "Answer", "/"), Strip: h.strip(r, a, nil), Answer: h.answerView(r, a)}
	v.Busy = !a.Done()
	render(w, http.StatusOK, "see", v)
	return nil
}

func (h *Handler) answerPart(w http.ResponseWriter, r *http.Request) error {
	a, err := h.saved(r.Context(), 0)
	if err != nil {
		return err
	}
	render(w, http.StatusOK, "part/answer", h.answerView(r, a))
	return nil
}

// answerView is the answer in words, one part below the other.
type answerView struct {
	Busy     bool
	Problems []typing.Problem
	Warnings []typing.Problem
	Failed   string
	Plan     *planView // nil without a bill
	Why      []string  // of an infeasible job
	Bars     *figure.Bars
	Refused  []refusedView
	NoQuotes bool // beds are there and no quote yet
}

// planView is a plan with its bill.
type planView struct {
	Verdict  string
	Warns    bool // time was up for what was asked
	Lines    []lineView
	Sites    bool // more than one, so that lines say theirs
	More     []string
	Bill     []billView
	Total    string
	Beds     []figure.Bed
	Tables   []figure.Gauge
	Key      []figure.Key
	Leftover []string
	Cautions []caution.Caution
	Stone    string // whose weights stand against the limits
	Sure     bool   // the job asks for a sureness
}

type lineView struct{ Supplier, Quote, Item, Packs, Each, Break, Site, Goods string }

type billView struct{ Part, What, Money string }

func (h *Handler) answerView(r *http.Request, a *desk.Answer) answerView {
	if !a.Done() {
		return answerView{Busy: true}
	}
	rep, fit := h.spoken(r.Context(), a, h.system(r, a))
	v := answerView{Problems: typing.Problems(a.Texts, rep.Problems), Warnings: typing.Problems(a.Texts, rep.Warnings), NoQuotes: begin.Rowless(a.Texts, files.QuotesFile)}
	if a.Err != nil {
		v.Failed = errorWords(a.Err)
	}
	if a.Job == nil {
		return v
	}
	sc := h.scribe(r, a.Job)
	v.Bars = figure.BarsOf(a.Job, a.Plan, sc)
	if a.Plan == nil {
		return v
	}
	v.Refused = refusals(fit, a.Job)
	if a.Plan.Bill == nil {
		v.Why = sc.Obstacles(a.Plan)
		return v
	}
	v.Plan = h.planView(a.Reached, sc)
	return v
}

// saidOf is what an answer says of its files in another habit of units.
type saidOf struct {
	rep *quotes.Report
	fit *suitability.Fit
}

// spoken is the report on the files and what each quote may go into, in the habit of
// units that a request asks for: where that is not the answer's own the files are read
// once more, which changes words and no figure. The fit is nil without a plan.
func (h *Handler) spoken(ctx context.Context, a *desk.Answer, sys units.System) (*quotes.Report, *suitability.Fit) {
	own := saidOf{rep: a.Rep}
	if waiting(a) { // the view says what comes next, and there is nothing to mend
		own.rep = &quotes.Report{Warnings: a.Rep.Warnings}
	}
	if a.Plan != nil {
		own.fit = a.Plan.Fit
	}
	if a.Job == nil || sys == a.Job.Settings.Speaks() {
		return own.rep, own.fit
	}
	other, err := desk.Remember(ctx, &a.More, fmt.Sprint("spoken ", sys), func(context.Context) (saidOf, error) {
		reading := h.desk.Reading()
		reading.Reader = &sys
		job, rep, err := files.Read(a.Texts.Files(), reading)
		if err != nil || job == nil {
			return own, err // what was read before is read no longer: the next request says so
		}
		return saidOf{rep, suitability.New(job)}, nil
	})
	if err != nil || own.fit == nil {
		return cmp.Or(other.rep, own.rep), own.fit
	}
	return other.rep, other.fit
}

func (h *Handler) planView(reached *risk.Reached, sc figure.Scribe) *planView {
	p := reached.Plan
	litres, beds := p.Job.Demand(), p.Job.BedCount()
	v := &planView{Sites: len(quotes.Sites(p.Job)) > 1, Total: sc.Money(p.Bill.Total)}
	v.Verdict = fmt.Sprintf("%s of media for %s, from %s.", sc.Volume(litres), units.Several(beds, "bed"), units.Several(len(p.Bill.Suppliers()), "supplier"))
	proof, warns := reached.Proof(sc.Money)
	v.Verdict, v.Warns = strings.TrimSpace(v.Verdict+" "+proof+" "+optimise.BudgetWords(p.Job, p.Bill.Total, sc.Money)), warns
	lines := slices.Clone(p.Bill.Lines)
	slices.SortStableFunc(lines, func(a, b bill.Line) int { return strings.Compare(a.Quote.Supplier, b.Quote.Supplier) })
	for _, l := range lines {
		reached := ""
		if !l.BreakFrom.IsZero() {
			reached = "from " + l.BreakFrom.String()
			if l.Quote.BreakKind == quotes.Incremental {
				reached += ", average"
			}
		}
		v.Lines = append(v.Lines, lineView{l.Quote.Supplier, l.Quote.Name, l.Quote.ItemWords(), l.Quote.PacksWords(l.Packs), sc.Price(l.PackPrice), reached, l.Site, sc.Money(l.Goods)})
	}
	v.Bill = append(v.Bill, billView{"Goods", "", sc.Money(p.Bill.Goods)})
	for _, d := range p.Bill.Drops {
		v.Bill = append(v.Bill, billView{"Delivery", d.Words(), sc.Money(d.Fee)})
	}
	if !p.Bill.Tax.IsZero() {
		v.Bill = append(v.Bill, billView{"Tax", "", sc.Money(p.Bill.Tax)})
	}
	if !p.Bill.Rinsing.IsZero() {
		v.Bill = append(v.Bill, billView{"Rinsing", "your own time", sc.Money(p.Bill.Rinsing)})
	}
	v.Beds, v.Key = sc.Beds(p)
	v.Tables = sc.Gauges(p)
	v.Sure = p.Job.Settings.Sure > 0
	v.Stone = "heavy stone"
	if p.Job.Settings.Weights == quotes.UsualWeights {
		v.Stone = "stone of usual weight"
	}
	for _, l := range p.Leftover {
		words := l.Quote.Name + ": " + sc.Volume(l.Litres)
		if l.Site != "" {
			words += " at " + l.Site
		}
		v.Leftover = append(v.Leftover, words)
	}
	if h.opt.Advise != nil {
		v.More, v.Cautions = h.opt.Advise(p, sc.System)
	}
	return v
}

// waysView is what the plan saves against plainer ways to buy.
type waysView struct {
	Rows []wayView
	Tidy string // which of them is plainer and costs little more; "" for none
}

type wayView struct{ Name, Total, Against string }

// waysPart sets the plan against plainer ways to buy.
func (h *Handler) waysPart(w http.ResponseWriter, r *http.Request) error {
	a, err := h.saved(r.Context(), 0)
	if err != nil {
		return err
	}
	if a.Plan == nil || a.Plan.Bill == nil {
		return errNoPlan
	}
	list, err := desk.Remember(r.Context(), &a.More, "ways", func(ctx context.Context) ([]optimise.Alternative, error) {
		return optimise.Alternatives(ctx, a.Job, h.desk.Search(a.Job))
	})
	if err != nil {
		return err
	}
	sc, v := h.scribe(r, a.Job), waysView{}
	for _, o := range list {
		row := wayView{Name: o.Name, Against: "cannot fill the beds"}
		if o.Plan.Status == optimise.TimeLimit {
			row.Against = "not settled in time"
		}
		if b := o.Plan.Bill; b != nil {
			if from := b.Suppliers(); len(from) == 1 {
				row.Name += " (" + from[0] + ")"
			}
			row.Total, row.Against = sc.Money(b.Total), sc.More(b.Total.Sub(a.Plan.Bill.Total))
			if optimise.OverBudget(a.Job, b.Total) {
				row.Against += ", over the budget"
			}
			if o.Plan.Status != optimise.Optimal {
				row.Against += ", best found"
			}
		}
		v.Rows = append(v.Rows, row)
	}
	if t := risk.Tidiest(a.Reached, list, risk.TidyWithin); t.Way != "" && risk.PainsOf(t.Plan) != risk.PainsOf(a.Plan) {
		v.Tidy = t.Words(sc.Money)
	}
	return h.apart(w, r, a, "Against plainer ways to buy", "/", "part/ways", v)
}

// apart sends a fragment to the script that asks for it, and to a browser without
// scripts a page of its own.
func (h *Handler) apart(w http.ResponseWriter, r *http.Request, a *desk.Answer, title, here, name string, data any) error {
	if wantsJSON(r) {
		render(w, http.StatusOK, name, data)
		return nil
	}
	body, err := fragment(name, data)
	if err != nil {
		return err
	}
	render(w, http.StatusOK, "apart", struct {
		frame
		Strip strip
		Body  template.HTML // of a template, which has escaped what is in it
	}{h.frameOf(r, a, title, here), h.strip(r, a, nil), template.HTML(body)})
	return nil
}

// errNoPlan is the answer to questions about a plan that is not there.
var errNoPlan = refusal.New(http.StatusConflict, "there is no plan to ask about", "the answer says what stands in the way")

package web

import (
	"context"
	"errors"
	"fmt"
	"io"
	"net/http"

	"mediabuy/optimise"
	"mediabuy/optimise/breakeven"
	"mediabuy/quotes/files"
	"mediabuy/units"
	"mediabuy/web/internal/begin"
	"mediabuy/web/internal/desk"
	"mediabuy/web/internal/typing"
)

// strip is the answer in a few words, which stands above every view.
type strip struct {
	Busy     bool
	Total    string
	Proof    string
	Against  string // what a change of the files made of it; "" for nothing
	Buy      string
	Alarm    string // why there is no total
	Problems int
	First    string // the view of the first problem
	Waiting  bool   // beds are there, and no quote yet
	Warnings int
	Draft    bool // it is of what is being typed and not of what is saved
}

// strip says an answer in a few words. before is the answer of the files as saved,
// to tell a draft's difference; nil for none.
func (h *Handler) strip(r *http.Request, a, before *desk.Answer) strip {
	var s strip
	if !a.Done() {
		s.Busy = true
		return s
	}
	s.Problems, s.Warnings = len(a.Rep.Problems), len(a.Rep.Warnings)
	switch {
	case waiting(a):
		s.Problems, s.Waiting, s.Alarm = 0, true, "No quote is there yet"
		return s
	case s.Problems > 0:
		s.Alarm = units.Several(s.Problems, "problem") + " to mend before there is an answer"
		s.First = (&typing.Finder{Texts: a.Texts}).Link(a.Rep.Problems[0])
		return s
	case a.Err != nil:
		s.Alarm = errorWords(a.Err)
		return s
	case a.Plan.Bill == nil:
		s.Alarm = "No mix of these quotes can satisfy the beds"
		return s
	}
	sc := h.scribe(r, a.Job)
	s.Total, s.Buy = sc.Money(a.Plan.Bill.Total), breakeven.BuyWords(breakeven.BoughtOf(a.Plan.Purchase))
	switch sure := a.Job.Settings.Sure; {
	case proven(a):
		s.Proof = "proven cheapest"
	case sure > 0 && !a.Reached.Met:
		s.Proof = "the surest found in the time, not as sure as asked for"
	case sure > 0 && a.Reached.Above().Sign() > 0:
		s.Proof = fmt.Sprintf("cheapest found that is %.3g %% sure", 100*sure)
	default:
		s.Proof = "not proven: at most " + sc.Money(a.Plan.Gap()) + " could still be saved"
	}
	if before != nil && before.Done() && before.Plan != nil && before.Plan.Bill != nil && before.Job.Settings.Currency == sc.Code {
		s.Against = sc.More(a.Plan.Bill.Total.Sub(before.Plan.Bill.Total)) + " than saved"
		if a.Plan.Bill.Total.Equal(before.Plan.Bill.Total) {
			s.Against = "the same total as saved"
		}
	}
	return s
}

// waiting reports whether a job lacks nothing but its quotes, which is no fault of its files.
func waiting(a *desk.Answer) bool {
	return a.Done() && len(a.Rep.Problems) == 1 && a.Rep.Problems[0].File == files.QuotesFile && begin.Rowless(a.Texts, files.QuotesFile) && !begin.Rowless(a.Texts, files.BedsFile)
}

// proven reports whether the plan is proven the cheapest of all that the job asks for.
func proven(a *desk.Answer) bool {
	if a.Job.Settings.Sure > 0 && (!a.Reached.Met || a.Reached.Above().Sign() > 0) {
		return false
	}
	return a.Plan.Status == optimise.Optimal
}

// errorWords is an error as a sentence on the page.
func errorWords(err error) string {
	switch {
	case errors.Is(err, optimise.ErrNoPurchase):
		return "Time was up before any purchase was found; give the job a longer time_limit"
	case errors.Is(err, context.Canceled), errors.Is(err, desk.ErrSuperseded):
		return "The search was stopped, as the files have changed"
	}
	return err.Error()
}

// stripPart is the strip by itself, once the answer is there.
func (h *Handler) stripPart(w http.ResponseWriter, r *http.Request) error {
	a, err := h.saved(r.Context(), 0)
	if err != nil {
		return err
	}
	render(w, http.StatusOK, "part/strip", h.strip(r, a, nil))
	return nil
}

// statePart names the files as they are now, for a page that was left open to see
// whether it still shows them.
func (h *Handler) statePart(w http.ResponseWriter, _ *http.Request) error {
	t, err := h.folder.Read()
	if err != nil {
		return err
	}
	w.Header().Set("Content-Type", "text/plain; charset=utf-8")
	_, _ = io.WriteString(w, t.Key()) // as in render
	return nil
}

package web

import (
	"context"
	"errors"
	"io"
	"net/http"

	"mediabuy/optimise"
	"mediabuy/units"
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
	Warnings int
	Draft    bool // it is of what is being typed and not of what is saved
}

// strip says an answer in a few words. before is the answer of the files as saved,
// to tell a draft's difference; nil for none.
func (h *Handler) strip(r *http.Request, a, before *answer) strip {
	var s strip
	if !a.done() {
		s.Busy = true
		return s
	}
	s.Problems, s.Warnings = len(a.rep.Problems), len(a.rep.Warnings)
	switch {
	case s.Problems > 0:
		s.Alarm = units.Several(s.Problems, "problem") + " to mend before there is an answer"
		s.First = (&finder{texts: a.texts}).link(a.rep.Problems[0])
		return s
	case a.err != nil:
		s.Alarm = errorWords(a.err)
		return s
	case a.plan.Bill == nil:
		s.Alarm = "No mix of these quotes can satisfy the beds"
		return s
	}
	sc := h.scribe(r, a.job)
	s.Total, s.Buy = sc.money(a.plan.Bill.Total), buyWords(a.plan.Bill.Lines)
	s.Proof = "proven cheapest"
	if a.plan.Status != optimise.Optimal {
		s.Proof = "not proven: at most " + sc.money(a.plan.Gap()) + " could still be saved"
	}
	if before != nil && before.done() && before.plan != nil && before.plan.Bill != nil && before.job.Settings.Currency == sc.code {
		s.Against = sc.more(a.plan.Bill.Total.Sub(before.plan.Bill.Total)) + " than saved"
		if a.plan.Bill.Total.Equal(before.plan.Bill.Total) {
			s.Against = "the same total as saved"
		}
	}
	return s
}

// errorWords is an error as a sentence on the page.
func errorWords(err error) string {
	switch {
	case errors.Is(err, optimise.ErrNoPurchase):
		return "Time was up before any purchase was found; give the job a longer time_limit"
	case errors.Is(err, context.Canceled), errors.Is(err, errSuperseded):
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
	t, err := h.folder.read()
	if err != nil {
		return err
	}
	w.Header().Set("Content-Type", "text/plain; charset=utf-8")
	_, _ = io.WriteString(w, t.key()) // as in render
	return nil
}

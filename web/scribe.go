package web

import (
	"cmp"
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"mediabuy/quotes"
	"mediabuy/units"
	"mediabuy/web/internal/desk"
	"mediabuy/web/internal/figure"
	"mediabuy/web/internal/refusal"
)

const unitsCookie = "mediabuy-units"

// unitsWord is the system of units that a request shows: what this browser chose,
// what the caller set, or that of the currency ("" means that it is not known yet).
func (h *Handler) unitsWord(r *http.Request, currency string) string {
	if word := chosenUnits(r); word != "" {
		return word
	}
	sys := units.Metric
	switch {
	case h.opt.Units != nil:
		sys = *h.opt.Units
	default: // a job that says nothing is in USD
		sys = (&quotes.Settings{Currency: cmp.Or(currency, h.desk.Currency(), "USD")}).System()
	}
	if sys == units.US {
		return "us"
	}
	return "metric"
}

// chosenUnits is the system that this browser chose; "" if none.
func chosenUnits(r *http.Request) string {
	if c, err := r.Cookie(unitsCookie); err == nil && (c.Value == "us" || c.Value == "metric") {
		return c.Value
	}
	return ""
}

// scribe is how a request wants numbers written for a job.
func (h *Handler) scribe(r *http.Request, job *quotes.Job) figure.Scribe {
	s := figure.Scribe{System: units.Metric, Code: job.Settings.Currency}
	if h.unitsWord(r, s.Code) == "us" {
		s.System = units.US
	}
	return s
}

// system is the habit of units that a request asks for.
func (h *Handler) system(r *http.Request, a *desk.Answer) units.System {
	if a.Job == nil {
		return units.US // nothing is said of a job that is not there
	}
	return h.scribe(r, a.Job).System
}

// chooseUnits remembers the units chosen in this browser.
func (h *Handler) chooseUnits(w http.ResponseWriter, r *http.Request) error {
	if err := readPost(r); err != nil {
		return err
	}
	word := r.PostForm.Get("units")
	if word != "us" && word != "metric" {
		return refusal.New(http.StatusBadRequest, fmt.Sprintf("units %q are not a choice", word), "choose us or metric")
	}
	http.SetCookie(w, &http.Cookie{Name: unitsCookie, Value: word, Path: "/", HttpOnly: true, SameSite: http.SameSiteStrictMode, MaxAge: 365 * 24 * 3600})
	http.Redirect(w, r, back(r), http.StatusSeeOther)
	return nil
}

// back is the view that a form was sent from: a path of this page, whatever the
// form says.
func back(r *http.Request) string {
	u, err := url.Parse(r.PostForm.Get("back"))
	if err != nil || !slices.ContainsFunc(places, func(p place) bool { return p.Path == u.Path || strings.HasPrefix(u.Path, p.Path+"/") && p.Path != "/" }) {
		return "/"
	}
	return (&url.URL{Path: u.Path}).String()
}

// place is one entry of the navigation.
type place struct{ Path, Name string }

// places are the views, in the order of the work.
var places = []place{{"/", "Answer"}, {"/edit", "Files"}, {"/paste", "Paste"}, {"/ask", "Ask"}, {"/papers", "Papers"}, {"/receive", "Receive"}}

// Places are the entries of the navigation, for the template.
func (frame) Places() []place { return places }

// Current reports whether the view is under an entry of the navigation.
func (f frame) Current(p place) bool {
	return f.Here == p.Path || p.Path != "/" && strings.HasPrefix(f.Here, p.Path+"/")
}

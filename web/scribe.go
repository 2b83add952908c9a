package web

import (
	"cmp"
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"mediabuy/optimise/bill"
	"mediabuy/papers"
	"mediabuy/quotes"
	"mediabuy/units"
	"mediabuy/web/internal/desk"
	"mediabuy/web/internal/refusal"
)

// scribe writes numbers in the reader's habit.
type scribe struct {
	units.System
	code string // currency
}

func (s scribe) money(m units.Money) string        { return units.FormatMoney(m, s.code) }
func (s scribe) volume(v units.Litres) string      { return units.FormatVolume(v, s.System) }
func (s scribe) length(v units.Millimetres) string { return units.FormatLength(v, s.System) }
func (s scribe) style() papers.Style {
	return papers.Style{Units: s.System, Letter: papers.LetterFor(s.code)}
}
func (s scribe) per() (name string, v units.Litres) { return perOf(s.System) }

// mass is a weight in pounds or kilograms, never in tons, so that weights held
// against one another read alike.
func (s scribe) mass(m units.Kilograms) string {
	if s.System == units.US {
		return fmt.Sprintf("%.0f lb", float64(m/units.Pound))
	}
	return fmt.Sprintf("%.0f kg", float64(m))
}

// perOf is the volume that money is compared for: big enough to be told in cents.
func perOf(sys units.System) (string, units.Litres) {
	if sys == units.US {
		return "yd³", units.CubicYard
	}
	return "m³", units.CubicMetre
}

// more says a difference of money: "$12.00 more", "$3.00 less".
func (s scribe) more(m units.Money) string {
	switch {
	case m.Sign() > 0:
		return s.money(m) + " more"
	case m.Sign() < 0:
		return s.money(m.Neg()) + " less"
	}
	return "no difference"
}

const unitsCookie = "mediabuy-units"

// unitsWord is the system of units that a request shows: what this browser chose,
// what the caller set, or that of the currency ("" means that it is not known yet).
func (h *Handler) unitsWord(r *http.Request, currency string) string {
	if c, err := r.Cookie(unitsCookie); err == nil && (c.Value == "us" || c.Value == "metric") {
		return c.Value
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

// scribe is how a request wants numbers written for a job.
func (h *Handler) scribe(r *http.Request, job *quotes.Job) scribe {
	s := scribe{System: units.Metric, code: job.Settings.Currency}
	if h.unitsWord(r, s.code) == "us" {
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

// sentence is words of an error as a sentence on the page.
func sentence(words string) string {
	first, size := utf8.DecodeRuneInString(words)
	return string(unicode.ToUpper(first)) + words[size:] + "."
}

// packWords is an amount of packs: "5.5 × 1 short ton", "40 × 50 L bag".
func packWords(q *quotes.Quote, n units.Decimal) string {
	words := n.String() + " × " + strings.TrimSpace(q.Pack.Raw)
	switch q.Form {
	case quotes.Bag:
		words += " bag"
	case quotes.Sack:
		words += " sack"
	}
	return words
}

// itemWords is what is bought: the yard's words and the medium.
func itemWords(q *quotes.Quote) string {
	if q.Item != "" && !strings.EqualFold(q.Item, q.Medium.Name) {
		return q.Item + " (" + q.Medium.Name + ")"
	}
	return q.Medium.Name
}

// buyWords is a purchase in one line, by names of quotes.
func buyWords(lines []bill.Line) string {
	var out []string
	for _, l := range lines {
		out = append(out, l.Packs.String()+" "+l.Quote.Name)
	}
	return strings.Join(out, ", ")
}

package suitability

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"mediabuy/quotes"
	"mediabuy/units"
)

// Rule is the rule by which a quote is refused for a layer.
type Rule string

// The rules of suitability.
const (
	RuleMinSize     Rule = "min_size"
	RuleMaxSize     Rule = "max_size"
	RuleCarbonate   Rule = "carbonate"
	RuleBreaksDown  Rule = "breaks_down"
	RuleTop         Rule = "top"
	RuleOnly        Rule = "only"
	RuleAvoid       Rule = "avoid"
	RuleDate        Rule = "date"
	RuleUnknownSize Rule = "unknown_size"
)

// Refusal is one quote kept out of one layer by one rule, with the reason in
// words and the two things compared.
type Refusal struct {
	Quote  *quotes.Quote
	Bed    *quotes.Bed
	Layer  quotes.Layer
	Rule   Rule
	Reason string
}

// Reason is a rule broken, before it is tied to a bed's name.
type Reason struct {
	Rule Rule
	Text string
}

// Compare orders reasons by rule and then by their words.
func (r Reason) Compare(other Reason) int {
	return cmp.Or(cmp.Compare(r.Rule, other.Rule), cmp.Compare(r.Text, other.Text))
}

// sizeSlack is how far, as a share, a grain may be outside the asked range and
// still count as inside: room for binary fractions, not for stones.
const sizeSlack = 1e-9

// quoteReasons are the reasons that hold for every bed: lime, decay, dates.
func quoteReasons(q *quotes.Quote, s *quotes.Settings) []Reason {
	var out []Reason
	m := q.Medium
	if m.BreaksDown {
		out = append(out, Reason{RuleBreaksDown, fmt.Sprintf("%s breaks down in water; want a medium that does not", m.Name)})
	}
	switch {
	case q.Carbonate == quotes.Fizzed:
		out = append(out, Reason{RuleCarbonate, "the sample fizzed under an acid drop, so it carries lime and raises pH; want none"})
	case m.Carbonate == quotes.CarbonateYes:
		out = append(out, Reason{RuleCarbonate, fmt.Sprintf("%s is lime or carries it and raises pH; want none", m.Name)})
	case m.Carbonate == quotes.CarbonateSuspect && q.Carbonate != quotes.NoFizz && !s.AllowUntested:
		out = append(out, Reason{RuleCarbonate, fmt.Sprintf("%s may carry lime and this sample is %s; want an acid drop on several stones that shows none", m.Name, q.Carbonate)})
	}
	if !q.ValidUntil.IsZero() && q.ValidUntil.Before(s.Date.Time) {
		out = append(out, Reason{RuleDate, fmt.Sprintf("the quote ended on %s and the pricing day is %s", q.ValidUntil, s.Date)})
	}
	if !q.ReadyBy.IsZero() && !s.NeedBy.IsZero() && q.ReadyBy.After(s.NeedBy.Time) {
		out = append(out, Reason{RuleDate, fmt.Sprintf("it is ready on %s and needed by %s", q.ReadyBy, s.NeedBy)})
	}
	return out
}

// layerReasons are the reasons that hang on the bed and layer.
func layerReasons(q *quotes.Quote, b *quotes.Bed, l quotes.Layer, s *quotes.Settings) []Reason {
	var out []Reason
	m := q.Medium
	in := func(v units.Millimetres, raw string) string {
		if inches := strings.ContainsAny(raw, `"″#`) || strings.Contains(strings.ToLower(raw), "in"); raw != "" && !inches && s.Reader == nil {
			return quotes.GrainWords(v, units.Metric) // in the words of the file
		}
		return quotes.GrainWords(v, s.Speaks())
	}
	switch {
	case !q.Size.Known && b.MinSize != nil:
		if !s.AllowUnknownSize {
			out = append(out, Reason{RuleUnknownSize, fmt.Sprintf("its grain size is not stated and the bed asks for at least %s", in(*b.MinSize, b.MinRaw))})
		}
	case q.Size.Known:
		if b.MinSize != nil && float64(q.Size.Min) < float64(*b.MinSize)*(1-sizeSlack) {
			out = append(out, Reason{RuleMinSize, fmt.Sprintf("its smallest grain is %s and the bed asks for at least %s", written(in(q.Size.Min, q.Size.Raw), q.Size.Raw), in(*b.MinSize, b.MinRaw))})
		}
		if b.MaxSize != nil && float64(q.Size.Max) > float64(*b.MaxSize)*(1+sizeSlack) {
			largest := in(q.Size.Max, q.Size.Raw)
			if q.Size.Open() {
				largest = "not bounded"
			}
			out = append(out, Reason{RuleMaxSize, fmt.Sprintf("its largest grain is %s and the bed asks for at most %s", written(largest, q.Size.Raw), in(*b.MaxSize, b.MaxRaw))})
		}
	}
	if len(b.Only) > 0 && !slices.Contains(b.Only, m) {
		out = append(out, Reason{RuleOnly, fmt.Sprintf("it is %s and the bed takes only %s", m.Name, mediaNames(b.Only))})
	}
	if slices.Contains(b.Avoid, m) {
		out = append(out, Reason{RuleAvoid, fmt.Sprintf("it is %s, which the bed avoids", m.Name)})
	}
	if l == quotes.Top && !slices.Contains(b.TopMedia, m) {
		out = append(out, Reason{RuleTop, fmt.Sprintf("%s is %s and the top layer takes only %s", m.Name, m.Feel, mediaNames(b.TopMedia))})
	}
	return out
}

// written is a figure with what stands in the file behind it, unless that says the same.
func written(figure, raw string) string {
	if figure == raw {
		return figure
	}
	return figure + " (" + raw + ")"
}

// mediaNames lists media that a layer takes, but for those that no bed takes, which
// would read as if they were allowed.
func mediaNames(ms []*quotes.Medium) string {
	var names, never []string
	for _, m := range ms {
		if m.BreaksDown || m.Carbonate == quotes.CarbonateYes {
			never = append(never, m.Name)
			continue
		}
		names = append(names, m.Name)
	}
	switch {
	case len(ms) == 0:
		return "nothing"
	case len(names) == 0:
		return strings.Join(never, ", ") + ", which no bed takes"
	}
	return strings.Join(names, ", ")
}

// Fit answers which quote may go into which layer. Beds with the same demands
// on what fills them share a profile, so that a thousand alike beds cost one
// look at each quote.
type Fit struct {
	Job      *quotes.Job
	General  [][]Reason // by quote
	profiles map[string]*Profile
	OfBed    []*Profile
}

// Profile is what a bed asks of its media, and the verdicts on each quote.
type Profile struct {
	bed     *quotes.Bed                 // one of them, for wording
	Reasons map[quotes.Layer][][]Reason // layer → quote → reasons of the layer
}

// New judges every quote of the job for every layer of its beds.
func New(job *quotes.Job) *Fit {
	f := &Fit{Job: job, profiles: map[string]*Profile{}}
	for _, q := range job.Quotes {
		f.General = append(f.General, quoteReasons(q, &job.Settings))
	}
	for _, b := range job.Beds {
		key := profileKey(b)
		p := f.profiles[key]
		if p == nil {
			p = &Profile{bed: b, Reasons: map[quotes.Layer][][]Reason{}}
			for _, l := range []quotes.Layer{quotes.Top, quotes.Base} {
				for _, q := range job.Quotes {
					p.Reasons[l] = append(p.Reasons[l], layerReasons(q, b, l, &job.Settings))
				}
			}
			f.profiles[key] = p
		}
		f.OfBed = append(f.OfBed, p)
	}
	return f
}

func profileKey(b *quotes.Bed) string {
	var k strings.Builder
	size := func(v *units.Millimetres) {
		if v != nil {
			fmt.Fprintf(&k, "%g", float64(*v))
		}
		k.WriteByte('|')
	}
	size(b.MinSize)
	size(b.MaxSize)
	for _, list := range [][]*quotes.Medium{b.TopMedia, b.Only, b.Avoid} {
		names := strings.Split(mediaNames(list), ", ")
		slices.Sort(names)
		k.WriteString(strings.Join(names, ";"))
		k.WriteByte('|')
	}
	return k.String()
}

// OK reports whether quote q (by index) may fill layer l of bed b (by index).
func (f *Fit) OK(q, b int, l quotes.Layer) bool {
	return len(f.General[q]) == 0 && len(f.OfBed[b].Reasons[l][q]) == 0
}

// Broken answers which rules keep quote q (by index) out of layer l of bed b (by
// index), each once and in order; beds that ask for the same share one look. What
// comes back must not be changed.
func (f *Fit) Broken(q int) func(b int, l quotes.Layer) []Reason {
	type question struct {
		p *Profile
		l quotes.Layer
	}
	known := map[question][]Reason{}
	return func(b int, l quotes.Layer) []Reason {
		at := question{f.OfBed[b], l}
		rs, ok := known[at]
		if !ok {
			rs = append(slices.Clone(f.General[q]), at.p.Reasons[l][q]...)
			slices.SortFunc(rs, Reason.Compare)
			rs = slices.Compact(rs)
			known[at] = rs
		}
		return rs
	}
}

// Refusals calls yield for every refused quote, bed and layer with each rule
// broken, in order of bed, layer (top first) and quote as the files have them;
// layers that a bed does not have are left out. It stops when yield says false.
func (f *Fit) Refusals(yield func(Refusal) bool) {
	for b, bed := range f.Job.Beds {
		for _, l := range []quotes.Layer{quotes.Top, quotes.Base} {
			if bed.LayerLitres(l) <= 0 {
				continue
			}
			for qi, q := range f.Job.Quotes {
				for _, rs := range [][]Reason{f.General[qi], f.OfBed[b].Reasons[l][qi]} {
					for _, r := range rs {
						if !yield(Refusal{q, bed, l, r.Rule, r.Text}) {
							return
						}
					}
				}
			}
		}
	}
}

// Usable reports whether quote q (by index) fits at least one layer.
func (f *Fit) Usable(q int) bool {
	for b, bed := range f.Job.Beds {
		for _, l := range []quotes.Layer{quotes.Top, quotes.Base} {
			if bed.LayerLitres(l) > 0 && f.OK(q, b, l) {
				return true
			}
		}
	}
	return false
}

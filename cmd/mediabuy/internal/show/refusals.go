package show

import (
	"cmp"
	"slices"

	"mediabuy/optimise/suitability"
	"mediabuy/quotes"
)

// refusalGroup is every quote that one reason keeps out, and where.
type refusalGroup struct {
	rule   suitability.Rule
	reason string
	quotes []string // sorted
	beds   []string // sorted
	layers map[quotes.Layer]bool
	all    bool // every layer of the job
}

// groupRefusals gathers refusals that say the same, those of most beds first.
func groupRefusals(fit *suitability.Fit, layers int) []refusalGroup {
	type key struct {
		rule   suitability.Rule
		reason string
	}
	type tally struct {
		quotes map[string]int // quote → layers it is refused for
		beds   map[string]bool
		layers map[quotes.Layer]bool
	}
	found := map[key]*tally{}
	fit.Refusals(func(r suitability.Refusal) bool {
		k := key{r.Rule, r.Reason}
		t := found[k]
		if t == nil {
			t = &tally{map[string]int{}, map[string]bool{}, map[quotes.Layer]bool{}}
			found[k] = t
		}
		t.quotes[r.Quote.Name]++
		t.beds[r.Bed.Name] = true
		t.layers[r.Layer] = true
		return true
	})
	var out []refusalGroup
	for k, t := range found {
		g := refusalGroup{rule: k.rule, reason: k.reason, layers: t.layers, all: true}
		for q, n := range t.quotes {
			g.quotes = append(g.quotes, q)
			g.all = g.all && n == layers
		}
		for b := range t.beds {
			g.beds = append(g.beds, b)
		}
		slices.Sort(g.quotes)
		slices.Sort(g.beds)
		out = append(out, g)
	}
	out = withoutEchoes(out)
	slices.SortFunc(out, func(a, b refusalGroup) int {
		first := func(g refusalGroup) int {
			if g.all {
				return 0
			}
			return 1
		}
		return cmp.Or(first(a)-first(b), cmp.Compare(a.rule, b.rule), cmp.Compare(a.reason, b.reason))
	})
	return out
}

// withoutEchoes drops quotes from the reasons of some layers that another reason
// keeps out of every layer anyway.
func withoutEchoes(groups []refusalGroup) []refusalGroup {
	out := map[string]bool{}
	for _, g := range groups {
		if g.all {
			for _, q := range g.quotes {
				out[q] = true
			}
		}
	}
	var kept []refusalGroup
	for _, g := range groups {
		if !g.all {
			g.quotes = slices.DeleteFunc(g.quotes, func(q string) bool { return out[q] })
		}
		if len(g.quotes) > 0 {
			kept = append(kept, g)
		}
	}
	return kept
}

// where says in words which layers a group is about.
func (g refusalGroup) where(job *quotes.Job) string {
	if g.all {
		return "every bed"
	}
	return suitability.Where(job, g.layers, g.beds)
}

// refusals sets out why quotes were left out, one line a reason.
func (p *page) refusals(fit *suitability.Fit, job *quotes.Job) {
	groups := groupRefusals(fit, job.LayersToFill())
	if len(groups) == 0 {
		p.line("  nothing was refused")
		return
	}
	for _, g := range groups {
		p.item("%s (%s; %s): %s", p.Strong(several(g.quotes, 6)), g.rule, g.where(job), g.reason)
	}
}

// Refusals sets out by itself why quotes are left out of beds.
func Refusals(fit *suitability.Fit, job *quotes.Job, st Style) string {
	p := &page{Style: st}
	p.heading("left out")
	p.refusals(fit, job)
	return p.String()
}

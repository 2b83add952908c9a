package web

import (
	"slices"
	"strings"

	"mediabuy/optimise/suitability"
	"mediabuy/quotes"
)

// refusedView is every quote that one reason keeps out, and where.
type refusedView struct{ Quotes, Rule, Where, Reason string }

// refusals gathers refusals that say the same. Quotes that no layer takes come
// first, and only with the reasons that keep them out everywhere.
func refusals(fit *suitability.Fit, job *quotes.Job) []refusedView {
	type key struct {
		rule   suitability.Rule
		reason string
	}
	type tally struct {
		quotes []string
		layers map[string]int // by quote
		beds   []string
		where  map[quotes.Layer]bool
	}
	all := job.LayersToFill()
	found := map[key]*tally{}
	var order []key
	for r := range fit.Refusals {
		k := key{r.Rule, r.Reason}
		t := found[k]
		if t == nil {
			t = &tally{layers: map[string]int{}, where: map[quotes.Layer]bool{}}
			found[k] = t
			order = append(order, k)
		}
		if t.layers[r.Quote.Name] == 0 {
			t.quotes = append(t.quotes, r.Quote.Name)
		}
		t.layers[r.Quote.Name]++
		t.where[r.Layer] = true
		if n := len(t.beds); n == 0 || t.beds[n-1] != r.Bed.Name {
			t.beds = append(t.beds, r.Bed.Name)
		}
	}
	out := map[string]bool{} // kept out everywhere by one reason
	for _, t := range found {
		for q, n := range t.layers {
			out[q] = out[q] || n == all
		}
	}
	var whole, part []refusedView
	for _, k := range order {
		t := found[k]
		everywhere := func(q string) bool { return t.layers[q] == all }
		slices.Sort(t.quotes)
		barred := slices.DeleteFunc(slices.Clone(t.quotes), func(q string) bool { return !everywhere(q) })
		some := slices.DeleteFunc(slices.Clone(t.quotes), func(q string) bool { return out[q] })
		if len(barred) > 0 {
			whole = append(whole, refusedView{strings.Join(barred, ", "), ruleWords(k.rule), "every bed", k.reason})
		}
		if len(some) > 0 {
			slices.Sort(t.beds)
			part = append(part, refusedView{strings.Join(some, ", "), ruleWords(k.rule), suitability.Where(job, t.where, slices.Compact(t.beds)), k.reason})
		}
	}
	return append(whole, part...)
}

// ruleWords is a rule in words: the heading it hangs on where there is one.
func ruleWords(r suitability.Rule) string { return strings.ReplaceAll(string(r), "_", " ") }

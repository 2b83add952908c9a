package optimise

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"mediabuy/optimise/bill"
	"mediabuy/quotes"
	"mediabuy/units"
)

// placeTol is how far, as a share, litres and kilograms of a plan may be off:
// a thimbleful in a bed.
const placeTol = 1e-5

// Verify holds a plan against the job's own words, without the model: every
// layer filled by media that suit it, nothing placed that was not bought, every
// weight, share and count kept, the bill worked out again. It returns every
// breach found, joined.
func Verify(p *Plan) error {
	job := p.Job
	var errs []error
	fail := func(format string, args ...any) { errs = append(errs, fmt.Errorf(format, args...)) }
	index := map[*quotes.Quote]int{}
	for i, q := range job.Quotes {
		index[q] = i
	}
	type at struct {
		q    *quotes.Quote
		site string
	}
	used := map[at]float64{}
	var weighed []BedFill
	for b, f := range p.Fills {
		bed := job.Beds[b]
		byMedium := map[*quotes.Medium]float64{}
		all := 0.0
		for _, l := range []quotes.Layer{quotes.Top, quotes.Base} {
			want := max(0, float64(bed.LayerLitres(l)))
			all += want
			got := 0.0
			for _, lf := range f.Layers {
				if lf.Layer != l {
					continue
				}
				if words := mixedWrongly(&job.Settings, lf.Parts, want); words != "" {
					fail("bed %q %s %s", bed.Name, l, words)
				}
				for _, part := range lf.Parts {
					if !p.Fit.OK(index[part.Quote], b, l) {
						fail("bed %q %s holds %q, which is refused there", bed.Name, l, part.Quote.Name)
					}
					got += float64(part.Litres)
					byMedium[part.Quote.Medium] += float64(part.Litres)
					used[at{part.Quote, bed.Site}] += float64(part.Litres) * float64(bed.Count)
				}
			}
			if math.Abs(got-want) > placeTol*max(1, want) {
				fail("bed %q %s holds %.4f L, want %.4f L", bed.Name, l, got, want)
			}
		}
		for _, sh := range bed.MaxShare {
			if v := byMedium[sh.Medium]; v > sh.Most*all+placeTol*max(1, all) {
				fail("bed %q holds %.3f L of %s, want at most %.3f L", bed.Name, v, sh.Medium.Name, sh.Most*all)
			}
		}
		w := flooded(&f, job.Settings.Weights)
		if math.Abs(float64(w-f.Flooded)) > placeTol*max(1, float64(w)) {
			fail("bed %q is said to weigh %.2f kg flooded, and what it holds weighs %.2f kg", bed.Name, float64(f.Flooded), float64(w))
		}
		if heavier := max(w, f.Flooded); bed.Table == "" && bed.Limit != nil && overLimit(heavier, *bed.Limit) {
			fail("bed %q weighs %.2f kg flooded, want at most %.2f kg", bed.Name, float64(heavier), float64(*bed.Limit))
		}
		f.Flooded = w
		weighed = append(weighed, f)
	}
	// Tables are held to their limits twice: as the plan says, and as its fills say.
	for _, t := range append(tableLoads(weighed), p.Tables...) {
		if t.Limit != nil && overLimit(t.Flooded, *t.Limit) {
			fail("table %q weighs %.2f kg flooded, want at most %.2f kg", t.Name, float64(t.Flooded), float64(*t.Limit))
		}
	}
	bought := map[at]float64{}
	for _, line := range p.Bill.Lines {
		bought[at{line.Quote, line.Site}] += float64(line.Placed) * float64(job.Yield(line.Quote)) / float64(line.Quote.Placed())
	}
	for k, v := range used {
		if v > bought[k]+placeTol*max(1, v) {
			fail("%q at site %q: %.3f L placed, %.3f L bought beyond what is to spare", k.q.Name, k.site, v, bought[k])
		}
	}
	suppliers, drops := countUsed(p.Bill)
	if n := job.Settings.MaxSuppliers; n > 0 && suppliers > n {
		fail("%d suppliers used, want at most %d", suppliers, n)
	}
	if n := job.Settings.MaxDeliveries; n > 0 && drops > n {
		fail("%d deliveries used, want at most %d", drops, n)
	}
	if n := job.Settings.MaxQuotes; n > 0 {
		if of := quotesOf(p.Bill); len(of) > n {
			fail("%d quotes are bought of, want at most %d", len(of), n)
		}
	}
	if job.Settings.SameMix {
		if words := differing(p.Fills); words != "" {
			fail("%s", words)
		}
	}
	again, err := bill.Price(job, p.Purchase)
	if err != nil {
		fail("pricing the bill again: %w", err)
	} else if !again.Total.Equal(p.Bill.Total) {
		fail("the bill comes to %s when priced again, not %s", again.Total, p.Bill.Total)
	}
	return errors.Join(errs...)
}

// mixedWrongly says what a layer of so many litres holds more things of, or less of one, than
// the job allows; "" where it keeps to that. What is there of a quote and what is bought
// of it besides are one thing.
func mixedWrongly(set *quotes.Settings, parts []FillPart, litres float64) string {
	of := map[string]float64{}
	for _, part := range parts {
		of[part.Quote.Thing()] += float64(part.Litres)
	}
	if set.LayerMix == quotes.OneMix && len(of) > 1 {
		return fmt.Sprintf("holds %d things, want one", len(of))
	}
	for thing, v := range of {
		if least := set.LeastShare * litres; v < least-placeTol*max(1, litres) {
			return fmt.Sprintf("holds %.3f L of %q, want none or at least %.3f L", v, thing, least)
		}
	}
	return ""
}

func overLimit(w, limit units.Kilograms) bool {
	return float64(w) > float64(limit)+placeTol*max(1, float64(limit))
}

// countUsed counts the suppliers and the drops (not their loads) of a bill; those who stated no delivery bring one like others.
func countUsed(b *bill.Bill) (suppliers, drops int) {
	names := map[string]bool{}
	for _, l := range b.Lines {
		names[l.Quote.Supplier] = true
	}
	for _, d := range b.Drops {
		if !d.IsHandling() {
			drops++
		}
	}
	return len(names), drops
}

// quotesOf lists the quotes that a bill buys of.
func quotesOf(b *bill.Bill) []*quotes.Quote {
	var out []*quotes.Quote
	for _, l := range b.Lines {
		if !slices.Contains(out, l.Quote) {
			out = append(out, l.Quote)
		}
	}
	return out
}

// differing names the first layer that is not filled as that layer of the first bed
// that has it; "" where all are.
func differing(fills []BedFill) string {
	type recipe struct {
		bed   string
		parts map[*quotes.Quote]float64 // as shares
	}
	first := map[quotes.Layer]recipe{}
	for _, f := range fills {
		for _, l := range f.Layers {
			if l.Demand <= 0 {
				continue
			}
			here := recipe{f.Bed.Name, map[*quotes.Quote]float64{}}
			for _, part := range l.Parts {
				here.parts[part.Quote] = float64(part.Litres / l.Demand)
			}
			there, ok := first[l.Layer]
			if !ok {
				first[l.Layer] = here
				continue
			}
			for _, parts := range []map[*quotes.Quote]float64{here.parts, there.parts} {
				for q := range parts {
					// A part below the dust that is left out of fills is no difference.
					if math.Abs(here.parts[q]-there.parts[q]) > placeTol+2*dust/float64(l.Demand) {
						return fmt.Sprintf("bed %q %s holds %.5f of %q and bed %q %.5f, want the same", f.Bed.Name, l.Layer, here.parts[q], q.Name, there.bed, there.parts[q])
					}
				}
			}
		}
	}
	return ""
}

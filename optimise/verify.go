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
	again, err := bill.Price(job, p.Purchase)
	if err != nil {
		fail("pricing the bill again: %w", err)
	} else if !again.Total.Equal(p.Bill.Total) {
		fail("the bill comes to %s when priced again, not %s", again.Total, p.Bill.Total)
	}
	return errors.Join(errs...)
}

func overLimit(w, limit units.Kilograms) bool {
	return float64(w) > float64(limit)+placeTol*max(1, float64(limit))
}

// countUsed counts the suppliers and the drops (not their loads) of a bill.
func countUsed(b *bill.Bill) (suppliers, drops int) {
	var names []string
	for _, d := range b.Drops {
		if d.Loads == 0 {
			continue // handling
		}
		drops++
		if !slices.Contains(names, d.Supplier) {
			names = append(names, d.Supplier)
		}
	}
	return len(names), drops
}

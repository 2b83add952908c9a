package breakeven

import (
	"context"
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"mediabuy/optimise"
	"mediabuy/optimise/bill"
	"mediabuy/optimise/internal/randjob"
	"mediabuy/quotes"
	"mediabuy/quotes/files/jobtest"
)

// fromFiles makes a job of the texts of its files; an empty text leaves the file out.
func fromFiles(t require.TestingT, quotesCSV, bedsCSV, deliveryCSV, jobTOML string) *quotes.Job {
	return withMedia(t, quotesCSV, bedsCSV, deliveryCSV, jobTOML, jobtest.NoLoss)
}

func withMedia(t require.TestingT, quotesCSV, bedsCSV, deliveryCSV, jobTOML, mediaCSV string) *quotes.Job {
	return jobtest.Files{Quotes: quotesCSV, Beds: bedsCSV, Delivery: deliveryCSV, Settings: jobTOML, Media: mediaCSV}.Job(t)
}

func series(t require.TestingT, job *quotes.Job, targets []Target, opt Options) []Series {
	plan, err := Today(context.Background(), job, optimise.Options{})
	require.NoError(t, err)
	out, err := ByPrice(context.Background(), job, plan, targets, opt)
	require.NoError(t, err)
	return out
}

// counting is every purchase of a job with one site, one layer and no rules but
// volume: the litres placed must reach the need.
type counting struct {
	job  *quotes.Job
	need float64
	buys []bill.Purchase
}

// everything lists all purchases of up to most steps of each quote that fill the
// beds.
func everything(job *quotes.Job, most []int64) *counting {
	c := &counting{job: job}
	for _, b := range job.Beds {
		c.need += float64(b.LayerLitres(quotes.Base))
	}
	steps := make([]int64, len(most))
	for {
		placed := 0.0
		var buy bill.Purchase
		for i, n := range steps {
			q := job.Quotes[i]
			placed += float64(n) * q.Step.Float() * float64(q.Placed())
			if n > 0 {
				buy.Items = append(buy.Items, bill.Item{Quote: q, Site: job.Beds[0].Site, Steps: n})
			}
		}
		if placed >= c.need-1e-6 {
			c.buys = append(c.buys, buy)
		}
		i := 0
		for ; i < len(steps); i++ {
			if steps[i]++; steps[i] <= most[i] {
				break
			}
			steps[i] = 0
		}
		if i == len(steps) {
			return c
		}
	}
}

// least is the least unrounded cost of all purchases at x, by pricing each.
func (c *counting) least(target Target, x float64) (float64, string) {
	job := target.at(c.job, decimalAt(x), decimalAt(x))
	job.Settings.CurrencyDigits = bill.ExactDigits
	best, words := math.Inf(1), "nothing"
	for _, buy := range c.buys {
		bill, err := bill.Price(job, translate(buy, c.job, job))
		if err != nil {
			continue // an order too small, or too few packs
		}
		if v := bill.Total.Float(); v < best {
			best, words = v, keyOf(buy)
		}
	}
	return best, words
}

// TestCountingOutFindsNothingCheaper holds every proven piece against the count
// of all purchases over a grid of prices: nothing is cheaper by more than half a
// cent, and the buy that is told costs what is told.
func TestCountingOutFindsNothingCheaper(t *testing.T) {
	jobtest.Long(t)
	jobtest.FewerChecks(t, 20)
	for _, hinged := range []bool{false, true} {
		t.Run(fmt.Sprintf("hinged=%v", hinged), rapid.MakeCheck(func(t *rapid.T) {
			job, most := randjob.Tiny(t, hinged)
			all := everything(job, most)
			target := rapid.SampledFrom(targetsOf(job)).Draw(t, "target")
			plan, err := Today(context.Background(), job, optimise.Options{})
			require.NoError(t, err)
			if plan.Status == optimise.Infeasible {
				return
			}
			list, err := ByPrice(context.Background(), job, plan, []Target{target}, Options{Depth: Every})
			require.NoError(t, err)
			s := list[0]
			grain := grainOf(newWorld(job), target)
			var grid []float64
			for i := range 13 {
				grid = append(grid, target.Most.Float()*float64(i*i)/144)
			}
			for _, c := range s.Changes {
				grid = append(grid, c.At.Float()-1.5*grain, c.At.Float()+1.5*grain)
			}
			for _, x := range grid {
				for _, p := range s.Pieces {
					// Within a grain of an end the neighbour may hold.
					if !p.Proven || x < 0 || x < p.From.Float()+1.01*grain && p.From.Sign() > 0 || x > p.To.Float()-1.01*grain {
						continue
					}
					got := p.Cost(decimalAt(x)).Float()
					want, words := all.least(target, x)
					if p.None {
						assert.True(t, math.IsInf(want, 1), "%s at %v: %s is possible for %v", target.Name, x, words, want)
						continue
					}
					assert.InDelta(t, want, got, halfCent+1e-6, "%s at %v: %s costs %v, told %v", target.Name, x, words, want, p.Buy)
				}
			}
		}))
	}
}

func targetsOf(job *quotes.Job) []Target {
	out := Quotes(job)
	for _, s := range quotes.Suppliers(job) {
		out = append(append(out, OfSupplier(s)), FeesOf(job, s)...)
	}
	if b, err := Bulk(job); err == nil {
		out = append(out, b)
	}
	return out
}

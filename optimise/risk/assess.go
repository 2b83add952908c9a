package risk

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"mediabuy/optimise"
	"mediabuy/optimise/bill"
	"mediabuy/optimise/internal/model"
	"mediabuy/optimise/internal/propose"
	"mediabuy/optimise/suitability"
	"mediabuy/quotes"
	"mediabuy/units"
)

// Report says how sure a purchase fills every bed.
type Report struct {
	Sure          float64 // share of the draws in which every bed is filled
	StandardError float64 // of Sure
	ShortP95      units.Litres
	// TopUpP95 is what finishing costs at most in nineteen draws of twenty, which need not be
	// those in which least is short, and ExpectedTopUp the mean over all draws. Finished is false where in some case nothing on offer
	// finishes the beds; those cases then count for nothing.
	TopUpP95, ExpectedTopUp units.Money
	Finished                bool
}

// Assessor answers how sure purchases for one job are, all on the same draws.
type Assessor struct {
	job   *quotes.Job // without spare and without rules about mixing: what came is laid as it must
	sites []*propose.Shortage
	known map[drawn][]float64
	sure  map[string]float64 // by purchase: other reserves often buy the same
	there []bill.Item        // comes whatever is bought
}

// NewAssessor readies the question for a job. Close it.
func NewAssessor(job *quotes.Job) (*Assessor, error) {
	free := bare(job)
	free.Settings.LayerMix, free.Settings.LeastShare = quotes.AnyMix, 0
	free.Settings.Extra = units.Decimal{}
	prog := model.Build(model.NewInstance(free, suitability.New(free), false), model.Options{})
	sites, err := propose.Shortages(prog)
	if err != nil {
		return nil, fmt.Errorf("preparing to see how sure a purchase is: %w", err)
	}
	return &Assessor{job: free, sites: sites, known: map[drawn][]float64{}, sure: map[string]float64{}}, nil
}

// Close frees what the assessor holds.
func (a *Assessor) Close() {
	for _, s := range a.sites {
		s.Close()
	}
}

// shorts is how many litres each draw leaves short with a purchase.
func (a *Assessor) shorts(ctx context.Context, came []delivered) ([]float64, error) {
	total := make([]float64, Draws)
	out := make([]float64, Draws)
	for _, s := range a.sites {
		type part struct {
			class int
			*delivered
		}
		var parts []part
		for i := range came {
			if k, ok := s.ClassOf(came[i].item.Quote, came[i].item.Site); ok {
				parts = append(parts, part{k, &came[i]})
			}
		}
		p := &pool{of: shortage{s}}
		at := func(d int, buf []float64) []float64 {
			buf = append(buf[:0], make([]float64, s.Classes())...)
			for _, pt := range parts {
				buf[pt.class] += pt.litres * pt.factors[d]
			}
			return buf
		}
		if err := p.shorts(ctx, Draws, at, out); err != nil {
			return nil, fmt.Errorf("seeing how sure a purchase is: %w", err)
		}
		for d, v := range out {
			total[d] += v
		}
	}
	return total, nil
}

// shortage is a site's shortage as the pool asks for it.
type shortage struct{ *propose.Shortage }

func (s shortage) short(ctx context.Context, litres []float64) (float64, []float64, float64, []float64, error) {
	return s.Short(ctx, litres)
}

// Sure is the share of draws in which a purchase fills every bed.
func (a *Assessor) Sure(ctx context.Context, buy bill.Purchase) (float64, error) {
	buy = a.withThere(buy)
	key := keyOf(buy)
	if sure, ok := a.sure[key]; ok {
		return sure, nil
	}
	shorts, err := a.shorts(ctx, deliveries(buy, a.known))
	if err != nil {
		return 0, err
	}
	a.sure[key] = sureOf(shorts)
	return a.sure[key], nil
}

// withThere is a purchase with what comes besides.
func (a *Assessor) withThere(buy bill.Purchase) bill.Purchase {
	for _, it := range a.there {
		if !slices.ContainsFunc(buy.Items, func(had bill.Item) bool { return had.Quote.Name == it.Quote.Name && had.Steps > 0 }) {
			buy.Items = append(slices.Clip(buy.Items), it)
		}
	}
	return buy
}

// keyOf tells purchases apart by what is bought for which site.
func keyOf(buy bill.Purchase) string {
	var b strings.Builder
	for _, it := range buy.Items {
		fmt.Fprintf(&b, "%q %q %d\n", it.Quote.Name, it.Site, it.Steps)
	}
	return b.String()
}

func sureOf(shorts []float64) float64 {
	filled := 0
	for _, v := range shorts {
		if v <= 0 {
			filled++
		}
	}
	return float64(filled) / float64(max(1, len(shorts)))
}

// Assess works out how sure a purchase is, how short a bad case leaves the beds,
// and what finishing them would then cost, by the reckoning of
// [optimise.FinishWith] on the job's pricing day.
func (a *Assessor) Assess(ctx context.Context, buy bill.Purchase, opt optimise.Options) (*Report, error) {
	came := deliveries(buy, a.known)
	shorts, err := a.shorts(ctx, came)
	if err != nil {
		return nil, err
	}
	r := &Report{Sure: sureOf(shorts), Finished: true}
	r.StandardError = math.Sqrt(r.Sure * (1 - r.Sure) / Draws)
	order := make([]int, Draws)
	for d := range order {
		order[d] = d
	}
	slices.SortStableFunc(order, func(x, y int) int {
		switch {
		case shorts[x] < shorts[y]:
			return -1
		case shorts[x] > shorts[y]:
			return 1
		}
		return 0
	})
	bad := order[Draws*95/100-1] // at worst in nineteen cases of twenty
	r.ShortP95 = units.Litres(shorts[bad])
	brings := func(d int) []float64 {
		out := make([]float64, len(came))
		for i, c := range came {
			out[i] = c.litres * c.factors[d]
		}
		return out
	}
	over, err := overDraws(shorts, topUps, brings, func(d int) (float64, error) {
		c, ok, err := a.topUp(ctx, came, d, opt)
		r.Finished = r.Finished && ok
		return c, err
	})
	if err != nil {
		return nil, err
	}
	digits := a.job.Settings.CurrencyDigits
	r.TopUpP95 = units.MoneyOf(units.DecimalOf(over.p95)).Round(digits)
	r.ExpectedTopUp = units.MoneyOf(units.DecimalOf(over.mean)).Round(digits)
	return r, nil
}

// topUp is what finishing costs in draw d; ok is false where nothing finishes.
func (a *Assessor) topUp(ctx context.Context, came []delivered, d int, opt optimise.Options) (cost float64, ok bool, err error) {
	var stock []optimise.Stock
	for _, c := range came {
		stock = append(stock, optimise.Stock{Quote: c.item.Quote, Site: c.item.Site, Packs: c.item.Packs(), Holds: c.factors[d]})
	}
	opt.Progress, opt.From, opt.Keep = nil, nil, false
	f, err := optimise.FinishWith(ctx, a.job, stock, a.job.Settings.Date, opt)
	if err != nil {
		return 0, false, err
	}
	if f.Plan.Bill == nil {
		return 0, false, nil
	}
	return f.ToPay.Float(), true, nil
}

package optimise

import (
	"maps"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"mediabuy/optimise/suitability"
	"mediabuy/quotes"
	"mediabuy/units"
)

// heed is the job changed as its obstacles advise, by just as much; false when
// an obstacle asks for what no number can mend.
func heed(t require.TestingT, job *quotes.Job, fit *suitability.Fit, why []Obstacle) (*quotes.Job, bool) {
	out := *job
	out.Beds = nil
	byName := map[string]*quotes.Bed{}
	for _, b := range job.Beds {
		c := *b
		c.MaxShare = slices.Clone(b.MaxShare)
		out.Beds = append(out.Beds, &c)
		byName[b.Name] = &c
	}
	more := func(text string) int {
		m := regexp.MustCompile(`allow (\d+) more`).FindStringSubmatch(text)
		require.NotNil(t, m, text)
		n, err := strconv.Atoi(m[1])
		require.NoError(t, err)
		return n
	}
	raised := map[*quotes.Bed]bool{}
	raise := func(b *quotes.Bed, by units.Kilograms) {
		require.NotNil(t, b.Limit, "%s has a limit", b.Name)
		limit := *b.Limit + by + 1e-3 // a gram of leeway for the last digit
		b.Limit = &limit
		raised[b] = true
	}
	for _, o := range why {
		require.True(t, o.Short > 0 || o.Over > 0 || o.Rule == RuleSuppliers || o.Rule == RuleDeliveries || o.Rule == RuleBudget, "%+v says how much", o)
		require.NotEmpty(t, o.Remedy)
		switch o.Rule {
		case RuleLimit:
			if o.Table == "" {
				require.Contains(t, byName, o.Bed)
				raise(byName[o.Bed], o.Over)
				continue
			}
			for _, b := range out.Beds {
				if b.Table == o.Table {
					raise(b, o.Over)
				}
			}
			require.NotEmpty(t, raised)
		case RuleShare:
			bed := byName[o.Bed]
			require.NotNil(t, bed, "a bed is named: %+v", o)
			all := float64(bed.LayerLitres(quotes.Top) + bed.LayerLitres(quotes.Base)) // of one bed
			found := false
			for i, sh := range bed.MaxShare {
				if strings.Contains(o.Remedy, "allow "+sh.Medium.Name+" ") {
					bed.MaxShare[i].Most += float64(o.Short)/all + 1e-6
					found = true
				}
			}
			require.True(t, found, "%s has such a share: %s", o.Bed, o.Remedy)
		case RuleSuppliers:
			out.Settings.MaxSuppliers += more(o.Remedy)
		case RuleDeliveries:
			out.Settings.MaxDeliveries += more(o.Remedy)
		case RuleStock:
			if strings.Contains(o.Remedy, "no quote suits") {
				return nil, false
			}
			b := slices.IndexFunc(job.Beds, func(b *quotes.Bed) bool { return b.Name == o.Bed })
			require.GreaterOrEqual(t, b, 0)
			out.Quotes = append(slices.Clone(out.Quotes), forSale(t, job, fit, b, o)...)
		default:
			return nil, false
		}
	}
	return &out, true
}

// forSale is the litres an obstacle asks for, of each medium that it names, from
// a yard that brings them free.
func forSale(t require.TestingT, job *quotes.Job, fit *suitability.Fit, b int, o Obstacle) []*quotes.Quote {
	var out []*quotes.Quote
	one := units.DecimalFromInt(1)
	for q, quote := range job.Quotes {
		named := strings.Contains(o.Remedy, quote.Medium.Name)
		if !fit.OK(q, b, o.Layer) || !named || slices.ContainsFunc(out, func(s *quotes.Quote) bool { return s.Medium == quote.Medium }) {
			continue
		}
		add := *quote
		add.Name += " more for " + o.Bed + " " + string(o.Layer)
		add.Supplier = "More" // without terms: free delivery
		add.PackLitres = units.Litres((float64(o.Short) + 1e-3) / float64(job.Yield(quote)) * float64(quote.PackLitres))
		add.Step, add.MinQty, add.MaxQty = one, units.Decimal{}, &one
		add.Breaks, add.BreakGroup = nil, ""
		out = append(out, &add)
	}
	require.NotEmpty(t, out, "a medium that suits is named: %s", o.Remedy)
	return out
}

// pinched is a random job made tight: limits, shares, stock and counts cut until
// most of them cannot be met.
func pinched(t *rapid.T, job *quotes.Job, pinches []string) *quotes.Job {
	out := *job
	out.Quotes, out.Beds = nil, nil
	for i := range job.Beds {
		b := *job.Beds[i]
		b.MaxShare = slices.Clone(b.MaxShare)
		out.Beds = append(out.Beds, &b)
	}
	switch rapid.SampledFrom(pinches).Draw(t, "pinch") {
	case "limits":
		pinchLimits(t, &out)
	case "shares":
		pinchShares(t, &out)
	case "limits and shares":
		pinchLimits(t, &out)
		pinchShares(t, &out)
	case "stock":
		pinchStock(t, job, &out)
	case "limits and stock":
		pinchLimits(t, &out)
		pinchStock(t, job, &out)
	case "counts":
		out.Settings.MaxSuppliers = rapid.IntRange(0, 1).Draw(t, "suppliers")
		out.Settings.MaxDeliveries = rapid.IntRange(0, 1).Draw(t, "deliveries")
	}
	if out.Quotes == nil {
		out.Quotes = job.Quotes
	}
	return &out
}

func pinchLimits(t *rapid.T, job *quotes.Job) {
	factor := rapid.Float64Range(0.02, 0.6).Draw(t, "limit factor")
	limits := map[string]*units.Kilograms{}
	for _, b := range job.Beds {
		if b.Limit == nil {
			continue
		}
		cut := *b.Limit * units.Kilograms(factor)
		if b.Table != "" {
			if limits[b.Table] == nil {
				limits[b.Table] = &cut
			}
			b.Limit = limits[b.Table]
			continue
		}
		b.Limit = &cut
	}
}

func pinchShares(t *rapid.T, job *quotes.Job) {
	media := map[string]*quotes.Medium{}
	for _, q := range job.Quotes {
		media[q.Medium.Name] = q.Medium
	}
	names := slices.Sorted(maps.Keys(media))
	for i, b := range job.Beds {
		if i > 0 && !rapid.Bool().Draw(t, "shared") {
			continue
		}
		b.MaxShare = nil
		most := rapid.SampledFrom([]float64{0.1, 0.2, 0.3}).Draw(t, "share")
		for _, n := range names {
			b.MaxShare = append(b.MaxShare, quotes.Share{Medium: media[n], Most: most})
		}
	}
}

func pinchStock(t *rapid.T, job, out *quotes.Job) {
	out.Quotes = nil
	for _, q := range job.Quotes {
		c := *q
		most := units.DecimalFromInt(int64(max(1, rapid.IntRange(0, 3).Draw(t, "stock"))))
		c.MinQty = units.Decimal{}
		c.MaxQty = &most
		out.Quotes = append(out.Quotes, &c)
	}
}

package figure

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/optimise"
	"mediabuy/quotes"
	"mediabuy/quotes/files"
	"mediabuy/quotes/files/jobtest"
	"mediabuy/units"
	"mediabuy/web/internal/folder"
)

// solved is the sample job and its plan.
func solved(t *testing.T) (*quotes.Job, *optimise.Plan) {
	t.Helper()
	f, err := folder.Open("../../../testdata/demo", true)
	require.NoError(t, err)
	defer func() { require.NoError(t, f.Close()) }()
	texts, err := f.Read()
	require.NoError(t, err)
	job, rep, err := files.Read(texts.Files(), files.Options{Today: time.Date(2026, 4, 6, 9, 0, 0, 0, time.UTC)})
	require.NoError(t, err)
	require.NoError(t, rep.Err())
	plan, err := optimise.Solve(t.Context(), job, optimise.Options{})
	require.NoError(t, err)
	return job, plan
}

func TestTicksAreRound(t *testing.T) {
	for _, c := range []struct {
		lo, hi float64
		want   []string
	}{
		{0, 128.7, []string{"0", "50", "100"}},
		{0.1, 4, []string{"1", "2", "3", "4"}},
		{-0.5, 4, []string{"0", "1", "2", "3", "4"}}, // and no "-0"
		{0, 1, []string{"0.0", "0.2", "0.4", "0.6", "0.8", "1.0"}},
		{0.71, 0.74, []string{"0.71", "0.72", "0.73", "0.74"}},
		{1434, 2043, []string{"1600", "1800", "2000"}},
	} {
		var got []string
		for _, tick := range ticks(Span{c.lo, c.hi}) {
			got = append(got, tick.label)
		}
		assert.Equal(t, c.want, got, "%v to %v", c.lo, c.hi)
	}
}

// A bed is cut along its longer side, whichever of the two stands first.
func TestBedsAreCutAlongTheirLongerSide(t *testing.T) {
	var drawn []Bed
	for _, beds := range []string{"bed,length,width,depth\none,4 ft,8 ft,12 in\n", "bed,length,width,depth\none,8 ft,4 ft,12 in\n"} {
		job := jobtest.Files{Quotes: "supplier,medium,form,pack,price,size\nAldermoor,expanded clay,bag,50 L,10.00,8-16 mm\n", Beds: beds}.Job(t)
		plan, err := optimise.Solve(t.Context(), job, optimise.Options{})
		require.NoError(t, err)
		list, _ := Scribe{System: units.US, Code: "USD"}.Beds(plan)
		require.Len(t, list, 1)
		drawn = append(drawn, list[0])
	}
	assert.Equal(t, drawn[1].SVG, drawn[0].SVG)
	assert.Equal(t, "4 ft × 8 ft, 12 in deep", drawn[0].Size)
}

// The parts of a bar add up to its total.
func TestBarsAddUp(t *testing.T) {
	job, plan := solved(t)
	for _, sys := range []units.System{units.US, units.Metric} {
		b := BarsOf(job, plan, Scribe{System: sys, Code: "USD"})
		require.NotEmpty(t, b.Rows)
		require.NotEmpty(t, b.None)
		longest := 0.0
		for _, row := range b.Rows {
			end, sum := 0.0, 0.0
			for _, p := range row.Parts {
				assert.InDelta(t, end, p.X, 1e-6, "%s: the parts stand side by side", row.Quote)
				end += p.Width
				part, err := units.ParseMoney(p.Words[strings.IndexByte(p.Words, ' ')+1:], units.MarkPoint)
				require.NoError(t, err)
				sum += part.Float()
			}
			total, err := units.ParseMoney(row.Total, units.MarkPoint)
			require.NoError(t, err)
			// Each of five parts and the total are rounded to a cent, for a litre to a part in 500 or four decimals, and
			// the total comes from four decimals a litre: a cubic foot has 28.3.
			within := 6*0.005 + 28.4*0.00005
			if sys == units.Metric {
				within = 2*total.Float()/500 + 7*0.00005
			}
			assert.InDelta(t, total.Float(), sum, within, row.Quote)
			longest = max(longest, end)
		}
		assert.InDelta(t, 1000, longest, 1e-6)
	}
}

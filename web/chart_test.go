package web

import (
	"strings"
	"testing"

	"mediabuy/papers/chart"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

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
		for _, tick := range ticks(span{c.lo, c.hi}) {
			got = append(got, tick.label)
		}
		assert.Equal(t, c.want, got, "%v to %v", c.lo, c.hi)
	}
}

// A dashed curve is explained below the chart, a solid one needs no words.
func TestDashesAreExplained(t *testing.T) {
	for _, dashed := range []bool{false, true} {
		p := chart.Panel{Lines: []chart.Line{{Name: "cheapest buy", Dashed: dashed, X: []float64{0, 9}, Y: []float64{1, 5}}}}
		v := drawChart(p, span{0, 9}, 3, "")
		assert.Equal(t, dashed, v.Dashes())
		var b strings.Builder
		require.NoError(t, views.ExecuteTemplate(&b, "chart", v))
		assert.Equal(t, dashed, strings.Contains(b.String(), "Dashed is the cheapest buy known, not proven."))
	}
}

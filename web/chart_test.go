package web

import (
	"strings"
	"testing"

	"mediabuy/papers/chart"
	"mediabuy/web/internal/figure"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A dashed curve is explained below the chart, a solid one needs no words.
func TestDashesAreExplained(t *testing.T) {
	for _, dashed := range []bool{false, true} {
		p := chart.Panel{Lines: []chart.Line{{Name: "cheapest buy", Dashed: dashed, X: []float64{0, 9}, Y: []float64{1, 5}}}}
		v := figure.Draw(p, figure.Span{Lo: 0, Hi: 9}, 3, "")
		assert.Equal(t, dashed, v.Dashes())
		var b strings.Builder
		require.NoError(t, views.ExecuteTemplate(&b, "chart", v))
		assert.Equal(t, dashed, strings.Contains(b.String(), "Dashed is the cheapest buy known, not proven."))
	}
}

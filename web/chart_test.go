package web

import (
	"strings"
	"testing"

	"mediabuy/optimise"
	"mediabuy/optimise/bill"
	"mediabuy/optimise/breakeven"
	"mediabuy/papers/chart"
	"mediabuy/quotes"
	"mediabuy/units"
	"mediabuy/web/internal/desk"
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
		require.NoError(t, views().ExecuteTemplate(&b, "chart", v))
		assert.Equal(t, dashed, strings.Contains(b.String(), "Dashed is the cheapest buy known, not proven."))
	}
}

// The price at which the plan stands is as proven as the plan, though a stretch of prices around it is not.
func TestTodaysPriceIsAsProvenAsThePlan(t *testing.T) {
	money := func(s string) units.Money {
		m, err := units.ParseMoney(s, units.MarkPoint)
		require.NoError(t, err)
		return m
	}
	now, cost := money("17.50"), money("636")
	a := &desk.Answer{Job: &quotes.Job{Settings: quotes.Settings{CurrencyDigits: 2}}, Plan: &optimise.Plan{Status: optimise.Optimal, Bill: &bill.Bill{Total: cost}}}
	stretch := breakeven.Piece{From: money("17").Decimal(), To: money("18").Decimal(), A: cost.Decimal()}
	s := breakeven.Series{Target: breakeven.Target{Now: now.Decimal()}, Pieces: []breakeven.Piece{stretch}}
	sc := figure.Scribe{System: units.Metric, Code: "GBP"}
	said := func(x units.Money) string {
		v := &priceView{}
		v.at(a, sc, s, x.Decimal())
		return v.Sentence
	}
	assert.Equal(t, "At £17.50 a pack, today's price, the whole job costs £636.00. That is proven; at prices close to it what is drawn is the best known.", said(now))
	assert.Contains(t, said(money("17.60")), "not proven")
	a.Plan.Status = optimise.TimeLimit
	assert.Contains(t, said(now), "not proven")
}

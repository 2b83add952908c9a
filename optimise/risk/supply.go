package risk

import (
	"mediabuy/optimise/bill"
	"mediabuy/quotes"
)

// uncertain lists what of a quote is not known exactly, as laws of factors on the
// litres its packs are counted on to place:
//
//	placed = packs·litres · fill · ρ/density · (1−rinse)/(1−rinse′) · (1−settle)/(1−settle′)
//
// with ρ, rinse′ and settle′ the usual values; density only where a weight is sold.
type uncertain struct {
	property string
	law      Triangular
	factor   func(x float64) float64
}

func uncertainOf(q *quotes.Quote) []uncertain {
	of := func(s quotes.Spread[float64]) Triangular { return Triangular{s.Low, s.Usual, s.High} }
	kept := func(usual float64) func(float64) float64 {
		return func(x float64) float64 { return (1 - x) / (1 - usual) }
	}
	out := []uncertain{
		{"fill", of(q.Fill), func(x float64) float64 { return x }},
		{"rinse_loss", of(q.RinseLoss), kept(q.RinseLoss.Usual)},
		{"settle", of(q.Medium.Settle), kept(q.Medium.Settle.Usual)},
	}
	if q.Pack.IsMass {
		d := q.DryDensity()
		out = append(out, uncertain{"density", Triangular{float64(d.Low), float64(d.Usual), float64(d.High)}, func(x float64) float64 { return float64(d.Usual) / x }})
	}
	return out
}

// factors draws by how much the litres of a quote in one order differ from those it
// is counted on for: one draw for the whole order, not for each bag.
func factors(q *quotes.Quote, site string) []float64 {
	out := make([]float64, Draws)
	for d := range out {
		out[d] = 1
	}
	x := make([]float64, Draws)
	for _, u := range uncertainOf(q) {
		u.law.sample(stream(q.Name, site, u.property), x)
		for d := range out {
			out[d] *= u.factor(x[d])
		}
	}
	return out
}

// delivered is the litres that each item of a purchase places, draw by draw.
type delivered struct {
	item    bill.Item
	litres  float64 // as counted on
	factors []float64
}

// deliveries draws what a purchase brings. Factors of quotes drawn before are taken
// from known, and kept there.
func deliveries(buy bill.Purchase, known map[drawn][]float64) []delivered {
	var out []delivered
	for _, it := range buy.Items {
		if it.Steps == 0 {
			continue
		}
		key := drawn{it.Quote.Name, it.Site}
		f, ok := known[key]
		if !ok {
			f = factors(it.Quote, it.Site)
			known[key] = f
		}
		out = append(out, delivered{it, it.Packs().Float() * float64(it.Quote.Placed()), f})
	}
	return out
}

// drawn names the draws of a quote for a site.
type drawn struct{ quote, site string }

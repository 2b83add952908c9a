package figure

import (
	"slices"
	"strings"

	"mediabuy/optimise"
	"mediabuy/optimise/bill"
	"mediabuy/optimise/suitability"
	"mediabuy/quotes"
	"mediabuy/units"
)

// Bars sets quotes side by side by what they cost landed.
type Bars struct {
	Per  string
	Rows []barView
	None []noBarView // quotes without a price
}

// barView is one quote's landed cost in parts.
type barView struct {
	Quote, Supplier, Medium, Total, Note string
	Bought                               bool
	Parts                                []partView
}

// partView is one part of a bar: X and Width are thousandths of the longest bar.
type partView struct {
	Kind     string // goods, losses, delivery, tax or rinsing
	Words    string
	X, Width float64
}

type noBarView struct{ Quote, Why string }

// BarsOf prices each quote by itself per volume placed. What goods cost is split into
// what ends up in the bed and what is lost as fines and by settling: of 100 L
// bought of which 92 L are placed, 8 parts in 100 of the goods money.
func BarsOf(job *quotes.Job, plan *optimise.Plan, sc Scribe) *Bars {
	fit := suitability.New(job)
	name, volume := sc.Per()
	v := &Bars{Per: name}
	type priced struct {
		view barView
		sum  float64
	}
	bought := map[string]bool{}
	if plan != nil && plan.Bill != nil {
		for _, l := range plan.Bill.Lines {
			bought[l.Quote.Name] = true
		}
	}
	var list []priced
	for _, q := range optimise.Compare(job, fit, optimise.CompareOptions{}) {
		if q.Bill == nil {
			var why []string
			for _, r := range q.Reasons {
				why = append(why, r.Words())
			}
			if q.Note != "" {
				why = append(why, q.Note)
			}
			v.None = append(v.None, noBarView{q.Quote.Name, strings.Join(why, "; ")})
			continue
		}
		litres := q.Litres - q.Short
		per := func(m units.Money) float64 { return m.Float() * float64(volume/litres) }
		kept := 1.0
		if sold, placed := volumes(q.Bill); sold > 0 {
			kept = float64(placed / sold)
		}
		goods := per(q.Bill.Goods)
		p := priced{view: barView{Quote: q.Quote.Name, Supplier: q.Quote.Supplier, Medium: q.Quote.Medium.Name, Note: q.Note, Bought: bought[q.Quote.Name]}}
		for _, part := range []struct {
			kind string
			sum  float64
		}{
			{"goods", goods * kept}, {"losses", goods * (1 - kept)}, {"delivery", per(q.Bill.Delivery)}, {"tax", per(q.Bill.Tax)}, {"rinsing", per(q.Bill.Rinsing)},
		} {
			if part.sum > 0 {
				words := part.kind + " " + sc.PerMoney(units.MoneyOf(units.DecimalOf(part.sum)))
				p.view.Parts = append(p.view.Parts, partView{Kind: part.kind, Words: words, X: p.sum, Width: part.sum})
			}
			p.sum += part.sum
		}
		p.view.Total = sc.PerMoney(q.PerLitre.Times(units.DecimalOf(float64(volume))))
		list = append(list, p)
	}
	slices.SortStableFunc(list, func(a, b priced) int {
		switch {
		case a.sum < b.sum:
			return -1
		case a.sum > b.sum:
			return 1
		}
		return strings.Compare(a.view.Quote, b.view.Quote)
	})
	for _, p := range list {
		longest := list[len(list)-1].sum
		for i := range p.view.Parts {
			if longest > 0 {
				p.view.Parts[i].X *= 1000 / longest
				p.view.Parts[i].Width *= 1000 / longest
			}
		}
		v.Rows = append(v.Rows, p.view)
	}
	return v
}

// volumes are what a bill's packs hold and what they place.
func volumes(b *bill.Bill) (sold, placed units.Litres) {
	for _, l := range b.Lines {
		sold += l.Sold
		placed += l.Placed
	}
	return sold, placed
}

package breakeven

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"mediabuy/optimise/bill"
	"mediabuy/optimise/suitability"
	"mediabuy/quotes"
	"mediabuy/units"
)

// ErrInfeasible says that nothing fills the beds at today's prices, so there is
// no plan to compare with.
var ErrInfeasible = errors.New("no mix of these quotes can satisfy the beds, so there is no plan to compare with")

func compareText(a, b string) int { return cmp.Compare(a, b) }

// world is one job in the three shapes that the search needs. Their quotes and
// delivery rows stand at the same places.
type world struct {
	job   *quotes.Job // as read, without a budget or a time limit
	plain *quotes.Job // the same money with prices before tax
	bare  *quotes.Job // plain, unrounded, no fee waived and no order refused
	fit   *suitability.Fit
}

func newWorld(job *quotes.Job) *world {
	j := *job
	// A budget bars buys, it does not change which is cheapest.
	j.Settings.Budget, j.Settings.TimeLimit = nil, 0
	w := &world{job: &j, fit: suitability.New(&j)}
	w.plain = bill.TaxOnTop(&j)
	bare := *w.plain
	bare.Settings.CurrencyDigits = bill.ExactDigits
	bare.Delivery = nil
	for _, d := range w.plain.Delivery {
		c := *d
		c.FreeOver, c.MinOrder = nil, nil
		bare.Delivery = append(bare.Delivery, &c)
	}
	w.bare = &bare
	return w
}

// translate is a purchase of one shape of a job as a purchase of another.
func translate(buy bill.Purchase, from, to *quotes.Job) bill.Purchase {
	out := bill.Purchase{Carry: map[bill.Carry]*quotes.Delivery{}}
	for _, it := range buy.Items {
		it.Quote = to.Quotes[slices.Index(from.Quotes, it.Quote)]
		out.Items = append(out.Items, it)
	}
	for k, row := range buy.Carry {
		if i := slices.Index(from.Delivery, row); i >= 0 {
			row = to.Delivery[i]
		}
		out.Carry[k] = row // a row that no file holds is the free delivery of an unstated supplier
	}
	return out
}

// Bought is how much of a quote a buy holds, over all sites.
type Bought struct {
	Quote *quotes.Quote
	Packs units.Decimal
}

// BuyWords is a buy in one line: "6.5 gravel-ton, 2 shale-sack".
func BuyWords(buy []Bought) string {
	if len(buy) == 0 {
		return "nothing"
	}
	var out []string
	for _, b := range buy {
		out = append(out, b.Packs.String()+" "+b.Quote.Name)
	}
	return strings.Join(out, ", ")
}

// BoughtOf adds up a purchase by quote, by quote name.
func BoughtOf(buy bill.Purchase) []Bought {
	var out []Bought
	for _, it := range buy.Items {
		if it.Steps == 0 {
			continue
		}
		i := slices.IndexFunc(out, func(b Bought) bool { return b.Quote == it.Quote })
		if i < 0 {
			i = len(out)
			out = append(out, Bought{Quote: it.Quote})
		}
		out[i].Packs = out[i].Packs.Add(it.Packs())
	}
	slices.SortFunc(out, func(a, b Bought) int { return compareText(a.Quote.Name, b.Quote.Name) })
	return out
}

func sameBuy(a, b []Bought) bool {
	return slices.EqualFunc(a, b, func(x, y Bought) bool { return x.Quote == y.Quote && x.Packs.Equal(y.Packs) })
}

// keyOf tells purchases apart, drops and tiers included.
func keyOf(buy bill.Purchase) string {
	var parts []string
	for _, it := range buy.Items {
		if it.Steps == 0 {
			continue
		}
		by := ""
		if row := buy.Carry[bill.Carry{Supplier: it.Quote.Supplier, Site: it.Site, Form: it.Quote.Form}]; row != nil {
			by = fmt.Sprintf("%s %s", row.Name, row.Pos)
		}
		parts = append(parts, fmt.Sprintf("%s@%s=%d%v by %s", it.Quote.Name, it.Site, it.Steps, it.Tiers, by))
	}
	slices.Sort(parts)
	return strings.Join(parts, "; ")
}

package files

import (
	"fmt"
	"slices"
	"strings"

	"mediabuy/quotes"
	"mediabuy/quotes/internal/spelling"
	"mediabuy/units"
)

// across warns of what only quotes, beds and delivery together can tell.
func (x *reader) across(q *quoteBook, b *bedBook, ways []*quotes.Delivery) {
	for _, r := range q.rows {
		x.nominal(r, b)
		x.manyBags(r, b)
	}
	x.endlessLoads(q, b, ways)
}

// nominal warns of a single size that a bed's minimum is above half of: a nominal
// size holds finer grain. A quote too fine for the bed is refused there anyway.
func (x *reader) nominal(r *quoteRow, b *bedBook) {
	g := r.Size
	if !g.Known || g.Min != g.Max {
		return
	}
	var beds []string
	for _, bed := range b.rows {
		if bed.MinSize != nil && *bed.MinSize > g.Min/2 && *bed.MinSize <= g.Min {
			beds = append(beds, bed.Name)
		}
	}
	if len(beds) == 0 {
		return
	}
	c := r.row.cell("size")
	x.warn(c, fmt.Sprintf("%s is a single size, and a nominal size holds finer grain; %s for more than half of it as the smallest", spelling.Quoted(c.text), asks(beds)),
		"ask the yard for the lot's lower sieve, and write both, such as "+map[units.System]string{units.US: "1/4-3/8 in", units.Metric: "6-10 mm"}[x.set.Speaks()])
}

// asks names beds that ask, three of them at most.
func asks(beds []string) string {
	slices.Sort(beds)
	several := "beds "
	if quotes.BedNamed(beds[0]) == beds[0] {
		several = ""
	}
	switch n := len(beds); {
	case n == 1:
		return quotes.BedNamed(beds[0]) + " asks"
	case n <= 3:
		return several + units.Listed(beds) + " ask"
	default:
		return fmt.Sprintf("%s%s and %d others ask", several, strings.Join(beds[:2], ", "), n-2)
	}
}

// mostBags is how many bags a buyer would still carry.
const mostBags = 2000

// manyBags warns of a bag so small that the beds would need thousands.
func (x *reader) manyBags(r *quoteRow, b *bedBook) {
	if r.Form != quotes.Bag || r.PackLitres <= 0 {
		return
	}
	need := float64(b.litres("")) / float64(r.PackLitres)
	if need > mostBags {
		x.warn(r.row.cell("pack"), fmt.Sprintf("the beds together would take more than %d of these bags", int(need)), "is the pack right, and are the sizes of the beds?")
	}
}

// litres is what the beds of a site take; "" for all.
func (b *bedBook) litres(site string) (sum units.Litres) {
	for _, r := range b.rows {
		if site == "" || r.Site == site {
			for _, l := range quotes.Layers {
				sum += max(0, r.LayerLitres(l)) * units.Litres(r.Count)
			}
		}
	}
	return sum
}

// mostUnsized is the bulk that a fee without a size of load is believed to carry.
const mostUnsized units.Litres = 20_000

// endlessLoads warns of a fee with no size of load whose truck would have to carry
// more than any does.
func (x *reader) endlessLoads(q *quoteBook, b *bedBook, ways []*quotes.Delivery) {
	if b.none {
		return
	}
	for _, d := range ways {
		unsized := slices.ContainsFunc(d.Trucks, func(t quotes.Truck) bool { return !t.Sized() })
		paid := d.OrderFee.Sign() > 0 || slices.ContainsFunc(d.Trucks, func(t quotes.Truck) bool { return t.Fee.Sign() > 0 })
		if !unsized || !paid || !slices.Contains(d.Covers, quotes.Bulk) || !q.has(d.Supplier, quotes.Bulk) {
			continue
		}
		if need := b.litres(d.Site); need > mostUnsized {
			p := d.Pos
			p.Col = max(1, p.Col)
			x.warning(p, "load_volume", fmt.Sprintf("the fee of %s has no size of load, and one load would have to carry up to %s of bulk", d.Supplier, units.FormatVolume(need, x.set.Speaks())), "",
				"ask what a load holds, and write it under load_volume or load_weight")
		}
	}
}

package bill

import (
	"fmt"
	"slices"
	"strings"

	"mediabuy/quotes"
	"mediabuy/units"
)

// Purchase is what to buy, before it is priced: whole steps of quotes for sites,
// and the drop that brings each form of a supplier's goods to a site.
type Purchase struct {
	Items []Item
	Carry map[Carry]*quotes.Delivery
}

// Item is the steps of one quote bought for one site.
type Item struct {
	Quote *quotes.Quote
	Site  string
	Steps int64
	// Tiers shares the steps out among the levels of an incremental break pool
	// that several items draw on; nil lets the items fill them in order.
	Tiers []int64
}

// Packs is steps × step.
func (i Item) Packs() units.Decimal { return units.DecimalFromInt(i.Steps).Mul(i.Quote.Step) }

// Carry names goods of one form from one supplier to one site.
type Carry struct {
	Supplier, Site string
	Form           quotes.Form
}

// Line is one goods line of the bill.
type Line struct {
	Quote     *quotes.Quote
	Site      string
	Packs     units.Decimal
	PackPrice units.Money   // the price reached; for incremental breaks the average, rounded
	BreakFrom units.Decimal // the last break reached; 0 for none
	Goods     units.Money   // rounded: packs × pack price
	Sold      units.Litres  // loose volume as sold
	Placed    units.Litres  // volume it places
}

// DropLine is one delivery line of the bill. Handling, paid once for a whole
// supplier, has no site and no loads.
type DropLine struct {
	Supplier, Site, Name string
	Terms                *quotes.Delivery
	Loads                int          // 0 for handling, and where no terms were stated
	Trucks               []TruckLoads // of each size used; nil for handling
	Order, Load, Haul    units.Money  // unrounded parts, as charged
	Waived               bool
	Fee                  units.Money // rounded: what is paid
}

// Bill is a purchase priced exactly, rounded as an invoice is: each goods line,
// each drop, tax once per supplier, rinsing once.
type Bill struct {
	Lines    []Line     // by quote name, then site
	Drops    []DropLine // by supplier, site, name; handling first
	Goods    units.Money
	Delivery units.Money
	Tax      units.Money
	Rinsing  units.Money
	Total    units.Money
	// TaxOf is the tax of each supplier, rounded.
	TaxOf map[string]units.Money
}

// Suppliers are those that the bill buys from, by name.
func (b *Bill) Suppliers() []string {
	var out []string
	for _, l := range b.Lines {
		if !slices.Contains(out, l.Quote.Supplier) {
			out = append(out, l.Quote.Supplier)
		}
	}
	slices.Sort(out)
	return out
}

// Price works out the bill of a purchase in exact decimal money, from the quotes
// and the delivery terms alone. It is an error if a supplier would not sell it:
// too few or too many packs, an order below its smallest, no way to bring it.
func Price(job *quotes.Job, buy Purchase) (*Bill, error) {
	b := &Bill{TaxOf: map[string]units.Money{}}
	digits := job.Settings.CurrencyDigits
	items := slices.Clone(buy.Items)
	items = slices.DeleteFunc(items, func(i Item) bool { return i.Steps == 0 })
	slices.SortFunc(items, func(x, y Item) int {
		if c := strings.Compare(x.Quote.Name, y.Quote.Name); c != 0 {
			return c
		}
		return strings.Compare(x.Site, y.Site)
	})
	if err := sellable(items); err != nil {
		return nil, err
	}
	goods, err := PriceGoods(job, items)
	if err != nil {
		return nil, err
	}
	rawTax := map[string]units.Money{} // by supplier, unrounded
	var hours units.Decimal
	for i, it := range items {
		q, g := it.Quote, goods[i]
		packs := it.Packs()
		line := Line{
			Quote: q, Site: it.Site, Packs: packs, PackPrice: g.price, BreakFrom: g.from, Goods: g.Value.Round(digits),
			Sold: units.Litres(packs.Float() * float64(q.PackLitres)), Placed: units.Litres(packs.Float() * float64(q.Placed())),
		}
		b.Lines = append(b.Lines, line)
		b.Goods = b.Goods.Add(line.Goods)
		rawTax[q.Supplier] = rawTax[q.Supplier].Add(line.Goods.Times(GoodsTax(job, q)))
		hours = hours.Add(units.DecimalOf(q.RinseHours()).Mul(packs))
	}
	b.Rinsing = job.Settings.LabourRate.Times(hours).Round(digits)

	drops, err := priceDrops(job, items, goods, buy.Carry)
	if err != nil {
		return nil, err
	}
	b.Drops = drops
	for _, d := range drops {
		b.Delivery = b.Delivery.Add(d.Fee)
		rawTax[d.Supplier] = rawTax[d.Supplier].Add(d.Fee.Times(DropTax(job, d.Terms)))
	}
	for s, t := range rawTax {
		b.TaxOf[s] = t.Round(digits)
		b.Tax = b.Tax.Add(b.TaxOf[s])
	}
	b.Total = b.Goods.Add(b.Delivery).Add(b.Tax).Add(b.Rinsing)
	return b, nil
}

// sellable checks least and most quantities over all sites.
func sellable(items []Item) error {
	total := map[*quotes.Quote]units.Decimal{}
	for _, it := range items {
		if it.Steps < 0 {
			return fmt.Errorf("%q: %d steps bought, want 0 or more", it.Quote.Name, it.Steps)
		}
		total[it.Quote] = total[it.Quote].Add(it.Packs())
	}
	for _, it := range items {
		q, n := it.Quote, total[it.Quote]
		if n.Cmp(q.MinQty) < 0 {
			return fmt.Errorf("%q: %s packs bought, sold from %s", q.Name, n, q.MinQty)
		}
		if q.MaxQty != nil && n.Cmp(*q.MaxQty) > 0 {
			return fmt.Errorf("%q: %s packs bought, %s in stock", q.Name, n, *q.MaxQty)
		}
	}
	return nil
}

// lineGoods is what an item costs before rounding, at which price.
type lineGoods struct {
	Value, price units.Money
	from         units.Decimal
}

// PriceGoods prices each item at the level its pool reaches.
func PriceGoods(job *quotes.Job, items []Item) ([]lineGoods, error) {
	out := make([]lineGoods, len(items))
	index := map[*quotes.Quote]int{}
	for i, q := range job.Quotes {
		index[q] = i
	}
	for _, pl := range Pools(job) {
		var mine []int
		var sum units.Decimal
		for i, it := range items {
			if slices.Contains(pl.Members, index[it.Quote]) {
				mine = append(mine, i)
				sum = sum.Add(it.Packs())
			}
		}
		if len(mine) == 0 {
			continue
		}
		if pl.Kind == quotes.Incremental && len(pl.Levels) > 1 {
			if err := priceTiers(job, pl, items, mine, sum, index, out); err != nil {
				return nil, err
			}
			continue
		}
		for _, i := range mine {
			q := items[i].Quote
			price := q.PriceAt(sum)
			out[i] = lineGoods{price.Times(items[i].Packs()), price, q.BreakReached(sum)}
		}
	}
	return out, nil
}

// priceTiers prices an incremental pool: sum packs fill the levels in order, and
// each item has its share of each level.
func priceTiers(job *quotes.Job, pl *Pool, items []Item, mine []int, sum units.Decimal, index map[*quotes.Quote]int, out []lineGoods) error {
	step := job.Quotes[pl.Members[0]].Step
	left := make([]int64, len(pl.Levels)) // steps that each level holds of this sum
	all := int64(StepsUp(sum, step))
	for l := range pl.Levels {
		from := int64(StepsUp(pl.Before(job, l), step))
		to := all
		if l+1 < len(pl.Levels) {
			to = min(all, int64(StepsUp(pl.Before(job, l+1), step)))
		}
		left[l] = max(0, to-from)
	}
	for _, i := range mine {
		it := items[i]
		tiers := it.Tiers
		if tiers == nil {
			tiers = make([]int64, len(left))
			want := it.Steps
			for l := range left {
				tiers[l] = min(want, left[l])
				want -= tiers[l]
			}
		}
		k := slices.Index(pl.Members, index[it.Quote])
		var g lineGoods
		total := int64(0)
		for l, n := range tiers {
			if n < 0 || n > left[l] {
				return fmt.Errorf("%q: %d steps at the price from %s packs, %d are left at it", it.Quote.Name, n, pl.Levels[l].From, left[l])
			}
			left[l] -= n
			total += n
			if n > 0 {
				g.from = it.Quote.BreakReached(pl.Levels[l].From)
			}
			g.Value = g.Value.Add(pl.Levels[l].Prices[k].Times(units.DecimalFromInt(n).Mul(step)))
		}
		if total != it.Steps {
			return fmt.Errorf("%q: %d steps priced of %d bought", it.Quote.Name, total, it.Steps)
		}
		g.price = units.MoneyOf(g.Value.Decimal().Quo(it.Packs())).Round(job.Settings.CurrencyDigits)
		out[i] = g
	}
	return nil
}

// priceDrops works out every drop used and each supplier's handling.
func priceDrops(job *quotes.Job, items []Item, goods []lineGoods, carry map[Carry]*quotes.Delivery) ([]DropLine, error) {
	digits := job.Settings.CurrencyDigits
	type to struct{ supplier, site string }
	value := map[to]units.Money{} // goods before tax sent to a site
	type load struct {
		row      *quotes.Delivery
		supplier string
		site     string
		cargo    cargo
	}
	var loads []*load
	for i, it := range items {
		q := it.Quote
		t := to{q.Supplier, it.Site}
		value[t] = value[t].Add(BeforeTax(job, q, goods[i].Value))
		row := carry[Carry{q.Supplier, it.Site, q.Form}]
		if row == nil {
			ways := slices.DeleteFunc(DropsTo(job, q.Supplier, it.Site), func(d Drop) bool { return !d.Carries(q.Form) })
			if len(ways) != 1 {
				return nil, fmt.Errorf("%q to site %q: %d ways to bring %s goods and none chosen, want one", q.Name, it.Site, len(ways), q.Form)
			}
			row = ways[0].Row
		}
		at := slices.IndexFunc(loads, func(l *load) bool {
			return l.supplier == q.Supplier && l.site == it.Site && (l.row == row || l.row.Pos == row.Pos && l.row.Name == row.Name)
		})
		if at < 0 {
			at = len(loads)
			loads = append(loads, &load{row: row, supplier: q.Supplier, site: it.Site})
		}
		loads[at].cargo = loads[at].cargo.add(row, q, it.Packs())
	}

	var out []DropLine
	handling := map[string]*quotes.Delivery{}
	for _, l := range loads {
		row := l.row
		v := value[to{l.supplier, l.site}]
		if row.MinOrder != nil && v.Cmp(*row.MinOrder) < 0 {
			to := ""
			if l.site != "" {
				to = fmt.Sprintf(" to site %q", l.site)
			}
			return nil, fmt.Errorf("%s%s: goods of %s, the smallest order by %q is %s", l.supplier, to, v.Text(digits), row.Name, row.MinOrder.Text(digits))
		}
		d := DropLine{Supplier: l.supplier, Site: l.site, Name: row.Name, Terms: row}
		var loading units.Money
		d.Trucks, loading = l.cargo.loads(row.Trucks)
		for _, t := range d.Trucks {
			d.Loads += t.Loads
		}
		d.Waived = row.FreeOver != nil && v.Cmp(*row.FreeOver) >= 0
		if !d.Waived {
			d.Order = row.OrderFee
			d.Load = loading
		}
		d.Haul = row.Haul.For(units.Litres(l.cargo.sold().Float()))
		d.Fee = d.Order.Add(d.Load).Add(d.Haul).Round(digits)
		out = append(out, d)
		h := handling[l.supplier]
		if h == nil || dearerHandling(job, row, h) {
			handling[l.supplier] = row
		}
	}
	for s, row := range handling {
		if row.Handling.Sign() > 0 {
			out = append(out, DropLine{Supplier: s, Name: "handling", Terms: row, Order: row.Handling, Fee: row.Handling.Round(digits)})
		}
	}
	slices.SortFunc(out, func(x, y DropLine) int {
		if c := strings.Compare(x.Supplier, y.Supplier); c != 0 {
			return c
		}
		if c := strings.Compare(x.Site, y.Site); c != 0 {
			return c
		}
		if c := x.Loads - y.Loads; x.Loads*y.Loads == 0 && c != 0 { // handling first
			return c
		}
		return strings.Compare(x.Name, y.Name)
	})
	return out, nil
}

// dearerHandling reports whether a's handling with its tax is above b's.
func dearerHandling(job *quotes.Job, a, b *quotes.Delivery) bool {
	one := units.DecimalFromInt(1)
	return a.Handling.Times(one.Add(DropTax(job, a))).Cmp(b.Handling.Times(one.Add(DropTax(job, b)))) > 0
}

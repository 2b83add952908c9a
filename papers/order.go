package papers

import (
	"encoding/csv"
	"fmt"
	"io"
	"slices"
	"strings"

	"mediabuy/optimise"
	"mediabuy/optimise/bill"
	"mediabuy/papers/received"
	"mediabuy/papers/safe"
	"mediabuy/quotes"
	"mediabuy/units"
)

// Order is what one supplier is asked to bring to one site.
type Order struct {
	Number   string // the pricing day and a count, such as 2026-04-06/2
	Supplier string
	Site     string // "" in a job that names no site
	Day      quotes.Date
	NeedBy   quotes.Date
	Lines    []OrderLine
	Drops    []bill.DropLine
	Goods    units.Money
	Delivery units.Money
	Tax      units.Money
	Total    units.Money
	Included bool   // prices carry their tax, so Tax is nothing on top
	Unproven string // what stands at the head of an order from a plan without proof; "" with one

	job *quotes.Job
}

// OrderLine is one goods line of an order.
type OrderLine struct {
	bill.Line
	tiers []tier
}

// Orders splits a plan's bill into one order for each supplier and site, by names.
// Added up they are the bill without rinsing, which is the buyer's own time. A
// supplier's handling is on its first order. Tax is rounded once a supplier, as on
// the bill, and shared among its orders by the tax each would have alone, odd cents
// to the largest remainders.
func Orders(p *optimise.Plan, _ Style) ([]*Order, error) {
	if err := checkPlan(p); err != nil {
		return nil, err
	}
	var out []*Order
	find := func(supplier, site string) *Order {
		for _, o := range out {
			if o.Supplier == supplier && o.Site == site {
				return o
			}
		}
		o := &Order{Supplier: supplier, Site: site, Day: p.Job.Settings.Date, NeedBy: p.Job.Settings.NeedBy,
			Included: p.Job.Settings.TaxIncluded, Unproven: draft(p), job: p.Job}
		out = append(out, o)
		return o
	}
	for _, l := range p.Bill.Lines {
		t, err := tiers(p, l)
		if err != nil {
			return nil, fmt.Errorf("writing orders: %w", err)
		}
		o := find(l.Quote.Supplier, l.Site)
		o.Lines = append(o.Lines, OrderLine{l, t})
		o.Goods = o.Goods.Add(l.Goods)
	}
	slices.SortFunc(out, func(a, b *Order) int {
		if c := strings.Compare(a.Supplier, b.Supplier); c != 0 {
			return c
		}
		return strings.Compare(a.Site, b.Site)
	})
	for _, d := range p.Bill.Drops {
		i := slices.IndexFunc(out, func(o *Order) bool {
			return o.Supplier == d.Supplier && (d.IsHandling() || o.Site == d.Site)
		})
		if i < 0 {
			return nil, fmt.Errorf("writing orders: %s is paid for %s%s and sells nothing there", d.Supplier, d.Name, AtSite("to", d.Site))
		}
		out[i].Drops = append(out[i].Drops, d)
		out[i].Delivery = out[i].Delivery.Add(d.Fee)
	}
	if err := shareTax(p, out); err != nil {
		return nil, err
	}
	for i, o := range out {
		o.Number = fmt.Sprintf("%s/%d", o.Day, i+1)
		o.Total = o.Goods.Add(o.Delivery).Add(o.Tax)
	}
	return out, nil
}

// draft marks an order from a plan without proof. What may still be saved is not for
// the supplier to read; the buyer is told it apart.
func draft(p *optimise.Plan) string {
	if p.Status == optimise.Optimal {
		return ""
	}
	return "Draft: the plan behind this order is not proven yet. Send it only once that is settled, or if it will do."
}

// shareTax gives each order its part of its supplier's tax.
func shareTax(p *optimise.Plan, orders []*Order) error {
	if p.Job.Settings.TaxIncluded {
		return nil
	}
	digits := p.Job.Settings.CurrencyDigits
	minor := units.DecimalFromInt(1)
	for range digits {
		minor = minor.Mul(units.DecimalFromInt(10))
	}
	for i := 0; i < len(orders); {
		j := i
		var weights []float64
		for ; j < len(orders) && orders[j].Supplier == orders[i].Supplier; j++ {
			raw := units.Money{}
			for _, l := range orders[j].Lines {
				raw = raw.Add(l.Goods.Times(l.Quote.Tax))
			}
			for _, d := range orders[j].Drops {
				raw = raw.Add(d.Fee.Times(d.Terms.Tax))
			}
			weights = append(weights, raw.Float())
		}
		all := p.Bill.TaxOf[orders[i].Supplier].Decimal().Mul(minor)
		cents, err := all.Floor() // whole already: it is rounded to the currency's digits
		if err != nil {
			return fmt.Errorf("sharing the tax of %s among its orders: %w", orders[i].Supplier, err)
		}
		for k, part := range units.Split(cents, weights) {
			orders[i+k].Tax = units.MoneyOf(units.DecimalFromInt(part).Quo(minor))
		}
		i = j
	}
	return nil
}

// CSV writes the order as rows of goods, delivery, tax and the total, which adds up
// the amounts above it. [received.ReadOrder] reads it back.
func (o *Order) CSV(w io.Writer) error {
	cw := csv.NewWriter(w)
	digits := o.job.Settings.CurrencyDigits
	rows := [][]string{received.OrderHeads}
	add := func(kind string, q *quotes.Quote, what, n, price, from, amount string) {
		r := []string{o.Number, o.Supplier, o.Site, o.NeedBy.String(), kind, "", what, "", "", n, "", price, from, amount, o.job.Settings.Currency}
		if q != nil {
			r[5], r[7], r[8], r[10] = q.Name, q.Medium.Name, q.Size.Raw, q.Pack.Raw
		}
		rows = append(rows, safe.Row(r...))
	}
	for _, l := range o.Lines {
		from := ""
		if !l.BreakFrom.IsZero() {
			from = l.BreakFrom.String()
		}
		add(received.KindGoods, l.Quote, l.Quote.Item, l.Packs.String(), optimise.PriceText(l.PackPrice, digits), from, l.Goods.Text(digits))
	}
	for _, d := range o.Drops {
		loads := ""
		if d.Loads > 0 {
			loads = fmt.Sprint(d.Loads)
		}
		add(received.KindDelivery, nil, d.Name, loads, "", "", d.Fee.Text(digits))
	}
	if !o.Included {
		add(received.KindTax, nil, "tax", "", "", "", o.Tax.Text(digits))
	}
	add(received.KindTotal, nil, "total", "", "", "", o.Total.Text(digits))
	if err := cw.WriteAll(rows); err != nil {
		return fmt.Errorf("writing order %s: %w", o.Number, err)
	}
	return nil
}

// PlanOrder is what a plan orders, for a count without order files.
func PlanOrder(p *optimise.Plan) ([]received.Ordered, error) {
	orders, err := Orders(p, Style{})
	if err != nil {
		return nil, err
	}
	var out []received.Ordered
	for _, o := range orders {
		for _, l := range o.Lines {
			out = append(out, received.Ordered{Order: o.Number, Planned: true, Due: o.NeedBy, Quote: l.Quote, Site: l.Site, Packs: l.Packs, Amount: l.Goods})
		}
	}
	return out, nil
}

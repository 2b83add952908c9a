package document

import (
	"mediabuy/cmd/mediabuy/internal/show"
	"mediabuy/optimise"
	"mediabuy/units"
)

// Order is the machine-readable answer of order.
type Order struct {
	Currency string          `json:"currency"`
	Total    string          `json:"total"`
	Rinsing  string          `json:"rinsing"` // part of the plan's total that nobody is paid
	Orders   []documentOrder `json:"orders"`
	Files    []string        `json:"files"`
	Kept     []string        `json:"kept"`         // copies of orders that were written over
	Still    []string        `json:"other_orders"` // that lie in the job's folder
}

type documentOrder struct {
	Order    string                  `json:"order"`
	Supplier string                  `json:"supplier"`
	Site     string                  `json:"site"`
	NeedBy   string                  `json:"need_by"`
	Goods    string                  `json:"goods"`
	Delivery string                  `json:"delivery"`
	Tax      string                  `json:"tax"`
	Total    string                  `json:"total"`
	Lines    []documentOrderLine     `json:"lines"`
	Drops    []documentOrderDelivery `json:"deliveries"`
}

type documentOrderLine struct {
	Quote     string  `json:"quote"`
	Medium    string  `json:"medium"`
	Packs     float64 `json:"packs"`
	PackPrice string  `json:"pack_price"`
	BreakFrom float64 `json:"break_from"`
	Goods     string  `json:"goods"`
}

type documentOrderDelivery struct {
	Name  string `json:"name"`
	Loads int    `json:"loads"`
	Fee   string `json:"fee"`
}

func NewOrder(v show.OrderView) Order {
	p, orders := v.Plan, v.Orders
	digits := p.Job.Settings.CurrencyDigits
	text := func(m units.Money) string { return m.Text(digits) }
	doc := Order{Currency: p.Job.Settings.Currency, Total: text(p.Bill.Total), Rinsing: text(p.Bill.Rinsing), Files: v.Files,
		Kept: append([]string{}, v.Kept...), Still: append([]string{}, v.Still...)}
	for _, o := range orders {
		d := documentOrder{Order: o.Number, Supplier: o.Supplier, Site: o.Site, NeedBy: o.NeedBy.String(), Goods: text(o.Goods), Delivery: text(o.Delivery),
			Tax: text(o.Tax), Total: text(o.Total), Lines: []documentOrderLine{}, Drops: []documentOrderDelivery{}}
		for _, l := range o.Lines {
			d.Lines = append(d.Lines, documentOrderLine{l.Quote.Name, l.Quote.Medium.Name, l.Packs.Float(), optimise.PriceText(l.PackPrice, digits), l.BreakFrom.Float(), text(l.Goods)})
		}
		for _, l := range o.Drops {
			d.Drops = append(d.Drops, documentOrderDelivery{l.Name, l.Loads, text(l.Fee)})
		}
		doc.Orders = append(doc.Orders, d)
	}
	return doc
}

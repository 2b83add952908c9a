package document

import (
	"mediabuy/cmd/mediabuy/internal/show"
	"mediabuy/optimise"
	"mediabuy/quotes"
	"mediabuy/units"
)

// Receive is the machine-readable answer of receive. Counts are packs.
type Receive struct {
	Currency string                       `json:"currency"`
	Day      string                       `json:"day"`
	Counted  []documentCounted            `json:"counted"`
	Finish   documentFinish               `json:"finish"`
	Notes    []documentNote               `json:"notes"`
	Files    []string                     `json:"files"`
	Warnings []optimise.DocumentComplaint `json:"warnings"`
}

type documentCounted struct {
	Quote    string   `json:"quote"`
	Supplier string   `json:"supplier"`
	Site     string   `json:"site"`
	Orders   []string `json:"orders"`
	Ordered  float64  `json:"ordered"`
	Arrived  float64  `json:"arrived"`
	Rejected float64  `json:"rejected"`
	Accepted float64  `json:"accepted"`
	Short    float64  `json:"short"`
	Over     float64  `json:"over"`
	Worth    string   `json:"missing_worth"` // goods money before tax
	UnderWay float64  `json:"under_way"`
	Coming   []coming `json:"coming"` // what is under way, order by order
	Bills    []billed `json:"bills"`  // where a bill was looked at
}

// billed is what was billed for packs that were kept; money before tax.
type billed struct {
	Packs  float64 `json:"packs"`
	Agreed string  `json:"agreed"` // for one pack
	Price  string  `json:"billed"` // for one pack
	More   string  `json:"more"`   // for all
}

// coming is what of an order is under way; its day is left out where none was said.
type coming struct {
	Order string  `json:"order"`
	Packs float64 `json:"packs"`
	Due   string  `json:"due,omitempty"`
}

// documentFinish is the cheapest way to finish; without money where there is none.
type documentFinish struct {
	Status     optimise.Status             `json:"status"`
	ToPay      string                      `json:"to_pay,omitempty"`
	Goods      string                      `json:"goods,omitempty"`
	Delivery   string                      `json:"delivery,omitempty"`
	Tax        string                      `json:"tax,omitempty"`
	Rinsing    string                      `json:"rinsing,omitempty"`
	Sure       float64                     `json:"sure,omitempty"` // where the job asks for a sureness
	Purchases  []optimise.DocumentPurchase `json:"purchases"`
	Deliveries []optimise.DocumentDelivery `json:"deliveries"`
	Orders     []string                    `json:"orders"` // numbers of the orders that buy it, written or not
	Remedies   []string                    `json:"remedies,omitempty"`
}

type documentNote struct {
	Supplier string `json:"supplier"`
	Text     string `json:"text"`
}

func NewReceive(v *show.ReceiveView) Receive {
	s, digits := v.Settled, v.Job.Settings.CurrencyDigits
	d := Receive{Currency: v.Job.Settings.Currency, Day: s.Day.String(), Counted: []documentCounted{}, Notes: []documentNote{},
		Files: append([]string{}, v.Files...), Warnings: optimise.DocumentWarnings(&quotes.Report{Warnings: v.Warnings})}
	for _, c := range s.Counted {
		on := []coming{}
		for _, p := range c.Coming {
			on = append(on, coming{p.Order, p.Packs.Float(), p.Due.String()})
		}
		bills := []billed{}
		for _, b := range c.Bills {
			bills = append(bills, billed{b.Packs.Float(), optimise.PriceText(b.Agreed, digits), optimise.PriceText(b.Price, digits), b.More.Text(digits)})
		}
		d.Counted = append(d.Counted, documentCounted{c.Quote.Name, c.Quote.Supplier, c.Site, append([]string{}, c.Orders...), c.Ordered.Float(), c.Arrived.Float(),
			c.Rejected.Float(), c.Accepted().Float(), c.Short().Float(), c.Over().Float(), c.Worth.Text(digits), c.UnderWay().Float(), on, bills})
	}
	for _, n := range v.Notes {
		d.Notes = append(d.Notes, documentNote(n))
	}
	d.Finish = documentFinish{Status: s.Plan.Status, Purchases: []optimise.DocumentPurchase{}, Deliveries: []optimise.DocumentDelivery{}, Orders: []string{}}
	for _, o := range v.Orders {
		d.Finish.Orders = append(d.Finish.Orders, o.Number)
	}
	if s.Plan.Bill == nil {
		for _, o := range s.Plan.Why {
			d.Finish.Remedies = append(d.Finish.Remedies, o.Remedy)
		}
		return d
	}
	text := func(m units.Money) string { return m.Text(digits) }
	d.Finish.ToPay, d.Finish.Goods, d.Finish.Delivery, d.Finish.Tax, d.Finish.Rinsing = text(s.ToPay), text(s.Goods), text(s.Delivery), text(s.Tax), text(s.Rinsing)
	d.Finish.Sure = s.Sure
	for _, l := range s.Buy {
		d.Finish.Purchases = append(d.Finish.Purchases, optimise.DocumentPurchase{Quote: l.Quote.Name, Supplier: l.Quote.Supplier, Medium: l.Quote.Medium.Name, Form: l.Quote.Form,
			Site: l.Site, Packs: l.Packs.Float(), PackPrice: optimise.PriceText(l.PackPrice, digits), BreakFrom: l.BreakFrom.Float(), Goods: text(l.Goods),
			LitresSold: units.Tidy(float64(l.Sold)), LitresPlaced: units.Tidy(float64(l.Placed))})
	}
	for _, l := range s.Drops {
		d.Finish.Deliveries = append(d.Finish.Deliveries, optimise.DocumentDelivery{Supplier: l.Supplier, Site: l.Site, Name: l.Name, Loads: l.Loads, Fee: text(l.Fee)})
	}
	return d
}

// Gate is the machine-readable answer of receive --gate.
type Gate struct {
	Files []string `json:"files"`
}

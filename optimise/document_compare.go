package optimise

import (
	"mediabuy/optimise/suitability"
	"mediabuy/quotes"
	"mediabuy/units"
)

// CompareDocument is a comparison of quotes as one machine-readable answer. Money
// is as in [Document]; PerLitre has four decimals. What has no price is null.
type CompareDocument struct {
	Currency string              `json:"currency"`
	Litres   float64             `json:"litres"` // asked, or all that the beds take
	Quotes   []CompareQuote      `json:"quotes"`
	Warnings []DocumentComplaint `json:"warnings"`
}

// CompareQuote is one quote of a comparison.
type CompareQuote struct {
	Quote         string            `json:"quote"`
	Supplier      string            `json:"supplier"`
	Medium        string            `json:"medium"`
	Form          quotes.Form       `json:"form"`
	Litres        float64           `json:"litres"` // placed litres it is priced at
	Packs         float64           `json:"packs"`
	BreakFrom     float64           `json:"break_from"`
	LitresPlaced  float64           `json:"litres_placed"`
	ShortLitres   float64           `json:"short_litres"`
	PricePerLitre string            `json:"price_per_litre"` // of the list price, per litre as sold
	PerLitre      *string           `json:"per_litre"`       // landed, per placed litre
	Total         *string           `json:"total"`
	Goods         *string           `json:"goods"`
	Delivery      *string           `json:"delivery"`
	Tax           *string           `json:"tax"`
	Rinsing       *string           `json:"rinsing"`
	Fits          []string          `json:"fits"`
	Refused       []DocumentRefusal `json:"refused"`
	Note          string            `json:"note"`
}

// PerLitreDigits are the decimals of money per litre.
const PerLitreDigits = 4

// ComparedPer is the volume that money is compared for in a habit of units, and the
// decimals that it is told with.
func ComparedPer(sys units.System) (name string, v units.Litres, digits int) {
	if sys == units.US {
		return "ft³", units.CubicFoot, 2
	}
	return "L", units.Litre, PerLitreDigits
}

// NewCompareDocument sets out a comparison at so many litres. In a job without
// beds the refusals name no bed and no layer.
func NewCompareDocument(job *quotes.Job, fit *suitability.Fit, list []Quoted, litres units.Litres, rep *quotes.Report) *CompareDocument {
	d := &CompareDocument{Currency: job.Settings.Currency, Litres: units.Tidy(float64(litres)), Quotes: []CompareQuote{}, Warnings: DocumentWarnings(rep)}
	refused := map[string][]DocumentRefusal{}
	for _, r := range DocumentRefusals(fit) {
		refused[r.Quote] = append(refused[r.Quote], r)
	}
	for _, e := range list {
		q := e.Quote
		if len(job.Beds) == 0 {
			refused[q.Name] = e.Reasons
		}
		c := CompareQuote{
			Quote: q.Name, Supplier: q.Supplier, Medium: q.Medium.Name, Form: q.Form, Litres: units.Tidy(float64(e.Litres)),
			Packs: e.Packs.Float(), BreakFrom: e.Break.Float(), LitresPlaced: units.Tidy(float64(e.Placed)), ShortLitres: units.Tidy(float64(e.Short)),
			PricePerLitre: ListPrice(q).Text(PerLitreDigits), Fits: e.Fits, Refused: append([]DocumentRefusal{}, refused[q.Name]...), Note: e.Note,
		}
		if e.Bill != nil {
			text := func(m units.Money, digits int) *string { s := m.Text(digits); return &s }
			digits := job.Settings.CurrencyDigits
			c.PerLitre = text(e.PerLitre, PerLitreDigits)
			c.Total, c.Goods, c.Delivery = text(e.Bill.Total, digits), text(e.Bill.Goods, digits), text(e.Bill.Delivery, digits)
			c.Tax, c.Rinsing = text(e.Bill.Tax, digits), text(e.Bill.Rinsing, digits)
		}
		d.Quotes = append(d.Quotes, c)
	}
	return d
}

// ListPrice is the price of one litre as sold, before breaks, delivery and
// losses: the figure on the yard's board.
func ListPrice(q *quotes.Quote) units.Money {
	return units.MoneyOf(q.Price.Decimal().Quo(units.DecimalOf(float64(q.PackLitres))))
}

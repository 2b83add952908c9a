package breakeven

import (
	"math"

	"mediabuy/optimise/breakeven/byvolume"
	"mediabuy/quotes"
	"mediabuy/units"
)

// Answer is everything that was worked out; parts not asked for are nil.
type Answer struct {
	Job      *quotes.Job
	Total    units.Money // of today's plan
	ByPrice  []Series
	ByVolume []*byvolume.Volume
	WhatIf   *WhatIf
	Sizes    *Sizes
	OneMore  *Other
	Notes    []string
}

// Document is an answer as one machine-readable document. Money is a decimal
// string with the currency's digits, volumes are placed litres, lists are never
// null. ByPrice holds quotes only; what else moves is in ByFactor and ByFee.
type Document struct {
	Currency string              `json:"currency"`
	Total    string              `json:"total"`
	ByPrice  []DocumentPrice     `json:"by_price"`
	ByFactor []DocumentFactor    `json:"by_factor"`
	ByFee    []DocumentFee       `json:"by_fee"`
	ByVolume []byvolume.Document `json:"by_volume"`
	WhatIf   *DocumentWhatIf     `json:"what_if,omitempty"`
	BySize   *DocumentSizes      `json:"by_size,omitempty"`
	OneMore  *DocumentOther      `json:"one_more,omitempty"`
	Notes    []string            `json:"notes"`
}

// DocumentPrice is the series of one quote's price: its pack price before
// breaks, every break moved in the same proportion.
type DocumentPrice struct {
	Quote string `json:"quote"`
	Price string `json:"price"`
	DocumentSeries
}

// DocumentFactor is the series of several prices moved together. Factors are of
// today's prices: 0.9 is ten percent off.
type DocumentFactor struct {
	Name string `json:"name"`
	Kind Kind   `json:"kind"`
	DocumentSeries
}

// DocumentFee is the series of one fee of a delivery row.
type DocumentFee struct {
	Name     string `json:"name"`
	Kind     Kind   `json:"kind"`
	Supplier string `json:"supplier"`
	Fee      string `json:"fee"`
	DocumentSeries
}

// DocumentSeries is what every series tells. EntersAt and LeavesAt are rounded
// down, to a price at which it is still bought; null means never. PercentOff is
// rounded up. Changes are all there are up to LeavesAt, or up to today's price for
// what is not in the plan, unless Partial says why not.
type DocumentSeries struct {
	InPlan     bool             `json:"in_plan"`
	EntersAt   *string          `json:"enters_at"`
	LeavesAt   *string          `json:"leaves_at"`
	ComesBack  *string          `json:"comes_back,omitempty"` // the price above leaves_at from which it is bought again; looked for where every change is
	PercentOff *string          `json:"percent_off"`
	Changes    []DocumentChange `json:"changes"`
	Proven     bool             `json:"proven"`
	Refused    bool             `json:"refused"`
	Partial    string           `json:"partial"`
}

// DocumentChange is one place where the cheapest buy changes. Jump says that free
// delivery or a smallest order comes in there, so that the cost is not the same on
// both sides.
type DocumentChange struct {
	At        string           `json:"at"`
	BuyBelow  []DocumentBought `json:"buy_below"`
	BuyAbove  []DocumentBought `json:"buy_above"`
	Jump      bool             `json:"jump"`
	Confirmed bool             `json:"confirmed"`
}

// DocumentBought is packs of a quote.
type DocumentBought struct {
	Quote string  `json:"quote"`
	Packs float64 `json:"packs"`
}

// DocumentWhatIf is what would change the answer.
type DocumentWhatIf struct {
	NextBest      *DocumentOther  `json:"next_best"`
	NextBestExact bool            `json:"next_best_exact"`
	LeaveOut      []DocumentOther `json:"leave_out"`
	Rules         []DocumentOther `json:"rules"`
	Limits        []DocumentOther `json:"limits"`
}

// DocumentOther is a changed job's cheapest buy; Total and Difference are null
// where there is none. Difference is how much more it costs than today's plan.
type DocumentOther struct {
	Name       string           `json:"name"`
	Infeasible bool             `json:"infeasible"`
	Proven     bool             `json:"proven"`
	Total      *string          `json:"total"`
	Difference *string          `json:"difference"`
	Buy        []DocumentBought `json:"buy"`
}

// DocumentSizes is the whole job at several sizes.
type DocumentSizes struct {
	Sizes   []DocumentSize       `json:"sizes"`
	Changes []DocumentSizeChange `json:"changes"`
}

// DocumentSize is one size of the whole job.
type DocumentSize struct {
	Factor float64 `json:"factor"`
	Litres float64 `json:"litres"`
	DocumentOther
	BulkShare float64 `json:"bulk_share"`
}

// DocumentSizeChange is a change of suppliers between two sizes.
type DocumentSizeChange struct {
	FromFactor float64  `json:"from_factor"`
	ToFactor   float64  `json:"to_factor"`
	Below      []string `json:"suppliers_below"`
	Above      []string `json:"suppliers_above"`
}

// Told is a threshold as it is told: rounded down to so many digits, and where a
// jump comes in exactly there, one unit below it. The target is still bought at it.
func (s Series) Told(x *units.Decimal, digits int) *units.Decimal {
	if x == nil {
		return nil
	}
	unit := units.DecimalOf(math.Pow(10, -float64(digits)))
	n, err := x.Quo(unit).Floor()
	if err != nil {
		return nil // past any whole number, so past any sensible price
	}
	v := unit.Mul(units.DecimalFromInt(n))
	for _, c := range s.Changes {
		if c.Jump && c.At.Equal(v) {
			v = v.Sub(unit)
		}
	}
	if v.Sign() < 0 {
		return nil
	}
	return &v
}

// Digits are the decimals that thresholds of the target are told with.
func (t Target) Digits(job *quotes.Job) int {
	if t.Factor() {
		return toldDigits
	}
	return job.Settings.CurrencyDigits
}

// PercentOff is how far today's x must fall for the target to enter, rounded up to
// a tenth of a percent; nil if it never enters.
func (s Series) PercentOff(digits int) *units.Decimal {
	at := s.Told(s.Enters, digits)
	if at == nil || s.Target.Now.Sign() <= 0 {
		return nil
	}
	thousand := units.DecimalFromInt(1000)
	n, err := s.Target.Now.Sub(*at).Mul(thousand).Quo(s.Target.Now).Round(xDigits).Ceil()
	if err != nil {
		return nil
	}
	v := units.DecimalFromInt(n).Quo(units.DecimalFromInt(10))
	return &v
}

// NewDocument sets out an answer.
func NewDocument(a *Answer) *Document {
	digits := a.Job.Settings.CurrencyDigits
	d := &Document{
		Currency: a.Job.Settings.Currency, Total: a.Total.Text(digits), ByPrice: []DocumentPrice{}, ByFactor: []DocumentFactor{},
		ByFee: []DocumentFee{}, ByVolume: []byvolume.Document{}, Notes: append([]string{}, a.Notes...),
	}
	for _, s := range a.ByPrice {
		t := s.Target
		ds := seriesDocument(s, t.Digits(a.Job))
		switch {
		case t.Kind == QuotePrice:
			d.ByPrice = append(d.ByPrice, DocumentPrice{t.Name, t.Now.Text(digits), ds})
		case t.Factor():
			d.ByFactor = append(d.ByFactor, DocumentFactor{t.Name, t.Kind, ds})
		default:
			d.ByFee = append(d.ByFee, DocumentFee{t.Name, t.Kind, t.supplier, t.Now.Text(digits), ds})
		}
	}
	for _, v := range a.ByVolume {
		d.ByVolume = append(d.ByVolume, byvolume.NewDocument(v))
	}
	if w := a.WhatIf; w != nil {
		d.WhatIf = &DocumentWhatIf{
			NextBestExact: w.Exact, LeaveOut: othersDocument(w.LeaveOut, digits), Rules: othersDocument(w.Rules, digits), Limits: othersDocument(w.Limits, digits),
		}
		if w.NextBest != nil {
			o := otherDocument(*w.NextBest, digits)
			d.WhatIf.NextBest = &o
		}
	}
	if z := a.Sizes; z != nil {
		d.BySize = &DocumentSizes{Sizes: []DocumentSize{}, Changes: []DocumentSizeChange{}}
		for _, s := range z.Sizes {
			d.BySize.Sizes = append(d.BySize.Sizes, DocumentSize{s.Factor, units.Tidy(float64(s.Litres)), otherDocument(s.Other, digits), units.Tidy(s.Bulk)})
		}
		for _, c := range z.Changes {
			d.BySize.Changes = append(d.BySize.Changes, DocumentSizeChange{units.Tidy(c.From), units.Tidy(c.To), append([]string{}, c.Below...), append([]string{}, c.Above...)})
		}
	}
	if a.OneMore != nil {
		o := otherDocument(*a.OneMore, digits)
		d.OneMore = &o
	}
	return d
}

func seriesDocument(s Series, digits int) DocumentSeries {
	text := func(x *units.Decimal, digits int) *string {
		if x == nil {
			return nil
		}
		v := x.Text(digits)
		return &v
	}
	out := DocumentSeries{
		InPlan: s.InPlan, EntersAt: text(s.Told(s.Enters, digits), digits), LeavesAt: text(s.Told(s.Leaves, digits), digits),
		PercentOff: text(s.PercentOff(digits), 1), Changes: []DocumentChange{}, Proven: s.Unproven == "", Refused: s.Refused, Partial: s.Partial,
	}
	out.ComesBack = text(s.ComesBack(), toldDigits)
	for _, c := range s.Changes {
		out.Changes = append(out.Changes, DocumentChange{c.At.Text(toldDigits), boughtDocument(c.Below), boughtDocument(c.Above), c.Jump, c.Confirmed})
	}
	return out
}

func boughtDocument(list []Bought) []DocumentBought {
	out := []DocumentBought{}
	for _, b := range list {
		out = append(out, DocumentBought{b.Quote.Name, b.Packs.Float()})
	}
	return out
}

func othersDocument(list []Other, digits int) []DocumentOther {
	out := []DocumentOther{}
	for _, o := range list {
		out = append(out, otherDocument(o, digits))
	}
	return out
}

func otherDocument(o Other, digits int) DocumentOther {
	out := DocumentOther{Name: o.Name, Infeasible: o.Infeasible, Proven: !o.Unproven, Buy: boughtDocument(o.Buy)}
	if !o.Infeasible && !o.NoAnswer {
		total, difference := o.Total.Text(digits), o.Difference.Text(digits)
		out.Total, out.Difference = &total, &difference
	}
	return out
}

package optimise

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"

	"mediabuy/optimise/suitability"
	"mediabuy/quotes"
	"mediabuy/units"
)

// Document is a plan as one machine-readable answer. Money is a decimal string
// with the currency's digits; volumes are placed litres and weights kilograms,
// both as numbers; lists are sorted by name and are never null.
//
// An infeasible plan has no money, proof or purchases; what stands in its way is
// in Infeasible.
type Document struct {
	Status     Status              `json:"status"`
	Currency   string              `json:"currency"`
	Proof      string              `json:"proof,omitempty"` // "optimal" or "bound"
	Total      string              `json:"total,omitempty"`
	Goods      string              `json:"goods,omitempty"`
	Delivery   string              `json:"delivery,omitempty"`
	Tax        string              `json:"tax,omitempty"`
	Rinsing    string              `json:"rinsing,omitempty"`
	LowerBound string              `json:"lower_bound,omitempty"`
	Gap        string              `json:"gap,omitempty"`
	Infeasible []DocumentObstacle  `json:"infeasible,omitempty"`
	Purchases  []DocumentPurchase  `json:"purchases"`
	Deliveries []DocumentDelivery  `json:"deliveries"`
	Beds       []DocumentBed       `json:"beds"`
	Tables     []DocumentTable     `json:"tables"`
	Leftover   []DocumentLeftover  `json:"leftover"`
	Refused    []DocumentRefusal   `json:"refused"`
	Warnings   []DocumentComplaint `json:"warnings"`
}

// DocumentObstacle is one thing that keeps an infeasible job from an answer.
type DocumentObstacle struct {
	Bed         string       `json:"bed,omitempty"`
	Layer       quotes.Layer `json:"layer,omitempty"`
	Table       string       `json:"table,omitempty"`
	Rule        string       `json:"rule"`
	ShortLitres float64      `json:"short_litres,omitempty"`
	OverKg      float64      `json:"over_kg,omitempty"`
	Remedy      string       `json:"remedy"`
}

// DocumentPurchase is one goods line. PackPrice has the currency's digits, or
// more where the price itself has more; for incremental breaks it is the average
// and only Goods is exact to the cent.
type DocumentPurchase struct {
	Quote        string      `json:"quote"`
	Supplier     string      `json:"supplier"`
	Medium       string      `json:"medium"`
	Form         quotes.Form `json:"form"`
	Site         string      `json:"site"`
	Packs        float64     `json:"packs"`
	PackPrice    string      `json:"pack_price"`
	BreakFrom    float64     `json:"break_from"` // 0: no break reached
	Goods        string      `json:"goods"`
	LitresSold   float64     `json:"litres_sold"`
	LitresPlaced float64     `json:"litres_placed"`
}

// DocumentDelivery is one drop, or with no site and no loads a supplier's
// handling. Fee is what is paid.
type DocumentDelivery struct {
	Supplier string `json:"supplier"`
	Site     string `json:"site"`
	Name     string `json:"name"`
	Loads    int    `json:"loads"`
	Fee      string `json:"fee"`
}

// DocumentBed is what fills one bed; all of a count are filled alike. LimitKg is
// the bed's own limit: null where it has none or stands on a table, whose limit
// is in the tables.
type DocumentBed struct {
	Bed       string          `json:"bed"`
	Count     int             `json:"count"`
	Site      string          `json:"site"`
	Member    string          `json:"member"` // parts as in beds.csv where several pay
	Layers    []DocumentLayer `json:"layers"`
	FloodedKg float64         `json:"flooded_kg"`
	UsualKg   float64         `json:"usual_kg"` // at usual weights
	HeavyKg   float64         `json:"heavy_kg"`
	LimitKg   *float64        `json:"limit_kg"`
	Table     string          `json:"table"`
}

// DocumentLayer is one layer of a bed.
type DocumentLayer struct {
	Layer        quotes.Layer   `json:"layer"`
	DemandLitres float64        `json:"demand_litres"`
	Fill         []DocumentFill `json:"fill"`
}

// DocumentFill is the part of a layer that one quote fills.
type DocumentFill struct {
	Quote  string  `json:"quote"`
	Medium string  `json:"medium"`
	Litres float64 `json:"litres"`
}

// DocumentTable is what one table carries at the worst moment.
type DocumentTable struct {
	Table     string   `json:"table"`
	Beds      []string `json:"beds"`
	FloodedKg float64  `json:"flooded_kg"`
	UsualKg   float64  `json:"usual_kg"`
	HeavyKg   float64  `json:"heavy_kg"`
	LimitKg   *float64 `json:"limit_kg"`
}

// DocumentLeftover is placed volume bought and not needed, by quote.
type DocumentLeftover struct {
	Quote  string  `json:"quote"`
	Litres float64 `json:"litres"`
}

// DocumentRefusal is one rule that keeps one quote out of one layer of a bed.
type DocumentRefusal struct {
	Quote  string           `json:"quote"`
	Bed    string           `json:"bed"`
	Layer  quotes.Layer     `json:"layer"`
	Rule   suitability.Rule `json:"rule"`
	Reason string           `json:"reason"`
	Where  string           `json:"where,omitempty"` // in compare, the beds that it holds for where others have another reason
}

// Words are the reason with the beds it holds for, where these are not all.
func (r DocumentRefusal) Words() string {
	if r.Where == "" {
		return r.Reason
	}
	return r.Reason + " (" + r.Where + ")"
}

// DocumentComplaint is a warning about the files, at its place. Line and column
// are 0 where it is about a whole file or row.
type DocumentComplaint struct {
	File    string `json:"file"`
	Line    int    `json:"line"`
	Column  int    `json:"column"`
	Message string `json:"message"`
}

// NewDocument sets out a plan and the warnings of its job's report, which may be
// nil.
func NewDocument(p *Plan, rep *quotes.Report) *Document {
	d := &Document{
		Status:     p.Status,
		Currency:   p.Job.Settings.Currency,
		Infeasible: DocumentObstacles(p.Why),
		Purchases:  []DocumentPurchase{},
		Deliveries: []DocumentDelivery{},
		Beds:       documentBeds(p.Fills),
		Tables:     documentTables(p.Tables),
		Leftover:   documentLeftover(p.Leftover),
		Refused:    DocumentRefusals(p.Fit),
		Warnings:   DocumentWarnings(rep),
	}
	if p.Bill != nil {
		d.bill(p)
	}
	return d
}

func (d *Document) bill(p *Plan) {
	digits := p.Job.Settings.CurrencyDigits
	text := func(m units.Money) string { return m.Text(digits) }
	d.Proof = "bound"
	if p.Status == Optimal {
		d.Proof = "optimal"
	}
	d.Total, d.Goods, d.Delivery = text(p.Bill.Total), text(p.Bill.Goods), text(p.Bill.Delivery)
	d.Tax, d.Rinsing = text(p.Bill.Tax), text(p.Bill.Rinsing)
	d.LowerBound, d.Gap = text(p.LowerBound()), text(p.Gap())
	for _, l := range p.Bill.Lines { // by quote and site already
		d.Purchases = append(d.Purchases, DocumentPurchase{
			Quote: l.Quote.Name, Supplier: l.Quote.Supplier, Medium: l.Quote.Medium.Name, Form: l.Quote.Form, Site: l.Site,
			Packs: l.Packs.Float(), PackPrice: PriceText(l.PackPrice, digits), BreakFrom: l.BreakFrom.Float(), Goods: text(l.Goods),
			LitresSold: units.Tidy(float64(l.Sold)), LitresPlaced: units.Tidy(float64(l.Placed)),
		})
	}
	for _, l := range p.Bill.Drops {
		d.Deliveries = append(d.Deliveries, DocumentDelivery{Supplier: l.Supplier, Site: l.Site, Name: l.Name, Loads: l.Loads, Fee: text(l.Fee)})
	}
}

// PriceText is a pack price with the currency's digits, or with all its own
// where it has more: an eighth of a cent a litre must not be rounded away, as
// packs × price is the goods line.
func PriceText(m units.Money, digits int) string {
	if m.Round(digits).Equal(m) {
		return m.Text(digits)
	}
	return m.String()
}

// DocumentObstacles sets out what stands in the way, by bed and table.
func DocumentObstacles(why []Obstacle) []DocumentObstacle {
	var out []DocumentObstacle
	for _, o := range why {
		out = append(out, DocumentObstacle{
			Bed: o.Bed, Layer: o.Layer, Table: o.Table, Rule: o.Rule,
			ShortLitres: units.Tidy(float64(o.Short)), OverKg: units.Tidy(float64(o.Over)), Remedy: o.Remedy,
		})
	}
	slices.SortStableFunc(out, func(a, b DocumentObstacle) int {
		return cmp.Or(cmp.Compare(a.Bed, b.Bed), cmp.Compare(a.Layer, b.Layer), cmp.Compare(a.Table, b.Table), cmp.Compare(a.Rule, b.Rule))
	})
	return out
}

func documentBeds(fills []BedFill) []DocumentBed {
	out := make([]DocumentBed, 0, len(fills))
	for _, f := range fills {
		b := DocumentBed{
			Bed: f.Bed.Name, Count: f.Bed.Count, Site: f.Bed.Site, Member: MemberText(f.Bed.Member), Layers: []DocumentLayer{},
			FloodedKg: units.Tidy(float64(f.Flooded)), UsualKg: units.Tidy(float64(f.Usual)), HeavyKg: units.Tidy(float64(f.Heavy)), Table: f.Bed.Table,
		}
		if f.Bed.Table == "" {
			b.LimitKg = kilos(f.Bed.Limit)
		}
		for _, l := range f.Layers {
			layer := DocumentLayer{Layer: l.Layer, DemandLitres: units.Tidy(float64(l.Demand)), Fill: []DocumentFill{}}
			for _, part := range l.Parts {
				layer.Fill = append(layer.Fill, DocumentFill{part.Quote.Name, part.Quote.Medium.Name, units.Tidy(float64(part.Litres))})
			}
			b.Layers = append(b.Layers, layer)
		}
		slices.SortFunc(b.Layers, func(x, y DocumentLayer) int { return cmp.Compare(x.Layer, y.Layer) })
		out = append(out, b)
	}
	slices.SortFunc(out, func(x, y DocumentBed) int { return cmp.Compare(x.Bed, y.Bed) })
	return out
}

// MemberText says who pays for a bed, as beds.csv writes it.
func MemberText(parts []quotes.Part) string {
	if len(parts) == 1 {
		return parts[0].Member
	}
	var words []string
	for _, p := range parts {
		words = append(words, fmt.Sprintf("%s: %s", p.Member, p.Parts))
	}
	return strings.Join(words, "; ")
}

func documentTables(loads []TableLoad) []DocumentTable {
	out := make([]DocumentTable, 0, len(loads))
	for _, t := range loads { // by name already
		out = append(out, DocumentTable{t.Name, t.Beds, units.Tidy(float64(t.Flooded)), units.Tidy(float64(t.Usual)), units.Tidy(float64(t.Heavy)), kilos(t.Limit)})
	}
	return out
}

// documentLeftover adds up what is left of a quote over all sites.
func documentLeftover(left []Leftover) []DocumentLeftover {
	out := []DocumentLeftover{}
	for _, l := range left { // by quote and site already
		if n := len(out); n > 0 && out[n-1].Quote == l.Quote.Name {
			out[n-1].Litres = units.Tidy(out[n-1].Litres + float64(l.Litres))
			continue
		}
		out = append(out, DocumentLeftover{l.Quote.Name, units.Tidy(float64(l.Litres))})
	}
	return out
}

// EveryBed stands in a refusal for the name of a bed where every bed of several is
// that has the layer is refused for the same reason.
const EveryBed = "*"

// DocumentRefusals lists every refusal by quote, bed, layer and rule. What bars a
// quote for one reason from that layer of every bed is one entry about [EveryBed],
// ahead of the quote's others; a large job would have hundreds of thousands.
func DocumentRefusals(fit *suitability.Fit) []DocumentRefusal {
	type place struct {
		bed   int
		layer quotes.Layer
	}
	var places []place
	have := map[quotes.Layer]int{} // beds with that layer
	for _, b := range byName(fit.Job.Beds, func(b *quotes.Bed) string { return b.Name }) {
		for _, l := range []quotes.Layer{quotes.Base, quotes.Top} {
			if fit.Job.Beds[b].LayerLitres(l) > 0 {
				have[l]++
				places = append(places, place{b, l})
			}
		}
	}
	out := []DocumentRefusal{}
	for _, q := range byName(fit.Job.Quotes, func(q *quotes.Quote) string { return q.Name }) {
		layers := map[suitability.Reason]map[quotes.Layer]int{} // how many beds, by layer
		broken := fit.Broken(q)
		each := func(yield func(place, suitability.Reason)) {
			for _, at := range places {
				for _, r := range broken(at.bed, at.layer) {
					yield(at, r)
				}
			}
		}
		each(func(at place, r suitability.Reason) {
			if layers[r] == nil {
				layers[r] = map[quotes.Layer]int{}
			}
			layers[r][at.layer]++
		})
		every := func(r suitability.Reason, l quotes.Layer) bool { return have[l] > 1 && layers[r][l] == have[l] }
		for _, r := range slices.SortedFunc(maps.Keys(layers), suitability.Reason.Compare) {
			for _, l := range []quotes.Layer{quotes.Base, quotes.Top} {
				if every(r, l) {
					out = append(out, DocumentRefusal{Quote: fit.Job.Quotes[q].Name, Bed: EveryBed, Layer: l, Rule: r.Rule, Reason: r.Text})
				}
			}
		}
		each(func(at place, r suitability.Reason) {
			if every(r, at.layer) {
				return
			}
			out = append(out, DocumentRefusal{Quote: fit.Job.Quotes[q].Name, Bed: fit.Job.Beds[at.bed].Name, Layer: at.layer, Rule: r.Rule, Reason: r.Text})
		})
	}
	return out
}

// byName lists the indexes of things in order of their names.
func byName[T any](things []T, name func(T) string) []int {
	out := make([]int, len(things))
	for i := range out {
		out[i] = i
	}
	slices.SortStableFunc(out, func(a, b int) int { return cmp.Compare(name(things[a]), name(things[b])) })
	return out
}

// DocumentWarnings lists a report's warnings in order of the files. A nil report
// has none.
func DocumentWarnings(rep *quotes.Report) []DocumentComplaint {
	out := []DocumentComplaint{}
	if rep == nil {
		return out
	}
	for _, w := range rep.Warnings {
		out = append(out, DocumentComplaint{w.File, w.Line, w.Col, WarningText(w)})
	}
	return out
}

// WarningText is a warning in one line without its place.
func WarningText(w *quotes.Problem) string {
	text := w.Message()
	if w.Heading != "" {
		text = w.Heading + ": " + text
	}
	if w.Hint != "" {
		text += "; " + w.Hint
	}
	return text
}

func kilos(k *units.Kilograms) *float64 {
	if k == nil {
		return nil
	}
	v := units.Tidy(float64(*k))
	return &v
}

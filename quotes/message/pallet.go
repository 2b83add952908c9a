package message

import (
	"fmt"
	"math"
	"strings"

	"mediabuy/quotes"
	"mediabuy/quotes/internal/cues"
	"mediabuy/units"
)

const (
	palletReason = "the price of a pallet: is it sold as so many packs, or as one?"
	palletBeside = "the price of one on a pallet, and how many it holds stands elsewhere"
	onePallet    = "the price of a pallet as one pack, as answered"
)

// palletPrice is the price of a pallet of so many packs. With "each" behind it, it is that of one of them where so many are
// bought; without, it is never the price of one, and how it is sold is asked.
func palletPrice(s *scanner, m match) (*fact, bool) {
	f := &fact{kind: aBreak, why: "a price from a number of packs on"}
	if again := cues.ByPallet.FindString(s.low[m.end():min(s.limit, m.end()+window)]); again != "" && (m.has("each") || m.text("uvc")+m.text("ufb") != "") { // pallet is 60, $5.10 each on a pallet
		m.fails(s.broken(m, f))
		if f.Range = (Range{m.at, m.end() + len(again)}); m.has("on") { // 60 per pallet, $5.10 each by the pallet
			f = s.perhaps(f, f.Range, palletBeside, "is "+f.text+" the price from "+f.from.text+" on?", f.text+" from "+f.from.text+" on")
		}
		return f, !s.goesOn(f.To)
	}
	behindHas := m.has("on") && !m.has("again") && (!m.money() && !m.has("each") || strings.Contains(m.text("to"), ",") && !strings.Contains(m.text("to"), "then")) // "40 per pallet, $9.75" may be a bag's
	if s.goesOn(m.end()) || m.has("weak") && !m.has("c") || behindHas || m.has("on") && cues.BroughtNext.MatchString(s.low[m.end():min(s.limit, m.end()+window)]) {
		return nil, false
	}
	m.fails(s.broken(m, f))
	one := f.unit.Form != "" && f.unit.Form != "pallet" && f.unit.Form != "skid" && f.unit.Form != "case"
	if one || f.unit.Empty() && m.has("each") {
		if strings.Contains(m.text("to"), ",") && !strings.HasPrefix(m.low, "by ") {
			if strings.HasPrefix(m.low, "if") {
				return nil, false // what hangs on it may stand in front of it
			}
			return unclearFact("the price behind a pallet may be that of any pack")
		}
		return f, true
	}
	f.kind, f.unit, f.why = aPallet, pack{}, "the price of a pallet of "+f.from.text
	return f, true
}

// palletEach is the price of one where a pallet is bought; "$419 per pallet of 64" and "$419 a pallet of 64" are the price of all of them.
func palletEach(s *scanner, m match) (*fact, bool) {
	if m.text("each")+m.text("uvc")+m.text("uv")+m.text("ufb") == "" && (m.has("all") || strings.Contains(m.low[:m.idx[1]], " per ")) {
		return manyPrice(s, m)
	}
	return oneBreak(s, m)
}

// palletRate is the price of one where a pallet is bought, of which the message says once how many it holds.
func palletRate(s *scanner, m match) (*fact, bool) {
	f := &fact{kind: aBreak, why: "a price from a number of packs on"}
	around := s.low[max(0, m.at-20*window):min(len(s.low), m.end()+20*window)]
	if len(palletHolds.FindAllStringIndex(around, -1)) != 1 || s.goesOn(m.end()) {
		return nil, false
	}
	m.fails(s.priced(m, f))
	holds := palletHolds.FindStringSubmatch(around)
	n, why := s.counting(first(holds[1], holds[2]))
	m.fails(why)
	f.from = n
	return s.perhaps(f, Range{m.at, m.end()}, palletBeside, "is "+f.text+" the price from "+n.text+" on?", f.text+" from "+n.text+" on"), f.unit.Form != "" && !palletForm.MatchString(f.unit.Form)
}

var palletHolds = compile(palletWord + sp + `(?:has|holds|have|of|is|are|=|:|\(|x)` + sp + `(\d+)` + sp + packForm + `|(\d+)` + sp + packForm + `(?:` + sp + `/` + sp + `| (?:per|to (?:a|the|each)|on (?:a|the|one|each)|a) )(?:full )?` + palletWord)

// manyPrice is "10 x 100 L £172", "10 bags for £250" or "£24 for a box of 12": the price of so many of them, if it is not that of one
// where so many are bought.
func manyPrice(s *scanner, m match) (*fact, bool) {
	f := &fact{kind: aPallet}
	if s.goesOn(m.end()) || s.rated(m.end()) {
		return nil, false
	}
	text, v := m.amount(s, "m")
	f.text, f.money = text, v
	f.from = m.counting(s, "n")
	f.counted = m.unit(s, "u")
	if f.counted.Empty() {
		f.counted = m.countedUnit(s, "c")
	}
	f.why, f.together = "the price of "+f.from.text+" together", true
	return f, f.from.value.Cmp(oneUnit) > 0
}

// severalPrice is "10 bags for 250", which may be for all ten or for each.
func severalPrice(s *scanner, m match) (*fact, bool) {
	if cues.LimitBefore.MatchString(s.low[max(s.start, m.at-window):m.at]) {
		return unclearFact(severalReason)
	}
	n, why := s.counting(m.text("n"))
	if why != "" && strings.Contains(m.text("n"), "/") {
		return nil, false // a size: "8/16 for 11.40 the sack"
	}
	if why == "" && m.has("c") && palletForm.MatchString(m.text("c")) && m.has("ufb") && !palletForm.MatchString(m.text("ufb")) {
		return oneBreak(s, m) // 3 pallets: 3.60 a bag
	}
	if why == "" && n.value.Equal(oneUnit) && m.has("c") {
		f := &fact{kind: aPrice, why: "a pack and its price"}
		m.fails(s.priced(m, f))
		f.unit.Form, f.unit.Words = formOf(m.text("c")), m.text("c")
		return f, !s.goesOn(m.end())
	}
	if m.has("each") && why == "" { // the price of one where so many are bought
		return oneBreak(s, m)
	}
	if why == "" && (m.has("c") || m.money()) && m.text("uvc")+m.text("uv")+m.text("ufb") == "" {
		return manyPrice(s, m)
	}
	return &fact{kind: anUnclear, why: severalReason}, !s.goesOn(m.end())
}

// pallet asks how a pallet is sold that stands with an offer of the packs on it, or heeds the answer.
func (r *reading) pallet(f *fact, out *[]*offer) {
	o := r.counted(*out, f)
	each, ok := share(f.money, f.from.value)
	below, ofOne := false, false // the amount is below the price of one; it may be that of one itself
	if o != nil && o.pack.Text != "" {
		below = o.price != nil && o.price.unclear == "" && f.money.Cmp(o.price.money) <= 0 // all of them cannot cost less than one
		size := math.Abs(o.pack.Size())
		ofOne = below || o.price == nil && quotes.ProportionOf(f.money, size*f.from.value.Float(), r.job.Currency) == quotes.TooCheap && quotes.ProportionOf(f.money, size, r.job.Currency) != quotes.TooCheap
	}
	switch {
	case f.together && (o == nil || o.pack.Text == "" || o.price == nil || o.price.unclear != "" || !ok || each.Cmp(o.price.money.Decimal()) >= 0):
		f.kind, f.why = anUnclear, severalReason
		return
	case o == nil || o.pack.Text == "" || f.from.value.Cmp(oneUnit) <= 0:
		f.drop(palletReason)
		return
	case below && near(f.money, o.price.money):
		f.kind, f.why = aBreak, "the price on a pallet, which is below that of one"
		return
	}
	total := f.text
	digits := each.Text(2)
	if d := each.String(); len(d) > len(digits) {
		digits = d
	}
	price := signOf(total) + r.cellNumber(digits, each)
	labels, costly := []string{price + " each", "one pack of " + f.from.text}, 1
	if ofOne {
		price, each = total, f.money.Decimal()
		labels, costly = []string{price + " each, by the pallet of " + f.from.text, total + " for " + f.from.text + " together"}, 0
	}
	question := fmt.Sprintf("%s for %s: is it %s for each, sold by the %s, or one pack of %s?", strings.TrimPrefix(f.why, "the price of "), total, price, f.from.text, f.from.text)
	whole := !ok && !ofOne // each costs no whole number of the smallest coin
	if below || whole {    // and far below, which may be neither
		labels, costly = append(labels, leftOut), len(labels)
	}
	if whole {
		labels, costly = labels[1:], costly-1
		question = fmt.Sprintf("%s for %s: is it sold as one pack of %s?", strings.TrimPrefix(f.why, "the price of "), total, f.from.text)
	}
	reading, answered := r.answers[answerKey{f.From, false}]
	if whole {
		reading++
	}
	switch {
	case !answered:
		f.drop(palletReason)
		f.ask = &choice{Range: f.Range, key: f.From, costly: costly, labels: labels, leaves: below || whole, question: question}
	case reading == 2:
		f.drop(palletReason)
	case reading == 1:
		many := o.pack
		number, unit := numberAndUnit(o.pack.Text)
		n, bad := units.ParseNumber(number, r.out)
		n = n.Mul(f.from.value)
		many.Text = r.cellNumber(n.String(), n) + " " + unit
		a, err := units.ParseAmount(many.Text, units.Options{Mark: r.out})
		if bad != nil || err != nil {
			f.drop(palletReason)
			return
		}
		many.Amount = &a
		f.kind, f.why = aPrice, onePallet
		if o.price == nil && len(o.breaks) == 0 {
			o.pack, o.price, o.packFrom = many, f, append(o.packFrom, f)
			return
		}
		*out = append(*out, &offer{pack: many, price: f, packFrom: append([]*fact{f}, o.packFrom...), formFrom: o.formFrom, at: f.From})
	default:
		f.text, f.money = price, units.MoneyOf(each)
		f.kind, f.why = aBreak, "the price of a pallet for each pack on it, as answered"
		if o.price == nil {
			f.kind, o.price = aPrice, f
		} else {
			o.breaks = append(o.breaks, f)
		}
		o.lot = f
	}
}

// byThePallet counts in packs what is counted in pallets, where the message says once how many packs a pallet has.
func (r *reading) byThePallet() {
	holds := r.onPallet()
	if len(holds) != 1 {
		return
	}
	for _, it := range r.items {
		for _, f := range it.facts {
			if f.unclear == "" && palletForm.MatchString(f.counted.Form) && f.counted.Unheld() && (oneOf(f.kind, aMin, aMax, aStep) || f.kind == aBreak && f.unit.RealForm() != "") {
				n := f.from.value.Mul(holds[0].from.value)
				f.from, f.counted, f.head, holds[0].kind = count{r.cellNumber(n.String(), n), n}, pack{}, holds[0], aHeading
				if f.kind != aBreak {
					f.text = f.from.text
				}
			}
		}
	}
}

// onPallet are the facts that say how many packs a pallet has.
func (r *reading) onPallet() (of []*fact) {
	for _, c := range r.all {
		for _, f := range c.facts {
			if f.why == palletByPacks {
				of = append(of, f)
			}
		}
	}
	return of
}

var (
	palletForm = pattern(palletWord)
	fullPallet = units.MoneyOf(units.DecimalFromInt(200)) // hardly more packs stand on one (common practice, no source)
)

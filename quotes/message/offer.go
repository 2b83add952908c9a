package message

import (
	"bytes"
	"cmp"
	"math"
	"slices"
	"strings"

	"mediabuy/units"
)

// offer is one pack of an item with what is said of its price.
type offer struct {
	pack     pack
	packFrom []*fact
	formFrom []*fact
	price    *fact
	rivals   []*fact // prices that contradict one another, in order; the first may be price
	breaks   []*fact
	min, max *fact
	step     *fact
	lot      *fact // a pallet, by which it is sold: from packs
	doubted  bool  // it had prices that contradict one another
	at       int   // where it is first spoken of
}

// offers sorts the facts about an item into packs with their prices.
func (r *reading) offers(it *item) []*offer {
	var out []*offer
	var form *fact // said before any pack
	for _, f := range it.from {
		if f.unit.Form != "" {
			form = f // loose gravel
		}
	}
	slices.SortStableFunc(it.facts, func(a, b *fact) int { return cmp.Compare(a.From, b.From) })
	last := func() *offer {
		if len(out) == 0 {
			return nil
		}
		return out[len(out)-1]
	}
	add := func(o *offer) *offer {
		if form != nil && (o.pack.Form == "" || o.pack.Form == "each" && form.unit.Form == "sack" || o.pack.Form == form.unit.Form && !countsOn(r.low[max(0, form.From-window):form.From]) || o.pack.Form == "sack" && form.unit.Form == "bag" && o.pack.Text != "" || o.pack.Form == "bag" && (form.general || form.unit.Form == "sack" && o.pack.Text == "")) { // a bulk bag, called a bag
			if o.pack.Form != "sack" {
				o.pack.Form = form.unit.Form
			}
			o.formFrom, form = append(o.formFrom, form), nil
		}
		out = append(out, o)
		return o
	}
	for _, f := range it.facts {
		o := last()
		switch f.kind {
		case aPrice:
			switch same := sameOffer(out, f.unit); {
			case o != nil && o.price == nil && (o.pack.Fits(f.unit) || o.pack.Form == "sack" && f.unit.Form == "bag" && f.unit.Text == ""):
				o.pack = o.pack.With(f.unit)
				o.price = f
			case same != nil && same.price != nil && same.price.unclear == "" && len(same.rivals) == 0 && same.price.money.Equal(f.money) && same.pack.Fits(f.unit):
				same.pack = same.pack.With(f.unit) // said twice
				same.packFrom = append(same.packFrom, f)
			case same != nil:
				r.contradict(same, f)
			default:
				add(&offer{pack: f.unit, price: f, at: f.From})
			}
		case aPack:
			switch {
			case o != nil && (o.pack.Fits(f.unit) || o.pack.Form == "sack" && o.pack.Text == "" && o.price == nil && strings.HasPrefix(r.low[f.To:], " each")): // bulk bags, one yard each
				o.pack = o.pack.With(f.unit)
				o.packFrom = append(o.packFrom, f)
			default:
				add(&offer{pack: f.unit, packFrom: []*fact{f}, at: f.From})
			}
		case aForm:
			switch {
			case o == nil:
				form = f
			case o.pack.Form == "bag" && f.unit.Form == "sack" && o.pack.Text == "" && o.price != nil && strings.Contains(f.unit.Words, "bag") && !pricedNext(it.facts, f):
				o.pack.Form = "sack" // "55 a bag, that's the big bag"
				o.formFrom = append(o.formFrom, f)
			case o.price != nil && o.pack.Form == "" && looseUnit(o.pack) && !f.general && (f.unit.Form == "bag" || f.unit.Form == "sack" && r.sentenceOf(f) != r.sentenceOf(o.price) && pricedNext(it.facts, f)):
				add(&offer{pack: pack{Form: f.unit.Form, Words: f.unit.Words}, formFrom: []*fact{f}, at: f.From}) // "88 a yard, and we have it bagged too"
			case o.pack.Form == "" || o.pack.Form == "each" || o.pack.Form == f.unit.Form || f.general:
				o.pack.Form = f.unit.Form
				o.formFrom = append(o.formFrom, f)
			case o.pack.Form == "sack" && f.unit.Form == "bag" && strings.Contains(o.pack.Words, "bag"):
				o.formFrom = append(o.formFrom, f) // a bulk bag, called a bag
			case o.price != nil && !pricedNext(it.facts, f) && slices.ContainsFunc(out, func(p *offer) bool { return p.price != nil && p.pack.Form == f.unit.Form && p.pack.Text != "" }):
				i := slices.IndexFunc(out, func(p *offer) bool { return p.price != nil && p.pack.Form == f.unit.Form && p.pack.Text != "" })
				o = out[i] // one named before is spoken of again
				o.formFrom = append(o.formFrom, f)
				out = append(slices.Delete(out, i, i+1), o)
			case o.price != nil:
				add(&offer{pack: pack{Form: f.unit.Form, Words: f.unit.Words}, formFrom: []*fact{f}, at: f.From})
			default:
				f.drop("it is packed in two ways")
			}
		}
	}
	if form != nil && form.kind == aForm {
		if len(out) == 0 {
			add(&offer{at: form.From})
		} else {
			form.drop("it is not said of which pack")
		}
	}
	r.conditions(it, &out)
	slices.SortStableFunc(out, func(a, b *offer) int { return cmp.Compare(a.at, b.at) })
	for _, o := range out {
		if f := o.price; f != nil && f.redone && f.ask == nil && !strings.HasSuffix(f.why, ", as answered") {
			f.drop("it is corrected behind it")
		}
		r.unsettled(o)
		r.unheld(o)
	}
	all := slices.Clone(out)
	return slices.DeleteFunc(out, func(o *offer) bool { return r.unpriced(o) || o.measures(all) })
}

// pricedNext says whether a price stands behind a form, before another pack.
func pricedNext(facts []*fact, form *fact) bool {
	packs := 0
	for _, f := range facts[slices.Index(facts, form)+1:] {
		if f.kind == aPrice {
			return packs < 2
		} else if f.kind == aPack || f.kind == aForm {
			packs++
		}
	}
	return false
}

// measures drops the price of one litre, kilogram or pound where it is that of a pack beside it, told to compare packs by.
func (o *offer) measures(all []*offer) bool {
	found := o.price != nil && o.price.unclear == "" && o.pack.RealForm() == "" && strings.HasPrefix(o.pack.Text, "1 ") && !looseUnit(o.pack) && slices.ContainsFunc(all, func(p *offer) bool {
		const near = 0.03 // both are rounded
		return p.price != nil && p.pack.Amount != nil && p.pack.Amount.IsMass == o.pack.Amount.IsMass && p != o && math.Abs(p.price.money.Float()/(o.price.money.Float()*p.pack.Size()/o.pack.Size())-1) < near
	})
	if found {
		o.price.drop("the price of a measure, beside that of a pack")
	}
	return found
}

// unsettled takes a price that was left to a person out of its offer, with what only its words said of the pack.
func (r *reading) unsettled(o *offer) {
	if o.price == nil || o.price.unclear == "" {
		return
	}
	o.price, o.doubted = nil, !o.pack.Unheld()
	o.pack = pack{}
	for _, f := range slices.Concat(o.packFrom, o.formFrom) {
		o.pack = o.pack.With(f.unit).With(pack{Form: f.counted.Form})
	}
	for _, f := range o.breaks {
		o.pack = o.pack.With(f.unit).With(f.counted)
	}
}

// unheld drops the price of a pallet, a load or a scoop of which nobody says what it holds: quotes.csv has no such form.
func (r *reading) unheld(o *offer) {
	if !o.pack.Unheld() {
		return
	}
	why := "what a " + o.pack.Form + " holds is not said; write it under pack"
	if o.price != nil {
		o.price.drop(why)
	}
	for _, f := range o.breaks {
		f.drop(why)
	}
	o.price, o.breaks = nil, nil
}

// sameOffer is the offer with a price that a second price for u would contradict.
func sameOffer(out []*offer, u pack) *offer {
	for _, o := range slices.Backward(out) {
		if sacked := o.pack.Form == "sack" || u.Form == "sack"; sacked && o.pack.Text != "" && u.Text != "" && o.pack.Form != u.Form && (o.pack.Form == "" || u.Form == "") {
			continue // loose by the cubic metre, and in bulk bags of one
		}
		if u.Unheld() && o.pack.Text != "" && o.pack.Form != u.Form {
			continue // a pallet of what is sold by the yard
		}
		if o.price != nil && (u.Empty() || u.Form == "each" && u.Text == "" || o.pack.Fits(u)) {
			return o
		}
	}
	return nil
}

const (
	noPriceForPack = "no price for this pack could be read"
	uncounted      = "it does not count in a pack that has a price here"
)

// unpriced drops an offer that is a pack and nothing else beside another with a price.
func (r *reading) unpriced(o *offer) bool {
	if o.price != nil || len(o.breaks) > 0 || o.doubted {
		return false
	}
	for _, f := range slices.Concat(o.packFrom, o.formFrom) {
		f.drop(noPriceForPack)
	}
	for _, f := range []*fact{o.min, o.max, o.step} {
		if f != nil {
			f.drop(noPriceForPack)
		}
	}
	return true
}

// conditions gives breaks, tiers and numbers of packs to the offers whose unit they count in.
func (r *reading) conditions(it *item, out *[]*offer) {
	var tiers []*fact
	for _, f := range it.facts {
		if f.kind == aTier {
			tiers = append(tiers, f)
		}
	}
	if len(tiers) > 0 {
		r.tiers(it, out, tiers)
	}
	for _, f := range it.facts {
		if f.kind == aPallet && f.unclear == "" {
			r.pallet(f, out)
		}
	}
	for i := range 2 * len(it.facts) { // breaks first, as they may say what packs there are
		f := it.facts[i%len(it.facts)]
		if (f.kind == aBreak) == (i < len(it.facts)) && oneOf(f.kind, aBreak, aMin, aMax, aStep) {
			if slices.ContainsFunc(*out, func(o *offer) bool { return o.lot == f }) {
				continue
			}
			o := r.counted(*out, f)
			if o == nil && f.kind == aBreak && len(*out) == 0 {
				o = &offer{pack: f.unit.With(f.counted), at: f.From}
				*out = append(*out, o)
			}
			switch {
			case o == nil:
				f.drop(uncounted)
			case f.kind == aBreak && o.pack.Text == "" && o.pack.Form == "bulk":
				f.drop("the price of fewer packs is not said")
			case f.kind == aBreak && f.from.value.Equal(oneUnit) && !f.counted.Unheld() && (o.price == nil || o.price.kind == aBreak || !looseUnit(o.pack)):
				f.kind, f.why = aPrice, "the price from the first pack on"
				if o.price == nil {
					o.price, o.pack = f, o.pack.With(f.unit)
				} else if o.packFrom = append(o.packFrom, f); o.price.unclear != "" || !o.price.money.Equal(f.money) {
					r.contradict(o, f)
				}
			case f.kind == aBreak && o.price != nil && signOf(f.text) == "" && !cents(f.text) && o.price.money.Cmp(f.money) > 0 && !within(o.price.money, f.money, "3"):
				f.drop("so much less, and with no sign of money, it may be no price") // "3 for 2 and up"
			case f.kind == aBreak:
				o.breaks = append(o.breaks, f)
			case f.general && f.kind == aStep:
				for _, o := range *out {
					if o.pack.Counts(f.counted) {
						r.setNumber(o, f)
					}
				}
			default:
				r.setNumber(o, f)
			}
			if o != nil && f.unclear == "" && f.counted.Text == "" {
				o.counted(f)
			}
		}
	}
	for _, o := range *out {
		r.checkBreaks(o)
		if least := cmp.Or(o.min, o.step); o.price == nil && least != nil && len(o.breaks) > 0 && o.breaks[0].from.value.Equal(least.from.value) && !r.pricedBetween(it, o.breaks[0]) {
			o.min, o.price, o.breaks = least, o.breaks[0], o.breaks[1:]
			o.price.kind, o.price.why = aPrice, "the price of the fewest that are sold"
		}
	}
}

// pricedBetween says whether a number that no cell is made of stands between what an item is of and a fact: it may be the price of fewer.
func (r *reading) pricedBetween(it *item, f *fact) bool {
	at := it.range_.To
	if len(it.from) > 0 {
		at = it.from[0].To
	}
	between := []byte(r.low[min(at, f.From):f.From])
	for _, c := range r.all {
		for _, g := range c.facts {
			if g.unclear == "" && !oneOf(g.kind, anUnclear, anAside) && g.From < f.From && g.To > at {
				clear(between[max(0, g.From-at):min(len(between), g.To-at)])
			}
		}
	}
	return bytes.ContainsAny(between, "0123456789")
}

// counted takes the form of the packs that f counts, where none was said.
func (o *offer) counted(f *fact) {
	before := o.pack.Form
	if o.pack = o.pack.With(f.counted); o.pack.Form != before {
		o.formFrom = append(o.formFrom, f)
	}
}

// setNumber sets the fewest, most or step of an offer; a second that differs leaves both.
func (r *reading) setNumber(o *offer, f *fact) {
	to := map[kind]**fact{aMin: &o.min, aMax: &o.max, aStep: &o.step}[f.kind]
	switch {
	case *to == nil:
		*to = f
	case (*to).from.value.Equal(f.from.value):
		f.drop("it is said twice")
	default:
		const why = "two numbers that contradict one another"
		(*to).drop(why)
		f.drop(why)
	}
}

// counted is the offer that a number of packs is about: the nearest before it in the very packs that it counts, else in what may be
// called so, else the first behind. A break of less than a third of a price is hardly one of it (common practice, no source).
func (r *reading) counted(out []*offer, f *fact) *offer {
	match := func(o *offer) bool {
		loose := f.kind == aBreak && o.pack.Form == "bulk" && o.pack.Text == "" && looseUnit(f.unit)
		return loose || o.pack.Counts(f.counted) && (f.kind != aBreak || o.pack.Counts(f.unit))
	}
	hardly := func(o *offer) bool {
		return f.kind == aBreak && o.price != nil && f.money.Decimal().Mul(units.DecimalFromInt(3)).Cmp(o.price.money.Decimal()) < 0
	}
	for _, fits := range []func(o *offer) bool{
		func(o *offer) bool { return o.pack.Form == f.counted.Form && !hardly(o) },
		func(o *offer) bool { return !hardly(o) },
		func(o *offer) bool { return true },
	} {
		for _, o := range slices.Backward(out) {
			if o.at <= f.From && match(o) && fits(o) {
				return o
			}
		}
	}
	for _, o := range out {
		if o.at > f.From && match(o) {
			return o
		}
	}
	return nil
}

// tiers makes a price and breaks of "1-9 bags 29.50, 10-39 27.50": each must begin where the one before ends.
func (r *reading) tiers(it *item, out *[]*offer, tiers []*fact) {
	least := oneUnit // of the packs that are sold
	for _, f := range it.facts {
		if f.kind == aMin && f.unclear == "" && tiers[0].counted.Counts(f.counted) {
			least = f.from.value
		}
	}
	for i, f := range tiers {
		if i > 0 && !f.from.value.Equal(tiers[i-1].to.value.Add(oneUnit)) {
			for _, g := range tiers {
				g.drop("the ranges of packs leave a gap or overlap")
			}
			return
		}
	}
	o := r.counted(*out, tiers[0])
	if (o == nil || o.price == nil) && tiers[0].from.value.Cmp(least) > 0 {
		for _, f := range tiers {
			f.drop("the price of fewer packs is not said")
		}
		return
	}
	if o == nil {
		o = &offer{pack: tiers[0].unit, at: tiers[0].From} // what it counts follows
		*out = append(*out, o)
	}
	o.counted(tiers[0])
	for i, f := range tiers {
		switch {
		case i > 0 || f.from.value.Cmp(least) > 0:
			o.breaks = append(o.breaks, f)
		case o.price == nil:
			o.price = f
		case !o.price.money.Equal(f.money):
			o.price.drop(twoPrices)
			f.drop(twoPrices)
		}
	}
	slices.SortStableFunc(o.breaks, func(a, b *fact) int { return a.from.value.Cmp(b.from.value) })
}

// checkBreaks leaves out breaks that do not rise in number or fall in price; which one is wrong cannot be told, so all go.
func (r *reading) checkBreaks(o *offer) {
	slices.SortStableFunc(o.breaks, func(a, b *fact) int { return a.from.value.Cmp(b.from.value) })
	why := ""
	for i, f := range o.breaks {
		switch {
		case f.unclear != "":
		case i > 0 && f.from.value.Equal(o.breaks[i-1].from.value):
			why = "two breaks begin at one number"
		case i > 0 && f.money.Cmp(o.breaks[i-1].money) >= 0:
			why = "the price does not fall from break to break; is it the price of all packs together?"
		case i == 0 && o.price != nil && o.price.unclear == "" && f.money.Cmp(o.price.money) >= 0:
			why = "it is not below the price before it; is it the price of all packs together?"
		}
	}
	if why == "" {
		return
	}
	for _, f := range o.breaks {
		f.drop(why)
	}
	o.breaks = nil
}

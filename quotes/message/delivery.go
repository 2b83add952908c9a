package message

import (
	"slices"
	"strings"

	"mediabuy/quotes/internal/cues"
)

// charges are what delivery may cost. A row without one of them would make it too cheap.
var charges = []kind{aDelivery, aClassFee, aLoadFee, aTruck, aHaul}

// wideTerms are terms that only delivery.csv has room for.
var wideTerms = []kind{aClassFee, aLoadFee, aTruck, aHaul, aMinOrder}

// deliveryTerms fill delivery.csv, besides what a load holds.
var deliveryTerms = []term{{aDelivery, "order_fee"}, {aLoadFee, "load_fee"}, {aHaul, "haul"}, {aFree, "free_over"}, {aMinOrder, "min_order"}}

// isFee says whether a fact is about what delivery costs or needs; it holds for one supplier alone.
func (k kind) isFee() bool {
	return k == aDelivery || k == aFree || k == aCollect || k == aLoad || slices.Contains(wideTerms, k)
}

// surcharged drops the charges of a section that has another on top of them: each alone is too little.
func (sec *section) surcharged() {
	if !sec.has(aSurcharge) {
		return
	}
	for _, f := range sec.facts {
		if f.kind == aSurcharge || slices.Contains(charges, f.kind) {
			f.drop("a charge with another on top of it, or the least of one; write what is paid in delivery.csv")
		}
	}
}

// has says whether a fact of one of the kinds stands in the section, and was not dropped.
func (sec *section) has(of ...kind) bool {
	return slices.ContainsFunc(sec.facts, func(f *fact) bool { return slices.Contains(of, f.kind) && f.unclear == "" })
}

// wants says whether terms of the section need a row of delivery.csv. A least order alone does not make one: a row with no
// fee says that delivery is free.
func (sec *section) wants() bool {
	return sec.has(aClassFee, aLoadFee, aTruck, aHaul) || slices.ContainsFunc(sec.facts, func(f *fact) bool { return f.filed }) || sec.has(aMinOrder) && sec.has(aDelivery) || sec.doubtful && sec.has(aDelivery)
}

// loadSizes moves "a load is 12 yards" from the item it stands behind to the terms.
func (r *reading) loadSizes() {
	for _, it := range r.items {
		sec := r.sections[it.section]
		it.facts = slices.DeleteFunc(it.facts, func(f *fact) bool {
			if line := strings.TrimLeft(lower(r.lineOf(f.From)), " \t-*•"); f.kind == aPack && f.unit.Form == "load" && it.row < 0 && (fetchWord.MatchString(line[:wordLength(line)]) || slices.ContainsFunc(r.all, func(c *clause) bool {
				return c.sentence == r.sentenceOf(f) && slices.ContainsFunc(c.facts, func(g *fact) bool { return g.unclear == loadOrBring })
			})) {
				f.drop("what a load of a delivery holds, and no pack of what stands above it")
			}
			return sec.takesLoad(f, it) || f.unclear != "" && f.kind == aPack
		})
	}
}

// takesLoad makes a term of a pack that is what a load holds, where loads have a fee and no price of goods.
func (sec *section) takesLoad(f *fact, it *item) bool {
	if f.kind != aPack || f.unit.Form != "load" || !sec.has(aLoadFee) && !(f.linked && sec.has(aDelivery)) {
		return false
	}
	if it != nil && slices.ContainsFunc(it.facts, func(f *fact) bool { return f.kind == aPrice && f.unit.Form == "load" }) {
		return false
	}
	f.kind, f.column, f.why = aLoad, "load_volume", "what a load holds"
	if f.unit.Amount.IsMass {
		f.column = "load_weight"
	}
	sec.facts = append(sec.facts, f)
	return true
}

// oneSupplier drops the fees of a section whose rows are of several suppliers.
func (sec *section) oneSupplier(rows []*draft) {
	for _, d := range rows {
		a, b := d.cells["supplier"], rows[0].cells["supplier"]
		if a == nil && b == nil || a != nil && b != nil && a.text == b.text {
			continue
		}
		for _, f := range sec.facts {
			if f.kind.isFee() {
				f.drop("the rows are of several suppliers, and it is not said whose it is")
			}
		}
		return
	}
}

// way makes the row of delivery.csv for a section that wants one. What only that file has room for is otherwise left to a
// person: without leave to make rows of it, or for want of anything to deliver.
func (r *reading) way(sec *section, rows []*draft) {
	if !r.wide || len(rows) == 0 && !sec.doubtful || !sec.wants() {
		sec.unfiled(len(rows))
		return
	}
	switch {
	case sec.has(aClassFee):
		r.classWays(sec, rows)
		return
	case sec.has(aTruck):
		r.truckWays(sec, rows)
		return
	}
	d := &draft{cells: map[string]*made{}}
	r.named(d, sec, rows)
	for _, t := range deliveryTerms {
		r.term(sec, []*draft{d}, t.kind, t.column)
	}
	for _, f := range sec.facts {
		if f.kind == aLoad && f.unclear == "" {
			d.set(f.column, f.text, f.why, f)
		}
	}
	r.needsFee(d, "order_fee", "load_fee")
	switch {
	case slices.ContainsFunc(r.ways, func(o *draft) bool { return sameCells(o.cells["supplier"], d.cells["supplier"]) }):
		r.undo(d, secondWay)
	case d.cells["order_fee"] != nil && d.cells["load_fee"] != nil && d.cells["order_fee"].text != "0":
		r.undo(d, "a charge for the order and one for each load, and it is not said whether both are paid")
	case slices.ContainsFunc(sec.facts, func(f *fact) bool { return f.unclear != "" && slices.Contains(charges, f.kind) }), d.cells["load_fee"] != nil && r.limitedBeside(d.cells["load_fee"].facts[0]):
		r.undo(d, "another charge of this delivery was not understood")
	case !slices.ContainsFunc(rows, func(d *draft) bool { return d.cells["price"] != nil }) && d.cells["order_fee"] != nil && d.cells["order_fee"].text != "0" && slices.ContainsFunc(d.cells["order_fee"].facts, r.besideFee):
		r.undo(d, "a load or another fee is spoken of beside it, and it is not said which holds")
	case d.cells["load_fee"] != nil && r.ofOneKind(d.cells["load_fee"].facts[0]):
		r.undo(d, oneKindOfPack)
	default:
		r.ways = append(r.ways, d)
	}
}

// limitedBeside says whether another fee, which words behind it may limit, stands in the sentence of a fee: "delivery 90, per load 3".
func (r *reading) limitedBeside(fee *fact) bool {
	return slices.ContainsFunc(r.all, func(c *clause) bool {
		return c.sentence == r.sentenceOf(fee) && slices.ContainsFunc(c.facts, func(f *fact) bool { return f.kind == aDelivery && f.text != "0" && f.unclear != "" })
	})
}

// ofOneKind says whether the clause of a fee, or one before it in its sentence, begins with the word for one kind of pack, and another
// that speaks of bringing with that for another, or a charge for each of something stands beside it.
func (r *reading) ofOneKind(fee *fact) bool {
	forms, its := map[string]bool{}, false
	for _, c := range r.all {
		if r.sectionAt(c.From) == r.sectionAt(fee.From) && slices.ContainsFunc(c.facts, func(f *fact) bool { return f.kind == anUnclear && f.why == beyondShorthand }) {
			return true
		}
		said := r.low[c.From:c.To]
		if at := cues.ClassFirst.FindStringSubmatch(said); at != nil && (carries(said) || slices.ContainsFunc(c.facts, func(f *fact) bool { return f.unclear == besideDelivery })) {
			forms[classForm(at[1])] = true
			its = its || c.sentence == r.sentenceOf(fee) && c.From < fee.To
		}
	}
	return its && len(forms) > 1
}

// kindFees leaves the fee for an order to a person that its words say is for one kind of pack, where rows are of others as well:
// "bulk bags ship by carrier at $95 per order" beside loose stone.
func (r *reading) kindFees(sec *section, rows []*draft) {
	for _, f := range sec.facts {
		if f.kind == aDelivery && f.text != "0" && slices.ContainsFunc(rows, func(d *draft) bool { return packedAs(d) != packedAs(rows[0]) }) && r.ofOneKind(f) {
			f.drop(oneKindOfPack)
		}
	}
}

// named says whose a row of delivery.csv is: as the section's rows of quotes.csv do or, where these have no price yet, as those
// would.
func (r *reading) named(d *draft, sec *section, rows []*draft) {
	if len(rows) == 0 {
		rows = []*draft{{cells: map[string]*made{}}}
		r.supplier(sec, r.loneSupplier(), rows)
	}
	if s := rows[0].cells["supplier"]; s != nil {
		d.set("supplier", s.text, s.why, s.facts...)
	}
}

// unfiled drops the terms of a section that gets no row of delivery.csv.
func (sec *section) unfiled(rows int) {
	for _, f := range sec.facts {
		switch {
		case f.kind != aLoad && !slices.Contains(wideTerms, f.kind):
		case rows == 0:
			f.drop("there is no row for it")
		case f.kind == aMinOrder:
			f.drop("a least order in money; put it under min_order in delivery.csv, with what delivery costs")
		case f.kind == aClassFee:
			f.drop(oneKindOfPack)
		default:
			f.drop(beyondShorthand)
		}
	}
}

func sameCells(a, b *made) bool {
	return a == nil && b == nil || a != nil && b != nil && a.text == b.text
}

// undo leaves what only a row of delivery.csv was made of to a person.
func (r *reading) undo(d *draft, why string) {
	for column, m := range d.cells {
		for _, f := range m.facts {
			if column != "supplier" && len(f.refs) == 0 { // a tax may stand in a row of quotes.csv, too
				f.drop(why)
			}
		}
	}
}

// needsFee takes a value from which delivery is free out of a row that has no fee it could waive.
func (r *reading) needsFee(d *draft, fees ...string) {
	free := d.cells["free_over"]
	if free == nil || slices.ContainsFunc(fees, func(c string) bool { return d.cells[c] != nil }) {
		return
	}
	delete(d.cells, "free_over")
	for _, f := range free.facts {
		f.drop(nothingToWaive)
	}
}

const nothingToWaive = "free from this value, but no fee for delivery is said that it could waive"

// besideFee says whether a quantity that a load may hold stands in the sentence of a fee, or another amount to bring goods for elsewhere.
func (r *reading) besideFee(fee *fact) bool {
	return slices.ContainsFunc(r.all, func(c *clause) bool {
		said := r.low[c.From:c.To]
		return c.sentence == r.sentenceOf(fee) && len(c.media()) == 0 && roomSaid.MatchString(said) || (fee.To <= c.From || c.To <= fee.From) && cues.AnotherFee.MatchString(said)
	})
}

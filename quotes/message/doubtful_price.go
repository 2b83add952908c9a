package message

import (
	"fmt"
	"slices"
	"strings"

	"mediabuy/quotes/internal/cues"
)

// doubtfulPrice is a price that was left to a person, with what it would be the price of.
type doubtfulPrice struct {
	price  *fact
	clause *clause
	medium *fact
	pack   pack
	held   []*fact // that say what the pack is, besides the price
	packBy *fact   // another doubtful price, whose words say what both are for
	row    *draft  // which it would complete; nil for a row of its own
	why    string  // it was left to a person
}

// priceClaims are the doubtful prices of media that no row has a price for, or of another pack than any row.
func (r *reading) priceClaims(all []*draft) (out []*claim) {
	var medium *fact
	var before *doubtfulPrice // of that medium
	for i, c := range r.all {
		if slices.ContainsFunc(c.facts, func(f *fact) bool { return f.kind == aSupplier && f.general }) {
			if medium, before = nil, nil; r.under != nil {
				medium = r.under.from[0]
			}
		}
		media := c.media()
		of := medium
		if len(media) == 1 {
			of = media[0]
		}
		if c.row < 0 && len(media) < 2 && of != nil && slices.ContainsFunc(c.tokens, func(t token) bool { return t.number }) && !r.bringing(c) && !slices.ContainsFunc(all, func(d *draft) bool { return r.offersOf(d, of, of) && d.offer.price != nil }) {
			r.lonelyAmount(c, "a price", aMedium, aSize, aForm, aPack, anAside, aPayer)
		}
		for _, f := range c.facts {
			if f.kind == aMedium {
				medium, before = f, nil
			}
			if !f.mayHold(aPrice, aShort) || oneOf(f.unclear, besideDelivery, loadOfLess) || c.row >= 0 || never[c.poison] || (f.unit.Empty() || oneOf(f.unit.Form, "load", "pallet") || f.unclear == severalReason) && len(media) == 0 && (r.bringing(c) || f.unit.Form == "pallet" && carries(r.low[c.From:c.To])) {
				continue
			}
			of := medium
			if len(media) > 0 && f.From < media[0].From { // "$45 for a yard of lava"
				if len(media) > 1 {
					continue
				}
				of = media[0]
			}
			d := &doubtfulPrice{price: f, clause: c, medium: of, why: f.unclear}
			if of == nil || !r.place(d, i, all) && !d.likewise(before) {
				continue
			}
			before = d
			about := fmt.Sprintf("%s|%s|%s", of.medium.Name, d.pack.Text, d.pack.Form)
			if d.row != nil {
				about = fmt.Sprintf("%p", d.row)
			}
			one := &claim{fact: f, clause: c, as: isPrice, label: f.text, about: about, hold: func(all []*draft) []*draft { return r.believe(all, d) }}
			what := of.medium.Name
			if d.pack.Text != "" {
				what = d.pack.Text + " of " + what
				one.label += " for " + d.pack.Text
			}
			one.asks, one.among = "is it what "+what+" costs?", "which of them is what "+what+" costs?"
			if !slices.ContainsFunc(out, func(o *claim) bool { return o.about == one.about && o.fact.money.Equal(f.money) }) {
				out = append(out, one)
			}
		}
	}
	return out
}

// place finds what a doubtful price in clause i would be the price of; false where there is no pack, or a row has its price.
func (r *reading) place(d *doubtfulPrice, i int, all []*draft) bool {
	d.pack = d.price.unit
	if d.pack.Empty() && d.medium.From >= d.clause.From && unitsOf.MatchString(r.low[d.clause.From:d.medium.From]) {
		return false // the sum of so many units, see leftovers
	}
	if d.pack.Text == "" {
		held := r.heldNear(d, i)
		if len(held) == 0 && !slices.ContainsFunc(d.clause.facts, func(f *fact) bool { return f != d.price && f.kind == aPrice }) {
			held = r.soldAll(d)
		}
		for _, f := range held {
			d.pack, d.held = d.pack.With(f.unit), append(d.held, f)
		}
	}
	offered := false
	for _, row := range all {
		if !r.offersOf(row, d.medium, d.price) {
			continue
		}
		o := row.offer
		switch {
		case o.price != nil && (d.pack.Empty() || o.pack.Fits(d.pack)):
			return false
		case o.price != nil:
			offered = true
		case d.row == nil && (d.pack.Empty() || o.pack.Empty() || o.pack.Fits(d.pack)):
			d.row = row
		}
	}
	if d.row != nil {
		return true
	}
	if d.price.unclear == severalReason && looseUnit(d.pack) {
		return false // so many yards are an example, and no pack
	}
	words := r.strange(d.clause, d.price)
	return d.pack.Text != "" && (!offered || words.To == 0 || r.onlyMissed(words) || r.opensForm(d.price.From))
}

// opensForm says whether the line of byte at opens with how what it prices is packed: "Loose, by tipper: £52 per m3".
func (r *reading) opensForm(at int) bool {
	from := max(strings.LastIndexByte(r.low[:at], '\n')+1, at-window)
	return cues.FormFirst.MatchString(r.low[from:at])
}

// likewise takes a price without a pack for another of the pack of a doubtful one before it: "90 a yard if you order today. Regular
// is 96".
func (d *doubtfulPrice) likewise(before *doubtfulPrice) bool {
	if before == nil || before.row != nil || before.medium != d.medium || d.pack.Text != "" || !d.price.unit.Empty() || !near(d.price.money, before.price.money) {
		return false
	}
	d.pack, d.held = before.pack, slices.Clone(before.held)
	if !before.price.unit.Empty() {
		d.packBy = before.price
	}
	return true
}

// heldNear are the facts that say what a pack holds in the clause of a doubtful price, or from the naming of its medium on to it: if
// they are of one pack.
func (r *reading) heldNear(d *doubtfulPrice, i int) []*fact {
	var out []*fact
	for _, c := range slices.Backward(r.all[:i+1]) {
		for _, f := range c.facts {
			if f.kind == aPack && f.unit.Text != "" && f.ask == nil && d.pack.Fits(f.unit) && (f.unclear == "" || f.unclear == noPriceForPack || f.unclear == d.price.unclear) {
				out = append(out, f)
			}
		}
		if slices.Contains(c.facts, d.medium) {
			break
		}
	}
	if slices.ContainsFunc(out, func(f *fact) bool { return f.unit.Text != out[0].unit.Text }) {
		return nil
	}
	return out
}

// soldAll is what all prices are said to be for, or the one unit of what is sold loose that all others are for.
func (r *reading) soldAll(d *doubtfulPrice) []*fact {
	var of, said *fact
	for _, c := range r.all {
		for _, f := range c.facts {
			switch {
			case f.ask != nil:
			case f.kind == aPack && f.general && f.unit.Text != "":
				said = f
			case oneOf(f.kind, aPrice, aPack) && f != d.price && f.unclear == "" && looseUnit(f.unit) && single(f.unit):
				of = f
			}
		}
	}
	if said == nil && !r.soldBy().Empty() {
		said = of
	}
	if said == nil || !d.pack.Fits(said.unit) {
		return nil
	}
	return []*fact{{kind: aPack, Range: said.Range, unit: said.unit, text: said.unit.Text, why: "what the others are for", head: said}}
}

// believe makes a doubtful price that was answered to hold one of a row.
func (r *reading) believe(all []*draft, d *doubtfulPrice) []*draft {
	for _, f := range d.held {
		f.unclear = ""
		if f.head != nil {
			f.head.unclear = ""
		}
	}
	if f := d.packBy; f != nil {
		f.unclear, f.kind, f.why = "", aPack, "what the price is for"
		d.held = append(d.held, f)
	}
	if row := d.row; row != nil {
		row.offer.price = d.price
		row.set("price", d.price.text, d.price.why, d.price)
		if row.cells["pack"] == nil && d.pack.Text != "" {
			row.offer.pack = row.offer.pack.With(d.pack)
			row.set("pack", d.pack.Text, "what the price is for", append(d.held, d.price)...)
		}
		return all
	}
	it := &item{medium: d.medium.medium, words: d.medium.text, from: []*fact{d.medium}, row: -1, clauses: []*clause{d.clause}, section: r.sectionAt(d.price.From), facts: r.grains(d)}
	d.medium.item, d.medium.unclear = it, ""
	o := &offer{pack: d.pack, packFrom: d.held, price: d.price, at: d.price.From}
	row := r.draft(it, o)
	for _, f := range r.along(d) {
		switch column := traits[f.kind]; {
		case f.kind == aBreak && f.money.Cmp(d.price.money) < 0 && o.pack.Fits(f.unit) && o.pack.Counts(f.counted):
			f.unclear, o.breaks = "", append(o.breaks, f)
		case column != "" && f.kind != aPack && row.cells[column] == nil && (f.kind == aDensity || f.kind == aSize || o.pack.Counts(f.counted)):
			f.unclear = ""
			row.set(column, f.text, f.why, f)
		}
	}
	row.setBreaks()
	at := slices.IndexFunc(all, func(o *draft) bool { return o.offer != nil && o.offer.at > d.price.From })
	if at < 0 {
		at = len(all)
	}
	return slices.Insert(all, at, row)
}

// along are the facts behind a doubtful price, up to the next, that were left to a person for the same reason: they hold with it.
func (r *reading) along(d *doubtfulPrice) (out []*fact) {
	for _, c := range r.all {
		for _, f := range c.facts {
			switch {
			case f.From <= d.price.From:
			case f.kind == aMedium && f != d.medium, f.kind == aPrice, f.kind == aSupplier:
				return out
			case f.unclear == d.why, oneOf(f.kind, aMin, aMax) && oneOf(f.unclear, uncounted, noPriceForPack):
				out = append(out, f)
			}
		}
	}
	return out
}

// grains are the sizes said with a doubtful price, or where its medium is named, if they are one.
func (r *reading) grains(d *doubtfulPrice) []*fact {
	var out []*fact
	for _, c := range r.all {
		for _, f := range c.facts {
			if f.kind == aSize && (c == d.clause || slices.Contains(c.facts, d.medium)) {
				out = append(out, f)
			}
		}
	}
	if slices.ContainsFunc(out, func(f *fact) bool { return f.text != out[0].text }) {
		return nil
	}
	for _, f := range out {
		f.unclear = ""
	}
	return out
}

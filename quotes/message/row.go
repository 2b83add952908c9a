package message

import (
	"fmt"
	"slices"
	"strings"

	"mediabuy/quotes/files"
	"mediabuy/units"
)

// draft is a row being made, with the facts behind each cell.
type draft struct {
	cells map[string]*made
	item  *item
	offer *offer
	notes []string
}

// made is a cell with the facts it was made of; none when the caller gave it.
type made struct {
	text  string
	why   string
	facts []*fact
}

// rows makes the drafts of all items.
func (r *reading) rows() []*draft {
	r.split()
	r.byThePallet()
	r.mentions()
	r.alike()
	r.generalPacks()
	r.sames()
	r.inherit()
	r.loadSizes()
	var out []*draft
	for _, it := range r.items {
		if it.several {
			for _, f := range it.facts {
				f.drop("two media are named together, and it is not said which one it is about")
			}
			for _, f := range it.from {
				if r.pricedElsewhere(f) {
					f.kind, f.why = anAside, "a medium that is named again with its price"
				} else {
					f.drop("it is named together with another medium, and with no price of its own")
				}
			}
			continue
		}
		it.gradeNumbers()
		r.single(it, aSize, "two grain sizes for one price")
		for _, k := range []kind{aDensity, anAcidTest, aLoss} {
			r.single(it, k, "two that contradict one another")
		}
		r.unusual(it)
		offers := r.offers(it)
		if it.medium == nil {
			offers = slices.DeleteFunc(offers, r.unknown)
		}
		for _, o := range offers {
			out = append(out, r.draft(it, o))
		}
		if len(offers) == 0 {
			for _, f := range it.facts {
				f.drop("no price for " + it.name() + " could be read")
			}
		}
	}
	out = r.settle(out)
	r.amounts()
	out = r.doubtful(out, r.priceClaims(out))
	out = r.doubtful(out, r.traitClaims(out))
	for _, sec := range r.sections {
		r.rivalFees(sec)
	}
	out = r.askPricesLeft(out)
	r.orderTerms(out)
	r.askTermsLeft(out)
	r.farthest(slices.Concat(out, r.ways))
	refer(files.QuotesFile, out)
	return out
}

// refer tells the facts of drafts which cells they are in, with the headings that cells hang on. A cell whose words were
// all left to a person after it was made goes.
func refer(file string, drafts []*draft) {
	for i, d := range drafts {
		for column, m := range d.cells {
			given := len(m.facts) == 0 // by the caller
			m.facts = slices.DeleteFunc(m.facts, (*fact).hangsOnDoubt)
			if len(m.facts) == 0 && !given {
				delete(d.cells, column)
			}
			for j := 0; j < len(m.facts); j++ { // and what that is from: the third of three colours has the pack of the first
				if f := m.facts[j]; f.head != nil && !slices.Contains(m.facts, f.head) {
					m.facts = append(m.facts, f.head)
				}
			}
			for _, f := range m.facts {
				f.refs = append(f.refs, Ref{file, i, column})
			}
		}
	}
}

// hangsOnDoubt says whether a fact, or what it is from, however far back, was left to a person. Facts that an answer joined are each
// from the next, in a ring.
func (f *fact) hangsOnDoubt() bool {
	const farthest = 64
	for g, n := f, 0; g != nil && n < farthest; g, n = g.head, n+1 {
		if g.unclear != "" {
			return true
		}
	}
	return false
}

// unknown leaves an offer to a person of which neither the medium nor what a pack holds is known.
func (r *reading) unknown(o *offer) bool {
	if o.pack.Text != "" && o.price != nil {
		return false
	}
	for _, f := range slices.Concat(o.packFrom, o.formFrom, o.breaks, []*fact{o.price, o.min, o.max, o.step}) {
		if f != nil {
			f.drop("neither what it is the price of nor a pack could be made out")
		}
	}
	return true
}

// pricedElsewhere says whether an item of the medium that f names has a price.
func (r *reading) pricedElsewhere(f *fact) bool {
	return slices.ContainsFunc(r.items, func(it *item) bool { return !it.several && it.medium == f.medium && it.offered() })
}

// mentions joins items that only name a medium to the one of that medium with a price.
func (r *reading) mentions() {
	var keep []*item
	for _, it := range r.items {
		if it.priced() || it.row >= 0 || it.medium == nil || it.several {
			keep = append(keep, it)
			continue
		}
		var of []*item
		for _, o := range r.items {
			if o != it && o.medium == it.medium && o.section == it.section && (o.priced() || !it.offered() && o.offered()) {
				of = append(of, o)
			}
		}
		if len(it.facts) > 0 && !slices.ContainsFunc(it.facts, func(f *fact) bool { return !oneOf(f.kind, aDensity, anAcidTest, aLoss) }) {
			named := slices.DeleteFunc(slices.Clone(of), func(o *item) bool { return !strings.Contains(lower(o.words), lower(it.words)) })
			for _, o := range named { // "the lava weighs 850 kg/m3", of all that is called so
				o.from, o.facts, o.clauses = append(o.from, it.from...), append(o.facts, it.facts...), append(o.clauses, it.clauses...)
			}
			if len(named) > 0 {
				continue
			}
		}
		if len(of) != 1 || it.offered() && !it.lowers(of[0]) || it.another(of[0]) {
			keep = append(keep, it)
			continue
		}
		of[0].from = append(of[0].from, it.from...)
		of[0].facts = append(of[0].facts, it.facts...)
		of[0].clauses = append(of[0].clauses, it.clauses...)
		of[0].words = longer(of[0].words, it.words)
	}
	r.items = keep
}

// priced says whether a price that holds from the first pack stands with the item.
func (it *item) priced() bool {
	return slices.ContainsFunc(it.facts, func(f *fact) bool { return f.kind == aPrice || f.kind == aTier || f.kind == aPallet })
}

// another says whether an item of the same medium goes by another name and a size that no item with a price has: "pea gravel 39.50,
// river rock 1-3 in".
func (it *item) another(o *item) bool {
	size := slices.ContainsFunc(it.facts, func(f *fact) bool { return f.kind == aSize })
	a, b := lower(it.words), lower(o.words)
	return size && !strings.Contains(a, b) && !strings.Contains(b, a)
}

// lowers says whether an item of breaks alone goes with one that has the price before them: of the same packs and grains.
func (it *item) lowers(o *item) bool {
	for _, f := range it.facts {
		if (f.kind == aSize || f.kind == aPack || f.kind == aForm) && !slices.ContainsFunc(o.facts, func(g *fact) bool {
			return f.kind == aSize && g.kind == aSize && f.text == g.text || f.kind != aSize && (g.kind == aPack || g.kind == aPrice || g.kind == aForm) && !g.unit.Empty() && g.unit.Fits(f.unit)
		}) {
			return false
		}
	}
	return true
}

// alike joins items in the same words, of one pack and size, with a price each: which of the two holds is asked.
func (r *reading) alike() {
	mark := func(it *item) (string, bool) {
		key, prices, mixed := lower(it.words), 0, false
		var unit pack
		for _, f := range it.facts {
			switch f.kind {
			case aPrice:
				if prices++; prices == 1 {
					unit = f.unit
					key += "|" + f.unit.Text + f.unit.Form
				}
				mixed = mixed || f.unit.Text != unit.Text || f.unit.Form != unit.Form
			case aPack, aForm:
				if f.unit.Form == "load" {
					continue // how it is brought
				}
				key += "|" + f.unit.Text + f.unit.Form
			case aSize:
				key += "|" + f.text
			case aBreak, aTier, aPallet:
				return "", false
			}
		}
		return key, prices > 0 && !mixed && it.row < 0 && it.medium != nil && !it.several
	}
	for _, it := range r.items { // a price below a table, of what stands in it with another
		for _, o := range r.items {
			if it.row < 0 && o.row >= 0 && it.medium != nil && it.medium == o.medium && it.offered() && o.offered() && !slices.ContainsFunc(it.facts, func(f *fact) bool { return !f.unit.Empty() || f.kind == aSize }) && !priceOf(it).Equal(priceOf(o)) {
				for _, f := range slices.Concat(it.facts, o.facts) {
					if f.kind == aPrice {
						f.drop(twoPrices)
					}
				}
			}
		}
	}
	seen := map[string]*item{}
	r.items = slices.DeleteFunc(r.items, func(it *item) bool {
		key, ok := mark(it)
		if !ok {
			return false
		}
		key += fmt.Sprint("|", it.section)
		first := seen[key]
		if first == nil {
			seen[key] = it
			return false
		}
		if priceOf(first).Equal(priceOf(it)) {
			return false // said twice
		}
		first.from = append(first.from, it.from...)
		first.facts = append(first.facts, it.facts...)
		first.clauses = append(first.clauses, it.clauses...)
		for _, f := range slices.Concat(it.facts, it.from) {
			f.item = first
		}
		return true
	})
}

// priceOf is the first price of an item.
func priceOf(it *item) units.Money {
	for _, f := range it.facts {
		if f.kind == aPrice {
			return f.money
		}
	}
	return units.Money{}
}

// single leaves only one fact of a kind, or none where they contradict one another.
func (r *reading) single(it *item, k kind, why string) {
	var of []*fact
	for _, f := range it.facts {
		if f.kind == k && f.unclear == "" {
			of = append(of, f)
		}
	}
	for _, f := range of {
		if f.text != of[0].text {
			for _, g := range of {
				g.drop(why)
			}
			break
		}
	}
	it.facts = slices.DeleteFunc(it.facts, func(f *fact) bool { return f.unclear != "" && !f.outbid })
}

// generalPacks gives "all bags are 50 L" to every bag without a size, and "half yards are fine" to all that is sold by the yard.
func (r *reading) generalPacks() {
	var said []*fact
	for _, it := range r.items {
		said = append(said, slices.DeleteFunc(slices.Clone(it.facts), func(f *fact) bool { return f.kind != aPack || !f.general })...)
	}
	given := map[*fact]bool{}
	for _, from := range slices.Clone(r.items) {
		for _, f := range slices.Clone(from.facts) {
			if !oneOf(f.kind, aPack, aForm, aStep) || !f.general || given[f] || from.row >= 0 && f.kind == aStep {
				continue
			}
			given[f] = true
			var to []*item
			from.facts = slices.DeleteFunc(from.facts, func(g *fact) bool { return g == f })
			for _, it := range r.items {
				if it.section == from.section && (f.kind == aPack && wantsPack(it, from, f, said) || f.kind == aForm && it.unformed() || f.kind == aStep && wantsStep(it, from, f)) {
					to = append(to, it)
				}
			}
			if len(to) == 0 {
				to = append(to, from)
			}
			for _, it := range to {
				for _, g := range it.facts { // a bulk bag, called a bag
					if g.kind == aPrice && g.unit.Text == "" && g.unit.Form == "bag" && f.kind == aPack && f.unit.Form == "sack" {
						g.unit.Form = "sack"
					}
				}
				it.facts = append(it.facts, f)
			}
		}
	}
}

// unsized says whether the item has prices, none with a unit: they are for the pack of the item before.
func (it *item) unsized() bool {
	return it.row < 0 && it.offered() && !slices.ContainsFunc(it.facts, func(f *fact) bool { return oneOf(f.kind, aPrice, aPack) && f.unit.Text != "" })
}

// unformed says whether the item has prices, none of them for a pack whose form is told but as a bag.
func (it *item) unformed() bool {
	return it.offered() && !slices.ContainsFunc(it.facts, func(f *fact) bool {
		return !f.general && (f.kind == aPrice || f.kind == aPack || f.kind == aForm) && (f.unit.Text != "" || f.unit.Form != "" && f.unit.Form != "bag" && f.unit.Form != "each")
	})
}

// wantsPack says whether a price of the item is for a pack of the form of p with no size said, and p the one said last above it.
func wantsPack(it, from *item, p *fact, said []*fact) bool {
	form := p.unit.Form
	sized := slices.ContainsFunc(it.facts, func(f *fact) bool {
		return f.kind == aPack && (f.unit.Form == form || form == "" && it != from && !f.general && f.unit.Text != "")
	})
	return !sized && slices.ContainsFunc(it.facts, func(f *fact) bool {
		return f.kind == aPrice && (f.unit.Form == form || f.unit.Form == "bag" && form == "sack" || it == from && f.unit.Empty()) && f.unit.Text == "" && !slices.ContainsFunc(said, func(g *fact) bool {
			return g.unit.Form == form && g.unit.Text != p.unit.Text && g.From < f.From && (p.From > f.From || p.From < g.From)
		})
	})
}

// wantsStep says whether the item has a pack that step f counts, or stands in front of it with none yet.
func wantsStep(it, from *item, f *fact) bool {
	packs := slices.DeleteFunc(slices.Clone(it.facts), func(g *fact) bool { return !oneOf(g.kind, aPack, aPrice) || g.From > f.From })
	return it.row < 0 && slices.ContainsFunc(packs, func(g *fact) bool { return g.unit.Counts(f.counted) }) ||
		it == from && !slices.ContainsFunc(packs, func(g *fact) bool { return g.unit.Text != "" })
}

// draft makes the row of one offer.
func (r *reading) draft(it *item, o *offer) *draft {
	d := &draft{cells: map[string]*made{}, item: it, offer: o}
	for _, f := range it.facts {
		if f.kind == aCell && f.column == "item" {
			d.set("item", f.text, f.why, f)
		}
	}
	if it.medium != nil {
		d.set("medium", it.medium.Name, "the words name it", it.from...)
	}
	if d.cells["item"] != nil {
		// The column of items has the supplier's own words.
	} else if it.medium != nil {
		d.set("item", it.words, "the supplier's own words", it.from...)
	} else if it.words != "" && it.range_.To > 0 {
		f := &fact{kind: aCell, Range: it.range_, why: "the words before the price"}
		r.extra = append(r.extra, f)
		d.set("item", it.words, f.why, f)
	}
	used := func(f *fact) bool { return f != nil && f.unclear == "" }
	if used(o.price) {
		d.set("price", o.price.text, o.price.why, o.price)
	}
	if from := r.packFacts(o); o.pack.Text != "" && len(from) > 0 {
		d.set("pack", o.pack.Text, "what the price is for", from...)
	}
	if form := o.pack.RealForm(); form != "" && (form != "bulk" || o.pack.Amount == nil || large(*o.pack.Amount) || single(o.pack)) { // loose coir by the 50 L is in a bag
		from := slices.Concat(o.formFrom, r.packFacts(o))
		if len(from) == 0 {
			from = o.breaks
		}
		if len(from) > 0 {
			d.set("form", form, "a word for the pack", from...)
		}
	}
	for _, one := range []struct {
		column string
		f      *fact
	}{{"min_qty", o.min}, {"max_qty", o.max}, {"step", o.step}} {
		if used(one.f) && !o.doubted { // else it may hang on the price that is asked about
			d.set(one.column, one.f.text, one.f.why, one.f)
		}
	}
	if o.lot != nil && o.lot == o.price && o.step == nil {
		d.set("step", o.lot.from.text, "sold by the pallet", o.lot)
	}
	if o.price == nil {
		for _, f := range o.breaks {
			f.drop("the price of fewer packs is not said")
		}
	}
	d.setBreaks()
	for _, f := range it.facts {
		if f.unclear != "" {
			continue
		}
		switch f.kind {
		case aSize, aDensity, anAcidTest, aLoss, aCell, aSupplier:
			d.set(headingFor(f), f.text, f.why, f)
		case aNote:
			d.note(f)
		}
	}
	return d
}

// packFacts are the facts that say what the pack of an offer is.
func (r *reading) packFacts(o *offer) []*fact {
	out := slices.Clone(o.packFrom)
	if o.price != nil && !o.price.unit.Empty() {
		out = append(out, o.price)
	}
	for _, f := range o.breaks {
		if len(out) == 0 && !(f.unit.Empty() && f.counted.Empty()) {
			out = append(out, f)
		}
	}
	return out
}

// set fills a cell once.
func (d *draft) set(column, text, why string, from ...*fact) {
	if old := d.cells[column]; old != nil {
		if old.text != text {
			for _, f := range from {
				f.drop("the row has another " + column + " already")
			}
			return
		}
		old.facts = append(old.facts, from...)
		return
	}
	d.cells[column] = &made{text: text, why: why, facts: slices.Clone(from)}
}

// note adds to the notes, which hold several sayings.
func (d *draft) note(f *fact) {
	old := d.cells["notes"]
	if old == nil {
		d.set("notes", f.text, "said of it", f)
		return
	}
	if !strings.Contains(old.text, f.text) {
		old.text += "; " + f.text
	}
	old.facts = append(old.facts, f)
}

// gradeNumbers leaves a size by a number to a person where it may be its maker's grade: perlite #3 is no stone No. 3. ASTM
// D448 numbers the sizes of crushed stone and gravel alone.
func (it *item) gradeNumbers() {
	for _, f := range it.facts {
		ground := it.medium != nil && (it.medium.Name == "perlite" || it.medium.Name == "vermiculite")
		if f.kind != aSize || !strings.HasPrefix(f.text, "#") || !ground && len(f.text) > len("#9") {
			continue // no maker counts its grades beyond nine (common practice, no source)
		}
		if ground || it.medium == nil || !slices.ContainsFunc(numberedStone, func(w string) bool { return strings.Contains(it.medium.Name, w) }) {
			f.drop("a number for a grade; only sizes of crushed stone and gravel are numbered by a standard, so ask for the grains in mm or inches")
		}
	}
}

// numberedStone are words in the names of media whose sizes are numbered as stone is.
var numberedStone = []string{"gravel", "granite", "rock", "stone", "shale", "slate", "basalt"}

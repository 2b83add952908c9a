package message

import (
	"fmt"
	"slices"
)

// traits are the columns of numbers that say something of one quote besides its price.
var traits = map[kind]string{aDensity: "density", aMin: "min_qty", aMax: "max_qty", aStep: "step", aSize: "size", aPack: "pack"}

// traitClaims are densities, sizes and numbers of packs that were left to a person, where they would be those of one row alone: of the
// medium named last, and of the packs they count.
func (r *reading) traitClaims(all []*draft) (out []*claim) {
	r.each(func(c *clause, medium, f *fact) {
		column := traits[f.kind]
		if column == "" || oneOf(f.kind, aMin, aMax, aStep) || f.unclear == "" || f.ask != nil || never[f.unclear] || f.text == "" {
			return
		}
		row := r.lacking(all, medium, f, column)
		if row == nil {
			return
		}
		words := map[string]string{"density": "does %[2]s weigh %[1]s?", "size": "is %[1]s the size of %[2]s?", "min_qty": "are %[1]s packs of %[2]s the fewest sold?",
			"max_qty": "are %[1]s packs of %[2]s all there are?", "step": "is %[2]s sold in steps of %[1]s packs?", "pack": "does a pack of %[2]s hold %[1]s?"}[column]
		one := &claim{fact: f, clause: c, about: fmt.Sprintf("%s %p", column, row), as: isTrait, label: f.text, hold: func(all []*draft) []*draft {
			row.set(column, f.text, f.why, f)
			return all
		}}
		one.asks = fmt.Sprintf(words, f.text, medium.medium.Name)
		one.among = "which of them is the " + column + " of " + medium.medium.Name + "?"
		if !slices.ContainsFunc(out, func(o *claim) bool { return o.about == one.about && o.fact.text == f.text }) {
			out = append(out, one)
		}
	})
	for _, row := range all {
		if o := row.offer; o != nil && o.price != nil && o.price.unclear == "" && row.cells["pack"] == nil && tonneBag.MatchString(o.pack.Words) {
			at := slices.IndexFunc(r.all, func(c *clause) bool { return slices.Contains(c.facts, o.price) })
			out = append(out, &claim{
				fact: o.price, clause: r.all[at], about: fmt.Sprintf("pack %p", row), as: isTrait, label: "1 tonne", asks: "does a tonne bag hold 1 tonne?",
				hold: func(all []*draft) []*draft {
					row.set("pack", "1 tonne", "a bag by its weight, as answered", o.price)
					return all
				},
			})
		}
	}
	return out
}

// tonneBag is a bag called by a weight, which it may hold less of.
var tonneBag = pattern(`tonne[ -]bags?$`)

// lacking is the only row of a medium in the section of f that lacks its column, and whose packs f counts; nil when there is none or
// there are several.
func (r *reading) lacking(all []*draft, medium, f *fact, column string) (out *draft) {
	for _, row := range all {
		if !r.offersOf(row, medium, f) || row.cells["price"] == nil || oneOf(f.kind, aMin, aMax, aStep) && !row.offer.pack.Counts(f.counted) || f.kind == aPack && (!row.offer.pack.Fits(f.unit) || row.offer.pack.RealForm() == "") {
			continue
		}
		if out != nil || row.cells[column] != nil {
			return nil
		}
		out = row
	}
	return out
}

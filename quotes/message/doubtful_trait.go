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
	return append(out, r.acidClaims(all)...)
}

// acidClaims say what an acid drop did where it was not made out to what: to the medium named last that has rows here, as limestone is
// mostly named for what it would be.
func (r *reading) acidClaims(all []*draft) (out []*claim) {
	var rows []*draft
	for _, c := range r.all {
		for _, m := range c.media() {
			if of := slices.DeleteFunc(slices.Clone(all), func(d *draft) bool { return !r.offersOf(d, m, m) || d.cells["price"] == nil }); len(of) > 0 {
				rows = of
			}
		}
		for _, f := range c.facts {
			of, about := rows, fmt.Sprintf("carbonate %p", rows)
			if f.kind != anAcidTest || f.unclear == "" || f.ask != nil || c.row >= 0 || never[c.poison] || len(rows) == 0 || rows[0].cells["carbonate"] != nil ||
				slices.ContainsFunc(out, func(o *claim) bool { return o.about == about && o.fact.text == f.text }) {
				continue
			}
			what := "what an acid drop did to " + of[0].item.medium.Name + "?"
			out = append(out, &claim{
				fact: f, clause: c, about: about, as: isTrait, label: f.text, asks: "is it " + what, among: "which of them is " + what,
				hold: func(all []*draft) []*draft {
					for _, d := range of {
						d.set("carbonate", f.text, f.why, f)
					}
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

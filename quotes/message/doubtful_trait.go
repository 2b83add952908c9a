package message

import (
	"fmt"
	"slices"
)

// traits are the columns of numbers that say something of one quote besides its price.
var traits = map[kind]string{aDensity: "density", aMin: "min_qty", aMax: "max_qty", aStep: "step", aSize: "size", aPack: "pack"}

// traitClaims are bags called by a weight, which may be what they hold.
func (r *reading) traitClaims(all []*draft) (out []*claim) {
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

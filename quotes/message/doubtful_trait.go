package message

import (
	"fmt"
	"slices"

	"mediabuy/quotes/internal/cues"
	"mediabuy/units"
)

// traits are the columns of numbers that say something of one quote besides its price.
var traits = map[kind]string{aDensity: "density", aMin: "min_qty", aMax: "max_qty", aStep: "step", aSize: "size", aPack: "pack"}

// traitClaims are bags called by a weight, which may be what they hold; and what nobody carries by hand, of which it is not said whether it
// comes in bulk bags or loose: left empty, the form would be that of a hand bag.
func (r *reading) traitClaims(all []*draft) (out []*claim) {
	for _, row := range all {
		o := row.offer
		if o == nil || o.price == nil || o.price.unclear != "" {
			continue
		}
		at := slices.IndexFunc(r.all, func(c *clause) bool { return slices.Contains(c.facts, o.price) })
		add := func(as int, column, text, label, asks, why string) {
			out = append(out, &claim{fact: o.price, clause: r.all[at], about: fmt.Sprintf("%s %p", column, row), as: as, label: label, asks: asks, hold: func(all []*draft) []*draft {
				row.set(column, text, why, o.price)
				return all
			}})
		}
		if at >= 0 && row.cells["medium"] != nil && len(row.item.from) > 0 && barePebbles.MatchString(row.item.from[0].text) && litres.MatchString(o.pack.Text) && !slices.ContainsFunc(all, func(d *draft) bool {
			return d.item.medium == row.item.medium && d.offer != nil && looseUnit(d.offer.pack)
		}) {
			const why, asks = "what the pebbles are, as answered", "are the pebbles of expanded clay, or of a river?"
			delete(row.cells, "medium")
			add(isTrait+2, "medium", "expanded clay", "clay pebbles", asks, why)
			add(isTrait+3, "medium", "river gravel", "pebbles of a river", asks, why)
		}
		switch {
		case at < 0:
		case row.cells["pack"] == nil && cues.TonneBag.MatchString(o.pack.Words):
			add(isTrait, "pack", "1 tonne", "1 tonne", "does a tonne bag hold 1 tonne?", "a bag by its weight, as answered")
		case row.cells["pack"] != nil && row.cells["form"] == nil && oneOf(o.pack.Form, "", "each") && o.pack.Amount != nil && !looseUnit(o.pack) && heavy(*o.pack.Amount) && row.item.row < 0:
			const why = "what it comes in, as answered"
			asks := "is " + o.pack.Text + " a bulk bag, or loose?"
			add(isTrait, "form", "sack", "a bulk bag", asks, why)
			add(isTrait+1, "form", "bulk", "loose", asks, why)
		}
	}
	return out
}

// heavy says whether a pack is more than a hand bag holds: 50 kg or 150 litres (common practice, no source).
func heavy(a units.Amount) bool {
	return a.IsMass && a.Mass.Value > 50 || !a.IsMass && a.Volume.Value > 150
}

// barePebbles are of a river by the word alone, but those sold by the litre, as growers buy clay, may be of clay.
var (
	barePebbles = compile(`(?i)^(?:(?:round|small|large|washed|brown) )*pebbles?$`)
	litres      = pattern(plainNumber + sp + `L$`)
)

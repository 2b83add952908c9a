package breakeven

import (
	"fmt"

	"mediabuy/units"
)

// Sentence says from how many bags, and from which volume, the bulk of one medium
// beats its bags, both delivered.
func Sentence(v *Volume, sys units.System) string {
	volume := func(l units.Litres) string { return units.FormatVolume(l, sys) }
	truck := v.Right.Name + " of " + v.supplier(Right)
	name := v.Medium.Name + ": "
	switch {
	case v.First == nil && len(v.Stretches) > 0 && v.Stretches[len(v.Stretches)-1].Cheaper == Right:
		return name + truck + " is cheaper than bags at every volume."
	case v.First == nil:
		return fmt.Sprintf("%sbags (%s) are cheaper than bulk, or the same, at every volume up to %s.", name, v.Left.Name, volume(v.Looked))
	}
	words := fmt.Sprintf("%sabove %s %s is cheaper than bags", name, volume(*v.First), truck)
	if t := v.BagsAt(v.First); t != nil {
		words = fmt.Sprintf("%sfrom the %s of %s, above %s, %s is cheaper than bags", name, ordinal(t.Packs, "bag"), t.Quote.Pack.Raw, volume(*v.First), truck)
	}
	switch {
	case v.Always == nil:
		return words + fmt.Sprintf(", but not at every volume above that up to %s.", volume(v.Looked))
	case *v.Always > *v.First:
		return words + fmt.Sprintf(", and from %s always.", volume(*v.Always))
	}
	return words + ", and always from there."
}

// supplier is who sells the quote a side is named after.
func (v *Volume) supplier(w Winner) string {
	side := v.Left
	if w == Right {
		side = v.Right
	}
	for _, q := range side.Quotes {
		if q.Name == side.Name {
			return q.Supplier
		}
	}
	return side.Quotes[0].Supplier
}

// ordinal is "9th bag".
func ordinal(n units.Decimal, thing string) string {
	whole, err := n.Ceil()
	if err != nil {
		return n.String() + " " + thing
	}
	end := "th"
	if tens := whole % 100; tens < 11 || tens > 13 {
		switch whole % 10 {
		case 1:
			end = "st"
		case 2:
			end = "nd"
		case 3:
			end = "rd"
		}
	}
	return fmt.Sprintf("%d%s %s", whole, end, thing)
}

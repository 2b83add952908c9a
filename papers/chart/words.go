package chart

import (
	"fmt"
	"strings"

	"mediabuy/optimise/breakeven"
	"mediabuy/optimise/breakeven/byvolume"
	"mediabuy/quotes"
	"mediabuy/units"
)

// Sentence says from how many bags, and from which volume, the bulk of one medium
// beats its bags, both delivered.
func Sentence(v *byvolume.Volume, sys units.System) string {
	volume := func(l units.Litres) string { return units.FormatVolume(l, sys) }
	truck := nameOf(v.Right)
	if of := " of " + supplierOf(v.Right); !strings.HasSuffix(truck, of) {
		truck += of
	}
	name := v.Medium.Name + ": "
	switch {
	case v.First == nil && len(v.Stretches) > 0 && v.Stretches[len(v.Stretches)-1].Cheaper == byvolume.Right:
		return name + truck + " is cheaper than bags at every volume."
	case v.First == nil:
		return fmt.Sprintf("%sbags (%s) are cheaper than bulk, or the same, at every volume up to %s.", name, nameOf(v.Left), volume(v.Looked))
	}
	words := fmt.Sprintf("%sabove %s %s is cheaper than bags", name, volume(*v.First), truck)
	if t := v.BagsAt(v.First); t != nil {
		words = fmt.Sprintf("%sfrom the %s of %s, above %s, %s is cheaper than bags", name, ordinal(t.Packs, "bag"), t.Quote.Pack.Raw, volume(*v.First), truck)
	}
	switch {
	case v.Always == nil:
		return words + fmt.Sprintf(", but not at every volume above that up to %s.", volume(v.Looked))
	case *v.Always > *v.First && bagsEnd(v):
		return words + fmt.Sprintf(", but not at every volume up to %s, where the bags on offer end.", volume(*v.Always))
	case *v.Always > *v.First:
		return words + fmt.Sprintf(", but not at every volume up to %s; from there on always.", volume(*v.Always))
	}
	return words + ", and always from there."
}

// bagsEnd reports whether bulk is cheaper from some volume on because no more bags are to
// be had.
func bagsEnd(v *byvolume.Volume) bool {
	all := v.Treads(byvolume.Left)
	return len(all) > 0 && all[len(all)-1].UpTo <= *v.Always && all[len(all)-1].UpTo < v.Looked
}

// supplierOf is who sells the quote a side is named after.
func supplierOf(side byvolume.Side) string {
	if q := namesake(side); q != nil {
		return q.Supplier
	}
	return side.Quotes[0].Supplier
}

// namesake is the quote that a side is named after; nil where it is named otherwise.
func namesake(side byvolume.Side) *quotes.Quote {
	for _, q := range side.Quotes {
		if q.Name == side.Name {
			return q
		}
	}
	return nil
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

// ChangeWords is the name of a change for a reader: what is given in kilograms is said
// in whole pounds to one who thinks in them.
func ChangeWords(name string, sys units.System) string {
	if rest, ok := moreOn(name); ok && sys == units.US {
		return fmt.Sprintf("%.0f lb more%s", float64(breakeven.MoreLimit/units.Pound), rest)
	}
	return name
}

// moreOn is the frames of a change that trusts them with more weight; false for another
// change.
func moreOn(name string) (rest string, ok bool) {
	return strings.CutPrefix(name, fmt.Sprintf("%g kg more", float64(breakeven.MoreLimit)))
}

// SmallWords says what the small changes of a plan would save, each in a few words, with
// who may trust a frame with more; nil for none.
func SmallWords(changes []breakeven.Other, sys units.System, money func(units.Money) string) []string {
	var out []string
	for _, o := range changes {
		about := ""
		if o.Unproven {
			about = " at least"
		}
		words := fmt.Sprintf("%s: saves%s %s", ChangeWords(o.Name, sys), about, money(units.Money{}.Sub(o.Difference)))
		if _, ok := moreOn(o.Name); ok {
			words += ", if someone qualified finds that the frame carries it"
		}
		out = append(out, words)
	}
	return out
}

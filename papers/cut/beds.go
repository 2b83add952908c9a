// Package cut draws cuts through the beds of a plan: each kind of bed with what lies
// in it, and all of them in one picture that can be read however many there are.
package cut

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"mediabuy/optimise"
	"mediabuy/papers/caution"
	"mediabuy/papers/ink"
	"mediabuy/quotes"
	"mediabuy/units"
)

// Beds is the beds of a plan, gathered by what they look like.
type Beds struct {
	plan    *optimise.Plan
	units   units.System
	groups  []alike
	fills   map[*quotes.Medium]ink.Fill // the pattern of each medium, which all pictures share
	deepest units.Millimetres
	Media   []*quotes.Medium // bought, by name
}

// Of gathers the beds of a plan for a reader's habit.
func Of(plan *optimise.Plan, sys units.System) *Beds {
	r := &Beds{plan: plan, units: sys, fills: map[*quotes.Medium]ink.Fill{}, groups: groups(plan), Media: media(plan)}
	for i, m := range r.Media {
		r.fills[m] = ink.FillOf(i)
	}
	for _, f := range plan.Fills {
		r.deepest = max(r.deepest, f.Bed.Depth)
	}
	return r
}

func (r *Beds) mass(m units.Kilograms) string { return caution.Mass(m, r.units) }

// Volume is what a pack holds loose: litres, or cubic feet where those are used.
func Volume(v units.Litres, sys units.System) string {
	if sys == units.US {
		return number(float64(v/units.CubicFoot)) + " ft³"
	}
	return number(float64(v)) + " L"
}

// number has three digits, or is whole from a hundred on.
func number(v float64) string {
	switch {
	case v < 10:
		return fmt.Sprintf("%.2f", v)
	case v < 100:
		return fmt.Sprintf("%.1f", v)
	}
	return fmt.Sprintf("%.0f", v)
}

// alike is beds that are filled in the same way: one picture does for all.
type alike struct {
	optimise.BedFill
	names []string
	beds  int
}

// groups gathers beds that are alike in every figure of their picture.
func groups(plan *optimise.Plan) []alike {
	var out []alike
	at := map[string]int{}
	for _, f := range plan.Fills {
		b := f.Bed
		key := fmt.Sprintf("%g %g %g %g %g %g %g %v %g %s", b.Length, b.Width, b.Depth, b.Top, b.Volume, b.TopVolume, b.WaterLine, b.NeverFloods, math.Round(float64(f.Flooded)*10), b.Table)
		if b.Limit != nil {
			key += fmt.Sprint(" ", *b.Limit)
		}
		for _, l := range f.Layers {
			for _, part := range l.Parts {
				key += fmt.Sprintf(" %s %s %.1f", l.Layer, part.Quote.Name, float64(part.Litres))
			}
		}
		i, ok := at[key]
		if !ok {
			i = len(out)
			at[key] = i
			out = append(out, alike{BedFill: f})
		}
		name := b.Name
		if b.Count > 1 {
			name = fmt.Sprintf("%s (each of %d)", name, b.Count)
		}
		out[i].names = append(out[i].names, name)
		out[i].beds += b.Count
	}
	return out
}

// media are those bought, by name.
func media(plan *optimise.Plan) []*quotes.Medium {
	var out []*quotes.Medium
	for _, l := range plan.Bill.Lines {
		if !slices.Contains(out, l.Quote.Medium) {
			out = append(out, l.Quote.Medium)
		}
	}
	slices.SortFunc(out, func(a, b *quotes.Medium) int { return cmp.Compare(a.Name, b.Name) })
	return out
}

package statement

import (
	"fmt"
	"math"

	"mediabuy/optimise/share"
	"mediabuy/papers/page"
	"mediabuy/units"
)

// volumes are figures of volume as they stand in a table, counted in its last digit:
// whole litres, or tenths of a cubic foot. Parts of a printed figure are printed so that
// they add up to it: what rounding leaves over goes to the largest remainders.
type volumes struct{ s scribe }

// step is the last digit that is printed.
func (v volumes) step() units.Litres {
	if v.s.system == units.US {
		return units.CubicFoot / 10
	}
	return 1
}

// of is a volume in last digits.
func (v volumes) of(l units.Litres) int64 { return int64(math.Round(float64(l / v.step()))) }

// parts are a figure's parts, in the proportion of volumes.
func (v volumes) parts(whole int64, of []units.Litres) []int64 {
	weights := make([]float64, len(of))
	for i, l := range of {
		weights[i] = max(0, float64(l))
	}
	if len(weights) == 0 {
		return nil
	}
	return units.Split(whole, weights)
}

// members is the figure of each member, which add up to that of all.
func (v volumes) members() (each []int64, all int64) {
	var of []units.Litres
	var sum units.Litres
	for _, m := range v.s.res.Members {
		of = append(of, m.Litres)
		sum += m.Litres
	}
	all = v.of(sum)
	return v.parts(all, of), all
}

// beds and media are a member's figures, which add up to the member's own.
func (v volumes) beds(m share.Member, whole int64) []int64 {
	var of []units.Litres
	for _, b := range m.Beds {
		of = append(of, b.Litres)
	}
	return v.parts(whole, of)
}

func (v volumes) media(m share.Member, whole int64) []int64 {
	var of []units.Litres
	for _, u := range m.Used {
		of = append(of, units.Litres(u.Litres))
	}
	return v.parts(whole, of)
}

// given reports whether some figure of a member is not the nearest to its volume, so that
// the sum may be.
func (v volumes) given(m share.Member, whole int64) bool {
	for i, n := range v.beds(m, whole) {
		if n != v.of(m.Beds[i].Litres) {
			return true
		}
	}
	for i, n := range v.media(m, whole) {
		if n != v.of(units.Litres(m.Used[i].Litres)) {
			return true
		}
	}
	return false
}

// cols is the column of a volume, in the reader's habit.
func (v volumes) cols() []page.Col {
	if v.s.system == units.US {
		return []page.Col{{Name: "Cubic feet placed", Right: true}}
	}
	return []page.Col{{Name: "Litres placed", Right: true}}
}

// cell is a figure; a spreadsheet has the same one, so that its sums are those printed.
func (v volumes) cell(figure int64) page.Cell {
	if v.s.system == units.US {
		feet := float64(figure) / 10
		return page.Num(fmt.Sprintf("%.1f", feet), feet, 1)
	}
	return page.Num(fmt.Sprint(figure), float64(figure), 0)
}

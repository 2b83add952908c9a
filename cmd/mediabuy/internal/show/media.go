package show

import (
	"fmt"
	"strings"

	"mediabuy/quotes"
	"mediabuy/units"
)

// Media lists a media table: the figures side by side, then each medium's other
// names and sources.
func Media(table *quotes.MediaTable, warnings []*quotes.Problem, st Style) string {
	p := &page{Style: st}
	p.heading("figures: low - usual - high")
	var rows [][]string
	for _, m := range table.All() {
		density := func(v units.Density) float64 {
			if st.Units == units.US {
				return float64(v) * float64(units.CubicFoot) / float64(units.Pound)
			}
			return float64(v) * 1000
		}
		carbonate := string(m.Carbonate)
		if m.BreaksDown {
			carbonate += ", breaks down"
		}
		rows = append(rows, []string{
			m.Name, string(m.Feel), carbonate,
			ranged(m.DryDensity, func(v units.Density) string { return plainFigure(density(v)) }),
			ranged(m.HeldWater, func(v float64) string { return plainFigure(density(units.Density(v))) }),
			ranged(m.Voids, hundredths), ranged(m.RinseLoss, hundredths), ranged(m.Settle, hundredths),
		})
	}
	unit := "kg/m³"
	if st.Units == units.US {
		unit = "lb/ft³"
	}
	p.grid([]col{{name: "Medium"}, {name: "Feel"}, {name: "Lime"}, {name: "Dry, " + unit, right: true}, {name: "Held, " + unit, right: true},
		{name: "Voids %", right: true}, {name: "Rinse %", right: true}, {name: "Settle %", right: true}}, rows)
	p.heading("names and sources")
	for _, m := range table.All() {
		p.item("%s", p.Strong(m.Name))
		if len(m.OtherNames) > 0 {
			p.para("    ", "    ", "also: "+strings.Join(m.OtherNames, ", "))
		}
		if m.Citations == nil {
			p.para("    ", "    ", "from: "+m.Source)
		}
		for _, c := range m.Citations {
			words := c.String()
			if c.Address != "" {
				words += ", " + c.Address
			}
			p.para("    ", "      ", words)
		}
	}
	p.warnings(warnings)
	return p.String()
}

func hundredths(v float64) string { return fmt.Sprintf("%.3g", 100*v) }

// ranged writes a figure: one value, or three with a dash between.
func ranged[T ~float64](s quotes.Spread[T], text func(T) string) string {
	if !s.Wide() {
		return text(s.Usual)
	}
	return text(s.Low) + " - " + text(s.Usual) + " - " + text(s.High)
}

// plainFigure writes three digits, and all of those before the point.
func plainFigure(v float64) string {
	if v >= 100 {
		return fmt.Sprintf("%.0f", v)
	}
	return fmt.Sprintf("%.3g", v)
}

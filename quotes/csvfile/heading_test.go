package csvfile

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestHeading(t *testing.T) {
	for _, c := range []struct{ text, key, unit string }{
		{"Length (ft)", "length", "ft"}, {"Limit [lb]", "limit", "lb"}, {"Price ($)", "price", "$"}, {"price (EUR)", "price", "EUR"}, {"tax (%)", "tax", "%"},
		{"Density (kg/m3)", "density", "kg/m3"}, {" Valid-Until ", "valid_until", ""}, {"(ft)", "(ft)", ""},
		{"price (incl. tax)", "price_(incl._tax)", ""}, {"price (per bag)", "price_(per_bag)", ""}, // which says something else of the price
	} {
		key, unit := Heading(c.text)
		assert.Equal(t, c.key, key, c.text)
		assert.Equal(t, c.unit, unit, c.text)
		assert.Equal(t, key, HeadingKey(c.text))
	}
}

func TestWithUnit(t *testing.T) {
	for _, c := range []struct{ cell, unit, want string }{
		{"8", "ft", "8 ft"}, {"8-16", "mm", "8-16 mm"}, {"3/8", "in", "3/8 in"}, {"1 1/2", "in", "1 1/2 in"}, {"12.5", "%", "12.5%"}, {"0.08", "%", "0.08"}, {",5", "%", ",5"}, {"0", "%", "0%"}, {"8", "%", "8%"}, {"0.0", "%", "0.0%"}, {"27,50", "eur", "EUR 27,50"}, {"27.50", "$", "$ 27.50"},
		{"8 ft", "in", "8 ft"}, {`8'`, "in", `8'`}, {"$27.50", "$", "$27.50"}, {"#57", "mm", "#57"}, {"none", "ft", "none"}, {"", "ft", ""}, {"8", "", "8"},
		{"10: 27.50", "$", "10: 27.50"}, {"27-30", "$", "27-30"}, // no one amount
	} {
		assert.Equal(t, c.want, WithUnit(c.cell, c.unit), "%s under %s", c.cell, c.unit)
	}
}

package suitability

import (
	"strings"

	"mediabuy/quotes"
	"mediabuy/units"
)

// mostNamed is how many beds are named before they are counted.
const mostNamed = 4

// Where says in words which layers of which beds refusals are about; all is how many
// beds there are.
func Where(layers map[quotes.Layer]bool, beds []string, all int) string {
	layer := "top and base"
	if len(layers) == 1 {
		layer = "base"
		if layers[quotes.Top] {
			layer = "top"
		}
	}
	switch {
	case len(beds) == all:
		return layer + " of every bed"
	case len(beds) > mostNamed:
		return layer + " of " + units.Several(len(beds), "bed")
	}
	return layer + " of " + strings.Join(beds, ", ")
}

package quotes

import (
	"strings"

	"mediabuy/units"
)

// ItemWords is what a supplier calls a thing, and what it is where its words do not say.
func (q *Quote) ItemWords() string {
	switch {
	case q.Item == "":
		return q.Medium.Name
	case strings.Contains(strings.ToLower(q.Item), strings.ToLower(q.Medium.Name)):
		return q.Item
	}
	return q.Item + " (" + q.Medium.Name + ")"
}

// PackWords is what one pack is called: "50 L bag", "1 yd3 bulk bag".
func (q *Quote) PackWords() string {
	switch q.Form {
	case Bag:
		return q.Pack.Raw + " bag"
	case Sack:
		return q.Pack.Raw + " bulk bag"
	}
	return q.Pack.Raw
}

// PacksWords is a number of packs: "5.5 × 1 short ton", "40 × 50 L bag".
func (q *Quote) PacksWords(n units.Decimal) string { return n.String() + " × " + q.PackWords() }

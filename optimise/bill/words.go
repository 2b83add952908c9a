package bill

import (
	"fmt"

	"mediabuy/quotes"
)

// Words name a drop for people: who brings it, how, where to, in how many loads,
// and what was waived.
func (d DropLine) Words() string {
	words := d.Way(d.Supplier)
	if d.Site != "" {
		words += " to " + d.Site
	}
	if d.Loads > 1 {
		words += fmt.Sprintf(", %d loads", d.Loads)
	}
	if w := d.Waiver(); w != "" {
		words += ", " + w
	}
	return words
}

// Way is a word with how the goods come behind it, where that has a name of its own.
func (d DropLine) Way(word string) string {
	if d.Name == quotes.Delivered {
		return word
	}
	return word + ", " + d.Name
}

// IsHandling reports whether the line is what a supplier takes once for a whole order.
func (d DropLine) IsHandling() bool { return d.Loads == 0 && d.Terms.Handling.Sign() > 0 }

// Untold reports whether the supplier stated no terms of delivery at all, so that it is
// counted as free.
func (d DropLine) Untold() bool { return d.Loads == 0 && !d.IsHandling() }

// Waiver says what the size of the order let the buyer off; "" for nothing.
func (d DropLine) Waiver() string {
	switch {
	case d.Waived && d.Fee.IsZero():
		return "free for an order of this size"
	case d.Waived:
		return "haul only, the fees are waived for an order of this size"
	}
	return ""
}

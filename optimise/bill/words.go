package bill

import "fmt"

// Words name a drop for people: who brings it, how, where to, in how many loads,
// and what was waived.
func (d DropLine) Words() string {
	words := d.Supplier + ", " + d.Name
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

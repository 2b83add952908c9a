package typed

import (
	"regexp"
	"strings"

	"mediabuy/units"
)

// cross finds the sign between the sides of a bed: 4x4 ft, 4 ft × 8 ft, 4 by 8 ft.
var cross = regexp.MustCompile(`(?i)\s*(?:x|×|\*|\bby\b)\s*`)

// mostSides is length, width and depth.
const mostSides = 3

// Sides are the sides of a bed, length first, where a text holds several, "4x4 ft": a unit written last is that of all.
// They are none where it holds one, or more than there are.
func Sides(text string, mark units.DecimalMark) []string {
	sides := cross.Split(text, -1)
	if len(sides) < 2 || len(sides) > mostSides {
		return nil
	}
	unit := strings.TrimLeft(sides[len(sides)-1], "0123456789.,/½¼¾ -")
	for i, s := range sides[:len(sides)-1] {
		if _, err := units.ParseNumber(s, mark); err == nil && !strings.ContainsAny(unit, "0123456789") {
			sides[i] = strings.TrimSpace(s + " " + unit)
		}
	}
	return sides
}

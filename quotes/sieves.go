package quotes

import (
	"fmt"
	"math"

	"mediabuy/units"
)

// stone is a coarse size of ASTM D448 (the same as AASHTO M 43).
type stone struct {
	number string
	from   units.Millimetres // bottom of the nominal range
	to     units.Millimetres // top of the nominal range
	seen   bool              // the range was read in the table named below; else it is from memory
}

// stones are the nominal ranges of the sizes of ASTM D448. Those marked seen
// were read in a copy of Colorado DOT Section 703, Table 703-1 "from AASHTO M
// 43" (not at the body's own address); the others are from memory and follow the rule that a number of
// several digits runs from the top of the first digit's size to the bottom of
// the last one's (467: top of 4, bottom of 7).
//
// A nominal range promises little: up to a tenth of No. 57 may pass its bottom sieve.
var stones = []stone{
	{"1", 37.5, 90, false},
	{"2", 37.5, 63, false},
	{"24", 19, 63, false},
	{"3", 25, 50, true},
	{"357", 4.75, 50, true},
	{"4", 19, 37.5, true},
	{"467", 4.75, 37.5, true},
	{"5", 12.5, 25, false},
	{"56", 9.5, 25, false},
	{"57", 4.75, 25, true},
	{"6", 9.5, 19, true},
	{"67", 4.75, 19, true},
	{"68", 2.36, 19, false},
	{"7", 4.75, 12.5, true},
	{"78", 2.36, 12.5, false},
	{"8", 2.36, 9.5, true},
	{"89", 1.18, 9.5, false},
	{"9", 1.18, 4.75, false},
	{"10", 0, 4.75, false},
}

// localNumbers are the sizes that yards also use as numbers of their own: a bare
// "#2" need not be a D448 size (common practice, no source).
var localNumbers = map[string]bool{"1": true, "2": true}

// sieve is a sieve of ASTM E11.
type sieve struct {
	name   string
	inches float64           // as in the name; 0 for a numbered sieve
	mm     units.Millimetres // its opening
}

// GrainWords is a size of grain in the reader's habit: the name of its sieve for the
// United States, 1/2 in or No. 4, and inches where no sieve is so wide.
func GrainWords(v units.Millimetres, sys units.System) string {
	if sys != units.US {
		return fmt.Sprintf("%.4g mm", float64(v))
	}
	if v == 0 {
		return "0 in"
	}
	for _, s := range sieves {
		if math.Abs(float64(s.mm/v)-1) < 1e-6 {
			return s.name
		}
	}
	return fmt.Sprintf("%.2g in", float64(v/units.Inch))
}

// sieves are openings of ASTM E11. A sieve named in inches is not that many
// millimetres: the 1 in sieve opens 25.0 mm, not 25.4. Read in secondary lists
// only, none of them the body's own, so from memory until checked against Table 1
// of the standard; of the numbered ones 4, 8, 16, 30, 50 and 100 stand in the
// Colorado table above as well.
var sieves = []sieve{
	{"4 in", 4, 100},
	{"3-1/2 in", 3.5, 90},
	{"3 in", 3, 75},
	{"2-1/2 in", 2.5, 63},
	{"2 in", 2, 50},
	{"1-3/4 in", 1.75, 45},
	{"1-1/2 in", 1.5, 37.5},
	{"1-1/4 in", 1.25, 31.5},
	{"1.06 in", 1.06, 26.5},
	{"1 in", 1, 25},
	{"3/4 in", 0.75, 19},
	{"5/8 in", 0.625, 16},
	{"0.530 in", 0.53, 13.2},
	{"1/2 in", 0.5, 12.5},
	{"7/16 in", 0.4375, 11.2},
	{"3/8 in", 0.375, 9.5},
	{"5/16 in", 0.3125, 8},
	{"0.265 in", 0.265, 6.7},
	{"1/4 in", 0.25, 6.3},
	{"No. 3-1/2", 0, 5.6},
	{"No. 4", 0, 4.75},
	{"No. 5", 0, 4},
	{"No. 6", 0, 3.35},
	{"No. 7", 0, 2.8},
	{"No. 8", 0, 2.36},
	{"No. 10", 0, 2},
	{"No. 12", 0, 1.7},
	{"No. 16", 0, 1.18},
	{"No. 30", 0, 0.6},
	{"No. 40", 0, 0.425},
	{"No. 50", 0, 0.3},
	{"No. 100", 0, 0.15},
	{"No. 200", 0, 0.075},
}

func stoneByNumber(number string) (stone, bool) {
	for _, s := range stones {
		if s.number == number {
			return s, true
		}
	}
	return stone{}, false
}

func sieveByInches(inches float64) (sieve, bool) {
	for _, s := range sieves {
		// The name is a short decimal or a binary fraction, so only rounding of the last bits may differ.
		if s.inches > 0 && abs(s.inches-inches) < 1e-9 {
			return s, true
		}
	}
	return sieve{}, false
}

func sieveByNumber(number string) (sieve, bool) {
	for _, s := range sieves {
		if s.name == "No. "+number {
			return s, true
		}
	}
	return sieve{}, false
}

func abs(f float64) float64 {
	if f < 0 {
		return -f
	}
	return f
}

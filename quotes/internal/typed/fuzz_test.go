package typed_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"mediabuy/quotes/internal/typed"
)

var digits = regexp.MustCompile(`\d+`)

// Whatever stands in a cell, its plain form holds no number that the cell does not, but for a fee or a tax that is said to be none, and is plain itself.
func FuzzPlain(f *testing.F) {
	headings := []string{"breaks", "max_qty", "min_qty", "step", "delivery", "order_fee", "load_fee", "free_over", "min_order", "valid_until", "tax", "pack", "price", "count", "top", "limit", "max_share", "top_media", "covers", "time_limit"}
	for i, text := range []string{"10+ $61, 40+ $58", "6 left", "min 3 tons", "pallet of 40", "$95 flat", "none", "$60 per load", "orders over 500", "min $100", "until the end of May", "no tax", "bag (50L)", "129,-", "x2", "none", "max 2500#", "50% lava", "clay or pea gravel", "bags only", "1 minute"} {
		f.Add(i, text)
	}
	f.Fuzz(func(t *testing.T, i int, text string) {
		heading := headings[uint(i)%uint(len(headings))]
		plain := typed.Plain(heading, text)
		if plain == "" {
			return
		}
		stand := digits.FindAllString(text, -1)
		for _, n := range digits.FindAllString(plain, -1) {
			if !slices.Contains(stand, n) && !(n == "0" && len(stand) == 0) {
				t.Fatalf("%s: %q is put as %q, where %s stands nowhere", heading, text, plain, n)
			}
		}
		if left := digits.FindAllString(plain, -1); heading != "breaks" && len(stand) > 0 && len(left) != len(stand) { // shares may swap places with their media
			t.Fatalf("%s: %q is put as %q, which leaves out a number", heading, text, plain)
		}
		if again := typed.Plain(heading, plain); heading != "pack" && again != "" && strings.Join(strings.Fields(again), " ") != plain {
			t.Fatalf("%s: %q is put as %q, and that as %q", heading, text, plain, again)
		}
	})
}

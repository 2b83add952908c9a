package message

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"mediabuy/units"
)

// told is an offer put into words by the test, so that what is read can be held against what was meant.
type told struct {
	words string
	cells map[string]string
	// hardly says that the price from some packs on is less than a third of that before, which a bare number may be no price at.
	hardly bool
}

// tell draws an offer and its words.
func tell(t *rapid.T, medium string) told {
	one := func(label string, of ...string) string { return rapid.SampledFrom(of).Draw(t, label) }
	hardly := false
	price := rapid.IntRange(20, 99).Draw(t, "price")
	cells := map[string]string{"medium": medium, "price": fmt.Sprint(price)}
	name := map[string][]string{"lava rock": {"lava", "red lava", "washed lava"}, "pumice": {"pumice", "white pumice"}, "river gravel": {"pea gravel", "river gravel"}}[medium]
	parts := []string{one("name", name...)}
	if rapid.Bool().Draw(t, "sized") {
		size := one("size", "3/4 in", "8-16 mm", "#57", "3/8-3/4 in")
		cells["size"] = size
		parts = append(parts, size)
	}
	unit, many := "a yard", "yards"
	switch one("pack", "yard", "bag", "each") {
	case "yard":
		cells["pack"] = "1 yd3"
		parts = append(parts, fmt.Sprintf(one("yard price", "%d a yard", "%d per yard", "%d/yd", "at %d a yard", "price is %d a yard"), price))
	case "bag":
		cells["pack"], cells["form"] = "50 L", "bag"
		unit, many = "a bag", "bags"
		parts = append(parts, fmt.Sprintf(one("bag price", "%d per 50 L bag", "%d a bag, 50 L bags", "50 L bags, %d a bag", "%d a bag (50 L)"), price))
	default:
		cells["pack"], cells["form"] = "50 L", "bag"
		unit, many = "each", "bags"
		parts = append(parts, fmt.Sprintf(one("each price", "50 L bags at %d each", "50 L bags, %d each"), price))
	}
	if rapid.Bool().Draw(t, "break") {
		from, low := rapid.IntRange(2, 40).Draw(t, "from"), rapid.IntRange(5, price-1).Draw(t, "low")
		cells["breaks"] = fmt.Sprintf("%d: %d", from, low)
		hardly = 3*low < price
		switch one("break words", "or more", "from", "for", "plus") {
		case "or more":
			parts = append(parts, fmt.Sprintf("%d %s or more %d", from, many, low))
		case "from":
			parts = append(parts, fmt.Sprintf("from %d: %d", from, low))
		case "for":
			parts = append(parts, fmt.Sprintf("%d %s for %d or more", low, unit, from))
		default:
			parts = append(parts, fmt.Sprintf("%d+ %d", from, low))
		}
	}
	switch one("limit", "", "", "left", "min", "written") {
	case "left":
		cells["max_qty"] = "45"
		parts = append(parts, "45 left")
	case "written":
		cells["min_qty"] = "3"
		parts = append(parts, one("written words", "three "+strings.TrimSuffix(many, "s")+" minimum", "minimum three "+many, "three-"+strings.TrimSuffix(many, "s")+" min"))
	case "min":
		cells["min_qty"] = "2"
		parts = append(parts, "min 2 "+many)
	}
	noise(t, &parts)
	return told{strings.Join(parts, one("comma", ", ", ", ", " - ", "; ")), cells, hardly}
}

// oddWords are words that suppliers might add. Each changes what is offered, or may.
var oddWords = []string{"members only", "trade", "seconds quality", "was 80", "about 30", "not now", "ex quarry 12", "per load 3", "Grade B", "until stock lasts", "10% off", "over 5 yards 44",
	"if dry", "call 7", "2 for 70", "zeolite", "next week", "call first", "usually", "wet", "44", "no returns", "bin 6",
	"ask Tam", "half price", "per pallet 500", "to members", "minus 10%", "say 60", "or so", "ish", "net", "+ VAT", "twice", "3 for 2", "x 2", "@", "=", "/", "...", "(wet)", "20-25", "up to you", "more", "each way 9",
	"from stock", "at cost", "is dear", "100", "1,5", "1 000", "for 9", "per 3", "a 4", "and up", "or less", "under 10", "30th", "5pm", "9.50 off", "plus 5", "-5", "x", "no 7", "to 60"}

// sizes are the grain sizes that offers are told with.
var sizes = []string{"3/4 in", "8-16 mm", "#57", "3/8-3/4 in"}

// noise puts odd words between the parts, or into one.
func noise(t *rapid.T, parts *[]string) {
	for range rapid.IntRange(0, 2).Draw(t, "odd") {
		at := rapid.IntRange(0, len(*parts)-1).Draw(t, "odd at")
		word := rapid.SampledFrom(oddWords).Draw(t, "odd words")
		place := rapid.SampledFrom([]string{"part", "before", "behind"}).Draw(t, "odd place")
		if place == "before" && strings.ContainsAny(word[len(word)-1:], "0123456789") {
			place = "part" // "bin 6" in front of "3/4 in" would mean 6 3/4 in to anybody
		}
		sized := slices.ContainsFunc(sizes, func(size string) bool { return strings.HasSuffix((*parts)[at], size) })
		if place == "behind" && word == "and up" && (sized || strings.HasSuffix((*parts)[at], "2 for 70")) {
			place = "part" // "3/4 in and up" would be open above to anybody, "2 for 70 and up" a price of 2
		}
		if place == "before" && word == "10% off" && strings.HasPrefix((*parts)[at], "for 9") || place == "behind" && word == "for 9" && strings.HasSuffix((*parts)[at], "10% off") {
			place = "part" // "10% off for 9" would say from how many on to anybody
		}
		switch place {
		case "part":
			*parts = append((*parts)[:at+1], append([]string{word}, (*parts)[at+1:]...)...)
		case "before":
			(*parts)[at] = word + " " + (*parts)[at]
		default:
			(*parts)[at] += " " + word
		}
	}
}

// TestNeverAnotherPrice puts one to three offers into words, with odd words between them. Whatever is read of a medium
// must be what was meant, or not be read: a cell may be missing, and never wrong.
func TestNeverAnotherPrice(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		media := rapid.Permutation([]string{"lava rock", "pumice", "river gravel"}).Draw(rt, "media")[:rapid.IntRange(1, 3).Draw(rt, "offers")]
		var lines []string
		truth := map[string]map[string]string{}
		for _, m := range media {
			o := tell(rt, m)
			lines = append(lines, o.words)
			truth[m] = o.cells
		}
		if rapid.Bool().Draw(rt, "fee") {
			fee := []string{rapid.SampledFrom([]string{"Delivery 90", "Delivery is 90", "DELIVERY: 90", "Delivery 90 flat"}).Draw(rt, "fee words")}
			noise(rt, &fee)
			lines = append(lines, strings.Join(fee, ", "))
		}
		text := strings.Join(lines, rapid.SampledFrom([]string{"\n", ". ", ".\n", "\n\n"}).Draw(rt, "between"))
		p, err := Parse(text, Options{Supplier: "Low Ford", Delivery: rapid.Bool().Draw(rt, "wide")})
		require.NoError(rt, err)
		requireTrue(rt, p, truth)
		for _, row := range p.Rows {
			require.Contains(rt, []string{"", "90"}, row.Text("delivery"), "%s\n%s", text, summary(p))
		}
		for _, row := range p.Delivery { // a fee is filed where a number is asked about; no load and no least order is spoken of
			delete(row.Cells, "supplier")
			require.Len(rt, row.Cells, 1, "%s\n%s", text, summary(p))
			require.Equal(rt, "90", row.Text("order_fee"), "%s\n%s", text, summary(p))
		}
	})
}

// TestPlainWordsAreAllRead is the other side: without odd words every cell is read.
func TestPlainWordsAreAllRead(t *testing.T) {
	kept := oddWords
	oddWords = []string{"thanks"}
	defer func() { oddWords = kept }()
	rapid.Check(t, func(rt *rapid.T) {
		medium := rapid.SampledFrom([]string{"lava rock", "pumice", "river gravel"}).Draw(rt, "medium")
		o := tell(rt, medium)
		p, err := Parse(strings.ReplaceAll(o.words, "thanks ", ""), Options{Supplier: "Low Ford"})
		require.NoError(rt, err)
		require.Len(rt, p.Rows, 1, "%s\n%s", o.words, summary(p))
		for column, want := range o.cells {
			if column == "breaks" && o.hardly {
				want = "" // left to a person
			}
			assert.Equal(rt, want, p.Rows[0].Text(column), "%s of %q\n%s", column, o.words, summary(p))
		}
	})
}

// requireTrue checks that no cell of a row says another thing than was meant of its medium.
func requireTrue(t require.TestingT, p *Proposal, truth map[string]map[string]string) {
	for i := range p.Rows {
		row := &p.Rows[i]
		meant, ok := truth[row.Text("medium")]
		if !ok {
			require.Empty(t, row.Text("medium"), "%q", p.Text)
			continue
		}
		for _, column := range []string{"pack", "form", "price", "breaks", "min_qty", "max_qty", "size"} {
			got := row.Text(column)
			if got == "" || sameCell(got, meant[column]) {
				continue
			}
			// Odd words may add what was not meant, such as a second size; they may not change what was.
			require.Fail(t, "wrong cell", "%s = %q, want %q or nothing\n%s\n%s", column, got, meant[column], p.Text, summary(p))
		}
	}
}

func sameCell(got, want string) bool {
	if got == want {
		return true
	}
	a, err1 := units.ParseNumber(got, units.MarkPoint)
	b, err2 := units.ParseNumber(want, units.MarkPoint)
	return err1 == nil && err2 == nil && a.Equal(b)
}

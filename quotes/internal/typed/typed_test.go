package typed_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"mediabuy/quotes"
	"mediabuy/quotes/files"
	"mediabuy/quotes/internal/typed"
	"mediabuy/units"
)

// What is said in one way only; "" where there are two, or nothing to put plainly.
func TestPlain(t *testing.T) {
	for _, c := range []struct{ heading, text, want string }{
		{"breaks", "10+ $61", "10: $61"},
		{"breaks", "6-11 36.00 / 12+ 33.50", "6: 36.00; 12: 33.50"},
		{"breaks", "10 or more $23.00 each, 40 and up $21.50 each", "10: $23.00 each; 40: $21.50 each"},
		{"breaks", "10: 27.50, 40: 24.00", "10: 27.50; 40: 24.00"},
		{"breaks", "10 @ 27.50; 40 @ 24.00", "10: 27.50; 40: 24.00"},
		{"breaks", "from 10 bags 27,50 €; from 40 bags 24,00 €", "10 bags: 27,50 €; 40 bags: 24,00 €"},
		{"breaks", "10-39 $23 | 40 up $21", "10: $23; 40: $21"},
		{"breaks", ">= 10 = 27.50", "10: 27.50"},
		{"breaks", "10: 27.50; 40: 24.00", ""}, // plain already
		{"breaks", "over 10 $61", ""},          // from 10 or from 11
		{"breaks", "10-39 $23", ""},            // and 40?
		{"breaks", "6-11 36.00 / 13+ 33.50", ""},
		{"breaks", "10 61", ""},
		{"breaks", "10 bags 61", ""}, // each, or the ten
		{"breaks", "10 for $61", ""}, {"breaks", "min 100", ""}, {"breaks", "10 at 24", "10: 24"}, {"breaks", "10 bags at 24", "10 bags: 24"}, {"breaks", "from 1061", ""},
		{"breaks", "60 bags (full pallet) £6.80", "60 bags: £6.80"},
		{"breaks", "10+ 5%", ""},
		{"max_qty", "6 left", "6"}, {"max_qty", "only 12 bags in stock", "12 bags"}, {"max_qty", "up to 40", "40"}, {"max_qty", "max. 40", "40"},
		{"max_qty", "40", ""}, {"max_qty", "about 40", ""}, {"max_qty", "30-40", ""}, {"max_qty", "plenty", ""},
		{"min_qty", "min 3 tons", "3 tons"}, {"min_qty", "3 yard minimum", "3 yard"}, {"min_qty", "at least 2", "2"}, {"min_qty", "up to 2", ""},
		{"step", "pallet of 40", "40"}, {"step", "full pallets of 40", "40"}, {"step", "40 per pallet", "40"}, {"step", "in 5s", "5"}, {"step", "by the pallet", ""},
		{"delivery", "$95 flat", "$95"}, {"delivery", "flat rate $95", "$95"}, {"delivery", "95 per order", "95"}, {"delivery", "free", "0"}, {"delivery", "£6.95 p&p", "£6.95"},
		{"delivery", "$60 per load", ""}, {"delivery", "free over $500", ""}, {"delivery", "$85 up to 10 tons", ""}, {"delivery", "95", ""},
		{"load_fee", "$60 per load", "$60"}, {"load_fee", "60 a trip", "60"}, {"load_fee", "$60 per mile", ""},
		{"valid_until", "end of May", ""}, {"valid_until", "until the end of May", "the end of May"}, {"valid_until", "good thru 5/31/26", "5/31/26"}, {"valid_until", "30 days", ""},
		{"valid_until", "from 1 June", ""}, {"ready_by", "ready by 3 June", "3 June"}, {"ready_by", "from 3 June", "3 June"},
		{"tax", "7.5% sales tax", "7.5%"}, {"tax", "plus 7.5 %", "7.5 %"}, {"tax", "excl. 20% VAT", "20%"}, {"tax", "VAT 20% extra", "20%"}, {"tax", "no tax", "0%"}, {"tax", "zero rated", "0%"},
		{"tax", "incl. 20% VAT", ""}, {"tax", "plus tax", ""}, {"tax", "8%", ""},
		{"pack", "bag (50L)", "50L bag"}, {"pack", "bag of 50 L", "50 L bag"}, {"pack", "super sack 1 yd", "1 yd super sack"}, {"pack", "2 cu ft (bag)", "2 cu ft bag"}, {"pack", "bulk, 1 yd3", "1 yd3 bulk"},
		{"pack", "50 L", ""}, {"pack", "bag", ""},
		{"supplier", "free", ""},
		{"price", "129,-", "129"}, {"price", "€ 129.--", "€ 129"}, {"price", "129,50", ""}, {"delivery", "45,-", "45"},
		{"time_limit", "1 minute", "1m"}, {"time_limit", "90 secs", "90s"}, {"time_limit", "2m", ""}, {"labour_rate", "$15/hour", "$15"}, {"labour_rate", "15 an hour", "15"},
		{"layer_mix", "one stone", "one"}, {"layer_mix", "one", ""}, {"layer_mix", "mixed", "any"}, {"weights", "heavy stone", "heavy"}, {"weights", "heavy", ""}, {"need_by", "by end of May", "end of May"}, {"need_by", "by the end of May", "the end of May"},
		{"count", "x2", "2"}, {"count", "2 x", "2"}, {"top", "none", "0"}, {"top", "3 in", ""},
		{"min_size", "1/2 in or bigger", "1/2 in"}, {"min_size", "8 mm+", "8 mm"}, {"min_size", "1/2 in", ""}, {"max_size", "up to 20 mm", "20 mm"},
		{"limit", "max 2500 lbs", "2500 lbs"}, {"limit", "2500# max", "2500#"}, {"limit", "2500 lb each", ""}, {"limit", "unknown", ""}, {"own_weight", "80# empty", "80#"},
		{"water_line", "2 in below the surface", "2 in"}, {"water_line", "2 in below the rim", ""}, {"water_line", "none", ""},
		{"max_share", "lava 50%", "lava: 50%"}, {"max_share", "50% lava, max 30% pea gravel", "lava: 50%; pea gravel: 30%"}, {"max_share", "lava: 0.5", ""}, {"max_share", "half lava", ""},
		{"covers", "bags only", "bag"}, {"covers", "loose", "bulk"}, {"covers", "bags, bulk bags and loose", "all"}, {"covers", "bag; bulk", ""}, {"covers", "pallets", ""},
		{"order_fee", "none", "0"}, {"delivery", "none", ""}, {"load_volume", "10 yds per load", "10 yds"}, {"load_weight", "max. 10 tons", "10 tons"},
		{"free_over", "$500+", "$500"}, {"free_over", "orders over 500", "500"}, {"min_order", "min $100", "$100"}, {"min_order", "$100 minimum order", "$100"}, {"load_holds", "mixed loads", "any"},
	} {
		assert.Equal(t, c.want, typed.Plain(c.heading, c.text), "%s: %s", c.heading, c.text)
	}
}

// What was put plainly is plain, and breaks in any of many ways to write them come to the same.
func TestPlainOfBreaks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 4).Draw(t, "steps")
		from, price := rapid.IntRange(2, 20).Draw(t, "from"), rapid.IntRange(2000, 9000).Draw(t, "cents")
		var froms []int
		var want, prices []string
		for range n {
			money := fmt.Sprintf("%d.%02d", price/100, price%100)
			froms, prices = append(froms, from), append(prices, money)
			want = append(want, fmt.Sprintf("%d: %s", from, money))
			from += rapid.IntRange(1, 40).Draw(t, "more")
			price -= rapid.IntRange(1, 400).Draw(t, "less")
		}
		style := rapid.SampledFrom([]string{"%d+ %s", "%d or more: %s", "%d and up @ %s", "%d = %s", "from %d %s", "range"}).Draw(t, "style")
		mark := rapid.SampledFrom([]string{"; ", ", ", " / ", " | ", " and "}).Draw(t, "mark")
		parts := make([]string, n)
		for i := range parts {
			switch {
			case style != "range":
				parts[i] = fmt.Sprintf(style, froms[i], prices[i])
			case i < n-1:
				parts[i] = fmt.Sprintf("%d-%d %s", froms[i], froms[i+1]-1, prices[i])
			default:
				parts[i] = fmt.Sprintf("%d+ %s", froms[i], prices[i])
			}
		}
		got := typed.Plain("breaks", strings.Join(parts, mark))
		if strings.Contains(style, ":") && mark == "; " {
			assert.Empty(t, got, "a colon in each part: the number in front of it is read by itself")
			return
		}
		assert.Equal(t, strings.Join(want, "; "), got)
		assert.Empty(t, typed.Plain("breaks", got))
	})
}

// Whether a price holds its tax is for the job to say.
func TestTaxed(t *testing.T) {
	for _, c := range []struct {
		text      string
		net, with string // in a job whose prices are before tax, and in one whose prices carry it
	}{
		{"£18.50 + VAT", "£18.50", ""}, {"45+VAT", "45", ""}, {"$68 plus sales tax", "$68", ""}, {"68 (ex. VAT)", "", ""}, {"68 excl. VAT", "68", ""}, {"68 per bag ex VAT", "68 per bag", ""},
		{"£68 inc VAT", "", "£68"}, {"68 (incl. tax)", "", "68"}, {"68, VAT included", "", "68"}, {"68", "", ""}, {"68 extra", "", ""},
	} {
		assert.Equal(t, c.net, typed.Taxed("price", c.text, false), c.text)
		assert.Equal(t, c.with, typed.Taxed("price", c.text, true), c.text)
		assert.Empty(t, typed.Taxed("notes", c.text, false), c.text)
	}
	assert.Contains(t, typed.Hint("price", "£68 inc VAT"), "0% under tax")
	assert.Contains(t, typed.Hint("price", "£68 + VAT"), "take tax_included out")
}

func TestMedium(t *testing.T) {
	media := files.BuiltinMedia()
	for _, c := range []struct{ text, medium, size string }{
		{"washed pea gravel", "river gravel", ""}, {`3/8" Pea Gravel`, "river gravel", `3/8"`}, {"#57 granite", "crushed granite", "#57"},
		{"clay pebbles 8/16", "expanded clay", "8/16"}, {"Lava Rock, red, 3/4 in", "lava rock", "3/4 in"}, {"river rock (3/4 inch, washed)", "river gravel", "3/4 inch"},
		{"8-16 mm clay pebbles", "expanded clay", "8-16 mm"},
		{"lava sand", "", ""}, {"lava rock fines", "", ""}, {"crushed pea gravel", "", ""}, {"lava rock and pumice", "", ""}, {"pea gravel mix", "", ""}, {"white pea gravel", "", ""}, {"unwashed pea gravel", "", ""}, {"50 L clay pebbles", "", ""}, {"", "", ""},
	} {
		name := ""
		m, size := typed.Medium(media, c.text)
		if m != nil {
			name = m.Name
		}
		assert.Equal(t, c.medium, name, c.text)
		assert.Equal(t, c.size, size, c.text)
	}
}

func TestMedia(t *testing.T) {
	media := files.BuiltinMedia()
	assert.Equal(t, []string{"lava", "pumice", "expanded shale"}, typed.Media(media, "lava, pumice and expanded shale"))
	assert.Equal(t, []string{"clay pebbles", "pea gravel"}, typed.Media(media, "clay pebbles or pea gravel"))
	for _, none := range []string{"lava rock", "lava; pumice", "lava and moon dust", ""} {
		assert.Nil(t, typed.Media(media, none), none)
	}
}

func TestSameSize(t *testing.T) {
	for _, c := range []struct {
		a, b string
		same bool
	}{{"3/8 in", `3/8"`, true}, {"8/16", "8-16 mm", true}, {"3/8", "3/8 in", true}, {"3/8 in", "3/4 in", false}} {
		assert.Equal(t, c.same, typed.SameSize(c.a, c.b, units.Options{}), "%s and %s", c.a, c.b)
	}
}

func TestSides(t *testing.T) {
	for text, want := range map[string][]string{
		"2400x900": {"2400", "900"}, "4x8 ft": {"4 ft", "8 ft"}, "2,4 × 1,2 m": {"2,4 m", "1,2 m"}, "4 ft by 30 in": {"4 ft", "30 in"},
		"4 ft": nil, "1x2x3x4": nil,
	} {
		assert.Equal(t, want, typed.Sides(text, units.MarkUnknown), text)
	}
}

func TestForms(t *testing.T) {
	for word, want := range map[string]quotes.Form{"Bags": quotes.Bag, "super sack": quotes.Sack, "builders' bag": quotes.Sack, "loose": quotes.Bulk, "ton bag": "", "crate": ""} {
		got, ok := typed.FormOf(word)
		assert.Equal(t, want, got, word)
		assert.Equal(t, want != "", ok, word)
	}
	assert.True(t, typed.Each("EA."))
	assert.False(t, typed.Each("bag"))
}

// What a cell cannot hold has its own place, which is told.
func TestHint(t *testing.T) {
	for _, c := range []struct{ heading, text, want string }{
		{"delivery", "free over $500 otherwise $45", "free_over"}, {"delivery", "$60 per load", "delivery.csv"}, {"delivery", "pickup only", "fetched"},
		{"tax", "included", "tax_included"}, {"tax", "plus tax", "its rate"}, {"max_qty", "about 40", "counted on"}, {"valid_until", "30 days", "day of the offer"},
		{"breaks", "over 10 $61", "write 10: $61 or 11: $61, whichever is meant"}, {"breaks", "> 10 bags: 61.00 each", "write 10: 61.00 each or 11: 61.00 each"}, {"breaks", "5+ $66, over 10 $61", "one more"},
		{"breaks", "10-39 $23", "write 10: $23 if it stays so, else what 40 cost as well: 10: $23; 40: ..."}, {"breaks", "5+ $25; 10-39 $23", "more than that"},
		{"breaks", "10 bags 280", "write 10: 28.00 if 280 is for all 10, or 10: 280 if it is for one"}, {"breaks", "2 for £450", "write 2: 225.00 if £450 is for all 2"}, {"breaks", "min 3 tons", "min_qty"}, {"breaks", "10+ 5%", "price that is left"},
	} {
		assert.Contains(t, typed.Hint(c.heading, c.text), c.want, "%s: %s", c.heading, c.text)
	}
	assert.Contains(t, typed.Hint("limit", "2500 lb each"), "without a table")
	assert.Contains(t, typed.Hint("limit", "unknown"), "empty")
	assert.Contains(t, typed.Hint("length", "5 ft dia"), "0.785") // π/4
	assert.Contains(t, typed.Hint("water_line", "2 in below rim"), "surface")
	assert.Empty(t, typed.Hint("price", "cheap"))
}

// Headings of people's own sheets are known by what they hold; one that is there already is not meant again.
func TestHeadings(t *testing.T) {
	known := []string{"supplier", "item", "medium", "pack", "price"}
	for _, c := range []struct{ name, there, want string }{
		{"vendor", "", `did you mean "supplier"?`}, {"bag_size", "", `did you mean "pack"?`}, {"pirce", "", `did you mean "price"?`}, {"colour", "", "the known headings are supplier, item"},
		{"cost", "price", "the known headings are supplier"},
	} {
		assert.Contains(t, typed.HeadingHint(c.name, known, func(k string) bool { return k == c.there }), c.want, c.name)
	}
	assert.Equal(t, "vendor", typed.Called("supplier", []string{"colour", "vendor"}))
	assert.Empty(t, typed.Called("price", []string{"colour", "vendor"}))
	assert.Equal(t, `write supplier for "vendor", medium for "stone"; the known headings are supplier, item, medium, pack, price`, typed.Renames([]string{"vendor", "stone", "colour"}, known))
	assert.Equal(t, "the known headings are supplier, item, medium, pack, price", typed.Renames([]string{"colour"}, known))
}

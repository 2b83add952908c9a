package typed

import (
	"regexp"
	"strings"

	"mediabuy/units"
)

// hint is what to do about words.
type hint struct {
	words *regexp.Regexp
	hint  string
}

// hints tell how to write what people put into a cell and what it cannot hold.
var hints = map[string][]hint{
	"price": {
		inTax, exTax,
		{regexp.MustCompile(`(?i)\b(?:poa|p\.o\.a|tba|tbc|call|ask)\b`), "ask the supplier, or take the row out until the price is known"},
	},
	"delivery": {
		inTax, exTax,
		{regexp.MustCompile(`(?i)\b(?:poa|p\.o\.a|tba|tbc|call|ask)\b`), "ask what it costs; an empty cell is free delivery"},
		{regexp.MustCompile(`(?i)\b(?:free|over|above)\b.*\d`), "write the fee under delivery and the amount from which it is free under free_over"},
		{regexp.MustCompile(`(?i)\b(?:loads?|trips?|trucks?|up to|tons?|tonnes?|yards?|yds?|miles?|km|pallets?)\b`), "what hangs on loads, sizes of trucks or what they carry is a way of delivery.csv, with load_fee, load_volume or load_weight, or haul"},
		{regexp.MustCompile(`(?i)\b(?:pick(?:ed)?[ -]?up|collect\w*|none|no)\b`), "where it has to be fetched, leave the cell empty and write what a trip of yours costs into delivery.csv, 0 if nothing"},
	},
	"tax": {
		{regexp.MustCompile(`(?i)\bincl`), "write 0% for a price that holds its tax, or tax_included = true in job.toml if all do"},
		{regexp.MustCompile(`(?i)tax|vat|gst|extra|plus|standard|reduced|\+`), "write its rate, such as 8%"},
	},
	"limit": {
		{regexp.MustCompile(`(?i)\beach\b`), "write the weight alone: without a table it holds for each bed, with one for the whole table"},
		{regexp.MustCompile(`(?i)unknown|\bn/?a\b|none|no limit|\?`), "leave the cell empty if it is not known; the weights are told then and not held to a limit"},
	},
	"length":      {{round, roundBed}},
	"width":       {{round, roundBed}},
	"water_line":  {{regexp.MustCompile(`(?i)\brim|edge|floor|bottom`), "write how far below the surface of the media the water stands, such as 2 in"}},
	"max_qty":     {{roughly, "write the number that can be counted on"}, {regexp.MustCompile(`(?i)stock|avail|plenty|lots|yes|no limit`), "leave the cell empty if there is enough"}},
	"min_qty":     {{roughly, "write the number that can be counted on"}},
	"valid_until": {{regexp.MustCompile(`(?i)\d+ ?(?:days?|weeks?|months?)\b`), "count from the day of the offer, and write the day that it ends"}},
	"ready_by":    {{regexp.MustCompile(`(?i)\d+ ?(?:days?|weeks?|months?)\b`), "count from the day of the order, and write the day"}},
	"breaks": {
		{regexp.MustCompile(`(?i)\d ?(?:\pL+ )?for ?[$£€]?\d`), "write the price of one from that number on, such as 10: 27.50"},
		{regexp.MustCompile(`(?i)\b(?:over|above|more than)\b|>`), "from that number on or from one more? write the first number at the lower price, such as 10: 27.50"},
		{regexp.MustCompile(`\d ?(?:-|–|to) ?\d+ ?\D*` + number + `$`), "what do more than that cost? write the price from each number on, such as 10: 27.50; 40: 24.00"},
		{regexp.MustCompile(`(?i)\bmin`), "write the least that is sold under min_qty"},
		{regexp.MustCompile(`%`), "write the price that is left, such as 10: 27.50"},
	},
}

// round is said of a bed that is no rectangle.
var round = regexp.MustCompile(`(?i)\bround\b|[øØ⌀]|\bdia(?:m(?:eter|etre)?)?\b|\bacross\b`)

const roundBed = "of a round bed write the volume, under volume: 0.785 times the width, times the width, times the depth"

// What a price says of its tax goes by the job; see [Taxed].
var (
	inTax = hint{withTax, "this price holds its tax: write the price before tax, or 0% under tax; tax_included = true in job.toml says so of all"}
	exTax = hint{beforeTax, "the job says that prices carry their tax: write the price with it, or take tax_included out of job.toml"}
)

var roughly = regexp.MustCompile(`(?i)\d ?ish\b|\b(?:about|around|approx\w*|roughly|ca\.?|circa|some)\b|~|\d ?- ?\d`)

// Hint tells how to write what a cell under a heading says in words that it cannot hold; "" where nothing better is known.
func Hint(heading, text string) string {
	if heading == "breaks" && len(text) <= units.MaxTextBytes {
		if both := breakHint(strings.Join(strings.Fields(text), " ")); both != "" {
			return both
		}
	}
	for _, h := range hints[heading] {
		if h.words.MatchString(text) {
			return h.hint
		}
	}
	return ""
}

package files

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"mediabuy/quotes/internal/spelling"
	"mediabuy/units"
)

// groupsByComma are currencies of countries that all write 1,000.50 (Unicode CLDR, from memory).
var groupsByComma = []string{"USD", "GBP", "AUD", "NZD", "HKD", "SGD"}

var (
	// customary finds a number with a unit that only such countries sell by.
	customary = regexp.MustCompile(`(?i)^[0-9][0-9,]*\s*(?:lbs?|pounds?|cu|cubic|ft3?|ft³|feet|foot|cf|cy|yds?3?|yd³|yards?|in3?|inch(?:es)?|tons?|short tons?|gal(?:lon)?s?|qts?|quarts?|["'])(?:[^a-z]|$)`)
	// grouped finds the number that a comma may group.
	grouped = regexp.MustCompile(`([0-9]+),([0-9]{3})`)
)

// settleGroups reads $1,000 and 4,500 lb, in a column that leaves them open, as the
// job's currency groups digits. A bare 1,000 stays open: nothing beside it says whose
// habit it is. Where a cell of the file has a decimal comma, nothing is settled; nor is
// a bare 1,000 by a decimal comma in its own column, against the habit of the currency.
func (x *reader) settleGroups(s *sheet, comma *cell) {
	if !x.knowsGroups() {
		return
	}
	for _, r := range s.rows {
		for _, col := range s.columns {
			c := r.cell(col.heading)
			bare := c.mark == units.MarkComma && openComma(c.text)
			if !col.number || c.off || c.mark == units.MarkPoint || !bare && !x.commaGroups(c.text) {
				continue
			}
			other := comma
			if bare {
				other = s.commaUnder(col.heading, comma)
			}
			if other != nil {
				copies := [2]string{grouped.ReplaceAllString(c.text, "$1$2"), grouped.ReplaceAllString(c.text, "$1.${2}0")}
				x.fail(c, fmt.Sprintf("%s would be grouped by its comma in a job in %s, but %s on line %d has a decimal comma", spelling.Quoted(c.text), x.set.Currency, spelling.Quoted(other.text), other.Line),
					"one decimal mark", fmt.Sprintf("write %s or %s, whichever is meant", copies[0], copies[1]))
				if bare && !other.off {
					other.off = true
					x.fail(other, fmt.Sprintf("%s has a decimal comma, but %s on line %d would be grouped by its comma in a job in %s", spelling.Quoted(other.text), spelling.Quoted(c.text), c.Line, x.set.Currency),
						"one decimal mark", `write both alike, or decimal = "," in job.toml if every comma is a decimal mark`)
				}
				c.off = true
				continue
			}
			x.groupsDigits(c)
		}
	}
}

// knowsGroups says whether the job's currency settles what a comma does.
func (x *reader) knowsGroups() bool {
	return slices.Contains(groupsByComma, x.set.Currency) && x.mark == units.MarkUnknown && !x.unsettled
}

// groupsDigits reads the comma of a cell as grouping, which is said once.
func (x *reader) groupsDigits(c *cell) {
	c.mark = units.MarkPoint
	if x.saidGroups {
		return
	}
	x.saidGroups = true
	x.warn(c, fmt.Sprintf("the comma of %s is read as grouping thousands, as a job in %s writes numbers, here and in every other cell of money, pounds, feet, yards or tons", spelling.Quoted(c.text), x.set.Currency),
		`write decimal = "." in job.toml to say so, or decimal = "," if it is the decimal mark`)
}

// grouped gives a reader of money in the settings, which settles £2,500 as a cell of a table
// is settled: not where another setting has a decimal comma.
func (s *settingsReader) grouped(raw *rawSettings) func(*cell) (units.Money, bool) {
	settled := s.knowsGroups()
	for _, v := range []any{raw.Tax, raw.LabourRate, raw.Extra, raw.Sure, raw.LeastShare, raw.Budget} {
		if text, ok := v.(string); ok && decimalComma(text) {
			settled = false
		}
	}
	return func(c *cell) (units.Money, bool) {
		if settled && c.mark == units.MarkUnknown && s.commaGroups(c.text) {
			s.groupsDigits(c)
		}
		return s.money(c)
	}
}

// commaGroups says whether a cell holds numbers with a comma that reads two ways, each with
// the sign of the job's currency or a customary unit beside it.
func (x *reader) commaGroups(text string) bool {
	found := false
	for _, p := range parts(text) {
		if _, ambiguous := units.MarkOf(p); !ambiguous {
			continue
		}
		p = strings.TrimSpace(p[strings.LastIndexByte(p, ':')+1:])
		amount, _ := units.CutRate(p)
		_, codes := units.CurrencyIn(amount)
		if !strings.Contains(p, ",") || !slices.Contains(codes, x.set.Currency) && !customary.MatchString(p) {
			return false
		}
		found = true
	}
	return found
}

// openComma says whether a cell holds a number with a comma that reads two ways.
func openComma(text string) bool {
	return slices.ContainsFunc(parts(text), func(p string) bool {
		_, ambiguous := units.MarkOf(p)
		return ambiguous && strings.Contains(p, ",")
	})
}

// commaUnder is the first cell under a heading that has a decimal comma, else the one given.
func (s *sheet) commaUnder(heading string, otherwise *cell) *cell {
	for _, r := range s.rows {
		c := r.cell(heading)
		if decimalComma(c.text) {
			return c
		}
	}
	return otherwise
}

// decimalComma says whether a text holds a number with a decimal comma.
func decimalComma(text string) bool {
	return slices.ContainsFunc(parts(text), func(p string) bool { m, _ := units.MarkOf(p); return m == units.MarkComma })
}

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
// habit it is. Where a cell of the file has a decimal comma, nothing is settled.
func (x *reader) settleGroups(s *sheet, comma string, line int) {
	if !slices.Contains(groupsByComma, x.set.Currency) || x.mark != units.MarkUnknown || x.unsettled {
		return
	}
	for _, r := range s.rows {
		for _, col := range s.columns {
			c := r.cell(col.heading)
			if !col.number || c.off || c.mark == units.MarkPoint || !x.commaGroups(c.text) {
				continue
			}
			if comma != "" {
				copies := [2]string{grouped.ReplaceAllString(c.text, "$1$2"), grouped.ReplaceAllString(c.text, "$1.${2}0")}
				x.fail(c, fmt.Sprintf("%s would be grouped by its comma in a job in %s, but %s on line %d has a decimal comma", spelling.Quoted(c.text), x.set.Currency, spelling.Quoted(comma), line),
					"one decimal mark", fmt.Sprintf("write %s or %s, whichever is meant", copies[0], copies[1]))
				c.off = true
				continue
			}
			c.mark = units.MarkPoint
			if !x.saidGroups {
				x.saidGroups = true
				x.warn(c, fmt.Sprintf("the comma of %s is read as grouping thousands, as a job in %s writes numbers; so in every cell with its sign or with pounds, feet, yards or tons", spelling.Quoted(c.text), x.set.Currency),
					`write decimal = "." in job.toml to say so, or decimal = "," if it is the decimal mark`)
			}
		}
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

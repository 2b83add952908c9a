package caution

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"mediabuy/quotes"
)

// lime tells how to do the acid drop and what it does not show.
const lime = "a drop of dilute hydrochloric acid that fizzes means lime, which raises the pH of the water. " +
	"Wear eye protection and gloves, work in the open air, add acid to water and never water to acid, keep it from bleach and every other chemical, rinse the stones well. " +
	"Dolomite fizzes late and weakly, and vinegar is weaker still: crush a little to powder and watch again"

const limeSource = "Emory University, Getting Stoned, no year given, https://samothrace.emory.edu/getting-stoned/ (read: limestone at once, dolomitic limestone delayed and weaker); protection and handling are common practice, no source"

// AcidDrop is about the acid drop on stone that may hold lime; about names it.
func AcidDrop(about string) Caution {
	return Caution{About: "lime", Words: fmt.Sprintf("test several rinsed stones of %s before any goes into a bed: %s", about, lime), Source: limeSource}
}

// bearsLime finds the names of stone that is mostly carbonate, or of rubble bound
// with lime (geology and the trade's own names, from memory).
var bearsLime = regexp.MustCompile(`(?i)\b(?:lime|limestones?|marble|chalk|dolomit\w*|dolostone|travertine|tufa|calcite|aragonite|coral|(?:oyster|sea|cockle|mussel|crushed|clam)[ -]?shells?|shells?|shell grit|concrete|mortar|caliche|coquina)\b`)

// CalledFree is about stone whose name says lime and whose row in the job's own
// media table says that it holds none; ok is false where there is none among the
// quotes. It is the table's word that counts, so the buyer is told.
func CalledFree(of []*quotes.Quote) (c Caution, ok bool) {
	var called []string
	for _, q := range of {
		m := q.Medium
		if m.Carbonate != quotes.CarbonateNone || m.Pos == (quotes.Pos{}) || !bearsLime.MatchString(m.Name+"; "+strings.Join(m.OtherNames, "; ")) {
			continue
		}
		if words := fmt.Sprintf("%s (%s)", m.Name, m.Pos.File); !slices.Contains(called, words) {
			called = append(called, words)
		}
	}
	if len(called) == 0 {
		return Caution{}, false
	}
	slices.Sort(called)
	return Caution{
		About: "lime by name",
		Words: fmt.Sprintf("the job's own media table calls this free of carbonate: %s. Stone of such a name is mostly lime as a rule; in a bed it drives the pH up and harms fish and plants. "+
			"Have it tested before it is ordered: %s", strings.Join(called, ", "), lime),
		Source: limeSource + "; what such stone is made of is from memory",
	}, true
}

package share

import (
	"fmt"
	"strings"

	"mediabuy/units"
)

// how says what a rule does, to go on with "and" or "but".
var how = map[Rule]string{
	ByLitres:  "Each pays by the litres that fill its beds",
	ByUse:     "Each pays for the goods that fill its beds at the price the order reached, and for fees by use",
	BySavings: "Each pays the same share of what it would pay alone",
	Shapley:   "Each pays what it adds to the bill, averaged over all orders of joining (the Shapley value)",
}

// reason is the one sentence that tells members why a split is what it is.
// possible says whether some split leaves no group better off alone.
func (s *splitter) reason(sp Split, possible bool) string {
	if len(s.names) == 1 {
		return fmt.Sprintf("Every bed is paid for by %s, so %s pays the whole bill.", s.names[0], s.names[0])
	}
	if s.unsettled > 0 && len(s.known) == 0 {
		return "Time was up before it was known what any member or group would pay alone, so this split is held against nothing."
	}
	nobody := "nobody, and no group of members,"
	switch {
	case s.unsettled > 0:
		nobody = fmt.Sprintf("none of the %d members and groups of members settled in time", len(s.known))
	case len(s.names) > s.opt.Exact:
		nobody = fmt.Sprintf("nobody, and none of the %d groups tested,", len(s.known))
	}
	switch {
	case sp.Rule == Nucleolus && sp.Stable:
		return fmt.Sprintf("%s would pay less by ordering alone; of all splits of which that is true, this one (the nucleolus) gives the group that saves least by staying as much as it can be given, then the next. What each could do alone counts, not how much it fills.", strings.ToUpper(nobody[:1])+nobody[1:])
	case sp.Rule == Nucleolus:
		return fmt.Sprintf("No split keeps every group from doing better alone; this one (the nucleolus) makes the most that any group would gain as small as it can be, %s.", s.text(sp.Objections[0].By))
	case sp.Stable:
		return fmt.Sprintf("%s, and %s would pay less by ordering alone.", how[sp.Rule], nobody)
	}
	first := sp.Objections[0]
	out := fmt.Sprintf("%s, but %s would pay %s less by %s", how[sp.Rule], units.Listed(first.Members), s.text(first.By), themselves(first.Members))
	if possible {
		return out + "; the nucleolus would leave nobody better off alone."
	}
	return out + "; no split keeps every group from doing better alone."
}

func themselves(members []string) string {
	if len(members) == 1 {
		return "itself"
	}
	return "themselves"
}

// Sentence says an objection aloud: "north plot and school would pay 41.20 less
// by themselves".
func (o Objection) Sentence(currency string) string {
	return fmt.Sprintf("%s would pay %s less by %s", units.Listed(o.Members), units.FormatMoney(o.By, currency), themselves(o.Members))
}

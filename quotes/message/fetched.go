package message

import (
	"slices"
	"strings"

	"mediabuy/quotes/internal/cues"
)

// fetched leaves the prices of a clause to a person where a word for delivery stands in it that is in no fee, or stood
// before it in its sentence with no medium since: they may be what delivery costs. So may a bare one behind a fee.
func (s *scanner) fetched(before []*clause, c *clause) {
	for i, f := range c.facts {
		if i > 0 && c.row < 0 && f.kind == aPrice && len(c.media()) == 0 && (c.facts[i-1].kind == aDelivery && f.unit.Text == "" && f.unit.RealForm() == "" || slices.Contains(charges, c.facts[i-1].kind) && strings.TrimSpace(s.low[c.facts[i-1].To:f.From]) == "or") {
			f.drop(besideDelivery)
		}
	}
	word := func(c *clause) bool {
		return c.row < 0 && (cues.BringsIt.MatchString(s.low[c.From:c.To]) || slices.ContainsFunc(c.tokens, func(t token) bool { return fetchWord.MatchString(t.word) }) || slices.ContainsFunc(c.facts, func(f *fact) bool { return f.kind == aLoad || f.why == beyondShorthand }))
	}
	found := word(c)
	asked := false
	for _, d := range slices.Backward(before) {
		listed := c.line && d.line && len(d.facts) > 0 && len(d.tokens) == 0 && !slices.ContainsFunc(d.facts, func(f *fact) bool { return f.unclear != besideDelivery })
		if listed || d.sentence == c.sentence && len(d.facts) == 0 && !slices.ContainsFunc(d.tokens, func(t token) bool { return t.number || t.word != "" && !fillers[t.word] }) {
			continue // a line of a list below that heading; "yes,"
		}
		if asked = d.asksFee(); asked || len(d.tokens) > 0 || slices.ContainsFunc(d.facts, func(f *fact) bool { return f.kind != anAside && f.kind != aSupplier }) {
			break
		}
	}
	if found = found || asked; asked {
		c.bareFee()
	}
	heads := before[max(0, len(before)-1):]
	zone := c.row < 0 && cues.ZoneLine.MatchString(s.lineOf(c.From)) && len(c.media()) == 0
	rated := zone || cues.GasMoney.MatchString(s.low[c.From:c.To]) // "transport per truck (24 m3) 260", "delivery (one load, up to 15 tons): $115"
	for _, d := range slices.Backward(before) {
		if found || d.sentence != c.sentence || len(c.media())+len(d.media()) > 0 {
			break
		}
		if found = word(d) || slices.ContainsFunc(d.facts, func(f *fact) bool { return f.kind == aTruck }); !found && slices.ContainsFunc(d.tokens, func(t token) bool { return t.number }) {
			rated = true
		}
	}
	found = found || zone
	carried := !found && c.row < 0 && len(c.media()) == 0 && cues.OnTruck.MatchString(s.low[c.From:c.To]) // "it goes out on a flatbed for 120"
	if !found && !carried {
		return
	}
	for _, d := range slices.Backward(before) {
		rated = rated || d.sentence == c.sentence && (slices.ContainsFunc(d.facts, func(f *fact) bool { return f.kind == aTruck }) || cues.ClassFirst.MatchString(s.low[d.From:d.To]) && cues.BringsIt.MatchString(s.low[d.From:d.To])) // "bulk i bring it, 50 bucks"
		for j := 1; j < len(d.tokens) && d.sentence == c.sentence; j++ {
			rated = rated || oneOf(d.tokens[j-1].word, "per", "each") && cues.TruckStart.MatchString(d.tokens[j].word)
		}
	}
	if !rated && c.onlyFee() {
		for _, d := range heads {
			if asked && len(d.facts) == 0 && d.poison == "" {
				d.facts = []*fact{{kind: anAside, Range: Range{d.tokens[0].From, d.tokens[len(d.tokens)-1].To}, why: "what the amount below it is for"}}
				d.tokens = nil
			}
		}
		return
	}
	for _, f := range c.facts {
		if (f.kind == aPrice || f.kind == aBreak || f.kind == aTier) && (!carried || f.unit.Text == "") {
			f.drop(besideDelivery)
		}
		if f.kind == aForm && cues.RidesBy.MatchString(s.low[c.From:c.To]) {
			f.drop(besideDelivery) // how these come, and not how what stands before is packed
		}
		if f.why == overReason { // it is no price from some packs on: "£80 over 6 tonnes"
			f.ask = nil
		}
	}
}

// asksFee says whether a clause is a question, or a heading, about delivery and nothing else, which what follows answers.
func (c *clause) asksFee() bool {
	if len(c.facts) > 0 {
		return len(c.tokens) == 0 && slices.ContainsFunc(c.facts, func(f *fact) bool { return f.column == "delivery" }) && !slices.ContainsFunc(c.facts, func(f *fact) bool { return f.kind != anAside })
	}
	found := false
	for _, t := range c.tokens {
		if t.number || t.word != "" && !fillers[t.word] && !fetchWord.MatchString(t.word) && !oneOf(t.word, "fee", "fees", "charge", "charges", "rate", "rates", "cost", "costs", "prices") {
			return false
		}
		found = found || fetchWord.MatchString(t.word)
	}
	return found
}

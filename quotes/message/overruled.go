package message

import (
	"slices"
	"strings"

	"mediabuy/quotes/internal/cues"
	"mediabuy/units"
)

// gone leaves the price right in front of clause i, with what goes with it, to a person where the clause says that it is not to be had.
func (r *reading) gone(i int) {
	c := r.all[i]
	if c.row >= 0 || !cues.GoneBehind.MatchString(r.low[c.From:c.To]) {
		return
	}
	for _, d := range slices.Backward(r.all[:i]) {
		if d.row >= 0 || d.sentence < c.sentence-1 || d.sentence < c.sentence && !cues.ItFirst.MatchString(r.low[c.From:c.To]) {
			return
		}
		for _, f := range slices.Backward(d.facts) {
			if oneOf(f.kind, aPrice, aBreak, aTier) {
				f.drop("none of it is to be had, by what stands behind it")
			}
			if f.kind == aPrice || f.kind.isFee() {
				return
			}
		}
	}
}

// replaced leaves the prices to a person that another number is said to stand in place of.
func (r *reading) replaced() {
	for _, at := range cues.NotThat.FindAllStringSubmatchIndex(r.low, -1) {
		m := match{re: cues.NotThat, low: r.low, idx: at}
		old, why := r.number(m.text("m"))
		fresh, bad := r.number(m.text("n"))
		if why != "" || bad != "" || !near(units.MoneyOf(old.value), units.MoneyOf(fresh.value)) {
			continue
		}
		for _, c := range r.all {
			for _, f := range c.facts {
				if f.To <= at[0] && (f.kind.isFee() || oneOf(f.kind, aPrice, aBreak)) && f.money.Equal(units.MoneyOf(old.value)) {
					f.drop("another number is said to stand in its place")
				}
			}
		}
	}
}

// corrected leaves the numbers of the clauses in front of a correction to a person, back to the nearest that states one.
func (r *reading) corrected() {
	r.replaced()
	for _, at := range cues.Correction.FindAllStringIndex(r.low, -1) {
		sentence, why, goods := -1, "it is corrected behind it", false // the correction speaks of what has a size
		if !slices.ContainsFunc(r.all, func(c *clause) bool {
			states := len(c.media()) == 0 && slices.ContainsFunc(c.facts, func(f *fact) bool {
				return f.From >= at[0] && f.From < at[1]+window/4 && (f.kind.isFee() || oneOf(f.kind, aPrice, aBreak, aTier, aMin))
			})
			goods = states && slices.ContainsFunc(c.facts, func(f *fact) bool { return f.kind == aSize && f.From >= at[0] })
			return states
		}) {
			why = "it is taken back behind it, and no other stands in its place"
		}
		if r.redone(at) || cues.WillBefore.MatchString(r.low[max(0, at[0]-window/8):at[0]]) {
			continue
		}
		for _, c := range slices.Backward(r.all) {
			if c.row >= 0 || c.From >= at[0] || sentence >= 0 && c.sentence != sentence {
				continue
			}
			for _, f := range c.facts {
				if f.To <= at[0] && (f.kind.isFee() && !goods || oneOf(f.kind, aPrice, aBreak, aTier, aPallet, aMin)) {
					f.drop(why)
					sentence = c.sentence
				}
			}
		}
	}
}

// redone says whether a correction has one price right behind it, and one near it right in front: which of them holds is then asked,
// as of any two prices that contradict one another.
func (r *reading) redone(at []int) bool {
	var before, behind *fact
	for _, c := range r.all {
		for _, f := range c.facts {
			if states := c.row < 0 && (oneOf(f.kind, aPrice, aBreak, aTier, aPallet, aMin) || f.kind.isFee()); states && f.To <= at[0] {
				before = f
			} else if states && behind == nil {
				behind = f
			}
		}
	}
	if before == nil || behind == nil || before.kind != aPrice || behind.kind != aPrice || strings.Trim(r.low[at[1]:max(at[1], behind.From)], " ,:;.–—-") != "" || behind.unclear != "" || before.unclear != "" || !near(before.money, behind.money) || !behind.unit.Empty() { // with its unit it says all by itself
		return false
	}
	if !slices.ContainsFunc(r.all, func(c *clause) bool { return slices.Contains(c.facts, behind) && len(c.media()) == 0 }) {
		return false
	}
	before.redone = true
	return true
}

// outbid leaves the price in front of clause c in its sentence to a person where a number of c that was not made out may be another
// price for the same: "88 a yard, for you 85". With a form beside it, it is that of another pack, and the form is left.
func (r *reading) outbid(before []*clause, c *clause) {
	for j, t := range c.tokens {
		v, err := units.ParsePlainDecimal(strings.TrimLeft(t.word, "$£€"))
		if !t.number || err != nil || c.row >= 0 || v.Sign() <= 0 || j > 0 && oneOf(c.tokens[j-1].word, "for", "to", "of", "over", "under", "no", "first", "have", "has", "got") ||
			len(c.media()) > 0 || cues.MoreBefore.MatchString(r.low[c.From:t.From]) || cues.CountedAfter.MatchString(r.low[t.To:]) || slices.ContainsFunc(c.facts, func(f *fact) bool { return oneOf(f.kind, aPrice, aBreak, aMin, aPercent) || f.kind.isFee() }) ||
			slices.ContainsFunc(c.tokens, func(t token) bool { return fetchWord.MatchString(t.word) || cues.TruckStart.MatchString(t.word) }) {
			continue
		}
		form := slices.IndexFunc(c.facts, func(f *fact) bool { return f.kind == aForm || f.kind == aPack })
		for _, d := range slices.Backward(before) {
			if slices.ContainsFunc(d.facts, func(f *fact) bool { return f.kind.isFee() }) {
				break
			}
			found := d.sentence != c.sentence || len(d.media()) > 0
			for _, f := range d.facts {
				found = found || f.kind == aPrice
				switch {
				case d.sentence != c.sentence || d.poison != "" || f.kind != aPrice || f.unclear != "" || !near(f.money, units.MoneyOf(v)):
				case form >= 0:
					c.facts[form].drop(besideNumber)
				default:
					f.drop(besideNumber)
					f.outbid = true
				}
			}
			if found {
				break
			}
		}
	}
}

const besideNumber = "a number near it may be another price for the same"

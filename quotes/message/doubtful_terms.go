package message

import (
	"slices"
	"strings"

	"mediabuy/units"
)

// rowBroken is the row of a medium whose price a break from a number of packs on would lower; nil when there is none, or it has such
// a break. A break of less than a third of a price is hardly one of it (common practice, no source).
func (r *reading) rowBroken(all []*draft, medium, f *fact, from count, unit pack) *draft {
	if from.value.Cmp(units.DecimalFromInt(1)) <= 0 {
		return nil
	}
	var out *draft
	for _, row := range all {
		if r.offersOf(row, medium, f) && row.offer.pack.Fits(unit) {
			out = row
		}
	}
	if out == nil {
		return nil
	}
	o := out.offer
	if o.price == nil || o.price.unclear != "" || !o.pack.Fits(unit) || f.money.Cmp(o.price.money) >= 0 || f.money.Decimal().Mul(units.DecimalFromInt(3)).Cmp(o.price.money.Decimal()) < 0 {
		return nil
	}
	for _, b := range o.breaks {
		if d := b.from.value.Cmp(from.value); d == 0 || d < 0 && b.money.Cmp(f.money) <= 0 || d > 0 && b.money.Cmp(f.money) >= 0 {
			return nil
		}
	}
	return out
}

// setBreaks writes the cell of the breaks of an offer.
func (d *draft) setBreaks() {
	var breaks []string
	var from []*fact
	slices.SortStableFunc(d.offer.breaks, func(a, b *fact) int { return a.from.value.Cmp(b.from.value) })
	for _, f := range d.offer.breaks {
		if f.unclear == "" && (f.base == nil || f.base.unclear == "") {
			breaks, from = append(breaks, f.from.text+": "+f.text), append(from, f)
		}
	}
	delete(d.cells, "breaks")
	if i := slices.IndexFunc(from, func(f *fact) bool { return f.graded }); i >= 0 {
		if slices.ContainsFunc(from, func(f *fact) bool { return !f.graded }) {
			for _, f := range from {
				f.drop("some of these prices hold for all packs, and some for those beyond a number alone")
			}
			return
		}
		d.set("break_kind", "incremental", from[i].why, from...)
	}
	if len(breaks) > 0 {
		d.set("breaks", strings.Join(breaks, "; "), "prices from a number of packs on", from...)
	}
}

// rivalFees leaves a fee to a person that has another amount beside it in its sentence, which may be that of another place, and one for
// loads where another was not made out.
func (r *reading) rivalFees(sec *section) {
	for _, f := range sec.facts {
		if oneOf(f.kind, aTruck, aLoadFee) && slices.ContainsFunc(r.all, func(c *clause) bool {
			return r.sections[r.sectionAt(c.From)] == sec && slices.ContainsFunc(c.facts, func(g *fact) bool { return g.kind == aPrice && g.unclear == besideDelivery && g.unit.Form == "load" })
		}) {
			f.drop(besideDelivery)
		}
		if f.kind != aDelivery || f.unclear != "" || f.ask != nil {
			continue
		}
		for _, c := range r.all {
			if c.sentence == r.sentenceOf(f) && slices.ContainsFunc(c.facts, func(g *fact) bool {
				return f.text != "0" && g.why == perOrderReason || f.behind == nil && g.kind == aPrice && (g.unclear == besideDelivery || g.unclear != "" && len(c.media()) == 0) && g.unit.Empty() && g.ask == nil
			}) {
				f.drop(besideDelivery)
			}
		}
	}
}

const (
	asksFee   = "is it what delivery costs?"
	amongFees = "which of them is what delivery costs?"
)

// bringing says whether a clause speaks of bringing goods, or one before it in its sentence where nothing is said of a medium.
func (r *reading) bringing(c *clause) bool {
	found := brings.MatchString(r.low[c.From:c.To])
	at, _ := slices.BinarySearchFunc(r.all, c.From, func(d *clause, from int) int { return d.From - from })
	from := at
	for from > 0 && r.all[from-1].sentence == c.sentence {
		from--
	}
	for _, d := range r.all[from:at] {
		if !found && d.row < 0 {
			if len(d.media()) > 0 {
				return false
			}
			found = brings.MatchString(r.low[d.From:d.To])
		}
	}
	return found
}

// lonelyAmount makes an amount of the only number of a clause with no facts but of some kinds: "but 130 to bring it", "still 112".
func (r *reading) lonelyAmount(c *clause, why string, beside ...kind) {
	at := slices.IndexFunc(c.tokens, func(t token) bool { return t.number })
	if at < 0 || never[c.poison] || c.poison == doubts["later"] || slices.ContainsFunc(c.tokens[at+1:], func(t token) bool { return t.number }) || at+1 < len(c.tokens) && notAmounts.MatchString(c.tokens[at+1].word) ||
		slices.ContainsFunc(c.facts, func(f *fact) bool { return !slices.Contains(beside, f.kind) }) {
		return
	}
	t := c.tokens[at]
	n, bad := r.number(t.word)
	if bad != "" || n.value.Sign() <= 0 || r.calls(t.Range) || numbered.MatchString(r.low[max(0, t.From-window):t.From]) || year.MatchString(t.word) && slices.Contains(beside, aMedium) {
		return
	}
	c.made(at, at+1, &fact{kind: aPrice, Range: t.Range, text: n.text, money: units.MoneyOf(n.value), why: why, unclear: first(c.poison, unsaid)})
}

// numbered makes the number behind it one of a thing or a time and no amount.
var (
	numbered = compile(`(?:-|(?:[#/]|\d[ \t]*-|\d[:.]|\b(?:no|nr|number|ref|page|zone|ticket|order|invoice|quote|ext|unit|text|line|item|tel|ph|phone|cell|call|until|til|till|since|week|week of|before|after|open|closes?|shut|est|room|lot|within|of|x))[ \t]*)$`)
	year     = compile(`^(?:19|20)\d\d$|^\d{5,}$`)
)

// notAmounts are words behind a number that make it no amount of money.
var notAmounts = pattern(`(?:` + anyUnit + `|` + packForm + `|%|miles?|mi|km|days?|weeks?|hours?|hrs?|mins?|minutes?|axles?|wheelers?|yarders?|am|pm|th|st|nd|rd|x|ft|foot|in|inch(?:es)?)$`)

// brings is a word for bringing goods.
var brings = compile(`\b(?:` + bringWords + `|carriage|lorry|tempo|shipping|sending|courier)\b`)

package files

import (
	"cmp"
	"fmt"
	"strings"

	"mediabuy/quotes"
	"mediabuy/quotes/internal/spelling"
	"mediabuy/quotes/internal/typed"
	"mediabuy/units"
)

const breaksWanted = "packs and price with a colon between, such as 10: 27.50; 40: 24.00"

// steepest is how many times as much a pack may cost before a break and the break be believed: yards give some tens of
// percent (common practice, no source).
const steepest = 3

// breaks reads price breaks: each from more packs than the one before, at a
// price no higher. price is the price before breaks; nil if it could not be read.
func (x *reader) breaks(q *quoteRow, c *cell, price *units.Money) ([]quotes.Break, bool) {
	if c.off {
		return nil, false
	}
	var out []quotes.Break
	for _, p := range parts(c.text) {
		b, ok := x.oneBreak(q, c, p, len(out) > 0)
		if !ok {
			return nil, false
		}
		before := price
		if n := len(out); n > 0 {
			before = &out[n-1].Price
			if b.From.Cmp(out[n-1].From) <= 0 {
				x.fail(c, fmt.Sprintf("the break from %s packs comes after the one from %s", b.From, out[n-1].From),
					"breaks from few packs to many, each number once", "put them in order, and write the price of each number of packs once")
				return nil, false
			}
		}
		if before != nil && b.Price.Cmp(*before) > 0 {
			x.fail(c, fmt.Sprintf("from %s packs the price rises from %s to %s", b.From, x.show(*before), x.show(b.Price)),
				"a price that falls from break to break", "is it the price of all packs together? write the price of one")
			return nil, false
		}
		if before != nil && b.Price.Equal(*before) {
			x.warn(c, fmt.Sprintf("from %s packs the price stays at %s, so the break does nothing", b.From, x.show(b.Price)), "write the lower price, or take the break out")
		}
		switch {
		case b.Price.IsZero():
			x.warn(c, fmt.Sprintf("from %s packs the price is 0", b.From), "take the break out if the price is not known")
		case before != nil && b.Price.Float()*steepest < before.Float():
			x.warn(c, fmt.Sprintf("from %s packs the price falls from %s to %s, to less than a third", b.From, x.show(*before), x.show(b.Price)),
				"is a decimal mark lost? if it is right, leave it")
		}
		out = append(out, b)
	}
	if len(out) == 0 {
		x.fail(c, spelling.Quoted(c.text)+" holds no break", breaksWanted, "leave the cell empty if there is none")
		return nil, false
	}
	return out, true
}

func (x *reader) oneBreak(q *quoteRow, c *cell, text string, told bool) (quotes.Break, bool) {
	from, price, ok := strings.Cut(text, ":")
	if !ok {
		x.fail(c, spelling.Quoted(text)+" is not a break", breaksWanted, cmp.Or(typed.Hint(c.heading, c.text), "put a colon between packs and price, and a semicolon between breaks"))
		return quotes.Break{}, false
	}
	n, ok := x.counted(q, c, strings.TrimSpace(from))
	if !ok {
		return quotes.Break{}, false
	}
	if n.Sign() <= 0 {
		x.fail(c, fmt.Sprintf("the break begins at %s packs", n), "more than 0 packs", "the price before breaks stands under price")
		return quotes.Break{}, false
	}
	m, ok := x.price(q, c, strings.TrimSpace(price), told)
	return quotes.Break{From: n, Price: m}, ok
}

// groups checks the quotes that reach their breaks together.
func (x *reader) groups(in []*quoteRow) {
	type key struct{ supplier, group string }
	var order []key
	members := map[key][]*quoteRow{}
	for _, q := range in {
		if q.BreakGroup == "" || q.Supplier == "" {
			continue
		}
		k := key{q.Supplier, spelling.NameKey(q.BreakGroup)}
		if members[k] == nil {
			order = append(order, k)
		}
		members[k] = append(members[k], q)
	}
	for _, k := range order {
		x.group(members[k])
	}
}

func (x *reader) group(m []*quoteRow) {
	first := m[0]
	for _, q := range m {
		q.BreakGroup = first.BreakGroup // the first spelling wins
	}
	if len(m) == 1 {
		x.warn(first.row.cell("break_group"), fmt.Sprintf("no other quote of %s is in the group %s", first.Supplier, spelling.Quoted(first.BreakGroup)),
			"its breaks are reached by its own packs alone; is the name spelled alike on the others?")
		return
	}
	told := false
	for _, q := range m[1:] {
		if q.bad["break_kind"] || first.bad["break_kind"] {
			continue
		}
		if q.BreakKind != first.BreakKind {
			x.fail(q.row.cell("break_kind"), fmt.Sprintf("the breaks are %s, but those of line %d in the same group are %s", q.BreakKind, first.Line, first.BreakKind),
				"one break_kind in a break_group", "give them different groups, or the same kind")
			continue
		}
		if first.BreakKind != quotes.Incremental || q.bad["breaks"] || first.bad["breaks"] || q.bad["step"] || first.bad["step"] {
			continue
		}
		switch {
		case !sameThresholds(first.Breaks, q.Breaks):
			x.fail(q.row.cell("breaks"), fmt.Sprintf("the breaks begin %s, those of line %d in the same group %s", thresholds(q.Breaks), first.Line, thresholds(first.Breaks)),
				"the same numbers of packs throughout an incremental group", "write the same breaks on each quote, or take this one out of the group")
		case !q.Step.Equal(first.Step):
			x.fail(q.row.cell("step"), fmt.Sprintf("the step is %s packs, that of line %d in the same group %s", q.Step, first.Line, first.Step),
				"one step throughout an incremental group", "give the pack so that one step fits all, or take this quote out of the group")
		case !told && !first.bad["price"] && !q.bad["price"] && !sameDrops(first.Quote, q.Quote):
			told = true
			x.warn(q.row.cell("break_group"), fmt.Sprintf("the price drops here are not those of line %d in the same incremental group", first.Line),
				"which packs get the lower price is for the yard to say; the plan counts the reading that is cheapest")
		}
	}
}

func thresholds(bs []quotes.Break) string {
	if len(bs) == 0 {
		return "nowhere"
	}
	out := make([]string, len(bs))
	for i, b := range bs {
		out[i] = b.From.String()
	}
	return "at " + strings.Join(out, ", ") + " packs"
}

func sameThresholds(a, b []quotes.Break) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if !a[i].From.Equal(b[i].From) {
			return false
		}
	}
	return true
}

// sameDrops reports whether the price falls by the same money at each break.
func sameDrops(a, b *quotes.Quote) bool {
	la, lb := a.Levels(), b.Levels()
	for i := range la[1:] {
		if !la[i].Price.Sub(la[i+1].Price).Equal(lb[i].Price.Sub(lb[i+1].Price)) {
			return false
		}
	}
	return true
}

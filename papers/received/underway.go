package received

import (
	"cmp"
	"slices"

	"mediabuy/quotes"
	"mediabuy/units"
)

// Coming is what of one order is under way.
type Coming struct {
	Order string
	Packs units.Decimal
	Due   quotes.Date // the last day it may come; zero where none was said
}

// Until says by when it is to come.
func (c Coming) Until() string { return cmp.Or(c.Due.String(), "no day said") }

// ComingWords say what being under way means, and how to say that something is not.
const ComingWords = "No row of the arrivals tells of it and its day, where one was said, is not over, so it is counted on " +
	"and not bought again. A row with 0 packs says that it is not coming any more."

// underWay is the one rule of what is still to come, line by line of the orders.
//
// A line is under way as long as no arrival tells of it and its day is not over: on that
// day it still is, and where no day was said it stays so. A line that something came of is
// delivered, and what it lacks is short; a row of 0 packs tells of a line that nothing of it
// is coming. A line of which nothing is told once its day is over is short as a whole, and so
// is one of a plan that was never made an order.
//
// Which line an arrival tells of is the order it names. Where it names none, as most have
// but one to be for:
//
//  1. lines that nothing has told of yet and that were ordered before the day it came,
//     the oldest first, so that what is bought to finish is not taken for the rest of the
//     first order;
//  2. then all others in the same order.
//
// Each takes of it in good order what it has room for. Days before undated rows make no
// difference: these come first, as they were read.
func underWay(ordered []Ordered, arrived []Arrival, on quotes.Date) []bool {
	lines := make([]int, len(ordered))
	room := make([]units.Decimal, len(ordered))
	for i, o := range ordered {
		lines[i], room[i] = i, o.Packs
	}
	slices.SortStableFunc(lines, func(a, b int) int { return ordered[a].Day.Compare(ordered[b].Day.Time) })
	rows := slices.Clone(arrived)
	slices.SortStableFunc(rows, func(a, b Arrival) int { return a.Day.Compare(b.Day.Time) })
	told := make([]bool, len(ordered))
	for _, a := range rows {
		var fresh, rest []int
		for _, i := range lines {
			o := ordered[i]
			if o.Quote != a.Quote || o.Site != a.Site || a.Order != "" && a.Order != o.Order {
				continue
			}
			if !told[i] && o.Day.Before(a.Day.Time) {
				fresh = append(fresh, i)
			} else {
				rest = append(rest, i)
			}
		}
		all := append(fresh, rest...)
		left := a.Packs.Sub(a.Rejected)
		if left.Sign() == 0 { // nothing of it is any good
			if i := slices.IndexFunc(all, func(i int) bool { return !told[i] }); i >= 0 {
				told[all[i]] = true
			}
			continue
		}
		for _, i := range all {
			take := room[i]
			if left.Cmp(take) < 0 {
				take = left
			}
			if take.Sign() > 0 {
				told[i], room[i], left = true, room[i].Sub(take), left.Sub(take)
			}
		}
	}
	out := make([]bool, len(ordered))
	for i, o := range ordered {
		out[i] = !told[i] && !o.Planned && (o.Due.IsZero() || !on.After(o.Due.Time))
	}
	return out
}

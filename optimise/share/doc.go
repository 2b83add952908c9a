// Package share splits the bill of one pooled order among the members who pay
// for the beds. Call [Solve].
//
// # What a group would pay by itself
//
// A group of members going alone is a job of its own, solved to proof like any
// other: the same quotes, delivery terms and settings, and only the group's
// beds. Three choices make the groups add up to the whole.
//
//   - A shared bed belongs to its members by their parts. A group owns the sum of
//     its members' parts: a slice across the bed, as deep as the bed, with that
//     share of its litres, of what its pipes displace, of its own weight and of
//     its limit.
//   - A table that carries beds of several members still carries the beds of the
//     others when one group orders by itself. What the table can bear beyond the
//     frames' own weight is shared out by the litres that stand on it. So any
//     separate orders of all members together keep every limit; a group cannot
//     gain by filling a table as if the others' beds stood empty.
//   - The budget is for the pooled order and is left out. max_suppliers and
//     max_deliveries hold for each order, pooled or not.
//
// A group with no plan of its own cannot leave, so it has no objection. Where a
// rule needs a figure for it, the least bill of a larger group that holds it
// stands in: it could place that order and use its part. For splits in which
// nobody is paid to take part this stand-in never decides a test, because the
// larger group, which pays no less, is tested against the same figure.
//
// A group for which no plan was found within the time limit is not settled: it is
// priced like one without a plan, not tested, and the result is not proven.
//
// # When pooling can cost more
//
// One order is never dearer than the separate orders of its members as long as
// it may do what they do. It may not, and can be dearer, when (a) stock
// (max_qty) is counted once for the pooled order and again for each separate
// one, (b) max_suppliers or max_deliveries holds back one order but not several
// small ones, or (c) two orders would use different ways of delivery to one
// site for goods of one form, where one order must choose. Rounding each line as
// an invoice does moves either side by cents. [Result.Apart] says so when it
// happens.
//
// # Splitting
//
// Package costgame holds the mathematics. Splits are worked out in fractions and
// then rounded to whole cents that add up to the bill: each part is cut down, and
// the odd cents go to the largest remainders, or, where that would leave a
// group better off alone by those cents only, to whichever members it does not.
package share

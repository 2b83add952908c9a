// Package breakeven finds where one way of buying overtakes another: by the
// price of a quote or a fee, by the size of the job, and by its rules. Two ways over
// every volume are package byvolume's.
//
// # By price
//
// Let x be the price asked about, with every price break of the quote moved in
// the same proportion, and P a purchase that fills the beds. Unrounded, P costs
//
//	cost(P, x) = a[P] + b[P]·x
//
// so the least cost f(x) = min over P of cost(P, x) is concave and piecewise
// linear. Its corners are found by the method of M. J. Eisner and D. G. Severance,
// "Mathematical techniques for efficient record segmentation in large shared
// databases", Journal of the ACM 23 (1976) 619-635 (title and pages from memory):
// draw the lines of the best buys known, solve again where two of them cross; a
// cheaper buy found there is one more line, and if there is none, the crossing is
// a corner of f. Two points of f on one line have that whole line between them,
// because f is concave, so nothing is stepped over.
//
// # Free delivery and smallest orders
//
// A supplier's free_over and min_order look at the value of the goods, which
// moves with x: a dearer pack can bring free delivery. Then cost(P, x) falls at
// some x and f is neither concave nor rising. What stays true is that everything
// a purchase is let off at x it is let off at every higher price. Write F(u, x)
// for the least cost at price x when goods are valued at price u to see what is
// free or refused; then
//
//	f(x) = F(x, x),  F(u, x) ≤ F(v, x) for u ≥ v,  F(u, ·) is concave.
//
// So a buy P is the cheapest from x1 to x2 if F(x2, x) = cost(P, x) at both ends:
// F(x2, ·) is no lower between them, and f is no lower than F(x2, ·). Where F(x2, x1) is
// lower, the buy behind it is either let off at x1 too and is one more candidate,
// or only from some price s on; then the stretch is cut at s and each part is
// looked at by itself. F(u, x) is solved as a job whose quote costs u and whose tax
// is (1+tax)·x/u − 1. Changes closer together than one cent of price (a
// ten-thousandth, where prices move by a factor) are told as one; where they crowd,
// and in the last cent before one, the least cost is proven at each price in whole
// cents by itself.
//
// # Where a quote enters or leaves
//
// The price at which a quote enters the plan is found by one search in place of a
// series (optimise.Enter): bounds at one price hold at every higher one, so each buy found
// to be cheaper than today's just raises the price under way, and what the search
// ends with is the entry with its proof. With F(u, ·) for f it is asked at u =
// today's price first, and again at the entry found until its buy is let off
// there too.
//
// What is bought today leaves the plan where nothing that holds it costs less than
// the best buy without it. From the x up to which the buys known do, F(x, ·) is asked
// in the same way for one that does for longer: what is let off at x is let off above
// it. Between today's x and there the plan may change in packs and not in this; those
// changes are only looked for where the whole series is asked for.
//
// # Proofs
//
// One solve differs from the next in a price or two. So each begins with the proof of
// the one at the nearest price (optimise.Proof): the row prices by which it bounded
// each node of its tree bound the same node at other prices too, and what they still
// settle needs no linear program. That nothing is cheaper a cent above an entry mostly
// follows in this way alone, worked out anew from the prices there.
//
// # Half a cent
//
// A buy counts as cheapest when no other is cheaper by more than half a cent
// before rounding, the promise of package optimise.
package breakeven

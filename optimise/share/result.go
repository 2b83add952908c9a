package share

import (
	"mediabuy/optimise"
	"mediabuy/quotes"
	"mediabuy/units"
)

// Rule is a way to split the bill.
type Rule string

// The rules.
const (
	// ByLitres splits by placed litres.
	ByLitres Rule = "litres"
	// ByUse charges each for the goods it uses, at the price reached, and for
	// fees by use.
	ByUse Rule = "use"
	// BySavings lets each save the same share of what going alone would cost.
	BySavings Rule = "savings"
	// Shapley charges each what it adds to the bill, averaged over all orders of
	// joining.
	Shapley Rule = "shapley"
	// Nucleolus keeps the group with most reason to leave as content as can be,
	// then the next, and so on: nobody and no group is better off alone if there
	// is any such split. It is the default.
	Nucleolus Rule = "nucleolus"
)

// Rules lists every rule, the default first.
var Rules = []Rule{Nucleolus, Shapley, BySavings, ByUse, ByLitres}

// Result is a bill split among members. Amounts are whole in the currency's
// smallest unit and those of a split add up to Total exactly.
type Result struct {
	Plan  *optimise.Plan // the pooled order
	Total units.Money
	// Exact is true when every group was solved; false above [Options.Exact]
	// members, where only the groups in Groups were.
	Exact bool
	// Proven is false when time was up for the pooled order or for any group, so
	// that a cheaper one may exist.
	Proven bool

	Chosen Split   // the split asked for
	Splits []Split // every rule worked out, in the order of [Rules]

	Members []Member // by name
	Groups  []Group  // every group solved but that of all; by size, then names
	// Apart is what the cheapest set of separate orders comes to, when that is
	// less than the pooled order, with the groups that would order; see the
	// package comment for how that can be. Nil otherwise, and above
	// [Options.Exact] members.
	Apart *Apart
	// Hosts is what bringing everything to one site would cost, cheapest first and,
	// of equals, the site where most is placed; empty when there is only one site.
	Hosts []Host
}

// Member is what one member owns, pays and would pay.
type Member struct {
	Name   string
	Beds   []BedPart
	Used   []Used
	Litres units.Litres // placed, spare volume included
	Pays   units.Money
	// Alone is nil when there is no plan for its beds alone, or, where Proven is
	// false, when time was up before one was found.
	Alone *units.Money
	Saves *units.Money // against Alone; below 0 when it pays more
	// Leaving is what the others would pay more than now, all together, if this
	// member left; below 0 if they would pay less. Nil when they have no plan
	// without it or none was found in time, and for an only member.
	Leaving *units.Money
	Why     []optimise.Obstacle // what stands in the way of buying alone
	// Proven is false when a cheaper plan alone may exist.
	Proven bool
}

// BedPart is a member's share of a bed, 0 to 1.
type BedPart struct {
	Bed    *quotes.Bed
	Share  float64
	Litres units.Litres // placed, all of the bed's count, spare volume included
}

// Split is the bill split by one rule and tested.
type Split struct {
	Rule Rule
	Pays []units.Money // by member
	// Error is the standard error of each part, in money; nil for exact splits.
	Error []float64
	// Stable is true when no group tested would pay less by itself.
	Stable bool
	// Objections are the groups that would pay less by themselves, the most
	// first.
	Objections []Objection
	// Excess is the most that any group pays above its own cost before rounding;
	// at most 0 for a stable split, and 0 without groups.
	Excess float64
	Reason string // one sentence
}

// Objection is a group that would pay less by itself.
type Objection struct {
	Members []string
	By      units.Money // above 0
}

// Group is a group of members and what it would pay by itself.
type Group struct {
	Members []string
	Cost    *units.Money // nil: it has no plan of its own, or none was found in time
	Pays    units.Money  // in the chosen split
	Proven  bool
}

// Unsettled reports that time was up before any plan was found, so that it is
// not known whether the group has one.
func (g Group) Unsettled() bool { return g.Cost == nil && !g.Proven }

// Apart is separate orders that come to less than the pooled one.
type Apart struct {
	Orders [][]string // the members of each order
	Total  units.Money
}

// Host is one site that takes delivery for all.
type Host struct {
	Site    string
	Members []string     // those with beds there
	Total   *units.Money // nil: suppliers cannot bring everything there, or, unless Proven, none was found in time
	// Saves is what this is cheaper than delivery to each bed's own site; below 0
	// when dearer. Carrying goods on from there is not priced.
	Saves  *units.Money
	Proven bool
}

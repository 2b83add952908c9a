package cues

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"mediabuy/quotes/internal/lazy"
)

func TestCues(t *testing.T) {
	for _, c := range []struct {
		name    string
		re      *lazy.Expr
		yes, no []string
	}{
		{"somebody else", OthersSay, []string{"the guy across town has it for 40", "i saw it for 40"}, []string{"i have it for 40"}},
		{"an offer to somebody else", ToOthers, []string{"to your neighbour: lava $40"}, []string{"to your gate: $40"}},
		{"said before", SaidBefore, []string{"i told him $40"}, []string{"i can do $40"}},
		{"from a day on", FromThen, []string{"from 1 june it will be $44", "goes up to $44 on june 1"}, []string{"good until 1 june"}},
		{"taken back", Correction, []string{"sorry, make that 44", "scratch that"}, []string{"sorry for the rain"}},
		{"another number in its place", NotThat, []string{"44 not 40"}, []string{"44, not washed"}},
		{"not to be had", GoneBehind, []string{"(out of stock)", ", sold out", "they're all gone", "but it's promised to a neighbour", "but bulk is out until April"}, []string{", sold by the yard", ", out of the north pit", "not available mondays"}},
		{"about what stands in front", ItFirst, []string{"it's gone", "but those are gone"}, []string{"item gone"}},
		{"on top", AddsOn, []string{"plus $2 a ton royalty"}, []string{"$2 a ton"}},
		{"a count and no amount", Measured, []string{" bags", "%", " miles", " days"}, []string{" flat", ", delivered"}},
		{"what buying so many does", BuysWord, []string{"if you take ", "from ", "at "}, []string{"with ", "the nice "}},
		{"a fee for each load", LoadBehindIt, []string{" a load", " per trip", "/run"}, []string{" a bag", " per order"}},
		{"a value of goods", FreeBefore, []string{"free over ", "orders over "}, []string{"it is "}},
		{"no order below", LeastBefore, []string{"min. order for delivery ", "orders under "}, []string{"orders of "}},
		{"all who were named", AllSellers, []string{"all of them", "both"}, []string{"all of it"}},
		{"all that stands before", AllWords, []string{"minimum of either", "3 yards on each"}, []string{"3 yards each day"}},
		{"a load of goods", MostOfLoad, []string{"freight per truck (max, "}, []string{"freight (max. "}},
		{"orders and no charges", OfOrders, []string{"min order"}, []string{"min charge"}},
		{"another fee", AnotherFee, []string{"60 to bring it"}, []string{"60 to you"}},
		{"shut until then", ShutBefore, []string{"closed ", "away then "}, []string{"good "}},
		{"several suppliers", SeveralOffers, []string{"three quotes so far"}, []string{"three yards"}},
		{"nothing is denied", DeniesNothing, []string{" matter how many", " want to start up for less than 2"}, []string{" sold"}},
		{"still to come", ReadySaid, []string{"lands on 1 june", "next shipment"}, []string{"good until 1 june"}},
		{"the price of a unit", UnitPriceNext, []string{" $22.75 a ton"}, []string{" $5", " 2 a ton"}},
		{"a limit", LimitBefore, []string{"min ", "up to "}, []string{"lava "}},
		{"so many for a price", StepsBefore, []string{"quantity discount: ", "price breaks: 5 yards $8.40, ", "volume terms on the bags - "}, []string{"quantity discount, ", "we sell "}},
		{"in stock", HadBefore, []string{"have only "}, []string{"need "}},
		{"another end", EndBefore, []string{"three to "}, []string{"goes to you "}},
		{"how it is packed", FormFirst, []string{"- loose, by tipper", "bulk bags:"}, []string{"lava, loose"}},
		{"the same price, of another", SameToo, []string{" is the same price", ": same price", " costs the same"}, []string{" would be about the same price", " is the same"}},
		{"the same price", SamePrices, []string{" is the same price"}, []string{" is 40, the same price"}},
		{"one price for both", ForBoth, []string{"both are", "either is"}, []string{"bothered"}},
		{"where somebody asked", WentThere, []string{"i stopped at low ford and the guy says"}, []string{"i stopped at low ford", "the guy says"}},
		{"bounds a time", UntilWords, []string{"till may"}, []string{"the tiller"}},
	} {
		for _, s := range c.yes {
			assert.True(t, c.re.MatchString(s), "%s: %s", c.name, s)
		}
		for _, s := range c.no {
			assert.False(t, c.re.MatchString(s), "%s: %s", c.name, s)
		}
	}
}

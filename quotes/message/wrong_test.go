package message

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestWhatMustNotEnter reads messages whose numbers are easily taken for others. cells are what each row may hold under
// the column at hand: a wrong number is worse than none.
func TestWhatMustNotEnter(t *testing.T) {
	for _, c := range []struct {
		name, text, column string
		cells              []string
	}{
		{"a line of tax", "Low Ford Quarry\nPumice 3/8 in, $52 a yard\nSales tax: $22.44\n", "price", []string{"$52"}},
		{"tax with its rate", "Pumice 52.00 a yard\nTax (8.25%) 4.29\n", "price", []string{"52.00"}},
		{"tax with its pack", "Pumice in 50 L bags\nSales tax 4.29\n", "price", []string{}},
		{"an amount of tax", "Pumice 68 a yard, $5.61 tax", "price", []string{"68"}},
		{"tax that is in the price", "Pumice $68 a yard tax included", "price", []string{"$68"}},
		{"a fee of one of two", "Low Ford Quarry has pumice at $52 a yard, $90 to deliver. High Fell Stone has lava at $61 a yard and delivers free from either place.", "delivery", []string{"", ""}},
		{"a fee behind a second name", "Low Ford Quarry\npumice $52 a yard\nHigh Fell Stone\nlava $61 a yard\ndelivery $90", "delivery", []string{"", ""}},
		{"rows of two names", "Low Ford Quarry\npumice $52 a yard\nHigh Fell Stone\nlava $61 a yard", "supplier", []string{"", ""}},
		{"free from a value of one", "Low Ford says pumice 52 a yard plus $90 to deliver; High Fell has lava for 61 a yard, free delivery over $400", "free_over", []string{"", ""}},
		{"what a pallet costs to send", "Perlite: 100L £16.50\nClay: 45L £13.20 or two for £25\nPostage £6 per bag or £40 a pallet\nTamarack Nursery", "price", []string{"£16.50", "£13.20"}},
		{"labelled", "Low Ford Quarry: pumice $52 a yard, delivery $90\nHigh Fell Stone: lava $61 a yard, delivers free", "delivery", []string{"$90", "0"}},
		{"one supplier of two media", "Low Ford Quarry has pumice at $52 a yard and lava at $61 a yard. Delivery $90.", "delivery", []string{"$90", "$90"}},
		{"a grade of perlite", "Perlite #3, 4 cu ft bags, $28 each", "size", []string{""}},
		{"a grade of what is not known", "Vermiculite #2 $31 per 4 cu ft bag", "size", []string{""}},
		{"a stone number", "Pea gravel #8, $40 a yard", "size", []string{"#8"}},
		{"a number behind a least order", "Pea gravel, 20 a yard, three yard minimum 44", "min_qty", []string{""}},
		{"a fraction below a price", "Crushed concrete 3/4 in ..... 29\n\n1/2 yard minimum", "price", []string{}},
		{"cash and card", "lava $91 a yard cash, $94 if you use a card", "price", []string{""}},
		{"brought and fetched", "lava $91 a yard delivered, $78 collected", "price", []string{""}},
		{"a surcharge", "lava $91 a yard\nDelivery $95. Fuel surcharge $15 per delivery.", "delivery", []string{""}},
		{"loose beside bags", "pea gravel bulk bag 850 kg £49\nloose pea gravel £39/t", "form", []string{"sack", "bulk"}},
		{"the same size", "granite £61 a bulk bag, 800 kg. Gravel £47 same size bag.", "pack", []string{"800 kg", "800 kg"}},
		{"grains and no packs", "Expanded clay 10-20, £89/m3 loose", "breaks", []string{""}},
		{"grains one behind the other", "Basalt chippings 8-11: 31 €/t, 11-16: 29 €/t", "breaks", []string{"", ""}},
		{"a ton of Europe", "gravel €46 a ton", "pack", []string{"1 tonne"}},
		{"Swiss francs", "foam glass 58.- per m3 from 20 m3, 64.- below 20 m3", "price", []string{"64"}},
		{"the first yards", "pumice $88/yd\ndelivery 110 first 5 yds, 15 ea. add'l yd", "price", []string{"$88"}},
		{"loads brought and stone fetched", "Limestone 20 mm 10 t load £36/t\nLimestone 20 mm 20 t load £29/t\nCollected the price is £21/t", "price", []string{""}},
		{"a load beside a price", "granite $46 t. 14 t loads $150", "price", []string{"$46"}},
		{"loads alone", "granite 3/4 in, 14 t loads $150", "price", []string{}},
		{"a price by one unit in packs of another", "foamed glass is $4.10 per cubic foot in one-yard totes", "price", []string{}},
		{"the end of a range", "expanded shale 3/8 x #8 $149 a yard", "size", []string{""}},
		{"post free from a value", "perlite 10 L £4.99\nP&P £6.95 (orders over £75 post free)", "delivery", []string{"£6.95"}},
		{"the form of the next yard", "1) Blue Mesa Rock: lava $84/yd\n2) Tin Roof Nursery: bags only. 2 cf lava $15.75", "form", []string{"", "bag"}},
		{"the most that a truck takes", "granite 47/ton, haul 95 (max 12t)", "delivery", []string{""}},
		{"two mails", "From: a@basaltpoint.example\nlava $89 a yard, delivery $95\nBasalt Point Stone\n\n-----\nFrom: b@dustyfork.example\nlava $85 a yard, delivery $120\nDusty Fork Supply", "supplier", []string{"Basalt Point Stone", "Dusty Fork Supply"}},
		{"a number that begins with its point", "lava .5 CF $5.97\npea gravel  .5 CF  $4.98", "pack", []string{"0.5 cu ft", "0.5 cu ft"}},
		{"small letters name the yards", "sandy's: perlite 4cf $27\ngarden barn: perlite 4cf $25.99, del $20", "delivery", []string{"", "$20"}},
		{"the least charge for delivery", "shale $152 a yard. Freight is $6.50 per yard with a 10 yard minimum charge.", "min_qty", []string{""}},
		{"the least charge in money", "lava $95 a yard, min charge 50", "min_qty", []string{""}},
		{"a list price beside a net one", "Item,Unit,List,Net\nlava,yd,90,80\npumice,yd,110,99", "price", []string{"80", "99"}},
		{"a pallet's delivery", "lava £11.20 per 20L bag, pallet of 50 bags £475 plus pallet delivery £58", "delivery", []string{""}},
		{"the most of a load", "limestone £31 per tonne\nHaulage per load £65.00 (max 16 tonnes)", "max_qty", []string{""}},
		{"the least of haulage", "granite $58/t\ncartage $16/t, min 8t", "min_qty", []string{""}},
		{"a day of one price", "lava 2 cu ft $16.99 thru May 31 2026\npea gravel 50 lb $5.49", "valid_until", []string{"2026-05-31", ""}},
		{"two mails, one with no name", "From: a@basaltpoint.example\nlava $89 a yard\n\nFrom: b@dustyfork.example\nlava $85 a yard\nDusty Fork Supply", "supplier", []string{"", "Dusty Fork Supply"}},
		{"a measure to compare by", "pumice in 40 lb bags, $4.80 a bag, that's $.12 a pound", "price", []string{"$4.80"}},
		{"a correction", "perlite 4 cu ft $31.50. Sorry, make that 34, I was looking at the old list.", "price", []string{""}},
		{"a thing behind the word offer", "Our offer: Steinton 8-16 mm, Big Bag 1 m3: 145,00 EUR", "supplier", []string{""}},
		{"a correction with its unit", "lava is 90 a yard. Sorry, I meant 95 a yard.", "price", []string{"95"}},
		{"what a block makes", "coir block 5 kg (makes 75 L) $13.50", "pack", []string{"5 kg"}},
		{"hours and no day", "lava $88 a yard. Open 7-4.30, Sat to 12", "valid_until", []string{""}},
		{"the day of a quote", "Quoted 4/20: lava $92/yd", "size", []string{""}},
		{"a surcharge in percent", "lava $97.50/yd. Delivery 70. Fuel surcharge 4% on delivered loads.", "delivery", []string{""}},
		{"miles past the first", "lava 90 a yard. Delivery 80 up to 10 miles, then 3 a mile.", "delivery", []string{""}},
		{"in the store and not", "perlite 2 cu ft is $17.49 online, $18.99 in the store", "price", []string{""}},
		{"in place of", "lava 8/16, instead of 48.00 now 43.50 EUR per m3", "price", []string{"EUR 43.50"}},
		{"another price behind it", "lava is 88 a yd but for you 85", "price", []string{""}},
		{"a price of later", "lava 43.50 EUR/m3 until 30 June, then 45.00 EUR/m3", "price", []string{"EUR 43.50"}},
		{"a price of a later day", "Clay balls 40 L 11,90 EUR, and from 1.9.2026 clay balls will be 12,90 EUR", "price", []string{"EUR 11.90"}},
		{"a price that goes up", "Pumice is $84 a yard, lava goes up to $99 a yard on June 1.", "price", []string{"$84"}},
		{"a price from now to a day", "Lava is $84 a yard from now to June 1.", "price", []string{"$84"}},
		{"a letter to somebody", "Mrs. Oduya: lava (3/8 in) at $90 a yard; pumice (3/8 in) at $120 a yard. Regards, Piet Lindqvist, Gannet Cove Stone", "supplier", []string{"Gannet Cove Stone", "Gannet Cove Stone"}},
		{"a house in a yard", "Lava 50 L bag $9.\n\nGlenholm Reclaim, 7 Cooper Yard", "supplier", []string{""}},
		{"what somebody is", "Lava $90 a yard.\n\nVery truly yours,\nTam Pell, Estimator\nPell & Marsh Paving Stone", "supplier", []string{"Pell & Marsh Paving Stone"}},
		{"a title of goods", "Aqua Hydro Mix Pebbles 8-16mm - 50 Liter Bag\n$31.40\n\nShips in two days from Otter Pond Hydroponics", "supplier", []string{"Otter Pond Hydroponics"}},
		{"a word of talk in a name", "Anvil Rock & Mulch: lava $97/yd, delivery $60/load, 8 yds a load\nBroken Spoke Stone: lava $91/yd, delivery $75/load, 12 yds a load", "supplier", []string{"Anvil Rock & Mulch", "Broken Spoke Stone"}},
		{"numbers in front of firms", "Two so far.\n\n1) Fallow Lane Garden Centre\nPumice 40 L £18 per bag. Delivery £6. \n\n2) Otter Wharf Supplies\nPumice 40 L £15 per bag, plus 20% VAT. Carriage £24.", "tax", []string{"", "20%"}},
		{"a price of the fewest behind one of more", "lava, 20 a yard over 5 yards 44, 3 yards or more 17, three yard minimum", "price", []string{""}},
		{"where in the house somebody sits", "Lava rock in 0.5 cu ft bags is $6.75.\n\nBest,\nCormac, Aisle 9\nThistle Gate Home & Garden", "supplier", []string{"Thistle Gate Home & Garden"}},
		{"how totes come", "Low Ford Quarry: shale $139 per tote of 1 cubic yard. Loose shale is $112 per cubic yard. Totes ride on the flatdeck at $20 per tote.", "price", []string{"$139", "$112"}},
		{"what one trip does", "Low Ford Quarry: lava rock 135 a yard. 50 for delivery, one trip does 5 yards.", "delivery", []string{""}},
		{"a place behind which the firm stands", "Hello, this is Nerida from the produce store, Coolibah Feeds. Shell grit in 20 kg bags for $16.80.", "supplier", []string{""}},
		{"a stop between a price and a fee", "45L bags of clay pebbles £11 each. Delivery £10. Tan Lane Growers", "price", []string{"£11"}},
		{"a stop between a short each and a fee", "45L bags of clay pebbles £11 ea. Delivery £10. Tan Lane Growers", "delivery", []string{"£10"}},
		{"kisses", "Hiya, clay pebbles 50L are £24.99 a bag. ta, Bev at Potting Shed Corner x", "supplier", []string{"Potting Shed Corner"}},
		{"a legal form in capitals", "THICKET AGGREGATES, INC.\nLava $60 a yard", "supplier", []string{"THICKET AGGREGATES, INC"}},
		{"three for two", "lava, 20 a yard, 3 for 2 and up", "breaks", []string{""}},
		{"dots that go on", "lava, 20 a yard. pumice, 20 a yard, ... min 2 yards", "min_qty", []string{"", "2"}},
		{"a firm that is called by a title", "Mrs. Oduya's Garden Supply: lava $90 a yard", "supplier", []string{"Mrs. Oduya's Garden Supply"}},
		{"a tax that prices include", "lava $90 a yard\npumice $120 a yard\nThese include the state's 6% sales tax.", "tax", []string{"", ""}},
		{"colours of zones", "Perlite 4 cu ft $26 a bag. Zone map: green $15, red $40.", "price", []string{"$26"}},
		{"colours of stone", "Lava $90 a yard. Red $95, black $99.", "price", []string{"$90", "$95", "$99"}},
		{"a truck and what its box holds", "Lava 3/4 in at $90 a yard. Pumice at $64 a yard. Truck at $95, it's a ten yard box.", "pack", []string{"1 yd3", "1 yd3"}},
		{"a truck at an hour", "Lava $90 a yard. Be here with the truck at 8.", "delivery", []string{""}},
		{"the weight of one colour", "Red lava $90 a yard, black lava $95 a yard. The black lava has 900 kg/m3.", "density", []string{"", "900 kg/m3"}},
		{"a firm with a doctor's name", "Dr. Birch Aggregates, lava $90 a yard, delivery $50", "supplier", []string{"Dr. Birch Aggregates"}},
		{"so many yards at so much each", "Lava, seven yards at $90 each. Truck at $95.", "price", []string{}},
		{"a sign of money behind dots", "Crushed lava .......... £74 a bulk bag of 1 m3\nPea gravel ............ £61 a bulk bag of 1 m3", "price", []string{"£74", "£61"}},
		{"a truck behind a price", "pumice 114, $75 truck", "price", []string{}},
		{"a pallet's price behind a stroke", "marble chips 0.5 cu ft $7.49 each / $419.44 per pallet of 64", "breaks", []string{""}},
		{"the size of another price", "basalt chips: $52/ton. Sorry about that, the 56 is for the 1/2 inch.", "size", []string{""}},
		{"the size of the next price", "So for the hydro marbles: sack of 100 L $19.50. Pumice 8-16 mm in sack of 33 L $9.90.", "size", []string{"", "8-16 mm"}},
		{"a person with a title behind the firm", "Lava 8/16 mm: 41 € per ton\n\nGreetings\nKiesgrund Almersbach, Frau Tammen", "supplier", []string{"Kiesgrund Almersbach"}},
		{"persons behind numbered firms", "Rang round. Lou\n\n1) Otter Rock & Mulch (Gary)\n   Lava $97/yd. 7% tax added.\n\n2) Pond Lane Hydro (girl at the desk)\n   Perlite 4 cu ft bag $34.00. Tax is included.", "tax", []string{"7%", ""}},
		{"half a cubic foot, and no price of one for two", "marble chips 1/2 cu ft bags 6.95", "price", []string{"6.95"}},
		{"what so many cost", "For 60 bags of the pumice, 50 L, washed, we can do $24.50 a bag.", "price", []string{}},
		{"what so many bags hold", "For the pumice, 50 L, we ask $24.50 a bag.", "price", []string{"$24.50"}},
		{"bringing what is loose", "lava 0.5 cu ft bags $7 each. loose i bring it over, 45 bucks", "price", []string{"$7"}},
		{"free for so many", "Low Ford Quarry: pumice £18 per 40 L bag. Four or more bags, delivery is on us.", "delivery", []string{""}},
		{"free whatever is bought", "Low Ford Quarry: pumice £18 per 40 L bag, delivery is on us.", "delivery", []string{"0"}},
		{"what else is brought", "Low Ford Quarry\nlava $90 a yard\nbark $32 a yard delivered", "delivery", []string{"", ""}},
		{"sizes in one column, units in the next", "pumice  3/8      yd 119   half yd 66\npumice  3/4      yd 109   half yd 61", "price", []string{"119", "66", "109", "61"}},
		{"out of stock behind a price", "Low Ford Quarry\nLava 20 L bag £12 (sold out, back in May)\nPumice 20 L bag £13", "price", []string{"£13"}},
		{"spoken for, in a sentence of its own", "Low Ford Quarry: pumice $90 a yard, lava $80 a yard. It's spoken for.", "price", []string{"$90"}},
		{"another that is not to be had", "Low Ford Quarry: lava $80 a yard. Pumice is out of stock. Delivery $50, not available Mondays.", "delivery", []string{"$50"}},
		{"a charge on top, if somebody hauls", "Low Ford Quarry: lava $80 a yard if you haul it yourself. If we haul it that's $10 a yard on top.", "price", []string{"$80"}},
		{"a price with the hauling in it", "Low Ford Quarry: lava $80 a yard. If we truck it out it's $95 a yard.", "delivery", []string{""}},
		{"what somebody can get", "Low Ford Quarry: lava $80 a yard, pumice I can get at $84 a yard.", "price", []string{"$80", "$84"}},
		{"land that stone comes off", "We dig the gravel off our own land. It's $40 a yard.\nLow Ford Quarry", "price", []string{"$40"}},
		{"a yard that is called by a number", "this is lou at Yard 12. lava 38 a yard", "supplier", []string{"Yard 12"}},
		{"a number behind which a price may stand", "this is lou at Yard 12 lava a bag", "supplier", []string{}},
		{"who is here", "Hi Nan, Pell & Marsh here. Lava $80 a yard.", "supplier", []string{"Pell & Marsh"}},
		{"an owner who is here", "Hi Nan, Annie's here. Lava $80 a yard.", "supplier", []string{"Annie's"}},
		{"a person who is here", "Hi Nan, Lou Annis here. Lava $80 a yard.", "supplier", []string{""}},
		{"a road behind whom somebody called", "called Pell's on Route 7 weds, spoke to the son. lava 80 a yard", "supplier", []string{"Pell's"}},
		{"days in front of whom somebody called", "Mon - Pell Stone. Lava 36 a yard.\nTue - Marsh & Sons. Lava 39 a yard. 60 flat to bring it.", "supplier", []string{"Pell Stone", "Marsh & Sons"}},
		{"numbered texts", "text 1, Pell Stone: \"lava 36 a yard\"\ntext 2, Low Ford Quarry: \"lava 39 a yard. delivery 35\"", "delivery", []string{"", "35"}},
		{"yards that are bagged too", "shale, it's $84 a yard for the half inch, and we have it bagged too", "form", []string{""}},
		{"bags that go by lorry", "Tonne bags of lava are £190 each. They have to go on a pallet lorry, £55 a bag.", "price", []string{"£190"}},
		{"a pallet with its number behind a stroke", "pumice 3/8\" 1/2 cf bag 6.95 (pallet/70 5.80), yard 134", "breaks", []string{"70: 5.80", ""}},
		{"a test of another size", "Lava 3/8\" is $60 a yard, 3/4\" is $58. Both come off the same bank and I did the vinegar test on the 3/8, no fizz at all.", "carbonate", []string{"", ""}},
		{"a test of them all", "Lava 3/4\" is $58 a yard. It comes off the same bank and I did the vinegar test on the 3/4, no fizz at all.", "carbonate", []string{"none"}},
		{"one price beside that of several", "pumice 40 L bags, $5.50 or 4 for $20", "price", []string{"$5.50"}},
		{"a name that is whole below", "Thanks for calling Reed's. Lava 40 L bags, $9.\n\nReed's Home & Patio", "supplier", []string{"Reed's Home & Patio"}},
		{"how coarse it is", "Perlite, coarse 100 L bag: 24.00", "item", []string{"Perlite, coarse"}},
		{"freight by the bag", "Pumice 50 L bag $42.00. Freight to you is $120 per pallet or $18 a bag.", "price", []string{"$42.00"}},
		{"a pallet in a line of its own", "Pallet of 40 bags oyster shell, $19.00 per bag", "price", []string{}},
		{"a list of fees", "Lava 3/4 in $90 a yard\n\nDelivery fees\n1 to 5 yards $60\n6 to 10 yards $90", "price", []string{"$90"}},
		{"a list of prices", "Lava 3/4 in, by the yard\n1 to 5 yards $60\n6 to 10 yards $50", "price", []string{"$60"}},
		{"a size with its fines in front of a price", "Low Ford Quarry\nCrushed granite: 3/4\" minus $22.75 per ton, 3/4\" clean $28.10 per ton", "size", []string{"3/4 in minus", "3/4 in"}},
		{"a discount behind a size", "Low Ford Quarry: lava 3/4\" minus $5", "size", []string{}},
		{"the same size of what is sold loose", "Low Ford Quarry: red lava 3/4\" is $92 a yard and the black is $98, same size.", "size", []string{"3/4 in", "3/4 in"}},
		{"steps of all, one priced like the one before", "Low Ford Quarry: lava $45 a yard and the black is $50. Pumice $46 a yard. We load in half yards.", "step", []string{"0.5", "0.5", "0.5"}},
		{"a price at so many", "Low Ford Quarry: lava 118 /yd, 110 /yd at 6 yds, 104 /yd at 12.", "breaks", []string{"6: 110; 12: 104"}},
		{"a price at an hour", "Low Ford Quarry: lava $118 a yard at 10 tomorrow", "breaks", []string{}},
		{"two questions in one line of a chat", "[9:14] Me: hi is this Annie's Rock Lot? how much is lava\n[9:20] Annie's Rock Lot: yes it is. 88 a yard for 3/4 red", "medium", []string{"lava rock"}},
		{"before which it is not to be had", "Low Ford Quarry: lava $96/yd, not available before June 12, 2026", "ready_by", []string{"2026-06-12"}},
		{"amounts with cents behind a size", "Low Ford Quarry. Lava, 1/2 inch plus, 71.50 yard. Pea gravel 41 yard no minimum.", "price", []string{"71.50", "41"}},
		{"so many yards behind a comma", "Low Ford Quarry. Lava, 71 yards. Pea gravel, 41 yards.", "price", []string{}},
		{"a minimum of one of two", "Low Ford Quarry. Lava $71 a yard. 3 yard minimum on that one. Pea gravel $41 a yard.", "min_qty", []string{"3", ""}},
		{"if somebody has a trailer", "Low Ford Quarry: lava is £52 per bulk bag (850kg) or £38 a tonne loose if you've a trailer.", "price", []string{"£52", "£38"}},
		{"a fee to have it brought", "Low Ford Quarry: lava $41 a yard. If you want it brought out it's a $30 charge.", "delivery", []string{"$30"}},
		{"a flat fee to bring it", "Low Ford Quarry: lava 41 a yard, 10 or more 38. $50 flat to bring it.", "delivery", []string{"$50"}},
		{"sold in full pallets", "Otter Wharf Supplies. Clay balls 50 L bags are sold in full pallets, 30 bags a pallet, $33.00 per bag.", "step", []string{"30"}},
		{"also sold in full pallets", "Otter Wharf Supplies. Clay balls 50 L bags $33.00, also sold in full pallets.", "step", []string{""}},
		{"by the pallet, and what stands on each", "Otter Wharf Supplies. Clay balls go by the pallet only: 40 bags of 50 litres on each, $27 a bag.", "step", []string{"40"}},
		{"a rival's name beside our own price", "Low Ford Quarry. I know Tamarack Rock quoted you $90 on lava. Pumice $46 a yard, pea gravel $40 a yard.", "supplier", []string{"Low Ford Quarry", "Low Ford Quarry"}},
		{"packs below a size", "Granite 10mm\n - bulk bag 850 kg 62.00\n - 20 kg bag 3.95\nGranite 20mm\n - bulk bag 850 kg 59.50", "size", []string{"10 mm", "10 mm", "20 mm"}},
		{"packs behind an empty line", "Granite 10mm\n - bulk bag 850 kg 62.00\n\n20 kg bag 3.95\n\nGranite 20mm\n - bulk bag 850 kg 59.50", "size", []string{"10 mm", "", "20 mm"}},
		{"where somebody asked", "I stopped at Low Ford Quarry and the guy says the 3/4 lava is $90 a yard.", "price", []string{"$90"}},
		{"what another man says", "The guy down the road says the 3/4 lava is $90 a yard.", "price", []string{}},
		{"somebody else's", "coir block 5 kg £8.25. I see the garden centre has them at £6.99 but those are 4 kg.", "price", []string{"£8.25"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			p, err := Parse(c.text, Options{Delivery: true})
			require.NoError(t, err)
			requireSound(t, p)
			got := []string{}
			for i := range p.Rows {
				got = append(got, p.Rows[i].Text(c.column))
			}
			assert.Equal(t, c.cells, got, summary(p))
		})
	}
}

// TestPackedWithDoubt gives a medium no word for how it is packed that stands behind a price which may be of the medium before.
func TestPackedWithDoubt(t *testing.T) {
	for _, between := range []string{"\n", ", ", "; "} {
		p, err := Parse("red lava, members only, members only, 20 a bag, 50 L bags"+between+"members only pumice, members only, 20 a yard", Options{})
		require.NoError(t, err)
		requireSound(t, p)
		for i := range p.Rows {
			row := &p.Rows[i]
			assert.False(t, row.Text("pack") == "1 yd3" && row.Text("form") == "bag", summary(p))
		}
	}
}

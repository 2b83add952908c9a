package message

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestTalkOfSteps reads prices from so many on under a head, and those of which each is said of a size.
func TestTalkOfSteps(t *testing.T) {
	for text, want := range map[string]string{
		"Low Ford Quarry\nLava $88 a yard\nQuantity discount: 5 yards $84.00":                                                         "0 price=$88; 0 breaks=5: $84.00",
		"Low Ford Quarry\nLava 40 lb bags $9 each\nVolume prices: 20 bags $8.40":                                                      "0 price=$9; 0 breaks=20: $8.40",
		"Low Ford Quarry. Lava is $88 a yard, 10 yards or more $81. Pumice is the same price.":                                        "1 medium=pumice; 1 price=$88; 1 pack=1 yd3; 1 breaks=10: $81",
		"Low Ford Quarry. Lava is $88 a yard. Pumice would be about the same price. Basalt is $60 a yard.":                            "1 medium=crushed basalt",
		"Low Ford Quarry. Lava is $88 a yard or $9 for a 40 lb bag. Pumice is the same price. Basalt is $60 a yard.":                  "2 medium=crushed basalt",
		"Low Ford Quarry. Lava is $88 a yard. Pumice bags are the same price. Basalt is $60 a yard.":                                  "1 medium=crushed basalt",
		"Low Ford Quarry. The 57 limestone is $40 per yard, 67 granite $44 per yard.":                                                 "0 size=#57; 0 price=$40; 1 size=#67; 1 price=$44",
		"Low Ford Quarry. Granite $57 limestone $60, per yard. Lava 57 pumice 60.":                                                    "0 size=; 1 size=",
		"Low Ford Quarry. Lava is $88 a yard. At 10 yards and up we go down to $81.":                                                  "0 price=$88; 0 breaks=10: $81",
		"Low Ford Quarry. Lava is $88 a yard, 3/4 inch. Pumice is $94 a yard, 1 inch.":                                                "0 size=3/4 in; 1 size=1 in",
		"Low Ford Quarry\nLava 40 lb bags $9 each. We sell 20 bags $140.":                                                             "0 price=$9; 0 breaks=",
		"Low Ford Quarry\nLava 40 lb bags $9 each. A full pallet is 50 bags and comes to $8.20 a bag.":                                "0 price=$9; 0 breaks=50: $8.20",
		"Low Ford Quarry\nLava 8-16 mm, 50 L bag: £9.00\nLava 4-8 mm, 50 L bag: £9.60\nfrom 30 bags: £8 (8-16 mm) and £8.40 (4-8 mm)": "0 breaks=; 1 breaks=",
	} {
		wantCells(t, text, want)
	}
}

// TestAskOfSteps asks about a lower price whose number of packs names what they are of again, and about no price where the number of a grade
// is all there is.
func TestAskOfSteps(t *testing.T) {
	for text, want := range map[string][]string{
		"Low Ford Quarry\nLava 40 lb bags are $9 each. 3 or more lava bags are $8 each.":                      {"$8 from 3 on"},
		"Low Ford Quarry\nLava 40 lb bags are $9 each. 3 or more pumice bags are $8 each.":                    {"$8 for a bag"},
		"Low Ford Quarry\nThe good limestone at gate 57 is $40 per yard and the #8 river gravel is a secret.": {"$40 for 1 yd3"},
	} {
		p, err := Parse(text, Options{Delivery: true})
		require.NoError(t, err)
		requireSound(t, p)
		var got []string
		for _, q := range p.Asked {
			got = append(got, q.Readings[0].Label)
		}
		assert.Equal(t, want, got, text)
	}
}

// TestTalkOfOthers reads by whom and of what something is said: a size with the pack in front of it, what both of two yards say, who
// called, and to whom a letter goes.
func TestTalkOfOthers(t *testing.T) {
	for text, want := range map[string]string{
		"Phone call with Low Ford Sand & Gravel, 4 May\n10 mm pea gravel: £36 a tonne loose\n20 mm: £34 a tonne\none tonne bags of the 10 mm: £68":                                                   "0 form=bulk; 1 form=; 1 price=£34; 2 form=sack; 2 pack=1 tonne; 2 size=10 mm; 2 supplier=Low Ford Sand & Gravel",
		"Low Ford Quarry: lava $88 a yard.\nHigh Fell Stone: lava $84 a yard.\nBoth said prices are good until 5/31/2026.":                                                                           "0 valid_until=2026-05-31; 1 valid_until=2026-05-31",
		"Reply #1 (web form), Low Ford Quarry:\nLava $88 a yard. Valid until 5/31/2026.\n\nReply #2 (web form), High Fell Stone:\nLava $84 a yard.":                                                  "0 supplier=Low Ford Quarry; 0 valid_until=2026-05-31; 1 supplier=High Fell Stone; 1 valid_until=",
		"Low Ford Quarry has lava at $88 a yard. Also High Fell Stone texted, lava is $84 a yard.":                                                                                                   "0 supplier=Low Ford Quarry; 1 supplier=High Fell Stone",
		"Text from Kit at Low Ford Quarry: \"lava is $88 a yard\"\n\nText from Tam, High Fell Stone: \"lava is $84 a yard\"":                                                                         "0 supplier=Low Ford Quarry; 1 supplier=High Fell Stone",
		"LOW FORD QUARRY\nlava $88/yd\n\nHIGH FELL STONE\nlava $84/yd\n\nMARL LANE FEED\nthey only had straw":                                                                                        "0 supplier=LOW FORD QUARRY; 1 supplier=HIGH FELL STONE",
		"Seen on Saturday:\n\nLow Ford Quarry\n  lava 0.5 cf   6.99\n\nHigh Fell Stone\n  lava 0.5 cf   6.49\n  deliver $45 per trip\n\nBoth charge 7% tax.":                                         "0 supplier=Low Ford Quarry; 0 tax=7%; 1 supplier=High Fell Stone; 1 tax=7%; 10 supplier=High Fell Stone",
		"Thank you for your message to Low Ford Quarry! Somebody has replied:\n\nLava is $88 a yard.":                                                                                                "0 supplier=Low Ford Quarry",
		"Lava is $88 a yard.\n\nPell Brick & Block\nKit":                                                                                                                                             "0 supplier=Pell Brick & Block",
		"Low Ford Quarry\nFor: Pell Lane Nursery                Ref 118\n\nQty  Description           Price    Net\n4    Lava 40 lb bag          9.00    36.00\n1    Delivery         60.00   60.00": "0 supplier=Low Ford Quarry",
		"Low Ford Quarry. Lava is $88 a yard. If you want it bagged it's $9 for a 40 lb bag.":                                                                                                        "0 price=$88; 1 price=$9; 1 pack=40 lb",
	} {
		wantCells(t, text, want)
	}
}

// TestTalkOfTerms reads what bringing costs and what tax is on.
func TestTalkOfTerms(t *testing.T) {
	for text, want := range map[string]string{
		"Low Ford Quarry. Lava 40 lb bag $9, lava loose $88 a yard. Delivery within the county is $55 for bags and $75 for bulk.":                                   "10 order_fee=$55; 10 covers=bag; 11 order_fee=$75; 11 covers=bulk; 1 price=$88",
		"Low Ford Quarry. Lava $88 a yard. Delivery $60 flat. Tax of 6% applies to the stone and to the hauling.":                                                   "0 tax=6%; 10 order_fee=$60; 10 tax=6%",
		"Low Ford Quarry. Lava £88 a tonne. These prices don't include the VAT (20%) and are good until 30 June 2026.":                                              "0 tax=20%; 0 valid_until=2026-06-30",
		"Low Ford Quarry\n\nItem: lava 3/8\"\nPrice: $88/yd\nMinimum: 3 yd\n\nItem: pumice 3/8\"\nPrice: $94/yd\nMinimum: 3 yd":                                     "0 min_qty=3; 1 min_qty=3",
		"Low Ford Quarry\nPrices per ton:\n\n#8 limestone ....... 24.50\n#57 limestone ...... 23.00\n\nDelivery: loads up to 8 tons $85, loads up to 20 tons $150.": "0 price=24.50; 0 pack=1 ton; 1 price=23.00; 1 size=#57",
	} {
		wantCells(t, text, want)
	}
}

// TestTalkOfKinds reads what holds for one kind of pack, one of several sellers, or each of two sizes, and a pallet said once more.
func TestTalkOfKinds(t *testing.T) {
	for text, want := range map[string]string{
		"Low Ford Quarry. Lava loose $88 a yard, lava 40 lb bag $9.\n\nDelivery charges: $70.00 bulk (max 8 cu. yd.), $55.00 bagged.":           "0 price=$88; 1 price=$9; 10 covers=bulk; 10 load_fee=$70.00; 10 load_volume=8 yd3; 11 covers=bag; 11 order_fee=$55.00",
		"Marl Quarry: lava $88 a yard.\nFell Stone: lava $84 a yard.\nOtter Pit: lava $81 a yard.\n\nTax is 7% on top at Marl and Fell.":        "0 tax=7%; 1 tax=7%; 2 tax=",
		"Low Ford Quarry. We have the lava, 1/4 inch and 3/4 inch. Both 88 a yard.":                                                             "0 size=1/4 in; 0 price=88; 1 size=3/4 in; 1 price=88",
		"Low Ford Quarry. We have the lava, 1/4 inch and 3/4 inch, 88 a yard.":                                                                  "0 size=1/4-3/4 in",
		"Low Ford Feed. Lava 40 lb bag $9.00. Pallet is 50 bags, $8.20 each bag for the full pallet.":                                           "0 price=$9.00; 0 breaks=50: $8.20",
		"Low Ford Feed\nLava 40 lb bag: $9.00 (50 per pallet, $8.20 ea. by the pallet)\nPumice 20 lb bag: $8 (60 per pallet, $7 ea. by pallet)": "0 price=$9.00; 0 breaks=; 1 price=$8; 1 breaks=",
		"Low Ford Stone. Lava $33 a ton. Mulch is on sale, five bags for $15.":                                                                  "0 price=$33; 0 breaks=; 0 pack=1 ton",
		"Low Ford Stone. Lava $33 a ton. Delivery is $100 a load, 14 tons max.":                                                                 "0 price=$33; 10 load_fee=$100; 10 load_weight=14 tons",
		"Low Ford Stone. Lava $33 a ton. We deliver 1-5 tons for $60, 6-10 tons $85.":                                                           "10 load_weight=5 tons; 11 load_fee=$85; 11 load_weight=10 tons",
		"Low Ford Stone. Lava $88/yd. Delivery 50 for 3 yd truck, 80 for the 9 yd truck.":                                                       "10 load_volume=3 yd3; 11 load_fee=80; 11 load_volume=9 yd3",
		"Low Ford Stone\nLava £33 a tonne\nDelivered loads: 8 wheeler (18 tonne) £110, small tipper (6 tonne) £70":                              "10 load_fee=£70; 11 load_weight=18 tonne",
		"Low Ford Stone. Lava $88/yd. Quote's good for the month of May 2031.":                                                                  "0 valid_until=2031-05-31",
		"Low Ford Stone. Lava, I can do it at $88/yd. We also have bulk bags of it already filled, one yard each, $99.":                         "0 form=; 0 price=$88; 1 form=sack; 1 pack=1 yd3; 1 price=$99",
		"Hello, Otter's yard here. Lava £33 a tonne.":                                                                                           "0 supplier=Otter's yard",
		"Low Ford Supplies here re: the lava you asked about. Lava £33 a tonne.":                                                                "0 supplier=Low Ford Supplies",
		"Lava £33 a tonne.\n\nBest regards,\nTeam Low Ford Hydro":                                                                               "0 supplier=Low Ford Hydro",
		"voicemail from Kit, Low Ford Garden Center, 5/2 10:40am\n\nLava, 40 lb bag, $9.":                                                       "0 supplier=Low Ford Garden Center",
		"Product        Packaging      Price\nLava           Bag 50 L       $9.00\nPumice         Big bag 1 m3   $96.00\n\nLow Ford Hydro":      "0 pack=50 L; 0 form=bag; 1 pack=1 m3; 1 form=sack",
	} {
		wantCells(t, text, want)
	}
}

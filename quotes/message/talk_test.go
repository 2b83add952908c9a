package message

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// wantCells holds cells against what must stand in them, written "0 size=1-2 in; 1 price=": the number of the row, the heading, the
// text. A row of delivery.csv is counted from 10 on.
func wantCells(t *testing.T, text, want string) {
	p, err := Parse(text, Options{Delivery: true})
	require.NoError(t, err)
	requireSound(t, p)
	for one := range strings.SplitSeq(want, "; ") {
		row, cell, _ := strings.Cut(one, " ")
		n, err := strconv.Atoi(row)
		require.NoError(t, err)
		rows := p.Rows
		if n >= 10 {
			n, rows = n-10, p.Delivery
		}
		heading, value, _ := strings.Cut(cell, "=")
		require.Greater(t, len(rows), n, "%s\n%s", text, summary(p))
		assert.Equal(t, value, rows[n].Text(heading), "%s: %s\n%s", text, one, summary(p))
	}
}

// TestTalk reads what people say aloud or in talk.
func TestTalk(t *testing.T) {
	for text, want := range map[string]string{
		"Low Ford Quarry. Basalt is 71 a cubic metre for the 20 mil and 76 for the 10 mil.":                                                                                              "0 size=20 mm; 0 price=71; 1 size=10 mm; 1 price=76; 1 pack=1 m3",
		"Low Ford Quarry. Basalt 71 a cubic metre in 20 mil, 76 in 10 mil.":                                                                                                              "0 price=71; 1 size=10 mm; 1 price=76",
		"Low Ford Quarry. We can do 88 a yard on the 3/8 lava and 82 on the three quarter, the truck is 60 for the lot.":                                                                 "0 price=88; 0 size=3/8 in; 1 price=82; 1 size=3/4 in; 1 pack=1 yd3",
		"Low Ford Quarry. Lava 3/8 88 a yard, 3/4 82, delivery is 60 more.":                                                                                                              "0 price=88; 0 size=3/8 in; 1 price=82; 1 size=3/4 in; 1 delivery=60",
		"Low Ford Quarry\nlava 3/8 88/yd ; 3/4 82\npumice 3/8 94/yd":                                                                                                                     "0 price=88; 1 price=82; 1 size=3/4 in; 2 price=94",
		"Hello, Kit from Low Ford Quarry, the half inch lava is 88 a yard.":                                                                                                              "0 price=88; 0 supplier=Low Ford Quarry",
		"Kit (Low Ford Quarry): lava 3/4 is 88 a yard\nMe: great\nKit (Low Ford Quarry): delivery is 60 flat":                                                                            "0 price=88; 0 supplier=Low Ford Quarry; 0 delivery=60",
		"[Low Ford Quarry] Kit: lava 3/4 is 88 a yard\n[You] and pumice?\n[Low Ford Quarry] Kit: 94 a yard":                                                                              "0 price=88; 0 supplier=Low Ford Quarry; 1 price=94; 1 medium=pumice",
		"Kit (Low Ford Quarry): lava 3/4 is 88 a yard\nTam (High Fell Stone): lava 3/4 is 84 a yard, 60 to bring it":                                                                     "0 price=88; 0 supplier=Low Ford Quarry; 1 price=84; 1 supplier=High Fell Stone; 0 delivery=",
		"Web chat\nStore: Low Ford Feed\nCustomer: price on perlite please\nLou: 4 cu ft bag for $39\nCustomer: delivery?\nLou: that would be $55 flat":                                  "0 price=$39; 0 supplier=Low Ford Feed; 0 medium=perlite; 0 delivery=$55",
		"Live chat - Low Ford Supplies\n\nYou: Hello, do you sell pumice?\nJan: we do. 15 litre bags at $11\nYou: what size is it?\nJan: 5-10mm":                                         "0 price=$11; 0 size=5-10 mm",
		"Me 8:02a: do you have river rock 1 to 2 inch\nLou 8:40a: Yep 56 a yd\nMe 8:45a: any discount\nLou 8:52a: 52 a yd at 10 or more":                                                 "0 medium=river gravel; 0 size=1-2 in; 0 price=56; 0 breaks=10: 52",
		"Low Ford Garden Centre - messages\n\nTam: Do you have perlite?\nLow Ford Garden Centre: yes, 100 L bags, $21.\nTam: And clay pebbles?\nLow Ford Garden Centre: 40 L bags, $17.": "0 medium=perlite; 0 price=$21; 1 medium=expanded clay; 1 price=$17",
		"Low Ford Quarry. Lava in bulk: $90.00 per yard, less 10% for growers, so $81.00 to you.":                                                                                        "0 price=$81.00; 0 pack=1 yd3",
		"Low Ford Quarry. Lava in bulk: $90.00 per yard, less 10% for members, so $81.00.":                                                                                               "0 price=",
		"Low Ford Quarry. Lava in bulk: $90.00 per yard, less 10%, so $82.00.":                                                                                                           "0 price=",
		"Low Ford Quarry\nLava 50 L      list $22.00     net $18.70\nPumice 50 L      list $24.00     net $20.00":                                                                        "0 price=$18.70",
		"Low Ford Quarry. Lava, 40 L bag $17, $16 each in lots of 25 or more. Free delivery on 50 or more, otherwise $45.":                                                               "0 price=$17; 0 breaks=25: $16; 0 delivery=",
		"Low Ford Quarry. Lava, 40 L bag $17. On bags we go to $16 at 30.":                                                                                                               "0 price=$17; 0 breaks=30: $16",
		"Low Ford Quarry. Lava bags are 40 L, $17 each up to 24 bags, $16 from 25 to 99.":                                                                                                "0 price=$17; 0 breaks=25: $16",
		"Low Ford Quarry\nRiver gravel, 3/4\"\n  0 to 5 yards    $61/yd\n  6 to 11 yards    $57/yd\nBasalt, 3/4\"\n  any quantity    $55/yd":                                             "0 price=$61; 0 breaks=6: $57; 1 price=$55; 1 medium=crushed basalt",
		"Low Ford Quarry. Clay pebbles, 8 to 16 millimeter, 50 L bag $35.":                                                                                                               "0 size=8-16 mm",
		"Low Ford Quarry\nlava 8-16 mm, washed and clean, $52 per m3 loose or tipped\nbig bag 8-16 mm, 1.25 m3, $88\nbag 8-16 mm, 20 L, $5.20":                                           "0 price=$52; 1 pack=1.25 m3; 1 price=$88; 2 pack=20 L",
		"Me: lava?\nLow Ford Quarry: 40 L bags, $9\nMe: can you deliver?\nLow Ford Quarry: Yes, $29.":                                                                                    "0 price=$9; 0 delivery=$29",
		"Low Ford Quarry. Pumice $13 for a 40 L bag. We also have a nice potting mix, $11 a bag.":                                                                                        "0 price=$13; 0 medium=pumice",
		"Low Ford Quarry. Pumice $13 for a 40 L bag. We also have a smaller bag, $7.":                                                                                                    "0 medium=pumice",
		"Low Ford Quarry\nriver pebbles 20-40 mm: 1 tonne bulk bag $92\nsame loose $58 a tonne":                                                                                          "1 medium=river gravel; 1 form=bulk; 1 price=$58; 1 size=20-40 mm",
		"Here is the info from Low Ford Lightweight. Lava 40 L bag $9.":                                                                                                                  "0 supplier=Low Ford Lightweight",
		"1) Low Ford Quarry, quote good to 5/22/2031\n   Lava 3/8\"    $35 ton\n\n2) High Fell Stone\n   Lava 3/8\"    $36 ton":                                                          "0 supplier=Low Ford Quarry; 0 valid_until=2031-05-22; 1 supplier=High Fell Stone; 1 valid_until=",
		"Low Ford Quarry\nlava 8-16 mm $52 per m3\ntruck 15 m3 150 euro":                                                                                                                 "0 price=$52",
		"Low Ford Quarry. Lava 50 L bag $7.95 or $6.80 if it's a full pallet of 33.":                                                                                                     "0 price=$7.95; 0 breaks=33: $6.80",
		"Low Ford Quarry. Lava 50 L bag $7.95 or $6.80 from 33.":                                                                                                                         "0 price=$7.95; 0 breaks=33: $6.80",
		"Low Ford Quarry. Lava 50 L bag. Regular $35, and I can do $31 if you take at least 15.":                                                                                         "0 price=$35; 0 breaks=15: $31",
		"Low Ford Quarry. Lava 50 L bag $29, regular $35, 10 or more $27.":                                                                                                               "0 price=$29; 0 breaks=10: $27",
		"Low Ford Quarry. Lava 50 L bag $29, regular $35, or $27 for 10.":                                                                                                                "0 price=$29",
		"Low Ford Quarry. Lava 50 L bag $16. For the ten bags you want I'd do $15 a bag.":                                                                                                "0 price=$16; 0 breaks=10: $15",
		"Low Ford Quarry. Lava £19 a m3. size 8-16. delivery £8.50":                                                                                                                      "0 price=£19; 0 size=8-16 mm; 0 delivery=£8.50",
		"Low Ford Quarry. Lava 3/4 in is $88 a yard. Pumice is $90 a yard, size 4-8.":                                                                                                    "1 size=",
		"== Low Ford Quarry ==\nLava 3/4\"  $88/yd\n\n== High Fell Stone ==\nLava 3/4\"  $84/yd\nDelivery $60":                                                                           "0 supplier=Low Ford Quarry; 0 delivery=; 1 supplier=High Fell Stone; 1 delivery=$60",
		"1) Hey, it's Kit at Low Ford Quarry. Lava is $88 a yard.\n\n2) It's Tam at High Fell Stone. Lava is $84 a yard.":                                                                "0 supplier=Low Ford Quarry; 1 supplier=High Fell Stone; 1 price=$84",
		"Cart - Low Ford Hydro\n\nLava, 50 L bag\nUnit price $9.50   Qty 14   Subtotal $133.00\nShipping $13.00\n\nYou are $67.00 away from free shipping!":                              "0 price=$9.50; 0 delivery=$13.00",
		"Low Ford Quarry. River rock, the two to four inch, is $94 a yard, and the three-quarter lava is $99 a yard.":                                                                    "0 size=2-4 in; 1 size=3/4 in",
		"Low Ford Quarry. River rock, half to one and a half inch, is $94 a yard.":                                                                                                       "0 size=1/2 to 1 1/2 in",
		"Low Ford Quarry. Lava, the three quarter yard scoop is $94.":                                                                                                                    "0 size=",
		"Low Ford Quarry. Lava $94 a yard, the quarter to about two inch.":                                                                                                               "0 size=",
		"Low Ford Quarry. Basalt, the twenty mil, is $71 a cube, and the ten mil's seventy-six.":                                                                                         "0 size=20 mm; 0 price=$71; 1 size=10 mm; 1 price=76; 1 pack=1 m3",
		"> How much are clay balls in 40 L bags? About 12.\n\n$31 a bag up to 9 bags, $28 a bag from 10 on.\n\n> What size are the balls?\n\n8 to 16 mm.\n\nTam\nLow Ford Supply":        "0 medium=expanded clay; 0 price=$31; 0 pack=40 L; 0 breaks=10: $28; 0 size=8-16 mm",
		"Low Ford Quarry. Clay pebbles 40 L bag $31. River pebbles 20 kg bag $9. The pebbles are 8-16 mm.":                                                                               "0 medium=expanded clay; 1 medium=river gravel; 0 size=",
		"Low Ford Quarry. Lava 3/4 in is $88 a yd. Deliv 9 yds max per load 65 a load.":                                                                                                  "0 delivery=; 0 price=$88",
		"Low Ford Quarry. Pumice 40 L bag $12. Courier $19, 6 bags max for each shipment.":                                                                                               "0 delivery=; 10 load_fee=$19; 10 load_volume=240 L",
		"Low Ford Quarry. Lava $88 per m3. Truck of 14 m3: $150 per trip.":                                                                                                               "10 load_fee=$150; 10 load_volume=14 m3",
		"Low Ford Quarry. Pumice $71 a yard. There are 7 yards in the heap.":                                                                                                             "0 max_qty=7",
		"Low Ford Quarry. Pumice 40 L bag $12. Only 31 bags left in the place.":                                                                                                          "0 max_qty=31",
		"Low Ford Quarry. Lava, bulka bags holding 0.7 cubic metres, $115 per bag. Sixteen bags are on the ground at present.":                                                           "0 max_qty=16; 0 pack=0.7 m3; 0 form=sack",
		"Low Ford Quarry. Lava $71 a yard. I only have 8 yards until the next barge.":                                                                                                    "0 max_qty=8",
		"Foam glass\n\n4 bulk bags left over from a floor job, 2 cubic yards in each. $160 per bag.":                                                                                     "0 form=sack; 0 pack=2 yd3; 0 price=$160; 0 max_qty=4",
		"LOW FORD QUARRY\n\nAll prices per cubic yard. Half yards are fine.\n\nLava 3/8\" .... $96.00\nPumice 3/8\" .... $118.00\nPea gravel .... $47.00":                                "0 step=0.5; 1 step=0.5; 2 step=0.5; 2 pack=1 yd3",
		"Low Ford Quarry. Lava. The first 8 yards are $61 apiece and every yard past the eighth is only $52.":                                                                            "0 price=$61; 0 breaks=9: $52; 0 break_kind=incremental",
		"Low Ford Quarry. Lava 40 L bag: £14.50 + 20% VAT per bag, sold in tens only.":                                                                                                   "0 price=£14.50; 0 tax=20%; 0 step=10",
		"Low Ford Quarry. Lava $88/yd\nFreight, 3 loads @ $110.00      $330.00":                                                                                                          "10 load_fee=$110.00",
		"Low Ford Quarry. Lava $88/yd. We add 6 1/2 % tax.":                                                                                                                              "0 tax=6.5%",
		"Low Ford Quarry. Lava $88/yd. Delivery $70 a load. The least we will send a truck for is $240 worth of stone.":                                                                  "10 load_fee=$70; 10 min_order=$240",
		"Low Ford Quarry. Lava (3/8\") comes two ways. In super sacks of one cubic yard it is $128 per sack. Loose, it is $84 per cubic yard. Ask for our sheet on lava.":                "0 size=3/8 in; 1 size=3/8 in; 1 price=$84",
		"Dated 4 May 2031\nWe propose to furnish river gravel, one and one-half inch (1 1/2\"), for the sum of forty-one dollars and fifty cents ($41.50) per ton. Hauling is one hundred ten dollars ($110.00) per load of sixteen (16) tons. This proposal may be accepted within forty (40) days of its date.": "0 price=$41.50; 0 size=1 1/2 in; 10 load_fee=$110.00; 10 load_weight=16 tons",
		"Low Ford Quarry. Lapillo 9 € for a bag of 33 litres, iva compresa.":                                                                                                               "0 medium=lava rock; 0 tax=; 0 price=€9",
		"Low Ford Quarry. Lava $118 a yard. Prices held until 31/12/31.":                                                                                                                   "0 valid_until=2031-12-31",
		"Low Ford Quarry. Lava runs to 3/4, $118 a yard, and it is good to 3/4.":                                                                                                           "0 valid_until=; 0 size=3/4 in",
		"Low Ford Quarry. Lava 50 L is on sale at $9 (was $11). Pumice 50 L $12. Sale ends 31 May 2031.":                                                                                   "0 valid_until=2031-05-31; 1 valid_until=",
		"Low Ford Quarry. Lava 50 L $9. Pumice 50 L $12. Sale ends 31 May 2031.":                                                                                                           "0 valid_until=2031-05-31; 1 valid_until=2031-05-31",
		"Low Ford Quarry. Lava 50 L $9. Postage $13 flat, $160 and up ships free.":                                                                                                         "0 delivery=$13; 0 free_over=$160",
		"Low Ford Quarry. Lava 50 L $9. Postage $13, orders of $160 or more are delivered free.":                                                                                           "0 delivery=$13; 0 free_over=$160",
		"Me: price on coir?\nLow Ford Quarry: coir 50 L bag $19\nMe: can you ship\nLow Ford Quarry: yes $13":                                                                               "0 price=$19; 0 delivery=$13; 0 supplier=Low Ford Quarry",
		"Low Ford Quarry. Lava. The first 4 yards are $58 each and only the yards after that are $51 each.":                                                                                "0 price=$58; 0 breaks=5: $51; 0 break_kind=incremental; 0 pack=1 yd3",
		"Low Ford Quarry. Lava. First four yards $58 each and after that they're $51 each.":                                                                                                "0 price=$58; 0 breaks=5: $51; 0 break_kind=incremental",
		"Low Ford Quarry. Lava $9 for a 20 L bag, 8 each if you take all 22":                                                                                                               "0 breaks=22: 8",
		"Low Ford Quarry. Pumice 3-6mm is £9 per 25 litre bag, £8 on ten bags and over. Pumice 6-12mm is the same price throughout.":                                                       "1 size=6-12 mm; 1 price=£9; 1 breaks=10: £8; 1 pack=25 L",
		"Low Ford Quarry. Pumice 3-6mm £9 per 25 litre bag, 6-12mm same price.":                                                                                                            "0 size=3-6 mm; 1 size=6-12 mm; 1 price=£9",
		"Low Ford Quarry. Pumice 3-6mm is £9 per 25 litre bag. Pumice 6-12mm is the same price as the lava.":                                                                               "0 price=£9",
		"Low Ford Quarry. Basalt:\n3/8\" clean, $39 per ton\n3/4\" clean, $36 per ton\nThe 3/8\" runs 2400 lb per loose yard.":                                                             "0 size=3/8 in; 0 density=2400 lb/yd3; 1 size=3/4 in; 1 price=$36; 1 density=",
		"Low Ford Quarry. Basalt $36 a ton. Hauling to the farm is $9 per ton and the truck will not go out with less than 10 tons.":                                                       "0 price=$36; 10 load_fee=$9; 10 load_weight=1 ton",
		"Low Ford Quarry. Gravel, forty-one pound a tonne. Lorry's fifty-five pound a load.":                                                                                               "0 price=£41; 0 pack=1 tonne; 10 load_fee=£55",
		"Low Ford Quarry. Lava 50 L bag $9. In stock, Alder Street store: 31":                                                                                                              "0 max_qty=31; 0 price=$9",
		"Low Ford Quarry. Lava 50 L bag, fifteen even. Delivery twenty bux, free if you spend two fifty.":                                                                                  "0 price=15.00; 0 delivery=$20; 0 free_over=250",
		"Low Ford Quarry. River rock is $94 a yard and the lava is a hundred and fifty-five. Half yards are no trouble.":                                                                   "1 price=155; 1 pack=1 yd3; 0 step=0.5; 1 step=0.5",
		"Low Ford Quarry. Lava $99/yd\nDelivery $75/load, 9 yd/load, $200 minimum order to deliver":                                                                                        "10 min_order=$200; 10 load_fee=$75",
		"Low Ford Quarry. Lava 8/16 in 40 l bags is 11 € per bag.":                                                                                                                         "0 size=8/16; 0 pack=40 L; 0 price=€11",
		"Low Ford Quarry. Lava, 40 litre bags, not used: $9 each, 14 available":                                                                                                            "0 price=$9; 0 max_qty=14",
		"Low Ford Quarry. The 20 mm mixed shingly bits are £39 a tonne, and the 14 mm granite is £42 a tonne.":                                                                             "0 medium=; 0 price=£39; 1 medium=crushed granite; 1 size=14 mm",
		"Low Ford Quarry. Our 20 mm round stone is £39 a tonne, and the 14 mm granite is £42 a tonne.":                                                                                     "0 medium=river gravel; 0 size=20 mm; 1 medium=crushed granite",
		"Here is what they say about lava, 50 L bags.\n\nLow Ford Quarry wrote: $9 per bag.\n\nMarlcot Parts wrote: $8 per bag. Freight $40.":                                              "0 supplier=Low Ford Quarry; 0 price=$9; 0 delivery=; 1 supplier=Marlcot Parts; 1 pack=50 L; 1 delivery=$40",
		"Reply 1, Low Ford Quarry:\nLava, 50 L bag, $9. Delivery $12.\n\nReply 2, Marlcot Hort:\nLava, 50 L bag, $8 plus 6% tax.":                                                          "0 supplier=Low Ford Quarry; 0 delivery=$12; 0 tax=; 1 supplier=Marlcot Hort; 1 tax=6%; 1 delivery=",
		"Fwd: both below, please check.\n\nFrom: Nell\nLava $68 a yard, delivery $60.\nLow Ford Quarry\n\nFrom: Wim\nLava $66 a yard, delivery $75.\nMarl Pit Stone":                       "0 supplier=Low Ford Quarry; 0 delivery=$60; 1 supplier=Marl Pit Stone; 1 delivery=$75",
		"Low Ford Quarry. The first 6 yards of red lava are $62 each and only the yards after that are $55.":                                                                               "0 medium=lava rock; 0 price=$62; 0 breaks=7: $55; 0 break_kind=incremental; 0 pack=1 yd3",
		"Low Ford Quarry. Perlite (4 cu ft bags) is $31 a bag for the first 8 bags. From the 9th bag on it's $28 for each extra bag.":                                                      "0 price=$31; 0 breaks=9: $28; 0 break_kind=incremental",
		"Low Ford Quarry. Lava, forty-one pound a tonne for the twenty mil, and the ten mil's forty-six. It's £55 a load.":                                                                 "0 price=£41; 1 price=46; 1 size=10 mm",
		"Low Ford Quarry. we got pumise 3/8, 94 a yard. pebbels 71 a yard":                                                                                                                 "0 medium=pumice; 0 price=94; 1 medium=river gravel; 1 price=71",
		"Low Ford Quarry. The travel costs nothing. Lava 94 a yard.":                                                                                                                       "0 medium=lava rock; 0 price=94",
		"Low Ford Quarry. Lava is 94 a cubic metre, pumice is 99 a cubic metre. I'm glad to load half metres.":                                                                             "0 step=0.5; 1 step=0.5",
		"Lava $94/yd\nPumice $98/yd\n\nDelivery: $75. Min. 2 cy.\n\nLow Ford Quarry":                                                                                                       "0 min_qty=2; 1 min_qty=2; 0 delivery=$75",
		"Lava $94/yd\nPumice $98/yd, sold in half yards\nPerlite $88/yd. Minimum 2 yards.\n\nLow Ford Quarry":                                                                              "0 min_qty=; 1 min_qty=; 2 min_qty=2",
		"hi this is nell from low ford stone\nlava 50 L bags, $9 each":                                                                                                                     "0 supplier=low ford stone; 0 price=$9",
		"Lava Rock Black 1/2\" - $89.00/yd\nLava Rock Red 1/2\" - $84.00/yd\nLow Ford Quarry":                                                                                              "0 item=Lava Rock Black; 0 price=$89.00; 0 size=1/2 in; 1 item=Lava Rock Red; 1 price=$84.00",
		"Granite dust: $22/ton\nDecomposed granite $34/ton\nLava 3/8\" $80/ton\nLow Ford Quarry":                                                                                           "0 item=Granite dust; 0 medium=; 0 price=$22; 1 medium=; 1 price=$34; 2 medium=lava rock; 2 price=$80",
		"Low Ford Quarry. Lava, dust washed off, $80 a yard":                                                                                                                               "0 medium=lava rock; 0 price=$80",
		"Low Ford Quarry. Lava cinder $80 a yard":                                                                                                                                          "0 item=Lava cinder; 0 medium=lava rock",
		"lava 94 a yard. drop off 60. tuck's aggregates":                                                                                                                                   "0 supplier=tuck's aggregates; 0 delivery=60",
		"lava 94 a yard, pumice is 96. cheers mate. lovely gravel":                                                                                                                         "0 supplier=; 0 price=94",
		"lava is $55 a yard. We're at 4th & Main. No delivery, sorry.\nLou's Landscape":                                                                                                    "0 supplier=Lou's Landscape; 0 price=$55",
		"Low Ford Quarry. The 3/8 minus is $22 a ton but you'd want the washed 3/8 pea gravel at $36 a ton.":                                                                               "1 medium=river gravel; 1 price=$36; 0 medium=",
		"Low Ford Quarry. Lava would be $540 ($90/yd) plus $75 delivery":                                                                                                                   "0 price=$90; 0 pack=1 yd3",
		"Low Ford Quarry. Lava 50 L bags $31.00. Free shipping on full pallets.":                                                                                                           "0 price=$31.00; 0 delivery=",
		"Low Ford Quarry. Lava 50 L bags $31.00. Free shipping.":                                                                                                                           "0 price=$31.00; 0 delivery=0",
		"Low Ford Quarry. Lava $96/yd. Delivery $75. You're welcome to pick up in your own truck.":                                                                                         "0 notes=can be collected; 0 delivery=$75",
		"Low Ford Quarry. Lava $96/yd. Pickup only.":                                                                                                                                       "0 notes=you collect; 0 delivery=",
		"Low Ford Quarry. Lava 20 kg bag £6. Bark delivery is separate, £20.":                                                                                                              "0 price=£6; 0 delivery=",
		"Low Ford Quarry. Lava $60 a yard. Delivery $75 a load, 8 yards a load. Mulch delivery $30 a load.":                                                                                "0 price=$60; 10 load_fee=$75; 10 load_volume=8 yd3",
		"Low Ford Rock & Mulch: lava $60 a yard. Delivery $75.":                                                                                                                            "0 delivery=$75; 0 supplier=Low Ford Rock & Mulch",
		"Low Ford Quarry. Lava 20 kg bag £6. Delivery is separate, £20.":                                                                                                                   "0 price=£6; 0 delivery=£20",
		"Low Ford Quarry. Lava is $13.50 per cu ft bag. Bulk is $168 per yard but bulk is out until April.":                                                                                "0 price=$13.50; 0 pack=1 cu ft",
		"Low Ford Quarry. Lava $58/yd. We could deliver for $85 (up to 10 yd).":                                                                                                            "0 price=$58; 0 delivery=",
		"Low Ford Quarry. Red lava: $7.25 per 0.5 cu ft bag, 64 bags to the pallet, $6.10 per bag by the full pallet":                                                                      "0 price=$7.25; 0 pack=0.5 cu ft; 0 breaks=",
		"Lava 50 L bags $9.00 each (1-9), $8.00 each (10-39), $7 each (40+). Low Ford Quarry":                                                                                              "0 price=$9.00",
		"Lava 20 kg bag $9.00 (3-5 days). Low Ford Quarry":                                                                                                                                 "0 price=$9.00; 0 breaks=; 0 min_qty=",
		"Stopped by Low Ford Quarry 4/30\nlava 94 a yard":                                                                                                                                  "0 supplier=Low Ford Quarry; 0 price=94",
		"Lava 94 a yard.\nRegards,\nNell Tanner\nDroim an Chapaill Stone":                                                                                                                  "0 supplier=Droim an Chapaill Stone",
		"Low Ford Quarry. We don't sell under three yards. Lava is $61 a yard.":                                                                                                            "0 price=$61; 0 min_qty=3",
		"Low Ford Quarry. perlite 4cf bag 26, coir 50L bag 34 no break on those. delivery 20.":                                                                                             "0 price=26; 1 price=34",
		"Low Ford Quarry. We sell by the scoop. Our bucket is a half yard.\nlava - 41.50 a scoop\npumice - 53 a scoop":                                                                     "0 pack=1/2 yd3; 0 price=41.50; 1 pack=1/2 yd3",
		"Low Ford Quarry. lava 3/8 is 71 a yd in the red, 79 in the black.":                                                                                                                "0 price=71; 1 price=79; 1 pack=1 yd3; 1 medium=lava rock",
		"3/8\" lava out of the Marl Lane pit $21.00/ton. Low Ford Quarry":                                                                                                                  "0 price=$21.00; 0 pack=1 ton",
		"From: dispatch, Pell Hauling\n\nlava $21.00/ton":                                                                                                                                  "0 supplier=Pell Hauling",
		"QUOTATION\nLow Ford Products Ltd          Ref LF/81\nCustomer: Otter Society       Date: 4 May 2031\n\nLava $21.00/ton. Valid until 30 June 2031.":                                "0 supplier=Low Ford Products Ltd; 0 valid_until=2031-06-30",
		"Low Ford Quarry. The lava (item 31-20) ships in a 45 liter bag. The price is $9.90 per bag.":                                                                                      "0 medium=lava rock; 0 pack=45 L; 0 price=$9.90",
		"Low Ford Quarry. the cheap stuff is the lava, thats 16 a yard":                                                                                                                    "0 medium=lava rock; 0 price=16",
		"Lava 94 a yard. Gartenbedarf Otter, Jonas":                                                                                                                                        "0 supplier=Gartenbedarf Otter",
		"Offer 12\nBetonárna Tichý Brod, s.r.o.\nDate: 4 May 2031\n\nLava 40 L bag, 11 €":                                                                                                  "0 supplier=Betonárna Tichý Brod, s.r.o.",
		"Lava 40 L bag, 11 €.\nYours faithfully\nCicha Polana sp. k.":                                                                                                                      "0 supplier=Cicha Polana sp. k.",
		"Two answers.\n\n1) Carrière du Vieux Pont\nLava 8/16, 31 € per tonne. VAT 19 % extra.\n\n2) L'Orme Gris\nPumice 40 L bag, 11 €. VAT included.":                                    "0 supplier=Carrière du Vieux Pont; 0 tax=19%; 1 supplier=L'Orme Gris; 1 tax=",
		"1. Lava Stone\n8/16, 31 € per tonne\n2. Payment Terms\nLava is paid in 30 days":                                                                                                   "0 supplier=",
		"Low Ford Quarry. Perlite is $28 for the 4 cubic foot bag, and I take 5% off when you buy 12 bags or more. Coir, 50 L bag, $20.00, and 10% off at 12 bags or more.":                "0 breaks=12: $26.60; 1 breaks=12: $18",
		"Low Ford Quarry. Perlite is $28 for the 4 cubic foot bag, and I take 5% off when you buy 12 bags or more. Coir, 50 L bag, $20.00, and a further 10% off with a card for 12 bags.": "0 breaks=12: $26.60; 1 breaks=",
	} {
		wantCells(t, text, want)
	}
}

// TestAskTalk asks what may be said in two ways.
func TestAskTalk(t *testing.T) {
	for _, c := range []struct {
		text    string
		answers []string
	}{
		{"Low Ford Quarry. The lava in the two cubic foot bag is six seventy nine. Delivery is thirty dollars.", []string{"679 for 2 cu ft", "6.79 for 2 cu ft", leftOut}},
		{"Low Ford Quarry. Oyster shell 50 lb bag $16. Granite grit's eleven twenty, same size bag.", []string{"1120 for 50 lb", "11.20 for 50 lb", leftOut}},
		{"Low Ford Quarry. Lava is $9 a bag and the bags are 40 or maybe 50 lb.", []string{"40 lb", "50 lb", leftOut}},
		{"Low Ford Quarry. Granite $36 a ton, basalt $39 a ton, marble $60 a ton. The marble fizzes with acid, the others not.", []string{acidDid["none"], acidDid["fizzed"], acidDid["untested"], leftOut}},
		{"Low Ford Quarry. Basalt $36 a ton. The truck will not go out with less than 10 tons.", []string{"10", leftOut}},
		{"Low Ford Quarry. Lava 50 L bag $9. We've 34 in the shed.", []string{"34", leftOut}},
		{"Low Ford Quarry. Lava 50 L bag $9. Now 70 bags in the loft.", []string{"70", leftOut}},
		{"Low Ford Quarry. Lava 50 L bag $9. Got 31 in at the moment.", []string{"31", leftOut}},
		{"Low Ford Quarry. Lava 50 L bag $9. There is a limit of 12 bags per customer.", []string{"12", leftOut}},
		{"Low Ford Quarry. Lava 50 L bag $9. I counted 31 bags on the floor. Drop-off is $25 flat.", []string{"31", leftOut}},
		{"Low Ford Quarry. Lava 50 L bag $9. cant do less than 6 bags of owt", []string{"6", leftOut}},
		{"Low Ford Quarry. Lava is $61 a yard. Take fewer than three yards and I will not start the loader.", []string{"3", leftOut}},
		{"Low Ford Quarry. Lava is $61 a yard. Collection possible from 25 May 2031.", []string{"2031-05-25", leftOut}},
		{"Low Ford Quarry. Pumice is $76 per cubic metre and lava is $84 per cubic metre. For 10 cubic metres or more the pumice comes down to $69.", []string{"$69 from 10 on", leftOut}},
		{"Low Ford Quarry. Pumice comes in two packs:\nBulk bag, 1.5 m3: £126\nLoose, by tipper trailer: £61 per m3", []string{"£61 for 1 m3", leftOut}},
		{"Low Ford Quarry. The book says our bucket is a half yard, but Nell swears it's more. Lava is $41 a scoop.", []string{"$41", leftOut}},
		{"Low Ford Quarry. Lava 50 L bag $9. theres 44 here.", []string{"44", leftOut}},
		{"6 unopened bags of lava, 50 L each, $9 a bag. Low Ford Quarry", []string{"all there are", "the fewest sold", leftOut}},
		{"Me: how many coir\nLow Ford Quarry: chunky coir 50 L bag $19, fine coir 20 L bag $11\nMe: how many chunky\nLow Ford Quarry: 16 on the floor", []string{"16 of chunky coir", "16 of fine coir", leftOut}},
		{"Low Ford Quarry. Lava 50 L bag $9. The next container clears on 25 May 2031 and nothing can leave before then.", []string{"2031-05-25", leftOut}},
		{"Low Ford Quarry. Basalt $36 a ton. Least I'll load is two ton.", []string{"2", leftOut}},
		{"Low Ford Quarry. Lava is one ten a yard for the 3/4, one twenty for the 3/8.", []string{"110 for 1 yd3", "1.10 for 1 yd3", leftOut}},
		{"Low Ford Quarry. Lava is $14.50 for the 40 L bag, and if you took twelve it'd be thirteen twenty.", []string{"13.20 from 12 on", leftOut}},
		{"Low Ford Quarry. Lava is $14.50 for the 40 L bag. If you bought 12 we'd say $13.20.", []string{"$13.20 from 12 on", leftOut}},
		{"Low Ford Quarry. Lava is $14.50 for the 40 L bag. If you get twenty five or more of the lava they're nine ninety nine.", []string{"9.99 from 25 on", leftOut}},
		{"Low Ford Quarry. Lava 50 lb bag $9. Marble chips same bag is six forty nine.", []string{"649 for 50 lb", "6.49 for 50 lb", leftOut}},
		{"Low Ford Quarry. Lava 94 a yard. Twelve percent tax isn't in that.", []string{"12%", leftOut}},
		{"Low Ford Quarry. Granite is $58 a tonne, lava is $91 a tonne. Both come to about 1.4 tonnes to the cubic metre.", []string{"1.4 tonnes/m3", leftOut}},
		{"Low Ford Quarry. Lava $20 for the 40 L bag. From 50 bags (one pallet) we take off 10 %.", []string{"50: $18", leftOut}},
		{"To sell: 30 bags of lava, 20 L each, as new. $4 the bag. Low Ford Quarry", []string{"all there are", "the fewest sold", leftOut}},
		{"Low Ford Quarry. Pea gravel, I believe it's $42 or $45 a yard, ask Nell.", []string{"$42", "$45"}},
		{"Low Ford Quarry. The lava I think is $42 or $45 a yard.", []string{"$42", "$45"}},
		{"Low Ford Quarry\nRetail | Trade | Item\n$9.50 | $8.00 | Lava 40 lb bag", []string{"$9.50, Retail", "$8.00, Trade"}},
		{"Low Ford Quarry. Lava 40 L bag $9. Pumice 40 L bag $8. The computer shows 144 of the lava and 11 of the pumice.", []string{"144", leftOut}},
		{"Me: lava?\nLow Ford Quarry: yes, 40 L bags, $9.\nMe: pumice?\nLow Ford Quarry: 40 L bags, $8.\nMe: how many are there in the shop?\nLow Ford Quarry: 64 of the lava and 9 of the pumice.", []string{"64", leftOut}},
		{"Low Ford Quarry. Lava 50 L bag $7.95. One pallet is 72 bags, and at the pallet you pay $6.30 a bag.", []string{"$6.30 from 72 on", leftOut}},
		{"Low Ford Quarry. Lava, bulk bag $90. We are down to seven bulk bags.", []string{"7", leftOut}},
		{"Low Ford Quarry. Lava is $36 a ton. A yard of the lava is 1.4 tons.", []string{"1.4 tons/yd3", leftOut}},
		{"lava? yep. red 3/4, one ten a yard. black is one twenty same size. Low Ford Quarry", []string{"120 for 1 yd3", "1.20 for 1 yd3", leftOut}},
	} {
		p, err := Parse(c.text, Options{})
		require.NoError(t, err)
		requireSound(t, p)
		found := false
		for i, q := range p.Asked {
			var labels []string
			for j, one := range q.Readings {
				labels = append(labels, one.Label)
				got, err := p.Answer(i, j)
				require.NoError(t, err)
				requireWhole(t, got)
			}
			found = found || slices.Equal(labels, c.answers)
		}
		assert.True(t, found, "%s\n%s", c.text, summary(p))
	}
}

// TestAskBrought asks what bringing goods costs where it is said in other words, or for several zones.
func TestAskBrought(t *testing.T) {
	for text, want := range map[string][]string{
		"Low Ford Quarry. Lava 40 L bag $9. To have it brought out is $39.50.":                                                          {"$39.50 for each order", "$39.50 for each load", leftOut},
		"Low Ford Quarry. Lava is $84 a yard.\nDelivery depends on the zone:\n Zone 1 (to 8 miles)    $60\n Zone 2 (8-18 miles)    $85": {"$60 for each order", "$85 for each order", leftOut},
	} {
		p, err := Parse(text, Options{Delivery: true})
		require.NoError(t, err)
		requireSound(t, p)
		require.Len(t, p.Asked, 1, "%s\n%s", text, summary(p))
		for i, one := range p.Asked[0].Readings {
			assert.Equal(t, want[i], one.Label, text)
		}
	}
}

// TestSpeakers takes the name of who sells from where it is said.
func TestSpeakers(t *testing.T) {
	for _, said := range []string{
		"Hi, this is Nell down at Low Ford Quarry. Lava $68 a yard.", "Nell over at Low Ford Quarry, lava is $68 a yard", "talked to Nell at Low Ford Quarry Tues 2pm\nlava $68 a yard",
		"ok so I got hold of Nell at Low Ford Quarry. lava is $68 a yard", "From Low Ford Quarry: lava $68 a yard", "reached Low Ford Quarry, lava $68 a yard",
	} {
		wantCells(t, said, "0 supplier=Low Ford Quarry; 0 price=$68")
	}
	for _, said := range []string{ // a person, a place, a headline or an address is not taken
		"Uh, Nell here, Nell at Low Ford Quarry. Lava $68 a yard.", "Lava $68 a yard.\nNell Tanner\nLow Ford Quarry\n7420 Old Mill Spur", "Lava $68 a yard.\nNell Tanner\nLow Ford Quarry\n18 Quarry Bend",
		"Lava $68 a yard. Come out to us, or pick up from Otter Flat.\nNell, Low Ford Quarry", "POND CLEARANCE, everything must go\nLava $68 a yard.\nNell, Low Ford Quarry",
	} {
		wantCells(t, said, "0 supplier=Low Ford Quarry; 0 price=$68")
	}
	for _, said := range []string{"HYDRO TEARDOWN, everything must go\nLava $68 a yard.", "Lava $68 a yard. Pick up from Otter Flat, I'm home most days", "Lava $68 a yard.\n212 Old Mill Spur"} {
		wantCells(t, said, "0 supplier=; 0 price=$68")
	}
	wantCells(t, "Spoke to Nell at Marl Pit 9, lava $68 a yard", "0 supplier=Marl Pit 9")
}

// TestNamesWithMore takes names out of what stands around them: who speaks for a firm, how many were told before, what a talk is.
func TestNamesWithMore(t *testing.T) {
	wantCells(t, "Nell (Low Ford's Rock & Soil): lava is $68 a yard\nOtter Stone: pumice $88/yd. Delivery $70\nWim at Marl Pit Hydro: perlite 4 cu ft bags are $27.50",
		"0 supplier=Low Ford's Rock & Soil; 1 supplier=Otter Stone; 1 delivery=$70; 2 supplier=Marl Pit Hydro; 2 delivery=")
	wantCells(t, "Voicemail from Nell at Low Ford Sand & Gravel, Monday:\n\"The lava is $68 a yard.\"", "0 supplier=Low Ford Sand & Gravel; 0 price=$68")
	wantCells(t, "Low Ford Quarry has lava at $68 a yard. They charge $60 a load.\n\nLastly Marl Pit has pumice at $88 a yard.", "0 supplier=Low Ford Quarry; 1 supplier=Marl Pit")
	wantCells(t, "Low Ford Nursery Live Chat\n\nLava 40 L bag $19", "0 supplier=Low Ford Nursery")
	wantCells(t, "OTTER BEND LAVA & PUMICE\n\nPer ton at the yard:\n  Pumice 1/2\"     $61.00\n\nOpen Mon-Sat 7-4.", "0 supplier=; 0 price=$61.00")
}

// TestTrucksByTheirLoads gives each truck of a list its own fee, and leaves what is free from a number of packs on.
func TestTrucksByTheirLoads(t *testing.T) {
	wantCells(t, "Low Ford Quarry. Lava £44 a tonne. Delivery: 9 tonne tipper £60 per load, crane lorry (5 bulk bags) £50 per drop.", "0 price=£44; 0 delivery=") // asked
	wantCells(t, "Low Ford Quarry\nLava $44 a ton\n\nTrucking:\n  6 ton dump       $80 / load\n  15 ton tandem   $120 / load\n", "10 load_fee=$80; 10 load_weight=6 ton; 11 load_fee=$120; 11 load_weight=15 ton")
	wantCells(t, "Low Ford Quarry. Lava $44 a tonne.\nCartage   Single axle (7 t)     $85.00 per load\n          Truck & dog (30 t)   $250.00 per load", "10 load_fee=$85.00; 10 load_weight=7 t; 11 load_fee=$250.00")
	wantCells(t, "Low Ford Quarry. Lava in 40 L bags, $19 each. Free delivery on 6 bags or more, otherwise $25.", "0 price=$19; 0 delivery=")
	wantCells(t, "Low Ford Quarry. Lava in 40 L bags, $19. Buy 6, pay $18 each.", "0 price=$19; 0 breaks=6: $18")
}

// TestAnsweredInTurn reads a talk in which each says what was asked without a sign that it was.
func TestAnsweredInTurn(t *testing.T) {
	wantCells(t, "Customer: got pumice in bags?\nOtter Flat Nursery: yes 30 litre bags, $12.50\nCustomer: any discount for 36 bags?\nOtter Flat Nursery: For 36 I can do $10.40 each\nCustomer: and delivery to the school\nOtter Flat Nursery: $28",
		"0 supplier=Otter Flat Nursery; 0 price=$12.50; 0 breaks=36: $10.40; 0 delivery=$28")
	p, err := Parse("Low Ford Quarry\nLava, 1 m3 bulk bags:\n1 bag      £150\n2 to 6     £141 each\n7 plus     £132 each", Options{})
	require.NoError(t, err)
	requireSound(t, p)
	require.Len(t, p.Rows, 1, summary(p))
	assert.Equal(t, "2: £141; 7: £132", p.Rows[0].Text("breaks"), summary(p))
	wantCells(t, "Low Ford Quarry. Lava 40 L bags $19. 7 plus $30 each time we deliver.", "0 breaks=")
}

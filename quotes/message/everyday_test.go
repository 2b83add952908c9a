package message

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestEverydayWords reads forms in which yards and stores write, each with the cells that must come out.
func TestEverydayWords(t *testing.T) {
	for text, want := range map[string]map[string]string{
		"lava ......... 84\npumice ....... 96\nall per yard":                                                                                              {"pack": "1 yd3", "price": "84"},
		"Oyster shell 50# bag 15.49, full pallet (40) 12.90":                                                                                              {"pack": "50 lb", "price": "15.49", "breaks": "40: 12.90"},
		"6 yds lava at $92 = $552, plus $85 delivery = $637 total":                                                                                        {"pack": "1 yd3", "price": "$92"},
		"2 m3 expanded clay 8-16 mm at 96.00/m3 = 192.00":                                                                                                 {"pack": "1 m3", "price": "96.00"},
		"lava 84 yd, pea gravel 39 yd":                                                                                                                    {"pack": "1 yd3", "price": "84"},
		"lava $80 a yard. Delivery is $115, truck will hold 12 yards.":                                                                                    {"price": "$80", "delivery": ""},
		"lava $80 a yard. Prices good thru 5/17/26":                                                                                                       {"price": "$80", "valid_until": "2026-05-17"},
		"Low Ford Quarry: lava $78 a yard, truck is $85":                                                                                                  {"price": "$78", "delivery": "$85"},
		"Low Ford Quarry: lava $78 a yard. Delivery is $95 flat inside the county.":                                                                       {"price": "$78", "delivery": "$95"},
		"Low Ford Quarry: lava $78 a yard. Delivery is $95 flat inside the county of Esk.":                                                                {"price": "$78", "delivery": "$95"},
		"Low Ford Quarry: lava $78 a yard. Delivery is $95, free over 900.":                                                                               {"delivery": "$95", "free_over": "900"},
		"Blähton 50 L Sack 12,90 EUR, ab 20 Stück 11,50. Fracht 39 EUR, frei ab 500 EUR.":                                                                 {"pack": "50 L", "breaks": "20: 11.50", "delivery": "EUR 39", "free_over": "EUR 500"},
		"Low Ford Quarry: lava $78 a yard, half yards are fine":                                                                                           {"price": "$78", "step": "0.5"},
		"Low Ford Quarry: lava $48/ton\n10 ton and up ... $41/ton":                                                                                        {"price": "$48", "breaks": "10: $41"},
		"Low Ford Quarry: lava bags 2 cu ft, 18.50 each, 16.75 each if u get 20+":                                                                         {"price": "18.50", "breaks": "20: 16.75"},
		"Low Ford Quarry: lava $80 a yard, 5% off from 10 yards on":                                                                                       {"price": "$80", "breaks": "10: $76"},
		"Low Ford Quarry: lava $80 a yard. Orders of 10 yards or more receive 5% off.":                                                                    {"price": "$80", "breaks": "10: $76"},
		"Low Ford Quarry: lava $80 a yard, screened 3/4":                                                                                                  {"price": "$80", "size": "3/4 in"},
		"its dale @ low ford. 18.50 for the 2 cubic foot lava bags, 16.75 if u get 20+. lmk":                                                              {"supplier": "low ford", "pack": "2 cu ft", "price": "18.50", "breaks": "20: 16.75"},
		"Low Ford Quarry: lava is 72 a yard if you get 5 or more, otherwise 77":                                                                           {"price": "77", "breaks": "5: 72"},
		"Low Ford Quarry: lava 2 cu ft bag $18, pallet of 40 for $600":                                                                                    {"price": "$18", "breaks": ""},
		"Low Ford Quarry: lava 2 cu ft bag $18, pallet of 40 $15.00 each":                                                                                 {"price": "$18", "breaks": "40: $15.00"},
		"                  1-9     10-39   40+\nLava 2 cu ft bag  $18.50  $16.75  $15.25\n":                                                               {"price": "$18.50", "breaks": "10: $16.75; 40: $15.25"},
		"Low Ford Quarry: lava $80/yd. Truck $90 up to 5 yards, $140 up to 12 yards.":                                                                     {"price": "$80", "delivery": ""},
		"Hi Sam, thanks for reaching out to us. Lava $78 a yard. No problem at all.":                                                                      {"price": "$78"},
		"Low Ford Quarry\n2210 Kiln Road\nLava 3/4, yd 82.00\nSales tax 6.5%         112.84":                                                              {"supplier": "Low Ford Quarry", "tax": "6.5%"},
		"Low Ford Quarry: lava 3/8\" x 3/4\", $82 a yard":                                                                                                 {"size": "3/8 to 3/4 in"},
		"Low Ford Quarry: lava $82 a yard and delivery is $90 flat":                                                                                       {"price": "$82", "delivery": "$90"},
		"Low Ford Quarry: lava $82 a yard. From 3 yards the price falls to $76 a yard":                                                                    {"price": "$82", "breaks": "3: $76"},
		"Low Ford Quarry: coir 2 cu ft bag 18.10   (6 on hand)":                                                                                           {"price": "18.10", "max_qty": "6", "breaks": ""},
		"Low Ford Quarry: lava $82 a yard\nCustomers also bought: net pots (pack of 50) $11.25":                                                           {"price": "$82"},
		"Low Ford Quarry: pumice $80 a yard\nwait no thats the old sheet\nlava $82 a yard":                                                                {"medium": "lava rock", "price": "$82"},
		"Low Ford Quarry: pumice 10mm in a 20 kg bag, $8. Delivery is 90 but per 2 bags":                                                                  {"size": "10 mm", "delivery": ""},
		"Low Ford Quarry: lava $82 a yard. Ex GST, add 10%.":                                                                                              {"price": "$82", "tax": "10%"},
		"Low Ford Quarry: lava $82 a yard. 13% HST is extra on everything.":                                                                               {"price": "$82", "tax": "13%"},
		"Low Ford Quarry: lava $82 a yard. Sales tax (7.25%) not included.":                                                                               {"price": "$82", "tax": "7.25%"},
		"Low Ford Quarry: lava $82 a yard, prices include VAT at 20%":                                                                                     {"price": "$82", "tax": ""},
		"Low Ford Quarry: lava $82 a yard, VAT 20% is included":                                                                                           {"price": "$82", "tax": ""},
		"Low Ford Quarry: we can do lava in bulk bags. $82 per bag, 800 kg in each.":                                                                      {"price": "$82", "form": "sack", "pack": "800 kg"},
		"Low Ford Quarry: lava $82 a yard. Delivery $28, and you're at 9.":                                                                                {"price": "$82"},
		"Low Ford Quarry: lava half inch to one inch, $82 a yard":                                                                                         {"price": "$82", "size": "1/2-1 in"},
		"Low Ford Quarry: lava $12 per barrow (5 cu ft)":                                                                                                  {"price": "$12", "pack": "5 cu ft"},
		"Called Low Ford Quarry Thurs, talked to Lou\nlava $82 a yard":                                                                                    {"price": "$82", "supplier": "Low Ford Quarry"},
		"Lot 14: Lava 2 cu ft bag $82\nLot 15: Pumice 2 cu ft bag $90\nLow Ford Quarry":                                                                   {"price": "$82", "supplier": "Low Ford Quarry"},
		"Low Ford Quarry: lava a hundred and five a yard, hundred and two yard minimum":                                                                   {"price": "105", "min_qty": "102"},
		"Low Ford Quarry: lava $82 a yard, prices firm to the end of May 2026":                                                                            {"valid_until": "2026-05-31"},
		"Low Ford Quarry: the lava is not $78 but $82 a yard":                                                                                             {"price": "$82"},
		"Low Ford Quarry: lava eighty-one and a half a yard":                                                                                              {"price": "81.50", "pack": "1 yd3"},
		"Low Ford Quarry: lava 81 and a half a yard":                                                                                                      {"price": "81.50", "pack": "1 yd3"},
		"Low Ford Quarry: lava $82 a yard, two and a half yard minimum":                                                                                   {"price": "$82"},
		"Low Ford Quarry: lava in bulk bags at $82 a bag, that's 800 kg":                                                                                  {"price": "$82"},
		"Low Ford Quarry: lava $82 a bulk bag, thats 800 kg, 3 or more 76.50 each":                                                                        {"price": "$82", "pack": "800 kg", "breaks": "3: 76.50"},
		"Low Ford Quarry: the lava is 4-8 no wait 8-16 mm, $82 a yard":                                                                                    {"price": "$82", "size": "8-16 mm"},
		"Low Ford Quarry: lava $82 a ton, it must be a 12 ton load minimum":                                                                               {"price": "$82", "min_qty": "12"},
		"Low Ford Quarry\nItem   $/CY   $/CY, 8 CY or more\nLava   44.00   40.50":                                                                         {"price": "44.00", "pack": "1 yd3", "breaks": "8: 40.50"},
		"#1\nLava $82/yd.\nLow Ford Quarry":                                                                                                               {"price": "$82", "size": "", "supplier": "Low Ford Quarry"},
		"Low Ford Quarry: lava $82 a yard. Loads: 5 yd $60, 10 yd $95.":                                                                                   {"price": "$82", "pack": "1 yd3"},
		"Low Ford Quarry: granite $82 a ton. It came up clean on the acid.":                                                                               {"carbonate": "none"},
		"Low Ford Quarry: granite $82 a ton. Nobody has put acid to it.":                                                                                  {"carbonate": "untested"},
		"Low Ford Quarry\nlava 2 cu ft bag, our price $18, on hand 32":                                                                                    {"price": "$18", "max_qty": "32"},
		"Low Ford Quarry: lava $82 a yard. Price protected to July 15, 2026.":                                                                             {"valid_until": "2026-07-15"},
		"Low Ford Quarry: lava $82 a yard, effective 2026-03-01 to 2026-08-31":                                                                            {"price": "$82", "valid_until": "2026-08-31"},
		"lava $82 a yard\nClosing date for acceptance 22 May 2026\nFrom Low Ford Quarry":                                                                  {"supplier": "Low Ford Quarry", "valid_until": "2026-05-22"},
		"Low Ford Quarry: lava $82 a yard, ready for pickup or delivery May 4, 2026":                                                                      {"ready_by": "2026-05-04"},
		"To recap: $82 per yard, lava. Ask for Lou at Low Ford Quarry if I'm out.":                                                                        {"item": "lava", "price": "$82", "supplier": "Low Ford Quarry"},
		"$27.50 -> lava (2 cu ft). $9.99 -> perlite, 4 cu ft bag. Low Ford Quarry":                                                                        {"pack": "2 cu ft", "price": "$27.50"},
		"Call 16:05 - Low Ford Quarry, a Mr Reed. Lava $82 a yard.":                                                                                       {"supplier": "Low Ford Quarry", "price": "$82"},
		"Low Ford Quarry. Lava, a cubic yard lists at $82. When a customer takes 6 yards or more it's $76.":                                               {"price": "$82", "breaks": "6: $76"},
		"Low Ford Quarry: lava 2 cu ft bag $18\nShipping flat $19.99, none from $199":                                                                     {"delivery": "$19.99", "free_over": "$199"},
		"Low Ford Quarry: lava 2 cu ft bag $18. Shipping: $12 orders to $99, free from $100.":                                                             {"delivery": "$12", "free_over": "$100"},
		"Low Ford Quarry: lava 2 cu ft bag $18. Freight is $32 on anything under $400; at $400 it's free.":                                                {"delivery": "$32", "free_over": "$400"},
		"Low Ford Quarry: lava 20 mm $82 a yard, none over 40 mm. Delivery $50.":                                                                          {"price": "$82", "delivery": "$50", "free_over": ""},
		"Low Ford Quarry: lava $82 a yard. Let me check with dispatch.":                                                                                   {"price": "$82", "delivery": ""},
		"Low Ford Quarry: lava 8/16 is $82 a yard, lava 16/32 is $76 a yard. The lava has 850 kg/m3.":                                                     {"price": "$82", "density": "850 kg/m3"},
		"Low Ford Quarry: lava $82 a yard. To this add VAT at the standard 20%.":                                                                          {"price": "$82", "tax": "20%"},
		"Low Ford Quarry: 3/4 lava? Yes. $82 a yard":                                                                                                      {"price": "$82", "size": "3/4 in"},
		"Low Ford Quarry: the lava you picked out is $82 a yard":                                                                                          {"price": "$82"},
		"Low Ford Quarry: lava $82 a yard, drops to $75 if you take eight yards":                                                                          {"price": "$82", "breaks": "8: $75"},
		"Low Ford Quarry: lava $82 a yard. For 20 yards and above rate is $75 per yard.":                                                                  {"price": "$82", "breaks": "20: $75"},
		"Low Ford Quarry: lava $82 a yard. Delivery $60. Orders of $900 or more ship free.":                                                               {"delivery": "$60", "free_over": "$900"},
		"Low Ford Quarry: lava 5/16, 40 lb bags, $7":                                                                                                      {"size": "5/16 in"},
		"Low Ford Quarry: lava $82 a yard. We are closed until May 18, 2026.":                                                                             {"price": "$82", "valid_until": ""},
		"Price list no. 7\nLow Ford Quarry: lava $82 a yard":                                                                                              {"price": "$82", "size": ""},
		"Low Ford Quarry: lava $82 a yard, no checks, delivery $60":                                                                                       {"price": "$82", "delivery": "$60"},
		"Low Ford Quarry\nItem: lava\nUnit price: $82.00 per yard\nGoods: $492.00":                                                                        {"price": "$82.00"},
		"Customer: R. Vale, Backlane Farm\nLow Ford Supplies Pty Ltd     TN 00 000 000 000\nLava $82 a yard, delivery $60\nPumice $90 a yard":             {"supplier": "Low Ford Supplies Pty Ltd", "delivery": "$60"},
		"Lava 3/4 in, $82 a yard, or $45 for half a metre. Sold by Low Ford Quarry":                                                                       {"price": "$82", "supplier": "Low Ford Quarry"},
		"Low Ford Quarry: lava 0.5 cu ft bags at $7.98. Take a full pallet (64 bags) and it comes to $6.75 a bag":                                         {"price": "$7.98", "breaks": "64: $6.75"},
		"Low Ford Quarry: lava $82 a yard. Our own lorry delivers within 25 miles for $60.":                                                               {"delivery": "$60"},
		"Low Ford Quarry: lava $82 a yard. Our lorry takes twelve bags.":                                                                                  {"price": "$82", "medium": "lava rock"},
		"Low Ford Quarry: lava 0.5 cu ft bag $8.99, or $7.75 at 60 bags":                                                                                  {"price": "$8.99", "breaks": "60: $7.75"},
		"Low Ford Quarry: lava 0.5 cu ft bag $8.99, or 7.75 each by the ten":                                                                              {"price": "$8.99", "breaks": "10: 7.75"},
		"Low Ford Quarry: lava 0.5 cu ft bag $8.00\nQty discounts: 20 bags 10% off":                                                                       {"price": "$8.00", "breaks": "20: $7.20"}, // 8 x 0.9
		"Lava $82 a yard\nS. Okonedo / Low Ford Minerals / 555-0188":                                                                                      {"supplier": "Low Ford Minerals"},
		"Low Ford Quarry: coir 5 kg block, $13.50 per block":                                                                                              {"pack": "5 kg", "price": "$13.50"},
		"Lava $82 a yard. Delivery $60, free above $5 000.00. Low Ford Quarry":                                                                            {"delivery": "$60", "free_over": "$5000.00"},
		"Lava $82 a yard.\nThank you for the opportunity,\nAna Reyes, Sales\nLow Ford Bulk Materials\noffice 555-0163 x 204":                              {"supplier": "Low Ford Bulk Materials"},
		"Lava $82 a yard.\nBest,\nAna Reyes\nInside Sales | Low Ford Growing Media\nP 555-0119 | F 555-0120":                                              {"supplier": "Low Ford Growing Media"},
		"Low Ford Quarry: crushed basalt, your first 5 tons are $48 each, and each ton after the fifth is $41":                                            {"price": "$48", "breaks": "6: $41", "break_kind": "incremental"},
		"Low Ford Quarry: 14 mm clear granite $82 a ton":                                                                                                  {"price": "$82", "size": "14 mm"},
		"Low Ford Quarry: lava 2 cu ft bag $8. Orders in by May 25, 2026 at these prices.":                                                                {"valid_until": "2026-05-25", "ready_by": ""},
		"Low Ford Quarry: lava 2 cu ft bag $8. I want your order by May 25, 2026.":                                                                        {"valid_until": "2026-05-25", "ready_by": ""},
		"Low Ford Quarry: lava $82 a yard. We hold this until the last day of May 2026.":                                                                  {"valid_until": "2026-05-31"},
		"Low Ford Quarry: lava 2 cu ft bag $8, $7.20 a bag if you're having ten":                                                                          {"price": "$8", "breaks": "10: $7.20"},
		"Low Ford Quarry: lava $82 a yard. None of this includes the 6.5% sales tax.":                                                                     {"tax": "6.5%"},
		"Low Ford Quarry: clay pebbles 50 L are 44,95 $ a bag. Taxes not included (14.975 %).":                                                            {"price": "$44.95", "tax": "14.9750%"},
		"Low Ford Quarry: 20 mm lava is $82 a yard and the 7 mm is $90 a yard. Half yards are fine.":                                                      {"size": "20 mm", "step": "0.5"},
		"Low Ford Quarry: lava 2 cu ft bag is $8 and the 1 cu ft bag is $5. $3.50 each at 20 or more.":                                                    {"price": "$8", "breaks": ""},
		"Low Ford Quarry: expanded clay 8/16 in 50 l bags is 16,40 € per bag":                                                                             {"size": "8/16", "pack": "50 L"},
		"Low Ford Quarry: expanded clay 4/10 in 25 l bags, £9 each":                                                                                       {"size": "4/10", "pack": "25 L"},
		"Low Ford Quarry: pumice 3/8 in 50 lb bags, $9 each":                                                                                              {"size": "3/8 in", "pack": "50 lb"},
		"Low Ford Quarry: our 20 mm stone is $39.50 a tonne, and the 14 mm crushed granite is $42.00 a tonne.":                                            {"item": "stone", "medium": "", "price": "$39.50", "size": "20 mm"},
		"Low Ford Quarry: our 20 mm round stone is $39.50 a tonne, and the 14 mm crushed granite is $42.00 a tonne.":                                      {"medium": "river gravel", "price": "$39.50", "size": "20 mm"},
		"Low Ford Quarry: lava 50 L bags £9. Deliverys £5 round here, free over £60.":                                                                     {"delivery": "£5", "free_over": "£60"},
		"Low Ford Quarry: lava 50 L bags $9. Free local delivery with $100 purchase. Under that it's $12.":                                                {"delivery": "$12", "free_over": "$100"},
		"Low Ford Quarry: lava 50 L bags $9. Free delivery on any $100 order, otherwise $12.":                                                             {"delivery": "$12", "free_over": "$100"},
		"Low Ford Quarry: lava is £43 a tonne, granite is £39 a tonne. Four tonnes is the least I sell of either.":                                        {"price": "£43", "min_qty": "4"},
		"Low Ford Quarry: lava $79 a yard, two yards the least.":                                                                                          {"price": "$79", "min_qty": "2"},
		"Low Ford Quarry: lava $79 a yard. We don't sell fewer than 3 yards.":                                                                             {"price": "$79", "min_qty": "3"},
		"Low Ford Quarry\nLava, 50 L bags:\n10 to 39 bags     $31.00\n40 to 79 bags     $28.50\n80 bags or more   $26.00\n\nWe can't sell fewer than 10.": {"price": "$31.00", "breaks": "40: $28.50; 80: $26.00", "min_qty": "10"},
		"Low Ford Quarry\nLava, 50 L bags:\n10 to 39 bags     $31.00\n40 to 79 bags     $28.50\n80 bags or more   $26.00\n\nWe can't sell fewer than 5.":  {"price": "", "breaks": ""},
		"Low Ford Quarry: gravel is £52.80 a bulk bag and lava £55.20 a bulk bag; our bulk bags weigh 850kg.":                                             {"price": "£52.80", "pack": "850 kg"},
		"Low Ford Quarry: 10 mm lava is $86.00 a cubic metre and 14 mm pumice is $119.00 a cubic metre. We're happy to load half metres.":                 {"price": "$86.00", "step": "0.5"},
		"Low Ford Quarry: lava in 25 litre bags at £11.40. On orders of 12 bags the price falls to £10.60, and on 40 bags to £9.75.":                      {"price": "£11.40", "breaks": "12: £10.60; 40: £9.75"},
		"Low Ford Quarry: lava in 25 litre bags at £9.40, down from 10 to £9.40 in May.":                                                                  {"breaks": ""},
		"Low Ford Quarry: lava $82 a yard, no problem, the truck is $85. Pumice $90 a yard":                                                               {"price": "$82", "delivery": "$85"},
	} {
		t.Run(text, func(t *testing.T) {
			p, err := Parse(text, Options{Delivery: true})
			require.NoError(t, err)
			requireSound(t, p)
			require.NotEmpty(t, p.Rows)
			for column, cell := range want {
				assert.Equal(t, cell, p.Rows[0].Text(column), "%s\n%s", column, summary(p))
			}
		})
	}
}

// TestSizesOfTruck makes a row of each truck, of one name, which delivery.csv takes for sizes of one service.
func TestSizesOfTruck(t *testing.T) {
	for _, words := range []string{"Truck $90 up to 5 yards, $140 up to 12 yards", "\nSingle axle, up to 5 yards    $90\nTandem, up to 12 yards    $140\n", "\nsmall tipper, 5 yards, $90 a load\nTandem, 12 yards, $140 a load\n"} {
		p, err := Parse("Low Ford Quarry: lava $80/yd. "+words+". Free over $900.", Options{Delivery: true})
		require.NoError(t, err)
		requireSound(t, p)
		require.Len(t, p.Delivery, 2, summary(p))
		for i, want := range []map[string]string{{"load_fee": "$90", "load_volume": "5 yd3"}, {"load_fee": "$140", "load_volume": "12 yd3"}} {
			assert.Equal(t, "truck", p.Delivery[i].Text("name"))
			assert.Equal(t, "$900", p.Delivery[i].Text("free_over"))
			for column, cell := range want {
				assert.Equal(t, cell, p.Delivery[i].Text(column), summary(p))
			}
		}
	}
}

// TestSizesOfTruckOfOneUnit takes the unit of what the first truck holds for those behind it, where no other thing follows.
func TestSizesOfTruckOfOneUnit(t *testing.T) {
	for text, want := range map[string][]map[string]string{
		"truck is $85 up to 8 yards, $150 for a tandem up to 16":              {{"load_fee": "$85", "load_volume": "8 yd3"}, {"load_fee": "$150", "load_volume": "16 yd3"}},
		"trucks: $60 up to 5 tons, $110 up to 10 and $150 up to 16":           {{"load_fee": "$60", "load_weight": "5 tons"}, {"load_fee": "$110", "load_weight": "10 tons"}, {"load_fee": "$150", "load_weight": "16 tons"}},
		"delivery $85 up to 8 yards, $150 up to 16 miles":                     nil,
		"If we haul: 5 ton load 70, 10 ton load 95":                           {{"load_fee": "70", "load_weight": "5 ton"}, {"load_fee": "95", "load_weight": "10 ton"}},
		"Body truck, 8 ton $95 per load\nTruck and dog, 30 ton $210 per load": {{"load_fee": "$95", "load_weight": "8 ton"}, {"load_fee": "$210", "load_weight": "30 ton"}},
		"delivery is $65. Minimum order for delivery is $250":                 {{"order_fee": "$65", "min_order": "$250"}},
		"delivery is $65. Minimum for delivery $150":                          {{"order_fee": "$65", "min_order": "$150"}},
	} {
		t.Run(text, func(t *testing.T) {
			p, err := Parse("Low Ford Quarry: lava $80 a yard, "+text+".", Options{Delivery: true})
			require.NoError(t, err)
			requireSound(t, p)
			require.Len(t, p.Delivery, len(want), summary(p))
			for i := range want {
				for column, cell := range want[i] {
					assert.Equal(t, cell, p.Delivery[i].Text(column), summary(p))
				}
			}
		})
	}
}

// TestLoadBehindItsFee takes what a load holds from words right behind its fee, or from the size of the truck in its sentence.
func TestLoadBehindItsFee(t *testing.T) {
	for _, words := range []string{"We deliver for $125 per load. A load is up to 18 tons", "We deliver for $125 per load, loads up to 18 tons", "18 ton tipper, $125 per load", "Haulage $125 per load (18 tons)", "We can drop it off for $125 a load, up to 18 tons",
		"Delivery — $125 a load, 18 tons max", "Delivery, including tax, $125 per load (18 tons)", "The tipper hauls 18 tons and each haul is billed at $125", "The truck is $125, it's an 18 ton box", "Our lorry is $125 and takes 18 tons", "Haulage by twelve-wheeler (18 tons) is billed at $125 per load", "To get it over to Esk runs $125 a run, with up to 18 tons each trip", "Getting it out to you costs $125 a go, and the trailer does 18 tons",
		"Transport with driver: $125 a load, 18 tons", "Delivery (18 tons per load)   2 @   125.00   250.00", "Haulage $125 per load, one load = 18 tons", "I bring it for $125 a load, and 18 tons makes a load", "I bring it for $125 a load; 18 tons is one full load", "The truck's only $125 a trip. It only holds 18 tons", "It's $125 for the dump truck, which will carry 18 tons", "Delivery: pickup truck $125, up to 18 tons"} {
		p, err := Parse("Low Ford Quarry: granite $40 a ton.\n"+words+".", Options{Delivery: true})
		require.NoError(t, err)
		requireSound(t, p)
		require.Len(t, p.Delivery, 1, summary(p))
		assert.Contains(t, []string{"$125", "125.00"}, p.Delivery[0].Text("load_fee"), summary(p))
		require.Len(t, p.Rows, 1, "no load is a row of goods: %s", summary(p))
		assert.Regexp(t, "^18 tons?$", p.Delivery[0].Text("load_weight"), summary(p))
	}
	p, err := Parse("Low Ford Quarry: granite $40 a ton.\nDelivery $125 a load, 18 tons minimum.", Options{Delivery: true})
	require.NoError(t, err)
	for _, way := range p.Delivery {
		assert.Empty(t, way.Text("load_weight"), "the least that is brought is not the most: %s", summary(p))
	}
}

// TestKeepsItsLine gives the price of a thing whose medium is not known to a row of its own, and to no medium above or below it.
func TestKeepsItsLine(t *testing.T) {
	p, err := Parse("Low Ford Quarry\n1. Perlite: 4 cu ft bag, $33\n2. Vermiculite, coarse: 4 cu ft bag, $42\n3. Coir: 2 cu ft bag, $16\n", Options{})
	require.NoError(t, err)
	requireSound(t, p)
	require.Len(t, p.Rows, 3, summary(p))
	for i, medium := range []string{"perlite", "", "coconut coir"} {
		assert.Equal(t, medium, p.Rows[i].Text("medium"), summary(p))
		assert.Equal(t, []string{"$33", "$42", "$16"}[i], p.Rows[i].Text("price"))
	}
}

// TestLeastOrder reads the least order in money, as people say that they bring no less.
func TestLeastOrder(t *testing.T) {
	for _, words := range []string{"We don't send a truck for less than $250", "$250 is our minimum order"} {
		p, err := Parse("Low Ford Quarry: lava $80 a yard. Delivery is $60. "+words+".", Options{Delivery: true})
		require.NoError(t, err)
		requireSound(t, p)
		require.Len(t, p.Delivery, 1, summary(p))
		assert.Equal(t, "$60", p.Delivery[0].Text("order_fee"), summary(p))
		assert.Equal(t, "$250", p.Delivery[0].Text("min_order"), summary(p))
	}
}

// TestSameGrains gives an item the grains of the one before it where it is said the same, but not where its pack is.
func TestSameGrains(t *testing.T) {
	for text, size := range map[string]string{
		"lava 10-20 mm, 25 kg bag $8\npumice same size 30 kg bag $9":                   "10-20 mm", // its own pack is said
		"lava 10-20 mm, 25 kg bag $8\npumice same size bag $9":                         "",
		"lava 10-20 mm, 25 kg bag $8\npumice in 30 kg bags, same grade: $9":            "10-20 mm",
		"lava, 10-20 mm, in 25 kg bags at $8, and the same stone in 40 kg bags at $11": "10-20 mm",
		"lava, 25 kg bag $8\npumice in 30 kg bags, same grade: $9":                     "",
	} {
		p, err := Parse("Low Ford Quarry\n"+text, Options{})
		require.NoError(t, err)
		requireSound(t, p)
		require.Len(t, p.Rows, 2, summary(p))
		assert.Equal(t, size, p.Rows[1].Text("size"), summary(p))
	}
}

// TestForEachOfThem sets the fewest packs in every row that it is said of.
func TestForEachOfThem(t *testing.T) {
	p, err := Parse("Low Ford Quarry, spoke to Lou\n- limestone #8: 23.80/ton\n- limestone #57: 22.40/ton\n- 5 ton min on either", Options{})
	require.NoError(t, err)
	requireSound(t, p)
	require.Len(t, p.Rows, 2, summary(p))
	assert.Equal(t, "5", p.Rows[0].Text("min_qty"))
	assert.Equal(t, "5", p.Rows[1].Text("min_qty"))
}

// TestSeveralMessages keeps the terms of each message of one paste apart, and its questions with its own rows.
func TestSeveralMessages(t *testing.T) {
	const paste = "Hi Sam, this is Lou at Low Ford Quarry. Lava $78 a yard, over 10 yards 71. Delivery $60.\n\n" +
		"Hi Sam, Gus from High Fell Stone here. Lava $74 a yard, over 8 yards 70, delivery $45, free over $500."
	p, err := Parse(paste, Options{Delivery: true})
	require.NoError(t, err)
	requireSound(t, p)
	require.Len(t, p.Rows, 2, summary(p))
	for i, want := range []map[string]string{
		{"supplier": "Low Ford Quarry", "price": "$78", "delivery": "$60", "free_over": ""}, {"supplier": "High Fell Stone", "price": "$74", "delivery": "$45", "free_over": "$500"},
	} {
		for column, cell := range want {
			assert.Equal(t, cell, p.Rows[i].Text(column), summary(p))
		}
	}
	require.Len(t, p.Asked, 2, summary(p))
	assert.Equal(t, paste[p.Asked[1].From:p.Asked[1].To], p.Asked[1].Text)
	got, err := p.Answer(1, 1)
	require.NoError(t, err)
	assert.Equal(t, "9: 70", got.Rows[1].Text("breaks"))
	assert.Empty(t, got.Rows[0].Text("breaks"))
	require.Len(t, got.Asked, 1)
}

// TestNearbyFee says aloud where a fee holds, and that the buyer must look whether the beds are there.
func TestNearbyFee(t *testing.T) {
	p, err := Parse("Low Ford Quarry: lava $78 a yard. Delivery is $95 flat inside the county.", Options{})
	require.NoError(t, err)
	require.Len(t, p.Rows, 1)
	assert.Contains(t, p.Rows[0].Cautions, "delivery: it is said to hold inside the county; make sure that the beds are there")
}

// TestFreeFrom reads the value from which delivery is free, and never that it is free whatever the value.
func TestFreeFrom(t *testing.T) {
	for _, words := range []string{"Shipping: $14 flat\nBaskets over $150 ship free", "Shipping estimated at $14. Everything from $150 is shipped free.", "Postage is $14 but orders of $150 or more go free.",
		"Courier $14. Spend over $150 and you get free delivery.", "Carriage $14, met by us on orders above $150.", "Postage calculated: $14\nSpend $150 and postage is free"} {
		p, err := Parse("Low Ford Quarry: lava 50 L bag $9.\n"+words, Options{Delivery: true})
		require.NoError(t, err)
		requireSound(t, p)
		require.Len(t, p.Rows, 1, summary(p))
		assert.Equal(t, "$14", p.Rows[0].Text("delivery"), summary(p))
		assert.Equal(t, "$150", p.Rows[0].Text("free_over"), summary(p))
	}
	for _, words := range []string{"We ship free once the basket is at $150.", "Delivery is $14 in a month with a moon, free delivery for carts beyond $150.", "Once you are at $150 shipping is free, I think."} {
		p, err := Parse("Low Ford Quarry: lava 50 L bag $9.\n"+words, Options{Delivery: true})
		require.NoError(t, err)
		require.Len(t, p.Rows, 1, summary(p))
		assert.NotEqual(t, "0", p.Rows[0].Text("delivery"), "%s: %s", words, summary(p))
	}
}

// TestPlainFees reads fees for delivery as people say them.
func TestPlainFees(t *testing.T) {
	for words, fee := range map[string]string{"Carrier to us is $30": "$30", "Running them over is $30": "$30", "Dropping it round is $30": "$30", "For $30 we bring it to the gate": "$30", "Dump fee: $30/load, 7 yd": "", "Drop fee $30 per load. Loads are 7 yards": "", "Delivered to your gate it's $80 a yard": "", "Delivered by our lorry at $80 a yard": ""} {
		p, err := Parse("Low Ford Quarry: lava $60 a yard. "+words+".", Options{Delivery: true})
		require.NoError(t, err)
		requireSound(t, p)
		require.Len(t, p.Rows, 1, summary(p))
		assert.Equal(t, fee, p.Rows[0].Text("delivery"), "%s: %s", words, summary(p))
		assert.Empty(t, p.Delivery, summary(p))
	}
}

// TestPerPallet takes what a pallet holds for a load where delivery is paid by the pallet.
func TestPerPallet(t *testing.T) {
	for _, words := range []string{"36 bags on one pallet", "36 bags on each pallet", "36 bags fit on a pallet"} {
		p, err := Parse("Low Ford Quarry: lava in 50 L bags, $13.90 each. Transport is $95 per pallet, with "+words+".", Options{Delivery: true})
		require.NoError(t, err)
		requireSound(t, p)
		require.Len(t, p.Delivery, 1, summary(p))
		assert.Equal(t, "$95", p.Delivery[0].Text("load_fee"))
		assert.Equal(t, "1800 L", p.Delivery[0].Text("load_volume"), summary(p))
	}
}

// TestNoNameOfMoney takes no amount behind the word for a price for the name of a supplier.
func TestNoNameOfMoney(t *testing.T) {
	for _, price := range []string{"Price: 74.00 EUR/m3, loose", "Price: EUR 74.00 per m3"} {
		p, err := Parse("Product: pumice\n"+price+"\nFreight: 180.00 EUR per truck of 25 m3\n\nLow Ford Quarry", Options{Delivery: true})
		require.NoError(t, err)
		requireSound(t, p)
		require.Len(t, p.Rows, 1, summary(p))
		assert.Equal(t, "EUR 74.00", p.Rows[0].Text("price"), summary(p))
		assert.Equal(t, "Low Ford Quarry", p.Rows[0].Text("supplier"), summary(p))
		require.Len(t, p.Delivery, 1, summary(p))
		assert.Equal(t, "25 m3", p.Delivery[0].Text("load_volume"))
	}
}

// TestSaidInOtherWords reads the same things as they are said less often, each with the cells of the rows that must come out.
func TestSaidInOtherWords(t *testing.T) {
	for text, cells := range map[string]string{
		// lines of a list that ends without full stops, and names with a letter too many
		"expanded shale 40L bag 21.00 ea, take any, 36+ 18.25 ea\npearlite 3 cf bag 24.00\nLow Ford Quarry": "0 breaks=36: 18.25; 0 medium=expanded shale; 1 medium=perlite; 1 price=24.00; 1 breaks=",
		// the packs that a break counts
		"Low Ford Quarry: lava in bulk bags of 1 m3 at $120 each, and in 25 L bags at $9 each. If you take 40 or more of the 25 L bags, they are $8 each.": "0 breaks=; 1 pack=25 L; 1 breaks=40: $8",
		"Low Ford Quarry: lava 25 L bag is $9, get 20 and its $8 each":                                                                                     "0 price=$9; 0 breaks=20: $8",
		"Low Ford Quarry: lava 25 L bag, $9. Should you order 30 bags or more, the price comes down to $8.":                                                "0 price=$9; 0 breaks=30: $8",
		"Low Ford Quarry: lava 25 L bag, $9. Grab 20 bags, leave 10 for me":                                                                                "0 price=$9; 0 breaks=",
		// what is priced stands in front of its name
		"A ton of the granite will set you back $52, and a ton of basalt, $58. Low Ford Quarry":                          "0 medium=crushed granite; 0 pack=1 ton; 0 price=$52; 1 medium=crushed basalt; 1 pack=1 ton; 1 price=$58",
		"Low Ford Quarry. We have a ton of granite, $9 a 20 kg bag":                                                      "0 pack=20 kg; 0 price=$9",
		"Low Ford Quarry. Lava, 20 mm, is available in 25 L bags at $9 each":                                             "0 item=Lava; 0 medium=lava rock; 0 price=$9; 0 size=20 mm",
		"Low Ford Quarry. The basalt chips are $60 per bulk bag of 800 kg. The same chips in bags of 20 kg cost $4 each": "0 pack=800 kg; 1 medium=crushed basalt; 1 pack=20 kg; 1 price=$4",
		"Low Ford Quarry. Lava is $96 a bulk bag, they hold 1 m3 each":                                                   "0 form=sack; 0 pack=1 m3; 0 price=$96",
		"Low Ford Quarry. Lava comes on pallets, 40 bags of 30 L on each. A bag is $9":                                   "0 pack=30 L; 0 price=$9",
		"Low Ford Quarry. Pumice 50 L bag, $36.00\n40 bags (one pallet) and up: $29.25":                                  "0 breaks=40: $29.25",
		"Low Ford Quarry. Pumice: $14.50 per 40 L bag. Pallet qty (35) $12.90/bag.":                                      "0 price=$14.50; 0 breaks=35: $12.90",
		"Low Ford Quarry. Lava 3/4 in is $92 a yard, 3 yards least we'll sell":                                           "0 min_qty=3",
		"Low Ford Quarry. Lava, 50 L bags, $9 each. Got 60 of em.":                                                       "0 max_qty=60",
		// what holds for each of several
		"Low Ford Quarry. Lava $92 a yard, pumice $85 a yard, 2 yd min on each. Both are sieved to half an inch.": "0 min_qty=2; 1 min_qty=2; 0 size=1/2 in; 1 size=1/2 in",
		"Low Ford Quarry. Lava 3/4 in $92 a yard, pumice $85 a yard. Both are sieved to half an inch.":            "0 price=$92; 1 price=$85; 1 size=1/2 in",
		"Low Ford Quarry here. You asked about 3/8 in pumice & 1 in lava. Pumice is $85 a yard, lava $92 a yard":  "0 medium=pumice; 0 size=3/8 in; 1 medium=lava rock; 1 size=1 in",
		"Low Ford Quarry. Lava $9 a 50 L bag. Pumice - $8 a 50 L bag - ... - min 2 bags. Pea gravel, $20 a yard":  "0 min_qty=; 1 price=$8",
		"We burn shale in the number 2 kiln, and the 3/8 in expanded shale is $72 a yard. Low Ford Quarry":        "0 size=3/8 in; 0 price=$72",
		"Low Ford Quarry. We deal in lava and nothing else. The 3/4 in grade is $92 a yard":                       "0 medium=lava rock; 0 price=$92; 0 size=3/4 in",
		// stock, brought goods, days and taxes
		"Low Ford Quarry. Lava 25 L bag $9, we got 14 left and no we dont split pallets":                                                          "0 max_qty=14; 0 price=$9",
		"Low Ford Quarry. Lava 25 L bag 9,00 €. We bring it to the school with 25 euro.":                                                          "0 delivery=€25",
		"Low Ford Quarry. Lava 25 L bag 9,00 €. We bring it with 25 bags.":                                                                        "0 delivery=",
		"Low Ford Quarry      Date: 30/04/2026\nLava 25 L bag 9,00 €, FPA 24% is extra\nValidity of the tender: 20 days":                          "0 tax=24%; 0 valid_until=2026-05-20",
		"Low Ford Quarry: lava $92 a yard\n\nHigh Fell Stone: lava $95 a yard\n\nBoth of them charge 6.5% sales tax on top.":                      "0 tax=6.5%; 1 tax=6.5%",
		"Low Ford Quarry. One bag of lava, 50 L, is $17 and from 24 bags it is $15 a bag. Carriage is $49 for one pallet or $79 for two pallets.": "0 price=$17; 0 breaks=24: $15; 0 delivery=",
		"Lava 9,00 € a 25 L bag.\n\nPlease accept our best greetings,\nMaud Quint\nComptoir du Vieux Pont\n12 bis, rue des Bois":                  "0 supplier=Comptoir du Vieux Pont",
	} {
		wantCells(t, text, cells)
	}
	p, err := Parse("Low Ford Quarry. Lava 25 L bag $9. We deliver for $60. The least order we can bring is $200.", Options{Delivery: true})
	require.NoError(t, err)
	require.Len(t, p.Delivery, 1, summary(p))
	assert.Equal(t, "$200", p.Delivery[0].Text("min_order"), summary(p))
}

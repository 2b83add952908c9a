package message

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/quotes/files"
)

// TestLeftovers asks about what no rule reads, and enters nothing of it before it is answered.
func TestLeftovers(t *testing.T) {
	for _, c := range []struct {
		name, text string
		file       string
		cells      map[string]string // what the first answer of one question sets
	}{
		{"a load behind its fee", "Low Ford Quarry: lava 68 a yard. Our single axle holds 8 cubic yards and we bill $85 for every trip it makes.", "delivery.csv",
			map[string]string{"load_fee": "$85", "load_volume": "8 yd3", "supplier": "Low Ford Quarry"}},
		{"both a weight and a volume", "Low Ford Quarry: lava 68 a yard. The tri-axle brings 20 tonnes of stone or 14 yards of lava and it's $155 a trip either way.", "delivery.csv",
			map[string]string{"load_fee": "$155", "load_volume": "14 yd3", "load_weight": "20 tonne", "supplier": "Low Ford Quarry"}},
		{"a fee that is waived", "Low Ford Quarry: lava £9 for a 50 litre bag. Carriage is £6.50 and we scrap that above £90.", "delivery.csv",
			map[string]string{"order_fee": "£6.50", "free_over": "£90", "supplier": "Low Ford Quarry"}},
		{"a sum for several yards", "Low Ford Quarry: 4 yards of 3/4\" lava for $387 delivered.", "quotes.csv",
			map[string]string{"item": "lava", "medium": "lava rock", "pack": "1 yd3", "price": "$96.75", "size": "3/4 in", "supplier": "Low Ford Quarry"}},
		{"a truck that goes out", "Low Ford Quarry: lava 68 a yard. If we haul it, it's $65 a run and the wagon tops out at 8 yards.", "delivery.csv",
			map[string]string{"load_fee": "$65", "load_volume": "8 yd3", "supplier": "Low Ford Quarry"}},
		{"a driver", "Low Ford Quarry: lava $9 for a 50 litre bag. Our driver comes by on Mondays for a flat $26.", "delivery.csv", map[string]string{"order_fee": "$26", "supplier": "Low Ford Quarry"}},
		{"so many at a time", "Low Ford Quarry: lava in 1 cubic metre bulk bags, £95 each. We bring 3 at once on the trailer, £35 a run.", "delivery.csv", map[string]string{"load_volume": "3 m3"}},
		{"for each bag", "Low Ford Quarry: lava $255 per bulk bag of 1 m3. Loose is $218 per m3. Cartage: loose $180 per load of 16 m3; bags $30 per bag.", "delivery.csv",
			map[string]string{"load_fee": "$30", "load_volume": "1 m3", "covers": "sack", "name": "sack", "supplier": "Low Ford Quarry"}},
		{"for loads of what is loose", "Low Ford Quarry: lava $255 per bulk bag of 1 m3. Loose is $218 per m3. Cartage: loose $180 per load of 16 m3; bags $30 per bag.", "delivery.csv",
			map[string]string{"load_fee": "$180", "load_volume": "16 m3", "covers": "bulk", "name": "bulk", "supplier": "Low Ford Quarry"}},
		{"for loads of so many bags", "Low Ford Quarry: lava loose £86 per m3. Lava in 1 m3 bulk bags £104 each. Loose lava travels by tipper at £150 per load of 20 m3. Bags travel by hiab at £66 per load of 5 bags.", "delivery.csv",
			map[string]string{"load_fee": "£66", "load_volume": "5 m3", "covers": "sack", "name": "sack", "supplier": "Low Ford Quarry"}},
		{"for each ton", "Low Ford Quarry: granite £41 /t\n\nDelivered: add £7.20 per tonne", "delivery.csv", map[string]string{"load_fee": "£7.20", "load_weight": "1 tonne", "supplier": "Low Ford Quarry"}},
		{"by how far it is", "Low Ford Quarry: pumice £18 for a 50 litre bag.\n\nDelivery charges by distance:\nUp to 15 miles: £38\n16 to 40 miles: £62\nOver 40 miles: £90", "delivery.csv", map[string]string{"order_fee": "£38", "supplier": "Low Ford Quarry"}},
		{"fees in a list", "Low Ford Quarry: lava $90 a yard\n\nDelivery fees\n1 to 5 yards $60\n6 to 10 yards $95", "delivery.csv", map[string]string{"load_fee": "$95", "load_volume": "10 yd3", "name": "truck", "supplier": "Low Ford Quarry"}},
		{"the least order for it", "Low Ford Quarry: lava $90 a yard. Local drop is $65. Min. order for delivery $150.", "delivery.csv", map[string]string{"order_fee": "$65", "min_order": "$150", "supplier": "Low Ford Quarry"}},
		{"at no charge", "Low Ford Quarry: lava $9 for a 50 litre bag. Orders of $180 or more ship at no charge; below that we bill a flat $16.50.", "delivery.csv",
			map[string]string{"order_fee": "$16.50", "free_over": "$180", "supplier": "Low Ford Quarry"}},
		{"the carriage is theirs", "Low Ford Quarry: lava £9 for a 50 litre bag. By post it is £10 per consignment; should the goods come to £110 we bear the carriage ourselves.", "delivery.csv",
			map[string]string{"order_fee": "£10", "free_over": "£110", "supplier": "Low Ford Quarry"}},
		{"the least order", "Low Ford Quarry: lava $68 a yard. Any order below $200 is turned away. Our truck is $85 a trip and takes 9 yards.", "delivery.csv", map[string]string{"min_order": "$200"}},
		{"one of two places", "Low Ford Quarry: lava $9 for a 50 litre bag. A courier in the city is $13 per order and rural is $27 per order.", "delivery.csv",
			map[string]string{"order_fee": "$13", "supplier": "Low Ford Quarry"}},
		{"to post", "Low Ford Quarry: lava in 40 litre bags at £15.50, and they cost £6.95 to post, however many.", "delivery.csv", map[string]string{"order_fee": "£6.95", "supplier": "Low Ford Quarry"}},
		{"what a truck is built for", "Low Ford Quarry: lava 68 a yard. Half a yard we load as well. Haulage is $75 per load and the truck is built for 9 yards of lava.", "delivery.csv",
			map[string]string{"load_fee": "$75", "load_volume": "9 yd3", "supplier": "Low Ford Quarry"}},
		{"no more than", "Low Ford Quarry: granite 31 a ton. I get $95 to bring a load and I never put more than 11 ton on her.", "delivery.csv",
			map[string]string{"load_fee": "$95", "load_weight": "11 ton", "supplier": "Low Ford Quarry"}},
		{"the least loaded beside it", "Low Ford Quarry: granite £31 a tonne. Least we load is 3 tonnes of a size. Our wagon takes 14 tonnes and it's £84 a run.", "quotes.csv",
			map[string]string{"min_qty": "3"}},
		{"the smallest that is loaded", "Low Ford Quarry: granite $29 a ton. Smallest amount we'll load is 2 tons. $50 a load to bring it, and 6 tons makes a load.", "quotes.csv",
			map[string]string{"min_qty": "2"}},
		{"what is loose goes out, and each tote", "Low Ford Quarry: lava $129 per yard loose, or $164 per one-yard tote. Loose goes out at $90.00 a load (8 yards), totes at $40.00 a tote.", "delivery.csv",
			map[string]string{"load_fee": "$40.00", "load_volume": "1 yd3", "covers": "sack", "name": "sack", "supplier": "Low Ford Quarry"}},
		{"what is loose travels", "Low Ford Quarry: lava $129 per yard loose, or $164 per one-yard tote. Loose travels at $90 a trip (8 yards max), totes $40 each.", "delivery.csv",
			map[string]string{"load_fee": "$90", "load_volume": "8 yd3", "covers": "bulk", "name": "bulk", "supplier": "Low Ford Quarry"}},
		{"a load for less than a yard of it", "Low Ford Quarry: lava 139 a yard. 70 a load, 5 yrds.", "delivery.csv", map[string]string{"load_fee": "70", "load_volume": "5 yd3", "supplier": "Low Ford Quarry"}},
		{"a load for less than a yard of it, behind a dash", "Low Ford Quarry\nlava a hundred and fifty a yard - eighty bucks a load, four yards on it - back Wed", "delivery.csv", map[string]string{"load_fee": "$80", "load_volume": "4 yd3", "supplier": "Low Ford Quarry"}},
		{"they get so much on", "Low Ford Quarry: granite £34 a tonne. It's £50 a load and I get ten tonne on.", "delivery.csv", map[string]string{"load_fee": "£50", "load_weight": "10 tonne", "supplier": "Low Ford Quarry"}},
		{"quarters", "Low Ford Quarry: lava $68 a yard. We're happy to sell you quarter yards.", "quotes.csv", map[string]string{"step": "0.25"}},
		{"an order minimum", "Low Ford Quarry: lava $68 a yard. Delivery for your zip code is $6.50 per yard with a $120 order minimum.", "delivery.csv", map[string]string{"haul": "$6.50 / yd3", "min_order": "$120", "supplier": "Low Ford Quarry"}},
		{"by volume or by weight", "Low Ford Quarry\nlava $68 a yard\nDelivery $95 per load. A load is 10 yards or 14 tons.", "delivery.csv", map[string]string{"load_weight": "14 tons"}},
		{"a line for bags and one for bulk", "Low Ford Quarry\nlava $129 per yard loose\nlava $12 per 1 cu ft bag\nBag delivery per order $20.00\nBulk delivery (6 yd truck) per load $85.00", "delivery.csv",
			map[string]string{"load_fee": "$85.00", "load_volume": "6 yd3", "covers": "bulk", "name": "bulk", "supplier": "Low Ford Quarry"}},
		{"bulk bags beside small ones", "Low Ford Quarry: lava $255 per bulk bag of 1.5 m3, pumice $12 per 50 L bag. Freight by crane truck is $170 per trip, four bulk bags per trip.", "delivery.csv",
			map[string]string{"load_volume": "6 m3"}},
		{"so many a go", "Low Ford Quarry: lava in dumpy bags of half a cube at £79 each. £28 on the van and she'll take 3 bags a go.", "delivery.csv",
			map[string]string{"load_fee": "£28", "load_volume": "1.5 m3", "supplier": "Low Ford Quarry"}},
		{"per piece", "Low Ford Quarry: lava loose £86 per m3. Lava in 1 m3 bulk bags £104 each. Freight loose: £150 per tipper with 20 m3. Freight bulk bags: £41 per piece.", "delivery.csv",
			map[string]string{"load_fee": "£41", "load_volume": "1 m3", "covers": "sack", "name": "sack", "supplier": "Low Ford Quarry"}},
		{"the other kind of pack", "Low Ford Quarry: lava loose £86 per m3. Lava in 1 m3 bulk bags £104 each. The tipper moves 20 m3 and costs £150. For bulk bags the transport costs £41 per bag.", "delivery.csv",
			map[string]string{"load_fee": "£150", "load_volume": "20 m3", "covers": "bulk", "name": "bulk", "supplier": "Low Ford Quarry"}},
		{"each of two trucks", "Low Ford Quarry: lava in 1.5 yd super sacks at $149 a sack, or loose $78 per yard. The tipper takes 14 yards loose at $150 a load. The lorry takes 6 sacks at $170 a load.", "delivery.csv",
			map[string]string{"load_fee": "$170", "load_volume": "9 yd3", "covers": "sack", "name": "sack", "supplier": "Low Ford Quarry"}},
		{"so many to a lorry", "Low Ford Quarry: lava in 1.5 yd super sacks at $149 a sack, or loose $78 per yard. Sacks go six to a lorry at $120 a trip. Loose rides in a semi, 22 yards, at $240 a trip.", "delivery.csv",
			map[string]string{"load_fee": "$240", "load_volume": "22 yd3", "covers": "bulk", "name": "bulk", "supplier": "Low Ford Quarry"}},
		{"under a head for bringing", "Low Ford Quarry: lava in 1.5 yd super sacks at $149 a sack, or loose $78 per yard. Getting it to you: sacks $35 each. Loose, $140 a load, a load is 14 yards.", "delivery.csv",
			map[string]string{"load_fee": "$140", "load_volume": "14 yd3", "covers": "bulk", "name": "bulk", "supplier": "Low Ford Quarry"}},
		{"in brackets", "Low Ford Quarry\nLava loose: £86.00 per m3\nLava, big bag 1 m3: £104.00 each\nFreight tipper 22 m3 (loose): £150.00 per load\nFreight big bag: £41.00 per big bag", "delivery.csv",
			map[string]string{"load_fee": "£150.00", "load_volume": "22 m3", "covers": "bulk", "name": "bulk", "supplier": "Low Ford Quarry"}},
		{"licensed for", "Low Ford Quarry: granite $44 a ton. $90 a load. We are licensed for 10 tons.", "delivery.csv", map[string]string{"load_fee": "$90", "load_weight": "10 tons", "supplier": "Low Ford Quarry"}},
		{"a go", "Low Ford Quarry: lava in 1 m3 bulk bags at $118. The truck's $30 a go and she can't take more than three bags.", "delivery.csv",
			map[string]string{"load_fee": "$30", "load_volume": "3 m3", "supplier": "Low Ford Quarry"}},
		{"one of two trips", "Low Ford Quarry: lava 50 L bag $9. To get it to you is $40 or $55 a trip, hangs on the boat.", "delivery.csv", map[string]string{"load_fee": "$40", "supplier": "Low Ford Quarry"}},
		{"what they charge", "Low Ford Quarry: lava $80 a yard. They charge seventy dollars a load and put six yards on it.", "delivery.csv", map[string]string{"load_fee": "$70", "load_volume": "6 yd3", "supplier": "Low Ford Quarry"}},
		{"in town", "Low Ford Quarry: lava 128 a yd. tandem hauls 14 yd thats 110 in town", "delivery.csv", map[string]string{"load_fee": "110", "load_volume": "14 yd3", "supplier": "Low Ford Quarry"}},
		{"a fiver", "Low Ford Quarry: lava 50 L bags $9. I can run it round for a fiver.", "delivery.csv", map[string]string{"order_fee": "5", "supplier": "Low Ford Quarry"}},
		{"they do not mind", "Low Ford Quarry: lava 50 L bags $9. $25 a drop and I don't mind whether it's one bag or six.", "delivery.csv", map[string]string{"order_fee": "$25", "supplier": "Low Ford Quarry"}},
		{"a value and a fee below it", "Low Ford Quarry: lava $9 for 50 L bag. If your order makes $200 the carriage is on us, below that add $12.", "delivery.csv", map[string]string{"order_fee": "$12", "free_over": "$200", "supplier": "Low Ford Quarry"}},
		{"up to so many bags", "Low Ford Quarry: lava in 1 m3 bulk bags $118. $75 for up to 6 bags delivered.", "delivery.csv", map[string]string{"load_fee": "$75", "load_volume": "6 m3", "supplier": "Low Ford Quarry"}},
		{"once you pass", "Low Ford Quarry: lava 50 L bag $9. Shipping $14, free shipping once you pass $150.", "delivery.csv", map[string]string{"order_fee": "$14", "free_over": "$150", "supplier": "Low Ford Quarry"}},
		{"a bill", "Low Ford Quarry: lava 50 L bag $9. Deliver Fridays in town $15, no charge when your bill's $120 or up.", "quotes.csv", map[string]string{"free_over": "$120"}},
		{"for each yard", "Low Ford Quarry: lava $80 a yard. To bring it across I get 9/yd.", "delivery.csv", map[string]string{"haul": "9 / yd3", "supplier": "Low Ford Quarry"}},
		{"no matter", "Low Ford Quarry: lava $9 for a 50 litre bag. $38 shipping no matter how many you get.", "delivery.csv", map[string]string{"order_fee": "$38", "supplier": "Low Ford Quarry"}},
		{"a fee that goes away", "Low Ford Quarry: lava $9 for a 50 litre bag. Shipping is $18 flat and it disappears once your order hits $210.", "delivery.csv",
			map[string]string{"order_fee": "$18", "free_over": "$210", "supplier": "Low Ford Quarry"}},
		{"free in a line of its own", "Low Ford Quarry: lava $9 for a 50 litre bag.\n\nShipping (metro): $14.00 per order\nOrders over $190: free shipping", "delivery.csv",
			map[string]string{"order_fee": "$14.00", "free_over": "$190", "supplier": "Low Ford Quarry"}},
		{"an order carried", "Low Ford Quarry: lava $9 for a 50 litre bag. I'll carry an order to town for $12, and for nothing if it comes to $140 or better.", "delivery.csv",
			map[string]string{"order_fee": "$12", "free_over": "$140", "supplier": "Low Ford Quarry"}},
		{"what foams", "Low Ford Quarry: granite 36 a ton, limestone 24 a ton. Mind that the limestone foams as soon as vinegar touches it.", "quotes.csv", map[string]string{"carbonate": "fizzed"}},
		{"what did not react", "Low Ford Quarry: granite 36 a ton, limestone 24 a ton. The limestone will react with acid; the granite did not in our test.", "quotes.csv", map[string]string{"carbonate": "none"}},
		{"a question about acid", "Low Ford Quarry: granite is 36 a ton.\nDoes it react with acid? No. We tested it and nothing happened.", "quotes.csv", map[string]string{"carbonate": "none"}},
		{"no acid test", "Low Ford Quarry: granite 36 a ton, basalt 34 a ton\nAcid test: not done", "quotes.csv", map[string]string{"carbonate": "untested"}},
		{"no acid test known of", "Low Ford Quarry: granite is 36 a ton. It has never been acid tested that I know of.", "quotes.csv", map[string]string{"carbonate": "untested"}},
		{"what a yard weighs", "Low Ford Quarry: granite is $36 a ton. A yard of it weighs right around 2500 lbs.", "quotes.csv", map[string]string{"density": "2500 lbs/yd3"}},
		{"what makes a yard", "Low Ford Quarry: granite is $36 a ton. Figure on 1.3 tons of it to fill a yard.", "quotes.csv", map[string]string{"density": "1.3 tons/yd3"}},
		{"halves", "Low Ford Quarry: lava 68 a yard. Loaded by the half yard if you like.", "quotes.csv", map[string]string{"step": "0.5"}},
		{"the fewest", "Low Ford Quarry: granite $31 a ton. There's a 2-ton minimum.", "quotes.csv", map[string]string{"min_qty": "2"}},
		{"all there are", "Low Ford Quarry: pumice 9 for a 50 litre bag. Currently 133 bags in the warehouse.", "quotes.csv", map[string]string{"max_qty": "133"}},
		{"a tax not in the prices", "Low Ford Quarry: lava 68 a yard. Tax (6.75%) is not figured in.", "quotes.csv", map[string]string{"tax": "6.75%"}},
		{"the largest loads", "Low Ford Quarry: lava 68 a yard. Haulage: up to 3 yards $30, up to 7 yards $50, over that $75.", "delivery.csv", map[string]string{"load_fee": "$75", "name": "truck", "supplier": "Low Ford Quarry"}},
		{"the largest loads by what they hold", "Low Ford Quarry: lava 68 a yard. Delivery $30 up to 3 tons, $50 from 3 to 7 tons, $75 over 7 tons.", "delivery.csv", map[string]string{"load_fee": "$75", "name": "truck", "supplier": "Low Ford Quarry"}},
		{"a fee and another on top of it", "Low Ford Quarry: lava 68 a yard. Trucking $80 a load plus $9.50 fuel surcharge per load.", "delivery.csv", map[string]string{"load_fee": "$89.50", "supplier": "Low Ford Quarry"}},
		{"halves of another thing", "Low Ford Quarry: gravel 38 a ton. Lava 68 a yard. We load gravel, no, all in half tons, and half yards for the lava.", "quotes.csv", map[string]string{"step": "0.5"}},
		{"a price taken back", "Low Ford Quarry: gravel is 38 a ton. Scratch that. Lava is 68 a yard.", "quotes.csv", map[string]string{"supplier": "Low Ford Quarry", "item": "gravel", "medium": "river gravel", "pack": "1 ton", "price": "38"}},
		{"a price said anew", "Low Ford Quarry: lava is 68 a yard. Wait, no, 71.", "quotes.csv", map[string]string{"supplier": "Low Ford Quarry", "item": "lava", "medium": "lava rock", "pack": "1 yd3", "price": "68"}},
		{"a day", "Low Ford Quarry: lava 68 a yard. Prices to 30th June 2026.", "quotes.csv", map[string]string{"valid_until": "2026-06-30"}},
		{"a break", "Low Ford Quarry: lava 36 for a 50 litre bag. It drops to 31 each if u get 15.", "quotes.csv", map[string]string{"breaks": "15: 31"}},
		{"a second pack", "Low Ford Quarry: Yup we do pumice, 165 a yard loose. Or $190 in a 2 m3 tote.", "quotes.csv",
			map[string]string{"supplier": "Low Ford Quarry", "item": "pumice", "medium": "pumice", "pack": "2 m3", "price": "$190", "form": "sack"}},
		{"a few packs in brackets", "Low Ford Quarry: granite grit, 50 lb, $11.40 (15 bags)", "quotes.csv", map[string]string{"max_qty": "15"}},
		{"packs had", "Low Ford Quarry: shell grit is $21.50 for the 20kg bag, he has 30.", "quotes.csv", map[string]string{"max_qty": "30"}},
		{"packs of a name cut short", "Low Ford Quarry: clay pebbles 45 L bag $33 each. Only 14 of the pebbles left.", "quotes.csv", map[string]string{"max_qty": "14"}},
		{"the smallest sale", "Low Ford Quarry: crushed basalt is $32.60 per ton. The smallest quantity we dispatch is 3 tons.", "quotes.csv", map[string]string{"min_qty": "3"}},
		{"what is needed", "Low Ford Quarry: lava is 68 a yard and we need five yards to open the silo.", "quotes.csv", map[string]string{"min_qty": "5"}},
		{"half of it", "Low Ford Quarry: red lava 3/4 in - $112 per cubic yard, or $60 a half", "quotes.csv",
			map[string]string{"supplier": "Low Ford Quarry", "item": "red lava", "medium": "lava rock", "pack": "0.5 yd3", "price": "$60", "size": "3/4 in"}},
		{"a break said later", "Low Ford Quarry: pumice in 40 litre bags at $17.90 and perlite in 50 litre bags at $46.50. Take ten bags of pumice and they are $15.90 each.", "quotes.csv",
			map[string]string{"breaks": "10: $15.90"}},
		{"a day of one of them", "Low Ford Quarry: lava 68 a yard. Perlite 46 for a 50 litre bag. What we ask for lava will stand until 30 June 2026.", "quotes.csv", map[string]string{"valid_until": "2026-06-30"}},
		{"a size of its own", "Good morning Mr Vale, the rates for your account are 10mm crushed granite at $53.00 per tonne and 20mm crushed granite at $49.50 per tonne, ex bin. The 10mm sits at 1.42 t/m3.\nLow Ford Quarry", "quotes.csv",
			map[string]string{"supplier": "Low Ford Quarry", "item": "crushed granite", "medium": "crushed granite", "pack": "1 tonne", "price": "$49.50", "size": "20 mm"}},
		{"decimals with commas", "Low Ford Quarry\nArt. 1001  Lava 10/20  big bag 1 m3  € 98,00\nArt. 1002  Pumice 8/16  big bag 1,5 m3  € 156,00", "quotes.csv",
			map[string]string{"supplier": "Low Ford Quarry", "item": "Pumice", "medium": "pumice", "form": "sack", "pack": "1.5 m3", "price": "€156.00", "size": "8/16"}},
		{"a name in small letters", "pumice 72 a yard, its thistlepump hydro here", "quotes.csv", map[string]string{"supplier": "thistlepump hydro"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			p, err := Parse(c.text, Options{Delivery: true})
			require.NoError(t, err)
			requireWhole(t, p)
			requireAnswers(t, p)
			at := -1
			for i, q := range p.Asked {
				if q.Readings[0].File == c.file && assert.ObjectsAreEqual(c.cells, q.Readings[0].Cells) {
					at = i
				}
			}
			require.GreaterOrEqual(t, at, 0, summary(p))
			got, err := p.Answer(at, 0)
			require.NoError(t, err)
			requireWhole(t, got)
			careful, err := p.Cautious()
			require.NoError(t, err)
			assert.Equal(t, len(p.Rows), len(careful.Rows), "no price enters by itself")
		})
	}
}

// TestCuts asks about what comes off each price, which is another in each row.
func TestCuts(t *testing.T) {
	for _, c := range []struct {
		text   string
		breaks [][]string // of each reading but the last, in each row
	}{
		{"Low Ford Quarry: lava comes in a 2 cu ft bag for $18.00 and a 6 cu ft bag for $44.00. Buy ten or more bags and we take 10% off.", [][]string{{"10: $16.20", "10: $39.60"}}},
		{"Low Ford Quarry\nPumice 4-10mm $84.00 per m3\nPumice 10-20mm $78.00 per m3\nBuy 6 m3 or more of any pumice and it comes down $6.00 a m3.", [][]string{{"6: $78", "6: $72"}}},
		{"Low Ford Quarry: lava 68 a yard, 10% off over 5 yards.", [][]string{{"5: 61.20"}, {"6: 61.20"}}},
	} {
		p, err := Parse(c.text, Options{Delivery: true})
		require.NoError(t, err)
		requireAnswers(t, p)
		require.Len(t, p.Asked, 1, summary(p))
		require.Len(t, p.Asked[0].Readings, len(c.breaks)+1, summary(p))
		for i, want := range c.breaks {
			got, err := p.Answer(0, i)
			require.NoError(t, err)
			requireWhole(t, got)
			for row, text := range want {
				assert.Equal(t, text, got.Rows[row].Text("breaks"))
			}
		}
		careful, err := p.Cautious()
		require.NoError(t, err)
		assert.Empty(t, careful.Rows[0].Text("breaks"))
	}
	p, err := Parse("Low Ford Quarry: lava 68 a yard. Terms are 2% off if paid within 10 days.", Options{})
	require.NoError(t, err)
	assert.Empty(t, p.Asked, "what comes off for paying early")
}

// TestPartOffDelivery lowers no price by a part that stands beside a fee.
func TestPartOffDelivery(t *testing.T) {
	for _, text := range []string{"Low Ford Quarry: lava, 20 a yard\nDelivery 90 10% off for 9", "Low Ford Quarry: lava 68 a yard. Delivery 90, 10% off delivery from 5 yards."} {
		p, err := Parse(text, Options{Delivery: true})
		require.NoError(t, err)
		require.Len(t, p.Rows, 1, summary(p))
		assert.Empty(t, p.Rows[0].Text("breaks"), summary(p))
	}
}

// TestNoTaxOnTopOfItself asks for no tax on top of prices that are said to hold it.
func TestNoTaxOnTopOfItself(t *testing.T) {
	for text, want := range map[string]bool{"Lava 68 a cube. Prices incl. the 21% VAT": false, "Lava 68 a cube. Prices don't include the 8.25% sales tax": true} {
		p, err := Parse(text, Options{Delivery: true})
		require.NoError(t, err)
		asked := false
		for _, q := range p.Asked {
			asked = asked || q.Readings[0].Cells["tax"] != ""
		}
		assert.Equal(t, want, asked || p.Rows[0].Text("tax") != "", summary(p))
	}
}

// TestRivalRows leaves prices to a person that may say something of another row.
func TestRivalRows(t *testing.T) {
	for _, c := range []struct {
		name, text string
		prices     []string // of the rows
	}{
		{"a lower price of the same pack", "We stock clay pellets in the 50 L bag, $41.25. For six and over, the clay drops to $38.60.", []string{"$41.25"}},
		{"another kind", "Red lava is 96 a yard. Black lava is 88 a yard.", []string{"96", "88"}},
		{"no pack", "Pumice, big bag 1 m³: 118 €. From 6 big bags: pumice 112 €", []string{"€118"}},
		{"what is sent for free", "Clay pebbles in bags of 50 litres, €17.40. Sending costs €8,50, above €90 we send for free.", []string{"€17.40"}},
		{"a sentence without goods", "Scoria 78 a cube, pea gravel 93 a cube. We cart it for 14.50 a cube.", []string{"78", "93"}},
		{"in place of another", "Clay pebbles 50L $36 a bag.\n\nsorry 38 not 36 on the clay", nil},
		{"an order line", "Clay pebbles, 50 L bag  $33.49  x 6  $200.94", []string{"$33.49"}},
		{"an order in words", "Coarse perlite 100L x 2 at $40.95 each", []string{"$40.95"}},
		{"packs of what is not known", "16 bags of pumice, 20 litres each, at £7.50 a bag, and 9 bags of akadama, 14 litres, at £19 a bag.", []string{"£7.50", "£19"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			p, err := Parse(c.text, Options{Delivery: true})
			require.NoError(t, err)
			requireWhole(t, p)
			var got []string
			for _, row := range p.Rows {
				if row.Text("price") != "" {
					got = append(got, row.Text("price"))
				}
				assert.False(t, row.Text("item") == "akadama" && row.Text("medium") != "", "it is no pumice")
			}
			assert.Equal(t, c.prices, got, summary(p))
		})
	}
}

// TestFeeOfPricedGoods asks whether a price beside words for bringing goods, that have prices, is a fee.
func TestFeeOfPricedGoods(t *testing.T) {
	p := readRows(t, "Low Ford Quarry. Shingle, $42 a ton loose or $58 a bulk bag (850 kg). Loose comes on a tipper, $35 drop.", "USD")
	require.Len(t, p.Rows, 2)
	assert.Equal(t, "$58", p.Rows[1].Text("price"))
	require.Len(t, p.Asked, 1)
	assert.Equal(t, map[string]string{"supplier": "Low Ford Quarry", "name": "bulk", "covers": "bulk", "load_fee": "$35"}, p.Asked[0].Readings[0].Cells)
}

// TestOwnNamesFirst has a job's own medium come before the names that only messages know.
func TestOwnNamesFirst(t *testing.T) {
	own := "medium,other_names,dry_density,held_water,voids,feel,carbonate,breaks_down,rinse_loss,settle,rinse_minutes\npebbles,,1500 kg/m3,0.06,0.35,smooth,none,no,1%,5%,15\n"
	for media, want := range map[string]string{"": "river gravel", own: "pebbles"} {
		opt := Options{Delivery: true}
		if media != "" {
			opt.Media = files.Source{Name: "media.csv", R: strings.NewReader(media)}
		}
		p, err := Parse("Pebbles 60 a yard", opt)
		require.NoError(t, err)
		require.Len(t, p.Rows, 1)
		assert.Equal(t, want, p.Rows[0].Text("medium"))
	}
}

// TestAskNames asks whose message it is by a name that nothing but its capitals and its place tells, never by a buyer's or a place's.
func TestAskNames(t *testing.T) {
	for text, want := range map[string][]string{
		"Lava $68 a yard.\n\nKind regards\nColle del Merlo Grigio":                   {"Colle del Merlo Grigio"},
		"Lava 7/12, 30 litre bag 9 euro. Ciao Berto, Orticola Noce Alta":             {"Orticola Noce Alta"},
		"Perlite 100 L bag 16 €. See you at stall 7. Ana, Mali vrtek Pod Lipo":       {"Mali vrtek Pod Lipo"},
		"GARDEN HUT NEWS - Mossy Bank Plot Circle\n\nPerlite 100 L £17 a bag":        {"Mossy Bank Plot Circle"},
		"Lava 68 a yard.\n\nGlenholm Reclaim, 7 Cooper Yard":                         {"Glenholm Reclaim"},
		"Hello Ines,\nlava 68 a yard.\nGreetings from the Weald,\nJo\nOtter Bridge":  {"Otter Bridge"},
		"Called Annie's about lava: 68 a yard":                                       {"Annie's"},
		"Lava 68 a yard. You load. Behind the old works, ask for Tamsin.":            {"Tamsin"},
		"Lava 68 a yard. Pick up from Otter Flat. Contact Tamsin":                    {"Otter Flat", "Tamsin"},
		"Wenna Trask has lava at 68 a yard. There's plenty":                          {"Wenna Trask"},
		"Dear Mr Trask, lava is 68 a yard, brought to Otter Bridge for 50. It's dry": nil,
	} {
		p, err := Parse(text, Options{Delivery: true})
		require.NoError(t, err)
		var got []string
		for _, q := range p.Asked {
			if strings.Contains(q.Question, "the supplier?") {
				for _, one := range q.Readings[:len(q.Readings)-1] {
					got = append(got, one.Label)
				}
			}
		}
		assert.Equal(t, want, got, "%s\n%s", text, summary(p))
	}
	// of two names the one that is answered is entered, and the other accounted for
	p, err := Parse("Wenna Trask has lava at 68 a yard. You may tell Gil Tanner", Options{})
	require.NoError(t, err)
	require.Len(t, p.Asked, 1, summary(p))
	got, err := p.Answer(0, 1)
	require.NoError(t, err)
	requireWhole(t, got)
	assert.Equal(t, p.Asked[0].Readings[1].Label, got.Rows[0].Text("supplier"))
	assert.Empty(t, got.Asked)
}

// TestOverAt takes nobody's goods for another's, of whom "over at" tells.
func TestOverAt(t *testing.T) {
	p, err := Parse("Pell Stone wants $52/yd for the 3/8 granite chips and $70 a load. Over at Otter Landscape it's lava for $57/yd.", Options{})
	require.NoError(t, err)
	require.NotEmpty(t, p.Rows)
	for _, r := range p.Rows {
		assert.NotEqual(t, "lava rock Pell Stone", r.Text("medium")+" "+r.Text("supplier"), summary(p))
	}
}

// TestSpokenPrices asks which of two amounts two numbers in words are.
func TestSpokenPrices(t *testing.T) {
	p, err := Parse("Low Ford Quarry: the pumice is one nineteen a yard", Options{})
	require.NoError(t, err)
	require.Len(t, p.Asked, 1, summary(p))
	assert.Equal(t, []string{"119 for 1 yd3", "1.19 for 1 yd3", "leave it out"}, []string{p.Asked[0].Readings[0].Label, p.Asked[0].Readings[1].Label, p.Asked[0].Readings[2].Label})
	got, err := p.Answer(0, 0)
	require.NoError(t, err)
	requireWhole(t, got)
	assert.Equal(t, "119", got.Rows[0].Text("price"))
}

// TestAskMoreWords asks what stands in less usual words, and for what; each text lacks one thing alone.
func TestAskMoreWords(t *testing.T) {
	for text, want := range map[string]string{
		"Low Ford Quarry: lava 2 cu ft bag $8. Take ten or more and fifty cents comes off: 50 cents off each bag": "breaks=10: $7.50", // 8 - 0.50
		"Low Ford Quarry: lava 2 cu ft bag $8. Take 5% off at 6 bags and 10% off at 20 bags.":                     "breaks=6: $7.60; 20: $7.20",
		"Low Ford Quarry: lava $82 a yard. We sell it from 3 yards.":                                              "min_qty=3",
		"Low Ford Quarry: lava $82 a yard. Four yards or more please.":                                            "min_qty=4",
		"Low Ford Quarry: lava 2 cu ft bag $8, have 9.":                                                           "max_qty=9",
		"Low Ford Quarry: lava 2 cu ft bag $8, and if all of us reach 25 bags it drops to $7.":                    "breaks=25: $7",
		"Low Ford Quarry: lava 2 cu ft bag $8.00. Out of it now, more arriving 18 May 2031.":                      "ready_by=2031-05-18",
		"Low Ford Quarry: lava 2 cu ft bag $8. The rail car lands either 20 May 2031 or 27 May 2031.":             "ready_by=2031-05-20",
		"Low Ford Quarry: lava $82 a yard. GST 5% and PST 7% are both extra.":                                     "tax=12%",
		"Low Ford Quarry: lava $82 a yard. Wash it well, maybe 8% of it is dust.":                                 "rinse_loss=8%",
		"Low Ford Quarry: lava 2 cu ft bag $8, or $84 if you clear out all 12":                                    "breaks=12: $7", // 84 / 12
		"Low Ford Quarry: lava $8 a 2 cu ft bag. 24 bags of it earn 5% off.":                                      "breaks=24: $7.60",
		"Low Ford Quarry: lava is £3 a 5L bag and £13 a 25L bag. Only 7 of the 25s left.":                         "max_qty=7",
		"Low Ford Quarry: lava 2 cu ft bag $8, got 35 in.":                                                        "max_qty=35",
		"Low Ford Quarry\nLava, 3/8\"\n> loose: $82/yd\n> sack of 1.5 yd: $130":                                   "price=$130",
		"Low Ford Quarry: basalt, 800 kg bulk bag £118. Bulk bags to the kerbside £38 each.":                      "load_fee=£38",
		"Low Ford Quarry: lava 2 cu ft bag $8. 7 bags here right now.":                                            "max_qty=7",
	} {
		p, err := Parse(text, Options{Delivery: true})
		require.NoError(t, err)
		column, value, _ := strings.Cut(want, "=")
		found := slices.ContainsFunc(p.Rows, func(r Row) bool { return r.Text(column) == value })
		for i, q := range p.Asked {
			got, err := p.Answer(i, 0)
			require.NoError(t, err)
			requireWhole(t, got)
			found = found || q.Readings[0].Cells[column] == value
		}
		assert.True(t, found, "%s\n%s", text, summary(p))
	}
}

// What a row covers is said as what comes so: "for each bag" would read as a price for a bag.
func TestCoversInWords(t *testing.T) {
	p, err := Parse("Low Ford Quarry: lava $255 per bulk bag of 1 m3. Loose is $218 per m3. Cartage: loose $180 per load of 16 m3; bags $30 per bag.", Options{Delivery: true})
	require.NoError(t, err)
	var labels []string
	for _, q := range p.Asked {
		for _, r := range q.Readings {
			labels = append(labels, r.Label)
		}
	}
	assert.Contains(t, labels, "$30 for each load of up to 1 m3, for what comes in bulk bags")
}

// TestAskLoadSteps asks about the charge for each size of load in a list below a line that says what it is.
func TestAskLoadSteps(t *testing.T) {
	p, err := Parse("Low Ford Quarry\n\nShale $79.00 / cu yd\n\nHaulage, by size:\n  up to 2 yds   $40\n  3 to 7 yds    $65\n", Options{Delivery: true})
	require.NoError(t, err)
	requireSound(t, p)
	var got []string
	for _, q := range p.Asked {
		got = append(got, q.Readings[0].Label)
	}
	assert.Equal(t, []string{"$40 for each load of up to 2 yd3", "$65 for each load of up to 7 yd3"}, got, summary(p))
}

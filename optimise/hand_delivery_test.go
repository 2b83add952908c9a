package optimise

import (
	"mediabuy/quotes/files/jobtest"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestDeliveryByHand(t *testing.T) {
	const bagsOrBulk = "quote,supplier,medium,form,pack,price\na,Yard,grit,bag,50 L,20\nb,Quay,grit,bulk,1 m3,150\n"
	checkHand(t, []handJob{
		{
			// 10 bags: 200. A cubic metre: 150 + 60 = 210.
			name: "bags beat an order fee", quotes: bagsOrBulk, beds: "bed,volume\none,500 L\n", delivery: "supplier,order_fee\nYard,0\nQuay,60\n",
			total: "200.00", buy: "10 a",
		},
		{
			// 11 bags: 220; the cubic metre is still 210.
			name: "one bag more and they do not", quotes: bagsOrBulk, beds: "bed,volume\none,550 L\n", delivery: "supplier,order_fee\nYard,0\nQuay,60\n",
			total: "210.00", buy: "1 b",
		},
		{
			// 8 × 10 + 2 full loads of 400 L × 30 = 140.
			name: "loads by volume, exactly full", quotes: "quote,supplier,medium,pack,price\na,Yard,grit,100 L,10\n", beds: "bed,volume\none,800 L\n",
			delivery: "supplier,load_fee,load_volume\nYard,30,400 L\n", total: "140.00", buy: "8 a",
		},
		{
			// A litre more is a ninth pack and a third load: 90 + 90 = 180.
			name: "loads by volume, one litre over", quotes: "quote,supplier,medium,pack,price\na,Yard,grit,100 L,10\n", beds: "bed,volume\none,801 L\n",
			delivery: "supplier,load_fee,load_volume\nYard,30,400 L\n", total: "180.00", buy: "9 a",
		},
		{
			// 800 L of rock weigh 1600 kg: by volume one load, by weight two: 80 + 60.
			name: "loads by weight", quotes: "quote,supplier,medium,pack,price\na,Yard,rock,100 L,10\n", beds: "bed,volume\none,800 L\n",
			delivery: "supplier,load_fee,load_volume,load_weight\nYard,30,1000 L,1000 kg\n", total: "140.00", buy: "8 a",
		},
		{
			// 5 rock and 5 fluff: 1000 + 250 kg is two loads of 1000 kg, 1000 L one of
			// 1000 L: 100 + 60 = 160. Fluff in place of 2 more packs at 13: 3 × 10 + 7 × 13
			// = 121 and 950 kg, one load: 151. (4 + 6 is 1100 kg, two loads.)
			name: "a lighter mix saves a load", quotes: "quote,supplier,medium,pack,price\nr,Yard,rock,100 L,10\nf,Yard,fluff,100 L,13\n", beds: "bed,volume\none,1000 L\n",
			delivery: "supplier,load_fee,load_volume,load_weight\nYard,30,1000 L,1000 kg\n", total: "151.00", buy: "7 f; 3 r",
		},
		{
			// One load an order where loads have no size: 8 × 10 + 20 + 30 = 130.
			name: "a load without a size", quotes: "quote,supplier,medium,pack,price\na,Yard,grit,100 L,10\n", beds: "bed,volume\none,800 L\n",
			delivery: "supplier,order_fee,load_fee\nYard,20,30\n", total: "130.00", buy: "8 a",
		},
		{
			// Goods of 4 × 25 = 100.00 reach 100: nothing for delivery.
			name: "free_over exactly reached", quotes: "quote,supplier,medium,pack,price\na,Yard,grit,100 L,25\n", beds: "bed,volume\none,400 L\n",
			delivery: "supplier,order_fee,free_over\nYard,10,100\n", total: "100.00", buy: "4 a",
		},
		{
			// Goods move by whole 10s: 200 is short of 200.01, and the next pack makes 210
			// against 200 + 5.
			name: "free_over between two steps of the goods", quotes: "quote,supplier,medium,pack,price\na,Yard,grit,50 L,10\n", beds: "bed,volume\none,1000 L\n",
			delivery: "supplier,order_fee,free_over\nYard,5,200.01\n", total: "205.00", buy: "20 a",
		},
		{
			// A 21st pack reaches a smallest order of 200.01: 210 + 5.
			name: "min_order between two steps of the goods", quotes: "quote,supplier,medium,pack,price\na,Yard,grit,50 L,10\n", beds: "bed,volume\none,1000 L\n",
			delivery: "supplier,order_fee,min_order\nYard,5,200.01\n", total: "215.00", buy: "21 a",
		},
		{
			// 3 × 33.33 = 99.99 is a cent short: 109.99; a fourth would make 133.32.
			name: "free_over a cent short", quotes: "quote,supplier,medium,pack,price\na,Yard,grit,100 L,33.33\n", beds: "bed,volume\none,300 L\n",
			delivery: "supplier,order_fee,free_over\nYard,10,100\n", total: "109.99", buy: "3 a",
		},
		{
			// A fee of 40: the fourth pack for 33.33 saves it, 133.32 against 139.99.
			name: "a pack more to reach free_over", quotes: "quote,supplier,medium,pack,price\na,Yard,grit,100 L,33.33\n", beds: "bed,volume\none,300 L\n",
			delivery: "supplier,order_fee,free_over\nYard,40,100\n", total: "133.32", buy: "4 a",
		},
		{
			// free_over waives the order and both loads, not the haul of 800 L × 0.05:
			// 80 + 40 = 120.
			name: "haul is never waived", quotes: "quote,supplier,medium,pack,price\na,Yard,grit,100 L,10\n", beds: "bed,volume\none,800 L\n",
			delivery: "supplier,order_fee,load_fee,load_volume,haul,free_over\nYard,20,30,400 L,0.05 / L,80\n", total: "120.00", buy: "8 a",
		},
		{
			// Waived at 80 before the break price is counted, not after: 8 × 9 = 72 does
			// not reach it. 72 + 20 = 92; 9 × 9 = 81 does.
			name: "free_over counts the price reached", quotes: "quote,supplier,medium,pack,price,breaks\na,Yard,grit,100 L,10,5: 9\n", beds: "bed,volume\none,800 L\n",
			delivery: "supplier,order_fee,free_over\nYard,20,80\n", total: "81.00", buy: "9 a",
		},
		{
			// Haul goes by volume as sold: 5 packs of 100 L for 400 L placed: 40 + 500 × 0.02 = 50.
			name: "haul by volume as sold", quotes: "quote,supplier,medium,pack,price,rinse_loss\na,Yard,grit,100 L,8,20%\n", beds: "bed,volume\none,400 L\n",
			delivery: "supplier,haul\nYard,0.02 / L\n", total: "50.00", buy: "5 a",
		},
		{
			// a: 3 × 20 = 60 is below the smallest order of 100, so 5: 100. b: 3 × 32 = 96.
			name: "a smallest order turns to another", quotes: "quote,supplier,medium,pack,price\na,Yard,grit,100 L,20\nb,Quay,grit,100 L,32\n", beds: "bed,volume\none,300 L\n",
			delivery: "supplier,min_order\nYard,100\nQuay,0\n", total: "96.00", buy: "3 b",
		},
		{
			// At 34 b costs 102, so a's order is filled up to 100.
			name: "a smallest order is filled up", quotes: "quote,supplier,medium,pack,price\na,Yard,grit,100 L,20\nb,Quay,grit,100 L,34\n", beds: "bed,volume\none,300 L\n",
			delivery: "supplier,min_order\nYard,100\nQuay,0\n", total: "100.00", buy: "5 a",
		},
		{
			// The shorthand of quotes.csv is a row of its own: 3 × 20 + 15; 5 × 20 = 100 is free.
			name: "the shorthand", quotes: "quote,supplier,medium,pack,price,delivery,free_over\na,Yard,grit,100 L,20,15,100\n", beds: "bed,volume\none,300 L\n",
			total: "75.00", buy: "3 a",
		},
		{
			// 500 L of bulk and 200 L of bags. All by truck: 700 L are two loads of 500 L,
			// 80. Bulk by truck and bags by van: 40 + 10. Goods 60 + 4 × 10 = 100: 150.
			name: "bags by van, rock by truck", quotes: "quote,supplier,medium,form,pack,price\na,Yard,fluff,bag,50 L,10\nb,Yard,rock,bulk,500 L,60\n",
			beds: "bed,volume,only\none,200 L,fluff\ntwo,500 L,rock\n", delivery: "supplier,name,covers,order_fee,load_fee,load_volume\nYard,truck,all,0,40,500 L\nYard,van,bag,10,0,\n",
			total: "150.00", buy: "4 a; 1 b",
		},
		{
			// A truck of 700 L takes everything in one load: 40 beats 50. 100 + 40 = 140.
			name: "one truck for both", quotes: "quote,supplier,medium,form,pack,price\na,Yard,fluff,bag,50 L,10\nb,Yard,rock,bulk,500 L,60\n",
			beds: "bed,volume,only\none,200 L,fluff\ntwo,500 L,rock\n", delivery: "supplier,name,covers,order_fee,load_fee,load_volume,load_holds\nYard,truck,all,0,40,700 L,any\nYard,van,bag,10,0,,\n",
			total: "140.00", buy: "4 a; 1 b",
		},
		{
			// The same where a load of bulk carries one stone: the rock's load is 40, and the
			// bags come by van (10) for less than by a load of their own. 100 + 40 + 10 = 150.
			name: "a load of one stone", quotes: "quote,supplier,medium,form,pack,price\na,Yard,fluff,bag,50 L,10\nb,Yard,rock,bulk,500 L,60\n",
			beds: "bed,volume,only\none,200 L,fluff\ntwo,500 L,rock\n", delivery: "supplier,name,covers,order_fee,load_fee,load_volume\nYard,truck,all,0,40,700 L\nYard,van,bag,10,0,\n",
			total: "150.00", buy: "4 a; 1 b",
		},
		{
			// Two stones of 400 L: apart they take a load of 1 m3 each, 2 × 40 = 80; together
			// one. 40 + 60 + 80 = 180.
			name: "two gravels, two loads", quotes: "quote,supplier,medium,form,pack,price\na,Yard,fluff,bulk,100 L,10\nb,Yard,rock,bulk,100 L,15\n",
			beds: "bed,volume,only\none,400 L,fluff\ntwo,400 L,rock\n", delivery: "supplier,name,load_fee,load_volume\nYard,truck,40,1 m3\n",
			total: "180.00", buy: "4 a; 4 b",
		},
		{
			// Two sizes of one service: 20 yards are one tandem (16) and one small (8), 150 + 85
			// = 235; three small are 255, two tandems 300. The order fee of 5 is paid once.
			// 20 × 10 + 235 + 5 = 440.
			name: "sizes of truck together", quotes: "quote,supplier,medium,form,pack,price\na,Yard,grit,bulk,1 yd3,10\n", beds: "bed,volume\none,15291.09715968 L\n",
			delivery: "supplier,name,order_fee,load_fee,load_volume\nYard,truck,5,85,8 yd3\nYard,truck,5,150,16 yd3\n", total: "440.00", buy: "20 a",
		},
		{
			// One's own pick-up carries 500 kg: of rock at 2 kg/L that is 250 L, so 1000 L are
			// four trips at 12. 10 × 5 + 48 = 98.
			name: "trips by weight", quotes: "quote,supplier,medium,form,pack,price\na,Yard,rock,bulk,100 L,5\n", beds: "bed,volume\none,1000 L\n",
			delivery: "supplier,name,load_fee,load_volume,load_weight\nYard,own pick-up,12,1 m3,500 kg\n", total: "98.00", buy: "10 a",
		},
		{
			// A form comes by one way only: 12 bags of 50 L are 600 L, two van trips of
			// 500 L (2 × 15 = 30) or one truck (40); a van and part of a truck is not on
			// offer. 120 + 30 = 150.
			name: "one way for each form", quotes: "quote,supplier,medium,form,pack,price\na,Yard,grit,bag,50 L,10\n", beds: "bed,volume\none,600 L\n",
			delivery: "supplier,name,covers,load_fee,load_volume\nYard,truck,all,40,5 m3\nYard,van,bag,15,500 L\n", total: "150.00", buy: "12 a",
		},
		{
			// Collection with one's own trailer is one more way: 4 trips of 150 L × 6 = 24
			// against the truck's 30: 120 + 24 = 144.
			name: "own trailer", quotes: "quote,supplier,medium,form,pack,price\na,Yard,grit,bag,50 L,10\n", beds: "bed,volume\none,600 L\n",
			delivery: "supplier,name,load_fee,load_volume\nYard,truck,30,5 m3\nYard,own trailer,6,150 L\n", total: "144.00", buy: "12 a",
		},
		{
			// Yard does not come to the south at all, Quay does: 2 × 10 + 2 × 30 = 80.
			name: "a site without a row is not served", quotes: "quote,supplier,medium,pack,price\na,Yard,grit,100 L,10\nb,Quay,grit,100 L,30\n",
			beds: "bed,volume,site\none,200 L,north\ntwo,200 L,south\n", delivery: "supplier,site,order_fee\nYard,north,0\nQuay,,0\n",
			total: "80.00", buy: "2 a@north; 2 b@south",
		},
	})
}

func TestSitesByHand(t *testing.T) {
	const twoSites = "bed,volume,site\none,600 L,north\ntwo,600 L,south\n"
	checkHand(t, []handJob{
		{
			// Handling 50 once, an order of 10 at each of two sites: 120 + 50 + 20 = 190.
			name: "handling once over two sites", quotes: "quote,supplier,medium,pack,price\na,Yard,grit,100 L,10\n", beds: twoSites,
			delivery: "supplier,handling,order_fee\nYard,50,10\n", total: "190.00", buy: "6 a@north; 6 a@south",
		},
		{
			// free_over does not waive handling: 60 is reached at each site. 120 + 50.
			name: "handling is not waived", quotes: "quote,supplier,medium,pack,price\na,Yard,grit,100 L,10\n", beds: twoSites,
			delivery: "supplier,handling,order_fee,free_over\nYard,50,10,60\n", total: "170.00", buy: "6 a@north; 6 a@south",
		},
		{
			// Quay at 14 a pack without handling is 84 a site. For both from Yard: 120 + 50
			// = 170, against 168.
			name: "handling is too dear", quotes: "quote,supplier,medium,pack,price\na,Yard,grit,100 L,10\nb,Quay,grit,100 L,14\n", beds: twoSites,
			delivery: "supplier,handling\nYard,50\nQuay,0\n", total: "168.00", buy: "6 b@north; 6 b@south",
		},
		{
			// Handling 45: 165 beats 168, but only for both sites together.
			name: "handling pays over two sites", quotes: "quote,supplier,medium,pack,price\na,Yard,grit,100 L,10\nb,Quay,grit,100 L,14\n", beds: twoSites,
			delivery: "supplier,handling\nYard,45\nQuay,0\n", total: "165.00", buy: "6 a@north; 6 a@south",
		},
		{
			// Where rows differ, the dearest of those used counts, and once: 120 + 30 = 150.
			name: "the dearest handling of those used", quotes: "quote,supplier,medium,pack,price\na,Yard,grit,100 L,10\n", beds: twoSites,
			delivery: "supplier,site,handling\nYard,north,20\nYard,south,30\n", total: "150.00", buy: "6 a@north; 6 a@south",
		},
		{
			// free_over goes by what is sent to each site: 60 and 20 against 50, so one
			// fee of 15: 80 + 15 = 95.
			name: "free_over by site", quotes: "quote,supplier,medium,pack,price\na,Yard,grit,100 L,10\n", beds: "bed,volume,site\none,600 L,north\ntwo,200 L,south\n",
			delivery: "supplier,order_fee,free_over\nYard,15,50\n", total: "95.00", buy: "6 a@north; 2 a@south",
		},
		{
			// All-units breaks go by the sum over sites: 12 reach 10: 12 × 7 = 84.
			name: "breaks pooled over sites", quotes: "quote,supplier,medium,pack,price,breaks\na,Yard,grit,100 L,10,10: 7\n", beds: twoSites,
			total: "84.00", buy: "6 a@north; 6 a@south",
		},
		{
			// Incremental: 9 at 10, the 10th to the 12th at 7: 90 + 21 = 111.
			name: "incremental breaks pooled over sites", quotes: "quote,supplier,medium,pack,price,breaks,break_kind\na,Yard,grit,100 L,10,10: 7,incremental\n", beds: twoSites,
			total: "111.00", buy: "6 a@north; 6 a@south",
		},
		{
			// Stock of 8 over both sites; loads are whole per site. Yard 8 × 10, Quay 4 × 20:
			// if Yard serves one site and part of the other it pays 30 twice: 80 + 60 + 80
			// + 5 = 225; one site each: 60 + 30 + 120 + 5 = 215.
			name: "stock shared by sites", quotes: "quote,supplier,medium,pack,price,max_qty\na,Yard,grit,100 L,10,8\nb,Quay,grit,100 L,20,\n", beds: "bed,volume,site\none,600 L,north\ntwo,600 L,south\n",
			delivery: "supplier,site,order_fee\nYard,,30\nQuay,north,6\nQuay,south,5\n", total: "215.00", buy: "6 a@north; 6 b@south",
		},
		{
			// min_qty goes by the sum over sites: 12 of 10 are enough: 120.
			name: "fewest sold over sites", quotes: "quote,supplier,medium,pack,price,min_qty\na,Yard,grit,100 L,10,10\nb,Quay,grit,100 L,11,\n", beds: twoSites,
			total: "120.00", buy: "6 a@north; 6 a@south",
		},
	})
}

func TestMoneyByHand(t *testing.T) {
	checkHand(t, []handJob{
		{
			// Goods 9 × 29 = 261, tax 8 % 20.88; delivery 40 untaxed: 321.88.
			name: "tax by line and none on delivery", quotes: "quote,supplier,medium,pack,price,tax\na,Yard,grit,50 L,29,8%\n", beds: "bed,volume\none,425 L\n",
			delivery: "supplier,order_fee,tax\nYard,40,0\n", total: "321.88", buy: "9 a",
		},
		{
			// The job's 10 % on goods and delivery: (90 + 40) × 1.1 = 143.
			name: "tax on everything", quotes: "quote,supplier,medium,pack,price\na,Yard,grit,50 L,10\n", beds: "bed,volume\none,450 L\n",
			delivery: "supplier,order_fee\nYard,40\n", settings: "tax = 10", total: "143.00", buy: "9 a",
		},
		{
			// Untaxed at 10.50 beats 10 with 10 %: 94.50 against 99.
			name: "tax turns the choice", quotes: "quote,supplier,medium,pack,price,tax\na,Yard,grit,50 L,10,10%\nb,Quay,grit,50 L,10.50,0\n", beds: "bed,volume\none,450 L\n",
			total: "94.50", buy: "9 b",
		},
		{
			// Two lines of 0.30 at 2 %: the tax of one supplier is 0.012, rounded to 0.01.
			name: "tax is rounded once a supplier", quotes: "quote,supplier,medium,pack,price,tax\na,Yard,fluff,100 L,0.30,2%\nb,Yard,rock,100 L,0.30,2%\n",
			beds: "bed,volume,only\none,100 L,fluff\ntwo,100 L,rock\n", total: "0.61", buy: "1 a; 1 b",
		},
		{
			// From two suppliers it is 0.006 each, rounded to 0.01 each.
			name: "tax of two suppliers", quotes: "quote,supplier,medium,pack,price,tax\na,Yard,fluff,100 L,0.30,2%\nb,Quay,rock,100 L,0.40,2%\n",
			beds: "bed,volume,only\none,100 L,fluff\ntwo,100 L,rock\n", total: "0.72", buy: "1 a; 1 b",
		},
		{
			// Prices carry 7.5 %: nothing is added. 2 × 107.49 + 10 = 224.98; before tax
			// the goods are 199.98, below 200.
			name: "tax included, free_over not reached before tax", quotes: "quote,supplier,medium,pack,price\na,Yard,grit,100 L,107.49\n", beds: "bed,volume\none,200 L\n",
			delivery: "supplier,order_fee,free_over\nYard,10,200\n", settings: "tax = 7.5;tax_included = true", total: "224.98", buy: "2 a",
		},
		{
			// 2 × 107.50 are 215 with tax and 200 before it, so the fee is waived.
			name: "tax included, free_over exactly reached", quotes: "quote,supplier,medium,pack,price\na,Yard,grit,100 L,107.50\n", beds: "bed,volume\none,200 L\n",
			delivery: "supplier,order_fee,free_over\nYard,10,200\n", settings: "tax = 7.5;tax_included = true", total: "215.00", buy: "2 a",
		},
		{
			// 450 L at 30 min / 100 L are 2.25 h; × 20 = 45. Goods 90: 135. Rock needs no
			// rinsing: 9 × 16 = 144.
			name: "labour", quotes: "quote,supplier,medium,pack,price\na,Yard,grit,50 L,10\nb,Yard,rock,50 L,16\n", beds: "bed,volume\none,450 L\n",
			settings: "labour_rate = 20", total: "135.00", buy: "9 a",
		},
		{
			// At 25 an hour it is 56.25: 146.25, so the rock for 144.
			name: "labour turns the choice", quotes: "quote,supplier,medium,pack,price\na,Yard,grit,50 L,10\nb,Yard,rock,50 L,16\n", beds: "bed,volume\none,450 L\n",
			settings: "labour_rate = 25", total: "144.00", buy: "9 b",
		},
		{
			// Rinsing is counted on all that is bought: 10 bags for the break, 500 L, 2.5 h
			// × 10 = 25: 260 + 25 = 285. Nine: 261 + 22.50 = 283.50.
			name: "rinsing what is left over", quotes: "quote,supplier,medium,pack,price,breaks\na,Yard,grit,50 L,29,10: 26\n", beds: "bed,volume\none,425 L\n",
			settings: "labour_rate = 10", total: "283.50", buy: "9 a",
		},
		{
			// Half yards at 7.25: 3 × 3.625 = 10.875, rounded half up as an invoice is: 10.88.
			name: "a line is rounded half up", quotes: "quote,supplier,medium,form,pack,step,price\na,Yard,grit,bulk,200 L,0.5,7.25\n", beds: "bed,volume\none,300 L\n",
			total: "10.88", buy: "1.5 a",
		},
	})
}

func TestCountsByHand(t *testing.T) {
	const mixed = "quote,supplier,medium,pack,price\na,Yard,fluff,100 L,20\nb,Quay,rock,100 L,5\nc,Yard,rock,100 L,9\nd,Quay,fluff,100 L,30\n"
	const bed = "bed,volume,top_volume\none,600 L,200 L\n"
	const fees = "supplier,order_fee\nYard,3\nQuay,4\n"
	checkHand(t, []handJob{
		{
			// 2 × 20 + 4 × 5 + 3 + 4 = 67.
			name: "no limit", quotes: mixed, beds: bed, delivery: fees, total: "67.00", buy: "2 a; 4 b",
		},
		{
			// One supplier: Yard 40 + 36 + 3 = 79, Quay 60 + 20 + 4 = 84.
			name: "max_suppliers", quotes: mixed, beds: bed, delivery: fees, settings: "max_suppliers = 1", total: "79.00", buy: "2 a; 4 c",
		},
		{
			name: "max_deliveries", quotes: mixed, beds: bed, delivery: fees, settings: "max_deliveries = 1", total: "79.00", buy: "2 a; 4 c",
		},
		{
			// A delivery is an order, not a load: two loads of 300 L are one delivery.
			// 40 + 36 + 2 × 3 = 82.
			name: "loads are not deliveries", quotes: mixed, beds: bed, delivery: "supplier,load_fee,load_volume\nYard,3,300 L\nQuay,8,300 L\n", settings: "max_deliveries = 1",
			total: "82.00", buy: "2 a; 4 c",
		},
		{
			// Two sites need two deliveries even from one supplier.
			name: "too few deliveries for the sites", quotes: mixed, beds: "bed,volume,site\none,600 L,north\ntwo,600 L,south\n", delivery: fees, settings: "max_deliveries = 1",
		},
		{
			// Bags by van and rock by truck are two deliveries of one supplier, which is
			// not allowed here: all by truck, 2 loads: 100 + 80 = 180.
			name: "alternatives count as deliveries", quotes: "quote,supplier,medium,form,pack,price\na,Yard,fluff,bag,50 L,10\nb,Yard,rock,bulk,500 L,60\n",
			beds: "bed,volume,only\none,200 L,fluff\ntwo,500 L,rock\n", delivery: "supplier,name,covers,order_fee,load_fee,load_volume\nYard,truck,all,0,40,500 L\nYard,van,bag,10,0,\n",
			settings: "max_deliveries = 1", total: "180.00", buy: "4 a; 1 b",
		},
		{
			name: "a budget exactly met", quotes: mixed, beds: bed, delivery: fees, settings: "budget = 67", total: "67.00", buy: "2 a; 4 b",
		},
		{
			name: "a budget a cent short", quotes: mixed, beds: bed, delivery: fees, settings: "budget = 66.99",
		},
	})
}

// A bed 1 m × 1 m × 300 mm with a top of 100 mm and the flood 25 mm below the
// surface. A litre weighs 1 kg dry, holds 0.2 kg and has half its space filled
// where it is under water: 1.2 + f × 0.5 × 0.998.
//
//	top   100 L, f = 75/100: 1.57425 kg/L, 157.425 kg
//	base  200 L, f = 1:      1.699 kg/L,   339.8 kg
//	own weight                              2.775 kg, together 500 kg
func TestFloodedWeightByHand(t *testing.T) {
	const media = "medium,dry_density,held_water,voids,feel,carbonate,breaks_down,rinse_loss,settle,rinse_minutes\nsponge,1 kg/L,0.2,0.5,smooth,none,no,0%,0%,0\n"
	bed := func(limit, line string) jobtest.Files {
		return jobtest.Files{
			Quotes: "quote,supplier,medium,pack,price\na,Yard,sponge,100 L,10\n", Media: media,
			Beds:     strings.NewReplacer("LIMIT", limit, "LINE", line).Replace("bed,length,width,depth,top,own_weight,limit,water_line\none,1000 mm,1000 mm,300 mm,100 mm,2.775 kg,LIMIT,LINE\n"),
			Settings: `decimal = "."`,
		}
	}
	p := solved(t, bed("500 kg", "25 mm").Job(t), Options{})
	require.Equal(t, Optimal, p.Status)
	assert.InDelta(t, 500, float64(p.Fills[0].Flooded), 1e-9)

	p = solved(t, bed("499.9 kg", "25 mm").Job(t), Options{})
	require.Equal(t, Infeasible, p.Status)
	require.Len(t, p.Why, 1)
	assert.Equal(t, RuleLimit, p.Why[0].Rule)
	assert.Equal(t, "one", p.Why[0].Bed)
	assert.InDelta(t, 0.1, float64(p.Why[0].Over), 1e-6)

	// Never flooded: 300 × 1.2 + 2.775 = 362.775.
	p = solved(t, bed("363 kg", "none").Job(t), Options{})
	require.Equal(t, Optimal, p.Status)
	assert.InDelta(t, 362.775, float64(p.Fills[0].Flooded), 1e-9)
}

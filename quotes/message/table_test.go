package message

import (
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/quotes/files"
)

// readRows reads a message with delivery asked for.
func readRows(t *testing.T, text, currency string) *Proposal {
	p, err := Parse(text, Options{Delivery: true, Settings: files.Source{Name: "job.toml", R: strings.NewReader("currency = \"" + currency + "\"\ndate = \"2026-05-04\"\n")}})
	require.NoError(t, err)
	requireWhole(t, p)
	return p
}

// TestPriceLists reads lists and tables of prices, each with cells of its rows in their order; "" is a cell that must not be there.
func TestPriceLists(t *testing.T) {
	for text, want := range map[string][]map[string]string{
		// steps that begin with one
		"Low Ford Quarry\nLava 3/8\", 40 lb bag\n1+    $11.20\n12+   $10.60\n48+   $9.90":                                          {{"price": "$11.20", "breaks": "12: $10.60; 48: $9.90"}},
		"Low Ford Quarry: lava in 50 L bags:\nfrom 1 bag: $14.10\nfrom 25 bags: $12.80":                                            {{"price": "$14.10", "breaks": "25: $12.80", "pack": "50 L"}},
		"Low Ford Quarry: lava per yard:\n1 yd and up: $88.00\n5 yd and up: $84.00":                                                {{"price": "$88.00", "breaks": "5: $84.00"}},
		"Low Ford Quarry\nLava, 40 lb bag\nQty 1: $11.50\nQty 10: $10.75":                                                          {{"price": "$11.50", "breaks": "10: $10.75"}},
		"Low Ford Quarry\nLava, 40 lb bag\n1 off $11.50\n10 off $10.75":                                                            {{"price": "$11.50", "breaks": "10: $10.75"}},
		"Low Ford Quarry: lava 40 lb bags $14.50. From 1 bag $14.50, from 10 bags $13.":                                            {{"price": "$14.50", "breaks": "10: $13"}},
		"Low Ford Quarry: lava 40 lb bags $15.50. From 1 bag $14.50, from 10 bags $13.":                                            {{"price": ""}},
		"Low Ford Quarry: lava 3/8\", 5 yards minimum.\n5+ yards: $88 per yard\n10+ yards: $81 per yard":                           {{"price": "$88", "breaks": "10: $81", "min_qty": "5"}},
		"Low Ford Quarry: lava 40 lb bags. Full pallets only, 50 bags on a pallet.\n1 pallet: $8.40 a bag\n2 pallets: $8.10 a bag": {{"price": "$8.40", "breaks": "100: $8.10", "min_qty": "50", "step": "50"}},
		"Low Ford Quarry: lava 40 lb bags, 50 bags on a pallet.\n1 pallet: $8.40 a bag\n2 pallets: $8.10 a bag":                    {{"price": "", "min_qty": "", "step": ""}},
		"Low Ford Quarry: lava 40 lb bags $9 each, from a full pallet (50) $8.40. 50 bags on a pallet.":                            {{"price": "$9", "step": ""}},
		"Low Ford Quarry: lava 40 lb bags, 50 per pallet, $9 each":                                                                 {{"price": "$9"}},
		// a heading for each part of a list, and what holds for what is sold by one unit
		"Low Ford Quarry\nROCK, per yard\nLava 3/8\" ..... 88.00\nPumice 1/4\" ..... 96.00\nSAND AND GRAVEL, per ton\nPea gravel ..... 36.00\nLimestone 3/4\" ..... 27.00\nHalf yards fine on whatever is sold by the yard": {
			{"pack": "1 yd3", "step": "0.5"}, {"pack": "1 yd3", "step": "0.5"}, {"pack": "1 ton", "step": ""}, {"pack": "1 ton", "step": ""}},
		// a unit behind a heading
		"Vendor,Product,Grain size (mm),Bag size (L),Price ($),Bulk discount\nMoor End,clay pebbles,8-16,50,29.95,10+ $27": {{"pack": "50 L", "price": "29.95", "breaks": "10: $27", "size": "8-16 mm"}},
		// a comma between two cells is no decimal mark
		"Vendor,Product,Bag size (L),Price ($),Bulk discount,Grain size (mm)\nMoor End,clay pebbles,50,29.95,10+ $27,8-16": {{"pack": "50 L", "price": "29.95", "breaks": "10: $27", "size": "8-16 mm"}},
		// what stands in a row for delivery, and columns that are sums
		"Low Ford Quarry\nItem             Qty   Rate     Amount\nLava 3/8  (cu yd)   4   88.00   352.00\nDelivery, 5 yd per load   2   60.00   120.00":                                                    {{"pack": "1 yd3", "price": "88.00", "load_fee": "60.00", "load_volume": "5 yd3"}},
		"Low Ford Quarry\nLava 3/8, 4, 88.00\nDelivery, 5 yd per load":                                                                                                                                     {{"pack": ""}},
		"Low Ford Quarry\nQty  Item              Each     Net\n  3  Lava 40 lb bag    11.00    33.00\n  1  Local delivery    25.00    25.00":                                                               {{"price": "11.00", "delivery": "25.00"}},
		"Low Ford Quarry\nQty  Item              Unit     Net\n  3  Lava 40 lb bag    11.00    33.00\n  2  Pumice 20 lb bag   9.00    18.00":                                                               {{"price": "11.00"}, {"price": "9.00"}},
		"Low Ford Quarry\nQty  Item              Price    Net\n  1  Lava 40 lb bag    11.00    10.00\n  1  Pumice 20 lb bag   9.00    8.00":                                                                {{"price": ""}, {"price": ""}},
		"Low Ford Quarry\nItem                   Unit    Price\nLava 3/8\"              ton     39.25\nTrucking, 18 ton load  load   142.00":                                                               {{"pack": "1 ton", "price": "39.25", "load_fee": "142.00", "load_weight": "18 ton"}},
		"Low Ford Quarry\nItem              Qty   Unit EUR   Amount EUR\nLava, bag 50 l     24      15,20       364,80\nPumice, bag 100 l  10      18,90       189,00":                                     {{"price": "15.20"}, {"price": "18.90"}},
		"Low Ford Quarry\nQty 6 | 1 CY Lava | $118.00 | $708.00\nQty 30 | 50 L Pumice | $29.50 | $885.00":                                                                                                  {{"pack": "1 yd3", "price": "$118.00", "min_qty": ""}, {"pack": "50 L", "price": "$29.50"}},
		"Low Ford Quarry\nQty 6 | 1 CY Lava | $118.00 | $700.00\nQty 30 | 50 L Pumice | $29.50 | $885.00":                                                                                                  {{"price": ""}, {"price": ""}},
		"Lava 50 L bags $9.00 each (1-9), $8.00 each (10-39), $7 each (40+). Low Ford Quarry":                                                                                                              {{"price": "$9.00", "breaks": "10: $8.00; 40: $7"}},
		"Low Ford Quarry\nCode   Item                  Qty   Unit   Price     Goods\nA1     Lava, 40 lb bag        60   each    9.50    570.00\nB2     Carriage, pallet        2   pallet  48.00    96.00": {{"item": "Lava", "price": "9.50"}},
		"Low Ford Quarry\n2 yd   Lava 3/4\"      @  88.00     176.00\n1      Delivery       @  70.00      70.00\n       Subtotal            246.00\n       Tax 8% (stone only)  14.08":                     {{"price": "88.00", "delivery": "70.00", "tax": "8%"}},
		"Low Ford Quarry\nQty   Description                    Price      Ext.\n3 yd  Lava 3/4\"                      $64.00    $192.00\n1     Delivery, one load             $85.00     $85.00":           {{"price": "$64.00"}},
		"Item                  Price     Delivery\nLava rock 40 lb bag   $9.50     $95 flat\nPumice 40 lb bag      $8.50     $95 flat\n\nLow Ford Quarry":                                                  {{"delivery": "$95"}, {"delivery": "$95"}},
		// two columns, each for some
		"Low Ford Quarry\n                     RETAIL    TRADE\nLava 40 lb bag       $9.50     $8.00":    {{"price": ""}},
		"Low Ford Quarry\n                     LIST    YOUR PRICE\nLava 40 lb bag       $9.50     $8.00": {{"price": "$8.00"}},
		// a pack in every size
		"Low Ford Quarry\nLava\n3/8\" - $129 a yard, 6 yards and up $119\n3/4\" - $118 a yard, 6 yards and up $109\n1.5 cu ft bag, either size - $19": {{"size": "3/8 in", "price": "$129"}, {"size": "3/4 in", "price": "$118"}, {"size": "3/8 in", "pack": "1.5 cu ft", "price": "$19"}, {"size": "3/4 in", "pack": "1.5 cu ft", "price": "$19"}},
		// a column for each medium, a row for each number of packs
		"Low Ford Quarry\nBulk, per cubic yard\n\nQty (yd)     Lava 3/4\"   Pumice 3/8\"\n1 - 3        $108.00     $122.00\n4 - 8        $102.00     $115.00\n9 and over    $95.00     $108.00": {{"pack": "1 yd3", "price": "$108.00", "breaks": "4: $102.00; 9: $95.00", "size": "3/4 in"}, {"medium": "pumice", "pack": "1 yd3", "price": "$122.00", "breaks": "4: $115.00; 9: $108.00", "size": "3/8 in"}},
		"Low Ford Quarry\nBags,Lava 20 l,Pumice 50 l\n1-9,9.20,14.30\n10+,8.50,13.20":                                                                                                           {{"pack": "20 L", "price": "9.20", "breaks": "10: 8.50"}, {"pack": "50 L", "price": "14.30", "breaks": "10: 13.20"}},
		"Low Ford Quarry\nBags   Lava 20 l   Pumice 50 l   Coir 70 l\n1-9    9.20        14.30         11.00\n12+    8.50        13.20         10.00":                                           nil,
		"Low Ford Quarry\nBags   Lava 20 l   Pumice 50 l\n10-19    9.20        14.30\n20+    8.50        13.20":                                                                                 {{"price": ""}},
		// a pack for each column
		"Low Ford Quarry\n             1/2 yd   1 yd    4+ yds (per yd)\nLava 3/8\"    48.00    88.00   81.00":    {{"pack": "1/2 yd3", "price": "48.00", "breaks": ""}, {"pack": "1 yd3", "price": "88.00", "breaks": "4: 81.00"}},
		"Low Ford Quarry\nSize | Loose, $/yd | Bulk bag 1 yd, $/bag | lb/cu ft\nLava 3/8\" | 88.00 | 120.00 | 52": {{"form": "bulk", "price": "88.00", "density": "52 lb/cu ft"}, {"form": "sack", "price": "120.00", "density": "52 lb/cu ft"}},
		"Low Ford Quarry\nItem | Bulk $/ton | 900 kg bag, $ each\nLava | 62.00 | 98.00":                           {{"pack": "1 ton", "price": "62.00"}, {"pack": "900 kg", "price": "98.00"}},
		"Low Ford Quarry\nItem        up to 9.5 yd   from 10 yd\nLava 3/8\"     88.00         81.00":              {{"pack": "1 yd3", "price": "88.00", "breaks": "10: 81.00"}},
		"Low Ford Quarry\nItem        under 10 yd   10 yd and over\nLava 3/8\"     88.00         81.00":           {{"pack": "1 yd3", "price": "88.00", "breaks": "10: 81.00"}},
		"Low Ford Quarry\nItem        up to 5 yd   from 10 yd\nLava 3/8\"     88.00         81.00":                {},
		"Yard           Item         $/yd\nDry Fork       lava 3/4     95\nPine Bend      lava 3/4     91":        {{"supplier": "Dry Fork", "price": "95"}, {"supplier": "Pine Bend", "price": "91"}},
		// a cell that runs into the next, and a weight by its heading
		"Low Ford Quarry\nItem                  $/ton    lb/cu ft\nLava 3/4\"             28.50    52\nBlack lava 3/4\" minus 19.75    61":    {{"price": "28.50", "density": "52 lb/cu ft"}, {"price": "19.75", "size": "3/4 in minus", "density": "61 lb/cu ft"}},
		"Low Ford Quarry\nItem              Each    5+     20+\nLava 20 kg bag    9.80    9.10   8.40\nBlack lava 20 kg bag 10.40 9.70  9.00": {{"price": "9.80"}, {"price": "10.40", "breaks": "5: 9.70; 20: 9.00"}},
		// orders and carts: a sum is no price, nor is an amount of tax
		"Low Ford Quarry\nOrder 31\n2 x Lava 3/8\", 40 lb bag     $11.00   $22.00\n5 x Pumice, 1 cu ft bag  @ $19.00   $95.00\nItems          $117.00\nShipping        $12.50\nTax 6% on items  $7.02\nTotal          $136.52": {{"price": "$11.00", "tax": "6%", "delivery": "$12.50"}, {"price": "$19.00"}},
		"Low Ford Quarry\nLava 40 lb bag     4   $11.00   $44.00\nPumice 20 lb bag   3    $9.00   $27.00\nBasket         $71.00\nSales tax on merchandise (5%)   $3.55":                                                        {{"price": "$11.00", "tax": "5%"}, {"price": "$9.00"}},
		"Low Ford Quarry\nLava 40 lb bag     4   $11.00   $45.00": {},
		// two taxes
		"Low Ford Quarry: lava $82 a yard. 5% GST + 9.975% QST extra":         {{"tax": "14.9750%"}},
		"Low Ford Quarry: lava $82 a yard. GST (5%) and PST (7%) are on top.": {{"tax": "12%"}},
		"Low Ford Quarry: lava $82 a yard. Add 6% state and 2% county tax.":   {{"tax": ""}},
		"Low Ford Quarry: lava $82 a yard. Prices include GST 5% and PST 7%.": {{"tax": ""}},
		"Low Ford Quarry: lava $82 a yard. GST 5%, PST 7%.":                   {{"tax": ""}},
		// days of a paper
		"Low Ford Quarry\nQuote 12    Date: 2 May 2026    Valid: 30 days\nLava $82/yd":               {{"valid_until": "2026-06-01"}},
		"Low Ford Quarry\nDATE: 5/2/2026\nSHIP TO: Otter Growers     GOOD FOR: 30 DAYS\nLava $82/yd": {{"valid_until": "2026-06-01"}},
		"Low Ford Quarry\nDate: May 2, 2026   Expires: May 31, 2026\nLava $82/yd":                    {{"valid_until": "2026-05-31"}},
		"Low Ford Quarry\nDated May 2, 2026, valid 30 days from receipt of order\nLava $82/yd":       {{"valid_until": ""}},
		// kinds of stone with their grains under one heading, and what stands below a table
		"Low Ford Quarry\nLoose, per yard\n\nGrade                1-4 yd   5+ yd\nLava 1/8\"-1/4\"       92.00    88.00\nPumice 3/8\"          82.00    78.00\n\nLoose weight: lava 50 lb/cu ft, pumice 40 lb/cu ft.": {
			{"medium": "lava rock", "size": "1/8-1/4 in", "price": "92.00", "breaks": "5: 88.00", "density": "50 lb/cu ft"}, {"medium": "pumice", "size": "3/8 in", "density": "40 lb/cu ft"}},
		"Low Ford Quarry\nItem | Bag | Each | Bags per pallet | Each on a pallet\nLava | 40 lb | $9.00 | 50 | $8.10\nPumice | 1 cu ft | $15.00 | 40 | $13.50": {
			{"price": "$9.00", "breaks": "50: $8.10"}, {"price": "$15.00", "breaks": "40: $13.50"}},
		"Low Ford Quarry\nItem | Bag | Each | Bags per pallet\nLava | 40 lb | $9.00 | 50\nPumice | 1 cu ft | $15.00 | 40": {{"price": "$9.00", "breaks": ""}, {"price": "$15.00"}},
		// ranges with a plus apart, packs beside a price by weight, and amounts that are no cells at their commas
		"Low Ford Quarry\nLoose, per m3\n             1-4 m3    5-11 m3    12 m3 +\nLava 8-16 mm      88,00      84,00      79,50\nPumice 4-8 mm    101,00      97,50      92,00": {
			{"pack": "1 m3", "price": "88.00", "breaks": "5: 84.00; 12: 79.50"}, {"price": "101.00", "breaks": "5: 97.50; 12: 92.00"}},
		"Low Ford Quarry\n                  25 kg     750 kg     per tonne\nLava 8/16 mm      $4.10     $69.00        $58.00": {
			{"pack": "25 kg", "price": "$4.10"}, {"pack": "750 kg", "price": "$69.00"}, {"pack": "1 tonne", "price": "$58.00"}},
		// what heads a column beside its tax and its unit, and what counts another unit than the one that is priced
		"Low Ford Quarry\nItem           Size       Min (t)    £/t ex VAT\nLava           8-16 mm          4         31.50":       {{"pack": "1 t", "price": "31.50", "min_qty": "4"}},
		"Low Ford Quarry\nItem           Size       Min (t)    $/yd plus tax\nLava           8-16 mm          4         31.50":    {{"pack": "1 yd3", "price": "31.50", "min_qty": ""}},
		"Dry Fork Stone, bagged stone, 40 lb bags\n\nLava, 3/8\"        $7.10\nPea gravel, 1/2\"  $4.90":                          {{"pack": "40 lb"}, {"pack": "40 lb", "price": "$4.90"}},
		"Low Ford Quarry\nTo: Otter Growers          Date: May 2, 2026\nAttn: J. Pell              Good for 30 days\nLava $82/yd": {{"valid_until": "2026-06-01"}},
		// lines by the yard and by the tote, and prices by the full pallet and from so many on
		"Pumice we sell three ways:\nby the yard, $118.00\nby the tote (1 cubic yard bulk bag), $149.00\nby the 30 L bag, $13.75\n\nLow Ford Quarry": {
			{"pack": "1 yd3", "form": "bulk", "price": "$118.00"}, {"pack": "1 yd3", "form": "sack", "price": "$149.00"}, {"pack": "30 L", "price": "$13.75"}},
		"Low Ford Quarry: lava by the 1.5 yard supersack, $186 each.":                                                                {{"form": "sack"}},
		"Low Ford Quarry: lava in 40 lb bags, $5.40. A pallet is 56 bags, and when you buy the full pallet the bags are $4.85 each.": {{"price": "$5.40", "breaks": ""}},
		"Low Ford Quarry: lava is $76 a yard. From 12 yards on, we charge $69.00 a yard.":                                            {{"price": "$76", "breaks": "12: $69.00"}},
		"Low Ford Quarry: lava, 8-16 mm, may be had at $39.50 the ton.":                                                              {{"price": "$39.50", "size": "8-16 mm"}},
		"Low Ford Quarry: lava, 8-16 mm, may be $39.50 the ton.":                                                                     {},
		"lou here from otter bottom sand n soil. lava 95 a yard, pumice 110 a yard":                                                  {{"supplier": "otter bottom sand n soil"}, {}},
		"lava 45 a yard. pumice 60 a yard. we are here from monday to friday. tam in pondside hydroponics":                           {{"supplier": "pondside hydroponics"}, {}},
		"Lava 45 a yard.\n\nNgā mihi,\nHemi Pell\nOtter Flats Pumice":                                                                {{"supplier": "Otter Flats Pumice"}},
		// trucks in a table of their own, and in turns with what they hold
		"Low Ford Quarry\nLava 3/8 in $44 per ton\n\nHauling, per trip\n  Truck         Holds       Rate\n  Tandem        13 tons     $90\n  Tri-axle      20 tons     $125": {
			{"pack": "1 ton", "price": "$44", "load_fee": "$90", "load_weight": "13 tons"}},
		"Low Ford Quarry: lava 3/8 in is $44 per ton. We deliver by the big artic, 24 tons a load, for $230 a load, or by the little six wheeler, 9 tons a load, for $110 a load.": {
			{"load_fee": "$230", "load_weight": "24 tons"}},
		// sizes that read in two ways are asked
		"Low Ford Quarry\nItem | Size | $/ton\nLava | 1-1/2\" | 14.00\nPumice | 3/4\" | 18.00": {{"size": ""}, {"size": "3/4 in"}},
		// lines without headings
		"Prepared for: Room 3, Salt Hill School\n\nLava, 3/8\", bulk          per yard   $88.00\n   5 yards or more        per yard   $79.00\nLava, 3/8\", 1 cu ft bag   each        $9.50\n\nLow Ford Quarry": {
			{"supplier": "Low Ford Quarry", "pack": "1 yd3", "price": "$88.00", "breaks": "5: $79.00"}, {"pack": "1 cu ft", "price": "$9.50", "breaks": ""}},
		// a ladder whose first step is what lies below the second, and a part off from so many of each
		"Low Ford Quarry\n\nLava 3/8\", loose:\nless than 10 yd   88.00 / yd\nfrom 10 yd        81.00 / yd\nfrom 40 yd        77.00 / yd": {{"pack": "1 yd3", "price": "88.00", "breaks": "10: 81.00; 40: 77.00"}},
		"Low Ford Quarry\nLava 40 lb bag $10.00\nPumice 40 lb bag $20.00\nOrders of 12 bags or more of any one kind are reduced by 5%.": {
			{"breaks": "12: $9.50"}, {"breaks": "12: $19"}},
	} {
		p := readRows(t, text, "USD")
		if assert.Len(t, p.Rows, len(want), text) {
			for i, cells := range want {
				for _, heading := range slices.Sorted(maps.Keys(cells)) {
					row := &p.Rows[i]
					if strings.HasPrefix(heading, "load_") {
						row = &p.Delivery[0]
					}
					assert.Equal(t, cells[heading], row.Text(heading), "%s of row %d: %s", heading, i+1, text)
				}
			}
		}
	}
}

// TestSizesInTwoWays asks about sizes that read in two ways, in tables as in sentences.
func TestSizesInTwoWays(t *testing.T) {
	for text, want := range map[string][]string{
		"Low Ford Quarry\nItem | Size | $/ton\nLava | 1-1/2\" | 14.00\nPumice | 3/4\" | 18.00": {"1 1/2 in", "1/2 in to 1 in"},
		"Low Ford Quarry\nPer ton:\nLava 2-1/2\"    14.00\nPumice 3/4\"    18.00":              {"2 1/2 in", "1/2 in to 2 in"},
		"Low Ford Quarry: lava, 1-1/2 inch clean, is $24 a ton.":                               {"1 1/2 in", "1/2 in to 1 in"},
		"Low Ford Quarry\nItem | Price per m3\nLava 5/8 | $14.00\nPumice 8/16 | $18.00":        {"5/8 in", "5-8 mm"},
		"Low Ford Quarry: lava bags of 20 kg $14 each, one batch came 3/4 full. 1 m3 is $120.": nil,
	} {
		p, err := Parse(text, Options{Delivery: true})
		require.NoError(t, err)
		var got []string
		for _, q := range p.Asked {
			for _, one := range q.Readings {
				if size := one.Cells["size"]; size != "" {
					got = append(got, size)
				}
			}
		}
		assert.Equal(t, want, got, text)
	}
}

// TestStockAsked asks about numbers of packs that are there, however that is said, and takes none of them for a break.
func TestStockAsked(t *testing.T) {
	for words, want := range map[string]string{"We've 34 in the barn.": "34", "theres 44 here": "44", "26 on the floor.": "26", "I've 14 left in the shed and no more till June.": "14", "We don't have 14 left.": "", "Got heaps but only 7 lava.": "7",
		"By 20 bags it's $8 the bag. We have 75 bags.": "75", "Open 8 to 5 in the yard.": "", "I have 3 in my truck to deliver.": "", "4 here and 5 there.": ""} {
		p, err := Parse("Low Ford Quarry: lava in 50 L bags, $9 each.\n"+words, Options{Delivery: true})
		require.NoError(t, err)
		requireSound(t, p)
		got := ""
		for _, q := range p.Asked {
			for _, one := range q.Readings {
				got = first(got, one.Cells["max_qty"])
			}
		}
		assert.Equal(t, want, got, "%s: %s", words, summary(p))
	}
}

// TestSizesUnderOneMedium gives rows that are only sizes the medium that the first heading names, and ends numbers of packs with "plus".
func TestSizesUnderOneMedium(t *testing.T) {
	wantCells(t, "Low Ford Quarry\n\nLAVA (rinsed)       20 L bag    60 L bag\n4-8mm               £9.20       £24.60\n8-16mm              £8.80       £23.90\n",
		"0 medium=lava rock; 0 size=4-8 mm; 0 pack=20 L; 0 price=£9.20; 1 pack=60 L; 1 price=£24.60; 2 medium=lava rock; 2 size=8-16 mm; 2 price=£8.80; 3 price=£23.90")
	wantCells(t, "COLLECTED OR DELIVERED, all per cubic metre\n\n                  1 to 4    5 plus\nScoria 10mm         105        99\nPea gravel 10mm      88        84\n\nLow Ford Quarry\n",
		"0 pack=1 m3; 0 price=105; 0 breaks=5: 99; 0 notes=; 1 medium=river gravel; 1 price=88; 1 breaks=5: 84")
}

// TestLoadBehindCell reads what a load may hold in a cell behind another with a price for one.
func TestLoadBehindCell(t *testing.T) {
	p, err := Parse("Pumice $88 a yard, 60 per load\t up to 12 bags\t", Options{Delivery: true})
	require.NoError(t, err)
	requireSound(t, p)
}

// TestHeadingsOfSteps reads columns of prices from a number of packs on, or by the pallet, however they are headed, and a stroke for what is
// not to be had.
func TestHeadingsOfSteps(t *testing.T) {
	wantCells(t, "Supplier,Product,Unit,Price,12+ price\nLow Ford Quarry,Lava,40 L bag,19.00,17.50\nMarl Pit Stone,Pumice,ton,68.00,\n",
		"0 supplier=Low Ford Quarry; 0 price=19.00; 0 breaks=12: 17.50; 1 price=68.00; 1 breaks=")
	wantCells(t, "Low Ford Quarry\n\nItem             Each     Pallet qty    Pallet ea.\nLava, 40 L       19.00       36           16.20\nPumice, 50 L     23.00       30           20.10\n",
		"0 price=19.00; 0 breaks=36: 16.20; 1 price=23.00; 1 breaks=30: 20.10")
	wantCells(t, "Low Ford Quarry\n\nItem              Per yard    Per bag (2 cu ft)\nLava 3/8\"           96.00       14.50\nBlended mulch       31.00        -\nPumice 3/8\"        104.00       15.20\n",
		"0 pack=1 yd3; 0 price=96.00; 1 pack=2 cu ft; 1 price=14.50; 3 medium=pumice; 3 price=104.00; 4 price=15.20")
}

// TestRowsOfSteps reads rows below that of an item that are nothing but its prices from more packs on, and none that do not begin at one
// pack or whose price does not fall.
func TestRowsOfSteps(t *testing.T) {
	const two = "0 price=9.00; 0 breaks=10: 8.50; 1 price=12.00; 1 breaks=20: 11.00; 1 min_qty=; 1 supplier=Low Ford Quarry"
	for text, want := range map[string]string{
		"Low Ford Quarry\n\nLine  Item                Qty from   Unit price ex VAT\n1     Lava 50 L bag          1          9.00\n                            10          8.50\n2     Pumice 50 L bag        1         12.00\n                            20         11.00\n": two,
		"Low Ford Quarry\n\nItem                  From       Price\nLava 50 L bag         1          9.00\n                      10         8.50\nPumice 50 L bag       1         12.00\n                      20        11.00\n":                                             two,
		"Low Ford Quarry\nItem,Qty,Price\nLava 50 L bag,1,9.00\n,10,8.50\nPumice 50 L bag,1,12.00\n,20,11.00\n":                                                                                                                                                               two,
		"Low Ford Quarry\nItem\tMin qty\tPrice\nLava 50 L bag\t1\t9.00\n\t10\t8.50\nPumice 50 L bag\t1\t12.00\n\t20\t11.00\n":                                                                                                                                                 two,
		"Low Ford Quarry\nItem | Qty from | Price\nLava 50 L bag | 1 | 9.00\nPumice 50 L bag | 1 | 12.00\n":                                                                                                                                                                   "0 price=9.00; 0 breaks=; 1 price=12.00",
	} {
		wantCells(t, text, want)
	}
}

// TestNoRowsOfSteps leaves rows below an item to a person that do not begin at one pack, or whose price does not fall.
func TestNoRowsOfSteps(t *testing.T) {
	for _, rows := range []string{"5 | 9.00 |\n|  | 10 | 8.50", "1 | 9.00 |\n|  | 10 | 9.50", "1 | 9.00 |\n|  | 1 | 8.50"} {
		p, err := Parse("Low Ford Quarry\n| Item | Qty from | Price |\n| Lava 50 L bag | "+rows+" |\n| Pumice 50 L bag | 1 | 12.00 |\n", Options{Delivery: true})
		require.NoError(t, err)
		requireSound(t, p)
		assert.Empty(t, p.Rows, rows)
	}
}

// TestCommaNoCell takes a comma for none between cells where semicolons part them.
func TestCommaNoCell(t *testing.T) {
	p, err := Parse("Lava, 20 a yard\npea gravel; 1,5; 20 a yard 1,5", Options{Supplier: "Low Ford"})
	require.NoError(t, err)
	for i := range p.Rows {
		assert.NotEqual(t, "5", p.Rows[i].Text("price"), summary(p))
	}
}

// TestHalvesBesideWholes reads a price of a half beside that of a whole, in columns headed so or with the word behind it.
func TestHalvesBesideWholes(t *testing.T) {
	wantCells(t, "Prices from Low Ford Quarry, half yard / full yard:\n\nlava 3/4\"    62 / 118\npea gravel   28 / 52\n\nwe load you free",
		"0 supplier=Low Ford Quarry; 0 pack=1/2 yd3; 0 price=62; 0 size=3/4 in; 1 pack=1 yd3; 1 price=118; 2 medium=river gravel; 2 price=28; 3 price=52")
	wantCells(t, "Low Ford Quarry, yard / half yard:\nlava    $118 / $62\n", "0 pack=1 yd3; 0 price=$118; 1 pack=1/2 yd3; 1 price=$62")
	wantCells(t, "Low Ford Quarry\n\nSCORIA 20mm ........ $89 m3      $48 half\nPEA PEBBLE 10mm .... $125 m3     $66 half\n",
		"0 pack=1 m3; 0 price=$89; 1 pack=0.5 m3; 1 price=$48; 2 medium=river gravel; 2 price=$125; 3 pack=0.5 m3; 3 price=$66")
	for _, text := range []string{"Low Ford Quarry\nLava $89 m3, $12 half\n", "Low Ford Quarry\nLava $89 m3, $99 half\n", "Low Ford Quarry\nLava $89 m3, $48 half price\n", "Low Ford Quarry\nLava 50 L bag $9, $5 half\n"} {
		p, err := Parse(text, Options{Delivery: true})
		require.NoError(t, err)
		requireSound(t, p)
		for i := range p.Rows {
			assert.NotContains(t, p.Rows[i].Text("pack"), "0.5", text)
		}
	}
}

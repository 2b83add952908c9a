package optimise

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/quotes"
	"mediabuy/quotes/files/jobtest"
)

// handJob is a job whose cheapest purchase is worked out by hand. In settings,
// ";" stands for a line break.
type handJob struct {
	name                             string
	quotes, beds, delivery, settings string
	total                            string // "" for an infeasible job
	buy                              string
}

func (h handJob) job(t require.TestingT) *quotes.Job {
	return jobtest.Files{Quotes: h.quotes, Beds: h.beds, Delivery: h.delivery, Media: jobtest.PlainMedia, Settings: strings.ReplaceAll(h.settings, ";", "\n")}.Job(t)
}

// checkHand solves each job merged and plain; both must come to the sum.
func checkHand(t *testing.T, cases []handJob) {
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			for _, plain := range []bool{false, true} {
				p := solved(t, c.job(t), Options{Plain: plain})
				if c.total == "" {
					assert.Equal(t, Infeasible, p.Status)
					continue
				}
				require.Equal(t, Optimal, p.Status, "%v", p.Why)
				assert.Equal(t, c.total, p.Bill.Total.Text(2))
				assert.Equal(t, c.buy, bought(p))
				assert.LessOrEqual(t, p.Bound, p.Bill.Total.Float()+rounding(p.Bill))
			}
		})
	}
}

func TestPacksByHand(t *testing.T) {
	checkHand(t, []handJob{
		{
			// 425 L are 8.5 bags, so 9. 9 × 29 = 261; 10 × 26 = 260.
			name: "ten cost less than nine", quotes: "quote,supplier,medium,pack,price,breaks\na,Yard,grit,50 L,29,10: 26\n",
			beds: "bed,volume\none,425 L\n", total: "260.00", buy: "10 a",
		},
		{
			// 400 L are 8 bags: 8 × 29 = 232 is below 10 × 26 = 260.
			name: "eight cost less than ten", quotes: "quote,supplier,medium,pack,price,breaks\na,Yard,grit,50 L,29,10: 26\n",
			beds: "bed,volume\none,400 L\n", total: "232.00", buy: "8 a",
		},
		{
			// Breaks from 2.25 packs in half packs. Four steps make 2, the fifth passes
			// 2.25 and is the first at the new price: 4 × 5 + 2 × 3 = 26 for 3 packs.
			name: "the step that passes an incremental break", quotes: "quote,supplier,medium,pack,step,price,breaks,break_kind\na,Yard,grit,100 L,0.5,10,2.25: 6,incremental\n",
			beds: "bed,volume\none,300 L\n", total: "26.00", buy: "3 a",
		},
		{
			// Sold by two, the step to 8 passes both breaks: the third, for 5 packs wanted, is
			// still at 20. 6 × 20 = 120. Nothing may be bought at 10 before 6 are bought at 20.
			name: "one step past two incremental breaks, not reached", quotes: "quote,supplier,medium,pack,step,price,breaks,break_kind\na,Yard,grit,60 L,2,20,6.5: 18; 8: 10,incremental\n",
			beds: "bed,volume\none,289 L\n", total: "120.00", buy: "6 a",
		},
		{
			// 10 packs: 6 × 20 + 4 × 10 = 160; none at 18.
			name: "one step past two incremental breaks", quotes: "quote,supplier,medium,pack,step,price,breaks,break_kind\na,Yard,grit,60 L,2,20,6.5: 18; 8: 10,incremental\n",
			beds: "bed,volume\none,590 L\n", total: "160.00", buy: "10 a",
		},
		{
			// From 2 packs: the fourth step brings the sum to 2, so 3 × 5 + 3 × 3 = 24.
			name: "the step that reaches an incremental break", quotes: "quote,supplier,medium,pack,step,price,breaks,break_kind\na,Yard,grit,100 L,0.5,10,2: 6,incremental\n",
			beds: "bed,volume\none,300 L\n", total: "24.00", buy: "3 a",
		},
		{
			// Two breaks: 4 at 10, 5 at 8 (the 5th to the 9th), 3 at 5: 40 + 40 + 15 = 95.
			name: "two incremental breaks", quotes: "quote,supplier,medium,pack,price,breaks,break_kind\na,Yard,grit,50 L,10,5: 8; 10: 5,incremental\n",
			beds: "bed,volume\none,600 L\n", total: "95.00", buy: "12 a",
		},
		{
			// 4 bags of grit and 6 of rock reach "any 10" together:
			// 4 × 15 + 6 × 12 = 132; apart they would cost 4 × 20 + 6 × 16 = 176.
			name: "any ten bags", quotes: "quote,supplier,medium,pack,price,breaks,break_group\na,Yard,grit,50 L,20,10: 15,bags\nb,Yard,rock,50 L,16,10: 12,bags\n",
			beds: "bed,volume,only\none,200 L,grit\ntwo,300 L,rock\n", total: "132.00", buy: "4 a; 6 b",
		},
		{
			// The same bags from two yards are no group: 4 × 20 + 6 × 16 = 176.
			name: "a group ends at the supplier", quotes: "quote,supplier,medium,pack,price,breaks,break_group\na,Yard,grit,50 L,20,10: 15,bags\nb,Quay,rock,50 L,16,10: 12,bags\n",
			beds: "bed,volume,only\none,200 L,grit\ntwo,300 L,rock\n", total: "176.00", buy: "4 a; 6 b",
		},
		{
			// A group of all-units breaks at different numbers: 10 bags together reach a's
			// break from 8 and not b's from 12: 4 × 15 + 6 × 16 = 156. Two more of b
			// would make 12: 4 × 15 + 8 × 12 = 156 too; of 13.99: 4 × 15 + 8 × 11.99 = 155.92.
			name: "a group with two thresholds", quotes: "quote,supplier,medium,pack,price,breaks,break_group\na,Yard,grit,50 L,20,8: 15,bags\nb,Yard,rock,50 L,16,12: 11.99,bags\n",
			beds: "bed,volume,only\none,200 L,grit\ntwo,300 L,rock\n", total: "155.92", buy: "4 a; 8 b",
		},
		{
			// 12 × 10 = 120 though 9 would fill the bed; b: 9 × 14 = 126.
			name: "the fewest sold are more than needed", quotes: "quote,supplier,medium,pack,price,min_qty\na,Yard,grit,50 L,10,12\nb,Quay,grit,50 L,14,\n",
			beds: "bed,volume\none,450 L\n", total: "120.00", buy: "12 a",
		},
		{
			// 8 bags: a's smallest amount is 12 × 10 = 120; 8 × 14 = 112.
			name: "the fewest sold cost too much", quotes: "quote,supplier,medium,pack,price,min_qty\na,Yard,grit,50 L,10,12\nb,Quay,grit,50 L,14,\n",
			beds: "bed,volume\none,400 L\n", total: "112.00", buy: "8 b",
		},
		{
			// 4 in stock at 10, the other 5 at 14: 40 + 70 = 110.
			name: "stock runs out", quotes: "quote,supplier,medium,pack,price,max_qty\na,Yard,grit,50 L,10,4\nb,Quay,grit,50 L,14,\n",
			beds: "bed,volume\none,450 L\n", total: "110.00", buy: "4 a; 5 b",
		},
		{
			// The break from 10 is out of reach with 9 in stock: 9 × 29 = 261.
			name: "stock ends before the break", quotes: "quote,supplier,medium,pack,price,breaks,max_qty\na,Yard,grit,50 L,29,10: 20,9\n",
			beds: "bed,volume\none,425 L\n", total: "261.00", buy: "9 a",
		},
		{
			// 9 bags: a is sold by fours, so 8 of it and 1 of b: 8 × 10 + 41 = 121, or 12
			// of it: 120.
			name: "sold by fours", quotes: "quote,supplier,medium,pack,step,price\na,Yard,grit,50 L,4,10\nb,Quay,grit,50 L,1,41\n",
			beds: "bed,volume\none,450 L\n", total: "120.00", buy: "12 a",
		},
		{
			// Three steps of 0.25 place 750 L: 0.75 × 100 = 75; a whole one would be 100.
			name: "sold by quarters", quotes: "quote,supplier,medium,form,pack,step,price\na,Yard,grit,bulk,1 m3,0.25,100\n",
			beds: "bed,volume\none,740 L\n", total: "75.00", buy: "0.75 a",
		},
		{
			// A fifth is lost on rinsing, so 100 L place 80 L: 400 ÷ 80 = 5 packs.
			name: "rinse loss", quotes: "quote,supplier,medium,pack,price,rinse_loss\na,Yard,grit,100 L,8,20%\n",
			beds: "bed,volume\none,400 L\n", total: "40.00", buy: "5 a",
		},
		{
			// A loss of 20 % for 8 a pack is 0.10 a placed litre; the clean one at 9 is 0.09.
			name: "the cleaner one is cheaper", quotes: "quote,supplier,medium,pack,price,rinse_loss\na,Yard,grit,100 L,8,20%\nb,Quay,grit,100 L,9,\n",
			beds: "bed,volume\none,400 L\n", total: "36.00", buy: "4 b",
		},
		{
			// 3 of 100 L and 1 of 30 L: 3 × 10 + 4 = 34; a fourth of 100 L makes 40.
			name: "a small pack tops up", quotes: "quote,supplier,medium,pack,price\na,Yard,grit,100 L,10\nb,Yard,grit,30 L,4\n",
			beds: "bed,volume\none,330 L\n", total: "34.00", buy: "3 a; 1 b",
		},
		{
			// Given away: nothing to pay, and no more than is needed.
			name: "free stone", quotes: "quote,supplier,medium,pack,price\na,Yard,grit,100 L,0\nb,Quay,grit,100 L,1\n",
			beds: "bed,volume\none,330 L\n", total: "0.00", buy: "4 a",
		},
	})
}

func TestBedsByHand(t *testing.T) {
	const two = "quote,supplier,medium,pack,price\nf,Yard,fluff,100 L,50\nr,Quay,rock,100 L,10\n"
	checkHand(t, []handJob{
		{
			// Rock may fill 0.6 of 1000 L: 6 × 10 + 4 × 50 = 260.
			name: "a share", quotes: two, beds: "bed,volume,max_share\none,1000 L,rock: 0.6\n", total: "260.00", buy: "4 f; 6 r",
		},
		{
			// A share holds for each bed by itself: 0.55 of 1000 L is 550 L, twice, so
			// 900 L of fluff and 1100 L of rock: 9 × 50 + 11 × 10 = 560.
			name: "a share of each bed", quotes: two, beds: "bed,volume,max_share\none,1000 L,rock: 0.55\ntwo,1000 L,rock: 0.55\n", total: "560.00", buy: "9 f; 11 r",
		},
		{
			// 2x + 0.5·(1000 − x) ≤ 1300 − 50 gives x ≤ 500: 5 × 10 + 5 × 50 = 300.
			name: "a table asks for a lighter mix", quotes: two, beds: "bed,volume,table,limit,own_weight\none,1000 L,T,1300 kg,50 kg\n", total: "300.00", buy: "5 f; 5 r",
		},
		{
			// One kilogram less gives x ≤ 499.33, so 500.67 L of fluff: 6 × 50, and the
			// 400 L left are 4 × 10: 340.
			name: "a kilogram less", quotes: two, beds: "bed,volume,table,limit,own_weight\none,1000 L,T,1299 kg,50 kg\n", total: "340.00", buy: "6 f; 4 r",
		},
		{
			// A shared table: 1000 L in two beds with 1250 kg in all is 500 L of rock,
			// all in one bed if need be: 300.
			name: "two beds on one table", quotes: two, beds: "bed,volume,table,limit\none,500 L,T,1250 kg\ntwo,500 L,T,1250 kg\n", total: "300.00", buy: "5 f; 5 r",
		},
		{
			// The same beds with limits of their own of 610 kg: 240 L of rock each, 480 L
			// in all: 520 L of fluff are 6 packs, and the 400 L left 4 of rock: 340.
			name: "limits of their own", quotes: two, beds: "bed,volume,limit\none,500 L,610 kg\ntwo,500 L,610 kg\n", total: "340.00", buy: "6 f; 4 r",
		},
		{
			// Three alike, 1175 kg each: x ≤ 450 L of rock each, so at least 1650 L of fluff,
			// 17 packs, and the 1300 L left in rock: 850 + 130 = 980.
			name: "a limit holds for each of a count", quotes: two, beds: "bed,count,volume,limit\none,3,1000 L,1175 kg\n", total: "980.00", buy: "17 f; 13 r",
		},
		{
			// One light bed does not lend its room to a heavy one: both of 1000 L, limits
			// 2000 and 500 kg: all rock in one, all fluff in the other: 100 + 500 = 600.
			name: "no lending between beds", quotes: two, beds: "bed,volume,limit\none,1000 L,2000 kg\ntwo,1000 L,500 kg\n", total: "600.00", buy: "10 f; 10 r",
		},
		{
			// 1 m × 1 m: top 100 L, base 200 − 20 = 180 L, a tenth spare, two of them:
			// 220 L of fluff (22 × 1) and 396 L of rock (40 × 0.5): 42.
			name: "displaced, spare and a count", quotes: "quote,supplier,medium,pack,price\nf,Yard,fluff,10 L,1\nr,Quay,rock,10 L,0.5\n",
			beds: "bed,count,length,width,depth,top,displaced\none,2,1000 mm,1000 mm,300 mm,100 mm,20 L\n", settings: "extra = 10", total: "42.00", buy: "22 f; 40 r",
		},
		{
			// A top of rock is allowed where the bed names it: 10 × 10.
			name: "a top that names its media", quotes: two, beds: "bed,volume,top_volume,top_media\none,1000 L,400 L,rock\n", total: "100.00", buy: "10 r",
		},
		{
			// 400 L of top in fluff, 600 L of base in rock: 4 × 50 + 6 × 10 = 260.
			name: "a top must be smooth", quotes: two, beds: "bed,volume,top_volume\none,1000 L,400 L\n", total: "260.00", buy: "4 f; 6 r",
		},
		{
			name: "only", quotes: two, beds: "bed,volume,only\none,200 L,fluff\n", total: "100.00", buy: "2 f",
		},
		{
			name: "avoid", quotes: two, beds: "bed,volume,avoid\none,200 L,rock\n", total: "100.00", buy: "2 f",
		},
		{
			// 8-16 mm fails a largest grain of 12 mm; 4-8 mm fails none: 2 × 30.
			name: "a largest grain", quotes: "quote,supplier,medium,pack,price,size\na,Yard,grit,100 L,20,8-16 mm\nb,Yard,grit,100 L,30,4-8 mm\n",
			beds: "bed,volume,max_size\none,200 L,12 mm\n", total: "60.00", buy: "2 b",
		},
		{
			// A quote that ended, one that comes too late and one that is left: 2 × 30.
			name: "dates", quotes: "quote,supplier,medium,pack,price,valid_until,ready_by\na,Yard,grit,100 L,10,2026-03-31,\nb,Yard,grit,100 L,20,,2026-05-02\nc,Yard,grit,100 L,30,2026-04-01,2026-05-01\n",
			beds: "bed,volume\none,200 L\n", settings: `date = "2026-04-01";need_by = "2026-05-01"`, total: "60.00", buy: "2 c",
		},
	})
}

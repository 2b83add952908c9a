package bill_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/optimise/bill"
	"mediabuy/quotes"
	"mediabuy/quotes/files/jobtest"
)

// purchase is so many steps of each quote, named, for the job's only site.
func purchase(job *quotes.Job, steps map[string]int64) bill.Purchase {
	var out bill.Purchase
	for _, q := range job.Quotes {
		if n := steps[q.Name]; n > 0 {
			out.Items = append(out.Items, bill.Item{Quote: q, Steps: n})
		}
	}
	return out
}

// parts is a bill as goods, delivery, tax, rinsing and total.
func parts(b *bill.Bill) string {
	return strings.Join([]string{b.Goods.Text(2), b.Delivery.Text(2), b.Tax.Text(2), b.Rinsing.Text(2), b.Total.Text(2)}, " ")
}

func TestPriceByHand(t *testing.T) {
	for _, c := range []struct {
		name, quotes, delivery, settings string
		buy                              map[string]int64
		want                             string // goods delivery tax rinsing total
	}{
		{
			// 6 + 4 packs reach the break from 10 together: 6 × 8 + 4 × 9 = 84.
			name: "a break reached together", quotes: "quote,supplier,medium,pack,price,breaks,break_group\na,Yard,rock,50 L,10,10: 8,stone\nb,Yard,fluff,50 L,11,10: 9,stone\n",
			buy: map[string]int64{"a": 6, "b": 4}, want: "84.00 0.00 0.00 0.00 84.00",
		},
		{
			// Without a group each is by itself, and neither reaches 10: 6 × 10 + 4 × 11 = 104.
			name: "no break by itself", quotes: "quote,supplier,medium,pack,price,breaks\na,Yard,rock,50 L,10,10: 8\nb,Yard,fluff,50 L,11,10: 9\n",
			buy: map[string]int64{"a": 6, "b": 4}, want: "104.00 0.00 0.00 0.00 104.00",
		},
		{
			// A group of the same name at another yard is another group: 6 × 10 + 4 × 11 = 104.
			name: "groups end at the yard", quotes: "quote,supplier,medium,pack,price,breaks,break_group\na,Yard,rock,50 L,10,10: 8,stone\nb,Quay,fluff,50 L,11,10: 9,stone\n",
			buy: map[string]int64{"a": 6, "b": 4}, want: "104.00 0.00 0.00 0.00 104.00",
		},
		{
			// The fifth is the first at the new price: 4 × 10 + 3 × 6 = 58.
			name: "an incremental break", quotes: "quote,supplier,medium,pack,price,breaks,break_kind\na,Yard,rock,50 L,10,5: 6,incremental\n",
			buy: map[string]int64{"a": 7}, want: "58.00 0.00 0.00 0.00 58.00",
		},
		{
			// 9 × 100 L are three loads of 400 L: 90 + 20 + 3 × 30 = 200.
			name: "an order fee and loads by volume", quotes: "quote,supplier,medium,pack,price\na,Yard,fluff,100 L,10\n", delivery: "supplier,order_fee,load_fee,load_volume\nYard,20,30,400 L\n",
			buy: map[string]int64{"a": 9}, want: "90.00 110.00 0.00 0.00 200.00",
		},
		{
			// 800 L of rock weigh 1600 kg, two loads of 1000 kg: 80 + 2 × 30 = 140.
			name: "loads by weight", quotes: "quote,supplier,medium,pack,price\na,Yard,rock,100 L,10\n", delivery: "supplier,load_fee,load_volume,load_weight\nYard,30,1000 L,1000 kg\n",
			buy: map[string]int64{"a": 8}, want: "80.00 60.00 0.00 0.00 140.00",
		},
		{
			// Goods of 80 waive the order and the loads, not the haul of 800 L × 0.05: 80 + 40.
			name: "haul is never waived", quotes: "quote,supplier,medium,pack,price\na,Yard,rock,100 L,10\n", delivery: "supplier,order_fee,load_fee,load_volume,haul,free_over\nYard,20,30,400 L,0.05 / L,80\n",
			buy: map[string]int64{"a": 8}, want: "80.00 40.00 0.00 0.00 120.00",
		},
		{
			// Two lines of 0.30 at 2 % are 0.012 of tax: 0.01, where 0.006 and 0.006 rounded
			// by line would be 0.02.
			name: "tax is rounded once a supplier", quotes: "quote,supplier,medium,pack,price,tax\na,Yard,fluff,100 L,0.30,2%\nb,Yard,rock,100 L,0.30,2%\n",
			buy: map[string]int64{"a": 1, "b": 1}, want: "0.60 0.00 0.01 0.00 0.61",
		},
		{
			// Two suppliers round by themselves: 0.006 and 0.006 are a cent each.
			name: "tax of two suppliers", quotes: "quote,supplier,medium,pack,price,tax\na,Yard,fluff,100 L,0.30,2%\nb,Quay,rock,100 L,0.30,2%\n",
			buy: map[string]int64{"a": 1, "b": 1}, want: "0.60 0.00 0.02 0.00 0.62",
		},
		{
			// 10 % on goods of 90 and on the fee of 40: 9 + 4 = 13.
			name: "tax on delivery", quotes: "quote,supplier,medium,pack,price\na,Yard,rock,50 L,10\n", delivery: "supplier,order_fee\nYard,40\n", settings: "tax = 10\n",
			buy: map[string]int64{"a": 9}, want: "90.00 40.00 13.00 0.00 143.00",
		},
		{
			// Prices carry their tax, so none is added; before it goods are 107.50 ÷ 1.075 = 100, which is free.
			name: "tax within the price", quotes: "quote,supplier,medium,pack,price\na,Yard,rock,50 L,107.50\n", delivery: "supplier,order_fee,free_over\nYard,40,100\n", settings: "tax = \"7.5%\"\ntax_included = true\n",
			buy: map[string]int64{"a": 1}, want: "107.50 0.00 0.00 0.00 107.50",
		},
		{
			// Grit takes 30 minutes for each 100 L: 2 × 100 L are an hour, at 12.
			name: "rinsing is one's own time", quotes: "quote,supplier,medium,pack,price\na,Yard,grit,100 L,10\n", settings: "labour_rate = 12\n",
			buy: map[string]int64{"a": 2}, want: "20.00 0.00 0.00 12.00 32.00",
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			job := jobtest.Files{Quotes: c.quotes, Beds: "bed,volume\none,100 L\n", Delivery: c.delivery, Media: jobtest.PlainMedia, Settings: c.settings}.Job(t)
			b, err := bill.Price(job, purchase(job, c.buy))
			require.NoError(t, err)
			assert.Equal(t, c.want, parts(b))
		})
	}
}

// What a supplier would not sell is no bill.
func TestPriceRefuses(t *testing.T) {
	job := jobtest.Files{Quotes: "quote,supplier,medium,pack,price,min_qty,max_qty\na,Yard,rock,100 L,10,2,5\n", Beds: "bed,volume\none,100 L\n",
		Delivery: "supplier,min_order\nYard,30\n", Media: jobtest.PlainMedia}.Job(t)
	for steps, want := range map[int64]string{1: "sold from 2", 6: "5 in stock", 2: "the smallest order", -1: "want 0 or more"} {
		_, err := bill.Price(job, bill.Purchase{Items: []bill.Item{{Quote: job.Quotes[0], Steps: steps}}})
		assert.ErrorContains(t, err, want, "%d steps", steps)
	}
	b, err := bill.Price(job, purchase(job, map[string]int64{"a": 3}))
	require.NoError(t, err)
	assert.Equal(t, "30.00", b.Total.Text(2), "goods of 30 are the smallest order")
}

// Loads of two sizes, as parts of each that the whole heap fills, for least money.
func TestCheapestLoads(t *testing.T) {
	for _, c := range []struct {
		name  string
		fees  []float64
		needs [][2]float64
		want  []int
	}{
		{"three small for 30 cost less than one large and one small", []float64{100, 30}, [][2]float64{{1.5, 0}, {3, 0}}, []int{0, 3}},
		{"one large for 50 and one small for 30 cost less than two large", []float64{50, 30}, [][2]float64{{1.5, 0}, {3, 0}}, []int{1, 1}},
		{"by weight, which fills before the volume does", []float64{30}, [][2]float64{{0.8, 1.6}}, []int{2}},
		{"exactly full", []float64{30}, [][2]float64{{2, 0}}, []int{2}},
		{"of equal costs the fewest", []float64{60, 30}, [][2]float64{{1, 0}, {2, 0}}, []int{1, 0}},
	} {
		assert.Equal(t, c.want, bill.CheapestLoads(c.fees, c.needs), c.name)
	}
}

// Each supplier is named once, by name.
func TestSuppliersOfABill(t *testing.T) {
	yard, quay := &quotes.Quote{Supplier: "Yard"}, &quotes.Quote{Supplier: "Quay"}
	b := &bill.Bill{Lines: []bill.Line{{Quote: yard}, {Quote: quay}, {Quote: yard}}}
	assert.Equal(t, []string{"Quay", "Yard"}, b.Suppliers())
}

// How goods come is said where it has a name, and not as "delivery, delivered".
func TestWayOfADrop(t *testing.T) {
	assert.Equal(t, "Delivery", bill.DropLine{Name: quotes.Delivered}.Way("Delivery"))
	assert.Equal(t, "Delivery, van", bill.DropLine{Name: "van"}.Way("Delivery"))
	assert.Equal(t, "Low Ford", bill.DropLine{Supplier: "Low Ford", Name: quotes.Delivered, Loads: 1}.Words())
}

package papers

import (
	"bytes"
	"context"
	"encoding/csv"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"mediabuy/optimise"
	"mediabuy/optimise/bill"
	"mediabuy/optimise/suitability"
	"mediabuy/papers/received"
	"mediabuy/quotes"
	"mediabuy/units"
)

// solve plans a job to the end.
func solve(t require.TestingT, job *quotes.Job) *optimise.Plan {
	p, err := optimise.Solve(context.Background(), job, optimise.Options{})
	require.NoError(t, err)
	require.Equal(t, optimise.Optimal, p.Status)
	return p
}

// bought is a plan of a purchase that the test chooses, priced as any other.
func bought(t require.TestingT, job *quotes.Job, items ...bill.Item) *optimise.Plan {
	p := &optimise.Plan{Job: job, Fit: suitability.New(job), Status: optimise.Optimal, Purchase: bill.Purchase{Items: items}}
	var err error
	p.Bill, err = bill.Price(job, p.Purchase)
	require.NoError(t, err)
	return p
}

func named(t require.TestingT, job *quotes.Job, name string) *quotes.Quote {
	for _, q := range job.Quotes {
		if q.Name == name {
			return q
		}
	}
	require.Fail(t, "no quote "+name)
	return nil
}

// By hand, in dollars. Low Ford, north: lava 1.5 m³ × 90 = 135.00 at 5 % tax =
// 6.75; gravel 1 t × 48.335 = 48.335, rounded 48.34, at 7.25 % = 3.50465; handling
// 12 and one load 20 + 40 + haul at 7.25 %. Gravel is 1000/1.55 = 645.161 L and
// lava 1500 L, so haul is 2.145161 m³ × 5 = 10.7258 and the drop 70.73; tax of
// 82.73 × 7.25 % = 5.997925. Raw tax north 16.252575.
// South: lava 3 m³ × 90 = 270.00 at 5 % = 13.50; drop 20 + 40 + 15 = 75.00, tax
// 5.4375; raw 18.9375. But the lava is 4.5 m³ in all, so from 4 on each costs 80:
// 120.00 (tax 6.00) and 240.00 (tax 12.00). North raw = 6 + 3.50465 + 5.997925 =
// 15.502575, south 12 + 5.4375 = 17.4375; together 32.940075, rounded 32.94 =
// 3294 cents, shared 1550.24 to 1743.75 : 1550 + 1743, and the odd cent to the
// larger remainder, the south's 0.746.
func TestOrdersByHand(t *testing.T) {
	job, _ := gardens.job(t)
	lava, gravel, pebbles := named(t, job, "lava"), named(t, job, "gravel"), named(t, job, "pebbles")
	p := bought(t, job, bill.Item{Quote: lava, Site: "north", Steps: 3}, bill.Item{Quote: gravel, Site: "north", Steps: 2},
		bill.Item{Quote: lava, Site: "south", Steps: 6}, bill.Item{Quote: pebbles, Site: "north", Steps: 12})
	orders, err := Orders(p, Style{})
	require.NoError(t, err)
	require.Len(t, orders, 3)
	money := func(o *Order) string {
		return fmt.Sprintf("%s %s %s: goods %s delivery %s tax %s total %s", o.Number, o.Supplier, o.Site, o.Goods.Text(2), o.Delivery.Text(2), o.Tax.Text(2), o.Total.Text(2))
	}
	assert.Equal(t, "2026-04-06/1 Low Ford / Quarry north: goods 168.34 delivery 82.73 tax 15.50 total 266.57", money(orders[0]))
	assert.Equal(t, "2026-04-06/2 Low Ford / Quarry south: goods 240.00 delivery 75.00 tax 17.44 total 332.44", money(orders[1]))
	// 9 bags at 30 and, from the 10th, 3 at 27.50: 270 + 82.50 = 352.50; that is
	// over 250, so the van is free; tax 352.50 × 7.25 % = 25.55625.
	assert.Equal(t, "2026-04-06/3 Tansy Hill Supply north: goods 352.50 delivery 0.00 tax 25.56 total 378.06", money(orders[2]))
	require.Len(t, orders[2].Lines[0].tiers, 2)
	assert.Equal(t, "9", orders[2].Lines[0].tiers[0].packs.String())
	assert.Equal(t, "3", orders[2].Lines[0].tiers[1].packs.String())
	sum := units.Money{}
	for _, o := range orders {
		sum = sum.Add(o.Total)
	}
	assert.Equal(t, p.Bill.Total.Sub(p.Bill.Rinsing).Text(2), sum.Text(2))
}

func TestOrderCSV(t *testing.T) {
	job, _ := gardens.job(t)
	p := bought(t, job, bill.Item{Quote: named(t, job, "pebbles"), Site: "north", Steps: 12})
	orders, err := Orders(p, Style{})
	require.NoError(t, err)
	var b bytes.Buffer
	require.NoError(t, orders[0].CSV(&b))
	assert.Equal(t, `order,supplier,site,need_by,kind,quote,item,medium,size,packs,pack,pack_price,break_from,amount,currency
2026-04-06/1,Tansy Hill Supply,north,2026-05-15,goods,pebbles,round pebbles,expanded clay,8-16 mm,12,50 L,29.38,10,352.50,USD
2026-04-06/1,Tansy Hill Supply,north,2026-05-15,delivery,,van,,,1,,,,0.00,USD
2026-04-06/1,Tansy Hill Supply,north,2026-05-15,tax,,tax,,,,,,,25.56,USD
2026-04-06/1,Tansy Hill Supply,north,2026-05-15,total,,total,,,,,,,378.06,USD
`, b.String())
	back, rep, err := received.ReadOrder(&b, "order.csv", job)
	require.NoError(t, err)
	require.NoError(t, rep.Err())
	require.Len(t, back, 1)
	assert.Equal(t, "2026-04-06/1 pebbles north 12 352.5", fmt.Sprint(back[0].Order, " ", back[0].Quote.Name, " ", back[0].Site, " ", back[0].Packs, " ", back[0].Amount))
}

func TestOrderCSVCannotHoldFormulas(t *testing.T) {
	f := gardens
	f.quotes = strings.ReplaceAll(f.quotes, "pebbles,Tansy Hill Supply,round pebbles", `@pebbles,"=HYPERLINK(""x"")",+round`)
	f.delivery = strings.ReplaceAll(f.delivery, "Tansy Hill Supply", `"=HYPERLINK(""x"")"`)
	job, _ := f.job(t)
	p := bought(t, job, bill.Item{Quote: named(t, job, "@pebbles"), Site: "north", Steps: 12})
	orders, err := Orders(p, Style{})
	require.NoError(t, err)
	var b bytes.Buffer
	require.NoError(t, orders[0].CSV(&b))
	rows, err := csv.NewReader(bytes.NewReader(b.Bytes())).ReadAll()
	require.NoError(t, err)
	for _, row := range rows {
		for _, cell := range row {
			assert.False(t, cell != "" && strings.ContainsAny(cell[:1], "=+-@"), "%q", cell)
		}
	}
	back, rep, err := received.ReadOrder(&b, "order.csv", job)
	require.NoError(t, err)
	require.NoError(t, rep.Err())
	assert.Equal(t, "@pebbles", back[0].Quote.Name, "the quote is found under its safe name")
}

func TestOrdersOfPricesWithTax(t *testing.T) {
	f := gardens
	f.settings += "tax_included = true\n"
	job, _ := f.job(t)
	p := bought(t, job, bill.Item{Quote: named(t, job, "lava"), Site: "north", Steps: 3})
	orders, err := Orders(p, Style{})
	require.NoError(t, err)
	assert.True(t, orders[0].Tax.IsZero())
	var b bytes.Buffer
	require.NoError(t, orders[0].CSV(&b))
	assert.NotContains(t, b.String(), ",tax,")
}

func TestNoOrdersWithoutAPurchase(t *testing.T) {
	job, _ := gardens.job(t)
	_, err := Orders(&optimise.Plan{Job: job, Status: optimise.Infeasible}, Style{})
	assert.ErrorContains(t, err, `the plan is "infeasible"`)
}

// Any purchase that can be priced splits into orders that add up to its bill.
func TestOrdersAddUpToTheBill(t *testing.T) {
	job, _ := gardens.job(t)
	rapid.Check(t, func(t *rapid.T) {
		var items []bill.Item
		for _, name := range []string{"pebbles", "lava", "gravel"} {
			for _, site := range []string{"north", "south"} {
				if n := rapid.Int64Range(0, 40).Draw(t, name+" "+site); n > 0 {
					items = append(items, bill.Item{Quote: named(t, job, name), Site: site, Steps: n})
				}
			}
		}
		if len(items) == 0 {
			return
		}
		p := &optimise.Plan{Job: job, Status: optimise.Optimal, Purchase: bill.Purchase{Items: items}}
		// An incremental quote sent to both sites says which steps are at which price.
		left := []int64{9, 10, 1000}
		for i := range items {
			if items[i].Quote.Name != "pebbles" {
				continue
			}
			items[i].Tiers = make([]int64, 3)
			n := items[i].Steps
			for l := range left {
				items[i].Tiers[l] = min(n, left[l])
				n -= items[i].Tiers[l]
				left[l] -= items[i].Tiers[l]
			}
		}
		var err error
		if p.Bill, err = bill.Price(job, p.Purchase); err != nil {
			t.Fatal(err)
		}
		orders, err := Orders(p, Style{})
		if err != nil {
			t.Fatal(err)
		}
		var goods, delivery, tax, total units.Money
		for _, o := range orders {
			goods, delivery, tax, total = goods.Add(o.Goods), delivery.Add(o.Delivery), tax.Add(o.Tax), total.Add(o.Total)
			if o.Tax.Sign() < 0 {
				t.Fatalf("order %s has a tax of %s", o.Number, o.Tax)
			}
		}
		b := p.Bill
		if !goods.Equal(b.Goods) || !delivery.Equal(b.Delivery) || !tax.Equal(b.Tax) || !total.Equal(b.Total.Sub(b.Rinsing)) {
			t.Fatalf("orders come to %s + %s + %s = %s, the bill to %s + %s + %s = %s without rinsing", goods, delivery, tax, total, b.Goods, b.Delivery, b.Tax, b.Total.Sub(b.Rinsing))
		}
	})
}

func TestSafeOrderPage(t *testing.T) {
	job, _ := gardens.job(t)
	p := bought(t, job, bill.Item{Quote: named(t, job, "pebbles"), Site: "north", Steps: 12}, bill.Item{Quote: named(t, job, "gravel"), Site: "north", Steps: 1})
	p.Status = optimise.TimeLimit
	orders, err := Orders(p, Style{})
	require.NoError(t, err)
	pg := orders[0].Page(Style{})
	assert.Contains(t, pg.Alarm, "not proven")
	assert.NotContains(t, pg.Alarm, "$", "what might be saved is not for the supplier to read")
	var b bytes.Buffer
	require.NoError(t, pg.Markdown(&b))
	for _, want := range []string{"| Needed by | 2026-05-15", "river gravel"} {
		assert.Contains(t, b.String(), want)
	}
	for _, ours := range []string{"round foot", "eye protection", "Received by", "write down", "Source:"} {
		assert.NotContains(t, b.String(), ours, "how it is looked at on delivery stands on our own sheet for the gate")
	}
}

// An order says who orders and where goods are set down; what the job leaves out has
// room to be written in.
func TestOrderNamesTheBuyer(t *testing.T) {
	f := gardens
	page := func() string {
		job, _ := f.job(t)
		orders, err := Orders(bought(t, job, bill.Item{Quote: named(t, job, "pebbles"), Site: "north", Steps: 12}), Style{})
		require.NoError(t, err)
		var b bytes.Buffer
		require.NoError(t, orders[0].Page(Style{}).Markdown(&b))
		return b.String()
	}
	text := page()
	for _, blank := range []string{"From: ____", "Phone: ____", "Address: ____", "Set down at: ____", "Way in for a truck: ____"} {
		assert.Contains(t, text, blank)
	}
	f.settings += "[buyer]\nname = \"Marlow Bank Growers\"\nphone = \"555 0142\"\naddress = \"3 Marlow Bank\"\n[buyer.north]\ndrop = \"by the north gate\"\naccess = \"lane 2.4 m wide\"\n"
	text = page()
	for _, row := range []string{"| From | Marlow Bank Growers |", "| Phone | 555 0142 |", "| Address | 3 Marlow Bank |", "| To | Tansy Hill Supply |", "| Deliver to | north |", "| Set down at | by the north gate |", "| Way in for a truck | lane 2.4 m wide |"} {
		assert.Contains(t, text, row)
	}
	assert.NotContains(t, text, "Phone: ____")
}

// Clauses are about what is ordered and nothing else, in the order and on the sheet for the gate.
func TestOrderClausesConcernTheGoods(t *testing.T) {
	f := gardens
	f.quotes += "crushed,Low Ford / Quarry,granite #57,crushed granite,bulk,1 m3,0.5,70.00,,,#57,none,\nstuff,Low Ford / Quarry,shale,expanded shale,sack,1 m3,,150.00,,,,none,\nheavy,Low Ford / Quarry,lava by the crane,lava rock,bag,800 kg,,90.00,,,8-16 mm,none,\n"
	job, _ := f.job(t)
	page := func(items ...bill.Item) (order, gate string) {
		plan := bought(t, job, items...)
		orders, err := Orders(plan, Style{})
		require.NoError(t, err)
		require.Len(t, orders, 1)
		ordered, err := PlanOrder(plan)
		require.NoError(t, err)
		gates := Gates(job, ordered)
		require.Len(t, gates, 1)
		wellLaid(t, gates[0].Page(Style{Letter: true}))
		return markdown(t, orders[0].Page(Style{})), markdown(t, gates[0].Page(Style{}))
	}
	at := func(name string, steps int64) bill.Item {
		return bill.Item{Quote: named(t, job, name), Site: "north", Steps: steps}
	}
	for _, c := range []struct {
		items          []bill.Item
		order, orderNo []string
		gate, gateNo   []string
	}{
		{[]bill.Item{at("pebbles", 12)}, []string{"| of these |  | 9 | 50 L bag | $30.00 |", "packed and closed", "Delivery, van: free for an order of this size", "We count the bags; we lay ten stones along a ruler", "ten stones along a ruler"}, []string{"acid", "weighbridge", "measure the load", "bulk bags"},
			[]string{"count 12 bags", "Pour one bag", "Lifting:"}, []string{"acid", "heap", "weighbridge", "No. 57", "swept clean"}},
		{[]bill.Item{at("lava", 3)}, []string{"red lava: loose, on a truck bed swept clean before", "| 1 m3 loose | $90.00 | list price |", "We measure the load before it is tipped; we lay"}, []string{"acid", "weighbridge", "We count"},
			[]string{"round foot"}, []string{"Pour one bag", "acid", "weighbridge", "Lifting:", "No. 57"}},
		{[]bill.Item{at("gravel", 2)}, []string{"We read the weighbridge ticket, so please bring it;", "one that fizzes and so carries lime, is refused."}, []string{"measure the load", "We count"}, []string{"weighbridge", "acid drop", "eye protection", "keep it from bleach"}, []string{"round foot", "Pour one bag"}},
		{[]bill.Item{at("crushed", 2), at("lava", 2)}, []string{"granite #57 and red lava may share a truck, kept apart"}, []string{"acid"}, []string{"No. 57 may have 10 %"}, []string{"acid"}},
		{[]bill.Item{at("stuff", 2)}, []string{"We count the bulk bags, each full to its mark. The wrong stone is refused."}, []string{"ruler", "acid"}, []string{"count 2 bulk bags", "Where no size was stated"}, []string{"acid", "round foot", "Pour one bag"}},
		{[]bill.Item{at("heavy", 2)}, []string{"We count the bags"}, nil, []string{"count 2 bags"}, []string{"Pour one bag"}},
	} {
		order, gate := page(c.items...)
		for _, want := range c.order {
			assert.Contains(t, order, want)
		}
		for _, bad := range c.orderNo {
			assert.NotContains(t, order, bad)
		}
		for _, want := range c.gate {
			assert.Contains(t, gate, want)
		}
		for _, bad := range c.gateNo {
			assert.NotContains(t, gate, bad)
		}
	}
	f.delivery = strings.Replace(f.delivery, "4 m3,any", "4 m3,one", 1)
	job, _ = f.job(t)
	text, _ := page(at("crushed", 2), at("lava", 2))
	assert.Contains(t, text, "One stone a load: granite #57 and red lava each on a truck bed of its own")
	assert.Contains(t, text, "2 loads up to 4000 L at $40.00")
}

package optimise

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"mediabuy/optimise/suitability"
	"mediabuy/quotes"
	"mediabuy/quotes/files/jobtest"
	"mediabuy/units"
)

// oracle finds the least cost of a tiny job by pricing every purchase within
// stock, straight from the files' own words and in plain floating point: no code
// of the model, the search or the bill is used. Every quote must state max_qty.
type oracle struct {
	job   *quotes.Job
	fit   *suitability.Fit
	sites []string
	keys  []oracleKey
	buys  []oracleBuy
}

// oracleKey is one quote for one site.
type oracleKey struct{ quote, site int }

// oracleBuy is the steps of each key, at what cost.
type oracleBuy struct {
	steps []int
	cost  float64
}

// packs of key k.
func (o *oracle) packs(steps []int, k int) float64 {
	return float64(steps[k]) * o.job.Quotes[o.keys[k].quote].Step.Float()
}

// leastByCounting is the least cost, +Inf when nothing fills the beds.
func leastByCounting(t require.TestingT, job *quotes.Job) (float64, []int) {
	o := &oracle{job: job, fit: suitability.New(job), sites: quotes.Sites(job)}
	for q := range job.Quotes {
		for s := range o.sites {
			o.keys = append(o.keys, oracleKey{q, s})
		}
	}
	o.count(make([]int, len(o.keys)), 0)
	slices.SortFunc(o.buys, func(a, b oracleBuy) int {
		if a.cost != b.cost {
			return map[bool]int{true: -1, false: 1}[a.cost < b.cost]
		}
		return slices.Compare(a.steps, b.steps)
	})
	for _, b := range o.buys {
		if o.fills(t, b.steps) {
			return b.cost, b.steps
		}
	}
	return math.Inf(1), nil
}

// count goes through all steps of key k and those after it.
func (o *oracle) count(steps []int, k int) {
	if k == len(steps) {
		if cost := o.cost(steps); !math.IsInf(cost, 1) {
			o.buys = append(o.buys, oracleBuy{slices.Clone(steps), cost})
		}
		return
	}
	q := o.job.Quotes[o.keys[k].quote]
	for steps[k] = 0; float64(steps[k])*q.Step.Float() <= q.MaxQty.Float()+1e-9; steps[k]++ {
		o.count(steps, k+1)
	}
	steps[k] = 0
}

// cost is what a purchase costs, +Inf when a rule of the suppliers or of the
// settings is against it.
func (o *oracle) cost(steps []int) float64 {
	goods, ok := o.goods(steps)
	if !ok {
		return math.Inf(1)
	}
	set := o.job.Settings
	taxed := func(share units.Decimal) float64 {
		if set.TaxIncluded {
			return 1
		}
		return 1 + share.Float()
	}
	sum := 0.0
	value := map[[2]string]float64{} // supplier, site → goods before tax
	litres, mass := map[string]map[int]map[quotes.Form]float64{}, map[string]map[int]map[quotes.Form]float64{}
	sent := map[int]map[int]float64{} // site, quote → packs
	of := map[int]bool{}              // quotes bought
	for k, key := range o.keys {
		if steps[k] == 0 {
			continue
		}
		of[key.quote] = true
		q := o.job.Quotes[key.quote]
		n := o.packs(steps, k)
		sum += goods[k] * taxed(q.Tax)
		sum += n * float64(q.PackLitres) / 100 * q.Medium.RinseMinutes.Usual / 60 * set.LabourRate.Float()
		before := goods[k]
		if set.TaxIncluded {
			before /= 1 + q.Tax.Float()
		}
		value[[2]string{q.Supplier, o.sites[key.site]}] += before
		for _, m := range []map[string]map[int]map[quotes.Form]float64{litres, mass} {
			if m[q.Supplier] == nil {
				m[q.Supplier] = map[int]map[quotes.Form]float64{}
			}
			if m[q.Supplier][key.site] == nil {
				m[q.Supplier][key.site] = map[quotes.Form]float64{}
			}
		}
		if sent[key.site] == nil {
			sent[key.site] = map[int]float64{}
		}
		sent[key.site][key.quote] += n
		litres[q.Supplier][key.site][q.Form] += n * float64(q.PackLitres)
		mass[q.Supplier][key.site][q.Form] += n * float64(q.PackMass)
	}
	if set.MaxSuppliers > 0 && len(litres) > set.MaxSuppliers {
		return math.Inf(1)
	}
	if set.MaxQuotes > 0 && len(of) > set.MaxQuotes {
		return math.Inf(1)
	}
	sum += o.delivery(litres, mass, sent, value, taxed)
	if set.Budget != nil && sum > set.Budget.Float()+1e-9 {
		return math.Inf(1)
	}
	return sum
}

// goods is the price of each key's packs; false when too few or too many are
// bought.
func (o *oracle) goods(steps []int) ([]float64, bool) {
	total := make([]float64, len(o.job.Quotes)) // packs by quote
	group := map[[2]string]float64{}            // packs by supplier and break group
	for k, key := range o.keys {
		q := o.job.Quotes[key.quote]
		total[key.quote] += o.packs(steps, k)
		if q.BreakGroup != "" {
			group[[2]string{q.Supplier, q.BreakGroup}] += o.packs(steps, k)
		}
	}
	for i, q := range o.job.Quotes {
		if total[i] > q.MaxQty.Float()+1e-9 || total[i] > 0 && total[i] < q.MinQty.Float()-1e-9 {
			return nil, false
		}
	}
	out := make([]float64, len(o.keys))
	for k, key := range o.keys {
		q := o.job.Quotes[key.quote]
		reach := total[key.quote]
		if q.BreakGroup != "" {
			reach = group[[2]string{q.Supplier, q.BreakGroup}]
		}
		n := o.packs(steps, k)
		out[k] = n * q.Price.Float()
		if n == 0 {
			continue
		}
		before := q.Price.Float()
		for _, b := range q.Breaks {
			drop := before - b.Price.Float()
			before = b.Price.Float()
			switch {
			case reach < b.From.Float()-1e-9:
			case q.BreakKind == quotes.Incremental:
				// The step that brings the sum to the break is the first at the
				// new price. Who of several lines has it does not matter to the
				// sum: each pays its part.
				step := q.Step.Float()
				cheap := reach - step*(math.Ceil(b.From.Float()/step-1e-9)-1)
				out[k] -= drop * cheap * n / reach
			default:
				out[k] -= drop * n
			}
		}
	}
	return out, true
}

// leastLoads tries every number of each truck, up to as many as would carry all
// alone. One stone fills a truck at its volume or its weight, whichever is less; of
// several, volumes and weights add up.
func leastLoads(trucks []quotes.Truck, vol, kg float64, oneStone bool) float64 {
	best := math.Inf(1)
	var try func(t, n int, v, w, fee float64)
	try = func(t, n int, v, w, fee float64) {
		if n > 0 && v <= vol*1e-9 && w <= kg*1e-9 {
			best = min(best, fee)
			return
		}
		if t == len(trucks) || fee >= best {
			return
		}
		holds, carries := math.Inf(1), math.Inf(1)
		if trucks[t].Volume != nil {
			holds = float64(*trucks[t].Volume)
		}
		if trucks[t].Weight != nil {
			carries = float64(*trucks[t].Weight)
		}
		if oneStone {
			share := min(holds/vol, carries/kg)
			holds, carries = share*vol, share*kg
		}
		for k := 0; ; k++ {
			restV, restW := v, w
			if k > 0 {
				restV, restW = v-float64(k)*holds, w-float64(k)*carries
			}
			try(t+1, n+k, restV, restW, fee+float64(k)*trucks[t].Fee.Float())
			if k > 0 && restV <= vol*1e-9 && restW <= kg*1e-9 {
				return
			}
		}
	}
	try(0, 0, vol, kg, 0)
	return best
}

// delivery is the least that the deliveries cost, over every way of bringing
// each form to each site.
func (o *oracle) delivery(litres, mass map[string]map[int]map[quotes.Form]float64, sent map[int]map[int]float64, value map[[2]string]float64, taxed func(units.Decimal) float64) float64 {
	type load struct {
		supplier string
		site     int
		form     quotes.Form
		ways     []*quotes.Delivery
	}
	var loads []load
	for _, supplier := range quotes.Suppliers(o.job) {
		free := &quotes.Delivery{Supplier: supplier, Covers: quotes.Forms, Trucks: []quotes.Truck{{}}} // of a supplier without terms
		for site, forms := range litres[supplier] {
			for form := range forms {
				l := load{supplier: supplier, site: site, form: form}
				any := false
				for _, d := range o.job.Delivery {
					any = any || d.Supplier == supplier
					if d.Supplier == supplier && (d.Site == "" || d.Site == o.sites[site]) && slices.Contains(d.Covers, form) {
						l.ways = append(l.ways, d)
					}
				}
				if !any {
					l.ways = []*quotes.Delivery{free}
				}
				loads = append(loads, l)
			}
		}
	}
	type drop struct {
		way  *quotes.Delivery
		site int
	}
	best := math.Inf(1)
	chosen := make([]*quotes.Delivery, len(loads))
	price := func() float64 {
		used := map[drop][]int{}
		for i, l := range loads {
			d := drop{chosen[i], l.site}
			used[d] = append(used[d], i)
		}
		if most := o.job.Settings.MaxDeliveries; most > 0 && len(used) > most {
			return math.Inf(1)
		}
		sum := 0.0
		handling := map[string]float64{}
		for d, carried := range used {
			vol := 0.0
			supplier := loads[carried[0]].supplier
			for _, i := range carried {
				l := loads[i]
				vol += litres[l.supplier][l.site][l.form]
			}
			goods := value[[2]string{supplier, o.sites[d.site]}]
			if d.way.MinOrder != nil && goods < d.way.MinOrder.Float()-1e-7 {
				return math.Inf(1)
			}
			fee := d.way.OrderFee.Float()
			together := [2]float64{}
			for qi, n := range sent[d.site] {
				q := o.job.Quotes[qi]
				if q.Supplier != supplier || !slices.ContainsFunc(carried, func(i int) bool { return loads[i].form == q.Form }) {
					continue
				}
				v, w := n*float64(q.PackLitres), n*float64(q.PackMass)
				if d.way.LoadHolds == quotes.HoldsOne && q.Form == quotes.Bulk {
					fee += leastLoads(d.way.Trucks, v, w, true)
				} else {
					together[0], together[1] = together[0]+v, together[1]+w
				}
			}
			if together[0] > 0 {
				fee += leastLoads(d.way.Trucks, together[0], together[1], false)
			}
			if d.way.FreeOver != nil && goods >= d.way.FreeOver.Float()-1e-7 {
				fee = 0
			}
			sum += (fee + vol*d.way.Haul.PerLitre()) * taxed(d.way.Tax)
			handling[supplier] = max(handling[supplier], d.way.Handling.Float()*taxed(d.way.Tax))
		}
		for _, h := range handling {
			sum += h
		}
		return sum
	}
	var choose func(i int)
	choose = func(i int) {
		if i == len(loads) {
			best = min(best, price())
			return
		}
		for _, w := range loads[i].ways {
			chosen[i] = w
			choose(i + 1)
		}
	}
	choose(0)
	return best
}

func b2f(b bool) float64 {
	if b {
		return 1
	}
	return 0
}

// The oracle itself on a job done by hand: 425 L are 9 bags of 29, or 10 of 26.
func TestCountingByHand(t *testing.T) {
	job := jobtest.Files{Quotes: "quote,supplier,medium,pack,price,breaks,max_qty\na,Yard,grit,50 L,29,10: 26,12\n", Beds: "bed,volume\none,425 L\n", Media: jobtest.PlainMedia}.Job(t)
	cost, steps := leastByCounting(t, job)
	require.InDelta(t, 260, cost, 1e-9)
	require.Equal(t, []int{10}, steps)
	require.InDelta(t, 261, (&oracle{job: job, sites: []string{""}, keys: []oracleKey{{0, 0}}}).cost([]int{9}), 1e-9)
}

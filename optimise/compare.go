package optimise

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"mediabuy/optimise/bill"
	"mediabuy/optimise/suitability"
	"mediabuy/quotes"
	"mediabuy/units"
)

// FitsWords say by what a bed is counted for a quote.
const FitsWords = "by the kind of stone and its size, not by its weight"

// CompareOptions say what volume quotes are compared at.
type CompareOptions struct {
	// Litres is the placed litres asked of each quote; 0 means all the litres of
	// the job's beds that the quote may go into.
	Litres units.Litres
}

// Quoted is one quote priced as if it alone supplied the litres asked.
type Quoted struct {
	Quote  *quotes.Quote
	Litres units.Litres // placed litres asked; 0 where it fits nothing and none were named
	Fits   []string     // beds with a layer that it may go into by its rules, whatever it weighs, sorted; none in a job without beds
	Beds   int          // how many these are, each with its count
	Barred bool         // refused for every layer, or in a job without beds by a rule that holds for every bed
	// Reasons are why it is barred, each once, in order of rule and words.
	Reasons []DocumentRefusal // bed and layer are empty
	// Bill is nil where no price can be given; Note says why.
	Bill   *bill.Bill
	Packs  units.Decimal
	Enough units.Decimal // the fewest packs that would do, in stock or not
	Break  units.Decimal // the break reached; 0 for none
	Placed units.Litres  // what the packs place
	Short  units.Litres  // asked and not in stock
	// PerLitre is the total over the litres asked, or over those in stock.
	PerLitre units.Money
	Note     string // what a buyer should know of this price; may be ""
}

// Compare prices every quote by itself, in order of quote names: goods, the
// cheapest way to have it delivered, tax and rinsing, in whole steps. Where more
// packs than needed cost less, because they reach a break, free delivery or the
// smallest order, more are bought.
//
// With several sites and no litres named, each site gets what its own beds take,
// and packs beyond that go to one of them.
func Compare(job *quotes.Job, fit *suitability.Fit, opt CompareOptions) []Quoted {
	out := make([]Quoted, 0, len(job.Quotes))
	for i, q := range job.Quotes {
		e := Quoted{Quote: q, Fits: []string{}}
		bySite := map[string]float64{}
		for b, bed := range job.Beds {
			takes := 0.0
			for _, l := range quotes.Layers {
				if v := float64(bed.LayerLitres(l)); v > 0 && fit.OK(i, b, l) {
					takes += v * float64(bed.Count)
				}
			}
			if takes > 0 {
				e.Fits = append(e.Fits, bed.Name)
				e.Beds += bed.Count
				bySite[bed.Site] += takes
			}
		}
		slices.Sort(e.Fits)
		e.Barred = len(e.Fits) == 0
		if len(job.Beds) == 0 {
			e.Barred = len(fit.General[i]) > 0
		}
		if e.Barred {
			e.Reasons = reasonsFor(fit, i)
		}
		if opt.Litres > 0 {
			bySite = map[string]float64{oneSite(job, bySite): float64(opt.Litres)}
		}
		for _, v := range bySite {
			e.Litres += units.Litres(v)
		}
		if opt.Litres == 0 {
			for site := range bySite { // the spare is bought as well
				bySite[site] *= 1 + job.Settings.Extra.Float()
			}
		}
		if e.Litres > 0 {
			newAlone(job, q, bySite).cheapest(&e)
		} else {
			e.Note = "it fits no bed, so there is no volume to price it at"
		}
		out = append(out, e)
	}
	slices.SortStableFunc(out, func(a, b Quoted) int { return cmp.Compare(a.Quote.Name, b.Quote.Name) })
	return out
}

// oneSite is where a named volume is sent: the first site by name with a bed the
// quote fits, else the first site of the job.
func oneSite(job *quotes.Job, bySite map[string]float64) string {
	sites := quotes.Sites(job)
	for _, s := range sites {
		if bySite[s] > 0 {
			return s
		}
	}
	if len(sites) > 0 {
		return sites[0]
	}
	return ""
}

// reasonsFor lists why a quote is refused, each reason once: what holds for every
// bed, or where there is no such reason, those of the layers.
func reasonsFor(f *suitability.Fit, q int) []DocumentRefusal {
	var out []DocumentRefusal
	beds, layers := map[suitability.Reason][]string{}, map[suitability.Reason][]quotes.Layer{}
	add := func(rs []suitability.Reason, bed string, l quotes.Layer) {
		for _, r := range rs {
			if _, there := beds[r]; !there {
				out = append(out, DocumentRefusal{Quote: f.Job.Quotes[q].Name, Rule: r.Rule, Reason: r.Text})
				beds[r] = nil
			}
			if bed != "" && !slices.Contains(beds[r], bed) {
				beds[r] = append(beds[r], bed)
			}
			if !slices.Contains(layers[r], l) {
				layers[r] = append(layers[r], l)
			}
		}
	}
	add(f.General[q], "", "")
	for b, bed := range f.Job.Beds {
		if len(f.General[q]) > 0 {
			break // it is out whatever the layer
		}
		for _, l := range quotes.Layers {
			if bed.LayerLitres(l) > 0 {
				add(f.OfBed[b].Reasons[l][q], bed.Name, l)
			}
		}
	}
	for i, r := range out {
		reason := suitability.Reason{Rule: r.Rule, Text: r.Reason}
		out[i].Where = suitability.SomeBeds(f.Job, layers[reason], beds[reason])
	}
	slices.SortFunc(out, func(a, b DocumentRefusal) int {
		return cmp.Or(cmp.Compare(a.Rule, b.Rule), cmp.Compare(a.Reason, b.Reason))
	})
	return out
}

// alone is one quote bought by itself for one or more sites.
type alone struct {
	job    *quotes.Job
	q      *quotes.Quote
	sites  []string
	litres []float64            // placed, for each site
	need   []int64              // fewest steps for each site
	ways   [][]*quotes.Delivery // by site
	most   int64                // steps in stock over all sites
}

func newAlone(job *quotes.Job, q *quotes.Quote, bySite map[string]float64) *alone {
	a := &alone{job: job, q: q, most: bill.MaxSteps}
	if q.MaxQty != nil {
		a.most = int64(bill.StepsDown(*q.MaxQty, q.Step))
	}
	perStep := float64(q.Placed()) * q.Step.Float()
	for _, s := range sortedKeys(bySite) {
		n := bySite[s] / perStep
		// The slack is the noise of binary fractions, less than a grain of stone.
		a.need = append(a.need, int64(min(bill.MaxSteps, math.Ceil(n-1e-9*max(1, n)))))
		a.sites = append(a.sites, s)
		a.litres = append(a.litres, bySite[s])
		a.ways = append(a.ways, a.waysTo(s))
	}
	return a
}

func sortedKeys(m map[string]float64) []string {
	var out []string
	for k := range m {
		out = append(out, k)
	}
	slices.Sort(out)
	return out
}

// waysTo lists the delivery terms that can bring the quote to a site. A job
// without beds has no sites, so there all terms of the supplier count.
func (a *alone) waysTo(site string) []*quotes.Delivery {
	var drops []bill.Drop
	if len(a.job.Beds) > 0 {
		drops = bill.DropsTo(a.job, a.q.Supplier, site)
	} else {
		for _, d := range a.job.Delivery {
			if d.Supplier == a.q.Supplier {
				drops = append(drops, bill.Drop{Supplier: a.q.Supplier, Site: site, Row: d})
			}
		}
		if len(drops) == 0 {
			drops = bill.DropsTo(a.job, a.q.Supplier, site)
		}
	}
	var out []*quotes.Delivery
	for _, d := range drops {
		if d.Carries(a.q.Form) {
			out = append(out, d.Row)
		}
	}
	return out
}

// cheapest fills in the price of the cheapest count of packs that covers the
// need, or of all there are.
func (a *alone) cheapest(e *Quoted) {
	for s, ways := range a.ways {
		if len(ways) == 0 {
			e.Note = fmt.Sprintf("%s does not deliver %s goods", a.q.Supplier, a.q.Form)
			if a.sites[s] != "" {
				e.Note += " to " + a.sites[s]
			}
			return
		}
	}
	for _, n := range a.need {
		e.Enough = e.Enough.Add(units.DecimalFromInt(n).Mul(a.q.Step))
	}
	need := a.inStock()
	best, err := a.price(need)
	for s := range a.sites {
		for _, n := range a.moreAt(s, need) {
			more := slices.Clone(need)
			more[s] = n
			bill, moreErr := a.price(more)
			if moreErr == nil && (best == nil || bill.Total.Cmp(best.Total) < 0) {
				best = bill
			}
			if bill := a.spread(need, n-need[s]); bill != nil && (best == nil || bill.Total.Cmp(best.Total) < 0) {
				best = bill
			}
		}
	}
	if best == nil {
		e.Note = err.Error()
		return
	}
	e.Bill = best
	for _, l := range best.Lines {
		e.Packs = e.Packs.Add(l.Packs)
		e.Placed += l.Placed
		e.Break = l.BreakFrom
	}
	e.Short = a.short(best)
	covered := e.Litres - e.Short
	if e.Packs.IsZero() {
		e.Bill, e.Note = nil, "none of it is in stock"
		return
	}
	if e.Short > 0 {
		e.Note = fmt.Sprintf("only %s packs are in stock; priced for those alone", e.Packs)
	}
	e.PerLitre = units.MoneyOf(best.Total.Decimal().Quo(units.DecimalOf(float64(covered))))
}

// short is the placed litres that the sites lack, each by itself: what one has too
// much of does not fill another's beds.
func (a *alone) short(b *bill.Bill) units.Litres {
	sum := 0.0
	for s, site := range a.sites {
		left := a.litres[s]
		for _, l := range b.Lines {
			if l.Site == site {
				left -= float64(l.Placed)
			}
		}
		if left > 1e-9*a.litres[s] {
			sum += left
		}
	}
	return units.Litres(sum)
}

// maxSpread is how many steps beyond the need are dealt out one by one.
const maxSpread = 400

// spread deals out extra steps beyond the need one by one, each to the site where
// it then costs least, so that they fill up loads that are paid for; nil where
// that cannot differ from sending all to one site, or cannot be sold.
func (a *alone) spread(need []int64, extra int64) *bill.Bill {
	if len(need) < 2 || extra > maxSpread {
		return nil
	}
	steps := slices.Clone(need)
	var bill *bill.Bill
	for range extra {
		at := -1
		for s := range steps {
			steps[s]++
			if b, err := a.price(steps); err == nil && (at < 0 || b.Total.Cmp(bill.Total) < 0) {
				at, bill = s, b
			}
			steps[s]--
		}
		if at < 0 {
			at = 0 // below the fewest sold: more is coming
			bill = nil
		}
		steps[at]++
	}
	return bill
}

// inStock is the need cut to what there is, the last sites first.
func (a *alone) inStock() []int64 {
	out := slices.Clone(a.need)
	left := a.most
	for i := range out {
		out[i] = min(out[i], left)
		left -= out[i]
	}
	return out
}

// moreAt lists the counts of steps for site s above its need from which the
// price of the whole changes for the better: the fewest packs sold, each break,
// and where goods reach free delivery or the smallest order. Between these, more
// packs only cost more, so no other count can be cheapest.
func (a *alone) moreAt(s int, need []int64) []int64 {
	others := int64(0)
	for i, n := range need {
		if i != s {
			others += n
		}
	}
	var out []int64
	consider := func(total int64) {
		if n := total - others; n > need[s] && total <= a.most && !slices.Contains(out, n) {
			out = append(out, n)
		}
	}
	levels := a.q.Levels()
	consider(int64(bill.StepsUp(a.q.MinQty, a.q.Step)))
	for l, level := range levels {
		from := max(int64(bill.StepsUp(level.From, a.q.Step)), others+need[s], int64(bill.StepsUp(a.q.MinQty, a.q.Step)))
		to := a.most
		if l+1 < len(levels) {
			to = min(to, int64(bill.StepsUp(levels[l+1].From, a.q.Step))-1)
		}
		consider(from)
		for _, w := range a.ways[s] {
			for _, value := range []*units.Money{w.FreeOver, w.MinOrder} {
				if value != nil && from <= to {
					consider(a.reach(s, *value, from, to, others))
				}
			}
		}
	}
	return out
}

// reach is the fewest steps in from..to with which the goods sent to site s come
// to a value before tax, or a count above to. Within one price level the value
// rises with each step, so halving finds it.
func (a *alone) reach(s int, value units.Money, from, to, others int64) int64 {
	enough := func(total int64) bool {
		item := bill.Item{Quote: a.q, Site: a.sites[s], Steps: total - others}
		if item.Steps <= 0 { // the stock is used up before this site's turn
			return false
		}
		price := a.q.PriceAt(units.DecimalFromInt(total).Mul(a.q.Step))
		goods := price.Times(item.Packs())
		if a.q.BreakKind == quotes.Incremental {
			lines, err := bill.PriceGoods(a.job, []bill.Item{item})
			if err != nil {
				return false
			}
			goods = lines[0].Value
		}
		return bill.BeforeTax(a.job, a.q, goods).Cmp(value) >= 0
	}
	if !enough(to) {
		return to + 1
	}
	for from < to {
		mid := from + (to-from)/2
		if enough(mid) {
			to = mid
		} else {
			from = mid + 1
		}
	}
	return from
}

// price is the bill of so many steps for each site, each brought the way that is
// cheapest for that site by itself.
func (a *alone) price(steps []int64) (*bill.Bill, error) {
	buy := bill.Purchase{Carry: map[bill.Carry]*quotes.Delivery{}}
	for s, site := range a.sites {
		buy.Items = append(buy.Items, bill.Item{Quote: a.q, Site: site, Steps: steps[s]})
	}
	for s, site := range a.sites {
		at := bill.Carry{Supplier: a.q.Supplier, Site: site, Form: a.q.Form}
		var best *bill.Bill
		var firstErr error
		for _, w := range a.ways[s] {
			try := bill.Purchase{Items: buy.Items, Carry: map[bill.Carry]*quotes.Delivery{}}
			for o, other := range a.sites {
				try.Carry[bill.Carry{Supplier: a.q.Supplier, Site: other, Form: a.q.Form}] = a.ways[o][0]
			}
			try.Carry[at] = w
			bill, err := bill.Price(a.job, try)
			if err != nil {
				if firstErr == nil {
					firstErr = err
				}
				continue
			}
			if best == nil || bill.Total.Cmp(best.Total) < 0 {
				best, buy.Carry[at] = bill, w
			}
		}
		if best == nil {
			return nil, firstErr
		}
	}
	return bill.Price(a.job, buy)
}

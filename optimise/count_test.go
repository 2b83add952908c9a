package optimise

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"mediabuy/quotes"
	"mediabuy/quotes/files/jobtest"
)

// drawTiny draws a job that can be counted out: two or three quotes with at most
// six steps in stock, one or two sites, every kind of term.
func drawTiny(t *rapid.T) *quotes.Job {
	pick := func(name string, from ...string) string { return rapid.SampledFrom(from).Draw(t, name) }
	num := func(name string, lo, hi int) int { return rapid.IntRange(lo, hi).Draw(t, name) }
	var q, b, d strings.Builder
	sites := []string{"north"}
	count := 3
	if rapid.Bool().Draw(t, "two sites") {
		sites, count = append(sites, "south"), 2
	}
	suppliers := []string{"Yard", "Quay"}
	kind := pick("break kind", "all-units", "incremental") // one for all, so that groups agree
	from := num("from", 2, 5)
	// Which line has the cheaper packs of an incremental pool is the buyer's to
	// say, and it matters where lines are taxed differently or count towards
	// different waivers: left out, since the count has no say in it.
	shared := kind == "incremental"
	q.WriteString("quote,supplier,medium,form,pack,step,price,breaks,break_kind,break_group,min_qty,max_qty,rinse_loss,tax\n")
	for i := range count {
		step, most := "1", num("most", 2, 6)
		if count == 2 {
			most = min(most, 4)
		}
		grouped := rapid.Bool().Draw(t, "grouped")
		switch pick("step", "1", "1", "0.5", "2") {
		case "0.5":
			if !grouped {
				step, most = "0.5", min(most, 3)
			}
		case "2":
			if !grouped {
				step, most = "2", max(most, 2)
			}
		}
		price := num("cents", 800, 6000)
		breaks, kinds, group := "", "", ""
		if grouped || rapid.Bool().Draw(t, "broken") {
			// Within a group the price drops by the same money, so that it does not
			// matter which packs get it.
			breaks, kinds = fmt.Sprintf("%d: %.2f", from, float64(price-300)/100), kind
			if grouped {
				group = "any"
			}
		}
		least := ""
		if most >= 2 {
			least = pick("least", "", "", "2")
		}
		fmt.Fprintf(&q, "q%d,%s,%s,%s,%d L,%s,%.2f,%s,%s,%s,%s,%d,%s,%s\n", i, pick("supplier", suppliers...), pick("medium", "grit", "rock", "fluff"), pick("form", "bag", "bulk"),
			num("litres", 4, 12)*10, step, float64(price)/100, breaks, kinds, group, least, most, pick("loss", "0%", "10%"), pickIf(!shared, pick("tax", "", "0", "8.25")))
	}
	b.WriteString("bed,count,volume,top_volume,max_share,table,limit,own_weight,site\n")
	limit := num("table limit", 100, 500)
	for i := range num("beds", 1, 3) {
		volume := num("volume", 3, 14) * 10
		top := pick("top", "0 L", "0 L", fmt.Sprintf("%d L", volume/3))
		site := pick("site", sites...)
		beds, table, lim, own := num("count", 1, 2), "", "", ""
		switch pick("weighed", "no", "own", "table") {
		case "own":
			lim, own = fmt.Sprintf("%d kg", volume*num("per cent", 60, 220)/100), "2 kg"
		case "table":
			table, lim = site+" table", fmt.Sprintf("%d kg", limit)
			beds = 1
		}
		fmt.Fprintf(&b, "bed %d,%d,%d L,%s,%s,%s,%s,%s,%s\n", i, beds, volume, top, pick("share", "", "", "rock: 0.5", "fluff: 0.4; grit: 0.7"), table, lim, own, site)
	}
	d.WriteString("supplier,site,name,handling,covers,order_fee,load_fee,load_volume,load_weight,load_holds,haul,free_over,min_order,tax\n")
	for _, s := range suppliers {
		row := func(name, covers string) {
			hinged := !shared || len(sites) == 1
			free, least := pickIf(hinged, pick("free", "", "60", "120")), pickIf(hinged, pick("smallest", "", "", "40"))
			start := fmt.Sprintf("%s,,%s,%s,%s,%d,", s, name, pick("handling", "0", "12"), covers, num("order", 0, 30))
			end := fmt.Sprintf("%s,%s,%s,%s,%s\n", pick("load holds", "", "any"), pick("haul", "", "0.05 / L"), free, least, pick("fee tax", "", "0"))
			for range num("sizes of truck", 1, 2) {
				fmt.Fprintf(&d, "%s%d,%s,%s,%s", start, num("load", 0, 20), pick("load volume", "", "150 L", "300 L"), pick("load weight", "", "200 kg"), end)
			}
		}
		if rapid.Bool().Draw(t, "terms") {
			row("truck", pick("covers", "all", "all", "bulk"))
			if rapid.Bool().Draw(t, "van") {
				row("van", pick("van covers", "all", "bag"))
			}
		}
	}
	set := "tax = 10\n" + pick("included", "", "tax_included = true\n") + pick("labour", "", "labour_rate = 12\n") + pick("extra", "", "extra = 5\n") +
		pick("suppliers", "", "", "max_suppliers = 1\n") + pick("deliveries", "", "", "max_deliveries = 1\n", "max_deliveries = 2\n") +
		pick("mix", "", "", "layer_mix = \"one\"\n", "least_share = 30\n") + pick("weights", "", "weights = \"usual\"\n")
	if strings.Count(d.String(), "\n") == 1 {
		d.Reset()
	}
	sold := q.String()
	for _, s := range suppliers { // delivery terms of a supplier without quotes are an error
		if !strings.Contains(sold, ","+s+",") {
			lines := strings.SplitAfter(d.String(), "\n")
			d.Reset()
			for _, l := range lines {
				if !strings.HasPrefix(l, s) {
					d.WriteString(l)
				}
			}
		}
	}
	return jobtest.Files{Quotes: sold, Beds: b.String(), Delivery: d.String(), Media: jobtest.PlainMedia, Settings: set}.Job(t)
}

// pickIf is the text, or an empty cell.
func pickIf(ok bool, text string) string {
	if !ok {
		return ""
	}
	return text
}

// plainly draws whether a job is to be bought in one of the ways that no file asks for.
func plainly(t *rapid.T, job *quotes.Job) {
	job.Settings.MaxQuotes = rapid.SampledFrom([]int{0, 0, 1, 2}).Draw(t, "most quotes")
	job.Settings.SameMix = rapid.SampledFrom([]bool{false, false, true}).Draw(t, "same mix")
}

// Nothing is cheaper than the answer among all purchases there are, and the
// answer is one of them.
func TestCountingOutFindsNothingCheaper(t *testing.T) {
	jobtest.Long(t)
	jobtest.FewerChecks(t, 150)
	rapid.Check(t, func(t *rapid.T) {
		job := drawTiny(t)
		plainly(t, job)
		want, steps := leastByCounting(t, job)
		for _, plain := range []bool{false, true} {
			got, plan := exactly(t, job, Options{Plain: plain})
			words := "nothing"
			if plan.Bill != nil {
				words = bought(plan)
			}
			require.Equal(t, math.IsInf(want, 1), plan.Status == Infeasible, "counted %v, plain %v bought %s", steps, plain, words)
			if plan.Bill == nil {
				continue
			}
			require.InDelta(t, want, got, halfCent, "counted %v, plain %v bought %s", steps, plain, words)
		}
	})
}

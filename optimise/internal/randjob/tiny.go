package randjob

import (
	"fmt"
	"strings"

	"pgregory.net/rapid"

	"mediabuy/quotes"
	"mediabuy/quotes/files/jobtest"
)

// Tiny draws a job that can be counted out: one bed of 200 to 500 L and three
// quotes of 50 to 150 L from two suppliers; hinged ones have free delivery and smallest
// orders. Besides the job it gives the most packs of each quote.
func Tiny(t *rapid.T, hinged bool) (*quotes.Job, []int64) {
	var q, d strings.Builder
	q.WriteString("quote,supplier,medium,form,pack,price,breaks,break_kind,min_qty,max_qty,size,tax\n")
	d.WriteString("supplier,order_fee,load_fee,load_volume,free_over,min_order,tax\n")
	need := rapid.IntRange(200, 500).Draw(t, "need")
	var most []int64
	for i := range 3 {
		litres := rapid.SampledFrom([]int{50, 80, 100, 150}).Draw(t, "litres")
		most = append(most, int64(min(8, need/litres+2))) // what is in stock
		price := rapid.IntRange(500, 4000).Draw(t, "cents")
		breaks, kind := "", ""
		if rapid.Bool().Draw(t, "broken") {
			from := rapid.IntRange(2, 6).Draw(t, "from")
			breaks = fmt.Sprintf("%d: %.2f", from, float64(price)*float64(rapid.IntRange(70, 99).Draw(t, "percent"))/1e4)
			kind = rapid.SampledFrom([]string{"all-units", "incremental"}).Draw(t, "kind")
		}
		least := rapid.SampledFrom([]string{"", "", "2"}).Draw(t, "least")
		tax := rapid.SampledFrom([]string{"", "0", "10%"}).Draw(t, "tax")
		form := rapid.SampledFrom([]string{"bag", "bulk"}).Draw(t, "form")
		fmt.Fprintf(&q, "q%d,%s,expanded clay,%s,%d L,%.2f,%s,%s,%s,%d,8-16 mm,%s\n", i, []string{"Aldermoor", "Brackwell"}[i%2], form, litres, float64(price)/100, breaks, kind, least, most[i], tax)
	}
	for _, s := range []string{"Aldermoor", "Brackwell"} {
		order, load := rapid.IntRange(0, 60).Draw(t, "order"), rapid.IntRange(0, 30).Draw(t, "load")
		free, least := "", ""
		if hinged {
			free = rapid.SampledFrom([]string{"", "90", "140", "200"}).Draw(t, "free")
			least = rapid.SampledFrom([]string{"", "", "60", "120"}).Draw(t, "smallest")
		}
		fmt.Fprintf(&d, "%s,%d,%d,%d L,%s,%s,%s\n", s, order, load, rapid.IntRange(150, 300).Draw(t, "load litres"), free, least, rapid.SampledFrom([]string{"", "0"}).Draw(t, "fee tax"))
	}
	toml := "currency = \"EUR\"\ntax = 8\n"
	if rapid.Bool().Draw(t, "included") {
		toml += "tax_included = true\n"
	}
	beds := fmt.Sprintf("bed,volume\none,%d L\n", need)
	return jobtest.Files{Quotes: q.String(), Beds: beds, Delivery: d.String(), Settings: toml, Media: jobtest.NoLoss}.Job(t), most
}

package optimise

import (
	"context"
	"encoding/csv"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/optimise/bill"
	"mediabuy/optimise/internal/search"
	"mediabuy/optimise/mip"
	"mediabuy/quotes"
	"mediabuy/quotes/files/jobtest"
)

// published is where the figures of published problems are kept; its README names
// every source and how the answer is known.
const published = "../testdata/published"

// table reads a CSV of figures as rows by heading.
func table(t testing.TB, name string) []map[string]string {
	f, err := os.Open(filepath.Join(published, name))
	require.NoError(t, err)
	defer f.Close()
	all, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	var out []map[string]string
	for _, row := range all[1:] {
		m := map[string]string{}
		for i, cell := range row {
			m[all[0][i]] = cell
		}
		out = append(out, m)
	}
	return out
}

func figure(t testing.TB, text string) float64 {
	v, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return v
}

// breaksText writes the price schedule of one seller as quotes.csv has it. A
// schedule in which the first so many units have the earlier price, whatever is
// bought, is incremental with each break one unit later: here the unit that
// reaches the break is the first at the new price.
func breaksText(t testing.TB, rows []map[string]string, from, price string, unit float64) (first, breaks string) {
	var out []string
	for i, r := range rows {
		if i == 0 {
			first = r[price]
			continue
		}
		out = append(out, fmt.Sprintf("%s: %s", strconv.FormatFloat(figure(t, r[from])+unit, 'f', -1, 64), r[price]))
	}
	return first, strings.Join(out, "; ")
}

// by groups rows by a column, in order.
func by(rows []map[string]string, column string) [][]map[string]string {
	var out [][]map[string]string
	for _, r := range rows {
		if n := len(out); n > 0 && out[n-1][0][column] == r[column] {
			out[n-1] = append(out[n-1], r)
			continue
		}
		out = append(out, []map[string]string{r})
	}
	return out
}

// pointSettings say that a point is the decimal mark, which figures such as
// 68.099 leave open.
const pointSettings = `decimal = "."`

// locationJob turns a published location file into a buying job, as the README
// beside it says.
func locationJob(t testing.TB, file, kind string) *quotes.Job {
	text, err := os.ReadFile(filepath.Join(published, "location", file+".txt"))
	require.NoError(t, err)
	words := strings.Fields(string(text))
	next := func() string { w := words[0]; words = words[1:]; return w }
	m, n := int(figure(t, next())), int(figure(t, next()))
	var q, b, d strings.Builder
	q.WriteString("quote,supplier,medium,pack,price,max_qty\n")
	b.WriteString("bed,volume,site\n")
	d.WriteString("supplier,site,handling,haul\n")
	fixed := make([]string, m)
	for i := range m {
		most := next()
		fixed[i] = strings.TrimSuffix(next(), ".")
		if kind == "uncapacitated" {
			most = ""
		}
		fmt.Fprintf(&q, "w%02d,warehouse %02d,grit,1 L,0,%s\n", i, i, most)
	}
	for j := range n {
		demand := figure(t, next())
		fmt.Fprintf(&b, "bed %02d,%.0f L,customer %02d\n", j, demand, j)
		for i := range m {
			fmt.Fprintf(&d, "warehouse %02d,customer %02d,%s,%.15f / L\n", i, j, fixed[i], figure(t, next())/demand)
		}
	}
	require.Empty(t, words)
	return jobtest.Files{Quotes: q.String(), Beds: b.String(), Delivery: d.String(), Media: jobtest.PlainMedia, Settings: pointSettings}.Job(t)
}

// The location problems of OR-Library (Beasley, EJOR 33, 1988, 314-325; optima
// seen, to the tenth of a cent that they are printed with).
func TestPublishedLocation(t *testing.T) {
	quick := []string{"cap41 capacitated", "cap43 capacitated", "cap62 capacitated", "cap71 uncapacitated", "cap74 capacitated", "cap74 uncapacitated", "cap81 capacitated"}
	done := 0
	for _, r := range table(t, "location/optima.csv") {
		name := r["file"] + " " + r["kind"]
		if !slices.Contains(quick, name) {
			continue
		}
		done++
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			cost, plan := exactly(t, locationJob(t, r["file"], r["kind"]), Options{})
			require.Equal(t, Optimal, plan.Status)
			assert.InDelta(t, figure(t, r["published"]), cost, halfCent)
		})
	}
	require.Equal(t, len(quick), done)
}

// BenchmarkPublishedLocation solves them all.
func BenchmarkPublishedLocation(b *testing.B) {
	for _, r := range table(b, "location/optima.csv") {
		b.Run(r["file"]+" "+r["kind"], func(b *testing.B) {
			job := locationJob(b, r["file"], r["kind"])
			for b.Loop() {
				cost, plan := exactly(b, job, Options{})
				require.Equal(b, Optimal, plan.Status)
				require.InDelta(b, figure(b, r["published"]), cost, halfCent)
			}
		})
	}
}

// Five vendors with set-up costs, least quantities and incremental breaks
// (Bracken and McCormick 1968, chapter 3; tables seen; the optimum 15210109.512
// from memory, that it lies from 15210000 to 15210200 seen; the quantities
// computed: 33000 from a, 165600 from c, the rest from e).
func TestPublishedFiveVendors(t *testing.T) {
	var q, d strings.Builder
	q.WriteString("quote,supplier,medium,pack,step,price,breaks,break_kind,min_qty,max_qty\n")
	d.WriteString("supplier,order_fee\n")
	for _, rows := range by(table(t, "five_vendors.csv"), "vendor") {
		v := rows[0]["vendor"]
		first, breaks := breaksText(t, rows, "q_min", "unit_price", 0.01)
		kind := ""
		if breaks != "" {
			kind = "incremental"
		}
		fmt.Fprintf(&q, "%s,%s,grit,1 L,0.01,%s,%s,%s,%s,%s\n", v, v, first, breaks, kind, rows[0]["q_min"], rows[len(rows)-1]["q_max"])
		fmt.Fprintf(&d, "%s,%s\n", v, rows[0]["setup_first_segment"])
	}
	job := jobtest.Files{Quotes: q.String(), Beds: "bed,volume\none,239600.48 L\n", Delivery: d.String(), Media: jobtest.PlainMedia, Settings: pointSettings}.Job(t)
	cost, plan := exactly(t, job, Options{})
	require.Equal(t, Optimal, plan.Status)
	assert.InDelta(t, 15210109.512, cost, halfCent)
	assert.Equal(t, "33000 a; 165600 c; 41000.48 e", bought(plan))
}

// All-units breaks at one vendor, incremental ones at the other (LINDO model
// library, QdiscSupL; tables seen, the answer computed): 6000 are needed and 7500
// at 5 cost 37500, less than any way to buy 6000.
func TestPublishedTwoVendors(t *testing.T) {
	var q strings.Builder
	q.WriteString("quote,supplier,medium,pack,price,breaks,break_kind,max_qty\n")
	for _, rows := range by(table(t, "two_vendors.csv"), "vendor") {
		kind, unit := "all-units", 0.0
		if rows[0]["scheme"] == "incremental" {
			kind, unit = "incremental", 1
		}
		first, breaks := breaksText(t, rows, "from_quantity", "unit_price", unit)
		fmt.Fprintf(&q, "%s,%s,grit,1 L,%s,%s,%s,20000\n", rows[0]["vendor"], rows[0]["vendor"], first, breaks, kind)
	}
	for _, plain := range []bool{false, true} {
		plan := solved(t, jobtest.Files{Quotes: q.String(), Beds: "bed,volume\none,6000 L\n", Delivery: "", Media: jobtest.PlainMedia, Settings: pointSettings}.Job(t), Options{Plain: plain})
		require.Equal(t, Optimal, plan.Status)
		assert.Equal(t, "37500.00", plan.Bill.Total.Text(2))
		assert.Equal(t, "7500 A", bought(plan))
	}
}

// Incremental breaks with limits on each supplier's share (FICO Xpress user
// guide; price table and the two worked prices seen, share limits from memory,
// the answer computed). Each supplier sells its own medium, so that the limits are
// shares of the bed.
func TestPublishedThreeSuppliers(t *testing.T) {
	media := []string{"grit", "fluff", "rock"}
	var q strings.Builder
	var shares []string
	q.WriteString("quote,supplier,medium,pack,price,breaks,break_kind,max_qty\n")
	for i, rows := range by(table(t, "three_suppliers.csv"), "supplier") {
		first, breaks := breaksText(t, rows, "from_quantity", "unit_price", 1)
		fmt.Fprintf(&q, "s%d,s%d,%s,1 L,%s,%s,incremental,%s\n", i+1, i+1, media[i], first, breaks, rows[0]["max_quantity"])
		shares = append(shares, fmt.Sprintf("%s: %g", media[i], figure(t, rows[0]["max_share_percent"])/100))
	}
	job := jobtest.Files{Quotes: q.String(), Beds: "bed,volume,max_share\none,600 L," + strings.Join(shares, "; ") + "\n", Delivery: "", Media: jobtest.PlainMedia, Settings: pointSettings}.Job(t)
	plan := solved(t, job, Options{})
	require.Equal(t, Optimal, plan.Status)
	assert.Equal(t, "5435.00", plan.Bill.Total.Text(2))
	assert.Contains(t, []string{"240 s1; 210 s2; 150 s3", "240 s1; 120 s2; 240 s3"}, bought(plan)) // both come to it

	// The two worked prices: 150 from supplier 1 cost 1370, 225 cost 1995.
	for steps, want := range map[int64]string{150: "1370.00", 225: "1995.00"} {
		bill, err := bill.Price(job, bill.Purchase{Items: []bill.Item{{Quote: job.Quotes[0], Steps: steps}}})
		require.NoError(t, err)
		assert.Equal(t, want, bill.Total.Text(2))
	}
}

// One price schedule read both ways (FICO Xpress example pricebrinc2; data seen,
// answers computed): 50 × 0.80 + 70 × 0.50 + 30 × 0.30 = 84; 150 × 0.30 = 45.
func TestPublishedPriceSchedule(t *testing.T) {
	for _, c := range []struct{ breaks, want string }{{"51: 0.5; 121: 0.3,incremental", "84.00"}, {"50: 0.5; 120: 0.3,all-units", "45.00"}} {
		plan := solved(t, jobtest.Files{Quotes: "quote,supplier,medium,pack,price,breaks,break_kind,max_qty\na,Yard,grit,1 L,0.8," + c.breaks + ",200\n", Beds: "bed,volume\none,150 L\n", Delivery: "", Media: jobtest.PlainMedia, Settings: ""}.Job(t), Options{})
		require.Equal(t, Optimal, plan.Status)
		assert.Equal(t, c.want, plan.Bill.Total.Text(2))
	}
}

// Whole packs of four sizes cover 25 (npm javascript-lp-solver, test "Cutting
// stock"; seen): one of 26 for 90.
func TestPublishedPacks(t *testing.T) {
	var q strings.Builder
	q.WriteString("quote,supplier,medium,pack,price\n")
	for _, r := range table(t, "packs_25.csv") {
		fmt.Fprintf(&q, "p%s,Yard,grit,%s L,%s\n", r["pack_size"], r["pack_size"], r["price"])
	}
	plan := solved(t, jobtest.Files{Quotes: q.String(), Beds: "bed,volume\none,25 L\n", Delivery: "", Media: jobtest.PlainMedia, Settings: ""}.Job(t), Options{})
	require.Equal(t, Optimal, plan.Status)
	assert.Equal(t, "90.00", plan.Bill.Total.Text(2))
	assert.Equal(t, "1 p26", bought(plan))
}

// The mirror of a knapsack of 50 items (OR-Tools documentation; table and 7534
// seen, the cover 8604 − 7534 = 1070 computed): items of at least 1024 together at
// least value. Items of no size cover nothing and are left out.
func TestPublishedKnapsackCover(t *testing.T) {
	var q strings.Builder
	q.WriteString("quote,supplier,medium,pack,price,max_qty\n")
	for _, r := range table(t, "knapsack_50.csv") {
		if r["size"] != "0" {
			fmt.Fprintf(&q, "i%s,Yard,grit,%s L,%s,1\n", r["item"], r["size"], r["value"])
		}
	}
	for _, plain := range []bool{false, true} {
		plan := solved(t, jobtest.Files{Quotes: q.String(), Beds: "bed,volume\none,1024 L\n", Delivery: "", Media: jobtest.PlainMedia, Settings: ""}.Job(t), Options{Plain: plain})
		require.Equal(t, Optimal, plan.Status)
		assert.Equal(t, "1070.00", plan.Bill.Total.Text(2))
	}
}

// The same items as the knapsack itself, which is no buying job: the most value
// within 850 is 7534 (seen).
func TestPublishedKnapsack(t *testing.T) {
	m := &mip.Model{Name: "knapsack"}
	room := mip.Row{Name: "room", Rel: mip.AtMost, RHS: 850}
	for _, r := range table(t, "knapsack_50.csv") {
		x := m.AddColumn(mip.Column{Name: r["item"], Cost: -figure(t, r["value"]), Upper: 1, Integer: true})
		room.Terms = append(room.Terms, mip.Term{Col: x, Coef: figure(t, r["size"])})
	}
	m.AddRow(room)
	assert.InDelta(t, -7534, optimum(t, m), halfCent)
}

func optimum(t testing.TB, m *mip.Model) float64 {
	ans, err := search.Solver{}.Solve(context.Background(), m, mip.Options{})
	require.NoError(t, err)
	require.Equal(t, mip.Optimal, ans.Status)
	require.Empty(t, m.Check(ans.X, 1e-6))
	return ans.Objective
}

// Balinski's fixed-charge transport bal8x12 (GLPK example fctp.mod; 471.55 seen):
// every supply is used up, each route has a fixed charge.
func TestPublishedFixedChargeTransport(t *testing.T) {
	m := &mip.Model{Name: "fixed-charge transport"}
	supply, demand := map[string]float64{}, map[string]float64{}
	out, in := map[string][]mip.Term{}, map[string][]mip.Term{}
	for _, r := range table(t, "balinski_supply.csv") {
		supply[r["source"]] = figure(t, r["supply"])
	}
	customers := table(t, "balinski_demand.csv")
	for _, r := range customers {
		demand[r["customer"]] = figure(t, r["demand"])
	}
	for _, r := range table(t, "balinski_routes.csv") {
		most := min(supply[r["source"]], demand[r["customer"]])
		name := r["source"] + "/" + r["customer"]
		y := m.AddColumn(mip.Column{Name: "use/" + name, Cost: figure(t, r["fixed_cost"]), Upper: 1, Integer: true})
		x := m.AddColumn(mip.Column{Name: "send/" + name, Cost: figure(t, r["unit_cost"]), Upper: most})
		m.AddRow(mip.Row{Name: "open/" + name, Rel: mip.AtMost, Terms: []mip.Term{{Col: x, Coef: 1}, {Col: y, Coef: -most}}})
		out[r["source"]] = append(out[r["source"]], mip.Term{Col: x, Coef: 1})
		in[r["customer"]] = append(in[r["customer"]], mip.Term{Col: x, Coef: 1})
	}
	for _, r := range table(t, "balinski_supply.csv") {
		m.AddRow(mip.Row{Name: "from/" + r["source"], Rel: mip.Equal, RHS: supply[r["source"]], Terms: out[r["source"]]})
	}
	for _, r := range customers {
		m.AddRow(mip.Row{Name: "to/" + r["customer"], Rel: mip.Equal, RHS: demand[r["customer"]], Terms: in[r["customer"]]})
	}
	assert.InDelta(t, 471.55, optimum(t, m), halfCent)
}

// Fixed charge per link with three products and joint limits (AMPL book, chapter
// 20, multmip1; 229850 seen).
func TestPublishedMultiProduct(t *testing.T) {
	m := &mip.Model{Name: "multi-product"}
	rows := map[string]*mip.Row{}
	var order []string
	add := func(name string, rel mip.Rel, rhs float64, term ...mip.Term) {
		if rows[name] == nil {
			rows[name] = &mip.Row{Name: name, Rel: rel, RHS: rhs}
			order = append(order, name)
		}
		rows[name].Terms = append(rows[name].Terms, term...)
	}
	demand := map[string]float64{}
	for _, r := range table(t, "multmip_supply.csv") {
		add("supply/"+r["origin"]+"/"+r["product"], mip.Equal, figure(t, r["supply"]))
	}
	for _, r := range table(t, "multmip_demand.csv") {
		name := r["destination"] + "/" + r["product"]
		demand[name] = figure(t, r["demand"])
		add("demand/"+name, mip.Equal, demand[name])
	}
	use := map[string]int{}
	for _, r := range table(t, "multmip_link.csv") {
		name := r["origin"] + "/" + r["destination"]
		use[name] = m.AddColumn(mip.Column{Name: "use/" + name, Cost: figure(t, r["fixed_cost"]), Upper: 1, Integer: true})
		add("link/"+name, mip.AtMost, 0, mip.Term{Col: use[name], Coef: -figure(t, r["joint_limit"])})
	}
	for _, r := range table(t, "multmip_unit_cost.csv") {
		link, to := r["origin"]+"/"+r["destination"], r["destination"]+"/"+r["product"]
		x := m.AddColumn(mip.Column{Name: "send/" + link + "/" + r["product"], Cost: figure(t, r["unit_cost"]), Upper: demand[to]})
		for _, row := range []string{"supply/" + r["origin"] + "/" + r["product"], "demand/" + to, "link/" + link} {
			add(row, 0, 0, mip.Term{Col: x, Coef: 1})
		}
	}
	for _, name := range order {
		m.AddRow(*rows[name])
	}
	assert.InDelta(t, 229850, optimum(t, m), halfCent)
}

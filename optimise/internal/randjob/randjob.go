// Package randjob invents buying jobs from a seed, as the files a grower would
// keep: for tests that hold two solvers against each other and for benchmarks.
// Nothing in it is real.
package randjob

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"time"

	"mediabuy/quotes"
	"mediabuy/quotes/files"
)

// Shape says how large a job is and which terms it uses. The zero value of each
// term leaves it out.
type Shape struct {
	Sites, Suppliers, Quotes, Beds int

	Breaks       bool // all-units breaks
	Incremental  bool // incremental breaks too
	Groups       bool // break groups
	Loads        bool // load fees with volumes and weights
	Alternatives bool // more than one way to deliver
	FreeOver     bool
	MinOrder     bool
	Handling     bool
	Haul         bool
	Stock        bool // min_qty, max_qty, steps
	Tables       bool // shared tables with limits that bind at times
	Shares       bool // max_share
	Tax          bool
	Labour       bool
	Counts       bool // max_suppliers
	Trucks       bool // sizes of truck of one service, loads of any goods
	Spread       bool // weights at times usual, densities that yards state
	Mixing       bool // one quote in each layer, or a least share of one
	Members      int  // members paying; 0 leaves the column out
}

// All is a shape of the given size with every term.
func All(sites, suppliers, nQuotes, beds int) Shape {
	return Shape{Sites: sites, Suppliers: suppliers, Quotes: nQuotes, Beds: beds, Breaks: true, Incremental: true, Groups: true,
		Loads: true, Alternatives: true, FreeOver: true, MinOrder: true, Handling: true, Haul: true, Stock: true, Tables: true,
		Shares: true, Tax: true, Labour: true}
}

// Simple is a shape with one site and plain terms.
func Simple(suppliers, nQuotes, beds int) Shape {
	return Shape{Sites: 1, Suppliers: suppliers, Quotes: nQuotes, Beds: beds, Breaks: true, Loads: true, FreeOver: true, Stock: true, Tables: true, Tax: true}
}

// medium is what the generator knows of a medium to price it.
type medium struct {
	name    string
	litre   float64 // going rate, money per litre in bags
	density float64
	smooth  bool
	size    []string
}

var media = []medium{
	{"expanded clay", 0.62, 0.35, true, []string{"8-16 mm", "8/16", "10-20 mm"}},
	{"river gravel", 0.40, 1.55, true, []string{"3/8-3/4 in", "#6", "10-20 mm"}},
	{"lava rock", 0.42, 0.80, false, []string{"3/8-3/4 in", "1/2-1 in", "3/4 in +"}},
	{"expanded shale", 0.48, 0.72, false, []string{"3/8-5/8 in", "1/2 in", "8-16 mm"}},
	{"crushed granite", 0.30, 1.55, false, []string{"1/2-3/4 in", "#5", "3/4 in minus"}},
	{"pumice", 0.55, 0.60, false, []string{"3/8-1/2 in", "10-20 mm"}},
	{"coconut coir", 0.20, 0.08, false, []string{"10-20 mm"}},
	{"limestone", 0.15, 1.50, false, []string{"3/4 in +"}},
}

// Files are the texts of quotes.csv, beds.csv, delivery.csv and job.toml.
func Files(seed uint64, s Shape) (quotesCSV, bedsCSV, deliveryCSV, jobTOML string) {
	r := rand.New(rand.NewPCG(seed, 7))
	g := &generator{r: r, s: s}
	return g.quotes(), g.beds(), g.delivery(), g.settings()
}

// Job reads the files of a seed; it panics when they have problems, since then
// this package is at fault.
func Job(seed uint64, s Shape) *quotes.Job {
	q, b, d, t := Files(seed, s)
	job, report, err := files.Read(files.Sources{
		Quotes:   files.Source{Name: "quotes.csv", R: strings.NewReader(q)},
		Beds:     files.Source{Name: "beds.csv", R: strings.NewReader(b)},
		Delivery: files.Source{Name: "delivery.csv", R: strings.NewReader(d)},
		Settings: files.Source{Name: "job.toml", R: strings.NewReader(t)},
	}, files.Options{Today: time.Date(2026, 3, 1, 0, 0, 0, 0, time.UTC)})
	if err == nil {
		err = report.Err()
	}
	if err != nil {
		panic(fmt.Sprintf("seed %d: %v", seed, err))
	}
	return job
}

type generator struct {
	r *rand.Rand
	s Shape
}

func (g *generator) chance(p float64) bool { return g.r.Float64() < p }

func (g *generator) supplier(i int) string { return fmt.Sprintf("Yard %c%d", 'A'+i%26, i/26+1) }
func (g *generator) site(i int) string     { return fmt.Sprintf("site %02d", i+1) }

func (g *generator) quotes() string {
	var b strings.Builder
	b.WriteString("quote,supplier,medium,form,pack,step,price,breaks,break_kind,break_group,min_qty,max_qty,size,density,carbonate,tax\n")
	for i := range g.s.Quotes {
		m := media[g.r.IntN(6)]
		if g.chance(0.06) {
			m = media[6+g.r.IntN(2)]
		}
		// Every job has some smooth and some rough stone that nothing refuses.
		if i < 2 {
			m = media[i*2]
		}
		supplier := i % g.s.Suppliers
		form, pack, litres := "bag", "50 L", 50.0
		switch g.r.IntN(7) {
		case 0:
			pack, litres = "1.5 cu ft", 42.475
		case 1:
			pack, litres = "2 cu ft", 56.634
		case 2:
			pack, litres = "40 lb", 18.144/m.density
		case 3:
			form, pack, litres = "bulk", "1 yd3", 764.555
		case 4:
			form, pack, litres = "bulk", "1 ton", 907.185/m.density
		case 5:
			form, pack, litres = "sack", "1 m3", 1000
		}
		rate := m.litre * (0.75 + g.r.Float64()*0.5)
		if form != "bag" {
			rate *= 0.35 + g.r.Float64()*0.25
		}
		price := rate * litres
		step, breaks, kind, group, minQ, maxQ, tax := "", "", "", "", "", "", ""
		if form == "bulk" && g.s.Stock && g.chance(0.4) {
			step = "0.5"
		}
		if g.s.Breaks && g.chance(0.5) {
			if form == "bag" {
				breaks = fmt.Sprintf("%d: %.2f; %d: %.2f", 8+g.r.IntN(5), price*0.93, 30+g.r.IntN(20), price*0.85)
			} else {
				breaks = fmt.Sprintf("%d: %.2f", 3+g.r.IntN(3), price*0.9)
			}
			if g.s.Incremental && g.chance(0.3) {
				kind = "incremental"
			} else if g.s.Groups && form == "bag" && g.chance(0.5) {
				group, kind = "bags", "all-units"
			}
		}
		if g.s.Stock {
			if g.chance(0.2) {
				minQ = fmt.Sprint(2 + g.r.IntN(4))
			}
			if g.chance(0.25) && i >= 2 {
				maxQ = fmt.Sprint(6 + g.r.IntN(30))
			}
		}
		if g.s.Tax && g.chance(0.3) {
			tax = []string{"0", "5", "8.25"}[g.r.IntN(3)]
		}
		carbonate := "none"
		if g.chance(0.05) && i >= 2 {
			carbonate = []string{"fizzed", "untested"}[g.r.IntN(2)]
		}
		size := m.size[g.r.IntN(len(m.size))]
		fmt.Fprintf(&b, "q%03d,%s,%s,%s,%s,%s,%.2f,%s,%s,%s,%s,%s,%s,,%s,%s\n",
			i+1, g.supplier(supplier), m.name, form, pack, step, price, breaks, kind, group, minQ, maxQ, size, carbonate, tax)
	}
	return b.String()
}

func (g *generator) beds() string {
	var b strings.Builder
	b.WriteString("bed,count,length,width,depth,top,max_share,min_size,avoid,table,limit,own_weight,displaced,site")
	if g.s.Members > 0 {
		b.WriteString(",member")
	}
	b.WriteString("\n")
	tables := max(1, g.s.Beds/3)
	limit := map[string]string{}
	for i := range g.s.Beds {
		site := i % g.s.Sites
		table, lim, own := "", "", ""
		l, w := 3+g.r.IntN(6), 2+g.r.IntN(3)
		if g.s.Tables && g.chance(0.6) {
			table = fmt.Sprintf("T%d-%d", site, g.r.IntN(tables))
			if limit[table] == "" {
				limit[table] = fmt.Sprintf("%d kg", 4000+g.r.IntN(6000))
			}
			lim = limit[table]
			own = fmt.Sprintf("%d kg", 10+g.r.IntN(30))
		} else if g.s.Tables && g.chance(0.3) {
			// between about 1.2 and 1.9 kg for each litre
			lim = fmt.Sprintf("%d kg", int(float64(l*w)*28.3*(1.25+g.r.Float64()*0.6)))
		}
		top := []string{"0 in", "3 in", "4 in"}[g.r.IntN(3)]
		share := ""
		if g.s.Shares && g.chance(0.3) {
			share = fmt.Sprintf("lava rock: 0.%d; expanded clay: 0.9", 4+g.r.IntN(4))
		}
		minSize := []string{"", "3/8 in", "8 mm"}[g.r.IntN(3)]
		avoid := ""
		if g.chance(0.1) {
			avoid = "crushed granite"
		}
		displaced := ""
		if g.chance(0.2) {
			displaced = "10 L"
		}
		count := 1
		if g.chance(0.2) {
			count = 2 + g.r.IntN(3)
		}
		if table != "" {
			count = 1
		}
		fmt.Fprintf(&b, "bed %d,%d,%d ft,%d ft,12 in,%s,%s,%s,%s,%s,%s,%s,%s,%s", i+1, count, l, w, top, share, minSize, avoid, table, lim, own, displaced, g.site(site))
		if g.s.Members > 0 {
			fmt.Fprintf(&b, ",member %c", 'A'+i%g.s.Members)
		}
		b.WriteString("\n")
	}
	return b.String()
}

func (g *generator) delivery() string {
	var b strings.Builder
	b.WriteString("supplier,site,name,handling,covers,order_fee,load_fee,load_volume,load_weight,load_holds,haul,free_over,min_order,tax\n")
	for i := range g.s.Suppliers {
		handling := ""
		if g.s.Handling && g.chance(0.4) {
			handling = fmt.Sprint(5 + g.r.IntN(40))
		}
		holds, tax := "", ""
		size := func(name, covers string, order, load int, vol, weight, haul, free, least string) {
			fmt.Fprintf(&b, "%s,,%s,%s,%s,%d,%d,%s,%s,%s,%s,%s,%s,%s\n", g.supplier(i), name, handling, covers, order, load, vol, weight, holds, haul, free, least, tax)
		}
		row := func(name, covers string, order, load int, vol, weight, haul, free, least string) {
			if tax = ""; g.s.Tax && g.chance(0.3) {
				tax = "0"
			}
			if holds = ""; g.s.Trucks && g.chance(0.4) {
				holds = "any"
			}
			size(name, covers, order, load, vol, weight, haul, free, least)
		}
		haul, free, least := "", "", ""
		if g.s.Haul && g.chance(0.3) {
			haul = fmt.Sprintf("%d / yd3", 4+g.r.IntN(10))
		}
		if g.s.FreeOver && g.chance(0.35) {
			free = fmt.Sprint(300 + g.r.IntN(900))
		}
		if g.s.MinOrder && g.chance(0.25) {
			least = fmt.Sprint(50 + g.r.IntN(200))
		}
		order, load, vol, weight := 20+g.r.IntN(80), 0, "", ""
		if g.s.Loads && g.chance(0.6) {
			load, vol = 40+g.r.IntN(90), fmt.Sprintf("%d yd3", 3+g.r.IntN(8))
			if g.chance(0.5) {
				weight = fmt.Sprintf("%d ton", 3+g.r.IntN(8))
			}
		}
		row("truck", "all", order, load, vol, weight, haul, free, least)
		if g.s.Trucks && load > 0 && g.chance(0.5) {
			size("truck", "all", order, load*2-10, fmt.Sprintf("%d yd3", 9+g.r.IntN(8)), weight, haul, free, least)
		}
		if g.s.Alternatives && g.chance(0.5) {
			row("van", "bag", 10+g.r.IntN(30), 15, "1 m3", "", "", "", "")
		}
		if g.s.Alternatives && g.chance(0.2) {
			row("own trailer", "all", 0, 25+g.r.IntN(20), "1 m3", "0.75 tonne", "", "", "")
		}
	}
	return b.String()
}

func (g *generator) settings() string {
	var b strings.Builder
	b.WriteString("currency = \"USD\"\ndate = \"2026-03-01\"\n")
	if g.s.Tax {
		b.WriteString("tax = 7.5\n")
	}
	if g.s.Labour {
		b.WriteString("labour_rate = 18\n")
	}
	if g.s.Counts {
		fmt.Fprintf(&b, "max_suppliers = %d\n", 1+g.r.IntN(3))
	}
	if g.chance(0.3) {
		b.WriteString("extra = 5\n")
	}
	if !g.s.Spread || g.chance(0.4) {
		b.WriteString("weights = \"usual\"\n")
	}
	if g.s.Mixing {
		if g.chance(0.5) {
			b.WriteString("layer_mix = \"one\"\n")
		} else {
			fmt.Fprintf(&b, "least_share = %d\n", 10+5*g.r.IntN(8))
		}
	}
	return b.String()
}

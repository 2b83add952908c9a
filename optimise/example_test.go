package optimise_test

import (
	"context"
	"fmt"
	"log"
	"strings"
	"time"

	"mediabuy/optimise"
	"mediabuy/optimise/bill"
	"mediabuy/quotes"
	"mediabuy/quotes/files"
)

// yard is a job of one bed of 800 litres and two ways to fill it: bags of 100 L at
// 10, at 8 from the tenth, or a cubic metre at 55 and 20 for the truck. Its medium
// loses nothing, so that the sums are plain.
func yard() *quotes.Job {
	text := func(name, s string) files.Source { return files.Source{Name: name, R: strings.NewReader(s)} }
	job, report, err := files.Read(files.Sources{
		Quotes: text("quotes.csv", "quote,supplier,medium,pack,price,breaks,delivery\n"+
			"bags,Low Store,grit,100 L,10,10: 8,\nload,Hill Yard,grit,1 m3,55,,20\n"),
		Beds: text("beds.csv", "bed,volume\none,800 L\n"),
		Media: text("media.csv", "medium,dry_density,held_water,voids,feel,carbonate,breaks_down,rinse_loss,settle,rinse_minutes\n"+
			"grit,1 kg/L,0,0,smooth,none,no,0%,0%,0\n"),
	}, files.Options{Today: time.Date(2026, 4, 1, 0, 0, 0, 0, time.UTC)})
	if err != nil {
		log.Fatal(err)
	}
	if err := report.Err(); err != nil {
		log.Fatal(err)
	}
	return job
}

// Eight bags cost 80, ten 80 as well, the load 75 with its truck.
func ExampleSolve() {
	plan, err := optimise.Solve(context.Background(), yard(), optimise.Options{})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(plan.Status, plan.Bill.Total)
	for _, l := range plan.Bill.Lines {
		fmt.Println(l.Packs, "of", l.Quote.Name, "for", l.Goods)
	}
	// Output:
	// optimal 75
	// 1 of load for 55
}

// A purchase is priced without any solving: ten bags reach the break, 10 × 8 = 80.
func Example_price() {
	job := yard()
	b, err := bill.Price(job, bill.Purchase{Items: []bill.Item{{Quote: job.Quotes[0], Steps: 10}}, Carry: map[bill.Carry]*quotes.Delivery{}})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(b.Lines[0].PackPrice, "each, from", b.Lines[0].BreakFrom, "packs:", b.Total)
	// Output:
	// 8 each, from 10 packs: 80
}

package breakeven_test

import (
	"context"
	"fmt"
	"log"
	"strings"
	"time"

	"mediabuy/optimise"
	"mediabuy/optimise/breakeven"
	"mediabuy/quotes/files"
)

// Eight bags at 10 against a load at 55 with 20 for the truck: the bags come in
// where eight of them cost less than 75, at 9.375 each.
func ExampleByPrice() {
	text := func(name, s string) files.Source { return files.Source{Name: name, R: strings.NewReader(s)} }
	job, report, err := files.Read(files.Sources{
		Quotes: text("quotes.csv", "quote,supplier,medium,pack,price,delivery\nbags,Low Store,grit,100 L,10,\nload,Hill Yard,grit,1 m3,55,20\n"),
		Beds:   text("beds.csv", "bed,volume\none,800 L\n"),
		Media: text("media.csv", "medium,dry_density,held_water,voids,feel,carbonate,breaks_down,rinse_loss,settle,rinse_minutes\n"+
			"grit,1 kg/L,0,0,smooth,none,no,0%,0%,0\n"),
	}, files.Options{Today: time.Date(2026, 4, 1, 0, 0, 0, 0, time.UTC)})
	if err != nil {
		log.Fatal(err)
	}
	if err := report.Err(); err != nil {
		log.Fatal(err)
	}
	ctx := context.Background()
	today, err := breakeven.Today(ctx, job, optimise.Options{})
	if err != nil {
		log.Fatal(err)
	}
	bags, err := breakeven.FindQuote(job, "bags")
	if err != nil {
		log.Fatal(err)
	}
	series, err := breakeven.ByPrice(ctx, job, today, []breakeven.Target{breakeven.OfQuote(job, bags)}, breakeven.Options{})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println("in the plan:", series[0].InPlan, "- enters at", series[0].Enters)
	// Output:
	// in the plan: false - enters at 9.375
}

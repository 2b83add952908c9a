package share_test

import (
	"context"
	"fmt"
	"log"
	"strings"
	"time"

	"mediabuy/optimise/share"
	"mediabuy/quotes/files"
)

// Two members need 500 L each and a truck costs 40 however full it is: alone each
// pays 5 × 10 + 40 = 90, together 100 + 40 = 140, and what is saved is halved.
func ExampleSolve() {
	text := func(name, s string) files.Source { return files.Source{Name: name, R: strings.NewReader(s)} }
	job, report, err := files.Read(files.Sources{
		Quotes: text("quotes.csv", "quote,supplier,medium,pack,price,delivery\nbags,Low Store,grit,100 L,10,40\n"),
		Beds:   text("beds.csv", "bed,volume,member\none,500 L,Ada\ntwo,500 L,Ben\n"),
		Media: text("media.csv", "medium,dry_density,held_water,voids,feel,carbonate,breaks_down,rinse_loss,settle,rinse_minutes\n"+
			"grit,1 kg/L,0,0,smooth,none,no,0%,0%,0\n"),
	}, files.Options{Today: time.Date(2026, 4, 1, 0, 0, 0, 0, time.UTC)})
	if err != nil {
		log.Fatal(err)
	}
	if err := report.Err(); err != nil {
		log.Fatal(err)
	}
	split, err := share.Solve(context.Background(), job, share.Options{})
	if err != nil {
		log.Fatal(err)
	}
	for _, m := range split.Members {
		fmt.Println(m.Name, "pays", m.Pays, "and alone", m.Alone)
	}
	fmt.Println("nobody does better alone:", split.Chosen.Stable)
	// Output:
	// Ada pays 70 and alone 90
	// Ben pays 70 and alone 90
	// nobody does better alone: true
}

package files_test

import (
	"fmt"
	"strings"
	"time"

	"mediabuy/quotes/files"
)

// A job is read whole: all its problems are told at once, each at its place, and
// only a job without any is handed on.
func ExampleRead() {
	day := time.Date(2026, 4, 1, 0, 0, 0, 0, time.UTC)
	job, report, err := files.Read(files.Sources{
		Quotes: files.Source{Name: "quotes.csv", R: strings.NewReader(
			"supplier,medium,pack,price\nHill Yard,lava rock,1 yd3,129\nHill Yard,pumice,1,35\n")},
		Beds: files.Source{Name: "beds.csv", R: strings.NewReader("bed,volume\none,500 L\n")},
	}, files.Options{Today: day})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("a job:", job != nil)
	for _, p := range report.Problems {
		fmt.Println(p.Pos, "found", p.Found)
	}
	// Output:
	// a job: false
	// quotes.csv:3:18 found "1" is not a volume or a weight
}

package show

import (
	"fmt"

	"mediabuy/quotes"
	"mediabuy/units"
)

// CheckVerdict is the last line of check.
func CheckVerdict(job *quotes.Job, rep *quotes.Report) string {
	warned := units.Several(len(rep.Warnings), "warning")
	if n := len(rep.Problems); n > 0 {
		return fmt.Sprintf("Not ready: %s to mend, %s.", units.Several(n, "problem"), warned)
	}
	beds := 0
	for _, b := range job.Beds {
		beds += b.Count
	}
	return fmt.Sprintf("Ready: %s from %s for %s, %s.", units.Several(len(job.Quotes), "quote"), units.Several(len(quotes.Suppliers(job)), "supplier"),
		units.Several(beds, "bed"), warned)
}

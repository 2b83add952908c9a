package show

import (
	"fmt"

	"mediabuy/optimise"
	"mediabuy/quotes"
	"mediabuy/units"
)

// CheckVerdict is the last line of check.
func CheckVerdict(job *quotes.Job, rep *quotes.Report, mix optimise.Possibility) string {
	warned := units.Several(len(rep.Warnings), "warning")
	if n := len(rep.Problems); n > 0 {
		return fmt.Sprintf("Not ready: %s to mend, %s.", units.Several(n, "problem"), warned)
	}
	what := fmt.Sprintf("%s from %s for %s, %s.", units.Several(len(job.Quotes), "quote"), units.Several(len(quotes.Suppliers(job)), "supplier"),
		units.Several(job.BedCount(), "bed"), warned)
	switch mix {
	case optimise.NoMix:
		return "Not ready: the files read well, but no mix of these quotes can satisfy the beds: " + what
	case optimise.MixUnsettled:
		return "The files read well: " + what + " Whether a mix can satisfy the beds was not settled in a second; mediabuy plan tells."
	}
	return "Ready: " + what
}

// Obstacles lists what stands in the way of filling the beds.
func Obstacles(why []optimise.Obstacle, st Style) string {
	p := &page{Style: st}
	p.obstacles(why)
	return p.String()
}

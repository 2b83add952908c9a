package files

import (
	"fmt"

	"mediabuy/quotes"
	"mediabuy/units"
)

// reach is how far sizes of beds in one job may lie apart: where some row takes more
// litres than large, none may have beds of less than a share of 1/times of it.
type reach struct {
	large units.Litres
	times float64
	why   string // what asks for it, "" where nothing but the sizes does
}

// The reach of jobs, and of those that ask how stone is mixed in a layer. Of 2,500 jobs of
// random sizes from 1 L to 100,000 m³ and random rules, all within it were settled; of
// those beyond, linear programs called one in fifty impossible, or gave up.
var (
	anyReach   = reach{large: 10_000_000, times: 10_000}
	mixedReach = reach{large: 1_000_000, times: 1_000}
)

// reach is that of the job.
func (x *reader) reach() reach {
	r := anyReach
	switch {
	case x.set.LayerMix == quotes.OneMix:
		r = mixedReach
		r.why = "layer_mix = \"one\""
	case x.set.LeastShare > 0:
		r = mixedReach
		r.why = "least_share"
	}
	return r
}

// farApart refuses beds too small beside the largest row: in numbers so far apart the
// least of them are lost, and with them whether the beds can be filled.
func (x *reader) farApart(rows []*bedRow) {
	var largest *bedRow
	of := func(q *bedRow) units.Litres { return q.BaseLitres() + q.TopLitres() }
	all := func(q *bedRow) units.Litres { return of(q) * units.Litres(q.Count) }
	for _, q := range rows {
		if largest == nil || all(q) > all(largest) {
			largest = q
		}
	}
	r := x.reach()
	if largest == nil || all(largest) <= r.large {
		return
	}
	with := ""
	if r.why != "" {
		with = " in a job with " + r.why
	}
	for _, q := range rows {
		if c := q.sizeCell(); float64(all(largest)) > r.times*float64(of(q)) && q != largest {
			x.fail(c, fmt.Sprintf("the bed takes %s, beside %s on line %d", units.FormatVolume(of(q), x.habit(c)), units.FormatVolume(all(largest), x.habit(c)), largest.Line),
				fmt.Sprintf("beds of at least 1/%.0f of the largest row, where that takes over %s%s", r.times, units.FormatVolume(r.large, x.habit(c)), with),
				"are the units right? Else plan the small beds in a job of their own, or leave them out")
		}
	}
}

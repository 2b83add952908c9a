package main

import (
	"bytes"
	"fmt"
	"io"

	"mediabuy/optimise/breakeven"
	"mediabuy/papers/chart"
	"mediabuy/quotes"
	"mediabuy/units"
)

// mostPanels is how many charts one file takes and can still be read.
const mostPanels = 6

// draw writes the chart of what was asked for. Of the whole answer that is bulk
// by price and bags against bulk by volume.
func (o *breakevenOptions) draw(job *quotes.Job, ans *breakeven.Answer, sys units.System) error {
	panels := o.ask.Panels(job, ans, sys)
	switch {
	case len(panels) == 0:
		return &usageError{"there is nothing to draw: a chart shows a price or a volume", "ask for one with --quote, --supplier, --fee, --bulk or --volume"}
	case len(panels) > mostPanels:
		return &usageError{fmt.Sprintf("%d charts are asked for and one file takes %d", len(panels), mostPanels), "ask for fewer at a time"}
	}
	format, err := chart.Format(o.out)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	if err := chart.Write(&b, format, panels); err != nil {
		return err
	}
	return writeWhole(o.out, func(w io.Writer) error {
		_, err := w.Write(b.Bytes())
		return err
	})
}

package files

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"mediabuy/quotes/internal/spelling"
	"mediabuy/units"
)

// measures reads the size of a bed: three measures with a top depth, or a volume
// with a top volume; never some of each.
func (x *reader) measures(q *bedRow) {
	at := q.row.cell
	byMeasure := filled(q.row, "length", "width", "depth", "top")
	byVolume := filled(q.row, "volume", "top_volume")
	switch {
	case slices.Contains(byVolume, "volume") && len(byMeasure) > 0:
		x.fail(at("volume"), "the bed has a volume, and "+strings.Join(byMeasure, ", ")+" too", "length, width and depth, or a volume, not both",
			"with a volume, the top layer is given as top_volume")
		return
	case slices.Contains(byVolume, "volume"):
		x.volumes(q)
	case len(byMeasure) == 0:
		if c := q.sizeCell(); !at("volume").off {
			x.fail(c, "the bed has no size", "length, width and depth, or a volume", insideSize)
		}
		return
	default:
		x.sides(q)
	}
	x.displaced(q)
}

// sizeCell is the cell at which to say that a bed's size is wrong: its volume where
// that is filled or the only column for a size, else its length.
func (q *bedRow) sizeCell() *cell {
	length, volume := q.row.cell("length"), q.row.cell("volume")
	if !volume.blank() || length.absent {
		return volume
	}
	return length
}

// filled lists those of the columns that have something in them on this row.
func filled(r *row, headings ...string) []string {
	return slices.DeleteFunc(headings, func(h string) bool { return r.cell(h).blank() })
}

// deepest is the depth of a bed above which its unit is doubtful.
const deepest units.Millimetres = 2000

func (x *reader) sides(q *bedRow) {
	at := q.row.cell
	if c := at("top_volume"); !c.blank() {
		x.fail(c, "a top_volume beside measures", "the depth of the top layer under top", "top_volume goes with a volume")
	}
	sides := x.sideCells(q)
	for _, s := range []struct {
		heading string
		to      *units.Millimetres
	}{{"length", &q.Length}, {"width", &q.Width}, {"depth", &q.Depth}} {
		c := sides[s.heading]
		if c.blank() && !c.off {
			x.fail(c, "the bed has no "+s.heading, "length, width and depth, or a volume", insideSize)
			q.bad[s.heading] = true
			continue
		}
		q.get(set(c, s.to, func(c *cell) (units.Millimetres, bool) { return x.length(c, false) }), s.heading)
	}
	if c := sides["depth"]; !q.bad["depth"] && q.Depth > deepest {
		x.warn(c, fmt.Sprintf("%s is far deeper than a bed of media is built", spelling.Quoted(c.text)), "is the unit right? Beds are about a foot or 300 mm deep (common practice, no source)")
	}
	q.get(set(at("top"), &q.Top, func(c *cell) (units.Millimetres, bool) { return x.length(c, true) }), "top")
	if !q.bad["top"] && !q.bad["depth"] && q.Top > q.Depth {
		x.fail(at("top"), fmt.Sprintf("the top layer is %s deep, but the bed only %s", spelling.Quoted(at("top").text), spelling.Quoted(sides["depth"].text)), "a top of at most depth",
			"top is part of depth")
		q.bad["top"] = true
	}
}

// metric finds a figure in litres or cubic metres.
var metric = regexp.MustCompile(`(?i)[0-9]\s*(?:l|ml|lt|ltr|m3|m³|cbm|lit(?:re|er)s?)\b`)

// habit is that of a cell whose figure is metric, else that of the job.
func (x *reader) habit(c *cell) units.System {
	if metric.MatchString(c.text) {
		return units.Metric
	}
	return x.set.System()
}

func (x *reader) volumes(q *bedRow) {
	at := q.row.cell
	q.get(set(at("volume"), &q.Volume, func(c *cell) (units.Litres, bool) { return x.volume(c, false) }), "volume")
	q.get(set(at("top_volume"), &q.TopVolume, func(c *cell) (units.Litres, bool) { return x.volume(c, true) }), "top_volume")
	if !q.bad["volume"] && !q.bad["top_volume"] && q.TopVolume > q.Volume {
		x.fail(at("top_volume"), fmt.Sprintf("the top layer is %s, but the bed only %s", spelling.Quoted(at("top_volume").text), spelling.Quoted(at("volume").text)),
			"a top_volume of at most volume", "top_volume is part of volume")
		q.bad["top_volume"] = true
	}
}

// displaced reads what pipes, guards and drains take from the base layer.
func (x *reader) displaced(q *bedRow) {
	c := q.row.cell("displaced")
	q.get(set(c, &q.Displaced, func(c *cell) (units.Litres, bool) { return x.volume(c, true) }), "displaced")
	for _, h := range []string{"length", "width", "depth", "volume", "top", "top_volume", "displaced"} {
		if q.bad[h] {
			return // its size is not known
		}
	}
	base := q.BaseLitres()
	// A hundred-thousandth of a litre is rounding, no volume.
	const rounding = 1e-5
	switch {
	case base < -rounding:
		x.fail(c, fmt.Sprintf("%s is taken off, but the base layer holds only %s", spelling.Quoted(c.text), units.FormatVolume(base+q.Displaced, x.habit(c))),
			"no more than the base layer", "it is what pipes, guards and drains take from one bed; is the unit right?")
	case float64(base+q.TopLitres())*float64(q.Count) > float64(MaxVolume):
		x.fail(q.sizeCell(), fmt.Sprintf("the row asks for %.4g litres", float64(base+q.TopLitres())*float64(q.Count)),
			fmt.Sprintf("at most %.0f litres", float64(MaxVolume)), "are the units right?")
	case base+q.TopLitres() < rounding:
		if c.blank() {
			c = q.sizeCell()
		}
		x.fail(c, "nothing is left to fill", "a bed that holds something", "is the unit right?")
	}
}

// tables checks the frames that several beds stand on: one limit, one site. A bed
// that leaves its limit empty takes the table's.
func (x *reader) tables(rows []*bedRow, names []string) {
	for _, name := range names {
		var limited, sited *bedRow
		bad := false
		for _, q := range rows {
			if q.Table != name {
				continue
			}
			bad = bad || q.bad["limit"]
			switch {
			case q.Limit == nil:
			case limited == nil:
				limited = q
			case *q.Limit != *limited.Limit:
				bad = true
				x.fail(q.row.cell("limit"), fmt.Sprintf("table %s carries %s here, but %s on line %d", spelling.Quoted(name), spelling.Quoted(q.row.cell("limit").text),
					spelling.Quoted(limited.row.cell("limit").text), limited.Line), "one limit for a table", "write it once, or alike on each of its beds")
			}
			switch {
			case q.Site == "":
			case sited == nil:
				sited = q
			case q.Site != sited.Site:
				x.fail(q.row.cell("site"), fmt.Sprintf("table %s stands at %s here, but at %s on line %d", spelling.Quoted(name), spelling.Quoted(q.Site), spelling.Quoted(sited.Site), sited.Line),
					"one site for a table", "two frames need two names")
			}
		}
		x.shareLimit(rows, name, limited, bad)
	}
}

// shareLimit gives a table's limit to each of its beds, or warns that there is none.
func (x *reader) shareLimit(rows []*bedRow, table string, limited *bedRow, bad bool) {
	if bad {
		return
	}
	for _, q := range rows {
		if q.Table != table {
			continue
		}
		if limited == nil {
			if c := q.row.cell("limit"); !c.off {
				x.warn(c, fmt.Sprintf("table %s has no limit, so its weight is not checked", spelling.Quoted(table)), "write the most it may carry on one of its beds")
			}
			return
		}
		limit := *limited.Limit
		q.Limit = &limit
	}
}

package files

import (
	"fmt"

	"mediabuy/quotes/internal/spelling"
	"mediabuy/units"
)

// settleMarks settles the decimal mark of each column of numbers: the job's, or
// the one its cells prove. Where some cells prove a point and some a comma, each
// is read by its own mark, said in a warning, and the column settles nothing for
// a number that reads two ways.
func (x *reader) settleMarks(s *sheet) {
	var comma *cell // the first with a decimal comma
	for _, col := range s.columns {
		if !col.number {
			continue
		}
		mark := x.mark
		if mark == units.MarkUnknown {
			mark = x.provenMark(s, col.heading)
		}
		for _, r := range s.rows {
			c := r.cell(col.heading)
			if m, _ := units.MarkOf(c.text); m == units.MarkComma && comma == nil && !c.off {
				comma = c
			}
		}
		for _, r := range s.rows {
			r.cell(col.heading).mark = mark
		}
	}
	x.settleGroups(s, comma)
	x.settleOrders(s)
}

// provenMark is the one decimal mark that the cells of a column prove, if any. A
// cell may be a list, of which each part proves what it can.
func (x *reader) provenMark(s *sheet, heading string) units.DecimalMark {
	mark, proof, line, mixed := units.MarkUnknown, "", 0, false
	for _, r := range s.rows {
		c := r.cell(heading)
		if c.off {
			continue
		}
		for _, p := range parts(c.text) {
			m, _ := units.MarkOf(p)
			switch {
			case m == units.MarkUnknown || m == mark:
			case proof == "":
				mark, proof, line = m, p, c.Line
			default:
				mixed = true
				x.warn(c, fmt.Sprintf("%s has a decimal %s, but %s on line %d has a decimal %s; each is read by its own", spelling.Quoted(p), markName(m),
					spelling.Quoted(proof), line, markName(mark)), "check both, and write them alike")
			}
		}
	}
	if mixed {
		return units.MarkUnknown
	}
	return mark
}

func markName(m units.DecimalMark) string {
	if m == units.MarkComma {
		return "comma"
	}
	return "point"
}

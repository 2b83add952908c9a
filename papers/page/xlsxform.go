package page

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/xuri/excelize/v2"
)

// unit is what stands about a number: a sign of currency before, a unit behind.
type unit struct {
	before, behind string
	percent        bool
	decimals       int // of what is shown in percent
}

// written is a number within its words, with commas between thousands.
var written = regexp.MustCompile(`^-?([^0-9\-]{0,6})(-?[0-9][0-9,]*(?:\.[0-9]+)?)([^0-9]{0,12})$`)

// unitOf is the unit that people are shown beside the number of a cell, where its text
// is that number and a unit; a share that is shown in percent is one too.
func unitOf(c Cell) unit {
	m := written.FindStringSubmatch(c.Text)
	if m == nil || c.Number == nil {
		return unit{}
	}
	n, err := strconv.ParseFloat(strings.ReplaceAll(m[2], ",", ""), 64)
	if err != nil {
		return unit{}
	}
	behind := strings.TrimSpace(m[3])
	shown := func(v float64) bool {
		return math.Abs(math.Abs(v)-math.Abs(n)) <= 0.5*math.Pow(10, -float64(c.Digits))+1e-9
	}
	switch {
	case behind == "%" && math.Abs(math.Abs(100**c.Number)-math.Abs(n)) < 1e-9:
		_, decimals, _ := strings.Cut(m[2], ".")
		return unit{percent: true, decimals: len(decimals)}
	case behind != "%" && shown(*c.Number):
		return unit{before: m[1], behind: strings.TrimRight(m[3], " ")}
	}
	return unit{}
}

// format is the number format of a spreadsheet. The minus of a number below 0 comes
// before all of it by itself.
func (u unit) format(digits int) string {
	f := "#,##0"
	if u.percent {
		digits = u.decimals
	}
	if digits > 0 {
		f += "." + strings.Repeat("0", digits)
	}
	if u.percent {
		return f + "%"
	}
	quoted := func(s string) string {
		if s == "" {
			return ""
		}
		return `"` + strings.NewReplacer(`"`, "", `\`, "").Replace(s) + `"`
	}
	return quoted(u.before) + f + quoted(u.behind)
}

// label gives a cell a name within the whole file.
func (x *xlsxWriter) label(label, cell string) error {
	if label == "" {
		return nil
	}
	if x.labels[label] {
		return fmt.Errorf("the name %q stands at two cells, want each once", label)
	}
	x.labels[label] = true
	col, row, err := excelize.CellNameToCoordinates(cell)
	if err != nil {
		return err
	}
	abs, err := excelize.CoordinatesToCellName(col, row, true)
	if err != nil {
		return err
	}
	return x.file.SetDefinedName(&excelize.DefinedName{Name: label, RefersTo: "'" + x.sheet + "'!" + abs})
}

// width is a column's, in characters.
func (x *xlsxWriter) width(col int) float64 {
	w, ok := x.widths[col]
	if !ok {
		return narrowest
	}
	return min(widest, max(narrowest, w+2))
}

// paraHeights makes each row of a paragraph high enough for its words at the width of
// the columns it runs across, once these are known, and each row of a table for the
// words of its cells.
func (x *xlsxWriter) paraHeights() error {
	wide := 0.0
	for col := range paraWide {
		wide += x.width(col)
	}
	for row, text := range x.paras { // each row by itself, so their order does not matter
		// A line breaks between words, so up to a tenth of it stays blank.
		lines := math.Ceil(float64(utf8.RuneCountInString(text)) / (0.9 * wide))
		if err := x.file.SetRowHeight(x.sheet, row, min(400, rowPoints*max(1, lines))); err != nil {
			return err
		}
	}
	for row, cells := range x.lines {
		lines := 1.0
		for col, signs := range cells {
			if signs > x.width(col)-1 {
				lines = max(lines, math.Ceil(signs/(0.85*x.width(col))))
			}
		}
		if lines > 1 {
			if err := x.file.SetRowHeight(x.sheet, row, min(400, rowPoints*lines)); err != nil {
				return err
			}
		}
	}
	return nil
}

// mostFrozen is how many rows may stay in sight above a table: more would leave a small
// screen no room for the table.
const mostFrozen = 6

// freeze keeps the headings of the sheet's first table in sight where they stand near
// the top.
func (x *xlsxWriter) freeze() error {
	if x.head == 0 || x.head > mostFrozen {
		return nil
	}
	lines := 0.0
	for row, text := range x.paras {
		if row < x.head {
			lines += math.Ceil(float64(utf8.RuneCountInString(text)) / 80)
		}
	}
	if lines > mostFrozen {
		return nil
	}
	below, err := excelize.CoordinatesToCellName(1, x.head+1)
	if err != nil {
		return err
	}
	return x.file.SetPanes(x.sheet, &excelize.Panes{Freeze: true, YSplit: x.head, TopLeftCell: below, ActivePane: "bottomLeft"})
}

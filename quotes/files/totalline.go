package files

import (
	"cmp"
	"maps"
	"slices"
	"strings"

	"mediabuy/quotes/csvfile"
	"mediabuy/quotes/internal/spelling"
)

// totalWords begin the line under a column of figures in a spreadsheet.
var totalWords = []string{"total", "totals", "grand_total", "sum", "sums", "subtotal", "sub_total", "in_all"}

// mostOfTotal is how many cells of such a line are filled: its word, a figure and a remark.
const mostOfTotal = 3

// takeTotal takes the total of a spreadsheet off the end of a sheet, and says so once: it is no thing of its own, and
// each of its empty cells would be a problem.
func (x *reader) takeTotal(s *sheet) {
	if len(s.rows) == 0 {
		return
	}
	last := s.rows[len(s.rows)-1]
	filled := slices.DeleteFunc(slices.Collect(maps.Values(last.cells)), func(c *cell) bool { return c.absent || c.blank() })
	slices.SortFunc(filled, func(a, b *cell) int { return cmp.Compare(a.Col, b.Col) })
	if len(filled) == 0 || len(filled) > mostOfTotal || !slices.Contains(totalWords, csvfile.HeadingKey(strings.TrimRight(filled[0].text, ": "))) {
		return
	}
	x.problem(filled[0].Pos, filled[0].heading, spelling.Quoted(filled[0].text)+" begins what looks like the total of the sheet", "a row for each thing and none for their sum", "take the row out")
	s.rows, s.incomplete = s.rows[:len(s.rows)-1], true
}

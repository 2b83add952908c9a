package files

import (
	"encoding/csv"
	"fmt"
	"strings"

	"mediabuy/quotes"
	"mediabuy/quotes/csvfile"
	"mediabuy/quotes/internal/spelling"
)

// numberedComments warns of skipped lines that look like rows about a size such
// as #57: leaving out a quote silently may cost money.
func (x *reader) numberedComments(g *csvfile.Grid, file string, headings int) {
	for i, from := range g.Starts {
		if i+1 <= g.HeadLine || headings < 2 || from+1 >= len(g.Text) {
			continue
		}
		if g.Text[from] != '#' || g.Text[from+1] < '0' || g.Text[from+1] > '9' {
			continue
		}
		to := len(g.Text)
		if i+1 < len(g.Starts) {
			to = g.Starts[i+1]
		}
		if len(csvfile.SplitRow(g.Text[from:to], g.Comma)) == headings {
			x.warning(quotes.Pos{File: file, Line: i + 1, Col: 1}, "", "the line begins with # and is skipped as a comment, though it looks like a row", "",
				"put its first cell in quote marks if it is a row")
		}
	}
}

// nameless warns, once a column, of cells that stand under no heading.
func (x *reader) nameless(text string, g *csvfile.Grid, cr *csv.Reader, h *heads, told map[int]bool) {
	if len(h.noName) == 0 {
		return
	}
	cells := csvfile.SplitRow(text, g.Comma)
	for _, i := range h.noName {
		if told[i] || i >= len(cells) || strings.TrimSpace(cells[i]) == "" {
			continue
		}
		told[i] = true
		x.warning(placeOf(cr, h.file, i), "", fmt.Sprintf("%s stands in a column with no heading and is not read", spelling.Quoted(cells[i])), "",
			"give the column a heading")
	}
}

package received

import (
	"cmp"
	"encoding/csv"
	"fmt"
	"io"
	"slices"
	"strings"

	"mediabuy/quotes/files"
)

// ReplacedFolder is the folder within that of orders to which orders go in whose place
// others are written. They count no longer, and their numbers stay theirs.
const ReplacedFolder = "replaced"

// Numbers are the numbers that orders have, each with what the order says.
type Numbers map[string][]string

// NumbersOf reads the numbers of orders out of their CSVs. A file that is no order has none.
func NumbersOf(list []files.Source) (Numbers, error) {
	out := Numbers{}
	for _, src := range list {
		text, err := io.ReadAll(src.R)
		if err != nil {
			return nil, fmt.Errorf("reading %s: %w", src.Name, err)
		}
		if number := NumberOf(string(text)); number != "" {
			out[number] = append(out[number], said(string(text)))
		}
	}
	return out, nil
}

// NumberOf is the number of the order in a CSV; "" if it is none.
func NumberOf(text string) string {
	rows := cellsOf(text)
	if len(rows) < 2 || !slices.Contains(rows[0], "kind") {
		return ""
	}
	i := slices.Index(rows[0], OrderHeads[0])
	if i < 0 || i >= len(rows[1]) {
		return ""
	}
	return rows[1][i]
}

// Has tells whether an order of the number is there, and whether it says the same as a CSV.
func (n Numbers) Has(number, text string) (there, same bool) {
	list, there := n[number]
	return there, slices.Contains(list, said(text))
}

// said is what a CSV says, however a spreadsheet has saved it.
func said(text string) string {
	var b strings.Builder
	for _, row := range cellsOf(text) {
		fmt.Fprintf(&b, "%q\n", row)
	}
	return cmp.Or(b.String(), text)
}

// cellsOf are the cells of a CSV; none if it is not one.
func cellsOf(text string) [][]string {
	cr := csv.NewReader(strings.NewReader(strings.TrimPrefix(text, "\ufeff")))
	cr.Comma, cr.FieldsPerRecord = separator(text), -1
	rows, err := cr.ReadAll()
	if err != nil {
		return nil
	}
	return rows
}

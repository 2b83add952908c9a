package message

import (
	"slices"
	"strings"
)

// CSV gives the rows as a quotes.csv, with the columns that any of them fills and the required ones. A cell that is
// missing stays empty, so that reading the file names it.
func (p *Proposal) CSV() string { return rowsCSV(p.Rows, Columns, required) }

// DeliveryCSV gives the rows for delivery.csv in the same way; only headings when there are none.
func (p *Proposal) DeliveryCSV() string {
	return rowsCSV(p.Delivery, DeliveryColumns, deliveryRequired)
}

func rowsCSV(rows []Row, all, required []string) string {
	var columns []string
	for _, c := range all {
		if slices.Contains(required, c) || slices.ContainsFunc(rows, func(r Row) bool { return r.Text(c) != "" }) {
			columns = append(columns, c)
		}
	}
	cells := make([]map[string]string, len(rows))
	for i := range rows {
		cells[i] = map[string]string{}
		for c, cell := range rows[i].Cells {
			cells[i][c] = cell.Text
		}
	}
	return writeCSV(cells, columns)
}

// writeCSV writes rows under headings. A cell is put in quote marks where it needs them, and where it would make its row
// a comment.
func writeCSV(rows []map[string]string, columns []string) string {
	var b strings.Builder
	b.WriteString(strings.Join(columns, ","))
	b.WriteByte('\n')
	for _, row := range rows {
		for i, c := range columns {
			if i > 0 {
				b.WriteByte(',')
			}
			text := row[c]
			if strings.ContainsAny(text, "\",\n\r;\t") || strings.HasPrefix(text, "#") || strings.TrimSpace(text) != text {
				text = `"` + strings.ReplaceAll(text, `"`, `""`) + `"`
			}
			b.WriteString(text)
		}
		b.WriteByte('\n')
	}
	return b.String()
}

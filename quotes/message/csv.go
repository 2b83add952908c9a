package message

import (
	"slices"

	"mediabuy/quotes/csvfile"
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
	return csvfile.Write(cells, columns)
}

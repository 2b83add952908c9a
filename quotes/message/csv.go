package message

import "strings"

// CSV gives the rows as a quotes.csv, with the columns that any of them fills and the required ones. A cell that is
// missing stays empty, so that reading the file names it.
func (p *Proposal) CSV() string {
	var columns []string
	for _, c := range Columns {
		filled := false
		for _, name := range required {
			filled = filled || c == name
		}
		for i := range p.Rows {
			filled = filled || p.Rows[i].Text(c) != ""
		}
		if filled {
			columns = append(columns, c)
		}
	}
	cells := make([]map[string]string, len(p.Rows))
	for i := range p.Rows {
		cells[i] = map[string]string{}
		for c, cell := range p.Rows[i].Cells {
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

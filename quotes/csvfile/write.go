package csvfile

import "strings"

// Write writes rows under headings. A cell is put in quote marks where it needs them, and where it would make its row
// a comment.
func Write(rows []map[string]string, columns []string) string {
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
				text = quoted(text)
			}
			b.WriteString(text)
		}
		b.WriteByte('\n')
	}
	return b.String()
}

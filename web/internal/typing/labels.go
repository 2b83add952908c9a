package typing

import (
	"slices"
	"strconv"
	"strings"

	"mediabuy/quotes/csvfile"
)

var (
	named = []string{"quote", "bed", "medium", "supplier"}                 // what a row is called: the first that is filled
	apart = []string{"supplier", "item", "pack", "name", "site", "covers"} // what tells rows of one name apart
)

// labels names each row by its line: by what its first cells say, and where several say the
// same by what else tells them apart.
func labels(s *csvfile.Sheet) map[int]string {
	column := map[string]int{}
	for _, heading := range slices.Concat(named, apart) {
		column[heading] = s.Column(heading)
	}
	rows := slices.DeleteFunc(slices.Clone(s.Rows), func(r csvfile.Row) bool { return len(r.Cells) == 0 })
	cell := func(r csvfile.Row, heading string) string {
		if i := column[heading]; i >= 0 && i < len(r.Cells) {
			return r.Cells[i].Text
		}
		return ""
	}
	base, more := make([]string, len(rows)), make([][]string, len(rows))
	label := func(i int) string {
		if len(more[i]) == 0 {
			return base[i]
		}
		return base[i] + " (" + strings.Join(more[i], ", ") + ")"
	}
	for i, r := range rows {
		base[i] = "line " + strconv.Itoa(r.Line)
		for _, heading := range named {
			if text := cell(r, heading); text != "" {
				base[i] = text
				break
			}
		}
	}
	add := func(what func(i int) string) {
		alike := map[string]int{}
		for i := range rows {
			alike[label(i)]++
		}
		for i := range rows {
			if text := what(i); alike[label(i)] > 1 && text != "" && text != base[i] {
				more[i] = append(more[i], text)
			}
		}
	}
	for _, heading := range apart {
		add(func(i int) string { return cell(rows[i], heading) })
	}
	add(func(i int) string { return "line " + strconv.Itoa(rows[i].Line) })
	out := map[int]string{}
	for i, r := range rows {
		out[r.Line] = label(i)
	}
	return out
}

package message

import (
	"slices"
	"strings"
	"unicode/utf8"

	"mediabuy/quotes/internal/cues"
	"mediabuy/quotes/internal/plaintext"
	"mediabuy/units"
)

// table is a run of lines that are rows of cells.
type table struct {
	Range
	rows [][]Range // the cells, without the quote marks around them
}

// separators of cells in a paste, likeliest first.
var separators = []byte{'\t', ';', '|', ',', '/', plaintext.Gap}

// tables finds the runs of lines that are rows. Tabs always make rows. Other signs stand in sentences too, so there every
// row must have as many cells, and the first must be headings or each must hold a medium and an amount in one column.
func (s *scanner) tables() []table {
	lines := ranges(plaintext.Lines(s.text))
	var out []table
	for i := 0; i < len(lines); {
		t, n := s.halves(lines[i:])
		if n > 0 {
			out = append(out, t)
		}
		for _, sep := range separators {
			if t, rows := s.tableAt(lines[i:], sep); n == 0 && rows > 0 {
				out = append(out, t)
				n = rows
				break
			}
		}
		i += max(n, 1)
	}
	return out
}

// halves is the table below a line that ends in "half yard / full yard", whose rows end in two amounts, and how many lines it takes.
func (s *scanner) halves(lines []Range) (t table, n int) {
	head := ranges(plaintext.Groups(cues.HalvesHead, s.low, lines[0].From, lines[0].To))
	if head == nil || strings.HasPrefix(s.low[head[1].From:], "half") == strings.HasPrefix(s.low[head[2].From:], "half") {
		return t, 0
	}
	t.rows = [][]Range{head}
	for i, l := range lines[1:] {
		row := ranges(plaintext.Groups(cues.HalvesRow, s.low, l.From, l.To))
		if row != nil && s.holdsMedium(row[0].From, row[0].To) {
			t.rows, t.Range, n = append(t.rows, row), Range{lines[0].From, l.To}, i+2
		} else if n > 0 || l.From < l.To {
			break
		}
	}
	return t, n
}

// cellsOf splits a line at a separator.
func (s *scanner) cellsOf(l Range, sep byte) []Range {
	return ranges(plaintext.Cells(s.text, l.From, l.To, sep))
}

func ranges(at [][2]int) (out []Range) {
	for _, r := range at {
		out = append(out, Range{r[0], r[1]})
	}
	return out
}

// tableAt is the table that begins with the first of lines, and how many of them it takes; none: 0.
func (s *scanner) tableAt(lines []Range, sep byte) (t table, n int) {
	cells := 0
	for i, l := range lines {
		if n > 0 && l.From == l.To && sep == '\t' && i+1 < len(lines) && len(s.cellsOf(lines[i+1], sep)) == cells {
			n++ // an empty row
			continue
		}
		if s.upTo(l.From-1, l.To) < l.To || s.taken(l.From) != nil && l.From < l.To {
			break
		}
		row := s.cellsOf(l, sep)
		if sep == plaintext.Gap && n > 0 {
			row = s.fitted(t.rows[0], row)
		}
		filled := 0
		for _, c := range row {
			if strings.TrimSpace(s.text[c.From:c.To]) != "" {
				filled++
			}
		}
		if len(row) < 2 || filled < 2 || sep != '\t' && (len(row) < 3 || cells > 0 && len(row) != cells) {
			break
		}
		cells = len(row)
		if len(t.rows) == 0 || strings.Trim(s.text[l.From:l.To], "-:=+| \t\r") != "" { // else a ruled line
			t.rows = append(t.rows, row)
		}
		t.To = l.To
		n++
	}
	if n == 0 {
		return table{}, 0
	}
	t.From = lines[0].From
	if s.steps(t) != nil {
		return t, n
	} else if sep == plaintext.Gap {
		return t, s.gapped(t, n)
	}
	if (sep == ',' || sep == ';') && s.headings(t.rows[0]) == nil && (s.spacedCommas(t.rows) || s.decimalCommas(t.rows) || n == 1 && strings.Contains(s.text[t.From:t.To], "; ")) {
		return table{}, 0 // sentences, lines with amounts such as € 156,00, or cells that end otherwise: "lava; 1,5; 20 a yard"
	}
	if sep == '\t' && (n > 1 || cells > 2) && s.anyMedium(t.rows) || s.headings(t.rows[0]) != nil && n > 1 || sep != '/' && s.plainRows(t.rows) {
		return t, n
	}
	return table{}, 0
}

// fitted is a row with as many cells as its headings: brackets go with the cell before them, and a long cell ends where a heading does.
func (s *scanner) fitted(heads, row []Range) []Range {
	for n := len(heads) - len(row); n > 0 && len(row) > 1 && row[0].From == row[0].To && s.across(row[1].To) > s.across(heads[n+1].From); n-- { // a step of what stands above
		row = slices.Concat(row[:1], row)
	}
	for j := 1; j < len(row) && len(row) == len(heads)+1; j++ {
		if c, before := row[j], row[j-1]; before.From == before.To {
			row = slices.Delete(row, j-1, j)
		} else if s.text[c.From] == '(' && s.text[c.To-1] == ')' {
			row = slices.Concat(row[:j-1], []Range{{before.From, c.To}}, row[j+1:])
		}
	}
	for j := 0; j < len(row) && len(row) < len(heads); j++ {
		c, h := row[j], heads[j+1]
		for at := c.From + 1; at < c.To; at++ {
			last := !strings.Contains(s.text[at:c.To], " ")
			if s.text[at-1] == ' ' && startsNumber.MatchString(s.low[at:c.To]) && (s.across(at) == s.across(h.From) || last && s.across(c.To) == s.across(h.To) || onlyAmounts.MatchString(s.low[at:c.To])) {
				row = slices.Concat(row[:j], []Range{{c.From, len(strings.TrimRight(s.text[:at], " "))}, {at, c.To}}, row[j+1:])
				break
			}
		}
	}
	return row
}

// across is how many letters stand before byte at in its line.
func (s *scanner) across(at int) int {
	return utf8.RuneCountInString(s.text[strings.LastIndexByte(s.text[:at], '\n')+1 : at])
}

var (
	startsNumber = pattern(`(?:` + signBefore + `)?` + sp + `\d`)
	onlyAmounts  = pattern(`(?:(?:` + signBefore + `)?\d+[.,]\d\d(?: |$))+$`)
)

// steps are the headings of the rows of a table that has a column for each medium and a row for each number of packs; nil where it is
// none.
func (s *scanner) steps(t table) (out []*heading) {
	if len(t.rows) < 3 || !stepsHead.MatchString(s.low[t.rows[0][0].From:t.rows[0][0].To]) {
		return nil
	}
	for i, row := range t.rows {
		for j, c := range row {
			_, _, why := (&reading{scanner: s}).wholeAmount(c)
			if j > 0 && (i == 0) != s.holdsMedium(c.From, c.To) || i > 0 && j > 0 && why != "" {
				return nil
			}
		}
		if h := s.headingOf(row[0]); i > 0 && (h.from.text == "" || h.unclear != "" || len(row) != len(t.rows[0])) {
			return nil
		} else if i > 0 {
			if u := cues.StepUnit.FindString(s.low[t.rows[0][0].From:t.rows[0][0].To]); h.unit.Empty() && formPattern.MatchString(u) {
				h.unit = pack{Form: formOf(u), Words: u}
			} else if h.unit.Empty() && u != "" {
				h.unit, _ = s.holding("1", u, "")
			}
			out = append(out, h)
		}
	}
	if unbroken(out); out[0].column != "price" {
		return nil // the price of fewer is not said
	}
	return out
}

var stepsHead = pattern(sp + `(?:(?:qty|quantity|amount|number|no\.?|order|buy|from|yards?|yds?|tons?|tonnes?|bags?|m3|m³)\b\.?[^\d\n]{0,20})?$`)

// gapped is how many lines a table set in spaces has: it must have headings, and each row below names a medium or is ruled.
func (s *scanner) gapped(t table, n int) int {
	if n < 2 || len(t.rows) < 2 || s.headings(t.rows[0]) == nil {
		return 0
	}
	for i, row := range t.rows[1:] { // what follows the goods, such as sums, is none of its rows
		if !s.anyMedium([][]Range{row}) && !s.fetchRow(row) && !s.sizedUnder(t, row) && (i == 0 || !s.amountsLike(t.rows[1], row)) {
			return 0
		}
	}
	return n
}

// sizedUnder says whether a row begins with nothing but a size and the line above its table names a medium, or its first heading does, of
// which it then is.
func (s *scanner) sizedUnder(t table, row []Range) bool {
	above := strings.TrimRight(s.text[:t.From], " \t\r\n")
	if head := t.rows[0][0]; !s.holdsMedium(head.From, head.To) && !s.holdsMedium(strings.LastIndexByte(above, '\n')+1, len(above)) {
		return false
	}
	defer func(start, limit int) { s.start, s.limit = start, limit }(s.start, s.limit)
	s.start, s.limit = row[0].From, row[0].To
	f := s.factAt(row[0].From)
	return f != nil && f.kind == aSize && strings.TrimSpace(s.text[f.To:row[0].To]) == ""
}

// fetchRow says whether a row is for delivery: a cell opens with the word.
func (s *scanner) fetchRow(row []Range) bool {
	return slices.ContainsFunc(row, func(c Range) bool {
		return cues.TruckStart.MatchString(s.low[c.From:c.To]) || fetchCell.MatchString(s.low[c.From:c.To]) || fetchWord.MatchString(s.low[c.From:c.From+wordLength(s.low[c.From:c.To])])
	}) && !s.anyMedium([][]Range{row})
}

var fetchCell = pattern(`(?:pallets?|kerbside|curbside|local|standard|home|tail[ -]?lift) (?:` + deliver + `)\b`)

// amountsLike says whether the cells of two rows hold numbers in the same columns.
func (s *scanner) amountsLike(a, b []Range) bool {
	for j := range min(len(a), len(b)) {
		if strings.Trim(s.text[b[j].From:b[j].To], " \t-–—") == "" {
			continue // not to be had so
		}
		one, _, _ := s.numberColumn([][]Range{a}, j)
		other, _, _ := s.numberColumn([][]Range{b}, j)
		if one != other {
			return false
		}
	}
	return len(a) == len(b)
}

// anyMedium says whether a cell names a medium: without one, rows of two cells go with the line above them.
func (s *scanner) anyMedium(rows [][]Range) bool {
	return slices.ContainsFunc(rows, func(row []Range) bool {
		return slices.ContainsFunc(row, func(c Range) bool { return s.holdsMedium(c.From, c.To) })
	})
}

// spacedCommas says whether a space stands behind a comma or semicolon between cells, as in sentences.
func (s *scanner) spacedCommas(rows [][]Range) bool {
	for _, row := range rows {
		for _, c := range row[1:] {
			if before := s.text[c.From-1]; before == ' ' {
				return true
			}
		}
	}
	return false
}

// decimalCommas says whether a comma between two cells of a row is the mark of an amount of money: "€ 156,00".
func (s *scanner) decimalCommas(rows [][]Range) bool {
	return slices.ContainsFunc(rows, func(row []Range) bool {
		for j, c := range row[1:] {
			before, behind := s.low[row[j].From:row[j].To], s.low[c.From:c.To]
			if c.From-row[j].To == 1 && s.text[row[j].To] == ',' && (cues.SignedEnd.MatchString(before) && cues.TwoDigits.MatchString(behind) || cues.NumberEnd.MatchString(before) && cues.CentsOf.MatchString(behind)) {
				return true
			}
		}
		return false
	})
}

// plainRows says whether every row holds a medium and one column is amounts throughout.
func (s *scanner) plainRows(rows [][]Range) bool {
	for _, row := range rows {
		if !s.anyMedium([][]Range{row}) {
			return false
		}
	}
	for j := range rows[0] {
		if numbers, _, filled := s.numberColumn(rows, j); numbers && filled {
			return true
		}
	}
	return false
}

// numberColumn says whether every filled cell of a column is a number or an amount, and whether one is written as money.
func (s *scanner) numberColumn(rows [][]Range, j int) (numbers, money, filled bool) {
	for _, row := range rows {
		if j >= len(row) {
			continue
		}
		c := strings.TrimSpace(s.text[row[j].From:row[j].To])
		if c == "" {
			continue
		}
		filled = true
		if _, err := units.ParseMoney(c, s.mark); err != nil {
			return false, false, true
		}
		sign, _ := units.CurrencyIn(c)
		money = money || sign != "" || cents(strings.Trim(c, " $€£"))
	}
	return filled, money, filled
}

// unitCell reads a cell such as "per yard" or "50 L bag".
func (r *reading) unitCell(c Range) *fact {
	low := strings.TrimSpace(r.low[c.From:c.To])
	idx := unitInCell.FindStringSubmatchIndex(low)
	if idx == nil {
		return nil
	}
	p, why := r.unit(match{re: unitInCell, low: low, idx: idx}, "u")
	switch {
	case why != "":
		return &fact{kind: anUnclear, why: why}
	case p.Text != "":
		return &fact{kind: aPack, unit: p, text: p.Text, why: "what a pack holds"}
	case p.RealForm() != "":
		return &fact{kind: aForm, unit: p, text: p.Form, why: "a word for how it is packed"}
	}
	return nil
}

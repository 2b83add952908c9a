package received

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/encoding/unicode"
	"golang.org/x/text/transform"

	"mediabuy/quotes"
	"mediabuy/quotes/files"
	"mediabuy/units"
)

// sheet is a CSV that was read: each row by its headings, with its place.
type sheet struct {
	name     string
	heads    []string
	rows     []sheetRow
	problems []*quotes.Problem
	warnings []*quotes.Problem
}

type sheetRow struct {
	line  int
	cols  []int // column of each cell in bytes, from 1
	cells []string
}

// readSheet reads a CSV with the headings named; must are those it may not lack.
// Headings may come in any case and order with spaces, "_" and "-" alike; blank
// rows and lines that begin with "#" are skipped; cells are separated by whichever
// of comma, semicolon and tab the heading line has most of.
//
// Bad rows are problems of the sheet; the error is for what cannot be read at all.
func readSheet(r io.Reader, name string, known, must []string) (*sheet, error) {
	text, err := io.ReadAll(io.LimitReader(transform.NewReader(r, unicode.BOMOverride(transform.Nop)), files.MaxFileBytes+1))
	if err != nil {
		return nil, fmt.Errorf("reading %s: %w", name, err)
	}
	s := &sheet{name: name}
	switch {
	case len(text) > files.MaxFileBytes:
		s.problem(0, 0, "", fmt.Sprintf("the file is longer than %d bytes", files.MaxFileBytes), "a table of deliveries", "")
		return s, nil
	case !utf8.Valid(text):
		s.problem(0, 0, "", "the text is not UTF-8", "a file saved as CSV UTF-8", "choose UTF-8 when you save it from the spreadsheet")
		return s, nil
	}
	cr := csv.NewReader(strings.NewReader(string(text)))
	cr.Comma, cr.Comment, cr.FieldsPerRecord = separator(string(text)), '#', -1
	for {
		rec, err := cr.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		var bad *csv.ParseError
		if errors.As(err, &bad) {
			s.problem(bad.Line, bad.Column, "", bad.Err.Error(), "cells in quote marks closed on the same row", "")
			break
		}
		if err != nil {
			return nil, fmt.Errorf("reading %s: %w", name, err)
		}
		s.record(cr, rec, known, must)
	}
	if s.heads == nil && len(s.problems) == 0 {
		s.problem(0, 0, "", "the file has no heading line", "a first row with the headings "+strings.Join(must, ", "), "")
	}
	return s, nil
}

// separator is the sign that the heading line, the first that is no comment, has most of.
func separator(text string) rune {
	for line := range strings.Lines(text) {
		if t := strings.TrimSpace(line); t == "" || strings.HasPrefix(t, "#") {
			continue
		}
		best := ','
		for _, c := range ";\t" {
			if strings.Count(line, string(c)) > strings.Count(line, string(best)) {
				best = c
			}
		}
		return best
	}
	return ','
}

func headKey(h string) string {
	return strings.Map(func(r rune) rune {
		if r == '_' || r == '-' || r == ' ' {
			return -1
		}
		return r
	}, strings.ToLower(strings.TrimSpace(h)))
}

func (s *sheet) record(cr *csv.Reader, rec []string, known, must []string) {
	if !slices.ContainsFunc(rec, func(c string) bool { return strings.TrimSpace(c) != "" }) {
		return
	}
	row := sheetRow{}
	for i, c := range rec {
		line, col := cr.FieldPos(i)
		row.line = cmpLine(row.line, line)
		row.cols = append(row.cols, col)
		row.cells = append(row.cells, strings.TrimSpace(c))
	}
	if s.heads == nil {
		s.headings(row, known, must)
		return
	}
	if len(rec) != len(s.heads) {
		s.problem(row.line, 0, "", fmt.Sprintf("the row has %d cells and the headings are %d", len(rec), len(s.heads)), "one cell for each heading", "a comma inside a cell needs quote marks around the cell")
		return
	}
	s.rows = append(s.rows, row)
}

func cmpLine(have, line int) int {
	if have == 0 {
		return line
	}
	return have
}

// headMissing is what is found where a heading is not.
const headMissing = "the heading is missing"

// alsoCalled are headings that people write in place of those of a file of arrivals.
var alsoCalled = map[string][]string{
	"quote": {"item", "goods", "what", "product"}, "packs": {"qty", "quantity", "qtyreceived", "received", "came", "number", "howmany", "bags"},
	"volume": {"measured"}, "rejected": {"refused", "damaged", "broken", "sentback"}, "date": {"day", "on", "received on"}, "note": {"notes", "comment", "comments", "remarks"},
	BilledHead: {"price", "billedprice", "unitprice"}, OrderHead: {"orderno", "ordernumber", "po"},
}

func (s *sheet) headings(row sheetRow, known, must []string) {
	s.heads = make([]string, len(row.cells))
	for i, c := range row.cells {
		at := slices.IndexFunc(known, func(k string) bool { return headKey(k) == headKey(c) })
		if at < 0 { // where the column's own name stands nowhere, and no other is called so
			at = slices.IndexFunc(known, func(k string) bool {
				return slices.Contains(alsoCalled[k], headKey(c)) && !slices.Contains(s.heads, k) && !slices.ContainsFunc(row.cells, func(o string) bool { return headKey(o) == headKey(k) })
			})
		}
		switch {
		case at < 0:
			if c != "" {
				s.warnings = append(s.warnings, &quotes.Problem{Pos: quotes.Pos{File: s.name, Line: row.line, Col: row.cols[i]}, Severity: quotes.Warning,
					Found: fmt.Sprintf("%q is no heading here, so the column is not read", c), Hint: "the headings are " + strings.Join(known, ", ")})
			}
		case slices.Contains(s.heads, known[at]):
			s.problem(row.line, row.cols[i], known[at], "the heading stands there twice", "each heading once", "")
		default:
			s.heads[i] = known[at]
		}
	}
	for _, m := range must {
		if !slices.Contains(s.heads, m) {
			s.problem(row.line, 0, m, headMissing, "the headings "+strings.Join(must, ", "), "")
		}
	}
}

func (s *sheet) problem(line, col int, heading, found, wanted, hint string) {
	s.problems = append(s.problems, &quotes.Problem{Pos: quotes.Pos{File: s.name, Line: line, Col: col}, Severity: quotes.Error,
		Heading: heading, Found: found, Wanted: wanted, Hint: hint})
}

// at is a cell of a row; "" if there is no such column.
func (s *sheet) at(r sheetRow, head string) string {
	if i := slices.Index(s.heads, head); i >= 0 {
		return r.cells[i]
	}
	return ""
}

// bad is a problem with one cell of a row.
func (s *sheet) bad(r sheetRow, head, found, wanted, hint string) {
	s.problem(r.line, s.col(r, head), head, found, wanted, hint)
}

// col is where a cell of a row stands; 0 if there is no such column.
func (s *sheet) col(r sheetRow, head string) int {
	if i := slices.Index(s.heads, head); i >= 0 {
		return r.cols[i]
	}
	return 0
}

// badErr is a problem with one cell in the words of the parser that refused it.
func (s *sheet) badErr(r sheetRow, head string, err error) {
	var amb *units.AmbiguousError
	var pe *units.ParseError
	switch {
	case errors.As(err, &amb):
		s.bad(r, head, strings.TrimSuffix(amb.Error(), ", want "+amb.Parse.Wanted), amb.Parse.Wanted, fmt.Sprintf("write %s or %s", amb.Readings[0], amb.Readings[1]))
	case errors.As(err, &pe):
		s.bad(r, head, strings.TrimSuffix(pe.Error(), ", want "+pe.Wanted), pe.Wanted, pe.Hint)
	default:
		s.bad(r, head, err.Error(), "", "")
	}
}

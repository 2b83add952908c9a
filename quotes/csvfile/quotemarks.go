package csvfile

import (
	"slices"
	"strings"
	"unicode"
)

// QuoteFault is quote marks that make the cells of a file uncertain, with the
// lines they spoil, both ends included.
type QuoteFault struct {
	Fault
	From, To int
}

// Spoiled reports whether any of the lines from to to is spoiled.
func Spoiled(faults []QuoteFault, from, to int) bool {
	return slices.ContainsFunc(faults, func(f QuoteFault) bool { return f.From <= to && from <= f.To })
}

// QuoteFaults finds the quote marks that make the cells of a file uncertain: a
// quoted cell never closed, or closed and followed by more text. A quote mark
// inside an unquoted cell, as in 12", is fine.
func (g *Grid) QuoteFaults() []QuoteFault {
	var bad []QuoteFault
	s := quoteScan{g: g, line: 1}
	for s.at < len(g.Text) {
		if s.atLineStart() && g.Text[s.at] == '#' {
			s.skipLine()
			continue
		}
		from := s.line
		if found, wanted, hint, p := s.cell(); found != "" {
			bad = append(bad, QuoteFault{Fault{p, found, wanted, hint}, from, s.line})
		}
	}
	return bad
}

// quoteScan walks over a file cell by cell as csv.Reader does.
type quoteScan struct {
	g    *Grid
	at   int
	line int  // of at, from 1
	from int  // where that line starts
	prev byte // the sign before at; 0 at the start
}

func (s *quoteScan) spot() Spot { return Spot{Line: s.line, Col: s.at - s.from + 1} }

func (s *quoteScan) atLineStart() bool { return s.prev == 0 || s.prev == '\n' }

func (s *quoteScan) step() {
	s.prev = s.g.Text[s.at]
	s.at++
	if s.prev == '\n' {
		s.line++
		s.from = s.at
	}
}

func (s *quoteScan) skipLine() {
	for s.at < len(s.g.Text) {
		s.step()
		if s.prev == '\n' {
			return
		}
	}
}

// cell walks over one cell and the separator after it.
func (s *quoteScan) cell() (found, wanted, hint string, p Spot) {
	text := s.g.Text
	if s.g.Comma != '\t' {
		rest := text[s.at:]
		if i := strings.IndexFunc(rest, func(r rune) bool { return !unicode.IsSpace(r) || r == '\n' }); i > 0 {
			s.at += i
			s.prev = text[s.at-1]
		}
	}
	if s.at >= len(text) || text[s.at] != '"' {
		for s.at < len(text) {
			s.step()
			if s.prev == '\n' || s.prev == byte(s.g.Comma) {
				return
			}
		}
		return
	}
	open := s.spot()
	s.step()
	for s.at < len(text) {
		if text[s.at] != '"' {
			s.step()
			continue
		}
		rest := text[s.at+1:]
		switch {
		case strings.HasPrefix(rest, `"`):
			s.step()
		case rest == "", rest[0] == byte(s.g.Comma), rest[0] == '\n', strings.HasPrefix(rest, "\r\n"), rest == "\r":
			s.step()
			// The line a cell ends on is the one its closing mark stands on, so stop before the line end.
			if s.at < len(text) && text[s.at] == byte(s.g.Comma) {
				s.step()
			}
			return
		case found == "":
			p = s.spot()
			found, wanted = "a quoted cell goes on after its closing quote mark", "a separator or the end of the line there"
			hint = `a quote mark inside a quoted cell is written twice: "4'6"""`
		}
		s.step()
	}
	if found == "" {
		found, wanted, p = "a quoted cell is never closed", `a closing " at its end`, open
		hint = "every row from here on is swallowed by the cell; add the quote mark, or take out the one that opens it"
	}
	return
}

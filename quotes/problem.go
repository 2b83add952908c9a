package quotes

import (
	"fmt"
	"slices"
	"strings"
)

// Pos is where a cell or row was read. Line and Col count from 1; Col counts
// bytes of the line as text/csv sees it. A problem or warning always has all
// three; one about a whole file stands at its beginning. The Pos of a row, such as
// that of a [Quote], has Col 0.
type Pos struct {
	File string
	Line int
	Col  int
}

// String is the form editors can jump to: file:line:column.
func (p Pos) String() string {
	switch {
	case p.File == "":
		return "built-in table"
	case p.Line == 0:
		return p.File
	case p.Col == 0:
		return fmt.Sprintf("%s:%d", p.File, p.Line)
	}
	return fmt.Sprintf("%s:%d:%d", p.File, p.Line, p.Col)
}

// Severity tells a problem from a warning. The zero Severity is invalid.
type Severity int

// Severities.
const (
	Error   Severity = iota + 1 // no answer may be given
	Warning                     // the answer stands, but read this
)

// Problem is one thing wrong with the files, with its cure. [Read] leaves none of
// its texts empty, but for the Heading and a warning's Wanted.
type Problem struct {
	Pos
	Severity Severity
	Heading  string // the column's heading, or the setting's name; "" for a line or file
	Found    string // what stands there
	Wanted   string // what should stand there
	Hint     string // how to mend it
}

// Error is one line: place, heading, what was found, what was wanted.
func (p *Problem) Error() string {
	var b strings.Builder
	b.WriteString(p.Pos.String())
	if p.Heading != "" {
		b.WriteString(": ")
		b.WriteString(p.Heading)
	}
	b.WriteString(": ")
	b.WriteString(p.Message())
	return b.String()
}

// Message is the problem without its place and heading.
func (p *Problem) Message() string {
	if p.Wanted == "" {
		return p.Found
	}
	return p.Found + ", want " + p.Wanted
}

// Report is what [Read] found besides the job, in the order of the files.
type Report struct {
	Problems []*Problem // errors
	Warnings []*Problem
}

// OK reports whether the job may be solved.
func (r *Report) OK() bool { return len(r.Problems) == 0 }

// Err is nil when the report is OK, else an error that lists every problem.
func (r *Report) Err() error {
	if r.OK() {
		return nil
	}
	return ProblemsError(r.Problems)
}

// ProblemsError is the list of a job's problems as one error.
type ProblemsError []*Problem

func (e ProblemsError) Error() string {
	lines := make([]string, len(e))
	for i, p := range e {
		lines[i] = p.Error()
		if p.Hint != "" {
			lines[i] += "\nhint: " + p.Hint
		}
	}
	return strings.Join(lines, "\n")
}

// Beginning is the place of a problem with a file as a whole.
func Beginning(file string) Pos { return Pos{File: file, Line: 1, Col: 1} }

func (r *Report) Add(p *Problem) {
	if p.Severity == Warning {
		r.Warnings = append(r.Warnings, p)
		return
	}
	r.Problems = append(r.Problems, p)
}

// Sort puts problems in file order (as given), then by line and column, so that
// the same files always give the same text.
func (r *Report) Sort(files []string) {
	cmp := func(a, b *Problem) int {
		if c := slices.Index(files, a.File) - slices.Index(files, b.File); c != 0 {
			return c
		}
		if a.Line != b.Line {
			return a.Line - b.Line
		}
		return a.Col - b.Col
	}
	slices.SortStableFunc(r.Problems, cmp)
	slices.SortStableFunc(r.Warnings, cmp)
}

package files

import (
	"fmt"
	"io"

	"mediabuy/quotes"
	"mediabuy/quotes/csvfile"
)

// MaxFileBytes is the largest file read. A quote sheet of a thousand rows is
// about a hundredth of it.
const MaxFileBytes = 16 << 20

// Source is one file of a job: its name, for messages, and its content. A nil
// R means that the file is not there.
type Source struct {
	Name string
	R    io.Reader
}

// decode reads a whole file into text; see [csvfile.Decode]. A guess at its
// encoding is said in a warning. ok is false when the file is no text; the problem
// is then reported. The error is for a reader that fails.
func (x *reader) decode(src Source) (text string, ok bool, err error) {
	raw, err := io.ReadAll(io.LimitReader(src.R, MaxFileBytes+1))
	if err != nil {
		return "", false, fmt.Errorf("reading %s: %w", src.Name, err)
	}
	if len(raw) > MaxFileBytes {
		x.problem(quotes.Beginning(src.Name), "", fmt.Sprintf("the file is larger than %d MiB", MaxFileBytes>>20),
			"one job's sheet", "split the job, or take out what is not a quote")
		return "", false, nil
	}
	t, fault := csvfile.Decode(raw)
	if fault != nil {
		x.fault(src.Name, fault)
		return "", false, nil
	}
	if t.Guess != nil {
		x.warning(at(src.Name, *t.Guess), "", fmt.Sprintf("the byte 0x%02X is not UTF-8; the file is read as Windows-1252", t.Odd), "",
			"check names and signs such as é, £ and ³, or save the file as UTF-8")
	}
	return t.String, true, nil
}

// fault reports what the CSV layer could not read.
func (x *reader) fault(file string, f *csvfile.Fault) {
	x.problem(at(file, f.Spot), "", f.Found, f.Wanted, f.Hint)
}

func at(file string, s csvfile.Spot) quotes.Pos {
	return quotes.Pos{File: file, Line: s.Line, Col: s.Col}
}

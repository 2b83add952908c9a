package units

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

// Limits on what is read from a cell.
const (
	// MaxTextBytes is the longest text a parser looks at; the longest honest cell is a list of price breaks.
	MaxTextBytes = 200
	// MaxMagnitude is the largest number read, as written and in base units. A cubic kilometre is 1e12 litres.
	MaxMagnitude = 1e12
)

// ParseError says what was found in a text and what was wanted in its place.
type ParseError struct {
	Found  string // the text, as given
	What   string // what it should have been: "a volume", "an amount"
	Wanted string // what would have been accepted: "a number and a unit, such as 50 L"
	Hint   string // how to mend this very text; may be empty
}

// Error gives found and wanted, without the hint: `"12.5O" is not an amount, want digits such as 12.50`.
func (e *ParseError) Error() string {
	return fmt.Sprintf("%s is not %s, want %s", quoted(e.Found), e.What, e.Wanted)
}

// AmbiguousError is the error for a number that can be read two ways, such as 1,234. It unwraps to a *ParseError with the
// same text and hint, so a caller that does not care needs only that type.
type AmbiguousError struct {
	Parse    ParseError
	Readings [2]string // the two readings in plain form: "1234" and "1.234"
	Copies   [2]string // the whole text written so that it reads one way, for each of the readings: "1234 L" and "1.2340 L"
}

// Error gives both readings: `"1,234 L" can be read as 1234 or 1.234, want a number that reads one way`.
func (e *AmbiguousError) Error() string {
	return fmt.Sprintf("%s can be read as %s or %s, want %s", quoted(e.Parse.Found), e.Readings[0], e.Readings[1], e.Parse.Wanted)
}

// Unwrap gives the ParseError within.
func (e *AmbiguousError) Unwrap() error { return &e.Parse }

// quoted quotes a text for a message, cut to a length that leaves the message readable.
func quoted(s string) string {
	const most = 60 // bytes
	if len(s) <= most {
		return fmt.Sprintf("%q", s)
	}
	cut := most
	for cut > most-utf8.UTFMax && !utf8.RuneStart(s[cut]) {
		cut--
	}
	return fmt.Sprintf("%q", s[:cut]+"…")
}

// kind is what a parser looks for, in words.
type kind struct{ what, wanted string }

var (
	aNumber    = kind{"a number", "digits such as 12.50"}
	anAmount   = kind{"an amount", "digits such as 12.50"}
	aPercent   = kind{"a percentage", "a number from 0 to 1000 and a percent sign, such as 8%"}
	aShare     = kind{"a share", "a number from 0 to 1 such as 0.67, or a percentage such as 67%"}
	aLength    = kind{"a length", "a number and a unit, such as 12 in, 4 ft 6 in or 300 mm"}
	aVolume    = kind{"a volume", "a number and a unit, such as 50 L, 2 cu ft or 1 yd3"}
	aMass      = kind{"a weight", "a number and a unit, such as 25 kg, 40 lb or 1 ton"}
	aContent   = kind{"a volume or a weight", "a number and a unit, such as 50 L, 1 yd3 or 25 kg"}
	aDensity   = kind{"a density", "a weight per volume above 0, such as 45 lb/ft3 or 0.72 kg/L"}
	aPerVolume = kind{"a price by volume", "an amount per volume, such as 12 / yd3 or 0.02 / L"}
)

func (k kind) err(found, hint string) *ParseError {
	return &ParseError{Found: found, What: k.what, Wanted: k.wanted, Hint: hint}
}

func tooLong(found string, k kind) *ParseError {
	return k.err(found, fmt.Sprintf("the text is %d bytes long; %d are enough for any quantity", len(found), MaxTextBytes))
}

// checkText refuses text that no parser should look at.
func (k kind) checkText(text string) *ParseError {
	switch {
	case len(text) > MaxTextBytes:
		return tooLong(text, k)
	case !utf8.ValidString(text):
		return k.err(text, "the text is not UTF-8; save the file as UTF-8")
	case strings.TrimSpace(text) == "":
		return k.err(text, "the text is empty")
	}
	return nil
}

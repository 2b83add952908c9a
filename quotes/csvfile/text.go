package csvfile

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/encoding"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
)

// Spot is a place in a text. Line and Col count from 1, Col in bytes.
type Spot struct{ Line, Col int }

// Fault is why bytes, or some rows of a text, cannot be read: what was found
// where, what was wanted, and how to mend it.
type Fault struct {
	Spot
	Found, Wanted, Hint string
}

func (f *Fault) Error() string { return f.Found + ", want " + f.Wanted + "; " + f.Hint }

// form is how a file writes its text. The zero form is UTF-8 without a mark.
type form struct {
	name string
	mark []byte            // in front of the text
	enc  encoding.Encoding // nil: UTF-8
}

// Marks that open a file saved by a spreadsheet or a text editor.
var (
	utf8Mark = []byte{0xEF, 0xBB, 0xBF}
	utf16LE  = []byte{0xFF, 0xFE}
	utf16BE  = []byte{0xFE, 0xFF}
	zipMark  = []byte("PK\x03\x04") // also how a spreadsheet's own format begins
	oleMark  = []byte{0xD0, 0xCF, 0x11, 0xE0}
)

// Text is the content of a file with how it was written.
type Text struct {
	String string
	// Guess is where the first byte stands that is not UTF-8, when Windows-1252
	// was taken for want of anything better; nil else. Odd is that byte.
	Guess *Spot
	Odd   byte

	form form
}

// Decode reads a file as text: UTF-8 with or without a mark, UTF-16 with a mark,
// else Windows-1252. The fault is for bytes that are no text.
func Decode(raw []byte) (Text, *Fault) {
	if bytes.HasPrefix(raw, zipMark) || bytes.HasPrefix(raw, oleMark) {
		return Text{}, &Fault{Spot{1, 1}, "the file is a spreadsheet or an archive", "a text file",
			"open it in the spreadsheet and save the sheet as CSV (comma separated)"}
	}
	var t Text
	switch {
	case bytes.HasPrefix(raw, utf16LE):
		t.form = form{"UTF-16", utf16LE, unicode.UTF16(unicode.LittleEndian, unicode.IgnoreBOM)}
	case bytes.HasPrefix(raw, utf16BE):
		t.form = form{"UTF-16", utf16BE, unicode.UTF16(unicode.BigEndian, unicode.IgnoreBOM)}
	case utf8.Valid(raw):
		t.form.name = "UTF-8"
		if bytes.HasPrefix(raw, utf8Mark) {
			t.form.mark = utf8Mark
		}
	default:
		if at := slices.IndexFunc(raw, func(b byte) bool { return slices.Contains(no1252, b) }); at >= 0 {
			return Text{}, noEncoding(spotAt(string(raw), at), raw[at])
		}
		t.form = form{"Windows-1252", nil, charmap.Windows1252}
		at := firstInvalid(raw)
		spot := spotAt(string(raw), at)
		t.Guess, t.Odd = &spot, raw[at]
	}
	t.String = string(raw[len(t.form.mark):])
	if t.form.enc != nil {
		out, err := t.form.enc.NewDecoder().String(t.String)
		switch {
		case t.Guess == nil && (err != nil || strings.ContainsRune(out, utf8.RuneError)):
			return Text{}, &Fault{Spot{1, 1}, "the file begins as UTF-16 but some of it cannot be read so", "whole UTF-16 or UTF-8 text", "save it again as UTF-8"}
		case err != nil:
			return Text{}, noEncoding(*t.Guess, t.Odd)
		}
		t.String = out
	}
	if at := strings.IndexFunc(t.String, notText); at >= 0 {
		hint := "save the sheet as CSV, in UTF-8"
		if bytes.IndexByte(raw, 0) >= 0 {
			hint += "; it may be UTF-16 without a mark, or no text at all"
		}
		r, _ := utf8.DecodeRuneInString(t.String[at:])
		if r > 0x7F {
			return Text{}, &Fault{spotAt(t.String, at), fmt.Sprintf("the sign U+%04X cannot be seen and steers how text is shown", r), "text without such signs", "type the cell anew without it"}
		}
		return Text{}, &Fault{spotAt(t.String, at), fmt.Sprintf("the file holds the control sign U+%04X and is not text", r), "a text file", hint}
	}
	return t, nil
}

// no1252 are the bytes that stand for no sign in Windows-1252 (its table at the
// Unicode Consortium, cp1252.txt, from memory).
var no1252 = []byte{0x81, 0x8D, 0x8F, 0x90, 0x9D}

func noEncoding(at Spot, b byte) *Fault {
	return &Fault{at, fmt.Sprintf("the byte 0x%02X is in no encoding known here", b), "UTF-8 text", "save the file as UTF-8"}
}

// encode writes text the way the file was. The error is for a sign that its
// encoding does not have.
func (f form) encode(text string) ([]byte, error) {
	if f.enc == nil {
		return append(bytes.Clone(f.mark), text...), nil
	}
	out, err := f.enc.NewEncoder().String(text)
	if err != nil {
		return nil, fmt.Errorf("the file is %s, which lacks a sign that is to be written: %w; save the file as UTF-8 first", f.name, err)
	}
	return append(bytes.Clone(f.mark), out...), nil
}

// firstInvalid is the offset of the first byte that is not UTF-8.
func firstInvalid(raw []byte) int {
	at := 0
	for at < len(raw) {
		r, n := utf8.DecodeRune(raw[at:])
		if r == utf8.RuneError && n == 1 {
			return at
		}
		at += n
	}
	return at
}

// notText finds signs that no text file holds: control signs other than white
// space, and the signs that turn the direction of text, by which a name can steer
// a terminal or show itself as another.
func notText(r rune) bool {
	switch {
	case r < ' ':
		return !strings.ContainsRune("\t\n\v\f\r", r)
	case r >= 0x7F && r <= 0x9F, r >= 0x202A && r <= 0x202E, r >= 0x2066 && r <= 0x2069:
		return true
	}
	return false
}

// spotAt is the place of byte offset at in text.
func spotAt(text string, at int) Spot {
	before := text[:at]
	return Spot{Line: 1 + strings.Count(before, "\n"), Col: at - strings.LastIndexByte(before, '\n')}
}

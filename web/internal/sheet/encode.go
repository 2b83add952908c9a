package sheet

import (
	"bytes"
	"fmt"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/encoding"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
)

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
)

// Decode is the text of a file: UTF-8, UTF-16 with a mark, else Windows-1252, as
// the files of a job are read. The error is for bytes that are no text.
func Decode(raw []byte) (string, error) {
	text, _, err := decode(raw)
	return text, err
}

func decode(raw []byte) (string, form, error) {
	var f form
	switch {
	case bytes.HasPrefix(raw, utf16LE):
		f = form{"UTF-16", utf16LE, unicode.UTF16(unicode.LittleEndian, unicode.IgnoreBOM)}
	case bytes.HasPrefix(raw, utf16BE):
		f = form{"UTF-16", utf16BE, unicode.UTF16(unicode.BigEndian, unicode.IgnoreBOM)}
	case bytes.HasPrefix(raw, utf8Mark):
		f = form{name: "UTF-8", mark: utf8Mark}
	case !utf8.Valid(raw):
		f = form{"Windows-1252", nil, charmap.Windows1252}
	}
	text := string(raw[len(f.mark):])
	if f.enc != nil {
		out, err := f.enc.NewDecoder().String(text)
		if err != nil {
			return "", form{}, fmt.Errorf("reading it as %s: %w", f.name, err)
		}
		if strings.ContainsRune(out, utf8.RuneError) {
			return "", form{}, fmt.Errorf("some of it cannot be read as %s, want whole text; save the file as UTF-8", f.name)
		}
		text = out
	} else if !utf8.ValidString(text) {
		return "", form{}, fmt.Errorf("the file begins as UTF-8 but some of it cannot be read so, want whole UTF-8 text")
	}
	if at := strings.IndexFunc(text, func(r rune) bool { return r < ' ' && !strings.ContainsRune("\t\n\v\f\r", r) || r == 0x7F }); at >= 0 {
		return "", form{}, fmt.Errorf("the file holds the control sign %U and is not text, want a text file; save the sheet as CSV", rune(text[at]))
	}
	return text, f, nil
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

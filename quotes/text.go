package quotes

import (
	"bytes"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/encoding"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
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

// Marks that open a file saved by a spreadsheet or a text editor.
var (
	utf16LE  = []byte{0xFF, 0xFE}
	utf16BE  = []byte{0xFE, 0xFF}
	utf8Mark = []byte{0xEF, 0xBB, 0xBF}
	zipMark  = []byte("PK\x03\x04") // also how a spreadsheet's own format begins
	oleMark  = []byte{0xD0, 0xCF, 0x11, 0xE0}
)

// decode reads a whole file into UTF-8 text: UTF-8 with or without a mark,
// UTF-16 with a mark, else Windows-1252, which is said in a warning. ok is
// false when the file is no text; the problem is then reported. The error is
// for a reader that fails.
func (x *reader) decode(src Source) (text string, ok bool, err error) {
	raw, err := io.ReadAll(io.LimitReader(src.R, MaxFileBytes+1))
	if err != nil {
		return "", false, fmt.Errorf("reading %s: %w", src.Name, err)
	}
	whole := beginning(src.Name)
	if len(raw) > MaxFileBytes {
		x.problem(whole, "", fmt.Sprintf("the file is larger than %d MiB", MaxFileBytes>>20),
			"one job's sheet", "split the job, or take out what is not a quote")
		return "", false, nil
	}
	if bytes.HasPrefix(raw, zipMark) || bytes.HasPrefix(raw, oleMark) {
		x.problem(whole, "", "the file is a spreadsheet or an archive", "a text file",
			"open it in the spreadsheet and save the sheet as CSV (comma separated)")
		return "", false, nil
	}
	text, guess, ok := x.toUTF8(raw, src.Name)
	if !ok {
		return "", false, nil
	}
	if at := strings.IndexFunc(text, notText); at >= 0 {
		hint := "save the sheet as CSV, in UTF-8"
		if bytes.IndexByte(raw, 0) >= 0 {
			hint += "; it may be UTF-16 without a mark, or no text at all"
		}
		r, _ := utf8.DecodeRuneInString(text[at:])
		x.problem(posAt(text, at, src.Name), "", fmt.Sprintf("the file holds the control sign U+%04X and is not text", r), "a text file", hint)
		return "", false, nil
	}
	if guess >= 0 {
		x.warning(posAt(string(raw), guess, src.Name), "", fmt.Sprintf("the byte 0x%02X is not UTF-8; the file is read as Windows-1252", raw[guess]), "",
			"check names and signs such as é, £ and ³, or save the file as UTF-8")
	}
	return text, true, nil
}

// toUTF8 decodes a file. guess is the offset of the first byte that is not
// UTF-8 when Windows-1252 is taken for want of anything better, else -1.
func (x *reader) toUTF8(raw []byte, name string) (text string, guess int, ok bool) {
	switch {
	case bytes.HasPrefix(raw, utf16LE), bytes.HasPrefix(raw, utf16BE):
		text, err := decodeWith(unicode.UTF16(unicode.LittleEndian, unicode.ExpectBOM), raw)
		if err != nil || strings.ContainsRune(text, utf8.RuneError) {
			x.problem(beginning(name), "", "the file begins as UTF-16 but some of it cannot be read so", "whole UTF-16 or UTF-8 text",
				"save it again as UTF-8")
			return "", -1, false
		}
		return text, -1, true
	case utf8.Valid(raw):
		return string(bytes.TrimPrefix(raw, utf8Mark)), -1, true
	}
	at := firstInvalid(raw)
	text, err := decodeWith(charmap.Windows1252, raw)
	if err != nil {
		x.problem(posAt(string(raw), at, name), "", fmt.Sprintf("the byte 0x%02X is in no encoding known here", raw[at]),
			"UTF-8 text", "save the file as UTF-8")
		return "", -1, false
	}
	return text, at, true
}

func decodeWith(e encoding.Encoding, raw []byte) (string, error) {
	out, err := e.NewDecoder().Bytes(raw)
	return string(out), err
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

// notText finds signs that no text file holds: control signs other than white space.
func notText(r rune) bool {
	return r < ' ' && !strings.ContainsRune("\t\n\v\f\r", r) || r == 0x7F
}

// posAt is the place of byte offset at in text.
func posAt(text string, at int, file string) Pos {
	before := text[:at]
	return Pos{
		File: file,
		Line: 1 + strings.Count(before, "\n"),
		Col:  at - strings.LastIndexByte(before, '\n'),
	}
}

// Package safe makes words from outside fit for spreadsheets and file names: a
// supplier's name must not become a formula or a path.
package safe

import (
	"strings"
	"unicode"

	"mediabuy/units"
)

// formulaSigns are the signs that make a spreadsheet read a cell as a formula:
// OWASP, "CSV Injection", https://owasp.org/www-community/attacks/CSV_Injection
// (memory). Tab, carriage return and line feed are on its list because some
// programs drop them and look at what follows; the full-width forms because some
// read them as the plain ones.
const formulaSigns = "=+-@\t\r\n＝＋－＠"

// Cell is text that no spreadsheet takes for a formula: a text whose first sign
// could begin one gets an apostrophe in front, as OWASP advises. Signs that are
// not printed are dropped and line ends become spaces, so that a cell is one line.
// A plain number, such as -3, and a dash by itself stay: they are no formula.
func Cell(text string) string {
	if text == "" {
		return ""
	}
	if _, err := units.ParsePlainDecimal(text); err == nil {
		return text
	}
	flat := Line(text)
	if flat == "-" {
		return flat
	}
	if strings.ContainsAny(text[:1], formulaSigns) || startsWithSign(text) || startsWithSign(flat) {
		return "'" + flat
	}
	return flat
}

func startsWithSign(text string) bool {
	for _, r := range strings.TrimLeft(text, " \u00a0") {
		return strings.ContainsRune(formulaSigns, r)
	}
	return false
}

// Row is every cell of a row made safe.
func Row(cells ...string) []string {
	out := make([]string, len(cells))
	for i, c := range cells {
		out[i] = Cell(c)
	}
	return out
}

// Line is text on one line without signs that are not printed.
func Line(text string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\t' || r == '\n' || r == '\r' || r == '\u2028' || r == '\u2029':
			return ' '
		case unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r):
			return -1
		}
		return r
	}, text)
}

// maxName is how long the name of a file made from words may be, in bytes; file
// systems take 255, and endings are still to come.
const maxName = 80

// FileName is a name for a file made from words: letters and digits stay, in
// small letters, and everything else becomes a single hyphen, so that no word can
// leave its folder, hide the file or mean something to a shell. Words without any
// letter or digit give "unnamed".
//
// Two names may come out alike; [FileNames] tells them apart.
func FileName(words ...string) string {
	var parts []string
	for _, w := range words {
		if p := slug(w); p != "" {
			parts = append(parts, p)
		}
	}
	if len(parts) == 0 {
		return "unnamed"
	}
	return cut(strings.Join(parts, "-"))
}

func slug(w string) string {
	var b strings.Builder
	gap := false
	for _, r := range strings.ToLower(w) {
		if unicode.IsLetter(r) || unicode.IsDigit(r) || unicode.IsMark(r) && b.Len() > 0 {
			if gap && b.Len() > 0 {
				b.WriteByte('-')
			}
			b.WriteRune(r)
			gap = false
			continue
		}
		gap = true
	}
	return b.String()
}

func cut(name string) string {
	if len(name) <= maxName {
		return reserved(name)
	}
	end := 0
	for i := range name {
		if i > maxName {
			break
		}
		end = i
	}
	return reserved(strings.TrimRight(name[:end], "-"))
}

// reserved keeps clear of names that are devices on Windows ("Naming Files",
// Microsoft Learn; memory).
func reserved(name string) string {
	switch name {
	case "con", "prn", "aux", "nul":
		return name + "-"
	}
	if len(name) == 4 && (strings.HasPrefix(name, "com") || strings.HasPrefix(name, "lpt")) && name[3] >= '0' && name[3] <= '9' {
		return name + "-"
	}
	return name
}

// FileNames gives each entry (a list of words) a name as [FileName] does; where
// two would be alike, the later ones get a number.
func FileNames(entries [][]string) []string {
	used := map[string]bool{}
	out := make([]string, len(entries))
	for i, words := range entries {
		base := FileName(words...)
		name := base
		for n := 2; used[name]; n++ {
			name = base + "-" + units.DecimalFromInt(int64(n)).String()
		}
		used[name] = true
		out[i] = name
	}
	return out
}

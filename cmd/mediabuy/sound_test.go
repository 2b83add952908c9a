package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/stretchr/testify/assert"
	"github.com/xuri/excelize/v2"
)

// trusted are the ends of the hosts that a paper may name: standards bodies, public
// authorities, universities and journals. Each stands here because a source of the
// program is there.
var trusted = []string{".gov", ".edu", ".edu.mx", ".ulpgc.es", ".trb.org", ".kjssf.org", ".w3.org"}

var (
	addressPattern   = regexp.MustCompile(`(?i)(?:https?://|ftp://|\bwww\.)[^\s"'<>()|]+`)
	filePlacePattern = regexp.MustCompile(`[\w-]+\.(?:csv|toml):\d+`)
)

// unsound is what no paper may hold: an address of anybody else, a place in one of
// the job's files, a sign that is not printed.
func unsound(text string) []string {
	var out []string
	for _, address := range addressPattern.FindAllString(text, -1) {
		host := strings.ToLower(address)
		if _, rest, ok := strings.Cut(host, "://"); ok {
			host = rest
		}
		host, _, _ = strings.Cut(host, "/")
		host, _, _ = strings.Cut(strings.TrimRight(host, ".,;:"), ":")
		if !slices.ContainsFunc(trusted, func(end string) bool { return strings.HasSuffix("."+host, end) }) {
			out = append(out, "an address that is not trusted: "+address)
		}
	}
	for _, place := range filePlacePattern.FindAllString(text, -1) {
		out = append(out, "a place in a file: "+place)
	}
	for _, r := range text {
		if unicode.IsControl(r) && !strings.ContainsRune("\n\r\t\f", r) || unicode.Is(unicode.Bidi_Control, r) {
			out = append(out, fmt.Sprintf("a sign that is not printed: %U", r))
		}
	}
	return out
}

// textOfPaper is what a reader of a paper sees, whatever its form.
func textOfPaper(ts *testscript.TestScript, name string) string {
	path := ts.MkAbs(name)
	switch strings.ToLower(filepath.Ext(name)) {
	case ".pdf":
		tool, err := exec.LookPath("pdftotext")
		if err != nil && os.Getenv("CI") != "true" {
			ts.Logf("%s is not read: pdftotext is not installed", name)
			return ""
		}
		ts.Check(err)
		text, err := exec.Command(tool, path, "-").Output()
		ts.Check(err)
		// pdftotext itself puts embeddings around what is drawn from the right.
		return strings.NewReplacer("\u202a", "", "\u202b", "", "\u202c", "").Replace(string(text))
	case ".xlsx":
		f, err := excelize.OpenFile(path)
		ts.Check(err)
		defer func() { ts.Check(f.Close()) }()
		var b strings.Builder
		for _, sheet := range f.GetSheetList() {
			rows, err := f.GetRows(sheet)
			ts.Check(err)
			for _, row := range rows {
				b.WriteString(strings.Join(row, "\t") + "\n")
			}
		}
		return b.String()
	}
	return ts.ReadFile(name)
}

// sound wants papers without anything that no paper may hold: "sound report.pdf
// order.csv".
func sound(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) == 0 {
		ts.Fatalf("usage: sound FILE...")
	}
	for _, pattern := range args {
		names, err := filepath.Glob(ts.MkAbs(pattern))
		ts.Check(err)
		if len(names) == 0 {
			ts.Fatalf("there is no %s", pattern)
		}
		for _, name := range names {
			for _, bad := range unsound(textOfPaper(ts, name)) {
				ts.Fatalf("%s holds %s", name, bad)
			}
		}
	}
}

// strange are the units of the other habit. Sieves are left out: their standard names
// them both ways.
var strange = map[string]*regexp.Regexp{
	"us":     regexp.MustCompile(`\d ?(?:L|m³|m3|kg|kg/L|kg/m³|litres?|tonnes?)(?:[^\w/]|$)`),
	"metric": regexp.MustCompile(`\d ?(?:yd³|yd3|ft³|ft3|cu ft|lb|lb/ft³|short tons?|gallons?)(?:[^\w/]|$)`),
}

// habit wants papers without units of the other habit: "habit us report.pdf".
func habit(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 || strange[args[0]] == nil {
		ts.Fatalf("usage: habit us|metric FILE...")
	}
	for _, pattern := range args[1:] {
		names, err := filepath.Glob(ts.MkAbs(pattern))
		ts.Check(err)
		if len(names) == 0 {
			ts.Fatalf("there is no %s", pattern)
		}
		for _, name := range names {
			text := textOfPaper(ts, name)
			if at := strange[args[0]].FindStringIndex(text); at != nil {
				ts.Fatalf("%s holds a unit of the other habit: ...%s...", name, text[max(0, at[0]-60):min(len(text), at[1]+20)])
			}
		}
	}
}

// sheet wants PDFs on sheets of a size: "sheet letter report.pdf".
func sheet(ts *testscript.TestScript, neg bool, args []string) {
	size := map[string]string{"a4": "/MediaBox [0 0 595.28 841.89]", "letter": "/MediaBox [0 0 612.00 792.00]"}
	if neg || len(args) < 2 || size[args[0]] == "" {
		ts.Fatalf("usage: sheet a4|letter FILE...")
	}
	for _, name := range args[1:] {
		if !strings.Contains(ts.ReadFile(name), size[args[0]]) {
			ts.Fatalf("%s is not on %s", name, args[0])
		}
	}
}

func TestUnsound(t *testing.T) {
	for text, want := range map[string]int{
		"read at https://www.osha.gov/laws-regs (read), https://samothrace.emory.edu/x": 0,
		"https://shop.example/clay":        1,
		"see www.cards.example.":           1,
		"http://osha.gov.evil.example/":    1,
		"https://evilgov/":                 1,
		"quotes.csv:12 and the job.toml:3": 2,
		"a\x07b":                           1,
		"a\u202eb":                         1,
		"lines\nand\ttabs\r\n are fine, and quotes.csv by name": 0,
	} {
		assert.Len(t, unsound(text), want, text)
	}
}

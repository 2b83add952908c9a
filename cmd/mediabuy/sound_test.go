package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"
	"unicode"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/spf13/pflag"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"mediabuy/cmd/mediabuy/internal/beside"
	"mediabuy/optimise"
	"mediabuy/papers"
	"mediabuy/papers/page"
	"mediabuy/quotes"
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
	text, err := wordsOf(ts.MkAbs(name))
	if errors.Is(err, errNotRead) {
		ts.Logf("%s: %v", name, err)
		return ""
	}
	ts.Check(err)
	return text
}

// errNotRead says that what reads a paper is not there, which under CI is an error like others.
var errNotRead = errors.New("it is not read: pdftotext is not installed")

func wordsOf(path string) (string, error) {
	switch strings.ToLower(filepath.Ext(path)) {
	case ".pdf":
		tool, err := exec.LookPath("pdftotext")
		if err != nil && os.Getenv("CI") != "true" {
			return "", errNotRead
		}
		if err != nil {
			return "", err
		}
		text, err := exec.Command(tool, path, "-").Output()
		if err != nil {
			return "", err
		}
		// pdftotext itself puts embeddings around what is drawn from the right.
		return strings.NewReplacer("\u202a", "", "\u202b", "", "\u202c", "").Replace(string(text)), nil
	case ".xlsx":
		f, err := excelize.OpenFile(path)
		if err != nil {
			return "", err
		}
		var b strings.Builder
		for _, sheet := range f.GetSheetList() {
			rows, err := f.GetRows(sheet)
			if err != nil {
				return "", errors.Join(err, f.Close())
			}
			for _, row := range rows {
				b.WriteString(strings.Join(row, "\t") + "\n")
			}
		}
		return b.String(), f.Close()
	}
	text, err := os.ReadFile(path)
	return string(text), err
}

// worked is the report on the sample, worked out once, as it takes its time.
var worked struct {
	sync.Mutex
	page *page.Page
}

// sampleReport is the report that justify writes on the sample.
func sampleReport(t *testing.T) *page.Page {
	t.Helper()
	worked.Lock()
	defer worked.Unlock()
	if worked.page != nil {
		return worked.page
	}
	a := &app{stdin: strings.NewReader(""), stdout: io.Discard, stderr: io.Discard, now: time.Now}
	o := &justifyOptions{}
	o.addFlags(pflag.NewFlagSet("justify", pflag.ContinueOnError))
	chosen, in, err := a.planFor(t.Context(), sampleJob(t), o.files, o.paper.answer, o.limit, o.tidy, func(*quotes.Settings) error { return nil })
	require.NoError(t, err)
	st, err := o.paper.style(&in.job.Settings)
	require.NoError(t, err)
	report, err := beside.Report(t.Context(), chosen, in.job, in.rep.Warnings, st, optimise.Options{}, long)
	require.NoError(t, err)
	worked.page, err = papers.Justify(*report, st)
	require.NoError(t, err)
	return worked.page
}

// The sample's report holds nothing that no paper may hold, in any form but the one that
// a script looks at.
func TestReportOnTheSampleIsSound(t *testing.T) {
	pg := sampleReport(t)
	dir := t.TempDir()
	for _, name := range []string{"report.html", "report.pdf", "report.xlsx"} {
		write, err := formOf(name)
		require.NoError(t, err)
		made, err := paperOf(name, func(w io.Writer) error { return write(pg, w) })
		require.NoError(t, err)
		path := filepath.Join(dir, name)
		require.NoError(t, os.WriteFile(path, made.data, filePerm))
		text, err := wordsOf(path)
		if errors.Is(err, errNotRead) {
			t.Logf("%s: %v", name, err)
			continue
		}
		require.NoError(t, err)
		assert.Contains(t, text, "Low Ford Quarry", name)
		assert.Empty(t, unsound(text), name)
	}
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

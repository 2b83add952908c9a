package files

import (
	"bytes"
	"encoding/hex"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"mediabuy/quotes"

	"github.com/rogpeppe/go-internal/txtar"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// badFolder holds one archive for each case: a comment that says what it is
// about, the files of a job, and want, the whole report. A file that is left out
// is taken from goodFile; one listed under absent is not there at all; one whose
// name ends in .hex is given in hexadecimal. UPDATE=1 rewrites want for review.
const badFolder = "../../testdata/bad"

// goodFile is the job that the cases spoil.
const goodFile = "good.txtar"

// testDay is the clock of all tests.
var testDay = time.Date(2026, 4, 1, 9, 30, 0, 0, time.UTC)

func TestBadInputs(t *testing.T) {
	good := archive(t, filepath.Join(badFolder, goodFile))
	cases, err := filepath.Glob(filepath.Join(badFolder, "*.txtar"))
	require.NoError(t, err)
	require.Greater(t, len(cases), 45)
	for _, name := range cases {
		t.Run(strings.TrimSuffix(filepath.Base(name), ".txtar"), func(t *testing.T) {
			a := archive(t, name)
			job, rep, err := Read(caseFiles(t, good, a), Options{Today: testDay})
			require.NoError(t, err)
			assert.Equal(t, rep.OK(), job != nil, "a job comes with a report without problems, and only then")
			got := reportText(rep)
			if os.Getenv("UPDATE") == "1" {
				writeWant(t, name, a, got)
				return
			}
			assert.Equal(t, string(part(a, "want")), got)
			requireWhole(t, rep)
		})
	}
}

// requireWhole checks that every problem and warning has a place, says what was found
// and how to mend it, and that a problem also says what was wanted.
func requireWhole(t require.TestingT, rep *quotes.Report) {
	for _, p := range slices.Concat(rep.Problems, rep.Warnings) {
		require.NotEmpty(t, p.File, p.Error())
		require.Positive(t, p.Line, p.Error())
		require.Positive(t, p.Col, p.Error())
		require.NotEmpty(t, p.Found, p.Error())
		require.NotEmpty(t, p.Hint, p.Error())
	}
	for _, p := range rep.Problems {
		require.Equal(t, quotes.Error, p.Severity, p.Error())
		require.NotEmpty(t, p.Wanted, p.Error())
	}
	for _, p := range rep.Warnings {
		require.Equal(t, quotes.Warning, p.Severity, p.Error())
	}
}

// reportText is a report as the cases hold it.
func reportText(r *quotes.Report) string {
	var b strings.Builder
	for _, list := range []struct {
		word     string
		problems []*quotes.Problem
	}{{"problem", r.Problems}, {"warning", r.Warnings}} {
		for _, p := range list.problems {
			fmt.Fprintf(&b, "%s %s\n", list.word, p.Error())
			if p.Hint != "" {
				fmt.Fprintf(&b, "  hint: %s\n", p.Hint)
			}
		}
	}
	if b.Len() == 0 {
		return "nothing to report\n"
	}
	return b.String()
}

func archive(t *testing.T, name string) *txtar.Archive {
	t.Helper()
	a, err := txtar.ParseFile(name)
	require.NoError(t, err)
	return a
}

// part is the content of a file of an archive, or nil.
func part(a *txtar.Archive, name string) []byte {
	for _, f := range a.Files {
		if f.Name == name {
			return f.Data
		}
	}
	return nil
}

func caseFiles(t *testing.T, good, a *txtar.Archive) Sources {
	t.Helper()
	absent := strings.Fields(string(part(a, "absent")))
	source := func(name string) Source {
		data := part(a, name)
		if in16 := part(a, name+".hex"); in16 != nil {
			var err error
			data, err = hex.DecodeString(strings.Join(strings.Fields(string(in16)), ""))
			require.NoError(t, err)
		} else if data == nil {
			data = part(good, name)
		}
		if data == nil || slices.Contains(absent, name) {
			return Source{Name: name}
		}
		return Source{Name: name, R: bytes.NewReader(data)}
	}
	return Sources{
		Quotes: source(QuotesFile), Beds: source(BedsFile), Delivery: source(DeliveryFile), Media: source(MediaFile), Settings: source(SettingsFile),
	}
}

func writeWant(t *testing.T, name string, a *txtar.Archive, want string) {
	t.Helper()
	a.Files = slices.DeleteFunc(a.Files, func(f txtar.File) bool { return f.Name == "want" })
	a.Files = append(a.Files, txtar.File{Name: "want", Data: []byte(want)})
	require.NoError(t, os.WriteFile(name, txtar.Format(a), 0o644))
}

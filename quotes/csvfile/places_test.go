package csvfile_test

import (
	"bytes"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/txtar"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/quotes/csvfile"
	"mediabuy/quotes/files"
)

// Every problem and warning that quotes tells at a cell stands in a cell here.
func TestPlacesAreThoseOfTheReader(t *testing.T) {
	cases, err := filepath.Glob("../../testdata/bad/*.txtar")
	require.NoError(t, err)
	require.NotEmpty(t, cases)
	headings := map[string][]string{}
	for name, text := range files.Templates() {
		headings[name] = csvfile.Headings(text)
	}
	found := 0
	for _, name := range cases {
		a, err := txtar.ParseFile(name)
		require.NoError(t, err)
		for _, f := range a.Files {
			if !slices.Contains([]string{files.QuotesFile, files.BedsFile, files.DeliveryFile}, f.Name) {
				continue
			}
			s, err := csvfile.Open(f.Data, headings[f.Name])
			if err != nil {
				continue // a file that is no text has no cells
			}
			src := map[string]*files.Source{}
			var sources files.Sources
			src[files.QuotesFile], src[files.BedsFile], src[files.DeliveryFile] = &sources.Quotes, &sources.Beds, &sources.Delivery
			src[f.Name].R = bytes.NewReader(f.Data)
			_, rep, err := files.Read(sources, files.Options{Today: time.Date(2026, 4, 1, 0, 0, 0, 0, time.UTC)})
			require.NoError(t, err)
			for _, p := range slices.Concat(rep.Problems, rep.Warnings) {
				if p.File != f.Name || p.Col == 0 || p.Line <= s.HeadLine || strings.Contains(p.Found, "not text") || strings.Contains(p.Found, "not UTF-8") || strings.Contains(p.Found, "quoted cell") {
					continue
				}
				_, _, ok := s.At(p.Line, p.Col)
				// What is missing stands behind the last cell of its row, and a comment or an empty file has no cell.
				behind := slices.ContainsFunc(s.Rows, func(r csvfile.Row) bool {
					return r.Line == p.Line && (len(r.Cells) == 0 || r.Cells[len(r.Cells)-1].Col < p.Col)
				})
				assert.True(t, ok || behind || s.HeadLine == 0, "%s: %s", filepath.Base(name), p)
				found++
			}
		}
	}
	assert.Greater(t, found, 100)
}

// A sign that is not seen and turns text about, or steers a terminal, is told by its number, with the remedy that helps.
func TestSteeringSigns(t *testing.T) {
	for _, sign := range []string{"\u202e", "\u2066", "\u009b"} {
		_, fault := csvfile.Decode([]byte("supplier\nLow " + sign + "Ford\n"))
		require.NotNil(t, fault)
		assert.Equal(t, csvfile.Spot{Line: 2, Col: 5}, fault.Spot)
		assert.Contains(t, fault.Found, "cannot be seen")
		assert.Equal(t, "type the cell anew without it", fault.Hint)
	}
}

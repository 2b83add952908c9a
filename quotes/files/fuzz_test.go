package files

import (
	"bytes"
	"math"
	"slices"
	"strings"
	"testing"

	"mediabuy/quotes"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func FuzzRead(f *testing.F) {
	f.Add([]byte(wholeQuotes), []byte(wholeBeds), []byte(wholeDelivery), []byte("medium,voids\npumice,0.4\n"), []byte(wholeSettings))
	for _, t := range []string{
		"supplier,medium,pack,price\n\"a,b\nc,d\n", "sep=;\nsupplier;medium;pack;price\nA;pumice;1,5 m3;9,50\n", "\xff\xfea\x00", "supplier\tmedium\n\t\n", "#\n\"#\",,\n\r\r\nsupplier\r",
		"supplier,medium,pack,price,breaks,break_kind,break_group\nA,pumice,1 L,9,1:8,incremental,g\nA,pumice,1 L,9,,,g\n", "\"supplier\n\",medium\n", "price,price,,\n1,2,3,4\n", "\v\nsupplier\n",
	} {
		f.Add([]byte(t), []byte("bed,volume\ntub,100 L\n"), []byte("supplier\nA\n"), []byte(""), []byte("[units]\nvolume = 'L'"))
	}
	for name, text := range Templates() {
		f.Add(text, text, text, text, []byte(name))
	}
	f.Fuzz(func(t *testing.T, q, b, d, m, s []byte) {
		files := Sources{Quotes: Source{R: bytes.NewReader(q)}, Beds: Source{R: bytes.NewReader(b)}, Delivery: Source{R: bytes.NewReader(d)},
			Media: Source{R: bytes.NewReader(m)}, Settings: Source{R: bytes.NewReader(s)}}
		requirePromises(t, files)
	})
}

// FuzzReadQuotes looks at one file with the others in order, which finds more in it.
func FuzzReadQuotes(f *testing.F) {
	f.Add([]byte(wholeQuotes))
	for _, t := range []string{
		"supplier,medium,pack,price,breaks,break_kind,break_group,step\nA,pumice,1 L,9,10: 8,incremental,g,2\nA,pumice,1 L,7,10: 6,incremental,g,2\n",
		"quote;supplier;medium;pack;price;delivery;free_over\n;A;scoria;1,5 m3;1.027,50;60;500\n;A;scoria;1 ton;9;;\n",
		"supplier\tmedium\tpack\tprice\tsize\tdensity\nA\tlava\t1 ton\t9\t#8\t45 lb/ft3\n",
	} {
		f.Add([]byte(t))
	}
	f.Fuzz(func(t *testing.T, q []byte) {
		requirePromises(t, Sources{Quotes: Source{R: bytes.NewReader(q)}, Beds: text(wholeBeds)})
	})
}

// requirePromises reads a job and checks what Read says of its answers.
func requirePromises(t require.TestingT, files Sources) {
	job, rep, err := Read(files, Options{Today: testDay})
	require.NoError(t, err, "bytes in memory can always be read")
	require.Equal(t, rep.OK(), job != nil)
	requireWhole(t, rep)
	for _, p := range slices.Concat(rep.Problems, rep.Warnings) {
		require.Contains(t, FileNames, p.File)
	}
	if job != nil {
		requireSound(t, job, rep)
	}
}

// requireSound checks what the rest of the program builds on.
func requireSound(t require.TestingT, j *quotes.Job, rep *quotes.Report) {
	names := map[string]bool{}
	require.NotEmpty(t, j.Quotes)
	require.NotEmpty(t, j.Beds)
	for _, q := range j.Quotes {
		require.False(t, names[q.Name], "two quotes are called %q", q.Name)
		names[q.Name] = true
		require.NotEmpty(t, q.Supplier)
		require.NotNil(t, q.Medium)
		require.Contains(t, quotes.Forms, q.Form)
		require.True(t, q.PackLitres >= MinVolume && q.PackLitres <= MaxVolume)
		require.True(t, q.PackMass > 0 && !math.IsInf(float64(q.PackMass), 0))
		require.Positive(t, float64(q.Placed()))
		require.Positive(t, q.Step.Sign())
		require.GreaterOrEqual(t, q.Price.Sign(), 0)
		levels := q.Levels()
		for i, l := range levels[1:] {
			require.Positive(t, l.From.Cmp(levels[i].From))
			require.LessOrEqual(t, l.Price.Cmp(levels[i].Price), 0)
		}
		require.True(t, q.MaxQty == nil || q.MaxQty.Cmp(q.MinQty) >= 0)
	}
	for _, b := range j.Beds {
		require.Positive(t, b.Count)
		require.GreaterOrEqual(t, float64(b.TopLitres()), 0.0)
		require.GreaterOrEqual(t, float64(b.BaseLitres()), -1e-5)
		for _, l := range quotes.Layers {
			require.True(t, b.Below(l) >= 0 && b.Below(l) <= 1)
		}
	}
	for _, d := range j.Delivery {
		require.NotEmpty(t, d.Covers)
		require.Contains(t, quotes.Suppliers(j), d.Supplier)
		if d.Site != "" && !slices.Contains(quotes.Sites(j), d.Site) {
			require.True(t, slices.ContainsFunc(rep.Warnings, func(p *quotes.Problem) bool {
				return p.Line == d.Line && strings.Contains(p.Found, "no bed stands at")
			}), "%s: nobody is told that %q is no site", d.Pos, d.Site)
		}
	}
}

// TestSpoiltCells puts nasty texts into cells of good jobs, which reaches the
// checks behind the parsers more often than changed bytes do.
func TestSpoiltCells(t *testing.T) {
	nasty := []string{"", "0", "-1", "1", "1,234", "1e9", "NaN", "999999999999", "0.0005", "1 L", "1 ton", "4 in", "8%", "0.08", "100%", "a: b", ":", ";", ": ;", "a: 1; a: 2", "10: 9; 10: 9",
		"1: 0.01; 2: 0.005", "#57", "#", `"`, "\n", "'", "€5", "none", "all", "bag", "gravel", "lava rock: 1", "1000000000 L", "2026-02-30", "1/0 in", "½", "3/8", "\u00a0", "x\ty", "1 mm minus"}
	rapid.Check(t, func(rt *rapid.T) {
		s := sampleTables(rt)
		for range rapid.IntRange(1, 4).Draw(rt, "spoilt") {
			sheet := s[rapid.SampledFrom([]string{QuotesFile, BedsFile, DeliveryFile}).Draw(rt, "file")]
			row := sheet[rapid.IntRange(0, len(sheet)-1).Draw(rt, "row")]
			row[rapid.IntRange(0, len(row)-1).Draw(rt, "column")] = rapid.SampledFrom(nasty).Draw(rt, "text")
		}
		requirePromises(rt, s.files(commas))
	})
}

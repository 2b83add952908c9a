package message

import (
	"path/filepath"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"mediabuy/quotes/files"
)

// corpus are the messages of testdata.
func corpus(t testing.TB) []string {
	files, err := filepath.Glob("testdata/corpus/*.txtar")
	require.NoError(t, err)
	var out []string
	for _, file := range files {
		ar, err := txtar.ParseFile(file)
		require.NoError(t, err)
		for _, f := range ar.Files {
			if strings.HasSuffix(f.Name, ".txt") {
				out = append(out, strings.TrimSuffix(string(f.Data), "\n"))
			}
		}
	}
	for _, dir := range []string{"told", "heldback"} {
		for _, f := range readFacts(t, dir) {
			out = append(out, f.text)
		}
	}
	require.NotEmpty(t, out)
	return out
}

func FuzzParse(f *testing.F) {
	for _, text := range corpus(f) {
		f.Add(text)
	}
	for _, text := range []string{"", "\n\n", "\xff\xfe", "lava\x00 68 a yard", "lava 68 a yard\r\npumice 72 a yard\r\n", "# lava\t1 yd3\t68.00\n#x\t1 yd3\t9.00", "lava 1/0 in 68 a yard",
		"Regards,", "from: \n", "\"lava\t1 yd3\t68.00", "İ lava 68 a yard", "lava 999999999999999 a yard", "lava 0 a yard", "lava 68 a yard 0 or more 61", "minimum 0 bags lava 9.50 a 50 L bag", "lava -68 a yard",
		"pumice 74 a yard or 14, 90 per 50 L bag, 90 per 50 L bag, pumice 74 a yard or 14, 80 EUR", // whose pack is in doubt lends none
		"90 per 50 L bag\nLava? Yes.\nMoor End: pumice 74 a yard",                                  // what is asked about heads nothing
		"1to2Yd 0", // a tier of no price says no pack
	} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > 1<<10 { // the work is in step with the length, and no rule looks further than window
			return
		}
		for _, wide := range []bool{false, true} {
			p, err := Parse(text, Options{Delivery: wide})
			require.NoError(t, err)
			requireSound(t, p)
			if wide { // what is asked without rows of delivery.csv is asked with them, too
				requireAnswers(t, p)
			}
		}
	})
}

// requireAnswers checks that each answer to each question leaves every word accounted for, and enters what it promised and
// what reads back.
func requireAnswers(t require.TestingT, p *Proposal) {
	for i, q := range p.Asked {
		require.GreaterOrEqual(t, len(q.Readings), 2)
		if i > 0 && i+1 < len(p.Asked) {
			continue // each answer reads the message once more for every reading of every question left
		}
		for j, one := range q.Readings {
			got, err := p.Answer(i, j)
			require.NoError(t, err)
			requireWhole(t, got)
			requireReadsBack(t, got)
			if len(one.Cells) == 0 {
				continue // it leaves the part out
			}
			for _, c := range one.Changes() {
				rows := map[string][]Row{files.QuotesFile: got.Rows, files.DeliveryFile: got.Delivery}[c.File]
				for _, row := range append([]int{c.Row}, c.Also...) {
					require.LessOrEqual(t, row, len(rows))
					for column, text := range c.Cells {
						require.Equal(t, text, rows[row-1].Text(column), "%q", p.Text)
					}
				}
			}
		}
	}
	if len(p.Asked) > 0 {
		got, err := p.Cautious()
		require.NoError(t, err)
		require.Empty(t, got.Asked)
		requireWhole(t, got)
	}
}

// TestCutAndJoined reads pieces of messages put together anyhow, which reaches odd neighbours sooner than changed bytes do.
func TestCutAndJoined(t *testing.T) {
	var pieces []string
	for _, text := range corpus(t) {
		pieces = append(pieces, strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == '.' || r == '\n' })...)
	}
	rapid.Check(t, func(rt *rapid.T) {
		var b strings.Builder
		for range rapid.IntRange(1, 8).Draw(rt, "pieces") {
			b.WriteString(rapid.SampledFrom(pieces).Draw(rt, "piece"))
			b.WriteString(rapid.SampledFrom([]string{", ", ". ", "\n", " ", "; ", "\t", " and "}).Draw(rt, "join"))
		}
		p, err := Parse(b.String(), Options{Delivery: rapid.Bool().Draw(rt, "delivery")})
		require.NoError(rt, err)
		requireSound(rt, p)
		requireAnswers(rt, p)
	})
}

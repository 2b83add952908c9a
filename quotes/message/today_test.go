package message

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/quotes/files"
)

// A day without its year is the next one where that is near today or the day that the
// message states; else the last and the next are asked about, the one that costs the
// buyer more last. Where nobody says what day it is, it is left to a person.
func TestDaysWithoutTheirYear(t *testing.T) {
	today := time.Date(2026, 11, 30, 0, 0, 0, 0, time.UTC)
	for _, c := range []struct {
		text  string
		today time.Time
		cell  string
		asked []string
	}{
		{"Lava is $90 a yard. Prices good until 31 January.", today, "2027-01-31", nil},
		{"Lava is $90 a yard. Prices good until 31 January.", time.Time{}, "", nil},
		{"Lava is $90 a yard. Prices good through the end of February.", today, "2027-02-28", nil},
		{"Lava is $90 a yard. Prices good through the end of June.", today, "", []string{"2027-06-30", "2026-06-30"}},
		{"3 May 2026. Lava is $90 a yard. Prices good through the end of June.", today, "2026-06-30", nil},
		{"Lava is $90 a yard, valid until 04/05/2026.", today, "", []string{"2026-05-04", "2026-04-05"}},
	} {
		p, err := Parse(c.text, Options{Today: c.today})
		require.NoError(t, err)
		require.Len(t, p.Rows, 1, c.text)
		assert.Equal(t, c.cell, p.Rows[0].Cells["valid_until"].Text, c.text)
		var labels []string
		for _, q := range p.Asked {
			for _, r := range q.Readings {
				labels = append(labels, r.Label)
				assert.Equal(t, r.Label, r.Cells["valid_until"], c.text)
			}
		}
		assert.Equal(t, c.asked, labels, c.text)
		if c.asked != nil {
			q, err := p.Cautious()
			require.NoError(t, err)
			assert.Equal(t, c.asked[1], q.Rows[0].Cells["valid_until"].Text, c.text)
		}
	}
}

// TestTaxCarried reads that prices carry their tax: nothing is added to them, which a row says where the job adds a tax by itself.
func TestTaxCarried(t *testing.T) {
	for _, c := range []struct{ text, tax string }{
		{"Low Ford Quarry: lava £82 a m3 inc VAT, delivery £40", "0%"},
		{"Low Ford Quarry: lava £82 a m3, VAT included", "0%"},
		{"Low Ford Quarry: lava £82 a m3 incl. 20% VAT", "0%"},
		{"Low Ford Quarry: lava £82 a m3 ex VAT, pumice £96 a m3 inc VAT", ""},
		{"Low Ford Quarry: lava £82 a m3 plus VAT", ""},
	} {
		for settings, want := range map[string]string{"currency = \"GBP\"\ntax = \"20%\"\n": c.tax, "currency = \"GBP\"\n": "", "currency = \"GBP\"\ntax = \"20%\"\ntax_included = true\n": ""} {
			p, err := Parse(c.text, Options{Settings: files.Source{Name: "job.toml", R: strings.NewReader(settings)}})
			require.NoError(t, err)
			requireWhole(t, p)
			require.NotEmpty(t, p.Rows)
			assert.Equal(t, want, p.Rows[0].Text("tax"), "%s\n%s", c.text, settings)
		}
	}
}

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
		{"Lava is $90 a yard. Good thru 1/15.", today, "2027-01-15", nil},
		{"Lava is $90 a yard. Good thru 1/15.", time.Time{}, "", nil},
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

// The end of "the month" is that of the month in which the message was written, which is asked; where nobody says when, it is left.
func TestEndOfPeriod(t *testing.T) {
	today := time.Date(2026, 11, 24, 0, 0, 0, 0, time.UTC) // a Tuesday
	for _, c := range []struct {
		text  string
		today time.Time
		asked string
	}{
		{"Lava is $90 a yard. Prices good through the end of the year.", today, "2026-12-31"},
		{"Lava is $90 a yard. Good thru end of month.", today, "2026-11-30"},
		{"Lava is $90 a yard, valid until the end of this week.", today, "2026-11-27"},
		{"28 November 2026. Lava is $90 a yard, valid until the end of the week.", today, "2026-11-29"}, // a Saturday
		{"3 January 2027. Lava is $90 a yard. Offer good to the end of the month.", today, "2027-01-31"},
		{"Lava is $90 a yard. Prices good through the end of the year.", time.Time{}, ""},
		{"3 January 2027, revised 9 February 2027. Lava is $90 a yard. Offer good to the end of the month.", today, ""},
		{"Lava is $90 a yard. I am away until the end of the month.", today, ""},
	} {
		p, err := Parse(c.text, Options{Today: c.today})
		require.NoError(t, err)
		require.Len(t, p.Rows, 1, c.text)
		assert.Empty(t, p.Rows[0].Text("valid_until"), c.text)
		var asked string
		for _, q := range p.Asked {
			asked += q.Readings[0].Cells["valid_until"]
		}
		assert.Equal(t, c.asked, asked, c.text)
	}
}

// TestTaxCarried reads that prices carry their tax: nothing is added to them, which a row says where the job adds a tax by itself.
func TestTaxCarried(t *testing.T) {
	for _, c := range []struct{ text, tax string }{
		{"Low Ford Quarry: lava £82 a m3 inc VAT, delivery £40", "0%"},
		{"Low Ford Quarry: lava £82 a m3, VAT included", "0%"},
		{"Low Ford Quarry: lava £82 a m3 incl. 20% VAT", "0%"},
		{"Low Ford Quarry: lava £82 a m3 inc delivery and VAT", "0%"},
		{"Low Ford Quarry: lava £82 a m3, plus delivery and VAT", ""},
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

// A last day by a number of days from a day that is said is read.
func TestCountedFromADay(t *testing.T) {
	for text, want := range map[string]string{
		"Low Ford Quarry: lava $68 a yard. Quote good 30 days from 5/1/26.":                            "2026-05-31",
		"Low Ford Quarry: lava $68 a yard. Prices hold for two weeks from May 4, 2026.":                "2026-05-18",
		"Low Ford Quarry, April 2, 2026: lava $68 a yard. Valid for 10 days from the date of 4/6/2026": "2026-04-16",
		"Low Ford Quarry: lava $68 a yard. Quote good 30 days from receipt.":                           "",
	} {
		p, err := Parse(text, Options{Settings: files.Source{Name: "job.toml", R: strings.NewReader("currency = \"USD\"\ndate = \"2026-05-04\"\n")}})
		require.NoError(t, err)
		requireSound(t, p)
		require.Len(t, p.Rows, 1)
		assert.Equal(t, want, p.Rows[0].Text("valid_until"), text)
	}
}

// TestLeadTime asks whether goods can be had so many days after the message was written.
func TestLeadTime(t *testing.T) {
	friday := time.Date(2026, 12, 4, 0, 0, 0, 0, time.UTC)
	for text, want := range map[string]string{
		"Lava is $90 a yard. Lead time 10 working days.":                            "2026-12-18",
		"Lava is $90 a yard. Lead time: 1 business day.":                            "2026-12-07",
		"Lava is $90 a yard, ready in 2 weeks.":                                     "2026-12-18",
		"Lava is $90 a yard. Turnaround 3-5 days from order.":                       "2026-12-09",
		"1 December 2026. Lava is $90 a yard. Lead time 5 working days.":            "2026-12-08",
		"Lava is $90 a yard, valid until 31 January 2027. Lead time 1 working day.": "2026-12-07",
	} {
		p, err := Parse("Low Ford Quarry\n"+text, Options{Today: friday})
		require.NoError(t, err)
		require.Len(t, p.Asked, 1, summary(p))
		assert.Equal(t, want, p.Asked[0].Readings[0].Cells["ready_by"], summary(p))
	}
}

// TestNothingOfPrices sets aside what is no price, and gives what is said of one item to that alone.
func TestNothingOfPrices(t *testing.T) {
	p, err := Parse("Low Ford Quarry\nLava $52 a yard picked up\nPumice $86 a yard\nNet 30. 2.5% surcharge for credit cards. Loads in half-yard increments.\n(555) 0142", Options{})
	require.NoError(t, err)
	require.Len(t, p.Rows, 2)
	assert.Equal(t, []string{"you collect", ""}, []string{p.Rows[0].Text("notes"), p.Rows[1].Text("notes")})
	said := summary(p)
	for _, words := range []string{"a sum or a part", "there is plenty", "no word that says what it is", "555"} {
		assert.NotContains(t, said, words)
	}
}

package message

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// whyOf tells what became of the words in a message, by their reasons.
func whyOf(t *testing.T, text, words string) (why []string) {
	p, err := Parse(text, Options{Delivery: true})
	require.NoError(t, err)
	requireSound(t, p)
	for _, s := range p.Spans {
		if s.Use != Blank && strings.Contains(words, s.Words) {
			why = append(why, string(s.Use)+": "+s.Why)
		}
	}
	return why
}

// TestPartOffSomewhere says of a part that comes off with no number of packs what it is and what to do, and of nothing else.
func TestPartOffSomewhere(t *testing.T) {
	for words, want := range map[string]bool{
		"Less 5% for allotment societies": true, "10% off your first order": true, "10% off orders over $500": true, "Save 10% with your first order": true, "15% cheaper for schools": true,
		"10 percent discount for schools": true, "Discount of 5% for schools": true, "5% trade discount": true,
		"10% off delivery": false, "5% more for schools": false, "plus 5% for fuel": false, "Less for schools": false,
	} {
		why := whyOf(t, "Low Ford Quarry: lava in 50 L bags, $9 each.\n"+words+".", words)
		assert.Equal(t, want, len(why) == 1 && why[0] == "not understood: "+partWhere, "%s: %q", words, why)
	}
}

// TestDayOfMessage tells a day alone as that of the message where others are counted from it, and only there.
func TestDayOfMessage(t *testing.T) {
	for text, want := range map[string]string{
		"Low Ford Quarry\n25/11/2026\nLava $82 a yard. This quote is valid for 14 days.":                        "set aside: taken for the day of the message, from which days are counted",
		"Low Ford Quarry\n25/11/2026\nLava $82 a yard. Valid for 14 days from that date.":                       "set aside: taken for the day of the message, from which days are counted",
		"Low Ford Quarry\n25/11/2026\nLava $82 a yard.":                                                         "not understood: " + noWordForDay,
		"Low Ford Quarry\n25/11/2026\nLava $82 a yard, harvested 3 June 2026. This quote is valid for 14 days.": "not understood: " + noWordForDay,
	} {
		assert.Equal(t, []string{want}, whyOf(t, text, "25/11/2026"), text)
	}
}

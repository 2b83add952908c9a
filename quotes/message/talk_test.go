package message

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// wantCells holds cells against what must stand in them, written "0 size=1-2 in; 1 price=": the number of the row, the heading, the
// text. A row of delivery.csv is counted from 10 on.
func wantCells(t *testing.T, text, want string) {
	p, err := Parse(text, Options{Delivery: true})
	require.NoError(t, err)
	requireSound(t, p)
	for one := range strings.SplitSeq(want, "; ") {
		row, cell, _ := strings.Cut(one, " ")
		n, err := strconv.Atoi(row)
		require.NoError(t, err)
		rows := p.Rows
		if n >= 10 {
			n, rows = n-10, p.Delivery
		}
		heading, value, _ := strings.Cut(cell, "=")
		require.Greater(t, len(rows), n, "%s\n%s", text, summary(p))
		assert.Equal(t, value, rows[n].Text(heading), "%s: %s\n%s", text, one, summary(p))
	}
}

// TestTalk reads what people say aloud or in talk.
func TestTalk(t *testing.T) {
	for text, want := range map[string]string{
		"Low Ford Quarry. River rock, the two to four inch, is $94 a yard, and the three-quarter lava is $99 a yard.": "0 size=2-4 in; 1 size=3/4 in",
		"Low Ford Quarry. River rock, half to one and a half inch, is $94 a yard.":                                    "0 size=1/2 to 1 1/2 in",
		"Low Ford Quarry. Lava, the three quarter yard scoop is $94.":                                                 "0 size=",
		"Low Ford Quarry. Lava $94 a yard, the quarter to about two inch.":                                            "0 size=",
		"Low Ford Quarry. Basalt, the twenty mil, is $71 a cube, and the ten mil's seventy-six.":                      "0 size=20 mm; 0 price=$71; 1 size=10 mm; 1 price=76; 1 pack=1 m3",
		"Low Ford Quarry. Lava 50 L is on sale at $9 (was $11). Pumice 50 L $12. Sale ends 31 May 2031.":              "0 valid_until=2031-05-31; 1 valid_until=",
		"Low Ford Quarry. Lava 50 L $9. Pumice 50 L $12. Sale ends 31 May 2031.":                                      "0 valid_until=2031-05-31; 1 valid_until=2031-05-31",
		"Low Ford Quarry. Lava 50 L $9. Postage $13 flat, $160 and up ships free.":                                    "0 delivery=$13; 0 free_over=$160",
		"Low Ford Quarry. Lava 50 L $9. Postage $13, orders of $160 or more are delivered free.":                      "0 delivery=$13; 0 free_over=$160",
		"Me: price on coir?\nLow Ford Quarry: coir 50 L bag $19\nMe: can you ship\nLow Ford Quarry: yes $13":          "0 price=$19; 0 delivery=$13; 0 supplier=Low Ford Quarry",
	} {
		wantCells(t, text, want)
	}
}

// TestSpeakers takes the name of who sells from where it is said.
func TestSpeakers(t *testing.T) {
	for _, said := range []string{
		"Hi, this is Nell down at Low Ford Quarry. Lava $68 a yard.", "Nell over at Low Ford Quarry, lava is $68 a yard", "talked to Nell at Low Ford Quarry Tues 2pm\nlava $68 a yard",
		"ok so I got hold of Nell at Low Ford Quarry. lava is $68 a yard", "From Low Ford Quarry: lava $68 a yard", "reached Low Ford Quarry, lava $68 a yard",
	} {
		wantCells(t, said, "0 supplier=Low Ford Quarry; 0 price=$68")
	}
	wantCells(t, "Spoke to Nell at Marl Pit 9, lava $68 a yard", "0 supplier=Marl Pit 9")
}

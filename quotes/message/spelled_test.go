package message

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestAmountsInWords sets what people write out in digits, and leaves what is no amount or may be another.
func TestAmountsInWords(t *testing.T) {
	noughts := regexp.MustCompile(`\b0+([1-9])`)
	for text, want := range map[string]string{
		"lava is ninety two dollars a yard":                "lava is 92 dollars a yard",
		"eighty-one fifty a yard, delivery ninety":         "81.50 a yard, delivery 90",
		"nine hundred a bag, five bags and up eight fifty": "900 a bag, five bags and up 850",
		"seventeen fifty a bag, the truck one fifty":       "17.50 a bag, the truck one fifty",
		"one hunderd a yard":                               "100 a yard",
		"a hundred and five a yard":                        "105 a yard",
		"two dozen bags, a tenner to drop it":              "24 bags, a 10 to drop it",
		"two of us will come to Seven Oaks Stone":          "two of us will come to seven oaks stone",
		"three quarter lava":                               "three quarter lava",
		"seventeen pounds fifty":                           "17.50",
	} {
		s := &scanner{text: text, low: lower(text)}
		s.soften()
		require.Len(t, s.low, len(text), "byte for byte")
		assert.Equal(t, want, noughts.ReplaceAllString(s.low, "$1"))
	}
}

// TestAskFees reads several fees for delivery with words of place between: none is entered before it is answered, and the
// answer makes one row of delivery.csv.
func TestAskFees(t *testing.T) {
	for _, fees := range []string{"$60 in town, $85 in the county, $110 out of county", "60 in town, 85 in the county, 110 outside"} {
		askFees(t, "Low Ford Quarry\nlava $78 a yard\npumice $90 a yard\nDelivery "+fees)
	}
}

func askFees(t *testing.T, text string) {
	p, err := Parse(text, Options{Delivery: true})
	require.NoError(t, err)
	requireWhole(t, p)
	require.Len(t, p.Asked, 1, summary(p))
	require.Empty(t, p.Delivery)
	for _, row := range p.Rows {
		assert.Empty(t, row.Text("delivery"))
	}
	for i, fee := range []string{"60", "85", "110"} {
		assert.True(t, p.Asked[0].Readings[i].New)
		got, err := p.Answer(0, i)
		require.NoError(t, err)
		requireWhole(t, got)
		require.Len(t, got.Delivery, 1, summary(got))
		assert.Equal(t, fee, strings.TrimPrefix(got.Delivery[0].Text("order_fee"), "$"))
	}
}

package message

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestEverydayWords reads forms in which yards and stores write, each with the cells that must come out.
func TestEverydayWords(t *testing.T) {
	for text, want := range map[string]map[string]string{
		"Low Ford Quarry: lava $78 a yard, truck is $85":                                    {"price": "$78", "delivery": "$85"},
		"Low Ford Quarry: lava $78 a yard. Delivery is $95 flat inside the county.":         {"price": "$78", "delivery": "$95"},
		"Low Ford Quarry: lava $78 a yard. Delivery is $95 flat inside the county of Esk.":  {"price": "$78", "delivery": ""},
		"Low Ford Quarry: lava $78 a yard. Delivery is $95, free over 900.":                 {"delivery": "$95", "free_over": "900"},
		"Low Ford Quarry: lava $78 a yard, half yards are fine":                             {"price": "$78", "step": "0.5"},
		"Low Ford Quarry: lava $48/ton\n10 ton and up ... $41/ton":                          {"price": "$48", "breaks": "10: $41"},
		"Low Ford Quarry: lava bags 2 cu ft, 18.50 each, 16.75 each if u get 20+":           {"price": "18.50", "breaks": "20: 16.75"},
		"Hi Sam, thanks for reaching out to us. Lava $78 a yard. No problem at all.":        {"price": "$78"},
		"Low Ford Quarry: lava $78 a yard, no problem, the truck is $85. Pumice $90 a yard": {"price": "$78", "delivery": "$85"},
	} {
		t.Run(text, func(t *testing.T) {
			p, err := Parse(text, Options{Delivery: true})
			require.NoError(t, err)
			requireSound(t, p)
			require.NotEmpty(t, p.Rows)
			for column, cell := range want {
				assert.Equal(t, cell, p.Rows[0].Text(column), "%s\n%s", column, summary(p))
			}
		})
	}
}

// TestNearbyFee says aloud where a fee holds, and that the buyer must look whether the beds are there.
func TestNearbyFee(t *testing.T) {
	p, err := Parse("Low Ford Quarry: lava $78 a yard. Delivery is $95 flat inside the county.", Options{})
	require.NoError(t, err)
	require.Len(t, p.Rows, 1)
	assert.Contains(t, p.Rows[0].Cautions, "delivery: it is said to hold inside the county; make sure that the beds are there")
}

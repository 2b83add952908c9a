package message

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestWhatMustNotEnter reads messages whose numbers are easily taken for others. cells are what each row may hold under
// the column at hand: a wrong number is worse than none.
func TestWhatMustNotEnter(t *testing.T) {
	for _, c := range []struct {
		name, text, column string
		cells              []string
	}{
		{"a line of tax", "Low Ford Quarry\nPumice 3/8 in, $52 a yard\nSales tax: $22.44\n", "price", []string{"$52"}},
		{"tax with its rate", "Pumice 52.00 a yard\nTax (8.25%) 4.29\n", "price", []string{"52.00"}},
		{"tax with its pack", "Pumice in 50 L bags\nSales tax 4.29\n", "price", []string{}},
		{"an amount of tax", "Pumice 68 a yard, $5.61 tax", "price", []string{"68"}},
		{"tax that is in the price", "Pumice $68 a yard tax included", "price", []string{"$68"}},
		{"a fee of one of two", "Low Ford Quarry has pumice at $52 a yard, $90 to deliver. High Fell Stone has lava at $61 a yard and delivers free.", "delivery", []string{"", ""}},
		{"a fee behind a second name", "Low Ford Quarry\npumice $52 a yard\nHigh Fell Stone\nlava $61 a yard\ndelivery $90", "delivery", []string{"", ""}},
		{"rows of two names", "Low Ford Quarry\npumice $52 a yard\nHigh Fell Stone\nlava $61 a yard", "supplier", []string{"", ""}},
		{"free from a value of one", "Low Ford says pumice 52 a yard plus $90 to deliver; High Fell has lava for 61 a yard, free delivery over $400", "free_over", []string{"", ""}},
		{"labelled", "Low Ford Quarry: pumice $52 a yard, delivery $90\nHigh Fell Stone: lava $61 a yard, delivers free", "delivery", []string{"$90", "0"}},
		{"one supplier of two media", "Low Ford Quarry has pumice at $52 a yard and lava at $61 a yard. Delivery $90.", "delivery", []string{"$90", "$90"}},
		{"a grade of perlite", "Perlite #3, 4 cu ft bags, $28 each", "size", []string{""}},
		{"a grade of what is not known", "Vermiculite #2 $31 per 4 cu ft bag", "size", []string{""}},
		{"a stone number", "Pea gravel #8, $40 a yard", "size", []string{"#8"}},
		{"a number behind a least order", "Pea gravel, 20 a yard, three yard minimum 44", "min_qty", []string{""}},
	} {
		t.Run(c.name, func(t *testing.T) {
			p, err := Parse(c.text, Options{Delivery: true})
			require.NoError(t, err)
			requireSound(t, p)
			got := []string{}
			for i := range p.Rows {
				got = append(got, p.Rows[i].Text(c.column))
			}
			assert.Equal(t, c.cells, got, summary(p))
		})
	}
}

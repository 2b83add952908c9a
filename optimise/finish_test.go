package optimise

import (
	"context"
	"testing"

	"mediabuy/optimise/internal/randjob"
	"mediabuy/units"

	"github.com/stretchr/testify/require"
)

// What came holds enough by a hair less than nothing: within what a row may be off, and
// so within what a plan may, the beds are full. How it lies is found all the same.
func TestFinishWithJustEnough(t *testing.T) {
	job := randjob.Job(7, randjob.Simple(3, 6, 4))
	holds := map[string]float64{"q004": 0.9778023532534184, "q006": 0.9525548041053521}
	packs := map[string]float64{"q004": 5, "q006": 2.5}
	var stock []Stock
	for _, q := range job.Quotes {
		if holds[q.Name] > 0 {
			stock = append(stock, Stock{q, "site 01", units.DecimalOf(packs[q.Name]), holds[q.Name]})
		}
	}
	f, err := FinishWith(context.Background(), job, stock, job.Settings.Date, Options{})
	require.NoError(t, err)
	require.Empty(t, f.Buy)
	require.True(t, f.ToPay.IsZero())
}

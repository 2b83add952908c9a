package beside

import (
	"context"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/cmd/mediabuy/internal/demo"
	"mediabuy/optimise"
	"mediabuy/optimise/mip"
	"mediabuy/optimise/risk"
	"mediabuy/quotes/files"
)

func TestOtherLimit(t *testing.T) {
	for _, c := range []struct{ limit, taken, want time.Duration }{
		{0, time.Hour, 5 * time.Second},                      // no limit: no long wait either
		{30 * time.Second, 6 * time.Second, 3 * time.Second}, // (30 − 6) ÷ 8
		{5 * time.Second, 5 * time.Second, time.Second},      // used up
		{time.Hour, 0, 5 * time.Second},
	} {
		assert.Equal(t, c.want, Usual().OtherLimit(c.limit, c.taken))
	}
	p := Patience{Sure: time.Hour, Curve: 2 * time.Hour}
	assert.Equal(t, time.Hour, p.SureLimit(0, time.Minute), "the patience where there is no limit")
	assert.Equal(t, 5*time.Second, p.SureLimit(20*time.Second, time.Second), "a quarter of the user's")
	assert.Equal(t, 2*time.Hour, p.CurveLimit(0, time.Minute))
	assert.Equal(t, 50*time.Second, p.CurveLimit(time.Minute, 10*time.Second), "what the user's leaves")
}

// lateSolver finds nothing in time.
type lateSolver struct{}

func (lateSolver) Solve(context.Context, *mip.Model, mip.Options) (*mip.Answer, error) {
	return &mip.Answer{Status: mip.NoAnswer}, nil
}

// Ways to buy that time was too short for are told as such and do not stop a
// report whose own plan is there.
func TestWaysNotSettledInTime(t *testing.T) {
	job, rep, err := files.Read(files.SourcesOf(demo.Files()), files.Options{Today: time.Now()})
	require.NoError(t, err)
	require.NoError(t, rep.Err())
	plan, err := optimise.Solve(t.Context(), job, optimise.Options{})
	require.NoError(t, err)

	reached := &risk.Reached{Job: job, Plan: plan}
	ways, err := waysOf(t.Context(), &risk.Tidied{Reached: reached, Cheapest: reached}, optimise.Options{Solver: lateSolver{}, TimeLimit: time.Second})
	require.NoError(t, err)
	require.Len(t, ways, 7, "six plainer ones and the next best")
	for _, w := range ways {
		assert.NotEmpty(t, w.Name)
		assert.Nil(t, w.Total, w.Name)
		assert.False(t, w.Proven, w.Name)
	}
}

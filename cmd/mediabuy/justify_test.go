package main

import (
	"context"
	"path/filepath"
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

// lateSolver finds nothing in time.
type lateSolver struct{}

func (lateSolver) Solve(context.Context, *mip.Model, mip.Options) (*mip.Answer, error) {
	return &mip.Answer{Status: mip.NoAnswer}, nil
}

// Ways to buy that time was too short for are told as such and do not stop a
// report whose own plan is there.
func TestWaysNotSettledInTime(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "job")
	_, err := writeJob(context.Background(), dir, demo.Files(), false)
	require.NoError(t, err)
	a := &app{now: time.Now}
	in, err := a.load(dir, jobFiles{}, files.Options{})
	require.NoError(t, err)
	plan, err := optimise.Solve(context.Background(), in.job, optimise.Options{})
	require.NoError(t, err)

	reached := &risk.Reached{Job: in.job, Plan: plan}
	ways, err := waysOf(context.Background(), &risk.Tidied{Reached: reached, Cheapest: reached}, optimise.Options{Solver: lateSolver{}, TimeLimit: time.Second})
	require.NoError(t, err)
	require.Len(t, ways, 7, "six plainer ones and the next best")
	for _, w := range ways {
		assert.NotEmpty(t, w.Name)
		assert.Nil(t, w.Total, w.Name)
		assert.False(t, w.Proven, w.Name)
	}
}

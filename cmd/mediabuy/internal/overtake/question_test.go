package overtake

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/cmd/mediabuy/internal/demo"
	"mediabuy/optimise"
	"mediabuy/optimise/breakeven"
	"mediabuy/quotes"
	"mediabuy/quotes/files"
	"mediabuy/units"
)

func sample(t *testing.T) *quotes.Job {
	t.Helper()
	job, rep, err := files.Read(files.SourcesOf(demo.Files()), files.Options{Today: time.Date(2026, 4, 6, 9, 0, 0, 0, time.UTC)})
	require.NoError(t, err)
	require.NoError(t, rep.Err())
	return job
}

// Names become the prices asked about, in the order of the flags; an unknown one is told.
func TestTargets(t *testing.T) {
	job := sample(t)
	q := Question{Quotes: []string{"lava-yard"}, Suppliers: []string{"Low Ford Quarry"}, Bulk: true}
	targets, notes, err := q.Targets(job)
	require.NoError(t, err)
	assert.Empty(t, notes)
	require.Len(t, targets, 3)
	assert.Equal(t, breakeven.BulkPrices, targets[2].Kind)
	all, _, err := (&Question{}).Targets(job)
	require.NoError(t, err)
	assert.Len(t, all, len(job.Quotes)+1, "each quote, and all bulk together")
	_, _, err = (&Question{Fees: []string{"Nobody"}}).Targets(job)
	var unknown *breakeven.UnknownError
	assert.ErrorAs(t, err, &unknown)
}

// A volume alone is answered without a search, up to what is asked, and drawn as one chart.
func TestVolumeAlone(t *testing.T) {
	job := sample(t)
	plan, err := optimise.Solve(t.Context(), job, optimise.Options{})
	require.NoError(t, err)
	q := Question{Volume: "pebbles-50, lava-yard", UpTo: 2000}
	ans := &breakeven.Answer{Job: job}
	require.NoError(t, q.Answer(t.Context(), job, plan, nil, ans, func() func(int, int) { return nil }))
	require.Len(t, ans.ByVolume, 1)
	assert.Empty(t, ans.ByPrice)
	assert.Nil(t, ans.WhatIf)
	assert.Len(t, q.Panels(job, ans, units.US), 1)
	q.Volume = "pebbles-50,nothing"
	assert.Error(t, q.Answer(t.Context(), job, plan, nil, ans, func() func(int, int) { return nil }))
}

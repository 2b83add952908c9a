package breakeven

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/optimise"
	"mediabuy/optimise/internal/randjob"
)

// Where the plan took long to find, of many prices only where each enters or leaves is
// looked for, says so, and is the same as where every change is; a few are still shown
// in full.
func TestLongPlanShowsTheEdgesAlone(t *testing.T) {
	job := randjob.Job(2, randjob.Simple(3, 8, 6))
	found, err := Today(t.Context(), job, optimise.Options{})
	require.NoError(t, err)
	long := *found
	long.Nodes = longPlan + 1
	targets := Quotes(job)
	require.Greater(t, len(targets), fewTargets)
	whole, err := ByPrice(t.Context(), job, found, targets, Options{})
	require.NoError(t, err)
	short, err := ByPrice(t.Context(), job, &long, targets, Options{})
	require.NoError(t, err)
	edges, solves := 0, [2]int{}
	for i, s := range short {
		solves[0] += whole[i].Solves
		solves[1] += s.Solves
		if s.Refused {
			continue
		}
		assert.True(t, s.Short)
		assert.False(t, whole[i].Short)
		assert.Equal(t, longWords, s.Partial)
		for _, pair := range [][2]any{{whole[i].Told(whole[i].Enters, 2), s.Told(s.Enters, 2)}, {whole[i].Told(whole[i].Leaves, 2), s.Told(s.Leaves, 2)}} {
			assert.Equal(t, pair[0], pair[1], s.Target.Name)
		}
		if s.Enters != nil || s.Leaves != nil {
			edges++
		}
	}
	assert.Positive(t, edges)
	assert.Less(t, solves[1], solves[0])
	few, err := ByPrice(t.Context(), job, &long, targets[:fewTargets], Options{})
	require.NoError(t, err)
	assert.Equal(t, whole[:fewTargets], few)
}

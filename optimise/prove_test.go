package optimise

import (
	"bytes"
	"context"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/optimise/internal/randjob"
	"mediabuy/quotes/files/jobtest"
)

// Every plan, of every kind of job, satisfies the plain model row by row and costs
// there what its bill says: the merging, the splitting back, the placing and the
// pricing are all held against the rules as they stand in the files.
func TestPlansSatisfyThePlainModel(t *testing.T) {
	for _, shape := range []randjob.Shape{randjob.Simple(3, 12, 12), randjob.All(1, 4, 14, 10), randjob.All(3, 3, 9, 6)} {
		for seed := range jobtest.Seeds(4, 8) {
			job := randjob.Job(seed, shape)
			p, err := Solve(context.Background(), job, Options{TimeLimit: 20 * time.Second})
			require.NoError(t, err)
			if p.Bill == nil {
				require.Error(t, Prove(&bytes.Buffer{}, p))
				continue
			}
			var out bytes.Buffer
			require.NoError(t, Prove(&out, p), "seed %d of %+v", seed, shape)
			assert.Contains(t, out.String(), "HOW TO CONFIRM IT")
			assert.Contains(t, out.String(), "Subject To")
		}
	}
}

// A plan that was tampered with is not proved.
func TestProveRefusesASpoiltPlan(t *testing.T) {
	job := randjob.Job(0, randjob.Simple(3, 12, 12))
	p, err := Solve(context.Background(), job, Options{})
	require.NoError(t, err)
	require.NotNil(t, p.Bill)
	p.Purchase.Items[0].Steps--
	require.ErrorContains(t, Prove(&bytes.Buffer{}, p), "the plain model")
}

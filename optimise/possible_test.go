package optimise

import (
	"context"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/optimise/internal/randjob"
	"mediabuy/quotes/files/jobtest"
)

func TestPossible(t *testing.T) {
	const quote = "quote,supplier,medium,pack,price,max_qty\nbag,Yard,grit,100 L,12.00,10\n"
	for name, c := range map[string]struct {
		beds, settings string
		want           Possibility
		rule           string
	}{
		"enough":      {beds: "bed,volume\none,1000 L\n", want: MixFound},
		"no stock":    {beds: "bed,volume\none,1001 L\n", want: NoMix, rule: RuleStock},
		"too heavy":   {beds: "bed,volume,limit\none,1000 L,900 kg\n", want: NoMix, rule: RuleLimit},
		"too dear":    {beds: "bed,volume\none,1000 L\n", settings: "budget = 119\n", want: NoMix, rule: RuleBudget},
		"just so":     {beds: "bed,volume\none,1000 L\n", settings: "budget = 120\n", want: MixFound},
		"none at all": {beds: "bed,volume,avoid\none,1000 L,grit\n", want: NoMix, rule: "avoid"},
	} {
		t.Run(name, func(t *testing.T) {
			job := jobtest.Files{Quotes: quote, Beds: c.beds, Media: jobtest.PlainMedia, Settings: c.settings}.Job(t)
			got, why, err := Possible(context.Background(), job, time.Minute)
			require.NoError(t, err)
			assert.Equal(t, c.want, got)
			if c.want == NoMix {
				require.NotEmpty(t, why)
				assert.Equal(t, c.rule, string(why[0].Rule))
			}
		})
	}
}

// A look says what solving says.
func TestPossibleLikeSolve(t *testing.T) {
	jobtest.Long(t)
	seen := map[Possibility]int{}
	for seed := range uint64(60) {
		job := randjob.Job(seed, randjob.All(1, 3, 5, 4))
		plan, err := Solve(context.Background(), job, Options{})
		require.NoError(t, err)
		got, _, err := Possible(context.Background(), job, time.Minute)
		require.NoError(t, err)
		seen[got]++
		require.Equal(t, plan.Bill != nil, got == MixFound, "seed %d", seed)
	}
	assert.Positive(t, seen[MixFound])
	assert.Positive(t, seen[NoMix])
}

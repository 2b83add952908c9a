package propose

import (
	"context"
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"mediabuy/optimise/bill"
	"mediabuy/optimise/internal/model"
	"mediabuy/optimise/suitability"
	"mediabuy/quotes"
	"mediabuy/quotes/files/jobtest"
)

// One bed of 400 L in bags of 50 L from two yards. Near a purchase of eight bags of
// one, with those of the other moving, lie one to six, then seven and eight of the
// other (a quarter more than six is seven), each with as many fewer of the first;
// all of it holds the moving one.
func TestNearStarts(t *testing.T) {
	job := func(x float64) *quotes.Job {
		return jobtest.Files{
			Quotes: fmt.Sprintf("quote,supplier,medium,pack,price,size\nours,Aldermoor,grit,50 L,10.00,8-16 mm\ntheirs,Brackwell,grit,50 L,%.2f,8-16 mm\n", x),
			Beds:   "bed,volume\none,400 L\n",
			Media:  jobtest.PlainMedia,
		}.Job(t)
	}
	low, high := job(12), job(24)
	prog := model.Build(model.NewInstance(low, suitability.New(low), false), model.Options{Strong: true})
	pr, err := New(context.Background(), prog)
	require.NoError(t, err)
	defer pr.Close()
	require.True(t, pr.holdsMoving([]int{8, 0}), "nothing has to be held")
	require.Nil(t, pr.nearStarts(true))

	dearer := NewCompleter(model.Build(model.NewInstance(high, suitability.New(high), false), model.Options{Strong: true}))
	today := bill.Purchase{Items: []bill.Item{{Quote: low.Quotes[0], Steps: 8}}}
	pr.Near = NewNear(pr.Completer, dearer, []bill.Purchase{today})
	require.Equal(t, []int{1}, pr.Near.moving)
	require.Equal(t, [][]int{{8, 0}}, pr.Near.buys)
	col, ok := pr.Near.Only(pr.Completer)
	require.True(t, ok)
	require.Equal(t, "steps/theirs", prog.Cols[col].Name)
	require.False(t, pr.holdsMoving([]int{8, 0}))
	require.True(t, pr.holdsMoving([]int{7, 1}))
	pr.budget = thoroughWork
	require.Equal(t, [][]int{{7, 1}, {6, 2}, {5, 3}, {4, 4}, {3, 5}, {2, 6}, {1, 7}, {0, 8}}, pr.nearStarts(true))
	require.Nil(t, pr.nearStarts(false))
}

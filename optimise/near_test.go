package optimise

import (
	"context"
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"mediabuy/quotes"
)

// One bed of 400 L in bags of 50 L from two yards. Near a purchase of eight bags of
// one, with those of the other moving, lie one to six, then seven and eight of the
// other (a quarter more than six is seven), each with as many fewer of the first;
// all of it holds the moving one.
func TestNearStarts(t *testing.T) {
	job := func(x float64) *quotes.Job {
		return csvs{
			quotes: fmt.Sprintf("quote,supplier,medium,pack,price,size\nours,Aldermoor,grit,50 L,10.00,8-16 mm\ntheirs,Brackwell,grit,50 L,%.2f,8-16 mm\n", x),
			beds:   "bed,volume\none,400 L\n",
			media:  plainMedia,
		}.job(t)
	}
	low, high := job(12), job(24)
	prog := newProgram(newInstance(low, NewFit(low), false), buildOptions{strong: true})
	pr, err := newProposer(context.Background(), prog)
	require.NoError(t, err)
	defer pr.close()
	require.True(t, pr.holdsMoving([]int{8, 0}), "nothing has to be held")
	require.Nil(t, pr.nearStarts(true))

	dearer := newCompleter(newProgram(newInstance(high, NewFit(high), false), buildOptions{strong: true}))
	today := Purchase{Items: []Item{{Quote: low.Quotes[0], Steps: 8}}}
	pr.near = newNear(pr.completer, dearer, []Purchase{today})
	require.Equal(t, []int{1}, pr.near.moving)
	require.Equal(t, [][]int{{8, 0}}, pr.near.buys)
	col, ok := pr.near.only(pr.completer)
	require.True(t, ok)
	require.Equal(t, "steps/theirs", prog.Cols[col].Name)
	require.False(t, pr.holdsMoving([]int{8, 0}))
	require.True(t, pr.holdsMoving([]int{7, 1}))
	pr.budget = thoroughWork
	require.Equal(t, [][]int{{7, 1}, {6, 2}, {5, 3}, {4, 4}, {3, 5}, {2, 6}, {1, 7}, {0, 8}}, pr.nearStarts(true))
	require.Nil(t, pr.nearStarts(false))
}

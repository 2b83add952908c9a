package terminal

import (
	"bytes"
	"context"
	"io"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/optimise/mip"
	"mediabuy/quotes/message"
)

// Away from a terminal a search says nothing, and break-evens that take long say how far
// they are by plain lines, not at their end and not sooner than the last is old.
func TestSpinnerAwayFromATerminal(t *testing.T) {
	var errs bytes.Buffer
	s := NewSpinner(&errs)
	s.Note(mip.Progress{Nodes: 40})
	part, other := s.Part(), s.Part()
	part(1, 3)
	assert.Empty(t, errs.String(), "too soon")
	s.said, s.begun = s.said.Add(-quietAway), s.begun.Add(-quietAway)
	other(1, 4)
	part(2, 3)
	assert.Equal(t, "break-evens: 2 of 7 done after 20 s\n", errs.String())
	s.said = s.said.Add(-quietAway)
	part(3, 3)
	other(4, 4)
	s.Done()
	assert.Equal(t, "break-evens: 2 of 7 done after 20 s\nbreak-evens: 4 of 7 done after 20 s\n", errs.String())
}

func TestProgressText(t *testing.T) {
	assert.Equal(t, "searching for 2 s: 40 programs solved", progressText("searching", 2*time.Second, mip.Progress{Nodes: 40, Best: math.Inf(1)}))
	assert.Equal(t, "searching for 2 s: 40 programs solved, best 310.00, nothing below 301.50",
		progressText("searching", 2*time.Second, mip.Progress{Nodes: 40, Best: 310, Bound: 301.499}))
	assert.Equal(t, "no mix satisfies the beds; looking for what stands in the way for 2 s: 3 programs solved",
		progressText("searching", 2*time.Second, mip.Progress{Nodes: 3, Best: 12.5, Why: true}))
}

func TestGroupBarIsSilentAwayFromATerminal(t *testing.T) {
	var w bytes.Buffer
	b := NewGroupBar(&w)
	assert.Nil(t, b)
	b.Note(1, 2)
	b.Done()
	assert.Empty(t, w.String())
}

// TestAnswerFrom answers questions as at a terminal: a wrong number is asked again, an empty line leaves the rest open.
func TestAnswerFrom(t *testing.T) {
	p, err := message.Parse("Low Ford Quarry: lava $78 a yard, over 10 yards 71, over 20 yards 65", message.Options{})
	require.NoError(t, err)
	var said strings.Builder
	got, err := answerFrom(p, strings.NewReader("3\n2\n\n"), &said)
	require.NoError(t, err)
	assert.Len(t, got.Asked, 1)
	assert.Equal(t, "11: 71", got.Rows[0].Text("breaks"))
	assert.Contains(t, said.String(), `"3" is none of them; write a number from 1 to 2`)
	assert.Contains(t, said.String(), "2  from 11")
	got, err = answerFrom(p, strings.NewReader("1\n1\n"), &said)
	require.NoError(t, err)
	assert.Empty(t, got.Asked)
	assert.Equal(t, "10: 71; 20: 65", got.Rows[0].Text("breaks"))
}

// TestAnswerEndsWithAnInterrupt waits for an answer that does not come.
func TestAnswerEndsWithAnInterrupt(t *testing.T) {
	p, err := message.Parse("Low Ford Quarry: lava $78 a yard, over 10 yards 71", message.Options{})
	require.NoError(t, err)
	ctx, stop := context.WithCancel(t.Context())
	in, hold := io.Pipe()
	defer hold.Close()
	time.AfterFunc(time.Millisecond, stop)
	var said strings.Builder
	_, err = answerFrom(p, &Inlet{Context: ctx, R: in}, &said)
	require.ErrorIs(t, err, context.Canceled)
	assert.Contains(t, said.String(), "to leave it open: \n")
}

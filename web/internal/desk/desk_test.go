package desk

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/quotes/files"
	"mediabuy/web/internal/folder"
)

// full takes every slot of a desk, so that searches wait their turn until free is
// called.
func full(d *Desk) (free func()) {
	for range cap(d.slots) {
		d.slots <- struct{}{}
	}
	return func() {
		for range cap(d.slots) {
			<-d.slots
		}
	}
}

// opened is a desk and the texts of the sample job.
func opened(t *testing.T) (*Desk, folder.Texts) {
	t.Helper()
	d := New(Options{Now: func() time.Time { return time.Date(2026, 4, 6, 9, 0, 0, 0, time.UTC) }})
	t.Cleanup(d.Close)
	f, err := folder.Open("../../../testdata/demo", true)
	require.NoError(t, err)
	defer func() { require.NoError(t, f.Close()) }()
	saved, err := f.Read()
	require.NoError(t, err)
	return d, saved
}

func TestNewerRequestEndsOlder(t *testing.T) {
	d, saved := opened(t)
	free := full(d)
	older, done := d.Newest(t.Context(), "page")
	defer done()
	ended := make(chan error, 1)
	go func() {
		_, err := d.Ask(older, saved.With(files.QuotesFile, []byte("older")), false, 0)
		ended <- err
	}()
	other, doneOther := d.Newest(t.Context(), "another page")
	defer doneOther()
	newer, doneNewer := d.Newest(t.Context(), "page")
	defer doneNewer()
	assert.ErrorIs(t, <-ended, ErrSuperseded)
	assert.NoError(t, newer.Err())
	assert.NoError(t, other.Err(), "another page's request goes on")
	assert.Nil(t, d.Peek(saved.With(files.QuotesFile, []byte("older"))), "what nobody waits for is stopped and forgotten")
	free()
	a, err := d.Ask(newer, saved, false, 0)
	require.NoError(t, err)
	assert.NotNil(t, a.Plan)
}

// The search for the files as saved goes on when nobody waits, and ends when the
// files are others.
func TestSavedSearchGoesOn(t *testing.T) {
	d, saved := opened(t)
	free := full(d)
	first, err := d.Ask(t.Context(), saved, true, time.Millisecond)
	require.NoError(t, err)
	require.False(t, first.Done(), "patience ends before the answer is there")
	same, err := d.Ask(t.Context(), saved, true, time.Millisecond)
	require.NoError(t, err)
	assert.Same(t, first, same)

	next, err := d.Ask(t.Context(), saved.With(files.MediaFile, []byte("medium\n")), true, time.Millisecond)
	require.NoError(t, err)
	<-first.ready
	assert.ErrorIs(t, first.Err, ErrSuperseded, "its files are no longer those that are saved")
	free()
	<-next.ready
	assert.NoError(t, next.Err)
}

// Fifty edits at once, as one page sends them while someone types: each is answered or
// told that a newer one took its place, and nothing is left running.
func TestNothingIsLeftRunning(t *testing.T) {
	d, saved := opened(t)
	var wait sync.WaitGroup
	for i := range 50 {
		draft := saved.With(files.QuotesFile, []byte(strings.Replace(string(saved[files.QuotesFile]), "132.00", fmt.Sprintf("%d.00", 122+i), 1)))
		wait.Go(func() {
			ctx, done := d.Newest(t.Context(), "page")
			defer done()
			if _, err := d.Ask(ctx, draft, false, 0); err != nil {
				assert.ErrorIs(t, err, ErrSuperseded)
			}
		})
	}
	wait.Wait()
	d.mu.Lock()
	defer d.mu.Unlock()
	assert.Empty(t, d.lanes)
	assert.LessOrEqual(t, len(d.known), mostAnswers)
	for _, a := range d.known {
		assert.True(t, a.Done(), "a search goes on that nobody waits for")
		assert.Zero(t, a.waiting)
	}
}

func TestRememberWorksOnce(t *testing.T) {
	var m Memo
	n := 0
	work := func(context.Context) (int, error) { n++; return n, nil }
	for range 3 {
		v, err := Remember(t.Context(), &m, "x", work)
		require.NoError(t, err)
		assert.Equal(t, 1, v)
	}
	bad := errors.New("a disk is full")
	_, err := Remember(t.Context(), &m, "y", func(context.Context) (int, error) { return 0, bad })
	assert.ErrorIs(t, err, bad)
	v, err := Remember(t.Context(), &m, "y", work)
	require.NoError(t, err, "an error is not kept")
	assert.Equal(t, 2, v)

	// Who waits for another's work need not wait to the end.
	begun, end := make(chan struct{}), make(chan struct{})
	go func() {
		_, _ = Remember(context.Background(), &m, "z", func(context.Context) (int, error) { close(begun); <-end; return 0, nil })
	}()
	<-begun
	ctx, cancel := context.WithCancelCause(t.Context())
	cancel(ErrSuperseded)
	_, err = Remember(ctx, &m, "z", work)
	assert.ErrorIs(t, err, ErrSuperseded)
	close(end)
}

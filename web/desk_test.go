package web

import (
	"context"
	"errors"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/quotes/files"
)

// full takes every slot of a desk, so that searches wait their turn until free is
// called.
func full(d *desk) (free func()) {
	for range cap(d.slots) {
		d.slots <- struct{}{}
	}
	return func() {
		for range cap(d.slots) {
			<-d.slots
		}
	}
}

func (v *visitor) texts() texts {
	v.t.Helper()
	t, err := v.h.folder.read()
	require.NoError(v.t, err)
	return t
}

func TestNewerRequestEndsOlder(t *testing.T) {
	v := opened(t, Options{})
	d, saved := v.h.desk, v.texts()
	free := full(d)
	older, done := d.newest(t.Context(), "page")
	defer done()
	ended := make(chan error, 1)
	go func() {
		_, err := d.ask(older, saved.with(files.QuotesFile, []byte("older")), false, 0)
		ended <- err
	}()
	other, doneOther := d.newest(t.Context(), "another page")
	defer doneOther()
	newer, doneNewer := d.newest(t.Context(), "page")
	defer doneNewer()
	assert.ErrorIs(t, <-ended, errSuperseded)
	assert.NoError(t, newer.Err())
	assert.NoError(t, other.Err(), "another page's request goes on")
	assert.Nil(t, d.peek(saved.with(files.QuotesFile, []byte("older"))), "what nobody waits for is stopped and forgotten")
	free()
	a, err := d.ask(newer, saved, false, 0)
	require.NoError(t, err)
	assert.NotNil(t, a.plan)
}

// The search for the files as saved goes on when nobody waits, and ends when the
// files are others.
func TestSavedSearchGoesOn(t *testing.T) {
	v := opened(t, Options{})
	d, saved := v.h.desk, v.texts()
	free := full(d)
	first, err := d.ask(t.Context(), saved, true, time.Millisecond)
	require.NoError(t, err)
	require.False(t, first.done(), "patience ends before the answer is there")
	same, err := d.ask(t.Context(), saved, true, time.Millisecond)
	require.NoError(t, err)
	assert.Same(t, first, same)

	next, err := d.ask(t.Context(), saved.with(files.MediaFile, []byte("medium\n")), true, time.Millisecond)
	require.NoError(t, err)
	<-first.ready
	assert.ErrorIs(t, first.err, errSuperseded, "its files are no longer those that are saved")
	free()
	<-next.ready
	assert.NoError(t, next.err)
}

func TestBusyPageAsksAgain(t *testing.T) {
	v := opened(t, Options{})
	free := full(v.h.desk)
	page := v.get("/")
	assert.Contains(t, page, `data-part="/part/answer"`)
	assert.Contains(t, page, `<noscript><meta http-equiv="refresh"`)
	assert.NotContains(t, page, "proven")
	for _, path := range []string{"/ask", "/papers"} {
		assert.Contains(t, v.get(path), "data-again", path)
	}
	free()
	assert.Contains(t, v.get("/part/answer"), "Proven: nothing is cheaper")
	assert.NotContains(t, v.get("/"), "data-part=\"/part/answer\"")
}

func TestRememberWorksOnce(t *testing.T) {
	var m memo
	n := 0
	work := func(context.Context) (int, error) { n++; return n, nil }
	for range 3 {
		v, err := remember(t.Context(), &m, "x", work)
		require.NoError(t, err)
		assert.Equal(t, 1, v)
	}
	bad := errors.New("a disk is full")
	_, err := remember(t.Context(), &m, "y", func(context.Context) (int, error) { return 0, bad })
	assert.ErrorIs(t, err, bad)
	v, err := remember(t.Context(), &m, "y", work)
	require.NoError(t, err, "an error is not kept")
	assert.Equal(t, 2, v)

	// Who waits for another's work need not wait to the end.
	begun, end := make(chan struct{}), make(chan struct{})
	go func() {
		_, _ = remember(context.Background(), &m, "z", func(context.Context) (int, error) { close(begun); <-end; return 0, nil })
	}()
	<-begun
	ctx, cancel := context.WithCancelCause(t.Context())
	cancel(errSuperseded)
	_, err = remember(ctx, &m, "z", work)
	assert.ErrorIs(t, err, errSuperseded)
	close(end)
}

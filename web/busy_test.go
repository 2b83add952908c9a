package web

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/web/internal/folder"
)

func (v *visitor) texts() folder.Texts {
	v.t.Helper()
	t, err := v.h.folder.Read()
	require.NoError(v.t, err)
	return t
}

// A page whose answer is not there yet stands without it and asks again. The clock is
// read before a search, so one that does not answer holds the search up.
func TestBusyPageAsksAgain(t *testing.T) {
	held := make(chan struct{})
	v := opened(t, Options{Now: func() time.Time { <-held; return testDay }})
	page := v.get("/")
	assert.Contains(t, page, `data-part="/part/answer"`)
	assert.Contains(t, page, `<noscript><meta http-equiv="refresh"`)
	assert.NotContains(t, page, "proven")
	for _, path := range []string{"/ask", "/papers"} {
		assert.Contains(t, v.get(path), "data-again", path)
	}
	close(held)
	assert.Contains(t, v.get("/part/answer"), "Proven: nothing is cheaper")
	assert.NotContains(t, v.get("/"), "data-part=\"/part/answer\"")
}

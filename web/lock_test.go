package web

import (
	"fmt"
	"net/http"
	"net/url"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/quotes/files"
)

// Two pages on one folder, as two processes would have them, each with a lock of its
// own within: of two saves over the same content one wins and the other is told.
func TestTwoPagesLoseNoSave(t *testing.T) {
	dir := jobFolder(t)
	one, two := opened(t, Options{Dir: dir}), opened(t, Options{Dir: dir})
	for round := range 25 {
		forms := []url.Values{one.priced(""), two.priced("")}
		codes := make([]int, 2)
		var wait sync.WaitGroup
		for i, v := range []*visitor{one, two} {
			mine := url.Values{"tag": forms[i]["tag"], "op": {"save"}, lavaPrice: {fmt.Sprintf("%d.00", 140+2*round+i)}}
			wait.Go(func() { codes[i] = v.post("/edit/quotes", mine, false).Code })
		}
		wait.Wait()
		require.ElementsMatch(t, []int{http.StatusSeeOther, http.StatusConflict}, codes, "round %d", round)
		won := 0
		if codes[1] == http.StatusSeeOther {
			won = 1
		}
		assert.Contains(t, one.read(files.QuotesFile), fmt.Sprintf("%d.00", 140+2*round+won))
	}
}

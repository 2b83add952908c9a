package main

import (
	"io"
	"sync"
	"time"

	"github.com/schollz/progressbar/v3"
)

// groupBar tells a person at a terminal how many groups are solved.
type groupBar struct {
	mu    sync.Mutex
	w     io.Writer
	begun time.Time
	bar   *progressbar.ProgressBar // nil until something is said
}

// newGroupBar returns nil, which says nothing, when standard error is not a
// terminal.
func (a *app) newGroupBar() *groupBar {
	if _, ok := terminal(a.stderr); !ok {
		return nil
	}
	return &groupBar{w: a.stderr, begun: time.Now()}
}

// note is told after each group. The number of groups may grow.
func (b *groupBar) note(done, total int) {
	if b == nil {
		return
	}
	b.mu.Lock()
	defer b.mu.Unlock()
	if b.bar == nil {
		if time.Since(b.begun) < quiet {
			return
		}
		b.bar = progressbar.NewOptions(total, progressbar.OptionSetWriter(b.w), progressbar.OptionClearOnFinish(),
			progressbar.OptionSetDescription("groups solved"), progressbar.OptionShowCount(), progressbar.OptionSetPredictTime(true),
			progressbar.OptionThrottle(100*time.Millisecond))
	}
	if b.bar.GetMax() != total {
		b.bar.ChangeMax(total)
	}
	// The bar's only error is that the terminal cannot be written to, which loses nothing but the bar.
	_ = b.bar.Set(min(done, total-1))
}

// done takes the line away.
func (b *groupBar) done() {
	if b == nil {
		return
	}
	b.mu.Lock()
	defer b.mu.Unlock()
	if b.bar != nil {
		_ = b.bar.Finish() // as in note
	}
}

package terminal

import (
	"io"
	"sync"
	"time"

	"github.com/schollz/progressbar/v3"
)

// GroupBar tells a person at a terminal how many groups are solved.
type GroupBar struct {
	mu    sync.Mutex
	w     io.Writer
	begun time.Time
	bar   *progressbar.ProgressBar // nil until something is said
}

// NewGroupBar returns nil, which says nothing, when w is not a terminal.
func NewGroupBar(w io.Writer) *GroupBar {
	if _, ok := terminal(w); !ok {
		return nil
	}
	return &GroupBar{w: w, begun: time.Now()}
}

// Note is told after each group. The number of groups may grow.
func (b *GroupBar) Note(done, total int) {
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

// Done takes the line away.
func (b *GroupBar) Done() {
	if b == nil {
		return
	}
	b.mu.Lock()
	defer b.mu.Unlock()
	if b.bar != nil {
		_ = b.bar.Finish() // as in Note
	}
}

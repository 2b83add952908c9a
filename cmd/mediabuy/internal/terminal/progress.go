package terminal

import (
	"fmt"
	"io"
	"math"
	"sync"
	"time"

	"github.com/schollz/progressbar/v3"

	"mediabuy/optimise/mip"
)

// quiet is how long a search may take before anything is said about it.
const quiet = time.Second

// quietAway is how long break-evens may take, and how long there is silence between two
// lines about them, where nobody is at a terminal: in a log or a pipe each line stays.
const quietAway = 20 * time.Second

// Spinner tells a person at a terminal that a long search is alive. Away from one it
// tells of break-evens alone, which may take minutes, and by plain lines. Its methods
// may be called from several goroutines.
type Spinner struct {
	mu    sync.Mutex
	away  time.Duration // between plain lines; 0 at a terminal
	said  time.Time     // of the plain line before
	w     io.Writer
	begun time.Time
	task  string
	bar   *progressbar.ProgressBar // nil until something is said
	parts [][2]int                 // done and total of each part of the work
}

// NewSpinner begins to count the time.
func NewSpinner(w io.Writer) *Spinner {
	s := &Spinner{w: w, begun: time.Now(), task: "searching"}
	if _, ok := terminal(w); !ok {
		s.away, s.said = quietAway, s.begun
	}
	return s
}

// Now names what the search is for from here on.
func (s *Spinner) Now(task string) {
	if s == nil {
		return
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	s.task = task
}

// Note is told of the search now and then.
func (s *Spinner) Note(p mip.Progress) {
	if s == nil {
		return
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.away > 0 {
		return
	}
	s.show(progressText(s.task, time.Since(s.begun), p))
}

// Part gives back what one part of the break-evens tells its progress to; the line
// shows the sum over all parts.
func (s *Spinner) Part() func(done, total int) {
	if s == nil {
		return nil
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	i := len(s.parts)
	s.parts = append(s.parts, [2]int{})
	return func(done, total int) {
		s.mu.Lock()
		defer s.mu.Unlock()
		s.parts[i] = [2]int{done, total}
		done, total = 0, 0
		for _, p := range s.parts {
			done, total = done+p[0], total+p[1]
		}
		if s.away > 0 {
			s.line(done, total)
			return
		}
		s.show(fmt.Sprintf("break-evens: %d of %d done after %.0f s", done, total, time.Since(s.begun).Seconds()))
	}
}

// line writes a plain line about the break-evens, if it is time for one.
func (s *Spinner) line(done, total int) {
	if done == total || time.Since(s.said) < s.away {
		return
	}
	s.said = time.Now()
	// Standard error that cannot be written to loses nothing but the line.
	_, _ = fmt.Fprintf(s.w, "break-evens: %d of %d done after %.0f s\n", done, total, time.Since(s.begun).Seconds())
}

// show puts words on the line, once the search has taken long enough.
func (s *Spinner) show(words string) {
	if s.bar == nil {
		if time.Since(s.begun) < quiet {
			return
		}
		s.bar = progressbar.NewOptions(-1, progressbar.OptionSetWriter(s.w), progressbar.OptionClearOnFinish(),
			progressbar.OptionSetElapsedTime(false),
			progressbar.OptionThrottle(100*time.Millisecond), progressbar.OptionSpinnerType(9))
	}
	s.bar.Describe(words)
	// The bar's only error is that the terminal cannot be written to, which loses nothing but the bar.
	_ = s.bar.Add(1)
}

// progressText is the line shown: 856 programs solved is 856 linear programs.
func progressText(task string, taken time.Duration, p mip.Progress) string {
	if p.Why { // its costs are kilograms and litres that are in the way
		return fmt.Sprintf("no mix satisfies the beds; looking for what stands in the way for %.0f s: %d programs solved", taken.Seconds(), p.Nodes)
	}
	words := fmt.Sprintf("%s for %.0f s: %d programs solved", task, taken.Seconds(), p.Nodes)
	if !math.IsInf(p.Best, 1) {
		words += fmt.Sprintf(", best %.2f", p.Best)
	}
	if p.Bound > 0 && !math.IsInf(p.Bound, 1) {
		words += fmt.Sprintf(", nothing below %.2f", p.Bound)
	}
	return words
}

// Done takes the line away.
func (s *Spinner) Done() {
	if s == nil {
		return
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.bar != nil {
		_ = s.bar.Finish() // as in show
	}
}

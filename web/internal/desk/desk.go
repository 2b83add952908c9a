// Package desk has what a page answers worked out: each content of the job's files is
// solved once, nothing is searched for that nobody waits for, and what is worked out
// besides is remembered beside it.
package desk

import (
	"cmp"
	"context"
	"errors"
	"runtime"
	"slices"
	"sync"
	"time"

	"mediabuy/optimise"
	"mediabuy/optimise/risk"
	"mediabuy/quotes"
	"mediabuy/quotes/files"
	"mediabuy/units"
	"mediabuy/web/internal/folder"
)

// Answer is what one content of the files comes to. Its fields may be read once
// it is done, and do not change from then on.
type Answer struct {
	Texts folder.Texts
	ready chan struct{}

	Job  *quotes.Job // nil where the files have problems
	Rep  *quotes.Report
	Plan *optimise.Plan // nil without a job, or where time was up before any purchase was found
	Err  error          // why there is no plan although there is a job

	Currency string // of the settings, which may be sound where there is no job; "" if not

	Reached *risk.Reached // how the plan was reached; nil where none was looked for

	More Memo // what is worked out besides, when it is asked for

	Key string // names the content of the files

	// Of the desk, under its mutex.
	stop    context.CancelFunc
	waiting int  // requests that wait for it
	keep    bool // it is of the files as saved: goes on when nobody waits
}

// Done reports whether the answer is worked out.
func (a *Answer) Done() bool {
	select {
	case <-a.ready:
		return true
	default:
		return false
	}
}

// SearchLimit is how long one search may take where nobody says otherwise: a page that
// is looked at should say something within it.
const SearchLimit = 30 * time.Second

// Options say how files are read and for how long is searched.
type Options struct {
	Now       func() time.Time
	Reader    *units.System // whose habit bare words are read and told in; nil means that of the job's currency
	TimeLimit time.Duration // for each search; 0 means the job's own, or SearchLimit
}

// Desk has answers worked out: each content of the files once, however many
// requests ask for it, and not for longer than somebody wants it.
type Desk struct {
	opt   Options
	slots chan struct{} // searches that may run at a time

	mu     sync.Mutex
	closed bool
	known  []*Answer // the one asked for last at the end
	lanes  map[string]*turn
	work   sync.WaitGroup
}

// mostAnswers is how many answers are remembered: enough to go back and forth
// between a few prices without searching again.
const mostAnswers = 24

// New is a desk without answers. [Desk.Close] ends its searches.
func New(opt Options) *Desk {
	return &Desk{opt: opt, slots: make(chan struct{}, runtime.GOMAXPROCS(0)), lanes: map[string]*turn{}}
}

// Close stops every search and waits until it has.
func (d *Desk) Close() {
	d.mu.Lock()
	d.closed = true
	for _, a := range d.known {
		a.stop()
	}
	d.mu.Unlock()
	d.work.Wait()
}

// ErrSuperseded says that nobody waits for this any more.
var ErrSuperseded = errors.New("a newer request has taken the place of this one")

// Ask gives the answer to some texts, and waits for it for as long as patience
// says (0: until ctx ends). An answer that is not done by then goes on if keep is
// set, as it is for the files as saved; whatever was kept for older content is then
// let go.
func (d *Desk) Ask(ctx context.Context, t folder.Texts, keep bool, patience time.Duration) (*Answer, error) {
	a := d.take(t, keep)
	defer d.leave(a)
	var late <-chan time.Time
	if patience > 0 {
		timer := time.NewTimer(patience)
		defer timer.Stop()
		late = timer.C
	}
	select {
	case <-a.ready:
	case <-late:
	case <-ctx.Done():
		return nil, context.Cause(ctx)
	}
	return a, nil
}

// take finds the answer to texts, or starts it.
func (d *Desk) take(t folder.Texts, keep bool) *Answer {
	key := t.Key()
	d.mu.Lock()
	defer d.mu.Unlock()
	i := slices.IndexFunc(d.known, func(a *Answer) bool { return a.Key == key })
	var a *Answer
	if i >= 0 {
		a = d.known[i]
		d.known = append(slices.Delete(d.known, i, i+1), a)
	} else {
		ctx, stop := context.WithCancel(context.Background())
		a = &Answer{Texts: t, Key: key, ready: make(chan struct{}), stop: stop}
		d.known = append(d.known, a)
		if d.closed {
			stop()
		}
		d.work.Go(func() { d.solve(ctx, a) })
	}
	a.waiting++
	if keep && !a.keep {
		for _, other := range slices.Clone(d.known) {
			if other.keep {
				other.keep = false
				d.drop(other)
			}
		}
		a.keep = true
	}
	for i := 0; len(d.known) > mostAnswers && i < len(d.known); {
		if old := d.known[i]; old.Done() && !old.keep && old.waiting == 0 {
			d.known = slices.Delete(d.known, i, i+1)
			continue
		}
		i++
	}
	return a
}

// Peek is the answer to texts if it is known already, else nil.
func (d *Desk) Peek(t folder.Texts) *Answer {
	key := t.Key()
	d.mu.Lock()
	defer d.mu.Unlock()
	for _, a := range d.known {
		if a.Key == key {
			return a
		}
	}
	return nil
}

// leave is called once for each take.
func (d *Desk) leave(a *Answer) {
	d.mu.Lock()
	defer d.mu.Unlock()
	a.waiting--
	d.drop(a)
}

// drop stops and forgets a search that nobody wants. The caller holds the mutex.
func (d *Desk) drop(a *Answer) {
	if a.Done() || a.keep || a.waiting > 0 {
		return
	}
	a.stop()
	d.known = slices.DeleteFunc(d.known, func(b *Answer) bool { return b == a })
}

// solve works an answer out.
func (d *Desk) solve(ctx context.Context, a *Answer) {
	defer close(a.ready)
	defer a.stop()
	select {
	case d.slots <- struct{}{}:
		defer func() { <-d.slots }()
	case <-ctx.Done():
		a.Rep, a.Err = &quotes.Report{}, ErrSuperseded
		return
	}
	job, rep, err := files.Read(a.Texts.Files(), d.Reading())
	if err != nil {
		a.Rep, a.Err = &quotes.Report{}, err
		return
	}
	a.Job, a.Rep = job, rep
	if job == nil { // the settings may be sound by themselves
		if set, _, err := files.ReadSettings(a.Texts.Files().Settings, d.Reading()); err == nil && set != nil {
			a.Currency = set.Currency
		}
		return
	}
	a.Currency = job.Settings.Currency
	r, err := risk.Plan(ctx, job, d.Search(job))
	if err != nil {
		a.Err = err
		return
	}
	a.Job, a.Plan, a.Reached = r.Job, r.Plan, r
}

// Reading is how the job's files are read.
func (d *Desk) Reading() files.Options {
	return files.Options{Today: d.opt.Now(), Reader: d.opt.Reader}
}

// Search is how one search is to be done.
func (d *Desk) Search(job *quotes.Job) optimise.Options {
	return optimise.Options{TimeLimit: cmp.Or(d.opt.TimeLimit, job.Settings.TimeLimit, SearchLimit)}
}

// turn is the newest request of one lane.
type turn struct{ cancel context.CancelCauseFunc }

// Newest cancels the request made before in the same lane, and gives the context of
// this one. Without a lane nothing is cancelled.
func (d *Desk) Newest(ctx context.Context, lane string) (context.Context, func()) {
	ctx, cancel := context.WithCancelCause(ctx)
	me := &turn{cancel}
	if lane == "" {
		return ctx, func() { cancel(nil) }
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	if old := d.lanes[lane]; old != nil {
		old.cancel(ErrSuperseded)
	}
	d.lanes[lane] = me
	return ctx, func() {
		cancel(nil)
		d.mu.Lock()
		defer d.mu.Unlock()
		if d.lanes[lane] == me {
			delete(d.lanes, lane)
		}
	}
}

// Currency is that of the newest settings read; "" if none were.
func (d *Desk) Currency() string {
	d.mu.Lock()
	defer d.mu.Unlock()
	for _, a := range slices.Backward(d.known) {
		if a.Done() && a.Currency != "" {
			return a.Currency
		}
	}
	return ""
}

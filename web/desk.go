package web

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
)

// answer is what one content of the files comes to. Its fields may be read once
// ready is closed, and do not change from then on.
type answer struct {
	texts texts
	ready chan struct{}

	job  *quotes.Job // nil where the files have problems
	rep  *quotes.Report
	plan *optimise.Plan // nil without a job, or where time was up before any purchase was found
	err  error          // why there is no plan although there is a job

	more memo // what is worked out besides, when it is asked for

	// Of the desk, under its mutex.
	key     string
	stop    context.CancelFunc
	waiting int  // requests that wait for it
	keep    bool // it is of the files as saved: goes on when nobody waits
}

// done reports whether the answer is worked out.
func (a *answer) done() bool {
	select {
	case <-a.ready:
		return true
	default:
		return false
	}
}

// desk has answers worked out: each content of the files once, however many
// requests ask for it, and not for longer than somebody wants it.
type desk struct {
	opt   Options
	slots chan struct{} // searches that may run at a time

	mu     sync.Mutex
	closed bool
	known  []*answer // the one asked for last at the end
	lanes  map[string]*turn
	work   sync.WaitGroup
}

// mostAnswers is how many answers are remembered: enough to go back and forth
// between a few prices without searching again.
const mostAnswers = 24

func newDesk(opt Options) *desk {
	return &desk{opt: opt, slots: make(chan struct{}, runtime.GOMAXPROCS(0)), lanes: map[string]*turn{}}
}

// close stops every search and waits until it has.
func (d *desk) close() {
	d.mu.Lock()
	d.closed = true
	for _, a := range d.known {
		a.stop()
	}
	d.mu.Unlock()
	d.work.Wait()
}

// errSuperseded says that nobody waits for this any more.
var errSuperseded = errors.New("a newer request has taken the place of this one")

// ask gives the answer to some texts, and waits for it for as long as patience
// says (0: until ctx ends). An answer that is not done by then goes on if keep is
// set, as it is for the files as saved; whatever was kept for older content is then
// let go.
func (d *desk) ask(ctx context.Context, t texts, keep bool, patience time.Duration) (*answer, error) {
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
func (d *desk) take(t texts, keep bool) *answer {
	key := t.key()
	d.mu.Lock()
	defer d.mu.Unlock()
	i := slices.IndexFunc(d.known, func(a *answer) bool { return a.key == key })
	var a *answer
	if i >= 0 {
		a = d.known[i]
		d.known = append(slices.Delete(d.known, i, i+1), a)
	} else {
		ctx, stop := context.WithCancel(context.Background())
		a = &answer{texts: t, key: key, ready: make(chan struct{}), stop: stop}
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
		if old := d.known[i]; old.done() && !old.keep && old.waiting == 0 {
			d.known = slices.Delete(d.known, i, i+1)
			continue
		}
		i++
	}
	return a
}

// leave is called once for each take.
func (d *desk) leave(a *answer) {
	d.mu.Lock()
	defer d.mu.Unlock()
	a.waiting--
	d.drop(a)
}

// drop stops and forgets a search that nobody wants. The caller holds the mutex.
func (d *desk) drop(a *answer) {
	if a.done() || a.keep || a.waiting > 0 {
		return
	}
	a.stop()
	d.known = slices.DeleteFunc(d.known, func(b *answer) bool { return b == a })
}

// solve works an answer out.
func (d *desk) solve(ctx context.Context, a *answer) {
	defer close(a.ready)
	defer a.stop()
	select {
	case d.slots <- struct{}{}:
		defer func() { <-d.slots }()
	case <-ctx.Done():
		a.rep, a.err = &quotes.Report{}, errSuperseded
		return
	}
	job, rep, err := files.Read(a.texts.files(), files.Options{Today: d.opt.Now(), Reader: d.opt.Units})
	if err != nil {
		a.rep, a.err = &quotes.Report{}, err
		return
	}
	a.job, a.rep = job, rep
	if job == nil {
		return
	}
	r, err := risk.Plan(ctx, job, d.search(job))
	if err != nil {
		a.err = err
		return
	}
	a.job, a.plan = r.Job, r.Plan
}

// search is how one search is to be done.
func (d *desk) search(job *quotes.Job) optimise.Options {
	return optimise.Options{TimeLimit: cmp.Or(d.opt.TimeLimit, job.Settings.TimeLimit, SearchLimit)}
}

// turn is the newest request of one lane.
type turn struct{ cancel context.CancelCauseFunc }

// newest cancels the request made before in the same lane, and gives the context of
// this one. Without a lane nothing is cancelled.
func (d *desk) newest(ctx context.Context, lane string) (context.Context, func()) {
	ctx, cancel := context.WithCancelCause(ctx)
	me := &turn{cancel}
	if lane == "" {
		return ctx, func() { cancel(nil) }
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	if old := d.lanes[lane]; old != nil {
		old.cancel(errSuperseded)
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

// currency is that of the newest job read; "" if none was.
func (d *desk) currency() string {
	d.mu.Lock()
	defer d.mu.Unlock()
	for _, a := range slices.Backward(d.known) {
		if a.done() && a.job != nil {
			return a.job.Settings.Currency
		}
	}
	return ""
}

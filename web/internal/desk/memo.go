package desk

import (
	"context"
	"sync"
)

// Memo keeps what was worked out once, by name. The zero Memo is empty.
type Memo struct {
	mu    sync.Mutex
	slots map[string]*slot
}

// slot is one result; turn holds a token for whoever works on it.
type slot struct {
	turn  chan struct{}
	done  bool
	value any
}

// mostMemo is how many results of one answer are kept. A job has a series for each
// quote and a plan for each size asked about.
const mostMemo = 200

// Remember gives the result of a name, worked out by whoever asks first while the
// others wait. An error is not kept: the next to ask tries again.
func Remember[T any](ctx context.Context, m *Memo, name string, work func(context.Context) (T, error)) (T, error) {
	var none T
	m.mu.Lock()
	if m.slots == nil || len(m.slots) >= mostMemo {
		m.slots = map[string]*slot{}
	}
	s := m.slots[name]
	if s == nil {
		s = &slot{turn: make(chan struct{}, 1)}
		m.slots[name] = s
	}
	m.mu.Unlock()
	select {
	case s.turn <- struct{}{}:
		defer func() { <-s.turn }()
	case <-ctx.Done():
		return none, context.Cause(ctx)
	}
	if s.done {
		return s.value.(T), nil
	}
	v, err := work(ctx)
	if err != nil {
		if cause := context.Cause(ctx); cause != nil {
			return none, cause
		}
		return none, err
	}
	s.done, s.value = true, v
	return v, nil
}

package terminal

import (
	"context"
	"io"
)

// Inlet is standard input, of which nothing is waited for once the context is done:
// an interrupt ends a question as it ends a search.
type Inlet struct {
	Context context.Context
	R       io.Reader
}

func (i *Inlet) Read(p []byte) (int, error) {
	if err := i.Context.Err(); err != nil {
		return 0, err
	}
	type got struct {
		n   int
		err error
	}
	// A read that is given up may still end, so it has a buffer and a place for its answer to itself.
	own, done := make([]byte, len(p)), make(chan got, 1)
	go func() {
		n, err := i.R.Read(own)
		done <- got{n, err}
	}()
	select {
	case <-i.Context.Done():
		return 0, i.Context.Err()
	case g := <-done:
		return copy(p, own[:g.n]), g.err
	}
}

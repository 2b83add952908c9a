package terminal

import (
	"io"

	"mediabuy/disk"
)

// Outlet is standard output. It keeps the first error of writing there, so that none
// is lost on its way up, and says it in words.
type Outlet struct {
	W   io.Writer
	Err error
}

func (o *Outlet) Write(p []byte) (int, error) {
	if o.Err != nil {
		return 0, o.Err
	}
	n, err := o.W.Write(p)
	if err != nil {
		r := &disk.Refusal{Doing: "writing to", Name: "standard output", Err: err}
		if told := disk.Explain(err); told != nil {
			r.Kind = told.Kind
		}
		o.Err = r
	}
	return n, o.Err
}

// ForHelp is the outlet for what the flag library prints, such as help texts. It would
// tell an error in its own words and go on, so it hears of none: run tells them.
type ForHelp struct{ *Outlet }

func (o ForHelp) Write(p []byte) (int, error) {
	_, _ = o.Outlet.Write(p)
	return len(p), nil
}

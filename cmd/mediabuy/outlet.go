package main

import (
	"io"

	"mediabuy/disk"
)

// outlet is standard output. It keeps the first error of writing there, so that none
// is lost on its way up, and says it in words.
type outlet struct {
	w   io.Writer
	err error
}

func (o *outlet) Write(p []byte) (int, error) {
	if o.err != nil {
		return 0, o.err
	}
	n, err := o.w.Write(p)
	if err != nil {
		r := &disk.Refusal{Doing: "writing to", Name: "standard output", Err: err}
		if told := disk.Explain(err); told != nil {
			r.Kind = told.Kind
		}
		o.err = r
	}
	return n, o.err
}

// forHelp is the outlet for what the flag library prints, such as help texts. It would
// tell an error in its own words and go on, so it hears of none: run tells them.
type forHelp struct{ *outlet }

func (o forHelp) Write(p []byte) (int, error) {
	_, _ = o.outlet.Write(p)
	return len(p), nil
}

// Package terminal is the person at the terminal, or what stands in its place: how text
// for it looks, what is said while something takes long, what is asked, and what becomes
// of an answer that cannot be written.
package terminal

import (
	"io"
	"os"

	"golang.org/x/term"

	"mediabuy/cmd/mediabuy/internal/show"
	"mediabuy/units"
)

// plainWidth is the width of text that does not go to a terminal.
const plainWidth = 100

// StyleOf is how text written to out looks.
func StyleOf(out io.Writer, sys units.System) show.Style {
	st := show.Style{Colour: Coloured(out), Width: plainWidth, Units: sys}
	if fd, ok := terminal(out); ok {
		if w, _, err := term.GetSize(fd); err == nil && w > 0 {
			st.Width = w
		}
	}
	return st
}

// Coloured reports whether w may be given colour: a terminal, unless NO_COLOR
// (https://no-color.org, memory) is set or the terminal is said to be dumb.
func Coloured(w io.Writer) bool {
	_, ok := terminal(w)
	return ok && os.Getenv("NO_COLOR") == "" && os.Getenv("TERM") != "dumb"
}

// terminal is the terminal that w writes to, if it is one.
func terminal(w io.Writer) (fd int, ok bool) {
	if o, ok := w.(*Outlet); ok {
		w = o.W
	}
	f, isFile := w.(*os.File)
	if !isFile {
		return 0, false
	}
	return int(f.Fd()), term.IsTerminal(int(f.Fd()))
}

//go:build cgo && !windows

// Package beginning knows what only shows before Go begins. Its runtime opens the null
// device where standard output was closed by whoever started the program, so an answer
// written there would seem to have arrived. A look from C comes before that.
package beginning

/*
#include <errno.h>
#include <fcntl.h>

static int closed;

__attribute__((constructor)) static void look(void) {
	closed = fcntl(1, F_GETFD) == -1 && errno == EBADF;
}

static int was_closed(void) { return closed; }
*/
import "C"

// Known says that this build can tell.
const Known = true

// OutputClosed reports whether standard output was closed when the program began.
func OutputClosed() bool { return C.was_closed() != 0 }

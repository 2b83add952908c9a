package jobtest

import (
	"flag"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
)

// Long marks a test that counts out or goes through many jobs, pages or papers one after
// another. The race detector leaves it out: it looks at goroutines, and slows such a test
// tenfold without seeing more of them.
func Long(t testing.TB) {
	t.Helper()
	if race {
		t.Skip("long, left to the run without the race detector")
	}
}

// Seeds is how many random jobs a test goes through: a share that is the same each time,
// and all with NIGHTLY set, as make nightly has it.
func Seeds(share, all uint64) uint64 {
	if Nightly() {
		return all
	}
	return share
}

// Nightly is true where a test may take its time.
func Nightly() bool { return os.Getenv("NIGHTLY") != "" }

// FewerChecks makes n checks of each property in the test, where the command line does not say how many.
func FewerChecks(t testing.TB, n int) {
	f := flag.Lookup("rapid.checks")
	if f.Value.String() == f.DefValue {
		require.NoError(t, f.Value.Set(strconv.Itoa(n)))
		t.Cleanup(func() { require.NoError(t, f.Value.Set(f.DefValue)) })
	}
}

package jobtest

import (
	"flag"
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

// FewerChecks makes n checks of each property in the test, where the command line does not say how many.
func FewerChecks(t testing.TB, n int) {
	f := flag.Lookup("rapid.checks")
	if f.Value.String() == f.DefValue {
		require.NoError(t, f.Value.Set(strconv.Itoa(n)))
		t.Cleanup(func() { require.NoError(t, f.Value.Set(f.DefValue)) })
	}
}

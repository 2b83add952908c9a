package lpsolve

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"os/exec"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestManyAtOnce(t *testing.T) {
	want := make([]float64, 6)
	for k := range want {
		r := solve(t, cover(t, 14, 16, 5, uint64(k)), Options{})
		require.Equal(t, Optimal, r.Status)
		want[k] = r.Objective
	}
	var group sync.WaitGroup
	for k := range want {
		group.Go(func() {
			for range 10 {
				p := cover(t, 14, 16, 5, uint64(k))
				ctx, cancel := context.WithTimeout(context.Background(), time.Hour)
				r, err := p.Solve(ctx, Options{})
				cancel()
				assert.NoError(t, err)
				assert.Equal(t, Optimal, r.Status)
				assert.InDelta(t, want[k], r.Objective, 1e-6)
				p.Close()
			}
		})
	}
	group.Wait()
}

// A context that ends while other solves begin and end is where a flag in freed
// memory would show.
func TestCancelMany(t *testing.T) {
	var group sync.WaitGroup
	for k := range 4 {
		group.Go(func() {
			for n := range 40 {
				p := cover(t, 14, 16, 5, uint64(k))
				ctx, cancel := context.WithTimeout(context.Background(), time.Duration(n*n)*time.Microsecond)
				r, err := p.Solve(ctx, Options{})
				if err != nil {
					assert.ErrorIs(t, err, context.DeadlineExceeded)
					assert.Equal(t, Cancelled, r.Status)
				} else {
					assert.Equal(t, Optimal, r.Status)
				}
				p.Close()
				cancel()
			}
		})
	}
	group.Wait()
}

// residentKB is the memory this process holds.
func residentKB(t *testing.T) int {
	text, err := os.ReadFile("/proc/self/status")
	if err != nil {
		t.Skipf("no /proc here: %v", err)
	}
	for line := range strings.Lines(string(text)) {
		var kb int
		if n, _ := fmt.Sscanf(line, "VmRSS: %d kB", &kb); n == 1 {
			return kb
		}
	}
	t.Fatal("/proc/self/status has no VmRSS line")
	return 0
}

func TestCloseFreesMemory(t *testing.T) {
	run := func(n int) {
		for range n {
			p, err := New()
			require.NoError(t, err)
			for range 30 {
				_, err := p.AddColumn("x", 1, 0, 10, nil, nil)
				require.NoError(t, err)
			}
			_, err = p.AddRow("r", AtLeast, 5, []int{0, 29}, []float64{1, 2})
			require.NoError(t, err)
			r, err := p.Solve(context.Background(), Options{})
			require.NoError(t, err)
			require.Equal(t, Optimal, r.Status)
			p.Close()
		}
	}
	run(500) // what is allocated once
	before := residentKB(t)
	run(5000)
	// One such problem holds over 20 kB in C: 5000 left open would be 100 MB.
	assert.Less(t, residentKB(t)-before, 20_000)
}

// The library prints on both outputs unless it is told not to. A child process
// runs what makes it talk; all that may come out is the test's own verdict.
func TestQuiet(t *testing.T) {
	const child = "LPSOLVE_QUIET_CHILD"
	if os.Getenv(child) != "" {
		solve(t, long(t), Options{TimeLimit: 20 * time.Millisecond})
		solve(t, cover(t, 14, 16, 5, 1), Options{})
		q := open(t)
		col(t, q, "x", -1, 0, Infinity)
		row1(t, q, "r", AtLeast, 1, 1)
		solve(t, q, Options{})
		_, err := q.GetBasis(nil)
		assert.NoError(t, err)
		return
	}
	cmd := exec.Command(os.Args[0], "-test.run=^TestQuiet$")
	cmd.Env = append(os.Environ(), child+"=1")
	var out bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &out
	require.NoError(t, cmd.Run(), out.String())
	for line := range strings.Lines(out.String()) {
		if !strings.HasPrefix(line, "coverage:") { // with go test -cover
			assert.Equal(t, "PASS\n", line)
		}
	}
}

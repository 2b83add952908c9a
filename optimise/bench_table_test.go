package optimise

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	pretty "github.com/jedib0t/go-pretty/v6/table"
	"github.com/jedib0t/go-pretty/v6/text"
	"github.com/stretchr/testify/require"

	"mediabuy/optimise/internal/randjob"
	"mediabuy/optimise/mip/miptest"
	"mediabuy/quotes/files/jobtest"
)

// tableLimit is how long each solver may take for one job of the table.
const tableLimit = 10 * time.Second

// processRun is one run of a program: wall time and the most memory it held.
type processRun struct {
	took   time.Duration
	memory string // megabytes, "-" where /usr/bin/time is not there to tell
	out    string
	ended  bool // by itself, with a proof
}

// runProcess runs a program under /usr/bin/time where there is one: what the
// system says of a child by itself counts the memory of this process too.
func runProcess(t testing.TB, proof string, env []string, args ...string) processRun {
	told := filepath.Join(t.TempDir(), "memory")
	timed, err := exec.LookPath("/usr/bin/time")
	if err == nil {
		args = append([]string{timed, "-f", "%M", "-o", told}, args...)
	}
	cmd := exec.Command(args[0], args[1:]...)
	cmd.Env = append(os.Environ(), env...)
	start := time.Now()
	out, failed := cmd.CombinedOutput()
	r := processRun{took: time.Since(start), memory: "-", out: string(out)}
	require.NoError(t, failed, r.out)
	if err == nil {
		text, err := os.ReadFile(told)
		require.NoError(t, err)
		kilobytes, err := strconv.Atoi(strings.TrimSpace(string(text)))
		require.NoError(t, err)
		r.memory = strconv.Itoa(kilobytes / 1024)
	}
	r.ended = regexp.MustCompile(proof).MatchString(r.out)
	return r
}

// TestBenchChild is the process that the table measures: it reads the files of
// one job and plans it, and does nothing where it is not asked to.
func TestBenchChild(t *testing.T) {
	dir := os.Getenv("BENCH_CHILD")
	if dir == "" {
		t.Skip("BENCH_CHILD names no job: this is the process that BenchmarkTable measures")
	}
	var f jobtest.Files
	for name, to := range map[string]*string{"quotes.csv": &f.Quotes, "beds.csv": &f.Beds, "delivery.csv": &f.Delivery, "job.toml": &f.Settings} {
		text, err := os.ReadFile(filepath.Join(dir, name))
		require.NoError(t, err)
		*to = string(text)
	}
	plan, err := Solve(context.Background(), f.Job(t), Options{TimeLimit: tableLimit})
	if err != nil {
		require.ErrorIs(t, err, ErrNoPurchase)
		fmt.Println("nothing found in time")
		return
	}
	fmt.Println("status", plan.Status)
}

// cbcEnded is what cbc says when it ends by itself.
const cbcEnded = `Result - (Optimal solution found|Problem proven infeasible)|infeasible`

// BenchmarkTable prints, for BENCH_TABLE=1, how long this library, cbc and glpsol
// take for the same jobs, whole processes side by side: ours from the job's files,
// theirs from the plain model, in which nothing alike is merged, and at the end cbc
// from the merged one.
func BenchmarkTable(b *testing.B) {
	if os.Getenv("BENCH_TABLE") != "1" {
		b.Skip("BENCH_TABLE=1 prints the table; it takes minutes")
	}
	w := pretty.NewWriter()
	w.Style().Format.Header = text.FormatDefault
	w.AppendHeader(pretty.Row{"job", "seed", "rows × columns", "ours", "MB", "cbc", "MB", "times", "glpsol", "MB", "times", "cbc, merged"})
	limit := strconv.Itoa(int(tableLimit.Seconds()))
	for _, size := range benchSizes() {
		if size.shape.Beds > 1000 {
			continue // the plain model has millions of columns
		}
		seeds := min(size.seeds, 2)
		for seed := range uint64(seeds) {
			dir := b.TempDir()
			q, beds, d, set := randjob.Files(seed, size.shape)
			for name, text := range map[string]string{"quotes.csv": q, "beds.csv": beds, "delivery.csv": d, "job.toml": set} {
				require.NoError(b, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644))
			}
			m := ExportModel(randjob.Job(seed, size.shape), false)
			row := pretty.Row{size.name, seed, fmt.Sprintf("%d × %d", len(m.Rows), len(m.Cols))}
			path := miptest.Write(b, m, dir, "mps")
			ours := runProcess(b, `status (optimal|infeasible)`, []string{"BENCH_CHILD=" + dir}, os.Args[0], "-test.run=^TestBenchChild$", "-test.v")
			row = append(row, timeText(ours), ours.memory)
			for _, other := range []processRun{
				runProcess(b, cbcEnded, nil, miptest.Installed(b, "cbc"), path, "-ratio", "0", "-sec", limit, "-solve"),
				runProcess(b, `INTEGER OPTIMAL SOLUTION FOUND|HAS NO`, nil, miptest.Installed(b, "glpsol"), "--freemps", path, "--tmlim", limit),
			} {
				row = append(row, timeText(other), other.memory, timesText(ours, other))
			}
			merged := miptest.Write(b, ExportModel(randjob.Job(seed, size.shape), true), dir, "mps")
			row = append(row, timeText(runProcess(b, cbcEnded, nil, miptest.Installed(b, "cbc"), merged, "-ratio", "0", "-sec", limit, "-solve")))
			w.AppendRow(row)
			b.Logf("%v", row)
		}
	}
	for b.Loop() { // the table is the measurement
		runtime.Gosched()
	}
	b.ReportMetric(0, "ns/op")
	fmt.Printf("\n%s, %d processors; a time limit of %v\n%s\n", processorName(), runtime.NumCPU(), tableLimit, w.Render())
}

// timesText is how many times as long the other took, as far as two runs that may
// both have been cut short can tell.
func timesText(ours, other processRun) string {
	times := fmt.Sprintf("%.1f", other.took.Seconds()/ours.took.Seconds())
	switch {
	case !ours.ended && !other.ended:
		return "-"
	case !other.ended:
		return "> " + times
	case !ours.ended:
		return "< " + times
	}
	return times
}

func timeText(r processRun) string {
	text := fmt.Sprintf("%.3f s", r.took.Seconds())
	if !r.ended {
		return "> " + text
	}
	return text
}

// processorName is what Linux calls the machine's processor.
func processorName() string {
	text, err := os.ReadFile("/proc/cpuinfo")
	if err != nil {
		return "unknown processor"
	}
	lines := strings.Split(string(text), "\n")
	i := slices.IndexFunc(lines, func(l string) bool { return strings.HasPrefix(l, "model name") })
	if i < 0 {
		return "unknown processor"
	}
	_, name, _ := strings.Cut(lines[i], ": ")
	return name
}

package web

import (
	"fmt"
	"net/http"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"mediabuy/optimise"
	"mediabuy/quotes/files"
)

// solveAlone is how long the library takes for the sample job, reading included.
func solveAlone(b *testing.B, v *visitor) time.Duration {
	b.Helper()
	texts, err := v.h.folder.Read()
	require.NoError(b, err)
	const times = 5
	begun := time.Now()
	for range times {
		job, _, err := files.Read(texts.Files(), files.Options{Today: testDay})
		require.NoError(b, err)
		_, err = optimise.Solve(b.Context(), job, optimise.Options{})
		require.NoError(b, err)
	}
	return time.Since(begun) / times
}

// against reports the time of one operation in bare solves.
func against(b *testing.B, bare time.Duration) {
	b.ReportMetric(float64(b.Elapsed())/float64(b.N)/float64(bare), "bare-solves")
	b.ReportMetric(float64(bare.Milliseconds()), "bare-ms")
}

// From the folder to a page with its whole answer, nothing known before.
func BenchmarkPageReady(b *testing.B) {
	v := opened(b, Options{})
	bare := solveAlone(b, v)
	for b.Loop() {
		h, err := New(v.h.opt)
		require.NoError(b, err)
		fresh := &visitor{t: b, h: h, cookie: &http.Cookie{Name: v.cookie.Name, Value: h.guard.secret}}
		require.Contains(b, fresh.get("/part/answer"), "Proven")
		require.Contains(b, fresh.get("/"), "Proven")
		require.NoError(b, h.Close())
	}
	against(b, bare)
}

// An edit while typing, each to a price not seen before.
func BenchmarkEditAnswered(b *testing.B) {
	v := opened(b, Options{})
	bare := solveAlone(b, v)
	v.get("/part/strip")
	i := 0
	for b.Loop() {
		i++
		w := v.post("/try/quotes", v.priced(fmt.Sprintf("%d.%02d", 122+i/100%50, i%100)), true)
		require.True(b, strings.Contains(w.Body.String(), "proven cheapest"), w.Body.String())
	}
	against(b, bare)
}

// A place on the chart of a price, once the chart is known.
func BenchmarkSlide(b *testing.B) {
	v := opened(b, Options{})
	bare := solveAlone(b, v)
	v.get("/part/price?quote=lava-yard")
	i := 0
	for b.Loop() {
		i++
		v.get(fmt.Sprintf("/part/price?quote=lava-yard&at=%d", 100+i%80))
	}
	against(b, bare)
}

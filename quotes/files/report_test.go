package files

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/quotes"
	"mediabuy/quotes/internal/spelling"
	"mediabuy/units"
)

func TestReportErr(t *testing.T) {
	var r quotes.Report
	require.NoError(t, r.Err())
	r.Add(&quotes.Problem{Pos: quotes.Pos{File: "b.csv", Line: 2}, Severity: quotes.Error, Found: "this", Wanted: "that", Hint: "do so"})
	r.Add(&quotes.Problem{Pos: quotes.Pos{File: "a.csv", Line: 2, Col: 9}, Severity: quotes.Error, Heading: "price", Found: "that"})
	r.Add(&quotes.Problem{Pos: quotes.Pos{File: "a.csv", Line: 2, Col: 3}, Severity: quotes.Warning, Found: "by the way"})
	r.Sort([]string{"a.csv", "b.csv"})
	require.EqualError(t, r.Err(), "a.csv:2:9: price: that\nb.csv:2: this, want that\nhint: do so")
	require.Len(t, r.Warnings, 1)
	var list quotes.ProblemsError
	require.ErrorAs(t, r.Err(), &list)
	assert.Len(t, list, 2)
}

func TestQuoted(t *testing.T) {
	assert.Equal(t, `"a\n\"b"`, spelling.Quoted("a\n\"b"))
	// 59 letters and a sign of two bytes: the cut falls inside the sign and moves before it.
	assert.Equal(t, `"`+strings.Repeat("a", 59)+`…"`, spelling.Quoted(strings.Repeat("a", 59)+"éé"))
}

func TestShow(t *testing.T) {
	x := &reader{set: quotes.Settings{CurrencyDigits: 2}}
	for in, want := range map[string]string{"27.5": "27.50", "27": "27.00", "27.505": "27.505"} {
		assert.Equal(t, want, x.show(units.M(in)))
	}
}

func TestListed(t *testing.T) {
	assert.Equal(t, "a", listed([]string{"a"}))
	assert.Equal(t, "a or b", listed([]string{"a", "b"}))
	assert.Equal(t, "a, b or c", listed([]string{"a", "b", "c"}))
	assert.Equal(t, "a, b and c", listedAll([]string{"a", "b", "c"}))
}

// BenchmarkRead reads a job of a thousand quotes.
func BenchmarkRead(b *testing.B) {
	var q strings.Builder
	q.WriteString("quote,supplier,medium,pack,price,breaks,size,delivery\n")
	for i := range 1000 {
		fmt.Fprintf(&q, "q%d,Yard %d,scoria,2 cu ft,18.50,10: 16.25; 40: 15,3/8-3/4 in,60\n", i, i%40)
	}
	b.SetBytes(int64(q.Len()))
	for b.Loop() {
		if job, _ := mustRead(b, Sources{Quotes: text(q.String()), Beds: text(wholeBeds)}, Options{}); len(job.Quotes) != 1000 {
			b.Fatalf("%d quotes, want 1000", len(job.Quotes))
		}
	}
}

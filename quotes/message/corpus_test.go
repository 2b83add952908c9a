package message

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// update says that the expected answers are to be rewritten with what is read now, for review.
var update = os.Getenv("UPDATE") != ""

// TestCorpus reads invented messages in many styles. Each file of testdata/corpus holds messages of one kind; beside each
// NAME.txt stands NAME.want, its rows and what of it was not understood.
func TestCorpus(t *testing.T) {
	files, err := filepath.Glob("testdata/corpus/*.txtar")
	require.NoError(t, err)
	messages := 0
	for _, file := range files {
		ar, err := txtar.ParseFile(file)
		require.NoError(t, err)
		want := map[string]string{}
		for _, f := range ar.Files {
			want[f.Name] = string(f.Data)
		}
		out := &txtar.Archive{Comment: ar.Comment}
		for _, f := range ar.Files {
			name, ok := strings.CutSuffix(f.Name, ".txt")
			if !ok {
				continue
			}
			messages++
			text := strings.TrimSuffix(string(f.Data), "\n")
			p, err := Parse(text, Options{Delivery: true})
			require.NoError(t, err, name)
			requireSound(t, p)
			requireNarrow(t, text)
			got := summary(p)
			out.Files = append(out.Files, f, txtar.File{Name: name + ".want", Data: []byte(got)})
			if !update {
				assert.Equal(t, want[name+".want"], got, "%s: %s", file, name)
			}
		}
		if update {
			require.NoError(t, os.WriteFile(file, txtar.Format(out), 0o644))
		}
	}
	assert.GreaterOrEqual(t, messages, 60)
}

// summary sets a proposal out for comparison: a line for each row, its cautions and what it lacks, and the words not understood.
func summary(p *Proposal) string {
	var b strings.Builder
	for _, c := range p.Columns {
		fmt.Fprintf(&b, "column %d: %s (%s)\n", c.Number, c.Heading, c.Why)
	}
	rowLines(&b, "row", p.Rows, Columns)
	rowLines(&b, "delivery", p.Delivery, DeliveryColumns)
	for _, q := range p.Asked {
		fmt.Fprintf(&b, "asked: %q: %s\n", squeeze(q.Text), q.Question)
		for _, one := range q.Readings {
			fmt.Fprintf(&b, "  %s: row %d of %s: %v\n", one.Label, one.Row, one.File, one.Cells)
		}
	}
	for _, s := range p.NotUnderstood() {
		fmt.Fprintf(&b, "not understood: %q: %s\n", squeeze(s.Words), s.Why)
	}
	return b.String()
}

func rowLines(b *strings.Builder, kind string, rows []Row, columns []string) {
	for i := range rows {
		r := &rows[i]
		var cells []string
		for _, c := range columns {
			if r.Text(c) != "" {
				cells = append(cells, c+"="+r.Text(c))
			}
		}
		fmt.Fprintf(b, "%s: %s\n", kind, strings.Join(cells, " | "))
		if len(r.Missing) > 0 {
			fmt.Fprintf(b, "  missing: %s\n", strings.Join(r.Missing, ", "))
		}
		for _, c := range r.Cautions {
			fmt.Fprintf(b, "  caution: %s\n", c)
		}
	}
}

// requireNarrow reads a message for a caller who cannot show rows of delivery.csv: there are none, and no word is said to
// be in one.
func requireNarrow(t *testing.T, text string) {
	p, err := Parse(text, Options{})
	require.NoError(t, err)
	requireSound(t, p)
	require.Empty(t, p.Delivery)
}

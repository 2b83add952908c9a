package message

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"
	"github.com/stretchr/testify/require"

	"mediabuy/quotes"
	"mediabuy/units"
)

// Messages with their facts stand in testdata/told and testdata/heldback: NAME.txt is a message as people write, and
// NAME.facts what a careful person takes from it, written down before any of it was read by this package. A line is
//
//	quote: MEDIUM | heading=value | heading=value
//	other: heading=value        of a thing whose medium is not known here
//	terms: SUPPLIER | fee=value | free_over=value
//
// with the headings of quotes.csv or delivery.csv; fee is the order fee, however it is proposed, and fee|load_fee either. A
// value is v, or "a ~ b" where both say the same, or "?a ~ b" where a careful person would ask back and neither may be
// entered unanswered, or "(v)" for what may be read but need not be. Where nothing is said of a heading, a cell under it is
// wrong.

// told is a message with its facts.
type fileFacts struct {
	name, text, settings string
	quotes               []*factRow
	terms                []*factRow
}

// factRow is one line of facts.
type factRow struct {
	medium   string // of a quote
	supplier string // of terms
	facts    map[string]factValue
}

// factValue is what may stand under a heading.
type factValue struct {
	any      []string // each of them right
	asked    bool     // to be asked, and not entered
	optional bool
}

func readFacts(tb testing.TB, dir string) []fileFacts {
	names, err := filepath.Glob("testdata/" + dir + "/*.txtar")
	require.NoError(tb, err)
	var out []fileFacts
	for _, name := range names {
		raw, err := os.ReadFile(name)
		require.NoError(tb, err)
		ar := txtar.Parse(raw)
		settings := "currency = \"USD\""
		if _, job, ok := strings.Cut(string(ar.Comment), "job: "); ok {
			settings = strings.TrimSpace(job)
		}
		require.Zero(tb, len(ar.Files)%2, name)
		for i := 0; i < len(ar.Files); i += 2 {
			f := fileFacts{name: ar.Files[i].Name, text: strings.TrimSuffix(string(ar.Files[i].Data), "\n"), settings: settings + "\ndate = \"2026-05-04\"\n"}
			require.Equal(tb, strings.TrimSuffix(f.name, ".txt")+".facts", ar.Files[i+1].Name, name)
			f.read(tb, string(ar.Files[i+1].Data))
			out = append(out, f)
		}
	}
	return out
}

func (f *fileFacts) read(tb require.TestingT, lines string) {
	for line := range strings.Lines(lines) {
		kind, rest, ok := strings.Cut(strings.TrimSpace(line), ":")
		require.True(tb, ok, line)
		row := &factRow{facts: map[string]factValue{}}
		for part := range strings.SplitSeq(rest, " | ") {
			part = strings.TrimSpace(strings.TrimPrefix(strings.TrimSpace(part), "| "))
			heading, text, ok := strings.Cut(part, "=")
			switch {
			case ok:
				row.facts[strings.TrimSpace(heading)] = oneFact(text)
			case kind == "quote":
				row.medium = part
			case part != "":
				row.supplier = part
			}
		}
		switch kind {
		case "quote", "other":
			f.quotes = append(f.quotes, row)
		case "terms":
			f.terms = append(f.terms, row)
		default:
			require.Fail(tb, "no such kind of fact", line)
		}
	}
}

func oneFact(text string) factValue {
	var v factValue
	text = strings.TrimSpace(text)
	if inner, ok := strings.CutPrefix(text, "("); ok {
		text, v.optional = strings.TrimSuffix(inner, ")"), true
	}
	if inner, ok := strings.CutPrefix(text, "?"); ok {
		text, v.asked = inner, true
	}
	for one := range strings.SplitSeq(text, "~") {
		v.any = append(v.any, strings.TrimSpace(one))
	}
	return v
}

// plain sets what a cell says out for comparison.
func plain(heading, text string) string {
	o := units.Options{Mark: units.MarkPoint}
	switch heading {
	case "price", "fee", "load_fee", "free_over", "min_order", "min_qty", "max_qty", "step", "haul":
		text, _, _ = strings.Cut(text, "/")
		if m, err := units.ParseMoney(strings.TrimSpace(text), units.MarkPoint); err == nil {
			return trimNoughts(m.String())
		}
		if d, err := units.ParseNumber(strings.TrimSpace(text), units.MarkPoint); err == nil {
			return trimNoughts(d.String())
		}
	case "pack", "load_volume", "load_weight":
		if v, err := units.ParseVolume(text, o); err == nil {
			return fmt.Sprintf("%.2f L", float64(v.Value))
		}
		if w, err := units.ParseMass(text, o); err == nil {
			return fmt.Sprintf("%.2f kg", float64(w.Value))
		}
	case "size":
		if g, err := quotes.ParseGrain(text, o); err == nil {
			return fmt.Sprintf("%.2f to %.2f", float64(g.Min), float64(g.Max))
		}
	case "tax":
		return trimNoughts(strings.TrimSuffix(text, "%"))
	case "density":
		if d, err := units.ParseDensity(text, o); err == nil {
			return fmt.Sprintf("%.3f", float64(d.Value))
		}
	case "supplier":
		return strings.ToLower(squeeze(strings.TrimRight(text, " .")))
	case "breaks":
		var steps []string
		for one := range strings.SplitSeq(text, ";") {
			from, price, _ := strings.Cut(one, ":")
			steps = append(steps, plain("min_qty", strings.TrimSpace(from))+": "+plain("price", strings.TrimSpace(price)))
		}
		slices.Sort(steps)
		return strings.Join(steps, "; ")
	}
	return strings.ToLower(squeeze(text))
}

func trimNoughts(s string) string {
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}

// allows says whether a cell may say this, entered or as an answer to a question.
func (v factValue) allows(heading, text string) bool {
	got := plain(heading, text)
	for _, one := range v.any {
		want := plain(heading, one)
		if got == want {
			return true
		}
		if heading != "breaks" {
			continue
		}
		all := true // fewer breaks than were said are no wrong number
		for step := range strings.SplitSeq(got, "; ") {
			all = all && slices.Contains(strings.Split(want, "; "), step)
		}
		if all {
			return true
		}
	}
	return false
}

// surely says whether a cell holds nothing but breaks that stand in every reading of a fact that is to be asked.
func (v factValue) surely(heading, text string) bool {
	for _, one := range v.any {
		if heading != "breaks" || !(factValue{any: []string{one}}).allows(heading, text) {
			return false
		}
	}
	return true
}

// parts is how many facts a value is: each break is one.
func (v factValue) parts(heading string) int {
	if heading != "breaks" || len(v.any) > 1 {
		return 1
	}
	return 1 + strings.Count(v.any[0], ";")
}

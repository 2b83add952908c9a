package message

import (
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/quotes"
	"mediabuy/quotes/files"
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
	case "density":
		if d, err := units.ParseDensity(text, o); err == nil {
			return fmt.Sprintf("%.3f", float64(d.Value))
		}
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

// parts is how many facts a value is: each break is one.
func (v factValue) parts(heading string) int {
	if heading != "breaks" || len(v.any) > 1 {
		return 1
	}
	return 1 + strings.Count(v.any[0], ";")
}

// tally counts facts and cells.
type tally struct {
	facts, understood, asked int
	cells, wrong             int
	faults                   []string // cells that say what is not so
	lost                     []string // facts neither understood nor asked
}

func (a tally) precision() float64 { return 1 - float64(a.wrong)/float64(max(a.cells, 1)) }
func (a tally) recall() float64    { return float64(a.understood+a.asked) / float64(max(a.facts, 1)) }
func (a tally) String() string {
	return fmt.Sprintf("%d cells entered, %d wrong: precision %.1f %%; %d facts, %d understood, %d asked: recall %.1f %%",
		a.cells, a.wrong, 100*a.precision(), a.facts, a.understood, a.asked, 100*a.recall())
}

func (a *tally) add(b tally) {
	a.facts += b.facts
	a.understood += b.understood
	a.asked += b.asked
	a.cells += b.cells
	a.wrong += b.wrong
	a.faults = append(a.faults, b.faults...)
	a.lost = append(a.lost, b.lost...)
}

// entry is a row as read with its place in the facts.
type entry struct {
	row   Row
	asked map[string][]string // by heading, what questions would set
	fact  *factRow
}

// judge holds a proposal against the facts of its message.
func (f *fileFacts) judge(p *Proposal) tally {
	var t tally
	rows := f.pair(entries(p, files.QuotesFile, p.Rows))
	terms := entries(p, files.DeliveryFile, p.Delivery)
	found := map[*factRow]map[string]int{} // by fact and heading: 1 understood, 2 asked
	mark := func(r *factRow, heading string, how int) {
		if found[r] == nil {
			found[r] = map[string]int{}
		}
		if found[r][heading] == 0 || how < found[r][heading] {
			found[r][heading] = how
		}
	}
	for _, e := range rows {
		for _, heading := range Columns {
			text := e.row.Text(heading)
			if text == "" || heading == "item" || heading == "notes" || heading == "medium" {
				continue
			}
			t.cells++
			switch {
			case e.fact == nil:
				t.fault(f, heading, text, "no such quote")
			case heading == "delivery" || heading == "free_over":
				f.judgeTerms(&t, map[string]string{heading: text}, text, e.fact, mark)
			case heading == "form":
				f.judgeForm(&t, text, e.fact)
			case heading == "carbonate" && text == "untested":
			default:
				v, ok := e.fact.facts[heading]
				if !ok || v.asked || !v.allows(heading, text) {
					t.fault(f, heading, text, fmt.Sprint(v.any))
					break
				}
				mark(e.fact, heading, 1)
				if heading == "breaks" && len(v.any) == 1 {
					mark(e.fact, "breaks#", -len(strings.Split(text, ";")))
				}
			}
		}
		for heading, texts := range e.asked {
			if e.fact == nil || heading == "medium" || heading == "item" || heading == "notes" || heading == "form" {
				continue
			}
			if heading == "delivery" || heading == "free_over" {
				continue
			}
			if v, ok := e.fact.facts[heading]; ok && slices.ContainsFunc(texts, func(s string) bool { return v.allows(heading, s) }) {
				mark(e.fact, heading, 2)
			} else {
				t.fault(f, heading, strings.Join(texts, " or "), fmt.Sprintf("%v among the readings", v.any))
			}
		}
	}
	for _, e := range terms {
		cells := map[string]string{}
		for _, heading := range DeliveryColumns {
			if text := e.row.Text(heading); text != "" && heading != "supplier" && heading != "name" {
				cells[heading] = text
				t.cells++
			}
		}
		f.judgeTerms(&t, cells, e.row.Text("supplier"), nil, mark)
		for heading, texts := range e.asked {
			for _, text := range texts {
				for _, r := range f.terms {
					if v, ok := r.fee(heading); ok && v.allows(heading, text) {
						mark(r, r.key(heading), 2)
					}
				}
			}
		}
	}
	for _, e := range rows {
		for heading, texts := range e.asked {
			for _, text := range texts {
				for _, r := range f.terms {
					if v, ok := r.fee(heading); ok && v.allows(r.key(heading), text) {
						mark(r, r.key(heading), 2)
					}
				}
			}
		}
	}
	f.count(&t, rows, found)
	return t
}

func (t *tally) fault(f *fileFacts, heading, got, want string) {
	t.wrong++
	t.faults = append(t.faults, fmt.Sprintf("%s: %s = %q, want %s", f.name, heading, got, want))
}

// count counts the facts found.
func (f *fileFacts) count(t *tally, rows []*entry, found map[*factRow]map[string]int) {
	one := func(name, heading string, v factValue, how, steps int) {
		if v.optional {
			return
		}
		n := v.parts(heading)
		t.facts += n
		switch how {
		case 1:
			if heading == "breaks" && len(v.any) == 1 {
				t.lose(f, name+" some breaks", n-steps)
				n = steps
			}
			t.understood += n
		case 2:
			t.asked += n
		default:
			t.lose(f, fmt.Sprintf("%s %s=%v", name, heading, v.any), n)
		}
	}
	suppliers := map[string]bool{} // said, and whether every row found has it
	for _, r := range f.quotes {
		if r.medium == "" {
			continue
		}
		at := slices.IndexFunc(rows, func(e *entry) bool { return e.fact == r })
		if at < 0 || rows[at].row.Text("medium") == "" {
			one(r.medium, "medium", factValue{any: []string{r.medium}}, 0, 0)
		} else {
			one(r.medium, "medium", factValue{}, 1, 0)
		}
		for _, heading := range slices.Sorted(maps.Keys(r.facts)) {
			v := r.facts[heading]
			if heading == "form" {
				continue // it follows from the pack unless it is said, and is judged where it is read
			}
			if heading == "supplier" {
				if !v.optional {
					all, seen := suppliers[v.any[0]]
					suppliers[v.any[0]] = (all || !seen) && found[r]["supplier"] == 1
				}
				continue
			}
			one(r.medium, heading, v, found[r][heading], -found[r]["breaks#"])
		}
	}
	for _, name := range slices.Sorted(maps.Keys(suppliers)) {
		how := 0
		if suppliers[name] {
			how = 1
		}
		one("supplier", name, factValue{any: []string{name}}, how, 0)
	}
	for _, r := range f.terms {
		for _, heading := range slices.Sorted(maps.Keys(r.facts)) {
			if heading != "covers" {
				one("terms", heading, r.facts[heading], found[r][heading], 0)
			}
		}
	}
}

func (t *tally) lose(f *fileFacts, what string, n int) {
	if n > 0 {
		t.lost = append(t.lost, f.name+": "+what)
	}
}

// entries are the rows of a file with what questions would set in them; a question may bring a row of its own.
func entries(p *Proposal, file string, rows []Row) []*entry {
	var out []*entry
	for i := range rows {
		out = append(out, &entry{row: rows[i], asked: map[string][]string{}})
	}
	for _, q := range p.Asked {
		for _, one := range q.Readings {
			if one.File != file {
				continue
			}
			if one.Row > len(out) {
				out = append(out, &entry{row: Row{Cells: map[string]Cell{}}, asked: map[string][]string{}})
			}
			for heading, text := range one.Cells {
				out[one.Row-1].asked[heading] = append(out[one.Row-1].asked[heading], text)
			}
		}
	}
	return out
}

// pair gives each row the quote among the facts that it agrees with best.
func (f *fileFacts) pair(rows []*entry) []*entry {
	taken := map[*factRow]bool{}
	for {
		var best *entry
		var with *factRow
		score := 0
		for _, e := range rows {
			if e.fact != nil {
				continue
			}
			for _, q := range f.quotes {
				if medium := e.medium(); taken[q] || medium != q.medium && medium != "" {
					continue
				}
				if n := e.agrees(q); n > score {
					best, with, score = e, q, n
				}
			}
		}
		if best == nil {
			return rows
		}
		best.fact = with
		taken[with] = true
	}
}

func (e *entry) medium() string {
	if len(e.asked["medium"]) > 0 {
		return e.asked["medium"][0]
	}
	return e.row.Text("medium")
}

func (e *entry) agrees(q *factRow) int {
	n := 1
	if e.medium() == q.medium {
		n += 3
	}
	for heading, weight := range map[string]int{"price": 5, "pack": 5, "size": 3, "supplier": 5, "form": 2, "breaks": 1} {
		texts := slices.Clone(e.asked[heading])
		if t := e.row.Text(heading); t != "" {
			texts = append(texts, t)
		}
		for _, text := range texts {
			if q.facts[heading].allows(heading, text) {
				n += weight
				break
			}
		}
	}
	return n
}

// fee is the fact of a row of terms for a heading, where fee|load_fee stands for both.
func (r *factRow) fee(heading string) (factValue, bool) {
	v, ok := r.facts[r.key(heading)]
	return v, ok
}

func (r *factRow) key(heading string) string {
	if heading == "delivery" || heading == "order_fee" {
		heading = "fee"
	}
	for key := range r.facts {
		if slices.Contains(strings.Split(key, "|"), heading) {
			return key
		}
	}
	return heading
}

// judgeTerms holds terms against those of the supplier, of a quote where the cells stand in its row.
func (f *fileFacts) judgeTerms(t *tally, cells map[string]string, supplier string, quote *factRow, mark func(*factRow, string, int)) {
	if quote != nil {
		supplier = ""
		if v, ok := quote.facts["supplier"]; ok {
			supplier = v.any[0]
		}
	}
	var best *factRow
	most := -1
	for _, r := range f.terms {
		if supplier != "" && r.supplier != "" && plain("supplier", supplier) != plain("supplier", r.supplier) {
			continue
		}
		n := 0
		for heading, text := range cells {
			if v, ok := r.fee(heading); ok && !v.asked && v.allows(plainHeading(heading), text) {
				n++
			}
		}
		if n > most {
			best, most = r, n
		}
	}
	for heading, text := range cells {
		if best == nil {
			t.fault(f, heading, text, "no such terms of "+supplier)
			continue
		}
		v, ok := best.fee(heading)
		switch {
		case heading == "covers" && !ok:
		case !ok || v.asked || !v.allows(plainHeading(heading), text):
			t.fault(f, heading, text, fmt.Sprint(v.any))
		default:
			mark(best, best.key(heading), 1)
		}
	}
}

// plainHeading is the heading by which terms are compared.
func plainHeading(heading string) string {
	if heading == "delivery" || heading == "order_fee" {
		return "fee"
	}
	return heading
}

// judgeForm holds a form against the fact, or against what the pack says by itself.
func (f *fileFacts) judgeForm(t *tally, text string, q *factRow) {
	if v, ok := q.facts["form"]; ok {
		if !v.allows("form", text) {
			t.fault(f, "form", text, fmt.Sprint(v.any))
		}
		return
	}
	want := "bag"
	for _, bulk := range []string{"yd3", "m3", "ton"} {
		if pack := q.facts["pack"]; len(pack.any) > 0 && strings.HasSuffix(strings.TrimSuffix(pack.any[0], "ne"), bulk) {
			want = "bulk"
		}
	}
	if text != want {
		t.fault(f, "form", text, want)
	}
}

// measure reads every message of a folder as a job in its habit would.
func measure(tb testing.TB, dir string) (tally, int) {
	var all tally
	told := readFacts(tb, dir)
	for _, f := range told {
		p, err := Parse(f.text, Options{Delivery: true, Settings: files.Source{Name: "job.toml", R: strings.NewReader(f.settings)}})
		require.NoError(tb, err, f.name)
		requireWhole(tb, p)
		all.add(f.judge(p))
	}
	return all, len(told)
}

// TestNoWrongFact reads messages whose facts were written down beforehand: no cell may say what is not so. How much is
// found is measured by BenchmarkFacts.
//
// Before the reader was mended by them, the messages of told had a precision of 91.7 % and a recall of 60.4 %. Those of
// heldback were written after that and read once before anything was mended by them: precision 92.3 %, recall 73.1 %.
// What stood in wrong cells there was then mended too, so only that first figure tells of messages nobody here has seen.
// Those of fresh were written later, in more habits and without a look at the rules: precision 95.3 % (17 of 359 cells
// wrong), recall 54.8 % (375 of 684 facts) at first sight. Those of later came after the reader was mended by these, and were
// made as unruly as could be: precision 86.9 % (26 of 199 cells), recall 55.7 % (200 of 359 facts) at first sight. What is
// measured of any of them now is no measure of messages nobody here has seen.
func TestNoWrongFact(t *testing.T) {
	messages := 0
	for _, dir := range []string{"told", "heldback", "fresh", "later"} {
		got, n := measure(t, dir)
		messages += n
		assert.Empty(t, got.faults, dir)
		assert.GreaterOrEqual(t, got.recall(), map[string]float64{"told": 0.90, "heldback": 0.85, "fresh": 0.85, "later": 0.68}[dir], "facts that were read once are read still: %v", got.lost)
		t.Logf("%s: %d messages: %v", dir, n, got)
		if os.Getenv("LOST") != "" {
			for _, s := range got.lost {
				t.Log("lost: " + s)
			}
		}
	}
	assert.GreaterOrEqual(t, messages, 150)
}

// BenchmarkFacts measures how much of the messages is read rightly: precision is the share of cells that are among the
// facts, recall the share of facts that are understood or asked, both in percent.
func BenchmarkFacts(b *testing.B) {
	for _, dir := range []string{"told", "heldback", "fresh", "later"} {
		b.Run(dir, func(b *testing.B) {
			var got tally
			var n int
			for range b.N {
				got, n = measure(b, dir)
			}
			b.ReportMetric(100*got.precision(), "%precision")
			b.ReportMetric(100*got.recall(), "%recall")
			b.ReportMetric(float64(n), "messages")
			b.ReportMetric(float64(got.facts), "facts")
		})
	}
}

package message

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"mediabuy/quotes/files"
)

// tally counts facts and cells.
type tally struct {
	facts, understood, asked int
	idle                     int // questions with an answer that leaves the part out, as it should be
	cells, wrong             int
	faults                   []string // cells that say what is not so
	lost                     []string // facts neither understood nor asked
}

func (a tally) precision() float64 { return 1 - float64(a.wrong)/float64(max(a.cells, 1)) }
func (a tally) recall() float64    { return float64(a.understood+a.asked) / float64(max(a.facts, 1)) }
func (a tally) String() string {
	return fmt.Sprintf("%d cells entered, %d wrong: precision %.1f %%; %d facts, %d understood, %d asked, %d of it idly: recall %.1f %%",
		a.cells, a.wrong, 100*a.precision(), a.facts, a.understood, a.asked, a.idle, 100*a.recall())
}

func (a *tally) add(b tally) {
	a.facts += b.facts
	a.understood += b.understood
	a.asked += b.asked
	a.idle += b.idle
	a.cells += b.cells
	a.wrong += b.wrong
	a.faults = append(a.faults, b.faults...)
	a.lost = append(a.lost, b.lost...)
}

// entry is a row as read with its place in the facts.
type entry struct {
	row   Row
	asked map[string][]string // by heading, what questions would set
	open  bool                // one of the readings leaves it out
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
				if ok && v.asked && v.surely(heading, text) {
					break // which of the breaks said is asked, but not of this one
				}
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
			if e.open && heading == "price" && (e.fact == nil || !slices.ContainsFunc(texts, func(s string) bool { return e.fact.facts["price"].allows("price", s) })) {
				t.idle++
			}
			if e.fact == nil || heading == "medium" || heading == "item" || heading == "notes" || heading == "form" {
				continue
			}
			if heading == "delivery" || heading == "free_over" {
				continue
			}
			if v, ok := e.fact.facts[heading]; ok && slices.ContainsFunc(texts, func(s string) bool { return v.allows(heading, s) }) {
				mark(e.fact, heading, 2)
			} else if !e.open {
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
					if v, ok := r.fee(heading); ok && v.allows(plainHeading(heading), text) {
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
	suppliers := map[string]int{} // said, and how the row tells that tells it least
	for _, r := range f.quotes {
		if r.medium == "" {
			continue
		}
		at := slices.IndexFunc(rows, func(e *entry) bool { return e.fact == r })
		switch {
		case at < 0 || rows[at].medium() == "":
			one(r.medium, "medium", factValue{any: []string{r.medium}}, 0, 0)
		case rows[at].row.Text("medium") == "":
			one(r.medium, "medium", factValue{}, 2, 0)
		default:
			one(r.medium, "medium", factValue{}, 1, 0)
		}
		for _, heading := range slices.Sorted(maps.Keys(r.facts)) {
			v := r.facts[heading]
			if heading == "form" {
				continue // it follows from the pack unless it is said, and is judged where it is read
			}
			if heading == "supplier" {
				if !v.optional {
					how, seen := suppliers[v.any[0]]
					if now := found[r]["supplier"]; !seen || how > 0 && (now == 0 || now > how) {
						how = now
					}
					suppliers[v.any[0]] = how
				}
				continue
			}
			one(r.medium, heading, v, found[r][heading], -found[r]["breaks#"])
		}
	}
	for _, name := range slices.Sorted(maps.Keys(suppliers)) {
		one("supplier", name, factValue{any: []string{name}}, suppliers[name], 0)
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
		fresh := -1 // one row of its own, whichever reading it is
		var all []Change
		for _, one := range q.Readings {
			all = append(all, one.Changes()...)
		}
		for _, one := range all {
			if one.File != file || len(one.Cells) == 0 {
				continue
			}
			at := one.Row - 1
			if one.New && fresh >= 0 {
				at = fresh
			} else if one.New {
				at, fresh = len(out), len(out)
				out = append(out, &entry{row: Row{Cells: map[string]Cell{}}, asked: map[string][]string{}})
			}
			out[at].open = out[at].open || slices.ContainsFunc(q.Readings, func(r Reading) bool { return len(r.Cells) == 0 })
			for _, i := range append([]int{at}, one.Also...) {
				if i != at {
					i--
					out[i].open = out[at].open
				}
				for heading, text := range one.Cells {
					out[i].asked[heading] = append(out[i].asked[heading], text)
				}
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

package message

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"

	"mediabuy/quotes/files"
	"mediabuy/units"
)

// Asked is the use of a part of the message that reads in two ways or three: see [Proposal.Asked].
const Asked Use = "asked"

// Question is a part of the message with several possible readings. None of them is in the rows until it is answered.
type Question struct {
	Text string `json:"text"` // the part itself
	Range
	Question string    `json:"question"`
	Readings []Reading `json:"readings"` // two or more

	choice *choice
	base   int // where the message begins that it stands in
}

// Reading is one answer to a question, as cells that it would set.
type Reading struct {
	Label string `json:"label"`
	Change
	More []Change `json:"more,omitempty"` // what it sets in other rows beside, where that is not the same

	answer int // its number among those of the choice
}

// Change is cells that an answer would set in one row.
type Change struct {
	File  string            `json:"file"`
	Row   int               `json:"row"`           // from 1
	New   bool              `json:"new,omitempty"` // a row of its own in that place, which moves those from there on
	Cells map[string]string `json:"cells"`         // none in a reading that leaves the part out
	// Also are other rows of that file which the same cells are set in. A supplier stands in its rows of delivery.csv as well.
	Also []int `json:"also,omitempty"`
}

// Changes are all that a reading sets, the first of them its own.
func (g Reading) Changes() []Change { return append([]Change{g.Change}, g.More...) }

// Sets says what a reading sets, and where: "breaks 10: 71 in row 2 for quotes.csv"; "" for one that leaves the part out.
func (g Reading) Sets() string {
	var all []string
	for _, c := range g.Changes() {
		var cells []string
		for _, column := range slices.Sorted(maps.Keys(c.Cells)) {
			cells = append(cells, column+" "+c.Cells[column])
		}
		all = append(all, strings.TrimSpace(strings.Join(cells, ", ")+" "+c.Place()))
	}
	return strings.Join(all, "; ")
}

// moved is the change with so many rows of each file before its own.
func (g Change) moved(before map[string]int) Change {
	g.Row += before[g.File]
	g.Also = slices.Clone(g.Also)
	for i := range g.Also {
		g.Also[i] += before[g.File]
	}
	return g
}

// Place says where cells go: "in row 2 for quotes.csv"; "" where there are none.
func (g Change) Place() string {
	if len(g.Cells) == 0 {
		return ""
	}
	if g.New {
		return "in a row of its own for " + g.File
	}
	if len(g.Also) > 0 {
		return fmt.Sprintf("in rows %s for %s", strings.Trim(strings.ReplaceAll(fmt.Sprint(append([]int{g.Row}, g.Also...)), " ", ", "), "[]"), g.File)
	}
	return fmt.Sprintf("in row %d for %s", g.Row, g.File)
}

// maxAsked is how many questions are put at once. Each reading is read with the whole message, so they keep the work in
// step with its length; what is not asked in one round is asked in the next.
const maxAsked = 8

// choice is what a fact would ask. Several facts may share one.
type choice struct {
	Range
	key      int // the byte where the rule that doubts began
	question string
	labels   []string
	costly   int
	money    units.Money         // of the costliest
	sets     []map[answerKey]int // what each label answers, where that is not its number under key
	leaves   bool                // the last label leaves the part out
}

// answerKey is what an answer is kept under: the byte where the rule that doubts began, and whether what it read was doubted
// after that.
type answerKey struct {
	at    int
	doubt bool
}

// answers are what reading i of a choice says, for a message that begins at byte base.
func (c *choice) answers(i, base int) map[answerKey]int {
	if c.sets == nil {
		return map[answerKey]int{{c.key + base, false}: i}
	}
	out := map[answerKey]int{}
	for k, v := range c.sets[i] {
		out[answerKey{k.at + base, k.doubt}] = v
	}
	return out
}

// source is a message with what was answered, which can be read again.
type source struct {
	text    string
	given   string
	wide    bool
	job     job
	answers map[answerKey]int // of a choice, the reading from 0
	matched matched           // by the rules so far, in whatever reading of it
	base    int               // where it begins in a paste of several messages
	speaker Range             // the company that it names as one of several in a talk
	headed  bool              // which heads all of it
}

// read reads the message and finds what to ask.
func (src *source) read() (*Proposal, error) {
	parts := src.letters()
	if parts == nil {
		return src.readOne()
	}
	var out []*Proposal
	for _, part := range parts {
		one, err := part.readOne()
		if err != nil {
			return nil, err
		}
		out = append(out, one)
	}
	p := join(src.text, parts, out)
	p.from = src
	return p, nil
}

// readOne reads the source as one message.
func (src *source) readOne() (*Proposal, error) {
	r, drafts, err := src.once()
	if err != nil {
		return nil, err
	}
	p := r.proposal(drafts)
	p.from = src
	if err := src.ask(r, p, drafts); err != nil {
		return nil, err
	}
	return p, nil
}

// ask puts the choices of a reading to which each answer sets cells of one row, and differs from the others.
func (src *source) ask(r *reading, p *Proposal, drafts []*draft) error {
	p.Asked = []Question{}
	tried := map[*choice]bool{}
	for _, c := range r.all {
		for _, f := range c.facts {
			if f.ask == nil || tried[f.ask] || len(tried) == maxAsked || c.poison != "" && !f.ask.leaves {
				continue
			}
			tried[f.ask] = true
			q, ok, err := src.question(p, f.ask)
			if err != nil {
				return err
			}
			if ok {
				p.Asked = append(p.Asked, q)
			}
		}
	}
	if len(p.Asked) == 0 {
		return nil
	}
	slices.SortStableFunc(p.Asked, func(a, b Question) int { return a.From - b.From })
	for _, c := range r.all {
		for _, f := range c.facts {
			f.asked = f.ask != nil && slices.ContainsFunc(p.Asked, func(q Question) bool { return q.choice == f.ask })
		}
	}
	r.setOut(p, drafts)
	return nil
}

// question reads the message once for each answer to a choice.
func (src *source) question(p *Proposal, c *choice) (Question, bool, error) {
	q := Question{Text: p.Text[c.From:c.To], Range: c.Range, Question: c.question, choice: c}
	for i, label := range c.labels {
		if c.leaves && i == len(c.labels)-1 {
			first := q.Readings[0]
			q.Readings = append(q.Readings, Reading{Label: label, Change: Change{File: first.File, Row: first.Row, New: first.New, Cells: map[string]string{}}, answer: i})
			break
		}
		r, drafts, err := src.with(c.answers(i, 0)).once()
		if err != nil {
			return q, false, err
		}
		got, ok := changes(p, r.proposal(drafts))
		if !ok {
			return q, false, nil
		}
		got.Label, got.answer = label, i
		if !slices.ContainsFunc(q.Readings, func(o Reading) bool { return o.Sets() == got.Sets() }) {
			q.Readings = append(q.Readings, got)
		}
	}
	return q, len(q.Readings) > 1, nil
}

func (src *source) with(answers map[answerKey]int) *source {
	out := *src
	out.answers = maps.Clone(src.answers)
	if out.answers == nil {
		out.answers = map[answerKey]int{}
	}
	maps.Copy(out.answers, answers)
	return &out
}

// changes are what a proposal sets that another does not; false when it takes anything away, or sets nothing.
func changes(from, to *Proposal) (Reading, bool) {
	var all []Change
	for _, f := range []struct {
		file string
		a, b []Row
	}{{files.QuotesFile, from.Rows, to.Rows}, {files.DeliveryFile, from.Delivery, to.Delivery}} {
		a, fresh := f.a, -1
		if len(f.b) == len(a)+1 { // a row of its own
			fresh = 0
			for fresh < len(a) && equalCells(a[fresh], f.b[fresh]) {
				fresh++
			}
			a = slices.Insert(slices.Clone(a), fresh, Row{})
		}
		if len(a) != len(f.b) {
			return Reading{}, false
		}
		for i := range a {
			if equalCells(a[i], f.b[i]) {
				continue
			}
			if fresh >= 0 && i != fresh {
				return Reading{}, false // which of them is the new one is not plain
			}
			for column := range a[i].Cells {
				if f.b[i].Text(column) == "" {
					return Reading{}, false
				}
			}
			one := Change{File: f.file, Row: i + 1, New: i == fresh, Cells: map[string]string{}}
			for column, cell := range f.b[i].Cells {
				if a[i].Text(column) != cell.Text {
					one.Cells[column] = cell.Text
				}
			}
			same := slices.IndexFunc(all, func(c Change) bool { return !c.New && !one.New && maps.Equal(c.Cells, one.Cells) })
			switch {
			case same < 0:
				all = append(all, one)
			case all[same].File == f.file:
				all[same].Also = append(all[same].Also, i+1)
			case one.Cells["supplier"] == "": // else said with the rows of quotes.csv
				all = append(all, one)
			}
		}
	}
	if len(all) == 0 {
		return Reading{}, false
	}
	return Reading{Change: all[0], More: all[1:]}, true
}

func equalCells(a, b Row) bool {
	return maps.EqualFunc(a.Cells, b.Cells, func(x, y Cell) bool { return x.Text == y.Text })
}

// ErrNoSuchAnswer is the error for an answer to a question or a reading that there is not.
var ErrNoSuchAnswer = errors.New("there is no such answer")

// Answer is the proposal with a question answered, both counted from 0. What is left to ask stands in its Asked, where
// questions may have moved. The error is ErrNoSuchAnswer, or comes from reading the message again.
func (p *Proposal) Answer(question, reading int) (*Proposal, error) {
	if p.from == nil || question < 0 || question >= len(p.Asked) {
		return nil, fmt.Errorf("%w: question %d of %d", ErrNoSuchAnswer, question+1, len(p.Asked))
	}
	q := p.Asked[question]
	if reading < 0 || reading >= len(q.Readings) {
		return nil, fmt.Errorf("%w: reading %d, want 1 to %d", ErrNoSuchAnswer, reading+1, len(q.Readings))
	}
	return p.from.with(q.choice.answers(q.Readings[reading].answer, q.base)).read()
}

// either asks which of several readings of a match holds, the last of which costs most. Once answered it gives the number of the
// reading and no fact.
func (s *scanner) either(m match, why, question string, labels ...string) (reading int, open *fact) {
	reading, answered := s.answers[answerKey{m.at, false}]
	if !answered {
		open = &fact{kind: anUnclear, why: why, ask: &choice{Range: Range{m.at, m.end()}, key: m.at, question: question, labels: labels, costly: len(labels) - 1}}
	}
	return reading, open
}

// perhaps is a fact that a rule is not certain of: it is asked, and left out until it is answered to hold.
func (s *scanner) perhaps(f *fact, part Range, why, question, label string) *fact {
	reading, answered := s.answers[answerKey{part.From, false}]
	switch {
	case answered && reading == 0:
		f.Range, f.why = part, f.why+", as answered"
		return f
	case answered:
		return &fact{kind: anUnclear, Range: part, why: why}
	}
	return &fact{kind: anUnclear, Range: part, why: why, ask: &choice{Range: part, key: part.From, question: question, labels: []string{label, leftOut}, costly: 1, leaves: true}}
}

// overBreak is "over 10 yards 61", of which it is not said whether the tenth yard has that price.
func overBreak(s *scanner, m match) (*fact, bool) {
	f := &fact{kind: aBreak, why: "a price from a number of packs on"}
	if m.has("bare") && !m.has("c") { // "44 over 10", of what is not said
		return nil, false
	}
	if s.goesOn(m.end()) || s.broken(m, f) != "" || !plainCount(f.from.text) {
		return unclearFact(overReason)
	}
	next := count{value: f.from.value.Add(oneUnit)}
	next.text = next.value.String()
	reading, open := s.either(m, overReason, fmt.Sprintf("is this the price from %s on, or only above that?", m.text("n")), "from "+m.text("n"), "from "+next.text)
	if open != nil {
		return open, true
	}
	if reading == 1 {
		f.from = next
	}
	f.why += ", as answered"
	return f, true
}

// plainCount says whether a number of packs is written in digits alone.
func plainCount(text string) bool { return strings.Trim(text, "0123456789") == "" }

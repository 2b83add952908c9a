package document

import (
	"mediabuy/optimise/breakeven"
	"mediabuy/optimise/talk"
	"mediabuy/units"
)

// Talks is the machine-readable answer of request --again. Money has the currency's
// digits; lists are never null.
type Talks struct {
	Currency string   `json:"currency"`
	Talks    []Talk   `json:"talks"`
	Files    []string `json:"files"`
}

// Talk is what may be told to one supplier.
type Talk struct {
	Supplier  string      `json:"supplier"`
	Lines     []talkLine  `json:"lines"`
	OffAll    []talkOff   `json:"off_all"`
	Extras    []talkExtra `json:"extras"`
	Refused   []string    `json:"refused"`
	Unsettled []string    `json:"unsettled"`
}

type talkLine struct {
	Quote string     `json:"quote"`
	Price string     `json:"price"`
	Packs float64    `json:"packs"`
	Steps []talkStep `json:"steps"`
}

type talkStep struct {
	Price  string      `json:"price"`
	Breaks []talkBreak `json:"breaks"`
	talkTaken
}

type talkBreak struct {
	From  float64 `json:"from"`
	Price string  `json:"price"`
}

type talkTaken struct {
	Buy []breakeven.DocumentBought `json:"buy"`
	All bool                       `json:"all_we_need"`
}

type talkOff struct {
	Percent string `json:"percent"`
	talkTaken
}

type talkExtra struct {
	Term  string     `json:"term"` // "free_delivery" or "step"
	Quote string     `json:"quote,omitempty"`
	Step  float64    `json:"step,omitempty"`
	Worth string     `json:"worth"`
	At    []talkLine `json:"at"`
	talkTaken
}

// NewTalks sets out the talks.
func NewTalks(talks []*talk.Talk, files []string) Talks {
	doc := Talks{Talks: []Talk{}, Files: append([]string{}, files...)}
	for _, t := range talks {
		doc.Currency = t.Job.Settings.Currency
		digits := t.Job.Settings.CurrencyDigits
		out := Talk{Supplier: t.Supplier, Lines: linesOf(t.Lines, digits), OffAll: []talkOff{}, Extras: []talkExtra{}, Refused: []string{}, Unsettled: append([]string{}, t.Open...)}
		for _, o := range t.All {
			out.OffAll = append(out.OffAll, talkOff{o.Share.Mul(units.DecimalFromInt(100)).Text(1), takenOf(o.Taken)})
		}
		for _, e := range t.Extras {
			x := talkExtra{Term: "free_delivery", Worth: e.Worth.Text(digits), At: linesOf(e.At, digits), talkTaken: takenOf(e.Taken)}
			if e.Kind == talk.HalfStep {
				x.Term, x.Quote, x.Step = "step", e.Quote.Name, e.Step.Float()
			}
			out.Extras = append(out.Extras, x)
		}
		for _, q := range t.Refused {
			out.Refused = append(out.Refused, q.Name)
		}
		doc.Talks = append(doc.Talks, out)
	}
	return doc
}

func linesOf(lines []talk.Line, digits int) []talkLine {
	out := []talkLine{}
	for _, l := range lines {
		x := talkLine{Quote: l.Quote.Name, Price: l.Quote.Price.Text(digits), Packs: l.Now.Float(), Steps: []talkStep{}}
		for _, s := range l.Steps {
			step := talkStep{Price: s.Price.Text(digits), Breaks: []talkBreak{}, talkTaken: takenOf(s.Taken)}
			for _, b := range s.Breaks {
				step.Breaks = append(step.Breaks, talkBreak{b.From.Float(), b.Price.Text(digits)})
			}
			x.Steps = append(x.Steps, step)
		}
		out = append(out, x)
	}
	return out
}

func takenOf(t talk.Taken) talkTaken {
	out := talkTaken{Buy: []breakeven.DocumentBought{}, All: t.All}
	for _, b := range t.Buy {
		out.Buy = append(out.Buy, breakeven.DocumentBought{Quote: b.Quote.Name, Packs: b.Packs.Float()})
	}
	return out
}

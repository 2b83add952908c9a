package paste

import (
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"mediabuy/quotes/message"
	"mediabuy/web/internal/refusal"
)

// Question is a part of a message that reads in several ways, each to be chosen by a click.
type Question struct {
	Words    string
	Question string
	Readings []Reading
}

// Reading is one answer to a question.
type Reading struct {
	Value string // what the button sends
	Label string
	Sets  string // what it would set: "breaks 10: 71 in row 1"
}

// Answer is an answer: which of the questions then open, and which of its readings, from 0.
type Answer struct{ question, reading int }

// mostPasteAnswers bounds the answers to one paste.
const mostPasteAnswers = 200

// questionOf is question i of a proposal.
func questionOf(i int, q message.Question) Question {
	v := Question{Words: q.Text, Question: q.Question}
	for j, one := range q.Readings {
		v.Readings = append(v.Readings, Reading{fmt.Sprintf("%d.%d", i, j), one.Label, one.Sets()})
	}
	return v
}

// doubt leaves the rows that a question is about unticked, and says so.
func (o *Rows) doubt(q message.Question) {
	const why = "a question above is still open about this row"
	for _, reading := range q.Readings {
		for _, one := range reading.Changes() {
			for _, row := range append([]int{one.Row}, one.Also...) {
				if i := row - 1; one.File == o.File && !one.New && i < len(o.rows) {
					o.take[i] = false
					if !slices.Contains(o.notes[i], why) {
						o.notes[i] = append(slices.Clone(o.notes[i]), why)
					}
				}
			}
		}
	}
}

// ReadAnswers are the answers that a form of the paste view holds: those given before, and the one clicked.
func ReadAnswers(form url.Values) ([]Answer, error) {
	if form.Has("anew") {
		return nil, nil
	}
	var out []Answer
	for one := range strings.FieldsSeq(form.Get("answers") + " " + form.Get("answer")) {
		q, r, ok := strings.Cut(one, ".")
		question, err1 := strconv.Atoi(q)
		reading, err2 := strconv.Atoi(r)
		if !ok || err1 != nil || err2 != nil || len(out) == mostPasteAnswers {
			return nil, refusal.New(http.StatusBadRequest, fmt.Sprintf("%q is no answer, want a question and a reading such as 0.1", one), "paste the message again, and answer from the first question on")
		}
		out = append(out, Answer{question, reading})
	}
	return out, nil
}

// WriteAnswers are answers as a form carries them along, for [ReadAnswers].
func WriteAnswers(answers []Answer) string {
	var out []string
	for _, a := range answers {
		out = append(out, fmt.Sprintf("%d.%d", a.question, a.reading))
	}
	return strings.Join(out, " ")
}

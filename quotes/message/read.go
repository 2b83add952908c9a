package message

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"mediabuy/quotes/csvfile"
	"mediabuy/quotes/files"
	"mediabuy/quotes/internal/called"
	"mediabuy/quotes/internal/cues"
	"mediabuy/quotes/internal/habit"
	"mediabuy/quotes/internal/plaintext"
)

// MaxBytes is the longest message read: a price list of some hundred lines.
const MaxBytes = 64 << 10

// Options say what is known besides the message. The zero value knows nothing: the media are the built-in ones, any
// currency is taken as it stands, and a supplier must be named in the message.
type Options struct {
	// Supplier fills that column, but not of rows that name their own in a table or stand under labels of several
	// suppliers; "" means the message must say.
	Supplier string
	// Delivery asks for rows of delivery.csv where a supplier's terms need them; without it what needs them is left to a
	// person.
	Delivery bool
	// Media is the job's media.csv; a nil R means the built-in media.
	Media files.Source
	// Settings is the job's job.toml, for its currency and decimal mark; a nil R means none.
	Settings files.Source
	// Today is the day of the message where settings name no date, by which a day without its year is read; zero: not known.
	Today time.Time
}

// ErrTooLong is the error for a message of more than [MaxBytes].
var ErrTooLong = errors.New("the message is too long")

// ErrNotText is the error for a picture, a document or other bytes that are no text.
var ErrNotText = errors.New("this is no text")

// Decode gives the text of a message's bytes: UTF-8 with or without a mark, UTF-16 with one, else Windows-1252, which
// note says. The error is ErrTooLong, ErrNotText, or for UTF-16 that cannot be read.
func Decode(raw []byte) (text, note string, err error) {
	if len(raw) > MaxBytes {
		return "", "", fmt.Errorf("%w: more than %d KiB, want one supplier's message or sheet", ErrTooLong, MaxBytes>>10)
	}
	if what := csvfile.NoText(raw); what != "" {
		return "", "", fmt.Errorf("%w: it looks like %s; copy the words out of it, or type them, and give these", ErrNotText, what)
	}
	return plaintext.Decode(raw)
}

// ReadFrom reads a message from r; name is for errors. note is as in [Decode].
func ReadFrom(r io.Reader, name string, opt Options) (p *Proposal, note string, err error) {
	raw, err := io.ReadAll(io.LimitReader(r, MaxBytes+1))
	if err != nil {
		return nil, "", fmt.Errorf("reading %s: %w", name, err)
	}
	text, note, err := Decode(raw)
	if err != nil {
		return nil, "", fmt.Errorf("%s: %w", name, err)
	}
	p, err = Parse(text, opt)
	return p, note, err
}

// Parse reads a message. It keeps nothing of it and enters nothing anywhere. The error is ErrTooLong, or a
// [quotes.ProblemsError] for a media.csv or job.toml that has problems of its own; what is wrong with the message itself
// stands in the proposal.
func Parse(text string, opt Options) (*Proposal, error) {
	if len(text) > MaxBytes {
		return nil, fmt.Errorf("%w: %d bytes, want at most %d", ErrTooLong, len(text), MaxBytes)
	}
	j, err := habit.Open(opt.Media, opt.Settings)
	if err != nil {
		return nil, err
	}
	if j.Today.IsZero() {
		j.Today = opt.Today
	}
	plain := unquoted(text)
	p, err := (&source{text: plain, given: squeeze(opt.Supplier), wide: opt.Delivery, job: j}).read()
	if plain != text && p != nil {
		p.Text = text
		for i, s := range p.Spans {
			p.Spans[i].Words = text[s.From:s.To]
		}
	}
	return p, err
}

// unquoted is a text with a blank for each mark of a quoted line, where all that is offered stands in such lines with a company's name
// and nobody asks for it there: somebody passes on what yards have written. Else it is the text itself.
func unquoted(text string) string {
	plain, money, named := []byte(text), false, false
	if strings.ContainsAny(cues.QuotedLine.ReplaceAllString(text, ""), "0123456789$£€") {
		return text
	}
	for _, at := range cues.QuotedLine.FindAllStringIndex(text, -1) {
		line := text[at[0]:at[1]]
		if strings.Contains(line, "?") || cues.MoreThan.MatchString(lower(line)) {
			return text
		}
		money = money || strings.ContainsAny(line, "$£€")
		named = named || !strings.ContainsAny(line, "0123456789") && hasCompanyWord(line)
		for i := at[0]; strings.IndexByte("> \t", plain[i]) >= 0; i++ {
			plain[i] = ' '
			if i+1 == at[1] {
				break
			}
		}
	}
	if !money || !named {
		return text
	}
	return string(plain)
}

// once reads the message with the answers given, and makes the drafts of its rows.
func (src *source) once() (*reading, []*draft, error) {
	if src.matched == nil {
		src.matched = matched{}
	}
	s := &scanner{matched: src.matched, text: src.text, low: lower(src.text), out: src.job.Mark, media: called.Names(src.job.Table, mediaNames), answers: src.answers, job: src.job}
	s.soften()
	if src.headed {
		s.fix(aSupplier, src.speaker.From, src.speaker.To, squeeze(src.text[src.speaker.From:src.speaker.To]), "the heading of its column")
	}
	s.lines()
	if src.speaker.To > 0 && !slices.ContainsFunc(s.fixed, func(f *fact) bool { return f.kind == aSupplier }) {
		s.fix(aSupplier, src.speaker.From, src.speaker.To, src.text[src.speaker.From:src.speaker.To], "the sentence names who sells")
	}
	s.settleMark(src.job.Habit())
	s.tonne = src.job.MetricTon(s.low)
	r := &reading{scanner: s, given: src.given, wide: src.wide}
	r.cut()
	r.shorts()
	r.judge()
	r.taxed()
	r.attach()
	r.bare()
	drafts := r.rows()
	if err := r.readBack(drafts, src.job); err != nil {
		return nil, nil, err
	}
	return r, drafts, nil
}

// cut scans the message, tables and sentences in turn, into clauses.
func (r *reading) cut() {
	at, rows, sentence := 0, 0, 0
	prose := func(to int) {
		facts, tokens := r.ordered(r.scan(at, to))
		cs := r.clauses(at, to, facts, tokens, -1, -1, sentence)
		r.all = append(r.all, cs...)
		if len(cs) > 0 {
			sentence = cs[len(cs)-1].sentence + 1
		}
		at = to
	}
	for _, t := range r.tables() {
		prose(t.From)
		cs, n := r.tableClauses(t, rows, sentence)
		r.all = append(r.all, cs...)
		rows += n
		sentence += n + 1
		for _, c := range cs {
			sentence = max(sentence, c.sentence+1)
		}
		at = t.To
	}
	prose(len(r.text))
}

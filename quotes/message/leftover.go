package message

import (
	"hash/crc32"
	"slices"
	"strings"

	"mediabuy/quotes/internal/cues"
	"mediabuy/quotes/internal/plaintext"
)

// What is left of a message when every row is made is read once more, loosely, by numbers and the words near them, however the
// sentence runs. Nothing of that enters by itself: each finding is a question with the answer that it is none of it.

// leftovers is what no cell was made of.
type leftovers struct {
	*reading
	rows []*draft
	used map[*fact]bool
	said []stretch // see sentences
	low  string    // the message in small letters, with a zero for each byte that is read, set aside or not to be asked about

	denied string // the same, with what stands beside a "not"
}

// reply is one answer to a question about a leftover: hold has the facts that it stands on hold in the drafts.
type reply struct {
	label string
	hold  func(from []*fact)
}

// askPricesLeft puts the questions about prices that are left, and gives the rows with those that were answered to be some.
func (r *reading) askPricesLeft(rows []*draft) []*draft {
	l := &leftovers{reading: r, rows: rows}
	l.low = l.left()
	l.breaks()
	l.low = l.left()
	l.halves()
	l.prices()
	l.sizes()
	l.packs()
	return l.rows
}

// askTermsLeft puts the questions about terms that are left, when all others are in the rows.
func (r *reading) askTermsLeft(rows []*draft) {
	l := &leftovers{reading: r, rows: rows}
	l.low = l.left()
	l.loads()
	l.cuts()
	l.lots()
	l.counts()
	l.taxes()
	l.traits()
	l.names()
}

// settled are reasons of facts that are certain to be no offer.
var settled = []string{
	"it is a sum or a part of one and no price of a pack", "an amount of tax, and no price of goods", "a length that is no grain size", "no loose medium weighs that",
	"what it makes or weighs, and not what a pack holds", "until then somebody or something is away, and no price holds", "it is added to a price",
	"no grain for beds is as large as that", taxOnPart, onCards,
}

// left is the text with a zero for each byte that needs no question.
func (l *leftovers) left() string {
	out := make([]byte, len(l.reading.low))
	l.used = map[*fact]bool{}
	for _, d := range slices.Concat(l.rows, l.ways) {
		for _, m := range d.cells {
			for _, f := range m.facts {
				l.used[f], l.used[f.head] = true, true
			}
		}
	}
	for _, sec := range l.sections {
		for _, f := range sec.facts {
			l.used[f] = l.used[f] || f.unclear == ""
		}
	}
	for i, c := range l.all {
		if never[c.poison] && c.poison != doubts["not"] {
			continue
		}
		to := c.To
		if i+1 < len(l.all) {
			to = l.all[i+1].From // with the signs between them
		}
		copy(out[c.From:to], l.reading.low[c.From:to])
		for _, f := range c.facts {
			if l.used[f] || oneOf(f.kind, anAside, aSupplier, aHeading, aMedium) || f.kind == aFree && f.unclear != nothingToWaive || f.ask != nil || f.outbid || f.redone || never[f.unclear] && f.unclear != doubts["not"] || f.kind == anUnclear && (never[f.why] || slices.Contains(settled, f.why)) {
				clear(out[f.From:f.To])
			}
		}
	}
	for _, f := range l.fixed {
		clear(out[f.From:f.To])
	}
	l.denied = string(out)
	for _, c := range l.all {
		for j, t := range c.tokens {
			if doubt(t.word) == doubts["not"] && (t.word != "out" || c.goneOut(j)) && !cues.DeniesNothing.MatchString(l.reading.low[t.To:c.To]) {
				clear(out[max(c.From, t.From-deniedBytes):min(c.To, t.To+deniedBytes)])
			}
		}
	}
	return string(out)
}

// deniedBytes is how much on either side of a "not" in its clause is taken to be about it.
const deniedBytes = 40

// find gives what a pattern matches between two bytes of what is left, read what it matches of all.
func (l *leftovers) find(re *expr, from, to int) []match { return l.matches(re, l.low, from, to) }
func (l *leftovers) read(re *expr, from, to int) []match {
	return l.matches(re, l.reading.low, from, to)
}

func (l *leftovers) matches(re *expr, low string, from, to int) (out []match) {
	for _, idx := range re.FindAllStringSubmatchIndex(low[from:to], -1) {
		unread := ""
		m := match{re: re, low: low[from:to], at: from, idx: idx, unread: &unread}
		if !l.splits(m) {
			out = append(out, m)
		}
	}
	return out
}

// behind is what stands behind a part of the text, in small letters.
func (l *leftovers) behind(part Range) string {
	return l.reading.low[part.To:min(len(l.low), part.To+window)]
}

// part is where a match stands, signed says whether its amount has a sign of money.
func (m match) part() Range  { return Range{m.at + m.idx[0], m.end()} }
func (m match) signed() bool { return m.has("mpre") || m.has("mpost") }

// splits says whether a match begins or ends within a word or a number.
func (l *leftovers) splits(m match) bool {
	from, to, whole := m.at+m.idx[0], m.end(), plaintext.Part{Text: l.reading.low, To: len(l.low)}
	return from > 0 && ofWord(l.reading.low[from-1]) && ofWord(l.reading.low[from]) || to < len(l.low) && ofWord(l.reading.low[to-1]) && ofWord(l.reading.low[to]) ||
		slices.ContainsFunc(m.idx[2:], func(at int) bool { return at > 0 && m.at+at < to && whole.InsideNumber(m.at+at) }) || // a number cut in two
		from > 1 && strings.IndexByte(".,/", l.reading.low[from-1]) >= 0 && digit(l.reading.low[from-2]) && digit(l.reading.low[from]) ||
		to+1 < len(l.low) && strings.IndexByte(".,/", l.reading.low[to]) >= 0 && digit(l.reading.low[to+1]) && digit(l.reading.low[to-1])
}

func digit(b byte) bool  { return b >= '0' && b <= '9' }
func ofWord(b byte) bool { return digit(b) || b >= 'a' && b <= 'z' || b >= 0x80 }

// put asks about parts of the text, each of which an answer reads, or has what was answered hold.
func (l *leftovers) put(question string, parts []Range, replies ...reply) {
	from := l.seize(parts)
	if len(from) == 0 || slices.ContainsFunc(from, l.leftOut) || len(replies) == 0 || len(replies) > maxHolds {
		return
	}
	key := answerKey{from[0].From, true}
	answered := l.answers[key]
	if at := l.sectionAt(from[0].From); len(l.of(at)) == 0 {
		l.sections[at].doubtful = true
	}
	for _, one := range replies {
		if answered == one.number() {
			for i, f := range from { // each stands for all
				f.kind, f.unclear, f.why, f.head = aCell, "", "as answered", from[(i+1)%len(from)]
			}
			one.hold(from)
			return
		}
	}
	if answered != 0 {
		return
	}
	if at := slices.IndexFunc(from, func(f *fact) bool {
		return f.unclear != "" && f.unclear != unsaid && f.unclear != nothingToWaive && f.money.Sign() > 0
	}); at >= 0 {
		question = from[at].unclear + "; " + question
	}
	ch := &choice{Range: l.clauseOf(from), leaves: true, costly: len(replies), question: question}
	for _, one := range replies {
		ch.labels, ch.sets = append(ch.labels, one.label), append(ch.sets, map[answerKey]int{key: one.number()})
	}
	ch.labels, ch.sets = append(ch.labels, leftOut), append(ch.sets, map[answerKey]int{key: isNone})
	for _, f := range from {
		f.ask = ch
	}
}

// clauseOf is what a question shows: the facts it is about, with the clauses they stand in unless these are long.
func (l *leftovers) clauseOf(from []*fact) Range {
	out := Range{from[0].From, from[len(from)-1].To}
	wide := out
	for _, c := range l.all {
		if c.From < out.To && out.From < c.To {
			said := l.text[c.From:c.To]
			wide.From = min(wide.From, c.To-len(strings.TrimLeft(said, signsAround)))
			wide.To = max(wide.To, c.From+len(strings.TrimRight(said, signsAround)))
		}
	}
	if wide.To-wide.From > window && out.To-out.From < wide.To-wide.From {
		return out
	}
	return wide
}

// leftOut says whether another question about a fact was answered, and it is left still.
func (l *leftovers) leftOut(f *fact) bool {
	_, answered := l.answers[answerKey{f.From, false}]
	return answered || l.answers[answerKey{f.From, true}] == isNone
}

// number is what an answer is kept as: by its words, as what else is left may change with other answers.
func (a reply) number() int { return isReply + int(crc32.ChecksumIEEE([]byte(a.label))) }

// isReply is below the numbers of replies, and above other answers about doubtful numbers.
const isReply = 1 << 8

// seize gives the facts of parts of the text, in order, and makes facts of words there; none where one of them is read or asked about.
func (l *leftovers) seize(parts []Range) (out []*fact) {
	for _, part := range parts {
		if slices.ContainsFunc(l.rows, func(d *draft) bool { return d.item.range_.From < part.To && part.From < d.item.range_.To }) {
			return nil // what a row is called by
		}
		for _, c := range l.all {
			if c.To <= part.From || part.To <= c.From {
				continue
			}
			for _, f := range c.facts {
				if f.From < part.To && part.From < f.To && !slices.Contains(out, f) {
					if f.ask != nil || l.used[f] {
						return nil
					}
					out = append(out, f)
				}
			}
			for i := 0; i < len(c.tokens); i++ {
				if t := c.tokens[i]; t.From < part.To && part.From < t.To {
					j := i + 1
					for j < len(c.tokens) && c.tokens[j].From < part.To && !c.factWithin(t.From, c.tokens[j].From) {
						j++
					}
					to := c.tokens[j-1].To
					out = append(out, c.made(i, j, &fact{kind: anUnclear, Range: Range{t.From, to}, text: l.text[t.From:to], why: unsaid, unclear: first(c.poison, unsaid)}))
					i--
				}
			}
		}
	}
	slices.SortFunc(out, func(a, b *fact) int { return a.From - b.From })
	return out
}

// stretch is a part of the message of one supplier, with its clauses.
type stretch struct {
	Range
	section int
	clauses []*clause
}

// sentences are the parts that full stops and ends of paragraphs make, each with the section it stands in.
func (l *leftovers) sentences() []stretch {
	if l.said != nil {
		return l.said
	}
	last, first := -1, 0
	for i, c := range l.all {
		to := c.To
		if i+1 < len(l.all) {
			to = l.all[i+1].From
		}
		if n := len(l.said); n > 0 && last == c.sentence {
			l.said[n-1].To, l.said[n-1].clauses = to, l.all[first:i+1]
		} else {
			first = i
			l.said = append(l.said, stretch{Range{c.From, to}, l.sectionAt(c.From), l.all[i : i+1]})
		}
		last = c.sentence
	}
	return l.said
}

// of are the rows of a section that have a price.
func (l *leftovers) of(section int) []*draft {
	return slices.DeleteFunc(slices.Clone(l.rows), func(d *draft) bool { return d.item.section != section || d.cells["price"] == nil })
}

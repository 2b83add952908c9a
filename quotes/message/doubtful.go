package message

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"mediabuy/units"
)

// Numbers that were left to a person are put to the person as questions, who may know what the message leaves open: whether a
// price "about" so much, or "while it lasts", is the one to count on. Each has the answer that it is none, which is also the
// cautious one, so nothing doubtful enters by itself.

// claim is one thing that a doubtful number may say.
type claim struct {
	fact   *fact
	clause *clause
	about  string // claims about the same cannot hold together
	as     int    // what it is answered to be, see the values below
	label  string
	asks   string // the question, where no other claim is about the same
	among  string // the question, where others are
	hold   func([]*draft) []*draft
}

// What a doubtful number is answered to be.
const (
	isNone = iota + 1
	isPrice
	isTrait
)

// leftOut is the answer that a doubtful number is none.
const leftOut = "leave it out"

// signsAround stand around what a clause says.
const signsAround = " \t\r\n,;.:()[]"

// maxHolds is the most claims that one question names.
const maxHolds = 3

// never are reasons that no person is asked about: what they speak of is no price here.
var never = map[string]bool{
	aQuestion: true, endless: true, palletReason: true, doubts["not"]: true, doubts["elsewhere"]: true, doubts["total"]: true,
	"it is said twice": true, "it is corrected behind it": true, "the price of a measure, beside that of a pack": true,
}

// mayHold says whether a fact is an amount that a person is asked about.
func (f *fact) mayHold(kinds ...kind) bool {
	return slices.Contains(kinds, f.kind) && f.unclear != "" && f.ask == nil && !f.outbid && f.money.Sign() > 0 && !never[f.unclear]
}

// doubtful asks about the doubtful numbers of one kind, and has what was answered to hold in the drafts.
func (r *reading) doubtful(all []*draft, claims []*claim) []*draft {
	for len(claims) > 0 {
		about := claims[0].about
		var group []*claim
		claims = slices.DeleteFunc(claims, func(c *claim) bool {
			if c.about != about {
				return false
			}
			if sec := r.sections[r.sectionAt(c.fact.From)]; c.as < isTrait {
				sec.doubtful = true
			}
			if r.answers[c.key()] != isNone {
				group = append(group, c)
			}
			return true
		})
		if at := slices.IndexFunc(group, func(c *claim) bool { return r.answers[c.key()] == c.as }); at >= 0 {
			f := group[at].fact
			f.unclear, f.why = "", f.why+", as answered"
			all = group[at].hold(all)
		} else if len(group) > 0 && len(group) <= maxHolds {
			r.askAbout(group)
		}
	}
	return all
}

// key is where the answer about a doubtful number is kept: of what else a price says by its end, as it may have been answered to hold.
func (c *claim) key() answerKey {
	if c.as >= isTrait {
		return answerKey{c.fact.To - 1, true}
	}
	return answerKey{c.fact.From, true}
}

// askAbout puts the question which of several claims holds.
func (r *reading) askAbout(group []*claim) {
	ch := &choice{Range: Range{len(r.text), 0}, leaves: true, costly: len(group), question: strings.TrimPrefix(group[0].fact.unclear+"; ", "; ") + group[0].asks}
	none := map[answerKey]int{}
	for _, c := range group {
		said := r.text[c.clause.From:c.clause.To]
		ch.From = min(ch.From, c.fact.From, c.clause.To-len(strings.TrimLeft(said, signsAround)))
		ch.To = max(ch.To, c.fact.To, c.clause.From+len(strings.TrimRight(said, signsAround)))
		none[c.key()] = isNone
		c.fact.ask = ch
	}
	for _, c := range group {
		answers, label := map[answerKey]int{}, c.label
		for key := range none {
			answers[key] = isNone
		}
		answers[c.key()] = c.as
		if len(none) > 1 {
			ch.question = c.among
			label = fmt.Sprintf("%s, %s", c.label, strconv.Quote(squeeze(strings.Trim(r.text[c.clause.From:c.clause.To], signsAround))))
		}
		ch.labels, ch.sets = append(ch.labels, label), append(ch.sets, answers)
	}
	ch.labels, ch.sets = append(ch.labels, leftOut), append(ch.sets, none)
}

// offersOf says whether a row is of the medium of a fact, and of the supplier that speaks where doubtful fact f stands.
func (r *reading) offersOf(row *draft, medium, f *fact) bool {
	return row.offer != nil && row.item.medium == medium.medium && row.item.section == r.sectionAt(f.From)
}

// amounts makes facts of the amounts with a sign of money that no rule read, to be asked about.
func (r *reading) amounts() {
	for _, c := range r.all {
		if c.row >= 0 || never[c.poison] {
			continue
		}
		for j := 0; j+1 < len(c.tokens); j++ {
			sign, t := c.tokens[j], c.tokens[j+1]
			if !oneOf(sign.word, "$", "£", "€") || !t.number || t.From != sign.To || r.calls(t.Range) {
				continue
			}
			n, why := r.number(t.word)
			if why != "" || n.value.Sign() <= 0 {
				continue
			}
			c.made(j, j+2, &fact{kind: aPrice, Range: Range{sign.From, t.To}, text: sign.word + n.text, money: units.MoneyOf(n.value), why: "a price", unclear: first(c.poison, unsaid)})
			j--
		}
	}
}

// calls says whether a part of the message is what an item is called by.
func (r *reading) calls(part Range) bool {
	return slices.ContainsFunc(r.items, func(it *item) bool { return it.range_.From < part.To && part.From < it.range_.To })
}

const unsaid = "a number with no word that says what it is"

// sectionAt is the section that byte at stands in.
func (r *reading) sectionAt(at int) int {
	next, _ := slices.BinarySearchFunc(r.sections, at+1, func(sec *section, from int) int {
		if sec.supplier == nil {
			return -1 // the first may have none
		}
		return sec.supplier.From - from
	})
	return max(0, next-1)
}

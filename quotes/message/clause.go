package message

import (
	"slices"
	"strings"

	"mediabuy/quotes/internal/cues"
)

// Longer than these is no clause and no sentence that anybody wrote; what goes on is left unread. They also keep the work
// in step with the length of the message.
const (
	maxClause   = 200 // facts, words and numbers
	maxSentence = 200 // clauses
	endless     = "it goes on for too long without a full stop"
)

// clauses cuts what was scanned of text[from:to] at commas, stops, brackets and line ends. cell is the column of a table
// cell and row its row; -1 in sentences.
func (s *scanner) clauses(from, to int, facts []*fact, tokens []token, cell, row, sentence int) []*clause {
	var out []*clause
	inSentence, over := 0, false
	now := &clause{Range: Range{from, from}, sentence: sentence, line: true, cell: cell, row: row}
	end := func(at int, stop, line bool) {
		if len(now.facts)+len(now.tokens) > 0 {
			now.To = at
			out = append(out, now)
			inSentence++
			if stop {
				sentence, inSentence = sentence+1, 0
			}
			now = &clause{sentence: sentence, cell: cell, row: row, line: line || !stop && now.line}
			if over {
				now.poison = endless
			}
		} else if stop {
			sentence, inSentence = sentence+1, 0
			now.sentence, now.line = sentence, line
			if now.poison == aQuestion { // of a second sign behind the first
				now.poison = ""
			}
		}
		now.From = at
	}
	for len(facts)+len(tokens) > 0 {
		if len(now.facts)+len(now.tokens) == maxClause || inSentence == maxSentence {
			for _, c := range slices.Backward(append(out, now)) {
				if c.sentence != sentence {
					break
				}
				c.poison = endless
			}
			over = true
			end(now.From, true, false)
		}
		if len(tokens) == 0 || len(facts) > 0 && facts[0].From < tokens[0].From {
			f := facts[0]
			facts = facts[1:]
			if f.kind == aMedium && s.joined(now) {
				end(f.From, false, false)
			}
			now.facts = append(now.facts, f)
			if f.kind == aSupplier {
				end(f.To, true, f.general)
			}
			continue
		}
		t := tokens[0]
		tokens = tokens[1:]
		spaced := t.From > 0 && s.low[t.From-1] == ' ' && t.To < len(s.low) && s.low[t.To] == ' '
		switch {
		case t.sign == '.' && s.abbreviates(now, facts, t):
			end(t.To, false, false)
		case t.sign == '\n':
			over = false
			end(t.To, true, true)
		case strings.IndexByte(".!?", t.sign) >= 0 && t.sign != 0:
			if t.sign == '?' {
				s.ask(out, now)
			}
			over = false
			end(t.To, true, false)
		case t.sign != 0 && strings.IndexByte(",;:()[]|", t.sign) >= 0, t.sign == '-' && spaced, t.sign == '/' && spaced && strokeParts.MatchString(s.low[t.From-1:min(s.limit, t.To+window)]):
			end(t.To, false, false)
		case t.sign != 0:
		case t.word == "but" || t.word == "whereas" || t.word == "and" && (cues.DeniesNext.MatchString(s.low[t.To:min(s.limit, t.To+window)]) && len(now.facts) == 1 && now.facts[0].kind == aMax || cues.BringsNext.MatchString(s.low[t.To:min(s.limit, t.To+window)]) && slices.ContainsFunc(now.facts, func(f *fact) bool { return f.kind == aPrice }) ||
			cues.SaysNext.MatchString(s.low[t.To:min(s.limit, t.To+window)]) && slices.ContainsFunc(now.facts, func(f *fact) bool { return f.kind == aPrice || f.kind.isFee() })):
			end(t.From, false, false)
			now.tokens = append(now.tokens, t)
		default:
			now.tokens = append(now.tokens, t)
		}
	}
	end(to, true, false)
	return out
}

// abbreviates says whether the stop behind a clause cuts its last word short and an amount goes with it: "Freight Tas. $48".
func (s *scanner) abbreviates(c *clause, facts []*fact, stop token) bool {
	if len(c.tokens) < 2 || len(c.facts) > 0 || len(facts) == 0 {
		return false
	}
	last := c.tokens[len(c.tokens)-1]
	return last.To == stop.From && last.To-last.From <= 4 && !fillers[last.word] && slices.ContainsFunc(c.tokens, func(t token) bool { return fetchWord.MatchString(t.word) }) &&
		oneOf(facts[0].kind, aPrice) && strings.TrimSpace(s.low[stop.To:facts[0].From]) == ""
}

// joined says whether a medium that follows "and" begins a clause of its own: what stands before it has facts already.
func (s *scanner) joined(c *clause) bool {
	if len(c.tokens) == 0 || !slices.ContainsFunc(c.facts, func(f *fact) bool { return f.about() }) {
		return false
	}
	last := c.facts[len(c.facts)-1]
	for _, t := range c.tokens {
		if t.From > last.To && (t.word == "and" || t.word == "also" || t.word == "then" || t.word == "plus" || t.word == "&") {
			return true
		}
	}
	return false
}

// ask leaves the sentence that ends in a question mark unread.
func (s *scanner) ask(done []*clause, now *clause) {
	now.poison = aQuestion
	for _, c := range slices.Backward(done) {
		if c.sentence != now.sentence {
			return
		}
		c.poison = aQuestion
	}
}

const aQuestion = "it is a question"

// judge finds the clauses that must not be read, from the words in them.
func (r *reading) judge() {
	all := r.all
	r.answered(all)
	r.corrected()
	r.trucks()
	others := -1 // the sentence that speaks to somebody else
	for i, c := range all {
		c.unpaired()
		r.underCount(all[:i], c)
		r.underPallet(all[:i], c)
		r.fetched(all[:i], c)
		c.between()
		for j, t := range c.tokens {
			switch {
			case c.poison != "":
			case hedges[t.word] && c.numberAfter(t.To, j):
				c.poison = "it is rough"
			case t.word == "out" && !c.goneOut(j), t.word == "off" && c.outOfPlace(j+1), t.word == "may" && (c.numberAfter(t.To, j) || cues.BeHad.MatchString(r.low[t.To:min(len(r.low), t.To+window)])), t.word == "half" && j+1 < len(c.tokens) && oneOf(c.tokens[j+1].word, "a", "an"):
			case doubt(t.word) == doubts["maybe"] && slices.ContainsFunc(c.facts, func(f *fact) bool { return f.ranged }): // as the question says
			case doubt(t.word) == doubts["not"] && c.deniedBehind(t):
				c.poison = denialBehind
			case doubt(t.word) != "":
				c.poison = doubt(t.word)
			}
		}
		if c.poison == "" && c.row < 0 && cues.OthersSay.MatchString(cues.WentThere.ReplaceAllString(r.low[c.From:c.To], "")) && !cues.Stocked.MatchString(r.low[c.From:c.To]) && !cues.ChargesLoads.MatchString(r.low[c.From:c.To]) {
			c.poison = doubts["elsewhere"]
		}
		if c.row < 0 && cues.ToOthers.MatchString(r.low[c.From:c.To]) {
			others = c.sentence
		}
		if c.sentence == others && c.poison == "" && c.row < 0 {
			c.poison = doubts["elsewhere"]
		}
		if c.row < 0 && cues.AddsOn.MatchString(r.low[c.From:c.To]) {
			for _, d := range all[max(0, i-2):i] { // of which the price is too little
				for _, f := range d.facts {
					if f.kind == aPrice {
						f.drop("a charge on top of it stands behind it")
					}
				}
			}
		}
		if c.poison == "" && c.row < 0 && (cues.SaidBefore.MatchString(r.low[c.From:c.To]) && !slices.ContainsFunc(c.facts, func(f *fact) bool { return f.graded }) || cues.FromThen.MatchString(r.low[c.From:c.To])) {
			c.poison = doubts["later"]
		}
		r.zones(all[:i], c)
		r.gone(i)
		if len(c.tokens) > 0 && opensCondition[c.tokens[0].word] && (len(c.facts) == 0 || c.tokens[0].From < c.facts[0].From) {
			c.cond = true
		}
		c.underCondition(all[:i])
		if i > 0 && c.row < 0 && len(c.tokens) > 0 && oneOf(c.tokens[0].word, "then", "thereafter", "afterwards", "after") && cues.UntilWords.MatchString(r.low[all[i-1].From:all[i-1].To]) {
			c.poison = doubts["later"]
		}
		if c.poison != doubts["later"] && c.poison != doubts["elsewhere"] {
			r.outbid(all[:i], c)
		}
		if i > 0 && all[i-1].sentence == c.sentence && c.poison == "" && (all[i-1].cond || all[i-1].poison == onCondition && !slices.ContainsFunc(all[i-1].facts, func(f *fact) bool { return f.kind == aPrice })) {
			c.poison = onCondition
		}
	}
}

const (
	notTogether  = "a number stands beside it, and it is not said how they go together"
	unknownWords = "words that are not known here"
)

const denialBehind = "words behind it say what is not so"

// deniedBehind says whether a word that denies stands behind every number of a clause that has a price: "9.49, not on sale".
func (c *clause) deniedBehind(t token) bool {
	return slices.ContainsFunc(c.facts, func(f *fact) bool { return f.kind == aPrice }) && !slices.ContainsFunc(c.facts, func(f *fact) bool { return f.From > t.From }) &&
		!slices.ContainsFunc(c.tokens, func(o token) bool { return o.number && o.From > t.From })
}

const onCondition = "it hangs on the condition before it"

// answered takes a question that names one medium, and states no number but its grains, for the heading of the answer behind it:
// "Lava 3/4 in? 68 a yard."
func (r *reading) answered(all []*clause) {
	for i := 0; i < len(all); {
		to := i + 1
		for to < len(all) && all[to].sentence == all[i].sentence && all[to].row == all[i].row {
			to++
		}
		media := 0
		plain, told := all[i].poison == aQuestion, false
		from := to
		for from < len(all) && from < to+2 && len(all[from].facts) == 0 && all[from].poison == "" && !slices.ContainsFunc(all[from].tokens, func(t token) bool { return t.number }) {
			if cues.SpokenSum.MatchString(r.low[all[from].From:all[from].To]) {
				break
			}
			from++ // "yes"
		}
		for j := from; j < len(all) && all[j].sentence == all[from].sentence; j++ {
			plain = plain && (all[j].poison == "" || told) && all[j].row < 0 && len(all[j].media()) == 0
			told = told || slices.ContainsFunc(all[j].facts, func(f *fact) bool { return oneOf(f.kind, aPrice, aPack) }) || cues.SpokenSum.MatchString(r.low[all[j].From:all[j].To])
		}
		plain = plain && told
		for _, c := range all[i:to] {
			media += len(c.media())
			plain = plain && c.row < 0 && !slices.ContainsFunc(c.tokens, func(t token) bool { return t.number || fetchWord.MatchString(t.word) }) &&
				!slices.ContainsFunc(c.facts, func(f *fact) bool { return !oneOf(f.kind, aMedium, aSize, aForm, aNote, anAside) })
		}
		for _, c := range all[i:to] {
			if plain && media == 1 {
				c.poison = ""
			}
		}
		i = to
	}
}

// unpaired leaves the prices of a clause to a person where a number of packs beside them has none: one may be its price.
// So may any other number that was not made out: "20 bags of pumice for $280".
func (c *clause) unpaired() {
	if !slices.ContainsFunc(c.facts, func(f *fact) bool { return f.threshold }) && !slices.ContainsFunc(c.tokens, func(t token) bool { return t.number }) {
		return
	}
	for _, f := range c.facts {
		if f.kind == aPrice || f.kind == aBreak || f.kind == aTier || f.kind == aSize && len(c.media()) == 0 && c.row < 0 {
			f.drop(notTogether)
		}
	}
}

// underPallet leaves the price of one pack to a person that stands behind a pallet by its number of packs, in a line that begins with that:
// "Pallet of 40 bags oyster shell, $19.00 per bag".
func (r *reading) underPallet(before []*clause, c *clause) {
	if n := len(before); n > 0 && before[n-1].sentence == c.sentence && c.row < 0 && len(before[n-1].facts) > 0 && len(c.media()) == 0 {
		if d := before[n-1]; d.facts[0].why == palletByPacks && len(d.media()) > 0 && d.line && strings.TrimLeft(r.low[d.From:d.facts[0].From], " \t\r\n*•-") == "" {
			for _, f := range c.facts {
				if f.kind == aPrice && f.unit.Text == "" {
					f.drop("it is the price of one by the pallet of " + d.facts[0].from.text)
				}
			}
		}
	}
}

// underCount leaves the first price of a sentence to a person that begins with a number of packs above one: "For 90 bags of the clay, washed,
// we can do $27.90 a bag" is not what one costs.
func (r *reading) underCount(before []*clause, c *clause) {
	from := c.From
	priced := func(f *fact) bool { return oneOf(f.kind, aPrice, aBreak, aTier, aPallet) }
	for _, d := range slices.Backward(before) {
		if d.sentence != c.sentence {
			break
		} else if slices.ContainsFunc(d.facts, priced) {
			return
		}
		from = d.From
	}
	if i := slices.IndexFunc(c.facts, priced); i >= 0 && c.row < 0 && c.facts[i].kind == aPrice && cues.UnderCount.MatchString(r.low[from:c.facts[i].From]) {
		c.facts[i].drop("so many are spoken of in front of it; is it the price of one, or from so many on?")
	}
}

// goneOut says whether the "out" that is token j says that there is none: "out of stock", "sold out", not "out your way".
func (c *clause) goneOut(j int) bool {
	return j+1 == len(c.tokens) && len(c.facts) > 0 && (j == 0 || c.tokens[j-1].To+1 < c.tokens[j].From) || j+1 < len(c.tokens) && c.tokens[j+1].word == "of" && !c.outOfPlace(j+2) || j > 0 && oneOf(c.tokens[j-1].word, "sold", "are", "is", "we're", "run", "all")
}

// outOfPlace says whether the words from token j name where goods come from: "out of the Marl Lane pit", "off our own land".
func (c *clause) outOfPlace(j int) bool {
	if j >= len(c.tokens) || !oneOf(c.tokens[j].word, "the", "our", "a", "their", "his", "my") {
		return false
	}
	return slices.ContainsFunc(c.tokens[j+1:min(len(c.tokens), j+5)], func(t token) bool {
		return oneOf(t.word, "own", "land", "farm", "field", "paddock", "hill", "beach", "pit", "pits", "quarry", "quarries", "yard", "barn", "shed", "depot", "plant", "warehouse", "kiln", "silo")
	})
}

const besideDelivery = "a word for delivery stands beside it"

// underCondition leaves a price to a person where another for the same pack stands behind it in its sentence, under a
// condition about who brings it: "$55/yd dumped in your driveway, $42/yd if you haul it".
func (c *clause) underCondition(before []*clause) {
	if c.poison != doubts["if"] || c.row >= 0 || len(c.media()) > 0 {
		return
	}
	for _, f := range c.facts {
		if f.kind != aPrice || f.unit.Empty() || f.unclear != besideDelivery {
			continue // a dearer price that hangs on nothing stays
		}
		for _, d := range slices.Backward(before) {
			if d.sentence != c.sentence {
				break
			}
			for _, g := range d.facts {
				if g.kind == aPrice && g.unit.Text == f.unit.Text && g.unit.Form == f.unit.Form {
					g.drop("another price for this pack stands beside it, and what that hangs on was not made out")
				}
			}
			if len(d.media()) > 0 {
				break
			}
		}
	}
}

// between leaves a break to a person that may take its number for the price in front of it: "68 a yard for 10 or more 61".
func (c *clause) between() {
	for i, f := range c.facts {
		if i == 0 || !f.linked {
			continue
		}
		if before := c.facts[i-1]; before.kind == aPrice || before.kind == aBreak {
			f.drop(betweenReason)
			before.drop(betweenReason)
		}
	}
}

// made puts a fact in the place of tokens from up to, not including, to.
func (c *clause) made(from, to int, f *fact) *fact {
	c.tokens = slices.Delete(c.tokens, from, to)
	c.facts = append(c.facts, f)
	slices.SortFunc(c.facts, func(a, b *fact) int { return a.From - b.From })
	return f
}

// onlyFee makes the fee for delivery of the only amount in a clause with a word for delivery: "delivery out your way is $115".
// Nothing but words of time and place, and what a load holds, may stand beside it.
func (c *clause) onlyFee() bool {
	var only *fact
	for _, f := range c.facts {
		switch {
		case f.kind == aPrice && f.unit.Empty() && only == nil && f.unclear == "":
			only = f
		case f.kind != anAside && f.kind != aPayer && f.kind != aFree && (f.kind != aLoad || f.counted.Empty() && f.from.text == ""):
			return false
		}
	}
	if only == nil || slices.ContainsFunc(c.tokens, func(t token) bool {
		return t.number || t.word != "" && !fillers[t.word] && !feeWordsAround[t.word] && !fetchWord.MatchString(t.word) && t.word != "&"
	}) {
		return false
	}
	if only.kind, only.why = aDelivery, "a fee for delivery"; only.from.text != "" {
		only.kind, only.why = aLoadFee, "a fee for each of several loads"
	}
	return true
}

// numberAfter says whether a number stands directly behind byte at: as token j+1 or at the start of a fact.
func (c *clause) numberAfter(at, j int) bool {
	next := len(c.tokens)
	if j+1 < next && c.tokens[j+1].From <= at+2 {
		return c.tokens[j+1].number || strings.ContainsAny(c.tokens[j+1].word, "$£€")
	}
	return slices.ContainsFunc(c.facts, func(f *fact) bool { return f.kind != aMedium && f.kind != anAside && f.From >= at && f.From <= at+2 })
}

// media are the facts of the clause that name a medium.
func (c *clause) media() []*fact {
	return slices.DeleteFunc(slices.Clone(c.facts), func(f *fact) bool { return f.kind != aMedium })
}

// strange is the first run of words before fact f, with no fact inside, that is not all fillers; empty when there is none.
func (s *scanner) strange(c *clause, f *fact) Range {
	var run Range
	odd := false
	for _, t := range c.tokens {
		apart := run.To > 0 && c.factWithin(run.From, t.From)
		if t.To > f.From || apart && odd {
			break
		}
		if run.To == 0 || apart {
			run, odd = Range{From: t.From}, false
		}
		run.To = t.To
		odd = odd || !fillers[t.word] && !noSubjects[t.word] && numberWords[t.word] == "" && doubt(t.word) != doubts["maybe"] || t.number
	}
	if !odd {
		return Range{}
	}
	return run
}

package message

import (
	"cmp"
	"slices"
	"strings"
	"unicode"

	"mediabuy/quotes/internal/cues"
)

// sentence attaches the facts of a clause outside tables.
func (r *reading) sentence(i int, c *clause) {
	for _, f := range c.facts {
		if f.kind == aSupplier && f.general {
			if r.section().supplier != nil || len(r.items) > 0 {
				r.sections = append(r.sections, &section{})
			}
			r.section().supplier = f
			if r.now != nil && r.now.row < 0 && !r.now.offered() && r.now.medium != nil && !r.now.several && r.now.lost == "" && len(r.sections) <= 2 {
				r.under = r.now // it heads what all of them offer
				r.items = slices.DeleteFunc(r.items, func(it *item) bool { return it == r.under })
			}
			if r.now = nil; r.under != nil {
				it := r.open(&item{row: -1, medium: r.under.medium, words: r.under.words, from: slices.Clone(r.under.from)}, c)
				for _, g := range r.under.facts {
					if oneOf(g.kind, aSize, aPack, aForm) {
						own := *g // which one supplier may have no price for
						own.head = g
						it.facts = append(it.facts, &own)
					}
				}
			}
		}
		r.limited(c, f)
		r.hangs(i, c, f)
		switch {
		case f.kind == aDelivery && f.text == "0" && !f.before && slices.ContainsFunc(r.all[:i+1], func(d *clause) bool {
			return d.sentence == c.sentence && slices.ContainsFunc(d.facts, func(g *fact) bool { return g.threshold && g.From < f.From })
		}):
			f.drop("it is free from a number of packs on, and not else")
		case f.kind == aDelivery && f.before:
			if f.behind = behindPrice(c, f); f.behind == nil {
				f.drop("delivered, but no price stands before it")
			}
		case f.kind == aDelivery && f.otherwise && r.behindBreak(i, c, f):
		case f.kind == aDelivery && f.otherwise && !r.behindFree(i, c):
			f.drop("it is not said otherwise than what")
		}
	}
	if c.poison != "" {
		if m := c.media(); len(m) > 0 {
			r.now = &item{row: -1, medium: m[0].medium, lost: "it is about " + m[0].text + ", and what names that was not read"}
			for _, f := range r.pending {
				r.give(f, r.now)
			}
			r.pending = nil
		}
		return
	}
	switch m := c.media(); {
	case len(m) > 1 && sameMedium(c, m): // lava rock, scoria
		for _, other := range m[1:] {
			other.kind, other.why = anAside, "another name of the medium before it"
		}
		r.oneMedium(c, m[0])
	case len(m) == 0:
		r.noMedium(i, c)
	case len(m) == 1:
		r.oneMedium(c, m[0])
	default:
		r.severalMedia(c, m)
	}
}

// sameMedium says whether the names of a clause are of one medium, with nothing said between them.
func sameMedium(c *clause, m []*fact) bool {
	last := m[len(m)-1]
	for _, f := range m {
		if f.medium != last.medium {
			return false
		}
	}
	return !slices.ContainsFunc(c.facts, func(f *fact) bool { return f.kind != aMedium && f.From > m[0].From && f.From < last.From }) &&
		!slices.ContainsFunc(c.tokens, func(t token) bool { return t.From > m[0].From && t.From < last.From && !oneOf(t.word, "is", "or") })
}

// limited drops what holds for the whole order, or for fewest packs, where words behind it that are not known may limit
// it, "delivery 90 on Tuesdays", or where another number stands beside it. So does a number with a day: "we hold 15 until".
func (r *reading) limited(c *clause, f *fact) {
	fee := f.kind == aMin || f.kind.isFee() && f.kind != aCollect
	for _, t := range c.tokens {
		switch {
		case t.number && (fee || f.kind == aValid || f.kind == aReady):
			f.drop("a number stands beside it that was not made out")
		case fee && t.From >= f.To && r.low[f.To-1] != '.' && (f.kind == aMin && !fillers[t.word] && t.word != "+" || limiting[t.word] || t.word == "inside" && f.within == "") && !c.factWithin(f.To, t.From):
			f.drop("the words behind it may limit it")
		}
	}
	if f.kind.isFee() && cues.BroughtElse.MatchString(r.low[strings.LastIndexAny(r.low[:f.From], ".;\n")+1:f.To]) {
		f.drop("it is for bringing something else")
	}
	if f.kind == aDelivery && f.text == "0" && cues.FreeOn.MatchString(r.low[f.To:c.To]) {
		f.drop("the words behind it may limit it")
	}
}

// factWithin says whether a fact of the clause begins from byte from on and before byte to.
func (c *clause) factWithin(from, to int) bool {
	return slices.ContainsFunc(c.facts, func(f *fact) bool { return f.From >= from && f.From < to })
}

// behindPrice is the fact before f in its clause if it is a price, else nil.
func behindPrice(c *clause, f *fact) *fact {
	i := slices.Index(c.facts, f)
	if i > 0 && (c.facts[i-1].kind == aPrice || c.facts[i-1].kind == aBreak) {
		return c.facts[i-1]
	}
	return nil
}

// behindBreak makes the price of fewer packs of "72 a yard if you get 5 or more, otherwise 77".
func (r *reading) behindBreak(i int, c *clause, f *fact) bool {
	before := c.facts[:slices.Index(c.facts, f)]
	if len(before) == 0 && i > 0 && r.all[i-1].sentence == c.sentence && r.all[i-1].poison == "" {
		before = r.all[i-1].facts
	}
	if len(before) == 0 || before[len(before)-1].kind != aBreak {
		return false
	}
	f.kind, f.otherwise, f.unit, f.why = aPrice, false, before[len(before)-1].unit, "the price of fewer packs"
	return true
}

// behindFree says whether a value from which delivery is free stands before clause i in its sentence.
func (r *reading) behindFree(i int, c *clause) bool {
	for _, d := range slices.Backward(r.all[:i+1]) {
		if d.sentence < c.sentence-1 || d.row >= 0 {
			return false
		}
		if slices.ContainsFunc(d.facts, func(f *fact) bool { return f.kind == aFree }) {
			return true
		}
	}
	return false
}

// noMedium attaches a clause that names no medium to the one before, unless its words or its place leave that open.
func (r *reading) noMedium(i int, c *clause) {
	r.bareStone(i, c)
	var about []*fact
	for _, f := range c.facts {
		switch {
		case r.section().takesLoad(f, r.now):
		case f.about():
			about = append(about, f)
		default:
			for _, sec := range r.holdsFor(c, f) {
				if sec == r.section() {
					r.give(f, r.now)
				} else {
					sec.facts = append(sec.facts, f)
				}
			}
		}
	}
	if words := r.packsOf(c, i); words.To > 0 {
		r.open(&item{row: -1, range_: words, words: squeeze(r.text[words.From:words.To])}, c)
		for _, f := range about {
			r.give(f, r.now)
		}
		return
	}
	if len(about) == 0 {
		r.headed(i, c)
		return
	}
	opens := r.opensSentence(i, c) && (i == 0 || r.all[i-1].sentence != c.sentence)
	if k := slices.IndexFunc(about, func(f *fact) bool {
		return opens && f.kind != aDensity && f.kind != aLoss || f.kind == aPrice || f.kind == aTier || f.kind == aPack
	}); k >= 0 {
		if words := r.strange(c, about[k]); words.To > 0 && !r.onlyMissed(words) && !r.inColumn(i, c, words) {
			it := r.open(&item{row: -1, range_: words, words: squeeze(r.text[words.From:words.To])}, c)
			for _, f := range about {
				r.give(f, it)
			}
			return
		}
	}
	if words := r.ownWords(i, c, about, opens); words.To > 0 {
		it := r.open(&item{row: -1, range_: words, words: squeeze(r.text[words.From:words.To])}, c)
		for _, f := range about {
			r.give(f, it)
		}
		return
	}
	if words := r.calledBefore(i, c); words.To > 0 && slices.ContainsFunc(about, func(f *fact) bool { return oneOf(f.kind, aPrice, aTier, aPack, aPallet) }) {
		r.open(&item{row: -1, range_: words, words: squeeze(r.text[words.From:words.To])}, c)
		for _, f := range about {
			r.give(f, r.now)
		}
		return
	}
	later := r.laterMedium(i, c)
	switch {
	case r.now == nil || later != nil && c.line && r.opensSentence(i, c):
		if r.pendFrom == nil || len(r.pending) == 0 {
			r.pendFrom = c
		}
		r.pending = append(r.pending, about...)
		return
	case later != nil && r.opensSentence(i, c):
		for _, f := range about {
			f.drop("it may be about " + r.now.name() + " before it or about " + later.medium.Name + " behind it")
		}
		return
	}
	for _, f := range about {
		if f.kind == anAcidTest && !r.testedSize(i, c, f) {
			f.drop("it is about another size")
		} else if !r.forAll(i, c, f) {
			r.give(f, r.now)
		}
	}
	r.now.clauses = append(r.now.clauses, c)
}

// testedSize says whether the size that the sentence of an acid test names in front of it, if any, is the last of the item that it is
// about: "I put vinegar on the 3/4, no fizz" says nothing of the 1/2.
func (r *reading) testedSize(i int, c *clause, f *fact) bool {
	last := ""
	for _, g := range r.now.facts {
		if g.kind == aSize {
			last = g.text
		}
	}
	return !slices.ContainsFunc(r.all[:i+1], func(d *clause) bool {
		return d.sentence == c.sentence && slices.ContainsFunc(d.facts, func(g *fact) bool { return g.kind == aSize && g.From < f.From && g.text != last })
	})
}

// packsOf is the word that a clause counts packs of, where it is none that is known: "and 9 bags of akadama". It is also a stone of which
// kind is not said, with a price, where one of a known kind with a price of its own follows: "20 mm stone is $39, and 14 mm granite $42".
func (r *reading) packsOf(c *clause, i int) (words Range) {
	priced := func(c *clause, from int) bool {
		return slices.ContainsFunc(c.facts, func(f *fact) bool { return f.kind == aPrice && f.From > from })
	}
	for _, t := range c.tokens {
		if later := r.laterMedium(i, c); r.now == nil && later != nil && tails[t.word] && priced(c, t.From) && slices.ContainsFunc(r.all[i+1:], func(d *clause) bool {
			return d.sentence == c.sentence && slices.Contains(d.facts, later) && priced(d, later.From)
		}) {
			return t.Range
		}
	}
	at := cues.CountedOf.FindStringSubmatchIndex(r.low[c.From:c.To])
	if at == nil {
		return Range{}
	}
	words = Range{c.From + at[2], c.From + at[3]}
	if w := r.low[words.From:words.To]; fillers[w] || describers[w] || noSubjects[w] || notNames[w] || numberWords[w] != "" || companyWords[w] || c.factWithin(words.From, words.To) {
		return Range{}
	}
	return words
}

// calledBefore are the words that begin a line in front of clause i, with no fact since, if they may name what is sold:
// "Vermiculite, coarse: 4 cu ft bag". The medium before it, if any, has its price.
func (r *reading) calledBefore(i int, c *clause) (words Range) {
	if d := r.all[max(0, i-1)]; i > 0 && d.sentence == c.sentence && len(d.facts) == 0 { // "we also have a potting mix, $11.50 a bag"
		if at := cues.AlsoSold.FindStringSubmatchIndex(r.low[d.From:d.To]); at != nil && !cues.SameThing.MatchString(r.low[d.From:d.To]) {
			return Range{d.From + max(at[2], at[4]), d.From + max(at[3], at[5])}
		}
	}
	if !c.line || r.now != nil && !r.now.offered() {
		return Range{}
	}
	for _, d := range slices.Backward(r.all[:i]) {
		if d.sentence != c.sentence {
			break
		}
		if d.poison != "" || slices.ContainsFunc(d.facts, func(f *fact) bool { return f.kind != anAside }) {
			return Range{}
		}
		if len(d.tokens) > 0 {
			words = Range{d.tokens[0].From, d.tokens[len(d.tokens)-1].To}
		}
	}
	if words.To == 0 || !unicode.IsUpper(rune(r.text[words.From])) && !cues.Bullet.MatchString(r.low[:words.From]) || strings.Count(r.text[words.From:words.To], " ") >= maxHeading || fetchWord.MatchString(r.low[words.From:words.To]) {
		return Range{}
	}
	odd := false
	for w := range strings.FieldsSeq(strings.Map(signsOut, r.low[words.From:words.To])) {
		if fillers[w] || notNames[w] || noSubjects[w] || strings.Trim(w, "0123456789") == "" {
			return Range{}
		}
		odd = odd || !describers[w]
	}
	if !odd {
		return Range{}
	}
	return words
}

// inColumn says whether words stand in front of a wide gap in a line of a list that began with a medium and has no price yet: they go on
// with what is sold. "OYSTER SHELL, PULLET     50 LB    15.99".
func (r *reading) inColumn(i int, c *clause, words Range) bool {
	return r.now != nil && !r.now.offered() && r.now.medium != nil && !r.opensSentence(i, c) && len(r.all[i-1].tokens) == 0 && strings.HasPrefix(r.low[words.To:], "  ") && !strings.Contains(r.low[r.now.clauses[0].From:words.To], "\n")
}

// bareStone begins an item of a stone of which kind is not said, at the head of a sentence behind what has its price: "Pebbles (10-20
// mm) are $125" is not about the medium before.
func (r *reading) bareStone(i int, c *clause) {
	if r.now == nil || !r.now.offered() || r.now.row >= 0 || len(c.tokens) != 1 || !tails[c.tokens[0].word] || !unicode.IsUpper(rune(r.text[c.tokens[0].From])) ||
		i > 0 && r.all[i-1].sentence == c.sentence || len(c.facts) > 0 && c.facts[0].From < c.tokens[0].From {
		return
	}
	r.open(&item{row: -1, range_: c.tokens[0].Range, words: squeeze(r.text[c.tokens[0].From:c.tokens[0].To])}, c)
}

// headed begins an item of unknown words that stand in a line alone above a line with a pack and a price: what stands there is
// not about the medium before.
func (r *reading) headed(i int, c *clause) {
	if r.now == nil || !c.line || len(c.facts) > 0 || len(c.tokens) > maxHeading || i > 0 && r.all[i-1].sentence == c.sentence || i+1 == len(r.all) {
		return
	}
	next, odd := r.all[i+1], false
	if next.sentence == c.sentence || !next.line || next.row >= 0 || len(next.media()) > 0 || len(next.facts) == 0 || next.facts[0].kind != aPrice && next.facts[0].kind != aPack ||
		len(next.tokens) > 0 && next.tokens[0].From < next.facts[0].From || r.text[c.tokens[0].From] < 'A' || r.text[c.tokens[0].From] > 'Z' {
		return
	}
	for _, t := range c.tokens {
		if t.number || doubt(t.word) != "" {
			return
		}
		odd = odd || t.word != "" && !fillers[t.word] && !notNames[t.word] && !describers[t.word] && !noSubjects[t.word]
	}
	if odd {
		words := Range{c.tokens[0].From, c.tokens[len(c.tokens)-1].To}
		r.open(&item{row: -1, range_: words, words: squeeze(r.text[words.From:words.To])}, c)
	}
}

// maxHeading is the most words that head lines of a list.
const maxHeading = 4

// forAll gives a break, a number of packs or a size to all items before it in its section that it counts, where its words say so,
// or a line of its own holds nothing else.
func (r *reading) forAll(i int, c *clause, f *fact) bool {
	if f.kind == aDensity {
		r.weighsAll(i, c, f)
		return false
	}
	if f.kind != aBreak && f.kind != aMin && f.kind != aStep && f.kind != aSize || r.now.row >= 0 {
		return false
	}
	talk := !slices.ContainsFunc(c.tokens, func(t token) bool {
		return !oneOf(t.word, "you", "we", "can", "may", "buy", "order", "sell", "it", "we're", "i", "i'm", "happy", "glad", "to", "load", "do", "will", "also", "the")
	})
	alone := (i == 0 || r.all[i-1].sentence != c.sentence) && (c.line || len(c.facts) == 1 && talk && (i+1 == len(r.all) || r.all[i+1].sentence != c.sentence))
	if !cues.AllWords.MatchString(r.low[c.From:c.To]) && (f.kind == aBreak || f.kind == aSize || !alone) {
		return false
	}
	var of []*item
	sized := false // one of them has a size, or two are said
	wants := false // the item before
	for _, it := range r.items {
		if wants = it.section == len(r.sections)-1 && it.row < 0 && it.lost == "" && !it.several && !slices.ContainsFunc(it.facts, func(g *fact) bool { return g.kind == f.kind && g.text == f.text }) && (wants && f.kind != aSize && it.unsized() || slices.ContainsFunc(it.facts, func(g *fact) bool {
			return (g.kind == aPrice || g.kind == aPack) && g.unit.Counts(f.counted) && g.unit.Counts(f.unit)
		})); wants {
			of = append(of, it)
			sized = sized || slices.ContainsFunc(it.facts, func(g *fact) bool { return g.kind == aSize })
		}
	}
	if sized = sized || slices.ContainsFunc(c.facts, func(g *fact) bool { return g.kind == aSize && g != f }); f.kind == aSize && sized {
		return false
	}
	if len(of) < 2 {
		f.general = true // of all the packs that it is sold in
		return false
	}
	line := strings.LastIndexByte(r.low[:f.From], '\n') + 1
	if !c.line && !cues.AllWords.MatchString(r.low[c.From:c.To]) &&
		(of[0].facts[0].From < line && slices.ContainsFunc(r.now.facts, func(g *fact) bool { return g.From >= line }) || cues.GoesOnBefore.MatchString(r.low[max(0, c.From-window):c.From])) {
		return false // it may be said of what stands in its own line, or before its comma, alone
	}
	f.item = of[len(of)-1]
	for _, it := range of {
		it.facts = append(it.facts, f)
	}
	return true
}

// onlyMissed says whether a run holds numbers, pallets and fillers alone, which name nothing.
func (r *reading) onlyMissed(run Range) bool {
	for w := range strings.FieldsSeq(strings.Map(signsOut, r.low[run.From:run.To])) {
		if said := strings.Trim(w, "0123456789.,/"); !fillers[w] && said != "" && !palletForm.MatchString(said) {
			return false
		}
	}
	return true
}

// laterMedium is the next fact that names a medium in the sentence of clause i, before any clause that must not be read.
func (r *reading) laterMedium(i int, c *clause) *fact {
	for _, d := range r.all[i+1:] {
		if d.sentence != c.sentence || d.row >= 0 {
			return nil
		}
		if m := d.media(); len(m) > 0 && d.poison == "" {
			return m[0]
		}
	}
	return nil
}

// opensSentence says whether no medium stands before clause i in its sentence.
func (r *reading) opensSentence(i int, c *clause) bool {
	for _, d := range slices.Backward(r.all[:i]) {
		if d.sentence != c.sentence || d.row >= 0 {
			return true
		}
		if len(d.media()) > 0 {
			return false
		}
	}
	return true
}

// oneMedium attaches a clause that names one medium: all of it is about that one, but for what stands in front of it and
// may be about the medium before.
func (r *reading) oneMedium(c *clause, m *fact) {
	before := r.now
	it := cmp.Or(r.listedAs(m.medium, c), r.now)
	if r.now = it; it == nil || it.row >= 0 || it.lost != "" || it.medium != m.medium || r.under != nil && len(it.from)*len(r.under.from) > 0 && it.from[0] == r.under.from[0] || it.offered() || it.several {
		it = r.open(&item{row: -1, medium: m.medium, words: m.text}, c)
	} else {
		it.clauses = append(it.clauses, c)
		it.words = longer(it.words, m.text)
	}
	it.from = append(it.from, m)
	m.item = it
	lost := false // a price or a pack, and with it a word for how it is packed
	for _, f := range c.facts {
		switch {
		case f == m:
		case f.From < m.From && lost && oneOf(f.kind, aForm, aPack) && !r.linked(c, f, m):
			f.drop("it stands behind what may be about " + before.name() + " or about " + m.medium.Name)
		case f.From > m.From || strings.HasPrefix(m.text, "same ") && before.medium == m.medium || before == nil || before == it || !f.about() || r.leads(c, f, m, before):
			r.give(f, it)
		default:
			lost = true
			f.drop("it may be about " + before.name() + " before it or about " + m.medium.Name + " behind it")
		}
	}
}

// leads says whether a fact in front of medium m is about m and not about the item before: "for" or "of" links it, or
// nothing stands between. A break or a number of packs needs the link, and a price does while the item before has none.
func (r *reading) leads(c *clause, f, m *fact, before *item) bool {
	if r.linked(c, f, m) {
		return true
	}
	switch f.kind {
	case aBreak, aTier, aMin, aMax, aStep:
		return false
	case aPrice:
		if !before.offered() {
			return false
		}
	}
	return !slices.ContainsFunc(c.tokens, func(t token) bool { return t.From >= f.To && t.To <= m.From })
}

func longer(a, b string) string {
	if len(b) > len(a) {
		return b
	}
	return a
}

// linked says whether only "for", "of" or "on" and fillers stand between a fact and the medium behind it.
func (r *reading) linked(c *clause, f, m *fact) bool {
	link := false
	for _, t := range c.tokens {
		if t.From >= f.To && t.To <= m.From {
			link = link || t.word == "for" || t.word == "of" || t.word == "on"
			if !fillers[t.word] {
				return false
			}
		}
	}
	return link
}

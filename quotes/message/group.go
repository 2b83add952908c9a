package message

import (
	"slices"
	"strings"

	"mediabuy/quotes/internal/cues"
)

// group is a part of a price list under a line that says for all of it how it is packed or priced, and nothing else:
// "BULK (per yard)", "Bagged, 0.5 cu ft:".
type group struct {
	Range
	facts []*fact
}

// groups finds the parts of a list, and takes the facts of their headings out of what is attached line by line.
func (r *reading) groups() {
	for i := 0; i < len(r.all); {
		to := r.sentenceEnd(i)
		if g := r.groupAt(i, to); g != nil {
			if n := len(r.grouped); n > 0 {
				r.grouped[n-1].To = min(r.grouped[n-1].To, r.all[i].From)
			}
			r.grouped = append(r.grouped, g)
		}
		i = to
	}
}

// sentenceEnd is the first clause behind the sentence of clause i.
func (r *reading) sentenceEnd(i int) int {
	to := i + 1
	for to < len(r.all) && r.all[to].sentence == r.all[i].sentence && r.all[to].row == r.all[i].row {
		to++
	}
	return to
}

// groupAt is the group that the line of clauses i to, not including, to heads; nil when it heads none. A line of a medium must
// stand below it, and what it says must not be the pack of the line above. Two packs in it, and words that are not known where neither a
// colon nor large letters make a heading of it, leave what it says to a person where it would else be taken for the line above.
func (r *reading) groupAt(i, to int) *group {
	first := r.all[i].first()
	line := strings.TrimSpace(r.text[first:r.lineEnd(first)])
	if to == len(r.all) || !r.all[to].line || r.all[to].row >= 0 || !r.opensMediumLine(to) || !r.all[i].line && !strings.HasSuffix(line, ":") && !r.behindName(i) {
		return nil
	}
	g := &group{}
	var named []*fact
	packed, odd, plain := 0, false, cues.HeadingSign.MatchString(line)
	for _, c := range r.all[i:to] {
		if c.row >= 0 || cues.AllOfIt.MatchString(r.low[c.From:c.To]) {
			return nil
		}
		for _, t := range c.tokens {
			known := t.word == "" || fillers[t.word] || describers[t.word] || tails[t.word] || noSubjects[t.word]
			odd = odd || c.poison == "" && !t.number && (fetchWord.MatchString(t.word) || !known && !plain)
		}
		for _, f := range c.facts {
			switch {
			case oneOf(f.kind, anAside, anUnclear):
			case f.kind == aMedium && plain: // SAND AND GRAVEL, per ton
				named = append(named, f)
			case !oneOf(f.kind, aPack, aForm, aMin, aStep):
				return nil
			case f.kind == aForm && slices.ContainsFunc(g.facts, func(o *fact) bool { return o.kind == aForm && o.unit.Form == f.unit.Form }):
				f.kind, f.why = anAside, "the same as stands before it"
			case c.poison == "" && f.unclear == "":
				g.facts = append(g.facts, f)
				if f.kind == aPack {
					packed++
				}
			}
		}
	}
	if !slices.ContainsFunc(g.facts, func(f *fact) bool { return oneOf(f.kind, aPack, aForm) }) || r.endsLineAbove(i, line) {
		return nil
	}
	if odd || packed > 1 {
		if len(r.grouped) == 0 && !slices.ContainsFunc(r.all[:i], func(c *clause) bool { return len(c.media()) > 0 }) {
			return nil
		}
		for _, f := range g.facts {
			f.drop("it heads the lines below it, with words that are not known")
		}
	}
	for _, f := range named {
		f.kind, f.why = anAside, "it heads the lines below it"
	}
	slices.SortStableFunc(g.facts, func(a, b *fact) int { return int(a.kind - b.kind) }) // packs first: by them the least is counted
	g.Range = Range{r.all[to].From, len(r.text)}
	if gap := cues.BlankLine.FindStringIndex(r.low[g.From:]); gap != nil && !slices.ContainsFunc(g.facts, func(f *fact) bool { return f.general }) {
		g.To = g.From + gap[0]
	}
	return g
}

// behindName says whether nothing but the name of the supplier stands before clause i in its line: "Dry Fork Stone, all in 40 lb bags".
func (r *reading) behindName(i int) bool {
	return i > 0 && len(r.all[i-1].tokens) == 0 && len(r.all[i-1].facts) == 1 && r.all[i-1].facts[0].kind == aSupplier && !strings.Contains(r.text[r.all[i-1].From:r.all[i].first()], "\n")
}

// first is the byte at which what a clause holds begins.
func (c *clause) first() int {
	switch {
	case len(c.facts) == 0:
		return c.tokens[0].From
	case len(c.tokens) == 0:
		return c.facts[0].From
	}
	return min(c.facts[0].From, c.tokens[0].From)
}

// opensMediumLine says whether a medium with an amount behind it begins the line of clause i.
func (r *reading) opensMediumLine(i int) bool {
	return len(r.all[i].facts) > 0 && len(r.all[i].media()) > 0 && slices.ContainsFunc(r.all[i:r.sentenceEnd(i)], func(c *clause) bool {
		return slices.ContainsFunc(c.facts, func(f *fact) bool { return oneOf(f.kind, aPrice, aTier, aShort) }) || slices.ContainsFunc(c.tokens, func(t token) bool { return t.number })
	})
}

// endsLineAbove says whether the line of clause i may go on with the one above it, which has a price and no pack: "Lava rock $118",
// and below it "per yard". A colon, or letters all large, make a heading of it, and so does a list that is in groups already.
func (r *reading) endsLineAbove(i int, line string) bool {
	if i == 0 || len(r.grouped) > 0 && r.grouped[len(r.grouped)-1].To > r.all[i].From || cues.HeadingSign.MatchString(line) || cues.BlankLine.MatchString(r.text[r.all[i-1].From:r.all[i].To]) {
		return false
	}
	priced, packed := false, false
	for _, c := range slices.Backward(r.all[:i]) {
		if c.sentence != r.all[i-1].sentence {
			break
		}
		for _, f := range c.facts {
			priced = priced || f.kind == aPrice
			packed = packed || oneOf(f.kind, aPack, aShort) || f.unit.Text != ""
		}
	}
	return priced && !packed
}

// heads says whether clause c stands in the heading of a group.
func (r *reading) heads(c *clause) bool {
	return slices.ContainsFunc(r.grouped, func(g *group) bool {
		return slices.ContainsFunc(g.facts, func(f *fact) bool { return slices.Contains(c.facts, f) })
	})
}

// underGroups gives the items of each group what its heading says, where their own lines do not say otherwise.
func (r *reading) underGroups() {
	for _, g := range r.grouped {
		for _, f := range g.facts {
			if f.unclear != "" {
				continue
			}
			held := false
			for _, it := range r.items {
				if it.row < 0 && len(it.from) > 0 && it.from[0].From >= g.From && it.from[0].From < g.To && it.lost == "" && !it.several && it.takes(f) {
					own := *f
					own.head, own.item, own.general, own.refs = f, it, false, nil
					it.facts = append([]*fact{&own}, it.facts...)
					held = true
				}
			}
			if !held {
				f.drop("it heads the lines below it; write it under " + columnOf[f.kind] + " of those it holds for")
			}
		}
	}
}

// takes says whether what a heading says may be of the item: its line says nothing of the kind itself, and nothing against it.
func (it *item) takes(f *fact) bool {
	for _, g := range it.facts {
		switch {
		case g.kind == f.kind && g.kind != aPrice, f.kind == aPack && (g.unit.Text != "" || oneOf(g.kind, aShort, aPallet, aSame)):
			return false
		case oneOf(f.kind, aPack, aForm) && oneOf(g.kind, aPrice, aTier, aPack, aForm, aBreak) && !g.unit.Fits(f.unit):
			return false
		case oneOf(f.kind, aMin, aStep) && oneOf(g.kind, aPrice, aTier, aPack) && !(g.unit.Counts(f.counted) && g.unit.Counts(f.unit)):
			return false
		}
	}
	return it.offered()
}

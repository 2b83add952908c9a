package message

import (
	"slices"
	"sort"
	"strings"

	"mediabuy/quotes/internal/cues"
)

// split makes items of their own of later sizes of one medium, where each has its own price: "3/8 in 68, 3/4 in 72".
func (r *reading) split() {
	var out []*item
	r.samePriced()
	for _, it := range r.bothSizes(r.twins()) {
		parts := []*item{it}
		var again *item // of which a size is named again, in the sentence of a fact
		var said *fact
		now := it
		breaks, facts := r.sizedBreaks(it)
		behind := it.row < 0 && sizesBehind(facts)
		it.facts = nil
		sized, priced := false, false
		for i, f := range facts {
			opens := f.kind == aSize && sized && priced && followed(facts[i:]) || f.kind == aPrice && sized && priced && (behind || r.sizedTogether(it, f)) || f.kind == aPack && behind && sized && priced
			if opens {
				k := len(now.facts) // packs that begin the sentence of a size: "one tonne bags of the 10 mm: 68"
				for f.kind == aSize && oneOf(now.facts[k-1].kind, aPack, aForm) && r.sentenceOf(now.facts[k-1]) == r.sentenceOf(f) {
					k--
				}
				if r.sentenceOf(now.facts[k-1]) == r.sentenceOf(f) {
					k = len(now.facts)
				}
				ahead := slices.Clone(now.facts[k:])
				now.facts = now.facts[:k]
				now = &item{medium: it.medium, words: it.words, from: it.from, section: it.section, row: it.row, clauses: it.clauses, several: it.several, range_: it.range_, facts: ahead}
				parts = append(parts, now)
				sized, priced = false, false
			}
			if at := slices.IndexFunc(parts, func(part *item) bool { return part.sized(f.text) }); f.kind == aSize && it.row < 0 && !followed(facts[i:]) && at >= 0 && len(parts) > 1 {
				again, said = parts[at], f
			}
			if again != nil && f.kind != aPrice && r.sentenceOf(f) == r.sentenceOf(said) { // "the 3/8 runs 2,400 lb a yard"
				f.item = again
				again.facts = append(again.facts, f)
				continue
			}
			if f.kind == aSize && it.row < 0 && sized && priced && !opens && r.sameMoney(f.To) {
				last := now
				now = &item{medium: it.medium, words: it.words, from: it.from, section: it.section, row: it.row, clauses: it.clauses, range_: it.range_}
				parts = append(parts, now)
				now.priceAs(last)
			}
			sized = sized || f.kind == aSize
			priced = priced || f.kind == aPrice
			f.item = now
			now.facts = append(now.facts, f)
			for _, part := range parts[:len(parts)-1] {
				if f.general && f.kind == aDensity {
					part.facts = append(part.facts, f)
				}
			}
		}
		for i := 0; i < len(breaks); i += 2 {
			at := slices.IndexFunc(parts, func(part *item) bool { return part.sized(breaks[i+1].text) })
			if at < 0 {
				breaks[i].drop("it is not said of which size")
				at = 0
			}
			parts[at].facts = append(parts[at].facts, breaks[i], breaks[i+1])
		}
		if it.row < 0 && (len(parts) > 1 || slices.ContainsFunc(r.items, func(o *item) bool {
			return o != it && o.medium == it.medium && o.section == it.section && slices.ContainsFunc(o.facts, func(f *fact) bool { return oneOf(f.kind, aSize, aPrice, aBreak, aTier) })
		})) {
			for _, part := range parts {
				for _, rest := range r.unsized(part) {
					parts = append(parts, r.eachSize(rest, parts)...)
				}
			}
		}
		out = append(out, parts...)
	}
	r.items = out
}

// bothSizes makes items of their own of two sizes in front of a price that is said to be that of both: "1/4 inch and 3/4 inch. Both 33 a ton".
func (r *reading) bothSizes(items []*item) (out []*item) {
	for _, it := range items {
		out = append(out, it)
		k := slices.IndexFunc(it.facts, func(f *fact) bool { return f.kind != aSize })
		if k != 2 || it.facts[k].kind != aPrice || it.row >= 0 || it.facts[0].text == it.facts[1].text || !cues.BothBehind.MatchString(r.low[it.facts[1].To:it.facts[k].From]) {
			continue
		}
		own := *it
		own.facts, it.facts = []*fact{it.facts[1]}, slices.Delete(it.facts, 1, 2)
		own.facts[0].item = &own
		own.priceAs(it)
		out = append(out, &own)
	}
	return out
}

// sized says whether an item has a size already.
func (it *item) sized(size string) bool {
	return slices.ContainsFunc(it.facts, func(f *fact) bool { return f.kind == aSize && f.text == size })
}

func (r *reading) sameMoney(at int) bool {
	rest := r.low[at:min(len(r.low), at+window)]
	idx := cues.SamePrices.FindStringIndex(rest)
	return idx != nil && !cues.SameAsWhat.MatchString(rest[idx[1]:])
}

// priceAs gives an item the prices of another, with their packs.
func (it *item) priceAs(o *item) {
	var same []*fact
	for _, f := range o.facts {
		if oneOf(f.kind, aPrice, aBreak, aTier, aPallet, aPack, aForm) && f.unclear == "" {
			own := *f
			own.head, own.item, own.why = f, it, "the same price as before"
			same = append(same, &own)
		}
	}
	it.facts = append(same, it.facts...)
}

// samePriced gives the price of the item before to one of the same medium in another size, or the only one to another medium: "the 6-12 mm
// is the same price throughout", "pumice is the same price".
func (r *reading) samePriced() {
	for i, it := range r.items[min(1, len(r.items)):] {
		last := r.items[i]
		if it.row >= 0 || it.medium == nil || it.lost != "" || len(it.from) == 0 || it.section != last.section || last.row >= 0 || !last.priced() {
			continue
		}
		said := it.from[len(it.from)-1]
		if at := slices.IndexFunc(it.facts, func(f *fact) bool { return f.kind == aSize }); at >= 0 {
			said = it.facts[at]
		} else if it.medium == last.medium {
			continue
		}
		prices := slices.DeleteFunc(slices.Clone(last.facts), func(f *fact) bool { return f.kind != aPrice })
		if (it.medium == last.medium || len(prices) == 1 && cues.SameToo.MatchString(r.low[said.To:])) && r.sameMoney(said.To) && !slices.ContainsFunc(it.facts, func(f *fact) bool {
			return oneOf(f.kind, aPrice, aBreak, aTier) && r.sentenceOf(f) == r.sentenceOf(said) || oneOf(f.kind, aPack, aForm) && it.medium != last.medium
		}) {
			it.priceAs(last)
		}
	}
}

// weighsAll gives a density to all sizes of the medium spoken of that have none, where its words say so, or it stands in a sentence
// by itself that names neither a size nor a medium.
func (r *reading) weighsAll(i int, c *clause, f *fact) {
	own, from := true, c.From
	for j := i; j >= 0 && r.all[j].sentence == c.sentence; j-- {
		from = r.all[j].From
		own = own && len(r.all[j].media()) == 0 && !slices.ContainsFunc(r.all[j].facts, func(g *fact) bool { return g.kind == aSize || g.kind == aPrice })
	}
	if r.now.row >= 0 || r.now.medium == nil || !own && !cues.AllWords.MatchString(r.low[from:c.To]) {
		return
	}
	f.general = true
	for _, it := range r.items {
		if it != r.now && it.section == r.now.section && it.medium == r.now.medium && it.row < 0 && !it.several && it.lost == "" && !slices.ContainsFunc(it.facts, func(g *fact) bool { return g.kind == aDensity }) {
			it.facts = append(it.facts, f)
		}
	}
}

// sizesBehind says whether each of several prices has its size behind it, and they take turns: "50 L at £17 (8-16 mm), 25 L at £9
// (4-8 mm)".
func sizesBehind(facts []*fact) bool {
	turns := 0
	for _, f := range facts {
		switch {
		case f.kind != aPrice && f.kind != aSize:
		case (f.kind == aSize) != (turns%2 == 1):
			return false
		default:
			turns++
		}
	}
	return turns >= 4 && turns%2 == 0
}

// twins are the items, two of each that names two sizes with one price for both: "in 3/8 and 3/4, both $74 a yard".
func (r *reading) twins() (out []*item) {
	for _, it := range r.items {
		var sizes []*fact
		var price *fact
		for _, f := range it.facts {
			if f.kind == aSize {
				sizes = append(sizes, f)
			} else if f.kind == aPrice && price == nil {
				price = f
			}
		}
		if it.row >= 0 || price == nil || len(sizes) != 2 || sizes[1].To > price.From || !cues.AndBetween.MatchString(r.low[sizes[0].To:sizes[1].From]) || !cues.ForBoth.MatchString(r.low[sizes[1].To:price.From]) && !cues.BothBefore.MatchString(r.low[max(0, sizes[0].From-window):sizes[0].From]) {
			out = append(out, it)
			continue
		}
		for i := range sizes {
			one := *it
			one.facts = slices.DeleteFunc(slices.Clone(it.facts), func(f *fact) bool { return f == sizes[1-i] })
			out = append(out, &one)
		}
	}
	return out
}

// sizedBreaks takes each break with the size behind it out of the facts of an item of several sizes: "8 yards or more $89 on
// the 3/4 in".
func (r *reading) sizedBreaks(it *item) (breaks, rest []*fact) {
	for i := 0; i < len(it.facts); i++ {
		f := it.facts[i]
		if it.row < 0 && f.kind == aBreak && i+1 < len(it.facts) && it.facts[i+1].kind == aSize && !followed(it.facts[i+1:]) && r.sentenceOf(f) == r.sentenceOf(it.facts[i+1]) {
			breaks = append(breaks, f, it.facts[i+1])
			i++
			continue
		}
		rest = append(rest, f)
	}
	return breaks, rest
}

// unsized takes a second price for another pack out of one of several sizes of a medium: of which size it is is not said.
func (r *reading) unsized(it *item) []*item {
	var first *fact
	for i, f := range it.facts {
		switch {
		case f.kind != aPrice:
		case first == nil:
			first = f
		case (first.unit.Text != f.unit.Text || first.unit.Form != f.unit.Form) && r.sentenceOf(first) != r.sentenceOf(f) && !r.headsLines(it, first, f):
			for i > 0 && (it.facts[i-1].kind == aPack || it.facts[i-1].kind == aForm) {
				i--
			}
			rest := *it
			rest.facts = slices.Clone(it.facts[i:])
			it.facts = it.facts[:i]
			for _, g := range rest.facts {
				g.item = &rest
			}
			return []*item{&rest}
		}
	}
	return nil
}

// headsLines says whether the only size of an item ends a line above two prices, with no empty line between.
func (r *reading) headsLines(it *item, first, f *fact) bool {
	at := slices.IndexFunc(it.facts, func(g *fact) bool { return g.kind == aSize })
	if at < 0 || it.facts[at].From > first.From || slices.ContainsFunc(it.facts[at+1:], func(g *fact) bool { return g.kind == aSize }) {
		return false
	}
	between := strings.TrimLeft(strings.ReplaceAll(r.low[it.facts[at].To:f.From], "\r", ""), " \t:")
	return strings.HasPrefix(between, "\n") && !strings.Contains(between, "\n\n")
}

// eachSize are an item for each size of its medium, where the line of its price says that it is for any of them; else the item alone.
func (r *reading) eachSize(it *item, of []*item) (out []*item) {
	at := slices.IndexFunc(it.facts, func(f *fact) bool { return f.kind == aPrice })
	if at < 0 || !cues.AnySize.MatchString(lower(r.lineOf(it.facts[at].From))) {
		return []*item{it}
	}
	for _, o := range of {
		if i := slices.IndexFunc(o.facts, func(f *fact) bool { return f.kind == aSize }); i >= 0 && o != it && !slices.ContainsFunc(out, func(p *item) bool { return p.sized(o.facts[i].text) }) {
			one, size := *it, *o.facts[i]
			size.head = o.facts[i]
			one.facts = append([]*fact{&size}, it.facts...)
			out = append(out, &one)
		}
	}
	if len(out) < 2 {
		return []*item{it}
	}
	return out
}

// sentenceOf is the number of the sentence that a fact stands in.
func (r *reading) sentenceOf(f *fact) int {
	i := sort.Search(len(r.all), func(i int) bool { return r.all[i].To >= f.To })
	if i == len(r.all) {
		return -1
	}
	return r.all[i].sentence
}

// followed says whether a price follows a size before the next size.
func followed(facts []*fact) bool {
	for _, f := range facts[1:] {
		switch f.kind {
		case aPrice:
			return true
		case aSize:
			return false
		}
	}
	return false
}

// sizedTogether says whether a size stands behind price f in its clause.
func (r *reading) sizedTogether(it *item, f *fact) bool {
	for _, c := range it.clauses {
		if slices.Contains(c.facts, f) {
			return slices.ContainsFunc(c.facts, func(g *fact) bool { return g.kind == aSize && g.From > f.From }) && !slices.ContainsFunc(c.media(), func(g *fact) bool { return g.From > it.facts[0].From })
		}
	}
	return false
}

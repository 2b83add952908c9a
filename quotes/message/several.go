package message

import (
	"slices"
	"strings"

	"mediabuy/quotes"
	"mediabuy/quotes/internal/cues"
)

// severalMedia attaches a clause that names several media by place. Media with nothing between them are one group, of
// which it cannot be told which one is meant.
func (r *reading) severalMedia(c *clause, media []*fact) {
	if r.shared(c, media) || r.sizedAhead(c, media) {
		return
	}
	var group, ahead []*fact
	var it *item
	for i, m := range media {
		if i == 0 {
			r.lead(c, m)
		}
		next := len(r.text)
		if i+1 < len(media) {
			next = media[i+1].From
		}
		var tail []*fact
		front := ahead // of this medium
		ahead = nil
		for _, f := range c.facts {
			switch {
			case f.From <= m.From || f.From >= next || f.kind == aMedium:
			case f.kind == aSize && i+1 < len(media) && len(tail) > 0 && strings.Trim(r.low[f.To:next], " \t-") == "": // "and the 3/4 in lava"
				ahead = append(ahead, f)
			default:
				tail = append(tail, f)
			}
		}
		group = append(group, m)
		if !slices.ContainsFunc(tail, func(f *fact) bool { return f.about() }) && i+1 < len(media) && len(group) > 0 {
			for _, f := range tail {
				r.give(f, r.now)
			}
			ahead = append(front, ahead...)
			continue
		}
		it = r.open(&item{row: -1, medium: m.medium, words: m.text, several: len(group) > 1}, c)
		for _, g := range group {
			g.item = it
		}
		it.from = append(it.from, group...)
		for _, f := range slices.Concat(front, tail) {
			r.give(f, it)
		}
		group = nil
	}
}

// sizedAhead begins an item of each medium where a clause names several, each with its size right in front, and says nothing else of them:
// "you asked about 3/8 pumice & 1 inch lava". What each costs is said behind it.
func (r *reading) sizedAhead(c *clause, media []*fact) bool {
	facts := slices.DeleteFunc(slices.Clone(c.facts), func(f *fact) bool { return f.kind == anAside })
	for i, f := range facts {
		if sized := i%2 == 0 && f.kind == aSize && i+1 < len(facts) && strings.TrimSpace(r.low[f.To:facts[i+1].From]) == ""; !sized && f.kind != aMedium || len(facts) != 2*len(media) {
			return false
		}
	}
	for i, m := range media {
		m.item = r.open(&item{row: -1, medium: m.medium, words: m.text, from: []*fact{m}, listed: true}, c)
		r.give(facts[2*i], m.item)
	}
	return true
}

// listedAs is the item that sizedAhead began of a medium, where it is the only one, has no price yet and clause c says no size itself.
func (r *reading) listedAs(m *quotes.Medium, c *clause) (of *item) {
	for _, it := range r.items {
		switch {
		case it.medium != m || it.row >= 0 || it.section != len(r.sections)-1:
		case of != nil || !it.listed || it.offered() || slices.ContainsFunc(c.facts, func(f *fact) bool { return f.kind == aSize }):
			return nil
		default:
			of = it
		}
	}
	return of
}

// shared gives the price behind several media, or sizes of one, to each of them where the words say so: "both the 3/8 lava and the 3/4
// lava are $92". What is one's own stands right in front of it.
func (r *reading) shared(c *clause, group []*fact) bool {
	last := group[len(group)-1]
	var price *fact
	var tail []*fact
	for _, f := range c.facts {
		switch {
		case f.From < last.From && (!f.about() || f.kind == aSize):
		case f.From < last.From, f.kind == aPrice && price != nil, f.about() && !oneOf(f.kind, aPrice, aPack, aForm):
			return false
		case f.kind == aPrice:
			price = f
			fallthrough
		default:
			if f != last {
				tail = append(tail, f)
			}
		}
	}
	if price == nil || !cues.SharedWord.MatchString(r.low[last.To:price.From]) && !cues.BothBefore.MatchString(r.low[c.From:group[0].From]) {
		return false
	}
	at := c.From
	for _, m := range group {
		it := r.open(&item{row: -1, medium: m.medium, words: m.text, from: []*fact{m}}, c)
		m.item = it
		for _, f := range c.facts {
			if f.kind == aSize && f.From >= at && f.From < m.From {
				r.give(f, it)
			}
		}
		for _, f := range tail {
			r.give(f, it)
		}
		at = m.To
	}
	return true
}

// lead attaches what stands in front of the first medium of a clause that names several: it may be about the item before.
func (r *reading) lead(c *clause, m *fact) {
	before := r.now
	if before != nil && before.lost != "" && r.opensSentence(slices.Index(r.all, c), c) {
		before = nil // "pumice sand we are out of. The 7-14 mm pumice"
	}
	if before == nil {
		r.pendFrom = c
	}
	for _, f := range c.facts {
		switch {
		case f.From >= m.From:
		case !f.about():
			r.give(f, before)
		case before == nil:
			r.pending = append(r.pending, f)
		default:
			f.drop("it may be about " + before.name() + " before it or about " + m.medium.Name + " behind it")
		}
	}
}

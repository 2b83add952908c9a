package quotes

import (
	"cmp"
	"slices"
	"strings"

	"mediabuy/units"
)

// Apart is what tells a quote from others of its supplier that are called the same; empty where there is none.
type Apart struct {
	Pack  string // its pack, where that does
	Other string // its size, or its name where nothing else differs
}

// TellApart sets what tells quotes apart that one supplier calls the same: the pack if no two of them share one, else the
// size, else both, else both and the quote's name.
func TellApart(list []*Quote) {
	alike := map[[2]string][]*Quote{}
	for _, q := range list {
		q.Apart = Apart{}
		key := [2]string{q.Supplier, strings.ToLower(q.called())}
		alike[key] = append(alike[key], q)
	}
	for _, group := range alike {
		if len(group) > 1 {
			tellApart(group)
		}
	}
}

func tellApart(group []*Quote) {
	pack := func(q *Quote) Apart { return Apart{Pack: q.PackWords()} }
	size := func(q *Quote) Apart { return Apart{Other: q.Size.Raw} }
	both := func(q *Quote) Apart { return Apart{Pack: q.PackWords(), Other: q.Size.Raw} }
	name := func(q *Quote) Apart {
		return Apart{Pack: q.PackWords(), Other: strings.TrimPrefix(q.Size.Raw+", quote "+q.Name, ", ")}
	}
	for _, way := range []func(*Quote) Apart{pack, size, both, name} {
		seen := map[Apart]bool{{}: true}
		for _, q := range group {
			q.Apart = way(q)
			seen[q.Apart] = true
		}
		if len(seen) == len(group)+1 {
			return
		}
	}
}

// called is the supplier's word for a thing, or what it is.
func (q *Quote) called() string { return cmp.Or(q.Item, q.Medium.Name) }

// Called is what a supplier calls a thing, as it stands by itself in a paper: with its pack or size where the supplier calls
// more than one thing that. Beside the packs [Quote.ItemWords] will do.
func (q *Quote) Called() string { return bracketed(q.called(), q.Apart.Pack, q.Apart.Other) }

// NameWords is a quote's name in a sentence: the one that somebody gave it, else what its supplier calls it, of whom.
func (q *Quote) NameWords() string {
	if strings.HasPrefix(q.Name, q.Supplier+"/") { // made of both, and a number that says nothing
		return q.Called() + " of " + q.Supplier
	}
	return q.Name
}

// ItemWords is what a supplier calls a thing, and what it is where its words do not say, beside its packs.
func (q *Quote) ItemWords() string { return bracketed(q.itemWords(), q.Apart.Other) }

// ItemAlone is ItemWords where no packs stand beside it.
func (q *Quote) ItemAlone() string { return bracketed(q.itemWords(), q.Apart.Pack, q.Apart.Other) }

func (q *Quote) itemWords() string {
	if strings.Contains(strings.ToLower(q.called()), strings.ToLower(q.Medium.Name)) {
		return q.called()
	}
	return bracketed(q.called(), q.Medium.Name)
}

// bracketed is words with what is not empty of more behind them, in brackets.
func bracketed(words string, more ...string) string {
	more = slices.DeleteFunc(more, func(s string) bool { return s == "" })
	if len(more) == 0 {
		return words
	}
	return words + " (" + strings.Join(more, ", ") + ")"
}

// PackWords is what one pack is called: "50 L bag", "1 yd3 bulk bag".
func (q *Quote) PackWords() string {
	switch q.Form {
	case Bag:
		return q.Pack.Raw + " bag"
	case Sack:
		return q.Pack.Raw + " bulk bag"
	}
	return q.Pack.Raw
}

// PacksWords is a number of packs: "5.5 × 1 short ton", "40 × 50 L bag".
func (q *Quote) PacksWords(n units.Decimal) string { return n.String() + " × " + q.PackWords() }

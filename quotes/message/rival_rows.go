package message

import (
	"slices"
	"strings"

	"mediabuy/quotes/internal/cues"
)

// settle takes out rows that may say of another row what they seem to say of one of their own: their numbers are left to a person, who is
// asked about them.
func (r *reading) settle(rows []*draft) []*draft {
	for _, d := range rows { // "bulk bags of 1 m3: 4-10 mm at 124 a bag, 10-20 mm at 116 a bag"
		if form := d.cells["form"]; form != nil && form.text == "bag" && d.cells["pack"] == nil && slices.ContainsFunc(rows, func(o *draft) bool {
			return o.like(d) && o.cells["pack"] != nil && o.offer.pack.Form == "sack"
		}) {
			delete(d.cells, "form")
		}
	}
	return slices.DeleteFunc(slices.Clone(rows), func(d *draft) bool {
		why := ""
		price := d.offer.price
		switch {
		case d.item.row >= 0 && (d.item.medium == nil || !slices.ContainsFunc(d.item.clauses, func(c *clause) bool { return cues.FromCount.MatchString(r.low[c.From:c.To]) })), price != nil && (price.ask != nil || price.why == onePallet || len(d.offer.rivals) > 0):
		case r.carriesPack(d):
			why = "a load and what it holds, and no goods"
		case d.item.medium == nil && d.talks():
			why = "the words before it name nothing that is sold"
		case d.offer.pack.Form == "" && d.cells["pack"] == nil && slices.ContainsFunc(rows, func(o *draft) bool { return o.outdoes(d) && (price == nil || o.offer.price.money.Cmp(price.money) > 0) }):
			why = "a second price of it, with no pack"
		case price != nil && r.strayPrice(d) && slices.ContainsFunc(rows, func(o *draft) bool {
			return d.like(o) && o.offer.price != nil && o.offer.price.From < price.From && r.sentenceOf(o.offer.price) != r.sentenceOf(price)
		}):
			why = "neither goods nor a pack stand beside it"
		case price != nil && d.cells["pack"] == nil && r.ofBringing(price) && slices.ContainsFunc(rows, func(o *draft) bool {
			return d.like(o) && o.cells["pack"] != nil && o.offer.price != nil && o.offer.price.From < price.From
		}):
			why = "it may be what bringing it costs"
		case price != nil && bagBehind.MatchString(r.low[price.From:price.To]) && r.ofPallet(price):
			why = "it may be the price of one on a full pallet alone"
		case price != nil && oneOf(d.offer.pack.Form, "", "each") && d.cells["pack"] == nil && slices.ContainsFunc(rows, func(o *draft) bool {
			return d.like(o) && o.cells["price"] != nil && o.offer.price.From < price.From && o.offer.price.money.Cmp(price.money) > 0 && d.cells["size"] == nil && !r.otherwise(d, o)
		}):
			why = "a second and lower price of it, with no pack"
		case price != nil && slices.ContainsFunc(rows, func(o *draft) bool {
			return o.outdoes(d) && o.offer.price.From < price.From && o.offer.price.money.Cmp(price.money) > 0 && o.samePack(d) && !r.otherwise(d, o)
		}):
			why = "a second price of it for the same pack"
		}
		if why != "" && price != nil {
			price.drop(why)
		}
		return why != ""
	})
}

// strayPrice says whether the price of a row stands in a sentence that names neither goods nor a pack: "Ask about our class ($20)".
func (r *reading) strayPrice(d *draft) bool {
	price := d.offer.price
	return (price.unit.Empty() || price.unit.Form == "each" && price.unit.Text == "") && !r.ofPallet(price) && !slices.ContainsFunc(r.all, func(c *clause) bool {
		return c.sentence == r.sentenceOf(price) && slices.ContainsFunc(c.facts, func(f *fact) bool { return oneOf(f.kind, aMedium, aPack, aForm, aSize) })
	})
}

// ofBringing says whether a price stands in a sentence that speaks of bringing goods and of none by name: "Loose comes on a tipper, £35 drop".
func (r *reading) ofBringing(price *fact) bool {
	return slices.ContainsFunc(r.all, func(c *clause) bool {
		return c.From <= price.From && price.From < c.To && len(c.media()) == 0 && r.bringing(c)
	})
}

// ofPallet says whether a pallet is named in front of a price in its clause: "per full pallet we charge € 19,25 per bag".
func (r *reading) ofPallet(price *fact) bool {
	return slices.ContainsFunc(r.all, func(c *clause) bool {
		return c.From <= price.From && price.From < c.To && palletNamed.MatchString(r.low[c.From:price.To])
	})
}

var (
	bagBehind   = compile(`\d[ \t]*(?:/|(?:per|an?|the|each)\b)[ \t]*\pL*[ -]?bags?$`)
	palletNamed = compile(`\b(?:per|by the|on a|for a|each|every|full|whole)[ \t]+(?:(?:full|whole)[ \t]+)?` + palletWord)
)

// like says whether two rows are of one medium and one supplier.
func (d *draft) like(o *draft) bool {
	return o != d && o.item.medium == d.item.medium && o.item.section == d.item.section && d.item.medium != nil && sameCells(o.cells["supplier"], d.cells["supplier"])
}

// outdoes says whether a row has all that another of its medium has, and the price of a pack.
func (d *draft) outdoes(o *draft) bool {
	return d.like(o) && d.cells["price"] != nil && d.cells["pack"] != nil && (o.cells["size"] == nil || sameCells(d.cells["size"], o.cells["size"]))
}

// samePack says whether two rows are of packs that are one, as far as is said.
func (d *draft) samePack(o *draft) bool {
	return d.cells["pack"] != nil && o.cells["pack"] != nil && d.offer.pack.Size() == o.offer.pack.Size() && (d.offer.pack.Form == o.offer.pack.Form || d.cells["form"] == nil || o.cells["form"] == nil)
}

// otherwise says whether two rows go by names of which neither holds the other: "red lava" and "black lava".
func (r *reading) otherwise(d, o *draft) bool {
	a, b := strings.Fields(lower(d.item.words)), strings.Fields(lower(o.item.words))
	within := func(a, b []string) bool {
		return !slices.ContainsFunc(a, func(w string) bool { return !slices.Contains(b, w) })
	}
	return !within(a, b) && !within(b, a) || r.describedBy(d) != r.describedBy(o)
}

// describedBy is the word in front of the name of what a row is of, "" where it carries nothing: "washed", "unwashed".
func (r *reading) describedBy(d *draft) string {
	for _, m := range d.item.from {
		for _, c := range d.item.clauses {
			if c.From > m.From || m.From >= c.To {
				continue
			}
			if words := strings.Fields(r.low[c.From:m.From]); len(words) > 0 && !fillers[words[len(words)-1]] && strings.Trim(words[len(words)-1], "abcdefghijklmnopqrstuvwxyz-") == "" {
				return words[len(words)-1]
			}
		}
	}
	return ""
}

// talks says whether the words that a row of no known medium is called by are those of a sentence and no name of goods.
func (d *draft) talks() bool {
	words := strings.Fields(lower(d.item.words))
	return slices.ContainsFunc(words, func(w string) bool { return talkWords[strings.Trim(w, ",.'’")] }) && !slices.ContainsFunc(words, func(w string) bool { return describers[w] })
}

var talkWords = set("i i'll i'd we we'll we'd it it's you you'd he she they will would can could shall make makes made do does did bring brings cart carts haul hauls deliver delivers says said had have has try get got")

// carriesPack says whether what a row is the price of stands in a clause that speaks of a truck and of nothing that is sold.
func (r *reading) carriesPack(d *draft) bool {
	price := d.offer.price
	if price == nil || d.item.row >= 0 {
		return false
	}
	return slices.ContainsFunc(r.all, func(c *clause) bool {
		return len(c.media()) == 0 && slices.ContainsFunc(d.offer.packFrom, func(f *fact) bool {
			return slices.Contains(c.facts, f) && cues.TruckLoads.MatchString(r.low[c.From:f.To])
		})
	})
}

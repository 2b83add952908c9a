package message

import (
	"slices"
	"strings"
	"time"

	"mediabuy/quotes/internal/cues"
	"mediabuy/units"
)

// counts asks about numbers of packs: the least sold, all there are, and halves.
func (l *leftovers) counts() {
	var named []*draft // the rows of what was spoken of last
	for _, s := range l.sentences() {
		here := l.spokenOf(s)
		if len(here) > 0 {
			named = here
		}
		all := l.of(s.section)
		if len(here) > 0 {
			all = here
		}
		said := l.reading.low[s.From:s.To]
		stock := cues.StockWord.MatchString(said) || cues.HowMany.MatchString(l.reading.low[max(0, s.From-window):s.From])
		if cues.HalvesWord.MatchString(said) {
			for _, m := range append(l.find(cues.SoldInHalf, s.From, s.To), l.find(cues.HalvesSold, s.From, s.To)...) {
				var unit pack
				if m.re == cues.SoldInHalf {
					unit, _ = l.holding("1", l.unitText(m, "v"), "")
				}
				question, step := "is it sold in steps of half a pack?", "0.5"
				if strings.HasPrefix(m.text("part"), "quarter") {
					question, step = "is it sold in steps of a quarter of a pack?", "0.25"
				}
				of := l.counted(all, unit, true)
				if len(of) == 0 { // "in half tonnes, half cubes for the lava"
					of = l.counted(l.of(s.section), unit, true)
				}
				l.putNumber(question, "step", step, m, of)
			}
		}
		for _, m := range l.find(cues.LeastSold, s.From, s.To) {
			if cues.OrBefore.MatchString(l.reading.low[s.From:m.at+m.idx[0]]) || cues.AndBehind.MatchString(l.reading.low[m.end():s.To]) {
				continue
			}
			l.putCount("are so many packs the fewest sold?", "min_qty", m, first(m.text("q"), m.text("qb")), first(l.unitText(m, "v"), l.unitText(m, "vb")), all)
		}
		if cues.DeniesWord.MatchString(said) { // "take fewer than two yards and I will not load"
			for _, m := range l.matches(cues.LeastTaken, l.denied, s.From, s.To) {
				l.putCount("are so many packs the fewest sold?", "min_qty", m, m.text("q"), l.unitText(m, "v"), all)
			}
		}
		if stock {
			for _, m := range l.read(cues.OfSized, s.From, s.To) { // "7 of the 25s", "60 of the 8-16"
				of := slices.DeleteFunc(l.of(s.section), func(d *draft) bool { return !calledBy(d, first(m.text("p"), m.text("pb"))) })
				if n, why := l.counting(first(m.text("q"), m.text("qb"))); why == "" && len(of) == 1 {
					l.putNumber("are "+n.text+" packs all there are?", "max_qty", n.text, m, of)
				}
			}
			for _, m := range l.find(cues.OfIt, s.From, s.To) { // "16 of the pumice and 7 of the lava"
				var of []*draft
				for _, c := range s.clauses {
					for _, g := range c.media() {
						if g.From >= m.end() && strings.TrimSpace(l.reading.low[m.end():g.From]) == "" {
							of = slices.DeleteFunc(l.of(s.section), func(d *draft) bool { return d.item.medium != g.medium })
						}
					}
				}
				if at := cues.OfNamed.FindStringSubmatchIndex(l.reading.low[m.end():s.To]); len(of) == 0 && at != nil && strings.Contains(l.reading.low[m.at:m.end()], " of ") { // "only 14 of the pebbles", of clay pebbles
					word := l.reading.low[m.end()+at[2] : m.end()+at[3]]
					of = slices.DeleteFunc(l.of(s.section), func(d *draft) bool { return !slices.Contains(strings.Fields(lower(d.item.words)), word) })
				}
				if len(of) == 0 && cues.EmBehind.MatchString(l.low[m.at+m.idx[0]:m.end()]) {
					of = named // "got 16 of em"
				}
				if n, why := l.counting(m.text("q")); why == "" && len(of) == 1 {
					l.putNumber("are "+n.text+" packs all there are?", "max_qty", n.text, m, of)
				}
			}
		}
		if of := named; stock && len(of) > 0 && of[0].item.section == s.section {
			for _, m := range l.find(cues.PacksHad, s.From, s.To) {
				if at := cues.OfThing.FindStringSubmatchIndex(l.reading.low[m.end():s.To]); at != nil && l.unknownThing(m.end()+at[2], m.end()+at[3]) {
					continue
				}
				l.putCount("are so many packs all there are?", "max_qty", m, m.text("q"), l.unitText(m, "v"), of)
			}
			for _, m := range l.matches(cues.HadAlone, l.denied, s.From, s.To) { // "14 left and no more"
				if n, why := l.counting(m.text("q")); why == "" && !cues.DeniesWord.MatchString(l.reading.low[s.From:m.part().From]) {
					of := slices.DeleteFunc(slices.Clone(l.lastBefore(m.at+m.idx[0], of)), func(d *draft) bool { return d.cells["max_qty"] != nil })
					var replies []reply
					for _, d := range of {
						label := n.text
						if len(of) > 1 {
							label += " of " + d.item.words
						}
						replies = append(replies, l.cell(label, "max_qty", n.text, []*draft{d}))
					}
					l.put("are "+n.text+" packs all there are?", []Range{m.part()}, replies...)
				}
			}
		}
		l.packsAlone(s, named)
	}
}

// calledBy says whether a number is what the pack of a row holds or its grain size, as far as its unit.
func calledBy(d *draft, number string) bool {
	for _, column := range []string{"pack", "size"} {
		if cell := d.cells[column]; cell != nil {
			if got, _, _ := strings.Cut(cell.text, " "); strings.ReplaceAll(got, "/", "-") == strings.ReplaceAll(number, "/", "-") {
				return true
			}
		}
	}
	return false
}

// packsAlone asks about numbers of packs that stand by themselves, as "(6 bags)" behind a price does: they are all there are, or the fewest
// sold.
func (l *leftovers) packsAlone(s stretch, named []*draft) {
	for _, m := range l.read(cues.PacksThat, s.From, s.To) { // the pack may be part of what a row is made of: "5 bags, 100 L each"
		q, to, _ := m.span("q")
		n, why := l.counting(m.text("q"))
		if strings.IndexByte(l.low[q:to], 0) >= 0 || why != "" || whole(n.text) < 2 || cues.NotStock.MatchString(strings.ReplaceAll(l.reading.low[max(0, q-window/8):q], "to sell", "")) || carryWord.MatchString(l.reading.low[s.From:s.To]) {
			continue
		}
		of, why := l.unitCounted(l.unitText(m, "v"))
		if why != "" || of.Text != "" && m.text("end") != " of " {
			continue
		}
		rows := l.counted(l.lastBefore(q, named), of, false)
		if len(rows) > 0 && !slices.ContainsFunc(rows, func(d *draft) bool { return d.cells["max_qty"] != nil || d.cells["min_qty"] != nil }) {
			l.put("are "+n.text+" packs all there are, or the fewest sold?", []Range{{q, to}}, l.cell("all there are", "max_qty", n.text, rows), l.cell("the fewest sold", "min_qty", n.text, rows))
		}
	}
}

// lastBefore is the row whose price stands last before a place in its line, or else those given.
func (l *leftovers) lastBefore(at int, named []*draft) []*draft {
	from := strings.LastIndexByte(l.reading.low[:at], '\n') + 1
	var last *draft
	for _, d := range l.of(l.sectionAt(at)) {
		if d.offer.price != nil && d.offer.price.From >= from && d.offer.price.To <= at && (last == nil || d.offer.price.From > last.offer.price.From) {
			last = d
		}
	}
	if last == nil {
		return named
	}
	return []*draft{last}
}

// unknownThing says whether a word is what an item of no known medium is called by.
func (l *leftovers) unknownThing(from, to int) bool {
	return slices.ContainsFunc(l.items, func(it *item) bool { return it.medium == nil && it.range_.From < to && from < it.range_.To })
}

// spokenOf are the rows with a price of the media that a part of the message names.
func (l *leftovers) spokenOf(s stretch) []*draft {
	var media []*fact
	for _, c := range s.clauses {
		media = append(media, c.media()...)
	}
	if len(media) == 0 {
		return nil
	}
	return slices.DeleteFunc(l.of(s.section), func(d *draft) bool {
		return !slices.ContainsFunc(media, func(m *fact) bool { return m.medium == d.item.medium })
	})
}

// counted are rows of packs that a unit counts; loose says that it must be of what is sold loose.
func (l *leftovers) counted(rows []*draft, unit pack, loose bool) []*draft {
	return slices.DeleteFunc(slices.Clone(rows), func(d *draft) bool {
		o := d.offer
		return o == nil || o.pack.Text == "" && unit.Form == "" || !o.pack.Counts(unit) || (loose || unit.Empty()) && !(looseUnit(o.pack) && single(o.pack))
	})
}

// unitCounted is what a number counts by the word behind it, or why that is nothing: a form of packs, an amount, or either without a word.
func (l *leftovers) unitCounted(word string) (of pack, why string) {
	switch form := formOf(word); {
	case word == "":
	case oneOf(form, "bag", "sack", "box", "pallet", "skid"):
		of.Form, of.Words = form, word
	default:
		of, why = l.holding("1", word, "")
	}
	return of, why
}

// putCount asks about a number of packs of some rows.
func (l *leftovers) putCount(question, column string, m match, number, unit string, rows []*draft) {
	n, why := l.counting(number)
	of, bad := l.unitCounted(unit)
	if why != "" || bad != "" || n.value.Sign() <= 0 {
		return
	}
	l.putNumber(strings.Replace(question, "so many", n.text, 1), column, n.text, m, l.counted(rows, of, false))
}

// putNumber asks whether a number goes into a column of rows that lack it.
func (l *leftovers) putNumber(question, column, text string, m match, rows []*draft) {
	if len(rows) == 0 || slices.ContainsFunc(rows, func(d *draft) bool { return d.cells[column] != nil }) {
		return
	}
	l.put(question, []Range{m.part()}, l.cell(text, column, text, rows))
}

// cell is the answer that a text goes into a column of rows.
func (l *leftovers) cell(label, column, text string, rows []*draft) reply {
	return reply{label, func(from []*fact) {
		for _, d := range rows {
			d.set(column, text, "as answered", from...)
		}
	}}
}

// taxes asks about a tax and the last day of the offer, of each supplier whose rows have none.
func (l *leftovers) taxes() {
	for _, c := range l.all {
		for _, f := range c.facts {
			rows := l.of(l.sectionAt(f.From))
			if f.kind != anUnclear || !oneOf(f.why, taxPerhapsFee, taxNonePerhaps) || c.poison != "" || len(rows) == 0 {
				continue
			}
			ways := slices.DeleteFunc(slices.Clone(l.ways), func(d *draft) bool { return !sameCells(d.cells["supplier"], rows[0].cells["supplier"]) })
			all := []reply{l.cell("all of it", "tax", noneAdded, slices.Concat(rows, ways))}
			if len(ways) > 0 && f.why == taxPerhapsFee {
				all = append(all, l.cell("delivery alone", "tax", noneAdded, ways))
			} else if len(ways) > 0 {
				all = append(all, l.cell("the goods alone", "tax", noneAdded, rows))
			}
			l.put("on what is no tax added?", []Range{f.Range}, all...)
		}
	}
	for _, s := range l.sentences() {
		said := l.reading.low[s.From:s.To]
		rows := l.of(s.section)
		if len(rows) == 0 {
			continue
		}
		if cues.TaxBeside.MatchString(said) && (!cues.TaxInIt.MatchString(l.reading.low[max(0, s.From-len("incl. ")):s.To]) || cues.TaxOnTop.MatchString(said)) { // the stop of "incl." may end a sentence
			l.twoTaxes(s, rows)
			for _, m := range l.read(cues.LoosePart, s.From, s.To) {
				if n, why := l.rate(m.text("n")); why == "" && n.value.Sign() > 0 {
					l.putNumber("is that the tax on top of the prices?", "tax", n.text+"%", m, rows)
				}
			}
		}
		if cues.ReadySaid.MatchString(said) {
			l.readyDays(s, rows)
		}
		if cues.HeldWord.MatchString(said) {
			if of := l.spokenOf(s); len(of) > 0 && len(of) < len(rows) && !slices.ContainsFunc(s.clauses, func(c *clause) bool { return c.poison == doubts["not"] }) {
				rows = of
			}
			l.lastDays(s, said, rows)
		}
	}
}

// twoTaxes asks whether two rates that a part of the message names are both on top of the prices: "GST 5% and PST 7%".
func (l *leftovers) twoTaxes(s stretch, rows []*draft) {
	found := l.read(cues.LoosePart, s.From, s.To)
	if len(found) != 2 || cues.TakesOff.MatchString(l.reading.low[s.From:s.To]) || !cues.JoinsRates.MatchString(l.reading.low[found[0].end():found[1].part().From]) || slices.ContainsFunc(rows, func(d *draft) bool { return d.cells["tax"] != nil }) {
		return
	}
	a, why := l.rate(found[0].text("n"))
	b, bad := l.rate(found[1].text("n"))
	if why != "" || bad != "" || a.value.Sign() <= 0 || b.value.Sign() <= 0 {
		return
	}
	var replies []reply
	for _, rate := range []units.Decimal{a.value.Add(b.value), a.value, b.value} {
		replies = append(replies, l.cell(rate.String()+"%", "tax", rate.String()+"%", rows))
	}
	l.put("two taxes: which part of them is on top of the prices?", []Range{found[0].part(), found[1].part()}, replies...)
}

// readyDays asks which of the days in a part of the message is the one from which what was priced last before them can be had.
func (l *leftovers) readyDays(s stretch, rows []*draft) {
	var parts []Range
	var replies []reply
	for _, m := range l.find(cues.LooseDay, s.From, s.To) {
		of := l.lastBefore(m.part().From, rows)
		for _, r := range l.job.Days(m.text("day")) {
			if day := r.Day.Format(time.DateOnly); !r.Day.Before(l.job.Today) && !slices.ContainsFunc(of, func(d *draft) bool {
				return d.cells["ready_by"] != nil || d.cells["max_qty"] != nil // what is there now can be had now
			}) {
				replies = append(replies, l.cell(day, "ready_by", day, of))
			}
		}
		parts = append(parts, m.part())
	}
	l.put("is that the day from which it can be had?", parts, replies...)
}

// lastDays asks about the days in a part of the message that may be the last of the offer.
func (l *leftovers) lastDays(s stretch, said string, rows []*draft) {
	for _, m := range l.find(cues.LooseDay, s.From, s.To) {
		var replies []reply
		for _, r := range l.job.Days(m.text("day")) {
			if day := r.Day.Format(time.DateOnly); l.job.Today.IsZero() || !r.Day.Before(l.job.Today) {
				replies = append(replies, l.cell(day, "valid_until", day, rows))
			}
		}
		if !slices.ContainsFunc(rows, func(d *draft) bool { return d.cells["valid_until"] != nil }) {
			l.put("is that the last day of the offer?", []Range{m.part()}, replies...)
		}
	}
	stated, one := l.stated()
	if stated.IsZero() {
		stated, one = l.job.Today, !l.job.Today.IsZero()
	}
	if at := cues.LooseDay.FindAllStringIndex(said, 2); len(at) == 1 { // "30 days from May 1"
		if r := l.job.Days(said[at[0][0]:at[0][1]]); len(r) == 1 {
			stated, one = r[0].Day, true
		}
	}
	for _, m := range l.find(cues.LooseSpan, s.From, s.To) {
		n, why := l.counting(m.text("n"))
		count := whole(n.text)
		if m.has("week") {
			count *= 7
		}
		if day := stated.AddDate(0, 0, count).Format(time.DateOnly); one && why == "" && count > 0 {
			l.putNumber("is that the last day of the offer, counted from "+stated.Format(time.DateOnly)+"?", "valid_until", day, m, rows)
		}
	}
}

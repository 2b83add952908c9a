package message

import (
	"fmt"
	"slices"
	"strings"

	"mediabuy/quotes/internal/cues"
)

// Headings that are none of quotes.csv.
const (
	sumHeading   = "sum of a line"
	countHeading = "number of packs"
	refHeading   = "a reference"
	fromHeading  = "packs from which a price holds"
	listHeading  = "a price before what is taken off"

	onPalletHeading = "packs on a pallet"
	byPalletHeading = "a price by the pallet"
)

const noSteps = "the numbers of packs below one another do not begin at one and rise while the price falls"

// heading is what the heading of a table's column says.
type heading struct {
	column   string // the heading of quotes.csv, sumHeading, countHeading, or "" when it is not known
	why      string
	said     *fact // the heading cell; nil when it is empty
	from, to count // "10-39": the column has prices from that many packs on; to may be empty
	unit     pack  // "per yard": what its prices are for; of a break what its packs are
	unclear  string
	suffix   string // the unit of bare numbers in its cells: "mm", "l"
	proved   bool   // its numbers of packs make the sums of their lines
	who      bool   // its prices are for who fetches, or who pays so
}

var (
	breakHeading = pattern(`(?:(?:` + signBefore + `)?` + sp + `(?:per|/)` + sp + `(?P<p0>` + anyUnit + `|` + packForm + `)` + sp + `[,:(]` + sp + `)?(?:(?:price )?(?:from|for) |(?:unit )?price )?(?P<n>\d{1,6})(?:` + sp + `(?:-|–|to)` + sp + `(?P<n2>\d{1,6}))?` + `(?P<more>` + orMore + `| plus\b)?` + unitAfterCount + `(?:` + sp + `(?:pcs|pieces|units|off|each)\b\.?)?(?P<more2>` + orMore + `|` + sp + `\+| plus\b)?` + unitToo +
		`(?:` + sp + `[(,]?` + sp + `(?:` + signBefore + `)?` + sp + `(?:per|/)` + sp + `(?P<p>` + anyUnit + `|` + packForm + `)` + sp + `\)?)?(?: (?:unit )?prices?(?: each)?)?$`)
	// up to 9 bags; under 10 m3
	uptoHeading = pattern(`(?:prices? )?(?:(?:up to|max\.?) |(?P<less>under |below |less than |<` + sp + `))(?P<n>` + plainNumber + `)` + unitAfterCount + `$`)
	// kg/m3; loose lb per cu ft
	densityHeading = pattern(`(?:(?:bulk|loose|dry|density|weight|wt\b\.?|weighs)[ ,:]*)*[(]?` + sp + `(?P<w>` + massUnit + `)` + sp + `(?:/|per)` + sp + `(?P<v>` + volumeUnit + `)` + sp + `[)]?$`)
	// Full pallet (45)
	palletHeading = pattern(`(?:(?:price )?(?:per|by the|full|whole|a) )*` + palletWord + sp + `(?:of|\(|=|:)` + sp + `(?P<n>\d{1,6})(?:` + sp + `(?P<c>` + packForm + `))?` + sp + `\)?$`)
	unitBehind    = compile(`^(.* )?(mm|in|inch|l|lt|ltr|litres|liters|kg|lbs?|cf|cu ft)$`)
	listYear      = compile(`\b20\d\d\b`) // of the list in front of its columns
	unitAlone     = pattern(`(?:(?:bulk|loose|bagged|price|prices|per|/|` + signBefore + `)[ ,]*)*[(]?` + sp + unitPattern("u") + sp + `[)]?` +
		`(?:` + sp + `[,:(]?` + sp + `(?:` + signBefore + `)?(?:` + sp + `(?:(?:per|/)` + sp + `)?(?:` + packForm + `|each\b|pcs?\b|pieces?\b))?` + sp + `\)?)?$`)
	// Collected; price delivered*; trade
	whoHeading  = pattern(`(?:(?:unit )?prices?` + sp + `[(,:-]?` + sp + `)?(?:` + payerWord + `|collected|collection|fetched|(?:customer )?pick(?:ed)?[ -]?up|delivered|ex[ -](?:works|yard|quarry)|loaded)(?: prices?)?` + sp + `[)*†]*$`)
	unitHeading = pattern(`(?P<loose>(?:loose|bulk)[ ,]+)?(?:(?:the )?(?:unit )?(?:price|cost|rate)` + sp + `)?[(]?` + sp + `(?:` + signBefore + `)?` + sp + `(?:per|/)` + sp + unitPattern("u") + sp + `[)]?$`)
)

// headings reads the first row of a table; nil when it is none of headings: two must be known, and digits stand only in
// numbers of packs and in what a pack holds.
func (s *scanner) headings(row []Range) []*heading {
	var out []*heading
	known := 0
	for _, c := range row {
		out = append(out, s.headingOf(c))
	}
	s.unitsOnly(row, out)
	for j, h := range out {
		if h.from.text+h.to.text+h.suffix == "" && h.unit.Empty() && strings.ContainsAny(listYear.ReplaceAllString(s.text[row[j].From:row[j].To], ""), "0123456789") {
			return nil
		}
		if h.column != "" {
			known++
		}
	}
	if known < 2 {
		return nil
	}
	unbroken(out)
	pricesOf(out)
	for _, h := range out { // a least in tonnes is a number of packs where the price is for a tonne
		if of, _ := s.holding("1", h.suffix, ""); oneOf(h.column, "min_qty", "max_qty") && h.suffix != "" && !slices.ContainsFunc(out, func(o *heading) bool { return o.column == "price" && o.unit.Text == of.Text }) {
			h.unclear = "it counts in one unit, and what is priced is not said to be one of it"
		}
	}
	return out
}

// unitsOnly takes headings that are packs, two or more, for prices of one each: "YARD  TON", "Bulk (cy)  2 cf bag".
func (s *scanner) unitsOnly(row []Range, out []*heading) {
	var of []*heading
	var before []heading
	for j, c := range row {
		low := strings.TrimSpace(s.low[c.From:c.To])
		if idx := unitAlone.FindStringSubmatchIndex(low); idx != nil && oneOf(out[j].column, "", "supplier", "breaks", "price") && headingWords[low] != "price" {
			p, why := s.unit(match{re: unitAlone, low: low, at: c.From + strings.Index(s.low[c.From:c.To], low), idx: idx}, "u")
			if why == "" && p.Text != "" && (looseUnit(p) || p.Form != "" || strings.ContainsAny(low, "0123456789")) {
				if opens := strings.HasPrefix(low, "bulk") || strings.HasPrefix(low, "loose"); opens && p.Form != "sack" {
					p.Form = "bulk"
				}
				if out[j].column == "breaks" && p.Form == "" && (looseUnit(p) || !slices.ContainsFunc(out, func(h *heading) bool {
					return h.column == "price" && h.from.text == "" && looseUnit(h.unit) // 20 kg, beside a price per tonne
				})) {
					continue // 10 yd
				}
				before = append(before, *out[j])
				out[j].unit, out[j].from = p, count{}
				of = append(of, out[j])
			}
		}
	}
	priced := slices.ContainsFunc(before, func(h heading) bool { return h.column == "price" })
	for i, h := range of {
		if len(of) > 1 && !(priced && before[i].column == "supplier") { // Yard  Item  $/yd
			h.column = "price"
		} else {
			*h = before[i]
		}
	}
}

// pricesOf settles what columns of amounts are where no column is plainly the price: a list price is then the price, a sum of lines
// may be, and a price for who fetches, or has the goods brought, is none where it stands alone.
func pricesOf(row []*heading) {
	prices, some := 0, 0
	for _, h := range row {
		if h.column == "price" {
			prices++
		}
		if h.who {
			some++
		}
	}
	for _, h := range row {
		if h.column == listHeading && prices == some { // what whoever is none of them pays
			h.column, h.who, prices = "price", some > 0, prices+1
		}
	}
	for _, h := range row {
		switch {
		case h.who && prices < 2:
			h.unclear = "a price for some, and what others pay is not said"
		case h.column == sumHeading && prices == 0:
			h.unclear = "it may be the price of one pack or the sum of the line"
		}
	}
}

// unbroken checks that each range of packs begins where the one before ends.
func unbroken(row []*heading) {
	var last *heading
	for _, h := range row {
		if h.from.text+h.to.text == "" {
			continue
		}
		if last != nil && last.to.text != "" && (h.from.text == "" || h.from.value.Cmp(last.to.value) <= 0 || h.from.value.Cmp(last.to.value.Add(oneUnit)) > 0) {
			for _, g := range row {
				if g.from.text+g.to.text != "" {
					g.unclear = "the ranges of packs leave a gap or overlap"
				}
			}
			return
		}
		last = h
	}
}

// headingOf reads a heading cell.
func (s *scanner) headingOf(c Range) *heading {
	low := s.low[c.From:c.To]
	low = low[:len(low)-len(taxTail.FindString(low))]
	h := &heading{}
	if low != "" {
		h.why = "its heading is " + squeeze(s.text[c.From:c.To])
	}
	t := strings.NewReplacer("_", " ", "-", " ", "(", " ", ")", " ", "$", " ", "€", " ", "£", " ", ":", " ").Replace(low)
	if h.column = headingWords[squeeze(t)]; h.column != "" {
		return h
	}
	if h.column = headingWords[squeeze(cues.CodeInHead.ReplaceAllString(t, " "))]; h.column != "" { // Amount EUR
		return h
	}
	if idx := countHeads.FindStringSubmatch(low); idx != nil && oneOf(headingWords[idx[1]], "min_qty", "max_qty") {
		h.column, h.suffix = headingWords[idx[1]], idx[2]
		return h
	}
	if m := unitBehind.FindStringSubmatch(squeeze(t)); m != nil && (m[1] == "" || oneOf(headingWords[strings.TrimSpace(m[1])], "pack", "size")) { // Grain size (mm)
		h.column, h.suffix = "pack", m[2]
		if oneOf(m[2], "mm", "in", "inch") {
			h.column = "size"
		}
		return h
	}
	if idx := breakHeading.FindStringSubmatchIndex(low); idx != nil {
		m := match{re: breakHeading, low: low, at: c.From, idx: idx}
		ranged := m.has("n2") || m.has("more") || m.has("more2") || m.has("c") || !strings.HasPrefix(low, m.text("n"))
		if from, why := s.counting(m.text("n")); ranged && why == "" && from.value.Sign() > 0 {
			h.column, h.from = "breaks", from
			if h.unit, why = s.countedUnit(m, "c", "c2"); why == "" && m.has("n2") {
				h.to, why = s.counting(m.text("n2"))
			}
			if p, bad := s.countedUnit(m, "p", "p0"); !h.unit.Empty() && !h.unit.Fits(p) {
				why = first(first(why, bad), "it counts in one unit and is priced by another")
			}
			h.unclear = why
			if from.value.Equal(oneUnit) {
				h.column = "price"
			}
		}
		return h
	}
	if idx := uptoHeading.FindStringSubmatchIndex(low); idx != nil {
		m := match{re: uptoHeading, low: low, at: c.From, idx: idx}
		h.column = "price"
		if h.to, h.unclear = s.number(m.text("n")); h.unclear == "" {
			h.unit, h.unclear = s.countedUnit(m, "c")
		}
		if m.has("less") {
			h.to.value = h.to.value.Sub(oneUnit)
		}
		return h
	}
	if idx := densityHeading.FindStringSubmatchIndex(low); idx != nil {
		m := match{re: densityHeading, low: low, at: c.From, idx: idx}
		h.column, h.suffix = "density", m.text("w")+"/"+m.text("v")
		return h
	}
	if idx := palletHeading.FindStringSubmatchIndex(low); idx != nil {
		m := match{re: palletHeading, low: low, at: c.From, idx: idx}
		h.column = "breaks"
		if h.from, h.unclear = s.counting(m.text("n")); h.unclear == "" {
			h.unit, h.unclear = s.countedUnit(m, "c")
		}
		return h
	}
	if whoHeading.MatchString(low) {
		h.column, h.who = "price", true
		return h
	}
	if idx := unitHeading.FindStringSubmatchIndex(low); idx != nil {
		h.column = "price"
		m := match{re: unitHeading, low: low, at: c.From, idx: idx}
		if h.unit, h.unclear = s.unit(m, "u"); m.has("loose") {
			h.unit.Form = "bulk"
		}
	}
	return h
}

// cellUnder reads a cell whole by a heading that says more than a column; nil facts when the heading is a plain one.
func (r *reading) cellUnder(c Range, h *heading) *fact {
	switch {
	case h.unclear != "":
		return &fact{kind: anUnclear, Range: c, why: h.unclear}
	case h.column == refHeading:
		return &fact{kind: anAside, Range: c, why: "a reference"}
	case h.column == fromHeading:
		return &fact{kind: anUnclear, Range: c, why: noSteps}
	case h.column == listHeading:
		return &fact{kind: anAside, Range: c, why: "a price before what is taken off, and the one that holds stands beside it"}
	case h.column == sumHeading:
		return &fact{kind: anAside, Range: c, why: "the sum of its line"}
	case h.column == countHeading:
		if idx := cues.CountedIn.FindStringSubmatch(r.low[c.From:c.To]); idx != nil { // "6 t", at so much a tonne
			if p, why := r.holding("1", idx[1], ""); why == "" && looseUnit(p) {
				return &fact{kind: aPack, Range: c, unit: p, text: p.Text, why: "the unit that is counted in"}
			}
		}
		if h.proved {
			return &fact{kind: anAside, Range: c, why: lineCount}
		}
		return &fact{kind: anUnclear, Range: c, why: "a number of packs; it is not said whether asked for, in stock or the fewest"}
	case h.from.text == "" && h.unit.Empty():
		return nil
	}
	text, v, why := r.wholeAmount(c)
	if why != "" {
		return &fact{kind: anUnclear, Range: c, why: "it is no amount of money"}
	}
	f := &fact{kind: aPrice, Range: c, text: text, money: v, why: "the column of prices", head: h.said, unit: h.unit}
	if h.column == "breaks" {
		f.kind, f.from, f.unit, f.counted, f.why = aBreak, h.from, pack{}, h.unit, fmt.Sprintf("the column of prices from %s packs on", h.from.text)
	}
	return f
}

// taxTail ends a heading with whether tax is in its prices; countHeads is one of numbers that count a unit: "Min (t)".
var (
	taxTail    = compile(`[ ,]+[(]?(?:ex|excl|exclusive of|excluding|without|before|plus|inc|incl|including|with)\b\.?[ ]?` + taxName + `[)]?$`)
	countHeads = pattern(`([\pL ]+?)[ ,]*\(?(?:in )?` + sp + `(` + anyUnit + `)\)?$`)
)

// headingWords are what people call the columns of quotes.csv, by their names for them.
var headingWords = byWord("heading ", ",")

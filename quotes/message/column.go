package message

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"mediabuy/quotes/internal/cues"
	days "mediabuy/quotes/internal/day"
	"mediabuy/quotes/internal/plaintext"
	"mediabuy/units"
)

// tableClauses reads the cells of a table. firstRow numbers its rows among those of all tables.
func (r *reading) tableClauses(t table, firstRow, sentence int) (out []*clause, rows int) {
	body := t.rows
	if steps := r.steps(t); steps != nil {
		return r.stepClauses(t, steps, firstRow, sentence), len(t.rows[0]) - 1
	}
	heads := r.headings(t.rows[0])
	if heads != nil {
		body = t.rows[1:]
		r.sumColumn(body, heads)
		for j, c := range t.rows[0] {
			if c.From < c.To && (j > 0 || heads[0].column != "" || len(body) == 0 || !r.holdsMedium(c.From, c.To) || !r.sizedUnder(t, body[0])) { // else what its rows are of
				heads[j].said = r.fix(aHeading, c.From, c.To, "", "a heading of the table")
			}
		}
		last := t.rows[0][len(t.rows[0])-1]
		facts, tokens := r.scan(t.From, last.To)
		out = r.clauses(t.From, last.To, facts, tokens, -1, -1, sentence)
	} else {
		heads = r.guessColumns(body)
	}
	for len(heads) < columnsOf(body) {
		heads = append(heads, &heading{})
	}
	found := make([]map[string]int, len(heads))
	for j := range found {
		found[j] = map[string]int{}
	}
	n, p := r.stepColumns(body, heads)
	at := 0 // the row of the item
	for i, row := range body {
		if one := r.feeRow(row, heads); one != nil && (i > 0 || !slices.ContainsFunc(body, func(row []Range) bool { return !r.fetchRow(row) })) {
			one.sentence = sentence + i
			out = append(out, one)
			continue
		}
		r.byPallet(row, heads)
		below := n >= 0 && r.stepBelow(row, n, p)
		if !below {
			at = i
		}
		for j, c := range row {
			r.limit = c.To
			h := heads[j]
			if j == n {
				h = &heading{column: "medium"} // as it is fixed
			} else if below && j == p {
				from, _ := r.counting(strings.TrimSpace(r.low[row[n].From:row[n].To]))
				h = &heading{column: "breaks", from: from, said: r.taken(row[n].From)}
			}
			facts, tokens := r.cell(c, h)
			for _, f := range facts {
				f.why = fmt.Sprintf("column %d: %s", j+1, f.why)
				if h := headingFor(f); h != "" {
					found[j][h]++
				}
			}
			cl := r.clauses(c.From, c.To, facts, tokens, j, firstRow+at, sentence+i)
			for _, one := range cl {
				one.heading = h.column
			}
			out = append(out, cl...)
		}
	}
	for j, h := range heads {
		col := Column{Number: j + 1, Heading: h.column, Why: h.why}
		switch {
		case oneOf(h.column, sumHeading, countHeading, refHeading, fromHeading, listHeading, onPalletHeading, byPalletHeading):
			col.Heading = ""
		case h.column == "" && (h.why == "" || h.said != nil):
			col.Heading, col.Why = mostFound(found[j])
		}
		r.columns = append(r.columns, col)
	}
	return out, len(body)
}

// stepClauses reads a table with a column for each medium and a row for each number of packs.
func (r *reading) stepClauses(t table, steps []*heading, firstRow, sentence int) (out []*clause) {
	for i, row := range t.rows {
		for j, c := range row {
			at := firstRow + j - 1
			if r.limit = c.To; j == 0 {
				at = -1
				if said := r.fix(aHeading, c.From, c.To, "", "a heading of the table"); i > 0 {
					steps[i-1].said = said
				}
			}
			facts, tokens := r.scan(c.From, c.To)
			if i > 0 && j > 0 {
				facts, tokens = []*fact{r.cellUnder(c, steps[i-1])}, nil
			}
			out = append(out, r.clauses(c.From, c.To, facts, tokens, j, at, sentence+i)...)
		}
	}
	return out
}

// stepColumns are the columns of numbers of packs and of prices in a table whose rows below that of an item are its prices from more packs
// on; -1 where it has none such, or a number does not begin at one, or does not rise from row to row while the price falls.
func (r *reading) stepColumns(body [][]Range, heads []*heading) (n, p int) {
	n = slices.IndexFunc(heads, func(h *heading) bool { return oneOf(h.column, fromHeading, countHeading, "min_qty", "supplier") })
	p = slices.IndexFunc(heads, func(h *heading) bool { return h.column == "price" })
	var last count
	var before units.Money
	steps := 0
	body = slices.DeleteFunc(slices.Clone(body), r.fetchRow)
	for _, row := range body {
		if n < 0 || p < 0 || max(n, p) >= len(row) {
			return -1, p
		}
		from, bad := r.counting(strings.TrimSpace(r.low[row[n].From:row[n].To]))
		_, price, why := r.wholeAmount(row[p])
		if below := r.stepBelow(row, n, p); bad+why != "" || below && (from.value.Cmp(last.value) <= 0 || price.Cmp(before) >= 0) || !below && !from.value.Equal(oneUnit) {
			if heads[n].column == fromHeading {
				heads[p].unclear = noSteps
			}
			return -1, p
		} else if below {
			steps++
		}
		last, before = from, price
	}
	if n < 0 || steps == 0 && heads[n].column != fromHeading {
		return -1, p
	}
	for _, row := range body {
		r.fix(aHeading, row[n].From, row[n].To, "", "from how many packs on")
	}
	return n, p
}

// stepBelow says whether nothing but a number of packs and a price stands in a row.
func (r *reading) stepBelow(row []Range, n, p int) bool {
	return !slices.ContainsFunc(row, func(c Range) bool { return c != row[n] && c != row[p] && strings.TrimSpace(r.low[c.From:c.To]) != "" })
}

// byPallet makes the column of prices by the pallet one of breaks, each from as many packs as its row has on a pallet.
func (r *reading) byPallet(row []Range, heads []*heading) {
	n := slices.IndexFunc(heads, func(h *heading) bool { return h.column == onPalletHeading })
	p := slices.IndexFunc(heads, func(h *heading) bool {
		return h.column == byPalletHeading || n >= 0 && h.column == "breaks" && h.suffix == byPalletHeading
	})
	if n >= 0 && p >= 0 && max(n, p) < len(row) {
		h := heads[p]
		h.column, h.suffix, h.said = "breaks", byPalletHeading, r.fix(aHeading, row[n].From, row[n].To, "", "how many packs a pallet has")
		h.from, h.unclear = r.counting(strings.TrimSpace(r.low[row[n].From:row[n].To]))
	}
}

// sumColumn finds the column of amounts that in every row is so many times another, which has the prices: "Unit", "Nett".
func (r *reading) sumColumn(body [][]Range, heads []*heading) {
	n := slices.IndexFunc(heads, func(h *heading) bool { return h.column == countHeading })
	for k := range len(heads) * len(heads) {
		i, j := k/len(heads), k%len(heads)
		sum, price := heads[i], heads[j]
		if n < 0 || i == j || !oneOf(sum.column, "price", "", "item") || !oneOf(price.column, "price", "pack", "") || sum.column+price.column == "" || sum.from.text+price.from.text != "" {
			continue
		}
		if r.proves(body, len(heads), n, j, i) {
			sum.column, price.column, heads[n].proved = sumHeading, "price", true
			return
		}
	}
}

// proves says whether in each row, of so many cells, the number in column n times the price in column j makes the sum in column i, and in
// one of them several do.
func (r *reading) proves(body [][]Range, cells, n, j, i int) (many bool) {
	for _, row := range body {
		if len(row) != cells {
			return false
		}
		_, total, bad := r.wholeAmount(row[i])
		_, one, worse := r.wholeAmount(row[j])
		c, why := r.number(cues.CountBefore.ReplaceAllString(strings.TrimSpace(r.low[row[n].From:row[n].To]), ""))
		if bad+worse+why != "" || !plaintext.Times(c.value, one, total) {
			return false
		}
		many = many || c.value.Cmp(oneUnit) > 0
	}
	return many
}

// feeRow is the row of a table that is for delivery: its price is the fee, for each load where its unit or its words say so.
func (r *reading) feeRow(row []Range, heads []*heading) *clause {
	if !r.fetchRow(row) || len(heads) < len(row) {
		return nil
	}
	c := &clause{Range: Range{row[0].From, row[len(row)-1].To}, line: true, cell: -1, row: -1}
	fee := &fact{kind: aDelivery, why: "a fee for delivery"}
	for j, cell := range row {
		low := strings.TrimSpace(r.low[cell.From:cell.To])
		f := &fact{kind: anAside, Range: cell, why: "what the fee in its row is for"}
		if text, v, why := r.wholeAmount(cell); why == "" && (heads[j].column == "price" && heads[j].from.text == "" || heads[j].column == "" && len(heads) == 2) {
			if fee.text != "" {
				return nil
			}
			fee.Range, fee.text, fee.money = cell, text, v
			f = fee
		} else if idx := loadCell.FindStringSubmatchIndex(low); idx != nil {
			fee.kind, fee.why = aLoadFee, "a fee for each load"
			if m := (match{re: loadCell, low: low, idx: idx}); m.has("v") || m.has("v2") {
				p, why := r.holding(m.text("q")+m.text("q2"), m.text("v")+m.text("v2"), "")
				if why != "" || !looseUnit(p) {
					return nil
				}
				f.kind, f.unit, f.text, f.why = aLoad, p, p.Text, "what a load holds"
			}
		} else if u := r.unitCell(cell); u != nil && u.kind == aPack && looseUnit(u.unit) && !single(u.unit) && cues.TruckStart.MatchString(strings.TrimSpace(r.low[row[0].From:c.To])) {
			fee.kind, fee.why = aLoadFee, "a fee for each load"
			f.kind, f.unit, f.text, f.why = aLoad, u.unit, u.text, "what a load holds"
		} else if n, why := r.number(low); heads[j].column == countHeading && why == "" && n.value.Cmp(oneUnit) > 0 && fee.kind == aDelivery {
			fee.kind, fee.why = aLoadFee, "a fee for each of several loads"
		} else if low == "" {
			continue
		}
		c.facts = append(c.facts, f)
	}
	if fee.text == "" {
		return nil
	}
	return c
}

// loadCell is a cell that says that a fee is for each load, and what one holds.
var loadCell = pattern(`(?:(?:per )?(?:trip|load|tour|run|truck|lorry)$|.*?\b(?:up to|max\.?|holds|takes) (?P<q>` + plainNumber + `)` + sp + `(?P<v>` + anyUnit + `)$|.*?(?:^|[ ,(])(?P<q2>` + plainNumber + `)` + sp + `(?P<v2>` + anyUnit + `)(?: per |` + sp + `/` + sp + `| a |[ -])(?:trip|load|tour|run|truck|lorry)\)?$)`)

func columnsOf(rows [][]Range) int {
	n := 0
	for _, row := range rows {
		n = max(n, len(row))
	}
	return n
}

// mostFound is the heading that most cells of a column filled.
func mostFound(n map[string]int) (heading, why string) {
	for _, h := range Columns {
		if n[h] > n[heading] {
			heading = h
		}
	}
	if heading == "" {
		return "", "nothing in it shows what it is"
	}
	return heading, "by what stands in its cells"
}

// columnOf are the columns that facts fill first, by their kind.
var columnOf = map[kind]string{aMedium: "item", aPrice: "price", aTier: "price", aBreak: "breaks", aPack: "pack", aForm: "form", aMin: "min_qty", aMax: "max_qty", aStep: "step", aSize: "size",
	aDensity: "density", anAcidTest: "carbonate", aLoss: "rinse_loss", aTax: "tax", aValid: "valid_until", aReady: "ready_by", aDelivery: "delivery", aFree: "free_over", aNote: "notes",
	aCollect: "notes", aSupplier: "supplier"}

// headingFor is the column that a fact fills first.
func headingFor(f *fact) string {
	if f.kind == aCell {
		return f.column
	}
	return columnOf[f.kind]
}

// guessColumns names the columns of bare numbers and of bare names, where only one can be meant.
func (r *reading) guessColumns(body [][]Range) []*heading {
	heads := make([]*heading, columnsOf(body))
	var numbers, amounts, names []*heading
	for j := range heads {
		heads[j] = &heading{}
		isNumber, money, _ := r.numberColumn(body, j)
		switch {
		case isNumber && money:
			amounts = append(amounts, heads[j])
		case isNumber:
			numbers = append(numbers, heads[j])
		case r.nameColumn(body, j):
			names = append(names, heads[j])
		}
	}
	for n, h := range heads { // "Qty 6", what it is, the price of one and the sum
		if len(amounts) == 2 && !slices.Contains(amounts, h) && r.proves(body, len(heads), n, slices.Index(heads, amounts[0]), slices.Index(heads, amounts[1])) {
			amounts[0].column, amounts[0].why = "price", "so many of them make the sum in column "+strconv.Itoa(slices.Index(heads, amounts[1])+1)
			amounts[1].column, h.column, h.proved = sumHeading, countHeading, true
			numbers, amounts = slices.DeleteFunc(numbers, func(o *heading) bool { return o == h }), nil
		}
	}
	number, money := r.strays(body, heads, slices.Concat(numbers, amounts))
	switch {
	case money || number && len(amounts) == 0:
	case len(amounts) == 1:
		amounts[0].column, amounts[0].why = "price", "the only column of amounts of money"
	case len(amounts) == 0 && len(numbers) == 1:
		numbers[0].column, numbers[0].why = "price", "the only column of numbers"
	}
	why := "several columns of numbers, and nothing shows which is which"
	if len(amounts) == 1 {
		why = "bare numbers, and nothing shows what they count"
	}
	for _, h := range slices.Concat(numbers, amounts) {
		if h.column == "" {
			h.why = why
		}
	}
	for _, h := range names {
		if len(names) == 1 {
			h.column, h.why = "supplier", "the only column of names"
		} else {
			h.why = "several columns of words, and nothing shows which is which"
		}
	}
	return heads
}

// strays says whether a number, or one written as money, stands alone in a cell of another column than those named.
func (r *reading) strays(body [][]Range, heads, but []*heading) (number, money bool) {
	for j, h := range heads {
		if slices.Contains(but, h) {
			continue
		}
		for _, row := range body {
			if isNumber, isMoney, filled := r.numberColumn([][]Range{row}, j); filled && isNumber {
				number, money = true, money || isMoney
			}
		}
	}
	return number, money
}

// nameColumn says whether a column holds names of suppliers: words with capitals that are no fact, none of them a
// number, a word such as "sold" or "stock" alone, or one that describes a medium. It must be the first column, or hold a
// word such as quarry.
func (r *reading) nameColumn(body [][]Range, j int) bool {
	filled, company := false, j == 0
	for _, row := range body {
		if j >= len(row) || row[j].From == row[j].To {
			continue
		}
		c := row[j]
		facts, tokens := r.scan(c.From, c.To)
		text := r.text[c.From:c.To]
		named := hasCompanyWord(text)
		if r.unitCell(c) != nil || strings.ContainsAny(text, "0123456789") || !strings.ContainsFunc(text, unicode.IsUpper) || len(facts) > 0 && (len(tokens) == 0 || !named) {
			return false
		}
		plain := true
		for _, t := range tokens {
			if doubt(t.word) != "" {
				return false
			}
			plain = plain && (fillers[t.word] || describers[t.word] || tails[t.word])
		}
		if plain && !named {
			return false
		}
		filled, company = true, company || named
	}
	return filled && company
}

// cell reads a table cell under its heading. What the heading asks for is taken whole; anything else
// is read as a sentence would be.
func (r *reading) cell(c Range, h *heading) (facts []*fact, tokens []token) {
	if strings.TrimSpace(r.text[c.From:c.To]) == "" {
		return nil, nil
	}
	if f := r.cellUnder(c, h); f != nil {
		return []*fact{f}, nil
	}
	facts, tokens = r.scan(c.From, c.To)
	heading := h.column
	whole := func(f *fact) ([]*fact, []token) {
		f.Range = c
		return []*fact{f}, nil
	}
	raw := squeeze(r.low[c.From:c.To])
	switch heading {
	case "":
		if f := r.unitCell(c); f != nil && len(facts) == 0 {
			return whole(f)
		}
		return facts, tokens
	case "medium", onPalletHeading:
		return facts, tokens
	case "item":
		if !slices.ContainsFunc(facts, func(f *fact) bool { return f.kind == aMedium }) {
			return whole(&fact{kind: aCell, column: "item", text: squeeze(r.text[c.From:c.To]), why: "the column called so"})
		}
		return facts, tokens
	case "supplier":
		return whole(&fact{kind: aSupplier, text: squeeze(r.text[c.From:c.To]), why: "the column of suppliers"})
	case "notes":
		return whole(&fact{kind: aNote, text: squeeze(r.text[c.From:c.To]), why: "the column of notes"})
	case "price":
		if len(tokens) == 0 && len(facts) == 1 && facts[0].kind == aPrice {
			facts[0].who(h)
			return facts, nil
		}
		if m, v, why := r.wholeAmount(c); why == "" {
			f := &fact{kind: aPrice, text: m, money: v, why: "the column of prices"}
			f.who(h)
			return whole(f)
		}
		return whole(&fact{kind: anUnclear, why: "it is no amount of money"})
	case "size":
		if slices.ContainsFunc(facts, func(f *fact) bool { return f.kind == aMedium || f.ask != nil }) {
			return facts, tokens // Grade: pumice 1/8-1/4
		}
		if f := r.unitCell(c); f != nil && f.unit.Text != "" && !slices.ContainsFunc(facts, func(f *fact) bool { return f.kind == aSize }) {
			h.column = "pack" // the size of a bag
			return whole(f)
		}
		if unit := first(h.suffix, "mm"); cues.BareRange.MatchString(raw) && (h.suffix != "" || r.millimetres()) {
			return whole(&fact{kind: aCell, column: "size", text: raw + " " + unit, why: "the column called so, in a message that measures in metres"})
		}
	case "pack":
		if p, why := r.holding(raw, h.suffix, ""); h.suffix != "" && why == "" {
			return whole(&fact{kind: aPack, unit: p, text: p.Text, why: "a number under a heading that is its unit"})
		}
		if len(facts) > 0 && len(tokens) == 0 {
			return facts, nil
		}
		if f := r.unitCell(c); f != nil {
			return whole(f)
		}
	case "density":
		if n, why := r.number(raw); h.suffix != "" && why == "" {
			return whole(&fact{kind: aCell, column: heading, text: n.text + " " + h.suffix, why: "a number under a heading that is its unit"})
		}
	case "delivery", "free_over":
		flat := Range{c.From, c.To - len(cues.FlatEnd.FindString(r.low[c.From:c.To]))}
		if m, _, why := r.wholeAmount(flat); why == "" {
			return whole(&fact{kind: aCell, column: heading, text: m, why: "the column called so"})
		}
	}
	if len(tokens) == 0 && len(facts) == 1 && (headingFor(facts[0]) == heading || heading == "form" && facts[0].kind == aPack) { // Bag 50 L
		return facts, nil
	}
	text := onePlain.ReplaceAllStringFunc(raw, func(n string) string {
		if k, why := r.number(n); why == "" && !isoDay.MatchString(raw) {
			return k.text
		}
		return n
	})
	if heading == "valid_until" || heading == "ready_by" {
		if idx := lonePattern.FindStringSubmatchIndex(raw); idx != nil && idx[1] == len(raw) {
			d, bad := r.job.Day(raw)
			if bad != "" {
				return whole(&fact{kind: anUnclear, why: bad})
			}
			text = d
		}
	}
	return whole(&fact{kind: aCell, column: heading, text: text, why: "the column called so"})
}

// who hangs a price on the heading of its column that says who pays it.
func (f *fact) who(h *heading) {
	if h.who {
		f.head, f.paid = h.said, true
	}
}

var (
	isoDay      = pattern(`\d{4}-\d{1,2}-\d{1,2}$`)
	lonePattern = pattern(`(?:` + days.Written + `|(?:the )?end of ` + days.Month + `(?:,? \d{4})?)`)
	amountCell  = pattern(amountPattern("m") + `$`)
	unitInCell  = pattern(`(?:(?:per|an?|/|by the|each|bulk|loose)` + sp + `,?` + sp + `)*` + unitPattern("u") + `$`)
)

// wholeAmount reads a cell that is nothing but an amount.
func (r *reading) wholeAmount(c Range) (text string, v units.Money, why string) {
	low := strings.TrimSpace(r.low[c.From:c.To])
	idx := amountCell.FindStringSubmatchIndex(low)
	if idx == nil {
		return "", v, "no amount"
	}
	at := c.From + strings.Index(r.low[c.From:c.To], low)
	return r.amount(match{re: amountCell, low: low, at: at, idx: idx}, "m")
}

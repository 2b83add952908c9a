package message

import (
	"fmt"
	"slices"
	"strings"

	"mediabuy/units"
)

// tableClauses reads the cells of a table. firstRow numbers its rows among those of all tables.
func (r *reading) tableClauses(t table, firstRow, sentence int) (out []*clause, rows int) {
	body := t.rows
	heads := map[int]string{}
	why := map[int]string{}
	if r.headed(t.rows[0]) {
		body = t.rows[1:]
		for j, c := range t.rows[0] {
			if h := r.headingOf(c); h != "" {
				heads[j], why[j] = h, "its heading is "+squeeze(r.text[c.From:c.To])
			}
			r.fix(anAside, c.From, c.To, "", "a heading of the table")
		}
		last := t.rows[0][len(t.rows[0])-1]
		facts, tokens := r.scan(t.From, last.To)
		out = r.clauses(t.From, last.To, facts, tokens, -1, -1, sentence)
	} else {
		r.guessColumns(body, heads, why)
	}
	found := make([]map[string]int, columnsOf(body))
	for j := range found {
		found[j] = map[string]int{}
	}
	for i, row := range body {
		for j, c := range row {
			r.limit = c.To
			facts, tokens := r.cell(c, heads[j])
			for _, f := range facts {
				f.why = fmt.Sprintf("column %d: %s", j+1, f.why)
				if h := headingFor(f); h != "" {
					found[j][h]++
				}
			}
			cl := r.clauses(c.From, c.To, facts, tokens, j, firstRow+i, sentence+i)
			for _, one := range cl {
				one.heading = heads[j]
			}
			out = append(out, cl...)
		}
	}
	for j := range found {
		col := Column{Number: j + 1, Heading: heads[j], Why: why[j]}
		if col.Heading == "" && col.Why == "" {
			col.Heading, col.Why = mostFound(found[j])
		}
		r.columns = append(r.columns, col)
	}
	return out, len(body)
}

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

// headingFor is the column that a fact fills first.
func headingFor(f *fact) string {
	switch f.kind {
	case aMedium:
		return "item"
	case aPrice, aTier:
		return "price"
	case aBreak:
		return "breaks"
	case aPack:
		return "pack"
	case aForm:
		return "form"
	case aMin:
		return "min_qty"
	case aMax:
		return "max_qty"
	case aStep:
		return "step"
	case aSize:
		return "size"
	case aDensity:
		return "density"
	case anAcidTest:
		return "carbonate"
	case aLoss:
		return "rinse_loss"
	case aTax:
		return "tax"
	case aValid:
		return "valid_until"
	case aReady:
		return "ready_by"
	case aDelivery:
		return "delivery"
	case aFree:
		return "free_over"
	case aNote, aCollect:
		return "notes"
	case aSupplier:
		return "supplier"
	case aCell:
		return f.column
	}
	return ""
}

// guessColumns names the columns of bare numbers and of bare names, where only one can be meant.
func (r *reading) guessColumns(body [][]Range, heads, why map[int]string) {
	var numbers, amounts, names []int
	for j := range columnsOf(body) {
		isNumber, money, _ := r.numberColumn(body, j)
		switch {
		case isNumber && money:
			amounts = append(amounts, j)
		case isNumber:
			numbers = append(numbers, j)
		case r.nameColumn(body, j):
			names = append(names, j)
		}
	}
	switch {
	case len(amounts) == 1:
		heads[amounts[0]], why[amounts[0]] = "price", "the only column of amounts of money"
	case len(amounts) == 0 && len(numbers) == 1:
		heads[numbers[0]], why[numbers[0]] = "price", "the only column of numbers"
	}
	for _, j := range append(numbers, amounts...) {
		if heads[j] == "" {
			why[j] = "several columns of numbers, and nothing shows which is which"
		}
	}
	switch {
	case len(names) == 1:
		heads[names[0]], why[names[0]] = "supplier", "the only column of names"
	case len(names) > 1:
		for _, j := range names {
			why[j] = "several columns of words, and nothing shows which is which"
		}
	}
}

// nameColumn says whether every cell of a column is words that are no fact and hold no digit.
func (r *reading) nameColumn(body [][]Range, j int) bool {
	filled := false
	for _, row := range body {
		if j >= len(row) || row[j].From == row[j].To {
			continue
		}
		c := row[j]
		facts, tokens := r.scan(c.From, c.To)
		if r.unitCell(c) != nil {
			return false
		}
		if len(facts) > 0 && (len(tokens) == 0 || !hasCompanyWord(r.text[c.From:c.To])) || len(facts)+len(tokens) == 0 || strings.ContainsAny(r.text[c.From:c.To], "0123456789") {
			return false
		}
		filled = true
	}
	return filled
}

// cell reads a table cell under a heading, "" when it has none. What the heading asks for is taken whole; anything else
// is read as a sentence would be.
func (r *reading) cell(c Range, heading string) (facts []*fact, tokens []token) {
	if strings.TrimSpace(r.text[c.From:c.To]) == "" {
		return nil, nil
	}
	facts, tokens = r.scan(c.From, c.To)
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
	case "medium":
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
			return facts, nil
		}
		if m, v, why := r.wholeAmount(c); why == "" {
			return whole(&fact{kind: aPrice, text: m, money: v, why: "the column of prices"})
		}
		return whole(&fact{kind: anUnclear, why: "it is no amount of money"})
	case "pack":
		if len(facts) > 0 && len(tokens) == 0 {
			return facts, nil
		}
		if f := r.unitCell(c); f != nil {
			return whole(f)
		}
	case "delivery", "free_over":
		if m, _, why := r.wholeAmount(c); why == "" {
			return whole(&fact{kind: aCell, column: heading, text: m, why: "the column called so"})
		}
	}
	if len(tokens) == 0 && len(facts) == 1 && headingFor(facts[0]) == heading {
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
			d, bad := dayOf(match{re: lonePattern, low: raw, idx: idx})
			if bad != "" {
				return whole(&fact{kind: anUnclear, why: bad})
			}
			text = d
		}
	}
	return whole(&fact{kind: aCell, column: heading, text: text, why: "the column called so"})
}

var (
	isoDay      = pattern(`\d{4}-\d{1,2}-\d{1,2}$`)
	lonePattern = pattern(oneDay)
	amountCell  = pattern(amountPattern("m") + `$`)
	unitInCell  = pattern(`(?:(?:per|an?|/|by the|each)` + sp + `)?` + unitPattern("u") + `$`)
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

// unitCell reads a cell such as "per yard" or "50 L bag".
func (r *reading) unitCell(c Range) *fact {
	low := strings.TrimSpace(r.low[c.From:c.To])
	idx := unitInCell.FindStringSubmatchIndex(low)
	if idx == nil {
		return nil
	}
	p, why := r.unit(match{re: unitInCell, low: low, idx: idx}, "u")
	switch {
	case why != "":
		return &fact{kind: anUnclear, why: why}
	case p.text != "":
		return &fact{kind: aPack, unit: p, text: p.text, why: "what a pack holds"}
	case p.realForm() != "":
		return &fact{kind: aForm, unit: p, text: p.form, why: "a word for how it is packed"}
	}
	return nil
}

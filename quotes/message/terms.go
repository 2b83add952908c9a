package message

import (
	"slices"
	"strings"

	"mediabuy/quotes/internal/cues"
)

// term is a column that a kind of fact fills.
type term struct {
	kind   kind
	column string
}

// orderTerms puts what holds for whole orders into the rows of each supplier.
func (r *reading) orderTerms(all []*draft) {
	lone := r.loneSupplier()
	for i, sec := range r.sections {
		var rows []*draft
		for _, d := range all {
			if d.item.section == i {
				rows = append(rows, d)
			}
		}
		several := r.severalSpeak(i, rows)
		r.supplier(sec, lone, rows)
		if several && r.given == "" {
			r.unsaid(rows)
		}
		sec.oneSupplier(rows)
		sec.surcharged()
		r.kindFees(sec, rows)
		r.pairLoads(sec, rows)
		r.feeTax(sec, rows)
		made := len(r.ways)
		r.way(sec, rows)
		for _, d := range r.ways[made:] {
			sec.taxFee(d)
		}
		r.percents(sec, rows)
		terms := []term{{aTax, "tax"}, {aValid, "valid_until"}, {aReady, "ready_by"}}
		if !sec.wants() { // else these two are in delivery.csv
			terms = append(terms, term{aDelivery, "delivery"}, term{aFree, "free_over"})
		}
		for _, t := range terms {
			r.term(sec, rows, t.kind, t.column)
		}
		for _, f := range sec.facts {
			if f.kind != aCollect || f.unclear != "" {
				continue
			}
			if len(rows) == 0 {
				f.drop("there is no row for it")
			}
			own := func(d *draft) bool { return d.offer.price != nil && r.sentenceOf(d.offer.price) == r.sentenceOf(f) }
			some := strings.Contains(r.low[f.From:f.To], "ed") && slices.ContainsFunc(rows, own) // "$52 a yard picked up"
			why := "what it costs to fetch the goods is not said; put it under delivery"
			if !cues.CollectOnly.MatchString(r.low[f.From:f.To]) && (len(r.ways) > made || slices.ContainsFunc(rows, func(d *draft) bool { return d.cells["delivery"] != nil })) {
				f.text, why = "can be collected", "it can be fetched as well; to have both ways compared, put each into delivery.csv with a name of its own and what it costs"
			}
			for _, d := range rows {
				if some && !own(d) {
					continue
				}
				d.note(f)
				d.notes = append(d.notes, why)
			}
		}
		for _, d := range rows {
			r.needsFee(d, "delivery")
		}
	}
}

// term fills one column of all rows of a section. Several different ones go each to the rows of their item; fees cannot.
func (r *reading) term(sec *section, rows []*draft, k kind, column string) {
	var of []*fact
	differ := false
	for _, f := range sec.facts {
		if f.behind != nil && f.behind.unclear != "" {
			f.drop("the price that it stands behind was not read")
		} else if f.behind != nil && f.behind.item != nil && f.behind.item.medium == nil && slices.ContainsFunc(r.items, func(it *item) bool { return it.medium != nil && it.section == f.behind.item.section }) {
			f.drop("it stands behind the price of what is not known here") // "bark is 32 a yard delivered"
		}
		if f.kind == k && f.unclear == "" {
			differ = differ || len(of) > 0 && f.text != of[0].text
			of = append(of, f)
		}
	}
	for _, f := range of {
		switch {
		case len(rows) == 0:
			f.drop("there is no row for it")
		case differ && k.isFee():
			f.drop("the message says two, and a supplier has one; several ways to deliver go in delivery.csv")
		}
		placed := false
		for _, d := range rows {
			if f.unclear == "" && (!differ && !r.ownTerm(f, rows) || d.item == f.item) && !r.besideDoubt(f) && !r.ofSome(f, rows) && r.reduced(f, d, rows) {
				d.set(column, f.text, f.why+"; said once, for everything", f)
				placed = true
			}
		}
		if !placed {
			f.drop("it is not said of which row")
		}
	}
}

// reduced says whether a day holds for a row: the last of a sale does for those alone of which it is said that they are in it, if any.
func (r *reading) reduced(f *fact, d *draft, rows []*draft) bool {
	said := func(re *expr, f *fact) bool {
		at := r.sentenceOf(f)
		return slices.ContainsFunc(r.all, func(c *clause) bool { return c.sentence == at && re.MatchString(r.low[c.From:c.To]) })
	}
	on := func(d *draft) bool { return d.offer.price != nil && said(reducedWord, d.offer.price) }
	return f.kind != aValid || !said(saleWord, f) || on(d) || !slices.ContainsFunc(rows, on)
}

// saleWord says that a day is the last of a sale, reducedWord that a price is one of it.
var (
	saleWord    = compile(`\b(?:sale|specials?|promo\w*|deals?|clearance|markdowns?)\b`)
	reducedWord = compile(saleWord.String() + `|\b(?:was|were|reg|regular|reduced|marked down|down from|instead of|normally|usually)\b`)
)

// ownTerm says whether a day stands in the sentence of one price of several, and speaks of no prices: "sale $16.99 thru May 31".
func (r *reading) ownTerm(f *fact, rows []*draft) bool {
	at := func(d *draft) bool { return d.offer.price != nil && r.sentenceOf(d.offer.price) == r.sentenceOf(f) }
	return oneOf(f.kind, aValid, aReady) && !cues.AllOffers.MatchString(r.low[f.From:f.To]) && slices.ContainsFunc(rows, func(d *draft) bool { return d.item == f.item && at(d) }) &&
		slices.ContainsFunc(rows, func(d *draft) bool { return d.item != f.item }) && !slices.ContainsFunc(rows, func(d *draft) bool { return d.item != f.item && at(d) })
}

// besideDoubt says whether a day stands in a sentence with a price that was left to a person, of which alone it may be, and speaks of
// no prices: "20 mm is $24 till 30 June".
func (r *reading) besideDoubt(f *fact) bool {
	return oneOf(f.kind, aValid, aReady) && !cues.AllOffers.MatchString(r.low[f.From:f.To]) && slices.ContainsFunc(r.all, func(c *clause) bool {
		return c.sentence == r.sentenceOf(f) && slices.ContainsFunc(c.facts, func(g *fact) bool { return (g.kind.isFee() || oneOf(g.kind, aPrice, aBreak, aTier)) && g.unclear != "" })
	})
}

// ofSome says whether a day stands in a sentence that names the media of some rows and not of others, or denies something of one: "the
// price of shell holds until June; I can't promise the perlite".
func (r *reading) ofSome(f *fact, rows []*draft) bool {
	if !oneOf(f.kind, aValid, aReady) {
		return false
	}
	var named []*fact
	for _, c := range r.all {
		if c.sentence == r.sentenceOf(f) && c.row < 0 {
			named = append(named, c.media()...)
			if len(c.media()) > 0 && c.poison == doubts["not"] {
				return true
			}
		}
	}
	of := func(d *draft) bool {
		return slices.ContainsFunc(named, func(m *fact) bool { return m.medium == d.item.medium })
	}
	priced := slices.ContainsFunc(rows, func(d *draft) bool { return d.offer.price != nil && r.sentenceOf(d.offer.price) == r.sentenceOf(f) })
	return !priced && slices.ContainsFunc(rows, of) && slices.ContainsFunc(rows, func(d *draft) bool { return !of(d) })
}

// loneSupplier is the one supplier that the message names outside labels; nil when there is none, or several.
func (r *reading) loneSupplier() *fact {
	var one *fact
	for _, f := range r.fixed {
		if f.kind != aSupplier || f.general {
			continue
		}
		if one != nil && !sameName(one.text, f.text) {
			const why = "the message names two suppliers"
			one.drop(why)
			f.drop(why)
			return nil
		}
		if one == nil || len(f.text) > len(one.text) {
			one = f
		}
	}
	return one
}

// labelled says whether labels name two suppliers or more, so that no one name can be meant for all rows.
func (r *reading) labelled() bool {
	var one *fact
	for _, sec := range r.sections {
		switch {
		case sec.supplier == nil:
		case one == nil:
			one = sec.supplier
		case !sameName(one.text, sec.supplier.text):
			return true
		}
	}
	return false
}

// supplier fills the supplier of a section's rows: from a table, from the label of one among several suppliers, from the
// caller, from a label, from a signature.
func (r *reading) supplier(sec *section, lone *fact, rows []*draft) {
	if len(rows) == 0 {
		return
	}
	from := sec.supplier
	if from == nil {
		from = lone
	}
	given := r.given != "" && (sec.supplier == nil || !r.labelled())
	for _, d := range rows {
		switch {
		case d.cells["supplier"] != nil: // a table says it
		case given:
			d.set("supplier", r.given, "given by the caller")
			if from != nil && !sameName(r.given, from.text) {
				d.notes = append(d.notes, "supplier: the message itself names "+from.text)
			}
		case from != nil:
			d.set("supplier", from.text, from.why, from)
		}
	}
}

// farthest notes on each fee for delivery where it is said to hold: with its words, or elsewhere in its sentence.
func (r *reading) farthest(all []*draft) {
	for _, d := range all {
		for _, column := range []string{"delivery", "order_fee", "load_fee", "haul"} {
			if d.cells[column] == nil {
				continue
			}
			for _, f := range d.cells[column].facts {
				note := column + ": it is said to hold " + first(f.within, r.milesBeside(f)) + "; make sure that the beds are there"
				if !strings.Contains(note, " hold ;") && !slices.Contains(d.notes, note) {
					d.notes = append(d.notes, note)
				}
			}
		}
	}
}

// milesBeside are the miles in the sentence of a fee with no other fee between: behind it, or else before it.
func (r *reading) milesBeside(f *fact) string {
	behind := feeBehind.ReplaceAllString(r.low[f.To:min(len(r.low), f.To+window)], "")
	before := feeBefore.ReplaceAllString(r.low[max(0, f.From-window):f.From], "")
	return first(milesSaid.FindString(behind), milesSaid.FindString(before))
}

const otherFee = `(?:[$£€\n]|[.!?](?:[ \t]|$)|\b(?:free|no charge|nothing|otherwise|else|beyond|outside|past)\b)`

var (
	feeBehind, feeBefore = compile(`(?s)` + otherFee + `.*`), compile(`(?s)^.*` + otherFee)
	milesSaid            = compile(`\b(?:(?:within|up to|inside|in|under|less than)(?: (?:an?|the|our))? (?:\d{1,3}|` + written + `)[ -]?(?:miles?|mi|kms?|kilomet(?:re|er)s?)\b(?: radius)?|(?:\d{1,3}|` + written + `)[ -]?(?:miles?|mi|kms?) radius\b)`)
)

// Package received is what came against what was ordered: it reads the CSVs of orders and
// of arrivals, counts one against the other, and sets out what is still to buy. It writes
// no paper and solves nothing.
package received

import (
	"fmt"
	"io"
	"regexp"
	"slices"
	"strings"
	"time"

	"mediabuy/papers/safe"
	"mediabuy/quotes"
	"mediabuy/quotes/files"
	"mediabuy/units"
)

// Ordered is one goods line that a supplier was asked for.
type Ordered struct {
	Pos   quotes.Pos  // in the order's file; zero for a line of the plan
	Order string      // number of the order
	Day   quotes.Date // on which it was written; zero where its number does not tell
	Due   quotes.Date // by which it is to come; zero where no day was said
	// Planned says that no order was written: a plan stands for it, and nothing of it is under way.
	Planned bool
	Quote   *quotes.Quote
	Site    string
	Packs   units.Decimal
	Amount  units.Money // goods, before tax
}

// Arrival is one row of what came.
type Arrival struct {
	quotes.Pos
	Quote    *quotes.Quote
	Site     string
	Packs    units.Decimal // counted, or the volume measured in packs
	Rejected units.Decimal // of these, in packs
	Order    string        // number of the order it came on; "" where that is not said
	Day      quotes.Date   // zero: not said
	Note     string
	// Billed is what the bill asks for one pack, before tax; nil where no bill was looked at.
	Billed *units.Money
}

// ArrivalHeads are the columns of a file of arrivals.
var ArrivalHeads = []string{"quote", "site", "packs", "volume", "rejected", "date", "note"}

// OrderHead is a further column that a file of arrivals may have: the number of the
// order, where a thing was ordered twice.
const OrderHead = "order"

// BilledHead is a further column: the price of one pack on the supplier's bill, before tax, to be held
// against that of the order.
const BilledHead = "billed"

// OrderHeads are the columns of an order's CSV.
var OrderHeads = []string{"order", "supplier", "site", "need_by", "kind", "quote", "item", "medium", "size", "packs", "pack", "pack_price", "break_from", "amount", "currency"}

// Kinds of row in an order's CSV.
const (
	KindGoods    = "goods"
	KindDelivery = "delivery"
	KindTax      = "tax"
	KindTotal    = "total"
)

// finder finds the things of a job by the names that papers give them.
type finder struct {
	job   *quotes.Job
	sites []string
}

// quote finds a quote by its name, or by its name made safe for a spreadsheet.
func (f finder) quote(name string) (*quotes.Quote, bool) {
	for _, same := range []func(a, b string) bool{func(a, b string) bool { return a == b }, strings.EqualFold} {
		for _, q := range f.job.Quotes {
			if same(q.Name, name) || same(safe.Cell(q.Name), name) {
				return q, true
			}
		}
	}
	return nil, false
}

// called are the names of the quotes whose thing has a name.
func (f finder) called(item string) []string {
	var out []string
	for _, q := range f.job.Quotes {
		if strings.EqualFold(q.Item, item) || strings.EqualFold(q.ItemWords(), item) {
			out = append(out, q.Name)
		}
	}
	return out
}

func (f finder) site(name string) (string, bool) {
	for _, s := range f.sites {
		if strings.EqualFold(s, name) || strings.EqualFold(safe.Cell(s), name) {
			return s, true
		}
	}
	return "", false
}

// ReadOrder reads the CSV of an order back. Rows of delivery, tax and total are
// passed over. Problems are in the report; with any, there is no order.
func ReadOrder(r io.Reader, name string, job *quotes.Job) ([]Ordered, *quotes.Report, error) {
	// Orders written by earlier versions have a column "from", which is passed over.
	s, err := readSheet(r, name, append(slices.Clone(OrderHeads), "from"), []string{"order", "site", "kind", "quote", "packs", "amount"})
	if err != nil {
		return nil, nil, err
	}
	f := finder{job, quotes.Sites(job)}
	var out []Ordered
	for _, row := range s.rows {
		if s.at(row, "kind") != KindGoods {
			continue
		}
		o := Ordered{Pos: quotes.Pos{File: name, Line: row.line}, Order: s.at(row, "order")}
		o.Day, o.Due = writtenOn(o.Order), dayOf(s.at(row, "need_by"))
		var ok bool
		if o.Quote, ok = f.quote(s.at(row, "quote")); !ok {
			s.bad(row, "quote", fmt.Sprintf("the quote %q is not in the job", s.at(row, "quote")), "a quote of quotes.csv", "keep the rows that were ordered in quotes.csv, even when they have run out")
			continue
		}
		if o.Site, ok = f.site(s.at(row, "site")); !ok {
			s.bad(row, "site", fmt.Sprintf("the site %q is not in the job", s.at(row, "site")), "a site of beds.csv", "")
		}
		var err error
		if o.Packs, err = units.ParsePlainDecimal(s.at(row, "packs")); err != nil {
			s.badErr(row, "packs", err)
		}
		amount, err := units.ParsePlainDecimal(s.at(row, "amount"))
		if err != nil {
			s.badErr(row, "amount", err)
		}
		o.Amount = units.MoneyOf(amount)
		if i := slices.IndexFunc(out, func(b Ordered) bool { return b.Quote == o.Quote && b.Site == o.Site && b.Order == o.Order }); i >= 0 {
			s.bad(row, "quote", fmt.Sprintf("%q is ordered on line %d already", o.Quote.Name, out[i].Pos.Line), "each quote once in an order", "")
		}
		out = append(out, o)
	}
	rep := &quotes.Report{Problems: s.problems, Warnings: s.warnings}
	if !rep.OK() {
		return nil, rep, nil
	}
	return out, rep, nil
}

// ReadOrders reads the CSVs of several orders together. One that is read twice is a
// problem, as it would count double. Problems are in the report; with any, there are
// no orders.
func ReadOrders(list []files.Source, job *quotes.Job) ([]Ordered, *quotes.Report, error) {
	var out []Ordered
	rep := &quotes.Report{}
	for _, src := range list {
		lines, one, err := ReadOrder(src.R, src.Name, job)
		if err != nil {
			return nil, nil, err
		}
		for _, l := range lines {
			for _, had := range out {
				if had.Order == l.Order && had.Quote == l.Quote && had.Site == l.Site {
					one.Problems = append(one.Problems, &quotes.Problem{Pos: l.Pos, Severity: quotes.Error, Heading: "order",
						Found: fmt.Sprintf("%q of order %s is read from %s already", l.Quote.Name, l.Order, had.Pos), Wanted: "each order once", Hint: "name each file once"})
				}
			}
		}
		rep.Problems = append(rep.Problems, one.Problems...)
		rep.Warnings = append(rep.Warnings, one.Warnings...)
		out = append(out, lines...)
	}
	if !rep.OK() {
		return nil, rep, nil
	}
	return out, rep, nil
}

// LastDay is the pricing day of what is still to buy: the last of the job's own and
// those of the arrivals.
func LastDay(job *quotes.Job, arrived []Arrival) quotes.Date {
	day := job.Settings.Date
	for _, a := range arrived {
		if a.Day.After(day.Time) {
			day = a.Day
		}
	}
	return day
}

// ReadArrivals reads a file of what came: quote, packs or a measured volume, and
// where needed site, how much of it was rejected, date and note. Problems are in
// the report; with any, there are no arrivals.
func ReadArrivals(r io.Reader, name string, job *quotes.Job, ordered []Ordered) ([]Arrival, *quotes.Report, error) {
	s, err := readSheet(r, name, append(slices.Clone(ArrivalHeads), OrderHead, BilledHead), []string{"quote"})
	if err != nil {
		return nil, nil, err
	}
	if s.heads != nil && !slices.Contains(s.heads, "packs") && !slices.Contains(s.heads, "volume") {
		s.problem(0, 0, "", "there is no heading packs and none volume", "one of the two, to say how much came", "")
	}
	x := &arrivalReader{s, finder{job, quotes.Sites(job)}, ordered}
	var out []Arrival
	for _, row := range s.rows {
		if a, ok := x.row(row); ok {
			out = append(out, a)
		}
	}
	rep := &quotes.Report{Problems: s.problems, Warnings: s.warnings}
	if !rep.OK() {
		return nil, rep, nil
	}
	return out, rep, nil
}

type arrivalReader struct {
	*sheet
	finder
	ordered []Ordered
}

func (x *arrivalReader) row(row sheetRow) (a Arrival, ok bool) {
	before := len(x.problems)
	a.Pos = quotes.Pos{File: x.name, Line: row.line}
	a.Note = x.at(row, "note")
	name := x.at(row, "quote")
	called := x.called(name)
	if a.Quote, ok = x.quote(name); !ok && len(called) == 1 {
		a.Quote, ok = x.quote(called[0])
	}
	if !ok {
		hint := "the quotes are those of quotes.csv"
		if len(called) > 0 {
			hint = "so called are " + strings.Join(called, ", ")
		} else if len(x.ordered) > 0 {
			hint = "ordered were " + strings.Join(orderedNames(x.ordered), ", ")
		}
		x.bad(row, "quote", fmt.Sprintf("the quote %q is not in the job", name), "a quote of the order", hint)
		return Arrival{}, false
	}
	x.where(row, &a)
	if a.Order = x.at(row, OrderHead); a.Order != "" && !slices.ContainsFunc(x.ordered, func(o Ordered) bool { return o.Order == a.Order && o.Quote == a.Quote }) {
		x.bad(row, OrderHead, fmt.Sprintf("%q is not on order %s", a.Quote.Name, a.Order), "the number of an order that it is on", "ordered were "+strings.Join(numbersOf(x.ordered, a.Quote), ", "))
	}
	packs, volume := x.at(row, "packs"), x.at(row, "volume")
	switch {
	case packs != "" && volume != "":
		x.bad(row, "volume", "packs and a volume are both given", "one of the two", "write what was counted or what was measured")
	case packs != "":
		a.Packs = x.amount(row, "packs", packs, a.Quote, false)
	case volume != "":
		a.Packs = x.amount(row, "volume", volume, a.Quote, true)
	default:
		x.bad(row, "packs", "neither packs nor a volume is given", "how much came; 0 if nothing comes any more", "take the row out if it is still to come")
	}
	if text := spoilt.ReplaceAllString(x.at(row, "rejected"), ""); text != "" {
		_, packs := inPacks(text, a.Quote)
		a.Rejected = x.amount(row, "rejected", text, a.Quote, !packs && strings.ContainsFunc(text, isLetter))
		if a.Rejected.Cmp(a.Packs) > 0 && len(x.problems) == before {
			x.bad(row, "rejected", fmt.Sprintf("%s of %s packs are rejected", a.Rejected, a.Packs), "no more than came", "under packs goes all that came, what is refused among it")
		}
	}
	if text := x.at(row, "date"); text != "" {
		var err error
		if a.Day, err = x.job.Settings.Day(text); err != nil {
			x.bad(row, "date", err.Error(), "a day such as 2026-05-03", "write year, month and day as numbers")
		}
	}
	if text := x.at(row, BilledHead); text != "" {
		text, per := units.CutRate(text)
		if per != "" && !slices.Contains(append(packWords[a.Quote.Form], "ea", "each", "apiece", "pack"), strings.ToLower(per)) {
			x.bad(row, BilledHead, fmt.Sprintf("%q is no word for one pack", per), "what the bill asks for one pack, before tax", "write the amount alone")
		}
		price, err := units.ParseMoney(text, units.MarkUnknown)
		sign, codes := units.CurrencyIn(text)
		switch own := x.job.Settings.Currency; {
		case len(codes) > 0 && !slices.Contains(codes, own):
			x.bad(row, BilledHead, fmt.Sprintf("%q is not in %s", sign, own), "an amount in the job's currency", "convert it at the day's rate")
		case err != nil:
			x.badErr(row, BilledHead, err)
		case price.Sign() < 0:
			x.bad(row, BilledHead, fmt.Sprintf("%q is below 0", text), "what the bill asks for one pack, before tax", "")
		default:
			a.Billed = &price
			if per == "" {
				x.sumBilled(row, a)
			}
		}
	}
	x.doubt(row, a)
	return a, len(x.problems) == before
}

// sumBilled refuses a price for one pack that is about what all of them cost as they were ordered: the sum of a bill's line, which may hold its
// tax.
func (x *arrivalReader) sumBilled(row sheetRow, a Arrival) {
	for _, o := range x.ordered {
		if o.Quote != a.Quote || o.Site != a.Site || a.Order != "" && a.Order != o.Order || a.Packs.Cmp(units.DecimalFromInt(1)) <= 0 || o.Amount.Sign() <= 0 {
			continue
		}
		all := o.Amount.Float() / o.Packs.Float() * a.Packs.Float()
		if near := a.Billed.Float() / all; near < 0.9 || near > 1.3 || a.Billed.Float() < 1.5*all/a.Packs.Float() {
			continue
		}
		set := x.job.Settings
		each := units.MoneyOf(a.Billed.Decimal().Quo(a.Packs)).Round(set.CurrencyDigits)
		x.bad(row, BilledHead, fmt.Sprintf("%s is about what all %s packs cost as ordered", units.FormatMoney(*a.Billed, set.Currency), a.Packs), "what the bill asks for one pack, before tax",
			fmt.Sprintf("write %s if it is the sum of the line before tax, or %s each if it is not", each.Text(set.CurrencyDigits), a.Billed.Text(set.CurrencyDigits)))
		return
	}
}

// doubt warns of an arrival that its orders do not bear out.
func (x *arrivalReader) doubt(row sheetRow, a Arrival) {
	warn := func(head, found, hint string) {
		x.warnings = append(x.warnings, &quotes.Problem{Pos: quotes.Pos{File: x.name, Line: row.line, Col: x.col(row, head)}, Severity: quotes.Warning, Heading: head, Found: found, Hint: hint})
	}
	first, on := quotes.Date{}, false
	for _, o := range x.ordered {
		if o.Quote == a.Quote && o.Site == a.Site && (a.Order == "" || a.Order == o.Order) {
			if !on || o.Day.Before(first.Time) {
				first = o.Day
			}
			on = true
		}
	}
	if a.Quote.Form == quotes.Bag && x.at(row, "packs") != "" && !a.Packs.IsMultipleOf(units.DecimalFromInt(1)) {
		warn("packs", fmt.Sprintf("%s bags came, which counts the last as the part of it that is said", a.Packs), "count torn bags as whole and write what is not taken under rejected")
	}
	switch {
	case len(x.ordered) > 0 && !on && a.Packs.Sign() > 0:
		warn("quote", fmt.Sprintf("%q is on none of the orders, so it counts as sent unasked", a.Quote.Name), "if it was bought, name the order that it is on")
	case !a.Day.IsZero() && a.Day.Before(first.Time):
		warn("date", fmt.Sprintf("%q came on %s, before it was ordered on %s", a.Quote.Name, a.Day, first), "it counts all the same; mend the day if it is a slip")
	}
}

// numbersOf are the orders that a quote is on.
func numbersOf(list []Ordered, q *quotes.Quote) []string {
	var out []string
	for _, o := range list {
		if o.Quote == q && !slices.Contains(out, o.Order) {
			out = append(out, o.Order)
		}
	}
	return out
}

// dayOf is a day as files have it; zero for anything else.
func dayOf(text string) quotes.Date {
	t, err := time.Parse(time.DateOnly, text)
	if err != nil {
		return quotes.Date{}
	}
	return quotes.DateOf(t)
}

// writtenOn is the day in the number of an order, such as 2026-04-06/2.
func writtenOn(number string) quotes.Date {
	day, _, _ := strings.Cut(number, "/")
	return dayOf(day)
}

func isLetter(r rune) bool { return r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r == '³' }

// where settles the site: the one said, or the only one the quote was ordered to,
// or the only one there is.
func (x *arrivalReader) where(row sheetRow, a *Arrival) {
	if said := x.at(row, "site"); said != "" {
		site, ok := x.site(said)
		if !ok {
			x.bad(row, "site", fmt.Sprintf("the site %q is not in the job", said), "one of "+strings.Join(x.sites, ", "), "")
		}
		a.Site = site
		return
	}
	var to []string
	for _, o := range x.ordered {
		if o.Quote == a.Quote && !slices.Contains(to, o.Site) {
			to = append(to, o.Site)
		}
	}
	if len(to) == 0 {
		to = x.sites
	}
	if len(to) != 1 {
		x.bad(row, "site", fmt.Sprintf("%q may have come to %s and the row does not say", a.Quote.Name, strings.Join(to, " or ")), "the site it came to", "add a column site")
		return
	}
	a.Site = to[0]
}

// packDigits are the decimals kept of a measured volume in packs: a thousandth of
// a yard is less than a shovelful.
const packDigits = 3

// amount reads a count of packs, or a volume and says how many packs it is.
func (x *arrivalReader) amount(row sheetRow, head, text string, q *quotes.Quote, volume bool) units.Decimal {
	var n units.Decimal
	if volume {
		v, err := units.ParseVolume(text, units.Options{})
		if err != nil {
			x.badErr(row, head, err)
			return n
		}
		n = units.DecimalOf(float64(v.Value)).Quo(units.DecimalOf(float64(q.PackLitres))).Round(packDigits)
	} else {
		var ok bool
		if n, ok = inPacks(text, q); !ok {
			_, err := units.ParseNumber(text, units.MarkUnknown)
			x.badErr(row, head, err)
			return units.Decimal{}
		}
	}
	if n.Sign() < 0 {
		x.bad(row, head, fmt.Sprintf("%q is below 0", text), "0 or more", "write what went back under rejected")
		return units.Decimal{}
	}
	return n
}

// packWords are what a pack of a form is called behind a count.
var packWords = map[quotes.Form][]string{
	quotes.Bag:  {"bag", "bags"},
	quotes.Sack: {"bag", "bags", "sack", "sacks", "bulk bag", "bulk bags", "big bag", "big bags"},
}

// ofPack finds what one pack holds behind a count: "x 50 L", "bags of 50 L".
var ofPack = regexp.MustCompile(`(?i)^(?:(.*?) of|x|×) +(.*)$`)

// came and spoilt are words behind a number of packs that came, and of those not taken.
var (
	came   = regexp.MustCompile(`(?i)(?: (?:came|arrived|received|delivered|in all))+$`)
	spoilt = regexp.MustCompile(`(?i)(?: (?:broken|torn|split|burst|wet|damaged|bad|rejected|refused|sent back))+$`)
)

// none are words for no packs.
var none = []string{"none", "nil", "no", "nothing"}

// inPacks reads a number of packs of a quote: a number, or one with the word for its form, with its own pack
// or, of loose stone, with a unit behind it: "55", "55 bags", "55 x 50 L", "6.5 tons". Whatever could be another pack is none.
func inPacks(text string, q *quotes.Quote) (units.Decimal, bool) {
	if text = came.ReplaceAllString(text, ""); slices.Contains(none, strings.ToLower(text)) {
		return units.Decimal{}, true
	}
	if n, err := units.ParseNumber(text, units.MarkUnknown); err == nil {
		return n, true
	}
	n, behind, err := units.ParseCount(text, units.MarkUnknown)
	if err != nil {
		return n, false
	}
	word := strings.ToLower(strings.Join(strings.Fields(behind), " "))
	called := func(word string) bool {
		return word == "" || word == "pack" || word == "packs" || slices.Contains(packWords[q.Form], word)
	}
	m := ofPack.FindStringSubmatch(word)
	if m == nil {
		if of, bad := units.ParseAmount("1 "+behind, units.Options{}); bad == nil && behind != "" && q.Form == quotes.Bulk {
			ratio, same := of.Ratio(q.Pack)
			return n.Mul(units.DecimalOf(ratio)).Round(packDigits), same
		}
		return n, called(word)
	}
	held := m[2]
	for _, w := range packWords[q.Form] {
		held = strings.TrimSuffix(held, " "+w)
	}
	return n, called(m[1]) && held == strings.ToLower(strings.Join(strings.Fields(q.Pack.Raw), " "))
}

func orderedNames(list []Ordered) []string {
	var out []string
	for _, o := range list {
		if !slices.Contains(out, o.Quote.Name) {
			out = append(out, o.Quote.Name)
		}
	}
	slices.Sort(out)
	return out
}

package papers

import (
	"encoding/csv"
	"fmt"
	"io"
	"slices"
	"strings"

	"mediabuy/optimise/breakeven"
	"mediabuy/optimise/talk"
	"mediabuy/papers/page"
	"mediabuy/papers/safe"
	"mediabuy/quotes"
	"mediabuy/units"
)

// TalkPage sets out what may be told to a supplier at the next talk. It can be left
// with the supplier: it holds nothing of any other.
func TalkPage(t *talk.Talk, st Style) *page.Page {
	s := newScribe(t.Job, st)
	set := t.Job.Settings
	p := &page.Page{
		Title:    "For our next talk",
		Subtitle: fmt.Sprintf("With %s, prices of %s%s", t.Supplier, set.Date, needBy(set.NeedBy)),
		Day:      set.Date.Time,
		Foot:     "For our next talk with " + t.Supplier,
		Letter:   st.Letter,
	}
	a := asker{Buyer: set.Buyer, to: t.Supplier}
	p.Sections = []page.Section{{Heading: "Who asks", Sheet: "Talk", Blocks: a.blocks("Talk", set.Date)}}
	if len(t.Lines) > 0 {
		p.Sections = append(p.Sections, page.Section{Heading: "What we would take", Blocks: []page.Block{s.talkTable(t), &page.Para{Text: s.talkPrices(t)}}})
	}
	terms := s.talkTerms(t)
	answer := "This is no order."
	if len(terms) > 0 || slices.ContainsFunc(t.Lines, func(l talk.Line) bool { return len(l.Steps) > 0 }) {
		answer += " If you can meet one of these prices or terms, please write it down with the day until which it holds."
	}
	if len(terms) > 0 {
		p.Sections = append(p.Sections, page.Section{Heading: "What other terms would bring", Blocks: []page.Block{&page.List{Items: terms}}})
	}
	if len(t.Refused) > 0 {
		var items []string
		for _, q := range t.Refused {
			items = append(items, q.ItemAlone()+": "+talkRefused(q, set, t.Job.Beds, s.Units))
		}
		p.Sections = append(p.Sections, page.Section{Heading: "What our beds cannot take", Blocks: []page.Block{&page.List{Items: items}}})
	}
	if len(t.Open) > 0 {
		p.Alarm = "Not settled in time, so nothing lower may be told of it: " + strings.Join(t.Open, ", ") + "."
	}
	p.Sections = append(p.Sections, page.Section{Heading: "Your answer", Blocks: []page.Block{
		&page.Para{Text: answer},
		&page.Fields{Names: []string{"Item and price", "Delivery", "Holds until", "Name and date"}},
	}})
	return p
}

// talkTable is every item with what is taken of it at today's price and at lower ones.
func (s scribe) talkTable(t *talk.Talk) *page.Table {
	out := &page.Table{Cols: []page.Col{{Name: "Your item"}, {Name: "Pack", Narrow: true}, {Name: "Price of one", Right: true}, {Name: "Lower from", Narrow: true}, {Name: "We would take"}}}
	for _, l := range t.Lines {
		q := l.Quote
		now := "none"
		if l.Now.Sign() > 0 {
			now = q.PacksWords(l.Now)
		}
		out.Rows = append(out.Rows, page.Row{Cells: []page.Cell{
			page.Text(q.ItemWords()), page.Text(q.Pack.Raw), s.priceCell(q.Price), page.Text(s.lower(q, q.Breaks)), page.Text(now + ", at your price of today"),
		}})
		for _, step := range l.Steps {
			out.Rows = append(out.Rows, page.Row{Kind: page.Sub, Cells: []page.Cell{
				page.Text("at a lower price"), page.Text(q.Pack.Raw), s.priceCell(step.Price), page.Text(s.lower(q, step.Breaks)), page.Text(takenWords(step.Taken, q)),
			}})
		}
	}
	return out
}

// lower is a quote's price breaks in words.
func (s scribe) lower(q *quotes.Quote, breaks []quotes.Break) string {
	var out []string
	for _, b := range breaks {
		out = append(out, fmt.Sprintf("%s from %s", s.price(b.Price), b.From))
	}
	if len(out) > 0 && q.BreakKind == quotes.Incremental {
		out = append(out, "for the packs from there on")
	}
	return strings.Join(out, "; ")
}

// takenWords is what is taken: of the item talked of first, then of the supplier's
// others.
func takenWords(t talk.Taken, first *quotes.Quote) string {
	var out []string
	for _, b := range t.Buy {
		if first != nil && b.Quote.Name == first.Name {
			out = append([]string{b.Quote.PacksWords(b.Packs)}, out...)
		} else {
			out = append(out, b.Quote.PacksWords(b.Packs)+" of "+b.Quote.ItemWords())
		}
	}
	if len(out) == 0 {
		return "none"
	}
	words := strings.Join(out, "; with ")
	if first == nil {
		words = units.Listed(out)
	}
	if t.All {
		words += ", which is all we need"
	}
	return words
}

func (s scribe) talkPrices(t *talk.Talk) string {
	words := "Prices are for one pack before tax, one item lowered at a time and the rest as you quoted it."
	if t.Job.Settings.TaxIncluded {
		words = "Prices are for one pack with tax, one item lowered at a time and the rest as you quoted it."
	}
	return words + " Your price breaks are lowered in the same proportion. Each price was planned again as it stands here: what stands beside it is what we would then order."
}

// talkTerms are lower prices of everything, and other terms, in sentences.
func (s scribe) talkTerms(t *talk.Talk) []string {
	var out []string
	for _, o := range t.All {
		out = append(out, fmt.Sprintf("%s off all your prices: we would take %s.", percentWords(o.Share), takenWords(o.Taken, nil)))
	}
	for _, e := range t.Extras {
		name := "Free delivery"
		if e.Kind == talk.HalfStep {
			name = fmt.Sprintf("%s sold in steps of %s packs", e.Quote.ItemAlone(), e.Step)
		}
		words := name
		switch {
		case e.Worth.Sign() > 0:
			words += fmt.Sprintf(" would be worth %s to us", s.money(e.Worth))
		case len(e.At) == 0:
			words += " alone would not change what we take"
		default:
			words += " alone would not yet change what we take"
		}
		switch {
		case e.More:
			words += ": we would take " + takenWords(e.Taken, e.Quote)
		case e.Worth.Sign() > 0 && e.Kind == talk.FreeDelivery:
			words += " on what we would take today"
		}
		out = append(out, words+".")
		for _, l := range e.At {
			at := l.Steps[0]
			words := fmt.Sprintf("With it, and %s at %s for %s", l.Quote.ItemWords(), s.price(at.Price), l.Quote.Pack.Raw)
			if low := s.lower(l.Quote, at.Breaks); low != "" {
				words += " (" + low + ")"
			}
			words += ", we would take " + takenWords(at.Taken, nil)
			out = append(out, words+".")
		}
	}
	return out
}

func percentWords(share units.Decimal) string {
	return share.Mul(units.DecimalFromInt(100)).Round(1).String() + " %"
}

// talkRefused is why no bed takes a thing, in words that name no other.
func talkRefused(q *quotes.Quote, set quotes.Settings, beds []*quotes.Bed, sys units.System) string {
	switch {
	case q.Medium.BreaksDown:
		return "it breaks down in water."
	case q.Medium.Carbonate == quotes.CarbonateYes || q.Carbonate == quotes.Fizzed:
		return "it carries lime."
	case q.Medium.Carbonate == quotes.CarbonateSuspect && q.Carbonate != quotes.NoFizz && !set.AllowUntested:
		return "such stone may carry lime. Please put an acid drop on several stones and tell us whether they fizz."
	case !q.ValidUntil.IsZero() && q.ValidUntil.Before(set.Date.Time):
		return fmt.Sprintf("your price ended on %s. Please say what it is now.", q.ValidUntil)
	case !q.ReadyBy.IsZero() && !set.NeedBy.IsZero() && q.ReadyBy.After(set.NeedBy.Time):
		return fmt.Sprintf("it is ready on %s, and we need it by %s.", q.ReadyBy, set.NeedBy)
	case !q.Size.Known:
		return "its grain size is not stated. Please name its lower and upper sieve."
	}
	if least := leastGrain(beds); least > q.Size.Min {
		return fmt.Sprintf("its smallest stones (%s) are finer than the %s that our beds ask for at least.", q.Size.Raw, quotes.GrainWords(least, sys))
	}
	return fmt.Sprintf("its grain size (%s) or its kind of stone is not what a bed of ours asks for.", q.Size.Raw)
}

// leastGrain is the finest grain that any bed takes; 0 where one takes any.
func leastGrain(beds []*quotes.Bed) units.Millimetres {
	least := units.Millimetres(0)
	for i, b := range beds {
		if b.MinSize == nil {
			return 0
		}
		if i == 0 || *b.MinSize < least {
			least = *b.MinSize
		}
	}
	return least
}

// talkHeads are the columns of a talk's CSV.
var talkHeads = []string{"supplier", "what", "item", "pack", "price", "breaks", "takes", "takes_of", "all_we_need", "worth"}

// TalkCSV writes the same as a sheet: a row for each item, or for each thing taken.
func TalkCSV(t *talk.Talk, w io.Writer) error {
	digits := t.Job.Settings.CurrencyDigits
	rows := [][]string{talkHeads}
	add := func(what, worth string, q *quotes.Quote, price units.Money, breaks []quotes.Break, list []breakeven.Bought, all bool) {
		lead := []string{t.Supplier, what, "", "", "", ""}
		if q != nil {
			var low []string
			for _, b := range breaks {
				low = append(low, b.From.String()+": "+moneyText(b.Price, digits))
			}
			copy(lead[2:], []string{q.ItemWords(), q.Pack.Raw, moneyText(price, digits), strings.Join(low, "; ")})
		}
		yes := ""
		if all {
			yes = "yes"
		}
		if len(list) == 0 {
			rows = append(rows, safe.Row(append(lead, "0", "", yes, worth)...))
		}
		for _, b := range list {
			rows = append(rows, safe.Row(append(lead[:6:6], b.Packs.String(), b.Quote.ItemWords()+", "+b.Quote.Pack.Raw, yes, worth)...))
		}
	}
	for _, l := range t.Lines {
		var now []breakeven.Bought
		if l.Now.Sign() > 0 {
			now = []breakeven.Bought{{Quote: l.Quote, Packs: l.Now}}
		}
		add("today", "", l.Quote, l.Quote.Price, l.Quote.Breaks, now, false)
		for _, step := range l.Steps {
			add("at a lower price", "", l.Quote, step.Price, step.Breaks, step.Buy, step.All)
		}
	}
	for _, o := range t.All {
		add(percentWords(o.Share)+" off all prices", "", nil, units.Money{}, nil, o.Buy, o.All)
	}
	for _, e := range t.Extras {
		add(e.Words(), e.Worth.Text(digits), nil, units.Money{}, nil, e.Buy, e.All)
		for _, l := range e.At {
			add(e.Words()+" and a lower price", "", l.Quote, l.Steps[0].Price, l.Steps[0].Breaks, l.Steps[0].Buy, l.Steps[0].All)
		}
	}
	if err := csv.NewWriter(w).WriteAll(rows); err != nil {
		return fmt.Errorf("writing the sheet for a talk with %s: %w", t.Supplier, err)
	}
	return nil
}

// moneyText is a price with all its digits, and no fewer than the currency has.
func moneyText(m units.Money, digits int) string {
	if m.Round(digits).Equal(m) {
		return m.Text(digits)
	}
	return m.String()
}

package message

import (
	"slices"
	"strings"

	"mediabuy/units"
)

const twoPrices = "two prices for one pack, and it is not said which holds"

// contradict handles one more price f for the pack of an offer: it is asked which of them holds.
func (r *reading) contradict(o *offer, f *fact) {
	if len(o.rivals) == 0 {
		o.rivals = []*fact{o.price}
	}
	first := o.rivals[0]
	o.rivals = append(o.rivals, f)
	reading, answered := r.answers[answerKey{first.From, false}]
	if first.unclear != "" && first.ask == nil || !r.rivals(o.rivals) {
		for _, g := range o.rivals {
			g.ask = nil
			g.drop(twoPrices)
		}
		return
	}
	beside := r.qualifiers(f)
	if len(o.rivals) == 2 {
		beside = append(beside, r.qualifiers(first)...)
	}
	if answered {
		r.holds(o, f, reading == len(o.rivals)-1, beside)
		return
	}
	first.drop(twoPrices)
	f.drop(twoPrices)
	c := first.ask
	if c == nil {
		c = &choice{key: first.From, question: "two prices for one pack: which of them holds?", labels: []string{r.priceLabel(first)}}
	} else {
		c.question = "several prices for one pack: which of them holds?"
	}
	c.Range = Range{first.From, f.To}
	label := r.priceLabel(f)
	if label == c.labels[0] {
		c.labels[0], label = first.text, f.text
	}
	c.labels = append(c.labels, label)
	if f.money.Cmp(o.rivals[c.costly].money) > 0 {
		c.costly = len(o.rivals) - 1
	}
	first.ask, f.ask = c, c
	for _, g := range beside {
		switch g.kind {
		case aPayer:
			g.ask = c
		case aCollect:
			g.drop(twoPrices) // it is said of one of them
		}
	}
}

// holds heeds the answer to which of several prices holds, as far as f: it, or the one that the offer has.
func (r *reading) holds(o *offer, f *fact, second bool, beside []*fact) {
	holds, not := o.price, f
	if second {
		holds, not = f, o.price
	}
	o.price = holds
	holds.why = strings.TrimSuffix(holds.why, ", as answered") + ", as answered"
	for _, c := range r.all {
		for _, g := range c.facts {
			if g.head == not && g.kind == aPrice { // "same price for the black" says the one that holds
				g.head, g.money, g.text, g.unit = holds, holds.money, holds.text, holds.unit
			}
		}
	}
	shared := 0
	for _, it := range r.items {
		if slices.Contains(it.facts, not) {
			shared++
		}
	}
	unit := holds.unit.Empty() && !not.unit.Empty() // its words say what both are for
	if unit {
		o.pack, o.packFrom = o.pack.With(not.unit), append(o.packFrom, not)
	}
	switch {
	case shared > 1: // by two sizes, of which one has another price
	case unit:
		not.kind, not.why = aPack, "what the price is for"
	default:
		not.kind, not.why = anAside, "the price that was answered not to hold"
	}
	for _, g := range beside {
		switch {
		case g.behind == not || g.kind == aPayer || g.kind == aCollect && !slices.Contains(r.qualifiers(holds), g):
			g.kind, g.why = anAside, "which of the prices it tells, as answered"
		case g.kind == aCollect: // of this one alone
			g.kind = aNote
			holds.item.facts = append(holds.item.facts, g)
		}
	}
}

// rivals says whether prices, in their order, say the same of one pack and nothing tells them apart that the buyer does not know: no word
// between them or behind them, such as "washed" or "a pallet", but who pays them, or whether the goods are brought or fetched.
func (r *reading) rivals(all []*fact) bool {
	a, b := all[0], all[len(all)-1]
	alike := a.unit.Text == b.unit.Text && a.unit.Form == b.unit.Form || a.unit.Empty() || b.unit.Empty()
	if a.paid && b.paid && a.item == b.item {
		return true // two columns of a table
	}
	if a.item == nil || a.item.row >= 0 || a.From >= b.From || a.unit.Empty() && b.item != a.item || !alike {
		return false
	}
	rest := []byte(r.low[a.To:])
	end := len(rest)
	for _, c := range r.all {
		if c.row >= 0 || c.To <= a.To {
			continue
		}
		if c.From <= b.From && b.From < c.To {
			end = c.To - a.To
		}
		for _, f := range c.facts { // what it is and how it is packed, said twice, and who pays
			if f.From >= a.To && (slices.Contains(all, f) || f.why == corrects || f.tells() && (f.item == nil || f.item == a.item || f.item == b.item)) {
				for i := f.From; i < f.To; i++ {
					rest[i-a.To] = ' '
				}
			}
		}
		if c.From > b.To {
			break
		}
	}
	for w := range strings.FieldsSeq(strings.Map(signsOut, string(rest[:end]))) {
		if w = strings.Trim(w, ".!-–/"); !fillers[w] && w != "" && w != "w" && w != "if" && w != "when" {
			return false
		}
	}
	return true
}

// tells says whether a fact between two prices of one pack leaves them prices of that pack.
func (f *fact) tells() bool {
	switch f.kind {
	case aMedium, aPack, aForm, aSize, aPayer, aCollect, aMin:
		return true
	}
	return f.kind == aDelivery && f.before
}

// qualifiers are the words beside a price that tell who pays it, or whether the goods are brought: behind it or, where none
// are, in front of it.
func (r *reading) qualifiers(price *fact) []*fact {
	for _, c := range r.all {
		i := slices.Index(c.facts, price)
		if i < 0 {
			continue
		}
		var out []*fact
		for _, f := range c.facts[i+1:] {
			if f.kind == aPrice {
				break
			}
			if f.qualifies() {
				out = append(out, f)
			}
		}
		for j := i - 1; j >= 0 && len(out) == 0 && c.facts[j].kind != aPrice; j-- {
			if c.facts[j].qualifies() {
				out = append(out, c.facts[j])
			}
		}
		return out
	}
	return nil
}

func (f *fact) qualifies() bool {
	return f.kind == aPayer || f.kind == aCollect || f.kind == aDelivery && f.before
}

// priceLabel is a price with what tells it apart.
func (r *reading) priceLabel(price *fact) string {
	words := price.text
	if price.paid {
		words += ", " + squeeze(strings.Trim(r.text[price.head.From:price.head.To], "()* "))
	}
	for _, f := range r.qualifiers(price) {
		words += ", " + squeeze(strings.Trim(r.text[f.From:f.To], "()/ "))
	}
	return words
}

// zones asks which of several fees for delivery holds that a sentence states with nothing but words of place between: "$85 in
// county, $110 out of county", "A $60, B $80". Each holds somewhere, and the buyer knows where.
func (r *reading) zones(before []*clause, c *clause) {
	if c.row >= 0 || len(c.media()) > 0 {
		return
	}
	var now, first *fact
	placed := !slices.ContainsFunc(c.tokens, func(t token) bool {
		return !t.number && t.word != "" && !fillers[t.word] && !feeWordsAround[t.word] && !oneOf(t.word, "outside", "beyond", "further", "elsewhere", "out")
	})
	if n := len(before); placed && len(c.tokens) > 1 && n > 0 && before[n-1].sentence == c.sentence && slices.ContainsFunc(before[n-1].facts, func(f *fact) bool { return f.kind == aDelivery && f.text != "0" || f.ask != nil }) {
		if fee := c.bareFee(); fee != nil { // "delivery 60 in town, 85 outside"
			defer func() {
				if fee.kind == aPrice { // a fee that was not asked about is no price either
					fee.drop(besideDelivery)
				}
			}()
		}
	}
	for _, f := range c.facts {
		if f.kind == aDelivery && !f.before && f.text != "0" || f.kind == aPrice && f.unit.Empty() {
			now = f
		} else if f.kind != anAside && f.kind != aPayer {
			return
		}
	}
	all := []*clause{c}
	for _, d := range slices.Backward(before) {
		if d.sentence != c.sentence || d.row >= 0 || len(d.media()) > 0 {
			break
		}
		for _, f := range d.facts {
			if f.kind == aDelivery && !f.before && !f.otherwise && f.text != "0" || f.ask != nil && f.kind == anAside {
				first = f
			} else if first != nil && (f.kind == aFree || f.kind == aClassFee) {
				return
			}
		}
		all = append(all, d)
	}
	if now == nil || first == nil || now == first || now.otherwise || now.money.Equal(first.money) || slices.ContainsFunc(all[:1], func(c *clause) bool {
		return slices.ContainsFunc(c.tokens, func(t token) bool {
			return t.number || limiting[t.word] && !oneOf(t.word, "zone", "up", "way") || oneOf(t.word, "if", "free")
		})
	}) {
		return
	}
	const why = "several fees for delivery, and it is not said which holds for you"
	label := func(c *clause, f *fact) string {
		return squeeze(strings.Trim(r.text[min(c.From, f.From):max(c.To, f.To)], " \t\r\n,;.:()-–"))
	}
	at := slices.IndexFunc(before, func(d *clause) bool { return slices.Contains(d.facts, first) })
	ch := first.ask
	if ch == nil {
		ch = &choice{key: first.From, question: "several fees for delivery: which is yours?", labels: []string{label(before[at], first)}, money: first.money}
	}
	n := len(ch.labels)
	ch.Range, ch.labels = Range{first.From, now.To}, append(ch.labels, label(c, now))
	if now.money.Cmp(ch.money) > 0 {
		ch.costly, ch.money = n, now.money
	}
	c.poison = ""
	now.kind, now.why, now.otherwise = aDelivery, "a fee for delivery", false
	first.ask, now.ask = ch, ch
	reading, answered := r.answers[answerKey{first.From, false}]
	for i, f := range []*fact{first, now} {
		switch {
		case !answered:
			f.drop(why)
		case reading == i*n:
			f.filed, f.unclear, f.why = true, "", "a fee for delivery, as answered"
		default:
			f.kind, f.why = anAside, "the fee that was answered not to hold"
		}
	}
}

// bareFee makes an amount of the only number of a clause that answers what delivery costs, or stands below its heading: "60".
// It is nil where there is none.
func (c *clause) bareFee() *fact {
	at := slices.IndexFunc(c.tokens, func(t token) bool { return t.number })
	if at < 0 || slices.ContainsFunc(c.tokens[at+1:], func(t token) bool { return t.number || limiting[t.word] }) || slices.ContainsFunc(c.facts, func(f *fact) bool { return f.kind != anAside }) {
		return nil
	}
	t := c.tokens[at]
	v, err := units.ParsePlainDecimal(t.word)
	if err != nil || v.Sign() <= 0 {
		return nil
	}
	return c.made(at, at+1, &fact{kind: aPrice, Range: t.Range, text: v.String(), money: units.MoneyOf(v), why: "a fee for delivery"})
}

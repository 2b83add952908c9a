package files

import (
	"cmp"
	"fmt"
	"math"
	"regexp"
	"strings"

	"mediabuy/quotes"
	"mediabuy/quotes/internal/packs"
	"mediabuy/quotes/internal/spelling"
	"mediabuy/quotes/internal/typed"
	"mediabuy/units"
)

// Cells as people type them: what has one reading is read and said, what has two
// is a problem that lists both.

// asIs is the hint of a warning that only says how a cell was read.
const asIs = "change the cell if that is not meant"

// plainly puts a cell into the plain form that its words can only mean, and says so where the cell's own converter does not. A pack's does,
// which takes its words itself.
func (x *reader) plainly(c *cell, date bool) {
	if net := typed.Taxed(c.heading, c.text, x.set.TaxIncluded); net != "" && !c.off {
		x.warn(c, fmt.Sprintf("%s is read as %s, and %s", spelling.Quoted(c.text), net, typed.TaxWords(&x.set)), "the rate stands under tax, here or in job.toml")
		c.text = net
	}
	text := typed.Plain(c.heading, c.text)
	if text == "" || c.off || c.heading == "pack" {
		return
	}
	if _, behind, _ := units.ParseCount(text, c.mark); !date && (behind == "" || c.heading != "step" && !strings.HasSuffix(c.heading, "_qty")) {
		x.warn(c, fmt.Sprintf("%s is read as %s", spelling.Quoted(c.text), text), asIs)
	}
	c.text = text
}

// stone reads the medium of a quote, which may stand among words for how it looks, and beside its size where that has no cell of its own.
func (x *reader) stone(q *quoteRow, t *quotes.MediaTable, c *cell) {
	m, size := typed.Medium(t, c.text)
	if m == nil || c.off {
		q.Medium, _ = x.medium(t, c, c.text)
		return
	}
	words := m.Name
	switch own := q.row.cell("size"); {
	case size == "":
	case own.off:
	case own.blank():
		one := *c
		one.text, one.heading, words = size, own.heading, words+" of "+size
		q.row.cells["size"] = &one
	case !typed.SameSize(own.text, size, x.grainOptions(own)):
		x.fail(c, fmt.Sprintf("%s names another size than %s under size", spelling.Quoted(c.text), spelling.Quoted(own.text)), "one size", "write the size under size alone")
		return
	}
	x.warn(c, fmt.Sprintf("%s is read as %s", spelling.Quoted(c.text), words), asIs)
	q.Medium, q.Item = m, cmp.Or(q.Item, spelling.Tidy(c.text))
}

// spokenPack reads a pack whose number is a word or left out, "half yard" or "ton",
// or which has the word for its form behind it, "2 cu ft bag".
func (x *reader) spokenPack(q *quoteRow, c *cell, o units.Options, a units.Amount, err error) (units.Amount, error) {
	if err == nil {
		return a, nil
	}
	text, form := cmp.Or(typed.Plain("pack", c.text), c.text), quotes.Form("")
	if m := packWord.FindStringSubmatch(text); m != nil && strings.TrimSpace(m[1]) != "" {
		text = m[1]
		form, _ = typed.FormOf(m[2])
	}
	plain, worded := units.Spoken(text)
	said, again := units.ParseAmount(plain, o)
	_, alone := typed.FormOf(c.text)
	switch {
	case worded && again == nil && said.IsMass && form != "" && form != quotes.Bulk: // a kind of bag, called by what it may hold at most
		return a, &units.ParseError{Found: c.text, What: "a weight with a number", Wanted: "what one such bag holds", Hint: fmt.Sprintf("ask the yard, and write %s if it is that, else such as 850 kg or 0.7 m3", said.Raw)}
	case alone:
		return a, &units.ParseError{Found: c.text, What: "a volume or a weight", Wanted: "a number and a unit, such as 50 L, 1 yd3 or 25 kg", Hint: "write what one " + c.text + " holds, such as 2 cu ft"}
	case again != nil:
		return a, err
	}
	form = quotes.Form(packs.BySize(string(form), said))
	switch {
	case form != "" && q.Form == "" && !q.bad["form"]:
		q.Form = form
	case form != "" && q.Form != form && (form == quotes.Bulk || q.Form == quotes.Bulk): // of bag and sack the column knows better
		return a, &units.ParseError{Found: c.text, What: "sold as " + string(q.Form), Wanted: "one form under form and pack",
			Hint: fmt.Sprintf("write %s under form, or %s under pack", form, said.Raw)}
	}
	if form != "" {
		plain = fmt.Sprintf("a %s of %s", strings.Replace(string(form), "sack", "bulk bag", 1), plain)
	}
	x.warn(c, fmt.Sprintf("%s is read as %s", spelling.Quoted(c.text), plain), asIs)
	return said, nil
}

var packWord = regexp.MustCompile(`(?i)^(.*?)[ -]*\b(` + typed.Forms + `)$`)

// price reads a price that may say what it is for, which must be the pack. told
// says that the cell's note is given already.
func (x *reader) price(q *quoteRow, c *cell, text string, told bool) (units.Money, bool) {
	if _, err := units.ParseMoney(text, c.mark); err == nil {
		return x.moneyText(c, text)
	}
	amount, per := units.CutRate(text)
	if per == "" {
		return x.moneyText(c, text)
	}
	m, ok := x.moneyText(c, amount)
	if !ok {
		return m, false
	}
	pack := "one pack"
	if q.Pack.Raw != "" {
		pack += " of " + q.Pack.Raw
	}
	if !x.forPack(q, c, text, m, per) {
		return units.Money{}, false
	}
	if !told {
		x.warn(c, fmt.Sprintf("%s is read as %s for %s", spelling.Quoted(text), x.show(m), pack), asIs)
	}
	return m, true
}

// forPack says whether what a price is for is the pack, and reports it if not.
func (x *reader) forPack(q *quoteRow, c *cell, text string, m units.Money, per string) bool {
	if typed.Each(per) {
		return true
	}
	if form, ok := typed.FormOf(strings.TrimRight(per, ".")); ok {
		if q.Form == "" || q.Form == form || form != quotes.Bulk && q.Form != quotes.Bulk {
			return true
		}
		x.fail(c, fmt.Sprintf("%s is a price by the %s, but the pack of %s is sold as %s", spelling.Quoted(text), form, q.Pack.Raw, q.Form), "a price for one pack",
			fmt.Sprintf("write %s under form if a %s holds %s; else write what one %s holds under pack", form, form, q.Pack.Raw, form))
		return false
	}
	plain, _ := units.Spoken(per)
	of, err := units.ParseAmount(plain, units.Options{Mark: c.mark})
	if err != nil {
		x.fail(c, fmt.Sprintf("%s: %s is no unit and no word for a pack", spelling.Quoted(text), spelling.Quoted(per)), "digits such as 12.50",
			fmt.Sprintf("write %s if that is the price of one pack", x.show(m)))
		return false
	}
	ratio, ok := q.Pack.Ratio(of)
	switch {
	case q.Pack.Raw == "" || ok && math.Abs(ratio-1) < 1e-9:
		return true // a pack that could not be read is reported
	case !ok:
		x.fail(c, fmt.Sprintf("%s is a price by %s, but the pack is %s", spelling.Quoted(text), plain, q.Pack.Raw), "the price of one pack",
			fmt.Sprintf("write %s if that is the price of the pack, or %s under pack", x.show(m), plain))
	default:
		whole := m.Times(units.DecimalOf(ratio)).Round(x.set.CurrencyDigits)
		x.fail(c, fmt.Sprintf("%s is a price by %s, but the pack is %s", spelling.Quoted(text), plain, q.Pack.Raw), "the price of one pack",
			fmt.Sprintf("write %s for a pack at that rate, %s if that is the price of the pack, or %s under pack", x.show(whole), x.show(m), plain))
	}
	return false
}

// counted reads a number of packs that may be a word, a fraction, or said in the
// unit of the pack: "half", "½ yard", "10 bags".
func (x *reader) counted(q *quoteRow, c *cell, text string) (units.Decimal, bool) {
	v, err := units.ParseNumber(text, c.mark)
	if err == nil {
		return v, true
	}
	n, behind, again := units.ParseCount(text, c.mark)
	if again != nil {
		return converted(x, c, v, err)
	}
	if _, form := typed.FormOf(behind); behind != "" && !form && !typed.Each(behind) {
		of, bad := units.ParseAmount("1 "+behind, units.Options{})
		ratio, same := of.Ratio(q.Pack)
		switch {
		case bad != nil:
			return converted(x, c, v, err)
		case q.Pack.Raw == "":
			return units.Decimal{}, false // the pack is reported
		case !same:
			x.fail(c, fmt.Sprintf("%s is no number of packs of %s", spelling.Quoted(text), q.Pack.Raw), "a number of packs", "write how many packs, such as 0.5 or 2")
			return units.Decimal{}, false
		}
		n = n.Mul(units.DecimalOf(ratio)).Round(9)
	}
	if !n.IsMultipleOf(minStep) {
		x.fail(c, spelling.Quoted(text)+" is no number of packs that can be counted", "a multiple of "+minStep.String()+" packs", "write it as a decimal, such as 0.333")
		return units.Decimal{}, false
	}
	x.warn(c, fmt.Sprintf("%s is read as %s packs", spelling.Quoted(text), n), asIs)
	return n, true
}

// Sides are the sides of a bed where a text holds several; see [typed.Sides].
func Sides(text string, mark units.DecimalMark) []string { return typed.Sides(text, mark) }

// sidesOf is the names of the sides in order.
var sidesOf = []string{"length", "width", "depth"}

// sideCells are the cells of a bed's sides. Where the length holds several they are told apart.
func (x *reader) sideCells(q *bedRow) map[string]*cell {
	out := map[string]*cell{}
	for _, h := range sidesOf {
		out[h] = q.row.cell(h)
	}
	c := out["length"]
	if c.off {
		return out
	}
	var said []string
	sides := typed.Sides(c.text, c.mark)
	for i, s := range sides {
		h := sidesOf[i]
		if i > 0 && !out[h].blank() {
			x.fail(c, fmt.Sprintf("%s holds a %s too, which has a cell of its own that is filled", spelling.Quoted(c.text), h), "each side once", fmt.Sprintf("write %s here, or empty the %s", sides[0], h))
			c.off = true
			return out
		}
		one := *c
		one.text, one.heading = s, h
		out[h] = &one
		said = append(said, h+" "+s)
	}
	if len(said) > 0 {
		x.warn(c, fmt.Sprintf("%s is read as %s", spelling.Quoted(c.text), strings.Join(said, ", ")), asIs)
	}
	return out
}

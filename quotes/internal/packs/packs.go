// Package packs tells what is priced or counted: an amount such as 50 L, a form such as bag, or both; and whether two of
// them may be one pack, or a number of the one be a number of the other.
package packs

import (
	"strings"

	"mediabuy/quotes"
	"mediabuy/quotes/internal/plaintext"
	"mediabuy/quotes/internal/wordlist"
	"mediabuy/units"
)

// Pack is what is priced or counted: an amount, a form, or both.
type Pack struct {
	Text   string        // "50 L", as it would stand in a cell; "" when only the form is known
	Form   string        // bag, sack, bulk, "each"; or pallet and the like, which are no forms of quotes.csv
	Words  string        // as written, for reasons
	Amount *units.Amount // nil when text is ""
}

// Empty says whether nothing is known of the pack.
func (p Pack) Empty() bool { return p.Text == "" && p.Form == "" }

// Size is what the pack holds in base units, for comparison: negative for weights, 0 when unknown.
func (p Pack) Size() float64 {
	switch {
	case p.Amount == nil:
		return 0
	case p.Amount.IsMass:
		return -float64(p.Amount.Mass.Value)
	}
	return float64(p.Amount.Volume.Value)
}

// RealForm is the form as quotes.csv has it, "" when it has none.
func (p Pack) RealForm() string {
	switch f := quotes.Form(p.Form); f {
	case quotes.Bag, quotes.Bulk, quotes.Sack:
		return p.Form
	}
	return ""
}

// bagSizes tell one size of a bag from another, without saying what it holds.
var bagSizes = wordlist.Set("half full handy mini midi small large standard")

// FormOf is the form that a word for packs says: one of the forms of quotes.csv, or the word itself where quotes.csv has no such form.
func FormOf(word string) string {
	w := strings.TrimSuffix(strings.ReplaceAll(strings.Join(strings.Fields(word), " "), "-", " "), "s")
	if first, rest, ok := strings.Cut(w, " "); ok && bagSizes[first] {
		w = rest
	}
	switch w {
	case "":
		return ""
	case "boxe":
		return "box"
	case "bag", "poly bag", "polybag", "sac", "säcke", "säck", "säckar":
		return "bag"
	case "blk bag", "blck bag", "blkbag", "bulka", "bulka bag", "builder bag", "builders bag", "bulk bag", "big bag", "bigbag", "bulkbag", "jumbo", "dumpy", "jumbo bag", "dumpy bag", "maxi bag", "ton bag", "tonne bag", "super sack", "supersack", "tote":
		return "sack"
	}
	return w // also "sack", which may be a small one: see Of
}

// Of makes a pack of a number as cells have it, a unit, and a word for the pack, which may be "".
func Of(number, unit, word string, mark units.DecimalMark) (p Pack, why string) {
	p = Pack{Text: number + " " + unit, Form: FormOf(word)}
	a, err := units.ParseAmount(p.Text, units.Options{Mark: mark})
	if err != nil {
		return Pack{}, plaintext.Reason(err)
	}
	p.Amount, p.Form = &a, BySize(p.Form, a)
	return p, ""
}

// BySize is a form as what it holds makes it: a small sack is a bag, and a large bag is a bulk bag, which quotes.csv calls sack.
func BySize(form string, a units.Amount) string {
	switch {
	case form == "sack" && !Large(a):
		return "bag"
	case form == "bag" && Large(a):
		return "sack"
	}
	return form
}

// Large says whether a pack is of the size of a bulk bag: from 200 litres or 250 kg (common practice, no source).
func Large(a units.Amount) bool {
	if a.IsMass {
		return a.Mass.Value >= 250
	}
	return a.Volume.Value >= 200
}

// unitAliases are units as people write them that the parser of cells does not know (common practice, no source).
var unitAliases = map[string]string{
	"cube": "m3", "cubes": "m3", // the word of the British trade for a cubic metre
	"#": "lb", "cft": "cu ft", "dm3": "L", "metre": "m3", "metres": "m3", "meter": "m3", "meters": "m3", // of stone the cubic one
	"tn": "ton", "tns": "ton", "yrd": "yd", "yrds": "yd", "yrd3": "yd3", "cu yrd": "cu yd", "cu yrds": "cu yd",
}

// UnitName is a unit as cells have it. A ton and a quart keep their names, as they mean different amounts to different
// trades and the check of the file says so.
func UnitName(v string) string {
	v = strings.Join(strings.Fields(v), " ")
	if plain := unitAliases[v]; plain != "" {
		v = plain
	}
	a, err := units.ParseAmount("1 "+v, units.Options{})
	if err != nil || a.Volume.Note != "" || a.Mass.Note != "" {
		return v
	}
	by := a.Volume.By + a.Mass.By
	switch {
	case by == "" && a.IsMass:
		return "kg"
	case by == "":
		return "L"
	}
	for shown, plain := range map[string]string{"yd³": "yd3", "m³": "m3", "ft³": "cu ft", "t": "tonne"} {
		if strings.HasPrefix(by, "1 "+shown+" =") {
			return plain
		}
	}
	return v
}

// Counts says whether a number of unit u can be a number of packs p: "10 yards" of what is sold by the yard.
func (p Pack) Counts(u Pack) bool {
	switch {
	case u.Empty() || u.Form == "each":
		return true
	case u.Text == "":
		return u.Form == p.Form || p.Form == "" && u.Form == "bag" && p.Text != "" && !Loose(p) && !Single(p) || p.smallSack(u) || p.Form == "each" && p.Text == "" || p.Form == "sack" && u.Form == "bag" || p.Form == "each" && (u.Form == "bag" || u.Form == "sack")
	}
	return p.Size() != 0 && p.Size() == u.Size() && (u.Form == "" || u.Form == p.Form)
}

// Fits says whether p and u may be one pack, with what each leaves open.
func (p Pack) Fits(u Pack) bool {
	formed := p.Form == "" || u.Form == "" || p.Form == "each" || u.Form == "each" || p.Form == u.Form || p.bulkBag(u) || u.bulkBag(p) || p.smallSack(u) || u.smallSack(p)
	return formed && (p.Size() == 0 || u.Size() == 0 || p.Size() == u.Size()) &&
		!(bagged(p) && u.Form == "" && u.Size() != 0 && p.Size() == 0 && wholeUnit(u)) &&
		!(bagged(u) && p.Form == "" && p.Size() != 0 && u.Size() == 0 && wholeUnit(p))
}

// bagged says whether a pack is a bag of any size.
func bagged(p Pack) bool { return p.Form == "bag" || p.Form == "sack" }

// bulkBag says whether p is a bulk bag and u what such a bag holds: "bulk bag, 0.8 m3 a bag".
func (p Pack) bulkBag(u Pack) bool {
	return p.Form == "sack" && u.Form == "bag" && u.Amount != nil && Large(*u.Amount)
}

// smallSack says whether p is a bag of a known size and u one by the word "sack", which may be as small: "sack 50 L, 9.80 a sack".
func (p Pack) smallSack(u Pack) bool {
	return p.Form == "bag" && p.Amount != nil && !Large(*p.Amount) && u.Form == "sack" && u.Text == "" && (u.Words == "sack" || u.Words == "sacks")
}

// wholeUnit says whether a pack is one unit of what is sold loose, such as a yard.
func wholeUnit(p Pack) bool {
	return strings.HasPrefix(p.Text, "1 ") && (p.Amount.IsMass || p.Amount.Volume.Value >= 200)
}

// With is p with what it leaves open taken from u.
func (p Pack) With(u Pack) Pack {
	if p.Text == "" && u.Text != "" {
		p.Text, p.Amount, p.Words = u.Text, u.Amount, u.Words
	}
	if p.Form == "" || p.Form == "each" && u.Form != "" {
		p.Form = u.Form
	}
	if p.Amount != nil {
		p.Form = BySize(p.Form, *p.Amount)
	}
	return p
}

// Loose says whether a pack is written in a unit that is sold loose: yards, cubic metres, tons.
func Loose(p Pack) bool {
	_, unit, _ := strings.Cut(p.Text, " ")
	a, err := units.ParseAmount("1 "+unit, units.Options{})
	return err == nil && Large(a)
}

// Single says whether a pack is one whole unit, as in 1 yard.
func Single(p Pack) bool {
	return len(p.Text) > 2 && p.Text[:2] == "1 " || strings.HasPrefix(p.Text, "1/2 ")
}

// Unheld says whether a pack is called by a word that says nothing of what it holds.
func (p Pack) Unheld() bool {
	return p.Text == "" && p.Form != "" && p.Form != "each" && p.RealForm() == ""
}

package message

import (
	"strings"

	"mediabuy/units"
)

// Units of volume and of weight, and words for packs, in small letters.
const (
	volumeUnit = `(?:(?:cu(?:bic)?\.?[ -]?(?:yards?|yr?ds?|feet|foot|ft|met(?:re|er)s?|m|inch(?:es)?)|yards?|yr?ds?3?|cy|m\^?3|ft\^?3|yd\^3|cbm|dm\^?3|cft|cf|` +
		`cubes?|lit(?:re|er)s?|ltrs?|l|(?:dry )?(?:quarts?|qts?)|gallons?|gals?|bushels?)\b|(?:m|yd|ft)³)`
	massUnit = `(?:(?:short |long |metric |us )?(?:tons?|tonnes?)\b|(?:t|tns?|kgs?|kilos?|kilograms?|lbs?|pounds?|g)\b|#)`
	anyUnit  = `(?:` + volumeUnit + `|` + massUnit + `)`
	packForm = `(?:(?:(?:half|full|handy|mini|midi|small|large|standard|maxi)[ -])?(?:bulk[ -]?bags?|big[ -]?bags?|bulka(?:[ -]bags?)?|builders?[ -]bags?|jumbo[ -]bags?|jumbos?|dumpy[ -]bags?|dump(?:y|ies)|ton(?:ne)?[ -]bags?|super[ -]?sacks?|totes?|sacks?|sacs?|säcke|säckar|säck|(?:poly ?)?bags?|pallets?|skids?|` +
		`(?:truck[ -]?)?loads?|scoops?|buckets?|tubs?|boxes|box)\b)`
)

// bagSizes tell one size of a bag from another, without saying what it holds.
var bagSizes = set("half full handy mini midi small large standard")

// forms are the words for packs: the forms of quotes.csv, or themselves where quotes.csv has no such form.
func formOf(word string) string {
	w := strings.TrimSuffix(strings.ReplaceAll(strings.Join(strings.Fields(word), " "), "-", " "), "s")
	if first, rest, ok := strings.Cut(w, " "); ok && bagSizes[first] {
		w = rest
	}
	switch w {
	case "":
		return ""
	case "bag", "poly bag", "polybag", "sac", "säcke", "säck", "säckar":
		return "bag"
	case "bulka", "bulka bag", "builder bag", "builders bag", "bulk bag", "big bag", "bigbag", "bulkbag", "jumbo", "dumpy", "jumbo bag", "dumpy bag", "maxi bag", "ton bag", "tonne bag", "super sack", "supersack", "tote":
		return "sack"
	}
	return w // also "sack", which may be a small one: see sackForm
}

// unitPattern is the pattern of what is priced or counted, its parts named after n.
func unitPattern(n string) string {
	a := `(?P<` + n + `q>` + quantity + `)` + sp + `-?` + sp + `(?P<` + n + `v>` + anyUnit + `)(?:[ -]+(?P<` + n + `f>` + packForm + `))?`
	b := `(?P<` + n + `fb>` + packForm + `)(?:(?:` + sp + `(?:of|\(|@|=|,)` + sp + `|[ ])(?P<` + n + `qb>` + quantity + `)(?:-|` + sp + `)(?P<` + n + `vb>` + anyUnit + `)` + sp + `\)?)?`
	c := `(?:(?P<` + n + `half>half[ -])|(?:full|whole)[ -])?(?P<` + n + `vc>` + anyUnit + `)(?:[ -]+(?P<` + n + `fc>` + packForm + `))?`
	return `(?:` + a + `|` + b + `|` + c + `)`
}

// unit reads what unitPattern matched.
func (s *scanner) unit(m match, n string) (p pack, why string) {
	pick := func(names ...string) string {
		for _, x := range names {
			if t := m.text(n + x); t != "" {
				return t
			}
		}
		return ""
	}
	q, v, f := pick("q", "qb"), first(s.unitText(m, n+"v"), first(s.unitText(m, n+"vb"), s.unitText(m, n+"vc"))), pick("f", "fb", "fc")
	if v == "" {
		p.form, p.words = formOf(f), f
		return p, ""
	}
	if q == "" {
		q = "1"
		if m.text(n+"half") != "" {
			q = "1/2"
		}
	}
	return s.holding(q, v, f)
}

// unitText is a named part that is a unit: in small letters but for T, which may be a ton or a tonne and is refused by
// the parser of units for it.
func (s *scanner) unitText(m match, name string) string {
	if t := m.orig(s, name); t == "T" {
		return t
	}
	return m.text(name)
}

// holding makes a pack of a number, a unit and a word for the pack, which may be "".
func (s *scanner) holding(q, v, f string) (p pack, why string) {
	num := strings.Join(strings.Fields(q), " ")
	if w, ok := numberWords[num]; ok {
		num = w
	}
	if onePlain.FindString(num) == num {
		c, why := s.number(num)
		if why != "" {
			return pack{}, why
		}
		num = c.text
	}
	name := unitName(v)
	if strings.HasPrefix(v, "cube") && oneOf(s.job.currency, "USD", "CAD") {
		if formOf(f) != "bag" {
			return pack{}, "a cube may be a cubic foot or a cubic yard; write which"
		}
		name = "cu ft" // a bag is none of a yard
	}
	if s.tonne && (name == "ton" || name == "tons") {
		name = "tonne"
	}
	p = pack{text: num + " " + name, form: formOf(f), words: strings.TrimSpace(q + " " + v + " " + f)}
	a, err := units.ParseAmount(p.text, units.Options{Mark: s.out})
	if err != nil {
		return pack{}, reason(err)
	}
	p.amount = &a
	switch {
	case p.form == "sack" && !large(a):
		p.form = "bag" // a small sack is a bag
	case p.form == "bag" && large(a):
		p.form = "sack"
	}
	return p, ""
}

// large says whether a pack is of the size of a bulk bag: from 200 litres or 250 kg (common practice, no source).
func large(a units.Amount) bool {
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

// unitName is a unit as cells have it. A ton and a quart keep their names, as they mean different amounts to different
// trades and the check of the file says so.
func unitName(v string) string {
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

// counts says whether a number of unit u can be a number of packs p: "10 yards" of what is sold by the yard.
func (p pack) counts(u pack) bool {
	switch {
	case u.empty() || u.form == "each":
		return true
	case u.text == "":
		return u.form == p.form || p.form == "" && u.form == "bag" && p.text != "" && !looseUnit(p) && !single(p) || p.smallSack(u) || p.form == "each" && p.text == "" || p.form == "sack" && u.form == "bag" || p.form == "each" && (u.form == "bag" || u.form == "sack")
	}
	return p.size() != 0 && p.size() == u.size() && (u.form == "" || u.form == p.form)
}

// fits says whether p and u may be one pack, with what each leaves open.
func (p pack) fits(u pack) bool {
	formed := p.form == "" || u.form == "" || p.form == "each" || u.form == "each" || p.form == u.form || p.bulkBag(u) || u.bulkBag(p) || p.smallSack(u) || u.smallSack(p)
	return formed && (p.size() == 0 || u.size() == 0 || p.size() == u.size()) &&
		!(oneOf(p.form, "bag", "sack") && u.form == "" && u.size() != 0 && p.size() == 0 && wholeUnit(u)) &&
		!(oneOf(u.form, "bag", "sack") && p.form == "" && p.size() != 0 && u.size() == 0 && wholeUnit(p))
}

// bulkBag says whether p is a bulk bag and u what such a bag holds: "bulk bag, 0.8 m3 a bag".
func (p pack) bulkBag(u pack) bool {
	return p.form == "sack" && u.form == "bag" && u.amount != nil && large(*u.amount)
}

// smallSack says whether p is a bag of a known size and u one by the word "sack", which may be as small: "sack 50 L, 9.80 a sack".
func (p pack) smallSack(u pack) bool {
	return p.form == "bag" && p.amount != nil && !large(*p.amount) && u.form == "sack" && u.text == "" && (u.words == "sack" || u.words == "sacks")
}

// wholeUnit says whether a pack is one unit of what is sold loose, such as a yard.
func wholeUnit(p pack) bool {
	return strings.HasPrefix(p.text, "1 ") && (p.amount.IsMass || p.amount.Volume.Value >= 200)
}

// with is p with what it leaves open taken from u.
func (p pack) with(u pack) pack {
	if p.text == "" && u.text != "" {
		p.text, p.amount, p.words = u.text, u.amount, u.words
	}
	if p.form == "" || p.form == "each" && u.form != "" || u.form == "sack" && p.form == "bag" && p.amount != nil && large(*p.amount) {
		p.form = u.form
	}
	if p.form == "sack" && p.amount != nil && !large(*p.amount) {
		p.form = "bag"
	}
	return p
}

package message

import (
	"strings"

	"mediabuy/quotes/internal/cues"
	"mediabuy/units"
)

// taxWithin says that a tax is in the prices: in front of it, or behind it.
var (
	taxWithin = compile(`\b(?:incl\.?|including|includes?|inc\.?|inclusive(?: of)?|with|contains?|of which)(?:[ \t]+(?:the|our|your|a|all|any|\pL+['’]s))*[ \t]*$`)
	taxInside = pattern(sp + `(?:(?:is|are) )?(?:already )?(?:included|incl\b|inclusive|in (?:the |all |these )?prices?|within)`)
)

// taxRules read what is said of a tax on sales.
func taxRules() []rule {
	return []rule{
		// plus GST 5% and PST 7%
		{pattern(`(?P<in>` + notIn + sp + `)?(?:the )?` + taxName + sp + `\(?(?P<q>` + plainNumber + `)` + percentSign + sp + `\)?` + andTax + taxName + sp + `\(?(?P<qb>` + plainNumber + `)` + percentSign + sp + `\)?(?P<out>` + taxExtra + `)`), bothTaxes},
		{pattern(`(?P<in>` + notIn + sp + `)?(?P<q>` + plainNumber + `)` + percentSign + sp + taxName + andTax + `(?P<qb>` + plainNumber + `)` + percentSign + sp + taxName + `(?P<out>` + taxExtra + `)`), bothTaxes},
		{pattern(`(?:` + notIn + sp + `)?(?P<q>` + plainNumber + `)` + sp + `(?:%|percent|per cent)` + sp + `(?:of )?` + taxName + taxExtra), oneTax},
		{pattern(`(?:` + notIn + sp + `(?:the )?)?(?:` + taxName + `|taxes)(?:,| is| are| of| at| rate| the| standard| usual| normal| full|:| ?@| add| extra| exclusive| excluded| not included| not incl\.?| on top)*` + sp + `\(?(?P<q>` + plainNumber + `)` + sp + `(?:%|percent|per cent)` + sp + `\)?` + taxExtra), oneTax},
		// Tax (8.25%): 22.44; 22.44 of tax
		{pattern(taxWord + `(?: (?:is|of|at|on|amount|total|due|charged|comes to))*` + sp + `(?:[(@]?` + sp + `(?P<q>` + plainNumber + `)` + sp + `(?:%|percent|per cent)` + sp + `\)?(?: \([\pL ]*\))?)?(?: (?:of|on|is|comes to))?` + sp + `[:=-]?` + sp + amountPattern("m")), taxSum},
		// GST 5% on items and shipping   $13.02
		{pattern(`(?:(?:estimated|plus) )?(?:(?P<q>` + plainNumber + `)` + sp + `(?:%|percent\b|per cent\b) )?` + taxName + `(?P<of> (?:on|of)(?: [\pL+&]+){1,5})?(?:(?: at| of| @)?` + sp + `\(?(?P<qb>` + plainNumber + `)` + sp + `(?:%|percent\b|per cent\b)` + sp + `\)?(?P<ofb> (?:on|of)(?: [\pL+&]+){1,5})?)?` + sp + `[:=-]?` + sp + amountPattern("m") + sp + `(?:[\r\n]|$)`), taxLine},
		{pattern(amountPattern("m") + sp + `(?:(?:in|of|for) )?` + taxWord), taxSum},
		// no VAT on ours; we are not VAT registered; it is tax exempt; we don't charge VAT
		{pattern(`(?:(?:(?:(?:we|i)(?:['’]re|['’]m| are| am) )?not registered[,;]?|there(?:'s| is| will be)?|with|at|so|and|but) )*(?:no|nil|zero) ` + taxName + `(?: (?:is|to be|will be|gets))*(?: (?:charged|added|to add|to pay|payable|due|applies|applicable|on top|here|needed))*`), noTax},
		{pattern(`(?:(?:we|i|it|they|this|these|all|both|everything|prices?|ours|mine)(?: (?:are|is|am)|['’](?:s|re|m)) )?(?:(?:not|un)(?: yet)?[ -]?(?:` + taxName + `[ -]?registered|registered for ` + taxName + `)|(?:below|under) the ` + taxName + ` (?:threshold|limit)|` + taxName + `[ -](?:free|exempt)|zero[ -]rated(?: for ` + taxName + `)?|exempt from ` + taxName + `)`), noTax},
		{pattern(`(?:we|i) (?:do not|don['’]?t|never|can['’]?t|cannot|needn['’]?t) (?:have to |need to )?(?:charge|add|collect|put|bill)(?: you)?(?: any)? ` + taxName), noTax},
		{pattern(`(?:(?:as|because|since) )?(?:we|i|he|she|they)(?:(?: are| am| is|['’]re|['’]m|['’]s) not| (?:are|is)n['’]?t) registered\b`), notRegistered},
		{pattern(`(?:all )?(?:prices? )?(?:plus|\+|ex|excl|exc|excluding|exclude|excludes|before|inc|incl|including|include|includes|with|without|net of|subject to)\.?` + sp + `(?:sales )?(?:tax|vat|gst)\b|(?:sales )?(?:tax|vat|gst)(?: is)? (?:included|extra|not included|on top|inclusive|exclusive|added)|(?:inkl|incl|con|met|med|mit)\.? (?:mwst|btw|moms|tva|iva|alv)\b|(?:iva|tva|btw|mwst|moms|alv) (?:compresa|inclusa|incluid[ao]|comprise|inbegrepen|inklusive|inkl\b\.?|incl\b\.?)|prices (?:are )?with (?:vat|tax|gst|iva)`), taxSaid},
		{pattern(`(?:and|&|\+)` + sp + `(?:the )?(?:sales )?(?:tax|vat|gst)\b`), taxToo},
	}
}

// taxSum is an amount of tax, as an invoice has below its goods; it is the price of nothing.
func taxSum(s *scanner, m match) (*fact, bool) {
	if begins := s.low[m.at]; m.has("q") {
		return oneTax(s, m)
	} else if begins >= 'a' && begins <= 'z' {
		return unclearFact("an amount of tax, and no price of goods")
	}
	if s.goesOn(m.end()) || oneOf(s.after(m.end()), "included", "include", "inclusive", "incl", "inc", "extra", "not", "exclusive", "on", "added", "free", "is", "paid") {
		return nil, false
	}
	return unclearFact("an amount of tax, and no price of goods")
}

// taxLine is an amount of tax that ends its line, with the rate of the tax or without.
func taxLine(s *scanner, m match) (*fact, bool) {
	of := first(m.text("of"), m.text("ofb"))
	switch rate := first(m.text("q"), m.text("qb")); {
	case !m.money() || of == "" && !m.has("q"):
		return nil, false
	case rate == "":
		return unclearFact("an amount of tax, and no price of goods")
	case !cues.TaxOfAll.MatchString(of) && of != "":
		return unclearFact(taxOnPart)
	default:
		f, ok := s.taxRate(m, rate)
		f.Range = Range{m.at, len(strings.TrimRight(s.low[:m.at+m.idx[1]], " \t\r\n"))}
		return f, ok
	}
}

func oneTax(s *scanner, m match) (*fact, bool) {
	if rest := s.low[m.end():min(s.limit, m.end()+window)]; cues.TaxOfPart.MatchString(rest) && !cues.TaxOfAll.MatchString(rest) && !cues.TaxOfFee.MatchString(rest) {
		return unclearFact(taxOnPart)
	}
	from, to, _ := m.span("q")
	behind := beforeRate.FindStringSubmatch(s.low[to:min(s.limit, to+window)])
	if besideRate.MatchString(s.low[max(s.start, from-window/2):from]) || behind != nil && behind[1] == "" {
		return unclearFact(twoTaxesReason)
	}
	return s.taxRate(m, m.text("q"))
}

// bothTaxes are two taxes, read as one where the words put them on top of the prices.
func bothTaxes(s *scanner, m match) (*fact, bool) {
	a, b := reads[count](m)(s.rate(m.text("q"))), reads[count](m)(s.rate(m.text("qb")))
	f, ok := s.taxRate(m, m.text("q"))
	if f.kind == aTax {
		sum := a.value.Add(b.value)
		f.text, f.why = s.cellNumber(sum.String(), sum)+"%", "two taxes on top of the prices"
		if !m.has("in") && !m.has("out") {
			return unclearFact(twoTaxesReason)
		}
	}
	return f, ok
}

const twoTaxesReason = "two taxes, and it is not said whether both are on top of the prices"

// besideRate and beforeRate are another rate that an "and" joins to one of tax.
var (
	besideRate = compile(hundredths + `(?:[ \t]+\pL+){0,3}[ \t]*(?:\band|&|\+|\bplus|/)(?:[ \t]+\pL+){0,3}[ \t(]*$`)
	beforeRate = pattern(percentSign + sp + `\)?(?: \pL+){0,3}` + sp + `(?:and\b|&|\+|plus\b|/)` + sp + `(?:\pL+ ){0,3}\(?` + hundredths + `(?P<off> (?:off|discount|less)\b)?`)
)

const (
	taxReason      = "how much tax is added is not said; write it under tax, or as tax in job.toml where it is the same for all"
	taxCarried     = "the prices carry their tax"
	taxNone        = "no tax is added"
	taxNonePerhaps = "no tax is added to something, and it is not sure to what"
	taxPerhapsFee  = "it may be of everything or of delivery alone"
	taxMixed       = "some prices are said to carry it and some not"
	noneAdded      = "0%"
)

const taxOnPart = "a tax on a part of the goods; write it under tax of those"

// taxSaid is whether tax is in the prices or on top of them, with no rate.
func taxSaid(_ *scanner, m match) (*fact, bool) {
	if taxCarriedWord.MatchString(m.low[:m.idx[1]]) {
		return &fact{kind: aTax, text: noneAdded, why: taxCarried}, true
	}
	return &fact{kind: aTax, why: taxReason}, true
}

// taxToo is the tax that prices carry beside delivery: "inc delivery and VAT".
func taxToo(s *scanner, m match) (*fact, bool) {
	f := s.lastFact
	return &fact{kind: aTax, text: noneAdded, why: taxCarried}, f != nil && f.kind == aDelivery && f.text == "0" && strings.HasPrefix(s.low[f.From:f.To], "inc") && strings.TrimSpace(s.low[f.To:m.at]) == ""
}

// noTax is that none is added. Words behind it that are not known may limit it: "no tax to farms", "no VAT in these yet".
func noTax(s *scanner, m match) (*fact, bool) {
	f := &fact{kind: aTax, text: noneAdded, why: taxNone}
	rest := s.low[m.end():min(s.limit, m.end()+window)]
	of := cues.TaxOfThis.FindString(rest)
	f.Range = Range{m.at, m.end() + len(of)}
	if of == "" && !cues.TaxEnds.MatchString(rest) || cues.Exempted.MatchString(s.low[max(s.start, m.at-window/4, strings.LastIndexAny(s.low[:m.at], ".;\n")):m.at]) {
		f.text, f.why = "", taxNonePerhaps
	}
	return f, true
}

// notRegistered is why none is added, behind that.
func notRegistered(s *scanner, m match) (*fact, bool) {
	f := s.lastFact
	return &fact{kind: anAside, why: taxNone}, f != nil && f.kind == aTax && f.why == taxNone && strings.Trim(s.low[f.To:m.at], " ,;(-") == ""
}

var (
	taxCarriedWord = compile(`\binc(?:l|luding|lude|ludes)?\.? |^(?:inkl|con|met|med|mit)\b|^(?:iva|tva|btw|mwst|moms|alv) |^prices (?:are )?with |(?:tax|vat|gst)(?: is)? (?:included|inclusive)$`)
	taxAdded       = compile(`\b(?:plus|ex|excl|exc|excluding|exclud(?:es?|ed)|exclusive|before|without|net|not|no|extra|on top|added?)\b\.?[^.\n]{0,12}\b(?:tax|vat|gst)\b|\b(?:tax|vat|gst)\b[^.\n]{0,12}\b(?:extra|on top|added?|not|exclu\pL*|plus)\b|\+ ?(?:tax|vat|gst)\b`)
)

// rate reads a percentage, which is never in thousands.
func (s *scanner) rate(raw string) (c count, why string) {
	if v, err := units.ParseNumber(raw, units.MarkPoint); err == nil && strings.IndexByte(raw, '.') == len(raw)-len(".975") {
		return count{s.cellNumber(raw, v), v}, ""
	}
	return s.number(raw)
}

func (s *scanner) taxRate(m match, raw string) (*fact, bool) {
	c, bad := s.rate(raw)
	m.fails(bad)
	if rest := s.low[m.end():min(s.limit, m.end()+window)]; taxInside.MatchString(rest) || taxWithin.MatchString(s.low[max(s.start, m.at-window):m.at]) {
		return &fact{kind: aTax, text: noneAdded, why: taxCarried}, true
	}
	return &fact{kind: aTax, text: c.text + "%", why: "a tax on this line"}, true
}

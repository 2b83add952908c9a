package message

import (
	"slices"
	"strings"

	"mediabuy/quotes/internal/cues"
	"mediabuy/units"
)

// fetchWord is a word for delivery by itself.
var fetchWord = pattern(`(?:` + deliver + `|post|posted|courier|carriers?|ships?|cartage)$`)

// termRules read what holds for a whole order.
func termRules() []rule {
	return []rule{
		// delivery: zone 1 $55, zone 2 $75
		{pattern(`(?:(?:` + deliver + `|` + truckWord + `)` + feeWords + `|(?:(?:delivery|our|the) )*(?:zones?|areas?)(?: (?:map|chart|list|fees?|prices?|colou?rs?))?)` + sp + `[:.-]?` + sp + `(?P<list>` + bare(zoneFee) + `(?:` + sp + `[,;/]?` + sp + `(?:and |or )?` + bare(zoneFee) + `)+)`), always(fact{kind: anUnclear, why: "several fees for delivery, and it is not said which holds for you"})},
		{pattern(`(?:(?:plus|and|\+|add|with) )?(?:an? )?(?:(?:flat|fixed|local|(?P<pallet>pallet|skid|plt|per pallet|per skid)|standard|mainland|nationwide|courier) )*(?:d[ei]spatch\b|` + deliver + `)(?:` + toPlace + `)?` + feeWords + sp + `(?:[:=@]|-[ \t])?` + sp + `(?:flat )?` + amountPattern("m") + `(?:` + sp + `(?:flat\b|more\b|extra\b|on top\b|` + anyOrder + `))*`), fee},
		// freight is $32.50 on anything under $400; at $400 it's free
		{pattern(deliver + feeWords + sp + `[:=-]?` + sp + amountPattern("m") + ` (?:on|for)(?: (?:anything|any|all|everything|orders?))+ (?:under|below|up to|less than) ` + bare(amountPattern("x")) + sp + `[,;.]?` + sp + `(?:and )?(?:at|from|over|above) ` + amountPattern("t") + `(?: (?:or|and) (?:more|up|over))?,?(?: (?:it's|it is|its|that's|is))* (?:free|nothing|on us)\b`), feeThenFree},
		// delivery within 15 miles is $60; delivery in town 60
		{pattern(deliver + ` (?P<near>` + nearPlace + `)(?: (?:is|costs?|at|for))*` + sp + `[:=]?` + sp + amountPattern("m")), fee},
		// they bring it for 70
		{pattern(bringIt + `(?P<how>for|at|with) ` + amountPattern("m")), func(s *scanner, m match) (*fact, bool) {
			if m.text("how") != "for" && !m.money() {
				return nil, false // "with 20 bags"
			}
			return fee(s, m)
		}},
		// for 70 we bring it
		{pattern(`for ` + amountPattern("m") + `,? (?:(?:we|i|he|she|they)(?:'ll|’ll| will| can|'d|’d| could| would)?|will|can) (?:bring|drop|deliver|truck|haul|run|send)s? (?:it|them|either|everything|any|all|your order)\b(?: (?:off|out|round|over|up))?(?: to (?:you|(?:the|your) \pL+))?`), fee},
		// 70 for the truck; $90 gets it delivered
		{pattern(amountPattern("m") + ` (?:(?:for|on) (?:the |our )?(?:` + truckWord + `|` + fetching + `)|gets? (?:it|them|either|everything) (?:delivered|dropped(?: off)?|to you|there))(?: (?:in|to) [\p{L}]+(?: [\p{L}]+)?)?`), fee},
		{pattern(`(?:(?:plus|and|\+|add|another|with) )?` + sp + amountPattern("m") + sp + `(?:(?:for|extra for|flat for|flat rate for|more for)?` + sp + `(?:the |flat |local |flat rate )*(?:` + fetching + `|post\b)|flat to (?:bring|truck|haul) (?:it|them|this|that)\b|(?:to|extra to|more to|flat to) (?:deliver|drop|(?:have|get|send) (?:the|our|a) (?:van|` + truckWord + `)(?: come)?(?: out| over| round)?)\b)(?: (?:charge|fee|it|them|out|over|up|round|to you|to your (?:place|door)|for the whole order|per order|an order|flat))*`), fee},
		// if you want it brought out it's a $30 charge
		{pattern(`if (?:you|u) (?:want|need|would like|['’]d like) (?:it|them|that|this) (?:brought|delivered|dropped|hauled)(?: (?:off|out|over|round|up|to you))?,? (?:it['’]?s|it is|that['’]?s|that is|there['’]?s|add)(?: an?| another| a flat)? ` + amountPattern("m") + `(?: (?:charge|fee|flat)\b)?`), fee},
		// the truck is $85
		{pattern(`(?:the |a |our )?` + truckWord + `(?:(?:'s|’s)(?: (?:only|just))?|(?: (?:only|just|fee|charge|costs?|is|runs|to you|will be|would be|another|an extra|an additional))+)` + sp + `[:=]?` + sp + amountPattern("m") + `(?:` + sp + `flat\b)?`), fee},
		{pattern(`(?:the |a |our )?` + truckWord + sp + `(?:[:=-]|at\b)?` + sp + amountPattern("m")), truckFee},
		// min. charge for haulage $168; fuel surcharge 15 per delivery
		{pattern(`(?:an? )?min(?:imum)?\b\.? (?:(?:delivery|haul(?:age|ing)?|freight|truckin[g']?|transport|carriage) )?(?:charge|fee)(?: (?:for|of|on|is|the|` + fetching + `))*` + sp + `:?` + sp + amountPattern("m")), surcharge},
		{pattern(`(?:(?:plus|and|\+|add|with) )?(?:an? |the )?(?:(?:fuel|energy|delivery|haulage|handling|crane|off-?load(?:ing)?|tail[ -]?lift|toll|congestion) )*(?:surcharge|levy|fuel supplement|(?:fuel|energy|handling|crane|off-?load(?:ing)?|tail[ -]?lift|toll) (?:fee|charge))` + feeWords + sp + `[:=@]?` + sp + `(?:` + amountPattern("m") + `(?:` + perWord + `[\p{L}]+)?|` + hundredths + `)|(?:(?:plus|and|\+|add|with) )?(?:` + hundredths + `|` + bare(amountPattern("m")) + `) (?:(?:fuel|energy|diesel|toll) )+(?:surcharge|supplement|levy|charge|fee)(?:` + perWord + `[\p{L}]+)?`), surcharge},
		{pattern(`(?:(?:plus|and|\+|add|with) )?(?:an? )?` + hundredths + ` (?:surcharge|fee|charge|extra|more)(?: (?:on|for|with|if|when|paying|you|pay|by|using|all|any|a|the|credit|debit))* cards?\b(?: payments?)?`), always(fact{kind: anUnclear, why: onCards})},
		{pattern(`(?:then|after that|thereafter|beyond that|past that),? (?:it's |it is |add )?` + amountPattern("m") + sp + `(?:/|p/|(?:per|an?|each|every)\b)` + sp + `(?:extra |additional |loaded )?(?:mi|miles?|km)\b`), surcharge},
		// 12 a yard for haulage
		{pattern(`(?:(?:plus|and|\+|add|another|with) )?` + amountPattern("m") + `(?:` + sp + `(?:/|p/|(?:per|an?|each)\b)` + sp + `(?P<v>` + anyUnit + `)) (?:(?:for|extra for|to) )?(?:the )?(?:` + fetching + `|deliver\b)(?: on top| extra)?`), haulBehind},
		// if I haul it that's 10 a yard on top
		{pattern(`(?:if|when) (?:i|we|they|he|she) (?:haul|bring|deliver|truck|cart|drop)s?(?: (?:it|them|that|this))?(?: (?:out|over|up|off|to you|for you))*,? (?:(?:that['’]?s|that is|it['’]?s|it is|(?:that|it) adds|(?:i|we|they)(?:['’]d|['’]ll)? add|add|then|it['’]ll be|that['’]ll be|an|(?P<on>another|extra|additional)) )*` + amountPattern("m") + `(?:` + sp + `/` + sp + `| (?:per|an?|each) )(?P<v>` + anyUnit + `)(?P<top> on top| extra| more)?`), func(s *scanner, m match) (*fact, bool) {
			if !m.has("on") && !m.has("top") && !strings.Contains(m.low[:m.idx[1]], " add") {
				return nil, false // the price with all in it
			}
			return haulBehind(s, m)
		}},
		{pattern(`(?:(?:` + deliver + `|ships?|post|and|which|it)(?: is)? )*(?:free(?: of charge)?|no charge(?: for (?:it|that|this|delivery))?|waived|on us|nothing|prepaid|paid(?: (?:for )?by us)?|we pay(?: it| that)?|met by us|at our (?:cost|expense)|included|frei(?: haus)?|frachtfrei|versandkostenfrei|kosten(?:los|frei)|gratis|gratuite?|franco)(?: (?:for |local |on )*` + deliver + `)?(?: (?:on|for|with|if you spend|if you order|orders?|spending|buying))*` + ` (?:over|above|from|past|at|after|of|ab|dès|à partir de|vanaf) ` + amountPattern("m") + `(?: of goods| orders?| spent| spend|(?: or| and) (?:more|over|up|above))?`), freeOver},
		{pattern(`(?:(?:` + deliver + `|and|which|it)(?: is)? )*(?:free|no charge|waived|on us)(?: ` + deliver + `)? (?:if|when|once) (?:you |u |(?:your|ur|the) (?:order|ticket|total|bill) |orders? )?(?:spend|order|buy|comes? to|reach(?:es)?|hits?|tops|is|are)(?: over| above)? ` + amountPattern("m") + `(?: of goods| (?:or|and) (?:more|over|up|above))?`), freeOver},
		// free local delivery with $100 purchase
		{pattern(`(?:free|no charge|complimentary)(?: local)? (?:` + deliver + `)(?: (?:on|for|with|an?|any|every|your|orders?|purchases?|of|minimum|min\.?))* ` + amountPattern("m") + `(?: min(?:imum)?\.?)? (?:purchases?|orders?|spend|minimum)\b(?: (?:or|and) (?:more|over|up|above))?`), freeOver},
		// nil on 125 or more; none from 199; orders to $99, free from $100
		{pattern(`(?:(?:on |for )?(?:orders?|anything) (?:to|up to|under|below) ` + bare(amountPattern("x")) + sp + `[,;]? ?(?:and )?(?:free|nil|none|nothing) (?:from|over|above|at|on) ` + amountPattern("m") + `)`), freeFrom},
		{pattern(`(?:and )?(?:nil|none)(?: to pay)? (?:from|over|above|on(?: orders (?:of|over|above|from))?) ` + amountPattern("m") + `(?:(?: (?:ex|inc)\.? vat)? (?:or|and) (?:more|over|above|up)\b)?`), freeFrom},
		{pattern(`(?:over|above|from|orders? (?:of|over|above|from)|(?:on|for) orders over|(?:(?:if|when) (?:you |u |ya )?)?spend(?: over)?) ` + amountPattern("m") + `(?: (?:or|and) (?:more|over|up|above|better))?` + sp + `[:,]?` + sp + `(?:(?:it is|it's|it|is|are|ships?|sends?|brings?|get|gets|` + deliver + `(?: is)?|we|goes|go|out|for) )*(?:post free|carriage (?:free|paid)|free|nil|no charge|on us)(?: ` + deliver + `)?`), freeOver},
		{pattern(`(?:(?:free ` + deliver + `|delivers? (?:it |them |to you |anything |everything )*(?:for )?free(?: of charge)?)|` + deliver + ` (?:is |comes )?(?:free|included|inclusive|no charge|on us)|(?:including|includes|incl\.?|inc\.?|with) ` + deliver + `|no (?:delivery|haulage|carriage) (?:charge|fee)|post free|carriage paid|free (?:post|postage|carriage)|ships free)`), always(fact{kind: aDelivery, text: "0", why: freeOrIn})},
		{pattern(amountPattern("m") + `(?:` + eachWord + `)?(?:,| )+(?:otherwise|else|(?:under|below) (?:that|this))\b`), otherwiseFee},
		{pattern(`(?:under|below) ` + bare(amountPattern("x")) + `,? (?:` + deliver + ` )?(?:is |costs? |it's |it is )*` + amountPattern("m")), otherwiseFee},
		// anything past $150 ships free; spend $220 and shipping is free
		{pattern(`(?:(?:and|but|or) )?(?:anything|everything|(?:all |any )?(?:orders?|baskets?|carts?|purchases?)|spend(?:ing|s)?)(?: (?:over|above|past|of|from|more than|at least|totall?ing|worth))* ` + amountPattern("m") + `(?: (?:or|and) (?:more|better|up|over|above))?,?(?: (?:and|then|gets?|you|we|is|are|the|goes?|comes|out))* (?:` + deliver + ` (?:is |comes )?(?:free|on us)|(?:ships?|shipped|delivers?|delivered|sent|posts?|posted)(?: for)? free|free(?: ` + deliver + `)?)\b`), freeFrom},
		// $175 and up ships free
		{pattern(amountPattern("m") + `(?: (?:or|and) (?:more|better|up|over|above)|` + sp + `\+),? (?:(?:it|they|that|orders?|you|get|gets|is|are) )*(?:(?:ships?|shipped|delivers?|delivered|sent|goes|comes|posts?)(?: for)? free|free (?:` + deliver + `)|(?:` + deliver + `) (?:is |comes )?(?:free|on us))\b`), freeFrom},
		// nothing if it's over 200; unless you go over $300, then it's on us; if your ticket hits 200 it's free
		{pattern(`(?:(?:it's|its|it is|then|and|but|or|there's|delivery|is) )*(?:free|no (?:[\p{L}]+ ){0,2}charge|no (?:delivery|freight|shipping|fee|postage)|nothing|waived?|waive (?:that|it|this|delivery)(?: fee| charge)?|(?:we )?don['’]?t charge|on us|nil)(?: [\p{L}'’]+){0,7} (?:orders? of|come to|comes to|over|above|past|from|more than|hits?|reach(?:es)?|tops|exceeds?|beyond|goes over|spend)(?: an?)? ` + amountPattern("m") + `(?: (?:or|and) (?:more|better|up|over|above))?`), freePerhaps},
		{pattern(`(?:(?:but|and|or) )?(?:unless|if|when|once|over|above|from|orders?)(?:(?: [\p{L}'’]+){0,5} (?:over |above |past |more than |hits? |is |'s )?| )` + amountPattern("m") + `(?: (?:of goods|order value|of order value|value))?` + `(?: (?:or|and) (?:more|better|up|over|above))?,?(?: (?:then|it|it's|its|is|we|goes|ships?|the|delivery|freight|shipping|postage|transport|carriage|there's))*,? (?:free|on (?:us|our (?:charge|side|account))|nothing|no charge|(?:we )?don['’]?t charge|waived|nil|0)\b(?: of (?:shipping|delivery|freight)(?: costs?)?)?`), freePerhaps},
		{pattern(`(?:otherwise|othrwise|else|(?:below|under|less than)(?: that|` + sp + `:))(?:,? it is| it's| it’s| is| at| we charge| an?| the| just| only| flat| fee of| charge of)*` + sp + amountPattern("m")), otherwiseFee},
		// "delivered" behind a price: whether one stands before it is seen once the clause is known
		{pattern(`delivered\b`), always(fact{kind: aDelivery, text: "0", before: true, why: freeOrIn})},
		{pattern(`(?:if |when )?(?:you|your(?:self|selves)|to be|for|customer)? ?(?:collects?|collected|collection|pick(?:ed)?[ -]?up)(?: (?:only|it yourself|yourself|from (?:the |our )?(?:yard|us|here|site)|from us|by you|it|please))*|if (?:you|u)(?:['’]?ve| have)(?: got)? (?:an?|your own) (?:trailer|truck|ute|pick-?up)|(?:if|when) (?:you|u|you'd|you’d)(?: can| want to| wanna)? (?:haul|cart|truck|fetch|come (?:and |to )?(?:get|fetch)) (?:it|them|your own)(?: yourself| away| off| home| out)*|(?:no delivery|(?:we )?(?:don't|don’t|dont|do not|can't|can’t|cannot|can not) deliver|ex[ -](?:works|yard)|pick[ -]?up only)`), saidOf(aCollect, "you collect", "the buyer fetches the goods")},
	}
}

const (
	onCards         = "a charge on paying by card, which no column takes"
	maybeFree       = "it may be the value from which delivery is free"
	freeOrIn        = "delivery is said to be free or in the price"
	beyondShorthand = "this charge hangs on more than the order; put it in delivery.csv"
	oneKindOfPack   = "a fee for one kind of pack; write it in delivery.csv, with that kind under covers"
)

// fee reads a fee for the whole order. One for each yard, load or mile is more than a cell can say.
func fee(s *scanner, m match) (*fact, bool) {
	if from, _, ok := m.span("m"); ok && !m.has("mpre") && cues.ZoneBefore.MatchString(s.low[m.at:from]) {
		return nil, false
	}
	if tax := taxThenUnit.FindStringSubmatchIndex(s.low[m.end():min(s.limit, m.end()+window)]); tax != nil {
		m.idx = slices.Clone(m.idx) // read past it
		m.idx[1] = m.end() - m.at + tax[3]
	}
	after := s.after(m.end())
	if nearby.MatchString(s.low[m.end():min(s.limit, m.end()+window)]) {
		after = "" // where it holds
	} else if strokeParts.MatchString(s.low[m.end():min(s.limit, m.end()+window)]) {
		after = ","
	}
	switch after {
	case "a", "an", "per", "each", "/", "every", "p":
		return feeWithUnit(s, m)
	case "%", "percent", "mm", "cm", "miles", "km", "days", "day", "weeks", "week", "-", "–", "to", "yards", "yard", "bags", "or", "am", "pm":
		return nil, false
	}
	if !m.money() && after != "" && (after == "in" || unitWord.MatchString(after)) {
		return nil, false // "deliv 10 yds max"
	}
	if m.has("pallet") && len(cues.PacksOnPallet.FindAllStringIndex(s.low, -1)) == 1 {
		text, v := m.amount(s, "m")
		return &fact{kind: aLoadFee, text: text, money: v, counted: pack{Form: "pallet"}, why: "a fee for each pallet"}, !s.goesOn(m.end())
	}
	if m.has("pallet") {
		return unclearFact(unknownPallet)
	}
	if s.holdsMedium(m.at, m.end()) || months[s.after(m.end())] || cues.Spending.MatchString(s.low[max(s.start, m.at-window):m.at]) {
		return nil, false
	}
	rest := s.low[m.end():min(s.limit, m.end()+window)]
	if idx := cues.OnePackOnly.FindStringIndex(rest); idx != nil {
		return &fact{kind: anUnclear, Range: Range{m.at, m.end() + idx[1]}, why: oneKindOfPack}, true
	}
	if strings.Contains(m.low[:m.idx[1]], "delivered") {
		return unclearFact("it may be a fee for delivery or a price with delivery in it")
	}
	if !m.money() && !strings.HasSuffix(m.low[:m.idx[1]], m.text("m")) && (oneOf(after, "@", ":", "=", "$", "£", "€") || after != "" && after[0] >= '0' && after[0] <= '9') {
		return nil, false // "1  delivery  @ 120.00"
	}
	text, v := m.amount(s, "m")
	f := &fact{kind: aDelivery, text: text, money: v, why: "a fee for delivery", within: m.text("near")}
	if cues.TruckStart.MatchString(strings.TrimLeft(strings.TrimPrefix(strings.TrimPrefix(m.low, "the "), "a "), " ")) {
		f.unit.Form = "load" // of each truck, where it is said what one holds
	}
	if idx := nearby.FindStringSubmatchIndex(rest); idx != nil && !s.part().Splits(m.end()+idx[1]) {
		f.Range, f.within = Range{m.at, m.end() + idx[1]}, strings.TrimSpace(rest[idx[2]:idx[3]])
	}
	return f, true
}

// taxThenUnit is a tax between a fee and what it is paid for: "£95 + VAT per load".
var taxThenUnit = pattern(`(` + sp + `(?:\+|plus\b|ex\b|inc\b|incl\b)\.?` + sp + taxWord + `)` + sp + `(?:/|(?:per|an?|each)\b)` + sp + `(?:load|trip|drop|delivery|order|run|` + truckWord + `)\b`)

// nearby is where a fee for delivery holds. It is read and said, for the buyer to see whether the beds are there.
var nearby = pattern(sp + `(` + nearPlace + `)`)

// feeWithUnit reads a fee for each of something: of the order, of a load, of a volume; a mile is more than a file can say.
func feeWithUnit(s *scanner, m match) (*fact, bool) {
	rest := s.low[m.end():min(s.limit, m.end()+window)]
	f := &fact{kind: anUnclear, why: beyondShorthand}
	if idx := cues.PerAnything.FindStringIndex(rest); idx != nil {
		f.Range = Range{m.at, m.end() + idx[1]}
	}
	text, v := m.amount(s, "m")
	for _, one := range []struct {
		re   *expr
		kind kind
		why  string
	}{{cues.PerOrder, aDelivery, "a fee for delivery"}, {cues.PerLoad, aLoadFee, "a fee for each load"}, {cues.PerPallet, aLoadFee, "a fee for each pallet"}, {cues.PerAmount, aHaul, ""}} {
		idx := one.re.FindStringSubmatchIndex(rest)
		if idx == nil || s.part().Splits(m.end()+idx[1]) {
			continue
		}
		f = &fact{kind: one.kind, Range: Range{m.at, m.end() + idx[1]}, text: text, money: v, why: one.why}
		if one.re == cues.PerPallet {
			f.counted.Form = "pallet"
		}
		if one.kind == aHaul && strings.Contains(m.low[:m.idx[1]], "delivered") && !cues.AddsWord.MatchString(m.low[:m.idx[1]]) { // a price with delivery in it
			f.kind, f.why = anUnclear, besideDelivery
			break
		}
		if one.kind == aHaul && cues.BroughtBy.MatchString(s.low[max(s.start, m.at-window):m.at]) {
			return unclearFact("it may be a price of goods or what bringing them costs") // "loose by walking-floor truck: 72,50 €/m³"
		}
		if one.kind == aHaul {
			s.hauls(f, match{re: one.re, low: rest, at: m.end(), idx: idx})
		}
		break
	}
	return f, true
}

// surcharge is a charge beside the one for delivery, which alone would be too little, or the least that is asked for it beside so
// much for each of something.
func surcharge(s *scanner, m match) (*fact, bool) {
	return &fact{kind: aSurcharge, why: "a charge on top of another, or the least of one"}, !s.goesOn(m.end())
}

// truckFee is "truck $60". A bare number must be larger than what a truck holds, and end its clause or be for a load.
func truckFee(s *scanner, m match) (*fact, bool) {
	v, why := s.number(m.text("m"))
	if !m.money() && (why != "" || v.value.Cmp(units.D(leastFee)) < 0 || !shortEnds[s.after(m.end())] || s.after(m.end()) == "/" && !cues.PerLoad.MatchString(s.low[m.end():min(s.limit, m.end()+window)])) {
		return nil, false
	}
	return fee(s, m)
}

// leastFee is the least bare number behind a word for a truck that is believed to be its fee: no truck for gardens holds as many yards or
// tons (common practice, no source).
const leastFee = "40"

// hauls makes of f, with its amount, the fee for each unit v of a match: haul for a volume, and for a weight loads of one each,
// as haul knows volumes alone.
func (s *scanner) hauls(f *fact, m match) {
	p, why := s.holding("1", s.unitText(m, "v"), "")
	switch {
	case why != "" || !looseUnit(p):
		f.kind, f.why = anUnclear, beyondShorthand
	case p.Amount.IsMass:
		f.kind, f.why, f.loads = aTruck, "a fee for each ton: each counts as a load", []truck{{fee: f.text, column: "load_weight", holds: p.Text, size: -p.Size()}}
	default:
		f.kind, f.why, f.text = aHaul, "a fee for each volume", f.text+" / "+unitName(m.text("v"))
	}
}

// haulBehind reads a fee for each volume or weight whose word stands behind it.
func haulBehind(s *scanner, m match) (*fact, bool) {
	text, v := m.amount(s, "m")
	f := &fact{text: text, money: v}
	s.hauls(f, m)
	return f, true
}

func freeOver(s *scanner, m match) (*fact, bool) {
	if next := s.after(m.end()); unitWord.MatchString(next) && next != "" && !m.has("mpre") && !m.has("mpost") {
		return &fact{kind: anUnclear, why: "free from a number of packs, and quotes.csv knows only an amount of money"}, true
	}
	text, v := m.amount(s, "m")
	return &fact{kind: aFree, text: text, money: v, why: "the value of goods from which delivery is free"}, true
}

// feeThenFree is a fee for delivery and, behind what it holds for, the value from which there is none.
func feeThenFree(s *scanner, m match) (*fact, bool) {
	_, to, _ := m.span("m")
	fee := &fact{kind: aDelivery, Range: Range{m.at, to}, why: "a fee for delivery"}
	fee.text, fee.money = m.amount(s, "m")
	f := &fact{kind: aFree, Range: Range{to, m.end()}, base: fee, why: "the value of goods from which delivery is free"}
	f.text, f.money = m.amount(s, "t")
	return f, m.has("mpre") && m.has("tpre")
}

// freeFrom is such a value behind words that may be about something else, which a sign of money shows.
func freeFrom(s *scanner, m match) (*fact, bool) {
	f, ok := freeOver(s, m)
	return f, ok && m.money() && !s.goesOn(m.end())
}

// freePerhaps is a value from which delivery may be free: it is asked about with the fee.
func freePerhaps(s *scanner, m match) (*fact, bool) {
	text, v := m.amount(s, "m")
	return &fact{kind: anUnclear, text: text, money: v, why: maybeFree}, !s.goesOn(m.end()) && !s.holdsMedium(m.at, m.end())
}

// otherwiseFee is the fee behind "free over 250, otherwise 12.50"; whether that stands before it is seen later.
func otherwiseFee(s *scanner, m match) (*fact, bool) {
	text, v := m.amount(s, "m")
	return &fact{kind: aDelivery, otherwise: true, text: text, money: v, why: "a fee for delivery"}, !s.goesOn(m.end()) && !s.rated(m.end())
}

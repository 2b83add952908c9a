package message

import (
	"slices"
	"strings"

	"mediabuy/quotes/files"
	"mediabuy/quotes/internal/cues"
	"mediabuy/units"
)

// amountRules read packs, forms and numbers of packs.
func amountRules() []rule {
	return []rule{
		// 50 L bags; 25 kg; 1 cu yd bulk bag
		{pattern(`(?P<q>` + quantity + `)` + sp + `-?` + sp + `(?P<v>` + anyUnit + `)(?:(?:[ -]+(?:loose[ -]fill|paper|plastic|compressed))?[ -]+(?:(?P<f>` + packForm + `)|(?:blocks?|bricks?|bales?)\b))?`), onePack},
		// bags of 50 L; all bags are 50 L; bag (50 L)
		{pattern(`(?P<all>(?:all|every|each|our|the|both) (?:of )?(?:our |the )?)?(?:in )?(?P<f>` + packForm + `)` + sp + `(?P<is>of|are|is|holds?|holding|contains?|containing|weigh|:|=|@|\(|,|-)?` + sp + `(?:all )?(?P<q>` + quantity + `)(?: of an?)?` + sp + `-?` + sp + `(?P<v>` + anyUnit + `)` + sp + `\)?`), formThenPack},
		// 50 L per bag
		{pattern(`(?P<q>` + quantity + `)` + sp + `-?` + sp + `(?P<v>` + anyUnit + `)(?:` + sp + `/` + sp + `| (?:per|an?|to the|to an?|in an?|in each|in every|each) )(?P<f>` + packForm + `)`), onePack},
		{pattern(`(?P<q>` + quantity + `)` + sp + `-?` + sp + `(?P<v>` + anyUnit + `) (?P<in>in) (?:each|every one|them|it)\b`), onePack},
		// 24 bags of 50 L on each pallet
		{pattern(`(?P<n>\d{1,3} (?P<c>` + packForm + `) of )(?P<q>` + quantity + `)` + sp + `-?` + sp + `(?P<v>` + anyUnit + `)(?: each)?,? (?:on|to) (?:an? |the |each |every |one )?(?:` + palletWord + `|each|every one)\b`), packOnPallet},
		// a bulk bag, they hold 1 m3 each
		{pattern(`(?:they|these|those|each(?: one)?)(?: all| both| each)? (?:hold|contain|have)s? (?P<q>` + quantity + `)` + sp + `-?` + sp + `(?P<v>` + anyUnit + `)(?: each| apiece)?`), heldByEach},
		// 40 bags per pallet
		{pattern(`(?P<q>` + quantity + `)` + sp + `(?P<f>` + packForm + `)(?:` + sp + `/` + sp + `| (?:per|an?|to the|to an?|on an?|sits on one|on one|on each|(?:fit|go) on an?|to one) )` + palletWord), palletPacks},
		{pattern(`(?:(?:a|one|each|the) )?(?:pallets?|plts?|skids?)` + sp + `(?:of|\(|=|:|holds|is|x|×)` + sp + `(?P<q>` + quantity + `)(?:` + sp + `(?:x|×))?` + sp + `(?:packs?|(?P<f>` + packForm + `))(?:` + sp + `(?:of|\(|@|,)?` + sp + quantity + sp + `-?` + anyUnit + `)?` + sp + `\)?`), palletPacks},
		// a bulk bag of approx 850 kg; bulk bags, around 0.8 m3
		{pattern(`(?:~|±|(?:approx|ca)\b\.?|(?:about|around|approximately|roughly|circa|nearly|some|say)\b)` + sp + `(?P<q>` + quantity + `)` + sp + `-?` + sp + `(?P<v>` + anyUnit + `)(?:[ -]+(?P<f>` + packForm + `))?`), roughPack},
		// I have 1 bulk bag of it; just the one
		{pattern(`(?:(?:(?:i|we|he|she|they)(?:['’](?:ve|s)| have| has)?|there(?:['’]s| is)|it(?:['’]s| is))? ?(?:(?:have|has|got|only|just|still|the|my|our|last|single) ?){0,4})\b(?P<n>1|one|single)(?: (?P<c>` + packForm + `))?`), oneHad},
		{pattern(`(?P<q>\d+(?:[.,]\d+)?)`), bareNumber},
		// a yard of the pumice is $92
		{pattern(`(?:an?|one|each|every|the|per) (?P<u>` + anyUnit + `)(?: loads?)? of (?:(?:my|our|the|this|that|your) )?`), unitOf},
		// pumice 3/8" (cu yd)
		{pattern(`(?P<v>` + anyUnit + `)`), bracketUnit},
		// loose; in bags
		{pattern(`(?:(?:sold|comes|supplied|tipped|delivered|if (?:you|u)(?:['’]d)? (?:want|need|prefer|like|rather have)(?: it| them| that)?) )?(?:in |as )?(?:loose tipped|loose|lose|en vrac|bulk|tipped|in bulk|bagged)\b`), looseForm},
		{pattern(`(?:in )?` + packForm), bareForm},
		{pattern(`(?:(?:in|of) )?(?:the )?(?:same|ditto) (?:grade|grading|grain)s?\b`), always(fact{kind: aSame, column: "size"})},
		{pattern(`(?:(?:in|of) )?(?:the )?(?:same|ditto)(?: (?:size|sized|pack|packing|sort|weight|quantity))*(?: ` + packForm + `)?`), samePack},
		// all per yard; unit: cubic yard
		{pattern(`(?:(?:all|both|each|everything|prices?|sold|priced|are|is) )*(?:(?:per|by the)` + sp1 + `|[$£€]` + sp + `/` + sp + `|unit` + sp + `[:=]` + sp + `|(?P<all>all (?:(?:in|a|the) )?))` + unitPattern("u")), pricedBy},

		{pattern(`(?:an? )?(?:absolute )?(?:(?:our |the )?smallest (?:load|order)(?: is|:)|(?:the |your |an )?orders? (?:should|must|has to|needs to) be (?:a )?(?:at least|minimum)(?: of)?|min(?:im(?:um|un)|umum|iumum)?\b\.?(?: (?:online |web )?(?:order|quantity|qty|buy|purchase|load|amount|charge|spend|pick[ -]?up)|(?: (?:order|purchase|spend))? (?:for|on|before) (?:any |all |free |an? )?` + deliver + `(?: orders?)?)?(?: value| total)?(?: of| is|:|=)?|at least|no less than|moq:?|not less than)` + sp + amountPattern("m") + unitAfterCount + `(?: (?:order|minimum))?` + ofEach), fewest},
		{pattern(`(?:(?:we|i) )?(?:do not|don[’']t) (?:deliver|send|run|go out|ship|come out)(?: (?:a|the|our|out|truck|lorry|van|trailer))*(?: for)? (?:less than|under|below|anything under) (?P<mpre>` + signBefore + `)` + sp + `(?P<m>` + plainNumber + `)`), fewest},
		// the least we will send a truck for is $250 worth of stone
		{pattern(`(?:the )?(?:least|(?:least|smallest) (?:order|amount|ticket)|minimum)(?: that)? (?:i|we)(?:['’]ll| will| can|['’]d| would)? (?:send|bring|deliver|run|haul|ship|come out|take|accept)(?: [\pL]+){0,4}(?: is|:) (?P<mpre>` + signBefore + `)` + sp + `(?P<m>` + plainNumber + `)(?: worth\b(?: of [\pL]+)?| of (?:goods|stone|material))?`), fewest},
		{pattern(`orders? (?:under|below|less than) (?P<mpre>` + signBefore + `)` + sp + `(?P<m>` + plainNumber + `),? (?:we |i )(?:do not|don[’']t|can[’']?t|cannot) (?:deliver|send|run|go out|ship|come out|bring)(?: (?:a|the|our|out|truck|lorry|van|trailer|it|them))*`), fewest},
		{pattern(amountPattern("m") + unitAfterCount + `(?:[ -](?:truck)?loads?)?` + sp + `-?(?:is (?:the|our) )?(?:min(?:im(?:um|un)|umum|iumum)\b|min\b\.?)(?: (?:order|quantity|qty|buy|purchase))?` + ofEach), fewest},
		// $200 minimum order to deliver
		{pattern(`(?P<mpre>` + signBefore + `)` + sp + `(?P<m>` + plainNumber + `)` + sp + `-?min(?:imum)?\b\.?(?: (?:order|purchase|spend))? (?:to|for|before we) deliver(?:y|ed)?\b`), fewest},
		{pattern(`(?:an? )?(?:min(?:im(?:um|un)|umum|iumum)?\b\.?(?: (?:order|quantity|qty|buy|purchase|load|amount))?(?: of| is|:|=)?|at least|no less than|moq:?|not less than)` + sp + `(?P<m>` + written + `|` + fraction + `)` + unitAfterCount + `(?: (?:order|minimum))?` + ofEach), fewest},
		// four tonnes is the least I sell of either; we can't sell fewer than 10
		{pattern(`(?P<m>` + quantity + `)` + unitAfterCount + `(?:(?: (?:is|are|being))? (?:the|our|my) (?:least|fewest|smallest|minimum)(?: (?:that )?(?:i|we|you)(?:['’](?:ll|d)| can| will)?(?: (?:sell|load|do|take|buy|supply|get))?)?| (?:least|fewest|smallest) (?:that )?(?:i|we)(?:['’](?:ll|d)| can| will)? (?:sell|load|do))` + ofEach), fewest},
		{pattern(`(?:(?:we|i) )?(?:can['’]?t|cannot|can not|won['’]?t|do not|don['’]?t) (?:sell|load|do|supply|split)(?: (?:any|out|anything))? (?:(?:fewer|less) than|under|below) (?P<m>` + quantity + `)` + unitAfterCount + ofEach), fewest},
		// two yard minimum
		{pattern(`(?:an? )?(?P<m>` + uptoTwelve + `|` + fraction + `)[ -](?P<c>` + anyUnit + `|` + packForm + `)[ -](?:min(?:im(?:um|un)|umum|iumum)\b|min\b\.?)(?: (?:order|quantity|qty|buy|purchase))?` + ofEach), fewestWritten},
		{pattern(`no (?:minimum|min\b\.?)(?: (?:order|quantity|qty))?`), always(fact{kind: anAside, why: "no minimum"})},
		{pattern(`(?:(?:i |we )?(?:only |just )*(?:(?:have|have got|got|still have|hold) )?(?:only |just )?|up to )?(?P<m>` + quantity + `)` + unitAfterCount + sp + `(?:(?:is|are|still|currently|now) )*(?:(?:left|in stock|on hand|remaining|available|to hand|on the ground|in the yard|to spare)(?:` + whereStocked + `| (?:over )?from (?:an?|the|our|my|last) [\pL]+(?: [\pL]+)?)?|till the next \pL+|until the next \pL+)(?: (?:at (?:the moment|present)|now|right now|today|in stock|only|currently))?`), numberOf(aMax, "the most packs to be had")},
		// there are 7 tons in the heap
		{pattern(`(?:(?:there (?:are|is)|there's|(?:we|i)(?: still)?(?: have|'ve|’ve)(?: still)?(?: got)?|got) )(?:only |just |still )*(?P<m>` + quantity + `)` + sp + `(?P<c>` + anyUnit + `|` + packForm + `)` + whereStocked), numberOf(aMax, "the most packs to be had")},
		{pattern(`(?:there (?:are|is)|there's|(?:(?:we|i)(?: have|'ve|’ve)? ?)?got|(?:we|i)(?: have|'ve|’ve)) (?P<m>` + quantity + `) of (?:them|those|these|['’]?em)\b`), numberOf(aMax, "the most packs to be had")},
		{pattern(`(?:(?:stock|available|availability|left|in stock)(?: is| of|:|=)|in stock|in stock,? (?:(?:at|in) )?(?:the )?(?:\pL+ ){0,3}(?:store|shop|branch|yard|depot|warehouse):|(?:qty )?on hand:?)` + sp + `(?P<m>` + quantity + `)` + unitAfterCount + `(?: left)?`), numberOf(aMax, "the most packs to be had")},
		{pattern(`(?:i |we )?(?:only |just )(?:have |got |have got )?(?P<m>` + quantity + `)` + sp + `(?:(?P<c>` + anyUnit + `|` + packForm + `)(?: left)?|left)`), numberOf(aMax, "the most packs to be had")},
		{pattern(`(?:at most|max(?:imum)?\b\.?(?: (?:order|quantity|qty))?(?: of| is|:|=)?|no more than)` + sp + `(?P<m>` + quantity + `)` + unitAfterCount + `(?: (?:left|available|in stock))?`), numberOf(aMax, "the most packs to be had")},

		// half yards are fine; by the half yard; 1/2 yd scoops OK (half price)
		{pattern(`(?:(?:sold|by|in|and|the|we|can|also|do|sell|it|load|we'll|scoops of) )*(?:half(?: an?)?|1/2|½)[ -](?P<c>` + anyUnit + `|met(?:re|er)s?)(?: (?:scoops?|loads?|steps?|increments?|lots|amounts?))?` +
			`(?: of (?:the )?[\pL]+ (?:are|is))?(?: (?:are|is|ok(?:ay)?|fine|sold|available|possible|welcome|all ?right|no (?:problem|worries|bother|trouble)|too|also|can be had|after that|as well))*(?:,?` + sp + `(?:=|is|are|at|for|\()?` + sp + `half (?:the )?price\)?)?`), halfStep},
		{pattern(`(?:sold )?(?:only )?in (?:multiples|steps|lots|packs) of (?P<m>` + quantity + `)` + unitAfterCount), numberOf(aStep, "the smallest amount sold")},
		{pattern(`(?:(?:(?:you )?(?:have|need|has|must|got)(?: to)? )?(?:take|buy|be bought|be taken) (?:them )?|sold |come |only )*(?:in|by the) (?P<m>twos|pairs|threes|fours|fives|sixes|tens)\b`), numberOf(aStep, "the smallest amount sold")},
		{pattern(`(?P<sold>(?:(?:are|is|come) )?(?:sold |only )+in )?(?:only )?(?:whole|full) (?P<c>` + anyUnit + `|` + packForm + `)(?: only)?`), wholeStep},
		{pattern(`(?:(?:sold|only) )*by the (?:full |whole )?(?P<c>` + palletWord + `)(?: only)?`), wholeStep},

		{pattern(`(?:(?:bulk |dry |loose )*density(?: is| of|:|=)?|weighs?|weighing|weight(?: is|:)?|it takes)?` + sp + `(?P<q>` + plainNumber + `)` + sp + `(?P<w>` + massUnit + `)(?:` + sp + `/` + sp + `| (?:per|an?|to the|to an?|each|to make an?) )(?:loose )?(?P<v>` + volumeUnit + `)`), oneDensity},
		{pattern(`(?:(?:bulk |dry |loose )*density(?: is| of|:|=)?|weighs?|weighing)?` + sp + `(?P<q>` + plainNumber + `)` + sp + `(?P<w>pcf)\b`), oneDensity},
		{pattern(`(?P<q>` + plainNumber + `)` + sp + `(?:%|percent|per cent)(?: (?:of|is|in|to|lost|loss|goes|washes))*` + sp + `(?:as )?(?:fines|dust|lost|loss|waste|rinse loss|rinsing loss|rinsing|washed out|out on rinsing)(?: (?:on|in|when) (?:rinsing|washing|rinsed|washed))?`), oneLoss},
		{pattern(`(?:fines|dust|rinse loss|rinsing loss|loss on rinsing)(?: of| is| are|:|=)?` + sp + `(?P<q>` + plainNumber + `)` + sp + `(?:%|percent|per cent)`), oneLoss},
	}
}

// heldByEach is what bags hold that stand in front of it in their line.
func heldByEach(s *scanner, m match) (*fact, bool) {
	p, why := s.holding(m.text("q"), s.unitText(m, "v"), s.bagOf(m.at))
	return &fact{kind: aPack, unit: p, text: p.Text, why: "what a pack holds"}, why == "" && p.Form != ""
}

// unitOf is one unit of the medium behind it, which has its price there: what somebody has or needs of it is no pack.
func unitOf(s *scanner, m match) (*fact, bool) {
	p, why := s.holding("1", s.unitText(m, "u"), "")
	behind := s.low[m.end():min(s.limit, m.end()+window)]
	return &fact{kind: aPack, unit: p, text: p.Text, why: "what it is sold by"}, why == "" && looseUnit(p) && unitPriced.MatchString(behind) && !unitHad.MatchString(s.low[max(s.start, m.at-window):m.at]) &&
		s.opensMedium(m.end()+len(behind)-len(strings.TrimLeft(behind, " ")))
}

var (
	unitPriced = pattern(`[ \pL'’"-]{3,50}?(?:,|:|=|\b(?:is|are|at|for|costs?|runs?(?: you)?|(?:wi|['’])ll be|set(?:s)? you back|goes (?:for|at)|comes to))` + sp + `(?:` + signBefore + `)?` + sp + `\d`)
	unitHad    = compile(`\b(?:have|has|got|left|needs?|takes?|wants?|about|around|nearly|of|half|than|add|for)[ \t]*$`)
)

// bracketUnit is a unit alone in brackets, which what stands before it is sold by.
func bracketUnit(s *scanner, m match) (*fact, bool) {
	p, why := s.holding("1", s.unitText(m, "v"), "")
	return &fact{kind: aPack, unit: p, text: p.Text, why: "what it is sold by"}, why == "" && looseUnit(p) && strings.HasSuffix(s.low[s.start:m.at], "(") && strings.HasPrefix(s.low[m.end():s.limit], ")")
}

// palletPacks is a pallet by its number of packs; where delivery is paid by the pallet, it is what a load holds.
func palletPacks(s *scanner, m match) (*fact, bool) {
	f := &fact{kind: anUnclear, threshold: true, why: palletByPacks, from: m.counting(s, "q"), counted: m.countedUnit(s, "f")}
	return f, true
}

// packOnPallet is what a pack holds, with how many of them a pallet has in front of it.
func packOnPallet(s *scanner, m match) (*fact, bool) {
	_, to, _ := m.span("n")
	p, why := s.holding(m.text("q"), s.unitText(m, "v"), m.text("c"))
	many := &fact{kind: anUnclear, Range: Range{m.at, to}, threshold: true, why: palletByPacks, from: reads[count](m)(s.counting(strings.Fields(m.text("n"))[0])), counted: m.countedUnit(s, "c")}
	return &fact{kind: aPack, Range: Range{to, m.end()}, base: many, unit: p, text: p.Text, why: "what a pack holds"}, why == "" && !p.Unheld()
}

const palletByPacks = "a pallet by its number of packs; write under pack what it holds in one number, or price the pack"

// always makes of whatever matched a fact that is always the same.
func always(f fact) func(*scanner, match) (*fact, bool) {
	return func(*scanner, match) (*fact, bool) { one := f; return &one, true }
}

// onePack reads "50 L bags". A number of yards, cubic metres or tons without a word for a pack is no pack: it may be
// what is asked for. One of them is.
func onePack(s *scanner, m match) (*fact, bool) {
	if v := m.text("v"); m.text("q") == "half" && strings.HasSuffix(v, "s") && m.text("f") == "" {
		return unclearFact("halves are what it is sold in, and no pack")
	}
	p, why := s.holding(m.text("q"), s.unitText(m, "v"), m.text("f"))
	if why != "" {
		return unclearFact(why)
	}
	if p.Form == "" && looseUnit(p) && !single(p) && !m.has("in") {
		return shortPrice(s, m)
	}
	if idx := cues.OfBoth.FindStringIndex(s.low[m.end():min(s.limit, m.end()+window)]); idx != nil && p.Form != "" {
		return &fact{kind: aPack, Range: Range{m.at, m.end() + idx[1]}, unit: p, text: p.Text, general: true, why: "what all packs hold"}, true
	}
	if cues.NoContents.MatchString(s.low[max(s.start, m.at-window):m.at]) {
		return unclearFact("what it makes or weighs, and not what a pack holds")
	}
	if line := strings.LastIndexByte(s.low[:m.at], '\n') + 1; p.Form == "load" && looseUnit(p) && brings.MatchString(s.low[line:m.at]) && !s.holdsMedium(line, m.at) {
		p.Form = "" // "delivery, 6 yd per load"
		return &fact{kind: aLoad, unit: p, text: p.Text, why: "what a load holds"}, true
	}
	return &fact{kind: aPack, unit: p, text: p.Text, why: "what a pack holds"}, true
}

func formThenPack(s *scanner, m match) (*fact, bool) {
	if strings.HasPrefix(m.text("f"), "load") && cues.LoadsVerb.MatchString(s.low[max(s.start, m.at-window):m.at]) {
		return nil, false // "the smallest amount I'll load is 2 tons"
	}
	f, ok := onePack(s, m)
	if ok && f.kind == aPack && m.text("f") == "load" && m.text("is") == "of" {
		return unclearFact(loadOrBring)
	}
	if m.text("is") == "weigh" && (f == nil || f.unit.Form != "sack" || f.unit.Amount == nil || !f.unit.Amount.IsMass || cues.RoomLast.MatchString(s.low[max(s.start, m.at-window):m.at])) {
		return nil, false
	}
	if ok && f.kind == aPack && f.unit.Form == "bucket" && oneOf(m.text("is"), "is", "holds") && cues.ScoopPriced.MatchString(s.low) && cues.OnlyHolds.MatchString(s.low[m.end():]) {
		f.unit.Form, f.unit.Words = "scoop", "scoop" // what it is sold by is what the loader has
	}
	if is := m.text("is"); ok && f.kind == aPack && f.unit.Form == "scoop" && oneOf(is, "are", "hold", "is", "holds") && looseUnit(f.unit) && !cues.ScoopPriced.MatchString(s.low) {
		c := m.counting(s, "q")
		u, why := s.holding("1", s.unitText(m, "v"), "")
		m.fails(why)
		return &fact{kind: aStep, from: c, text: c.text, counted: u, why: "the smallest amount sold"}, true
	}
	if ok && f.kind == aPack {
		f.linked = oneOf(m.text("is"), "is", "are", "holds", "hold", "=")
		f.general = m.has("all") || oneOf(m.text("is"), "are", "hold", "contain", "weigh")
	}
	return f, ok
}

// oneOf says whether a word, or a kind, is one of several.
func oneOf[T comparable](it T, of ...T) bool { return slices.Contains(of, it) }

func looseForm(s *scanner, m match) (*fact, bool) {
	f := &fact{kind: aForm, text: "bulk", why: "a word for how it is packed"}
	if strings.HasSuffix(m.low[:m.idx[1]], "bagged") {
		f.text = "bag"
	}
	f.unit = pack{Form: f.text, Words: f.text}
	return f, !oneOf(s.after(m.end()), "density", "dry", "weight", "fill") && !strings.HasPrefix(s.low[m.end():s.limit], "-fill")
}

// pricedBy is what all prices without a pack of their own are for.
func pricedBy(s *scanner, m match) (*fact, bool) {
	u, why := s.unit(m, "u")
	switch {
	case strings.Contains(m.low[:m.idx[1]], "half") || m.has("uq") && !cues.AllPrices.MatchString(m.low), m.has("all") && !(single(u) && looseUnit(u) && shortEnds[s.after(m.end())]): // "all yd"
		return nil, false
	case why != "":
		return unclearFact(why)
	case cues.WhichGoods.MatchString(s.low[max(s.start, m.at-window):m.at]):
		return &fact{kind: anAside, why: "the goods that what stands beside it holds for"}, true
	case u.Text == "":
		return &fact{kind: aForm, unit: u, text: u.Form, general: true, why: "what the prices are for"}, u.RealForm() != "" && cues.AllPrices.MatchString(m.low)
	}
	return &fact{kind: aPack, unit: u, text: u.Text, general: true, why: "what the prices are for"}, true
}

func bareForm(s *scanner, m match) (*fact, bool) {
	form := formOf(strings.TrimPrefix(m.low[:m.idx[1]], "in "))
	p := pack{Form: form, Words: strings.TrimPrefix(m.low[:m.idx[1]], "in ")}
	if p.RealForm() == "" {
		return nil, false
	}
	if !strings.HasPrefix(m.low, "in ") && behindNumber(s.low[s.start:m.at]) {
		return unclearFact("a number of packs that was not made out")
	}
	return &fact{kind: aForm, unit: p, text: form, why: "a word for how it is packed"}, true
}

// samePack is "same size bag": what the item before is packed in.
func samePack(_ *scanner, m match) (*fact, bool) {
	low := m.low[:m.idx[1]]
	return &fact{kind: aSame, why: "the pack of what stands before"}, strings.Contains(low, "size") || strings.Contains(low, "pack") || formPattern.MatchString(low[strings.LastIndexByte(low, ' ')+1:])
}

// sames gives "same size" the pack of the item before, where that has one, or its grains, where a pack stands beside the words. "The
// same stone" has the same grains.
func (r *reading) sames() {
	var last *fact // that says what a pack holds; nil when none does, or several differ
	var grain *fact
	var of pack
	for _, it := range r.items {
		packed := slices.ContainsFunc(it.facts, func(f *fact) bool { return oneOf(f.kind, aPack, aPrice) && f.unit.Text != "" })
		if len(it.from) > 0 && strings.HasPrefix(it.from[0].why, sameAs) && grain != nil {
			it.facts = append(it.facts, &fact{kind: aSize, Range: grain.Range, text: grain.text, why: sameGrain, head: grain, item: it})
		}
		for _, f := range it.facts {
			switch named := formPattern.MatchString(r.low[strings.LastIndexByte(r.low[:f.To], ' ')+1 : f.To]); {
			case f.kind != aSame || f.column == "" && (!packed && (grain == nil || last == nil || !looseUnit(of)) || named):
			case grain == nil:
				f.drop("it is not said the same as what")
			default:
				f.kind, f.text, f.head, f.why = aSize, grain.text, grain, sameGrain
			}
		}
		grain = nil
		for _, f := range it.facts {
			if f.kind == aSize && f.unclear == "" {
				grain = f
			}
		}
		var now *fact
		var unit pack
		several := false
		for _, f := range it.facts {
			switch {
			case f.kind == aSame && (last == nil || f.unclear != ""):
				f.drop("it is not said the same as what")
				continue
			case f.kind == aSame:
				f.kind, f.unit, f.text, f.head = aPack, of, of.Text, last
			}
			switch {
			case (f.kind == aPack || f.kind == aPrice) && f.unit.Text != "":
				several = several || now != nil && !unit.Fits(f.unit)
				now, unit = f, f.unit.With(unit)
			case now == nil:
				unit = unit.With(f.unit)
			case f.kind == aForm || f.kind == aPrice:
				unit = unit.With(f.unit)
			}
		}
		if last, of = now, unit; several {
			last = nil
		}
	}
}

// packsOf reads a number of packs and its unit.
func (s *scanner) packsOf(m match, f *fact) (why string) {
	if f.from, why = s.counting(m.text("m")); why != "" {
		return why
	}
	f.text = f.from.text
	f.counted, why = s.countedUnit(m, "c")
	if idx := cues.OnForm.FindStringSubmatch(s.low[m.end():min(s.limit, m.end()+window)]); idx != nil && f.counted.Form == "" {
		if f.counted.Form = formOf(idx[1]); oneOf(idx[1], "loose", "bulk") {
			f.counted.Form = "bulk"
		}
	}
	return why
}

// rated says whether the number that ends at byte at is so much for each of something.
func (s *scanner) rated(at int) bool {
	return oneOf(s.after(at), "a", "an", "per", "each", "ea", "apiece", "p", "the")
}

// fewest is a least number of packs, or a least order in money.
func fewest(s *scanner, m match) (*fact, bool) {
	f, ok := s.fewest(m)
	if ok && f.To == 0 && s.low[m.end()-1] == '.' {
		f.Range = Range{m.at, m.end() - 1} // its stop may end the sentence
	}
	return f, ok
}

func (s *scanner) fewest(m match) (*fact, bool) {
	if !strings.ContainsAny(m.low[:1], "0123456789") && cues.NumberedUnit.MatchString(s.low[max(s.start, m.at-window):m.at]) {
		return unclearFact("a number of packs stands on either side, and it is not said which is the fewest")
	}
	if oneOf(s.after(m.end()), "charge", "fee") {
		return surcharge(s, m)
	}
	if !m.has("mpre") && !m.has("mpost") && (m.has("c") || !paid.MatchString(m.low[:m.idx[1]])) {
		return numberOf(aMin, "the fewest packs sold")(s, m)
	}
	text, v := m.amount(s, "m")
	return &fact{kind: aMinOrder, text: text, money: v, why: "the least order in money"}, !s.goesOn(m.end()) && !s.rated(m.end())
}

// paid makes the number behind it one of money and not of packs, with a sign of money or without: "min charge 50".
var paid = compile(`\b(?:charge|spend)\b`)

// fewestWritten is a least number of packs in a word, of which no other number word stands in front: "twenty two".
func fewestWritten(s *scanner, m match) (*fact, bool) {
	if countsOn(s.low[max(s.start, m.at-window):m.at]) {
		return nil, false
	}
	return numberOf(aMin, "the fewest packs sold")(s, m)
}

// countsOn says whether the words in front of a number are a number themselves, which it goes on.
func countsOn(before string) bool {
	m := cues.WordBefore.FindStringSubmatch(before)
	if m == nil {
		return false
	}
	last := m[1]
	return largeNumbers[last] || numberWords[last] != "" || last[len(last)-1] >= '0' && last[len(last)-1] <= '9'
}

// numberOf makes a fact of a kind from a number of packs.
func numberOf(k kind, why string) func(*scanner, match) (*fact, bool) {
	return func(s *scanner, m match) (*fact, bool) {
		if s.goesOn(m.end()) && !cues.ColonEnds.MatchString(s.low[m.end():]) || s.rated(m.end()) || oneOf(s.after(m.end()), "minimum", "min") || strings.HasPrefix(s.low[m.end():s.limit], "-over") || cues.AndMore.MatchString(s.low[m.end():min(s.limit, m.end()+window)]) {
			return nil, false
		}
		if last := s.lastFact; k == aMax && last != nil && oneOf(last.kind, aLoadFee, aClassFee) && strings.Trim(s.low[last.To:m.at], " ,(") == "" {
			return nil, false // what a load holds
		}
		f := &fact{kind: k, why: why}
		if bad := s.packsOf(m, f); bad != "" {
			return unclearFact(bad)
		}
		return f, true
	}
}

// halfStep is a half that is sold: words behind it or in front of it say so, or there are many of them with no price behind.
func halfStep(s *scanner, m match) (*fact, bool) {
	next := s.after(m.end())
	priced := next != "" && strings.ContainsAny(next[:1], "0123456789$@:=/") || oneOf(next, "£", "€", "at", "are", "for")
	if !cues.HalfSold.MatchString(m.low[:m.idx[1]]) && (priced || !oneOf(m.text("c"), "yards", "yds", "tons", "tonnes", "cubes", "metres", "meters")) {
		return nil, false
	}
	u, why := s.holding("1", s.unitText(m, "c"), "")
	c, bad := s.counting("half")
	m.fails(first(why, bad))
	if p, why := s.holding("1/2", s.unitText(m, "c"), "scoop"); why == "" && strings.HasSuffix(m.low[:m.idx[1]], "scoop") && cues.ScoopPriced.MatchString(s.low[m.end():]) {
		return &fact{kind: aPack, unit: p, text: p.Text, general: true, why: "what a scoop holds"}, true
	}
	return &fact{kind: aStep, from: c, text: c.text, counted: u, why: "the smallest amount sold"}, true
}

func wholeStep(s *scanner, m match) (*fact, bool) {
	f := &fact{kind: aStep, from: count{"1", oneUnit}, text: "1", counted: m.countedUnit(s, "c"), why: "the smallest amount sold"}
	if palletForm.MatchString(f.counted.Form) && !strings.Contains(m.low[:m.idx[1]], "only") && (!m.has("sold") || strings.HasSuffix(s.low[:m.at], "also ")) {
		f.drop("a full pallet may have a price of its own")
	}
	return f, true
}

func oneDensity(s *scanner, m match) (*fact, bool) {
	text, why := s.weighing(m.number(s, "q").text, m.text("w"), m.text("v"))
	if why != "" {
		return unclearFact(why)
	}
	return &fact{kind: aDensity, text: text, why: "a weight for a volume"}, true
}

// weighing is a density as cells have it, or why it is none.
func (s *scanner) weighing(number, mass, volume string) (text, why string) {
	text = number + " " + mass
	if volume != "" {
		text += "/" + unitName(volume)
	}
	d, err := units.ParseDensity(text, units.Options{Mark: s.out})
	if err != nil {
		return "", reason(err)
	}
	if d.Value < files.MinDensity || d.Value > files.MaxDensity {
		return "", "no loose medium weighs that"
	}
	return text, ""
}

func oneLoss(s *scanner, m match) (*fact, bool) {
	c := m.number(s, "q")
	return &fact{kind: aLoss, text: c.text + "%", why: "a share lost on rinsing"}, true
}

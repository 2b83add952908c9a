package message

import (
	"strings"

	days "mediabuy/quotes/internal/day"
	"mediabuy/quotes/internal/plaintext"
)

// asideRules read what carries nothing for a quote.
func asideRules() []rule {
	return []rule{
		{pattern(`<?[\w.+-]+@[\w-]+(?:\.[\w-]+)+>?|(?:https?://|www\.)[^\s,;]+|(?:to|at) (?:lot|unit|plot|house|number) \d{1,4}\b`), always(fact{kind: anAside, why: "an address"})},
		{pattern(`(?:\+\d{1,3}[ -]?)?(?:\d{3}-\d{3}-\d{4}|\(\d{3}\) ?\d{3}-\d{4}|\(?0\d{2,4}\)?[ -]\d{3,4}[ -]?\d{3,4}|\(\d{3}\) ?\d{4}|555-01\d\d)`), always(fact{kind: anAside, why: "a telephone number"})},
		{pattern(`(?:(?:payment|our) )?(?:terms?` + sp + `[:=]?` + sp + `)?(?:strictly )?net` + sp1 + `(?:7|10|14|15|20|21|28|30|45|60|90)(?: days?)?\b`), func(s *scanner, m match) (*fact, bool) {
			return &fact{kind: anAside, why: "days to pay"}, !s.goesOn(m.end())
		}},
		{pattern(`(?:tel(?:ephone)?|phone|call|ring|mob(?:ile)?|cell|fax)(?: (?:me|us))?(?: (?:on|at))?[.:]?` + sp + `\+?[\d ()-]{6,20}\d`), phone},
		{pattern(`(?:your |our )?(?:ref|reference|quote|quotation|order|invoice|enquiry|inquiry|job|account|a/c|estimate)\b\.? ?(?:no\b\.?|number|nr\b\.?|#|ref\b\.?|id)[:. ]*#?[a-z]{0,4}[-/]?\d[\w/-]*|(?:ref|reference|quote|quotation|estimate|invoice|ticket|art(?:icle|\.)?(?: no\.?)?|sku|item no\.?|offerte|angebot) [a-z]{0,3}-?\d{3,}[\w/-]*`), always(fact{kind: anAside, why: "a reference"})},
		{pattern(`(?:hi|hiya|hello|hey|dear|good (?:morning|afternoon|evening|day)|morning|afternoon)(?: (?:there|all|again|everyone|folks|team|both|sir|madam|or|to you|from [\p{L}]+))*(?: [\p{L}'’]+){0,2}` + sp + `[,!.–—-]`), greeting},
		{pattern(`(?:(?:many )?thanks|thank you|thx|ta)(?: (?:so|very) much| again| a lot| once more)?(?: for (?:your|the|getting in touch|asking|calling|writing|ringing|coming back|reaching out|contacting|considering|dropping (?:in|by))(?: (?:message|email|e-mail|note|call|enquiry|inquiry|interest|request|order|kind words|letter|visit|in touch|today|yesterday|again|me|us|to us|to me|back|phone|recent|last))*)?`), always(fact{kind: anAside, why: "thanks"})},
		{pattern(`(?:the )?(?:fizz|acid|vinegar)[ -](?:drop )?test` + sp + `[:–-]`), always(fact{kind: anAside, why: toldBehind})},
		{pattern(`(?:(?:sorry|oops),? )?(?:make (?:that|it)|i meant?|(?:that |it )?should (?:be|read|say|have been)|scratch that|correction:?|no,? wait,?|wait,? no,?)`), always(fact{kind: anAside, why: corrects})},
		{pattern(`if (?:you(?:'d|’d| would)? (?:rather|want|need|like|prefer)(?: (?:us|me|it|to))* (?:we )?(?:haul|deliver|bring|drop|haule|brought|dropp)(?:ed)?(?: (?:it|them|off))*|(?:we|i) (?:haul|deliver|bring|drop)(?: (?:it|them|off))*|delivered)\b`), always(fact{kind: anAside, column: "delivery", why: "what the amount behind it is for"})},
		{pattern(`x ?1` + sp1 + `[$£€]`), oneOfThem},
		{pattern(`(?:quoted|revised|dated|updated|as of|sent|written|effective|printed)(?: on)?:?` + sp + `\d{1,2}[./]\d{1,2}(?:[./]\d{2,4})?\b`), always(fact{kind: anAside, why: "the day of a price"})},
		{pattern(`(?:as )?(?:asked|enquired|inquired|asking|enquiring|inquiring|called|calling|emailed|e-mailed|emailing|wrote|writing|message|note|enquiry|inquiry|question|query|email|request|chatting|talked|spoke|spoken)(?: (?:me|us))?(?: (?:on (?:mon|tues|wednes|thurs|fri|satur|sun)day|today|yesterday|earlier|last week))? about`), always(fact{kind: anAside, why: "what the message answers"})},
		{pattern(`(?:(?:is|are|comes?|being) )*(?:(?:packed|packaged|supplied|put up|filled) (?:up )?(?:in|into|as)|ex[ -](?:bin|quay|yard|stock|gate|pit|plant|depot|warehouse))\b`), always(fact{kind: anAside, why: "how it is put up, or where"})},
		{pattern(`(?:(?:never|not)(?: been)? (?:yet )?(?:opened|used|unsealed|touched|damaged)|unopened|unused|still sealed|factory sealed|(?:as|like|near|brand) new)\b`), always(fact{kind: anAside, why: "how good it is"})},
		{pattern(`(?:straight )?off the (?:boat|pile|floor|shelf|stack|ground|heap)\b`), always(fact{kind: anAside, why: "where it lies"})},
		{pattern(`(?:cash only,? )?(?:sorry,? )?no (?:checks?|cheques?|(?:credit )?cards?|credit|returns?|refunds?|rush|hurry|fuss|obligation|strings|haggling|(?:(?:quantity|volume|bulk) )?(?:discounts?|breaks?)(?: on (?:those|these|them|that|it|either|any))?|substitutions?|change (?:on|to|for|in)(?: the)?)\b`), always(fact{kind: anAside, why: "how it is sold"})},
		{pattern(`(?:call|ring|text|phone|come(?: by| in)?|order|be here|here)(?: me| us)? (?:before|after|by|until|till?|from) (?:noon|\d{1,2}(?::\d\d)?(?: ?[ap]\.?m\b\.?)?)|should you (?:want|need|prefer|like|wish(?: for)?)(?: (?:them|it|any|some))?|no (?:problem|worries|trouble|bother)(?: at all)?|(?:let me know|give (?:me|us) a (?:call|shout|ring)|any questions|if you have any questions|if you need anything else|just (?:ask|shout|call)|look(?:ing)? forward to hearing from you|speak soon|talk soon|all the best|best wishes|kind regards|best regards|have a good (?:day|week|weekend|one)|happy growing|good luck)`), always(fact{kind: anAside, why: "a courtesy"})},
		{pattern(`(?:(?:just )?to (?:recap|sum up|summari[sz]e|repeat|be clear)|in (?:short|summary|brief|sum)|recap|recapping)` + sp + `[:,–—-]`), always(fact{kind: anAside, why: "what is said again"})},
		{pattern(`(?:has|have)(?:n['’]t| not) (?:budged|changed|moved|gone up)\b(?: (?:in price|since|yet|a bit|at all))?`), always(fact{kind: anAside, why: "a price that stays"})},
		{pattern(`(?:on account of|because of|due to|owing to|thanks to|what with) (?:(?:the|our|higher|rising|ocean|sea|inbound|import) )*(?:freight|shipping|fuel|diesel|transport|energy|tariffs?|drought|weather|costs?)(?: (?:costs?|prices?|charges?|rates?))?\b`), always(fact{kind: anAside, why: "the reason for a price"})},
		{pattern(`(?:plenty|lots|loads|good stocks?|heaps)(?: of (?:it|them|stock|both|all))?(?: (?:in stock|available|left|on hand|here))?`), func(s *scanner, m match) (*fact, bool) {
			return &fact{kind: anAside, why: "there is plenty, which sets no limit"}, m.low[:m.idx[1]] != "loads" || wordLength(s.after(m.end())) == 0 // "loads in half yards"
		}},
		{pattern(`(?:our |the )?(?:price ?list|prices|quotation|quote)(?: for| of)?(?: (?:spring|summer|autumn|fall|winter|` + days.Month + `))? 20\d\d\b`), always(fact{kind: anAside, why: "the year of a price list"})},
		{pattern(`(?:(?:all |our |the )?(?:prices?|offers?|quotes?|rates?|stock)(?: (?:is|are))? )?(?:while (?:stocks?|supplies|it|they) lasts?|subject to (?:availability|stock|change|prior sale)(?: without (?:prior )?notice)?)`), always(fact{kind: anAside, why: "what every offer is subject to"})},
		{pattern(`(?:customers (?:also|who)|you (?:may|might) also|people also|related (?:products|items)|recently viewed|frequently bought)[^\n]*`), always(fact{kind: anAside, why: "what else a shop would sell"})},
		{pattern(`-+ ?(?:forwarded|original) message ?-+|` + plaintext.RuledNumber + `|sent from my (?:phone|mobile|tablet)`), always(fact{kind: anAside, why: "a line that a program adds"})},
		{pattern(`(?:(?:i |we )?hope (?:you are|you're|you|this|all|the (?:beds|garden|plants|fish)(?: are)?|everyone|everything)(?: (?:is|are|keeping|finds you|helps|well|fine|good|doing|going|with you|all|thriving|settled))*)|how are (?:you|things)(?: (?:doing|going|today|keeping))?\??`), always(fact{kind: anAside, why: "a greeting"})},
	}
}

const corrects = "it corrects what stands before it"

// oneOfThem is the "x 1" of a line of an order: what it costs is the price of one.
func oneOfThem(s *scanner, m match) (*fact, bool) {
	return &fact{kind: anAside, Range: Range{m.at, m.at + len(strings.TrimRight(m.low[:m.idx[1]], " \t$£€"))}, why: "one of them"}, true
}

// phone is a telephone number only with seven digits or more.
func phone(_ *scanner, m match) (*fact, bool) {
	digits := len(strings.Map(onlyDigits, m.low[:m.idx[1]]))
	return &fact{kind: anAside, why: "a telephone number"}, digits >= 7
}

// greeting ends at the first sign, so it must not hold a medium or a number.
func greeting(s *scanner, m match) (*fact, bool) {
	words := strings.Fields(m.low[:m.idx[1]])
	at := m.at
	for range words {
		for at < m.end() && s.low[at] == ' ' {
			at++
		}
		if med, _ := s.mediumAt(at); med != nil {
			return nil, false
		}
		n := wordLength(s.low[at:m.end()])
		w := s.low[at : at+n]
		if at > m.at && (describers[w] || unitWord.MatchString(w) || oneOf(w, "we", "i", "the", "price", "prices", "for", "have", "delivery", "stock", "min", "minimum")) {
			return nil, false
		}
		at += max(n, 1)
	}
	end := m.end()
	if c := s.low[end-1]; c == '-' || c > 0x7f {
		end -= len(m.low[:m.idx[1]]) - len(strings.TrimRight(m.low[:m.idx[1]], "–—- "))
	}
	return &fact{kind: anAside, Range: Range{m.at, end}, why: "a greeting"}, true
}

// toldBehind is why a label is set aside.
const toldBehind = "what is told behind it"

package message

import (
	"strings"

	"mediabuy/quotes/internal/asides"
)

// asideRules read what carries nothing for a quote.
func asideRules() []rule {
	out := []rule{
		{pattern(`(?:(?:payment|our) )?(?:terms?` + sp + `[:=]?` + sp + `)?(?:strictly )?net` + sp1 + `(?:7|10|14|15|20|21|28|30|45|60|90)(?: days?)?\b`), func(s *scanner, m match) (*fact, bool) {
			return &fact{kind: anAside, why: "days to pay"}, !s.goesOn(m.end())
		}},
		{pattern(`(?:tel(?:ephone)?|phone|call|ring|mob(?:ile)?|cell|fax)(?: (?:me|us))?(?: (?:on|at))?[.:]?` + sp + `\+?[\d ()-]{6,20}\d`), phone},
		{pattern(`(?:hi|hiya|hello|hey|dear|good (?:morning|afternoon|evening|day)|morning|afternoon|evening)(?: (?:there|all|again|everyone|folks|team|both|sir|madam|or|to you|from [\p{L}]+))*(?: [\p{L}'’]+){0,2}` + sp + `[,!.–—-]`), greeting},
		{pattern(`(?:the )?(?:fizz|acid|vinegar)[ -](?:drop )?test` + sp + `[:–-]`), always(fact{kind: anAside, why: toldBehind})},
		{pattern(`(?:(?:sorry|oops),? )?(?:make (?:that|it)|i meant?|(?:that |it )?should (?:be|read|say|have been)|scratch that|correction:?|no,? wait,?|wait,? no,?)`), always(fact{kind: anAside, why: corrects})},
		{pattern(`if (?:you(?:'d|’d| would)? (?:rather|want|need|like|prefer)(?: (?:us|me|it|to))* (?:we )?(?:haul|deliver|bring|drop|haule|brought|dropp)(?:ed)?(?: (?:it|them|off))*|(?:we|i) (?:haul|deliver|bring|drop)(?: (?:it|them|off))*|delivered)\b`), always(fact{kind: anAside, column: "delivery", why: "what the amount behind it is for"})},
		{pattern(`x ?1` + sp1 + `[$£€]`), oneOfThem},
		{pattern(`(?:plenty|lots|loads|good stocks?|heaps)(?: of (?:it|them|stock|both|all))?(?: (?:in stock|available|left|on hand|here))?`), func(s *scanner, m match) (*fact, bool) {
			return &fact{kind: anAside, why: "there is plenty, which sets no limit"}, m.low[:m.idx[1]] != "loads" || wordLength(s.after(m.end())) == 0 // "loads in half yards"
		}},
	}
	for _, a := range asides.All() {
		out = append(out, rule{a.Words, always(fact{kind: anAside, why: a.Why})})
	}
	return out
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

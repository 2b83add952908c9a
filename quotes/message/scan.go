package message

import (
	"slices"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"mediabuy/quotes"
	"mediabuy/quotes/internal/called"
	"mediabuy/quotes/internal/cues"
	"mediabuy/quotes/internal/inwords"
	"mediabuy/quotes/internal/plaintext"
	"mediabuy/units"
)

// window is how much of the text a pattern sees: the longest fact is a break with all its words.
const window = 160

// scanner finds facts in a message.
type scanner struct {
	text  string
	low   string // text in small ASCII letters, byte for byte; soft line ends are spaces
	mark  units.DecimalMark
	out   units.DecimalMark // of the job's files; MarkUnknown writes a point
	media []called.Name
	fixed []*fact // found by line: signatures, headings of a mail; in order, none overlaps
	start int     // where scanning begins and ends for now
	limit int

	answers             map[answerKey]int // see source
	matched             matched           // by the rules so far
	grains              []int             // the ends of the grain sizes read so far that had no unit
	lists               map[int]bool      // where numbers end that end lines of a list; nil: not looked yet
	counts              map[int]bool      // where lines begin of lists that count up; nil: not looked yet
	job                 job
	lastFact, lastPrice *fact // of those found in the text
	// lastMedium is the medium named last, for a colour alone behind it.
	lastMedium  *quotes.Medium
	habit       *[2]bool  // whether it measures in inches, in millimetres; nil: not looked yet
	countedFrom time.Time // the day stated, where others were counted from it
	tonne       bool      // a ton is the metric one: the message or its job is of no country with another
}

// match is where a pattern and its named parts matched.
type match struct {
	re  *expr
	low string // the window
	at  int    // of the window in the text
	idx []int

	unread *string // why a part of it does not read, "" while all do
}

// fails keeps the first reason for which a part of a match does not read. Its fact is then left to a person for that reason,
// whatever its rule makes of the match: see factAt.
func (m match) fails(why string) {
	if *m.unread == "" {
		*m.unread = why
	}
}

// number, counting, amount, unit and countedUnit read a named part as those of the scanner do, and fail the match if it does not read.
func (m match) number(s *scanner, n string) count   { return reads[count](m)(s.number(m.text(n))) }
func (m match) counting(s *scanner, n string) count { return reads[count](m)(s.counting(m.text(n))) }
func (m match) unit(s *scanner, n string) pack      { return reads[pack](m)(s.unit(m, n)) }
func (m match) countedUnit(s *scanner, n ...string) pack {
	return reads[pack](m)(s.countedUnit(m, n...))
}

func (m match) amount(s *scanner, n string) (text string, v units.Money) {
	text, v, why := s.amount(m, n)
	m.fails(why)
	return text, v
}

// reads passes on what was read, and fails the match with the reason beside it.
func reads[T any](m match) func(T, string) T {
	return func(v T, why string) T { m.fails(why); return v }
}

// end is where the match ends, without spaces behind it.
func (m match) end() int { return m.at + len(strings.TrimRight(m.low[:m.idx[1]], " \t")) }

func (m match) span(name string) (from, to int, ok bool) {
	i := m.re.SubexpIndex(name)
	if i < 0 || m.idx[2*i] < 0 {
		return 0, 0, false
	}
	return m.at + m.idx[2*i], m.at + m.idx[2*i+1], true
}

// text is a named part in small letters, "" when it did not match.
func (m match) text(name string) string {
	from, to, ok := m.span(name)
	if !ok {
		return ""
	}
	return m.low[from-m.at : to-m.at]
}

func (m match) has(name string) bool { return m.text(name) != "" }

// orig is a named part as written.
func (m match) orig(s *scanner, name string) string {
	from, to, ok := m.span(name)
	if !ok {
		return ""
	}
	return s.text[from:to]
}

// rule is a pattern and what to make of it. make gives false when, seen closer, it is not what was looked for.
type rule struct {
	re   *expr
	make func(s *scanner, m match) (*fact, bool)
}

// soften makes spaces of line ends at which a mail program wrapped a sentence: the line is long, does not end one, and
// the next goes on in small letters or digits and does not begin a new medium.
func (s *scanner) soften() {
	s.low, s.media = called.Respelled(s.text, s.low, s.media, func(w string) bool { return fillers[w] || describers[w] || tails[w] || companyWords[w] })
	s.low = inwords.Plain(inWords.Digits(s.text, s.low, s.job.Currency == "GBP"), s.job.Currency) // there a pound is money
	b := []byte(s.low)
	from := 0
	for i := 0; i < len(s.text); i++ {
		if s.text[i] != '\n' {
			continue
		}
		line := strings.TrimRight(s.text[from:i], " \t\r")
		from = i + 1
		if len(line) < 55 || strings.ContainsAny(line[len(line)-1:], ".:;!?") || from >= len(s.text) || strings.Contains(strings.TrimLeft(line, " "), "   ") /* set in columns */ ||
			cues.EndsPriced.MatchString(line) && cues.EndsPriced.MatchString(strings.TrimRight(s.lineOf(from), " \t\r")) { // lines of a list
			continue
		}
		next := s.text[from]
		if c := rune(next); (unicode.IsLower(c) || unicode.IsDigit(c) || next == '$' || next == '(') && !s.opensMedium(from) && !s.opensSized(from) && !cues.SmallLabel.MatchString(s.lineOf(from)) && !cues.ItemLine.MatchString(s.lineOf(from)) {
			b[i] = ' '
			if i > 0 && b[i-1] == '\r' {
				b[i-1] = ' '
			}
		}
	}
	s.low = string(b)
}

// opensSized says whether a grain size stands at p with a medium right behind it, as lines of a list begin: "10mm pea gravel".
func (s *scanner) opensSized(p int) bool {
	at := cues.SizedLine.FindStringIndex(s.low[p:min(len(s.low), p+window)])
	return at != nil && s.opensMedium(p+at[1])
}

// opensMedium says whether a medium stands at p, behind describing words or not.
func (s *scanner) opensMedium(p int) bool {
	defer func(limit int) { s.limit = limit }(s.limit)
	s.limit = len(s.text)
	for p < s.limit {
		if _, to := s.mediumAt(p); to > p {
			return true
		}
		to := p + wordLength(s.low[p:])
		if !describers[s.low[p:to]] {
			return false
		}
		for p = to; p < s.limit && s.low[p] == ' '; p++ {
		}
	}
	return false
}

// taken is the fact found by line that byte at belongs to.
func (s *scanner) taken(at int) *fact {
	if i := s.fixedBehind(at); i > 0 && at < s.fixed[i-1].To {
		return s.fixed[i-1]
	}
	return nil
}

// fixedBehind is the index of the first fact found by line that begins behind byte at.
func (s *scanner) fixedBehind(at int) int {
	i, _ := slices.BinarySearchFunc(s.fixed, at+1, func(f *fact, from int) int { return f.From - from })
	return i
}

// scan finds the facts of text[from:to] and the tokens between them.
func (s *scanner) scan(from, to int) (facts []*fact, tokens []token) {
	s.start = from
	for p := from; p < to; {
		s.limit = s.upTo(p, to)
		if f := s.taken(p); f != nil {
			facts = append(facts, f)
			p = min(f.To, to)
			continue
		}
		c := s.low[p]
		if c == '\n' {
			tokens = append(tokens, token{Range: Range{p, p + 1}, sign: '\n'})
			p++
			continue
		}
		r, n := utf8.DecodeRuneInString(s.low[p:to])
		if unicode.IsSpace(r) {
			p += n
			continue
		}
		if f := s.factAt(p); f != nil {
			s.lastFact = f
			if f.kind == aPrice {
				s.lastPrice = f
			}
			f.To = s.wordsTo(f.To)
			if f.base != nil {
				if f.base.base != nil { // the medium that both are of
					facts = append(facts, f.base.base)
				}
				facts = append(facts, f.base)
			}
			facts = append(facts, f)
			p = f.To
			continue
		}
		t := s.tokenAt(p)
		tokens = append(tokens, t)
		p = t.To
	}
	return facts, tokens
}

// wordsTo is where a fact ends whose last words were set in digits, which are shorter.
func (s *scanner) wordsTo(at int) int {
	to := at
	for i := at; i < s.limit && s.low[i] == ' '; i++ {
		if c := s.text[i]; c >= 'A' && c <= 'z' {
			to = i + 1
		}
	}
	return to
}

// upTo is where the next fact found by line begins behind byte p, at most to.
func (s *scanner) upTo(p, to int) int {
	if i := s.fixedBehind(p); i < len(s.fixed) {
		return min(s.fixed[i].From, to)
	}
	return to
}

// tokenAt is the word, number or sign at p.
func (s *scanner) tokenAt(p int) token {
	rest := s.low[p:s.limit]
	if n := wordLength(rest); n > 0 {
		return token{Range: Range{p, p + n}, word: rest[:n]}
	}
	n := 0
	for n < len(rest) && (rest[n] >= '0' && rest[n] <= '9' || n > 0 && (rest[n] == '.' || rest[n] == ',' || rest[n] == '/') && n+1 < len(rest) && rest[n+1] >= '0' && rest[n+1] <= '9') {
		n++
	}
	if n > 0 {
		return token{Range: Range{p, p + n}, word: rest[:n], number: true}
	}
	r, size := utf8.DecodeRuneInString(rest)
	t := token{Range: Range{p, p + size}, sign: rest[0]}
	switch {
	case r == utf8.RuneError && size <= 1, unicode.IsLetter(r), unicode.IsNumber(r), unicode.IsMark(r), unicode.IsControl(r):
		t.word, t.sign = rest[:size], 0 // never taken for punctuation
	case r == '>' && p > 0 && (s.low[p-1] == '-' || s.low[p-1] == '='): // an arrow
	case r == '–' || r == '—':
		t.sign = '-'
	case strings.ContainsRune("$€£¥%#+=<>@&^~±×", r), r == '*' && p+1 < len(s.low) && s.low[p+1] >= '0' && s.low[p+1] <= '9':
		t.word, t.sign = rest[:size], 0
	}
	return t
}

// matched is where the rules match in a text, which is the same in each reading of it, however it is answered.
type matched map[[2]int][]ruleMatch

type ruleMatch struct {
	rule
	idx []int
}

// at gives the rules that match at the beginning of rest, which stands at p.
func (known matched) at(p int, rest string) []ruleMatch {
	key := [2]int{p, len(rest)}
	out, ok := known[key]
	if !ok {
		for _, r := range rulesFor(rest) {
			if idx := r.re.FindStringSubmatchIndex(rest); idx != nil && idx[1] > 0 {
				out = append(out, ruleMatch{r, idx})
			}
		}
		known[key] = out
	}
	return out
}

// factAt is the longest fact at p; of two as long, the one whose rule stands first.
func (s *scanner) factAt(p int) *fact {
	rest := s.low[p:min(s.limit, p+window)]
	var best *fact
	for _, found := range s.matched.at(p, rest) {
		r := found.rule
		unread := ""
		m := match{re: r.re, low: rest, at: p, idx: slices.Clone(found.idx), unread: &unread}
		if s.part().Splits(m.end()) || s.cuts(m) || best != nil && m.end() <= best.To {
			continue
		}
		f, ok := r.make(s, m)
		if unread != "" {
			f, ok = unclearFact(unread)
		}
		if !ok {
			continue
		}
		if f.To == 0 {
			f.Range = Range{p, m.end()}
		}
		if best == nil || f.To > best.To {
			best = f
		}
	}
	if f := s.mediumFact(p); f != nil && (best == nil || f.To > best.To) {
		s.lastMedium = f.medium
		return f
	}
	if f := s.inColour(p); f != nil && (best == nil || f.To > best.To) {
		return f
	}
	if best == nil {
		if f := s.shortMedium(p); f != nil {
			return f
		}
	}
	return best
}

// cuts says whether a pattern took a number apart to match: "12,50" is no 12 with a 50 behind it.
func (s *scanner) cuts(m match) bool {
	for i, name := range m.re.SubexpNames() {
		if i == 0 || name == "" || m.idx[2*i] < 0 || m.idx[2*i] == m.idx[2*i+1] {
			continue
		}
		if from, to, _ := m.span(name); strings.Contains(s.low[from:to], "/") && cues.WideBehind.MatchString(s.text[to:max(to, m.end())]) || s.part().InsideNumber(m.at+m.idx[2*i]) || s.part().InsideNumber(m.at+m.idx[2*i+1]) {
			return true
		}
	}
	return false
}

// part is what is scanned for now.
func (s *scanner) part() plaintext.Part {
	return plaintext.Part{Text: s.low, From: s.start, To: s.limit}
}

// after is the word, number or sign behind byte at, past spaces; "" at a line end or the end.
func (s *scanner) after(at int) string {
	for at < s.limit && (s.low[at] == ' ' || s.low[at] == '\t') {
		at++
	}
	if at >= s.limit || s.low[at] == '\n' || s.low[at] == '\r' {
		return ""
	}
	t := s.tokenAt(at)
	if strings.HasPrefix(s.low[t.To:s.limit], "³") { // of m³
		t.To += len("³")
	}
	return s.low[t.From:t.To]
}

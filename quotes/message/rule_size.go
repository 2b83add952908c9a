package message

import (
	"slices"
	"strings"

	"mediabuy/quotes"
	"mediabuy/quotes/internal/cues"
	"mediabuy/units"
)

func sizeRules() []rule {
	return []rule{
		// 3/8-3/4 in; 8 to 16 mm; 3/4 in minus; 1/2"
		{pattern(sizeWord + sp + `(?P<a>` + oneEnd + `)` + sp + `-?` + sp + `(?P<ua>` + sizeUnit + `)?(?:` + sp + `(?P<mid>-|–|—|to|and|x)` + sp + `(?P<b>` + oneEnd + `))?` + sp + `-?` + sp + `(?P<u>` + sizeUnit + `)(?P<open>` + openEnd + `)?`), oneSize},
		// minus 3/4 in
		{pattern(`(?P<down>minus|less than|under|below) (?P<a>` + oneEnd + `)` + sp + `-?(?P<u>` + sizeUnit + `)`), oneSize},
		// 3/4; 1/2-3/4; 3/4 minus, of a message that measures in yards
		{pattern(sizeWord + sp + `(?P<a>` + inchFraction + `|` + sixteenths + `)(?:` + sp + `(?P<mid>-|–|to|x|×)` + sp + `(?P<b>` + inchFraction + `|` + sixteenths + `|[1-6]\b))?(?P<open>` + openEnd + `)?(?:` + sp + `(?:screened|clean)\b)?`), bareInches},
		// lava 8-16, of a metric message
		{pattern(`(?P<say>(?:grain )?(?:sizes?|grading|graded)(?: is| are|:|=)? )?(?P<a>\d{1,2})` + sp + `(?:-|–)` + sp + `(?P<b>\d{1,3})`), bareMillimetres},
		// 8/16
		{pattern(sizeWord + sp + `(?P<pair>\d+(?:[.,]\d+)?/\d+(?:[.,]\d+)?)(?P<open>` + openEnd + `)?`), barePair},
		// #57; No. 57
		{pattern(`(?:size )?(?:(?P<hash>#)` + sp + `|no\. ?|number )(?P<stone>\d+)(?: stone)?`), stoneNumber},
		// the 57 limestone: neither a count nor a price is written so
		{pattern(`(?:the )?(?P<stone>57|67|78|89|357|467)`), func(s *scanner, m match) (*fact, bool) {
			f, ok := stoneNumber(s, m)
			return f, ok && f.kind == aSize && s.inches() && strings.HasPrefix(s.low[m.end():s.limit], " ") && s.opensMedium(m.end()+1) && (s.low[m.at] == 't' || strings.ContainsRune("\n,;:.(", rune(s.before(m.at))))
		}},
	}
}

func oneSize(s *scanner, m match) (*fact, bool) {
	if cues.EndBefore.MatchString(s.low[max(s.start, m.at-window/8):m.at]) || cues.TimesBefore.MatchString(s.low[max(s.start, m.at-window/8):m.at]) {
		return unclearFact("a range of sizes of which one end was not made out")
	}
	if m.has("ua") && !m.has("b") && m.text("u") != m.text("ua") && onePlain.FindString(m.text("a")) == m.text("a") { // "10mm in a bag"
		_, to, _ := m.span("ua")
		f, ok := s.grain(m.number(s, "a").text + " " + m.text("ua"))
		f.Range = Range{m.at, to}
		return f, ok
	}
	if m.text("mid") == "and" && m.has("ua") && !strings.Contains(m.low[:m.idx[1]], "between") && cues.BothBehind.MatchString(s.low[m.end():min(s.limit, m.end()+window)]) { // 1/4 inch and 3/4 inch. Both $33 a ton
		_, to, _ := m.span("ua")
		unit := "in"
		if oneOf(m.text("ua"), "mm", "cm") {
			unit = m.text("ua")
		}
		f, ok := s.grain(m.text("a") + " " + unit)
		f.Range = Range{m.at, to}
		return f, ok
	}
	if strings.TrimRight(m.text("u"), ".") == "in" && !m.has("b") && cues.HadBefore.MatchString(s.low[max(s.start, m.at-window):m.at]) {
		return nil, false // "got 35 in"
	}
	if raw := m.orig(s, "a"); m.text("u") == "in" && (strings.HasPrefix(raw, "fiver") || strings.HasPrefix(raw, "tenner")) {
		return nil, false // "a fiver in gas money"
	}
	switch next := s.after(m.end()); next {
	case "to": // "half inch to one inch"
		if !m.has("b") {
			return unclearFact("a range of sizes of which one end was not made out")
		}
	case "deep", "depth", "long", "wide", "high", "tall", "layer", "layers", "thick", "bed", "beds", "liner", "pipe", "x", "×":
		return unclearFact("a length that is no grain size")
	}
	if m.text("u") == "in" && (cues.NotInch.MatchString(s.low[m.end():min(s.limit, m.end()+window)]) || strings.ContainsAny(strings.TrimRight(s.low[max(s.start, m.at-2):m.at], " "), "$") || strings.HasSuffix(s.low[s.start:m.at], "£") || strings.HasSuffix(s.low[s.start:m.at], "€")) {
		return nil, false // "75 in town", "£96 in bags"
	}
	if m.text("u") == "in" && !m.has("ua") && inPacks.MatchString(s.low[m.end():min(s.limit, m.end()+window)]) && (s.job.Currency != "" && s.millimetres() || !inInches.MatchString(m.text("a")+m.text("mid")+m.text("b"))) {
		return nil, false // "8/16 in 50 l bags"
	}
	end := func(name string) (string, string) {
		raw := strings.Join(strings.Fields(m.text(name)), " ")
		if onePlain.FindString(raw) != raw || raw == "" {
			return raw, ""
		}
		c, why := s.number(raw)
		return c.text, why
	}
	if a := m.text("a") + m.text("mid") + m.text("b"); cues.MixedInches.MatchString(a) && m.text("ua")+m.text("open")+m.text("down") == "" {
		whole, part, _ := strings.Cut(a, "-")
		reading, open := s.either(m, "a size that reads in two ways", "is it one size or a range?", whole+" "+part+" in", part+" to "+whole+" in")
		if open != nil {
			return open, true
		}
		f, ok := s.grain([]string{whole + " " + part + " in", part + " in to " + whole + " in"}[reading])
		f.why += ", as answered"
		return f, ok
	}
	a, why := end("a")
	if why != "" {
		return unclearFact(why)
	}
	b, why := end("b")
	if why != "" {
		return unclearFact(why)
	}
	unit := strings.TrimRight(m.text("u"), ".")
	if strings.HasPrefix(unit, "mil") {
		unit = "mm"
	}
	if unit != "mm" && unit != "cm" {
		unit = "in"
	}
	if m.has("ua") && m.has("b") && (m.text("ua") == "mm") != (unit == "mm") {
		return unclearFact("a size in two units")
	}
	text := a
	switch mid := m.text("mid"); {
	case b != "" && mid == "x" && (unit != "in" || !m.has("ua") && !(strings.Contains(a, "/") && strings.Contains(b, "/")) || oneOf(s.after(m.end()), "x", "×")):
		return nil, false
	case b != "" && mid == "x": // 3/8" x 3/4"
		text += " to " + b
		if f, ok := s.grain(text + " in"); !ok || f.kind != aSize {
			text = b + " to " + a
		}
	case b != "" && strings.ContainsAny(a+b, " -"):
		text += " to " + b // a dash would read two ways
	case b != "":
		text += "-" + b
	}
	text += " " + unit
	open, to := s.openEnd(m, "u")
	switch {
	case m.has("down") || open == "minus" || open == "and down":
		text += " minus"
	case open != "" && b == "":
		text += " +"
	case open != "":
		return unclearFact("a range of sizes that goes on")
	}
	f, ok := s.grain(text)
	if unit != "in" && s.low[to-1] == '.' {
		to-- // which ends the sentence
	}
	f.Range = Range{m.at, to}
	return f, ok
}

// inPacks is a pack behind an "in", which is no unit where the job and the message are metric, nor behind a number that no sieve in inches
// is called by.
var (
	inPacks  = pattern(sp1 + quantity + sp + `-?` + sp + `(?:` + anyUnit + `|mm\b|mil\b)`)
	inInches = pattern(`(?:[1-6]|` + inchFraction + `|` + sixteenths + `)(?:(?:-|–|to|x)(?:[1-6]|` + inchFraction + `|` + sixteenths + `))?$`)
)

// openEnd is the word that leaves a size open, "" when there is none, and where the size ends. In front of a number
// it takes from a price, and a plus in front of more words adds to one: "3/4 in + VAT".
func (s *scanner) openEnd(m match, before string) (open string, to int) {
	open = strings.Trim(m.text("open"), " \t-")
	next := strings.Trim(s.after(m.end()), ".,;:!?()-–—")
	plus := open == "+" || open == "plus"
	// Behind a dash that stands apart it goes with what follows, but for a minus: what may hold fines is never taken for
	// stone that holds none.
	if (open == "and up" || open == "and larger" || plus) && strings.Contains(m.text("open"), "- ") {
		_, to, _ = m.span(before)
		return "", to
	}
	if open != "" && next != "" && !(open == "minus" && cues.UnitPriceNext.MatchString(s.low[m.end():min(s.limit, m.end()+window)])) && !wideGap.MatchString(s.low[m.end():min(s.limit, m.end()+2)]) && (plus || strings.ContainsAny(next[:1], "0123456789$") || next == "£" || next == "€") {
		_, to, _ = m.span(before)
		return "", to
	}
	return open, m.end()
}

// largestGrain is the largest size believed of a grain; a larger length is of something else (common practice, no source).
const largestGrain = 6 * units.Inch

func (s *scanner) grain(text string) (*fact, bool) {
	g, err := quotes.ParseGrain(text, units.Options{Mark: s.out})
	switch {
	case err != nil:
		return unclearFact(reason(err))
	case g.Min > largestGrain || !g.Open() && g.Max > largestGrain:
		return unclearFact("no grain for beds is as large as that")
	}
	return &fact{kind: aSize, text: text, why: "a grain size"}, true
}

// inchFraction is a part of an inch as sieves are named by: halves, quarters and eighths; and sixteenths, which may be millimetres.
const sixteenths, inchFraction = `(?:[3579]|1[135])/16`, `(?:[1-4][ -]?)?(?:[1357]/8|[13]/4|1/2|[½¼¾⅛⅜⅝⅞])`

var (
	inchHabit = compile(`\b(?:yards?|yds?|cy|yd3|cu\.? ?(?:ft|yds?)|cubic (?:yards?|foot|feet)|c\.?f|cu ?ft|ft3|lbs?|tons?|inch(?:es)?)\b|\d\s*["”″#]|\$`)
	millHabit = compile(`\d\s*mm\b|\bm3\b|m³|\btonnes?\b|[£€]|\beuros?\b|\beur\b`)
)

// inches says whether the message measures in yards, feet or inches and in nothing metric, or leaves that to a job in dollars
// of the United States.
func (s *scanner) inches() bool {
	in, mm := s.habits()
	return in && !mm || in == mm && s.job.Currency == "USD"
}

// millimetres says whether the message is metric, or leaves that to a job in the money of a metric country.
func (s *scanner) millimetres() bool {
	in, mm := s.habits()
	return mm && !in || in == mm && s.job.Currency != "" && s.job.MetricTon("")
}

func (s *scanner) habits() (in, mm bool) {
	if s.habit == nil {
		low := s.low
		if s.tonne {
			low = cues.ShortTon.ReplaceAllString(low, "")
		}
		s.habit = &[2]bool{inchHabit.MatchString(low), millHabit.MatchString(low)}
	}
	return s.habit[0], s.habit[1]
}

// bareInches reads a part of an inch without its unit, where the message measures in yards, feet or inches and in nothing
// metric: 3/8 is then no grain of 3 to 8 mm. What it is a part of must not be something else, as in "1/2 yd".
func bareInches(s *scanner, m match) (*fact, bool) {
	_, to, _ := m.span("a")
	if m.has("b") {
		_, to, _ = m.span("b")
	}
	if !s.inches() || s.takesOff(m.end()) || cues.PartOfOther.MatchString(s.low[to:min(s.limit, to+window)]) && !cues.WideBehind.MatchString(s.text[to:]) {
		return nil, false
	}
	if rest := s.low[to:min(s.limit, to+window)]; digitNext.MatchString(rest) && !priceNext.MatchString(rest) {
		return nil, false
	}
	text := m.text("a")
	if m.has("b") {
		a, b := strings.ReplaceAll(text, "-", " "), strings.ReplaceAll(m.text("b"), "-", " ")
		if f, ok := s.grain(b + " to " + a + " in"); oneOf(m.text("mid"), "x", "×") && ok && f.kind == aSize {
			a, b = b, a // 3/8 x 1/8
		}
		text = a + " to " + b
	}
	if before := strings.TrimRight(s.low[s.start:m.at], " "); strings.HasSuffix(before, "-") || strings.HasSuffix(before, "–") || strings.HasSuffix(before, "/") || strings.HasSuffix(before, " x") || strings.HasSuffix(before, "×") {
		bullet := strings.TrimRight(before[strings.LastIndexByte(before, '\n')+1:], "-– ") == ""
		if !bullet && (strings.HasSuffix(before, "x") || m.at == len(before) || len(before) < 2 || before[len(before)-2] != ' ') {
			return unclearFact("the end of a range of sizes whose beginning was not made out")
		}
	}
	if oneOf(s.after(m.end()), "x", "×") {
		return unclearFact("a range of sizes of which one end was not made out")
	}
	f, _ := s.grain(text + " in")
	f.Range = Range{m.at, m.end()}
	open := strings.Trim(m.text("open"), " \t-")
	switch {
	case open == "":
	case (open == "minus" || open == "and down") && !m.has("b"):
		f, _ = s.grain(text + " in minus")
		f.Range = Range{m.at, m.end()}
	default:
		return nil, false
	}
	f.why = "a grain size in inches, as the message measures in yards and feet"
	return f, true
}

// takesOff says whether the "minus" that ends at byte at takes a number off, "20 minus 10%", and speaks of no grain.
func (s *scanner) takesOff(at int) bool {
	next := s.after(at)
	return !wideGap.MatchString(s.low[at:min(s.limit, at+2)]) && strings.HasSuffix(s.low[:at], "minus") && next != "" && strings.ContainsAny(next[:1], "0123456789")
}

// grainBehind says whether a range at byte at is one of grains though it has no unit: the message is metric, and the name of a
// medium stands right in front of it. A number of packs would stand apart.
func (s *scanner) grainBehind(at int) bool {
	before := strings.TrimRight(s.low[:at], " (")
	from := strings.LastIndexAny(before, "\n,;:.(") + 1
	if at == len(before) || !s.millimetres() {
		return false
	}
	defer func(limit int) { s.limit = limit }(s.limit)
	return s.mediumAtEnd(from, len(before)) >= 0
}

// nextGrain says whether a bare range shares an end with a bare grain size before it, as sieves do and numbers of packs do
// not: "8-11: 31, 11-16: 29".
func (s *scanner) nextGrain(m match) bool {
	return slices.Contains(s.grains, whole(m.text("a"))) || slices.Contains(s.grains, whole(m.text("b")))
}

func bareMillimetres(s *scanner, m match) (*fact, bool) {
	a, b := whole(m.text("a")), whole(m.text("b"))
	if !(m.has("say") && s.millimetres()) && !s.grainBehind(m.at) && !s.nextGrain(m) && (len(s.grains) == 0 || !cues.PerUnit.MatchString(s.low[m.end():min(s.limit, m.end()+window)])) || !isFraction(a, b) || unitWord.MatchString(s.after(m.end())) {
		return nil, false
	}
	f, ok := s.grain(m.text("a") + "-" + m.text("b") + " mm")
	s.grains = append(s.grains, a, b)
	f.why = "a grain size in millimetres, as the message measures in metres"
	return f, ok
}

var (
	digitNext = pattern(`[ \t]?\d`)
	priceNext = pattern(sp1 + `\d+(?:[.,]\d\d\b|` + sp + `/` + sp + `[a-z]|` + sp1 + `(?:an?|per)\b|` + sp + `(?:yards?|yds?|cy|tons?|tn|t)\b)|` + sp1 + `\d{2,3}(?:[,;\r\n]|$)`)
)

var eighths = pattern(inchFraction + `$`)

func barePair(s *scanner, m match) (*fact, bool) {
	text := m.text("pair")
	if _, err := quotes.ParseGrain(text, units.Options{Mark: s.out}); err != nil && s.millimetres() && !eighths.MatchString(text) {
		text = strings.Replace(text, "/", "-", 1) + " mm" // 11/16 is no part of an inch there
	}
	open, to := s.openEnd(m, "pair")
	switch open {
	case "":
	case "minus", "and down":
		text += " minus"
	default:
		text += " +"
	}
	f, ok := s.grain(text)
	if a, b, _ := strings.Cut(text, "/"); f.kind != aSize && open == "" && eighths.MatchString(text) && !cues.PartOfOther.MatchString(s.low[to:min(s.limit, to+window)]) {
		inch, mm := text+" in", a+"-"+b+" mm"
		reading, left := s.either(m, "a size that reads in two ways", "inches or millimetres?", inch, mm)
		if left != nil {
			return left, true
		}
		f, ok = s.grain([]string{inch, mm}[reading])
		f.why += ", as answered"
	}
	f.Range = Range{m.at, to}
	return f, ok
}

func stoneNumber(s *scanner, m match) (*fact, bool) {
	if before := strings.TrimRight(s.low[s.start:m.at], " "); strings.HasSuffix(before, " x") || strings.HasSuffix(before, "×") || strings.HasSuffix(before, " to") {
		return unclearFact("the end of a range of sizes whose beginning was not made out")
	}
	if !m.has("hash") && cues.CountedThings.MatchString(s.low[max(s.start, m.at-window):m.at]) {
		return nil, false
	}
	if numberedThings[s.after(m.end())] {
		return &fact{kind: anAside, why: "the number of a place or a machine"}, true
	}
	text := "#" + m.text("stone")
	if _, err := quotes.ParseGrain(text, units.Options{Mark: s.out}); err != nil && !m.has("hash") {
		return nil, false
	}
	return s.grain(text)
}

// numberedThings are told apart by a number in front of them: "our number 2 kiln".
var numberedThings = set("kiln pit quarry yard shed barn plant depot gate bin bay site crusher mill road street mine hill")

package message

import (
	"slices"
	"strings"
	"unicode"

	"mediabuy/quotes"
	"mediabuy/quotes/internal/cues"
	"mediabuy/quotes/internal/firms"
	"mediabuy/quotes/internal/plaintext"
)

// fix adds a part found by line, unless one is there already or it is empty.
func (s *scanner) fix(k kind, from, to int, text, why string) *fact {
	for from < to && strings.ContainsRune(" \t\r\n", rune(s.text[from])) {
		from++
	}
	for to > from && strings.ContainsRune(" \t\r\n", rune(s.text[to-1])) {
		to--
	}
	i := s.fixedBehind(from)
	if from >= to || i < len(s.fixed) && s.fixed[i].From < to || i > 0 && from < s.fixed[i-1].To {
		return nil
	}
	f := &fact{kind: k, Range: Range{from, to}, text: text, why: why}
	s.fixed = slices.Insert(s.fixed, i, f)
	return f
}

// lines finds what stands in lines of its own: quoted lines, headings of a mail, the signature, labels of suppliers.
func (s *scanner) lines() {
	s.chat()
	for _, at := range cues.QuestionLine.FindAllStringSubmatchIndex(s.text, -1) {
		s.fix(anAside, at[0], at[2], "", "a question that is answered below")
		if at[4] >= 0 {
			s.fix(anAside, at[4], at[5], "", "the answer to a question")
		}
		s.asked(at[2], at[3], aQuestion)
	}
	quoted := cues.QuotedLine.FindAllStringIndex(s.text, -1)
	listed := s.listedBelow(quoted)
	for _, at := range quoted {
		if listed || cues.MoreThan.MatchString(s.low[at[0]:at[1]]) {
			continue
		}
		s.asked(at[0], at[1], "a line quoted from an earlier message; who wrote it is not said")
	}
	for _, at := range plaintext.Answered(s.text) {
		s.fix(anUnclear, at[0], at[1], "", "a letter that this one answers")
	}
	for _, at := range cues.OnDayWrote.FindAllStringIndex(s.text, -1) {
		s.fix(anAside, at[0], at[1], "", "the heading of an earlier message")
	}
	s.signature()
	for _, at := range cues.FromLine.FindAllStringSubmatchIndex(s.text, -1) {
		title, _, titled := strings.Cut(s.text[at[2]:at[3]], ", ")
		if titled = titled && allTitles(title); titled { // "dispatch, Pell Haulage"
			at[2] += len(title) + len(", ")
		}
		if s.signed(at[2], at[3], titled) || s.holdsMedium(at[2], at[3]) {
			s.fix(anAside, at[0], at[2], "", "a heading of the message")
		} else {
			s.fix(anAside, at[0], at[1], "", "a heading of the message")
		}
	}
	said := plaintext.SaidLines(s.text)
	several := len(said) > 1 && slices.ContainsFunc(said, func(at []int) bool { return hasCompanyWord(s.text[at[2]:at[3]]) })
	for _, at := range said {
		if s.signed(at[2], at[3], several && strings.Contains(s.text[at[2]:at[3]], " ")) {
			s.taken(at[2]).general = several
			s.fix(anAside, at[0], at[2], "", "a heading of the message")
			s.fix(anAside, at[3], at[1], "", "a heading of the message")
		}
	}
	for _, at := range dated.FindAllStringIndex(s.low, -1) {
		s.fix(aHeading, at[0], at[1], "", paperDay)
	}
	for _, at := range slices.DeleteFunc(cues.HeadingLine.FindAllStringIndex(s.text, -1), func(at []int) bool { return strings.HasPrefix(s.low[at[0]:], "for") && s.holdsMedium(at[0], at[1]) }) { // "For: lava"
		s.fix(anAside, at[0], at[1], "", "a heading of the message")
	}
	for _, at := range slices.Concat(cues.GreetingLine.FindAllStringIndex(s.text, -1), slices.DeleteFunc(cues.Salutation.FindAllStringIndex(s.text, 1), func(at []int) bool { return hasCompanyWord(s.text[at[0]:at[1]]) })) {
		if !s.holdsMedium(at[0], at[1]) {
			s.fix(anAside, at[0], at[1], "", "a greeting")
		}
	}
	for _, one := range []struct {
		re   *expr
		open bool // nothing stands behind the name that would bound it
		why  string
	}{{firms.QuoteFrom, true, "the words say whose prices these are"}, {firms.ThisIs, true, saysWhere}, {firms.PersonHere, true, saysWhere}, {firms.HereLast, false, saysWhere}, {firms.HereAt, false, saysWhere}, {firms.ThanksFor, false, saysWhere}, {firms.Starred, false, saysWhere}} {
		for _, at := range one.re.FindAllStringSubmatchIndex(s.text, -1) {
			if one.re == firms.PersonHere && (notPersons[firstWord(s.low[at[0]:at[2]])] || !hasCompanyWord(s.text[at[2]:at[3]]) && firms.PersonBehind.MatchString(s.text[at[3]:])) {
				continue // "Pick up from Otter Flat", "Lou here, Lou at Pennick Stone"
			}
			if one.re == firms.QuoteFrom && firms.SizeBehind.MatchString(s.text[at[2]:]) {
				continue // "our offer: Pebbles 8-16 mm"
			}
			s.spoken(at, one.open, one.why)
		}
	}
	for _, at := range firms.SupplierLine.FindAllStringSubmatchIndex(s.text, -1) {
		s.headed(at[0], at[2], at[3])
	}
	for _, at := range firms.LabelLine.FindAllStringSubmatchIndex(s.text, -1) {
		if end, _ := s.endOfName(at[2], at[3], false); end < at[3] {
			continue
		}
		if name := s.company(at[2], at[3]); name != "" && (hasCompanyWord(name) || strings.Contains(name, " ")) && s.labels(at[3], at[1], name) {
			if f := s.fix(aSupplier, at[2], at[1], name, "a label in front of the line"); f != nil {
				f.general = true
			}
		}
	}
	for _, at := range firms.Written.FindAllStringSubmatchIndex(s.text, 1) {
		if strings.Contains(s.text[at[6]:at[7]], s.text[at[4]:at[5]]) && !s.holdsMedium(0, at[2]) {
			s.fix(anAside, at[2], at[3], "", "to whom it is written")
		}
	}
	for _, at := range cues.CallTime.FindAllStringSubmatchIndex(s.text, -1) {
		if !s.holdsMedium(at[0], at[1]) {
			s.fix(anAside, at[2], at[3], "", "when it was said")
		}
	}
	s.labelsAlike()
	s.labelsSmall()
	s.labelsSaid()
	s.opens()
	if at := firms.DashSign.FindStringSubmatchIndex(strings.TrimRight(s.text, " \t\r\n")); at != nil {
		if comma := strings.IndexByte(s.text[at[0]:at[3]], ','); comma > 0 && firms.Address(s.text[at[2]:at[3]]) {
			at[2] = at[0] + len(s.text[at[0]:at[3]]) - len(strings.TrimLeft(s.text[at[0]:at[3]], "-–— \t"))
			at[3] = at[0] + comma
		}
		end, _ := s.endOfName(at[2], at[3], false)
		if name := s.company(at[2], end); name != "" {
			s.fix(aSupplier, at[0], end, name, "the signature")
			s.contact(end)
		}
	}
	s.wholeName()
	for _, at := range firms.House.FindAllStringSubmatchIndex(s.text, -1) {
		if at[1] == at[3] {
			s.fix(anAside, at[2], at[3], "", "an address")
		}
	}
	s.listNumbers()
}

// wholeName makes of the one name that was found what stands in a line of its own, where that begins with it: "Thanks for calling Reed's",
// and below it "Reed's Home & Garden".
func (s *scanner) wholeName() {
	var one *fact
	for _, f := range s.fixed {
		if f.kind == aSupplier && one != nil {
			return
		} else if f.kind == aSupplier {
			one = f
		}
	}
	at := 0
	for line := range strings.Lines(s.text) {
		from := at
		at += len(line)
		if one != nil && strings.HasPrefix(line, one.text+" ") && firms.WholeName.MatchString(strings.TrimSpace(line)) && s.company(from, at) != "" && s.taken(from) == nil && !s.holdsMedium(from, at) {
			one.text = s.company(from, at)
			s.fix(anAside, from, at, "", "the whole name of the supplier")
			return
		}
	}
}

// labelsAlike takes a company's name in front of a line as a label though its line names no medium, where other lines have
// labels: whose words they are must not be taken for those of the line above.
func (s *scanner) labelsAlike() {
	labelled := slices.ContainsFunc(s.fixed, func(f *fact) bool { return f.kind == aSupplier && f.general })
	var more [][]int
	sure := labelled
	for _, at := range firms.NumberedLabel.FindAllStringSubmatchIndex(s.text, -1) {
		name, said := s.company(at[4], at[5]), at[2] >= 0
		if at = []int{at[0], at[1], at[4], at[5]}; name == "" || s.holdsMedium(at[2], at[3]) || !said && s.onlyKinds(at[2], at[3]) {
			continue
		}
		below := min(len(s.text), s.lineEnd(at[3])+1) // goods and numbers, below a name that nothing else tells
		if known := said || hasCompanyWord(name); known || s.holdsMedium(below, s.lineEnd(below)) && strings.ContainsAny(s.lineOf(below), "0123456789") {
			more, sure = append(more, at), sure || known
		}
	}
	named := append(firms.LabelLine.FindAllStringSubmatchIndex(s.text, -1), firms.LabelPrice.FindAllStringSubmatchIndex(s.text, -1)...)
	named = append(named, firms.LabelDay.FindAllStringSubmatchIndex(s.text, -1)...)
	if labelled { // "Ginny's Garden Mart, 2 cf lava bag 15.49" beside lines with a colon
		named = append(named, firms.LabelComma.FindAllStringSubmatchIndex(s.text, -1)...)
	}
	for _, at := range named {
		end, _ := s.endOfName(at[2], at[3], false)
		if strings.Trim(s.text[end:at[3]], " \t0123456789-()") == "" {
			at[3] = end // a telephone number
		}
		name := s.company(at[2], at[3])
		line := strings.TrimSpace(s.lineOf(at[1])[at[1]-1-strings.LastIndexByte(s.text[:at[1]], '\n'):])
		listed := strings.ContainsAny(s.text[at[0]:at[2]], "-*•") && strings.HasSuffix(strings.TrimSpace(s.text[at[2]:at[1]]), ":")
		if end == at[3] && (hasCompanyWord(name) || listed) && strings.Contains(name, " ") && !s.holdsMedium(at[2], at[3]) && !s.onlyKinds(at[2], at[3]) && strings.ContainsAny(line, "0123456789") {
			more, sure = append(more, at), sure || hasCompanyWord(name)
		}
	}
	for _, at := range more {
		if (labelled || len(more) > 1) && sure {
			to := at[1]
			if c := s.text[to-1]; c != ' ' && c != ':' && c != '-' {
				to = at[3] // in front of a sign of money
			}
			if f := s.fix(aSupplier, at[2], to, s.company(at[2], at[3]), "a label in front of the line"); f != nil {
				f.general = true
			}
		}
	}
}

// labelsSmall takes words in front of two lines or more for suppliers, in letters of any size, where each line goes on with a
// price of one medium that all of them offer, or one of the words says so: "sandy's: perlite 4cf $27".
func (s *scanner) labelsSmall() {
	var all [][]int
	names, media, sure := map[string]bool{}, map[*quotes.Medium]bool{}, false
	for _, at := range cues.SmallLabel.FindAllStringSubmatchIndex(s.text, -1) {
		name, m := lower(s.text[at[2]:at[3]]), s.mediumIn(at[1], s.lineEnd(at[1]))
		plain := m != nil && !names[name] && !s.opensMedium(at[2])
		for w := range strings.FieldsSeq(name) {
			plain = plain && (companyWords[w] || !fillers[w] && !notNames[w] && !noSubjects[w] && !describers[w] && !tails[w] && !unitWord.MatchString(w)) && doubt(w) == "" && !months[w]
		}
		if plain {
			all, names[name], media[m] = append(all, at), true, true
			sure = sure || hasCompanyWord(name) || strings.HasSuffix(name, "'s") || strings.HasSuffix(name, "’s")
		}
	}
	if len(all) < 2 || len(media) > 1 && !sure {
		return
	}
	for _, at := range all {
		if f := s.fix(aSupplier, at[2], at[1], squeeze(s.text[at[2]:at[3]]), "a label in front of the line"); f != nil {
			f.general = true
		}
	}
}

// labelsSaid takes two names or more in sentences for suppliers that each want an amount of their own: "Hollow Creek wants 34 a bag,
// Tamsin's 31". One of them must have a word for selling, and none be a word of goods or of the trade.
func (s *scanner) labelsSaid() {
	var all [][]int
	names, sells := map[string]bool{}, false
	for _, at := range firms.NameWants.FindAllStringSubmatchIndex(s.text, -1) {
		name := s.company(at[2], at[3])
		plain := name != "" && !s.holdsMedium(at[2], at[3]) && s.taken(at[2]) == nil
		for w := range strings.FieldsSeq(lower(name)) {
			plain = plain && !fillers[w] && !noSubjects[w] && !describers[w] && !unitWord.MatchString(w) && doubt(w) == "" && !months[w] && !limiting[w] && !feeWordsAround[w] && !fetchWord.MatchString(w) && !cues.TruckStart.MatchString(w)
		}
		if plain && !names[lower(name)] {
			all, names[lower(name)] = append(all, at), true
			sells = sells || at[4] >= 0
		}
	}
	if len(all) < 2 || !sells || slices.ContainsFunc(s.fixed, func(f *fact) bool { return f.kind == aSupplier }) {
		return
	}
	for _, at := range all {
		if f := s.fix(aSupplier, at[2], at[1]-1, squeeze(s.text[at[2]:at[3]]), "the one who wants the price behind it"); f != nil {
			f.general = true
		}
	}
}

// listNumbers sets aside the numbers of a list, 1. 2. 3. in front of its lines; they must count up from 1.
func (s *scanner) listNumbers() {
	next := 1
	for _, at := range cues.ListNumber.FindAllStringSubmatchIndex(s.text, -1) {
		from, to := max(at[2], at[4], at[6]), max(at[3], at[5], at[7])
		if n := whole(s.text[from:to]); n == next || at[6] >= 0 && strings.TrimSpace(s.text[:at[0]]) == "" && strings.ContainsAny(s.text[at[0]:at[1]], "#()[].:") { // of a message read by itself
			s.fix(anAside, at[0], at[1], "", "the number of a line in a list")
			next++
		}
	}
}

// company is the name at text[from:to] if it can be one of a supplier, else "".
func (s *scanner) company(from, to int) string {
	name := firms.DayBehind.ReplaceAllString(squeeze(firms.Trim(s.text[from:to])), "")
	words := strings.Fields(lower(name))
	for i, w := range words {
		if i > 0 && i+1 < len(words) && companyWords[words[len(words)-1]] && !months[w] {
			continue // a word of talk with a capital inside a name: "Broken Spoke Stone"
		}
		if i == 0 && firms.Titled.MatchString(w) && !hasCompanyWord(name) || notNames[w] && (i == 0 || !companyWords[w]) && (i == 0 || !joiners[w]) && (i == 0 || !describers[w] || !hasCompanyWord(name)) || months[w] {
			return ""
		}
	}
	if name == "" || firms.Headline(name) || firms.NumberedThing.MatchString(name) || firms.Corner.MatchString(name) && !hasCompanyWord(name) || roomSaid.MatchString(lower(name)) || !strings.ContainsFunc(name, unicode.IsUpper) || amountName.MatchString(lower(name)) || cues.SizedName.MatchString(lower(name)) || strings.Contains(s.text[from:to], "  ") {
		return ""
	}
	return name
}

// amountName is what a pack holds or costs, and no name: "100 L", "74.00 EUR".
var amountName = pattern(quantity + sp + `-?(?:` + anyUnit + `|` + packForm + `|` + sizeUnit + `)(?:[ -]+` + packForm + `)?$|(?:` + signBefore + `)?` + sp + plainNumber + `?` + sp + `(?:` + signBehind + `)?$`)

// labels says whether a name in front of a colon is the supplier of what follows: a medium stands in the line behind it,
// or the line ends there and the name is more than one word.
func (s *scanner) labels(nameEnd, end int, name string) bool {
	if firms.SupplierWord.MatchString(name) || cues.ClockTime.MatchString(s.text[nameEnd-1:min(end+1, len(s.text))]) {
		return false
	}
	s.limit = len(s.text)
	lineEnd := end + strings.IndexByte(s.text[end:]+"\n", '\n')
	if s.holdsMedium(nameEnd-len(name), nameEnd) && !hasCompanyWord(name) {
		return false
	}
	if strings.TrimSpace(s.text[end:lineEnd]) == "" {
		return strings.Contains(name, " ") && strings.HasSuffix(strings.TrimSpace(s.text[nameEnd:end]), ":")
	}
	return s.holdsMedium(end, lineEnd)
}

// holdsMedium says whether a name of a medium stands in a part of the text.
func (s *scanner) holdsMedium(from, to int) bool { return s.mediumIn(from, to) != nil }

// mediumIn is the first medium named in a part of the text, nil when none is.
func (s *scanner) mediumIn(from, to int) *quotes.Medium {
	defer func(limit int) { s.limit = limit }(s.limit)
	s.limit = to
	for p := max(from, 0); p < to; {
		if m, _ := s.mediumAt(p); m != nil {
			return m
		}
		p += max(1, wordLength(s.low[p:to]))
	}
	return nil
}

// nameOfGoods says whether a name is that of what is sold: it opens with a medium and ends in no word for a company.
func (s *scanner) nameOfGoods(from, to int) bool {
	last := s.text[from:to]
	last = last[strings.LastIndexAny(last, " \t")+1:]
	return s.opensMedium(from) && (!hasCompanyWord(last) || tails[lower(last)] && s.onlyGoods(from, to))
}

// onlyGoods says whether text[from:to] holds nothing but names of media and the words that go with them: a word such as
// "Point" in "Basalt Point Stone" makes it the name of a company.
func (s *scanner) onlyGoods(from, to int) bool {
	for p := from; p < to; {
		s.limit = to
		if _, end := s.mediumAt(p); end > p {
			p = end
			continue
		}
		n := wordLength(s.low[p:to])
		if w := s.low[p : p+n]; n > 0 && !describers[w] && !tails[w] {
			return false
		}
		p += max(n, 1)
	}
	return true
}

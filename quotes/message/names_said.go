package message

import (
	"mediabuy/quotes/internal/plaintext"
	"strings"
)

// Where people say who they are or whom they spoke to, outside signatures and labels. A name found here must hold a word
// for a company, or stand where nothing but the one who sells is named.
var (
	// at the start of the message or of a line: "Lockram Pit, spoke to", "Hollin Gate Supply. Lava", "Dunmere Yard - ask for Lou"
	nameFirst = compile(`(?m)^[ \t]*(` + companyName + `)[ \t]*(?:\(|[,.](?:[ \t]|\r?$)|[ \t][-–—@][ \t]|[ ]{3}|\r?$)`)
	// "Sallow Fen Nursery has", "Nan from Upper Wick Feed called back:", "called Pennick Stone 5/12,"
	nameSays   = compile(`(?:^|[.!\n][ \t]*)(?:` + personName + `[ \t]+(?:from|at|@|of|with)[ \t]+)?(` + companyName + `)[ \t]+(?:has|have|quoted|quotes|quote|says|said|sells|called(?: back)?|wants|offers|does|do|charges|can do|will do)\b[ \t]*:?`)
	nameCalled = compile(`(?:^|[.!\n,][ \t]*)(?:(?:\p{L}{3,9}\.?,?[ \t]+)?\d{1,2}[:.]\d\d(?:[ \t]?[ap]m)?[,:]?[ \t]+)?(?i:(?:spoke|talked|chatted|texted|emailed) (?:to|with|w/)|(?:notes? (?:from|of) )?(?:the |a |my )?call (?:to|with|w/)|called|rang|phoned|rung)[ \t]+(?:(?:` + personName + `)[ \t]+(?:from|at|@|of|with)[ \t]+)?(` + companyName + `)[ \t]*(?:\d{1,2}/\d{1,2}|(?:this (?:morning|afternoon)|today|yesterday|back|again)\b|(?:arvo|morning|afternoon|evening|a\.?m|p\.?m)\b)?[ \t]*(?:[,.:(]|\r?\n)`)
	// "Kim rang back from Otamarua Quarry."
	calledFrom = compile(`(?m)(?:^|[.!\n][ \t]*)` + personName + `[ \t]+(?:rang|called|phoned|texted|emailed|wrote)(?:[ \t]+(?:back|me|us))*[ \t]+from[ \t]+(?:the[ \t]+)?(` + companyName + `)[ \t]*(?:[,.:]|\r?$)`)
	// "Spoke with Lou, Pennick Stone": the person, then whose words they are
	calledFor = compile(`(?m)(?:^|[.!\n,:][ \t]*)(?i:(?:spoke|talked|chatted|texted|emailed|(?:tele)?phone(?: call)?) (?:to|with|w/)|called|rang|phoned|rung)[ \t]+(?:(?:Mr|Mrs|Ms|Dr)\.? )?` + personName + `,[ \t]*(` + companyName + `)[ \t]*(?:[,.:]|\r?$)`)
	personAt  = compile(`(?m)(?:^|[.!,;:)–—-][ \t]+|[ \t]{2,})(?:\p{Ll}+[ \t]*@|(?:(?i:cheers|thanks|thx|ta|regards)[ \t]+)?` + personName + `(?:[ \t]+x+)?[ \t]*(?:@|\bat\b|\bfrom\b|\())[ \t]*(` + companyName + `)\)?[ \t]*(?:[:.)]|here\b|\r?$)`)
	smallAt   = compile(`(?:its|it's|it’s|this is)[ \t]+\p{L}+[ \t]*(?:@|at|from|frm)[ \t]*([\p{L}]+(?:[ \t][\p{L}]+){0,2})[ \t]*[.,:!]`)
	smallLast = compile(`\n[ \t~-]*(?:\p{Ll}+[ \t]*(?:@|at|from|with|,|/|-)[ \t]*)?(\p{Ll}[\p{Ll}'’&]*(?:[ \t]+[\p{Ll}'’&]+){1,3})[ \t.!]*$`)
	nameGoods = compile(`^[ \t]*(` + companyName + `)[ \t]+\p{Ll}`)
	nameThen  = compile(`(?:[.!?)][ \t]+|[|][ \t]*|\n[ \t]*)(` + companyName + `)(?:,[ \t]*` + personName + `|[ \t]*\|[^\n]*)?[ \t.!]*$`)
	nameLine  = compile(`(?m)^[ \t]*(` + companyName + `)[ \t.!,]*\r?$`)
	// the last line with an address, or one whose last word says what is sold: "Harlow Stone, 402 Depot St", "Kettenay Cinder"
	nameClosing = compile(`(?:\n|[.!?)][ \t]+(?:[-–—~][ \t]*)?|[ \t][-–—][ \t]+)[ \t]*(` + companyName + `)(?P<at>,[ \t]+[^\n,]*\d[^\n,]*|,[ \t]+\p{L}[^\n,\d]*|[ \t]+(?:#|No\.?[ \t]*)\d+)?[ \t.!]*$`)
	nameLast    = compile(`(?:[.!?),][ \t]+|[ \t][-–—][ \t]*|\n[ \t]*)(?:(?:--?|–|—|~|/)[ \t]*)?(?:(?:\p{Lu}\.[ \t]*)*` + personName + `(?: x)?(?:,|[ \t]*[@/]|[ \t]+[-–—]|[ \t]+(?:at|from|of|with))[ \t]*)?(` + companyName + `(?:[ \t]+\([\p{L} ]+\)[ \t]+(?:Ltd|Inc|LLC|Co)\b)?)(?:[ \t]+[/|][ \t]*\+?[\d ()-]{7,20})?[ \t.!]*$`)
	// a name in the first line, where that says nothing of goods: "Phone call w/ Lou, Pennick Stone, Sat am:", "Pennick Stone -- your cart"
	nameHead  = compile(`(?:^|[-–—,:/|][ \t]*|[ \t]{2,}|(?:w/|with|from)[ \t]+)(` + companyName + `)`)
	headWords = compile(`(?i)\b(?:calls?|called|phoned?|rang|spoke|notes?|message|voicemail|cart|basket|fax|from|w/|lists?|saved|quotes?|quotation|orders?|estimate|invoice|receipt|prices?)|[ \t]>[ \t]`)
	headEnds  = compile(`^(?:[ \t]*(?:[,.:(|>\r\n]|-{1,2}[ \t]|[–—])|[ \t]{2}|$)`)
)

// firmAlone is a line that begins with nothing but the name of a firm of several.
var firmAlone = compile(`^[ \t]*\p{Lu}[\p{L}'’]+ & [\p{L}'’ ]+, $`)

// addressed is what makes the name behind it that of the buyer.
var addressed = compile(`(?:\bto|customer|client|buyer|ship to|dear|attn|hi|hello)[:.,]?[ \t]*$`)

// moneyWithin is an amount of money, or a number with decimals.
var moneyWithin = compile(`[$£€]|\d[.,]\d|\d:`)

// opens takes the supplier from where the message says whose words these are, where no line said it.
func (s *scanner) opens() {
	for _, f := range s.fixed {
		if f.kind == aSupplier {
			return
		}
	}
	text := strings.TrimRight(s.text, " \t\r\n")
	for _, one := range []struct {
		re    *expr
		bound bool // the words around it need no word for a company in it
	}{{nameSays, false}, {calledFor, false}, {calledFrom, true}, {nameCalled, true}, {personAt, true}, {smallAt, true}, {nameFirst, false}, {nameGoods, false}, {nameLast, false}, {smallLast, false}, {nameThen, false}, {nameLine, false}, {nameClosing, false}, {nameHead, false}} {
		for _, at := range one.re.FindAllStringSubmatchIndex(text, -1) {
			if line := s.lineOf(at[2]); strings.Contains(line, "\t") || strings.Count(line, ";") > 1 || strings.Contains(line, "|") && (one.re != nameThen || strings.Count(line, "|") != strings.Count(text, "|")) {
				continue // a row of a table
			}
			if who := strings.Trim(s.text[at[0]:at[2]], " \t\r\n,.(@–—-"); one.re == personAt && s.text[at[2]-1] == '(' && hasCompanyWord(who) {
				continue // "Light Aggregates (Severnside)": the place
			}
			if one.re == personAt && s.text[at[2]-1] == '(' && !hasCompanyWord(s.text[at[2]:at[3]]) || allTitles(s.text[at[2]:at[3]]) {
				continue // "Maureen (Treasurer)"
			}
			if one.re == personAt && notPersons[firstWord(s.low[at[0]:at[2]])] {
				continue // "Ships from Ferncote"
			}
			if front := s.text[strings.LastIndexByte(s.text[:at[2]], '\n')+1 : at[2]]; one.re == nameLast && strings.HasSuffix(front, ", ") && firmAlone.MatchString(front) && hasCompanyWord(front) {
				continue // "Pell & Son, Turnpike Works": the place
			}
			end, _ := s.endOfName(at[2], at[3], false)
			name := s.company(at[2], end)
			if one.re == smallAt || one.re == smallLast && s.smallName(at[2], at[3]) {
				name = squeeze(s.text[at[2]:at[3]])
			}
			if one.re == nameHead && at[2] > s.lineEnd(0) {
				break
			}
			if one.re == nameHead && (!hasCompanyWord(name) || !headWords.MatchString(s.lineOf(0)) || !headEnds.MatchString(s.text[end:]) || s.holdsMedium(0, s.lineEnd(0)) && !strings.HasPrefix(strings.TrimSpace(s.text[end:]), ">") || moneyWithin.MatchString(s.lineOf(0)) || addressed.MatchString(s.low[:at[2]])) {
				continue
			}
			if one.re == nameFirst && strings.TrimSpace(s.text[:at[2]]) != "" && !s.afterHeads(at[2]) && !s.letterhead(at[2]) {
				continue // only what opens the message
			}
			if one.re == nameGoods {
				if !s.opensMedium(at[1] - 1) {
					continue
				}
				at[1] = end
			}
			lone, behind := false, strings.TrimSpace(text[at[1]:])
			if one.re == nameLine { // the first line or one of the last
				if lone = name != "" && nameAlone(name, behind == "" && !closing.MatchString(text)); strings.TrimSpace(text[:at[2]]) != "" && strings.Count(plaintext.EmptyLine.ReplaceAllString(behind, "\n"), "\n") >= maxSignedLines/2-1 {
					continue
				}
			}
			if one.re == nameClosing && name != "" {
				if s.holdsMedium(end, len(text)) || moneyWithin.MatchString(text[end:]) {
					continue // a line of a list
				}
				last := end - len(name) + strings.LastIndexByte(name, ' ') + 1
				lone = nameAlone(name, at[4] < 0) || s.opensMedium(last) && !s.opensMedium(at[2]) && !describers[firstWord(s.low[at[2]:end])]
			}
			switch {
			case name == "" || s.nameOfGoods(at[2], end) || one.re != nameClosing && s.onlyKinds(at[2], end) || street.MatchString(name) || strings.Contains(s.text[at[0]:at[2]], ",") && roadEnds.MatchString(name):
				continue
			case !lone && !hasCompanyWord(name) && (one.re != nameLast || !strings.Contains(name, " & ")) && (!one.bound || s.holdsMedium(at[2], end)):
				continue
			case one.re != smallAt && one.re != personAt && one.re != nameCalled && !strings.Contains(name, " "):
				continue
			}
			to := at[1]
			if one.re == nameFirst || one.re == nameLast || one.re == nameThen || one.re == nameClosing || one.re == smallLast || end < at[3] {
				to = end
			}
			from := at[0]
			if one.re == nameFirst || s.holdsMedium(from, at[2]) {
				from = at[2]
			}
			for from < at[2] && strings.ContainsRune(" \t\r\n.!?,;:)–—-", rune(s.text[from])) {
				from++
			}
			if s.fix(aSupplier, from, to, name, saysWhere) != nil {
				s.contact(to)
				return
			}
		}
	}
	s.mayBeSupplier()
}

// maybeName are the places of a name that may be the supplier's though nothing in it says so: at the end, behind a person's or not,
// behind "that's", and in a line of its own or in front of a stop at the beginning.
var maybeName = []*expr{
	compile(`(?:^|[.!?):;~|\n])[ \t]*(?:[-–—/]+[ \t]*)?` + personName + `(?:[ \t]*[,/@(]|[ \t]+[-–—]|[ \t]+(?:at|from|of|with|over at|here at))[ \t]*(?:the[ \t]+)?(` + companyName + `)[ \t.!)]*$`),
	compile(`(?:[.!?):;~|/–—]|[ \t]-+|\n)[ \t-]*(` + companyName + `)[ \t.!)]*$`),
	compile(`(?:[Tt]hat[’']?s|[Tt]his is|[Ii]t[’']?s)[ \t]+(?:` + personName + `[ \t]+(?:at|from|of|with)[ \t]+)?(` + companyName + `)[ \t]*[,.:!\n]`),
	compile(`^[ \t]*(` + companyName + `)[ \t]*(?:[:.(\n]|[ \t][-–—])`),
}

// mayBeSupplier asks whether a name is the supplier's where none was found.
func (s *scanner) mayBeSupplier() {
	text := strings.TrimRight(s.text, " \t\r\n")
	for _, re := range maybeName {
		at := re.FindStringSubmatchIndex(text)
		if at == nil {
			continue
		}
		end, _ := s.endOfName(at[2], at[3], false)
		name := s.company(at[2], end)
		if name == "" || !strings.Contains(name, " ") || s.nameOfGoods(at[2], end) || s.onlyKinds(at[2], end) || street.MatchString(name) || strings.Contains(s.lineOf(at[2]), "\t") || s.taken(at[2]) != nil || strings.ContainsAny(name, "0123456789") {
			continue
		}
		f := s.perhaps(&fact{kind: aSupplier, why: saysWhere}, Range{at[2], end}, "a name, and it is not said whose", "is "+name+" the supplier?", name)
		if got := s.fix(f.kind, at[2], end, name, f.why); got != nil {
			got.ask = f.ask
			return
		}
	}
}

// smallName says whether words in small letters are a company's name: the last says what it is, and none is a word of talk.
func (s *scanner) smallName(from, to int) bool {
	words := strings.Fields(s.text[from:to])
	for _, w := range words {
		if fillers[w] && w != "and" || notNames[w] && !companyWords[w] || doubt(w) != "" || notPersons[w] {
			return false
		}
	}
	return companyWords[words[len(words)-1]] && !s.opensMedium(from)
}

// onlyKinds says whether a name holds nothing but words that say what a company sells or is, as the heading of a list does:
// "Landscape Rock".
func (s *scanner) onlyKinds(from, to int) bool {
	for w := range strings.FieldsSeq(s.low[from:to]) {
		if w = strings.Trim(w, ".,-&"); !companyWords[w] && !describers[w] && !tails[w] && !joiners[w] && w != "" {
			return false
		}
	}
	return true
}

// lineOf is the line that byte at stands in.
func (s *scanner) lineOf(at int) string {
	return s.text[strings.LastIndexByte(s.text[:at], '\n')+1 : s.lineEnd(at)]
}

// lineEnd is where the line ends that byte at stands in.
func (s *scanner) lineEnd(at int) int {
	if i := strings.IndexByte(s.text[at:], '\n'); i >= 0 {
		return at + i
	}
	return len(s.text)
}

// letterhead says whether a line that begins at byte at may be the head of a paper: nothing of goods stands above it, and no words
// right above it that the name may go on.
func (s *scanner) letterhead(at int) bool {
	const most = 4
	if above := strings.TrimRight(s.lineOf(max(0, at-1-len(s.text[strings.LastIndexByte(s.text[:at], '\n')+1:at]))), " \t\r"); above != "" && !strings.ContainsAny(above, "0123456789") {
		return false
	}
	return strings.Count(s.text[:at], "\n") <= most && !s.holdsMedium(0, at) && !strings.ContainsAny(s.text[:at], "$£€") && !addressed.MatchString(s.low[:at])
}

// afterHeads says whether only what was found by line stands before byte at.
func (s *scanner) afterHeads(at int) bool {
	rest := 0
	for i, c := range s.text[:at] {
		if s.taken(i) == nil && c > ' ' && !strings.ContainsRune(",.!", c) {
			rest++
		}
	}
	return rest == 0
}

package message

import (
	"strings"

	"mediabuy/quotes/internal/cues"
)

// forClasses is "15 for bags, 90 for loose", classesAt "bags 15, loose 90".
var (
	forClass   = amountPattern("m") + `(?:(?: for| on) (?:the |all )?|` + sp + `\(` + sp + `)(?P<k>` + classWord + `)\b` + classTail + sp + `\)?`
	classAt    = `(?P<k>` + classWord + `)\b` + classTail + sp + `(?:[:=@-]|is |are |at )?` + sp + amountPattern("m")
	forClasses = compile(forClass)
	classesAt  = compile(classAt)
)

// classRules read fees for delivery that hang on how the goods are packed.
func classRules() []rule {
	return []rule{
		{pattern(`(?:(?:plus|and|\+|add|with) )?` + deliver + `(?: ` + nearPlace + `)?` + feeWords + sp + `(?:[:=@]|-[ \t])?` + sp + `(?P<list>` + bare(forClass) + `(?:` + classThen + bare(forClass) + `)*)`), classFees(forClasses)},
		{pattern(`(?:(?:plus|and|\+|add|with) )?` + deliver + `(?: ` + nearPlace + `)?` + feeWords + sp + `[:=@-]` + sp + `(?P<list>` + bare(classAt) + `(?:` + classThen + bare(classAt) + `)+)`), classFees(classesAt)},
		// $70 bulk (max 8 yards), $55 bagged
		{pattern(`(?:(?:plus|and|\+|add|with) )?` + deliver + feeWords + sp + `[:=@-]?` + sp + `(?P<list>` + amountPattern("m") + ` (?P<k>bagged|loose|bulk|tipped)` + classTail + `)`), classFees(nil)},
		{pattern(`(?:and |but )?(?P<list>` + amountPattern("m") + `(?: for| on)?(?: the| all)? (?P<k>` + classWord + `)\b` + classTail + `)`), func(s *scanner, m match) (*fact, bool) {
			if f := s.lastFact; f == nil || f.kind != aClassFee && (f.kind != aLoad || f.counted.Form == "" || f.unit.Empty()) || strings.Trim(s.low[f.To:m.at], " .,;)") != "" || s.after(m.end()) != "" && !strings.Contains(",.;)", s.after(m.end())[:1]) {
				return nil, false
			}
			return classFees(nil)(s, m)
		}},
		// bagged delivery 15
		{pattern(`(?P<list>(?P<k>` + classWord + `) ` + fetching + feeWords + sp + `(?:[:=@]|-[ \t])?` + sp + amountPattern("m") + `)`), classFees(nil)},
		// 15 delivery for bags
		{pattern(`(?P<list>` + amountPattern("m") + sp + fetching + `(?: for| on) (?:the |all )?(?P<k>` + classWord + `)\b` + classTail + `)`), classFees(nil)},
	}
}

// classFee is a fee for all that is packed in one way.
type classFee struct {
	form string // bag, sack or bulk
	name string // the word for it
	fee  string
}

// classFees reads the fees in the list of a match, each found by one; nil says that the match itself is the only one.
func classFees(one *expr) func(*scanner, match) (*fact, bool) {
	return func(s *scanner, m match) (*fact, bool) {
		if next := s.after(m.end()); next == "%" || s.goesOn(m.end()) && !oneOf(next, "or", "to", "in") {
			return nil, false
		} else if s.rated(m.end()) || s.namesNext(m.end()) || oneOf(next, "of", "over", "under", "above", "below", "up", "or", "to", "in", "within", "from", "/", "every") {
			return unclearFact(oneKindOfPack)
		}
		f := &fact{kind: aClassFee, why: "a fee for delivery of one kind of pack"}
		each := []match{m}
		if one != nil {
			from, to, _ := m.span("list")
			each = nil
			for _, idx := range one.FindAllStringSubmatchIndex(s.low[from:to], -1) {
				each = append(each, match{re: one, low: s.low[from:to], at: from, idx: idx, unread: m.unread})
			}
		}
		for _, e := range each {
			if s.cuts(e) {
				return nil, false
			}
			text, _ := e.amount(s, "m")
			name := squeeze(e.text("k"))
			f.classes = append(f.classes, classFee{classForm(name), name, text})
		}
		return f, true
	}
}

// namesNext says whether the words behind byte at name a medium, or describe one.
func (s *scanner) namesNext(at int) bool {
	for at < s.limit && s.low[at] == ' ' {
		at++
	}
	if at >= s.limit {
		return false
	}
	m, _ := s.mediumAt(at)
	return m != nil || describers[s.low[at:at+wordLength(s.low[at:s.limit])]]
}

// classForm is the form of all that a word for a class of packs means.
func classForm(word string) string {
	switch word = cues.BroughtEnd.ReplaceAllString(word, ""); word {
	case "bagged", "bag orders":
		return "bag"
	case "loose", "bulk", "tipped":
		return "bulk"
	}
	return formOf(strings.TrimPrefix(word, "the "))
}

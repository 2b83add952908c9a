// Package firms tells a company by its name: by a word for what it is, by what a name may hold, and whether two are one.
package firms

import (
	_ "embed"
	"strings"

	"mediabuy/quotes/internal/lazy"
	"mediabuy/quotes/internal/plaintext"
	"mediabuy/quotes/internal/wordlist"
)

//go:embed words.txt
var wordsText string

// The sets of words.txt, where each is told.
var (
	vocabulary = wordlist.Read(wordsText)
	Words      = vocabulary.Set("companyWords")
	NotNames   = vocabulary.Set("notNames")
	titles     = vocabulary.Set("titles")
	headlines  = vocabulary.Set("headlines")
)

var (
	// OpenAbbreviations have a stop behind them and begin a name, or go on one behind "of" or "and".
	OpenAbbreviations = wordlist.Set("st ste mt ft dr mr mrs ms messrs")
	// CloseAbbreviations have a stop behind them that mostly ends a name; a word for a company may still follow.
	CloseAbbreviations = wordlist.Set("ltd co inc corp llc bros st rd ave ln nr dept intl natl mfg")
	Joiners            = wordlist.Set("and of the & und du de des da do das dos di la le von van der y e tel tel. tel: phone ph mob mobile fax")
)

// HasWord says whether a word for a company stands in a name.
func HasWord(name string) bool {
	for w := range strings.FieldsSeq(plaintext.Lower(name)) {
		if Words[strings.Trim(w, ".,")] || companyStem.MatchString(w) {
			return true
		}
	}
	return LegalEnd.MatchString(name)
}

// LegalEnd is the kind of company that ends a name.
var LegalEnd = lazy.Compile(`,?[ \t]+` + LegalForm + `$`)

// kisses end a message among friends, and what is no part of a name ends the heading of a talk.
var kisses = lazy.Compile(`[ \t]+(?:[xX]{1,3}|(?i:live )(?i:web ?)?(?i:chat))[.! ]*$`)

// answersFrom is what a heading says in front of whose words follow: "ANSWERS FROM LOW FORD QUARRY".
var answersFrom = lazy.Compile(`^(?i:(?:[\pL'’-]+[ \t]+){0,3}(?:answers?|repl(?:y|ies)|quotes?|quotations?|offers?|prices?|price list|list|notes?|messages?)[ \t]+(?:from|by)[ \t]+|(?:lastly|finally|firstly|secondly|thirdly|meanwhile|also|then),?[ \t]+)`)

// CapitalBehind is a name behind the comma of what somebody is from: "from the produce store, Low Ford Feeds".
var CapitalBehind = lazy.Compile(`^,[ \t]+\p{Lu}[\pL'’-]+[ \t]+\p{Lu}`)

// Trim takes the signs off the end of a name, but for the stop of "s.r.o." and the like.
func Trim(name string) string {
	name = answersFrom.ReplaceAllString(kisses.ReplaceAllString(name, ""), "")
	if at := LegalEnd.FindStringIndex(name); at != nil && strings.Contains(name[at[0]:len(name)-1], ".") {
		return name
	}
	return strings.TrimRight(name, ".,!-")
}

// companyStem are beginnings and ends of the words of companies that other tongues join to one.
var companyStem = lazy.Compile(`(?:shops?|mart|-rock|werke?|grube|hof|haus|handel|vertrieb|stoffe|markt|substraten?|bedarf|bedrijf|betrieb|gärtnerei|kwekerij)[.,]*$|^(?:agro\pL+|cava|kivi\pL+|sten\pL+|odlar?\pL+|vulkan\pL+|pierres?|carri[eè]res?|jardin\pL*|mat[eé]riaux|granulats|serres|p[eé]pini[eè]res?|[aà]rids|[aáÁ]ridos|cantera|viveros?|inerti|vivai\pL*|kamenolom\pL*|kamieniołomy?|hurtownia|zahrad\pL*|ogrod\pL*|kert\pL*|tuin\pL*|baustoff\pL*|hydro\pL+)[.,]*$`)

// Alone says whether a line that is nothing but a name is a supplier's: by a word for a company or a place, or because as the
// last line, with no closing word before it, it has more words than a person.
func Alone(t string, last bool) bool {
	words := strings.Fields(plaintext.Lower(strings.TrimRight(t, ".,! ")))
	return HasWord(t) || placeEnds[words[len(words)-1]] || last && len(words) > 2 && !strings.ContainsAny(t, "0123456789,") || words[0] == "the" && last
}

// placeEnds are words for places that end the name of a yard and are hardly ever a person's.
var placeEnds = wordlist.Set("gulch draw valley ridge creek canyon mesa butte fork bend spur hollow flats springs crossing")

// One says whether "and" between two names joins them to one: "Pell and Sons", "Low Ford Sand and Gravel", and
// not "Low Ford Quarry and Marl Lane Yard".
func One(before, after string) bool {
	all := true
	for w := range strings.FieldsSeq(plaintext.Lower(after)) {
		all = all && Words[strings.Trim(w, ".,")]
	}
	return all || !strings.ContainsAny(before, " \t") && HasWord(after)
}

// Abbreviated says whether the stop at the end of a name is that of an abbreviation, behind which a sentence may go on.
func Abbreviated(name string) bool {
	fields := strings.Fields(plaintext.Lower(name))
	last := strings.TrimRight(fields[len(fields)-1], ".")
	return CloseAbbreviations[last] || OpenAbbreviations[last]
}

// AllTitles says whether a text holds nothing but what people are at a company.
func AllTitles(t string) bool {
	for w := range strings.FieldsSeq(plaintext.Lower(t)) {
		if !titles[strings.Trim(w, ",.&")] {
			return false
		}
	}
	return true
}

// Headline says whether words with capitals are a headline and no name: "AQUARIUM TEARDOWN".
func Headline(name string) bool {
	return headlines[plaintext.Lower(name[strings.LastIndexByte(name, ' ')+1:])]
}

// Address says whether a name is a house in a road or at a place: it begins with a number, and no word for a company ends it.
func Address(name string) bool {
	return Street.MatchString(name) || placeInside.MatchString(name) || HouseFirst.MatchString(name) && !HasWord(name[strings.LastIndexByte(name, ' ')+1:])
}

// placeInside is where in a house somebody sits: "Aisle 9", "Desk 4".
var placeInside = lazy.Compile(`^(?i:aisle|desk|bay|gate|unit|suite|shop|shed|room|floor|window|counter|till|ext|extension|dept|department|lot|dock|door|stall|building|bldg|level|hut|plot|pad|office)\.?[ \t]+#?\d{1,4}[a-zA-Z]?$`)

// HouseFirst is a name that begins with the number of a house; behind a comma it is an address whatever ends it: "9 Tan Yard".
var HouseFirst = lazy.Compile(`^\d{1,5}[a-z]?[ \t]`)

// Same says whether one name is the other, or the beginning of it.
func Same(a, b string) bool {
	a, b = plaintext.Lower(a), plaintext.Lower(b)
	return strings.HasPrefix(a, b) || strings.HasPrefix(b, a)
}

// NotPersons are words in front of a place that are no person's name.
var NotPersons = wordlist.Set("ships shipping ship pickup pick collect collection dispatched despatched delivered delivery imported sourced quarried made open located based available prices priced price only free direct sent freight transport come collect load stop head drive swing sign drop order look")

// Titled is the first word of a person's name with a title in front, in small letters: a firm has one only with a word for a firm behind it.
var Titled = lazy.Compile(`^(?:mrs?|ms|miss|mx|dr|messrs|herr|frau|madame?|mme|monsieur|sig(?:nor[ae]?|ra)?|señora?|sra?|fru|sir)\.?$`)

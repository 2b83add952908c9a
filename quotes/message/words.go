package message

import (
	_ "embed"
	"strings"
)

//go:embed words.txt
var wordsText string

// vocabulary holds the words of words.txt by their use.
var vocabulary = func() map[string]string {
	out := map[string]string{}
	use := ""
	for line := range strings.Lines(wordsText) {
		head, rest, begins := strings.Cut(line, ":")
		switch {
		case strings.HasPrefix(line, "#"):
			continue
		case begins && line[0] != '\t':
			use, line = head, rest
		}
		out[use] += line
	}
	return out
}()

// words are those of a use, as a set.
func words(use string) map[string]bool { return set(vocabulary[use]) }

// byWord tells what each word stands for whose use begins so: the rest of the use.
func byWord(begins, between string) map[string]string {
	out := map[string]string{}
	for use, all := range vocabulary {
		if what, ok := strings.CutPrefix(use, begins); ok {
			for w := range strings.SplitSeq(squeeze(all), between) {
				out[strings.TrimSpace(w)] = what
			}
		}
	}
	return out
}

func set(words string) map[string]bool {
	out := map[string]bool{}
	for w := range strings.FieldsSeq(words) {
		out[w] = true
	}
	return out
}

// The sets of words.txt, where each is told.
var (
	fillers        = words("fillers")
	hedges         = words("hedges")
	opensCondition = words("opensCondition")
	describers     = words("describers")
	limiting       = words("limiting")
	feeWordsAround = words("feeWordsAround")
	noSubjects     = words("noSubjects")
	tails          = words("tails")
	companyWords   = words("companyWords")
	notNames       = words("notNames")
	titles         = words("titles")
	largeNumbers   = words("largeNumbers")
	doubts         = byWord("doubt ", " ")
	numberWords    = byWord("number ", ",")
)

// doubt gives why a word leaves its clause unread, "" if it does not.
func doubt(word string) string {
	if strings.HasSuffix(word, "n't") || strings.HasSuffix(word, "n’t") {
		return doubts["not"]
	}
	return doubts[word]
}

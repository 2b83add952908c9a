// Package wordlist reads lists of words by what they are used for, so that a grammar's words stand in a text of their own and not
// in its code.
package wordlist

import "strings"

// List holds words by their use.
type List map[string]string

// Read reads a text in which a use stands in front of a colon, its words behind it and in the lines below that begin with a tab.
// A line that begins with # is a comment.
func Read(text string) List {
	out := List{}
	use := ""
	for line := range strings.Lines(text) {
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
}

// Set are the words of a use, apart by white space. A use that the text does not have panics: a slip in its name would else
// leave the grammar without the words, and nothing would tell.
func (l List) Set(use string) map[string]bool {
	words, ok := l[use]
	if !ok {
		panic("wordlist: no words for " + use)
	}
	return Set(words)
}

// ByWord tells what each word stands for whose use begins so: the rest of the use. The words are apart by the sign between. A word
// that stands for two things panics: which of them it is given would change from run to run.
func (l List) ByWord(begins, between string) map[string]string {
	out := map[string]string{}
	for use, all := range l {
		if what, ok := strings.CutPrefix(use, begins); ok {
			for w := range strings.SplitSeq(strings.Join(strings.Fields(all), " "), between) {
				w = strings.TrimSpace(w)
				if other, twice := out[w]; twice && other != what {
					panic("wordlist: " + w + " stands for " + other + " and for " + what)
				}
				out[w] = what
			}
		}
	}
	return out
}

// Set are the words of a text, apart by white space.
func Set(words string) map[string]bool {
	out := map[string]bool{}
	for w := range strings.FieldsSeq(words) {
		out[w] = true
	}
	return out
}

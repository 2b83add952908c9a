// Package refusal is why something is not done, in the words and with the status it is told with.
package refusal

import (
	"unicode"
	"unicode/utf8"
)

// Error is an error with the status it is told with.
type Error struct {
	Status int
	Words  string // what was found and what was wanted
	Hint   string // how to mend it; may be ""
}

// New is an error with its status of HTTP, its words and how to mend it, which may be "".
func New(status int, words, hint string) *Error { return &Error{status, words, hint} }

func (f *Error) Error() string { return f.Words }

// Sentence is words of an error as a sentence on the page.
func Sentence(words string) string {
	first, size := utf8.DecodeRuneInString(words)
	return string(unicode.ToUpper(first)) + words[size:] + "."
}

// Package lazy holds regular expressions that are compiled when they are first asked, as a program with hundreds of
// them need not wait for those that it never asks, and tells which of many are worth asking by how a text begins.
package lazy

import (
	"regexp"
	"strings"
	"sync"
)

// Expr is a regular expression. It is safe for use by several goroutines.
type Expr struct {
	text  string
	start bool
	once  sync.Once
	re    *regexp.Regexp

	lock    sync.Mutex
	without map[string]bool // texts of late in which it has no match
}

// lately is how many texts without a match are kept. A reader that goes through a message once for each answer to a question asks
// for most expressions in the same lines again and again, of which few have a match.
const lately = 128

// Compile is an expression of which the first match counts. A text that is no expression panics when it is first asked.
func Compile(text string) *Expr { return &Expr{text: text} }

// Start is an expression for what a text begins with, of which the longest match counts.
func Start(text string) *Expr { return &Expr{text: text, start: true} }

func (e *Expr) compiled() *regexp.Regexp {
	e.once.Do(func() {
		e.re = regexp.MustCompile(e.String())
		if e.start {
			e.re.Longest()
		}
	})
	return e.re
}

// String is the text of the expression. It is put together here, as a program begins sooner that does not do it for all.
func (e *Expr) String() string {
	if e.start {
		return `^(?:` + e.text + `)`
	}
	return e.text
}

// Unnamed is an expression's text without the names of its parts. It takes no expression to do so, as programs do it
// while they begin.
func Unnamed(text string) string {
	parts := strings.Split(text, "?P<")
	for i, part := range parts[1:] {
		_, parts[i+1], _ = strings.Cut(part, ">")
	}
	return strings.Join(parts, "?:")
}

// missed says whether a text was found to have no match.
func (e *Expr) missed(s string) bool {
	e.lock.Lock()
	defer e.lock.Unlock()
	return e.without[s]
}

// keep keeps in mind that a text has no match.
func (e *Expr) keep(s string) {
	e.lock.Lock()
	defer e.lock.Unlock()
	if e.without == nil || len(e.without) == lately {
		e.without = map[string]bool{}
	}
	e.without[s] = true
}

// kept gives what was found in a text, and keeps it in mind when that is nothing.
func kept[T any](e *Expr, s string, out []T) []T {
	if out == nil {
		e.keep(s)
	}
	return out
}

// The methods of [regexp.Regexp].

func (e *Expr) SubexpIndex(name string) int { return e.compiled().SubexpIndex(name) }
func (e *Expr) SubexpNames() []string       { return e.compiled().SubexpNames() }

func (e *Expr) MatchString(s string) bool {
	if e.missed(s) {
		return false
	}
	if e.compiled().MatchString(s) {
		return true
	}
	e.keep(s)
	return false
}

func (e *Expr) FindString(s string) string {
	at := e.FindStringIndex(s)
	if at == nil {
		return ""
	}
	return s[at[0]:at[1]]
}

func (e *Expr) FindStringIndex(s string) []int {
	if e.missed(s) {
		return nil
	}
	return kept(e, s, e.compiled().FindStringIndex(s))
}

func (e *Expr) FindStringSubmatch(s string) []string {
	if e.missed(s) {
		return nil
	}
	return kept(e, s, e.compiled().FindStringSubmatch(s))
}

func (e *Expr) FindStringSubmatchIndex(s string) []int {
	if e.missed(s) {
		return nil
	}
	return kept(e, s, e.compiled().FindStringSubmatchIndex(s))
}

func (e *Expr) FindAllStringIndex(s string, n int) [][]int {
	if e.missed(s) {
		return nil
	}
	return kept(e, s, e.compiled().FindAllStringIndex(s, n))
}

func (e *Expr) FindAllStringSubmatchIndex(s string, n int) [][]int {
	if e.missed(s) {
		return nil
	}
	return kept(e, s, e.compiled().FindAllStringSubmatchIndex(s, n))
}

func (e *Expr) ReplaceAllString(s, with string) string {
	if !e.MatchString(s) {
		return s
	}
	return e.compiled().ReplaceAllString(s, with)
}

func (e *Expr) ReplaceAllStringFunc(s string, with func(string) string) string {
	if !e.MatchString(s) {
		return s
	}
	return e.compiled().ReplaceAllStringFunc(s, with)
}

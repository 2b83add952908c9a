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
}

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

// The methods of [regexp.Regexp].

func (e *Expr) MatchString(s string) bool            { return e.compiled().MatchString(s) }
func (e *Expr) SubexpIndex(name string) int          { return e.compiled().SubexpIndex(name) }
func (e *Expr) SubexpNames() []string                { return e.compiled().SubexpNames() }
func (e *Expr) FindString(s string) string           { return e.compiled().FindString(s) }
func (e *Expr) FindStringIndex(s string) []int       { return e.compiled().FindStringIndex(s) }
func (e *Expr) FindStringSubmatch(s string) []string { return e.compiled().FindStringSubmatch(s) }
func (e *Expr) FindStringSubmatchIndex(s string) []int {
	return e.compiled().FindStringSubmatchIndex(s)
}
func (e *Expr) FindAllStringIndex(s string, n int) [][]int {
	return e.compiled().FindAllStringIndex(s, n)
}
func (e *Expr) ReplaceAllString(s, with string) string { return e.compiled().ReplaceAllString(s, with) }
func (e *Expr) FindAllStringSubmatchIndex(s string, n int) [][]int {
	return e.compiled().FindAllStringSubmatchIndex(s, n)
}
func (e *Expr) ReplaceAllStringFunc(s string, with func(string) string) string {
	return e.compiled().ReplaceAllStringFunc(s, with)
}

// Package lazy holds regular expressions that are compiled when they are first asked, as a program with hundreds of
// them need not wait for those that it never asks, and tells what their matches may begin with.
package lazy

import (
	"regexp"
	"sync"
)

// Expr is a regular expression. It is safe for use by several goroutines.
type Expr struct {
	text     string
	compiled func() *regexp.Regexp
}

// Compile is an expression of which the first match counts. A text that is no expression panics when it is first asked.
func Compile(text string) *Expr { return newExpr(text, false) }

// Start is an expression for what a text begins with, of which the longest match counts.
func Start(text string) *Expr { return newExpr(`^(?:`+text+`)`, true) }

func newExpr(text string, longest bool) *Expr {
	return &Expr{text, sync.OnceValue(func() *regexp.Regexp {
		re := regexp.MustCompile(text)
		if longest {
			re.Longest()
		}
		return re
	})}
}

// String is the text of the expression.
func (e *Expr) String() string { return e.text }

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

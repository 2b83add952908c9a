package message

import (
	"regexp"
	"sync"
)

// expr is a regular expression that is compiled when it is first asked: there are
// hundreds, and a program that reads no message need not wait for them.
type expr struct {
	text     string
	compiled func() *regexp.Regexp
}

func compile(text string) *expr { return newExpr(text, false) }

// newExpr is an expression of which the longest match counts, or else the first.
func newExpr(text string, longest bool) *expr {
	return &expr{text, sync.OnceValue(func() *regexp.Regexp {
		re := regexp.MustCompile(text)
		if longest {
			re.Longest()
		}
		return re
	})}
}

func (e *expr) String() string                       { return e.text }
func (e *expr) MatchString(s string) bool            { return e.compiled().MatchString(s) }
func (e *expr) SubexpIndex(name string) int          { return e.compiled().SubexpIndex(name) }
func (e *expr) SubexpNames() []string                { return e.compiled().SubexpNames() }
func (e *expr) FindString(s string) string           { return e.compiled().FindString(s) }
func (e *expr) FindStringIndex(s string) []int       { return e.compiled().FindStringIndex(s) }
func (e *expr) FindStringSubmatch(s string) []string { return e.compiled().FindStringSubmatch(s) }
func (e *expr) FindStringSubmatchIndex(s string) []int {
	return e.compiled().FindStringSubmatchIndex(s)
}
func (e *expr) FindAllStringIndex(s string, n int) [][]int {
	return e.compiled().FindAllStringIndex(s, n)
}
func (e *expr) FindAllStringSubmatchIndex(s string, n int) [][]int {
	return e.compiled().FindAllStringSubmatchIndex(s, n)
}
func (e *expr) ReplaceAllString(s, with string) string { return e.compiled().ReplaceAllString(s, with) }
func (e *expr) ReplaceAllStringFunc(s string, with func(string) string) string {
	return e.compiled().ReplaceAllStringFunc(s, with)
}

// Package lazy holds regular expressions that are compiled when they are first asked, as a program with hundreds of
// them need not wait for those that it never asks, and tells what their matches may begin with.
package lazy

import (
	"regexp"
	"regexp/syntax"
	"strings"
	"sync"
	"unicode"
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

// Opens tells what a match may begin with: which small letters, and whether anything else.
func (e *Expr) Opens() (letters [26]bool, other bool) {
	tree, err := syntax.Parse(e.String(), syntax.Perl)
	if err != nil {
		panic("lazy: a pattern that compiled does not parse: " + err.Error()) // cannot be
	}
	var first func(t *syntax.Regexp) (empty bool)
	first = func(t *syntax.Regexp) bool {
		switch t.Op {
		case syntax.OpLiteral:
			c := t.Rune[0]
			add(&letters, &other, c, c)
			if t.Flags&syntax.FoldCase != 0 {
				for o := unicode.SimpleFold(c); o != c; o = unicode.SimpleFold(o) {
					add(&letters, &other, o, o)
				}
			}
			return false
		case syntax.OpCharClass:
			for i := 0; i < len(t.Rune); i += 2 {
				add(&letters, &other, t.Rune[i], t.Rune[i+1])
			}
			return false
		case syntax.OpAnyChar, syntax.OpAnyCharNotNL:
			add(&letters, &other, 0, 0x10ffff)
			return false
		case syntax.OpConcat:
			for _, sub := range t.Sub {
				if !first(sub) {
					return false
				}
			}
			return true
		case syntax.OpAlternate:
			empty := false
			for _, sub := range t.Sub {
				empty = first(sub) || empty
			}
			return empty
		case syntax.OpStar, syntax.OpQuest:
			first(t.Sub[0])
			return true
		case syntax.OpRepeat:
			return first(t.Sub[0]) || t.Min == 0
		case syntax.OpPlus, syntax.OpCapture:
			return first(t.Sub[0])
		}
		return true // an anchor or nothing
	}
	first(tree)
	return letters, other
}

// ByOpening sorts things by what their expressions may begin with, when it is first asked, and gives those worth trying on a text that
// is not empty, in their order.
func ByOpening[T any](groups func() [][]T, re func(T) *Expr) func(text string) []T {
	var words [26][]T // by the letter they may begin with
	var others []T    // for digits and signs
	sort := sync.OnceFunc(func() {
		for _, group := range groups() {
			for _, one := range group {
				letters, other := re(one).Opens()
				for i := range letters {
					if letters[i] {
						words[i] = append(words[i], one)
					}
				}
				if other {
					others = append(others, one)
				}
			}
		}
	})
	return func(text string) []T {
		sort()
		if c := text[0]; c >= 'a' && c <= 'z' {
			return words[c-'a']
		}
		return others
	}
}

func add(letters *[26]bool, other *bool, from, to rune) {
	for i := range letters {
		if c := 'a' + rune(i); from <= c && c <= to {
			letters[i] = true
		}
	}
	*other = *other || from < 'a' || to > 'z'
}

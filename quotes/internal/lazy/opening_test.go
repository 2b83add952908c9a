package lazy

import (
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

func itself(e *Expr) *Expr { return e }

func TestByOpening(t *testing.T) {
	exprs := []string{`abc`, `(?:a|b)?c`, `[x-z]+`, `\d{2}`, `(?:a|\$)\b`, `a{0,2}b`, `\bq`, `(?i)ab`, `a?`, `x*$`, `abcdefghijk`}
	all := make([]*Expr, len(exprs))
	for i, text := range exprs {
		all[i] = Start(text)
	}
	worth := ByOpening(func() [][]*Expr { return [][]*Expr{all[:4], all[4:]} }, itself)
	for text, want := range map[string][]string{
		"abc":          {`abc`, `a{0,2}b`, `(?i)ab`, `a?`},
		"ac":           {`(?:a|b)?c`, `a?`},
		"zebra":        {`[x-z]+`},
		"12":           {`\d{2}`},
		"1":            nil, // and nothing behind it
		"$":            nil, // no word begins or ends there
		"$5":           {`(?:a|\$)\b`},
		"AB":           {`(?i)ab`},
		"xx":           {`[x-z]+`, `x*$`},
		"abcdefghijk":  {`abc`, `a{0,2}b`, `(?i)ab`, `a?`, `abcdefghijk`},
		"abcdef":       {`abc`, `a{0,2}b`, `(?i)ab`, `a?`},
		"\u00e4\xffab": nil,
		"":             nil,
	} {
		var got []string
		for _, e := range worth(text) {
			got = append(got, e.text)
		}
		if len(want) <= few {
			assert.Subset(t, got, want, text)
		} else {
			assert.Equal(t, want, got, text)
		}
	}
	assert.Panics(t, func() { ByOpening(func() [][]*Expr { return [][]*Expr{{Start(`(`)}} }, itself)("a") })
}

// Whatever matches more than nothing is worth asking, on random texts, and where the tree is full as well.
func TestWhatMatchesIsAsked(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 2))
	parts := []string{"a", "b", "ab", "[ab]", "1", `\d`, `\b`, " ", "(?:a|b1)", "é", ".", "(?:ab)+", "a*", "b?", "$", "(?:1 )?", `(?:\b|a)`, "(?P<n>b)"}
	text := func(from []string, n int) string {
		var b strings.Builder
		for range n {
			b.WriteString(from[rnd.IntN(len(from))])
		}
		return b.String()
	}
	var all []*Expr
	for range 300 {
		all = append(all, Start(strings.ReplaceAll(text(parts, 1+rnd.IntN(12)), "(?P<n>b)", "(b)")))
	}
	worth := ByOpening(func() [][]*Expr { return [][]*Expr{all} }, itself)
	matched, asked := 0, 0
	for range 3000 {
		said := text([]string{"a", "b", "1", " ", "é", "\xff", "a", "b"}, rnd.IntN(14))
		is := map[*Expr]bool{}
		for _, e := range worth(said) {
			is[e] = true
		}
		asked += len(is)
		for _, e := range all {
			if found := e.FindString(said); found != "" {
				matched++
				assert.True(t, is[e], "%q matches %q of %q", e.text, found, said)
			}
		}
	}
	assert.Greater(t, matched, 10_000)
	assert.Less(t, asked, 2*matched, "and little that does not match is")
}

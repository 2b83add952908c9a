package lazy

import (
	"regexp/syntax"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestStart(t *testing.T) {
	e := Start(`(?:a|ab)(?P<n>c)?`)
	assert.Equal(t, "abc", e.FindString("abcd"), "the longest match")
	assert.Equal(t, 1, e.SubexpIndex("n"))
	assert.Empty(t, e.FindString("xab"), "only at the start")
	assert.Equal(t, "a", Compile(`a|ab`).FindString("ab"), "the first match")
}

func TestOpens(t *testing.T) {
	for text, want := range map[string]struct {
		letters string
		other   bool
	}{
		`abc`: {"a", false}, `(?:a|b)?c`: {"abc", false}, `[x-z]+`: {"xyz", false}, `\d{2}`: {"", true}, `(?:a|\$)`: {"a", true}, `(?:a{0,2})b`: {"ab", false}, `\bq`: {"q", false},
		`(?i)ab`: {"a", true}, `(?:a|(?i)b)c`: {"ab", true}, `(?i:a)|b`: {"ab", true}, `(?P<n>a*)(?:b+|c??){0,2}d`: {"abcd", false},
		`[^b-z]x`: {"a", true}, `[]a]`: {"a", true}, `[[:digit:]b\]]`: {"b", true}, `(?:\(a|b\)|\x{e9}|\x63|\pN|\p{Greek})`: {"bc", true}, `.`: {"abcdefghijklmnopqrstuvwxyz", true},
		`a{0,1}b{2,}c`: {"ab", false}, `a{00}b`: {"a", false}, `\Qa|b\E`: {"a", false}, `(?-i:a)`: {"a", false}, `{b`: {"", true}, `ab{,3}`: {"a", false}, `a?{b`: {"a", true}, `é|£`: {"", true}, ``: {"", false},
	} {
		letters, other := Start(text).Opens()
		got := ""
		for i, is := range letters {
			if is {
				got += string(rune('a' + i))
			}
		}
		assert.Equal(t, want.letters, got, text)
		assert.Equal(t, want.other, other, text)
	}
	assert.Panics(t, func() { Compile(`(`).MatchString("") })
}

// What is read off the text is what the tree says, whatever stands in it.
func FuzzOpens(f *testing.F) {
	for _, text := range []string{`^(?:(?:at |is )?(?P<n>\d{1,3}(?:[ \x{a0}]\d{3})+)|us\$)`, `(?i:kg|lb)s?`, `[[:alpha:]^\]-]*?x`, `a{0,}|\pL\x41.`, `\Qa\E(?-s:.)`, `(?m)^\bé`} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		tree, err := syntax.Parse(text, syntax.Perl)
		if err != nil {
			return
		}
		var want opening
		want.first(tree)
		letters, other := Compile(text).Opens()
		assert.Equal(t, want, opening{letters, other}, text)
	})
}

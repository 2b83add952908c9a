package safe

import (
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

func TestCell(t *testing.T) {
	for _, c := range []struct{ in, want string }{
		{"", ""},
		{"Low Ford Quarry", "Low Ford Quarry"},
		{"=1+1", "'=1+1"},
		{"+44 20", "'+44 20"},
		{"-2+3", "'-2+3"},
		{"@SUM(A1)", "'@SUM(A1)"},
		{"\t=1+1", "' =1+1"},
		{"\r=1", "' =1"},
		{" =1+1", "' =1+1"},
		{"\u00a0=1", "'\u00a0=1"},
		{"\x00=1", "'=1"},
		{"＝1", "'＝1"},
		{"-", "-"},
		{"\t-", "' -"},
		{"-3", "-3"},
		{"-3.5", "-3.5"},
		{"12.50", "12.50"},
		{"a\nb", "a b"},
		{"a=b", "a=b"},
	} {
		assert.Equal(t, c.want, Cell(c.in), "%q", c.in)
	}
}

func TestCellNeverBeginsAFormula(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := rapid.StringOf(rapid.RuneFrom([]rune("=+-@＝\t\r\n\x00\u200e '\u00a0aé1.5"))).Draw(t, "text")
		out := Cell(in)
		assert.NotContains(t, out, "\n")
		if _, number := isNumber(out); number || out == "-" {
			return
		}
		assert.False(t, startsWithSign(out), "%q became %q", in, out)
	})
}

func isNumber(s string) (string, bool) {
	digits := strings.Trim(strings.TrimPrefix(s, "-"), "0123456789.")
	return s, s != "" && digits == "" && strings.ContainsAny(s, "0123456789")
}

func TestFileName(t *testing.T) {
	for _, c := range []struct {
		in   []string
		want string
	}{
		{[]string{"Low Ford Quarry"}, "low-ford-quarry"},
		{[]string{"A/B Stone", "north yard"}, "a-b-stone-north-yard"},
		{[]string{"../../etc/passwd"}, "etc-passwd"},
		{[]string{`C:\x`}, "c-x"},
		{[]string{"Grün & Söhne"}, "grün-söhne"},
		{[]string{"...", "/"}, "unnamed"},
		{[]string{"Tansy Hill", ""}, "tansy-hill"},
		{[]string{"NUL"}, "nul-"},
		{[]string{"Com1"}, "com1-"},
		{[]string{"-rf"}, "rf"},
	} {
		assert.Equal(t, c.want, FileName(c.in...), "%q", c.in)
	}
}

func TestFileNamesAreDistinct(t *testing.T) {
	got := FileNames([][]string{{"A/B"}, {"A B"}, {"a-b"}, {"a-b-2"}})
	assert.Equal(t, []string{"a-b", "a-b-2", "a-b-3", "a-b-2-2"}, got)
}

func TestFileNameStaysInItsFolder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		name := FileName(rapid.SliceOf(rapid.String()).Draw(t, "words")...)
		assert.NotEmpty(t, name)
		assert.LessOrEqual(t, len(name), maxName+1)
		assert.Equal(t, name, filepath.Base(name))
		assert.False(t, strings.HasPrefix(name, ".") || strings.HasPrefix(name, "-"), name)
	})
}

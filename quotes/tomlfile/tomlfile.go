// Package tomlfile is the one layer that edits a file of settings: a value is put in
// the place of another, and every byte that is no part of it stays, comments included.
package tomlfile

import (
	"bytes"
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"time"
	"unicode/utf8"

	"github.com/pelletier/go-toml/v2"
	"github.com/pelletier/go-toml/v2/unstable"
)

// Key is the path of a setting: its tables, then its name.
type Key []string

func (k Key) String() string { return strings.Join(k, ".") }

func (k Key) is(other []string) bool { return slices.Equal(k, other) }

// File is the text of a file with the places of its settings.
type File struct {
	text   []byte
	values []value
	tables []table
}

// value is one setting that is there.
type value struct {
	key      Key
	line     int
	lineFrom int // where its line begins
	from, to int // of the value itself; both 0 for one that is not written in one piece
	text     string
	inTable  int // index of the table it stands in; -1 above the first
	above    int // how many names of its key its table gives
}

// table is one heading line such as [buyer].
type table struct {
	key  Key
	from int // where its line begins
	end  int // behind its line
}

// Open finds the settings of a text. The error is for what is no TOML in UTF-8.
func Open(text []byte) (*File, error) {
	if !utf8.Valid(text) {
		return nil, errors.New("the text is not UTF-8")
	}
	var whole map[string]any
	if err := toml.Unmarshal(text, &whole); err != nil {
		return nil, err
	}
	f := &File{text: text}
	var p unstable.Parser
	p.Reset(text)
	in := -1
	for p.NextExpression() {
		e := p.Expression()
		switch e.Kind {
		case unstable.Table, unstable.ArrayTable:
			key, at := keyOf(&p, e)
			f.tables = append(f.tables, table{key, f.lineStart(at), f.lineEnd(at)})
			in = len(f.tables) - 1
		case unstable.KeyValue:
			f.keyValue(&p, e, nil, in, -1)
		}
	}
	return f, p.Error()
}

// keyOf is the key of an expression and where it begins.
func keyOf(p *unstable.Parser, e *unstable.Node) (key Key, at int) {
	at = -1
	for it := e.Key(); it.Next(); {
		n := it.Node()
		key = append(key, string(n.Data))
		if at < 0 {
			at = int(n.Raw.Offset)
		}
	}
	return key, at
}

// keyValue notes a setting, or those of an inline table. line is where the line of
// such a table begins; -1 outside of one.
func (f *File) keyValue(p *unstable.Parser, e *unstable.Node, above Key, in, line int) {
	own, at := keyOf(p, e)
	if above == nil && in >= 0 {
		above = f.tables[in].key
	}
	v := value{key: append(slices.Clone(above), own...), lineFrom: line, inTable: in}
	if line < 0 {
		v.lineFrom = f.lineStart(at)
	}
	v.line = 1 + bytes.Count(f.text[:at], []byte("\n"))
	if in >= 0 {
		v.above = len(f.tables[in].key)
	}
	n := e.Value()
	switch n.Kind {
	case unstable.InlineTable:
		for it := n.Children(); it.Next(); {
			f.keyValue(p, it.Node(), v.key, in, v.lineFrom)
		}
		return
	case unstable.Array:
	case unstable.Bool: // which has no range of its own
		r := p.Range(n.Data)
		v.from, v.to = int(r.Offset), int(r.Offset+r.Length)
	default:
		v.from, v.to = int(n.Raw.Offset), int(n.Raw.Offset+n.Raw.Length)
	}
	v.text = string(n.Data)
	f.values = append(f.values, v)
}

func (f *File) lineStart(at int) int { return bytes.LastIndexByte(f.text[:at], '\n') + 1 }

// lineEnd is behind the line end of a line, or the end of the text.
func (f *File) lineEnd(at int) int {
	if i := bytes.IndexByte(f.text[at:], '\n'); i >= 0 {
		return at + i + 1
	}
	return len(f.text)
}

// Value is a setting as a person would type it: a text without its quote marks,
// anything else as it is written. ok is false for one that is not there.
func (f *File) Value(k Key) (text string, ok bool) {
	i := f.find(k)
	if i < 0 {
		return "", false
	}
	return f.values[i].text, true
}

// At is the setting that stands on a line, counted from 1; nil for a line without one.
func (f *File) At(line int) Key {
	for _, v := range f.values {
		if v.line == line {
			return v.key
		}
	}
	return nil
}

func (f *File) find(k Key) int {
	return slices.IndexFunc(f.values, func(v value) bool { return k.is(v.key) })
}

// Set gives the file with a setting put to a value; "" takes it out. A setting that is
// not there yet goes behind the comment that shows it, else to the end of its table.
// The error is for a place that only a hand can edit.
func (f *File) Set(k Key, text string) (*File, error) {
	if !utf8.ValidString(k.String()) || !utf8.ValidString(text) {
		return nil, fmt.Errorf("%q is not UTF-8", text)
	}
	i := f.find(k)
	var from, to int
	var put string
	switch {
	case i < 0 && text == "":
		return f, nil
	case i < 0:
		from, put = f.room(k, Written(text))
		to = from
	case f.values[i].to == 0:
		return nil, fmt.Errorf("%s is not one value, so it is changed in the text of the file", k)
	case text == "":
		from, to = f.values[i].lineFrom, f.lineEnd(f.values[i].to)
	default:
		from, to, put = f.values[i].from, f.values[i].to, Written(text)
		if was := f.text[from:to]; text != "" && !bytes.HasPrefix(was, []byte(`"`)) && !bytes.HasPrefix(was, []byte(`'`)) && bare.MatchString(text) {
			put = text // a number that stood without quote marks keeps to it
		}
	}
	out := slices.Concat(f.text[:from], []byte(put), f.text[to:])
	g, err := Open(out)
	if err == nil && !g.onlyChanged(f, k, text) {
		err = errors.New("it cannot be told from what stands beside it")
	}
	if err != nil {
		return nil, fmt.Errorf("%s cannot be set here (%w), so it is changed in the text of the file", k, err)
	}
	return g, nil
}

// onlyChanged reports whether the file differs from another by one setting alone.
func (f *File) onlyChanged(from *File, k Key, text string) bool {
	if got, ok := f.Value(k); ok != (text != "") || got != text {
		return false
	}
	others := func(list []value) (out []string) {
		for _, v := range list {
			if !k.is(v.key) {
				out = append(out, v.key.String()+"="+v.text)
			}
		}
		return out
	}
	return slices.Equal(others(f.values), others(from.values))
}

var (
	bare    = regexp.MustCompile(`^(0|[1-9][0-9]*)(\.[0-9]+)?$`)
	whole   = regexp.MustCompile(`^(0|[1-9][0-9]*)$`)
	bareKey = regexp.MustCompile(`^[A-Za-z0-9_-]+$`)
)

// Written is a value as it is written: true, false, a day or a whole number as it
// stands, everything else in quote marks.
func Written(text string) string {
	if _, err := time.Parse(time.DateOnly, text); err == nil || text == "true" || text == "false" || whole.MatchString(text) {
		return text
	}
	return quoted(text)
}

// quoted is a text in quote marks, as TOML writes it.
func quoted(text string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range text {
		switch {
		case r == '"' || r == '\\':
			b.WriteString(`\` + string(r))
		case r == '\n':
			b.WriteString(`\n`)
		case r == '\t':
			b.WriteString(`\t`)
		case r < ' ' || r == 0x7f:
			fmt.Fprintf(&b, `\u%04X`, r)
		default:
			b.WriteRune(r)
		}
	}
	b.WriteByte('"')
	return b.String()
}

func keyWord(name string) string {
	if bareKey.MatchString(name) {
		return name
	}
	return quoted(name)
}

// room is where a setting that is not there goes, and the text of its line.
func (f *File) room(k Key, written string) (at int, text string) {
	end := "\n"
	if bytes.Contains(f.text, []byte("\r\n")) {
		end = "\r\n"
	}
	name := k[len(k)-1]
	line := keyWord(name) + " = " + written + end
	path := k[:len(k)-1]
	// The part of the text that belongs to its table.
	from, to, found := 0, len(f.text), len(path) == 0
	if len(f.tables) > 0 && found {
		to = f.tables[0].from
	}
	for i, t := range f.tables {
		if Key(path).is(t.key) {
			from, to, found = t.end, len(f.text), true
			if i+1 < len(f.tables) {
				to = f.tables[i+1].from
			}
			break
		}
	}
	if !found { // beside settings of the same table written with points, else in a table of its own
		for _, v := range slices.Backward(f.values) {
			if len(v.key) == len(k) && slices.Equal(v.key[:len(path)], path) && v.above < len(path) && f.lineStart(v.from) == v.lineFrom {
				var words []string
				for _, w := range k[v.above:] {
					words = append(words, keyWord(w))
				}
				return f.lineEnd(v.to), f.newline(f.lineEnd(v.to), end) + strings.Join(words, ".") + " = " + written + end
			}
		}
		var words []string
		for _, w := range path {
			words = append(words, keyWord(w))
		}
		return len(f.text), f.newline(len(f.text), end) + end + "[" + strings.Join(words, ".") + "]" + end + line
	}
	shown := regexp.MustCompile(`(?m)^#[ \t]*` + regexp.QuoteMeta(name) + `[ \t]*=.*$`)
	if m := shown.FindIndex(f.text[from:to]); m != nil {
		at = f.lineEnd(from + m[0])
		return at, f.newline(at, end) + line
	}
	at = from
	for _, v := range f.values {
		if v.from >= from && v.to <= to && v.to > 0 {
			at = max(at, f.lineEnd(v.to))
		}
	}
	return at, f.newline(at, end) + line
}

// newline is a line end where the text before a place lacks one.
func (f *File) newline(at int, end string) string {
	if at > 0 && f.text[at-1] != '\n' {
		return end
	}
	return ""
}

// Bytes is the text as it is to be written.
func (f *File) Bytes() []byte { return f.text }

package quotes

import (
	"bytes"
	_ "embed"
	"slices"
	"strings"
)

//go:embed media.csv
var builtinMedia []byte

// builtinName names the embedded table in messages.
const builtinName = "built-in media.csv"

// MediaTable holds the media a job knows, by name and by other names. The zero
// table is empty.
type MediaTable struct {
	byKey map[string]*Medium // under the key of every name
	all   []*Medium          // sorted by name
	// broken are names of rows with problems: a quote of such a medium is not
	// also told that the medium is unknown.
	broken map[string]bool
}

// BuiltinMedia is a fresh copy of the built-in table. Each number there has its
// source beside it, or says that there is none.
func BuiltinMedia() *MediaTable {
	x := &reader{opt: Options{}}
	t := &MediaTable{}
	err := x.media(t, Source{Name: builtinName, R: bytes.NewReader(builtinMedia)})
	if err == nil {
		err = x.rep.Err()
	}
	if err != nil {
		panic("quotes: " + err.Error()) // the table is part of the program and a test reads it
	}
	for _, m := range t.all {
		m.Pos = Pos{}
	}
	return t
}

// Lookup finds a medium by its name or one of its other names. Case, spaces, "_"
// and "-" do not tell names apart.
func (t *MediaTable) Lookup(name string) (*Medium, bool) {
	m, ok := t.byKey[wordKey(name)]
	return m, ok
}

// All lists the media sorted by name. The slice is the caller's.
func (t *MediaTable) All() []*Medium { return slices.Clone(t.all) }

// Nearest is the known name most like name, or "" when none is close.
func (t *MediaTable) Nearest(name string) string { return nearest(name, t.names()) }

// names lists every name and other name, in a fixed order: names go first, so
// that of two equally near the medium's own name is offered.
func (t *MediaTable) names() []string {
	var own, other []string
	for _, m := range t.all {
		own = append(own, m.Name)
		other = append(other, m.OtherNames...)
	}
	return append(own, other...)
}

// put adds a medium, or replaces the one of that name.
func (t *MediaTable) put(m *Medium) {
	if t.byKey == nil {
		t.byKey = map[string]*Medium{}
	}
	if old, ok := t.byKey[wordKey(m.Name)]; ok {
		t.all = slices.DeleteFunc(t.all, func(a *Medium) bool { return a == old })
	}
	for _, n := range append([]string{m.Name}, m.OtherNames...) {
		t.byKey[wordKey(n)] = m
	}
	at, _ := slices.BinarySearchFunc(t.all, m, func(a, b *Medium) int { return strings.Compare(a.Name, b.Name) })
	t.all = slices.Insert(t.all, at, m)
}

// spoil notes that a row about this name had problems.
func (t *MediaTable) spoil(name string) {
	if t.broken == nil {
		t.broken = map[string]bool{}
	}
	t.broken[wordKey(name)] = true
}

// medium reads a cell, or a part of one, as the name of a medium.
func (x *reader) medium(t *MediaTable, c *cell, name string) (*Medium, bool) {
	if c.off {
		return nil, false
	}
	if m, ok := t.Lookup(name); ok {
		return m, true
	}
	if t.broken[wordKey(name)] {
		return nil, false // its row in media.csv is reported
	}
	hint := "add a row for it to media.csv"
	if strings.Contains(name, ",") {
		hint = "separate media with a semicolon"
	}
	x.fail(c, quoted(name)+" is no known medium", "a medium of the media table", didYouMean(name, t.names(), hint))
	return nil, false
}

// mediaList reads a list of media with ";" between; one named twice is kept once.
func (x *reader) mediaList(t *MediaTable, c *cell) ([]*Medium, bool) {
	var out []*Medium
	ok := true
	for _, p := range parts(c.text) {
		m, known := x.medium(t, c, p)
		if !known {
			ok = false
			continue
		}
		if !slices.Contains(out, m) {
			out = append(out, m)
		}
	}
	return out, ok
}

package files

import (
	"bytes"
	_ "embed"
	"mediabuy/quotes"
	"mediabuy/quotes/internal/spelling"
	"slices"
	"strings"
)

//go:embed media.csv
var builtinMedia []byte

// builtinName names the embedded table in messages.
const builtinName = "built-in media.csv"

// BuiltinMedia is a fresh copy of the built-in table. Each number there has its
// source beside it, or says that there is none.
func BuiltinMedia() *quotes.MediaTable {
	x := &reader{opt: Options{}}
	t := &quotes.MediaTable{}
	err := x.media(t, Source{Name: builtinName, R: bytes.NewReader(builtinMedia)})
	if err == nil {
		err = x.rep.Err()
	}
	if err != nil {
		panic("quotes: " + err.Error()) // the table is part of the program and a test reads it
	}
	for _, m := range t.All() {
		m.Pos = quotes.Pos{}
	}
	return t
}

// medium reads a cell, or a part of one, as the name of a medium.
func (x *reader) medium(t *quotes.MediaTable, c *cell, name string) (*quotes.Medium, bool) {
	if c.off {
		return nil, false
	}
	if m, ok := t.Lookup(name); ok {
		return m, true
	}
	if x.broken[spelling.WordKey(name)] {
		return nil, false // its row in media.csv is reported
	}
	hint := "add a row for it to media.csv"
	if strings.Contains(name, ",") {
		hint = "separate media with a semicolon"
	}
	x.fail(c, spelling.Quoted(name)+" is no known medium", "a medium of the media table", spelling.DidYouMean(name, t.Names(), hint))
	return nil, false
}

// mediaList reads a list of media with ";" between; one named twice is kept once.
func (x *reader) mediaList(t *quotes.MediaTable, c *cell) ([]*quotes.Medium, bool) {
	var out []*quotes.Medium
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

package files

import (
	"bytes"
	"cmp"
	_ "embed"
	"encoding/csv"
	"fmt"
	"slices"
	"strings"
	"sync"

	"mediabuy/quotes"
	"mediabuy/quotes/internal/spelling"
	"mediabuy/quotes/internal/typed"
)

//go:embed media.csv
var builtinMedia []byte

//go:embed media_sources.csv
var builtinSources []byte

// builtinName names the embedded table in messages.
const builtinName = "built-in media.csv"

// BuiltinMedia is a fresh copy of the built-in table. Each number there has its
// source beside it, or says that there is none.
func BuiltinMedia() *quotes.MediaTable {
	t := &quotes.MediaTable{}
	for _, m := range builtinTable().All() {
		own := *m
		own.OtherNames, own.Citations = slices.Clone(m.OtherNames), slices.Clone(m.Citations)
		t.Put(&own)
	}
	return t
}

// builtinTable reads the built-in table once: a message is read back many times over.
var builtinTable = sync.OnceValue(func() *quotes.MediaTable {
	x := &reader{opt: Options{}}
	t := &quotes.MediaTable{}
	err := x.media(t, Source{Name: builtinName, R: bytes.NewReader(builtinMedia)})
	if err == nil {
		err = x.rep.Err()
	}
	if err != nil {
		panic("quotes: " + err.Error()) // the table is part of the program and a test reads it
	}
	cited, err := citations()
	if err != nil {
		panic("quotes: " + err.Error())
	}
	for _, m := range t.All() {
		m.Pos = quotes.Pos{}
		m.Citations = cited[m.Name]
		m.Source = citedWords(m.Citations)
	}
	return t
})

// citations reads the sources of the built-in figures, by medium.
func citations() (map[string][]quotes.Citation, error) {
	cr := csv.NewReader(bytes.NewReader(builtinSources))
	cr.Comment = '#'
	rows, err := cr.ReadAll()
	if err != nil {
		return nil, fmt.Errorf("reading the built-in media_sources.csv: %w", err)
	}
	out := map[string][]quotes.Citation{}
	for _, r := range rows[1:] {
		out[r[0]] = append(out[r[0]], quotes.Citation{Property: r[1], Figure: r[2], Body: r[3], Address: r[4], Mark: r[5]})
	}
	return out, nil
}

func citedWords(list []quotes.Citation) string {
	words := make([]string, len(list))
	for i, c := range list {
		words[i] = c.String()
	}
	return strings.Join(words, "; ")
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
	hint := "write one that mediabuy media lists, or add a row for it to media.csv"
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
	list := parts(c.text)
	if names := typed.Media(t, c.text); names != nil && !c.off {
		x.warn(c, fmt.Sprintf("%s is read as %s", spelling.Quoted(c.text), strings.Join(names, "; ")), asIs)
		list = names
	}
	for _, p := range list {
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

// ReadSettings reads a job.toml by itself, without the job around it; a source without
// a reader gives the settings of a job that has none. They are nil where the report has
// a problem.
func ReadSettings(src Source, opt Options) (*quotes.Settings, *quotes.Report, error) {
	if opt.Today.IsZero() {
		return nil, nil, errNoClock
	}
	x := &reader{opt: opt}
	src.Name = cmp.Or(src.Name, SettingsFile)
	if err := x.settings(src); err != nil {
		return nil, nil, err
	}
	x.rep.Sort([]string{src.Name})
	if !x.rep.OK() {
		return nil, &x.rep, nil
	}
	return &x.set, &x.rep, nil
}

// ReadMedia reads a media.csv over the built-in table by itself, without the job
// around it. The table is nil where the report has a problem.
func ReadMedia(src Source) (*quotes.MediaTable, *quotes.Report, error) {
	x := &reader{}
	src.Name = cmp.Or(src.Name, MediaFile)
	t := BuiltinMedia()
	if err := x.media(t, src); err != nil {
		return nil, nil, err
	}
	x.rep.Sort([]string{src.Name})
	if !x.rep.OK() {
		return nil, &x.rep, nil
	}
	return t, &x.rep, nil
}

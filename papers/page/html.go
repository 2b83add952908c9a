package page

import (
	"cmp"
	_ "embed"
	"encoding/base64"
	"fmt"
	"html/template"
	"io"
	"strings"
	"sync"

	"mediabuy/papers/ink"
)

//go:embed page.gohtml
var htmlText string

//go:embed page.css
var cssText string

// htmlPage is read at first use: most commands need none.
var htmlPage = sync.OnceValue(func() *template.Template {
	return template.Must(template.New("page").Funcs(template.FuncMap{
		"bar": func(v float64) template.CSS { return template.CSS(fmt.Sprintf("width:%.1f%%", 100*min(1, max(0, v)))) },
		"day": func(p *Page) string { return p.Day.Format("2006-01-02") },
	}).Parse(htmlText))
})

// HTML writes the page as one HTML file that needs no other and runs no script.
func (p *Page) HTML(w io.Writer) error {
	named := p.clean()
	named.label()
	named.shorten(p.forSheet())
	return htmlPage().Execute(w, struct {
		*Page
		CSS  template.CSS
		Size template.CSS
	}{named, template.CSS(css()), p.sheetSize()})
}

// label names each table for those who do not see where it stands: by its caption, or
// else by the heading above it and that of its first column. No two have one name.
func (p *Page) label() {
	taken := map[string]int{}
	for _, s := range p.Printed() {
		for _, b := range s.Blocks {
			t, ok := b.(*Table)
			if !ok {
				continue
			}
			name := t.Caption
			if cols := t.shown(); name == "" && len(cols) > 0 {
				name = cmp.Or(s.Heading, p.Title) + ": " + t.Cols[cols[0]].Name
			}
			if taken[name]++; taken[name] > 1 {
				name = fmt.Sprintf("%s (%d)", name, taken[name])
			}
			t.label = name
		}
	}
}

// Label is the table's name, for the template.
func (t *Table) Label() string { return t.label }

// sheetSize is the size asked of a printer.
func (p *Page) sheetSize() template.CSS {
	if p.Letter {
		return "letter"
	}
	return "A4"
}

// css is the style with the colours of package ink put in.
func css() string {
	return strings.NewReplacer(
		"$paper", ink.Paper.Hex(), "$panel", ink.Panel.Hex(), "$alarm-panel", ink.AlarmPanel.Hex(), "$text", ink.Text.Hex(),
		"$quiet", ink.Quiet.Hex(), "$alarm", ink.Alarm.Hex(), "$accent", ink.Accent.Hex(), "$rule", ink.Rule.Hex(), "$hairline", ink.Hairline.Hex(),
	).Replace(cssText)
}

// Name says which block this is, for the template.
func (*Para) Name() string    { return "para" }
func (*List) Name() string    { return "list" }
func (*Table) Name() string   { return "table" }
func (*Picture) Name() string { return "picture" }
func (*Chart) Name() string   { return "chart" }
func (*Fields) Name() string  { return "fields" }

// SVG is the drawing for the template; ink escapes every word in it.
func (x *Picture) SVG() template.HTML { return template.HTML(x.Drawing.SVG(x.Caption)) }

// URL is the chart within the file itself, as an image, so that nothing in it can
// run.
func (x *Chart) URL() template.URL {
	switch {
	case len(x.SVG) > 0:
		return template.URL("data:image/svg+xml;base64," + base64.StdEncoding.EncodeToString(x.SVG))
	case len(x.PNG) > 0:
		return template.URL("data:image/png;base64," + base64.StdEncoding.EncodeToString(x.PNG))
	}
	return ""
}

// htmlCell is one cell ready for the template.
type htmlCell struct {
	Text  string
	Label string // heading of its column, shown beside it on narrow screens
	Class string
	Bar   *float64
	Span  int // columns that it takes; 0 for one
}

// Heads are the shown headings, for the template.
func (t *Table) Heads() []htmlCell {
	var out []htmlCell
	for _, j := range t.shown() {
		out = append(out, htmlCell{Text: t.Cols[j].Name, Class: class(t.Cols[j])})
	}
	return out
}

// htmlRow is one row ready for the template.
type htmlRow struct {
	Class string
	Cells []htmlCell
}

// Lines are the shown rows, for the template; those that stand on paper only, or on a
// screen only, say so.
func (t *Table) Lines() []htmlRow {
	var out []htmlRow
	for i, r := range t.Rows {
		var cells []htmlCell
		for _, j := range t.shown() {
			c := r.cell(j)
			cells = append(cells, htmlCell{Text: c.Text, Label: t.Cols[j].Name, Class: class(t.Cols[j]), Bar: c.Bar})
		}
		kind := [...]string{"", "sub", "total"}[r.Kind]
		if t.rest != nil && i >= t.leaves && i < t.Cut.To {
			kind = strings.TrimSpace(kind + " on-screen")
		}
		out = append(out, htmlRow{kind, cells})
		if t.rest != nil && i == t.Cut.To-1 {
			out = append(out, htmlRow{"on-paper", t.restCells()})
		}
	}
	return out
}

// restCells are the cells of the row for what is left out: the first has the room of the
// empty ones behind it.
func (t *Table) restCells() []htmlCell {
	var out []htmlCell
	for i, j := range t.shown() {
		c := t.rest.cell(j)
		if n := len(out); n == 1 && c.Text == "" && i > 0 {
			out[0].Span = max(out[0].Span, 1) + 1
			continue
		}
		out = append(out, htmlCell{Text: c.Text, Label: t.Cols[j].Name, Class: class(t.Cols[j])})
	}
	return out
}

func class(c Col) string {
	var out []string
	if c.Right {
		out = append(out, "num")
	}
	if c.Narrow {
		out = append(out, "narrow")
	}
	return strings.Join(out, " ")
}

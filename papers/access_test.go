package papers

import (
	"bytes"
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"

	"mediabuy/optimise"
	"mediabuy/optimise/breakeven"
	"mediabuy/optimise/risk"
	"mediabuy/optimise/share"
	"mediabuy/optimise/talk"
	"mediabuy/papers/ink"
	"mediabuy/papers/page"
	"mediabuy/papers/page/pagetest"
	"mediabuy/papers/received"
	"mediabuy/papers/statement"
	"mediabuy/quotes"
	"mediabuy/units"
)

// allPapers is every kind of paper, of jobs with members and sites.
func allPapers(t *testing.T) map[string]*page.Page {
	out := map[string]*page.Page{}
	st := Style{Units: units.US}
	in := gardensInput(t)
	in.Sureness = &Sureness{Curve: &risk.Curve{Points: []risk.Point{{Plan: in.Plan, Sure: 0.43, Chosen: true}}}, Chart: pictured(t)}
	for _, reader := range []Audience{"", Client, Coop} {
		in.For = reader
		p, err := Justify(in, st)
		require.NoError(t, err)
		out["report for "+string(reader)] = p
	}
	orders, err := Orders(in.Plan, st)
	require.NoError(t, err)
	var ordered []received.Ordered
	for _, o := range orders {
		out["order "+o.Supplier+o.Site] = o.Page(st)
		for _, l := range in.Plan.Bill.Lines {
			if l.Quote.Supplier == o.Supplier && l.Site == o.Site {
				ordered = append(ordered, received.Ordered{Order: "1", Quote: l.Quote, Site: l.Site, Packs: l.Packs, Amount: l.Goods})
			}
		}
	}
	requests, err := Requests(in.Plan.Job, nil, st)
	require.NoError(t, err)
	for _, r := range requests {
		out["request "+r.Supplier] = r.Page(st)
	}
	for _, g := range Gates(in.Plan.Job, ordered) {
		out["gate "+g.Supplier+g.Site] = g.Page(st)
	}
	for i := range ordered {
		ordered[i].Due = after(9)
	}
	for _, l := range Letters(in.Plan.Job, received.Count(in.Plan.Job, ordered, nil, after(10)), after(10)) {
		out["letter "+l.Supplier] = l.Page(st)
	}
	plan, err := breakeven.Today(context.Background(), in.Plan.Job, optimise.Options{})
	require.NoError(t, err)
	talks, err := talk.Of(context.Background(), in.Plan.Job, plan, quotes.Suppliers(in.Plan.Job), talk.Options{})
	require.NoError(t, err)
	for _, one := range talks {
		out["talk "+one.Supplier] = TalkPage(one, st)
	}
	for _, rule := range []share.Rule{share.ByLitres, share.Shapley} {
		split, err := share.Solve(context.Background(), in.Plan.Job, share.Options{Plan: in.Plan, Rule: rule})
		require.NoError(t, err)
		for _, p := range statement.Papers(split, units.US) {
			out[fmt.Sprint("statement ", rule, " ", p.Name)] = p.Page
		}
	}
	return out
}

// Every paper reads well to somebody who hears it: one heading of the first level and
// no level left out, tables with a name of their own and headings that say what they
// head, pictures with words, everything within a landmark (WCAG 2.2, 1.1.1, 1.3.1,
// 2.4.2, 2.4.6, 3.1.1, https://www.w3.org/TR/WCAG22/; memory).
func TestPapersCanBeHeard(t *testing.T) {
	list := allPapers(t)
	for _, kind := range []string{"report", "order", "request", "gate", "letter", "talk", "statement"} {
		found := false
		for name := range list {
			found = found || strings.HasPrefix(name, kind)
		}
		assert.True(t, found, kind)
	}
	for name, p := range list {
		p.Alarm = cmp.Or(p.Alarm, "Not proven.")
		var b bytes.Buffer
		require.NoError(t, p.HTML(&b))
		// A reader in the dark sees the paper as it is printed: its own colours, whose
		// contrast package ink is held to.
		assert.Contains(t, b.String(), "color-scheme: light;", name)
		assert.Contains(t, b.String(), "background: "+ink.Paper.Hex()+"; color: "+ink.Text.Hex(), name)
		doc, err := html.Parse(&b)
		require.NoError(t, err)
		assert.Empty(t, faults(doc), name)
	}
}

// The check finds what it is there for.
func TestFaultsAreFound(t *testing.T) {
	doc, err := html.Parse(strings.NewReader(`<html><head><title> </title></head><body><p>out</p><main><h1>a</h1><h3>b</h3><h1>c</h1>
<table><tr><th></th><td>1</td></tr></table><table aria-label="x"></table><table aria-label="x"></table><img src=""><svg></svg><i id=a></i><i id=a></i></main></body></html>`))
	require.NoError(t, err)
	assert.Equal(t, []string{"no lang", "no title", `"out" stands in no landmark`, "h3 behind h1", "a second h1", "a table without a name", "th without scope", "th without words",
		`two things named "x"`, "img without words", "svg without words", `two things with the id "a"`}, faults(doc))
}

// faults is what is wrong with a page for those who hear it.
func faults(doc *html.Node) []string {
	var out []string
	say := func(format string, args ...any) {
		if words := fmt.Sprintf(format, args...); !slices.Contains(out, words) {
			out = append(out, words)
		}
	}
	level, firsts := 0, 0
	names, ids := map[string]bool{}, map[string]bool{}
	var walk func(n *html.Node, inside, named bool)
	walk = func(n *html.Node, inside, named bool) {
		if n.Type == html.TextNode && strings.TrimSpace(n.Data) != "" && !inside && !slices.Contains([]string{"title", "style"}, n.Parent.Data) {
			say("%q stands in no landmark", strings.TrimSpace(n.Data))
		}
		if n.Type == html.ElementNode {
			label := strings.TrimSpace(pagetest.Attr(n, "aria-label"))
			if id := pagetest.Attr(n, "id"); id != "" {
				if ids[id] {
					say("two things with the id %q", id)
				}
				ids[id] = true
			}
			switch n.Data {
			case "html":
				if pagetest.Attr(n, "lang") == "" {
					say("no lang")
				}
			case "title":
				if n.Parent.Data == "head" && pagetest.Words(n) == "" {
					say("no title")
				}
			case "header", "main", "footer":
				inside = true
			case "h1", "h2", "h3", "h4", "h5", "h6":
				now := int(n.Data[1] - '0')
				switch {
				case now > level+1:
					say("h%d behind h%d", now, level)
				case now == 1 && firsts > 0:
					say("a second h1")
				}
				if now == 1 {
					firsts++
				}
				if pagetest.Words(n) == "" {
					say("a heading without words")
				}
				level = now
			case "table":
				if label == "" && !named && first(n, "caption") == nil {
					say("a table without a name")
				}
			case "th":
				if s := pagetest.Attr(n, "scope"); s != "col" && s != "row" {
					say("th without scope")
				}
				if pagetest.Words(n) == "" {
					say("th without words")
				}
			case "img":
				if strings.TrimSpace(pagetest.Attr(n, "alt")) == "" {
					say("img without words")
				}
			case "svg":
				if pagetest.Attr(n, "role") != "img" || label == "" {
					say("svg without words")
				}
			}
			if label != "" && n.Data != "svg" {
				if names[label] {
					say("two things named %q", label)
				}
				names[label] = true
				named = true
			}
		}
		for c := n.FirstChild; c != nil; c = c.NextSibling {
			walk(c, inside, named)
		}
	}
	walk(doc, false, false)
	if firsts == 0 {
		say("no h1")
	}
	return out
}

// first is the first child of a name.
func first(n *html.Node, name string) *html.Node {
	for c := n.FirstChild; c != nil; c = c.NextSibling {
		if c.Type == html.ElementNode && c.Data == name {
			return c
		}
	}
	return nil
}

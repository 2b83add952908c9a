// Package pagetest looks into pages for tests: of papers written as HTML, and of the
// local page.
package pagetest

import (
	"strings"
	"testing"

	"golang.org/x/net/html"
)

// Parse is a page as a tree.
func Parse(t testing.TB, page string) *html.Node {
	t.Helper()
	n, err := html.Parse(strings.NewReader(page))
	if err != nil {
		t.Fatalf("reading a page: %v", err)
	}
	return n
}

// Attr is an attribute's value, "" without it.
func Attr(n *html.Node, key string) string {
	for _, a := range n.Attr {
		if a.Key == key {
			return a.Val
		}
	}
	return ""
}

// Words is the text within a node.
func Words(n *html.Node) string {
	var b strings.Builder
	if n.Type == html.TextNode {
		b.WriteString(n.Data)
	}
	for c := range n.Descendants() {
		if c.Type == html.TextNode {
			b.WriteString(c.Data)
		}
	}
	return strings.TrimSpace(b.String())
}

package page

import (
	"fmt"
	"io"
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"

	"mediabuy/papers/safe"
)

// Markdown writes the page as Markdown with pipe tables. Pictures come as the
// words that say the same; a chart as its caption.
func (p *Page) Markdown(w io.Writer) error {
	b := &strings.Builder{}
	fmt.Fprintf(b, "# %s\n\n", md(p.Title))
	if p.Subtitle != "" {
		fmt.Fprintf(b, "%s\n\n", md(p.Subtitle))
	}
	if p.Alarm != "" {
		fmt.Fprintf(b, "> **%s**\n\n", md(p.Alarm))
	}
	for _, s := range p.Printed() {
		if s.Heading != "" {
			fmt.Fprintf(b, "## %s\n\n", md(s.Heading))
		}
		for _, block := range s.Blocks {
			markdownBlock(b, block)
		}
	}
	if p.Foot != "" {
		fmt.Fprintf(b, "---\n\n%s\n", md(p.Foot))
	}
	_, err := io.WriteString(w, b.String())
	return err
}

func markdownBlock(b *strings.Builder, block Block) {
	switch x := block.(type) {
	case *Para:
		text := md(x.Text)
		if x.Strong {
			text = "**" + text + "**"
		}
		fmt.Fprintf(b, "%s\n\n", text)
	case *List:
		markdownList(b, x.Items)
	case *Table:
		markdownTable(b, x)
	case *Picture:
		fmt.Fprintf(b, "**%s**\n\n", md(x.Caption))
		markdownList(b, x.Lines)
	case *Chart:
		fmt.Fprintf(b, "%s\n\n", md(x.Caption))
	case *Fields:
		for _, n := range x.Names {
			fmt.Fprintf(b, "%s: ______________________________\n\n", md(n))
		}
	}
}

func markdownList(b *strings.Builder, items []string) {
	for _, it := range items {
		fmt.Fprintf(b, "- %s\n", md(it))
	}
	b.WriteByte('\n')
}

func markdownTable(b *strings.Builder, t *Table) {
	if t.Caption != "" {
		fmt.Fprintf(b, "%s\n\n", md(t.Caption))
	}
	cols := t.shown()
	var head, rule []string
	for _, j := range cols {
		head = append(head, md(t.Cols[j].Name))
		if t.Cols[j].Right {
			rule = append(rule, "---:")
		} else {
			rule = append(rule, "---")
		}
	}
	row := func(cells []string) { fmt.Fprintf(b, "| %s |\n", strings.Join(cells, " | ")) }
	row(head)
	row(rule)
	for _, r := range t.Rows {
		var cells []string
		for _, j := range cols {
			text := md(r.cell(j).Text)
			if bar := r.cell(j).Bar; bar != nil {
				text = strings.TrimSpace(strings.Repeat("█", int(*bar*markdownBar+0.5)) + " " + text)
			}
			if r.Kind == Total && text != "" {
				text = "**" + text + "**"
			}
			cells = append(cells, text)
		}
		row(cells)
	}
	b.WriteByte('\n')
}

// markdownBar is the longest bar in characters.
const markdownBar = 20

// mdSpecial are the signs that Markdown gives a meaning within a line
// (CommonMark 0.31, https://spec.commonmark.org/0.31.2/, memory), and the bar of
// pipe tables. An underscore within a word and an ampersand that begins no entity
// mean nothing, so addresses stay as they are.
const mdSpecial = "\\`*[]<>|~"

var entity = regexp.MustCompile(`^&#?[0-9A-Za-z]+;`)

// md is text with nothing in it that Markdown would read as more than text.
func md(s string) string {
	s = strings.TrimSpace(safe.Line(s))
	var b strings.Builder
	before := ' '
	for i, r := range s {
		after, _ := utf8.DecodeRuneInString(s[i+utf8.RuneLen(r):])
		switch {
		case strings.ContainsRune(mdSpecial, r),
			r == '_' && !(wordSign(before) && wordSign(after)),
			r == '&' && entity.MatchString(s[i:]):
			b.WriteByte('\\')
		}
		b.WriteRune(r)
		before = r
	}
	out := b.String()
	if out != "" && strings.ContainsRune("#+-=", rune(out[0])) {
		out = "\\" + out
	}
	if i := strings.IndexFunc(out, func(r rune) bool { return r < '0' || r > '9' }); i > 0 && (out[i] == '.' || out[i] == ')') && (i+1 == len(out) || out[i+1] == ' ') { // a numbered list
		out = out[:i] + "\\" + out[i:]
	}
	return out
}

func wordSign(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }

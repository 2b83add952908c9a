package web

import (
	"html/template"
	"strings"

	"mediabuy/papers/ink"
)

// drawn is a drawing as an element of the page. The page's policy allows no style
// within an element, so the width that ink writes there is taken out: the style
// sheet gives every drawing its size. A drawing without words for those who do not
// see it stands beside words that say the same, and is hidden from them.
func drawn(d *ink.Drawing, alt string) template.HTML {
	svg := d.SVG(alt)
	if i := strings.Index(svg, ` style="`); i >= 0 {
		j := i + len(` style="`)
		svg = svg[:i] + svg[j+strings.IndexByte(svg[j:], '"')+1:]
	}
	if alt == "" {
		svg = strings.Replace(svg, `role="img" aria-label=""`, `aria-hidden="true"`, 1)
	}
	return template.HTML(svg)
}

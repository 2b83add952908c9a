package figure

import (
	"html/template"
	"strings"

	"mediabuy/papers/ink"
)

// classes has what stands for each colour of a drawing. A shape has one colour.
var classes = func() *strings.Replacer {
	var list []string
	for _, c := range []struct {
		colour ink.Colour
		class  string
	}{{ink.Text, "edge"}, {ink.Rule, "rule"}, {ink.Quiet, "hatch"}, {ink.Accent, "flood"}} {
		list = append(list, `stroke="`+c.colour.Hex()+`"`, `class="`+c.class+`"`)
	}
	for i := range ink.Fills {
		f := ink.FillOf(i)
		list = append(list, `fill="`+f.Colour.Hex()+`"`, `class="`+string(f.Hatch)+`"`)
	}
	return strings.NewReplacer(list...)
}()

// drawn is a drawing as an element of the page. The page's policy allows no style
// within an element, so the width that ink writes there is taken out: the style
// sheet gives every drawing its size. A drawing without words for those who do not
// see it stands beside words that say the same, and is hidden from them. Its colours
// become classes, so that the style sheet has one of each for light and for dark.
func drawn(d *ink.Drawing, alt string) template.HTML {
	svg := d.SVG(alt)
	if i := strings.Index(svg, ` style="`); i >= 0 {
		j := i + len(` style="`)
		svg = svg[:i] + svg[j+strings.IndexByte(svg[j:], '"')+1:]
	}
	svg = strings.Replace(svg, "<svg ", `<svg class="drawn" `, 1)
	svg = classes.Replace(svg)
	if alt == "" {
		svg = strings.Replace(svg, `role="img" aria-label=""`, `aria-hidden="true"`, 1)
	}
	return template.HTML(svg)
}

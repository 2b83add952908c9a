package ink

import (
	"fmt"
	"html"
	"math"
	"strings"
)

// Drawing is shapes on a sheet of Width × Height millimetres, x from the left and
// y from the top.
type Drawing struct {
	Width, Height float64
	Shapes        []Shape
}

// Shape is one thing drawn: an area, a line or words.
type Shape struct {
	Kind           Kind
	X, Y, X2, Y2   float64 // corners of a box, ends of a line; words stand on X, Y
	Fill           *Fill   // of a box; nil: empty
	Colour         Colour  // of the edge, line or words
	Weight         float64 // of the edge or line in mm; 0: none
	Words          string
	Size           float64 // of the words in points
	Strong         bool
	Anchor         Anchor
	DashMillimetre float64 // of a line; 0: unbroken
}

// Kind is what a shape is.
type Kind int

// Kinds of shape.
const (
	Box Kind = iota
	Line
	Words
)

// Anchor is which end of the words stands on the place.
type Anchor int

// Anchors.
const (
	Start Anchor = iota
	Middle
	End
)

// Box draws an area with an edge.
func (d *Drawing) Box(x, y, w, h float64, fill *Fill, edge Colour, weight float64) {
	d.Shapes = append(d.Shapes, Shape{Kind: Box, X: x, Y: y, X2: x + w, Y2: y + h, Fill: fill, Colour: edge, Weight: weight})
}

// Line draws a line.
func (d *Drawing) Line(x, y, x2, y2 float64, c Colour, weight, dash float64) {
	d.Shapes = append(d.Shapes, Shape{Kind: Line, X: x, Y: y, X2: x2, Y2: y2, Colour: c, Weight: weight, DashMillimetre: dash})
}

// Say writes words whose foot stands on y.
func (d *Drawing) Say(x, y float64, words string, size float64, strong bool, anchor Anchor) {
	d.Shapes = append(d.Shapes, Shape{Kind: Words, X: x, Y: y, Words: words, Size: size, Strong: strong, Anchor: anchor, Colour: Text})
}

// Strokes are the lines of a box's pattern, inside it, each x, y, x2, y2.
func (s Shape) Strokes() [][4]float64 {
	if s.Kind != Box || s.Fill == nil || s.X2 <= s.X || s.Y2 <= s.Y {
		return nil
	}
	const gap = 2.2 // mm: close enough to read as a pattern, wide enough to print
	var out [][4]float64
	switch s.Fill.Hatch {
	case Level:
		for y := s.Y + gap/2; y < s.Y2; y += gap {
			out = append(out, [4]float64{s.X, y, s.X2, y})
		}
	case Dots, Dashes:
		length := 0.35
		if s.Fill.Hatch == Dashes {
			length = 1.1
		}
		row := 0
		for y := s.Y + gap/2; y < s.Y2; y += gap {
			for x := s.X + gap/4 + float64(row%2)*gap/2; x < s.X2; x += gap {
				out = append(out, [4]float64{x, y, min(x+length, s.X2), y})
			}
			row++
		}
	case Rising:
		out = s.slanted(gap)
	case Cross:
		for _, l := range s.slanted(gap) {
			out = append(out, l, [4]float64{s.X + s.X2 - l[0], l[1], s.X + s.X2 - l[2], l[3]})
		}
	}
	return out
}

// slanted are lines that rise to the right, cut at the edges.
func (s Shape) slanted(gap float64) [][4]float64 {
	var out [][4]float64
	w, h := s.X2-s.X, s.Y2-s.Y
	for k := gap; k < w+h; k += 1.5 * gap {
		// The line x + (h − y') = k, with y' upwards from the foot.
		x1, y1 := max(0, k-h), min(h, k)
		x2, y2 := min(w, k), max(0, k-w)
		if math.Hypot(x2-x1, y2-y1) > 0.3 {
			out = append(out, [4]float64{s.X + x1, s.Y + y1, s.X + x2, s.Y + y2})
		}
	}
	return out
}

// HatchWeight is the width of a pattern's lines in mm.
const HatchWeight = 0.18

// pointMM is a typographic point in millimetres.
const pointMM = 25.4 / 72

// SVG is the drawing as an SVG element without scripts, named by alt for those who
// do not see it.
func (d *Drawing) SVG(alt string) string {
	var b strings.Builder
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %s %s" role="img" aria-label="%s" style="width:%smm">`,
		num(d.Width), num(d.Height), html.EscapeString(alt), num(d.Width))
	b.WriteByte('\n')
	for _, s := range d.Shapes {
		s.svg(&b)
	}
	b.WriteString("</svg>\n")
	return b.String()
}

func (s Shape) svg(b *strings.Builder) {
	switch s.Kind {
	case Box:
		fill := "none"
		if s.Fill != nil {
			fill = s.Fill.Colour.Hex()
		}
		fmt.Fprintf(b, `<rect x="%s" y="%s" width="%s" height="%s" fill="%s"/>`, num(s.X), num(s.Y), num(s.X2-s.X), num(s.Y2-s.Y), fill)
		if strokes := s.Strokes(); len(strokes) > 0 {
			b.WriteString(`<path d="`)
			for _, l := range strokes {
				fmt.Fprintf(b, "M%s %sL%s %s", num(l[0]), num(l[1]), num(l[2]), num(l[3]))
			}
			fmt.Fprintf(b, `" stroke="%s" stroke-width="%s" fill="none"/>`, Quiet.Hex(), num(HatchWeight))
		}
		if s.Weight > 0 {
			fmt.Fprintf(b, `<rect x="%s" y="%s" width="%s" height="%s" fill="none" stroke="%s" stroke-width="%s"/>`,
				num(s.X), num(s.Y), num(s.X2-s.X), num(s.Y2-s.Y), s.Colour.Hex(), num(s.Weight))
		}
	case Line:
		dash := ""
		if s.DashMillimetre > 0 {
			dash = fmt.Sprintf(` stroke-dasharray="%s"`, num(s.DashMillimetre))
		}
		fmt.Fprintf(b, `<line x1="%s" y1="%s" x2="%s" y2="%s" stroke="%s" stroke-width="%s"%s/>`,
			num(s.X), num(s.Y), num(s.X2), num(s.Y2), s.Colour.Hex(), num(s.Weight), dash)
	case Words:
		weight := ""
		if s.Strong {
			weight = ` font-weight="bold"`
		}
		fmt.Fprintf(b, `<text x="%s" y="%s" font-size="%s" fill="%s" text-anchor="%s"%s>%s</text>`,
			num(s.X), num(s.Y), num(s.Size*pointMM), s.Colour.Hex(), [...]string{"start", "middle", "end"}[s.Anchor], weight, html.EscapeString(s.Words))
	}
	b.WriteByte('\n')
}

// num is a number of a drawing: hundredths of a millimetre are fine enough.
func num(v float64) string {
	s := strings.TrimRight(strings.TrimRight(fmt.Sprintf("%.2f", v), "0"), ".")
	if s == "-0" || s == "" {
		return "0"
	}
	return s
}

package chart

import (
	wrap "github.com/jedib0t/go-pretty/v6/text"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// labelSigns is about how many signs of a label stand in a line: less than half a panel.
const labelSigns = 42

// labels are words beside dots. Each is whole on the panel and stands where it covers least of what is drawn: the library's own
// labels have the whole panel shrink to make room for a long one, and past its edge where there is none.
type labels struct {
	marks []Mark
	lines []Line
}

// dotRoom is how far a label keeps from its dot, and lines count as covered.
const dotRoom = vg.Length(3)

// Plot implements [plot.Plotter].
func (l labels) Plot(c draw.Canvas, p *plot.Plot) {
	st := labelStyle()
	for i, box := range l.boxes(c, p, st) {
		c.FillText(st, box.Min.Sub(st.Rectangle(l.words(i)).Min), l.words(i))
	}
}

func labelStyle() text.Style {
	st := text.Style{Font: font.From(plot.DefaultFont, 10), Handler: plot.DefaultTextHandler}
	st.Font.Variant = "Sans"
	return st
}

func (l labels) words(i int) string { return wrap.WrapSoft(l.marks[i].Label, labelSigns) }

// boxes are where the labels stand. A least cost rises and flattens, so above on the left and below on the right are clear of
// it, mostly: of the corners around a dot, and places further up and down, each takes the one that costs least.
func (l labels) boxes(c draw.Canvas, p *plot.Plot, st text.Style) []vg.Rectangle {
	trX, trY := p.Transforms(&c)
	taken := []vg.Rectangle{p.Legend.Rectangle(c)}
	var dots []vg.Point
	for _, m := range l.marks {
		dots = append(dots, vg.Point{X: trX(m.X), Y: trY(m.Y)})
	}
	var strokes []vg.Point
	for _, line := range l.lines {
		for i := 1; i < len(line.X); i++ {
			strokes = append(strokes, along(vg.Point{X: trX(line.X[i-1]), Y: trY(line.Y[i-1])}, vg.Point{X: trX(line.X[i]), Y: trY(line.Y[i])})...)
		}
	}
	cost := func(box vg.Rectangle, step int) float64 {
		sum := float64(5 * step)
		for _, t := range taken {
			if box.Min.X < t.Max.X && t.Min.X < box.Max.X && box.Min.Y < t.Max.Y && t.Min.Y < box.Max.Y {
				sum += 1000
			}
		}
		for _, d := range dots {
			if within(d, box) {
				sum += 100
			}
		}
		for _, s := range strokes {
			if within(s, box) {
				sum++
			}
		}
		return sum
	}
	var out []vg.Rectangle
	for i, dot := range dots {
		size := st.Rectangle(l.words(i)).Size()
		best, least := vg.Rectangle{}, -1.0
		for step := range 4 {
			away := dotRoom + vg.Length(step)*size.Y
			for _, min := range []vg.Point{{X: dot.X - size.X, Y: dot.Y + away}, {X: dot.X, Y: dot.Y - away - size.Y}, {X: dot.X, Y: dot.Y + away}, {X: dot.X - size.X, Y: dot.Y - away - size.Y}} {
				min.X = inside(min.X, size.X, c.Min.X, c.Max.X)
				min.Y = inside(min.Y, size.Y, c.Min.Y, c.Max.Y)
				box := vg.Rectangle{Min: min, Max: min.Add(size)}
				if n := cost(box, step); least < 0 || n < least {
					best, least = box, n
				}
			}
		}
		taken = append(taken, best)
		out = append(out, best)
	}
	return out
}

func within(at vg.Point, box vg.Rectangle) bool {
	return at.X > box.Min.X && at.X < box.Max.X && at.Y > box.Min.Y && at.Y < box.Max.Y
}

// along are points of a stroke, a few points apart.
func along(a, b vg.Point) []vg.Point {
	way := b.Sub(a)
	n := int(max(way.X, -way.X, way.Y, -way.Y)/dotRoom) + 1
	var out []vg.Point
	for i := range n {
		out = append(out, a.Add(way.Scale(vg.Length(i)/vg.Length(n))))
	}
	return out
}

// inside is at moved so that what begins there and is so long lies between low and high; what is longer begins at low.
func inside(at, long, low, high vg.Length) vg.Length { return max(low, min(at, high-long)) }

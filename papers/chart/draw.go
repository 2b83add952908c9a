package chart

import (
	"fmt"
	"image/color"
	"io"
	"math"
	"strconv"
	"strings"

	"github.com/jedib0t/go-pretty/v6/text"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgimg"
	"gonum.org/v1/plot/vg/vgsvg"
)

// mostMarks is how many labels a panel can hold and still be read.
const mostMarks = 8

// Formats are the endings of file names that can be written.
var Formats = []string{"svg", "png"}

// Format is the format that a file name asks for.
func Format(name string) (string, error) {
	for _, f := range Formats {
		if strings.HasSuffix(strings.ToLower(name), "."+f) {
			return f, nil
		}
	}
	return "", fmt.Errorf("%q names no kind of picture that is drawn here, want a name ending in .svg or .png", name)
}

// Size of one panel.
const (
	panelWidth  = 18 * vg.Centimeter
	panelHeight = 11 * vg.Centimeter
	pngDPI      = 150
)

// Write draws the panels one below the other in the format.
func Write(w io.Writer, format string, panels []Panel) error {
	if len(panels) == 0 {
		return fmt.Errorf("drawing a chart: no panel to draw")
	}
	height := panelHeight * vg.Length(len(panels))
	var canvas interface {
		vg.CanvasSizer
		io.WriterTo
	}
	switch format {
	case "svg":
		canvas = vgsvg.New(panelWidth, height)
	case "png":
		canvas = vgimg.PngCanvas{Canvas: vgimg.NewWith(vgimg.UseWH(panelWidth, height), vgimg.UseDPI(pngDPI), vgimg.UseBackgroundColor(color.White))}
	default:
		return fmt.Errorf("drawing a chart: %q is not a format, want svg or png", format)
	}
	dc := draw.New(canvas)
	tiles := draw.Tiles{Rows: len(panels), Cols: 1, PadY: 4 * vg.Millimeter, PadTop: 2 * vg.Millimeter, PadBottom: 2 * vg.Millimeter, PadLeft: 2 * vg.Millimeter, PadRight: 4 * vg.Millimeter}
	for i, panel := range panels {
		p, err := panel.plot()
		if err != nil {
			return fmt.Errorf("drawing %q: %w", panel.Title, err)
		}
		p.Draw(tiles.At(dc, 0, i))
	}
	if _, err := canvas.WriteTo(w); err != nil {
		return fmt.Errorf("writing the chart: %w", err)
	}
	return nil
}

// plainTicks are the usual round numbers of an axis without zeros behind the point.
type plainTicks struct{ plot.DefaultTicks }

// Ticks implements [plot.Ticker].
func (t plainTicks) Ticks(low, high float64) []plot.Tick {
	list := t.DefaultTicks.Ticks(low, high)
	for i, at := range list {
		if at.Label != "" {
			// Ticks are sums of steps: what a binary fraction adds to them is no digit of theirs.
			list[i].Label = strconv.FormatFloat(at.Value, 'g', 10, 64)
			if v, err := strconv.ParseFloat(list[i].Label, 64); err == nil {
				list[i].Label = strconv.FormatFloat(v, 'f', -1, 64)
			}
		}
	}
	return list
}

// titleSigns is about how many signs of a title have room in a line.
const titleSigns = 64

// grey is the colour of what is not the answer: today's line and the grid.
var grey = color.Gray{Y: 110}

func (p Panel) plot() (*plot.Plot, error) {
	out := plot.New()
	out.BackgroundColor = color.White
	out.Title.Text = text.WrapSoft(p.Title, titleSigns)
	out.X.Label.Text, out.Y.Label.Text = p.XWords, p.YWords
	for _, st := range []*font.Font{&out.Title.TextStyle.Font, &out.X.Label.TextStyle.Font, &out.Y.Label.TextStyle.Font, &out.X.Tick.Label.Font, &out.Y.Tick.Label.Font, &out.Legend.TextStyle.Font} {
		st.Typeface, st.Variant = "Liberation", "Sans"
	}
	out.X.Tick.Marker, out.Y.Tick.Marker = plainTicks{}, plainTicks{}
	out.Legend.Top, out.Legend.Left, out.Legend.Padding = true, true, vg.Millimeter
	grid := plotter.NewGrid()
	grid.Horizontal.Color, grid.Vertical.Color = color.Gray{Y: 215}, color.Gray{Y: 215}
	out.Add(grid)
	low, high := math.Inf(1), math.Inf(-1)
	for _, l := range p.Lines {
		if len(l.X) == 0 {
			continue
		}
		var xy plotter.XYs
		for i := range l.X {
			xy = append(xy, plotter.XY{X: l.X[i], Y: l.Y[i]})
			low, high = min(low, l.Y[i]), max(high, l.Y[i])
		}
		line, err := plotter.NewLine(xy)
		if err != nil {
			return nil, err
		}
		line.Width = vg.Points(1.6)
		if l.Dashed {
			line.Dashes = []vg.Length{vg.Points(5), vg.Points(3)}
		}
		out.Add(line)
		words := l.Name + " (solid line)"
		if l.Dashed {
			words = l.Name + " (dashed line)"
		}
		if l.Name != "" {
			out.Legend.Add(text.WrapSoft(words, titleSigns), line)
		}
	}
	if math.IsInf(low, 1) {
		return nil, fmt.Errorf("there is no cost to draw")
	}
	// Room above for the legend and the labels.
	room := max(high-low, 0.02*math.Abs(high), 1e-6)
	out.Y.Min, out.Y.Max = low-0.08*room, high+0.35*room
	return out, p.marks(out)
}

// marks draws the labelled places.
func (p Panel) marks(out *plot.Plot) error {
	marks := p.Marks
	if len(marks) > mostMarks {
		marks = marks[:mostMarks]
	}
	var at plotter.XYs
	var named []Mark
	for _, m := range marks {
		if m.Today {
			line, err := plotter.NewLine(plotter.XYs{{X: m.X, Y: out.Y.Min}, {X: m.X, Y: out.Y.Max}})
			if err != nil {
				return err
			}
			line.Color, line.Width = grey, vg.Points(0.8)
			line.Dashes = []vg.Length{vg.Points(1), vg.Points(2)}
			out.Add(line)
			m.Y = out.Y.Min
			m.Label = " " + m.Label + " (dotted line)"
			labels, err := plotter.NewLabels(plotter.XYLabels{XYs: plotter.XYs{{X: m.X, Y: m.Y}}, Labels: []string{m.Label}})
			if err != nil {
				return err
			}
			labels.TextStyle[0].Font.Variant = "Sans"
			out.Add(labels)
			continue
		}
		at, named = append(at, plotter.XY{X: m.X, Y: m.Y}), append(named, m)
	}
	if len(named) == 0 {
		return nil
	}
	dots, err := plotter.NewScatter(at)
	if err != nil {
		return err
	}
	dots.GlyphStyle.Shape, dots.GlyphStyle.Radius = draw.CircleGlyph{}, vg.Points(3)
	out.Add(dots)
	out.Add(labels{named, p.Lines})
	return nil
}

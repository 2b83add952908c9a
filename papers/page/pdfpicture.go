package page

import (
	"bytes"
	"fmt"
	"hash/fnv"
	"image"
	"image/draw"
	"image/png"

	"codeberg.org/go-pdf/fpdf"

	"mediabuy/papers/ink"
)

// picture draws shapes as they are, or smaller if the sheet is.
func (x *pdfWriter) picture(v *Picture) []piece {
	d, scale := v.Drawing, 1.0
	if d.Width > x.room() {
		scale = min(scale, x.room()/d.Width)
	}
	scale = min(scale, mostKept*x.sheetRoom()/d.Height)
	list := stay(after(x.para(v.Caption, x.text(), true, ink.Text), 1))
	return append(list, piece{height: d.Height*scale + 2, draw: func() {
		top := x.GetY()
		for _, s := range d.Shapes {
			x.shape(s, pdfMargin, top, scale)
		}
	}})
}

func (x *pdfWriter) shape(s ink.Shape, left, top, scale float64) {
	at := func(px, py float64) (float64, float64) { return left + px*scale, top + py*scale }
	x1, y1 := at(s.X, s.Y)
	x2, y2 := at(s.X2, s.Y2)
	switch s.Kind {
	case ink.Box:
		if s.Fill != nil {
			x.paint(s.Fill.Colour)
			x.Rect(x1, y1, x2-x1, y2-y1, "F")
			x.stroke(ink.Quiet)
			x.SetLineWidth(ink.HatchWeight * scale)
			for _, l := range s.Strokes() {
				ax, ay := at(l[0], l[1])
				bx, by := at(l[2], l[3])
				x.Line(ax, ay, bx, by)
			}
		}
		if s.Weight > 0 {
			x.stroke(s.Colour)
			x.SetLineWidth(s.Weight * scale)
			x.Rect(x1, y1, x2-x1, y2-y1, "D")
		}
	case ink.Line:
		x.stroke(s.Colour)
		x.SetLineWidth(s.Weight * scale)
		if s.DashMillimetre > 0 {
			x.SetDashPattern([]float64{s.DashMillimetre * scale}, 0)
		}
		x.Line(x1, y1, x2, y2)
		x.SetDashPattern(nil, 0)
	case ink.Words:
		x.font(s.Size*scale, s.Strong)
		x.ink(s.Colour)
		words := visual(printable(s.Words))
		switch w := x.GetStringWidth(words); s.Anchor {
		case ink.Middle:
			x1 -= w / 2
		case ink.End:
			x1 -= w
		}
		x.Text(x1, y1, words)
	}
}

// chart is the PNG form of a chart across the sheet, on one sheet with its words.
func (x *pdfWriter) chart(v *Chart) []piece {
	words := after(x.para(v.Caption, x.text(), false, ink.Text), 3)
	if len(v.PNG) == 0 {
		return words
	}
	drawn, err := x.ownWidth(v.PNG)
	if err != nil {
		x.SetError(fmt.Errorf("reading the chart %q: %w", v.Caption, err))
		return nil // PDF returns the error
	}
	sum := fnv.New64a()
	sum.Write(drawn) // never fails, by its own promise
	name := fmt.Sprintf("chart-%x", sum.Sum64())
	info := x.RegisterImageOptionsReader(name, fpdf.ImageOptions{ImageType: "PNG"}, bytes.NewReader(drawn))
	if !x.Ok() {
		return nil // PDF returns the error
	}
	w := min(x.room(), 150)
	h := w * info.Height() / info.Width()
	if most := mostKept*x.sheetRoom() - tall(words); h > most {
		w, h = w*most/h, most
	}
	return append([]piece{{height: h + 2, with: true, draw: func() {
		x.ImageOptions(name, pdfMargin, x.GetY(), w, h, false, fpdf.ImageOptions{ImageType: "PNG"}, 0, "")
	}}}, stayButLast(words)...)
}

// ownWidth is a chart with white columns added until no other of the paper is as wide:
// the PDF library puts images in the order of their widths, and those of one width in
// any order, so that the same paper would not give the same bytes.
func (x *pdfWriter) ownWidth(chart []byte) ([]byte, error) {
	img, err := png.Decode(bytes.NewReader(chart))
	if err != nil {
		return nil, err
	}
	b := img.Bounds()
	wide := b.Dx()
	for x.widths[wide] {
		wide++
	}
	if x.widths == nil {
		x.widths = map[int]bool{}
	}
	x.widths[wide] = true
	if wide == b.Dx() {
		return chart, nil
	}
	out := image.NewRGBA(image.Rect(0, 0, wide, b.Dy()))
	draw.Draw(out, out.Bounds(), image.White, image.Point{}, draw.Src)
	draw.Draw(out, image.Rect(0, 0, b.Dx(), b.Dy()), img, b.Min, draw.Over)
	var w bytes.Buffer
	if err := png.Encode(&w, out); err != nil {
		return nil, err
	}
	return w.Bytes(), nil
}

// stayButLast keeps pieces together and apart from what comes behind them.
func stayButLast(list []piece) []piece {
	stay(list)
	if n := len(list); n > 0 {
		list[n-1].with = false
	}
	return list
}

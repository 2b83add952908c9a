// Package ink holds what every paper is drawn with: the colours, in one place, the
// way their contrast is worked out, and simple drawings that come out as SVG or
// onto any other canvas.
package ink

import (
	"fmt"
	"math"
)

// Colour is a colour of sRGB, 0 to 255 for red, green and blue.
type Colour struct{ R, G, B uint8 }

// Hex is the colour as CSS and spreadsheets write it, with the sign "#" in front.
func (c Colour) Hex() string { return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B) }

// The colours of all papers. Text stands in Text, Quiet or Alarm on Paper, Panel
// or AlarmPanel; Accent draws bars and rules.
var (
	Paper      = Colour{255, 255, 255}
	Panel      = Colour{240, 244, 241}
	AlarmPanel = Colour{252, 236, 233}
	Text       = Colour{26, 33, 30}
	Quiet      = Colour{74, 86, 80}
	Alarm      = Colour{138, 26, 18}
	Accent     = Colour{33, 96, 78}
	Rule       = Colour{110, 124, 117}
	Hairline   = Colour{199, 208, 203}
)

// Hatch is a pattern that tells fills apart without colour.
type Hatch string

// Hatches.
const (
	Plain  Hatch = "plain"
	Dots   Hatch = "dots"
	Rising Hatch = "rising"
	Level  Hatch = "level"
	Cross  Hatch = "cross"
	Dashes Hatch = "dashes"
)

// Fill is how an area is filled: a light colour, and a pattern on it, so that
// black-and-white prints and all eyes can tell areas apart.
type Fill struct {
	Colour Colour
	Hatch  Hatch
}

// fills are told apart by pattern first; colour repeats it.
var fills = []Fill{
	{Colour{246, 222, 196}, Dots},
	{Colour{206, 224, 236}, Rising},
	{Colour{236, 208, 208}, Cross},
	{Colour{222, 232, 200}, Level},
	{Colour{228, 216, 238}, Dashes},
	{Colour{236, 236, 230}, Plain},
}

// Fills is how many fills there are.
var Fills = len(fills)

// FillOf is the fill of the i-th of several things; from the seventh on fills come
// again, so words must stand beside them.
func FillOf(i int) Fill { return fills[i%len(fills)] }

// luminance is the relative luminance of WCAG 2.2
// (https://www.w3.org/TR/WCAG22/#dfn-relative-luminance; memory).
func (c Colour) luminance() float64 {
	part := func(v uint8) float64 {
		s := float64(v) / 255
		if s <= 0.04045 {
			return s / 12.92
		}
		return math.Pow((s+0.055)/1.055, 2.4)
	}
	return 0.2126*part(c.R) + 0.7152*part(c.G) + 0.0722*part(c.B)
}

// Contrast is the contrast ratio of WCAG 2.2, from 1 to 21
// (https://www.w3.org/TR/WCAG22/#dfn-contrast-ratio; memory).
func Contrast(a, b Colour) float64 {
	la, lb := a.luminance(), b.luminance()
	return (max(la, lb) + 0.05) / (min(la, lb) + 0.05)
}

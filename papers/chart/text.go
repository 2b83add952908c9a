package chart

import (
	"fmt"
	"math"
	"strings"
	"unicode/utf8"
)

// Signs of a text plot.
const (
	solidSign  = '*'
	dashedSign = 'o'
	bothSign   = '#'
	markSign   = '+'
	todaySign  = ':'
)

// Text draws a panel with letters, width columns wide and height rows high
// without its axes' words. Lines end without spaces.
func Text(p Panel, width, height int) string {
	const margin = 10 // for figures on the left
	cols, rows := max(20, width-margin-2), max(4, height)
	x0, x1, y0, y1 := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
	for _, l := range p.Lines {
		for i := range l.X {
			x0, x1 = min(x0, l.X[i]), max(x1, l.X[i])
			y0, y1 = min(y0, l.Y[i]), max(y1, l.Y[i])
		}
	}
	if math.IsInf(x0, 1) {
		return ""
	}
	if y1-y0 < 1e-9 {
		y0, y1 = y0-1, y1+1
	}
	if x1-x0 < 1e-9 {
		x1 = x0 + 1
	}
	grid := make([][]rune, rows)
	for r := range grid {
		grid[r] = []rune(strings.Repeat(" ", cols))
	}
	col := func(x float64) int { return min(cols-1, max(0, int((x-x0)/(x1-x0)*float64(cols-1)+0.5))) }
	row := func(y float64) int { return min(rows-1, max(0, int((y1-y)/(y1-y0)*float64(rows-1)+0.5))) }
	for _, m := range p.Marks {
		if m.Today && m.X >= x0 && m.X <= x1 {
			for r := range grid {
				grid[r][col(m.X)] = todaySign
			}
		}
	}
	for _, l := range p.Lines {
		sign := solidSign
		if l.Dashed {
			sign = dashedSign
		}
		for c := range cols {
			y, ok := l.at(x0 + (x1-x0)*float64(c)/float64(cols-1))
			if !ok {
				continue
			}
			cell := &grid[row(y)][c]
			if *cell == solidSign && sign == dashedSign {
				*cell = bothSign
			} else {
				*cell = sign
			}
		}
	}
	var notes []string
	for _, m := range p.Marks {
		if m.Today {
			continue
		}
		grid[row(m.Y)][col(m.X)] = markSign
		notes = append(notes, m.Label)
	}
	var b strings.Builder
	put := func(s string) { b.WriteString(strings.TrimRight(s, " ") + "\n") }
	put("  " + p.YWords)
	for r, cells := range grid {
		figure := ""
		switch r {
		case 0:
			figure = short(y1)
		case rows - 1:
			figure = short(y0)
		}
		put(fmt.Sprintf("%*s |%s", margin-1, figure, string(cells)))
	}
	put(strings.Repeat(" ", margin) + "+" + strings.Repeat("-", cols))
	left, right := short(x0), short(x1)
	gap := cols - utf8.RuneCountInString(left) - utf8.RuneCountInString(right)
	put(strings.Repeat(" ", margin+1) + left + strings.Repeat(" ", max(1, gap)) + right)
	put(strings.Repeat(" ", margin+1) + p.XWords)
	put(strings.Repeat(" ", margin+1) + p.legend())
	if len(notes) > 0 {
		if len(notes) > mostMarks {
			notes = append(notes[:mostMarks], "...")
		}
		put(strings.Repeat(" ", margin+1) + string(markSign) + " " + strings.Join(notes, "; "))
	}
	return b.String()
}

// legend says which sign is which line.
func (p Panel) legend() string {
	var words []string
	for _, l := range p.Lines {
		if l.Name == "" {
			continue
		}
		sign := solidSign
		if l.Dashed {
			sign = dashedSign
		}
		words = append(words, fmt.Sprintf("%c %s", sign, l.Name))
	}
	if len(words) > 1 {
		words = append(words, fmt.Sprintf("%c both", bothSign))
	}
	for _, m := range p.Marks {
		if m.Today {
			words = append(words, fmt.Sprintf("%c today", todaySign))
		}
	}
	return strings.Join(words, "   ")
}

// at is the height of the line at x.
func (l Line) at(x float64) (float64, bool) {
	for i := 0; i+1 < len(l.X); i++ {
		if a, b := l.X[i], l.X[i+1]; x >= a && x <= b && b > a {
			return l.Y[i] + (l.Y[i+1]-l.Y[i])*(x-a)/(b-a), true
		}
	}
	return 0, false
}

// short is a figure beside an axis.
func short(v float64) string {
	switch size := math.Abs(v); {
	case size >= 100 || size < 1e-9:
		return fmt.Sprintf("%.0f", v)
	case size >= 10:
		return fmt.Sprintf("%.1f", v)
	}
	return fmt.Sprintf("%.2f", v)
}

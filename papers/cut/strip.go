package cut

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"mediabuy/papers/ink"
	"mediabuy/papers/page"
	"mediabuy/quotes"
	"mediabuy/units"
)

// Measures of the picture of all beds, in millimetres. Its words are never set smaller.
const (
	stripWidth  = 176.0
	stripNarrow = 60.0 // on a narrow screen, one bed below the other
	stripEach   = 4    // side by side
	stripRows   = 2    // one below the other
	stripGap    = 4.0
	stripDepth  = 9.0 // drawn depth of the deepest
	stripHead   = 4.0 // room for its name
	stripLine   = 3.2 // from one line of words below it to the next
	stripFoot   = 1.6 // room below these
	stripLegend = 5.0
	stripPoints = 7.5
)

// kind is beds that one drawing stands for: beds alike in every figure, or, where
// those are too many to draw, all with the same media in the same layers.
type kind struct {
	groups []alike
	alike  bool
}

// beds is how many there are of a kind.
func (k kind) beds() int {
	n := 0
	for _, g := range k.groups {
		n += g.beds
	}
	return n
}

// Strip is every kind of bed in section in one picture, with what its frame
// carries; nil where the plan fills none. Where there are more kinds than can be
// drawn to be read, the few that matter are, and the rest counted.
func (r *Beds) Strip() *page.Picture {
	groups := r.groups
	if len(groups) == 0 {
		return nil
	}
	var kinds []kind
	for _, g := range groups {
		kinds = append(kinds, kind{[]alike{g}, true})
	}
	if len(groups) > stripEach*stripRows {
		kinds = r.sameMedia(groups)
	}
	out := r.drawn(kinds, stripEach*stripRows, stripWidth, stripEach)
	out.Narrow = r.drawn(kinds, stripEach*stripRows, stripNarrow, 1)
	if len(kinds) > stripEach {
		out.Smaller = r.drawn(r.sameMedia(groups), stripEach, stripWidth, stripEach)
	}
	return out
}

// sameMedia gathers groups with the same media in the same layers, the most of each
// layer first.
func (r *Beds) sameMedia(groups []alike) []kind {
	var out []kind
	at := map[string]int{}
	for _, g := range groups {
		key := ""
		for _, l := range r.layersOf(g) {
			key += string(l.layer)
			for _, part := range l.parts {
				key += "\x00" + part.medium.Name
			}
			key += "\n"
		}
		i, ok := at[key]
		if !ok {
			i = len(out)
			at[key] = i
			out = append(out, kind{})
		}
		out[i].groups = append(out[i].groups, g)
	}
	return out
}

// drawnLayer is a layer as it is drawn: its media, the most of it first.
type drawnLayer struct {
	layer  quotes.Layer
	litres units.Litres
	parts  []drawnPart
}

type drawnPart struct {
	medium *quotes.Medium
	litres units.Litres
}

func (r *Beds) layersOf(g alike) []drawnLayer {
	var out []drawnLayer
	for _, l := range g.Layers {
		d := drawnLayer{layer: l.Layer}
		for _, part := range l.Parts {
			i := slices.IndexFunc(d.parts, func(p drawnPart) bool { return p.medium == part.Quote.Medium })
			if i < 0 {
				i = len(d.parts)
				d.parts = append(d.parts, drawnPart{medium: part.Quote.Medium})
			}
			d.parts[i].litres += part.Litres
			d.litres += part.Litres
		}
		if d.litres <= 0 {
			continue
		}
		slices.SortStableFunc(d.parts, func(x, y drawnPart) int {
			return cmp.Or(cmp.Compare(math.Round(float64(y.litres)), math.Round(float64(x.litres))), cmp.Compare(x.medium.Name, y.medium.Name))
		})
		out = append(out, d)
	}
	return out
}

// drawn is the picture of at most so many kinds, so wide and so many side by side: of what most beds are, and of the
// frame that is used most.
func (r *Beds) drawn(kinds []kind, most int, width float64, beside int) *page.Picture {
	shown := r.chosen(kinds, most)
	left := 0
	for _, k := range kinds {
		left += k.beds()
	}
	d := &ink.Drawing{Width: width}
	side := min(beside, len(shown))
	each := min((width-stripGap*float64(side-1))/float64(side), 60)
	var lines []string
	foot := 0.0
	for from := 0; from < len(shown); from += side {
		row := shown[from:min(from+side, len(shown))]
		below := 0
		for i, k := range row {
			x := float64(i) * (each + stripGap)
			name := k.name()
			if !fitsIn(name, each) {
				name = k.short()
			}
			d.Say(x, foot+stripHead-1.2, clip(name, each), stripPoints, true, ink.Start)
			r.section(d, k.groups[0], x, foot+stripHead, each)
			carries := r.carried(k)
			told := folded(carries, each)
			for j, words := range told {
				d.Say(x, foot+stripHead+stripDepth+3+float64(j)*stripLine, clip(words, each), stripPoints, false, ink.Start)
			}
			below = max(below, len(told))
			lines = append(lines, k.name()+": "+strings.Join(carries, ", "))
			left -= k.beds()
		}
		foot += stripHead + stripDepth + float64(below)*stripLine + stripFoot
	}
	d.Height = r.legend(d, foot+3) + 1.5
	caption := "The beds once filled, cut through: depths to scale, lengths not; water to the broken line"
	if slices.ContainsFunc(shown, func(k kind) bool { return !k.alike && len(k.groups) > 1 }) {
		caption += "; beds with the same media in the same layers are drawn once"
	}
	if n := len(kinds) - len(shown); n > 0 {
		caption += fmt.Sprintf("; %s more, of %s, under \"Each bed\"", units.Several(left, "bed"), units.Several(n, "other kind"))
	}
	return &page.Picture{Caption: caption, Drawing: d, Lines: lines}
}

// legend says below a drawing what each pattern is, from a height on, and answers with
// that of its last line.
func (r *Beds) legend(d *ink.Drawing, y float64) float64 {
	x := 0.0
	for _, m := range r.Media {
		width := 7 + signMM*float64(len([]rune(m.Name))) + 4
		if x > 0 && x+width > d.Width {
			x, y = 0, y+stripLegend
		}
		f := r.fills[m]
		d.Box(x, y-2.8, 5, 3.2, &f, ink.Text, 0.2)
		d.Say(x+6.5, y, m.Name, stripPoints, false, ink.Start)
		x += width
	}
	return y
}

// chosen are the kinds that are drawn, in the order of the beds: the one whose frame is
// used most, then those of most beds.
func (r *Beds) chosen(kinds []kind, most int) []kind {
	if len(kinds) <= most {
		return kinds
	}
	order := make([]int, len(kinds))
	tightest, at := -1.0, 0
	for i, k := range kinds {
		order[i] = i
		for _, g := range k.groups {
			if share, limit := r.usedShare(g); limit != nil && share > tightest {
				tightest, at = share, i
			}
		}
	}
	slices.SortStableFunc(order, func(x, y int) int {
		if tightest >= 0 && (x == at) != (y == at) {
			return map[bool]int{true: -1, false: 1}[x == at]
		}
		return cmp.Compare(kinds[y].beds(), kinds[x].beds())
	})
	order = order[:most]
	slices.Sort(order)
	var out []kind
	for _, i := range order {
		out = append(out, kinds[i])
	}
	return out
}

// name is the beds of a kind.
func (k kind) name() string {
	if k.alike || len(k.groups) == 1 {
		return strings.Join(k.groups[0].names, ", ")
	}
	return k.short()
}

// short is the first of them and how many there are.
func (k kind) short() string {
	first := k.groups[0].Bed.Name
	switch n := k.beds(); {
	case n == 1:
		return first
	case k.alike:
		return fmt.Sprintf("%s and %d more alike", first, n-1)
	default:
		return fmt.Sprintf("%d beds like %s", n, first)
	}
}

// signMM is about what one sign of the smallest words takes in millimetres.
const signMM = 1.38

func fitsIn(s string, width float64) bool { return len([]rune(s)) <= int(width/signMM) }

// folded are the words about frames in lines that fit: one too long goes without "table",
// and then with what the frame carries in a line of its own, so that no figure is cut; nor is
// what is said of a limit behind a weight.
func folded(list []string, width float64) []string {
	var out []string
	for _, words := range list {
		if !fitsIn(words, width) {
			words = strings.TrimPrefix(words, "table ")
		}
		name, figures, two := strings.Cut(words, ": ")
		weight, rest, parts := strings.Cut(words, ", ")
		switch {
		case fitsIn(words, width) || !two && !parts:
			out = append(out, words)
		case two:
			out = append(out, clip(name+":", width), figures)
		default:
			out = append(out, weight+",", rest) // "3751 lb flooded, no limit given"
		}
	}
	return out
}

// clip cuts words to a width, roughly.
func clip(s string, width float64) string {
	if most := int(width / signMM); !fitsIn(s, width) && most > 1 {
		return string([]rune(s)[:most-1]) + "…"
	}
	return s
}

// section draws one bed's layers, its water line and its edge.
func (r *Beds) section(d *ink.Drawing, g alike, left, top, width float64) {
	b := g.Bed
	height := stripDepth
	if b.Depth > 0 {
		height *= float64(b.Depth / r.deepest)
	}
	layers := r.layersOf(g)
	all := units.Litres(0)
	for _, l := range layers {
		all += l.litres
	}
	foot := top + stripDepth
	y := foot - height
	d.Box(left, y, width, height, nil, ink.Text, 0.4)
	for _, l := range layers {
		h, x := height*float64(l.litres/all), left
		for _, part := range l.parts {
			f := r.fills[part.medium]
			w := width * float64(part.litres/l.litres)
			d.Box(x, y, w, h, &f, ink.Text, 0.2)
			x += w
		}
		y += h
	}
	if b.Depth > 0 && !b.NeverFloods && b.WaterLine < b.Depth {
		w := foot - height + height*float64(b.WaterLine/b.Depth)
		d.Line(left, w, left+width, w, ink.Text, 0.4, 1.2)
	}
}

// carried says how far the frames of a kind are used, and how deep its beds are where
// they differ.
func (r *Beds) carried(k kind) []string {
	if len(k.groups) == 1 {
		return []string{r.carries(k.groups[0])}
	}
	low, high := math.Inf(1), 0.0
	shallow, deep := k.groups[0].Bed.Depth, k.groups[0].Bed.Depth
	without := 0
	for _, g := range k.groups {
		shallow, deep = min(shallow, g.Bed.Depth), max(deep, g.Bed.Depth)
		share, limit := r.usedShare(g)
		if limit == nil {
			without += g.beds
			continue
		}
		low, high = min(low, share), max(high, share)
	}
	used := fmt.Sprintf("frames used %.0f to %.0f %%", 100*low, 100*high)
	switch {
	case without == k.beds():
		used = "no limit given"
	case math.Round(100*low) == math.Round(100*high):
		used = fmt.Sprintf("frames used %.0f %%", 100*high)
	}
	out := []string{used}
	if without > 0 && without < k.beds() {
		out = append(out, fmt.Sprintf("no limit given for %d", without))
	}
	if shallow > 0 && shallow != deep {
		out = append(out, units.FormatLength(shallow, r.units)+" to "+units.FormatLength(deep, r.units)+" deep")
	}
	return out
}

// usedShare is how far what carries a bed is used, and its limit; nil without one.
func (r *Beds) usedShare(g alike) (share float64, limit *units.Kilograms) {
	w, most := g.Flooded, g.Bed.Limit
	if g.Bed.Table != "" {
		most = nil
		for _, t := range r.plan.Tables {
			if t.Name == g.Bed.Table {
				w, most = t.Flooded, t.Limit
			}
		}
	}
	if most == nil || *most <= 0 {
		return 0, nil
	}
	return float64(w / *most), most
}

// carries says how far a bed's frame is used.
func (r *Beds) carries(g alike) string {
	share, limit := r.usedShare(g)
	switch {
	case limit == nil:
		return r.mass(g.Flooded) + " flooded, no limit given"
	case g.Bed.Table == "":
		return fmt.Sprintf("frame: %.0f %% of %s", 100*share, r.mass(*limit))
	}
	return fmt.Sprintf("table %s: %.0f %% of %s", g.Bed.Table, 100*share, r.mass(*limit))
}

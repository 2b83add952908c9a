package files

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"mediabuy/quotes/internal/spelling"
	"mediabuy/units"
)

// The converters below turn a cell into a value. ok is false when the cell is
// off or bad; a bad one has then been reported. They are not called for an
// empty cell, which each column reads in its own way.

// Loose dry densities believed, in kg per litre. Solid rock is about 3 (common
// figure, no source) and the lightest perlite 0.03 (memory), so anything outside
// is a slip of units.
const (
	MinDensity units.Density = 0.005
	MaxDensity units.Density = 5
)

// Volumes believed for a pack and for all beds of a row, in litres: a spoonful, and
// a million cubic metres. Outside them sums lose their meaning to rounding.
const (
	MinVolume units.Litres = 0.001
	MaxVolume units.Litres = 1e9
)

// maxWhole bounds whole numbers such as the count of beds alike; a larger one
// is a slip of the keyboard.
const maxWhole = 1_000_000

// converted passes on a parser's value or reports its error. While job.toml is
// not settled, what it might have settled is not reported.
func converted[T any](x *reader, c *cell, v T, err error) (T, bool) {
	var zero T
	if c.off {
		return zero, false
	}
	if err != nil {
		var amb *units.AmbiguousError
		if !x.unsettled || !errors.As(err, &amb) && !bare(err, c) {
			x.failErr(c, err)
		}
		return zero, false
	}
	return v, true
}

func (x *reader) number(c *cell) (units.Decimal, bool) {
	v, err := units.ParseNumber(c.text, c.mark)
	return converted(x, c, v, err)
}

// money reads an amount of the job's currency that is not below zero.
func (x *reader) money(c *cell) (units.Money, bool) {
	return x.moneyText(c, c.text)
}

// moneyText reads a part of a cell as an amount.
func (x *reader) moneyText(c *cell, text string) (units.Money, bool) {
	v, err := units.ParseMoney(text, c.mark)
	m, ok := converted(x, c, v, err)
	switch {
	case !ok:
		return units.Money{}, false
	case m.Sign() < 0:
		x.fail(c, spelling.Quoted(text)+" is below zero", "an amount of 0 or more", "leave out the minus sign, or write 0 if nothing is charged")
		return units.Money{}, false
	}
	return m, x.ownCurrency(c, text)
}

// ownCurrency reports an amount that names another currency than the job's.
func (x *reader) ownCurrency(c *cell, amount string) bool {
	sign, codes := units.CurrencyIn(amount)
	if sign == "" || slices.Contains(codes, x.set.Currency) {
		return true
	}
	if !x.unsettled {
		x.fail(c, fmt.Sprintf("%s is not in %s", spelling.Quoted(c.text), x.set.Currency), "every amount in the job's currency",
			"convert it, or set currency in job.toml if the whole job is in another")
	}
	return false
}

// percent reads "8%" or "8" as the share 0.08.
func (x *reader) percent(c *cell) (units.Decimal, bool) {
	p, err := units.ParsePercent(c.text, c.mark)
	return converted(x, c, p, err)
}

// loss reads a share lost, "8%" or "0.08", that must stay under 1.
func (x *reader) loss(c *cell) (float64, bool) {
	p, err := units.ParseShare(c.text, c.mark)
	v, ok := converted(x, c, p, err)
	if !ok {
		return 0, false
	}
	if v.Cmp(units.D("1")) >= 0 {
		x.fail(c, spelling.Quoted(c.text)+" leaves nothing", "less than 100%", "write the share that is lost, such as 8%")
		return 0, false
	}
	return v.Float(), true
}

// whole makes a converter for a whole number of at least 1, with the hint for one
// that is not.
// alike are the words behind a count of things, as in "4 no.", and none, as in "two".
var alike = []string{"", "no", "nos", "nr", "off", "bed", "beds", "pc", "pcs"}

func (x *reader) whole(hint string) func(*cell) (int, bool) {
	return func(c *cell) (int, bool) {
		v, behind, said := units.ParseCount(c.text, c.mark)
		if _, err := units.ParseNumber(c.text, c.mark); err != nil && said == nil && slices.Contains(alike, strings.ToLower(strings.TrimRight(behind, "."))) {
			x.warn(c, fmt.Sprintf("%s is read as %s", spelling.Quoted(c.text), v), asIs)
		} else if n, ok := x.number(c); !ok {
			return 0, false
		} else {
			v = n
		}
		n, err := v.Floor()
		if err != nil || n < 1 || n > maxWhole || !v.Equal(units.DecimalFromInt(n)) {
			x.fail(c, spelling.Quoted(c.text)+" is not a count", fmt.Sprintf("a whole number from 1 to %d", maxWhole), hint)
			return 0, false
		}
		return int(n), true
	}
}

// note passes on what a parser assumed, with what it says to do about it.
func (x *reader) note(c *cell, note string) {
	if note == "" {
		return
	}
	assumed, cure, _ := strings.Cut(note, "; ")
	x.warn(c, fmt.Sprintf("%s: %s", spelling.Quoted(c.text), assumed), cmp.Or(cure, "write it out if that is not meant"))
}

// measured ends the reading of a quantity: sign, bare numbers, notes.
func measured[Q ~float64](x *reader, c *cell, m units.Measure[Q], err error, kind string, zero bool) (units.Measure[Q], bool) {
	m, ok := converted(x, c, m, bareHint(err, c, kind))
	if !ok {
		return m, false
	}
	if m.Value < 0 || m.Value == 0 && !zero {
		want := "more than 0"
		if zero {
			want = "0 or more"
		}
		x.fail(c, spelling.Quoted(c.text)+" is not enough", want, cmp.Or(notEnough[c.heading], "write how much it is, with its unit"))
		return units.Measure[Q]{}, false
	}
	x.note(c, m.Note)
	return m, true
}

// notEnough are the hints for an amount of 0, by heading.
var notEnough = map[string]string{
	"length": insideSize, "width": insideSize, "depth": insideSize,
	"limit":       "write the most it may carry, or leave the cell empty if that is not known",
	"load_volume": "leave the cell empty if a load is not limited by volume",
	"load_weight": "leave the cell empty if a load is not limited by weight",
}

// insideSize is how to find the measures of a bed.
const insideSize = "measure the inside of the bed; one of another shape gives its volume instead"

// bare reports whether a cell was refused for want of a unit only.
func bare(err error, c *cell) bool {
	var amb *units.AmbiguousError
	if err == nil || errors.As(err, &amb) {
		return false
	}
	n, nerr := units.ParseNumber(c.text, c.mark)
	return nerr == nil && n.Sign() > 0
}

// bareHint adds to the error for a bare number how to set a default unit.
func bareHint(err error, c *cell, kinds string) error {
	var pe *units.ParseError
	if !bare(err, c) || !errors.As(err, &pe) {
		return err
	}
	with := *pe
	with.Hint = fmt.Sprintf("write the unit beside the number, or set %s under [units] in job.toml", kinds)
	return &with
}

func (x *reader) options(c *cell, unit string) units.Options {
	return units.Options{Mark: c.mark, Default: unit}
}

// grainOptions are those for sizes of grain. Beds are measured in feet, metres or centimetres, stone
// in inches or millimetres: a 3/8 beside beds in feet is no part of a foot, so it brings its own unit.
func (x *reader) grainOptions(c *cell) units.Options {
	o := x.options(c, x.unit.length)
	if one, err := units.ParseLength("1", o); err != nil || one.Value != 1 && one.Value != 25.4 {
		o.Default = ""
	}
	return o
}

// length reads a length above zero, or at zero too.
func (x *reader) length(c *cell, zero bool) (units.Millimetres, bool) {
	m, err := units.ParseLength(c.text, x.options(c, x.unit.length))
	v, ok := measured(x, c, m, err, "length", zero)
	return v.Value, ok
}

func (x *reader) volume(c *cell, zero bool) (units.Litres, bool) {
	m, err := units.ParseVolume(c.text, x.options(c, x.unit.volume))
	v, ok := measured(x, c, m, err, "volume", zero)
	return v.Value, ok
}

func (x *reader) mass(c *cell, zero bool) (units.Kilograms, bool) {
	m, err := units.ParseMass(c.text, x.options(c, x.unit.mass))
	v, ok := measured(x, c, m, err, "mass", zero)
	return v.Value, ok
}

func (x *reader) density(c *cell) (units.Density, bool) {
	m, err := units.ParseDensity(c.text, x.options(c, x.unit.density))
	v, ok := measured(x, c, m, err, "density", false)
	if ok && (v.Value > MaxDensity || v.Value < MinDensity) {
		x.fail(c, fmt.Sprintf("%s is %.4g kg per litre", spelling.Quoted(c.text), float64(v.Value)),
			fmt.Sprintf("a loose dry density from %g to %g kg/L", float64(MinDensity), float64(MaxDensity)), "solid rock is about 3 kg/L; is the unit right?")
		return 0, false
	}
	return v.Value, ok
}

// choice reads one word of a list. Case does not matter. otherwise is the hint for
// a word that is like none of them.
func choice[W ~string](x *reader, c *cell, known []W, otherwise string) (W, bool) {
	if c.off {
		return "", false
	}
	for _, k := range known {
		if spelling.WordKey(string(k)) == spelling.WordKey(c.text) {
			return k, true
		}
	}
	x.fail(c, spelling.Quoted(c.text)+" is not known here", listed(known), spelling.DidYouMean(c.text, asStrings(known), otherwise))
	return "", false
}

func asStrings[W ~string](in []W) []string {
	out := make([]string, len(in))
	for i, w := range in {
		out[i] = string(w)
	}
	return out
}

// parts splits a list cell at its semicolons; empty parts are dropped.
func parts(text string) []string {
	var out []string
	for p := range strings.SplitSeq(text, ";") {
		if p = strings.TrimSpace(p); p != "" {
			out = append(out, p)
		}
	}
	return out
}

// need reports whether a required cell has something in it, and says so with the
// hint if not.
func (x *reader) need(c *cell, wanted, hint string) bool {
	if c.off {
		return false
	}
	if c.blank() {
		x.fail(c, "the cell is empty", wanted, hint)
		return false
	}
	return true
}

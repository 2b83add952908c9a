package files

import (
	"fmt"
	"regexp"
	"strings"

	"mediabuy/quotes"
	"mediabuy/quotes/internal/spelling"
)

// spreadWanted is how a figure with a spread is written.
const spreadWanted = "one value, or three as low-usual-high, such as 600-800-1000 kg/m3"

// figure takes a part of a spread apart into its number and its unit.
var figure = regexp.MustCompile(`^\s*([0-9][0-9.,' ]*?)\s*([^0-9.,' ].*)?$`)

// spread makes a converter for a figure that may be one value or low-usual-high,
// out of the converter for one value. A unit behind the last value is that of all.
func spread[T ~float64](x *reader, read func(*cell) (T, bool)) func(*cell) (quotes.Spread[T], bool) {
	return func(c *cell) (quotes.Spread[T], bool) {
		var none quotes.Spread[T]
		values := strings.FieldsFunc(c.text, func(r rune) bool { return r == '-' || r == '–' })
		if len(values) == 1 || c.off {
			v, ok := read(c)
			return quotes.Exactly(v), ok
		}
		if len(values) != 3 || strings.HasPrefix(strings.TrimSpace(c.text), "-") {
			x.fail(c, fmt.Sprintf("%s is no figure and no range", spelling.Quoted(c.text)), spreadWanted, "write what it is at least, usually and at most, with - between")
			return none, false
		}
		units := make([]string, 3)
		for i, v := range values {
			m := figure.FindStringSubmatch(v)
			if m == nil {
				x.fail(c, fmt.Sprintf("%s of %s is no number", spelling.Quoted(strings.TrimSpace(v)), spelling.Quoted(c.text)), spreadWanted, "write what it is at least, usually and at most, with - between")
				return none, false
			}
			values[i], units[i] = m[1], spelling.Tidy(m[2])
		}
		for i := range 2 {
			if units[i] != "" && units[i] != units[2] {
				x.fail(c, fmt.Sprintf("%s has the units %s and %s", spelling.Quoted(c.text), spelling.Quoted(units[i]), spelling.Quoted(units[2])), "one unit for all three",
					"write the unit once, behind the last value")
				return none, false
			}
		}
		var out [3]T
		for i, v := range values {
			one := *c
			one.text = strings.TrimSpace(v + " " + units[2])
			if units[2] == "%" {
				one.text = v + "%"
			}
			var ok bool
			if out[i], ok = read(&one); !ok {
				return none, false
			}
		}
		if out[0] > out[1] || out[1] > out[2] {
			x.fail(c, fmt.Sprintf("%s does not rise", spelling.Quoted(c.text)), "low, usual and high, none below the one before", "put the smallest first and the largest last")
			return none, false
		}
		return quotes.Spread[T]{Low: out[0], Usual: out[1], High: out[2]}, true
	}
}

// fill reads what a pack really holds, in percent of what it is sold as.
func (x *reader) fill(c *cell) (float64, bool) {
	p, ok := x.percent(c)
	if !ok {
		return 0, false
	}
	if v := p.Float(); v >= 0.1 && v <= 2 {
		return v, true
	}
	x.fail(c, spelling.Quoted(c.text)+" of a pack is hard to believe", "from 10% to 200% of the volume it is sold as", "write 95-100-103% for a pack that may hold 5 % less or 3 % more")
	return 0, false
}

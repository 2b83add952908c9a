package files

import (
	"cmp"
	"errors"
	"fmt"
	"strings"

	"mediabuy/quotes"
	"mediabuy/quotes/internal/day"
	"mediabuy/quotes/internal/spelling"
	"mediabuy/quotes/internal/typed"
	"mediabuy/units"
)

// reader carries what reading one job needs from file to file.
type reader struct {
	rep  quotes.Report
	opt  Options
	set  quotes.Settings
	mark units.DecimalMark // of the whole job; MarkUnknown: each column settles its own
	unit unitDefaults
	// order is that of the country whose currency job.toml states; Unknown while it states none.
	order      day.Order
	saidGroups bool // a cell's comma was read by the currency, which is said once
	// unsettled says that job.toml could not be read or that its decimal, units
	// or currency are bad. What they might settle in other files is then not
	// reported, as job.toml comes first.
	unsettled bool
	// broken are names of media whose rows had problems, under their keys: a quote of
	// such a medium is not also told that the medium is unknown.
	broken map[string]bool
}

// spoil notes that a row about this medium had problems.
func (x *reader) spoil(name string) {
	if x.broken == nil {
		x.broken = map[string]bool{}
	}
	x.broken[spelling.WordKey(name)] = true
}

// unitDefaults are the units of bare numbers by kind; "" means that a bare
// number of that kind is an error.
type unitDefaults struct{ volume, mass, length, density string }

func (x *reader) problem(p quotes.Pos, heading, found, wanted, hint string) {
	x.rep.Add(&quotes.Problem{Pos: p, Severity: quotes.Error, Heading: heading, Found: found, Wanted: wanted, Hint: hint})
}

func (x *reader) warning(p quotes.Pos, heading, found, wanted, hint string) {
	x.rep.Add(&quotes.Problem{Pos: p, Severity: quotes.Warning, Heading: heading, Found: found, Wanted: wanted, Hint: hint})
}

// fail reports a bad cell. It reads as a value so that a converter can end with it.
func (x *reader) fail(c *cell, found, wanted, hint string) {
	x.problem(c.Pos, c.heading, found, wanted, hint)
}

func (x *reader) warn(c *cell, found, hint string) {
	x.warning(c.Pos, c.heading, found, "", hint)
}

// failErr reports a cell that a parser refused, in the parser's words.
func (x *reader) failErr(c *cell, err error) {
	found, wanted, hint := words(err)
	x.fail(c, found, wanted, cmp.Or(typed.Hint(c.heading, c.text), hint))
}

// words takes a parser's error apart into found, wanted and hint.
func words(err error) (found, wanted, hint string) {
	var amb *units.AmbiguousError
	if errors.As(err, &amb) {
		hint = amb.Parse.Hint
		if !strings.Contains(hint, "%") { // of a number with an unclear mark, not of a percentage
			hint = fmt.Sprintf("write %s or %s, whichever is meant; decimal = \".\" or \",\" in job.toml settles the whole job", amb.Copies[0], amb.Copies[1])
		}
		return strings.TrimSuffix(amb.Error(), ", want "+amb.Parse.Wanted), amb.Parse.Wanted, hint
	}
	var pe *units.ParseError
	if !errors.As(err, &pe) {
		return err.Error(), "a value that can be read", "write it as its column's other cells are written"
	}
	hint = pe.Hint
	switch {
	case hint != "":
	case strings.HasPrefix(strings.TrimSpace(pe.Found), "-"):
		hint = "it cannot be below 0; leave out the minus sign"
	default:
		hint = "write " + pe.Wanted
	}
	return strings.TrimSuffix(pe.Error(), ", want "+pe.Wanted), pe.Wanted, hint
}

// show writes an amount in the currency's digits, unless it has more.
func (x *reader) show(m units.Money) string {
	if digits := x.set.CurrencyDigits; m.Round(digits).Equal(m) {
		return m.Text(digits)
	}
	return m.String()
}

// signed is money with its sign, for what is said and not to be typed.
func (x *reader) signed(m units.Money) string { return units.FormatQuoted(m, x.set.Currency) }

// listed writes words as a list for a message: a, b or c.
func listed[S ~string](words []S) string {
	var b strings.Builder
	for i, w := range words {
		switch {
		case i == 0:
		case i == len(words)-1:
			b.WriteString(" or ")
		default:
			b.WriteString(", ")
		}
		b.WriteString(string(w))
	}
	return b.String()
}

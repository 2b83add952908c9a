package quotes

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"

	"mediabuy/quotes/internal/spelling"
	"mediabuy/units"
)

// What a grain size and a sieve should look like, for messages.
const (
	grainWhat   = "a grain size"
	grainWanted = `a size such as 8-16 mm, 8/16, 3/8-3/4 in, #57, "3/4 in minus" or 3/8 in`
	sieveWhat   = "a sieve size"
	sieveWanted = "one size with its unit, such as 1/2 in, 8 mm or No. 4"
)

// ParseGrain reads a range of grain sizes:
//
//	8-16 mm, 8/16       from 8 to 16 mm; a d/D pair without a unit is in mm (EN 12620)
//	3/8-3/4 in          a dash between fractions; ends in inches that name an ASTM E11 sieve are its opening
//	#57                 the nominal range of ASTM D448 No. 57
//	3/4 in minus        from 0
//	1/2 in +            without an upper end
//	3/8 in              a single size: smallest = largest
//	3/4 in - No. 8      an end may be a numbered E11 sieve
//
// Whatever reads two ways is refused: a bare 3/8 (inches, or 3 to 8 mm), 1-3/4 in (one and three quarters, or 1 to 3/4).
// The error is a *units.ParseError, or a *units.AmbiguousError for a number such as 1,250, and comes with the zero Grain.
func ParseGrain(text string, o units.Options) (Grain, error) {
	g, err := parseGrain(text, o)
	if err != nil {
		return Grain{}, err
	}
	g.Known, g.Raw = true, text
	return g, nil
}

func grainErr(text, hint string) error {
	return &units.ParseError{Found: text, What: grainWhat, Wanted: grainWanted, Hint: hint}
}

var (
	dashes     = strings.NewReplacer("–", "-", "—", "-", "−", "-", "‐", "-", "‑", "-", "⁄", "/")
	numberOnly = regexp.MustCompile(`^(?:#|no\.? ?|number |size )\s*(\d+(?:-1/2)?)$`)
	slashPair  = regexp.MustCompile(`^(\d+(?:[.,]\d+)?) ?/ ?(\d+(?:[.,]\d+)?)( ?mm)?$`)
	hyphenUnit = regexp.MustCompile(`([\d½¼¾])-(in|inch|mm)\b`)     // 3/4-in
	usualInch  = regexp.MustCompile(`^\d*[13579]/(?:2|4|8|16|32)$`) // a reduced fraction of an inch
)

func parseGrain(text string, o units.Options) (Grain, error) {
	if len(text) > units.MaxTextBytes {
		return Grain{}, grainErr(text, fmt.Sprintf("the text is %d bytes long", len(text)))
	}
	t := hyphenUnit.ReplaceAllString(strings.ToLower(spelling.Tidy(dashes.Replace(text))), "$1 $2")
	if t == "" {
		return Grain{}, grainErr(text, "leave the cell out if the size is not known")
	}
	if m := numberOnly.FindStringSubmatch(t); m != nil {
		return stoneGrain(text, m[1])
	}
	if m := slashPair.FindStringSubmatch(t); m != nil {
		if g, done, err := pairGrain(text, m, o); done || err != nil {
			return g, err
		}
	}
	for _, word := range []string{"minus", "plus", "+"} {
		rest, found := strings.CutSuffix(t, word)
		if !found {
			continue
		}
		end, err := grainEnd(text, strings.TrimRight(rest, " -"), o, false)
		if err != nil {
			return Grain{}, err
		}
		if word == "minus" {
			return Grain{Max: end.Value, By: end.By}, nil
		}
		return Grain{Min: end.Value, Max: units.Millimetres(math.Inf(1)), By: end.By}, nil
	}
	if strings.HasSuffix(t, "-") {
		return Grain{}, grainErr(text, `write "minus" for everything below a size, or both ends of a range`)
	}
	from, to, err := grainRange(text, t)
	if err != nil {
		return Grain{}, err
	}
	if to == "" {
		end, err := grainEnd(text, from, o, false)
		return Grain{Min: end.Value, Max: end.Value, By: end.By}, err
	}
	return rangeGrain(text, from, to, o)
}

// stoneGrain is the nominal range of a D448 size.
func stoneGrain(text, number string) (Grain, error) {
	s, ok := stoneByNumber(number)
	if !ok {
		return Grain{}, grainErr(text, fmt.Sprintf("No. %s is no size of ASTM D448, which has %s; ask the yard for its range in mm or inches", number, stoneNumbers()))
	}
	g := Grain{Min: s.from, Max: s.to, By: fmt.Sprintf("ASTM D448 No. %s = %g to %g mm, nominal", number, float64(s.from), float64(s.to))}
	if localNumbers[number] {
		g.Note = fmt.Sprintf("read as ASTM D448 No. %s, %g to %g mm, but yards also use it as a number of their own; ask which", number, float64(s.from), float64(s.to))
	}
	return g, nil
}

func stoneNumbers() string {
	out := make([]string, len(stones))
	for i, s := range stones {
		out[i] = s.number
	}
	return strings.Join(out, ", ")
}

// pairGrain reads d/D. done is false when the pair is a fraction of the default unit instead.
func pairGrain(text string, m []string, o units.Options) (g Grain, done bool, err error) {
	pair := m[1] + "/" + m[2]
	inMM := m[3] != "" || o.Default == "mm"
	if !inMM && usualInch.MatchString(pair) {
		if o.Default != "" {
			return Grain{}, false, nil
		}
		return Grain{}, false, grainErr(text, fmt.Sprintf("it can be read as %s in or as %s to %s mm; write %q or %q", pair, m[1], m[2], pair+" in", m[1]+"-"+m[2]+" mm"))
	}
	o.Default = "mm"
	g, err = rangeGrain(text, m[1], m[2], o)
	if err == nil {
		g.By = "d/D = lower and upper sieve in mm"
	}
	return g, true, err
}

// grainRange splits a range at its dash or "to"; to is "" for a single size. A
// dash also joins the parts of a number such as 1-1/2, so the ends are found
// from all the dashes together.
func grainRange(text, t string) (from, to string, err error) {
	for _, mid := range []string{" to ", " - "} {
		if a, b, ok := strings.Cut(t, mid); ok && a != "" && b != "" {
			return a, b, nil
		}
	}
	p := strings.Split(t, "-")
	for i := range p {
		p[i] = strings.TrimSpace(p[i])
	}
	switch len(p) {
	case 1:
		return t, "", nil
	case 2:
		if p[0] == "0" || !mixed(p[0], p[1]) {
			return p[0], p[1], nil
		}
		return "", "", grainErr(text, fmt.Sprintf("it can be read as one size, %s %s, or as a range; write %q or %q", p[0], p[1], p[0]+" "+p[1], p[1]+" to "+p[0]+unitOf(p[1])))
	case 3:
		if mixed(p[1], p[2]) && !mixed(p[0], p[1]) {
			return p[0], p[1] + "-" + p[2], nil
		}
		if mixed(p[0], p[1]) && !mixed(p[1], p[2]) {
			return p[0] + "-" + p[1], p[2], nil
		}
	case 4:
		if mixed(p[0], p[1]) && mixed(p[2], p[3]) {
			return p[0] + "-" + p[1], p[2] + "-" + p[3], nil
		}
	}
	return "", "", grainErr(text, `write the two ends with "to" between them`)
}

var (
	wholePart    = regexp.MustCompile(`^\d+$`)
	fractionPart = regexp.MustCompile(`^(\d+)/(\d+)\D*$`)
)

// mixed reports whether a and b, joined by a dash, may be one number such as 1-1/2.
func mixed(a, b string) bool {
	m := fractionPart.FindStringSubmatch(b)
	return wholePart.MatchString(a) && m != nil && (len(m[1]) < len(m[2]) || len(m[1]) == len(m[2]) && m[1] < m[2])
}

// unitOf is what stands behind the last digit of a size, without a space before it.
func unitOf(s string) string {
	at := strings.LastIndexFunc(s, unicode.IsNumber)
	if at < 0 {
		return s
	}
	_, size := utf8.DecodeRuneInString(s[at:])
	return s[at+size:]
}

// rangeGrain reads the two ends of a range; an end without a unit takes the other's.
func rangeGrain(text, from, to string, o units.Options) (Grain, error) {
	uf, ut := strings.TrimSpace(unitOf(from)), strings.TrimSpace(unitOf(to))
	switch {
	case uf == "" && ut != "" && !numbered(from):
		from += " " + ut
	case ut == "" && uf != "" && !numbered(to):
		to += " " + uf
	}
	a, err := grainEnd(text, from, o, true)
	if err != nil {
		return Grain{}, err
	}
	b, err := grainEnd(text, to, o, false)
	if err != nil {
		return Grain{}, err
	}
	if a.Value > b.Value {
		return Grain{}, grainErr(text, fmt.Sprintf("the range runs from large to small; write the smaller size first, %s to %s", to, from))
	}
	by := a.By
	if b.By != "" && b.By != a.By {
		by = strings.TrimPrefix(by+"; "+b.By, "; ")
	}
	return Grain{Min: a.Value, Max: b.Value, By: by}, nil
}

func numbered(end string) bool { return strings.HasPrefix(end, "#") || strings.HasPrefix(end, "no") }

// grainEnd reads one size of a grain size cell; zero says whether it may be 0.
func grainEnd(text, end string, o units.Options, zero bool) (units.Measure[units.Millimetres], error) {
	m, err := oneSize(end, o, zero)
	return m, wholeCell(err, func(hint string) error { return grainErr(text, hint) })
}

// wholeCell makes the error of a part one of the cell, as that is what the reader
// sees. A number that reads two ways keeps its own error.
func wholeCell(err error, as func(hint string) error) error {
	var amb *units.AmbiguousError
	var pe *units.ParseError
	switch {
	case errors.As(err, &amb):
		return err
	case errors.As(err, &pe):
		return as(pe.Hint)
	}
	return err
}

// ParseSieve reads one size, such as a bed's smallest grain: 1/2 in, 8 mm, No. 4. A size in inches that names an ASTM E11
// sieve is that sieve's opening, so that a 1/2 in stone meets a 1/2 in minimum; By says so. #4 is refused, because it may
// be the sieve No. 4 or the stone No. 4. The error is a *units.ParseError or *units.AmbiguousError, with the zero Measure.
func ParseSieve(text string, o units.Options) (units.Measure[units.Millimetres], error) {
	if len(text) > units.MaxTextBytes {
		return units.Measure[units.Millimetres]{}, sieveErr(text, fmt.Sprintf("the text is %d bytes long", len(text)))
	}
	t := strings.ToLower(spelling.Tidy(dashes.Replace(text)))
	if strings.HasPrefix(t, "#") {
		return units.Measure[units.Millimetres]{}, sieveErr(text, `a bare # may be a sieve or a stone size; write "No. 4" for the sieve, or the size in mm`)
	}
	m, err := oneSize(t, o, false)
	if err != nil {
		return units.Measure[units.Millimetres]{}, wholeCell(err, func(hint string) error { return sieveErr(text, hint) })
	}
	m.Raw = text
	return m, nil
}

func sieveErr(text, hint string) error {
	return &units.ParseError{Found: text, What: sieveWhat, Wanted: sieveWanted, Hint: hint}
}

// oneSize reads a size in lower case; zero says whether 0 is one.
func oneSize(t string, o units.Options, zero bool) (units.Measure[units.Millimetres], error) {
	var none units.Measure[units.Millimetres]
	if m := numberOnly.FindStringSubmatch(t); m != nil {
		s, ok := sieveByNumber(m[1])
		if !ok {
			return none, sieveErr(t, "No. "+m[1]+" is no sieve known here; write its opening in mm")
		}
		return units.Measure[units.Millimetres]{Value: s.mm, Raw: t, By: fmt.Sprintf("ASTM E11 %s = %g mm", s.name, float64(s.mm))}, nil
	}
	m, err := units.ParseLength(t, o)
	switch {
	case err != nil:
		return none, err
	case m.Value < 0 || m.Value == 0 && !zero:
		return none, sieveErr(t, "a grain is larger than 0")
	case m.Value == 0:
		m.By = "" // nothing is nothing in any unit
		return m, nil
	case !inches(t, o.Default):
		return m, nil
	}
	in := float64(m.Value) / float64(units.Inch)
	if s, ok := sieveByInches(in); ok {
		return units.Measure[units.Millimetres]{Value: s.mm, Raw: t, By: fmt.Sprintf("ASTM E11 %s = %g mm", s.name, float64(s.mm))}, nil
	}
	m.By = fmt.Sprintf("%.4g in = %.4g mm, as no ASTM E11 sieve is named so", in, float64(m.Value))
	return m, nil
}

// inches reports whether a size is in inches alone.
func inches(t, unit string) bool {
	u := strings.TrimSpace(strings.TrimLeftFunc(t, func(r rune) bool { return unicode.IsNumber(r) || strings.ContainsRune(".,/- ", r) }))
	if u == "" {
		u = unit
	}
	switch strings.TrimSuffix(strings.ToLower(u), ".") {
	case "in", "ins", "inch", "inches", `"`, "″", "”", "''", "′′", "’’":
		return true
	}
	return false
}

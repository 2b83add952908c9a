package units

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// ParseVolume reads a volume as people write it: 50 L, 1.5 ft3, 2 cu ft, 1 cu yd, 1/2 yard, 0.5 m³, 25 qt, 5 gal. A yard
// is a cubic yard. A bare quart is the US dry quart, a bare gallon the US liquid gallon and a bare bushel the US struck
// bushel, each said in Note. A bare number takes o.Default, and is an error without it; a bare 0 is 0 in any unit.
//
// The error is a *ParseError, or an *AmbiguousError for a number such as 1,234 while o.Mark is MarkUnknown. The same
// holds for the other parsers of quantities.
func ParseVolume(text string, o Options) (Measure[Litres], error) {
	return measure[Litres](text, o, aVolume, volumes)
}

// ParseMass reads a weight: 25 kg, 500 g, 40 lb, 8 oz, 1 ton, 1 tonne, 1 long ton. A bare ton is the US short ton and a
// bare t the metric tonne, each said in Note; a capital T is refused, as it is written for both.
func ParseMass(text string, o Options) (Measure[Kilograms], error) {
	return measure[Kilograms](text, o, aMass, masses)
}

// ParseLength reads a length: 12 in, 12", 4 ft, 4 ft 6 in, 4'6", 300 mm, 1.2 m, 1/2 in, 3 1/2 in, 3-1/2 in, 1½ in. Parts
// that follow one another must shrink, stay in one system, and not reach one of the unit before.
func ParseLength(text string, o Options) (Measure[Millimetres], error) {
	return measure[Millimetres](text, o, aLength, lengths)
}

// ParseAmount reads what a pack holds, by volume or by weight. A bare 0 is a volume.
func ParseAmount(text string, o Options) (Amount, error) {
	r, err := readQuantity(text, text, o, aContent, volumes, masses)
	if err != nil {
		return Amount{}, err
	}
	if r.family == masses {
		return Amount{IsMass: true, Mass: asMeasure[Kilograms](r, text), Raw: text}, nil
	}
	return Amount{Volume: asMeasure[Litres](r, text), Raw: text}, nil
}

// quantity is a reading in base units of its family.
type quantity struct {
	value    Decimal
	by, note string
	family   *family
}

func measure[Q ~float64](text string, o Options, k kind, f *family) (Measure[Q], error) {
	r, err := readQuantity(text, text, o, k, f)
	if err != nil {
		return Measure[Q]{}, err
	}
	return asMeasure[Q](r, text), nil
}

func asMeasure[Q ~float64](r quantity, text string) Measure[Q] {
	return Measure[Q]{Value: Q(r.value.Float()), Raw: text, By: r.by, Note: r.note}
}

// part is one number and its unit.
type part struct {
	count counted
	unit  unit
}

// readQuantity reads body as a quantity of one of the families; text is the whole cell, for errors.
func readQuantity(text, body string, o Options, k kind, families ...*family) (quantity, error) {
	if err := k.checkText(text); err != nil {
		return quantity{}, err
	}
	compound := families[0] == lengths
	var parts []part
	bare := false
	for rest := strings.TrimSpace(body); rest != ""; rest = strings.TrimSpace(rest) {
		// An apostrophe behind a length's number means feet, so it cannot group its digits.
		c, failed := readCount(rest, o.Mark, !compound)
		if failed != nil {
			return quantity{}, k.error(text, failed)
		}
		name := strings.TrimSpace(c.rest)
		if compound {
			name = firstUnitWord(name)
		}
		rest = strings.TrimPrefix(strings.TrimSpace(c.rest), name)
		if bare = name == ""; bare {
			switch {
			case len(parts) > 0:
				return quantity{}, k.err(text, fmt.Sprintf("write the unit behind %s as well", c.text))
			case c.value.IsZero():
				return quantity{family: families[0]}, nil
			case o.Default == "":
				return quantity{}, k.err(text, "write the unit behind the number")
			}
			name = strings.TrimSpace(o.Default)
		}
		u, hint := findUnit(name, families...)
		if hint != "" {
			return quantity{}, k.err(text, unitHint(c, hint))
		}
		parts = append(parts, part{c, u})
		if hint := badSequence(parts); hint != "" {
			return quantity{}, k.err(text, hint)
		}
	}
	return total(text, k, parts, bare)
}

// unitHint prefers a hint about the number over the one that the unit is not known, when what was taken for the unit
// touches the number: the letter of "1O L", the exponent of "1e5 L".
func unitHint(c counted, hint string) string {
	first, _ := utf8.DecodeRuneInString(c.rest)
	if c.rest == "" || unicode.IsSpace(first) {
		return hint
	}
	if letterHint(c.text+string(first)) != "" {
		return letterHint(c.text + c.rest)
	}
	if isExponent(c.rest) {
		return "write the number out, without an exponent"
	}
	return hint
}

// total adds the parts up in base units.
func total(text string, k kind, parts []part, bare bool) (quantity, error) {
	q := quantity{family: parts[0].unit.family}
	var by, notes []string
	for _, p := range parts {
		q.value = q.value.Add(p.count.value.Mul(p.unit.factor))
		if p.count.value.Cmp(maxMagnitude) > 0 || q.value.Cmp(maxMagnitude) > 0 {
			return quantity{}, k.err(text, fmt.Sprintf("it is larger than %s, the most that is read", maxMagnitude))
		}
		by = appendNew(by, p.unit.rule())
		notes = appendNew(notes, p.unit.note)
	}
	if bare {
		by = append([]string{"no unit written, read as " + parts[0].unit.shown}, by...)
	}
	q.by, q.note = strings.Join(by, ", "), strings.Join(notes, "; ")
	return q, nil
}

// appendNew appends s unless it is empty or there already.
func appendNew(list []string, s string) []string {
	if s == "" || slices.Contains(list, s) {
		return list
	}
	return append(list, s)
}

// badSequence says what is wrong with the last of the parts behind the one before it, as in 4 ft 6 in.
func badSequence(parts []part) string {
	if len(parts) < 2 {
		return ""
	}
	a, b := parts[len(parts)-2], parts[len(parts)-1]
	before, behind := fmt.Sprintf("%s %s", a.count.text, a.unit.shown), fmt.Sprintf("%s %s", b.count.text, b.unit.shown)
	switch {
	case a.unit.system != b.unit.system:
		return fmt.Sprintf("%s and %s are of two systems; write the length in one", before, behind)
	case b.unit.factor.Cmp(a.unit.factor) >= 0:
		return fmt.Sprintf("%s cannot follow %s; write the larger unit first", behind, before)
	case !a.count.value.IsMultipleOf(one):
		return fmt.Sprintf("%s is not whole, so nothing can follow it", before)
	case b.count.value.Mul(b.unit.factor).Cmp(a.unit.factor) >= 0:
		return fmt.Sprintf("%s is 1 %s or more; count it there", behind, a.unit.shown)
	}
	return ""
}

// firstUnitWord gives the unit's name at the start of a length: all up to the next number. A point that stands behind a
// letter belongs to the name (ft.), any other in front of a digit to the number. When all of s names a unit of another
// kind, as ft3 does, the name is all of it, so that the error can say so.
func firstUnitWord(s string) string {
	if _, other := volumes.units[squash(s)]; other && strings.ContainsAny(s, "3³") {
		return s
	}
	before := ' '
	for i, r := range s {
		_, fraction := vulgar[r]
		next := s[i+utf8.RuneLen(r):]
		point := (r == '.' || r == ',') && !unicode.IsLetter(before) && digitRun(next) != ""
		_, minus := cutMinus(s[i:])
		if isASCIIDigit(r) || fraction || point || minus {
			return strings.TrimSpace(s[:i])
		}
		before = r
	}
	return strings.TrimSpace(s)
}

package units

import (
	"fmt"
	"strings"
)

// ParseDensity reads a weight per volume: 45 lb/ft3, 45 lb per cu ft, 0.72 kg/L, 720 kg/m³, 1.1 ton/yd3, 0.8 g/cm3, 45 pcf.
// Units are those of ParseMass and ParseVolume, with the same readings said in Note. It must be above 0. A bare number
// takes o.Default, such as "kg/L", and is an error without it.
func ParseDensity(text string, o Options) (Measure[Density], error) {
	fail := func(hint string) (Measure[Density], error) { return Measure[Density]{}, aDensity.err(text, hint) }
	if err := aDensity.checkText(text); err != nil {
		return Measure[Density]{}, err
	}
	c, failed := readCount(strings.TrimSpace(text), o.Mark, true)
	if failed != nil {
		return Measure[Density]{}, aDensity.error(text, failed)
	}
	name := strings.TrimSpace(c.rest)
	bare := name == ""
	if bare {
		name = strings.TrimSpace(o.Default)
	}
	if name == "" {
		return fail("write the unit behind the number, such as lb/ft3 or kg/L")
	}
	if strings.EqualFold(name, "pcf") { // pounds per cubic foot, as engineers abbreviate it: common practice, no source
		name = "lb/ft3"
	}
	massName, volumeName, ok := cutPer(name)
	if !ok {
		return fail(unitHint(c, fmt.Sprintf("%q is not a weight per volume", name)))
	}
	mass, hint := findUnit(massName, masses)
	if hint != "" {
		return fail(unitHint(c, hint))
	}
	volume, hint := findUnit(volumeName, volumes)
	if hint != "" {
		return fail(hint)
	}
	factor := mass.factor.Quo(volume.factor)
	value := c.value.Mul(mass.factor).Quo(volume.factor)
	switch {
	case value.IsZero():
		return fail("it is 0")
	case c.value.Cmp(maxMagnitude) > 0 || value.Cmp(maxMagnitude) > 0:
		return fail(fmt.Sprintf("it is larger than %s, the most that is read", maxMagnitude))
	}
	m := Measure[Density]{Value: Density(value.Float()), Raw: text}
	shown := mass.shown + "/" + volume.shown
	if shown != "kg/L" {
		m.By = fmt.Sprintf("1 %s = %s kg/L", shown, factor.significant(factorDigits))
	}
	if bare {
		m.By = strings.Join(appendNew([]string{"no unit written, read as " + shown}, m.By), ", ")
	}
	m.Note = strings.Join(appendNew(appendNew(nil, mass.note), volume.note), "; ")
	return m, nil
}

// cutPer cuts "lb per cu ft" and "lb/cu ft" at the word or the stroke. The word goes first, so that a stroke behind it may
// stand in a fraction.
func cutPer(s string) (before, behind string, ok bool) {
	const word = "per"
	for i := 0; i+len(word) <= len(s); i++ {
		after := s[i+len(word):]
		if strings.EqualFold(s[i:i+len(word)], word) && !endsInLetter(s[:i]) && !startsWithLetter(after) {
			return strings.TrimSpace(s[:i]), strings.TrimSpace(after), true
		}
	}
	before, behind, ok = strings.Cut(s, "/")
	return strings.TrimSpace(before), strings.TrimSpace(behind), ok
}

package units

import (
	"fmt"
	"strings"
)

// PerVolume is money per volume as sold, kept as written: 12 per 1 yd³. The zero value is free.
type PerVolume struct {
	Money Money  // for each Per
	Per   Litres // above 0, except in the zero value
	Raw   string // the cell, exactly as given to ParsePerVolume
	By    string // the factor of the volume, as in Measure
	Note  string // a warning about the volume's unit, as in Measure
}

// volumeDigits is how many significant digits of a ratio of two volumes count. Litres are float64, good for almost 16
// digits; dropping the last ones turns the 0.49999999999999994 of a sum of half yards back into 0.5, so that half a
// cent is rounded as the half it is. On a million in money the change is below a ten-thousandth of a cent.
const volumeDigits = 13

// For gives the money for a volume, not rounded to cents. It panics on a volume that is infinite or not a number.
func (p PerVolume) For(v Litres) Money {
	if p.Per == 0 {
		return Money{}
	}
	ratio := DecimalOf(float64(v)).Quo(DecimalOf(float64(p.Per))).significant(volumeDigits)
	return p.Money.Times(ratio)
}

// PerLitre gives the money per litre, for models and charts.
func (p PerVolume) PerLitre() float64 {
	if p.Per == 0 {
		return 0
	}
	return p.Money.Float() / float64(p.Per)
}

// IsZero says whether every volume is free.
func (p PerVolume) IsZero() bool { return p.Money.IsZero() }

// ParsePerVolume reads an amount of money per volume: 12 / yd3, $12 per yd3, 0.02 / L, 12/m3, 30 per 10 cu ft. Units are
// those of ParseVolume. A bare 0 is free; any other bare number is an error, as is a price below 0.
func ParsePerVolume(text string, mark DecimalMark) (PerVolume, error) {
	if err := aPerVolume.checkText(text); err != nil {
		return PerVolume{}, err
	}
	price, volume, found := cutPer(text)
	if found && price == "" {
		return PerVolume{}, aPerVolume.err(text, "write the amount in front of the volume")
	}
	a, f := splitAmount(strings.TrimSpace(price))
	money, err := a.value(text, mark, aPerVolume, f)
	switch {
	case err != nil:
		return PerVolume{}, err
	case money.Sign() < 0:
		return PerVolume{}, aPerVolume.err(text, "a price cannot be below 0")
	case !found && money.IsZero():
		return PerVolume{Per: Litre, Raw: text}, nil
	case !found:
		return PerVolume{}, aPerVolume.err(text, fmt.Sprintf("write the volume behind the amount, such as %s / yd3", money))
	}
	if !startsCount(volume) {
		volume = "1 " + volume
	}
	per, err := readQuantity(text, volume, Options{Mark: mark}, aPerVolume, volumes)
	if err != nil {
		return PerVolume{}, err
	}
	if per.value.IsZero() {
		return PerVolume{}, aPerVolume.err(text, "it divides by a volume of 0")
	}
	return PerVolume{Money: MoneyOf(money), Per: Litres(per.value.Float()), Raw: text, By: per.by, Note: per.note}, nil
}

// startsCount says whether a number stands at the start of s, even one that will be refused.
func startsCount(s string) bool {
	_, length := scanNumeral(s, true)
	_, _, fraction := leadingVulgar(s)
	_, minus := cutMinus(s)
	return length > 0 || fraction || minus
}

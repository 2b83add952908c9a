// Package caution is the one home of what a buyer should beware of: weights of full
// beds, lifting, the acid drop, dust, stone that floats or cuts. The terminal, the
// page and the papers say it in these words. Each caution has its source beside it,
// or says that there is none, and defers to local codes and licensed practice.
package caution

import (
	"fmt"
	"slices"
	"strings"

	"mediabuy/quotes"
	"mediabuy/units"
)

// Caution is one thing to be careful about, with where its figures come from.
type Caution struct {
	About  string // a word or two
	Words  string
	Source string // "" where the words hold no figure
}

// Text is a caution as one paragraph, its source behind it.
func (c Caution) Text() string {
	out := strings.ToUpper(c.About[:1]) + c.About[1:] + ": " + strings.TrimSuffix(c.Words, ".") + "."
	if c.Source != "" {
		out += " Source: " + c.Source + "."
	}
	return out
}

// NearLimit is the share of a weight limit from which a table is called near it
// (common practice, no source).
const NearLimit = 0.9

// IdealLift is the load constant of the NIOSH lifting equation, the most for an
// ideal lift by one person: 23 kg (see [Lifting]).
const IdealLift units.Kilograms = 23

// Guideline lifts of the British Health and Safety Executive, close to the body at
// elbow height (see [Lifting]).
const (
	closeLiftMen   units.Kilograms = 25
	closeLiftWomen units.Kilograms = 16
)

// Frames goes with every list of weights.
var Frames = Caution{
	About: "weight of full beds",
	Words: "Have each frame's capacity checked by someone qualified; local codes govern. Weights are those of a bed flooded to its water line, pump on and drain blocked.",
}

// Dust is about the dust of some media, for a job in a currency; ok is false where none of them is rinsed.
func Dust(of []*quotes.Quote, currency string) (c Caution, ok bool) {
	var dusty []string
	for _, q := range of {
		if q.Medium.RinseMinutes.Usual > 0 && q.Medium.RinseLoss.Usual > 0 && !slices.Contains(dusty, q.Medium.Name) {
			dusty = append(dusty, q.Medium.Name)
		}
	}
	if len(dusty) == 0 {
		return Caution{}, false
	}
	slices.Sort(dusty)
	limit := "At work the"
	if currency != "USD" {
		limit = "At work local limits apply: ask for yours. For comparison, the"
	}
	return Caution{
		About: "dust",
		Words: fmt.Sprintf("damp %s before tipping or shovelling and rinse out of doors: stone dust can hold silica; do not breathe it, and keep the rinse water out of drains and ponds. "+
			"%s limit for breathable crystalline silica in the United States is 50 micrograms in a cubic metre of air over 8 hours, with action from 25; a home grower has no measurement to compare with it", strings.Join(dusty, ", "), limit),
		Source: "Occupational Safety and Health Administration, 29 CFR 1910.1053, Respirable crystalline silica, in its memorandum of 25 June 2018, https://www.osha.gov/laws-regs/standardinterpretations/2018-06-25 (read); the advice is common practice, no source",
	}, true
}

// Lifting is about the bags among some quotes; ok is false if there are none.
func Lifting(of []*quotes.Quote, sys units.System) (c Caution, ok bool) {
	var bags []string
	for _, q := range of {
		if q.Form == quotes.Bag {
			words := fmt.Sprintf("%s about %s", q.NameWords(), whole(q.PackMass, sys))
			switch {
			case q.PackMass > quotes.HeaviestBag:
				words += " (no hand lifts that: have it set down by a machine)"
			case q.PackMass > IdealLift:
				words += " (share it or use a trolley)"
			}
			bags = append(bags, words)
		}
	}
	if len(bags) == 0 {
		return Caution{}, false
	}
	return Caution{
		About: "lifting",
		Words: fmt.Sprintf("one dry bag weighs: %s; a wet one more. %s is the most for an ideal lift by one person by the NIOSH lifting equation, and less for any lift that is not ideal; "+
			"the British guideline for a lift close to the body at elbow height is %s for men and %s for women, and Great Britain sets no legal maximum",
			strings.Join(bags, ", "), whole(IdealLift, sys), whole(closeLiftMen, sys), whole(closeLiftWomen, sys)),
		Source: "National Institute for Occupational Safety and Health, Applications Manual for the Revised NIOSH Lifting Equation, DHHS (NIOSH) 94-110, 1994, as the Occupational Safety and Health Administration gives it, https://www.osha.gov/SLTC/etools/poultry/additional_material/niosh.html (read); Health and Safety Executive, Manual handling, L23, 2016, and Manual handling at work, INDG143, 2020 (from memory)",
	}, true
}

// Goods are the cautions of handling certain goods, for a job in a currency.
func Goods(of []*quotes.Quote, currency string, sys units.System) []Caution {
	var out []Caution
	if c, ok := CalledFree(of); ok {
		out = append(out, c)
	}
	if c, ok := Lifting(of, sys); ok {
		out = append(out, c)
	}
	if c, ok := Dust(of, currency); ok {
		out = append(out, c)
	}
	return append(out, AcidDrop("each load"))
}

// Mass is a weight in pounds or kilograms, never in tons, so that weights held
// against one another read alike.
func Mass(m units.Kilograms, sys units.System) string {
	name := "kg"
	if sys == units.US {
		m, name = m/units.Pound, "lb"
	}
	digits := 0
	if m < 100 {
		digits = 1
	}
	return fmt.Sprintf("%s %s", units.DecimalOf(float64(m)).Round(digits), name)
}

// whole is a weight in whole pounds or kilograms, for those that are known no better.
func whole(m units.Kilograms, sys units.System) string {
	if sys == units.US {
		return fmt.Sprintf("%.0f lb", float64(m/units.Pound))
	}
	return fmt.Sprintf("%.0f kg", float64(m))
}

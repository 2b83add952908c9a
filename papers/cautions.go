package papers

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

// text is a caution as one paragraph.
func (c Caution) text() string {
	out := strings.ToUpper(c.About[:1]) + c.About[1:] + ": " + strings.TrimSuffix(c.Words, ".") + "."
	if c.Source != "" {
		out += " Source: " + c.Source + "."
	}
	return out
}

// Figures of the cautions, each with its source in the caution that uses it.
const (
	idealLift      units.Kilograms = 23 // NIOSH
	closeLiftMen   units.Kilograms = 25 // HSE, men, close to the body at elbow height
	closeLiftWomen units.Kilograms = 16 // HSE, women, the same
)

// frameCaution goes with every list of weights.
var frameCaution = Caution{
	About: "weight of full beds",
	Words: "Have each frame's capacity checked by someone qualified; local codes govern. The weights here are worked out for beds flooded to their water line from the densities listed, and a denser or wetter delivery weighs more.",
}

// acidCaution tells how to do the acid drop and what it does not show.
var acidCaution = Caution{
	About: "acid drop",
	Words: "Put a drop of dilute hydrochloric acid (5 to 10 %) on several rinsed stones of the load; bubbles mean lime, and lime raises the pH of the water. " +
		"Wear eye protection and gloves, work in the open air, add acid to water and never water to acid, and never let it meet bleach or any other chemical. Rinse the stones well afterwards. " +
		"Household vinegar is slower and does not clear dolomite: crush a little to powder and watch again",
	Source: "the test, the strength and the protection from https://geology.com/minerals/acid-test.shtml, vinegar from https://www.thoughtco.com/what-is-the-acid-test-4123174 (both read); handling of acid is ordinary laboratory practice (from memory)",
}

// dustCaution is about stone dust.
var dustCaution = Caution{
	About: "dust",
	Words: "Damp dry stone before tipping or shovelling it and rinse it out of doors; do not breathe the dust, which can hold silica. " +
		"At work the limit for breathable crystalline silica in the United States is 50 micrograms in a cubic metre of air over 8 hours, with action from 25; a home grower has no measurement to compare with it",
	Source: "29 CFR 1910.1053 and 1926.1153, limit as stated at https://legalclarity.org/permissible-exposure-limit-for-respirable-crystalline-silica and action level at https://university.govur.com/courses/heavy-equipment-safety-and-inspection/flashcard/qs-tWAz1FaKEK3f (both secondary, read); the advice is common practice, no source",
}

// liftCaution is about the bags of an order, by quote; ok is false if there are none.
func (s scribe) liftCaution(of []*quotes.Quote) (c Caution, ok bool) {
	var bags []string
	for _, q := range of {
		if q.Form == quotes.Bag {
			words := fmt.Sprintf("%s about %s", q.Name, s.mass(q.PackMass))
			if q.PackMass > idealLift {
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
		Words: fmt.Sprintf("One dry bag weighs: %s; a wet one more. %s is the most for an ideal lift by the NIOSH lifting equation, and less for any lift that is not ideal; "+
			"the British guideline for a lift close to the body at elbow height is %s for men and %s for women, and Great Britain sets no legal maximum",
			inWords(bags), s.mass(idealLift), s.mass(closeLiftMen), s.mass(closeLiftWomen)),
		Source: "DHHS (NIOSH) 94-110 as stated at https://www.ccohs.ca/oshanswers/ergonomics/niosh/assessing.html (read); HSE L23 and INDG143 as stated at https://www.cscsmastery.co.uk/reference/manual-handling/ (secondary, read)",
	}, true
}

// goodsCautions are the cautions of handling certain goods.
func (s scribe) goodsCautions(of []*quotes.Quote) []Caution {
	var out []Caution
	if c, ok := s.liftCaution(of); ok {
		out = append(out, c)
	}
	if slices.ContainsFunc(of, func(q *quotes.Quote) bool { return q.Medium.RinseLoss.Usual > 0 }) {
		out = append(out, dustCaution)
	}
	return append(out, acidCaution)
}

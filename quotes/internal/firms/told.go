package firms

import (
	"strings"

	"mediabuy/quotes/internal/lazy"
)

// Told cuts a short talk in one paragraph at its sentences that name a company not named before, and gives the name in each by the
// place of the cut: "Low Ford Quarry has lava at $68 a yard. Then Tamarack Yard: lava $71". None where a word such as "both" may speak
// of several.
func Told(text string, isFirm func(name string) bool) (cuts []int, names map[int][2]int) {
	const longest = 2000 // bytes
	if len(text) > longest {
		return nil, nil
	}
	seen := map[string]bool{}
	names = map[int][2]int{}
	for _, at := range Named.FindAllStringIndex(text, -1) {
		name := text[at[0]:at[1]]
		if stop := strings.Index(name, ". "); stop >= 0 && stop < 3 { // per m3. Low Ford Quarry
			name = strings.TrimLeft(name[stop+2:], " \t")
			at[0] = at[1] - len(name)
		}
		if stop := sentenceEnd.FindStringIndex(name); stop != nil {
			name = name[:stop[1]]
		}
		name = strings.TrimRight(name, ".,- ")
		front := len(answersFrom.FindString(name))
		at[0], name = at[0]+front, name[front:]
		if !isFirm(name) || seen[strings.ToLower(name)] {
			continue
		}
		if name[0] >= '0' && name[0] <= '9' {
			return nil, nil // a number in front of a name may be no part of it
		}
		seen[strings.ToLower(name)] = true
		from := 0
		if ends := sentenceEnd.FindAllStringIndex(text[:at[0]], -1); len(ends) > 0 {
			from = ends[len(ends)-1][1]
		}
		if _, twice := names[from]; twice { // two in one sentence
			return nil, nil
		}
		names[from] = [2]int{at[0] - from, at[0] - from + len(name)}
		if from > 0 {
			cuts = append(cuts, from)
		}
	}
	if len(names) < 2 || strings.Contains(strings.TrimSpace(text[cuts[0]:]), "\n") || ofSeveral.MatchString(strings.ToLower(text)) {
		return nil, nil
	}
	return cuts, names
}

var (
	sentenceEnd = lazy.Compile(`[\pL\d)]{2}[.!?;][ \t]+|\n[ \t]*`)
	ofSeveral   = lazy.Compile(`\b(?:both|either|each of|all of|everyone|everybody|same|neither|they all)\b`)
)

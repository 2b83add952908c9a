package called

import (
	"strings"

	"mediabuy/quotes/internal/lazy"
)

// What is sold of a stone may be what crushing and weathering leave of it, which clogs drains (common practice, no source).
const fineParts = `(?:dust|sand|fines|powder|flour|screenings|siftings)`

var (
	// FineBehind stands right behind the name of a stone and makes another, finer thing of it: "lava sand: $60".
	FineBehind = lazy.Compile(`^(?:[ \t]+(?:rock|stone|gravel))?[ \t]+` + fineParts + `(?:[ \t]*(?:[,:(.\n=$£€]|\.{2,}|[–—-][ \t])|[ \t]+(?:\d|is\b|are\b|at\b|for\b|per\b)|$)`)
	// Rotted stands in front of the name and does the same.
	Rotted = lazy.Compile(`\b(?:decomposed|rotten)[ \t]+$`)

	fineName = lazy.Compile(`\b(decomposed|rotten)[ \t]+\pL|(?:^|[^\pL])(\pL+)[ \t]+(` + fineParts + `)[ \t]*(?:$|[,;:(\d])`)
)

// Fine is the word by which a supplier's words name the dust, the sand or the like of a stone: "dust" of "granite dust". It is "" where
// they do not, or deny it: "washed, no fines".
func Fine(words string) string {
	at := fineName.FindStringSubmatch(strings.ToLower(words))
	switch {
	case at == nil || strings.Contains("|no|of|without|low|less|minus|and|", "|"+at[2]+"|") && at[1] == "":
		return ""
	case at[1] != "":
		return at[1]
	}
	return at[3]
}

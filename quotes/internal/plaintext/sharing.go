package plaintext

import (
	"strings"

	"mediabuy/quotes/internal/lazy"
)

// Sharing are the parts between cuts of a text, each as long as the whole and with blanks in place of the others but, where it has a
// number, for the last, if that is one line which says something of all of them: "Both charge 7% tax." None if it is not, or says "both" of
// other than two.
func Sharing(text string, cuts []int) (parts []string) {
	if len(cuts) < 2 {
		return nil
	}
	last := cuts[len(cuts)-1]
	said := ofThemAll.FindStringSubmatch(text[last:])
	if said == nil {
		return nil
	}
	from, sell := 0, 0
	for _, to := range cuts {
		tail := blank(text[last:])
		if strings.ContainsAny(text[from:to], "0123456789") {
			tail, sell = text[last:], sell+1
		}
		parts = append(parts, blank(text[:from])+text[from:to]+blank(text[to:last])+tail)
		from = to
	}
	if strings.EqualFold(said[1], "both") != (sell == 2) {
		return nil
	}
	return parts
}

// ofThemAll is such a line.
var ofThemAll = lazy.Compile(`^\s*(?i:(both|all (?:of (?:them|these)|(?:the )?(?:three|four|five|yards|shops|suppliers|places))|everybody|everyone|they all|each of (?:them|these)))\b[^\n]*\s*$`)

// blank is a text with a blank for each byte that ends no line.
func blank(text string) string {
	b := []byte(text)
	for i, c := range b {
		if c != '\n' && c != '\r' {
			b[i] = ' '
		}
	}
	return string(b)
}

package plaintext

import (
	"slices"
	"strings"

	"mediabuy/quotes/internal/lazy"
)

// ChatTime is the pattern of the time in front of a line of a chat.
const ChatTime = `\[?(?:\d{1,4}[./-]\d{1,2}[./-]\d{1,4},?[ ]+)?\d{1,2}[:.]\d{2}(?::\d{2})?(?:[ ]?[AaPp][Mm])?(?:,?[ ]+\d{1,4}[./-]\d{1,2}[./-]\d{1,4})?\]?[ \t]*(?:[-–][ \t]*)?`

const inBrackets = `[(\[](\pL[\pL\d&'’., -]{2,40})[)\]]`

var (
	turnLine = lazy.Compile(`(?m)^[ \t]*(?:` + ChatTime + `)?(?:\pL[\pL'’.-]*(?: \pL[\pL'’.-]*)?[ \t]*` + inBrackets + `[ \t]*:|` + inBrackets + `[ \t]*(?:\pL[\pL'’.-]*)?:|\[?((?i:me|you|i))(?:\]:?|:))[ \t]*`)
	saysLine = lazy.Compile(`(?m)^[ \t]*(\pL[\pL&'’.-]{0,20}):[ \t]*`)
)

// Turns are the lines of a talk in which who writes for a firm has its name in brackets beside the own, "Kit (Low Ford Quarry): ...",
// each with where it begins, where its words do, and where the name or the word for the buyer stands; and the firms in small letters.
// None where somebody else speaks as well, or one of the names is no firm's.
func Turns(text string, isFirm func(name string) bool) (turns [][]int, firms []string) {
	for _, at := range turnLine.FindAllStringSubmatchIndex(text, -1) {
		for at[2] < 0 {
			at = slices.Delete(at, 2, 4)
		}
		if name := speaker(text, at); !IsBuyer(name) && !isFirm(text[at[2]:at[3]]) {
			return nil, nil
		} else if !IsBuyer(name) && !slices.Contains(firms, name) {
			firms = append(firms, name)
		}
		turns = append(turns, at[:4])
	}
	for _, at := range saysLine.FindAllStringIndex(text, -1) {
		if !slices.ContainsFunc(turns, func(turn []int) bool { return turn[0] == at[0] }) {
			return nil, nil
		}
	}
	if len(turns) < 2 || len(firms) == 0 {
		return nil, nil
	}
	return turns, firms
}

// Alone is a talk with blanks in place of what other firms say in it, as long as the whole.
func Alone(text string, turns [][]int, firm string) string {
	var b strings.Builder
	at := 0
	for i, turn := range turns {
		to := len(text)
		if i+1 < len(turns) {
			to = turns[i+1][0]
		}
		b.WriteString(text[at:turn[0]])
		if name := speaker(text, turn); name == firm || IsBuyer(name) {
			b.WriteString(text[turn[0]:to])
		} else {
			for _, c := range []byte(text[turn[0]:to]) {
				if c != '\n' {
					c = ' '
				}
				b.WriteByte(c)
			}
		}
		at = to
	}
	return b.String()
}

func speaker(text string, turn []int) string { return strings.ToLower(text[turn[2]:turn[3]]) }

// IsBuyer says whether what stands for a name in a talk is a word for whoever buys, in small letters.
func IsBuyer(name string) bool {
	return slices.Contains([]string{"me", "you", "i", "customer", "buyer", "client", "visitor", "guest"}, name)
}

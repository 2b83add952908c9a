package plaintext

import (
	"strings"

	"mediabuy/quotes/internal/lazy"
)

var (
	// letterHead is the heading of a letter that a mail program puts below an answer, with who wrote it.
	letterHead = lazy.Compile(`(?m)^From:[ \t]*(\p{Lu}[\pL'’-]*)[^\n]*\n(?:(?:Sent|Date|To|Cc|Subject):[^\n]*(?:\n|$)){2,}`)
	// greets are the words in front of the name in a greeting.
	greets = lazy.Compile(`(?m)^[ \t]*(?:(?i:hi|hello|hey|dear|good (?:morning|afternoon|evening)|morning|thanks|thank you)[ \t]+)?(\p{Lu}[\pL'’-]*)[ \t]*[,.:!–—-]?[ \t]*(?:\r?$|[,.:!–—])`)
)

// Answered are the letters below a message that it answers: whoever wrote them is greeted in its first line.
func Answered(text string) (letters [][2]int) {
	heads := letterHead.FindAllStringSubmatchIndex(text, -1)
	for i, head := range heads {
		above := strings.TrimSpace(text[:head[0]])
		to := len(text)
		if i+1 < len(heads) {
			to = heads[i+1][0]
		}
		first, _, _ := strings.Cut(above, "\n")
		if at := greets.FindStringSubmatch(first); at != nil && at[1] == text[head[2]:head[3]] {
			letters = append(letters, [2]int{head[1], to})
		}
	}
	return letters
}

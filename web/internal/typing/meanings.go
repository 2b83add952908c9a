package typing

import (
	"regexp"
	"slices"
	"strings"

	"mediabuy/quotes/files"
)

// Meaning is what some columns of a file hold.
type Meaning struct {
	Heads string // as they are said together: "length and width and depth"
	Words string

	names []string
}

var (
	meant  = regexp.MustCompile(`^# ([a-z_]+(?:(?: and | to )[a-z_]+)*): (.+)$`)
	goesOn = regexp.MustCompile(`^#  +(.+)$`)
)

// Meanings are what the columns of each file mean: the comments above the headings in the
// files of a new job, which are the one place where that is said.
var Meanings = func() map[string][]Meaning {
	out := map[string][]Meaning{}
	for name := range Headings {
		var list []Meaning
		for line := range strings.Lines(string(files.Templates()[name])) {
			line = strings.TrimRight(line, "\r\n")
			if !strings.HasPrefix(line, "#") {
				break // the headings; examples follow
			}
			if m := meant.FindStringSubmatch(line); m != nil {
				list = append(list, Meaning{Heads: m[1], Words: m[2], names: strings.Split(m[1], " and ")})
			} else if m := goesOn.FindStringSubmatch(line); m != nil && len(list) > 0 {
				list[len(list)-1].Words += " " + m[1]
			}
		}
		out[name] = list
	}
	return out
}()

// meaningOf is what one column of a file means; "" for what is no column of it.
func meaningOf(file, heading string) string {
	for _, m := range Meanings[file] {
		if slices.Contains(m.names, heading) {
			return m.Words
		}
	}
	return ""
}

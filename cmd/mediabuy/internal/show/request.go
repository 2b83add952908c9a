package show

import (
	"fmt"
	"strings"

	"mediabuy/optimise/talk"
)

func Request(suppliers, paths []string) string {
	return fmt.Sprintf("Requests for quotes to %s are written:\n  %s\n", strings.Join(suppliers, ", "), strings.Join(paths, "\n  "))
}

// Talks says for whom sheets for the next talk are written, and what was not settled.
func Talks(talks []*talk.Talk, paths []string) string {
	var names []string
	var open string
	for _, t := range talks {
		names = append(names, t.Supplier)
		if len(t.Open) > 0 {
			open += fmt.Sprintf("Not settled in time for %s: %s\n", t.Supplier, strings.Join(t.Open, ", "))
		}
	}
	return fmt.Sprintf("Sheets for the next talk with %s are written:\n  %s\n%s", strings.Join(names, ", "), strings.Join(paths, "\n  "), open)
}

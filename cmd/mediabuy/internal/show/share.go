package show

import (
	"fmt"
	"strings"

	"mediabuy/optimise/share"
	"mediabuy/papers/statement"
	"mediabuy/units"
)

// Share is the treasurer's page as text, and what was written.
func Share(res *share.Result, sys units.System, width int, written []string) (string, error) {
	var b strings.Builder
	if err := statement.Treasurer(res, sys).Text(&b, width); err != nil {
		return "", err
	}
	for i, name := range written {
		if i == 0 {
			b.WriteString("\nWRITTEN\n")
		}
		fmt.Fprintf(&b, "  %s\n", name)
	}
	return b.String(), nil
}

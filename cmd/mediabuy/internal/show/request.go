package show

import (
	"fmt"
	"strings"
)

func Request(suppliers, paths []string) string {
	return fmt.Sprintf("Requests for quotes to %s are written:\n  %s\n", strings.Join(suppliers, ", "), strings.Join(paths, "\n  "))
}

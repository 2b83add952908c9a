// Package manpage makes manual pages out of the help texts of a command.
package manpage

import (
	"bytes"
	"io"
	"regexp"
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/cobra/doc"
	"github.com/spf13/pflag"
)

// manFlag is a flag as a generated page shows it, with what it is without the flag:
// --tidy[=""].
var manFlag = regexp.MustCompile(`(?m)^(.*\\fB--)([a-z-]+)(\\fP)(\[?)=.*$`)

// Write writes the page of a verb of a program. Its flags name what they take, as the help
// does, and the exit statuses have a section of their own, headed by their first line.
func Write(w io.Writer, c *cobra.Command, program, exits string) error {
	var page bytes.Buffer
	if err := doc.GenMan(c, &doc.GenManHeader{Section: "1", Source: program, Manual: "mediabuy"}, &page); err != nil {
		return err
	}
	text := manFlag.ReplaceAllStringFunc(page.String(), func(line string) string {
		m := manFlag.FindStringSubmatch(line)
		f := c.Flags().Lookup(m[2])
		if f == nil {
			return line
		}
		head := m[1] + m[2] + m[3]
		takes, _ := pflag.UnquoteUsage(f)
		switch {
		case takes == "":
			return head
		case m[4] != "":
			return head + "[=" + takes + "]"
		case !slices.Contains([]string{"", "0", "0s", "[]"}, f.DefValue):
			return head + "=" + takes + " (without it " + f.DefValue + ")"
		}
		return head + "=" + takes
	})
	title, statuses, _ := strings.Cut(strings.TrimSpace(exits), "\n")
	ends := "\n.SH " + title + "\n.nf\n" + statuses + "\n.fi\n\n"
	at := strings.Index(text, "\n.SH SEE ALSO")
	if at < 0 {
		at = len(text)
	}
	_, err := io.WriteString(w, text[:at]+ends+text[at:])
	return err
}

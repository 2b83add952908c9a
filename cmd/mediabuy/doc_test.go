package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var (
	consoleBlock = regexp.MustCompile("(?s)```console\n(.*?)```\n")
	shellBlock   = regexp.MustCompile("(?s)```sh\n(.*?)```\n")
	makeTarget   = regexp.MustCompile(`(?m)^make ([a-z-]+)`)
)

// documents are run from where a reader of the project finds them.
var documents = []string{"README.md", "DEVELOPERS.md"}

// Every command shown with its output in the documents prints just that. The
// commands of a document run one after the other in one empty folder. UPDATE=1
// writes what is printed now into the document.
func TestDocumentsShowWhatIsPrinted(t *testing.T) {
	for _, name := range documents {
		t.Run(name, func(t *testing.T) {
			path := filepath.Join("..", "..", name)
			text, err := os.ReadFile(path)
			require.NoError(t, err)
			dir := t.TempDir()
			ran := 0
			now := consoleBlock.ReplaceAllStringFunc(string(text), func(block string) string {
				var out strings.Builder
				for line := range strings.SplitSeq(consoleBlock.FindStringSubmatch(block)[1], "\n") {
					command, ok := strings.CutPrefix(line, "$ ")
					if !ok {
						continue // output, which is printed anew
					}
					c := exec.Command("sh", "-c", command)
					c.Dir = dir
					printed, err := c.CombinedOutput()
					assert.NoError(t, err, "%s\n%s", command, printed)
					assert.NotEmpty(t, printed, "%s shows nothing, so its place in the document tells a reader nothing", command)
					out.WriteString(line + "\n" + string(printed))
					ran++
				}
				return "```console\n" + out.String() + "```\n"
			})
			if name == "README.md" {
				assert.Positive(t, ran)
			}
			if update {
				require.NoError(t, os.WriteFile(path, []byte(now), filePerm))
				return
			}
			assert.Equal(t, string(text), now, "run the test with UPDATE=1 and review the change")
		})
	}
}

// Every make target that the documents name is in the Makefile.
func TestDocumentsNameRealTargets(t *testing.T) {
	makefile, err := os.ReadFile("../../Makefile")
	require.NoError(t, err)
	for _, name := range documents {
		text, err := os.ReadFile(filepath.Join("..", "..", name))
		require.NoError(t, err)
		for _, block := range shellBlock.FindAllStringSubmatch(string(text), -1) {
			for _, m := range makeTarget.FindAllStringSubmatch(block[1], -1) {
				assert.Regexp(t, `(?m)^`+m[1]+`:`, string(makefile), "%s names make %s", name, m[1])
			}
		}
	}
}

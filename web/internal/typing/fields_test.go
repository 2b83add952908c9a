package typing

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"mediabuy/quotes/files"
)

// Every setting that the commented file of a new job shows is a field, and no other.
func TestEverySettingIsAField(t *testing.T) {
	var want, got []string
	table := ""
	for line := range strings.Lines(string(files.Templates()[files.SettingsFile])) {
		if m := regexp.MustCompile(`^\[(\w+)\]`).FindStringSubmatch(line); m != nil {
			table = m[1] + "."
		}
		if m := regexp.MustCompile(`^(?:# )?(\w+) = `).FindStringSubmatch(line); m != nil {
			want = append(want, table+m[1])
		}
	}
	for _, g := range settingGroups {
		for _, s := range g.settings {
			got = append(got, s.key)
			assert.True(t, s.why != "" || strings.HasPrefix(s.key, "buyer."), "%s says what it does", s.key)
			assert.True(t, s.example != "" || len(s.choices) > 1, "%s shows what to type", s.key)
		}
	}
	assert.ElementsMatch(t, want, got)
}

// Every column of a new job's files is explained on the page, in the words of these files.
func TestColumnsAreExplained(t *testing.T) {
	for file, heads := range Headings {
		for _, head := range heads {
			assert.NotEmpty(t, meaningOf(file, head), "%s of %s", head, file)
		}
		for _, m := range Meanings[file] {
			assert.NotContains(t, m.Words, "# ", m.Heads)
		}
	}
	assert.Contains(t, meaningOf(files.DeliveryFile, "name"), "an order may use any number of each", "a sentence may run over lines")
	assert.Empty(t, meaningOf(files.BedsFile, "colour"))
}

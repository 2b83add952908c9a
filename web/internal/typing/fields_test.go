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

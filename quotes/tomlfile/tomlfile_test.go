package tomlfile

import (
	"strings"
	"testing"

	"github.com/pelletier/go-toml/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func key(path string) Key { return strings.Split(path, ".") }

func TestSetLeavesEveryOtherByte(t *testing.T) {
	for _, c := range []struct{ name, before, key, value, after string }{
		{"a value in place", "# job\ntax = \"7%\" # of Harrow\nextra = 5\n", "tax", "8%", "# job\ntax = \"8%\" # of Harrow\nextra = 5\n"},
		{"a number keeps to no quote marks", "budget = 1500.50\n", "budget", "1600.25", "budget = 1600.25\n"},
		{"a text keeps its quote marks", "max_suppliers = \"2\"\n", "max_suppliers", "3", "max_suppliers = 3\n"},
		{"a yes", "allow_untested = false\n", "allow_untested", "true", "allow_untested = true\n"},
		{"a day", "date=2026-04-01\n", "date", "2026-05-01", "date=2026-05-01\n"},
		{"taken out", "a = 1\nb = 2 # two\nc = 3\n", "b", "", "a = 1\nc = 3\n"},
		{"behind the comment that shows it", "# tax = \"8%\"\n# tax_included = false\n\n[units]\n# mass = \"kg\"\n# length = \"mm\"\n", "tax", "7%", "# tax = \"8%\"\ntax = \"7%\"\n# tax_included = false\n\n[units]\n# mass = \"kg\"\n# length = \"mm\"\n"},
		{"in its table", "a = 1\n[units]\n# mass = \"kg\"\n", "units.mass", "lb", "a = 1\n[units]\n# mass = \"kg\"\nmass = \"lb\"\n"},
		{"above the first table", "[units]\nmass = \"kg\"\n", "tax", "7%", "tax = \"7%\"\n[units]\nmass = \"kg\"\n"},
		{"in a table of its own", "a = 1", "buyer.North yard.drop", "by the gate", "a = 1\n\n[buyer.\"North yard\"]\ndrop = \"by the gate\"\n"},
		{"beside names with points", "units.length = \"ft\"\ncurrency = \"USD\"\n", "units.mass", "lb", "units.length = \"ft\"\nunits.mass = \"lb\"\ncurrency = \"USD\"\n"},
		{"in an inline table", "units = { length = \"ft\", mass = 'kg' }\n", "units.mass", "lb", "units = { length = \"ft\", mass = \"lb\" }\n"},
		{"line ends of another machine", "a = 1\r\nb = 2\r\n", "c", "x", "a = 1\r\nb = 2\r\nc = \"x\"\r\n"},
		{"signs that need a backslash", "", "buyer.name", `Tam "the" \ Pell`, "\n[buyer]\nname = \"Tam \\\"the\\\" \\\\ Pell\"\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			f, err := Open([]byte(c.before))
			require.NoError(t, err)
			g, err := f.Set(key(c.key), c.value)
			require.NoError(t, err)
			assert.Equal(t, c.after, string(g.Bytes()))
			got, ok := g.Value(key(c.key))
			assert.Equal(t, c.value, got)
			assert.Equal(t, c.value != "", ok)
			var doc map[string]any
			require.NoError(t, toml.Unmarshal(g.Bytes(), &doc))
		})
	}
}

// What only a hand can edit is refused and not guessed at.
func TestSetRefuses(t *testing.T) {
	for _, c := range []struct{ text, key, value string }{
		{"tax = [1, 2]\n", "tax", "7%"},
		{"units = { length = \"ft\" }\n", "units.mass", "lb"},
		{"units = { length = \"ft\", mass = \"kg\" }\n", "units.mass", ""},
	} {
		f, err := Open([]byte(c.text))
		require.NoError(t, err)
		_, err = f.Set(key(c.key), c.value)
		assert.ErrorContains(t, err, "so it is changed in the text of the file", c.text)
	}
	_, err := Open([]byte("tax == 7\n"))
	assert.Error(t, err)
	_, err = Open([]byte("name = \"\xff\"\n"))
	assert.Error(t, err)
}

func TestAt(t *testing.T) {
	f, err := Open([]byte("# c\ntax = \"8%\"\n[buyer]\n[buyer.North]\ndrop = \"x\"\n"))
	require.NoError(t, err)
	assert.Equal(t, key("tax"), f.At(2))
	assert.Equal(t, key("buyer.North.drop"), f.At(5))
	assert.Nil(t, f.At(1))
	assert.Nil(t, f.At(4))
}

// Whatever is set, it is what is read back, and nothing else is another.
func FuzzSet(f *testing.F) {
	f.Add("a = 1\n[units]\nlength = \"ft\"\n# mass = \"kg\"\n", "units.mass", "lb")
	f.Add("b.c = 'x' # y", "b.d", "2026-04-01")
	f.Add("", "tax", "8%")
	f.Add("", "\xff", "0")
	f.Fuzz(func(t *testing.T, text, path, value string) {
		file, err := Open([]byte(text))
		if err != nil || path == "" {
			return
		}
		g, err := file.Set(key(path), value)
		if err != nil {
			return
		}
		got, ok := g.Value(key(path))
		assert.Equal(t, value, got)
		assert.Equal(t, value != "", ok)
		assert.True(t, g.onlyChanged(file, key(path), value))
	})
}

package main

import (
	"go/parser"
	"go/token"
	"io/fs"
	"maps"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// source is one Go file of the project that is no test.
type source struct {
	dir, name, text string
	imports         []string
}

func sources(t *testing.T) []source {
	root := os.DirFS("../..")
	var out []source
	require.NoError(t, fs.WalkDir(root, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go") {
			return err
		}
		text, err := fs.ReadFile(root, name)
		if err != nil {
			return err
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, text, parser.ImportsOnly)
		if err != nil {
			return err
		}
		s := source{dir: path.Dir(name), name: path.Base(name), text: string(text)}
		for _, i := range file.Imports {
			s.imports = append(s.imports, strings.Trim(i.Path.Value, `"`))
		}
		out = append(out, s)
		return nil
	}))
	require.NotEmpty(t, out)
	return out
}

// The table of rooms in DEVELOPERS.md names every package, and nothing imports what
// its row does not allow.
func TestRoomsKeepToTheirTable(t *testing.T) {
	guide, err := os.ReadFile("../../DEVELOPERS.md")
	require.NoError(t, err)
	allowed := map[string]string{}
	for _, m := range regexp.MustCompile("(?m)^\\| `([a-z/]+)` \\| [^|]+ \\| ([^|]+) \\|$").FindAllStringSubmatch(string(guide), -1) {
		allowed[m[1]] = m[2]
	}
	name := regexp.MustCompile("`([a-z/]+)`")
	seen := map[string]bool{}
	for _, s := range sources(t) {
		words, ok := allowed[s.dir]
		if !assert.True(t, ok, "%s has no row in the table of rooms", s.dir) {
			continue
		}
		seen[s.dir] = true
		var named []string
		for _, m := range name.FindAllStringSubmatch(words, -1) {
			named = append(named, m[1])
		}
		for _, i := range s.imports {
			ours, isOurs := strings.CutPrefix(i, "mediabuy/")
			switch {
			case !isOurs, words == "everything":
			case strings.HasPrefix(words, "everything but"):
				assert.NotContains(t, named, ours, "%s/%s", s.dir, s.name)
			default:
				assert.Contains(t, named, ours, "%s/%s imports it", s.dir, s.name)
			}
		}
	}
	for dir := range allowed {
		assert.True(t, seen[dir], "the table of rooms names %s, which is not there", dir)
	}
}

// What the guide claims of single homes.
func TestSingleHomes(t *testing.T) {
	files, err := filepath.Glob("cmd_*.go")
	require.NoError(t, err)
	files = slices.DeleteFunc(files, func(f string) bool { return strings.HasSuffix(f, "_test.go") })
	var verbs, inC []string
	for _, c := range newRoot(&app{}).Commands() {
		if c.Name() != "help" {
			verbs = append(verbs, "cmd_"+c.Name()+".go")
		}
	}
	assert.ElementsMatch(t, verbs, files, "one file for each verb")
	for _, s := range sources(t) {
		if slices.Contains(s.imports, "C") && !slices.Contains(inC, s.dir) {
			inC = append(inC, s.dir)
		}
		for _, words := range []string{"acid to water", "Have each frame's capacity checked", "stone dust can hold silica", "ideal lift"} {
			if strings.Contains(s.text, words) {
				assert.Equal(t, "papers/caution", s.dir, "%q stands in %s", words, s.name)
			}
		}
	}
	assert.Equal(t, []string{"optimise/internal/lpsolve"}, inC, "import C in one package only")
}

// No package has more lines than the guide says: 3,500, or what the guide allows with the reason.
func TestRoomsAreNoLargerThanTold(t *testing.T) {
	guide, err := os.ReadFile("../../DEVELOPERS.md")
	require.NoError(t, err)
	most := map[string]int{}
	for _, m := range regexp.MustCompile("(?m)^- `([a-z/]+)`, at most ([0-9]{1,2},[0-9]{3}):").FindAllStringSubmatch(string(guide), -1) {
		most[m[1]], err = strconv.Atoi(strings.Replace(m[2], ",", "", 1))
		require.NoError(t, err)
	}
	require.NotEmpty(t, most)
	lines := map[string]int{}
	for _, s := range sources(t) {
		lines[s.dir] += strings.Count(s.text, "\n")
	}
	const usual = 3500
	for dir, n := range lines {
		assert.LessOrEqual(t, n, max(usual, most[dir]), "lines of %s: move what can be told apart to a room of its own", dir)
	}
	for dir := range most {
		assert.Greater(t, lines[dir], usual, "%s is small enough to need no mention", dir)
	}
}

// Every package that starts goroutines is one that the race detector looks at, each time
// or each night; here the listener of serve is waited for through a channel.
func TestRaceDetectorLooksAtGoroutines(t *testing.T) {
	makefile, err := os.ReadFile("../../Makefile")
	require.NoError(t, err)
	looked := regexp.MustCompile(`(?m)^RACE(?:_NIGHTLY)? *:= (.+)$`).FindAllStringSubmatch(string(makefile), -1)
	require.Len(t, looked, 2)
	each := strings.Fields(looked[0][1])
	nightly := strings.Fields(looked[1][1])
	starts := regexp.MustCompile(`(?m)^\s+go (?:func|[a-zA-Z.]+\()|x/sync/errgroup"|context\.AfterFunc\(|\.Go\(func`)
	found := map[string]bool{"cmd/mediabuy": true}
	for _, s := range sources(t) {
		if starts.MatchString(s.text) && !found[s.dir] {
			found[s.dir] = true
			within := slices.Contains(each, s.dir) || slices.Contains(nightly, s.dir)
			assert.True(t, within, "%s/%s starts a goroutine: name the package in RACE of the Makefile", s.dir, s.name)
		}
	}
	long := strings.Fields(regexp.MustCompile(`(?m)^LONG *:= (.+)$`).FindStringSubmatch(string(makefile))[1])
	for _, dir := range each {
		assert.DirExists(t, filepath.Join("..", "..", dir))
		tests, err := filepath.Glob(filepath.Join("..", "..", dir, "*_test.go"))
		require.NoError(t, err)
		leavesOut := slices.ContainsFunc(tests, func(name string) bool {
			text, err := os.ReadFile(name)
			require.NoError(t, err)
			return strings.Contains(string(text), "jobtest.Long(")
		})
		assert.Equal(t, leavesOut, slices.Contains(long, dir), "LONG of the Makefile names what of %s the race detector leaves out", dir)
	}
	assert.Subset(t, slices.Collect(maps.Keys(found)), []string{"optimise/breakeven", "optimise/share", "optimise/internal/lpsolve", "web/internal/desk"}, "the pattern finds what starts them")
}

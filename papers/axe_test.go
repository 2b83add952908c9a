package papers

import (
	"bytes"
	"cmp"
	"encoding/json"
	"fmt"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// axe is the text of the accessibility checker axe-core, which is fetched for tests
// only, as package-lock.json pins it. Where it is not there and need not be the test is
// skipped.
func axe(t *testing.T) string {
	t.Helper()
	const dir = "../web/testdata/axe"
	file := filepath.Join(dir, "node_modules", "axe-core", "axe.min.js")
	if _, err := os.Stat(file); os.IsNotExist(err) {
		if os.Getenv("CI") != "true" {
			t.Skip("axe-core is not fetched (npm ci --prefix web/testdata/axe)")
		}
		if out, err := exec.Command("npm", "ci", "--ignore-scripts", "--no-audit", "--no-fund", "--prefix", dir).CombinedOutput(); err != nil {
			t.Skipf("axe-core cannot be fetched: %v\n%s", err, out)
		}
	}
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	return string(text)
}

// findings are what the checker says of pages by name, each on a phone, and on a desk the
// longest of those whose names begin with the same word. The pages run no script of their
// own: one around them puts the checker into each.
func findings(t *testing.T, checker string, pages map[string]string) map[string][]string {
	t.Helper()
	names := slices.Sorted(maps.Keys(pages))
	longest := map[string]string{}
	for _, name := range names {
		kind, _, _ := strings.Cut(name, " ")
		if len(pages[name]) > len(pages[longest[kind]]) {
			longest[kind] = name
		}
	}
	type look struct {
		Page   string `json:"page"`
		Widths []int  `json:"widths"`
	}
	var list []look
	looks := 0
	for _, name := range names {
		one := look{pages[name], []int{390}}
		if kind, _, _ := strings.Cut(name, " "); longest[kind] == name {
			one.Widths = []int{1200, 390}
		}
		list = append(list, one)
		looks += len(one.Widths)
	}
	data, err := json.Marshal(list)
	require.NoError(t, err)
	script, err := json.Marshal(checker)
	require.NoError(t, err)
	// A script element ends at its end tag, wherever that stands.
	inside := func(b []byte) string { return strings.ReplaceAll(string(b), "</", `<\/`) }
	wrapper := `<!DOCTYPE html><meta charset=utf-8><body><pre id=out></pre><script>
const pages = ` + inside(data) + `, checker = ` + inside(script) + `;
(async () => {
	const all = [];
	for (let i = 0; i < pages.length; i++) {
		const f = document.createElement("iframe");
		f.height = 900; f.srcdoc = pages[i].page;
		await new Promise(done => { f.onload = done; document.body.prepend(f); });
		const s = f.contentDocument.createElement("script");
		s.textContent = checker;
		f.contentDocument.head.append(s);
		for (const width of pages[i].widths) {
			f.width = width;
			const r = await f.contentWindow.axe.run(f.contentDocument, {resultTypes: ["violations"], preload: false});
			all.push([i, width, r.passes.length, r.violations.map(v => v.impact + " " + v.id + ": " + v.help + ": " + v.nodes.slice(0, 2).map(n => n.target.join(" ")).join("; "))]);
		}
		f.remove();
	}
	document.getElementById("out").textContent = JSON.stringify(all);
})();
</script>`
	dir := t.TempDir()
	file := filepath.Join(dir, "pages.html")
	require.NoError(t, os.WriteFile(file, []byte(wrapper), 0o644))
	var all [][4]any
	require.NoError(t, json.Unmarshal([]byte(told(t, file, `text`)), &all))
	require.Len(t, all, looks, "every page was looked at")
	out := map[string][]string{}
	for _, one := range all {
		name := names[int(one[0].(float64))]
		if one[2].(float64) < 12 {
			out[name] = append(out[name], "too little was looked at")
		}
		for _, v := range one[3].([]any) {
			out[name] = append(out[name], fmt.Sprintf("%v wide: %v", one[1], v))
		}
	}
	return out
}

// axe-core finds no fault in any paper written as a page, proven or not, on a phone or, in
// one of each kind, on a desk, and does in a page that has some.
func TestAxeFindsNoFaultInPapers(t *testing.T) {
	checker := axe(t)
	pages := map[string]string{"faulty": `<!DOCTYPE html><html><head><title></title></head><body><img src="x.png"><p style="color:#ccc;background:#fff">pale words</p></body></html>`}
	for name, p := range allPapers(t) {
		p.Alarm = cmp.Or(p.Alarm, "Not proven.")
		var b bytes.Buffer
		require.NoError(t, p.HTML(&b))
		pages[name] = b.String()
	}
	found := findings(t, checker, pages)
	for _, want := range []string{"document-title", "html-has-lang", "image-alt", "color-contrast"} {
		assert.Contains(t, strings.Join(found["faulty"], "\n"), want, "the checker works")
	}
	delete(found, "faulty")
	assert.Empty(t, found)
}

package main

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// axe is the text of the accessibility checker axe-core, which is fetched for tests
// only: npm ci --prefix web/testdata/axe.
func axe(t *testing.T) string {
	t.Helper()
	const dir = "../../web/testdata/axe"
	file := filepath.Join(dir, "node_modules", "axe-core", "axe.min.js")
	text, err := os.ReadFile(file)
	if os.IsNotExist(err) {
		if os.Getenv("CI") != "true" {
			t.Skip("axe-core is not fetched (npm ci --prefix web/testdata/axe)")
		}
		out, npmErr := exec.Command("npm", "ci", "--ignore-scripts", "--no-audit", "--no-fund", "--prefix", dir).CombinedOutput()
		require.NoError(t, npmErr, "npm (Debian: npm): %s", out)
		text, err = os.ReadFile(file)
	}
	require.NoError(t, err)
	return string(text)
}

// scheme has the page shown in light or dark.
func (b *tab) scheme(name string) {
	b.t.Helper()
	b.do(chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		_, err := cdp.Call(ctx, t, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: name}}})
		return err
	}))
}

// axe-core finds no fault that it calls serious or critical in any view, in light and
// in dark, on a phone and on a desk.
func TestAxeFindsNoSeriousFault(t *testing.T) {
	checker := axe(t)
	b := browser(t)
	dir := sampleJob(t)
	link := serving(t, dir)
	b.do(chromedp.Navigate(link))
	base := strings.SplitN(link, "/?", 2)[0]
	pages := map[string]string{"nothing there": "/edit/colours"}
	for name, path := range views {
		pages[name] = path
	}
	for _, look := range []struct {
		scheme string
		width  int64
	}{{"light", 1280}, {"dark", 390}} {
		b.size(look.width, 900)
		b.scheme(look.scheme)
		for name, path := range pages {
			if look.scheme == "dark" && !slices.Contains([]string{"answer", "files", "ask"}, name) {
				continue // these hold every colour
			}
			b.do(chromedp.Navigate(base + path))
			b.until(`document.querySelectorAll(".busy").length === 0`)
			b.faultless(checker, fmt.Sprintf("%s, %s, %d wide", name, look.scheme, look.width))
			b.shoot(fmt.Sprintf("%s-%s-%d", name, look.scheme, look.width))
		}
		b.do(chromedp.Navigate(base + "/paste"))
		b.fill("pasted", "washed lava 3/4 in, 6O a yard, about 20 for the gravel.\n\nsupplier\tmedium\tpack\tprice\nMoor End\tpumise\t1 yd3\t61\n")
		b.do(chromedp.Click(`//button[text()="Read it"]`))
		b.until(`document.getElementById("confirm")`)
		b.faultless(checker, "a proposal")
		b.shoot(fmt.Sprintf("proposal-%s-%d", look.scheme, look.width))
	}
}

// faultless has the checker look at the page as it stands.
func (b *tab) faultless(checker, what string) {
	b.t.Helper()
	eval[bool](b, checker+"; true")
	found := eval[string](b, `axe.run().then(r => r.passes.length < 15 ? '["too little was looked at"]' : JSON.stringify(r.violations.filter(v => ["serious", "critical"].includes(v.impact))
		.map(v => [v.id, v.help, v.nodes.slice(0, 3).map(n => n.target.join(" ") + ": " + n.failureSummary)])))`)
	var list []any
	require.NoError(b.t, json.Unmarshal([]byte(found), &list))
	assert.Empty(b.t, list, what)
}

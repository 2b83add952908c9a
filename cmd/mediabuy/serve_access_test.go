package main

import (
	"bytes"
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
// only, as package-lock.json pins it; "" where it is not there and need not be.
func axe(t *testing.T) string {
	t.Helper()
	const dir = "../../web/testdata/axe"
	file := filepath.Join(dir, "node_modules", "axe-core", "axe.min.js")
	text, err := os.ReadFile(file)
	if os.IsNotExist(err) {
		if os.Getenv("CI") != "true" {
			t.Log("axe-core is not fetched (npm ci --prefix web/testdata/axe), so it is not run")
			return ""
		}
		// Without npm or its registry the pages' own checks still run.
		if out, err := exec.Command("npm", "ci", "--ignore-scripts", "--no-audit", "--no-fund", "--prefix", dir).CombinedOutput(); err != nil {
			t.Logf("axe-core cannot be fetched, so it is not run: %v\n%s", err, out)
			return ""
		}
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

// looks are how every view is looked at: on a desk in light and on a phone in dark.
var looks = []struct {
	scheme string
	width  int64
}{{"light", 1280}, {"dark", 390}}

// On a desk and on a phone, in light and in dark, nothing of any view sticks out at
// the side, the browser complains of nothing, and axe-core finds no fault that it
// calls serious or critical. In the dark nothing shines: no box on any view is light,
// in the drawings of beds as little as around them, and their lines stand out from
// what is behind them.
func TestServeEveryViewCanBeRead(t *testing.T) {
	checker := axe(t)
	b := browser(t)
	link := serving(t, sampleJob(t))
	b.do(chromedp.Navigate(link))
	base := strings.SplitN(link, "/?", 2)[0]
	b.sound(checker, "nothing there", func() { b.do(chromedp.Navigate(base + "/edit/colours")) })
	b.complaints() // from here on: of what is not there it complains by right
	for name, path := range views {
		b.sound(checker, name, func() {
			b.do(chromedp.Navigate(base + path))
			b.until(`document.querySelectorAll(".busy").length === 0`)
			eval[int](b, `(() => { const all = document.querySelectorAll("details.means"); for (const d of all) d.open = true; return all.length; })()`)
		})
		b.dark(name)
	}
	for name, text := range pastes {
		b.sound(checker, name, func() {
			b.do(chromedp.Navigate(base + "/paste"))
			b.fill("pasted", text)
			b.do(chromedp.Click(`//button[text()="Read it"]`))
			b.until(`document.getElementById("confirm")`)
		})
	}
	b.theDarkIsSeen(base)
}

// The report as a page reads as well as the views do: axe-core finds no fault that it
// calls serious or critical, and nothing sticks out, on a desk and on a phone.
func TestReportCanBeRead(t *testing.T) {
	checker := axe(t)
	b := browser(t)
	pg := sampleReport(t)
	var text bytes.Buffer
	require.NoError(t, pg.HTML(&text))
	file := filepath.Join(t.TempDir(), "report.html")
	require.NoError(t, os.WriteFile(file, text.Bytes(), filePerm))
	for _, width := range []int64{1280, 390} {
		b.size(width, 900)
		b.do(chromedp.Navigate("file://" + file))
		b.until(`document.body.clientWidth > 0`)
		b.shoot(fmt.Sprintf("report-%d", width))
		assert.LessOrEqual(t, eval[int64](b, "document.documentElement.scrollWidth"), width, "the report scrolls sideways")
		low := eval[float64](b, `Math.min(...Array.from(document.querySelector("figure").querySelectorAll("svg text")).map(e => e.getBoundingClientRect().height).filter(h => h > 0))`)
		assert.Greater(t, low, 10.0, "the words of the picture of all beds, %d wide", width)
		if checker != "" {
			b.faultless(checker, fmt.Sprintf("report, %d wide", width))
		}
	}
}

// pastes are what is pasted to look at the proposals: more columns than fit a screen, a message, and one with terms of
// delivery.
var pastes = map[string]string{
	"proposal": wideRow,
	"message":  "washed lava 3/4 in, 68 a yard, delivery 90. About 20 for the gravel. Regards, Tam at Moor End",
	"asked":    "washed lava 3/4 in, 68 a yard, over 10 yards 61. Regards, Tam at Moor End",
	"columns":  "Moor End\n\nBlack lava rock 16-32mm     20kg bag            9.80\nBlack lava rock 16-32mm     bulk bag 0.7m3      165.00\n",
	"terms":    "washed lava 3/4 in, 68 a yard, delivery 90 a load, a load is 12 yards. Regards, Tam at Moor End",
}

// sound looks at a page in every look, as it is come to in that look.
func (b *tab) sound(checker, name string, come func()) {
	b.t.Helper()
	for _, look := range looks {
		b.size(look.width, 900)
		b.scheme(look.scheme)
		come()
		b.until(`document.body.clientWidth > 0`)
		what := fmt.Sprintf("%s, %s, %d wide", name, look.scheme, look.width)
		b.shoot(fmt.Sprintf("%s-%s-%d", name, look.scheme, look.width))
		assert.LessOrEqual(b.t, eval[int64](b, "document.documentElement.scrollWidth"), look.width, "%s scrolls sideways", what)
		assert.Empty(b.t, eval[[]string](b, stickingOut), what)
		if look.width < 700 {
			assert.Empty(b.t, eval[[]string](b, scrolling), "%s: no table is wider than a phone", what)
		}
		// The names of things are the same in light and dark; these views hold every colour.
		seen := look.scheme == "dark" && !slices.Contains([]string{"answer", "files", "ask", "terms"}, name)
		if checker != "" && !seen {
			b.faultless(checker, what)
		}
	}
}

const wideRow = "supplier\titem\tmedium\tform\tpack\tprice\tbreaks\tsize\tcarbonate\tvalid_until\tnotes\n" +
	"Moor End\tgrey tuff as it comes\tpumice\tbulk\t1 yd3\t6l\t10: 58\t1/2-3/4 in\tnone\t2026-06-30\task for Tam\n"

// stickingOut lists elements that reach beyond the window, but for those within a
// part that scrolls by itself.
const stickingOut = `Array.from(document.querySelectorAll("body *")).filter(e => !e.closest(".scroll, .skip, .column, svg") &&
	e.getBoundingClientRect().width > 2 && e.getBoundingClientRect().right > innerWidth + 1).map(e => e.tagName + "." + e.className + " " + e.textContent.slice(0, 40))`

// scrolling lists the parts with more beside what they show.
const scrolling = `Array.from(document.querySelectorAll(".scroll")).filter(e => e.scrollWidth > e.clientWidth + 1).map(e => e.getAttribute("aria-label"))`

// faultless has the checker look at the page as it stands.
func (b *tab) faultless(checker, what string) {
	b.t.Helper()
	if !eval[bool](b, `"axe" in window`) {
		eval[bool](b, checker+"; true")
	}
	found := eval[string](b, `axe.run({resultTypes: ["violations"], preload: false}).then(r => r.passes.length < 15 ? '["too little was looked at"]' : JSON.stringify(r.violations.filter(v => ["serious", "critical"].includes(v.impact))
		.map(v => [v.id, v.help, v.nodes.slice(0, 3).map(n => n.target.join(" ") + ": " + n.failureSummary)])))`)
	var list []any
	require.NoError(b.t, json.Unmarshal([]byte(found), &list))
	assert.Empty(b.t, list, what)
}

package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What decides a purchase is in sight at once on a desk: supplier, pack, price and
// breaks of every quote, without scrolling sideways, however long the words and
// warnings are that stand in the cells.
func TestServePriceAndBreaksAreInSight(t *testing.T) {
	dir := sampleJob(t)
	file := filepath.Join(dir, "quotes.csv")
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	words := strings.NewReplacer("Low Ford Quarry", "Low Ford Quarry and Landscape Yard of Marlow Bank", "lava-yard", "washed-red-lava-of-the-upper-bench-by-the-yard",
		"red lava,", "red lava as it comes from the upper bench of the quarry,")
	deliver := filepath.Join(dir, "delivery.csv")
	terms, err := os.ReadFile(deliver)
	require.NoError(t, err)
	b := browser(t)
	link := serving(t, dir)
	b.size(1280, 800)
	b.do(chromedp.Navigate(link))
	for _, write := range []func(string) string{func(s string) string { return s }, words.Replace} {
		require.NoError(t, os.WriteFile(file, []byte(write(string(text))), filePerm))
		require.NoError(t, os.WriteFile(deliver, []byte(write(string(terms))), filePerm))
		b.do(chromedp.Navigate(strings.SplitN(link, "?", 2)[0] + "edit/quotes"))
		b.until(`document.querySelector(".strip p") && !document.querySelector(".busy") && document.querySelector(".mark")`)
		b.shoot("in-sight-1280")
		hidden := eval[[]string](b, `Array.from(document.querySelectorAll("#sheet .mark")).filter(m => m.getBoundingClientRect().right > innerWidth).map(m => m.innerText)`)
		assert.Empty(t, hidden, "every warning is in sight")
		for _, column := range []string{"supplier", "pack", "price", "breaks"} {
			out := eval[[]string](b, `(column => { const edge = document.querySelector("#sheet .scroll").getBoundingClientRect().right;
				const cells = Array.from(document.querySelectorAll("td[data-label='" + column + "'] input"));
				return cells.length < 10 ? ["too few cells"] : cells.filter(c => c.getBoundingClientRect().right > edge + 0.5 || c.getBoundingClientRect().right > innerWidth).map(c => c.value); })("`+column+`")`)
			assert.Empty(t, out, "%s sticks out at 1280", column)
		}
	}
}

// dark looks at what a view shows on a desk in the dark, and leaves it as it was.
func (b *tab) dark(name string) {
	b.t.Helper()
	b.size(1280, 800)
	b.scheme("dark")
	b.shoot("dark-" + name + "-1280")
	assert.Empty(b.t, eval[[]string](b, colours+`lightBoxes()`), name)
	assert.Empty(b.t, eval[[]string](b, colours+`faintLines()`), name)
	last := looks[len(looks)-1]
	b.size(last.width, 900)
	b.scheme(last.scheme)
}

// theDarkIsSeen holds the looks of dark to a page that has lines, and light boxes when it is light.
func (b *tab) theDarkIsSeen(base string) {
	b.t.Helper()
	b.size(1280, 800)
	b.do(chromedp.Navigate(base))
	b.until(`document.querySelectorAll(".beds svg").length > 2`)
	assert.Greater(b.t, eval[int](b, `document.querySelectorAll(".beds svg line, .beds svg path, .beds svg rect").length`), 10, "there are lines to look at")
	b.scheme("light")
	assert.NotEmpty(b.t, eval[[]string](b, colours+`lightBoxes()`), "in the light there are")
	assert.Empty(b.t, eval[[]string](b, colours+`faintLines()`), "lines in the light")
}

// colours are functions of the browser that look at computed colours: contrast as in
// WCAG 2.2, 3 to 1 for what is drawn.
const colours = `(() => {
	const rgb = c => (c.match(/[\d.]+/g) || []).map(Number);
	const lum = c => { const [r, g, b] = rgb(c).map(v => { v /= 255; return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4; }); return 0.2126 * r + 0.7152 * g + 0.0722 * b; };
	const seen = c => c && c !== "none" && !(rgb(c).length === 4 && rgb(c)[3] === 0);
	const say = (e, c) => e.tagName + "." + (e.getAttribute("class") || "") + " " + c;
	window.contrast = (a, b) => (Math.max(lum(a), lum(b)) + 0.05) / (Math.min(lum(a), lum(b)) + 0.05);
	const behind = e => { for (let p = e; p; p = p.parentElement) { const c = getComputedStyle(p).backgroundColor; if (seen(c)) return c; } return "rgb(255, 255, 255)"; };
	window.lightBoxes = () => Array.from(document.querySelectorAll("body *")).filter(e => { const r = e.getBoundingClientRect(); return r.width > 12 && r.height > 12; }).flatMap(e => {
		const s = getComputedStyle(e), c = e.closest("svg") && e.tagName === "rect" ? s.fill : s.backgroundColor;
		return seen(c) && lum(c) > 0.6 && !["BUTTON"].includes(e.tagName) ? [say(e, c)] : [];
	});
	window.faintLines = () => Array.from(document.querySelectorAll(".beds svg *, .key svg *")).flatMap(e => {
		const s = getComputedStyle(e);
		if (!seen(s.stroke)) return [];
		let ground = behind(e.closest("svg"));
		for (let p = e.previousElementSibling; p; p = p.previousElementSibling) if (e.tagName === "path" && seen(getComputedStyle(p).fill)) { ground = getComputedStyle(p).fill; break; }
		return contrast(s.stroke, ground) < 3 ? [say(e, s.stroke + " on " + ground)] : [];
	});
})();`

package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Somebody with an empty folder and two messages of yards comes to a proven answer by
// the page alone: three things are asked, and what the yards wrote is pasted.
func TestServeFromNothingToAnAnswer(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "spring")
	require.NoError(t, os.Mkdir(dir, 0o755))
	b := browser(t)
	b.size(1280, 800)
	b.do(chromedp.Navigate(serving(t, dir)))
	b.until(`document.getElementById("start")`)
	b.shoot("start-light-1280")
	at := func(place string) string {
		b.fill("place", place)
		return eval[string](b, `document.getElementById("limit.0").placeholder + ", " + document.getElementById("bare").textContent`)
	}
	assert.Equal(t, "500 kg, 2.4 x 1.2", at("UK"), "examples are in the units of the place")
	b.shoot("start-uk-1280")
	assert.Equal(t, "1200 lb, 8 x 4", at("US"))
	for id, text := range map[string]string{"length": "ft", "bed.0": "long bed", "count.0": "2", "size.0": "8 x 4", "depth.0": "12 in", "top.0": "2 in", "limit.0": "30OO lb", "grain.0": "1/2 in", "need_by": "2027-05-15"} {
		b.fill(id, text)
	}
	b.do(chromedp.Click(`#start button.main`))
	b.until(`document.querySelector("[aria-invalid]")`)
	assert.Equal(t, "limit.0", eval[string](b, `document.querySelector("[aria-invalid]").id`))
	b.shoot("start-wrong-1280")
	assert.NoFileExists(t, filepath.Join(dir, "beds.csv"))
	b.fill("limit.0", "3000 lb")
	b.do(chromedp.Click(`#start button.main`))
	b.until(`document.getElementById("pasted")`)
	for _, said := range []string{
		"Red lava rock, 1/2-1 in, $132 a yard, half yards are fine, no fizz. Delivery is $85 flat. Regards, Tam at Low Ford Quarry",
		"Expanded clay pebbles, 2 cu ft bags $27.50 each, 1/2-3/4 in. Delivery $60. Regards, Ada at Tansy Hill Supply",
	} {
		b.do(chromedp.Click(`//nav//a[text()="Paste"]`))
		b.until(`document.getElementById("pasted") && !document.getElementById("confirm")`)
		b.fill("pasted", said)
		b.do(chromedp.Click(`//button[text()="Read it"]`))
		b.until(`document.getElementById("confirm")`)
		b.do(chromedp.Click(`#confirm button.main`))
		b.until(`document.getElementById("sheet")`)
	}
	b.until(`document.querySelector(".strip .total")`)
	assert.Contains(t, b.text("strip"), "proven cheapest")
	b.do(chromedp.Click(`//nav//a[text()="Answer"]`))
	b.until(`document.getElementById("total")`)
	b.shoot("start-answer-1280")
}

// A setting is typed into its field: what is wrong stands beside it while it is typed,
// a good one is saved when the field is left, and the text of the file follows.
func TestServeSettingsFields(t *testing.T) {
	dir := sampleJob(t)
	file := filepath.Join(dir, "job.toml")
	before, err := os.ReadFile(file)
	require.NoError(t, err)
	b := browser(t)
	link := serving(t, dir)
	b.size(1280, 800)
	b.do(chromedp.Navigate(link), chromedp.Navigate(strings.SplitN(link, "?", 2)[0]+"edit/job"))
	b.until(`document.querySelector(".strip .total") && document.documentElement.classList.contains("js")`)
	eval[bool](b, `(() => { const f = document.getElementById("c.tax"); f.focus(); f.value = "lots"; return f.dispatchEvent(new Event("input", {bubbles: true})); })()`)
	b.until(`document.getElementById("m.tax").innerText !== "" && document.getElementById("c.tax").getAttribute("aria-invalid") === "true"`)
	b.shoot("settings-wrong-1280")
	b.fill("c.tax", "9%")
	b.until(`!document.getElementById("undo").hidden && document.getElementById("m.tax").innerText === ""`)
	b.fill("c.allow_untested", "true")
	b.until(fmt.Sprintf(`document.getElementById("undo-what").innerText === %q`, "allow_untested"))
	now, err := os.ReadFile(file)
	require.NoError(t, err)
	want := strings.Replace(string(before), `"7%"`, `"9%"`, 1)
	assert.Equal(t, strings.Replace(want, "tax = \"9%\"\n", "tax = \"9%\"\nallow_untested = true\n", 1), string(now))
	assert.Equal(t, string(now), eval[string](b, `document.getElementById("text").value`), "the text beside the fields follows them")
	b.fill("c.allow_untested", "")
	b.until(fmt.Sprintf(`!document.getElementById("text").value.includes(%q)`, "allow_untested"))
	now, err = os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, want, string(now))
}

package main

import (
	"context"
	"fmt"
	"io"
	"net/http"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// views are the pages of the sample job that are looked at as a whole.
var views = map[string]string{"answer": "/", "files": "/edit/quotes", "beds": "/edit/beds", "settings": "/edit/job", "paste": "/paste", "ask": "/ask", "papers": "/papers"}

// Nothing may stick out at the side from a phone's width to a wide screen.
func TestPageFitsScreens(t *testing.T) {
	b := browser(t)
	link := serving(t, sampleJob(t))
	b.do(chromedp.Navigate(link))
	base := strings.SplitN(link, "/?", 2)[0]
	b.complaints()
	for name, path := range views {
		for _, width := range []int64{390, 1280} {
			b.size(width, 900)
			b.do(chromedp.Navigate(base + path))
			b.until(`document.querySelectorAll(".busy").length === 0`)
			b.shoot(fmt.Sprintf("%s-%d", name, width))
			assert.LessOrEqual(t, eval[int64](b, "document.documentElement.scrollWidth"), width, "%s at %d scrolls sideways", name, width)
			assert.Empty(t, eval[[]string](b, stickingOut), "%s at %d", name, width)
		}
	}
	for _, width := range []int64{390, 1280} {
		b.size(width, 900)
		b.do(chromedp.Navigate(base + "/paste"))
		b.fill("pasted", wideRow)
		b.do(chromedp.Click(`//button[text()="Read it"]`))
		b.until(`document.getElementById("confirm")`)
		b.shoot(fmt.Sprintf("confirm-%d", width))
		assert.LessOrEqual(t, eval[int64](b, "document.documentElement.scrollWidth"), width, "a proposal at %d scrolls sideways", width)
	}
}

// wideRow has more columns than fit a screen.
const wideRow = "supplier\titem\tmedium\tform\tpack\tprice\tbreaks\tsize\tcarbonate\tvalid_until\tnotes\n" +
	"Moor End\tgrey tuff as it comes\tpumice\tbulk\t1 yd3\t6l\t10: 58\t1/2-3/4 in\tnone\t2026-06-30\task for Tam\n"

// stickingOut lists elements that reach beyond the window, but for those within a
// part that scrolls by itself.
const stickingOut = `Array.from(document.querySelectorAll("body *")).filter(e => !e.closest(".scroll, .skip, .hide, svg") &&
	e.getBoundingClientRect().width > 2 && e.getBoundingClientRect().right > innerWidth + 1).map(e => e.tagName + "." + e.className + " " + e.textContent.slice(0, 40))`

// Three yards' quotes come in by the paste box, one cell is mended, the plan stands
// there, the slider goes over a place where the buy changes, and the report that is
// taken away says the same total as the command.
func TestFromPasteToReport(t *testing.T) {
	dir := sampleJob(t)
	require.NoError(t, os.Remove(filepath.Join(dir, "quotes.csv")))
	b := browser(t)
	link := serving(t, dir)
	b.size(1280, 900)
	b.do(chromedp.Navigate(link))
	b.until(`document.body.innerText.includes("1 problem to mend")`)

	pasted := "supplier\tquote\tmedium\tform\tpack\tstep\tprice\tbreaks\tsize\tcarbonate\n" +
		"Low Ford Quarry\tlava-yard\tlava rock\tbulk\t1 yd3\t0.5\t132.00\t6: 121.00\t1/2-1 in\tnone\n" +
		"Low Ford Quarry\tgravel-ton\triver gravel\tbulk\t1 short ton\t0.5\t54.OO\t\t1/2-3/4 in\tnone\n" +
		"Tansy Hill Supply\tpebbles-50\texpanded clay\tbag\t50 L\t\t29.50\t10: 27.50; 40: 23.00\t12.7-20 mm\tnone\n" +
		"Wick Lane Stores\tpebbles-sack\texpanded clay\tsack\t0.5 m3\t\t252.00\t3: 244.00\t12.7-20 mm\tnone\n"
	b.do(chromedp.Click(`//nav//a[text()="Paste"]`))
	b.until(`document.getElementById("pasted")`)
	b.fill("pasted", pasted)
	b.do(chromedp.Click(`//button[text()="Read it"]`))
	b.until(`document.getElementById("confirm")`)
	assert.Contains(t, b.text("confirm"), `"54.OO" is not`, "the bad cell is told in the words of check")
	assert.NoFileExists(t, filepath.Join(dir, "quotes.csv"), "nothing enters the job before the yes")
	b.shoot("confirm-1280")

	b.do(chromedp.Click(`//button[@value="add"]`))
	b.until(`document.getElementById("sheet") && document.querySelector("[aria-invalid]")`)
	bad := eval[string](b, `document.querySelector("[aria-invalid]").id`)
	b.shoot("bad-1280")
	b.fill(bad, "54.00")
	b.until(`document.querySelector(".strip .total") && !document.querySelector("[aria-invalid]")`)
	assert.Contains(t, b.text("strip"), "proven cheapest")
	saved, err := os.ReadFile(filepath.Join(dir, "quotes.csv"))
	require.NoError(t, err)
	assert.Contains(t, string(saved), "54.00")
	assert.Contains(t, string(saved), "# quote: a short name of your own", "the template's comments stay")

	b.do(chromedp.Click(`//nav//a[text()="Answer"]`))
	b.until(`document.getElementById("total")`)
	total := b.text("total")
	status, stdout, stderr := runHere(context.Background(), "plan", dir, "--json")
	require.Equal(t, exitDone, status, stderr)
	assert.Contains(t, stdout, `"total": "`+strings.NewReplacer("$", "", ",", "").Replace(total)+`"`)

	b.do(chromedp.Click(`//nav//a[text()="Ask"]`))
	b.until(`document.getElementById("slide")`)
	b.fill("quote", "lava-yard")
	b.until(`location.search.includes("lava-yard") && document.querySelector("#price table")`)
	first := b.text("price")
	at := eval[float64](b, `Number(document.querySelector("#price tbody th").innerText.replace(/[^0-9.]/g, ""))`)
	changes := eval[[]string](b, `Array.from(document.querySelectorAll("#price tbody tr:first-child td")).map(c => c.innerText)`)
	require.Len(t, changes, 2)
	for i, x := range []float64{at - 1, at + 1} {
		b.fill("slide", fmt.Sprintf("%.2f", x))
		b.until(fmt.Sprintf(`document.querySelector("#price .answer").innerText.includes(%q)`, fmt.Sprintf("At $%.2f", x)))
		assert.Contains(t, b.text("price"), "Buy "+changes[i]+".", "on this side of the change at %v", at)
	}
	assert.NotEqual(t, first, b.text("price"))

	b.do(chromedp.Click(`//nav//a[text()="Papers"]`))
	b.until(`document.querySelector(".files")`)
	assert.Contains(t, string(b.download("/papers/report/report.md")), total)
	out := filepath.Join(t.TempDir(), "report.md")
	status, stdout, stderr = runHere(context.Background(), "justify", dir, "-o", out)
	require.Equal(t, exitDone, status, stderr)
	assert.Contains(t, stdout, total)
	theirs, err := os.ReadFile(out)
	require.NoError(t, err)
	assert.True(t, string(theirs) == string(b.download("/papers/report/report.md")), "the page hands out the report that justify writes")
}

// download fetches a path of the page with its cookies.
func (b *tab) download(path string) []byte {
	b.t.Helper()
	encoded := eval[string](b, fmt.Sprintf(`fetch(%q).then(r => r.text())`, path))
	return []byte(encoded)
}

// While typing, the answer follows without a save; leaving the cell saves it, and
// undo takes it back.
func TestTypingIsAnswered(t *testing.T) {
	dir := sampleJob(t)
	file := filepath.Join(dir, "quotes.csv")
	before, err := os.ReadFile(file)
	require.NoError(t, err)
	b := browser(t)
	link := serving(t, dir)
	b.size(1280, 900)
	b.do(chromedp.Navigate(link), chromedp.Navigate(strings.SplitN(link, "?", 2)[0]+"edit/quotes"))
	b.until(`document.querySelector(".strip .total")`)
	total := b.text("strip")
	price := eval[string](b, `document.querySelector('[aria-label="price of lava-yard"]').id`)

	b.until(`document.documentElement.classList.contains("js")`)
	b.do(chromedp.Focus("#"+strings.ReplaceAll(price, ".", `\.`)), chromedp.KeyEvent("9"))
	b.until(`document.getElementById("strip").innerText.includes("As typed")`)
	assert.Contains(t, b.text("strip"), "more than saved")
	b.shoot("typed-1280")
	now, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, string(before), string(now), "typing saves nothing")

	// The driver's own Enter goes on to the next field, which no keyboard's does once it is handled.
	eval[bool](b, `document.activeElement.dispatchEvent(new KeyboardEvent("keydown", {key: "Enter", bubbles: true, cancelable: true}))`)
	b.until(`!document.getElementById("strip").innerText.includes("As typed") && !document.getElementById("undo").hidden`)
	now, err = os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, strings.Replace(string(before), "132.00", "9132.00", 1), string(now), "one cell is saved and all else stays")
	assert.Equal(t, "price of granite-ton", eval[string](b, `document.activeElement.getAttribute("aria-label")`), "enter goes to the cell below")

	b.do(chromedp.Click(`#undo button`))
	b.until(`document.body.innerText.includes("Undone.")`)
	b.until(`document.querySelector(".strip .total")`)
	assert.Equal(t, total, b.text("strip"))
	now, err = os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, string(before), string(now))
}

// A file that was changed elsewhere is not written over, and that is said.
func TestChangedOutside(t *testing.T) {
	dir := sampleJob(t)
	file := filepath.Join(dir, "quotes.csv")
	b := browser(t)
	link := serving(t, dir)
	b.do(chromedp.Navigate(link), chromedp.Navigate(strings.SplitN(link, "?", 2)[0]+"edit/quotes"))
	b.until(`document.querySelector(".strip .total")`)
	elsewhere := "supplier,medium,pack,price\nLow Ford Quarry,pumice,1 yd3,100\n"
	require.NoError(t, os.WriteFile(file, []byte(elsewhere), filePerm))
	b.fill(eval[string](b, `document.querySelector('[aria-label="price of lava-yard"]').id`), "99")
	b.until(`!document.getElementById("message").hidden`)
	assert.Contains(t, b.text("message"), "was changed outside this page")
	now, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, elsewhere, string(now))
}

// On paper the answer stands by itself, without the controls around it.
func TestPagePrints(t *testing.T) {
	pdftotext, err := exec.LookPath("pdftotext")
	if err != nil && os.Getenv("CI") != "true" {
		t.Skip("pdftotext is not installed (Debian: poppler-utils)")
	}
	require.NoError(t, err)
	b := browser(t)
	b.do(chromedp.Navigate(serving(t, sampleJob(t))))
	b.until(`document.getElementById("total") && document.querySelectorAll(".busy").length === 0`)
	total := b.text("total")
	data, err := chromedp.Run(b.ctx, chromedp.PrintToPDF())
	require.NoError(t, err)
	file := filepath.Join(t.TempDir(), "answer.pdf")
	require.NoError(t, os.WriteFile(file, data, filePerm))
	out, err := exec.Command(pdftotext, file, "-").Output()
	require.NoError(t, err)
	for _, want := range []string{"Buy for " + total, "The bill", "What goes where", "local codes govern", "Left out, and why"} {
		assert.Contains(t, string(out), want)
	}
	for _, control := range []string{"Paste", "US units", "Skip to"} {
		assert.NotContains(t, string(out), control)
	}
}

// The printed address lets one browser in, once.
func TestServeLetsOneIn(t *testing.T) {
	link := serving(t, sampleJob(t), "--read-only")
	u, err := url.Parse(link)
	require.NoError(t, err)
	assert.Equal(t, "127.0.0.1", u.Hostname())
	noFollow := &http.Client{CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}
	first, err := noFollow.Get(link)
	require.NoError(t, err)
	defer first.Body.Close()
	assert.Equal(t, http.StatusSeeOther, first.StatusCode)
	assert.NotEmpty(t, first.Header.Get("Set-Cookie"))
	second, err := noFollow.Get(link)
	require.NoError(t, err)
	defer second.Body.Close()
	assert.Equal(t, http.StatusForbidden, second.StatusCode)
	words, err := io.ReadAll(second.Body)
	require.NoError(t, err)
	assert.Contains(t, string(words), "good once")
}

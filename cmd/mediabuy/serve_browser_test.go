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
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// views are the pages of the sample job that are looked at as a whole.
var views = map[string]string{"answer": "/", "sureness": "/part/sureness", "files": "/edit/quotes", "beds": "/edit/beds", "settings": "/edit/job", "paste": "/paste", "ask": "/ask", "papers": "/papers", "receive": "/receive"}

// Three yards' quotes come in by the paste box, one cell is mended, the plan stands
// there, the slider goes over a place where the buy changes, and the report that is
// taken away says the same total as the command.
func TestServeFromPasteToReport(t *testing.T) {
	dir := sampleJob(t)
	require.NoError(t, os.Remove(filepath.Join(dir, "quotes.csv")))
	b := browser(t)
	link := serving(t, dir)
	b.size(1280, 900)
	b.do(chromedp.Navigate(link))
	b.until(`document.body.innerText.includes("No quote is there yet")`)

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
func TestServeTypingIsAnswered(t *testing.T) {
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
	price := eval[string](b, `document.querySelector('[aria-label="price of gravel-ton"]').id`)

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
	assert.Equal(t, strings.Replace(string(before), "54.00", "954.00", 1), string(now), "one cell is saved and all else stays")
	assert.Equal(t, "price of fines-yard", eval[string](b, `document.activeElement.getAttribute("aria-label")`), "enter goes to the cell below")

	b.do(chromedp.Click(`#undo button`))
	b.until(`document.body.innerText.includes("Undone.")`)
	b.until(`document.querySelector(".strip .total")`)
	assert.Equal(t, total, b.text("strip"))
	now, err = os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, string(before), string(now))
}

// The buttons of a table do what they say beside whatever was typed before.
func TestServeButtonsOfATable(t *testing.T) {
	dir := sampleJob(t)
	read := func(name string) string {
		data, err := os.ReadFile(filepath.Join(dir, name))
		require.NoError(t, err)
		return string(data)
	}
	before := read("delivery.csv")
	b := browser(t)
	link := serving(t, dir)
	b.do(chromedp.Navigate(link), chromedp.Navigate(strings.SplitN(link, "?", 2)[0]+"edit/delivery"))
	b.until(`document.querySelector(".strip .total")`)
	field := func(label string) string {
		return fmt.Sprintf(`(() => { const f = document.querySelector('[aria-label=%q]'); f.id = f.id || "found"; return f.id; })()`, label)
	}
	b.fill(eval[string](b, field("supplier of a new row")), "Moor End")
	b.do(chromedp.Click(`//button[@value="add"]`))
	b.until(`document.body.innerText.includes("Saved.") && document.querySelector('[aria-label="Take out Moor End"]')`)
	added := read("delivery.csv")
	assert.True(t, strings.HasPrefix(added, before), "what was there stays")
	assert.Contains(t, added[len(before):], "Moor End")
	b.do(chromedp.Click(`[aria-label="Take out Moor End"]`))
	b.until(`document.body.innerText.includes("Saved.") && !document.querySelector('[aria-label="Take out Moor End"]')`)
	assert.Equal(t, before, read("delivery.csv"))
	b.fill("column", "min_order")
	b.do(chromedp.Click(`//button[@value="column"]`))
	b.until(`document.querySelector('[aria-label^="min_order of "]')`)
	assert.Contains(t, read("delivery.csv"), ",min_order\n")

	settings := read("job.toml")
	b.do(chromedp.Click(`//a[text()="job.toml"]`))
	b.until(`document.getElementById("text")`)
	b.until(`document.documentElement.classList.contains("js") && document.querySelector("#whole summary")`)
	eval[bool](b, `(document.querySelector("#whole summary").click(), true)`)
	b.fill("text", settings+"# looked at\n")
	b.do(chromedp.Click(`//button[@value="text"]`))
	b.until(`document.body.innerText.includes("Saved.")`)
	assert.Equal(t, settings+"# looked at\n", read("job.toml"))
}

// A job is changed, asked about and taken away without a mouse: Tab to what is
// wanted, then the keys that belong to it.
func TestServeKeyboardAlone(t *testing.T) {
	dir := sampleJob(t)
	b := browser(t)
	link := serving(t, dir)
	b.size(1280, 900)
	b.do(chromedp.Navigate(link))
	b.until(`document.getElementById("total")`)
	total := b.text("total")
	press := func(keys string) { t.Helper(); b.do(chromedp.KeyEvent(keys)) }
	// tabTo presses Tab until what has the focus is so, and fails where Tab does not lead there.
	tabTo := func(is string) {
		t.Helper()
		for range 80 {
			press(kb.Tab)
			if eval[bool](b, "(f => Boolean("+is+"))(document.activeElement)") {
				box := eval[float64](b, `Math.min(...["width", "height"].map(k => document.activeElement.getBoundingClientRect()[k]))`)
				assert.Greater(t, box, 1.0, "what has the focus is seen")
				return
			}
		}
		require.Fail(t, "the Tab key does not lead to it", is)
	}
	press(kb.Tab)
	assert.Equal(t, "Skip to the content", eval[string](b, `document.activeElement.innerText`))
	tabTo(`f.innerText === "Ask"`)
	press(kb.Enter)
	b.until(`document.getElementById("slide")`)
	tabTo(`f.id === "slide"`)
	first := b.text("price")
	press(kb.End)
	b.until(`document.querySelector("#price .flip")`)
	assert.NotEqual(t, first, b.text("price"))
	b.until(`document.querySelector(".rule")`)
	tabTo(`f.closest(".rule")`)
	press(" ")
	b.until(`document.querySelector(".rule :checked") && getComputedStyle(document.querySelector(".rule output")).display === "block"`)

	b.do(chromedp.Navigate(strings.SplitN(link, "?", 2)[0] + "edit/quotes"))
	b.until(`document.querySelector(".strip .total")`)
	tabTo(`f.getAttribute("aria-label") === "price of gravel-ton"`)
	press("9")
	b.until(`document.getElementById("strip").innerText.includes("As typed")`)
	press(kb.Tab) // leaving the cell saves it
	b.until(`!document.getElementById("undo").hidden && !document.getElementById("strip").innerText.includes("As typed")`)
	assert.NotContains(t, b.text("strip"), total)
	for range 120 {
		if eval[bool](b, `document.activeElement.closest("#undo") !== null`) {
			break
		}
		b.do(chromedp.KeyEvent(kb.Tab, chromedp.KeyModifiers(chromedp.ModifierShift)))
	}
	press(kb.Enter)
	b.until(`document.body.innerText.includes("Undone.") && document.querySelector(".strip .total")`)
	assert.Contains(t, b.text("strip"), total)
}

// A file dropped on the box is read as one that was chosen.
func TestServeDroppedFileIsRead(t *testing.T) {
	b := browser(t)
	link := serving(t, sampleJob(t), "--read-only")
	b.do(chromedp.Navigate(link), chromedp.Navigate(strings.SplitN(link, "?", 2)[0]+"paste"))
	b.until(`document.documentElement.classList.contains("js")`)
	eval[bool](b, `(() => { const data = new DataTransfer();
		data.items.add(new File(["supplier;medium;pack;price\nMoor End;pumice;1 yd3;61,50\n"], "yard.csv", {type: "text/csv"}));
		return document.getElementById("pasted").dispatchEvent(new DragEvent("drop", {dataTransfer: data, bubbles: true, cancelable: true})); })()`)
	b.until(`document.getElementById("confirm")`)
	assert.Equal(t, "61,50", eval[string](b, `document.getElementById("v.0.3").value`))
	assert.Contains(t, b.text("confirm"), "shown read-only")
	assert.False(t, eval[bool](b, `document.querySelector("#confirm [value=add]") !== null`), "there is no yes to say")
}

// A page left open is shown anew where the files are others when someone comes back
// to it, and where something is typed in it says so.
func TestServeComingBackToAPage(t *testing.T) {
	dir := sampleJob(t)
	file := filepath.Join(dir, "quotes.csv")
	before, err := os.ReadFile(file)
	require.NoError(t, err)
	b := browser(t)
	link := serving(t, dir)
	b.do(chromedp.Navigate(link))
	b.until(`document.getElementById("total")`)
	total := b.text("total")
	b.until(`document.documentElement.classList.contains("js")`)
	eval[bool](b, `dispatchEvent(new Event("focus"))`)
	require.NoError(t, os.WriteFile(file, []byte(strings.Replace(string(before), "54.00", "60.00", 1)), filePerm))
	eval[bool](b, `dispatchEvent(new Event("focus"))`)
	b.until(fmt.Sprintf(`document.getElementById("total") && document.getElementById("total").innerText !== %q`, total))

	b.do(chromedp.Navigate(strings.SplitN(link, "?", 2)[0] + "edit/quotes"))
	b.until(`document.querySelector(".strip .total") && document.documentElement.classList.contains("js")`)
	require.NoError(t, os.WriteFile(file, before, filePerm))
	eval[bool](b, `dispatchEvent(new Event("focus"))`)
	b.until(`!document.getElementById("message").hidden`)
	assert.Contains(t, b.text("message"), "The job's files were changed outside this page.")
	b.do(chromedp.Click(`//a[text()="Show it as it is now"]`))
	b.until(`document.getElementById("message").hidden && document.querySelector(".strip .total")`)
	assert.Contains(t, b.text("strip"), total)
}

// A file that was changed elsewhere is not written over, and that is said.
func TestServeChangedOutside(t *testing.T) {
	dir := sampleJob(t)
	file := filepath.Join(dir, "quotes.csv")
	b := browser(t)
	link := serving(t, dir)
	b.do(chromedp.Navigate(link), chromedp.Navigate(strings.SplitN(link, "?", 2)[0]+"edit/quotes"))
	b.until(`document.querySelector(".strip .total")`)
	elsewhere := "supplier,medium,pack,price\nLow Ford Quarry,pumice,1 yd3,100\n"
	require.NoError(t, os.WriteFile(file, []byte(elsewhere), filePerm))
	b.fill(eval[string](b, `document.querySelector('[aria-label="price of gravel-ton"]').id`), "99")
	b.until(`!document.getElementById("message").hidden`)
	assert.Contains(t, b.text("message"), "was changed outside this page")
	now, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, elsewhere, string(now))
}

// On paper the answer stands by itself, without the controls around it.
func TestServePagePrints(t *testing.T) {
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

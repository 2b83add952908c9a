package papers

import (
	"bytes"
	"context"
	"fmt"
	"html/template"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"

	"mediabuy/optimise"
	"mediabuy/papers/page/browsertest"
	"mediabuy/papers/page/pagetest"
	"mediabuy/units"
)

func TestMain(m *testing.M) {
	status := m.Run()
	browsertest.Close()
	os.Exit(status)
}

// patience is how long a browser may take on a slow machine.
const patience = 5 * time.Minute

// opened is a page of a browser with a file in it.
func opened(t *testing.T, file string) context.Context {
	ctx, stop := context.WithTimeout(browsertest.Page(t), patience)
	t.Cleanup(stop)
	require.NoError(t, chromedp.Do(ctx, chromedp.Navigate("file://"+file)))
	return ctx
}

// printPage prints a file from a browser, on sheets of the size that it asks for.
func printPage(t *testing.T, file, printed string) {
	yes := true
	pdf, err := chromedp.Run(opened(t, file), func(ctx context.Context, to *chromedp.Target) (page.PrintToPDFResult, error) {
		return cdp.Call(ctx, to, page.PrintToPDF, page.PrintToPDFParams{PrintBackground: &yes, PreferCSSPageSize: &yes})
	})
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(printed, pdf.Data, 0o644))
}

// told is what the script of a file puts into its element out, once an expression over
// the text there holds.
func told(t *testing.T, file, done string) string {
	ctx := opened(t, file)
	for {
		text, err := chromedp.Run(ctx, chromedp.Evaluate[string](`(text => `+done+` ? text : "")(document.getElementById("out").textContent)`))
		require.NoError(t, err)
		if text != "" {
			return text
		}
		time.Sleep(20 * time.Millisecond)
	}
}

// The report as a phone and as a desk screen show it: nothing may stick out at the
// side, and on the phone a picture's words are seen. The report itself has no
// script; the page around it measures.
func TestReportFitsScreens(t *testing.T) {
	dir := t.TempDir()
	report := string(written(t, gardensInput(t), asHTML))
	var b strings.Builder
	b.WriteString("<!DOCTYPE html><meta charset=utf-8><body>")
	widths := []int{320, 390, 768, 1200}
	for _, w := range widths {
		fmt.Fprintf(&b, `<iframe width=%d height=900 style="border:0" srcdoc="%s"></iframe>`, w, template.HTMLEscapeString(report))
	}
	b.WriteString(`<pre id=out></pre><script>onload = () => {
	for (const f of document.querySelectorAll("iframe")) {
		const d = f.contentDocument;
		let wide = 0;
		for (const e of d.querySelectorAll("body *")) { const r = e.getBoundingClientRect(); if (r.width > 2 && !e.closest("svg, .wide")) wide = Math.max(wide, r.right); }
		out.textContent += ["width", f.width, "scrolls", d.documentElement.scrollWidth, "right", Math.ceil(wide), "said", d.querySelector("figure:not(:has(.thin)) .said").getBoundingClientRect().height > 5].join(" ") + "\n";
	}
}</script>`)
	file := filepath.Join(dir, "screens.html")
	require.NoError(t, os.WriteFile(file, []byte(b.String()), 0o644))
	dom := told(t, file, fmt.Sprintf(`text.split("\n").length > %d`, len(widths)))
	found := regexp.MustCompile(`width (\d+) scrolls (\d+) right (\d+) said (true|false)`).FindAllStringSubmatch(dom, -1)
	require.Len(t, found, len(widths), "every width was measured")
	for i, m := range found {
		var width, scrolls, right int
		_, err := fmt.Sscan(m[1]+" "+m[2]+" "+m[3], &width, &scrolls, &right)
		require.NoError(t, err)
		assert.LessOrEqual(t, scrolls, width, "at %d the page scrolls sideways", width)
		assert.LessOrEqual(t, right, width, "at %d something sticks out", width)
		assert.Equal(t, widths[i] < 640, m[4] == "true", "words under a picture at %d", width)
	}
}

// words is a PDF's text with its lines joined, of all sheets or as flags choose them.
func words(t *testing.T, file string, flags ...string) string {
	out, err := exec.Command(tool(t, "pdftotext", "poppler-utils"), append(flags, file, "-")...).Output()
	require.NoError(t, err)
	return strings.Join(strings.Fields(string(out)), " ")
}

// Printed from a browser and set as PDF, the report says the same, total and all.
func TestReportPrints(t *testing.T) {
	dir := t.TempDir()
	in := gardensInput(t)
	page, printed, set := filepath.Join(dir, "r.html"), filepath.Join(dir, "printed.pdf"), filepath.Join(dir, "set.pdf")
	require.NoError(t, os.WriteFile(page, written(t, in, asHTML), 0o644))
	require.NoError(t, os.WriteFile(set, written(t, in, asPDF), 0o644))
	printPage(t, page, printed)
	for _, file := range []string{printed, set} {
		text := words(t, file)
		for _, want := range []string{"The decision", "Approved: a purchase of", "$" + in.Plan.Bill.Total.Text(2), "local codes govern", "m³", "Treasurer, signature, date", "For Ada, signature, date"} {
			assert.Contains(t, text, want, file)
		}
		assert.NotContains(t, text, "\ufffd")
		first := words(t, file, "-l", "1")
		assert.Contains(t, first, "Treasurer, signature, date", "the decision is one sheet of %s", file)
		assert.NotContains(t, first, "A. The bill", file)
	}
}

// Printed from a browser, a crowded decision keeps to one sheet as well; on the screen
// nothing of it is left out.
func TestCrowdedReportPrintsItsDecisionOnOneSheet(t *testing.T) {
	for _, n := range []struct{ suppliers, beds int }{{12, 10}, {25, 40}, {60, 90}} {
		in := crowded(t, n.suppliers, n.beds)
		for _, letter := range []bool{false, true} {
			t.Run(fmt.Sprintf("%d suppliers, letter %v", n.suppliers, letter), func(t *testing.T) {
				dir := t.TempDir()
				p, err := Justify(in, Style{Letter: letter, Units: units.US})
				require.NoError(t, err)
				p.Alarm = "Not proven: time was up. No purchase can cost less than $1.00, so at most $1.00 could still be saved."
				var b bytes.Buffer
				require.NoError(t, p.HTML(&b))
				file, printed := filepath.Join(dir, "r.html"), filepath.Join(dir, "printed.pdf")
				require.NoError(t, os.WriteFile(file, b.Bytes(), 0o644))
				printPage(t, file, printed)
				first, second := words(t, printed, "-l", "1"), words(t, printed, "-f", "2", "-l", "2")
				for _, want := range []string{"Order by", "You save", "The beds once filled", "What is asked of you", "Approved: a purchase of " + units.FormatMoney(in.Plan.Bill.Total, "USD"), "Signature, date", "Total"} {
					assert.Contains(t, first, want)
				}
				assert.NotContains(t, first, "A. The bill")
				assert.Contains(t, second, "A. The bill", "the decision is one sheet")
				doc, err := html.Parse(&b)
				require.NoError(t, err)
				seen := screened(doc)
				for i := range n.suppliers {
					assert.Contains(t, seen, fmt.Sprintf("of the %d. Valley", i+1))
				}
				assert.NotContains(t, seen, "more suppliers, see A", "rows are left out on paper only")
				if n.suppliers >= 25 {
					assert.Contains(t, first, "more suppliers, see A")
				}
			})
		}
	}
}

// A name without a place to fold does not have the browser set the whole print smaller.
func TestLongWordsDoNotShrinkThePrint(t *testing.T) {
	height := func(bed string) float64 {
		f := plot
		f.beds = strings.Replace(f.beds, "box", bed, 1)
		f.quotes = strings.Replace(f.quotes, "Tansy Hill Supply", strings.Repeat("Tansy", len(bed)/5), 1)
		f.delivery = strings.Replace(f.delivery, "Tansy Hill Supply", strings.Repeat("Tansy", len(bed)/5), 1)
		job := f.withMedia(t)
		plan := solve(t, job)
		dir := t.TempDir()
		file, printed := filepath.Join(dir, "r.html"), filepath.Join(dir, "printed.pdf")
		in := Input{Plan: plan, Compared: optimise.Compare(job, plan.Fit, optimise.CompareOptions{}), Ways: []Way{WayOf("all bags", plan)}}
		require.NoError(t, os.WriteFile(file, written(t, in, asHTML), 0o644))
		printPage(t, file, printed)
		b, err := os.ReadFile(printed)
		require.NoError(t, err)
		for _, s := range sheets(t, b) {
			for _, l := range s.Lines {
				if l.text() == "What is asked of you" {
					return l.YMax - l.YMin
				}
			}
		}
		require.Fail(t, "the line is not there")
		return 0
	}
	plain := height("box of ")
	assert.InDelta(t, plain, height(strings.Repeat("W", 90)), 0.2)
}

// screened is what a page's first part says on a screen.
func screened(n *html.Node) string {
	if n.Type == html.ElementNode && strings.Contains(pagetest.Attr(n, "class"), "on-paper") || n.Type == html.ElementNode && n.Data == "section" && pagetest.Attr(n, "class") == "new" {
		return ""
	}
	if n.Type == html.TextNode {
		return n.Data
	}
	out := ""
	for c := n.FirstChild; c != nil; c = c.NextSibling {
		out += screened(c) + " "
	}
	return out
}

// Every sheet of the PDF comes out as a picture with something on it.
func TestPDFDraws(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "r.pdf")
	require.NoError(t, os.WriteFile(file, written(t, gardensInput(t), asPDF), 0o644))
	out, err := exec.Command(tool(t, "pdftoppm", "poppler-utils"), "-r", "20", "-gray", file, filepath.Join(dir, "sheet")).CombinedOutput()
	require.NoError(t, err, string(out))
	sheets, err := filepath.Glob(filepath.Join(dir, "sheet*.pgm"))
	require.NoError(t, err)
	assert.Contains(t, words(t, file), fmt.Sprintf("sheet %d of %d", len(sheets), len(sheets)))
	for _, s := range sheets {
		text, err := os.ReadFile(s)
		require.NoError(t, err)
		dark := 0
		for _, v := range text[min(20, len(text)):] {
			if v < 128 {
				dark++
			}
		}
		assert.Greater(t, dark, 50, "%s is nearly empty", filepath.Base(s))
	}
}

package web

import (
	"archive/zip"
	"bytes"
	"context"
	"fmt"
	"net/http"
	"net/url"
	"path"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"

	"mediabuy/optimise"
	"mediabuy/optimise/breakeven"
	"mediabuy/papers"
	"mediabuy/papers/caution"
	"mediabuy/papers/ink"
	"mediabuy/papers/page"
	"mediabuy/papers/page/pagetest"
	"mediabuy/quotes/files"
	"mediabuy/quotes/files/jobtest"
	"mediabuy/units"
)

// Every view of jobs in several states: whole, with problems, without an answer.
func everyPage(t *testing.T) map[string]string {
	out := map[string]string{}
	states := map[string]func(*visitor){
		"whole": func(*visitor) {},
		"problems": func(v *visitor) {
			v.write(files.QuotesFile, strings.Replace(v.read(files.QuotesFile), "132.00", "13Z", 1)+"short,row\n")
		},
		"infeasible": func(v *visitor) {
			v.write(files.BedsFile, strings.Replace(v.read(files.BedsFile), "4200 lb", "1000 lb", 3))
		},
		"hostile":  hostile,
		"not text": func(v *visitor) { v.write(files.QuotesFile, "a\x00b") },
	}
	for state, change := range states {
		v := opened(t, Options{})
		change(v)
		for _, path := range []string{"/", "/edit/quotes", "/edit/beds", "/edit/media", "/edit/job", "/paste", "/ask", "/papers"} {
			v.get("/part/strip") // waits for the answer, however slow the machine
			out[state+path] = v.get(path)
		}
		w := v.paste("supplier\tmedium\tpack\tprice\n\tpumise\t1 yd3\t61\n", nil)
		out[state+" pasted"] = w.Body.String()
		switch state {
		case "hostile":
			require.Contains(t, out["hostile/"], "Proven", "the names are no problem in themselves")
			out[state+"/part/ways"] = v.get("/part/ways")
		case "infeasible":
			require.Contains(t, out[state+"/"], "2195 lb over the limit")
		case "whole":
			for _, path := range []string{"/part/ways", "/part/filled", "/part/sureness", "/part/rules", "/part/size?factor=1.5"} {
				out[state+path] = v.get(path)
			}
			require.Contains(t, out[state+"/part/ways"], "Plainer than the cheapest: no more than two things bought, for $19.26 (1.0 %) more than the $1,953.82 that is the least. It takes 2 suppliers in place of 3")
			out["said"] = v.paste("washed lava 3/4 in, 68 a yard. About 20 for the pea gravel.", nil).Body.String()
			out["failure"] = v.do(v.request("GET", "/edit/colours", nil)).Body.String()
		}
	}
	return out
}

// hostile names things in the job's files as someone would who wants a page to run
// something.
func hostile(v *visitor) {
	const bad = `<img src=x onerror=alert(1)>" onfocus=x`
	cell := func(text string) string { return `"` + strings.ReplaceAll(text, `"`, `""`) + `"` }
	for file, change := range map[string]*strings.Replacer{
		files.QuotesFile:   strings.NewReplacer("Low Ford Quarry", cell(bad), "\nlava-yard", "\n"+cell(bad), "lava rock", cell(bad), "red lava", cell(bad)),
		files.DeliveryFile: strings.NewReplacer("Low Ford Quarry", cell(bad)),
		files.BedsFile:     strings.NewReplacer("\nalder 1", "\n"+cell(bad), ",alder,", ","+cell(bad)+",", "lava rock: 0.67", cell(bad+": 0.67")),
	} {
		v.write(file, change.Replace(v.read(file)))
	}
	v.write(files.MediaFile, "medium,dry_density,held_water,voids,feel,carbonate,breaks_down,rinse_loss,settle\n"+cell(bad)+",0.75 kg/L,0.15 kg/L,50%,rough,none,no,5%,3%\n")
}

// What can be asked of a page without a browser: each field has a name, each id
// stands once, each place pointed at is there, and nothing runs or is styled within
// it, which its policy forbids (WCAG 2.2, 4.1.2 and 1.3.1; memory).
func TestPagesAreSound(t *testing.T) {
	jobtest.Long(t)
	for name, text := range everyPage(t) {
		ids, fors, labelled := map[string]bool{}, []string{}, map[string]bool{}
		whole := strings.Contains(text, "<html")
		var fields []*html.Node
		headings := []int{}
		var look func(n *html.Node, inLabel bool)
		look = func(n *html.Node, inLabel bool) {
			inLabel = inLabel || n.Data == "label"
			if n.Type == html.ElementNode {
				for _, a := range n.Attr {
					assert.False(t, a.Key == "style" || strings.HasPrefix(a.Key, "on"), "%s: %s in %s", name, a.Key, n.Data)
					assert.NotContains(t, a.Val, "javascript:", name)
					switch a.Key {
					case "id":
						assert.False(t, ids[a.Val], "%s: id %q stands twice", name, a.Val)
						ids[a.Val] = true
					case "for":
						labelled[a.Val] = true
					case "aria-describedby", "aria-labelledby", "list":
						fors = append(fors, strings.Fields(a.Val)...)
					case "href":
						if to, ok := strings.CutPrefix(a.Val, "#"); ok {
							fors = append(fors, to)
						}
					}
				}
				switch n.Data {
				case "img", "iframe", "object", "embed":
					assert.Fail(t, "something is brought in", "%s: %s", name, n.Data)
				case "input", "select", "textarea":
					if pagetest.Attr(n, "type") != "hidden" && pagetest.Attr(n, "aria-label") == "" && !inLabel {
						fields = append(fields, n)
					}
				case "button":
					assert.NotEmpty(t, pagetest.Attr(n, "aria-label")+pagetest.Words(n), "%s: a button without words", name)
				case "a":
					assert.NotEmpty(t, pagetest.Words(n), "%s: a link without words", name)
				case "svg":
					assert.True(t, pagetest.Attr(n, "aria-label") != "" || pagetest.Attr(n, "aria-hidden") == "true", "%s: a drawing without words", name)
				case "script":
					assert.Equal(t, "/static/page.js", pagetest.Attr(n, "src"), name)
					assert.Empty(t, pagetest.Words(n), name)
				case "h1", "h2", "h3":
					headings = append(headings, int(n.Data[1]-'0'))
				}
			}
			for c := range n.ChildNodes() {
				look(c, inLabel)
			}
		}
		look(pagetest.Parse(t, text), false)
		for _, f := range fields {
			assert.True(t, labelled[pagetest.Attr(f, "id")], "%s: field %q has no label", name, pagetest.Attr(f, "name"))
		}
		for _, id := range fors {
			assert.True(t, ids[id], "%s: nothing has the id %q", name, id)
		}
		if whole {
			require.NotEmpty(t, headings, name)
			assert.Equal(t, 1, headings[0], "%s: opens with its title", name)
			for i := 1; i < len(headings); i++ {
				assert.LessOrEqual(t, headings[i], headings[i-1]+1, "%s: a heading skips a level", name)
			}
		}
	}
}

// The colours of the style sheet, light and dark: words on every ground they stand
// on keep 4.5 to 1 (WCAG 2.2, 1.4.3; memory), parts of bars and edges of fields 3
// to 1 (1.4.11; memory).
func TestColoursCanBeTold(t *testing.T) {
	css, err := embedded.ReadFile("static/page.css")
	require.NoError(t, err)
	roots := regexp.MustCompile(`(?s):root \{(.*?)\}`).FindAllStringSubmatch(string(css), -1)
	require.GreaterOrEqual(t, len(roots), 2)
	colour := regexp.MustCompile(`--([a-z-]+): #([0-9a-f]{6})`)
	for i, scheme := range []string{"light", "dark"} {
		of := map[string]ink.Colour{}
		for _, m := range colour.FindAllStringSubmatch(roots[i][1], -1) {
			v, err := strconv.ParseUint(m[2], 16, 32)
			require.NoError(t, err)
			of[m[1]] = ink.Colour{R: uint8(v >> 16), G: uint8(v >> 8), B: uint8(v)}
		}
		require.GreaterOrEqual(t, len(of), 18, scheme)
		told := func(a, b string, least float64) {
			require.Contains(t, of, a)
			require.Contains(t, of, b)
			assert.GreaterOrEqual(t, ink.Contrast(of[a], of[b]), least, "%s: %s on %s", scheme, a, b)
		}
		for _, ground := range []string{"ground", "paper", "panel"} {
			for _, text := range []string{"text", "quiet", "accent", "alarm"} {
				told(text, ground, 4.5)
			}
			for _, part := range []string{"goods", "losses", "delivery", "tax", "rinsing", "edge", "focus"} {
				told(part, ground, 3)
			}
		}
		told("on-accent", "accent", 4.5)
		told("alarm", "alarm-panel", 4.5)
		told("warn", "warn-panel", 4.5)
	}
}

func TestAnswerSaysWhatThePlanSays(t *testing.T) {
	v := opened(t, Options{Advise: func(p *optimise.Plan, sys units.System) ([]string, []caution.Caution) {
		return []string{"more is less here"}, []caution.Caution{{About: "weight", Words: fmt.Sprint("in system ", sys)}}
	}})
	page := v.get("/part/answer")
	job, rep, err := files.Read(v.texts().Files(), files.Options{Today: testDay})
	require.NoError(t, err)
	require.NoError(t, rep.Err())
	plan, err := optimise.Solve(t.Context(), job, optimise.Options{})
	require.NoError(t, err)
	for _, l := range plan.Bill.Lines {
		assert.Contains(t, page, l.Quote.Name)
		assert.Contains(t, page, units.FormatMoney(l.Goods, "USD"))
	}
	for _, m := range []units.Money{plan.Bill.Goods, plan.Bill.Tax, plan.Bill.Total} {
		assert.Contains(t, page, units.FormatMoney(m, "USD"))
	}
	for _, table := range plan.Tables {
		assert.Contains(t, page, fmt.Sprintf(`max="%v" value="%v"`, float64(*table.Limit), float64(table.Flooded)))
	}
	assert.Contains(t, page, "lime-ton")
	assert.Contains(t, page, "limestone is lime or carries it")
	assert.Contains(t, page, "more is less here")
}

func TestAsk(t *testing.T) {
	v := opened(t, Options{})
	a, err := v.h.saved(t.Context(), 0)
	require.NoError(t, err)
	q, err := breakeven.FindQuote(a.Job, "lava-yard")
	require.NoError(t, err)
	list, err := breakeven.ByPrice(t.Context(), a.Job, a.Plan, []breakeven.Target{breakeven.OfQuote(a.Job, q)}, breakeven.Options{})
	require.NoError(t, err)
	require.NotEmpty(t, list[0].Changes)
	for _, c := range list[0].Changes {
		cent := units.D("0.01")
		for at, buy := range map[string][]breakeven.Bought{c.At.Sub(cent).Text(2): c.Below, c.At.Add(cent).Text(2): c.Above} {
			page := v.get("/part/price?quote=lava-yard&at=" + at)
			assert.Contains(t, page, "Buy "+breakeven.BuyWords(buy)+".", "at %s", at)
			assert.Equal(t, breakeven.BuyWords(buy) != "6.5 gravel-ton, 41 pebbles-50, 2 shale-sack", strings.Contains(page, "another buy than today"), "at %s", at)
		}
	}
	assert.Contains(t, v.get("/part/price?quote=lava-yard&at=132"), "today&#39;s price")
	assert.Contains(t, v.get("/part/price?quote=lava-yard&at=132"), bare(t, v, "132.00"))
	assert.Contains(t, v.get("/part/size?factor=2"), "At 2 times the size")
	assert.Contains(t, v.get("/part/size?factor=2"), "<svg")
	assert.Equal(t, "between 27 and 29 % of the size", betweenWords(0.2734, 0.2812))
	assert.Equal(t, "between 27 and 29 % of the size", betweenWords(0.27, 0.29))
	for _, q := range a.Job.Quotes {
		assert.Contains(t, v.get("/ask"), q.Name, "each quote can be asked about, or is said not to be")
	}
	assert.Contains(t, v.get("/ask"), `Not in this list, as no bed takes`)
	assert.NotContains(t, v.get("/part/size?factor=1"), "other suppliers than today")
	assert.Contains(t, v.get("/part/size?factor=0.1"), "other suppliers than today")
	rules := v.get("/part/rules")
	assert.Contains(t, rules, "22 lb more on table alder")
	assert.NotContains(t, rules, "kg")
	assert.Contains(t, rules, "no weight limit")
	assert.Contains(t, rules, "less")
	for path, want := range map[string]int{
		"/part/price?quote=lava-yrd":                404,
		"/part/price?quote=lava-yard&at=dear":       400,
		"/part/price?quote=lava-yard&at=-1":         400,
		"/part/size?factor=0":                       400,
		"/part/size?factor=NaN":                     400,
		"/part/size?factor=1e9":                     400,
		"/ask?quote=%3Cscript%3Ealert(1)%3C/scr%3E": 404,
	} {
		w := v.do(v.request("GET", path, nil))
		assert.Equal(t, want, w.Code, path)
		assert.NotContains(t, w.Body.String(), "<script>alert", path)
	}
	v.write(files.BedsFile, strings.Replace(v.read(files.BedsFile), "4200 lb", "1000 lb", 3))
	assert.Equal(t, http.StatusConflict, v.do(v.request("GET", "/part/price?quote=lava-yard", nil)).Code)
	v.get("/part/strip")
	assert.Contains(t, v.get("/ask"), "There is no plan to ask about")
}

func TestPapers(t *testing.T) {
	jobtest.Long(t)
	asked := 0
	v := opened(t, Options{Report: func(_ context.Context, r ReportRequest) (*page.Page, error) {
		asked++
		return papers.Justify(papers.Input{Plan: r.Reached.Plan, Warnings: r.Warnings, For: r.For}, r.Style)
	}})
	v.get("/part/strip") // waits for the answer, however slow the machine
	links := linksTo(t, v.get("/papers"), "/papers/")
	require.Len(t, links, 4+3*2+1+3*2+1+3*2+1+3*3+1, "the report in four forms, three orders, sheets for the gate and for talks as PDF and CSV, three requests as PDF and two CSVs, and four archives")
	assert.Contains(t, links, "/papers/request/request-low-ford-quarry-delivery.csv", "named as the command names it")
	for _, to := range links {
		w := v.do(v.request("GET", to, nil))
		require.Equal(t, http.StatusOK, w.Code, to)
		assert.Contains(t, w.Header().Get("Content-Disposition"), "attachment", to)
		assert.NotEmpty(t, w.Header().Get("Content-Type"), to)
		switch {
		case strings.HasSuffix(to, ".pdf"):
			assert.True(t, strings.HasPrefix(w.Body.String(), "%PDF"), to)
		case strings.HasSuffix(to, ".zip"):
			z, err := zip.NewReader(bytes.NewReader(w.Body.Bytes()), int64(w.Body.Len()))
			require.NoError(t, err)
			assert.GreaterOrEqual(t, len(z.File), 4)
		}
	}
	assert.Equal(t, 1, asked, "the four forms are of one report")
	assert.Equal(t, http.StatusNotFound, v.do(v.request("GET", "/papers/report/x.pdf", nil)).Code)
	assert.Equal(t, http.StatusConflict, v.do(v.request("GET", "/papers/statement/all.zip", nil)).Code, "nobody shares the bill")
}

// A job with a name in letters that a PDF lacks has its papers as pages too, and another
// has not.
func TestPapersInOtherLetters(t *testing.T) {
	jobtest.Long(t)
	v := opened(t, Options{})
	v.get("/part/strip")
	assert.NotContains(t, v.get("/papers"), ".html", "no report is offered here, and nothing else needs a page")
	const far = "مزارع النهر"
	for _, name := range []string{files.QuotesFile, files.DeliveryFile} {
		v.write(name, strings.ReplaceAll(v.read(name), "Low Ford Quarry", far))
	}
	v.get("/part/strip")
	seen := map[string]bool{}
	for _, to := range linksTo(t, v.get("/papers"), "/papers/") {
		kind, _, _ := strings.Cut(strings.TrimPrefix(to, "/papers/"), "/")
		w := v.do(v.request("GET", to, nil))
		require.Equal(t, http.StatusOK, w.Code, to)
		if strings.HasSuffix(to, ".html") {
			seen[kind] = seen[kind] || strings.Contains(w.Body.String(), far)
			assert.Contains(t, w.Header().Get("Content-Disposition"), "attachment", to)
		}
	}
	assert.Equal(t, map[string]bool{"order": true, "gate": true, "request": true, "talk": true}, seen)
}

// Every member's statement can be had by itself, and all of them together. Two
// names may make one file name.
func TestStatements(t *testing.T) {
	jobtest.Long(t)
	v := opened(t, Options{})
	lines := strings.Split(strings.TrimSpace(v.read(files.BedsFile)), "\n")
	for i := 1; i < len(lines); i++ {
		lines[i] += map[bool]string{true: ",member"}[i == 1]
		if i > 1 {
			lines[i] += "," + []string{"Ada Pell", "Tam", "ada-pell"}[i%3]
		}
	}
	v.write(files.BedsFile, strings.Join(lines, "\n")+"\n")
	v.get("/part/strip")
	var got []string
	for _, to := range linksTo(t, v.get("/papers"), "/papers/statement/") {
		got = append(got, strings.TrimPrefix(to, "/papers/statement/"))
	}
	require.Equal(t, []string{"treasurer.pdf", "treasurer.csv", "statement-ada-pell.pdf", "statement-ada-pell.csv", "statement-tam.pdf", "statement-tam.csv",
		"statement-ada-pell-2.pdf", "statement-ada-pell-2.csv", "all.zip"}, got)
	for _, name := range got {
		w := v.do(v.request("GET", "/papers/statement/"+name, nil))
		require.Equal(t, http.StatusOK, w.Code, name)
		switch path.Ext(name) {
		case ".pdf":
			assert.True(t, strings.HasPrefix(w.Body.String(), "%PDF"), name)
		case ".csv":
			who := map[string]string{"treasurer.csv": "Tam,", "statement-ada-pell.csv": "\nAda Pell,", "statement-tam.csv": "\nTam,", "statement-ada-pell-2.csv": "\nada-pell,"}[name]
			assert.Contains(t, w.Body.String(), who, name)
		default:
			z, err := zip.NewReader(bytes.NewReader(w.Body.Bytes()), int64(w.Body.Len()))
			require.NoError(t, err)
			assert.Len(t, z.File, len(got)-1)
		}
	}
	assert.Equal(t, http.StatusNotFound, v.do(v.request("GET", "/papers/statement/statement-nobody.pdf", nil)).Code)
}

// The weights on the page say whose they are.
func TestWeightsSayWhose(t *testing.T) {
	v := opened(t, Options{})
	assert.Contains(t, v.get("/part/answer"), "The weights are those of heavy stone, flooded to the water line.")
	v.write(files.SettingsFile, "weights = \"usual\"\n"+v.read(files.SettingsFile))
	assert.Contains(t, v.get("/part/answer"), "The weights are those of stone of usual weight")
}

func TestUnitsAreTheReaders(t *testing.T) {
	v := opened(t, Options{})
	assert.Contains(t, v.get("/part/answer"), "yd³")
	assert.Contains(t, v.get("/part/answer"), "for one ft³ placed", "as compare and reports have it")
	w := v.post("/units", url.Values{"units": {"metric"}, "back": {"/"}}, false)
	require.Len(t, w.Result().Cookies(), 1)
	r := v.request("GET", "/part/answer", nil)
	r.AddCookie(w.Result().Cookies()[0])
	text := v.do(r).Body.String()
	assert.Contains(t, text, "for one L placed")
	assert.Contains(t, text, " kg flooded of ")
	assert.Equal(t, http.StatusBadRequest, v.post("/units", url.Values{"units": {"furlong"}}, false).Code)
	sys := units.Metric
	assert.Contains(t, opened(t, Options{Units: &sys}).get("/part/answer"), "for one L placed")
}

// A buy that is as sure as the job asks is not called the cheapest of all.
func TestSurerBuyIsNotCalledCheapest(t *testing.T) {
	v := opened(t, Options{})
	v.write(files.SettingsFile, "sure = \"90%\"\n"+v.read(files.SettingsFile))
	assert.Contains(t, v.get("/part/strip"), "cheapest found that is 90 % sure")
	page := v.get("/part/answer")
	assert.Contains(t, page, "a cheaper one as sure could save at most $")
	assert.NotContains(t, page, "Proven: nothing is cheaper")
}

// Cost against sureness is a drawing with the plan's place on it, and a table; where
// the job asks for a sureness it comes with the answer, and else when it is asked for.
func TestCostAgainstSureness(t *testing.T) {
	v := opened(t, Options{})
	v.get("/part/strip")
	assert.Contains(t, v.get("/"), `<a href="/part/sureness">Set cost against sureness</a>`)
	assert.Contains(t, v.get("/part/filled"), `<p class="alarm">In 42 of 100 cases every bed is full`)
	page := v.get("/part/sureness")
	assert.Contains(t, page, `<h1>What more sureness costs</h1>`)
	assert.Equal(t, 1, strings.Count(page, `class="change"`), "the plan alone is marked")
	assert.Contains(t, page, "<title>chosen: $1,953.82 in 42 of 100 cases</title>")
	assert.Contains(t, page, "The dot is the plan.")
	assert.Contains(t, page, `<strong>the plan</strong></td><td class="num" data-label="With the top-up to be expected">$2,014.21</td><td data-label="What is bought">6.5 gravel-ton, 41 pebbles-50, 2 shale-sack</td>`)
	assert.Contains(t, page, "$18.14 more than the chosen buy fills every bed in 58 of 100 cases in place of 42.")
}

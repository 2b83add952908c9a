package web

import (
	"encoding/json"
	"fmt"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/optimise"
	"mediabuy/quotes/files"
	"mediabuy/units"
	"mediabuy/web/internal/folder"
)

func (v *visitor) tried(w interface{ Result() *http.Response }) tried {
	v.t.Helper()
	res := w.Result()
	require.Equal(v.t, http.StatusOK, res.StatusCode)
	var doc tried
	require.NoError(v.t, json.NewDecoder(res.Body).Decode(&doc))
	return doc
}

// bare is the total of the sample job with one price changed, solved by the library
// alone.
func bare(t testing.TB, v *visitor, price string) string {
	t.Helper()
	texts, err := v.h.folder.Read()
	require.NoError(t, err)
	data := strings.Replace(string(texts[files.QuotesFile]), "132.00", price, 1)
	job, rep, err := files.Read(texts.With(files.QuotesFile, []byte(data)).Files(), files.Options{Today: testDay})
	require.NoError(t, err)
	require.NoError(t, rep.Err())
	plan, err := optimise.Solve(t.Context(), job, optimise.Options{})
	require.NoError(t, err)
	return units.FormatMoney(plan.Bill.Total, "USD")
}

func TestEditChangesOneCell(t *testing.T) {
	v := opened(t, Options{})
	before := v.read(files.QuotesFile)
	doc := v.tried(v.post("/try/quotes", v.priced("170.00"), true))
	assert.Contains(t, doc.Strip, bare(t, v, "170.00"))
	assert.Contains(t, doc.Strip, "not saved yet")
	assert.Equal(t, before, v.read(files.QuotesFile), "a try saves nothing")

	doc = v.tried(v.post("/edit/quotes", v.priced("170.00"), true))
	assert.Contains(t, doc.Strip, bare(t, v, "132.00"), "what is solved alone now starts from the saved price")
	assert.NotContains(t, doc.Strip, "not saved yet")
	assert.Equal(t, strings.Replace(before, "132.00", "170.00", 1), v.read(files.QuotesFile))
	assert.Equal(t, v.tag(files.QuotesFile), doc.Tag)
	assert.Equal(t, v.get("/part/state"), doc.State)
	assert.Contains(t, v.get("/edit/beds"), `data-state="`+doc.State+`"`)
	assert.Equal(t, "price of lava-yard", doc.Undo)

	w := v.post("/undo", url.Values{"back": {"/edit/quotes"}}, false)
	assert.Equal(t, "/edit/quotes?said=undone", w.Header().Get("Location"))
	assert.Equal(t, before, v.read(files.QuotesFile))
	assert.Equal(t, http.StatusConflict, v.post("/undo", nil, false).Code, "nothing is left to undo")
}

// Problems stand at their cells, in the words of the reader.
func TestProblemsStandAtTheirCells(t *testing.T) {
	v := opened(t, Options{})
	form := v.priced("13Z.00")
	form.Set("c.4.5", "1 wheelbarrow")
	doc := v.tried(v.post("/edit/quotes", form, true))
	assert.Contains(t, doc.Strip, "2 problems to mend")
	assert.Contains(t, doc.Strip, `href="/edit/quotes#c.3.7"`)
	assert.Contains(t, doc.Files, "2 to mend")
	_, rep, err := files.Read(folder.Texts{
		files.QuotesFile: []byte(v.read(files.QuotesFile)), files.BedsFile: []byte(v.read(files.BedsFile)),
		files.DeliveryFile: []byte(v.read(files.DeliveryFile)), files.SettingsFile: []byte(v.read(files.SettingsFile)),
	}.Files(), files.Options{Today: testDay})
	require.NoError(t, err)
	want := map[string]string{}
	for _, p := range rep.Problems {
		want[map[int]string{3: "3.7", 4: "4.5"}[p.Line]] = p.Message()
	}
	got := map[string]string{}
	for _, m := range doc.Marks {
		if !m.Warning {
			got[m.ID] = m.Words
		}
	}
	assert.Equal(t, want, got)
	page := v.get("/edit/quotes")
	for _, id := range []string{"3.7", "4.5"} {
		assert.Contains(t, page, fmt.Sprintf(`id="c.%s"`, id))
	}
	assert.Equal(t, 2, strings.Count(page, `aria-invalid="true"`))
}

func TestEditRowsAndColumns(t *testing.T) {
	for _, c := range []struct {
		name string
		form url.Values
		want func(before string) string
	}{
		{"nothing", url.Values{"op": {"save"}, lavaPrice: {"132.00"}}, func(b string) string { return b }},
		{"a row goes", url.Values{"op": {"delete:3"}}, func(b string) string {
			i := strings.Index(b, "lava-yard")
			return b[:i] + b[i+strings.Index(b[i:], "\n")+1:]
		}},
		{"a row comes", url.Values{"op": {"add"}, "n.0": {"tuff"}, "n.1": {"Low Ford Quarry"}, "n.15": {"grey, light"}}, func(b string) string {
			return b + "tuff,Low Ford Quarry,,,,,,,,,,,,,," + `"grey, light"` + "\n"
		}},
		{"a column comes", url.Values{"op": {"column"}, "column": {"tax"}}, func(b string) string {
			lines := strings.Split(strings.TrimSuffix(b, "\n"), "\n")
			for i := range lines[1:] {
				lines[i+1] += map[bool]string{true: ",tax", false: ","}[i == 0]
			}
			return strings.Join(lines, "\n") + "\n"
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			v := opened(t, Options{})
			before := v.read(files.QuotesFile)
			c.form.Set("tag", v.tag(files.QuotesFile))
			w := v.post("/edit/quotes", c.form, false)
			require.Equal(t, http.StatusSeeOther, w.Code, w.Body)
			assert.Equal(t, c.want(before), v.read(files.QuotesFile))
		})
	}
}

func TestEditWhatCannotBe(t *testing.T) {
	v := opened(t, Options{})
	before := v.read(files.QuotesFile)
	for _, c := range []struct {
		name string
		form url.Values
		want int
	}{
		{"a line without a row", url.Values{"c.99.1": {"x"}}, 422},
		{"a cell that is none", url.Values{"c.x.1": {"x"}}, 400},
		{"a column that is none", url.Values{"op": {"column"}, "column": {"colour"}}, 422},
		{"a row to take out that is none", url.Values{"op": {"delete:1"}}, 422},
		{"a start of what is there", url.Values{"op": {"start"}}, 409},
	} {
		c.form.Set("tag", v.tag(files.QuotesFile))
		assert.Equal(t, c.want, v.post("/edit/quotes", c.form, false).Code, c.name)
	}
	assert.Equal(t, before, v.read(files.QuotesFile))
}

// A file that someone else changed is not written over, nor undone over.
func TestChangedOutside(t *testing.T) {
	v := opened(t, Options{})
	form := v.priced("170.00")
	theirs := strings.Replace(v.read(files.QuotesFile), "132.00", "131.00", 1)
	v.write(files.QuotesFile, theirs)
	w := v.post("/edit/quotes", form, true)
	assert.Equal(t, http.StatusConflict, w.Code)
	assert.Contains(t, w.Body.String(), "changed outside this page")
	assert.Contains(t, w.Body.String(), `"kind":"stale"`)
	assert.Equal(t, http.StatusConflict, v.post("/try/quotes", form, true).Code)
	assert.Equal(t, theirs, v.read(files.QuotesFile))

	require.Equal(t, http.StatusOK, v.post("/edit/quotes", v.priced("170.00"), true).Code)
	v.write(files.QuotesFile, theirs)
	assert.Equal(t, http.StatusConflict, v.post("/undo", nil, false).Code)
	assert.Equal(t, theirs, v.read(files.QuotesFile))

	require.NoError(t, os.Remove(filepath.Join(v.h.opt.Dir, files.QuotesFile)))
	assert.Equal(t, http.StatusConflict, v.post("/edit/quotes", form, true).Code, "gone altogether")
}

func TestStartAndSettings(t *testing.T) {
	v := opened(t, Options{})
	w := v.post("/edit/media", url.Values{"tag": {"none"}, "op": {"start"}}, false)
	require.Equal(t, http.StatusSeeOther, w.Code)
	assert.Equal(t, string(files.Templates()[files.MediaFile]), v.read(files.MediaFile))
	require.Equal(t, http.StatusSeeOther, v.post("/undo", nil, false).Code)
	assert.NoFileExists(t, filepath.Join(v.h.opt.Dir, files.MediaFile), "undone, the file is gone again")

	text := strings.ReplaceAll(v.read(files.SettingsFile), "\n", "\r\n") // as browsers send it
	text = strings.Replace(text, `"7%"`, `"8%"`, 1)
	w = v.post("/edit/job", url.Values{"tag": {v.tag(files.SettingsFile)}, "op": {"text"}, "text": {text}}, false)
	require.Equal(t, http.StatusSeeOther, w.Code)
	assert.Equal(t, strings.ReplaceAll(text, "\r\n", "\n"), v.read(files.SettingsFile))
	w = v.post("/edit/job", url.Values{"tag": {v.tag(files.SettingsFile)}, "op": {"text"}, "text": {"tax = nought"}}, true)
	assert.Contains(t, v.tried(w).Problems, "job.toml:1")
}

// A cell of several lines stays as it is when its field, which has only one, comes
// back unchanged.
func TestCellsOfSeveralLines(t *testing.T) {
	v := opened(t, Options{})
	text := "supplier,medium,pack,price,notes\nLow Ford Quarry,pumice,1 yd3,100,\"one\ntwo\"\n"
	v.write(files.QuotesFile, text)
	form := url.Values{"tag": {v.tag(files.QuotesFile)}, "op": {"save"}, "c.2.4": {"onetwo"}, "c.2.3": {"101"}}
	require.Equal(t, http.StatusSeeOther, v.post("/edit/quotes", form, false).Code)
	assert.Equal(t, strings.Replace(text, "100", "101", 1), v.read(files.QuotesFile))
}

// Fifty edits in a second, as one page sends them while someone types: each ends
// answered or told that a newer one took its place, and the last is answered with what
// the library alone says.
func TestFiftyEditsASecond(t *testing.T) {
	v := opened(t, Options{})
	const edits = 50
	codes := make([]int, edits)
	var last tried
	var wait sync.WaitGroup
	for i := range edits {
		form := v.priced(fmt.Sprintf("%d.00", 122+i))
		run := func() {
			w := v.post("/try/quotes", form, true)
			codes[i] = w.Code
			if i == edits-1 {
				last = v.tried(w)
			}
		}
		if i == edits-1 {
			wait.Wait() // the newest comes last, whichever order the others took
			run()
			continue
		}
		wait.Go(run)
	}
	answered := 0
	for i, code := range codes {
		if code == http.StatusOK {
			answered++
			continue
		}
		assert.Equal(t, http.StatusConflict, code, "edit %d", i)
	}
	assert.Positive(t, answered)
	assert.Contains(t, last.Strip, bare(t, v, "171.00"))
}

// Saves that race over one version of a file: one wins, the others are told.
func TestSavesRace(t *testing.T) {
	v := opened(t, Options{})
	const savers = 8
	form := v.priced("")
	codes := make([]int, savers)
	var wait sync.WaitGroup
	for i := range savers {
		mine := url.Values{"tag": form["tag"], "op": {"save"}, lavaPrice: {fmt.Sprintf("%d.00", 140+i)}}
		wait.Go(func() { codes[i] = v.post("/edit/quotes", mine, false).Code })
	}
	wait.Wait()
	won := 0
	for _, code := range codes {
		if code == http.StatusSeeOther {
			won++
			continue
		}
		assert.Equal(t, http.StatusConflict, code)
	}
	assert.Equal(t, 1, won)
}

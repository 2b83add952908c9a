package web

import (
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/quotes/files"
)

// newJob is a folder as somebody has it who begins: empty, or with the files of a new job.
func newJob(t *testing.T, templates bool) string {
	t.Helper()
	dir := t.TempDir()
	if templates {
		for name, text := range files.Templates() {
			require.NoError(t, os.WriteFile(filepath.Join(dir, name), text, 0o644))
		}
	}
	return dir
}

func TestFirstViewOfANewJob(t *testing.T) {
	for _, templates := range []bool{false, true} {
		v := opened(t, Options{Dir: newJob(t, templates)})
		page := v.get("/")
		var at []int
		for _, heading := range []string{"1. Where you are", "2. The beds", "3. Limits", "paste what each yard wrote"} {
			at = append(at, strings.Index(page, heading))
		}
		require.IsIncreasing(t, at[:3], "it is asked in order")
		form := url.Values{"tag.job": {v.tag(files.SettingsFile)}, "tag.beds": {v.tag(files.BedsFile)}, "place": {"US"}, "length": {"ft"}, "need_by": {"2026-05-15"},
			"count.0": {"2"}, "size.0": {"8 x 4"}, "depth.0": {"12 in"}, "top.0": {"2 in"}, "limit.0": {"heavy"}, "grain.0": {"1/2 in"}}

		w := v.post("/start", url.Values{"place": {"US"}}, false)
		assert.Equal(t, http.StatusUnprocessableEntity, w.Code)
		assert.Contains(t, w.Body.String(), "No bed was named")
		w = v.post("/start", form, false)
		assert.Equal(t, http.StatusUnprocessableEntity, w.Code, "nothing is saved that cannot be read")
		assert.Contains(t, w.Body.String(), `id="limit.0" name="limit.0" value="heavy" size="12" placeholder="1200 lb" aria-label="Most weight of kind 1" aria-invalid="true"`)
		form.Set("place", "other")
		form.Set("code", "XYZ")
		form.Set("limit.0", "3000 lb")
		form.Set("tax", "lots")
		w = v.post("/start", form, false)
		assert.Contains(t, w.Body.String(), "is no known currency")
		assert.Contains(t, w.Body.String(), `id="tax" name="tax" value="lots" aria-describedby="w-tax m-tax" aria-invalid="true"`)
		assert.Equal(t, templates, len(v.tag(files.BedsFile)) > 4, "nothing is written yet")

		form.Set("place", "US")
		form.Set("code", "")
		form.Set("tax", "8.25")
		w = v.post("/start", form, false)
		require.Equal(t, http.StatusSeeOther, w.Code, w.Body)
		assert.Equal(t, "/paste?said=started", w.Header().Get("Location"))
		assert.Contains(t, v.read(files.BedsFile), "bed 1,2,8,4,12 in,,2 in,")
		assert.Contains(t, v.read(files.SettingsFile), "# need_by = 2026-05-15\nneed_by = 2026-05-15\n", "the template's comments stay")
		assert.Contains(t, v.read(files.SettingsFile), "length = \"ft\"\n")
		assert.Contains(t, v.read(files.SettingsFile), "\ntax = \"8.25\"\n")
		assert.Contains(t, v.get("/part/answer"), "Next: paste what each yard wrote")

		v.write(files.QuotesFile, "supplier,medium,pack,price,size,step\nLow Ford Quarry,lava rock,1 yd3,132,1/2-1 in,0.5\nTansy Hill Supply,expanded clay,2 ft3,27.50,1/2-3/4 in,\n")
		assert.Contains(t, v.get("/part/answer"), "Proven: nothing is cheaper")
		assert.Equal(t, http.StatusConflict, v.post("/start", form, false).Code, "a job that has begun is not begun again")
	}
	read := opened(t, Options{Dir: newJob(t, true), ReadOnly: true})
	assert.NotContains(t, read.get("/"), "Where you are")
	assert.Equal(t, http.StatusForbidden, read.post("/start", url.Values{}, false).Code)
}

// Somebody in a metric country sees measures and hints of that place: what is to be mended is said of the fields here, an
// amount is grouped as its currency is, and a job that only lacks its quotes has nothing to mend.
func TestFirstViewElsewhere(t *testing.T) {
	v := opened(t, Options{Dir: newJob(t, false)})
	assert.Contains(t, v.get("/"), `&#34;limit&#34;:&#34;500 kg&#34;`, "for when another place is chosen")
	form := url.Values{"tag.job": {v.tag(files.SettingsFile)}, "tag.beds": {v.tag(files.BedsFile)}, "place": {"UK"}, "budget": {"2,500"},
		"count.0": {"2"}, "size.0": {"1.8 x 0.9"}, "depth.0": {"300 mm"}, "limit.0": {"$900"}, "table.0": {"long frame"},
		"size.1": {"1.8 m x 0.9 m"}, "depth.1": {"300 mm"}, "limit.1": {"800"}, "table.1": {"long frame"}}
	w := v.post("/start", form, false)
	assert.Equal(t, http.StatusUnprocessableEntity, w.Code)
	page := w.Body.String()
	assert.Contains(t, page, "or choose under 1 what a length without a unit is in")
	assert.Contains(t, page, "Write 2500 or 2.500")
	assert.NotContains(t, page, "job.toml")
	assert.NotContains(t, page, "[units]")
	assert.Contains(t, page, `placeholder="500 kg"`)
	assert.Contains(t, page, "or 2.4 x 1.2</span> will do"[3:])
	assert.Contains(t, page, `value="metric" aria-pressed="true"`)

	form.Set("length", "m")
	form.Set("budget", "£2,500")
	form.Set("limit.0", "900 kg")
	form.Set("limit.1", "800 kg")
	w = v.post("/start", form, false)
	assert.Equal(t, http.StatusUnprocessableEntity, w.Code, "one table has one limit")
	form.Set("limit.1", "900 kg")
	w = v.post("/start", form, false)
	require.Equal(t, http.StatusSeeOther, w.Code, w.Body)
	assert.Contains(t, v.read(files.BedsFile), ",long frame,900 kg,")
	page = v.get("/paste?said=started")
	assert.Contains(t, page, "The beds and settings are saved.")
	assert.Contains(t, page, "No quote is there yet.")
	assert.Contains(t, page, `value="metric" aria-pressed="true"`, "the settings say so before there are quotes")
	for _, path := range []string{"/paste", "/", "/edit/beds", "/edit/quotes", "/papers"} {
		page = v.get(path)
		assert.NotContains(t, page, "to mend", path)
		assert.NotContains(t, page, "mediabuy new", path)
	}
	v.write(files.QuotesFile, "supplier,medium,pack,price\nLow Ford Quarry,lava rock,1 m3\n")
	assert.Contains(t, v.get("/"), "to mend")
}

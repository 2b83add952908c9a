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

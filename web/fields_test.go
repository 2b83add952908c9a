package web

import (
	"net/http"
	"net/url"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/quotes/files"
)

func (v *visitor) set(op string, fields ...string) url.Values {
	form := url.Values{"tag": {v.tag(files.SettingsFile)}, "op": {op}}
	for i := 0; i < len(fields); i += 2 {
		form.Set(fields[i], fields[i+1])
	}
	return form
}

func TestSettingsAreFields(t *testing.T) {
	v := opened(t, Options{})
	before := v.read(files.SettingsFile)
	v.get("/part/strip")
	page := v.get("/edit/job")
	assert.Contains(t, page, `id="c.tax" name="s.tax" value="7%"`)
	assert.Contains(t, page, `name="s.buyer.drop" value="the hard yard behind the long shed"`)
	assert.Contains(t, page, "<summary>The whole file as text</summary>")

	// One field changes one value, and nothing else of the file.
	w := v.post("/edit/job", v.set("save", "s.tax", "8%", "s.buyer.phone", "555-0142", "s.allow_untested", ""), true)
	require.Equal(t, http.StatusOK, w.Code, w.Body)
	assert.Equal(t, strings.Replace(before, `tax = "7%"`, `tax = "8%"`, 1), v.read(files.SettingsFile))
	w = v.post("/edit/job", v.set("save", "s.allow_untested", "true", "s.tax", "7%"), false)
	require.Equal(t, http.StatusSeeOther, w.Code, w.Body)
	w = v.post("/edit/job", v.set("save", "s.allow_untested", ""), false)
	require.Equal(t, http.StatusSeeOther, w.Code, w.Body)
	assert.Equal(t, before, v.read(files.SettingsFile), "what is emptied is taken out again")

	// A bad value is told at its field while it is typed, and saved as cells are.
	w = v.post("/try/job", v.set("save", "s.sure", "always"), true)
	require.Equal(t, http.StatusOK, w.Code, w.Body)
	assert.Contains(t, w.Body.String(), `"id":"sure"`)
	assert.Equal(t, before, v.read(files.SettingsFile))
	require.Equal(t, http.StatusOK, v.post("/edit/job", v.set("save", "s.sure", "always"), true).Code)
	page = v.get("/edit/job")
	assert.Regexp(t, `name="s.sure" value="always" aria-describedby="w.sure m.sure" aria-invalid="true"`, page)
	assert.Regexp(t, `<span id="m.sure"><span class="mark">`, page)
	assert.Contains(t, v.get("/part/answer"), "/edit/job#c.sure", "the list of problems leads to the field")

	// What is no setting is refused, and a file that cannot be read is shown as text.
	assert.Equal(t, http.StatusUnprocessableEntity, v.post("/edit/job", v.set("save", "s.password", "x"), true).Code)
	v.write(files.SettingsFile, "tax == 7\n")
	v.get("/part/strip")
	page = v.get("/edit/job")
	assert.Contains(t, page, "cannot be shown as fields")
	assert.Contains(t, page, `<details id="whole" open>`)
	w = v.post("/edit/job", v.set("text", "text", before, "s.tax", "9%"), false)
	require.Equal(t, http.StatusSeeOther, w.Code, w.Body)
	assert.Equal(t, before, v.read(files.SettingsFile), "the text is saved as it was typed")

	// A site has its own place to set goods down, whatever its name.
	beds := v.read(files.BedsFile)
	lines := strings.Split(strings.TrimSpace(beds), "\n")
	for i := range lines {
		lines[i] += map[bool]string{true: ",site"}[i == 1]
		if i > 1 {
			lines[i] += `,"No. 7 long lane"`
		}
	}
	v.write(files.BedsFile, strings.Join(lines, "\n")+"\n")
	v.get("/part/strip")
	field := "s.buyer.No%2E%207%20long%20lane.drop"
	assert.Contains(t, v.get("/edit/job"), `name="`+field+`"`)
	require.Equal(t, http.StatusOK, v.post("/edit/job", v.set("save", field, "by the gate"), true).Code)
	assert.Equal(t, before+"\n[buyer.\"No. 7 long lane\"]\ndrop = \"by the gate\"\n", v.read(files.SettingsFile))
	assert.Contains(t, v.get("/edit/job"), `value="by the gate"`)
}

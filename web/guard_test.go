package web

import (
	"fmt"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/quotes/files"
)

// Who is let in, by host, origin and cookie. The rules are those of the OWASP
// cheat sheet on cross-site request forgery (memory).
func TestWhoIsLetIn(t *testing.T) {
	v := opened(t, Options{})
	for _, c := range []struct {
		name   string
		method string
		change func(*http.Request)
		want   int
	}{
		{"this page", "GET", func(*http.Request) {}, 200},
		{"by the name of this machine", "GET", func(r *http.Request) { r.Host = "localhost:4711" }, 200},
		{"by IPv6", "GET", func(r *http.Request) { r.Host = "[::1]:4711" }, 200},
		{"a name that someone rebound", "GET", func(r *http.Request) { r.Host = "harrow.example:4711" }, 403},
		{"a name that ends alike", "GET", func(r *http.Request) { r.Host = "127.0.0.1.harrow.example:4711" }, 403},
		{"no host", "GET", func(r *http.Request) { r.Host = "" }, 403},
		{"no cookie", "GET", func(r *http.Request) { r.Header.Del("Cookie") }, 403},
		{"another cookie", "GET", func(r *http.Request) { r.Header.Set("Cookie", v.cookie.Name+"=x") }, 403},
		{"the cookie of another port", "GET", func(r *http.Request) { r.Host = "127.0.0.1:4712" }, 403},
		{"fetched by another site", "GET", func(r *http.Request) { r.Header.Set("Origin", "http://harrow.example") }, 403},
		{"an image on another site", "GET", func(r *http.Request) {
			r.Header.Set("Sec-Fetch-Site", "cross-site")
			r.Header.Set("Sec-Fetch-Mode", "no-cors")
		}, 403},
		{"a form of this page", "POST", func(*http.Request) {}, 303},
		{"a form of another site", "POST", func(r *http.Request) { r.Header.Set("Origin", "http://harrow.example") }, 403},
		{"a form of another port", "POST", func(r *http.Request) { r.Header.Set("Origin", "http://127.0.0.1:9999") }, 403},
		{"a form over TLS", "POST", func(r *http.Request) { r.Header.Set("Origin", "https://"+testHost) }, 403},
		{"a form that hides its origin", "POST", func(r *http.Request) { r.Header.Set("Origin", "null") }, 403},
		{"a form without an origin", "POST", func(r *http.Request) { r.Header.Del("Origin") }, 403},
		{"a cross-site form with a forged origin", "POST", func(r *http.Request) { r.Header.Set("Sec-Fetch-Site", "cross-site") }, 403},
	} {
		t.Run(c.name, func(t *testing.T) {
			path, body := "/", ""
			if c.method == "POST" {
				path, body = "/units", "units=us"
			}
			r := v.request(c.method, path, strings.NewReader(body))
			r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
			c.change(r)
			assert.Equal(t, c.want, v.do(r).Code)
		})
	}
	assert.Equal(t, http.StatusForbidden, opened(t, Options{Hosts: []string{"10.0.0.5"}}).do(v.request("GET", "/", nil)).Code, "a cookie of another run")
}

func TestTokenIsGoodOnce(t *testing.T) {
	h, err := New(Options{Dir: jobFolder(t)})
	require.NoError(t, err)
	defer func() { require.NoError(t, h.Close()) }()
	visit := func(path string, cookie *http.Cookie) *http.Response {
		r := httptest.NewRequest("GET", path, nil)
		r.Host = testHost
		if cookie != nil {
			r.AddCookie(cookie)
		}
		w := httptest.NewRecorder()
		h.ServeHTTP(w, r)
		return w.Result()
	}
	link := h.Link("")
	assert.Equal(t, http.StatusForbidden, visit("/?token=guess", nil).StatusCode)
	assert.Equal(t, http.StatusForbidden, visit(strings.Replace(link, "/?", "/ask?", 1), nil).StatusCode, "only where it leads")
	first := visit(link, nil)
	require.Len(t, first.Cookies(), 1)
	c := first.Cookies()[0]
	assert.True(t, c.HttpOnly)
	assert.Equal(t, http.SameSiteStrictMode, c.SameSite)
	assert.NotContains(t, first.Header.Get("Location"), "token")
	assert.Equal(t, http.StatusForbidden, visit(link, nil).StatusCode, "a second browser")
	assert.Equal(t, http.StatusSeeOther, visit(link, c).StatusCode, "the same browser again")

	r := httptest.NewRequest("GET", h.Link(""), nil)
	r.Host = testHost
	r.Header.Set("Sec-Fetch-Site", "cross-site")
	r.Header.Set("Sec-Fetch-Mode", "navigate")
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	assert.Equal(t, http.StatusOK, w.Code, "a redirect would lose the cookie")
	assert.Len(t, w.Result().Cookies(), 1)
	assert.Contains(t, w.Body.String(), `content="0;url=/"`)

	older := h.Link("")
	assert.NotEqual(t, link, older)
	h.Link("")
	assert.Equal(t, http.StatusForbidden, visit(older, nil).StatusCode, "a newer address takes the place of an older one")
}

func TestHeaders(t *testing.T) {
	v := opened(t, Options{})
	for _, path := range []string{"/", "/static/page.js", "/nowhere", "/part/ways"} {
		head := v.do(v.request("GET", path, nil)).Header()
		assert.Contains(t, head.Get("Content-Security-Policy"), "default-src 'none'", path)
		assert.NotContains(t, head.Get("Content-Security-Policy"), "unsafe", path)
		assert.Equal(t, "nosniff", head.Get("X-Content-Type-Options"), path)
		assert.Equal(t, "no-store", head.Get("Cache-Control"), path)
	}
}

func TestPathTricks(t *testing.T) {
	v := opened(t, Options{})
	v.write("secret.txt", "mine")
	require.NoError(t, os.WriteFile(filepath.Join(v.h.opt.Dir, "..", "secret.txt"), []byte("mine"), 0o644))
	for _, path := range []string{
		"/edit/secret", "/edit/..%2fsecret", "/edit/%2e%2e%2fsecret.txt", "/edit/..", "/edit//etc/passwd", "/static/../secret.txt",
		"/static/%2e%2e/secret.txt", "/static/", "/static/views/edit.gohtml", "/papers/report/..%2f..%2fsecret.txt", "/papers/..%2f/secret.txt", "/papers/secret/secret.txt",
		"/papers/order/%2e%2e%2fsecret.txt", "/secret.txt", "/quotes.csv", "/edit/quotes%00", "/nowhere",
	} {
		w := v.do(v.request("GET", path, nil))
		assert.NotEqual(t, http.StatusOK, w.Code, path)
		assert.NotContains(t, w.Body.String(), "mine", path)
	}
	for _, path := range []string{"/edit/secret", "/edit/..%2fsecret.txt", "/try/secret"} {
		w := v.post(path, url.Values{"tag": {"none"}, "op": {"start"}}, false)
		assert.GreaterOrEqual(t, w.Code, 400, path)
	}
	w := v.post("/units", url.Values{"units": {"us"}, "back": {"//harrow.example/x"}}, false)
	assert.Equal(t, "/", w.Header().Get("Location"), "no way out to another site")
	w = v.post("/units", url.Values{"units": {"us"}, "back": {"/edit/beds"}}, false)
	assert.Equal(t, "/edit/beds", w.Header().Get("Location"))
}

// A link that leads out of the folder is neither read nor written through.
func TestLinksLeadNowhere(t *testing.T) {
	dir := jobFolder(t)
	outside := filepath.Join(t.TempDir(), "outside.csv")
	require.NoError(t, os.WriteFile(outside, []byte("bed,volume\nsecret,1 L\n"), 0o644))
	require.NoError(t, os.Remove(filepath.Join(dir, files.BedsFile)))
	if err := os.Symlink(outside, filepath.Join(dir, files.BedsFile)); err != nil {
		t.Skip("links cannot be made here: ", err)
	}
	v := opened(t, Options{Dir: dir})
	w := v.do(v.request("GET", "/edit/beds", nil))
	assert.Equal(t, http.StatusForbidden, w.Code)
	assert.NotContains(t, w.Body.String(), "secret")
	assert.Contains(t, w.Body.String(), "Reading beds.csv: it is a link that leads out of the folder.")
	assert.Contains(t, w.Body.String(), "Put the file itself into the folder.")

	inside := filepath.Join(dir, "other.csv")
	require.NoError(t, os.WriteFile(inside, []byte("bed,volume\ntub,100 L\n"), 0o644))
	require.NoError(t, os.Remove(filepath.Join(dir, files.BedsFile)))
	require.NoError(t, os.Symlink("other.csv", filepath.Join(dir, files.BedsFile)))
	w = v.post("/edit/beds", url.Values{"tag": {v.tag(files.BedsFile)}, "op": {"save"}, "c.2.1": {"200 L"}}, false)
	assert.Equal(t, http.StatusForbidden, w.Code)
	left, err := os.ReadFile(inside)
	require.NoError(t, err)
	assert.Equal(t, "bed,volume\ntub,100 L\n", string(left))
}

// A file of which only the beginning is read is not written: the rest would be lost.
func TestHugeFileIsLeftAlone(t *testing.T) {
	v := opened(t, Options{})
	v.write(files.QuotesFile, v.read(files.QuotesFile)+"# "+strings.Repeat("x", files.MaxFileBytes))
	size := len(v.read(files.QuotesFile))
	w := v.post("/edit/quotes", v.priced("1.00"), false)
	assert.Equal(t, http.StatusRequestEntityTooLarge, w.Code)
	assert.Len(t, v.read(files.QuotesFile), size)
}

// Opening a pipe waits for a writer, and nobody writes.
func TestPipeIsNoFile(t *testing.T) {
	dir := jobFolder(t)
	require.NoError(t, os.Remove(filepath.Join(dir, files.BedsFile)))
	if out, err := exec.Command("mkfifo", filepath.Join(dir, files.BedsFile)).CombinedOutput(); err != nil {
		t.Skipf("pipes cannot be made here: %v %s", err, out)
	}
	v := opened(t, Options{Dir: dir})
	for _, path := range []string{"/", "/edit/beds", "/edit/quotes", "/ask", "/papers", "/receive", "/part/answer", "/papers/report/report.html"} {
		w := v.do(v.request("GET", path, nil))
		assert.Equal(t, http.StatusForbidden, w.Code, path)
		assert.Contains(t, w.Body.String(), "Reading beds.csv: this is a pipe or a device.", path)
	}
	w := v.post("/edit/quotes", url.Values{"tag": {"none"}, "op": {"save"}}, true)
	assert.Equal(t, http.StatusForbidden, w.Code)
	assert.Contains(t, w.Body.String(), `"error":"reading beds.csv: this is a pipe or a device"`)
}

func TestHugeBodies(t *testing.T) {
	v := opened(t, Options{})
	huge := strings.Repeat("x", MaxBody+1)
	for _, c := range []struct{ path, body string }{
		{"/edit/quotes", "tag=none&text=" + huge}, {"/try/quotes", "tag=none&text=" + huge}, {"/paste/rows", "rows=1&x=" + huge}, {"/units", "units=us&x=" + huge}, {"/undo", "x=" + huge},
	} {
		r := v.request("POST", c.path, strings.NewReader(c.body))
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		assert.Equal(t, http.StatusRequestEntityTooLarge, v.do(r).Code, c.path)
	}
	form := "--b\r\nContent-Disposition: form-data; name=\"text\"\r\n\r\n" + huge + "\r\n--b--\r\n"
	r := v.request("POST", "/paste", strings.NewReader(form))
	r.Header.Set("Content-Type", "multipart/form-data; boundary=b")
	assert.Equal(t, http.StatusRequestEntityTooLarge, v.do(r).Code)
	w := v.post("/paste/rows", url.Values{"cols": {"2"}, "rows": {"1000000000"}}, false)
	assert.Equal(t, http.StatusBadRequest, w.Code, "a number of rows that would take all memory")
	w = v.post("/edit/quotes", url.Values{"tag": {v.tag(files.QuotesFile)}, "op": {"add"}, "n.999999999": {"x"}}, false)
	assert.Equal(t, http.StatusBadRequest, w.Code)
}

// A thousand quotes sent back whole, as a browser without scripts does, and a form
// with more fields than any of this page's.
func TestFormsOfManyFields(t *testing.T) {
	v := opened(t, Options{})
	rows := strings.Repeat("Low Ford Quarry,pumice,1 yd3,100,,,,,,,,\n", 1000)
	v.write(files.QuotesFile, "supplier,medium,pack,price,form,item,size,step,notes,breaks,density,tax\n"+rows)
	form := url.Values{"tag": {v.tag(files.QuotesFile)}, "op": {"save"}}
	for line := 2; line < 1002; line++ {
		for i, text := range strings.Split("Low Ford Quarry,pumice,1 yd3,100,,,,,,,,", ",") {
			form.Set(fmt.Sprintf("c.%d.%d", line, i), text)
		}
	}
	form.Set("c.1001.3", "99")
	require.Equal(t, http.StatusSeeOther, v.post("/edit/quotes", form, false).Code)
	assert.Equal(t, 1, strings.Count(v.read(files.QuotesFile), ",99,"))

	for name, c := range map[string]struct {
		kind, body string
		want       int
	}{
		"too many":  {"application/x-www-form-urlencoded", "a" + strings.Repeat("&a", mostFields), http.StatusRequestEntityTooLarge},
		"no form":   {"application/json", `{"units":"us"}`, http.StatusUnsupportedMediaType},
		"no kind":   {"", "units=us", http.StatusUnsupportedMediaType},
		"bad signs": {"application/x-www-form-urlencoded", "units=%zz", http.StatusBadRequest},
	} {
		r := v.request("POST", "/units", strings.NewReader(c.body))
		r.Header.Set("Content-Type", c.kind)
		assert.Equal(t, c.want, v.do(r).Code, name)
	}
}

// What is no form with room for files is told as that where one is wanted, and is no fault of the program.
func TestFormsWithFilesAreOfTheirKind(t *testing.T) {
	v := opened(t, Options{})
	for _, path := range []string{"/paste", "/receive", "/receive/letter/letter.pdf", "/receive/order/order.pdf"} {
		for name, c := range map[string]struct {
			kind string
			want int
		}{
			"no form":     {"application/json", http.StatusUnsupportedMediaType},
			"no kind":     {"", http.StatusUnsupportedMediaType},
			"plain form":  {"application/x-www-form-urlencoded", http.StatusUnsupportedMediaType},
			"no boundary": {"multipart/form-data", http.StatusBadRequest},
			"cut off":     {"multipart/form-data; boundary=x", http.StatusBadRequest},
		} {
			r := v.request("POST", path, strings.NewReader("--x\r\nContent-Disposition: form-data; name=\"text\"\r\n\r\nlava"))
			r.Header.Set("Content-Type", c.kind)
			w := v.do(r)
			assert.Equal(t, c.want, w.Code, path+" "+name)
			assert.Contains(t, w.Body.String(), "What was sent", path+" "+name)
		}
	}
}

func TestReadOnly(t *testing.T) {
	v := opened(t, Options{ReadOnly: true})
	before := v.read(files.QuotesFile)
	for _, c := range []struct {
		path string
		form url.Values
	}{
		{"/edit/quotes", v.priced("1.00")},
		{"/edit/media", url.Values{"tag": {"none"}, "op": {"start"}}},
		{"/undo", url.Values{}},
		{"/papers/order/keep", url.Values{"state": {"x"}}},
		{"/receive/keep", url.Values{"state": {"x"}}},
		{"/paste/rows", url.Values{"tag": {v.tag(files.QuotesFile)}, "op": {"add"}, "cols": {"1"}, "rows": {"1"}, "h.0": {"supplier"}, "v.0.0": {"A"}, "take.0": {"yes"}}},
	} {
		w := v.post(c.path, c.form, false)
		assert.Equal(t, http.StatusForbidden, w.Code, c.path)
		assert.Contains(t, w.Body.String(), "read-only", c.path)
	}
	assert.Equal(t, before, v.read(files.QuotesFile))
	assert.NoFileExists(t, filepath.Join(v.h.opt.Dir, files.MediaFile))
	assert.NoDirExists(t, filepath.Join(v.h.opt.Dir, "orders"))
	assert.Equal(t, http.StatusOK, v.post("/try/quotes", v.priced("1.00"), true).Code, "questions may be asked")
	assert.NotContains(t, v.get("/edit/quotes"), "Take out")
}

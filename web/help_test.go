package web

import (
	"io"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"

	"mediabuy/papers/page/pagetest"
	"mediabuy/quotes/files"
)

// testDay is the clock of all tests.
var testDay = time.Date(2026, 4, 6, 9, 0, 0, 0, time.UTC)

const testHost = "127.0.0.1:4711"

// jobFolder is a copy of the sample job.
func jobFolder(t testing.TB) string {
	t.Helper()
	dir := t.TempDir()
	require.NoError(t, os.CopyFS(dir, os.DirFS("../testdata/demo")))
	return dir
}

// visitor is a browser that has been let in.
type visitor struct {
	t      testing.TB
	h      *Handler
	cookie *http.Cookie
	page   string
}

func opened(t testing.TB, opt Options) *visitor {
	t.Helper()
	if opt.Dir == "" {
		opt.Dir = jobFolder(t)
	}
	if opt.Now == nil {
		opt.Now = func() time.Time { return testDay }
	}
	h, err := New(opt)
	require.NoError(t, err)
	t.Cleanup(func() { require.NoError(t, h.Close()) })
	v := &visitor{t: t, h: h, page: "p"}
	r := httptest.NewRequest("GET", strings.TrimPrefix(h.Link(""), ""), nil)
	r.Host = testHost
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	require.Len(t, w.Result().Cookies(), 1)
	v.cookie = w.Result().Cookies()[0]
	return v
}

// request is one of this page's own, with its cookie and origin.
func (v *visitor) request(method, path string, body io.Reader) *http.Request {
	r := httptest.NewRequest(method, path, body)
	r.Host = testHost
	r.AddCookie(v.cookie)
	r.Header.Set("X-Page", v.page)
	if method != "GET" {
		r.Header.Set("Origin", "http://"+testHost)
	}
	return r
}

func (v *visitor) do(r *http.Request) *httptest.ResponseRecorder {
	w := httptest.NewRecorder()
	v.h.ServeHTTP(w, r)
	return w
}

// get is the body of a path that must be there.
func (v *visitor) get(path string) string {
	v.t.Helper()
	w := v.do(v.request("GET", path, nil))
	require.Equal(v.t, http.StatusOK, w.Code, "%s: %s", path, w.Body)
	return w.Body.String()
}

// post sends a form; asJSON as the script does.
func (v *visitor) post(path string, form url.Values, asJSON bool) *httptest.ResponseRecorder {
	r := v.request("POST", path, strings.NewReader(form.Encode()))
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	if asJSON {
		r.Header.Set("Accept", "application/json")
	}
	return v.do(r)
}

// read is a file of the job.
func (v *visitor) read(name string) string {
	v.t.Helper()
	b, err := os.ReadFile(filepath.Join(v.h.opt.Dir, name))
	require.NoError(v.t, err)
	return string(b)
}

func (v *visitor) write(name, text string) {
	v.t.Helper()
	require.NoError(v.t, os.WriteFile(filepath.Join(v.h.opt.Dir, name), []byte(text), 0o644))
}

// tag is what a form of a file carries.
func (v *visitor) tag(name string) string {
	v.t.Helper()
	t, err := v.h.folder.Read()
	require.NoError(v.t, err)
	return t.Tag(name)
}

// lavaPrice is the cell that tests change: line 3, the eighth column of the sample.
const lavaPrice = "c.3.7"

func (v *visitor) priced(price string) url.Values {
	return url.Values{"tag": {v.tag(files.QuotesFile)}, "op": {"save"}, lavaPrice: {price}}
}

// linksTo are the addresses on a page that begin so, in order.
func linksTo(t testing.TB, page, begin string) []string {
	t.Helper()
	var out []string
	var look func(n *html.Node)
	look = func(n *html.Node) {
		if to := pagetest.Attr(n, "href"); strings.HasPrefix(to, begin) {
			out = append(out, to)
		}
		for c := range n.ChildNodes() {
			look(c)
		}
	}
	look(pagetest.Parse(t, page))
	return out
}

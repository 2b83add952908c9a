package web

import (
	"bytes"
	"fmt"
	"mime/multipart"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"

	"mediabuy/papers/page/pagetest"
	"mediabuy/quotes/files"
	"mediabuy/web/internal/paste"
)

// paste sends text as the box does, or a file as the file field does.
func (v *visitor) paste(text string, file []byte) *httptest.ResponseRecorder {
	v.t.Helper()
	var b bytes.Buffer
	m := multipart.NewWriter(&b)
	require.NoError(v.t, m.WriteField("text", text))
	if file != nil {
		f, err := m.CreateFormFile("file", "../../quotes.csv")
		require.NoError(v.t, err)
		_, err = f.Write(file)
		require.NoError(v.t, err)
	}
	require.NoError(v.t, m.Close())
	r := v.request("POST", "/paste", &b)
	r.Header.Set("Content-Type", m.FormDataContentType())
	return v.do(r)
}

// offered is the form that a paste is answered with, as a browser would send it.
func offered(t *testing.T, w *httptest.ResponseRecorder) url.Values {
	t.Helper()
	require.Equal(t, http.StatusOK, w.Code, w.Body)
	form := url.Values{}
	var within func(n *html.Node, in bool)
	within = func(n *html.Node, in bool) {
		in = in || n.Data == "form" && pagetest.Attr(n, "id") == "confirm"
		name := pagetest.Attr(n, "name")
		switch {
		case !in || name == "":
		case n.Data == "input" && pagetest.Attr(n, "type") == "checkbox":
			for _, a := range n.Attr {
				if a.Key == "checked" {
					form.Set(name, pagetest.Attr(n, "value"))
				}
			}
		case n.Data == "input":
			form.Set(name, pagetest.Attr(n, "value"))
		case n.Data == "select":
			form.Set(name, "")
			for o := range n.ChildNodes() {
				for _, a := range o.Attr {
					if a.Key == "selected" {
						form.Set(name, pagetest.Words(o))
					}
				}
			}
		}
		for c := range n.ChildNodes() {
			within(c, in)
		}
	}
	within(pagetest.Parse(t, w.Body.String()), false)
	return form
}

func TestPaste(t *testing.T) {
	for _, c := range []struct {
		name, pasted string
		change       func(url.Values) // what the person does before the yes
		want         []string         // rows at the end of quotes.csv
	}{
		{"a sheet with headings", "Price\tsupplier\tmedium\tpack\tcolour\n61\tMoor End\tpumice\t1 yd3\tgrey\n", nil, []string{",Moor End,,pumice,,1 yd3,,61,,,,,,,,"}},
		{"CSV with semicolons", "supplier;medium;pack;price\nMoor End;pumice;1,5 m3;61,50\n", nil, []string{`,Moor End,,pumice,,"1,5 m3",,"61,50",,,,,,,,`}},
		{"a column named by the person", "supplier\tmedium\tpack\tasked\nMoor End\tpumice\t1 yd3\t61\n", func(f url.Values) { f.Set("h.3", "price") }, []string{",Moor End,,pumice,,1 yd3,,61,,,,,,,,"}},
		{"a row left out and a cell mended", "supplier\tmedium\tpack\tprice\nMoor End\tpumice\t1 yd3\t6l\nMoor End\tlime\t1 yd3\t9\n", func(f url.Values) { f.Set("v.0.3", "61"); f.Del("take.1") },
			[]string{",Moor End,,pumice,,1 yd3,,61,,,,,,,,"}},
		{"a supplier for all", "medium\tpack\tprice\npumice\t1 yd3\t61\n", func(f url.Values) { f.Set("supplier", "Moor End") }, []string{",Moor End,,pumice,,1 yd3,,61,,,,,,,,"}},
		{"a formula is made words", "supplier\tmedium\tpack\tprice\n=1+1\tpumice\t1 yd3\t61\n", nil, []string{",'=1+1,,pumice,,1 yd3,,61,,,,,,,,"}},
		{"sentences", "washed lava 3/4 in, 68 a yard, 10 yards or more 61.\nRegards, Tam at Moor End\n", nil, []string{",Moor End,washed lava,lava rock,,1 yd3,,68,10: 61,,,3/4 in,,,,"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			v := opened(t, Options{})
			before := v.read(files.QuotesFile)
			form := offered(t, v.paste(c.pasted, nil))
			if c.change != nil {
				c.change(form)
			}
			assert.Equal(t, before, v.read(files.QuotesFile), "nothing enters before the yes")
			form.Set("op", "add")
			w := v.post("/paste/rows", form, false)
			require.Equal(t, http.StatusSeeOther, w.Code, w.Body)
			assert.Equal(t, before+strings.Join(c.want, "\n")+"\n", v.read(files.QuotesFile))
			require.Equal(t, http.StatusSeeOther, v.post("/undo", nil, false).Code)
			assert.Equal(t, before, v.read(files.QuotesFile))
		})
	}
}

// The words of a message are each shown once, in order, with what became of them.
func TestPastedSentencesAreAccountedFor(t *testing.T) {
	v := opened(t, Options{})
	said := "Hi Ada,\nwashed lava 3/4 in, 68 a yard. About 20 for the pea gravel.\nRegards, Tam at Moor End\n"
	page := v.paste(said, nil).Body.String()
	var told string
	unclear := 0
	var look func(n *html.Node)
	look = func(n *html.Node) {
		if pagetest.Attr(n, "class") == "spans" {
			told = pagetest.Words(n)
		}
		if pagetest.Attr(n, "class") == "span unclear" {
			unclear++
		}
		for c := range n.ChildNodes() {
			look(c)
		}
	}
	look(pagetest.Parse(t, page))
	assert.Equal(t, strings.Join(strings.Fields(said), ""), strings.Join(strings.Fields(told), ""))
	assert.Greater(t, unclear, 1, "besides the key")
	assert.Contains(t, page, "Not understood:")
	for _, fate := range []string{`<th scope="row">68 a yard</th><td data-label="What">pack of row 1 and price of row 1</td>`, `<td data-label="What">set aside</td>`} {
		assert.Contains(t, page, fate, "word by word")
	}
}

func TestPasteOfNothing(t *testing.T) {
	v := opened(t, Options{})
	assert.Equal(t, http.StatusBadRequest, v.paste(" \n", nil).Code)
	assert.Equal(t, http.StatusUnprocessableEntity, v.paste("", []byte("PK\x03\x04\x00\x00")).Code)
	w := v.paste("Good morning to all of you.", nil)
	assert.Contains(t, w.Body.String(), "Nothing in it could be read as a quote")
	form := url.Values{"cols": {"1"}, "rows": {"1"}, "h.0": {"supplier"}, "v.0.0": {"A"}, "op": {"add"}, "tag": {v.tag(files.QuotesFile)}}
	assert.Equal(t, http.StatusBadRequest, v.post("/paste/rows", form, false).Code, "no row is ticked")
	form.Set("take.0", "yes")
	form.Set("tag", "stale")
	assert.Equal(t, http.StatusConflict, v.post("/paste/rows", form, false).Code)
	form.Set("h.0", "colour")
	assert.Equal(t, http.StatusBadRequest, v.post("/paste/rows", form, false).Code)
}

// Rows that were looked at beside another state of quotes.csv are not added, and not
// lost either: they come back to be looked at again.
func TestPasteBesideAChangedFile(t *testing.T) {
	v := opened(t, Options{})
	form := offered(t, v.paste("supplier\tmedium\tpack\tprice\nMoor End\tpumice\t1 yd3\t61\n", nil))
	theirs := strings.Replace(v.read(files.QuotesFile), "132.00", "131.00", 1)
	v.write(files.QuotesFile, theirs)
	form.Set("op", "add")
	w := v.post("/paste/rows", form, false)
	assert.Equal(t, http.StatusConflict, w.Code)
	assert.Contains(t, w.Body.String(), "was changed outside this page meanwhile")
	assert.Equal(t, theirs, v.read(files.QuotesFile))
	w.Code = http.StatusOK // the page is a proposal like any other
	again := offered(t, w)
	assert.Equal(t, "Moor End", again.Get("v.0.0"))
	again.Set("op", "add")
	require.Equal(t, http.StatusSeeOther, v.post("/paste/rows", again, false).Code)
	assert.Equal(t, theirs+",Moor End,,pumice,,1 yd3,,61,,,,,,,,\n", v.read(files.QuotesFile))
}

// A file comes in in its own encoding, and its name means nothing.
func TestPasteOfAFile(t *testing.T) {
	v := opened(t, Options{})
	form := offered(t, v.paste("", []byte("supplier;medium;pack;price\nCaf\xe9 Moor;pumice;1 yd3;61\n")))
	assert.Equal(t, "Café Moor", form.Get("v.0.0"))
	rows := "supplier\tmedium\tpack\tprice\n" + strings.Repeat("A\tpumice\t1 yd3\t61\n", paste.MostPasted+1)
	assert.Equal(t, http.StatusRequestEntityTooLarge, v.paste(rows, nil).Code)
}

// A job without quotes gets its file from the first paste.
func TestPasteIntoAnEmptyJob(t *testing.T) {
	v := opened(t, Options{})
	require.NoError(t, os.Remove(filepath.Join(v.h.opt.Dir, files.QuotesFile)))
	form := offered(t, v.paste("supplier\tmedium\tpack\tprice\nMoor End\tpumice\t1 yd3\t61\n", nil))
	form.Set("op", "add")
	require.Equal(t, http.StatusSeeOther, v.post("/paste/rows", form, false).Code)
	text := v.read(files.QuotesFile)
	assert.True(t, strings.HasPrefix(text, "# One row is one thing"), "the template with its comments")
	assert.Contains(t, text, ",Moor End,")
}

// The problems of a proposal stand at its cells, whatever rows are left out.
func TestProblemsOfAProposal(t *testing.T) {
	v := opened(t, Options{})
	form := offered(t, v.paste("price\tsupplier\tmedium\tpack\n1\tA\tpumice\t1 yd3\n2\tB\tpumise\t1 yd3\n3\tC\tpumice\t1 barrow\n", nil))
	form.Del("take.0")
	form.Set("op", "check")
	page := v.post("/paste/rows", form, false).Body.String()
	for _, id := range []string{"1.2", "2.3"} {
		assert.Contains(t, page, fmt.Sprintf(`href="#v.%s"`, id))
	}
	assert.Equal(t, 2, strings.Count(page, `aria-invalid="true"`))
	assert.Contains(t, page, "did you mean")
}

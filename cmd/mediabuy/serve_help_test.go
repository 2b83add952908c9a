package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"

	"mediabuy/cmd/mediabuy/internal/demo"
	"mediabuy/papers/page/browsertest"
)

// sampleJob writes the sample job into a folder of the test.
func sampleJob(t *testing.T) string {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "job")
	_, err := writeJob(context.Background(), dir, demo.Files(), false)
	require.NoError(t, err)
	return dir
}

var printedLink = regexp.MustCompile(`http://\S+`)

// serving runs serve until the test ends and gives the address that it printed.
func serving(t *testing.T, args ...string) string {
	t.Helper()
	ctx, cancel := context.WithCancel(context.Background())
	out, in := io.Pipe()
	var errs strings.Builder
	done := make(chan int, 1)
	go func() {
		done <- run(ctx, append([]string{"serve"}, args...), strings.NewReader(""), in, &errs)
		in.Close()
	}()
	t.Cleanup(func() {
		cancel()
		require.Equal(t, exitDone, <-done, errs.String())
		require.Empty(t, errs.String())
	})
	buf := make([]byte, 4096)
	n, err := out.Read(buf)
	require.NoError(t, err)
	link := printedLink.FindString(string(buf[:n]))
	require.NotEmpty(t, link, "%s", buf[:n])
	return link
}

// browser is one page of a browser without a window, beside those of other tests and with cookies of its own.
func browser(t *testing.T) *tab {
	t.Helper()
	t.Parallel()
	return &tab{t, browsertest.Page(t)}
}

// closing ends the browser after all tests.
type closing struct{ *testing.M }

func (m closing) Run() int {
	defer browsertest.Close()
	return m.M.Run()
}

// tab is a page of the browser. Whatever goes wrong ends the test.
type tab struct {
	t   *testing.T
	ctx context.Context
}

func (b *tab) do(steps ...chromedp.Action[chromedp.Void]) {
	b.t.Helper()
	ctx, stop := context.WithTimeout(b.ctx, patienceOfTests)
	defer stop()
	for _, step := range steps {
		err := chromedp.Do(ctx, step)
		for err != nil && strings.Contains(err.Error(), replaced) {
			err = chromedp.Do(ctx, step)
		}
		require.NoError(b.t, err)
	}
}

// replaced is what the browser says where the page put something else in the place of what was found, before anything was
// done with it: as a person would, the test looks for it again.
const replaced = "Could not find node with given id"

// patienceOfTests is how long anything may take on a slow machine before it counts
// as never.
const patienceOfTests = time.Minute

func eval[T any](b *tab, js string) T {
	b.t.Helper()
	ctx, stop := context.WithTimeout(b.ctx, patienceOfTests)
	defer stop()
	v, err := chromedp.Run(ctx, chromedp.Evaluate[T](js, chromedp.EvalAwaitPromise))
	require.NoError(b.t, err, js)
	return v
}

// until waits until an expression holds on a page that is there whole: of one still on its way, an element may be there
// and what stands inside it not yet.
func (b *tab) until(js string) {
	b.t.Helper()
	ctx, stop := context.WithTimeout(b.ctx, patienceOfTests)
	defer stop()
	for ; ctx.Err() == nil; time.Sleep(20 * time.Millisecond) {
		ok, err := chromedp.Run(ctx, chromedp.Evaluate[bool](`document.readyState === "complete" && Boolean(`+js+`)`))
		if err == nil && ok { // a page on its way out gives an error
			return
		}
	}
	require.Fail(b.t, "never came true: "+js, "%s", eval[string](b, "document.body ? document.body.innerText : ''"))
}

// text is the text of an element, its white space made single spaces.
func (b *tab) text(id string) string {
	b.t.Helper()
	return strings.Join(strings.Fields(eval[string](b, fmt.Sprintf("(document.getElementById(%q) || {innerText: 'NOT THERE'}).innerText", id))), " ")
}

// fill puts a value into a field as typing does, and leaves the field.
func (b *tab) fill(id, value string) {
	b.t.Helper()
	b.until(`document.documentElement.classList.contains("js")`) // the script listens from then on
	eval[bool](b, fmt.Sprintf(`(() => { const f = document.getElementById(%q); f.focus(); f.value = %q;
		f.dispatchEvent(new Event("input", {bubbles: true})); f.dispatchEvent(new Event("change", {bubbles: true})); return true; })()`, id, value))
}

// size is the window's, in CSS pixels.
func (b *tab) size(width, height int64) { b.t.Helper(); b.do(chromedp.EmulateViewport(width, height)) }

// shoot keeps a picture of the whole page in the folder that SHOTS names, for a
// person to look at.
func (b *tab) shoot(name string) {
	b.t.Helper()
	dir := os.Getenv("SHOTS")
	if dir == "" {
		return
	}
	png, err := chromedp.Run(b.ctx, chromedp.FullScreenshot(100))
	require.NoError(b.t, err)
	require.NoError(b.t, os.WriteFile(filepath.Join(dir, name+".png"), png, filePerm))
}

// complaints fails the test for whatever the browser complains of from here on, such
// as a style or script that the page's policy forbids.
func (b *tab) complaints() {
	b.t.Helper()
	require.NoError(b.t, chromedp.Listen(b.ctx, func(ev any) {
		switch e := ev.(type) {
		case *log.EventEntryAdded:
			b.t.Errorf("the browser says: %s %s %s", e.Entry.Level, e.Entry.Text, e.Entry.URL)
		case *runtime.EventExceptionThrown:
			b.t.Errorf("the script failed: %s", e.ExceptionDetails.Text)
		}
	}))
	// The server ends before the page does, which may still be asking it for something.
	b.t.Cleanup(func() { b.do(chromedp.Navigate("about:blank")) })
}

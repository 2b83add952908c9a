// Package browsertest opens pages in a browser without a window, for tests: one browser
// for all tests of a package, as starting it costs more than most of them.
package browsertest

import (
	"context"
	"errors"
	"os"
	"os/exec"
	"slices"
	"sync"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/storage"
	"github.com/chromedp/chromedp"
)

var one struct {
	sync.Mutex
	ctx  context.Context
	stop func()
	free []context.Context // windows that no test has now
}

// leftOut is what the browser does without: what the driver leaves out by itself, the lists below the
// address line, which cost each window more than a page does, and a process made in advance.
const leftOut = "Translate,BlinkGenPropertyTrees,WebUIOmniboxPopup,WebUIOmniboxAimPopup,SpareRendererForSitePerProcess"

// together is what has all pages share one process that draws them and runs their scripts, one thing at a time: to start
// a process for each costs more than what most tests do with it.
var together = []chromedp.ExecAllocatorOption{
	chromedp.Flag("renderer-process-limit", "1"),
	chromedp.Flag("disable-site-isolation-trials", true),
	chromedp.Flag("js-flags", "--single-threaded"),
}

// browsers are the programs that will do. The one without any window takes two thirds of the time of the other.
var browsers = []string{"chromium-headless-shell", "chromium"}

// errNoBrowser is that none of them is installed.
var errNoBrowser = errors.New("no browser is installed (Debian: chromium-headless-shell, or chromium)")

// Page is an empty page beside those of other tests, with cookies of its own, until the
// test ends. The first call starts the browser; [Close] ends it. Where none is installed,
// the test is skipped, unless CI=true says that everything has to run. Root needs it
// without its sandbox.
func Page(t testing.TB) context.Context {
	t.Helper()
	in, err := window()
	if errors.Is(err, errNoBrowser) && os.Getenv("CI") != "true" {
		t.Skip(err)
	}
	if err != nil {
		t.Fatalf("starting the browser: %v", err)
	}
	ctx, stop := chromedp.NewContext(in, chromedp.WithNewWindow(false))
	t.Cleanup(func() {
		stop()
		give(in)
	})
	// The first call makes the page, which lives as long as its context: no time limit here.
	if err := chromedp.Do(ctx, chromedp.Navigate("about:blank")); err != nil {
		t.Fatalf("opening a page: %v", err)
	}
	return ctx
}

// window is a window that no other test has, one of a test that is over where there is any: to
// open one costs the browser more than many a test.
func window() (context.Context, error) {
	one.Lock()
	defer one.Unlock()
	if n := len(one.free); n > 0 {
		in := one.free[n-1]
		one.free = one.free[:n-1]
		return in, nil
	}
	if one.ctx == nil {
		path, err := installed()
		if err != nil {
			return nil, err
		}
		opts := slices.Concat(chromedp.DefaultExecAllocatorOptions[:], together, []chromedp.ExecAllocatorOption{
			chromedp.ExecPath(path), chromedp.NoSandbox, chromedp.Flag("disable-features", leftOut),
		})
		alloc, stopAlloc := chromedp.NewExecAllocator(context.Background(), opts...)
		ctx, stop := chromedp.NewContext(alloc)
		if err := chromedp.Do(ctx, chromedp.Navigate("about:blank")); err != nil {
			stop()
			stopAlloc()
			return nil, err
		}
		one.ctx, one.stop = ctx, func() { stop(); stopAlloc() }
		return ctx, nil
	}
	in, stop := chromedp.NewContext(one.ctx, chromedp.WithNewBrowserContext())
	if err := chromedp.Do(in, chromedp.Navigate("about:blank")); err != nil {
		stop()
		return nil, err
	}
	return in, nil
}

// installed is where the first of the browsers is that are installed.
func installed() (string, error) {
	for _, name := range browsers {
		if path, err := exec.LookPath(name); err == nil {
			return path, nil
		}
	}
	return "", errNoBrowser
}

// give takes back a window and empties it of cookies; one that cannot be emptied is not used again.
func give(in context.Context) {
	c := chromedp.FromContext(in)
	if _, err := cdp.Call(in, c.Browser, storage.ClearCookies, storage.ClearCookiesParams{BrowserContextID: c.BrowserContextID}); err != nil {
		return
	}
	one.Lock()
	defer one.Unlock()
	one.free = append(one.free, in)
}

// Close ends the browser, if it was started. It is for the end of TestMain.
func Close() {
	one.Lock()
	defer one.Unlock()
	if one.ctx != nil {
		one.stop()
		one.ctx, one.free = nil, nil
	}
}

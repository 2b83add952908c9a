// Package browsertest opens pages in a browser without a window, for tests: one browser
// for all tests of a package, as starting it costs more than most of them.
package browsertest

import (
	"context"
	"sync"
	"testing"

	"github.com/chromedp/chromedp"
)

var one struct {
	sync.Mutex
	ctx  context.Context
	stop func()
}

// Page is an empty page beside those of other tests, with cookies of its own, until the
// test ends. The first call starts the browser that is at a path; [Close] ends it. Root
// needs it without its sandbox.
func Page(t testing.TB, path string) context.Context {
	t.Helper()
	browser, err := started(path)
	if err != nil {
		t.Fatalf("starting the browser: %v", err)
	}
	ctx, stop := chromedp.NewContext(browser, chromedp.WithNewBrowserContext())
	t.Cleanup(stop)
	// The first call makes the page, which lives as long as its context: no time limit here.
	if err := chromedp.Do(ctx, chromedp.Navigate("about:blank")); err != nil {
		t.Fatalf("opening a page: %v", err)
	}
	return ctx
}

func started(path string) (context.Context, error) {
	one.Lock()
	defer one.Unlock()
	if one.ctx != nil {
		return one.ctx, nil
	}
	opts := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(path), chromedp.NoSandbox)
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

// Close ends the browser, if it was started. It is for the end of TestMain.
func Close() {
	one.Lock()
	defer one.Unlock()
	if one.ctx != nil {
		one.stop()
		one.ctx = nil
	}
}

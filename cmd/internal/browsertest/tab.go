//go:build browser

package browsertest

import (
	"context"
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"
)

// step is how long one step may take; a click on what never shows would wait for ever.
const step = 15 * time.Second

// Tab is a browser's tab that notes what goes wrong in it.
type Tab struct {
	t   *testing.T
	ctx context.Context

	mu       sync.Mutex
	troubles []string // console errors and warnings, exceptions, dialogs
	requests []string // addresses asked for
}

// need skips a test for want of something, or fails it in CI.
func need(t *testing.T, format string, args ...any) {
	t.Helper()
	if os.Getenv("CI") == "true" {
		t.Fatalf(format, args...)
	}
	t.Skipf(format, args...)
}

// Chromium is the browser's path.
func chromium(t *testing.T) string {
	t.Helper()
	path := os.Getenv("FROSTWARD_CHROMIUM")
	if path == "" {
		path = "/usr/bin/chromium"
	}
	if _, err := os.Stat(path); err != nil {
		need(t, "chromium is wanted: %v", err)
	}
	return path
}

// Browser starts a browser that ends with the test and returns a function that opens
// tabs in it.
func Browser(t *testing.T) func(t *testing.T, width int, dark bool) *Tab {
	t.Helper()
	options := append(chromedp.DefaultExecAllocatorOptions[:],
		chromedp.ExecPath(chromium(t)), chromedp.NoSandbox, chromedp.DisableGPU,
		chromedp.Flag("disable-quic", true), chromedp.Flag("disable-component-update", true),
		chromedp.Flag("hide-scrollbars", true), chromedp.UserDataDir(t.TempDir()))
	alloc, cancel := chromedp.NewExecAllocator(context.Background(), options...)
	t.Cleanup(cancel)
	browser, cancel := chromedp.NewContext(alloc)
	t.Cleanup(cancel)
	require.NoError(t, chromedp.Do(browser)) // starts it
	return func(t *testing.T, width int, dark bool) *Tab {
		t.Helper()
		ctx, cancel := chromedp.NewContext(browser)
		t.Cleanup(cancel)
		tab := &Tab{t: t, ctx: ctx}
		tab.prepare(width, dark)
		return tab
	}
}

func (tab *Tab) prepare(width int, dark bool) {
	t := tab.t
	t.Helper()
	require.NoError(t, chromedp.Listen(tab.ctx, tab.hear))
	call(t, tab.ctx, log.Enable, cdp.Empty{})
	call(t, tab.ctx, runtime.Enable, cdp.Empty{})
	call(t, tab.ctx, network.Enable, network.EnableParams{})
	scheme := "light"
	if dark {
		scheme = "dark"
	}
	call(t, tab.ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
		Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}}})
	options := []chromedp.EmulateViewportOption{chromedp.EmulateScale(1)}
	if width < 600 {
		options = append(options, chromedp.EmulateMobile, chromedp.EmulateTouch)
	}
	require.NoError(t, chromedp.Do(tab.ctx, chromedp.EmulateViewport(int64(width), 800, options...)))
}

func call[P, R any](t *testing.T, ctx context.Context, c cdp.Command[P, R], p P) {
	t.Helper()
	_, err := chromedp.Call(ctx, c, p)
	require.NoError(t, err)
}

// hear notes what the page should not do.
func (tab *Tab) hear(ev any) {
	tab.mu.Lock()
	defer tab.mu.Unlock()
	trouble := func(format string, args ...any) { tab.troubles = append(tab.troubles, fmt.Sprintf(format, args...)) }
	switch e := ev.(type) {
	case *log.EventEntryAdded:
		// A form sent back with what is to be put right has a status of 422, which the
		// console reports; it is meant.
		if !strings.Contains(e.Entry.Text, "422") {
			trouble("log %s: %s %s", e.Entry.Level, e.Entry.Text, e.Entry.URL)
		}
	case *runtime.EventConsoleAPICalled:
		trouble("console %s", e.Type)
	case *runtime.EventExceptionThrown:
		trouble("exception: %s", e.ExceptionDetails.Text)
	case *page.EventJavascriptDialogOpening:
		trouble("dialog: %s", e.Message)
	case *network.EventRequestWillBeSent:
		tab.requests = append(tab.requests, e.Request.URL)
	}
}

// do runs steps, each within its time.
func (tab *Tab) do(what string, steps ...chromedp.Action[chromedp.Void]) {
	tab.t.Helper()
	ctx, cancel := context.WithTimeout(tab.ctx, step)
	defer cancel()
	require.NoError(tab.t, chromedp.Do(ctx, steps...), what)
}

// Open goes to an address.
func (tab *Tab) Open(address string) {
	tab.t.Helper()
	tab.do("open "+address, chromedp.Navigate(address), chromedp.WaitReady(chromedp.CSS("main")))
}

// Click clicks what a selector finds, which must lead to a page, and waits for that.
func (tab *Tab) Click(selector string) {
	tab.t.Helper()
	Eval[bool](tab, "window.left = true")
	tab.do("click "+selector, chromedp.Click(chromedp.CSS(selector), chromedp.NodeVisible))
	ctx, cancel := context.WithTimeout(tab.ctx, step)
	defer cancel()
	for {
		// Fails while one page is giving way to the next.
		there, err := chromedp.Run(ctx, chromedp.Evaluate[bool]("!window.left && document.readyState === 'complete'"))
		if err == nil && there {
			return
		}
		require.NoError(tab.t, ctx.Err(), "no page came after the click on %s", selector)
		time.Sleep(20 * time.Millisecond)
	}
}

// Fill puts a value into a field.
func (tab *Tab) Fill(selector, value string) {
	tab.t.Helper()
	tab.do("fill "+selector, chromedp.SetValue(chromedp.CSS(selector), value))
}

// Type types into a field, key by key.
func (tab *Tab) Type(selector, keys string) {
	tab.t.Helper()
	tab.do("type into "+selector, chromedp.SendKeys(chromedp.CSS(selector), keys))
}

// Text returns the text that is seen, once the selector finds something.
func (tab *Tab) Text(selector string) string {
	tab.t.Helper()
	ctx, cancel := context.WithTimeout(tab.ctx, step)
	defer cancel()
	s, err := chromedp.Run(ctx, chromedp.Text(chromedp.CSS(selector)))
	require.NoError(tab.t, err, selector)
	return s
}

// Eval evaluates an expression in the page.
func Eval[T any](tab *Tab, expression string) T {
	tab.t.Helper()
	ctx, cancel := context.WithTimeout(tab.ctx, 60*time.Second)
	defer cancel()
	v, err := chromedp.Run(ctx, chromedp.Evaluate[T](expression, chromedp.EvalAwaitPromise))
	require.NoError(tab.t, err, expression)
	return v
}

// Shot writes a picture of the whole page when FROSTWARD_SHOTS names a folder.
func (tab *Tab) Shot(name string) {
	tab.t.Helper()
	dir := os.Getenv("FROSTWARD_SHOTS")
	if dir == "" {
		return
	}
	ctx, cancel := context.WithTimeout(tab.ctx, step)
	defer cancel()
	b, err := chromedp.Run(ctx, chromedp.FullScreenshot(100))
	require.NoError(tab.t, err)
	require.NoError(tab.t, os.MkdirAll(dir, 0o777))
	require.NoError(tab.t, os.WriteFile(filepath.Join(dir, name+".png"), b, 0o666))
}

// Fits asserts that nothing in the page is wider than the screen, tables in their frames
// included, that no table breaks a word at the usual size of text, and that on a telephone what is to be touched is 44 px high.
func (tab *Tab) Fits() {
	tab.t.Helper()
	wide := Eval[[]string](tab, `[...document.querySelectorAll("body *")].filter(e => !e.closest("svg, .vh, .skip, thead") &&
		(e.getBoundingClientRect().right > document.documentElement.clientWidth + 1 || e.scrollWidth > e.clientWidth + 1 && getComputedStyle(e).overflowX == "auto")).map(e => e.tagName + " " + e.textContent.trim().slice(0, 40))`)
	require.Empty(tab.t, wide, "wider than the screen")
	broken := Eval[[]string](tab, `getComputedStyle(document.documentElement).fontSize != "16px" ? [] : [...document.querySelectorAll("th, td")].filter(c => getComputedStyle(c.closest("thead") ?? c).position != "absolute").flatMap(cell => {
		const texts = document.createTreeWalker(cell, NodeFilter.SHOW_TEXT), found = []
		for (let n; n = texts.nextNode();) for (const w of n.data.matchAll(/[^\s-]+/g)) if (w[0].length < 20) {
			const r = document.createRange()
			r.setStart(n, w.index), r.setEnd(n, w.index + w[0].length)
			if (new Set([...r.getClientRects()].map(b => b.top)).size > 1) found.push(w[0])
		}
		return found
	})`)
	require.Empty(tab.t, broken, "words broken in a table")
	low := Eval[[]string](tab, `innerWidth > 600 ? [] : [...document.querySelectorAll("a, button, summary, select, input:not([type=hidden], [type=checkbox])")].filter(e => !e.closest(".skip, p") &&
		e.getBoundingClientRect().height > 0 && e.getBoundingClientRect().height < 43.5).map(e => e.tagName + " " + e.textContent.trim().slice(0, 40))`)
	require.Empty(tab.t, low, "too low to touch")
}

// Clean asserts that nothing went wrong in the page, that it asked for nothing but what
// lies at the origins allowed, and that it fits the screen.
func (tab *Tab) Clean(allowed ...string) {
	tab.t.Helper()
	tab.Fits()
	tab.mu.Lock()
	defer tab.mu.Unlock()
	require.Empty(tab.t, tab.troubles)
	for _, r := range tab.requests {
		u, err := url.Parse(r)
		require.NoError(tab.t, err)
		ok := u.Scheme == "data"
		for _, a := range allowed {
			ok = ok || strings.HasPrefix(r, a)
		}
		require.True(tab.t, ok, "asked for %s", r)
	}
	require.NotEmpty(tab.t, tab.requests)
}

// PDF prints the page as its style sheet says, and returns the document.
func (tab *Tab) PDF() []byte {
	tab.t.Helper()
	ctx, cancel := context.WithTimeout(tab.ctx, step)
	defer cancel()
	own := true
	r, err := chromedp.Call(ctx, page.PrintToPDF, page.PrintToPDFParams{PreferCSSPageSize: &own})
	require.NoError(tab.t, err)
	return r.Data
}

// Troubles returns what went wrong so far.
func (tab *Tab) Troubles() []string {
	tab.mu.Lock()
	defer tab.mu.Unlock()
	return append([]string(nil), tab.troubles...)
}

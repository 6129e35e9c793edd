package main

import (
	"context"
	"fmt"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	cdplog "github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

// The tests of this file's helpers need Chromium. Without it they are skipped,
// unless WEFT_EXTERNAL=1 says that it has to be there.

func missing(t *testing.T, what string) {
	t.Helper()
	if os.Getenv("WEFT_EXTERNAL") == "1" {
		t.Fatal("missing: " + what)
	}
	t.Skip("missing: " + what)
}

var built = sync.OnceValues(func() ([]byte, error) { return document(context.Background()) })

// page is the built document.
func page(t *testing.T) []byte {
	t.Helper()
	doc, err := built()
	if err != nil {
		t.Fatal(err)
	}
	return doc
}

func chromium(t *testing.T) string {
	t.Helper()
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome"} {
		if path, err := exec.LookPath(name); err == nil {
			return path
		}
	}
	missing(t, "chromium")
	return ""
}

// look is how a browser shows the page.
type look struct {
	width, height int64
	dark          bool
}

var (
	desktop = look{1280, 900, false}
	tablet  = look{820, 1180, false}
	phone   = look{390, 844, false}
)

func (l look) night() look { l.dark = true; return l }

// tab is a page in a browser, and what it did.
type tab struct {
	t   *testing.T
	ctx context.Context

	mu       sync.Mutex
	requests []string
	errors   []string
}

// browse opens a browser with one empty page.
func browse(t *testing.T, l look) *tab {
	t.Helper()
	options := append(chromedp.DefaultExecAllocatorOptions[:],
		chromedp.ExecPath(chromium(t)), chromedp.NoSandbox, chromedp.WindowSize(int(l.width), int(l.height)),
		chromedp.Flag("disable-dev-shm-usage", true))
	ctx, stop := chromedp.NewExecAllocator(context.Background(), options...)
	t.Cleanup(stop)
	ctx, stop = chromedp.NewContext(ctx, chromedp.WithErrorf(func(string, ...any) {})) // it tells of events newer than itself
	t.Cleanup(stop)
	ctx, stop = context.WithTimeout(ctx, 6*time.Minute)
	t.Cleanup(stop)
	b := &tab{t: t, ctx: ctx}
	chromedp.ListenTarget(ctx, func(e any) {
		b.mu.Lock()
		defer b.mu.Unlock()
		switch e := e.(type) {
		case *network.EventRequestWillBeSent:
			b.requests = append(b.requests, e.Request.URL)
		case *runtime.EventExceptionThrown:
			b.errors = append(b.errors, e.ExceptionDetails.Error())
		case *cdplog.EventEntryAdded: // what the policy has stopped, among others
			if e.Entry.Level == cdplog.LevelError {
				b.errors = append(b.errors, e.Entry.Text+" "+e.Entry.URL)
			}
		case *runtime.EventConsoleAPICalled:
			if e.Type == runtime.APITypeError {
				b.errors = append(b.errors, fmt.Sprint(e.Args))
			}
		}
	})
	scheme := "light"
	if l.dark {
		scheme = "dark"
	}
	b.do(network.Enable(), runtime.Enable(), cdplog.Enable(),
		emulation.SetDeviceMetricsOverride(l.width, l.height, 1, l.width < 600),
		emulation.SetEmulatedMedia().WithFeatures([]*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}, {Name: "prefers-reduced-motion", Value: "reduce"}}))
	return b
}

// open loads the page from a server on this machine and waits for the plan of
// the example, with all that comes after it.
func open(t *testing.T, l look) *tab {
	t.Helper()
	doc := page(t)
	b := browse(t, l)
	server := httptest.NewServer(handler(doc))
	t.Cleanup(server.Close)
	b.do(chromedp.Navigate(server.URL))
	b.until(`performance.getEntriesByName('weft-explained').length > 0`)
	return b
}

// touches gives the browser a touch screen.
func (b *tab) touches() {
	b.t.Helper()
	b.do(emulation.SetTouchEmulationEnabled(true))
}

func (b *tab) do(actions ...chromedp.Action) {
	b.t.Helper()
	if err := chromedp.Run(b.ctx, actions...); err != nil {
		b.t.Fatalf("%v\n%s", err, strings.Join(b.faults(), "\n"))
	}
}

func (b *tab) faults() []string {
	b.mu.Lock()
	defer b.mu.Unlock()
	return append([]string(nil), b.errors...)
}

// until waits for an expression to become true.
func (b *tab) until(expression string) {
	b.t.Helper()
	var ok bool
	err := chromedp.Run(b.ctx, chromedp.Poll(expression, &ok, chromedp.WithPollingTimeout(90*time.Second), chromedp.WithPollingInterval(50*time.Millisecond)))
	if err != nil {
		var text string
		_ = chromedp.Run(b.ctx, chromedp.Evaluate(`document.body.innerText.slice(0, 600)`, &text))
		b.t.Fatalf("waiting for %s: %v\n%s\n%s", expression, err, strings.Join(b.faults(), "\n"), text)
	}
}

// js runs a script and returns its value.
func js[T any](b *tab, expression string) T {
	b.t.Helper()
	var v T
	b.do(chromedp.Evaluate(expression, &v, func(p *runtime.EvaluateParams) *runtime.EvaluateParams { return p.WithAwaitPromise(true) }))
	return v
}

// shoot writes a picture of the page, if somebody wants to look.
func (b *tab) shoot(name string, whole bool) {
	b.t.Helper()
	dir := os.Getenv("WEFT_SHOTS")
	if dir == "" {
		return
	}
	var png []byte
	if whole {
		b.do(chromedp.FullScreenshot(&png, 100))
	} else {
		b.do(chromedp.CaptureScreenshot(&png))
	}
	if err := os.WriteFile(filepath.Join(dir, name+".png"), png, 0o644); err != nil {
		b.t.Fatal(err)
	}
}

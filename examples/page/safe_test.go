package main

import (
	"context"
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/chromedp/chromedp"

	invented "example.org/weft/internal/demo"
	"example.org/weft/periodize"
)

// badFiles are what people drop by mistake or on purpose, and what has to be said.
var badFiles = []struct{ name, text, want string }{
	{"empty.csv", "", "empty"},
	{"odd.csv", "date,time,tz\n2026-13-41,25:00,Nowhere/Land\n", "months"},
	{"nozone.csv", "date,time\n2027-02-13,15:40\n", "zone"},
	{"picture.csv", "\x00\x01\x89PNG\r\n\x1a\n", ""},
	{"broken.json", `{"schema": 1, "period": {"from": "2026-11-09"`, "broken.json"},
	{"newer.json", `{"schema": 99, "period": {"from": "2026-11-09", "to": "2026-11-15"}, "athlete": {"zone": "Europe/Oslo"}}`, "99"},
	{"nine.json", `{"schema": 1, "period": {"from": "2026-11-09", "to": "2026-11-02"}, "athlete": {"zone": "Mars/Base", "born": "2031-05"}}`, "Mars/Base"},
	{"half.ics", "BEGIN:VCALENDAR\r\nBEGIN:VEVENT\r\nUID:1\r\n", "half.ics"},
	{"soon.ics", "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:x\r\nBEGIN:VEVENT\r\nUID:1\r\nDTSTART:soon\r\nEND:VEVENT\r\nEND:VCALENDAR\r\n", "soon.ics:4"},
	{"nogames.csv", "date,time,tz,kind\n2027-02-13,15:40,Europe/Oslo,practice\n", "games"},
}

// TestBadFiles: each is refused in words, and the plan stays.
func TestBadFiles(t *testing.T) {
	b := open(t, tablet)
	defer b.quiet()
	first := b.plan()
	for _, f := range badFiles {
		js[any](b, `document.getElementById('trouble').hidden = true`)
		js[any](b, `weft.App.openFiles([{name: `+quoted(f.name)+`, text: `+quoted(f.text)+`}], {})`)
		if !js[bool](b, `!document.getElementById('trouble').hidden`) {
			t.Errorf("%s: nothing was said", f.name)
			continue
		}
		b.mustContain(b.text("#trouble"), "Nothing was changed", f.want)
		if strings.Contains(b.text("#trouble"), "fault") {
			t.Errorf("%s: %s", f.name, b.text("#trouble"))
		}
		if b.plan() != first {
			t.Errorf("%s: the plan changed", f.name)
		}
	}
}

// TestNamesAreInert: markup in names is shown as it stands and does nothing.
func TestNamesAreInert(t *testing.T) {
	b := open(t, desktop)
	defer b.quiet()
	const evil = `<img src=x onerror="window.hacked=1"><script>window.hacked=1</script>`
	csv := "date,time,tz,opponent,competition\n2027-02-13,15:40,Europe/Oslo," + `"` + strings.ReplaceAll(evil, `"`, `""`) + `","</style><b id=bold>"` + "\n"
	js[any](b, `weft.App.openFiles([{name: '<i>.csv', text: `+quoted(csv)+`}], {})`)
	b.until(`document.getElementById('invented').hidden`)
	b.mustContain(b.text("#grid"), "<img src=x onerror=")
	js[any](b, `(async () => { const game = weft.App.view.weeks.flatMap((w) => w.days).flatMap((d) => d.items || []).find((i) => i.type === 'game'); await weft.App.open('game', game.id); window.print = () => {}; await weft.Print.sheet('month', '2027-02-13'); })()`)
	if n := js[int](b, `document.querySelectorAll('img, #bold, i, main script').length`); n != 0 {
		t.Errorf("%d elements came from the input", n)
	}
	if js[bool](b, `'hacked' in window`) {
		t.Error("a script of the input ran")
	}
}

// watch serves the page, and remembers what else is asked for.
func watch(t *testing.T, doc []byte) (string, func() []string) {
	t.Helper()
	var mu sync.Mutex
	var asked []string
	inner := handler(doc)
	s := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		mu.Lock()
		asked = append(asked, r.Method+" "+r.URL.String())
		mu.Unlock()
		inner.ServeHTTP(w, r)
	}))
	t.Cleanup(s.Close)
	return s.URL, func() []string { mu.Lock(); defer mu.Unlock(); return append([]string(nil), asked...) }
}

// TestNothingLeaves: the page asks for itself and for nothing else, keeps nothing
// and leaves the address alone, whatever is done; and if it wanted to, its policy
// would not let it.
func TestNothingLeaves(t *testing.T) {
	doc := page(t)
	url, asked := watch(t, doc)
	file := filepath.Join(t.TempDir(), "page.html")
	if err := os.WriteFile(file, doc, 0o600); err != nil {
		t.Fatal(err)
	}
	for _, from := range []string{url + "/", "file://" + file} {
		b := browse(t, desktop)
		b.do(chromedp.Navigate(from))
		b.until(`performance.getEntriesByName('weft-explained').length > 0`)
		for _, v := range views {
			v.show(b)
		}
		b.quiet()
		if got := js[string](b, `location.href`); got != from {
			t.Errorf("the address is %q, was %q", got, from)
		}
		kept := js[string](b, `(async () => { const at = (f) => { try { return String(f()); } catch (e) { return '0'; } };
			const dbs = indexedDB.databases ? await indexedDB.databases().catch(() => []) : [];
			return [at(() => localStorage.length), at(() => sessionStorage.length), at(() => document.cookie.length), dbs.length, history.length].join(' '); })()`)
		if !strings.HasPrefix(kept, "0 0 0 0 ") {
			t.Errorf("%s: kept: %s", from, kept)
		}
		b.mu.Lock()
		for _, r := range b.requests {
			if r != from && !strings.HasPrefix(r, "blob:") && !strings.HasPrefix(r, "data:") {
				t.Errorf("%s: a request for %s", from, r)
			}
		}
		b.mu.Unlock()
		for _, way := range []string{
			`fetch('` + url + `/left').then(() => 'left', () => 'kept')`,
			`new Promise((done) => { const i = new Image(); i.onload = () => done('left'); i.onerror = () => done('kept'); i.src = '` + url + `/left.png'; })`,
			`Promise.resolve(navigator.sendBeacon('` + url + `/left', 'x')).then(() => 'kept')`,
			`new Promise((done) => { const w = new Worker(URL.createObjectURL(new Blob(["fetch('` + url + `/left').then(() => postMessage('left'), () => postMessage('kept'))"]))); w.onmessage = (e) => done(e.data); })`,
		} {
			if got := js[string](b, way); got != "kept" {
				t.Errorf("%s: %s: %s", from, way, got)
			}
		}
	}
	for _, a := range asked() {
		if a != "GET /" {
			t.Errorf("the server was asked for %s", a)
		}
	}
}

// TestSameBytes: the page, the library and the program on the command line give
// the same plan to the byte.
func TestSameBytes(t *testing.T) {
	var planner periodize.Planner
	plan, err := planner.Plan(context.Background(), invented.Season())
	if err != nil {
		t.Fatal(err)
	}
	want, err := json.MarshalIndent(plan, "", "  ")
	if err != nil {
		t.Fatal(err)
	}
	want = append(want, '\n')
	cmd := exec.Command("go", "run", "./examples/season", "-format", "json")
	cmd.Dir = filepath.Join("..", "..")
	program, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	if string(program) != string(want) {
		t.Error("the program and the library differ")
	}
	b := open(t, desktop)
	if got := js[string](b, `weft.App.ask('plan').then((r) => r.text)`); got != string(want) {
		t.Errorf("the page and the library differ: %d and %d bytes", len(got), len(want))
	}
}

package main

import (
	"bytes"
	"compress/gzip"
	"context"
	"io"
	"io/fs"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// mostBytes is the size the page may have on a wire: 2 MB, counted in binary.
const mostBytes = 2 << 20

func TestPageIsSmall(t *testing.T) {
	n := compressed(page(t))
	t.Logf("%d bytes, %d when compressed", len(page(t)), n)
	if n > mostBytes {
		t.Errorf("%d bytes when compressed, more than %d", n, mostBytes)
	}
}

// TestPageIsWhole: every part is in the document, and nothing in it points
// anywhere else.
func TestPageIsWhole(t *testing.T) {
	doc := string(page(t))
	if strings.Contains(doc, "{{") {
		t.Error("a mark was not filled")
	}
	for _, bad := range []string{`\ssrc\s*=\s*["'][^"']`, `<link[^>]+href\s*=\s*["'](?:[^d]|d[^a])`, `@import`, `url\(`, `<(?:img|iframe|object|embed|form|base)\b[^>]*\b(?:src|action|href|data)=`, `\son[a-z]+\s*=\s*["']`} {
		if at := regexp.MustCompile(bad).FindStringIndex(doc); at != nil {
			t.Errorf("%s: %.120s", bad, doc[at[0]:])
		}
	}
	for _, part := range []string{"default-src 'none'", "'wasm-unsafe-eval'", "worker-src blob:", "form-action 'none'"} {
		if !strings.Contains(doc[:2000], part) {
			t.Errorf("the policy lacks %s", part)
		}
	}
	for _, never := range []string{"'unsafe-inline'", "'unsafe-eval'", "localStorage", "sessionStorage", "document.cookie", "indexedDB", "pushState", "replaceState", "location.hash", "fetch(\"http", "XMLHttpRequest", "WebSocket"} {
		head, _, _ := strings.Cut(doc, `<script type="text/plain" id="worker">`)
		_, script, _ := strings.Cut(doc, "<script>")
		if strings.Contains(head, never) || strings.Contains(script, never) {
			t.Errorf("the page holds %s", never)
		}
	}
}

// TestEveryPartIsUsed: no file of the page is left out of the document.
func TestEveryPartIsUsed(t *testing.T) {
	used := append([]string{"index.html", "style.css", "worker.js", "unpack.js"}, scripts...)
	err := fs.WalkDir(web, "web", func(name string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() && !slices.Contains(used, filepath.Base(name)) {
			t.Errorf("%s is in no part of the page", name)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range used {
		if b, err := web.ReadFile("web/" + name); err != nil || len(b) == 0 {
			t.Errorf("%s: %d bytes, %v", name, len(b), err)
		}
	}
}

func TestHandler(t *testing.T) {
	doc := []byte("<!doctype html><p>a page</p>")
	s := httptest.NewServer(handler(doc))
	defer s.Close()
	ask := func(method, path, encoding string) *http.Response {
		t.Helper()
		req, err := http.NewRequestWithContext(context.Background(), method, s.URL+path, nil)
		if err != nil {
			t.Fatal(err)
		}
		req.Header.Set("Accept-Encoding", encoding)
		res, err := http.DefaultTransport.RoundTrip(req)
		if err != nil {
			t.Fatal(err)
		}
		return res
	}
	body := func(r io.Reader) string {
		t.Helper()
		b, err := io.ReadAll(r)
		if err != nil {
			t.Fatal(err)
		}
		return string(b)
	}
	if res := ask("GET", "/", "identity"); res.StatusCode != 200 || body(res.Body) != string(doc) || res.Header.Get("Referrer-Policy") != "no-referrer" {
		t.Errorf("%v", res)
	}
	res := ask("GET", "/", "gzip")
	z, err := gzip.NewReader(res.Body)
	if err != nil || body(z) != string(doc) {
		t.Errorf("gzip: %v", err)
	}
	for _, c := range []struct {
		method, path string
		code         int
	}{{"GET", "/favicon.ico", 404}, {"GET", "/../go.mod", 404}, {"POST", "/", 405}, {"HEAD", "/", 200}} {
		if res := ask(c.method, c.path, "identity"); res.StatusCode != c.code {
			t.Errorf("%s %s: %d, want %d", c.method, c.path, res.StatusCode, c.code)
		}
	}
}

// TestFlags: bad arguments are refused, a file is written whole.
func TestFlags(t *testing.T) {
	var out, errs bytes.Buffer
	for _, args := range [][]string{{"-nothing"}, {"more"}, {"-port", "70000"}, {"-port", "-1"}} {
		if code := run(context.Background(), args, &out, &errs); code != 2 {
			t.Errorf("%v: exit %d", args, code)
		}
	}
	name := filepath.Join(t.TempDir(), "page.html")
	if code := run(context.Background(), []string{"-out", name}, &out, &errs); code != 0 {
		t.Fatalf("exit %d: %s", code, errs.String())
	}
	b, err := os.ReadFile(name)
	if err != nil || !bytes.Equal(b, page(t)) {
		t.Errorf("%d bytes written, %d built: %v", len(b), len(page(t)), err)
	}
	stopped, stop := context.WithCancel(context.Background())
	address := make(chan string, 1)
	done := make(chan error, 1)
	go func() { done <- serve(stopped, b, 0, func(a string) { address <- a }) }()
	if a := <-address; !strings.HasPrefix(a, "http://127.0.0.1:") {
		t.Errorf("served at %s", a)
	}
	stop()
	if err := <-done; err != nil {
		t.Error(err)
	}
}

package main

import (
	"bytes"
	"compress/gzip"
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"
	"strings"
	"time"
)

// handler answers with the page at its root and with nothing else.
func handler(doc []byte) http.Handler {
	small := squeezed(doc)
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.URL.Path != "/" {
			http.NotFound(w, r)
			return
		}
		if r.Method != http.MethodGet && r.Method != http.MethodHead {
			http.Error(w, "GET only", http.StatusMethodNotAllowed)
			return
		}
		h := w.Header()
		h.Set("Content-Type", "text/html; charset=utf-8")
		h.Set("Cache-Control", "no-store")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Content-Security-Policy", "frame-ancestors 'none'") // the rest is in the page itself
		h.Set("Vary", "Accept-Encoding")
		body := doc
		if strings.Contains(r.Header.Get("Accept-Encoding"), "gzip") {
			h.Set("Content-Encoding", "gzip")
			body = small
		}
		h.Set("Content-Length", fmt.Sprint(len(body)))
		if r.Method == http.MethodGet {
			_, _ = w.Write(body)
		}
	})
}

// serve answers on this machine alone until the context ends.
func serve(ctx context.Context, doc []byte, port int, ready func(address string)) error {
	l, err := net.Listen("tcp", fmt.Sprintf("127.0.0.1:%d", port))
	if err != nil {
		return err
	}
	s := &http.Server{Handler: handler(doc), ReadHeaderTimeout: 10 * time.Second}
	stopped := context.AfterFunc(ctx, func() { _ = s.Close() })
	defer stopped()
	ready("http://" + l.Addr().String() + "/")
	if err := s.Serve(l); !errors.Is(err, http.ErrServerClosed) {
		return err
	}
	return nil
}

// squeezed is the page as it goes over a wire.
func squeezed(doc []byte) []byte {
	var b bytes.Buffer
	z, _ := gzip.NewWriterLevel(&b, gzip.BestCompression) // the level is right
	_, _ = z.Write(doc)                                   // into memory
	_ = z.Close()
	return b.Bytes()
}

func compressed(doc []byte) int { return len(squeezed(doc)) }

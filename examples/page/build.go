package main

import (
	"context"
	"crypto/sha256"
	"embed"
	"encoding/base64"
	"fmt"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"example.org/weft/examples/page/lzma"
	"example.org/weft/periodize/handout"
)

// web holds the page: one file a concern, put together into a single document so
// that it opens from a disk and asks nobody for anything.
//
//go:embed web
var web embed.FS

// scripts are the parts of the page's script, in the order in which they run.
var scripts = []string{"dom.js", "engine.js", "history.js", "marks.js", "drag.js", "weeks.js", "panel.js", "about.js", "card.js", "game.js", "club.js", "setup.js", "files.js", "print.js", "app.js"}

// enginePackage is compiled to WebAssembly.
const enginePackage = "example.org/weft/examples/page/engine"

// document builds the page: the engine compiled, packed, and set into the
// document with style and script, behind a policy that lets nothing else run and
// nothing leave.
func document(ctx context.Context) ([]byte, error) {
	engine, err := compile(ctx)
	if err != nil {
		return nil, err
	}
	support, err := runtimeScript(ctx)
	if err != nil {
		return nil, err
	}
	return assemble(lzma.Encode(engine), support)
}

// inlined are the flags of the packages in which calls are compiled in line: those
// whose loops take the time. Elsewhere that would only make the page larger.
func inlined() (flags []string) {
	for _, p := range []string{"runtime", "internal/runtime/...", "example.org/weft/internal/layered", "example.org/weft/internal/history", "example.org/weft/internal/starts"} {
		flags = append(flags, "-gcflags="+p+"=")
	}
	return flags
}

// compile builds the engine without names and debug data.
func compile(ctx context.Context) ([]byte, error) {
	dir, err := os.MkdirTemp("", "weft-page-")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	out := filepath.Join(dir, "engine.wasm")
	args := append([]string{"build", "-trimpath", "-ldflags=-s -w", "-gcflags=all=-l"}, inlined()...)
	cmd := exec.CommandContext(ctx, "go", append(args, "-o", out, enginePackage)...)
	cmd.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	if text, err := cmd.CombinedOutput(); err != nil {
		return nil, fmt.Errorf("building the engine: %w\n%s", err, text)
	}
	return os.ReadFile(out)
}

// runtimeScript is the part of the Go distribution that runs its programs in a
// browser. It has to be of the same version as the compiler.
func runtimeScript(ctx context.Context) ([]byte, error) {
	out, err := exec.CommandContext(ctx, "go", "env", "GOROOT").Output()
	if err != nil {
		return nil, fmt.Errorf("asking for GOROOT: %w", err)
	}
	root := strings.TrimSpace(string(out))
	var last error
	for _, at := range []string{"lib/wasm", "misc/wasm"} { // since Go 1.24, before it
		b, err := os.ReadFile(filepath.Join(root, filepath.FromSlash(at), "wasm_exec.js"))
		if err == nil {
			return b, nil
		}
		last = err
	}
	return nil, last
}

// assemble puts the document together.
func assemble(packed, support []byte) ([]byte, error) {
	read := func(name string) string {
		b, _ := web.ReadFile(path.Join("web", name)) // embedded; a test reads them all
		return string(b)
	}
	style := handout.Style(handout.A4) + read("style.css")
	var script strings.Builder
	script.WriteString("'use strict';(() => {\n")
	for _, name := range scripts {
		script.WriteString(read(name))
	}
	script.WriteString("})();\n")
	worker := string(support) + "\n" + read("unpack.js") + read("worker.js")
	policy := strings.Join([]string{
		"default-src 'none'", // no connection, picture, frame, font or form target
		"script-src " + hash(script.String()) + " 'wasm-unsafe-eval'",
		"worker-src blob:",
		"style-src " + hash(style),
		"img-src data:", // the empty icon, so that no browser asks for one
		"base-uri 'none'",
		"form-action 'none'",
	}, "; ")
	parts := []string{
		"{{policy}}", policy,
		"{{style}}", style,
		"{{worker}}", worker,
		"{{engine}}", base64.StdEncoding.EncodeToString(packed),
		"{{script}}", script.String(),
	}
	for i, p := range parts {
		if i%2 == 1 && (strings.Contains(strings.ToLower(p), "</script") || strings.Contains(strings.ToLower(p), "</style")) {
			return nil, fmt.Errorf("%s would end its element", parts[i-1])
		}
	}
	page := read("index.html")
	if slices.ContainsFunc([]string{"{{policy}}", "{{style}}", "{{worker}}", "{{engine}}", "{{script}}"}, func(mark string) bool { return strings.Count(page, mark) != 1 }) {
		return nil, fmt.Errorf("index.html has not each mark once")
	}
	return []byte(strings.NewReplacer(parts...).Replace(page)), nil
}

// hash names an inline script or style in a policy.
func hash(text string) string {
	sum := sha256.Sum256([]byte(text))
	return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
}

package lzma

import (
	"bytes"
	"os"
	"os/exec"
	"testing"
	"time"
)

func TestTmp(t *testing.T) {
	b, _ := os.ReadFile("/tmp/pg/f.wasm")
	tm := time.Now()
	z := Encode(b)
	t.Log(len(b), len(z), time.Since(tm))
	os.WriteFile("/tmp/pg/own.lzma", z, 0o644)
	cmd := exec.Command("xz", "--format=lzma", "-dc")
	cmd.Stdin = bytes.NewReader(z)
	out, err := cmd.Output()
	t.Log(err, bytes.Equal(out, b), len(out))
}

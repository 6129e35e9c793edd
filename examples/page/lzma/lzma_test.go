package lzma

import (
	"bytes"
	"math/rand"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// texts are inputs of all sorts: none, one byte, runs, noise, noise that comes
// again from far and near, and what looks like a program.
func texts() map[string][]byte {
	r := rand.New(rand.NewSource(71))
	noise := func(n int) []byte {
		b := make([]byte, n)
		for i := range b {
			b[i] = byte(r.Intn(256))
		}
		return b
	}
	far := noise(3000)
	mixed := []byte{}
	for i := range 4000 {
		mixed = append(mixed, byte(i%7), byte(i/250), 0x41, byte(r.Intn(3)))
		if i%97 == 0 {
			at := r.Intn(len(mixed))
			mixed = append(mixed, mixed[at:min(len(mixed), at+r.Intn(600))]...)
		}
	}
	return map[string][]byte{
		"nothing": {}, "a byte": {0x83}, "three": {1, 2, 1}, "run": bytes.Repeat([]byte{7}, 70_001), "pairs": bytes.Repeat([]byte("ab"), 777),
		"noise": noise(20_011), "far": bytes.Join([][]byte{far, noise(200_003), far, far[500:1700]}, nil), "mixed": mixed,
		"words": bytes.Repeat([]byte("a session, a game and a rest; "), 500),
	}
}

func missing(t *testing.T, what string) {
	t.Helper()
	if os.Getenv("WEFT_EXTERNAL") == "1" {
		t.Fatal("missing: " + what)
	}
	t.Skip("missing: " + what)
}

// TestXZ: the program xz, which is not ours, unpacks what Encode packs.
func TestXZ(t *testing.T) {
	xz, err := exec.LookPath("xz")
	if err != nil {
		missing(t, "xz")
	}
	for name, text := range texts() {
		packed := Encode(text)
		cmd := exec.Command(xz, "--format=lzma", "-dc")
		cmd.Stdin = bytes.NewReader(packed)
		got, err := cmd.Output()
		if err != nil || !bytes.Equal(got, text) {
			t.Errorf("%s: %d bytes come back as %d: %v", name, len(text), len(got), err)
		}
		t.Logf("%s: %d bytes packed into %d", name, len(text), len(packed))
	}
}

// TestPageUnpacks: so does the half in JavaScript, in pieces, and it says so if
// the stream is damaged.
func TestPageUnpacks(t *testing.T) {
	node, err := exec.LookPath("node")
	if err != nil {
		missing(t, "node")
	}
	script, err := os.ReadFile(filepath.Join("..", "web", "unpack.js"))
	if err != nil {
		t.Fatal(err)
	}
	program := string(script) + `
const chunks = [];
process.stdin.on('data', (c) => chunks.push(c)).on('end', () => {
  const all = new Uint8Array(Buffer.concat(chunks));
  try { for (const p of unpack(all, 1000)) process.stdout.write(Buffer.from(p.slice())); } catch (e) { process.stdout.write('damaged'); }
});`
	run := func(in []byte) []byte {
		cmd := exec.Command(node, "-e", program)
		cmd.Stdin = bytes.NewReader(in)
		out, err := cmd.Output()
		if err != nil {
			t.Fatal(err)
		}
		return out
	}
	for name, text := range texts() {
		if got := run(Encode(text)); !bytes.Equal(got, text) {
			t.Errorf("%s: %d bytes come back as %d", name, len(text), len(got))
		}
	}
	packed := Encode(texts()["words"])
	packed[30] ^= 0x55
	if got := run(packed); bytes.Equal(got, texts()["words"]) {
		t.Error("a damaged stream is unpacked as if it were whole")
	}
}

// TestSmaller: packing is worth its while.
func TestSmaller(t *testing.T) {
	for name, most := range map[string]int{"run": 120, "pairs": 60, "words": 120, "far": 207_500, "noise": 20_500} {
		if got := len(Encode(texts()[name])); got > most {
			t.Errorf("%s: %d bytes, want at most %d", name, got, most)
		}
	}
}

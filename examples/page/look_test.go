package main

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"
)

// TestLook writes pictures of the page and what it prints to the folder
// WEFT_SHOTS, for people to look at.
func TestLook(t *testing.T) {
	dir := os.Getenv("WEFT_SHOTS")
	if dir == "" {
		t.Skip("WEFT_SHOTS names no folder")
	}
	for _, l := range []look{desktop, desktop.night(), tablet, phone, phone.night()} {
		name := fmt.Sprintf("%d%s", l.width, map[bool]string{true: "-dark"}[l.dark])
		t.Run(name, func(t *testing.T) {
			b := open(t, l)
			for _, v := range views {
				v.show(b)
				b.shoot(name+"-"+v.name, false)
			}
			js[any](b, `weft.Panel.close()`)
			if l.width == desktop.width && !l.dark {
				b.shoot(name+"-whole", true)
				b.print(filepath.Join(dir, "weeks.pdf"))
				for _, s := range []string{"month", "card", "season"} {
					js[any](b, `(async () => { window.print = () => {}; await weft.Print.sheet('`+s+`', '2026-10-05'); })()`)
					b.print(filepath.Join(dir, s+".pdf"))
					js[any](b, `weft.Print.done()`)
				}
			}
		})
	}
}

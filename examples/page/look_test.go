package main

import (
	"fmt"
	"os"
	"testing"
)

// TestLook writes pictures of the page to the folder WEFT_SHOTS, for people to
// look at.
func TestLook(t *testing.T) {
	if os.Getenv("WEFT_SHOTS") == "" {
		t.Skip("WEFT_SHOTS names no folder")
	}
	for _, l := range []look{desktop, desktop.night(), tablet, phone, phone.night()} {
		name := fmt.Sprintf("%d%s", l.width, map[bool]string{true: "-dark"}[l.dark])
		t.Run(name, func(t *testing.T) {
			b := open(t, l)
			b.shoot(name+"-top", false)
		})
	}
}

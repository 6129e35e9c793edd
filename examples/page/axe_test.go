package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// TestAccessible runs axe-core over every view, on a desktop and a phone, light
// and dark: no fault that is serious or critical.
func TestAccessible(t *testing.T) {
	axe, err := os.ReadFile(filepath.Join("node_modules", "axe-core", "axe.min.js"))
	if err != nil {
		missing(t, "axe-core; run npm ci in this folder")
	}
	for _, l := range []look{desktop, desktop.night(), phone, phone.night()} {
		t.Run(fmt.Sprintf("%d dark %v", l.width, l.dark), func(t *testing.T) {
			b := open(t, l)
			// Three weeks are enough: more of the same elements only takes longer.
			js[any](b, `weft.App.set({...weft.App.view.settings, from: '2026-10-05', to: '2026-10-25'})`)
			b.do(chromedp.Evaluate(string(axe), nil))
			if ground := js[int](b, `getComputedStyle(document.documentElement).backgroundColor.match(/\d+/g).slice(0, 3).reduce((a, x) => a + Number(x), 0)`); (ground < 3*64) != l.dark {
				t.Errorf("the ground has %d of 765, dark is %v", ground, l.dark)
			}
			passed := 0
			for _, v := range views {
				v.show(b)
				got := js[struct {
					Passes   int
					Contrast bool // that of words was looked at
					Faults   []string
				}](b, `axe.run(`+v.scope()+`, {resultTypes: ['violations']}).then((r) => ({Passes: r.passes.length, Contrast: r.passes.some((p) => p.id === 'color-contrast'),
					Faults: r.violations.filter((v) => v.impact === 'serious' || v.impact === 'critical').map((v) => v.id + ': ' + v.help + '\n' + v.nodes.slice(0, 4).map((n) => '  ' + n.target + ' ' + n.html.slice(0, 200) + '\n    ' + n.failureSummary).join('\n'))}))`)
				passed += got.Passes
				if !got.Contrast {
					t.Errorf("%s: nothing was said of the contrast of its words", v.name)
				}
				if len(got.Faults) > 0 {
					t.Errorf("%s:\n%s", v.name, strings.Join(got.Faults, "\n"))
				}
			}
			if passed < 10*len(views) {
				t.Errorf("only %d rules were met", passed)
			}
		})
	}
}

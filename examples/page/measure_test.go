package main

import (
	"testing"

	"github.com/chromedp/chromedp"
)

// TestMeasure prints how long the page takes; it judges nothing, since that
// depends on the machine.
func TestMeasure(t *testing.T) {
	b := open(t, desktop)
	for i := range 3 {
		b.do(chromedp.Reload())
		b.until(`performance.getEntriesByName('weft-explained').length > 0`)
		at := func(name string) int {
			return int(js[float64](b, `performance.getEntriesByName('`+name+`')[0]?.startTime || 0`))
		}
		t.Logf("load %d: worker ready %d ms, plan seen %d ms, explained %d ms", i+1, at("weft-ready"), at("weft-plan"), at("weft-explained"))
	}
	for i, to := range []string{"2026-10-16T19:30", "2026-10-15T19:30", "2026-10-18T11:00"} {
		ms := js[float64](b, `(async () => { const t = performance.now(); await weft.App.propose('move', {id: 'g09', do: 'move', to: '`+to+`'}); return performance.now() - t; })()`)
		t.Logf("move %d: slip after %.0f ms", i+1, ms)
	}
	t.Logf("%d bytes, %d when compressed", len(page(t)), compressed(page(t)))
}

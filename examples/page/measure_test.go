package main

import (
	"context"
	"encoding/json"
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"example.org/weft/examples/page/bridge"
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
	t.Logf("the same moves without a browser: %s", native(t))
	t.Logf("%d bytes, %d when compressed", len(page(t)), compressed(page(t)))
}

// native is how long the bridge takes for the moves as compiled for this machine.
func native(t *testing.T) string {
	t.Helper()
	var d bridge.Desk
	d.Call(context.Background(), "demo", nil, nil)
	var out []string
	for _, to := range []string{"2026-10-16T19:30", "2026-10-15T19:30", "2026-10-18T11:00"} {
		args, err := json.Marshal(map[string]string{"id": "g09", "do": "move", "to": to})
		if err != nil {
			t.Fatal(err)
		}
		began := time.Now()
		d.Call(context.Background(), "move", args, nil)
		out = append(out, fmt.Sprintf("%d ms", time.Since(began).Milliseconds()))
	}
	return strings.Join(out, ", ")
}

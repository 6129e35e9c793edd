package main

import (
	"fmt"
	"testing"
	"time"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// point is a place on the screen.
type point struct{ X, Y float64 }

// middle is where an element is, once it is in sight.
func (b *tab) middle(selector string) point {
	b.t.Helper()
	return js[point](b, `(() => { const r = document.querySelector('`+selector+`').getBoundingClientRect(); return {X: r.left + r.width / 2, Y: r.top + Math.min(r.height / 2, 40)}; })()`)
}

// between puts the week of two dates into the middle of the screen.
func (b *tab) between(date string) {
	b.t.Helper()
	js[any](b, `document.querySelector('#grid [data-date="`+date+`"]').scrollIntoView({block: 'center'})`)
}

const (
	dragged = `#grid [data-id="g09"]`
	target  = `#grid [data-date="2026-10-15"]`
)

// TestDragByMouse moves a game with the mouse: the slip comes first, and a click
// that is none opens nothing.
func TestDragByMouse(t *testing.T) {
	b := open(t, desktop)
	defer b.quiet()
	b.between("2026-10-17")
	from, to := b.middle(dragged), b.middle(target)
	mouse := func(kind input.MouseType, p point) chromedp.Action {
		return input.DispatchMouseEvent(kind, p.X, p.Y).WithButton(input.Left).WithClickCount(1)
	}
	halfway := point{(from.X + to.X) / 2, (from.Y + to.Y) / 2}
	b.do(mouse(input.MousePressed, from), mouse(input.MouseMoved, point{from.X + 3, from.Y}))
	if js[bool](b, `document.querySelector('.ghost') !== null`) {
		t.Error("a tremor drags")
	}
	b.do(mouse(input.MouseMoved, halfway), mouse(input.MouseMoved, to))
	b.mustContain(b.text(".ghost"), "Game Vestbjerg: Thu 15 Oct")
	b.do(mouse(input.MouseReleased, to))
	b.titled("Change slip")
	b.mustContain(b.text("#panel"), "to Thu 15 Oct 19:30")
	b.press(kb.Escape)
	b.until(`!document.getElementById('panel').open`)

	// Escape gives it up.
	b.between("2026-10-17")
	from, to = b.middle(dragged), b.middle(target)
	b.do(mouse(input.MousePressed, from), mouse(input.MouseMoved, to))
	b.until(`document.querySelector('.ghost') !== null`)
	b.press(kb.Escape)
	b.do(mouse(input.MouseReleased, to))
	if js[bool](b, `document.querySelector('.ghost, .over') !== null || document.getElementById('panel').open`) {
		t.Error("the drag goes on after Escape")
	}
	// A plain click still opens the game.
	b.do(chromedp.Click(dragged, chromedp.ByQuery))
	b.titled("Game Vestbjerg")
}

// TestDragByTouch moves a game with a finger that rests on it first; one that does
// not rest scrolls the page, and moves nothing.
func TestDragByTouch(t *testing.T) {
	for _, l := range []look{phone, tablet} {
		b := open(t, l)
		b.touches()
		b.between("2026-10-16")
		from, to := b.middle(dragged), b.middle(target)
		finger := func(kind input.TouchType, p ...point) chromedp.Action {
			points := []*input.TouchPoint{}
			for _, x := range p {
				points = append(points, &input.TouchPoint{X: x.X, Y: x.Y})
			}
			return input.DispatchTouchEvent(kind, points)
		}
		halfway := point{(from.X + to.X) / 2, (from.Y + to.Y) / 2}
		b.do(finger(input.TouchStart, from), finger(input.TouchMove, halfway), finger(input.TouchMove, to), finger(input.TouchEnd))
		if js[bool](b, `document.querySelector('.ghost, .over') !== null || document.getElementById('panel').open`) {
			t.Error("a finger that scrolls drags")
		}
		b.until(`performance.getEntriesByName('weft-explained').length > 0`)
		shown := ""
		for try := range 8 { // on a busy machine the page may answer too late, and the browser scrolls
			b.do(chromedp.Sleep(time.Duration(try+1) * 500 * time.Millisecond)) // until the page rests again
			b.between("2026-10-16")
			from, to = b.middle(dragged), b.middle(target)
			b.do(finger(input.TouchStart, from))
			for range 20 {
				b.do(chromedp.Sleep(150 * time.Millisecond))
				if js[bool](b, `document.querySelector('.ghost') !== null`) {
					break
				}
			}
			b.do(finger(input.TouchMove, point{from.X, from.Y - 20}), finger(input.TouchMove, to))
			if shown = b.text(".ghost"); shown != "" {
				break
			}
			b.do(finger(input.TouchCancel))
		}
		lift := finger(input.TouchEnd)
		if shown == "" { // it scrolled every time: the same gesture without the browser's own
			t.Logf("%v: the browser scrolls instead, the finger is played by script", l)
			pointer := func(kind string, p point) chromedp.Action {
				return chromedp.Evaluate(fmt.Sprintf(`document.elementFromPoint(%[2]f, %[3]f).dispatchEvent(new PointerEvent('%[1]s',
					{pointerType: 'touch', isPrimary: true, bubbles: true, cancelable: true, button: 0, clientX: %[2]f, clientY: %[3]f}))`, kind, p.X, p.Y), nil)
			}
			b.do(chromedp.Sleep(2 * time.Second))
			b.between("2026-10-16")
			b.do(chromedp.Sleep(time.Second))
			from, to = b.middle(dragged), b.middle(target)
			b.do(pointer("pointerdown", from))
			b.until(`document.querySelector('.ghost') !== null`)
			b.do(pointer("pointermove", to))
			shown, lift = b.text(".ghost"), pointer("pointerup", to)
		}
		b.mustContain(shown, "Thu 15 Oct")
		b.do(lift)
		b.titled("Change slip")
		b.mustContain(b.text("#panel"), "to Thu 15 Oct 19:30")
		b.quiet()
	}
}

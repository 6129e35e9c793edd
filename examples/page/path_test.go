package main

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

func (b *tab) plan() string {
	b.t.Helper()
	return js[string](b, `document.documentElement.dataset.plan`)
}

func (b *tab) text(selector string) string {
	b.t.Helper()
	return js[string](b, `document.querySelector('`+selector+`')?.innerText || ''`)
}

// titled waits for a panel with a title.
func (b *tab) titled(title string) {
	b.t.Helper()
	b.until(`document.getElementById('panel').open && document.getElementById('panel-title').textContent.startsWith('` + title + `')`)
}

// focus is what has the focus, as people hear it.
func (b *tab) focus() string {
	b.t.Helper()
	return js[string](b, `(document.activeElement.getAttribute('aria-label') || document.activeElement.textContent || document.activeElement.tagName).trim()`)
}

func (b *tab) press(keys string, modifiers ...chromedp.KeyOption) {
	b.t.Helper()
	b.do(chromedp.KeyEvent(keys, modifiers...))
}

func (b *tab) mustContain(got string, want ...string) {
	b.t.Helper()
	for _, w := range want {
		if !strings.Contains(got, w) {
			b.t.Errorf("no %q in:\n%.1500s", w, got)
		}
	}
}

// quiet fails if the page has met an error of its own.
func (b *tab) quiet() {
	b.t.Helper()
	if f := b.faults(); len(f) > 0 {
		b.t.Errorf("errors of the page:\n%s", strings.Join(f, "\n"))
	}
}

const fixturesText = `date,time,tz,end,opponent,home_away
2027-02-13,15:40,Europe/Oslo,17:15,Nordvik,home
2027-02-17,19:15,Europe/Oslo,20:50,Selbu Vest,away
2027-02-20,17:00,Europe/Oslo,18:35,Granmo,home
`

// TestMainPath is what a coach does who finds the page: look, ask, move a game,
// take it back, plan with fixtures of the club, set the athlete, save and open.
func TestMainPath(t *testing.T) {
	b := open(t, desktop)
	defer b.quiet()
	b.mustContain(b.text("#invented"), "Invented example")
	b.mustContain(b.text("#summary"), "177 sessions", "47 games", "Proved")
	b.mustContain(b.text("#missed"), "aims not kept")
	first := b.plan()

	b.do(chromedp.Click(`#grid [data-date="2026-10-15"] .item.session`, chromedp.ByQuery))
	b.titled("Full-body, Thu 15 Oct")
	b.mustContain(b.text("#panel"), "Why it is here", "Instead, on this date", "The same on another date", "What cannot be here", "points", "Main lift")
	b.do(chromedp.Click(`#panel .choices button`, chromedp.ByQuery))
	b.titled("Change slip")
	b.do(chromedp.Click(`#slip-discard`, chromedp.ByQuery))
	b.until(`!document.getElementById('panel').open`)
	if b.plan() != first {
		t.Error("a slip that was discarded changed the plan")
	}

	b.do(chromedp.Click(`#grid [data-id="g09"]`, chromedp.ByQuery))
	b.titled("Game Vestbjerg")
	js[any](b, `document.getElementById('move-date').value = '2026-10-16'`)
	b.do(chromedp.Click(`#panel form.move button.main`, chromedp.ByQuery))
	b.titled("Change slip")
	b.mustContain(b.text("#panel"), "Vestbjerg moves from Sat 17 Oct 19:30 to Fri 16 Oct 19:30", "unchanged", "points before")
	if b.plan() != first {
		t.Error("a slip that nobody accepted changed the plan")
	}
	b.do(chromedp.Click(`#slip-accept`, chromedp.ByQuery))
	b.until(`document.documentElement.dataset.plan !== '` + first + `'`)
	b.until(`!document.getElementById('do-undo').disabled`)
	second := b.plan()
	b.mustContain(b.text(`#grid [data-date="2026-10-16"]`), "Vestbjerg")
	b.do(chromedp.Click(`#do-undo`, chromedp.ByQuery))
	b.until(`document.documentElement.dataset.plan === '` + first + `'`)
	b.do(chromedp.Click(`#do-redo`, chromedp.ByQuery))
	b.until(`document.documentElement.dataset.plan === '` + second + `'`)

	b.do(chromedp.Click(`#do-open`, chromedp.ByQuery))
	b.titled("Open or paste")
	js[any](b, `document.getElementById('open-text').value = `+"`"+fixturesText+"`")
	b.do(chromedp.Click(`#panel form.open button.main`, chromedp.ByQuery))
	b.until(`document.getElementById('invented').hidden`)
	b.mustContain(b.text("#summary"), "3 games")
	b.mustContain(b.text("#notes"), "question", "age")
	unknown := b.plan()

	b.do(chromedp.Click(`#do-setup`, chromedp.ByQuery))
	b.titled("Athlete and rules")
	js[any](b, `(() => { const set = (id, v) => { document.getElementById(id).value = v; };
		set('set-id', 'k-31'); set('set-born', '2001-11'); set('set-trainingAge', '4.5'); set('set-hours', 'Mon-Fri 15:30 to 21:00; weekends 10:00-16:00'); })()`)
	b.do(chromedp.Click(`#setup button.main`, chromedp.ByQuery))
	b.until(`document.querySelector('#set-hours[aria-invalid]') !== null`)
	b.mustContain(b.text("#setup-trouble"), "weekends", "day of the week")
	js[any](b, `document.getElementById('set-hours').value = 'Mon-Fri 15:30 to 21:00; Sat and Sun 10:00-16:00'`)
	b.do(chromedp.Click(`#setup button.main`, chromedp.ByQuery))
	b.until(`!document.getElementById('panel').open && document.documentElement.dataset.plan !== '` + unknown + `'`)
	b.mustContain(b.text("#who"), "k-31")
	if got := js[string](b, `weft.App.view.settings.hours`); got != "Mon-Fri 15:30-21:00; Sat, Sun 10:00-16:00" {
		t.Errorf("hours read back as %q", got)
	}

	mine := b.plan()
	saved := js[string](b, `weft.App.ask('save').then((r) => r.text)`)
	b.mustContain(saved, `"schema":1`, `"k-31"`, "Nordvik")
	js[any](b, `weft.App.demo()`)
	b.until(`document.documentElement.dataset.plan === '` + first + `'`)
	js[any](b, `(async (text) => weft.App.openFiles([{name: 'request.json', text}], {}))(`+quoted(saved)+`)`)
	b.until(`document.documentElement.dataset.plan === '` + mine + `'`)
}

func quoted(s string) string {
	return "`" + strings.NewReplacer("\\", "\\\\", "`", "\\`", "$", "\\$").Replace(s) + "`"
}

// TestKeyboardPath does it without a pointer.
func TestKeyboardPath(t *testing.T) {
	b := open(t, desktop)
	defer b.quiet()
	first := b.plan()
	b.press(kb.Tab)
	if got := b.focus(); got != "Go to the plan" {
		t.Fatalf("the first stop is %q", got)
	}
	b.press(kb.Enter)
	b.until(`document.activeElement.closest('#grid') !== null`)
	if got := b.focus(); !strings.HasPrefix(got, "Mon 31 Aug") {
		t.Fatalf("the plan begins at %q", got)
	}
	b.press(kb.ArrowRight)
	if got := b.focus(); !strings.HasPrefix(got, "Tue 1 Sep, 15:45–16:25Recovery") {
		t.Fatalf("one date to the right is %q", got)
	}
	b.press(kb.Enter)
	b.titled("Recovery, Tue 1 Sep")
	if got := b.focus(); !strings.HasPrefix(got, "Recovery, Tue 1 Sep") {
		t.Errorf("the panel has the focus at %q", got)
	}
	b.press(kb.Escape)
	b.until(`!document.getElementById('panel').open`)
	if got := b.focus(); !strings.HasPrefix(got, "Tue 1 Sep") {
		t.Errorf("the focus comes back to %q", got)
	}

	b.press(kb.End) // Sunday
	b.press(kb.ArrowLeft)
	if got := b.focus(); !strings.HasPrefix(got, "Sat 5 Sep") || !strings.Contains(got, "Game Tornby") {
		t.Fatalf("the game is not reached: %q", got)
	}
	b.press(kb.ArrowLeft, chromedp.KeyModifiers(8))
	b.press(kb.ArrowDown, chromedp.KeyModifiers(8))
	b.press(kb.ArrowDown, chromedp.KeyModifiers(8))
	b.titled("Change slip")
	b.until(`document.getElementById('panel').innerText.includes('Tornby moves from Sat 5 Sep 15:40 to Fri 4 Sep 16:10')`)
	b.press(kb.ArrowUp, chromedp.KeyModifiers(8)) // the slip is there, and the game moves on
	b.until(`document.getElementById('panel').innerText.includes('to Fri 4 Sep 15:55')`)
	if got := b.focus(); got != "Accept" {
		t.Errorf("the slip has the focus at %q", got)
	}
	b.press(kb.Enter)
	b.until(`document.documentElement.dataset.plan !== '` + first + `' && !document.getElementById('do-undo').disabled`)
	b.mustContain(b.text(`#grid [data-date="2026-09-04"]`), "Tornby")
	b.press("z", chromedp.KeyModifiers(2))
	b.until(`document.documentElement.dataset.plan === '` + first + `'`)

	// An empty slot: the number of a date.
	js[any](b, `document.querySelector('#grid [data-date="2026-09-03"] [data-stop]').focus()`)
	b.press(kb.Enter)
	b.titled("Thu 3 Sep")
	b.mustContain(b.text("#panel"), "What else could be here", "What cannot be here")
}

// TestSoreSpot: the card changes, the rest of the plan is shown with it, and what
// was said is kept nowhere; confirmed, the week shows what became of the session,
// and undo takes it back.
func TestSoreSpot(t *testing.T) {
	b := open(t, phone)
	defer b.quiet()
	first := b.plan()
	views[2].show(b)
	before := b.text("#panel .card")
	views[3].show(b)
	if after := b.text("#panel .card"); after == before || after == "" {
		t.Error("the card is as it was")
	}
	b.mustContain(b.text("#panel .today"), "Today: swapped", "Out:", "In:", "If this is confirmed", "unchanged", "points before")
	report := func(script string, state string) {
		t.Helper()
		js[any](b, `(() => { `+script+`; document.querySelector('.report form').requestSubmit(); })()`)
		b.until(`document.querySelector('.today h4')?.textContent === 'Today: ` + state + `'`)
	}
	report(`document.getElementById('sore-pain').value = 7`, "held")
	b.mustContain(b.text("#panel .card"), "No session today")
	b.mustContain(b.text("#panel .today"), "named clinician", "are off until the hold is cleared")
	for _, call := range []string{"save", "plan"} {
		text := js[string](b, `weft.App.ask('`+call+`').then((r) => r.text)`)
		for _, word := range []string{"adductor", "sore", "hold-", "pain"} {
			if strings.Contains(text, word) {
				t.Errorf("%s holds %q", call, word)
			}
		}
	}
	b.do(chromedp.Click(`#day-leave`, chromedp.ByQuery))
	b.until(`document.querySelector('#panel .card').innerText === ` + quoted(before))
	if b.plan() != first {
		t.Error("a report that was left changed the plan")
	}
	report(`document.getElementById('sore-pain').value = 4; document.getElementById('sore-minutes').value = 30`, "swapped")
	b.do(chromedp.Click(`#day-confirm`, chromedp.ByQuery))
	b.until(`document.documentElement.dataset.plan !== '` + first + `' && !document.getElementById('do-undo').disabled`)
	b.mustContain(b.text(`#grid [data-date="2026-10-15"]`), "done, swapped")
	if n := js[int](b, `document.querySelectorAll('#grid [data-date="2026-10-15"] .item.changed .mark.state').length`); n != 2 {
		t.Errorf("%d shapes beside the words", n)
	}
	b.do(chromedp.Click(`#do-undo`, chromedp.ByQuery))
	b.until(`document.documentElement.dataset.plan === '` + first + `'`)
	if strings.Contains(b.text(`#grid [data-date="2026-10-15"]`), "swapped") {
		t.Error("what was undone is still shown")
	}
	b.do(chromedp.Click(`#do-redo`, chromedp.ByQuery))
	b.until(`document.querySelector('#grid [data-date="2026-10-15"]').innerText.includes('swapped')`)
}

// TestHeldShows: a held session stands in its week by word and shape.
func TestHeldShows(t *testing.T) {
	b := open(t, desktop)
	defer b.quiet()
	views[2].show(b)
	js[any](b, `(() => { document.querySelector('.report').open = true; document.getElementById('sore-sign').value = 'fever'; document.querySelector('.report form').requestSubmit(); })()`)
	b.until(`document.querySelector('.today h4') !== null`)
	b.do(chromedp.Click(`#day-confirm`, chromedp.ByQuery))
	b.until(`document.querySelector('#grid .item.held .mark.state path') !== null`)
	b.mustContain(b.text(`#grid [data-date="2026-10-15"]`), "held", "Full-body")
	b.mustContain(b.text(`#summary`), "Nothing may be planned")
}

// TestClubRule: a rule of the club is added in the form, planned with, said in
// words, and taken out; a number that is missing is asked for at its field.
func TestClubRule(t *testing.T) {
	b := open(t, desktop)
	defer b.quiet()
	first := b.plan()
	b.do(chromedp.Click(`#do-setup`, chromedp.ByQuery), chromedp.Click(`#club-add`, chromedp.ByQuery))
	js[any](b, `(() => { const f = (p) => document.querySelector('[data-club] [data-club-part="' + p + '"]');
		f('shape').value = 'at-most'; f('shape').dispatchEvent(new Event('change')); f('says').value = 'no late lifts'; f('most').value = '0'; f('hours').value = '19:00-24:00'; })()`)
	b.do(chromedp.Click(`#setup button.main`, chromedp.ByQuery))
	b.until(`document.querySelector('[data-club-part="dates"][aria-invalid]') !== null`)
	js[any](b, `document.querySelector('[data-club-part="dates"]').value = '7'`)
	b.do(chromedp.Click(`#setup button.main`, chromedp.ByQuery))
	b.until(`!document.getElementById('panel').open && document.documentElement.dataset.plan !== '` + first + `'`)
	b.do(chromedp.Click(`#do-setup`, chromedp.ByQuery))
	b.mustContain(b.text("#setup .club"), "no late lifts. At most 0 in any 7 dates: session between 19:00 and 24:00; a limit")
	b.do(chromedp.Click(`#setup .club button`, chromedp.ByQuery), chromedp.Click(`#setup button.main`, chromedp.ByQuery))
	b.until(`document.documentElement.dataset.plan === '` + first + `'`)
}

// TestProgress: while the plan explains itself, the bar says how far it is, with
// numbers that only grow; where nobody knows, it says nothing.
func TestProgress(t *testing.T) {
	b := open(t, desktop)
	defer b.quiet()
	told := js[[]struct {
		What     string
		Done, Of int
		Bar      float64 // -1: how far is not known
	}](b, `(async () => {
		const told = [], stage = weft.App.stage;
		weft.App.stage = function (What, Done, Of) { stage.call(this, What, Done, Of); told.push({What, Done, Of, Bar: document.getElementById('busy-bar').position}); };
		await weft.App.demo();
		weft.App.stage = stage;
		return told;
	})()`)
	known, last := 0, -1
	for _, x := range told {
		switch {
		case x.Of == 0 && x.Bar != -1:
			t.Errorf("%s: the bar claims %.2f", x.What, x.Bar)
		case x.Of > 0:
			if x.Done < last || x.Done > x.Of || x.Bar != float64(x.Done)/float64(x.Of) {
				t.Errorf("%s: %d of %d after %d, the bar is at %.2f", x.What, x.Done, x.Of, last, x.Bar)
			}
			known, last = known+1, x.Done
		}
	}
	if known < 20 || len(told) == known || last != told[len(told)-1].Of {
		t.Errorf("%d of %d steps had numbers, the last %d", known, len(told), last)
	}
}

// TestStop ends what is being done, and goes on with what was there.
func TestStop(t *testing.T) {
	b := open(t, desktop)
	defer b.quiet()
	first := b.plan()
	got := js[string](b, `(async () => { const asked = weft.App.engine.call('plan').then(() => 'answered', (e) => e.constructor.name); await weft.App.stop(); return asked; })()`)
	if got != "Stopped" {
		t.Errorf("the call was %s", got)
	}
	js[any](b, `weft.App.propose('move', {id: 'g09', do: 'move', to: '2026-10-16T19:30'})`)
	b.titled("Change slip")
	if b.plan() != first {
		t.Error("another plan")
	}
}

package main

// A view is a state of the page that somebody looks at.
type view struct {
	name string
	show func(b *tab)
}

// scope is the part of the page that the view has made: the panel, or all.
func (v view) scope() string {
	if v.name == "plan" || v.name == "weeks" || v.name == "bad" || v.name == "marked" {
		return "document"
	}
	return "document.getElementById('panel')"
}

// find finds the first session of a kind from a date on.
const find = `const find = (date, kind) => { for (const w of weft.App.view.weeks) for (const d of w.days) if (d.date >= date) { const i = (d.items || []).find((i) => i.kind === kind); if (i) return i.id; } };`

var views = []view{
	{"plan", func(b *tab) { js[any](b, `weft.Panel.close(); scrollTo(0, 0)`) }},
	{"weeks", func(b *tab) {
		js[any](b, `document.querySelector('#grid [data-date="2026-10-13"]').scrollIntoView({block: 'center'})`)
	}},
	{"session", func(b *tab) {
		js[any](b, `(async () => { `+find+` await weft.App.open('session', find('2026-10-15', 'full-body')); })()`)
	}},
	{"today", func(b *tab) {
		js[any](b, `(async () => { const d = document.querySelector('.report'); d.open = true; document.getElementById('sore-region').value = 'adductors'; d.querySelector('form').requestSubmit(); })()`)
		b.until(`document.querySelector('.today h4') !== null`)
		js[any](b, `document.querySelector('.report').scrollIntoView()`)
	}},
	{"date", func(b *tab) {
		js[any](b, `(async () => { weft.Panel.close(); await weft.App.open('date', '2026-10-17'); })()`)
	}},
	{"game", func(b *tab) {
		js[any](b, `(async () => { weft.Panel.close(); await weft.App.open('game', 'g09'); })()`)
	}},
	{"slip", func(b *tab) {
		js[any](b, `(async () => { weft.Panel.close(); await weft.App.propose('move', {id: 'g09', do: 'move', to: '2026-10-16T19:30'}); })()`)
	}},
	{"open", func(b *tab) { js[any](b, `weft.Panel.close(); weft.Files.show()`) }},
	{"bad", func(b *tab) {
		js[any](b, `(async () => { weft.Panel.close(); await weft.App.openFiles([{name: 'odd.csv', text: 'date,time,tz\n2026-13-41,25:00,Nowhere/Land\n'}], {}); })()`)
	}},
	{"setup", func(b *tab) { js[any](b, `document.getElementById('trouble').hidden = true; weft.Setup.show()`) }},
	{"rules", func(b *tab) {
		js[any](b, `document.querySelector('#setup details').open = true; document.querySelector('#setup details').scrollIntoView()`)
	}},
	{"club", func(b *tab) {
		js[any](b, `(() => { document.getElementById('club-add').click(); document.getElementById('club-add').scrollIntoView({block: 'end'}); })()`)
	}},
	{"print", func(b *tab) { js[any](b, `weft.Panel.close(); weft.Print.chooser()`) }},
	{"marked", func(b *tab) { // the last: it changes the plan
		js[any](b, `(async () => { `+find+` await weft.App.open('session', find('2026-10-15', 'full-body')); document.querySelector('.report').open = true;
			document.getElementById('sore-region').value = 'adductors'; document.querySelector('.report form').requestSubmit(); })()`)
		b.until(`document.getElementById('day-confirm') !== null`)
		js[any](b, `document.getElementById('day-confirm').click()`)
		b.until(`!document.getElementById('panel').open && document.querySelector('#grid .mark.state') !== null`)
		js[any](b, `document.querySelector('#grid [data-date="2026-10-13"]').scrollIntoView({block: 'center'})`)
	}},
}

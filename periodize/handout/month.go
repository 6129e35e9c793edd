package handout

import (
	"fmt"
	"slices"
	"strings"

	"example.org/weft/calendar"
	"example.org/weft/internal/say"
	"example.org/weft/periodize/season"
)

// Month is the athlete's month: each date with its games, sessions and what else
// is fixed. Any date of the month says which; the error is a *[season.InputError]
// for one that the plan does not have.
func (b *Book) Month(in calendar.Date) (Sheet, error) {
	if !b.plan.Period.Contains(in) {
		return Sheet{}, b.outside(in)
	}
	title := fmt.Sprintf("%s %d", say.Month(in), year(in))
	if p, ok := b.refused(); ok {
		return b.sheet("month", title, p), nil
	}
	first := in.AddDays(1 - say.DayOf(in))
	last := first.AddDays(27)
	for say.DayOf(last.AddDays(1)) != 1 {
		last = last.AddDays(1)
	}
	from, to := calendar.Later(first, b.plan.Period.From), calendar.Earlier(last, b.plan.Period.To)
	g := monthGrid{b: b, first: from, last: to} // weeks without a planned date are left out
	return b.sheet("month", title, page{paragraph(b.sums(from, to)), g, b.kindKey(from, to)}), nil
}

// Months are the first dates of the plan in each of its months.
func (b *Book) Months() []calendar.Date {
	var out []calendar.Date
	for d := b.plan.Period.From; !d.After(b.plan.Period.To); d = d.AddDays(1) {
		if len(out) == 0 || say.DayOf(d) == 1 {
			out = append(out, d)
		}
	}
	return out
}

// sums counts what some dates hold.
func (b *Book) sums(from, to calendar.Date) string {
	games, n, sessions := 0, map[season.Kind]int{}, 0
	for _, g := range b.games {
		if !g.Date.Before(from) && !g.Date.After(to) {
			games++
		}
	}
	for _, s := range b.plan.Sessions {
		if !s.Date.Before(from) && !s.Date.After(to) {
			n[s.Kind]++
			sessions++
		}
	}
	var kinds []string
	for _, k := range season.Kinds() {
		if n[k] > 0 {
			kinds = append(kinds, fmt.Sprintf("%d %s", n[k], say.Kind(k)))
		}
	}
	out := fmt.Sprintf("%s, %s", say.Count(games, "game"), say.Count(sessions, "session"))
	if len(kinds) > 0 {
		out += ": " + strings.Join(kinds, ", ")
	}
	return out + "."
}

// monthGrid is a row a week and a cell a date.
type monthGrid struct {
	b           *Book
	first, last calendar.Date
}

func (g monthGrid) html(m *markup) {
	m.open("table", "class", "grid")
	start := calendar.WeekStart(g.first, g.b.first)
	m.open("thead")
	m.open("tr")
	for i := range 7 {
		m.el("th", start.AddDays(i).Weekday().String(), "scope", "col")
	}
	m.close("tr")
	m.close("thead")
	m.line()
	m.open("tbody")
	for from := start; !from.After(g.last); from = from.AddDays(7) {
		m.open("tr")
		for i := range 7 {
			g.cell(m, from.AddDays(i))
		}
		m.close("tr")
		m.line()
	}
	m.close("tbody")
	m.close("table")
}

func (g monthGrid) cell(m *markup, d calendar.Date) {
	items := g.b.items(d)
	class := ""
	switch {
	case d.Before(g.first) || d.After(g.last) || !g.b.plan.Period.Contains(d):
		m.open("td", "class", "out")
		m.close("td")
		return
	case d == g.b.today:
		class = "today"
	case len(items) == 0:
		class = "free"
	}
	m.open("td", "class", class, "data-date", d.String())
	m.open("p", "class", "num")
	m.el("span", say.Weekday(d)+" ", "class", "wd")
	m.text(itoa(say.DayOf(d)))
	if d == g.b.today {
		m.el("span", " now", "class", "nowword")
	}
	m.close("p")
	for _, x := range items {
		g.b.itemHTML(m, x, true)
	}
	m.close("td")
}

// itemHTML writes one thing of a date; short leaves out what a month has no room
// for.
func (b *Book) itemHTML(m *markup, x item, short bool) {
	switch {
	case x.session != nil:
		m.open("div", "class", "it se", "data-session", x.session.ID)
		m.markOf(x.session.Kind)
	case x.game != nil:
		class := "it ga"
		if x.game.Active() && x.game.Status.Settled() != calendar.Confirmed && x.game.Status.Settled() != calendar.Played {
			class += " open"
		}
		m.open("div", "class", class, "data-event", x.game.ID)
	default:
		m.open("div", "class", "it")
	}
	what := x.what
	if short && x.session != nil && x.session.Kind == season.Trimmed {
		what = "trimmed" // the key has the rest
	}
	m.el("b", what)
	if x.when != "" {
		m.el("span", " "+x.when, "class", "when")
	}
	if x.note != "" && (!short || x.game != nil || x.session != nil) {
		m.el("span", " "+x.note, "class", "note")
	}
	m.close("div")
}

// markOf draws the mark of a kind at the size of a word.
func (m *markup) markOf(k season.Kind) {
	m.open("svg", "class", "mark", "viewBox", "0 0 10 16", "width", "10", "height", "16", "aria-hidden", "true")
	m.sessionMark(k, box{1, 1, 8, 14})
	m.close("svg")
}

func (g monthGrid) text(l *say.Page) {
	start := calendar.WeekStart(g.first, g.b.first)
	for d := calendar.Later(g.first, g.b.plan.Period.From); !d.After(calendar.Earlier(g.last, g.b.plan.Period.To)); d = d.AddDays(1) {
		if d.DaysSince(start)%7 == 0 || d == g.b.plan.Period.From || d == g.first {
			l.Line("")
		}
		label := say.Pad("  "+say.Weekday(d)+" "+itoa(say.DayOf(d)), 10)
		if d == g.b.today {
			label = say.Pad("> "+say.Weekday(d)+" "+itoa(say.DayOf(d)), 10)
		}
		rows := g.b.dateRows(d)
		if len(rows) == 0 {
			rows = []string{"-"}
		}
		for _, r := range rows {
			l.Hang(label, r)
			label = say.Pad("", 10)
		}
	}
	nowLine(l, g.b.today, g.first, g.last)
}

// keyBlock explains marks below a grid.
type keyBlock []keyEntry

// kindKey explains the kinds of session that some dates hold.
func (b *Book) kindKey(from, to calendar.Date) keyBlock {
	var kinds []season.Kind
	for _, s := range b.plan.Sessions {
		if !s.Date.Before(from) && !s.Date.After(to) {
			kinds = append(kinds, s.Kind)
		}
	}
	return keyOf(kinds)
}

// keyOf explains kinds of session, each once and in their fixed order.
func keyOf(kinds []season.Kind) (out keyBlock) {
	for _, k := range season.Kinds() {
		if slices.Contains(kinds, k) {
			out = append(out, keyEntry{func(m *markup) { m.sessionMark(k, box{4, 1, 8, 14}) }, kindLetter(k), say.Kind(k), kindMeaning(k)})
		}
	}
	return out
}

func (x keyBlock) html(m *markup) {
	if len(x) == 0 {
		return
	}
	m.open("ul", "class", "key", "aria-label", "Key")
	for _, k := range x {
		k.html(m)
	}
	m.close("ul")
}

func (k keyEntry) html(m *markup) {
	m.open("li")
	if k.draw != nil {
		m.open("svg", "viewBox", "0 0 16 16", "width", "16", "height", "16", "aria-hidden", "true")
		k.draw(m)
		m.close("svg")
	}
	m.open("span")
	m.el("b", k.word)
	if k.meaning != "" {
		m.text(" " + k.meaning)
	}
	m.close("span")
	m.close("li")
}

func (x keyBlock) text(l *say.Page) {
	var parts []string
	for _, k := range x {
		parts = append(parts, k.word+": "+k.meaning)
	}
	if len(parts) > 0 {
		l.Line("")
		l.Hang("Key  ", strings.Join(parts, "; "))
	}
}

package handout

import (
	"strings"

	"example.org/weft/calendar"
	"example.org/weft/internal/say"
	"example.org/weft/periodize/season"
)

// Week is the athlete's card of one week: every date with times, places and the
// reason of each session, and a box to tick. Any date of the week says which;
// the error is a *[season.InputError] for one that the plan does not have.
func (b *Book) Week(in calendar.Date) (Sheet, error) {
	if !b.plan.Period.Contains(in) {
		return Sheet{}, b.outside(in)
	}
	from, to := b.weekOf(in)
	title := "Week " + say.BetweenYear(from, to)
	if p, ok := b.refused(); ok {
		return b.sheet("week", title, p), nil
	}
	missed := more(b.missedIn(from, to), 4)
	room := weekRoom[b.opt.Paper] - 6*len(missed)
	var end page
	if len(missed) > 0 {
		end = page{heading("Not possible this week"), missed}
	}
	days := weekDays{b: b, from: from, to: to, high: dayHigh}
	if days.height() > room {
		days.high = dayLow
	}
	pages := []page{{paragraph(b.sums(from, to))}}
	for _, part := range days.split(room) {
		if last := len(pages) - 1; last == 0 && len(pages[0]) == 1 {
			pages[0] = append(pages[0], part)
			continue
		}
		pages = append(pages, page{part})
	}
	pages[len(pages)-1] = append(pages[len(pages)-1], end...)
	for i := range pages {
		pages[i] = append(pages[i], b.kindKey(from, to))
	}
	return b.sheet("week", title, pages...), nil
}

// weekRoom is the height that a page has for dates, in millimetres: the rest is
// head, sums, key and foot. Measured in print.
var weekRoom = [...]int{A4: 200, Letter: 182}

// The least height of a date in print: easy on the eye, and where that is too
// much.
const (
	dayHigh = 25
	dayLow  = 17
)

// Weeks are the first dates of the plan in each of its weeks.
func (b *Book) Weeks() []calendar.Date {
	var out []calendar.Date
	for from := b.plan.Period.From; !from.After(b.plan.Period.To); {
		out = append(out, from)
		_, to := b.weekOf(from)
		from = to.AddDays(1)
	}
	return out
}

// weekDays is a row a date.
type weekDays struct {
	b        *Book
	from, to calendar.Date
	high     int // of a date at least
}

// dayHeight is about how many millimetres a date takes in print.
func (w weekDays) dayHeight(d calendar.Date) int {
	out := 7
	for _, x := range w.b.items(d) {
		out += 6
		if x.session != nil && (x.note != "" || len(w.b.reason(x)) > 62) {
			out += 5
		}
		out += 5 * (len(x.note) / 48)
	}
	return max(out, w.high)
}

func (w weekDays) height() (sum int) {
	for d := w.from; !d.After(w.to); d = d.AddDays(1) {
		sum += w.dayHeight(d)
	}
	return sum
}

// split parts the dates so that each part fits on a page.
func (w weekDays) split(room int) (out []weekDays) {
	part, sum := w, 0
	for d := w.from; !d.After(w.to); d = d.AddDays(1) {
		h := w.dayHeight(d)
		if sum > 0 && sum+h > room {
			part.to = d.AddDays(-1)
			out = append(out, part)
			part, sum = w, 0
			part.from = d
		}
		sum += h
	}
	return append(out, part)
}

func (w weekDays) html(m *markup) {
	class := "days"
	if w.high == dayLow {
		class = "days close"
	}
	m.open("div", "class", class)
	for d := w.from; !d.After(w.to); d = d.AddDays(1) {
		items := w.b.items(d)
		class := "day"
		if d == w.b.today {
			class += " today"
		}
		m.open("section", "class", class, "data-date", d.String())
		m.open("h2")
		m.el("span", say.Weekday(d), "class", "wd")
		m.el("span", itoa(say.DayOf(d)), "class", "dn")
		m.el("span", say.Month(d)[:3], "class", "wd")
		if d == w.b.today {
			m.el("span", "now", "class", "nowword")
		}
		m.close("h2")
		m.open("div")
		if len(items) == 0 {
			m.el("p", "free", "class", "none")
		}
		for _, x := range items {
			w.row(m, x)
		}
		m.close("div")
		m.close("section")
		m.line()
	}
	m.close("div")
}

func (w weekDays) row(m *markup, x item) {
	class, data, id := "row", "", ""
	switch {
	case x.session != nil:
		class, data, id = "row se", "data-session", x.session.ID
	case x.game != nil:
		class, data, id = "row ga", "data-event", x.game.ID
	}
	if data == "" {
		m.open("div", "class", class)
	} else {
		m.open("div", "class", class, data, id)
	}
	m.el("span", x.when, "class", "when")
	m.open("span", "class", "what")
	if x.session != nil {
		m.markOf(x.session.Kind)
	}
	m.el("b", x.what)
	m.close("span")
	m.open("span", "class", "note")
	m.text(x.note)
	if x.session != nil {
		m.el("span", w.b.reason(x), "class", "why")
	}
	m.close("span")
	if x.session != nil {
		m.open("span", "class", "tickbox", "aria-hidden", "true")
		m.close("span")
	}
	m.close("div")
}

// reason is why a session stands where it does, with what it is before.
func (b *Book) reason(x item) string {
	var parts []string
	if t := b.toGame(x.session); t != "" {
		parts = append(parts, t)
	}
	if w := whyWords(x.session); w != "" {
		parts = append(parts, w)
	}
	lead := itoa(x.session.Minutes) + " min"
	return strings.Join(append([]string{lead}, parts...), ", ")
}

func (w weekDays) text(l *say.Page) {
	for d := w.from; !d.After(w.to); d = d.AddDays(1) {
		label := "  " + say.Pad(say.Day(d), 12)
		if d == w.b.today {
			label = "> " + say.Pad(say.Day(d), 12)
		}
		items := w.b.items(d)
		if len(items) == 0 {
			l.Line(label + "free")
		}
		for _, x := range items {
			tick, rest := "    ", []string{}
			if x.note != "" {
				rest = append(rest, x.note)
			}
			if x.session != nil {
				tick = "[ ] "
				rest = append(rest, w.b.reason(x))
			}
			l.Hang(label+tick+say.Pad(x.when, 13)+say.Pad(x.what, 18)+" ", strings.Join(rest, ", "))
			label = say.Pad("", 14)
		}
	}
	nowLine(l, w.b.today, w.from, w.to)
}

// nowLine explains the mark of the date of now, where it stands.
func nowLine(l *say.Page, today, from, to calendar.Date) {
	if !today.IsZero() && !today.Before(from) && !today.After(to) {
		l.Line("> is the date up to which the plan is fixed")
	}
}

// shortWhy is the phrase of a reason where its numbers stand beside it already.
var shortWhy = map[string]string{
	"why-first-full-body":  "first full-body of the week",
	"why-second-full-body": "second full-body of the week",
	"why-full-body-open":   "no game known after it",
	"why-extra-full-body":  "room for one more",
	"why-trimmed":          "one set less so near the game",
	"why-trimmed-after":    "one set less so soon after the game",
	"why-trimmed-hard":     "one set less beside a hard practice",
	"why-trimmed-short":    "one set less for want of time",
	"why-primer":           "fresh for the game",
	"why-primer-late":      "fresh for the game, a little late",
	"why-recovery-after":   "the day after the game",
	"why-recovery-between": "easy and short between two games",
	"why-recovery-count":   "easy work of the week",
	"why-recovery-run":     "so that the pause does not get long",
	"why-post-game":        "straight after the game",
	"why-post-game-open":   "straight after the game",
	"why-eccentric":        "first half of the break",
	"why-second-lift":      "second lift of the week",
	"why-short-exam":       "short because of the exam",
	"why-pinned":           "fixed by the coach",
}

// telling orders the reasons of which one is shown: a lower one says more.
var telling = map[string]int{
	"why-pinned": -4, "why-short-exam": -3, "why-trimmed": -2, "why-trimmed-after": -2, "why-trimmed-hard": -2, "why-trimmed-short": -2, "why-eccentric": -1,
}

// whyWords is the one short phrase of a session, "" for a reason that has none.
func whyWords(s *season.Session) string {
	best := -1
	for i, n := range s.Why {
		if shortWhy[n.Code] != "" && (best < 0 || telling[n.Code] < telling[s.Why[best].Code]) {
			best = i
		}
	}
	if best < 0 {
		return ""
	}
	return shortWhy[s.Why[best].Code]
}

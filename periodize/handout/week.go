package handout

import (
	"strings"

	"example.org/weft/calendar"
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
	title := "Week " + betweenYear(from, to)
	if p, ok := b.refused(); ok {
		return b.sheet("week", title, p), nil
	}
	p := page{paragraph(b.sums(from, to)), weekDays{b, from, to}}
	if missed := b.missedIn(from, to); len(missed) > 0 {
		p = append(p, heading("Not possible this week"), more(missed, 4))
	}
	return b.sheet("week", title, append(p, b.kindKey(from, to))), nil
}

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
}

func (w weekDays) html(m *markup) {
	m.open("div", "class", "days")
	for d := w.from; !d.After(w.to); d = d.AddDays(1) {
		items := w.b.items(d)
		class := "day"
		if d == w.b.today {
			class += " today"
		}
		m.open("section", "class", class, "data-date", d.String())
		m.open("h2")
		m.el("span", weekday(d), "class", "wd")
		m.el("span", itoa(dayOf(d)), "class", "dn")
		m.el("span", monthName(d)[:3], "class", "wd")
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

func (w weekDays) text(l *lines) {
	for d := w.from; !d.After(w.to); d = d.AddDays(1) {
		label := "  " + pad(dayText(d), 12)
		if d == w.b.today {
			label = "> " + pad(dayText(d), 12)
		}
		items := w.b.items(d)
		if len(items) == 0 {
			l.line(label + "free")
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
			l.hang(label+tick+pad(x.when, 13)+pad(x.what, 18)+" ", strings.Join(rest, ", "))
			label = pad("", 14)
		}
	}
	nowLine(l, w.b.today, w.from, w.to)
}

// nowLine explains the mark of the date of now, where it stands.
func nowLine(l *lines, today, from, to calendar.Date) {
	if !today.IsZero() && !today.Before(from) && !today.After(to) {
		l.line("> is the date up to which the plan is fixed")
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

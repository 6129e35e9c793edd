package handout

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/internal/say"
	"example.org/weft/periodize/season"
)

// item is one thing on a date, as all sheets word it.
type item struct {
	at      time.Time
	rank    int // of what begins at once
	what    string
	when    string // "18:30-20:00", "all day"
	note    string // the opponent, the place
	game    *calendar.Placed
	session *season.Session
}

// items is what a date holds, in order of time.
func (b *Book) items(d calendar.Date) []item {
	t := b.at(d)
	var out []item
	for i := range t.games {
		out = append(out, b.gameItem(&t.games[i]))
	}
	for _, e := range t.events {
		out = append(out, b.eventItem(e, d))
	}
	for _, s := range t.sessions {
		out = append(out, b.sessionItem(s))
	}
	slices.SortStableFunc(out, func(x, y item) int {
		return cmp.Or(x.at.Compare(y.at), cmp.Compare(x.rank, y.rank), strings.Compare(x.what, y.what), strings.Compare(x.note, y.note))
	})
	return out
}

func (b *Book) gameItem(g *calendar.Placed) item {
	x := item{at: g.Span.Start, rank: 1, what: "GAME", game: g, note: b.where(*g)}
	if marks := gameMarks(*g); marks != "" {
		x.note += ", " + marks
	}
	switch {
	case !g.Active():
		x.what = "no game"
	case !g.DateOnly:
		t := b.gameThere(*g)
		x.when = t.clocks()
		if g.EndAssumed {
			x.when += "?"
		}
		if t.other {
			x.note += ", " + t.note()
		}
	}
	return x
}

// eventItem words an event as it shows on one of its dates.
func (b *Book) eventItem(e calendar.Placed, d calendar.Date) item {
	x := item{at: e.Span.Start, what: eventWord(e.Event)}
	if e.Title != "" || e.Opponent != "" {
		x.note = b.name(e)
	}
	day := b.zone.DaySpan(d)
	begins, ends := e.Span.Start.After(day.Start), e.Span.End.Before(day.End)
	if !begins {
		x.at = day.Start
	}
	switch {
	case !begins && !ends:
		x.when = "all day"
	case !ends:
		x.when = "from " + b.clock(e.Span.Start)
	case !begins && e.Span.Start.Before(day.Start):
		x.when = "to " + b.clock(e.Span.End)
	default:
		x.when = b.clocks(e.Span.Start, e.Span.End)
		if e.DateOnly {
			x.when += "?"
		}
	}
	return x
}

func (b *Book) sessionItem(s *season.Session) item {
	t := b.sessionThere(s)
	x := item{at: s.Start, rank: 2, what: say.Kind(s.Kind), when: t.clocks(), session: s}
	var notes []string
	if t.other {
		notes = append(notes, t.note())
	}
	if s.Place != "" && s.Place != b.usual {
		notes = append(notes, say.Clip(s.Place, 24))
	}
	if w := stateWord(s.State); w != "" {
		notes = append(notes, w)
	}
	x.note = strings.Join(notes, ", ")
	return x
}

// toGame counts from the end of a session to the next game.
func (b *Book) toGame(s *season.Session) string {
	g, ok := b.next(s.Start)
	if !ok {
		return ""
	}
	return say.ToGame(g.Span.Start.Sub(s.End), b.name(g))
}

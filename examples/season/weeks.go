package main

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/internal/say"
	"example.org/weft/periodize/season"
)

// Columns of a line of a week: date, what, when, how long, and the rest.
const (
	dateColumn = 13
	whatColumn = 18
	timeColumn = 13
	longColumn = 7
	restColumn = dateColumn + whatColumn + timeColumn + longColumn
)

// row is one thing on a date.
type row struct {
	at               time.Time
	rank             int // of what begins at once
	what, when, long string
	rest             string
	more             []string // lines of their own below
}

// weeks prints the plan date by date.
func (s *sheet) weeks() {
	byDate := s.rows()
	period := s.plan.Period
	first := time.Weekday(s.in.rules.Value("week-start"))
	n := 0
	for from := period.From; !from.After(period.To); {
		next := calendar.WeekStart(from, first).AddDays(7)
		to := next.AddDays(-1)
		if to.After(period.To) {
			to = period.To
		}
		n++
		s.Line("")
		left := say.Pad(fmt.Sprintf("Week %-3d %s", n, say.BetweenYear(from, to)), dateColumn+whatColumn) + s.summary(from, to)
		if b := s.breaksIn(from, to); len(b) > 0 {
			s.Hang(left+"  BREAK ", listed(b, len(b)))
		} else {
			s.Line(left)
		}
		for d := from; !d.After(to); d = d.AddDays(1) {
			s.date(d, byDate[d])
		}
		from = next
	}
}

// summary counts what a week holds.
func (s *sheet) summary(from, to calendar.Date) string {
	games, lifts, full, recovery := 0, 0, 0, 0
	for _, g := range s.games {
		if !g.Date.Before(from) && !g.Date.After(to) {
			games++
		}
	}
	for _, x := range s.plan.Sessions {
		if x.Date.Before(from) || x.Date.After(to) {
			continue
		}
		if x.Kind == season.Recovery {
			recovery++
		}
		if x.Kind.Lift() {
			lifts++
		}
		if x.Kind.HeavyLowerBody() {
			full++
		}
	}
	return fmt.Sprintf("%-9s %s, %d full-body, %d recovery", say.Count(games, "game"), say.Count(lifts, "lift"), full, recovery)
}

// breaksIn names the breaks that reach into some dates.
func (s *sheet) breaksIn(from, to calendar.Date) (out []string) {
	for _, r := range s.breaks() {
		if !r.From.After(to) && !r.To.Before(from) {
			out = append(out, say.Between(r.From, r.To))
		}
	}
	return out
}

// breaks are the runs long enough to be one.
func (s *sheet) breaks() []calendar.Run {
	return slices.DeleteFunc(s.runs(), func(r calendar.Run) bool { return r.Class != calendar.Break })
}

func (s *sheet) date(d calendar.Date, rows []row) {
	label := "  " + say.Day(d)
	if len(rows) == 0 {
		free := row{what: "-"}
		for _, r := range s.breaks() {
			if !d.Before(r.From) && !d.After(r.To) {
				free.what = "- (break)"
			}
		}
		rows = []row{free}
	}
	slices.SortStableFunc(rows, func(a, b row) int {
		return cmp.Or(a.at.Compare(b.at), cmp.Compare(a.rank, b.rank), strings.Compare(a.what, b.what), strings.Compare(a.rest, b.rest))
	})
	for _, r := range rows {
		left := say.Pad(label, dateColumn) + say.Pad(say.Clip(r.what, whatColumn-1), whatColumn) + say.Pad(r.when, timeColumn) + say.Pad(r.long, longColumn)
		if r.rest == "" {
			s.Line(left)
		} else {
			s.Hang(left, r.rest)
		}
		for _, m := range r.more {
			s.Hang(strings.Repeat(" ", restColumn)+"| ", m)
		}
		label = ""
	}
}

// rows gathers events and sessions by date.
func (s *sheet) rows() map[calendar.Date][]row {
	out := map[calendar.Date][]row{}
	for _, e := range s.in.placed {
		switch {
		case e.Kind == calendar.Game:
			out[e.Date] = append(out[e.Date], s.gameRow(e))
		case e.Active():
			s.eventRows(e, out)
		}
	}
	for _, p := range s.in.request.Places {
		for _, c := range p.Closed {
			d := calendar.Later(c.From, s.plan.Period.From)
			r := row{at: s.zone.DayStart(d), rank: -1, what: "closed", when: "all day", rest: say.Clip(p.ID, 40)}
			if c.To.After(d) {
				r.when = "until " + say.Between(c.To, c.To)
			}
			if !c.To.Before(d) {
				out[d] = append(out[d], r)
			}
		}
	}
	for i := range s.plan.Sessions {
		x := &s.plan.Sessions[i]
		out[x.Date] = append(out[x.Date], s.sessionRow(x))
	}
	return out
}

func (s *sheet) gameRow(e calendar.Placed) row {
	r := row{at: e.Span.Start, rank: 1, what: "GAME", when: timesThere(e)}
	parts := []string{say.Where(s.name(e), e.Home)}
	if e.Competition != "" {
		parts = append(parts, say.Clip(e.Competition, 24))
	}
	if e.Importance == calendar.Important {
		parts = append(parts, "important")
	}
	switch e.Status.Settled() {
	case calendar.Postponed, calendar.Cancelled:
		r.what = string(e.Status)
		r.when = ""
	case calendar.Provisional:
		parts = append(parts, "provisional")
	case calendar.IfNecessary:
		parts = append(parts, "only if necessary")
	}
	if e.DateOnly {
		r.when = "time open"
		if e.Active() {
			parts = append(parts, strings.TrimSuffix(timesThere(e), "?")+" kept free")
		}
	} else {
		if x := s.otherClock(e.Zone, e.Span.Start, e.Span.End); x != "" && r.when != "" {
			parts = append(parts, x)
		}
		if end := e.Zone.Local(e.Span.End); e.Active() && end.Date.After(e.Date) && end.Clock > 0 {
			parts = append(parts, "ends after midnight")
		}
	}
	r.rest = strings.Join(parts, ", ")
	return r
}

func (s *sheet) sessionRow(x *season.Session) row {
	r := row{at: x.Start, rank: 2, what: say.Kind(x.Kind), when: s.clocks(x.Start, x.End), long: fmt.Sprintf("%d min", x.Minutes)}
	var parts []string
	if t := s.toGame(x); t != "" {
		parts = append(parts, t)
	}
	if w := whyWords(x); w != "" {
		parts = append(parts, w)
	}
	if x.Place != "" && x.Place != s.usual {
		parts = append(parts, say.Clip(x.Place, 20))
	}
	if x.Local != nil {
		r.when = say.Clocks(x.Local.Start.Clock, x.Local.End.Clock)
		parts = append(parts, s.here(x.Local.Zone, x.Local.Start, x.Start, x.End))
	}
	switch x.State {
	case season.DoneState:
		parts = append(parts, "done")
	case season.Eased, season.Swapped, season.Held:
		parts = append(parts, "modified") // never why
	}
	r.rest = s.noteText(season.Note{Text: strings.Join(parts, ", ")})
	if l := s.in.lifts[x.ID]; l != "" {
		r.more = append(r.more, l)
	}
	if s.verbose {
		for _, n := range x.Why {
			r.more = append(r.more, s.noteText(n))
		}
	}
	return r
}

// toGame counts from the end of a session to the next game.
func (s *sheet) toGame(x *season.Session) string {
	for _, g := range s.games {
		if !g.Span.Start.After(x.Start) {
			continue
		}
		return say.ToGame(g.Span.Start.Sub(x.End), s.name(g))
	}
	return ""
}

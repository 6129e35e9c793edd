package handout

import (
	"fmt"
	"strings"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/internal/say"
	"example.org/weft/periodize/season"
)

// How much of each thing half a page has room for. Measured in print.
const (
	coachDates   = 14
	coachGames   = 5
	coachMissed  = 3
	coachAsked   = 2
	coachClipped = 150
)

// Coach is the head coach's half page: two weeks from the week of a date, what
// the gym does around each game, what could not be had and what is to be
// decided. It says nothing about health. The error is a *[season.InputError] for
// a date that the plan does not have.
func (b *Book) Coach(in calendar.Date) (Sheet, error) {
	if !b.plan.Period.Contains(in) {
		return Sheet{}, b.outside(in)
	}
	from, _ := b.weekOf(in)
	to := calendar.Earlier(calendar.WeekStart(from, b.first).AddDays(coachDates-1), b.plan.Period.To)
	title := "For the head coach, " + say.BetweenYear(from, to)
	if p, ok := b.refused(); ok {
		return b.sheet("half", title, p), nil
	}
	p := page{paragraph(b.sums(from, to)), b.around(from, to), heading("In the gym"), b.gym(from, to)}
	if missed := b.missedIn(from, to); len(missed) > 0 {
		p = append(p, heading("Could not be had"), more(missed, coachMissed))
	}
	var asked []string
	for _, n := range b.plan.Questions {
		asked = append(asked, say.Clip(n.Text, coachClipped))
	}
	if len(asked) > 0 {
		p = append(p, heading("To decide"), more(asked, coachAsked))
	}
	return b.sheet("half", title, append(p, b.kindKey(from, to))), nil
}

// around says for each game what the gym does before it.
func (b *Book) around(from, to calendar.Date) block {
	t := table{head: []string{"Game", "Last heavy leg work ends", "Primer"}}
	left := 0
	for _, g := range b.games {
		if g.Date.Before(from) || g.Date.After(to) {
			continue
		}
		if len(t.rows) == coachGames {
			left++
			continue
		}
		heavy, primer := b.before(g)
		when := say.Day(g.Date) + " " + say.Clock(b.gameThere(g).start.Clock)
		if g.DateOnly {
			when = say.Day(g.Date)
		}
		name := when + " " + b.where(g)
		if marks := gameMarks(g); marks != "" {
			name += ", " + marks
		}
		t.rows = append(t.rows, []string{name, heavy, primer})
	}
	switch {
	case len(t.rows) == 0:
		return paragraph("No game is known in these weeks.")
	case left > 0:
		t.rows = append(t.rows, []string{"and " + itoa(left) + " more", "", ""})
	}
	return t
}

// before finds the last heavy leg work and the primer before a game, after the
// game before it.
func (b *Book) before(g calendar.Placed) (heavy, primer string) {
	heavy, primer = "none planned", "none"
	for i := range b.plan.Sessions {
		s := &b.plan.Sessions[i]
		if s.End.After(g.Span.Start) {
			break
		}
		switch {
		case s.HeavyLowerBody:
			heavy = fmt.Sprintf("%d h before, %s %s", int(g.Span.Start.Sub(s.End)/time.Hour), say.Weekday(s.Date), say.Clock(b.sessionThere(s).end.Clock))
		case s.Kind == season.Primer:
			if next, ok := b.next(s.Start); ok && next.ID == g.ID {
				primer = say.Weekday(s.Date) + " " + b.sessionThere(s).clocks()
			}
		}
	}
	return heavy, primer
}

// gym lists the sessions a week.
func (b *Book) gym(from, to calendar.Date) facts {
	var out facts
	for d := from; !d.After(to); {
		first, last := b.weekOf(d)
		var parts []string
		for _, s := range b.plan.Sessions {
			if s.Date.Before(first) || s.Date.After(last) {
				continue
			}
			x := say.Weekday(s.Date) + " " + say.Clock(b.sessionThere(&s).start.Clock) + " " + say.Kind(s.Kind)
			if w := stateWord(s.State); w != "" {
				x += " (" + w + ")"
			}
			parts = append(parts, x)
		}
		if len(parts) == 0 {
			parts = []string{"no sessions"}
		}
		out = append(out, [2]string{say.Between(first, last), strings.Join(parts, "; ")})
		d = last.AddDays(1)
	}
	return out
}

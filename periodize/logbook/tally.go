package logbook

import (
	"slices"
	"strings"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

// Bounds is a count of which a part is unknown: the least and the most it can be.
type Bounds struct {
	Least, Most int
}

// Past says what is counted.
type Past struct {
	Period  season.Period
	Planned []season.Session // as issued, in any order
	Now     time.Time        // what had not ended by then is not counted
	Zone    calendar.Zone    // of the dates of the period
}

// Tally is what was done in a period, as far as it is known.
type Tally struct {
	Lifts    Bounds // lifts done; recovery sessions are none
	Sessions Bounds // all sessions done
	// EmptyRun is the longest run of dates without a session, over the dates of
	// the period that have ended. Games do not count as training.
	EmptyRun Bounds
	Missed   int
	// Unlogged are the planned sessions that are over and of which nothing is told.
	Unlogged  []season.Session
	Questions []season.Note // one for each of them
}

// Tally counts what was done. A session that was not logged, that nobody knows
// of, or of which two things are told, counts as none in the least and as one in
// the most.
func (v View) Tally(p Past) Tally {
	var t Tally
	sure, perhaps := map[calendar.Date]bool{}, map[calendar.Date]bool{}
	add := func(d calendar.Date, k season.Kind, known bool) {
		if !p.Period.Contains(d) {
			return
		}
		perhaps[d] = true
		t.Sessions.Most++
		if known {
			sure[d] = true
			t.Sessions.Least++
		}
		if k.Lift() {
			t.Lifts.Most++
			if known {
				t.Lifts.Least++
			}
		}
	}
	over := func(e *Entry) bool {
		at, ok := e.At()
		return ok && !at.After(p.Now)
	}
	told := map[string]bool{}
	v.sessions(func(e *Entry, s *Session) {
		told[s.Planned] = true
		switch {
		case !over(e):
		case s.State == Missed && p.Period.Contains(e.Date()):
			t.Missed++
		case s.State != Missed:
			add(e.Date(), s.Session, s.State == Done)
		}
	})
	for _, d := range v.Disputed {
		date, kind := calendar.Date{}, season.Kind("")
		for i := range d.Entries {
			e := &d.Entries[i]
			s, ok := e.What.(Session)
			if !ok {
				continue
			}
			told[s.Planned] = true
			// Of what it may have been, the one that counts for most.
			if s.State != Missed && over(e) && p.Period.Contains(e.Date()) && (kind == "" || s.Session.Lift() && !kind.Lift()) {
				date, kind = e.Date(), s.Session
			}
		}
		if kind != "" {
			add(date, kind, false)
		}
	}
	for _, s := range p.Planned {
		if s.ID == "" || told[s.ID] || s.End.After(p.Now) || !p.Period.Contains(s.Date) {
			continue
		}
		told[s.ID] = true
		add(s.Date, s.Kind, false)
		t.Unlogged = append(t.Unlogged, s)
	}
	slices.SortFunc(t.Unlogged, func(a, b season.Session) int {
		if c := a.Start.Compare(b.Start); c != 0 {
			return c
		}
		return strings.Compare(a.ID, b.ID)
	})
	for _, s := range t.Unlogged {
		n := note("question-unlogged", "kind", string(s.Kind), "date", s.Date)
		n.Subject = season.Subject{Session: s.ID, Dates: []calendar.Date{s.Date}}
		t.Questions = append(t.Questions, n)
	}
	t.EmptyRun = Bounds{p.longest(perhaps), p.longest(sure)}
	return t
}

// longest is the longest run of dates that have ended and on which there was
// nothing.
func (p Past) longest(filled map[calendar.Date]bool) int {
	most, run := 0, 0
	today := calendar.DateOf(p.Now, p.Zone)
	for d := p.Period.From; !d.IsZero() && !d.After(p.Period.To) && d.Before(today); d = d.AddDays(1) {
		if run++; filled[d] {
			run = 0
		}
		most = max(most, run)
	}
	return most
}

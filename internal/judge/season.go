package judge

import (
	"cmp"
	"slices"
)

// season is the input, sorted and laid out by date. Rules only read it.
type season struct {
	Input
	p        Parameters
	sessions []*session // by start
	events   []*event   // by start
	games    []*event   // by start
	days     map[int]*day
	runs     []run
	lost     map[int]bool // dates that were hardly lived
}

// session is a row of the plan with its places in the sorted and given lists.
type session struct {
	Session
	order, index int
}

// event is a row of the calendar with its place in the given list.
type event struct {
	Event
	index int
}

// day is what starts on one date, each list by start.
type day struct {
	games, practices, exams []*event // practices hold skills too
	sessions                []*session
}

func (s *session) minutes() int64 { return s.End - s.Start }

func newSeason(in Input, p Parameters) *season {
	s := &season{Input: in, p: p, days: map[int]*day{}}
	for i, e := range in.Events {
		s.events = append(s.events, &event{e, i})
	}
	slices.SortStableFunc(s.events, func(a, b *event) int { return compareEvents(a.Event, b.Event) })
	for _, e := range s.events {
		d := s.at(e.Date)
		switch e.Kind {
		case Game:
			s.games = append(s.games, e)
			d.games = append(d.games, e)
		case Practice, Skills:
			d.practices = append(d.practices, e)
		case Exam:
			d.exams = append(d.exams, e)
		}
	}
	for i, r := range in.Sessions {
		s.sessions = append(s.sessions, &session{Session: r, index: i})
	}
	slices.SortStableFunc(s.sessions, func(a, b *session) int { return compareSessions(a.Session, b.Session) })
	for i, r := range s.sessions {
		r.order = i
		d := s.at(r.Date)
		d.sessions = append(d.sessions, r)
	}
	s.lost = s.lostDates()
	s.runs = s.gameFreeRuns()
	return s
}

// at returns the day of a date for filling.
func (s *season) at(date int) *day {
	d := s.days[date]
	if d == nil {
		d = &day{}
		s.days[date] = d
	}
	return d
}

// on returns the day of a date for reading.
func (s *season) on(date int) day {
	if d := s.days[date]; d != nil {
		return *d
	}
	return day{}
}

// compareEvents is a total order up to equal rows. Of two games at one start
// the important one comes first, so that it is the earliest of its date.
func compareEvents(a, b Event) int {
	return cmp.Or(
		cmp.Compare(a.Start, b.Start),
		compareBools(b.Important, a.Important),
		cmp.Compare(a.End, b.End),
		cmp.Compare(a.Kind, b.Kind),
		cmp.Compare(a.ID, b.ID),
		cmp.Compare(a.Date, b.Date),
		cmp.Compare(a.StartClock, b.StartClock),
		cmp.Compare(a.EndClock, b.EndClock),
		compareBools(a.Hard, b.Hard),
		compareBools(a.LongHaul, b.LongHaul),
		compareBools(a.DateOnly, b.DateOnly),
	)
}

func compareSessions(a, b Session) int {
	return cmp.Or(
		cmp.Compare(a.Start, b.Start),
		cmp.Compare(a.End, b.End),
		cmp.Compare(a.Kind, b.Kind),
		cmp.Compare(a.ID, b.ID),
		cmp.Compare(a.Date, b.Date),
		cmp.Compare(a.StartClock, b.StartClock),
		cmp.Compare(a.EndClock, b.EndClock),
		cmp.Compare(a.Place, b.Place),
		compareBools(a.Forced, b.Forced),
	)
}

func compareBools(a, b bool) int {
	switch {
	case a == b:
		return 0
	case b:
		return -1
	}
	return 1
}

// judged says whether a session belongs to the period.
func (s *season) judged(r *session) bool { return s.inside(r.Date) }

func (s *season) inside(date int) bool { return s.From <= date && date <= s.To }

// lastGame returns the game with the latest end at or before an instant; of
// several with that end, the one that started last.
func (s *season) lastGame(t int64) (*event, bool) {
	var last *event
	for _, g := range s.games {
		if g.End <= t && (last == nil || g.End >= last.End) {
			last = g
		}
	}
	return last, last != nil
}

// nextGame returns the game with the earliest start after an instant.
func (s *season) nextGame(t int64) (*event, bool) {
	for _, g := range s.games {
		if g.Start > t {
			return g, true
		}
	}
	return nil, false
}

// ownGame returns the game that a post-game session follows.
func (s *season) ownGame(r *session) (*event, bool) {
	if r.Kind != PostGame {
		return nil, false
	}
	return s.lastGame(r.Start)
}

// between says whether a session starts between two games that are nearer than so
// much, end to start, and returns the second.
func (s *season) between(r *session, near int64) (*event, bool) {
	first, before := s.lastGame(r.Start)
	next, after := s.nextGame(r.Start)
	if before && after && next.Start-first.End < near {
		return next, true
	}
	return nil, false
}

// calendarFree says whether a date has no game, practice or skills, and was lived.
func (s *season) calendarFree(date int) bool {
	d := s.on(date)
	return len(d.games) == 0 && len(d.practices) == 0 && !s.lost[date]
}

// count returns how many sessions of the dates from..to satisfy the condition.
func (s *season) count(from, to int, counts func(*session) bool) int {
	n := 0
	for d := from; d <= to; d++ {
		for _, r := range s.on(d).sessions {
			if counts(r) {
				n++
			}
		}
	}
	return n
}

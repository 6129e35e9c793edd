package judge

// finding is where a session breaks a limit.
type finding struct {
	event    *event // nil: none
	from, to int    // dates
}

// here is a finding on the date of the session.
func (r *session) here(e *event) finding { return finding{e, r.Date, r.Date} }

// blocked is the stretch an event takes, with its buffers.
func (s *season) blocked(e *event, own bool) Span {
	after := s.p.BufferAfter[e.Kind]
	if own {
		after = 0
	}
	return Span{e.Start - s.p.BufferBefore[e.Kind], e.End + after}
}

// intersects says whether two spans share time; an empty span shares none.
func (a Span) intersects(b Span) bool { return max(a.Start, b.Start) < min(a.End, b.End) }

// within says whether the span lies inside one of the others.
func (a Span) within(spans []Span) bool {
	for _, b := range spans {
		if b.Start <= a.Start && a.End <= b.End {
			return true
		}
	}
	return false
}

// eventOverlap: a session shares no time with an event and its buffers; a
// post-game session may start in the buffer after its own game.
func eventOverlap(s *season, r *session) (finding, bool) {
	own, _ := s.ownGame(r)
	span := Span{r.Start, r.End}
	for _, e := range s.events {
		if span.intersects(s.blocked(e, e == own)) {
			return r.here(e), true
		}
	}
	return finding{}, false
}

// openHours: inside one open span of the place and, but for a post-game
// session, one of the athlete.
func openHours(s *season, r *session) (finding, bool) {
	span := Span{r.Start, r.End}
	open := r.Place >= 0 && r.Place < len(s.PlaceOpen) && span.within(s.PlaceOpen[r.Place])
	if r.Kind != PostGame {
		open = open && span.within(s.AthleteOpen)
	}
	return r.here(nil), !open && !r.Done
}

// latestEnd: by the clock, earlier for the young.
func latestEnd(s *season, r *session) (finding, bool) {
	latest := s.p.LatestEnd
	if s.minor(r.Date) {
		latest = s.p.LatestEndMinor
	}
	if s.age(r.Date) <= s.p.YoungAge {
		latest = s.p.LatestEndYoung
	}
	return r.here(nil), r.EndClock > latest
}

// sessionLength: by kind; shorter on exam dates, where full-size and eccentric
// sessions have no place, and for recovery between games.
func sessionLength(s *season, r *session) (finding, bool) {
	length := s.p.Length[r.Kind]
	if exams := s.on(r.Date).exams; len(exams) > 0 {
		fits := r.Kind != FullBody && r.Kind != Eccentric && s.p.ExamLength.holds(r.minutes())
		return r.here(exams[0]), !fits
	}
	var near *event
	if r.Kind == Recovery {
		if next, ok := s.between(r, s.p.CloseGames); ok {
			near, length.Min = next, s.p.BetweenLength.Min
		}
		if next, ok := s.between(r, s.p.BetweenGames); ok {
			near, length.Max = next, s.p.BetweenLength.Max
		}
	}
	return r.here(near), !length.holds(r.minutes())
}

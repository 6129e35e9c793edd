package judge

// liftsIn7: at most so many lifts in any seven dates. The session that comes
// too late in the order of starts is the one in breach.
func liftsIn7(s *season, r *session) (finding, bool) {
	if !r.Kind.lift() {
		return finding{}, false
	}
	for w := r.Date - 6; w <= r.Date; w++ {
		lifts := s.count(w, w+6, func(o *session) bool { return o.Kind.lift() && o.order <= r.order })
		if lifts > s.liftLimit(w) {
			return finding{nil, w, w + 6}, true
		}
	}
	return finding{}, false
}

// liftLimit is the limit of the window of seven dates from w on.
func (s *season) liftLimit(w int) int {
	if s.restricted(w + 6) {
		return s.p.LiftsBeginner
	}
	for d := w; d <= w+6; d++ {
		if !s.inRun(d) {
			return s.p.Lifts
		}
	}
	return s.p.LiftsRun
}

// heavyGap: heavy sessions neither on neighbouring dates nor too near.
func heavyGap(s *season, r *session) (finding, bool) {
	if !r.Kind.fullBody() {
		return finding{}, false
	}
	last, ok := s.previous(r, func(o *session) bool { return o.Kind.fullBody() })
	if !ok {
		return finding{}, false
	}
	near := r.Date-last.Date <= s.p.HeavyDates || r.Start-last.End < s.p.HeavyGap
	return finding{nil, last.Date, r.Date}, near
}

// previous returns the last session before r, by start, that satisfies the
// condition.
func (s *season) previous(r *session, counts func(*session) bool) (*session, bool) {
	for i := r.order - 1; i >= 0; i-- {
		if counts(s.sessions[i]) {
			return s.sessions[i], true
		}
	}
	return nil, false
}

// minorLiftDates: no lifts of a minor on the same or neighbouring dates.
func minorLiftDates(s *season, r *session) (finding, bool) {
	if !r.Kind.lift() || !s.minor(r.Date) {
		return finding{}, false
	}
	last, ok := s.previous(r, func(o *session) bool { return o.Kind.lift() })
	if !ok {
		return finding{}, false
	}
	return finding{nil, last.Date, r.Date}, s.livedApart(last.Date, r.Date) <= s.p.MinorLiftDates
}

// sessionsADate: one a date; in a break two, well apart.
func sessionsADate(s *season, r *session) (finding, bool) {
	limit := s.p.SessionsADate
	if _, ok := s.breakOn(r.Date); ok {
		limit = s.p.SessionsADateBreak
	}
	nth := 0
	var last *session
	for _, o := range s.on(r.Date).sessions {
		if o.order < r.order {
			last = o
		}
		if o.order <= r.order {
			nth++
		}
	}
	near := last != nil && r.Start-last.End < s.p.SameDateGap
	return r.here(nil), nth > limit || near
}

// liftsADate: one lift a date, also where two sessions are allowed.
func liftsADate(s *season, r *session) (finding, bool) {
	nth := 0
	for _, o := range s.on(r.Date).sessions {
		if o.order <= r.order && o.Kind.lift() {
			nth++
		}
	}
	return r.here(nil), r.Kind.lift() && nth > s.p.LiftsADate
}

// freeDate: of the calendar-free dates of any seven a minor keeps one without a
// session. The session that takes the last of them is in breach.
func freeDate(s *season, r *session) (finding, bool) {
	if !s.minor(r.Date) || !s.calendarFree(r.Date) {
		return finding{}, false
	}
	for w := r.Date - 6; w <= r.Date; w++ {
		if s.lastFree(w) == r.Date && !s.restsBefore(w, r.Date) {
			return finding{nil, w, w + 6}, true
		}
	}
	return finding{}, false
}

// lastFree returns the last calendar-free date of seven, or w - 1.
func (s *season) lastFree(w int) int {
	for d := w + 6; d >= w; d-- {
		if s.calendarFree(d) {
			return d
		}
	}
	return w - 1
}

// restsBefore says whether a calendar-free date from w to before d has no
// session.
func (s *season) restsBefore(w, d int) bool {
	for x := w; x < d; x++ {
		if s.calendarFree(x) && len(s.on(x).sessions) == 0 {
			return true
		}
	}
	return false
}

// noFreeDate: few sessions in seven dates of a minor that have no calendar-free
// date at all.
func noFreeDate(s *season, r *session) (finding, bool) {
	if !s.minor(r.Date) {
		return finding{}, false
	}
	for w := r.Date - 6; w <= r.Date; w++ {
		n := s.count(w, w+6, func(o *session) bool { return o.order <= r.order })
		if s.lastFree(w) < w && n > s.p.NoFreeDateSessions {
			return finding{nil, w, w + 6}, true
		}
	}
	return finding{}, false
}

// eccentricAllowed says whether athlete and date are right for an eccentric
// session.
func (s *season) eccentricAllowed(date int) bool {
	return s.earlyBreak(date) && !s.minor(date) && s.trainingMonths() >= s.p.EccentricMonths
}

// eccentricPlace: only experienced adults, early in a break.
func eccentricPlace(s *season, r *session) (finding, bool) {
	return r.here(nil), r.Kind == Eccentric && !s.eccentricAllowed(r.Date)
}

// eccentricCount: few in a club week.
func eccentricCount(s *season, r *session) (finding, bool) {
	if r.Kind != Eccentric {
		return finding{}, false
	}
	week := s.weekStart(r.Date)
	n := s.count(week, week+6, func(o *session) bool { return o.Kind == Eccentric && o.order <= r.order })
	return finding{nil, week, week + 6}, n > s.p.Eccentrics
}

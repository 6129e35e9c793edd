package judge

// sleep: enough time after an event that ended late; the own game of a
// post-game session aside.
func sleep(s *season, r *session) (finding, bool) {
	need := s.p.Sleep
	if s.minor(r.Date) {
		need = s.p.SleepMinor
	}
	if need == 0 { // not asked: neither is the buffer kept free
		return finding{}, false
	}
	own, _ := s.ownGame(r)
	for _, e := range s.events {
		switch e.Kind {
		case Game, Practice, Skills, Travel:
		default:
			continue
		}
		late := e.EndClock > s.p.LateClock
		if late && e != own && e.End <= r.Start && r.Start-(e.End+s.p.BufferAfter[e.Kind]) < need {
			return r.here(e), true
		}
	}
	return finding{}, false
}

// examDate: on an exam date after the last exam, and early.
func examDate(s *season, r *session) (finding, bool) {
	exams := s.on(r.Date).exams
	if len(exams) == 0 {
		return finding{}, false
	}
	last := exams[0]
	for _, e := range exams {
		if e.End > last.End {
			last = e
		}
	}
	return r.here(last), r.Start < last.End || r.EndClock > s.p.ExamEndClock
}

// examCount: few sessions on the exam dates of a club week.
func examCount(s *season, r *session) (finding, bool) {
	if len(s.on(r.Date).exams) == 0 {
		return finding{}, false
	}
	week := s.weekStart(r.Date)
	n := s.count(week, week+6, func(o *session) bool {
		return o.order <= r.order && len(s.on(o.Date).exams) > 0
	})
	return finding{nil, week, week + 6}, n > s.p.ExamSessions
}

// doubleFixture: no session of a minor on the date after two games on one date.
func doubleFixture(s *season, r *session) (finding, bool) {
	before := s.before(r.Date)
	games := s.on(before).games
	if !s.minor(r.Date) || len(games) == 0 {
		return finding{}, false
	}
	return finding{games[len(games)-1], before, r.Date}, len(games) >= s.p.DoubleFixture
}

// longHaul: no full-size session soon after a long journey.
func longHaul(s *season, r *session) (finding, bool) {
	if r.Kind != FullBody {
		return finding{}, false
	}
	for _, e := range s.events {
		if e.Kind == Travel && e.LongHaul && e.End <= r.Start && r.Start-e.End < s.p.LongHaulArrive {
			return r.here(e), true
		}
	}
	return finding{}, false
}

// hold: nothing on a date under a hold.
func hold(s *season, r *session) (finding, bool) {
	for _, h := range s.Athlete.Holds {
		if h.covers(r.Date) {
			return r.here(nil), true
		}
	}
	return finding{}, false
}

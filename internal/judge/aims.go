package judge

// missed makes a miss of one aim over a stretch of dates, priced in units.
func (s *season) missed(aim string, from, to, wanted, got int, units int64) Miss {
	return Miss{
		Aim: aim, From: from, To: to, Session: -1, Event: -1, Issued: -1,
		Wanted: wanted, Got: got, Points: units * s.p.Points[aim],
	}
}

// longRuns gives one miss for each date beyond the allowed length of a run of
// dates without such a session; a lost date is none of it. Dates before the period are not known, so that
// a run starts inside it.
func (s *season) longRuns(aim string, allowed int, counts func(*session) bool) []Miss {
	var misses []Miss
	length, first := 0, s.From
	for d := s.From; d <= s.To; d++ {
		switch {
		case s.count(d, d, counts) > 0:
			length, first = 0, d+1
		case !s.lost[d]:
			if length++; length > allowed {
				misses = append(misses, s.missed(aim, first, d, allowed, length, 1))
			}
		}
	}
	return misses
}

// emptyRun: no long run of dates without any session; a game is not a session.
func emptyRun(s *season) []Miss {
	return s.longRuns(EmptyRun, s.p.EmptyDates, func(*session) bool { return true })
}

// shortWeeks gives one miss for each whole club week with fewer such sessions
// than wanted.
func (s *season) shortWeeks(aim string, wanted int, counts func(*session) bool) []Miss {
	var misses []Miss
	for _, w := range s.wholeWeeks() {
		if n := s.count(w, w+6, counts); n < wanted {
			misses = append(misses, s.missed(aim, w, w+6, wanted, n, 1))
		}
	}
	return misses
}

func isLift(r *session) bool     { return r.Kind.lift() }
func isFullBody(r *session) bool { return r.Kind.fullBody() }
func isRecovery(r *session) bool { return r.Kind == Recovery }
func isPrimer(r *session) bool   { return r.Kind == Primer }

// weekFullBody: some heavy lower-body session in every week.
func weekFullBody(s *season) []Miss { return s.shortWeeks(WeekFullBody, 1, isFullBody) }

// secondLift: enough lifts in every week.
func secondLift(s *season) []Miss { return s.shortWeeks(SecondLift, s.p.WeekLifts, isLift) }

// secondFullBody: enough full-body sessions in every week.
func secondFullBody(s *season) []Miss {
	return s.shortWeeks(SecondFullBody, s.p.WeekFullBodies, isFullBody)
}

// primerImportant: a primer on the date before an important game.
func primerImportant(s *season) []Miss { return s.primers(PrimerImportant, true) }

// primerOther: a primer on the date before another game.
func primerOther(s *season) []Miss { return s.primers(PrimerAim, false) }

func (s *season) primers(aim string, important bool) []Miss {
	var misses []Miss
	for d := s.From; d <= s.To; d++ {
		g, asked := s.primerAsked(d)
		if !asked || g.Important != important || s.count(d, d, isPrimer) > 0 {
			continue
		}
		m := s.missed(aim, d, d, 1, 0, 1)
		m.Event = g.index
		misses = append(misses, m)
	}
	return misses
}

// primerAsked returns the game that asks for a primer on a date: the earliest
// of the next date that is lived. A date with a game, or for an ordinary game one after a
// game, is not asked.
func (s *season) primerAsked(date int) (*event, bool) {
	tomorrow := s.on(s.after(date)).games
	if len(tomorrow) == 0 || len(s.on(date).games) > 0 || s.restricted(date) || s.lost[date] {
		return nil, false
	}
	if len(s.on(s.before(date)).games) > 0 && !tomorrow[0].Important {
		return nil, false
	}
	return tomorrow[0], true
}

// recoveryAfter: recovery on the date after a game, unless that date has a game
// or a primer is due on it.
func recoveryAfter(s *season) []Miss {
	var misses []Miss
	for d := s.From; d <= s.To; d++ {
		games := s.on(s.before(d)).games
		if len(games) == 0 || !s.recoveryAsked(d) || s.count(d, d, isRecovery) > 0 {
			continue
		}
		m := s.missed(RecoveryAfter, d, d, 1, 0, 1)
		m.Event = games[len(games)-1].index
		misses = append(misses, m)
	}
	return misses
}

// recoveryAsked is about a date after a game.
func (s *season) recoveryAsked(date int) bool {
	if len(s.on(date).games) > 0 || s.restricted(date) || s.lost[date] {
		return false
	}
	if s.minor(date) && len(s.on(s.before(date)).games) >= s.p.DoubleFixture {
		return false
	}
	tomorrow := s.on(s.after(date)).games
	return len(tomorrow) == 0 || !tomorrow[0].Important
}

// recoveryCount: two or three recovery sessions in every week, those on the date
// of a game left out.
func recoveryCount(s *season) []Miss {
	var misses []Miss
	for _, w := range s.wholeWeeks() {
		if s.restricted(w) {
			continue
		}
		n := 0
		for d := w; d < w+7; d++ {
			if len(s.on(d).games) == 0 {
				n += s.count(d, d, isRecovery)
			}
		}
		if low := s.p.RecoveryMin; n < low {
			misses = append(misses, s.missed(RecoveryCount, w, w+6, low, n, int64(low-n)))
		} else if high := s.p.RecoveryMax; n > high {
			misses = append(misses, s.missed(RecoveryCount, w, w+6, high, n, int64(n-high)))
		}
	}
	return misses
}

// important48h: no trimmed or post-game session inside two days before an
// important game.
func important48h(s *season) []Miss {
	return s.each(Important48h, func(r *session) (int64, *event) {
		if r.Kind != Trimmed && r.Kind != PostGame {
			return 0, nil
		}
		g, near := s.gameWithin(r, s.p.ImportantNear, true)
		return units(near), g
	})
}

// each gives a miss for every session of the period that costs units.
func (s *season) each(aim string, cost func(*session) (int64, *event)) []Miss {
	var misses []Miss
	for _, r := range s.sessions {
		if !s.judged(r) {
			continue
		}
		units, e := cost(r)
		if units == 0 {
			continue
		}
		m := s.missed(aim, r.Date, r.Date, 0, 1, units)
		m.Session = r.index
		if e != nil {
			m.Event = e.index
		}
		misses = append(misses, m)
	}
	return misses
}

func units(missed bool) int64 {
	if missed {
		return 1
	}
	return 0
}

// gameWithin returns the first game of that importance that starts after the
// session starts, if it does so less than the given time after the session ends.
func (s *season) gameWithin(r *session, least int64, important bool) (*event, bool) {
	for _, g := range s.games {
		if g.Start > r.Start && g.Important == important {
			return g, g.Start-r.End < least
		}
	}
	return nil, false
}

package judge

// nearGame: two days before any other game are better than one, for trimmed and
// post-game sessions; beside an important game this is not counted.
func nearGame(s *season) []Miss {
	return s.each(NearGame, func(r *session) (int64, *event) {
		if r.Kind != Trimmed && r.Kind != PostGame {
			return 0, nil
		}
		if _, near := s.gameWithin(r, s.p.ImportantNear, true); near {
			return 0, nil
		}
		g, near := s.gameWithin(r, s.p.OtherNear, false)
		return units(near), g
	})
}

// primerTiming: a day between primer and game.
func primerTiming(s *season) []Miss {
	return s.each(PrimerTiming, func(r *session) (int64, *event) {
		if r.Kind != Primer {
			return 0, nil
		}
		next, ok := s.nextGame(r.Start)
		return units(ok && next.Start-r.End < s.p.PrimerPreferred), next
	})
}

// size: full-size over trimmed over post-game.
func size(s *season) []Miss {
	return s.each(Size, func(r *session) (int64, *event) {
		switch {
		case r.Kind == Trimmed:
			return s.p.SizeTrimmed, nil
		case r.Kind == PostGame:
			return s.p.SizePostGame, nil
		}
		return 0, nil
	})
}

// startTime: near the preferred hour; a post-game session has no choice.
func startTime(s *season) []Miss {
	return s.each(StartTime, func(r *session) (int64, *event) {
		off := r.StartClock - s.preferred(r.Date)
		return units(r.Kind != PostGame && max(off, -off) > s.p.StartTolerance), nil
	})
}

// preferred returns the preferred start clock of a date of the period.
func (s *season) preferred(date int) int {
	if i := date - s.From; i < len(s.PreferredStart) && s.PreferredStart[i] >= 0 {
		return s.PreferredStart[i]
	}
	switch weekday(date) {
	case 0, 6:
		return s.p.PreferredFree
	}
	return s.p.PreferredWorkday
}

// practiceOrder: lift first, or well after practice.
func practiceOrder(s *season) []Miss {
	return s.each(PracticeOrder, func(r *session) (int64, *event) {
		if !r.Kind.lift() {
			return 0, nil
		}
		for _, e := range s.on(r.Date).practices {
			if e.End <= r.Start && r.Start-e.End < s.p.PracticeGap {
				return 1, e
			}
		}
		return 0, nil
	})
}

// hardDay: no full-size or eccentric session on the date of a hard practice.
func hardDay(s *season) []Miss {
	return s.each(HardDay, func(r *session) (int64, *event) {
		if r.Kind != FullBody && r.Kind != Eccentric {
			return 0, nil
		}
		for _, e := range s.on(r.Date).practices {
			if e.Kind == Practice && e.Hard {
				return 1, e
			}
		}
		return 0, nil
	})
}

// liftRun: no long run of dates without a lift.
func liftRun(s *season) []Miss { return s.longRuns(LiftRun, s.p.LiftFreeDates, isLift) }

// breakSession: more full-body sessions in a week that lies wholly in a break.
// Beginners and children, who may not lift that often, are not asked.
func breakSession(s *season) []Miss {
	var misses []Miss
	for _, m := range s.shortWeeks(BreakSession, s.p.BreakFullBodies, isFullBody) {
		if r, ok := s.breakOn(m.From); ok && r.covers(m.To) && !s.restricted(m.From) {
			misses = append(misses, m)
		}
	}
	return misses
}

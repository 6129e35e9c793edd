package judge

// heavyBeforeGame: heavy lower-body work ends a day before any game.
func heavyBeforeGame(s *season, r *session) (finding, bool) {
	if !r.Kind.fullBody() {
		return finding{}, false
	}
	return s.endsTooNear(r, s.p.HeavyBeforeGame)
}

// fullBeforeGame: full-size work ends two days before any game.
func fullBeforeGame(s *season, r *session) (finding, bool) {
	if r.Kind != FullBody && r.Kind != Eccentric {
		return finding{}, false
	}
	return s.endsTooNear(r, s.p.FullBeforeGame)
}

// eccentricBeforeGame: eccentric work ends three days before any game.
func eccentricBeforeGame(s *season, r *session) (finding, bool) {
	if r.Kind != Eccentric {
		return finding{}, false
	}
	return s.endsTooNear(r, s.p.EccentricBeforeGame)
}

// endsTooNear says whether a game starts after the start of the session and
// less than the given time after its end.
func (s *season) endsTooNear(r *session, least int64) (finding, bool) {
	next, ok := s.nextGame(r.Start)
	return finding{next, r.Date, r.Date}, ok && next.Start-r.End < least
}

// primerWindow: a primer needs a game on a later date inside its window, and
// none that starts sooner.
func primerWindow(s *season, r *session) (finding, bool) {
	if r.Kind != Primer {
		return finding{}, false
	}
	served := false
	for _, g := range s.games {
		gap := g.Start - r.End
		if g.Start > r.Start && gap < s.p.PrimerWindow.Min {
			return r.here(g), true
		}
		if s.p.PrimerWindow.holds(gap) && r.Date < g.Date {
			served = true
		}
	}
	return r.here(nil), !served
}

// gameDate: before a game of its date only short recovery between close games;
// after all of them only a post-game or recovery session.
func gameDate(s *season, r *session) (finding, bool) {
	for _, g := range s.on(r.Date).games {
		if g.Start > r.Start {
			return r.here(g), !s.shortRecoveryBetween(r)
		}
	}
	for _, g := range s.on(r.Date).games {
		return r.here(g), r.Kind != PostGame && r.Kind != Recovery
	}
	return finding{}, false
}

func (s *season) shortRecoveryBetween(r *session) bool {
	_, near := s.between(r, s.p.CloseGames)
	return near && s.shortRecovery(r)
}

func (s *season) shortRecovery(r *session) bool {
	return r.Kind == Recovery && r.minutes() <= s.p.BetweenRecovery
}

// betweenGames: nothing but short recovery between two games that are near.
func betweenGames(s *season, r *session) (finding, bool) {
	next, between := s.between(r, s.p.BetweenGames)
	return finding{next, r.Date, r.Date}, between && !s.shortRecovery(r)
}

// afterGame: full-size work waits a day after a game, trimmed half a day.
func afterGame(s *season, r *session) (finding, bool) {
	last, ok := s.lastGame(r.Start)
	if !ok {
		return finding{}, false
	}
	var least int64
	switch r.Kind {
	case FullBody, Eccentric:
		least = s.p.AfterGameFull
	case Trimmed:
		least = s.p.AfterGameTrimmed
	default:
		return finding{}, false
	}
	return r.here(last), r.Start-last.End < least
}

// postGame: only for those who opted in and are old enough, right after a game
// with a known end, on its date, with the next game far enough.
func postGame(s *season, r *session) (finding, bool) {
	if r.Kind != PostGame {
		return finding{}, false
	}
	own, ok := s.ownGame(r)
	if !ok {
		return r.here(nil), true
	}
	if !s.Athlete.PostGame || s.age(r.Date) < s.p.PostGameAge ||
		own.DateOnly || own.IfNeeded || own.Date != r.Date || r.Start-own.End > s.p.PostGameWithin {
		return r.here(own), true
	}
	for _, g := range s.on(own.Date + 1).games {
		return finding{g, r.Date, g.Date}, true
	}
	next, ok := s.nextGame(r.Start)
	return finding{next, r.Date, r.Date}, ok && next.Start-r.End < s.p.PostGameNext
}

package judge

// run is a stretch of dates without games between two games, cut to the period.
// Lost dates do not count.
type run struct{ from, to, dates int }

func (r run) covers(date int) bool { return r.from <= date && date <= r.to }

// gameFreeRuns returns the open weeks and breaks. Nothing before the first and
// after the last game is a run, nor is anything outside the period: what is not
// known is not free.
func (s *season) gameFreeRuns() []run {
	var runs []run
	shortest := max(1, min(s.p.OpenWeekDates, s.p.BreakDates))
	open := false // whether some game lies before the date at hand
	later := 0    // games after the period
	for _, g := range s.games {
		open = open || g.Date < s.From
		if g.Date > s.To {
			later++
		}
	}
	r := run{from: s.From}
	closeRun := func(next int) {
		r.to = next - 1
		if r.dates = s.livedApart(r.from-1, r.to); open && r.dates >= shortest {
			runs = append(runs, r)
		}
	}
	for d := s.From; d <= s.To; d++ {
		if len(s.on(d).games) > 0 {
			closeRun(d)
			r, open = run{from: d + 1}, true
		}
	}
	if later > 0 {
		closeRun(s.To + 1)
	}
	return runs
}

// inRun says whether a date lies in an open week or a break.
func (s *season) inRun(date int) bool {
	for _, r := range s.runs {
		if r.covers(date) {
			return true
		}
	}
	return false
}

// breakOn returns the break in which a date lies.
func (s *season) breakOn(date int) (run, bool) {
	for _, r := range s.runs {
		if r.covers(date) && r.dates >= s.p.BreakDates {
			return r, true
		}
	}
	return run{}, false
}

// earlyBreak says whether a date lies in the first half of a break; the middle
// date of an odd one belongs to the first half.
func (s *season) earlyBreak(date int) bool {
	r, ok := s.breakOn(date)
	return ok && s.livedApart(r.from-1, date-1) < (r.dates+1)/2
}

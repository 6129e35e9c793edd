package judge

// daySeconds are those of a date by a clock that does not change.
const daySeconds = 86400

// clock is a stretch in which the athlete's clock keeps one offset.
type clock struct {
	from, to int64 // minutes, to excluded
	seconds  int64 // east of UTC
}

// midnight is the minute at which the clock would show the start of a date.
func (c clock) midnight(date int) int64 {
	return floorDiv(int64(date)*daySeconds-c.seconds, 60)
}

func floorDiv(a, b int64) int64 {
	q := a / b
	if a%b < 0 {
		q--
	}
	return q
}

func clocksOf(offsets []Offset) []clock {
	var out []clock
	for i, o := range offsets {
		c := clock{o.From, maxInstant + 1, int64(o.Seconds)}
		if i+1 < len(offsets) {
			c.to = offsets[i+1].From
		}
		out = append(out, c)
	}
	return out
}

// dateStart is the last instant before which the clock still shows an earlier date,
// or will again.
func dateStart(clocks []clock, date int) int64 {
	start := -maxInstant
	for _, c := range clocks {
		if m := c.midnight(date); m > c.from {
			start = max(start, min(m, c.to))
		}
	}
	return start
}

// dateAt is the date of an instant: the least of the dates that the clock shows
// from then on.
func dateAt(clocks []clock, t int64) int {
	least := MaxDate
	for _, c := range clocks {
		if at := max(t, c.from); at < c.to {
			least = min(least, int(floorDiv(at*60+c.seconds, daySeconds)))
		}
	}
	return least
}

// lostDates are the dates of the period, and some around it, of which hardly any
// was lived: the clock did not show it, or showed it on a trip between zones. A
// date with a game is none.
func (s *season) lostDates() map[int]bool {
	clocks := clocksOf(s.Offsets)
	if len(clocks) == 0 {
		return nil
	}
	var trips []*event
	for _, e := range s.events {
		if e.Kind != Travel {
			continue
		}
		for i := 1; i < len(clocks); i++ {
			if clocks[i].from == e.End && clocks[i].seconds != clocks[i-1].seconds {
				trips = append(trips, e)
			}
		}
	}
	lost := map[int]bool{}
	const around = 8 // more than any window of seven dates asks
	for d := s.From - around; d <= s.To+around; d++ {
		if len(s.on(d).games) > 0 || clocks[0].midnight(d-1) < clocks[0].from {
			continue
		}
		start, end := dateStart(clocks, d), dateStart(clocks, d+1)
		travelled := end-start < s.p.LostDate
		for _, e := range trips {
			travelled = travelled || e.Start < end && start < e.End
		}
		if travelled && livedMinutes(clocks, trips, d) < s.p.LostDate {
			lost[d] = true
		}
	}
	return lost
}

// livedMinutes counts the minutes of a date outside some trips.
func livedMinutes(clocks []clock, trips []*event, date int) int64 {
	start, end := dateStart(clocks, date), dateStart(clocks, date+1)
	var lived int64
	for _, c := range clocks {
		from, to := max(c.from, c.midnight(date), start), min(c.to, c.midnight(date+1), end)
		for t := from; t < to; t++ {
			free := true
			for _, e := range trips {
				free = free && (t < e.Start || t >= e.End)
			}
			if free {
				lived++
			}
		}
	}
	return lived
}

// before and after are the nearest dates that were not lost.
func (s *season) before(date int) int {
	for date--; s.lost[date]; date-- {
	}
	return date
}

func (s *season) after(date int) int {
	for date++; s.lost[date]; date++ {
	}
	return date
}

// livedApart counts dates from one to the next, lost ones left out.
func (s *season) livedApart(from, to int) int {
	n := 0
	for d := from + 1; d <= to; d++ {
		if !s.lost[d] {
			n++
		}
	}
	return n
}

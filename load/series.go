package load

// Dated is the load of one session or rest day on its date.
type Dated struct {
	Day  Day
	Load AU
}

// Series is the daily loads of a run of dates.
type Series struct {
	from Day
	days []DayLoad
}

// maxSeriesDays bounds a series: a hundred years.
const maxSeriesDays = 36_525

// NewSeries lays entries out over the dates from from to to, both included.
// Entries of one date add up, in their order; a date without an entry is
// unknown, so a rest day needs an entry of 0. Entries outside the dates are
// left out. Refused: dates in the wrong order or more than a hundred years
// apart, and loads or sums of a date outside 0 to [MaxDayLoad].
func NewSeries(entries []Dated, from, to Day) (Series, error) {
	var ps problems
	if !from.valid() || !to.valid() || to < from || int64(to)-int64(from) >= maxSeriesDays {
		ps.add("from, to", from.String()+" to "+to.String(), "not a run of 1 to 36525 dates", "give the first date before the last")
	}
	for i, e := range entries {
		if !within(float64(e.Load), 0, float64(MaxDayLoad)) {
			ps.add("entries["+itoa(i)+"].load", ftoa(float64(e.Load)), "not a load from 0 to 1e9 AU", "leave the entry out if the load is unknown")
		}
	}
	if len(ps) > 0 {
		return Series{}, ps.err()
	}
	s := Series{from, make([]DayLoad, int(to-from)+1)}
	for _, e := range entries {
		if e.Day >= from && e.Day <= to {
			d := &s.days[e.Day-from]
			d.Known = true
			d.Load += e.Load
		}
	}
	for i, d := range s.days {
		if d.Load > MaxDayLoad {
			ps.add("entries of "+(from+Day(i)).String(), ftoa(float64(d.Load)), "more than 1e9 AU on one date", "check the unit of the loads")
		}
	}
	if len(ps) > 0 {
		return Series{}, ps.err()
	}
	return s, nil
}

// At is the load of a date, unknown outside the series.
func (s Series) At(d Day) DayLoad {
	i := int64(d) - int64(s.from)
	if i < 0 || i >= int64(len(s.days)) {
		return DayLoad{}
	}
	return s.days[i]
}

// Days is the loads of n dates, the last of them last, for the functions on
// slices. Dates outside the series are unknown. Empty if n is below 1 or above
// 36525.
func (s Series) Days(last Day, n int) []DayLoad {
	if n < 1 || n > maxSeriesDays {
		return nil
	}
	days := make([]DayLoad, n)
	for i := range days {
		if d := int64(last) - int64(n-1-i); d >= int64(minDay) {
			days[i] = s.At(Day(d))
		}
	}
	return days
}

// Week sums up the seven dates up to last as [Week] does.
func (s Series) Week(last Day, d Divisor) (WeekLoad, bool) {
	return Week([7]DayLoad(s.Days(last, 7)), d)
}

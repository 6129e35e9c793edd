package calendar

// Wall is what a clock on the wall shows: a date and a time, without a zone.
type Wall struct {
	Date  Date
	Clock Clock
}

// ParseWall reads a date and a clock time joined by T: 2026-11-08T14:00 or
// 2026-11-08T14:00:30. An offset or a Z at the end is refused, because a wall
// time takes its zone from its event.
func ParseWall(s string) (Wall, error) {
	if len(s) < 11 || s[10] != 'T' {
		return Wall{}, &ValueError{
			What: "wall time", Value: s, Reason: "not a date and a time joined by T",
			Remedy: "write 2026-11-08T14:00",
		}
	}
	d, err := ParseDate(s[:10])
	if err != nil {
		return Wall{}, err
	}
	c, err := ParseClock(s[11:])
	if err != nil {
		return Wall{}, err
	}
	return Wall{d, c}, nil
}

// IsZero reports whether the date is unset.
func (w Wall) IsZero() bool { return w.Date.IsZero() }

// String returns 2026-11-08T14:00, or "" if the date is unset.
func (w Wall) String() string {
	if w.Date.IsZero() {
		return ""
	}
	return w.Date.String() + "T" + w.Clock.String()
}

// Compare is -1, 0 or +1 in the order of the clock on the wall. 24:00 equals
// 00:00 of the next date.
func (w Wall) Compare(v Wall) int {
	switch a, b := w.seconds(), v.seconds(); {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

// seconds counts as if every day had 24 hours, from 1970-01-01T00:00.
func (w Wall) seconds() int64 {
	return (int64(w.Date.n)-epochDay)*86400 + int64(w.Clock)
}

// wallAt is the inverse of seconds; ok is false outside the years 1 to 9999.
func wallAt(sec int64) (w Wall, ok bool) {
	day, rest := sec/86400, sec%86400
	if rest < 0 {
		day, rest = day-1, rest+86400
	}
	if day < -epochDay || day > lastDay {
		return Wall{}, false
	}
	d := fromOrdinal(day + epochDay)
	if d.IsZero() {
		return Wall{}, false
	}
	return Wall{d, Clock(rest)}, true
}

// AddMinutes moves the hands of the clock by n minutes, without regard to clock
// changes. The result is unset outside the years 1 to 9999.
func (w Wall) AddMinutes(n int) Wall {
	if w.IsZero() {
		return Wall{}
	}
	const most = 2 * lastDay * 24 * 60
	if int64(n) > most || int64(n) < -most {
		return Wall{}
	}
	v, _ := wallAt(w.seconds() + int64(n)*60)
	return v
}

// MarshalText writes what ParseWall reads; an unset wall time is the empty text.
func (w Wall) MarshalText() ([]byte, error) {
	if w.IsZero() {
		return []byte{}, nil
	}
	d, err := w.Date.MarshalText()
	if err != nil {
		return nil, err
	}
	c, err := w.Clock.MarshalText()
	if err != nil {
		return nil, err
	}
	return append(append(d, 'T'), c...), nil
}

// UnmarshalText reads what ParseWall reads.
func (w *Wall) UnmarshalText(b []byte) error {
	v, err := ParseWall(string(b))
	if err != nil {
		return err
	}
	*w = v
	return nil
}

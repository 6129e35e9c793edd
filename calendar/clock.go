package calendar

import "fmt"

// Clock is a time of day in seconds since local midnight, 0 to 86400. 24:00 is
// the end of a date and equals 00:00 of the next.
type Clock int32

// EndOfDay is 24:00.
const EndOfDay Clock = 24 * 60 * 60

// NewClock returns the clock time, or an error outside 00:00 to 24:00.
func NewClock(hour, minute int) (Clock, error) {
	c, ok := makeClock(hour, minute, 0)
	if !ok {
		return 0, &ValueError{
			What: "time", Value: fmt.Sprintf("%d:%d", hour, minute), Reason: "there is no such time of day",
			Remedy: "give a time from 00:00 to 24:00",
		}
	}
	return c, nil
}

func makeClock(h, m, s int) (Clock, bool) {
	if h < 0 || h > 24 || m < 0 || m > 59 || s < 0 || s > 59 || (h == 24 && m+s > 0) {
		return 0, false
	}
	return Clock(h*3600 + m*60 + s), true
}

// ParseClock reads HH:MM or HH:MM:SS, two digits each, 00:00 to 24:00. The error
// is a *ValueError whose remedy says how the time was probably meant.
func ParseClock(s string) (Clock, error) {
	var h, m, sec int
	ok := (len(s) == 5 || len(s) == 8) && s[2] == ':'
	if ok {
		var ok1, ok2 bool
		h, ok1 = digits(s[:2])
		m, ok2 = digits(s[3:5])
		ok = ok1 && ok2
	}
	if ok && len(s) == 8 {
		var ok3 bool
		sec, ok3 = digits(s[6:])
		ok = ok3 && s[5] == ':'
	}
	if !ok {
		reason, remedy := clockHint(s)
		return 0, &ValueError{What: "time", Value: s, Reason: reason, Remedy: remedy}
	}
	c, ok := makeClock(h, m, sec)
	if !ok {
		return 0, &ValueError{
			What: "time", Value: s, Reason: "there is no such time of day",
			Remedy: "give a time from 00:00 to 24:00",
		}
	}
	return c, nil
}

// Valid reports whether the clock time lies in 00:00 to 24:00.
func (c Clock) Valid() bool { return c >= 0 && c <= EndOfDay }

// String returns HH:MM, with :SS only if the seconds are not 0.
func (c Clock) String() string {
	if !c.Valid() {
		return fmt.Sprintf("Clock(%d)", int32(c))
	}
	h, m, s := c/3600, c/60%60, c%60
	b := []byte("00:00:00")
	putDigits(b[:2], int(h))
	putDigits(b[3:5], int(m))
	putDigits(b[6:], int(s))
	if s == 0 {
		b = b[:5]
	}
	return string(b)
}

// MarshalText writes what ParseClock reads.
func (c Clock) MarshalText() ([]byte, error) {
	if !c.Valid() {
		return nil, &ValueError{
			What: "time", Value: fmt.Sprint(int32(c)), Reason: "there is no such time of day",
			Remedy: "give seconds from 0 to 86400",
		}
	}
	return []byte(c.String()), nil
}

// UnmarshalText reads what ParseClock reads.
func (c *Clock) UnmarshalText(b []byte) error {
	v, err := ParseClock(string(b))
	if err != nil {
		return err
	}
	*c = v
	return nil
}

package icalendar

import (
	"errors"
	"strings"
)

// form is how a moment was written.
type form uint8

const (
	formNone     form = iota
	formDate          // 20261108
	formFloating      // 20261108T140000
	formUTC           // 20261108T140000Z
	formZoned         // with a TZID
)

// moment is a DATE or DATE-TIME as the file gives it, before any zone is known.
type moment struct {
	local int64 // local seconds
	form  form
	zone  int32 // index of its TZID, with formZoned
	line  int32
}

func (m moment) isDate() bool { return m.form == formDate }

var (
	errDate     = errors.New("not a date (want YYYYMMDD)")
	errDateTime = errors.New("not a date and time (want YYYYMMDDTHHMMSS)")
	errNoDay    = errors.New("no such day")
	errNoTime   = errors.New("no such time of day")
)

// parseMoment reads a DATE or a DATE-TIME value. Which of the two it is shows in
// the value itself; a lower-case t or z is read too.
func parseMoment(s string) (moment, error) {
	s = strings.TrimSpace(s)
	y, ok1 := digits(s, 0, 4)
	m, ok2 := digits(s, 4, 2)
	d, ok3 := digits(s, 6, 2)
	if !ok1 || !ok2 || !ok3 {
		return moment{}, errDate
	}
	if y < 1 || m < 1 || m > 12 || d < 1 || d > daysIn(y, m) {
		return moment{}, errNoDay
	}
	out := moment{local: int64(dayNumber(y, m, d)) * daySeconds, form: formDate}
	if len(s) == 8 {
		return out, nil
	}
	if s[8] != 'T' && s[8] != 't' {
		return moment{}, errDate
	}
	h, ok1 := digits(s, 9, 2)
	mi, ok2 := digits(s, 11, 2)
	se, ok3 := digits(s, 13, 2)
	if !ok1 || !ok2 || !ok3 {
		return moment{}, errDateTime
	}
	if h == 24 && mi == 0 && se == 0 { // the midnight that ends the day
		out.local += daySeconds
		h = 0
	}
	if h > 23 || mi > 59 || se > 60 {
		return moment{}, errNoTime
	}
	if se == 60 {
		se = 59 // section 3.3.12: without leap seconds, 60 is read as 59
	}
	out.local += int64(h*3600 + mi*60 + se)
	switch s[15:] {
	case "":
		out.form = formFloating
	case "Z", "z":
		out.form = formUTC
	default:
		return moment{}, errDateTime
	}
	return out, nil
}

func digits(s string, from, n int) (int, bool) {
	if from+n > len(s) {
		return 0, false
	}
	v := 0
	for i := from; i < from+n; i++ {
		c := s[i]
		if c < '0' || c > '9' {
			return 0, false
		}
		v = v*10 + int(c-'0')
	}
	return v, true
}

// duration of RFC 5545 section 3.3.6: whole days are nominal (the same clock
// time on a later date), the rest is exact.
type duration struct {
	days    int
	seconds int64
}

func (d duration) negative() bool { return d.days < 0 || d.seconds < 0 }

var errDuration = errors.New("not a duration (want for example PT2H, PT1H30M, P1D or P1W)")

// maxDurationDays bounds a duration: ten years.
const maxDurationDays = 3660

func parseDuration(s string) (duration, error) {
	s = strings.TrimSpace(s)
	sign := 1
	switch {
	case strings.HasPrefix(s, "+"):
		s = s[1:]
	case strings.HasPrefix(s, "-"):
		s, sign = s[1:], -1
	}
	if len(s) < 2 || s[0] != 'P' && s[0] != 'p' {
		return duration{}, errDuration
	}
	s = s[1:]
	var out duration
	units := "WDHMS"
	inTime := false
	for s != "" {
		if s[0] == 'T' || s[0] == 't' {
			if inTime || len(s) == 1 {
				return duration{}, errDuration
			}
			inTime = true
			s = s[1:]
			continue
		}
		n, i := int64(0), 0
		for i < len(s) && s[i] >= '0' && s[i] <= '9' {
			if i >= 9 {
				return duration{}, errDuration
			}
			n = n*10 + int64(s[i]-'0')
			i++
		}
		if i == 0 || i == len(s) {
			return duration{}, errDuration
		}
		at := strings.IndexByte(units, s[i]&^0x20)
		if at < 0 {
			return duration{}, errDuration
		}
		unit := units[at]
		units = units[at+1:]
		s = s[i+1:]
		if inTime != (unit == 'H' || unit == 'M' || unit == 'S') {
			return duration{}, errDuration
		}
		switch unit {
		case 'W':
			n *= 7
			fallthrough
		case 'D':
			if n > maxDurationDays {
				return duration{}, errors.New("a duration of more than ten years")
			}
			out.days += int(n)
		case 'H':
			out.seconds += n * 3600
		case 'M':
			out.seconds += n * 60
		case 'S':
			out.seconds += n
		}
	}
	if int64(out.days)*daySeconds+out.seconds > maxDurationDays*daySeconds {
		return duration{}, errors.New("a duration of more than ten years")
	}
	out.days *= sign
	out.seconds *= int64(sign)
	return out, nil
}

// parseOffset reads a UTC-OFFSET in seconds east of UTC: +HHMM or -HHMMSS.
func parseOffset(s string) (int, error) {
	err := errors.New("not an offset from UTC (want for example +0100 or -0330)")
	s = strings.TrimSpace(s)
	if len(s) != 5 && len(s) != 7 {
		return 0, err
	}
	h, ok1 := digits(s, 1, 2)
	m, ok2 := digits(s, 3, 2)
	sec, ok3 := 0, true
	if len(s) == 7 {
		sec, ok3 = digits(s, 5, 2)
	}
	if !ok1 || !ok2 || !ok3 || h > 23 || m > 59 || sec > 59 {
		return 0, err
	}
	v := h*3600 + m*60 + sec
	switch s[0] {
	case '+':
		return v, nil
	case '-':
		return -v, nil
	}
	return 0, err
}

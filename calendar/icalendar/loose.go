package icalendar

import (
	"fmt"
	"strings"
)

// looseMoment reads a DATE or a DATE-TIME also in the forms that are found beside
// that of RFC 5545, where only one meaning is possible: with dashes and colons,
// without the T, without seconds, with fractions of a second, with an offset from UTC, a date
// with a Z or an empty time. A day that its month does not have is counted on into the next
// month, as other readers do. note says what was assumed, "" for nothing.
func looseMoment(s string) (m moment, note string, err error) {
	s = strings.TrimSpace(s)
	m, err = parseMoment(s)
	if err == nil {
		return m, "", nil
	}
	form, offset, zoned := plainForm(s)
	form, rolled := rollDay(form)
	again, err2 := parseMoment(form)
	if err2 != nil {
		return moment{}, "", err
	}
	if zoned {
		again.local -= int64(offset)
	}
	switch {
	case rolled:
		day, _ := splitLocal(again.local)
		y, mo, d := ymd(day)
		note = fmt.Sprintf("no such day; read as %04d-%02d-%02d, as other programs do", y, mo, d)
	case again.isDate():
		note = "not a date as the format writes it; read as the date alone"
	default:
		note = "not a time as the format writes it; read as the time that it says"
	}
	return again, note, nil
}

// plainForm turns other forms of a time into YYYYMMDDTHHMMSS. zoned tells that an
// offset from UTC was taken off; the rest is then given in UTC but for it.
func plainForm(s string) (form string, offset int, zoned bool) {
	if len(s) >= 10 && s[4] == '-' && s[7] == '-' {
		s = s[:4] + s[5:7] + s[8:]
	}
	if len(s) <= 8 {
		return s, 0, false
	}
	date, clock := s[:8], s[8:]
	switch c := clock[0]; c {
	case 'T', 't', ' ':
		clock = strings.TrimSpace(clock[1:])
	case 'Z', 'z':
		if len(clock) == 1 {
			return date, 0, false
		}
	default:
		if c < '0' || c > '9' || len(clock) < 4 {
			return s, 0, false
		}
	}
	if clock == "" {
		return date, 0, false
	}
	utc := ""
	if i := strings.IndexAny(clock, "+-"); i > 0 {
		o, err := parseOffset(strings.Replace(clock[i:], ":", "", 1))
		if err != nil {
			return s, 0, false
		}
		clock, offset, zoned, utc = clock[:i], o, true, "Z"
	} else if last := clock[len(clock)-1]; last == 'Z' || last == 'z' {
		clock, utc = clock[:len(clock)-1], "Z"
	}
	if i := strings.IndexByte(clock, '.'); i > 0 && strings.Trim(clock[i+1:], "0123456789") == "" {
		clock = clock[:i]
	}
	if len(clock) >= 5 && clock[2] == ':' {
		clock = strings.Replace(clock, ":", "", 2)
	}
	if len(clock) == 4 {
		clock += "00"
	}
	return date + "T" + clock + utc, offset, zoned
}

// rollDay counts the days 29 to 31 of a month that has fewer into the next month.
func rollDay(s string) (form string, rolled bool) {
	y, ok1 := digits(s, 0, 4)
	m, ok2 := digits(s, 4, 2)
	d, ok3 := digits(s, 6, 2)
	if !ok1 || !ok2 || !ok3 || y < 1 || m < 1 || m > 11 || d > 31 || d <= daysIn(y, m) {
		return s, false
	}
	return fmt.Sprintf("%04d%02d%02d", y, m+1, d-daysIn(y, m)) + s[8:], true
}

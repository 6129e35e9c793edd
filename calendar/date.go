package calendar

import (
	"fmt"
	"time"

	"github.com/rickb777/date/v2"
)

// FirstYear and LastYear bound the years in which a Date can be written.
const (
	FirstYear = 1900
	LastYear  = 2199
)

const (
	epochDay = 719163  // 1970-01-01 when 0001-01-01 is day 1
	lastDay  = 3652059 // 9999-12-31 likewise
)

// Date is a day of the Gregorian calendar, without a zone. The zero value is
// unset. Dates compare with ==, serve as map keys, and sort with Compare.
type Date struct {
	n int32 // 0001-01-01 is 1, so that 0 is unset
}

// NewDate returns the date, or an error if there is no such day or the year is
// outside FirstYear to LastYear.
func NewDate(year, month, day int) (Date, error) {
	d, reason := makeDate(year, month, day)
	if reason != "" {
		return Date{}, &ValueError{
			What: "date", Value: fmt.Sprintf("%d-%d-%d", year, month, day), Reason: reason,
			Remedy: "give a day that exists, from 1900-01-01 to 2199-12-31",
		}
	}
	return d, nil
}

// makeDate returns the date or the reason why there is none.
func makeDate(year, month, day int) (Date, string) {
	if year < FirstYear || year > LastYear {
		return Date{}, fmt.Sprintf("the year is outside %d to %d", FirstYear, LastYear)
	}
	if month < 1 || month > 12 {
		return Date{}, "there are only months 01 to 12"
	}
	if day < 1 || day > 31 {
		return Date{}, "there are only days 01 to 31"
	}
	d := fromLib(date.New(year, time.Month(month), day))
	if _, m, _ := d.YMD(); m != month {
		return Date{}, fmt.Sprintf("%s %d has no day %d", time.Month(month), year, day)
	}
	return d, ""
}

// ParseDate reads a date written 2006-01-02 and nothing else. The error is a
// *ValueError whose remedy says how the date was probably meant; an ambiguous
// one such as 03/04/2027 gets both readings.
func ParseDate(s string) (Date, error) {
	y, m, d, ok := splitISO(s)
	if !ok {
		reason, remedy := dateHint(s)
		return Date{}, &ValueError{What: "date", Value: s, Reason: reason, Remedy: remedy}
	}
	out, reason := makeDate(y, m, d)
	if reason != "" {
		return Date{}, &ValueError{
			What: "date", Value: s, Reason: reason,
			Remedy: "give a day that exists, from 1900-01-01 to 2199-12-31",
		}
	}
	return out, nil
}

// splitISO takes 2006-01-02 apart without judging the numbers.
func splitISO(s string) (y, m, d int, ok bool) {
	if len(s) != 10 || s[4] != '-' || s[7] != '-' {
		return 0, 0, 0, false
	}
	y, ok1 := digits(s[:4])
	m, ok2 := digits(s[5:7])
	d, ok3 := digits(s[8:])
	return y, m, d, ok1 && ok2 && ok3
}

// digits reads a short run of ASCII digits.
func digits(s string) (int, bool) {
	if s == "" || len(s) > 8 {
		return 0, false
	}
	n := 0
	for i := 0; i < len(s); i++ {
		if s[i] < '0' || s[i] > '9' {
			return 0, false
		}
		n = n*10 + int(s[i]-'0')
	}
	return n, true
}

// DateFromDayNumber returns the date n days after 1970-01-01. Outside the years
// 1 to 9999 it is unset.
func DateFromDayNumber(n int) Date {
	return fromOrdinal(int64(n) + epochDay)
}

// DateOf returns the local date of an instant. It is unset if the zone is.
func DateOf(t time.Time, z Zone) Date {
	return z.Local(t).Date
}

func fromOrdinal(n int64) Date {
	if n < 1 || n > lastDay {
		return Date{}
	}
	return Date{int32(n)}
}

func fromLib(d date.Date) Date { return fromOrdinal(int64(d) + 1) }

func (d Date) lib() date.Date { return date.Date(d.n - 1) }

// IsZero reports whether the date is unset.
func (d Date) IsZero() bool { return d.n == 0 }

// YMD returns year, month and day, all 0 if the date is unset.
func (d Date) YMD() (year, month, day int) {
	if d.n == 0 {
		return 0, 0, 0
	}
	y, m, dd := d.lib().Date()
	return y, int(m), dd
}

// String returns the date as 2006-01-02, or "" if it is unset.
func (d Date) String() string {
	if d.n == 0 {
		return ""
	}
	y, m, dd := d.YMD()
	b := []byte("0000-00-00")
	putDigits(b[:4], y)
	putDigits(b[5:7], m)
	putDigits(b[8:], dd)
	return string(b)
}

// putDigits fills b with the last digits of n.
func putDigits(b []byte, n int) {
	for i := len(b) - 1; i >= 0; i-- {
		b[i] = byte('0' + n%10)
		n /= 10
	}
}

// Compare is -1, 0 or +1. An unset date sorts before all others.
func (d Date) Compare(e Date) int {
	switch {
	case d.n < e.n:
		return -1
	case d.n > e.n:
		return 1
	}
	return 0
}

// Equal reports whether both are the same date or both unset, as == does.
func (d Date) Equal(e Date) bool { return d == e }

// Before reports whether d is earlier than e.
func (d Date) Before(e Date) bool { return d.n < e.n }

// After reports whether d is later than e.
func (d Date) After(e Date) bool { return d.n > e.n }

// Later returns the later of two dates; an unset one is earlier than any other.
func Later(d, e Date) Date {
	if d.n < e.n {
		return e
	}
	return d
}

// Earlier returns the earlier of two dates; an unset one is earlier than any other.
func Earlier(d, e Date) Date {
	if e.n < d.n {
		return e
	}
	return d
}

// AddDays returns the date n days later. Arithmetic may leave the years in which
// dates can be written, so that loops over dates end; outside the years 1 to
// 9999 the result is unset. An unset date stays unset.
func (d Date) AddDays(n int) Date {
	const most = 2 * lastDay
	if d.n == 0 || n > most || n < -most {
		return Date{}
	}
	return fromOrdinal(int64(d.n) + int64(n))
}

// DaysSince returns the number of days from e to d, negative if d is earlier. It
// is 0 if either date is unset.
func (d Date) DaysSince(e Date) int {
	if d.n == 0 || e.n == 0 {
		return 0
	}
	return int(d.n - e.n)
}

// DayNumber returns the number of days since 1970-01-01. It is 0 if the date is
// unset: ask IsZero first.
func (d Date) DayNumber() int {
	if d.n == 0 {
		return 0
	}
	return int(d.n - epochDay)
}

// Weekday returns the day of the week; Monday if the date is unset.
func (d Date) Weekday() time.Weekday {
	if d.n == 0 {
		return time.Monday
	}
	return d.lib().Weekday()
}

// ISOWeek returns the week of ISO 8601 and the year it belongs to, both 0 if the
// date is unset.
func (d Date) ISOWeek() (year, week int) {
	if d.n == 0 {
		return 0, 0
	}
	return d.lib().ISOWeek()
}

// WeekStart returns the latest date not after d that falls on the weekday first.
// A weekday outside Sunday to Saturday is taken modulo 7.
func WeekStart(d Date, first time.Weekday) Date {
	back := (int(d.Weekday()) - int(first)%7 + 14) % 7
	return d.AddDays(-back)
}

// MarshalText writes 2006-01-02; an unset date is the empty text. A date outside
// FirstYear to LastYear is an error, because it could not be read back.
func (d Date) MarshalText() ([]byte, error) {
	if d.n == 0 {
		return []byte{}, nil
	}
	if y, _, _ := d.YMD(); y < FirstYear || y > LastYear {
		return nil, &ValueError{
			What: "date", Value: d.String(), Reason: fmt.Sprintf("the year is outside %d to %d", FirstYear, LastYear),
			Remedy: "write dates from 1900-01-01 to 2199-12-31",
		}
	}
	return []byte(d.String()), nil
}

// UnmarshalText reads what ParseDate reads. The empty text is an error, so that
// a missing date is never taken for an unset one.
func (d *Date) UnmarshalText(b []byte) error {
	v, err := ParseDate(string(b))
	if err != nil {
		return err
	}
	*d = v
	return nil
}

package say

import (
	"fmt"
	"time"

	"example.org/weft/calendar"
)

// Month is the name of the month of a date.
func Month(d calendar.Date) string {
	_, m, _ := d.YMD()
	return time.Month(m).String()
}

// DayOf is the day of the month.
func DayOf(d calendar.Date) int {
	_, _, day := d.YMD()
	return day
}

// Weekday is "Mon".
func Weekday(d calendar.Date) string { return d.Weekday().String()[:3] }

// Short is "5 Sep".
func Short(d calendar.Date) string { return fmt.Sprintf("%d %s", DayOf(d), Month(d)[:3]) }

// Day is "Mon 5 Sep".
func Day(d calendar.Date) string { return Weekday(d) + " " + Short(d) }

// DayYear is "Mon 5 Sep 2026".
func DayYear(d calendar.Date) string { return Day(d) + " " + year(d) }

// Between is "5 Sep", "5-9 Sep" or "28 Sep - 4 Oct", without years.
func Between(from, to calendar.Date) string {
	switch {
	case from == to:
		return Short(from)
	case Month(from) == Month(to) && to.DaysSince(from) < 31:
		return fmt.Sprintf("%d-%s", DayOf(from), Short(to))
	}
	return Short(from) + " - " + Short(to)
}

// BetweenYear is Between with the year of the last date.
func BetweenYear(from, to calendar.Date) string { return Between(from, to) + " " + year(to) }

// Clock is "17:05", without seconds.
func Clock(c calendar.Clock) string { return (c - c%60).String() }

// Clocks is "17:05-18:00".
func Clocks(from, to calendar.Clock) string { return Clock(from) + "-" + Clock(to) }

// Count is "1 game" or "3 games".
func Count(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}

// Hours are whole hours, rounded down so that "48 h" is never less.
func Hours(d time.Duration) int64 { return int64(d / time.Hour) }

func year(d calendar.Date) string {
	y, _, _ := d.YMD()
	return fmt.Sprint(y)
}

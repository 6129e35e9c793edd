package handout

import (
	"fmt"
	"time"

	"example.org/weft/calendar"
)

func monthName(d calendar.Date) string {
	_, m, _ := d.YMD()
	return time.Month(m).String()
}

func dayOf(d calendar.Date) int {
	_, _, day := d.YMD()
	return day
}

func weekday(d calendar.Date) string { return d.Weekday().String()[:3] }

// dayText is "Mon 5 Sep", dayYear "Mon 5 Sep 2026", shortDay "5 Sep".
func dayText(d calendar.Date) string { return weekday(d) + " " + shortDay(d) }

func dayYear(d calendar.Date) string {
	y, _, _ := d.YMD()
	return fmt.Sprintf("%s %d", dayText(d), y)
}

func shortDay(d calendar.Date) string { return fmt.Sprintf("%d %s", dayOf(d), monthName(d)[:3]) }

// between is "5 Sep", "5-9 Sep" or "28 Sep - 4 Oct", without years.
func between(from, to calendar.Date) string {
	switch {
	case from == to:
		return shortDay(from)
	case monthName(from) == monthName(to) && to.DaysSince(from) < 31:
		return fmt.Sprintf("%d-%s", dayOf(from), shortDay(to))
	}
	return shortDay(from) + " - " + shortDay(to)
}

func betweenYear(from, to calendar.Date) string {
	y, _, _ := to.YMD()
	return fmt.Sprintf("%s %d", between(from, to), y)
}

func hhmm(c calendar.Clock) string { return (c - c%60).String() }

func later(a, b calendar.Date) calendar.Date {
	if a.Before(b) {
		return b
	}
	return a
}

func earlier(a, b calendar.Date) calendar.Date {
	if b.Before(a) {
		return b
	}
	return a
}

func count(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}

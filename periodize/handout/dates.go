package handout

import "example.org/weft/calendar"

func dayOf(d calendar.Date) int {
	_, _, day := d.YMD()
	return day
}

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

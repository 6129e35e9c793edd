package icalendar

// Recurrence rules and zone definitions are worked out in local seconds: days
// since 1970-01-01 in the Gregorian calendar times 86,400 plus the second of the
// day. It needs years before 1900 (zone definitions often begin in 1601), which
// is why calendar.Date is not used here.

const daySeconds = 86400

// dayNumber counts days from 1970-01-01; the arithmetic counts years from March,
// so that the leap day is the last of its year.
func dayNumber(year, month, day int) int {
	if month <= 2 {
		year--
		month += 12
	}
	era := floorDiv(year, 400)
	yoe := year - era*400
	doy := (153*(month-3)+2)/5 + day - 1
	return era*146097 + yoe*365 + yoe/4 - yoe/100 + doy - 719468
}

// ymd is the inverse of dayNumber.
func ymd(n int) (year, month, day int) {
	n += 719468
	era := floorDiv(n, 146097)
	doe := n - era*146097
	yoe := (doe - doe/1460 + doe/36524 - doe/146096) / 365
	doy := doe - (365*yoe + yoe/4 - yoe/100)
	mp := (5*doy + 2) / 153
	day = doy - (153*mp+2)/5 + 1
	month = mp + 3
	year = yoe + era*400
	if month > 12 {
		month -= 12
		year++
	}
	return year, month, day
}

// weekday of a day number: Monday is 0.
func weekday(n int) int { return floorMod(n+3, 7) }

func isLeap(y int) bool { return y%4 == 0 && (y%100 != 0 || y%400 == 0) }

func daysIn(year, month int) int {
	switch month {
	case 2:
		if isLeap(year) {
			return 29
		}
		return 28
	case 4, 6, 9, 11:
		return 30
	}
	return 31
}

func floorDiv(a, b int) int {
	q := a / b
	if a%b < 0 {
		q--
	}
	return q
}

func floorMod(a, b int) int {
	m := a % b
	if m < 0 {
		m += b
	}
	return m
}

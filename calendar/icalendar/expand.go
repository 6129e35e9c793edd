package icalendar

import (
	"errors"
	"slices"

	"example.org/weft/calendar"
)

// meter counts work, so that a bound on it gives the same result on every
// machine. One unit is one day, one candidate or one occurrence looked at.
type meter struct{ used, limit int64 }

var errWork = errors.New("the recurrence rules of this file need more work than the limit allows")

func (m *meter) spend(n int) error {
	m.used += int64(n)
	if m.used > m.limit {
		return errWork
	}
	return nil
}

// Rules give nothing outside the dates that package calendar knows.
var (
	firstLocal = int64(dayNumber(calendar.FirstYear, 1, 1)) * daySeconds
	lastLocal  = int64(dayNumber(calendar.LastYear+1, 1, 1))*daySeconds - 1
)

const maxTimesOfDay = 1440

// walk is one expansion of a rule from its DTSTART.
type walk struct {
	rule
	start    int64
	from, to int64            // window, local seconds, both inclusive
	after    func(int64) bool // whether a local time lies after UNTIL; may be nil
	times    []int64          // seconds of the day, or of the period if that is shorter; sorted
	numbered bool             // BYDAY ordinals count within the month
	m        *meter
	dayBuf   []int
	candBuf  []int64
}

// expand calls emit with each occurrence in the window, in order, until it
// returns false: DTSTART, which always counts as the first (section 3.3.10), then
// what the rule gives after it. matched tells whether the rule itself gives
// DTSTART, as far as the walk went.
func (r rule) expand(start int64, isDate bool, from, to int64, after func(int64) bool, m *meter, emit func(int64) bool) (matched bool, err error) {
	w := walk{rule: r, start: start, from: from, to: min(to, lastLocal), after: after, m: m}
	if err := w.defaults(isDate); err != nil {
		return false, err
	}
	if after != nil && after(start) {
		return true, nil
	}
	if start >= w.from && start <= w.to && !emit(start) {
		return true, nil
	}
	left := w.count - 1
	for k := int64(0); w.count == 0 || left > 0; {
		first, next, err := w.period(k)
		if err != nil {
			return matched, err
		}
		if first > w.to {
			return matched, nil
		}
		for _, c := range w.candBuf {
			if c <= start {
				matched = matched || c == start
				continue
			}
			if c > w.to || w.after != nil && w.after(c) {
				return matched, nil
			}
			if c >= w.from && !emit(c) {
				return matched, nil
			}
			if left--; left == 0 {
				return matched, nil
			}
		}
		if k == 0 && w.count == 0 {
			next = max(next, w.skipTo())
		}
		k = next
	}
	// COUNT=1: the loop did not look.
	if !matched {
		if _, _, err := w.period(0); err != nil {
			return false, err
		}
		_, matched = slices.BinarySearch(w.candBuf, start)
	}
	return matched, nil
}

// defaults takes from DTSTART what the rule does not say.
func (w *walk) defaults(isDate bool) error {
	day, sec := splitLocal(w.start)
	_, month, dom := ymd(day)
	switch w.freq {
	case yearly:
		if len(w.weeks)+len(w.yearDays)+len(w.monthDays)+len(w.days) == 0 {
			if len(w.months) == 0 {
				w.months = []int{month}
			}
			w.monthDays = []int{dom}
		} else if len(w.weeks) > 0 && len(w.yearDays)+len(w.monthDays)+len(w.days) == 0 {
			w.days = []nthDay{{weekday(day), 0}}
		}
		w.numbered = len(w.months) > 0
	case monthly:
		if len(w.monthDays)+len(w.days) == 0 {
			w.monthDays = []int{dom}
		}
		w.numbered = true
	case weekly:
		if len(w.days) == 0 {
			w.days = []nthDay{{weekday(day), 0}}
		}
	}
	if isDate && w.freq < daily {
		return errors.New("a rule within the day does not go with a start that is a date")
	}
	if isDate {
		// Section 3.3.10: BYHOUR, BYMINUTE and BYSECOND say nothing for dates.
		w.times = []int64{0}
		return nil
	}
	hours, minutes, seconds := w.hours, w.minutes, w.seconds
	if len(hours) == 0 || w.freq < daily {
		hours = []int{sec / 3600}
	}
	if len(minutes) == 0 {
		minutes = []int{sec / 60 % 60}
	}
	if len(seconds) == 0 {
		seconds = []int{sec % 60}
	}
	if w.freq < daily {
		w.within(minutes, seconds)
		return nil
	}
	if len(hours)*len(minutes)*len(seconds) > maxTimesOfDay {
		return errors.New("the rule asks for more than 1,440 times a day")
	}
	for _, h := range hours {
		for _, m := range minutes {
			for _, s := range seconds {
				w.times = append(w.times, int64(h*3600+m*60+s))
			}
		}
	}
	return nil
}

// skipTo returns a period that lies before the window, so that a rule without
// COUNT need not be walked from its beginning.
func (w *walk) skipTo() int64 {
	fromDay, _ := splitLocal(max(w.from, w.start))
	startDay, _ := splitLocal(w.start)
	days := int64(fromDay - startDay)
	switch w.freq {
	case daily:
		return days/w.interval - 1
	case weekly:
		return days/(7*w.interval) - 1
	case monthly:
		return days/(31*w.interval) - 1
	case yearly:
		return days/(366*w.interval) - 1
	}
	return (max(w.from, w.start)-w.start)/(w.freq.unit()*w.interval) - 1
}

// period fills candBuf with the sorted candidates of the k-th period and returns
// the first second of the period, and the next period to look at.
func (w *walk) period(k int64) (first, next int64, err error) {
	w.candBuf = w.candBuf[:0]
	if w.freq < daily {
		return w.finePeriod(k)
	}
	w.dayBuf = w.dayBuf[:0]
	startDay, _ := splitLocal(w.start)
	y, m, _ := ymd(startDay)
	looked, firstDay := 1, 0
	// Beyond the last date there is nothing, and the arithmetic of days ends.
	step := k * w.interval
	if step > foreverDays {
		return lastLocal + 1, k + 1, nil
	}
	switch steps := int(step); w.freq {
	case daily:
		firstDay = startDay + steps
		looked += w.scan(firstDay, firstDay)
	case weekly:
		firstDay = startDay - floorMod(weekday(startDay)-w.wkst, 7) + 7*steps
		looked += w.scan(firstDay, firstDay+6)
	case monthly:
		i := y*12 + m - 1 + steps
		firstDay = dayNumber(i/12, i%12+1, 1)
		looked += w.scanMonth(i/12, i%12+1)
	default:
		y += steps
		firstDay = dayNumber(y, 1, 1)
		if len(w.months) == 0 {
			looked += w.scan(firstDay, dayNumber(y, 12, 31))
		}
		for _, m := range w.months {
			looked += w.scanMonth(y, m)
		}
	}
	if err := w.m.spend(looked + len(w.dayBuf)*len(w.times)); err != nil {
		return 0, 0, err
	}
	for _, d := range w.dayBuf {
		for _, t := range w.times {
			w.candBuf = append(w.candBuf, int64(d)*daySeconds+t)
		}
	}
	w.pick()
	return int64(firstDay) * daySeconds, k + 1, nil
}

// scanMonth scans one month, by its named days alone where that is enough.
func (w *walk) scanMonth(y, m int) int {
	if len(w.months) > 0 && !slices.Contains(w.months, m) {
		return 0
	}
	first, dim := dayNumber(y, m, 1), daysIn(y, m)
	if len(w.monthDays) == 1 && len(w.days)+len(w.weeks)+len(w.yearDays) == 0 {
		d := w.monthDays[0]
		if d < 0 {
			d += dim + 1
		}
		if d >= 1 && d <= dim {
			w.dayBuf = append(w.dayBuf, first+d-1)
		}
		return 1
	}
	return w.scan(first, first+dim-1)
}

// scan appends the days first..last that pass every filter and returns how many
// it looked at.
func (w *walk) scan(first, last int) int {
	for n := first; n <= last; n++ {
		if w.fits(n) {
			w.dayBuf = append(w.dayBuf, n)
		}
	}
	return last - first + 1
}

func (w *walk) fits(n int) bool {
	if w.freq == weekly && len(w.months)+len(w.monthDays)+len(w.yearDays)+len(w.weeks) == 0 {
		return w.fitsWeekday(n, 0, 0, 0)
	}
	y, m, d := ymd(n)
	if len(w.months) > 0 && !slices.Contains(w.months, m) {
		return false
	}
	if len(w.monthDays) > 0 && !slices.Contains(w.monthDays, d) && !slices.Contains(w.monthDays, d-daysIn(y, m)-1) {
		return false
	}
	if len(w.yearDays) > 0 {
		doy := n - dayNumber(y, 1, 1) + 1
		if !slices.Contains(w.yearDays, doy) && !slices.Contains(w.yearDays, doy-yearLen(y)-1) {
			return false
		}
	}
	if len(w.weeks) > 0 {
		no, of := weekNumber(n, w.wkst)
		if !slices.Contains(w.weeks, no) && !slices.Contains(w.weeks, no-of-1) {
			return false
		}
	}
	return len(w.days) == 0 || w.fitsWeekday(n, y, m, d)
}

func (w *walk) fitsWeekday(n, y, m, d int) bool {
	wd := weekday(n)
	for _, e := range w.days {
		if e.day != wd {
			continue
		}
		if e.n == 0 {
			return true
		}
		at, of := d, 0
		if w.numbered {
			of = daysIn(y, m)
		} else {
			at, of = n-dayNumber(y, 1, 1)+1, yearLen(y)
		}
		if e.n == (at-1)/7+1 || e.n == -((of-at)/7+1) {
			return true
		}
	}
	return false
}

// pick applies BYSETPOS.
func (w *walk) pick() {
	if len(w.setPos) == 0 {
		return
	}
	all := slices.Clone(w.candBuf)
	w.candBuf = w.candBuf[:0]
	for _, p := range w.setPos {
		if p < 0 {
			p += len(all)
		} else {
			p--
		}
		if p >= 0 && p < len(all) {
			w.candBuf = append(w.candBuf, all[p])
		}
	}
	slices.Sort(w.candBuf)
	w.candBuf = slices.Compact(w.candBuf)
}

func yearLen(y int) int {
	if isLeap(y) {
		return 366
	}
	return 365
}

// weekNumber returns the number of the week of day n and how many weeks its year
// has: week 1 is the first with four days in the year (section 3.3.10).
func weekNumber(n, wkst int) (no, of int) {
	middle := n - floorMod(weekday(n)-wkst, 7) + 3
	y, _, _ := ymd(middle)
	no = (middle-dayNumber(y, 1, 1))/7 + 1
	last := dayNumber(y, 12, 31)
	lastMiddle := last - floorMod(weekday(last)-wkst, 7) + 3
	if lastMiddle > last {
		lastMiddle -= 7
	}
	return no, (lastMiddle-dayNumber(y, 1, 1))/7 + 1
}

func splitLocal(local int64) (day, sec int) {
	d := local / daySeconds
	s := local % daySeconds
	if s < 0 {
		d--
		s += daySeconds
	}
	return int(d), int(s)
}

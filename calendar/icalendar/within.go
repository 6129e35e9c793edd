package icalendar

import "slices"

// Rules finer than a day (HOURLY, MINUTELY, SECONDLY). Their periods are hours,
// minutes or seconds of floating wall time, interval apart from that of DTSTART;
// BYHOUR and whatever is not finer than the period narrows them down, what is
// finer widens each of them (the table of section 3.3.10).

// within sets the times inside a period.
func (w *walk) within(minutes, seconds []int) {
	switch w.freq {
	case secondly:
		minutes, seconds = []int{0}, []int{0}
	case minutely:
		minutes = []int{0}
	}
	for _, m := range minutes {
		for _, s := range seconds {
			w.times = append(w.times, int64(m*60+s))
		}
	}
}

// finePeriod is period for these rules. Where days, hours or minutes do not fit,
// it leaves candBuf empty and passes over the rest of them, so that one unit of
// work is a step and not a second.
func (w *walk) finePeriod(k int64) (first, next int64, err error) {
	unit := w.freq.unit()
	step := unit * w.interval
	anchor := w.start - floorMod64(w.start, unit)
	if k > (lastLocal-anchor)/step {
		return lastLocal + 1, k + 1, nil
	}
	first = anchor + k*step
	if err := w.m.spend(1); err != nil {
		return 0, 0, err
	}
	day, sec := splitLocal(first)
	pass := int64(0) // seconds of what does not fit
	switch hour, minute, second := sec/3600, sec/60%60, sec%60; {
	case !w.fits(day):
		pass = daySeconds
	case len(w.hours) > 0 && !slices.Contains(w.hours, hour):
		pass = 3600
	case w.freq < hourly && len(w.minutes) > 0 && !slices.Contains(w.minutes, minute):
		pass = 60
	case w.freq < minutely && len(w.seconds) > 0 && !slices.Contains(w.seconds, second):
		pass = 1
	}
	if pass > 0 {
		end := first - floorMod64(first, pass) + pass
		return first, k + max(1, (end-first+step-1)/step), nil
	}
	if err := w.m.spend(len(w.times)); err != nil {
		return 0, 0, err
	}
	for _, t := range w.times {
		w.candBuf = append(w.candBuf, first+t)
	}
	w.pick()
	return first, k + 1, nil
}

func floorMod64(a, b int64) int64 {
	m := a % b
	if m < 0 {
		m += b
	}
	return m
}

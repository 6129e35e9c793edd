package icalendar

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
)

type frequency uint8

const (
	secondly frequency = iota + 1
	minutely
	hourly
	daily
	weekly
	monthly
	yearly
)

var frequencies = map[string]frequency{
	"SECONDLY": secondly, "MINUTELY": minutely, "HOURLY": hourly,
	"DAILY": daily, "WEEKLY": weekly, "MONTHLY": monthly, "YEARLY": yearly,
}

// unit returns the seconds of a period finer than a day, 0 for the others.
func (f frequency) unit() int64 {
	switch f {
	case secondly:
		return 1
	case minutely:
		return 60
	case hourly:
		return 3600
	}
	return 0
}

// nthDay is one entry of BYDAY: weekday (Monday 0) and ordinal, 0 for all.
type nthDay struct{ day, n int }

// rule is a checked RRULE. Lists are sorted where their order has no meaning and
// hold no entry twice.
type rule struct {
	freq     frequency
	interval int64
	count    int64 // 0: none
	until    moment
	hasUntil bool
	wkst     int

	months, weeks, yearDays, monthDays []int
	days                               []nthDay
	hours, minutes, seconds, setPos    []int
	line                               int

	// What the section forbids and is read all the same, in words.
	notes []string
}

// endless tells whether nothing in the rule ends it.
func (r *rule) endless() bool { return r.count == 0 && !r.hasUntil }

// forever is a number of days and of seconds after which no date is known any
// more, whatever the start: larger intervals and counts mean the same.
const (
	foreverDays    = 120_000
	foreverSeconds = foreverDays * daySeconds
)

var weekdayNames = [7]string{"MO", "TU", "WE", "TH", "FR", "SA", "SU"}

func weekdayOf(s string) (int, bool) {
	for i, n := range weekdayNames {
		if strings.EqualFold(n, s) {
			return i, true
		}
	}
	return 0, false
}

// parseRule reads a RECUR value (RFC 5545 section 3.3.10). What the section
// forbids and other readers agree on is read, with a note; the error is for what
// has no meaning.
func parseRule(s string) (rule, error) {
	r := rule{interval: 1}
	seen := map[string]bool{}
	for _, part := range strings.Split(strings.TrimSpace(s), ";") {
		if part = strings.TrimSpace(part); part == "" {
			continue // a trailing semicolon is common
		}
		eq := strings.IndexByte(part, '=')
		if eq <= 0 {
			return r, fmt.Errorf("%q is not NAME=value", clip(part))
		}
		name, value := upper(strings.TrimSpace(part[:eq])), strings.TrimSpace(part[eq+1:])
		if seen[name] {
			return r, fmt.Errorf("%s is given twice", clip(name))
		}
		if len(seen) >= 20 {
			return r, errors.New("too many parts")
		}
		seen[name] = true
		if value == "" && name != "FREQ" {
			delete(seen, name)
			r.note("%s is empty and is not used", clip(name))
			continue
		}
		if err := r.set(name, value); err != nil {
			return r, err
		}
	}
	return r, r.check(seen)
}

func (r *rule) note(format string, args ...any) {
	if len(r.notes) < 20 {
		r.notes = append(r.notes, fmt.Sprintf(format, args...))
	}
}

func (r *rule) set(name, value string) (err error) {
	switch name {
	case "FREQ":
		ok := false
		if r.freq, ok = frequencies[upper(value)]; !ok {
			return fmt.Errorf("FREQ=%s is unknown", clip(value))
		}
	case "INTERVAL":
		r.interval, err = whole(name, strings.TrimPrefix(value, "-"))
		if strings.HasPrefix(value, "-") || err == nil && r.interval == 0 {
			r.interval = 1
			r.note("INTERVAL=%s is read as 1", clip(value))
		}
	case "COUNT":
		if r.count, err = whole(name, value); err == nil && r.count == 0 {
			r.count = 1
			r.note("COUNT=%s is read as 1, since the start counts", clip(value))
		}
	case "UNTIL":
		note := ""
		r.until, note, err = looseMoment(value)
		if err != nil {
			return fmt.Errorf("UNTIL=%s: %w", clip(value), err)
		}
		if note != "" {
			r.note("UNTIL=%s: %s", clip(value), note)
		}
		r.hasUntil = true
	case "WKST":
		d, ok := weekdayOf(value)
		if !ok {
			return fmt.Errorf("WKST=%s is no weekday", clip(value))
		}
		r.wkst = d
	case "BYMONTH":
		r.months, err = intList(name, value, 1, 12, false)
	case "BYWEEKNO":
		r.weeks, err = intList(name, value, 1, 53, true)
	case "BYYEARDAY":
		r.yearDays, err = intList(name, value, 1, 366, true)
	case "BYMONTHDAY":
		r.monthDays, err = intList(name, value, 1, 31, true)
	case "BYHOUR":
		r.hours, err = intList(name, value, 0, 23, false)
	case "BYMINUTE":
		r.minutes, err = intList(name, value, 0, 59, false)
	case "BYSECOND":
		r.seconds, err = intList(name, value, 0, 60, false)
		if n := len(r.seconds); n > 0 && r.seconds[n-1] == 60 { // section 3.3.12: without leap seconds, 60 is read as 59
			r.seconds[n-1] = 59
			r.seconds = slices.Compact(r.seconds)
		}
	case "BYSETPOS":
		r.setPos, err = intList(name, value, 1, 366, true)
	case "BYDAY":
		r.days, err = dayList(value)
	case "RSCALE":
		if !strings.EqualFold(value, "GREGORIAN") {
			return fmt.Errorf("RSCALE=%s: only the Gregorian calendar is known", clip(value))
		}
	case "SKIP":
		if !strings.EqualFold(value, "OMIT") {
			r.note("SKIP=%s is not used: dates that do not exist are left out", clip(value))
		}
	default:
		r.note("%s is no part of a recurrence rule and is not used", clip(name))
	}
	return err
}

func (r *rule) check(seen map[string]bool) error {
	if r.freq == 0 {
		return errors.New("FREQ is missing")
	}
	if r.freq >= daily {
		r.interval = min(r.interval, foreverDays)
	}
	freq := "FREQ=?"
	for name, f := range frequencies {
		if f == r.freq {
			freq = "FREQ=" + name
		}
	}
	// Parts that narrow down what the frequency gives, where the section has no
	// place for them: rrule-go, python-dateutil and others read them so.
	limit := func(name string) { r.note("%s does not go with %s; it is read as a limit", name, freq) }
	if len(r.weeks) > 0 && r.freq != yearly {
		limit("BYWEEKNO")
	}
	if len(r.yearDays) > 0 && (r.freq == daily || r.freq == weekly || r.freq == monthly) {
		limit("BYYEARDAY")
	}
	if len(r.monthDays) > 0 && r.freq == weekly {
		limit("BYMONTHDAY")
	}
	numbered := r.freq == monthly || r.freq == yearly && len(r.weeks) == 0
	said := false
	for i := range r.days {
		d := &r.days[i]
		if r.freq == monthly && (d.n > 5 || d.n < -5) {
			r.note("BYDAY=%d%s: a month has no such weekday", d.n, weekdayNames[d.day])
		}
		if d.n != 0 && !numbered {
			if !said {
				r.note("BYDAY=%d%s: a number goes with FREQ=MONTHLY, or YEARLY without BYWEEKNO; it is not used", d.n, weekdayNames[d.day])
			}
			d.n, said = 0, true
		}
	}
	if len(r.setPos) > 0 {
		by := false
		for name := range seen {
			by = by || strings.HasPrefix(name, "BY") && name != "BYSETPOS"
		}
		if !by {
			r.note("BYSETPOS needs another BY part; it is taken of what the start gives")
		}
	}
	return nil
}

// whole reads a number from 0; what is larger than any date needs is cut to
// that.
func whole(name, s string) (int64, error) {
	digits := strings.TrimPrefix(s, "+")
	for i := 0; i < len(digits); i++ {
		if digits[i] < '0' || digits[i] > '9' {
			digits = ""
		}
	}
	if digits == "" {
		return 0, fmt.Errorf("%s=%s is not a whole number from 1", name, clip(s))
	}
	if digits = strings.TrimLeft(digits, "0"); len(digits) > 15 {
		return foreverSeconds, nil
	}
	v, _ := strconv.ParseInt("0"+digits, 10, 64)
	return min(v, foreverSeconds), nil
}

// intList reads a list of numbers lo..hi, with signed also -hi..-lo.
func intList(name, s string, lo, hi int, signed bool) ([]int, error) {
	var out []int
	seen := map[int]bool{}
	for i, f := range strings.Split(s, ",") {
		if i >= 800 {
			return nil, fmt.Errorf("%s has too many entries", name)
		}
		v, err := strconv.Atoi(strings.TrimSpace(f))
		abs := v
		if signed && v < 0 {
			abs = -v
		}
		if err != nil || abs < lo || abs > hi {
			return nil, fmt.Errorf("%s=%s is out of range", name, clip(f))
		}
		if !seen[v] {
			seen[v] = true
			out = append(out, v)
		}
	}
	slices.Sort(out)
	return out, nil
}

func dayList(s string) ([]nthDay, error) {
	var out []nthDay
	seen := map[nthDay]bool{}
	for i, f := range strings.Split(s, ",") {
		f = strings.TrimSpace(f)
		if len(f) < 2 || i >= 800 {
			return nil, fmt.Errorf("BYDAY=%s is no weekday", clip(f))
		}
		d, ok := weekdayOf(f[len(f)-2:])
		n := 0
		if num := f[:len(f)-2]; ok && num != "" {
			v, err := strconv.Atoi(num)
			if err != nil || v == 0 || v > 53 || v < -53 {
				ok = false
			}
			n = v
		}
		if !ok {
			return nil, fmt.Errorf("BYDAY=%s is no weekday", clip(f))
		}
		if e := (nthDay{d, n}); !seen[e] {
			seen[e] = true
			out = append(out, e)
		}
	}
	return out, nil
}

// clip shortens a quoted value for a message and makes it safe to print.
func clip(s string) string {
	const most = 60
	out := make([]rune, 0, most)
	for _, r := range s {
		if len(out) == most {
			return string(out) + "..."
		}
		if isControl(r) || r == '\t' {
			r = ' '
		}
		out = append(out, r)
	}
	return string(out)
}

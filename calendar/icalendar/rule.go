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
	daily frequency = iota + 1
	weekly
	monthly
	yearly
)

// nthDay is one entry of BYDAY: weekday (Monday 0) and ordinal, 0 for all.
type nthDay struct{ day, n int }

// rule is a checked RRULE. Lists are sorted where their order has no meaning and
// hold no entry twice.
type rule struct {
	freq     frequency
	interval int
	count    int // 0: none
	until    moment
	hasUntil bool
	wkst     int

	months, weeks, yearDays, monthDays []int
	days                               []nthDay
	hours, minutes, seconds, setPos    []int
	line                               int
}

// endless tells whether nothing in the rule ends it.
func (r *rule) endless() bool { return r.count == 0 && !r.hasUntil }

const (
	maxInterval = 10000
	maxCount    = 100000
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

// parseRule reads a RECUR value (RFC 5545 section 3.3.10) and refuses, in words,
// what the section forbids and what no training calendar needs.
func parseRule(s string) (rule, error) {
	r := rule{interval: 1}
	seen := map[string]bool{}
	for _, part := range strings.Split(strings.TrimSpace(s), ";") {
		if part == "" {
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
		seen[name] = true
		if len(seen) > 20 {
			return r, errors.New("too many parts")
		}
		if err := r.set(name, value); err != nil {
			return r, err
		}
	}
	return r, r.check(seen)
}

func (r *rule) set(name, value string) (err error) {
	switch name {
	case "FREQ":
		switch upper(value) {
		case "DAILY":
			r.freq = daily
		case "WEEKLY":
			r.freq = weekly
		case "MONTHLY":
			r.freq = monthly
		case "YEARLY":
			r.freq = yearly
		case "SECONDLY", "MINUTELY", "HOURLY":
			return fmt.Errorf("FREQ=%s is refused: events that repeat within a day are not planned around", upper(value))
		default:
			return fmt.Errorf("FREQ=%s is unknown", clip(value))
		}
	case "INTERVAL":
		r.interval, err = bounded(name, value, 1, maxInterval)
	case "COUNT":
		r.count, err = bounded(name, value, 1, maxCount)
	case "UNTIL":
		r.until, err = parseMoment(value)
		if err != nil {
			return fmt.Errorf("UNTIL=%s: %w", clip(value), err)
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
		r.seconds, err = intList(name, value, 0, 59, false)
	case "BYSETPOS":
		r.setPos, err = intList(name, value, 1, 366, true)
	case "BYDAY":
		r.days, err = dayList(value)
	case "RSCALE":
		if !strings.EqualFold(value, "GREGORIAN") {
			return fmt.Errorf("RSCALE=%s is refused: only the Gregorian calendar is known", clip(value))
		}
	case "SKIP":
		if !strings.EqualFold(value, "OMIT") {
			return fmt.Errorf("SKIP=%s is refused: dates that do not exist are left out", clip(value))
		}
	default:
		return fmt.Errorf("%s is no part of a recurrence rule", clip(name))
	}
	return err
}

func (r *rule) check(seen map[string]bool) error {
	if r.freq == 0 {
		return errors.New("FREQ is missing")
	}
	if len(r.weeks) > 0 && r.freq != yearly {
		return errors.New("BYWEEKNO goes with FREQ=YEARLY only")
	}
	if len(r.yearDays) > 0 && r.freq != yearly {
		return errors.New("BYYEARDAY goes with FREQ=YEARLY only")
	}
	if len(r.monthDays) > 0 && r.freq == weekly {
		return errors.New("BYMONTHDAY does not go with FREQ=WEEKLY")
	}
	for _, d := range r.days {
		if d.n != 0 && (r.freq == daily || r.freq == weekly || len(r.weeks) > 0) {
			return errors.New("a numbered weekday in BYDAY goes with FREQ=MONTHLY, or YEARLY without BYWEEKNO")
		}
		if r.freq == monthly && (d.n > 5 || d.n < -5) {
			return fmt.Errorf("BYDAY=%d%s: a month has no such weekday", d.n, weekdayNames[d.day])
		}
	}
	if len(r.setPos) > 0 {
		by := false
		for name := range seen {
			by = by || strings.HasPrefix(name, "BY") && name != "BYSETPOS"
		}
		if !by {
			return errors.New("BYSETPOS needs another BY part")
		}
	}
	return nil
}

func bounded(name, s string, lo, hi int) (int, error) {
	v, err := strconv.Atoi(s)
	if err != nil || v < lo || v > hi {
		return 0, fmt.Errorf("%s=%s is not a whole number from %d to %d", name, clip(s), lo, hi)
	}
	return v, nil
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

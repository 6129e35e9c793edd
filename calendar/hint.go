package calendar

import (
	"fmt"
	"strconv"
	"strings"
)

const writeDate = "write dates as YYYY-MM-DD, such as 2026-11-08"

// dateHint explains a date that is not written as ISO 8601 has it, and guesses
// how it was meant. It never decides: the caller has to write the date anew.
func dateHint(s string) (reason, remedy string) {
	s = strings.TrimSpace(s)
	if s == "" {
		return "no date", writeDate
	}
	if len(s) > 10 && (s[10] == 'T' || s[10] == ' ') {
		if _, _, _, ok := splitISO(s[:10]); ok {
			return "a date with a time behind it", "write the date alone: " + s[:10]
		}
	}
	parts := strings.FieldsFunc(s, func(r rune) bool { return strings.ContainsRune("/.-, ", r) })
	if len(parts) == 1 && len(s) == 8 {
		if _, ok := digits(s); ok {
			parts = []string{s[:4], s[4:6], s[6:]}
		}
	}
	if len(parts) != 3 {
		return "not a date as ISO 8601 writes it", writeDate
	}
	n := make([]int, 3)
	for i, p := range parts {
		v, ok := digits(p)
		if !ok {
			m, isMonth := monthName(p)
			if !isMonth {
				return "not a date as ISO 8601 writes it", writeDate
			}
			// A month by name leaves the order of day and year to their size.
			rest := [2]string{parts[(i+1)%3], parts[(i+2)%3]}
			if i == 1 {
				rest = [2]string{parts[2], parts[0]}
			}
			return namedMonth(m, rest)
		}
		n[i] = v
	}
	var seen []string
	add := func(y, m, d int) {
		if y < 100 {
			y += 2000
		}
		if v, why := makeDate(y, m, d); why == "" {
			for _, o := range seen {
				if o == v.String() {
					return
				}
			}
			seen = append(seen, v.String())
		}
	}
	switch {
	case len(parts[0]) == 4:
		add(n[0], n[1], n[2])
	case len(parts[2]) == 4 || len(parts[2]) == 2:
		add(n[2], n[1], n[0])
		add(n[2], n[0], n[1])
	}
	switch len(seen) {
	case 0:
		return "not a date as ISO 8601 writes it", writeDate
	case 1:
		return "not a date as ISO 8601 writes it", "write " + seen[0] + " if that is meant"
	}
	return "day and month cannot be told apart", "write " + seen[0] + " if the day comes first, " + seen[1] + " if the month does"
}

func namedMonth(m int, rest [2]string) (reason, remedy string) {
	a, ok1 := digits(rest[0])
	b, ok2 := digits(rest[1])
	if ok1 && ok2 {
		if a < b {
			a, b = b, a
		}
		if v, why := makeDate(a, m, b); why == "" {
			return "not a date as ISO 8601 writes it", "write " + v.String() + " if that is meant"
		}
	}
	return "not a date as ISO 8601 writes it", writeDate
}

func monthName(s string) (int, bool) {
	if len(s) < 3 {
		return 0, false
	}
	const names = "jan feb mar apr may jun jul aug sep oct nov dec"
	i := strings.Index(names, strings.ToLower(s[:3]))
	if i < 0 || i%4 != 0 {
		return 0, false
	}
	return i/4 + 1, true
}

const writeTime = "write times as HH:MM on the 24-hour clock, such as 19:45"

// clockHint explains a time that is not written HH:MM, and guesses how it was
// meant.
func clockHint(s string) (reason, remedy string) {
	t := strings.ToLower(strings.TrimSpace(s))
	if t == "" {
		return "no time", writeTime
	}
	if t == "tbd" || t == "tba" || t == "tbc" {
		return "the time is not fixed", "leave the field empty"
	}
	if strings.HasSuffix(t, "z") || strings.ContainsAny(t[1:], "+") {
		return "an offset behind the time", "write the local time alone, and the zone in its own field"
	}
	add := -1
	if rest, ok := strings.CutSuffix(t, "am"); ok {
		t, add = strings.TrimSpace(rest), 0
	} else if rest, ok := strings.CutSuffix(t, "pm"); ok {
		t, add = strings.TrimSpace(rest), 12
	}
	parts := strings.FieldsFunc(t, func(r rune) bool { return strings.ContainsRune(":.h ", r) })
	if len(parts) == 1 && (len(t) == 3 || len(t) == 4) {
		parts = []string{t[:len(t)-2], t[len(t)-2:]}
	} else if len(parts) == 1 && add >= 0 {
		parts = append(parts, "00")
	}
	if len(parts) == 2 {
		h, err1 := strconv.Atoi(parts[0])
		m, err2 := strconv.Atoi(parts[1])
		if err1 == nil && err2 == nil {
			if add >= 0 && h >= 1 && h <= 12 {
				h = h%12 + add
			}
			if c, ok := makeClock(h, m, 0); ok {
				return "not a time on the 24-hour clock as HH:MM", fmt.Sprintf("write %s if that is meant", c)
			}
		}
	}
	return "not a time on the 24-hour clock as HH:MM", writeTime
}

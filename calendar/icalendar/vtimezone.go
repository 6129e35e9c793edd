package icalendar

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"example.org/weft/calendar"
)

// usedZone is a zone with the span over which its VTIMEZONE must hold.
type usedZone struct {
	zone     calendar.Zone
	id       string // TZID
	from, to time.Time
}

// zoneList holds the zones of a calendar, sorted by TZID.
type zoneList struct{ list []usedZone }

func usedZones(rs []resolvedEntry) *zoneList {
	l := &zoneList{}
	for i := range rs {
		r := &rs[i]
		if r.AllDay {
			continue
		}
		l.use(r.Zone, r.start.Instant)
		if r.hasEnd && !r.endInUTC {
			l.use(r.endZone(), r.end.Instant)
		}
	}
	slices.SortStableFunc(l.list, func(a, b usedZone) int { return strings.Compare(a.id, b.id) })
	// Two calendars may bring different zones of one name.
	seen := map[string]bool{}
	for i := range l.list {
		z := &l.list[i]
		for n := 2; seen[z.id]; n++ {
			z.id = fmt.Sprintf("%s (%d)", zoneID(z.zone), n)
		}
		seen[z.id] = true
	}
	return l
}

func (l *zoneList) use(z calendar.Zone, at time.Time) {
	if isUTC(z) {
		return
	}
	for i := range l.list {
		if u := &l.list[i]; u.zone.Equal(z) {
			if at.Before(u.from) {
				u.from = at
			}
			if at.After(u.to) {
				u.to = at
			}
			return
		}
	}
	l.list = append(l.list, usedZone{zone: z, id: zoneID(z), from: at, to: at})
}

// zoneID returns the TZID of a zone: its name, but for a custom zone whose name
// would be taken for that of another, or could not stand in a parameter.
func zoneID(z calendar.Zone) string {
	if !z.Custom() {
		return z.Name()
	}
	id := strings.TrimSpace(strings.Map(func(r rune) rune {
		if isControl(r) || r == '\t' || r == '"' {
			return -1
		}
		return r
	}, strings.ToValidUTF8(z.Name(), "\uFFFD")))
	if _, taken := namedZone(id); taken || id == "" || len(id) > 255 {
		return "Custom"
	}
	return id
}

func (l *zoneList) id(z calendar.Zone) string {
	for i := range l.list {
		if l.list[i].zone.Equal(z) {
			return l.list[i].id
		}
	}
	return z.Name()
}

// write writes each offset that holds somewhere in the span as an observance of
// its own, with its onset as the local time before the change (section 3.6.5).
// The span is widened by a day at both ends, for wall times that a change skips.
func (u usedZone) write(f *folder) {
	f.line("BEGIN:VTIMEZONE")
	f.line("TZID:" + escapeText(u.id))
	begin := unixUTC(int64(dayNumber(calendar.FirstYear, 1, 1)-1) * daySeconds)
	list := u.zone.Transitions(calendar.Span{Start: begin, End: u.to.Add(24 * time.Hour)})
	from, _ := u.zone.OffsetAt(begin)
	name, _ := begin.In(u.zone.Location()).Zone()
	first := 0 // the first change inside the span
	for first < len(list) && !list[first].At.After(u.from.Add(-24*time.Hour)) {
		first++
	}
	if first > 0 {
		first-- // the one before it says what holds when the span begins
		if first > 0 {
			from = list[first-1].Offset
		}
	} else {
		observanceText(f, begin.Unix()+int64(from), from, from, name)
	}
	for _, t := range list[first:] {
		observanceText(f, t.At.Unix()+int64(from), from, t.Offset, t.Abbrev)
		from = t.Offset
	}
	f.line("END:VTIMEZONE")
}

// observanceText writes one offset. The larger of two offsets is the daylight one,
// as calendar programs expect, also where the law calls the winter time the
// exception (Europe/Dublin, Africa/Casablanca).
func observanceText(f *folder, onset int64, from, to int, name string) {
	kind := "STANDARD"
	if to > from {
		kind = "DAYLIGHT"
	}
	w := wallOf(onset)
	f.line("BEGIN:" + kind)
	f.line("DTSTART:" + dateText(w.Date) + clockText(w.Clock))
	f.line("TZOFFSETFROM:" + offsetText(from))
	f.line("TZOFFSETTO:" + offsetText(to))
	if name = abbreviation(name); name != "" {
		f.line("TZNAME:" + escapeText(name))
	}
	f.line("END:" + kind)
}

func offsetText(sec int) string {
	sign := '+'
	if sec < 0 {
		sign, sec = '-', -sec
	}
	s := fmt.Sprintf("%c%02d%02d", sign, sec/3600, sec/60%60)
	if sec%60 != 0 {
		s += fmt.Sprintf("%02d", sec%60)
	}
	return s
}

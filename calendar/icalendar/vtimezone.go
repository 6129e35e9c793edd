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
			z.id = fmt.Sprintf("%s (%d)", z.zone.Name(), n)
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
	l.list = append(l.list, usedZone{zone: z, id: z.Name(), from: at, to: at})
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
	loc := u.zone.Location()
	until := u.to.Add(24 * time.Hour)
	at := u.from.Add(-24 * time.Hour)
	for n := 0; n < 2000; n++ {
		t := at.In(loc)
		name, to := t.Zone()
		start, end := t.ZoneBounds()
		from := to
		onset := time.Unix(int64(dayNumber(1900, 1, 1))*daySeconds-int64(to), 0)
		if !start.IsZero() && start.After(onset) {
			onset = start
			_, from = start.Add(-time.Second).In(loc).Zone()
		}
		observanceText(f, onset.Unix()+int64(from), from, to, name)
		if end.IsZero() || end.After(until) {
			break
		}
		at = end
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
	if name != "" {
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

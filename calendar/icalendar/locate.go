package icalendar

import (
	"fmt"
	"time"

	"example.org/weft/calendar"
)

// located is a moment with its zone.
type located struct {
	wall   calendar.Wall
	zone   calendar.Zone
	at     int64 // instant, Unix seconds; of a date, its local midnight as if in UTC
	fit    calendar.Fit
	date   bool
	local  int64
	gapped calendar.Resolution
}

// key names the occurrence of a series at this place.
func (l located) key() string {
	switch {
	case l.date:
		return l.wall.Date.String()
	case l.zone.Name() == "UTC":
		return l.wall.String() + "Z"
	}
	return l.wall.String()
}

func wallOf(local int64) calendar.Wall {
	day, sec := splitLocal(local)
	return calendar.Wall{Date: calendar.DateFromDayNumber(day), Clock: calendar.Clock(sec)}
}

func localOf(w calendar.Wall) int64 {
	return int64(w.Date.DayNumber())*daySeconds + int64(w.Clock)
}

func unixUTC(sec int64) time.Time { return time.Unix(sec, 0).UTC() }

// utcZone is UTC, loaded once: package time knows it without any data.
func (a *assembly) utcZone() calendar.Zone {
	if a.utc.IsZero() {
		a.utc, _ = calendar.LoadZone("UTC")
	}
	return a.utc
}

// locate finds the zone of a moment and its instant; what is wrong is reported.
func (a *assembly) locate(m moment, cal int32) (located, bool) {
	switch m.form {
	case formUTC:
		return a.fromInstant(m.local, a.utcHome(m, cal)), true
	case formZoned:
		z := a.zone(m.zone)
		return inZone(m.local, z), !z.IsZero()
	}
	z := a.home(cal)
	what := "a time without a zone"
	if m.isDate() {
		what = "a date without a zone"
	}
	if z.IsZero() {
		if z = a.opt.LastZone; !z.IsZero() && !a.lastSaid {
			a.lastSaid = true
			a.rep.ask(CodeZoneMissing, int(m.line), "", wallOf(m.local).String(), what+"; it and all others are read in "+z.Name(), "give a default zone, such as Europe/Berlin")
		}
	}
	if z.IsZero() {
		a.rep.fail(CodeZoneMissing, int(m.line), "", wallOf(m.local).String(), what, "give a default zone, such as Europe/Berlin")
		return located{}, false
	}
	if m.isDate() {
		return located{wall: wallOf(m.local), zone: z, at: m.local, local: m.local, fit: calendar.Exact, date: true}, true
	}
	return inZone(m.local, z), true
}

// inZone resolves a local time by RFC 5545, section 3.3.5.
func inZone(local int64, z calendar.Zone) located {
	w := wallOf(local)
	r := z.Resolve(w)
	return located{wall: w, zone: z, at: r.Instant.Unix(), local: local, fit: r.Fit, gapped: r}
}

// utcHome is the zone in which an instant is dated.
func (a *assembly) utcHome(m moment, cal int32) calendar.Zone {
	if z := a.home(cal); !z.IsZero() {
		return z
	}
	if !a.utcSaid {
		a.utcSaid = true
		a.rep.warn(CodeZoneAssumed, int(m.line), "", wallOf(m.local).String()+"Z", "times in UTC, and no zone is known: events are dated in UTC", "give a default zone, such as Europe/Berlin")
	}
	return a.utcZone()
}

// fromInstant dates an instant in a zone. The second pass of a doubled hour has
// no wall time of its own, so there the zone is UTC.
func (a *assembly) fromInstant(at int64, z calendar.Zone) located {
	t := unixUTC(at)
	w := z.Local(t)
	if r := z.Resolve(w); r.Instant.Equal(t) {
		return located{wall: w, zone: z, at: at, local: localOf(w), fit: calendar.Exact}
	}
	u := a.utcZone()
	w = u.Local(t)
	return located{wall: w, zone: u, at: at, local: localOf(w), fit: calendar.Exact}
}

// warnFit reports a time that a clock change skips or doubles.
func (a *assembly) warnFit(field string, m moment, l located) {
	if l.fit == calendar.Exact {
		return
	}
	value := l.wall.String() + " " + l.zone.Name()
	switch l.fit {
	case calendar.Skipped:
		a.rep.warn(CodeTimeSkipped, int(m.line), field, value, fmt.Sprintf("the clock skips this time; by RFC 5545 it is %s", l.zone.Local(l.gapped.Instant)), "correct the time at the source")
	case calendar.Doubled:
		a.rep.warn(CodeTimeDoubled, int(m.line), field, value, "the clock shows this time twice; by RFC 5545 it is the first", "give the time in UTC if the second is meant")
	}
}

// setEnd sets the end of an event from the DTEND or DURATION of its draft.
func (a *assembly) setEnd(e *calendar.Event, d *draft, start located) bool {
	switch {
	case start.date:
		days := int64(d.dur.days)
		if d.end.form != formNone {
			days = (d.end.local - d.start.local) / daySeconds
		}
		return a.endDays(e, d, start, days)
	case d.end.form != formNone:
		end, ok := a.locate(d.end, d.cal)
		if !ok {
			return false
		}
		// The end of an event that begins in a doubled hour may be in its second
		// pass; the first pass would lie before the start.
		if end.fit == calendar.Doubled && end.at < start.at {
			end = a.fromInstant(end.gapped.Later.Unix(), end.zone)
		}
		a.warnFit("DTEND", d.end, end)
		return a.endAt(e, d, start, end)
	case d.durLine != 0:
		end := start
		if d.dur.days != 0 {
			end = inZone(start.local+int64(d.dur.days)*daySeconds, start.zone)
		}
		return a.endAt(e, d, start, a.fromInstant(end.at+d.dur.seconds, start.zone))
	}
	return true
}

func (a *assembly) endDays(e *calendar.Event, d *draft, start located, days int64) bool {
	if days <= 1 {
		return true
	}
	w := wallOf(start.local + days*daySeconds)
	if !a.yearOK(w, d) {
		return false
	}
	e.End, e.HasEnd = w, true
	return true
}

func (a *assembly) endAt(e *calendar.Event, d *draft, start, end located) bool {
	line := int(d.line)
	if d.end.form != formNone {
		line = int(d.end.line)
	} else if d.durLine != 0 {
		line = int(d.durLine)
	}
	switch {
	case !a.yearOK(end.wall, d):
		return false
	case end.at < start.at:
		if !d.saidEnd {
			a.rep.ask(CodeEnd, line, "DTEND", end.wall.String(), "the event ends before it starts at "+start.wall.String()+"; "+noEnd, "correct DTSTART or DTEND")
			d.saidEnd = true
		}
		return true
	case end.at == start.at:
		a.rep.warn(CodeEnd, line, "DTEND", end.wall.String(), "the event ends when it starts; it counts as an event without an end", "give the end, or none")
		return true
	}
	e.End, e.HasEnd = end.wall, true
	if !end.zone.Equal(e.Zone) {
		e.EndZone = end.zone
	}
	return true
}

// yearOK leaves out, with a warning, what lies outside the known years.
func (a *assembly) yearOK(w calendar.Wall, d *draft) bool {
	if y, _, _ := w.Date.YMD(); y >= calendar.FirstYear && y <= calendar.LastYear {
		return true
	}
	a.rep.warn(CodeValue, int(d.line), "", w.String(), yearsKnown+"; the event is left out", "correct the year")
	return false
}

package icalendar

import (
	"fmt"
	"math"
	"slices"

	"example.org/weft/calendar"
)

// occurrence is one member of a recurrence set.
type occurrence struct {
	located
	end    moment // of an RDATE with an end
	dur    duration
	hasDur bool
}

// series takes a repeating event apart. Rules run in the wall time of the base
// zone, and UTC is the base zone of a series given in UTC; zones are resolved
// last.
func (a *assembly) series(m *draft, overrides []*draft) {
	base, ok := a.base(m)
	if !ok {
		return
	}
	later := a.futureChanges(m, overrides, base)
	set, ok := a.recurrenceSet(m, base, later.reach())
	if !ok || a.full {
		return
	}
	changed, byDate, ok := a.overrideIndex(m, overrides, base)
	if !ok {
		return
	}
	gone := a.excluded(m, base, set)
	id := a.seriesID(m, base)
	for _, occ := range set {
		i, isChanged := changed[occ.at]
		if !isChanged {
			i, isChanged = byDate[floorDay(occ.local)]
		}
		if gone(occ) {
			continue
		}
		var e calendar.Event
		d := m
		if isChanged && overrides[i] != nil {
			d = overrides[i]
			overrides[i] = nil
			e, ok = a.single(d)
		} else if f := later.at(occ.at); f != nil {
			d = f.draft
			e, ok = a.shifted(f, occ)
		} else {
			e, ok = a.instance(m, occ)
		}
		if !ok || m.repeats() && !a.inWindow(e) {
			continue
		}
		e.ID = id
		if m.repeats() {
			e.ID += "#" + occ.key()
		}
		if a.emit(e, d); a.full {
			return
		}
	}
	a.leftOver(m, overrides, base)
}

// seriesID is the UID of a series, or what stands for it.
func (a *assembly) seriesID(m *draft, base calendar.Zone) string {
	if m.uid != "" {
		return m.uid
	}
	e := a.blank(m)
	e.Start, e.Zone, e.DateOnly = wallOf(m.start.local), base, m.start.isDate()
	return e.ContentID()
}

// leftOver handles overrides whose RECURRENCE-ID is not in the set.
func (a *assembly) leftOver(m *draft, overrides []*draft, base calendar.Zone) {
	for _, d := range overrides {
		if d == nil {
			continue
		}
		at, ok := a.member(d.recurID, d.cal, base)
		e, ok2 := a.single(d)
		if !ok || !ok2 || !a.inWindow(e) {
			continue
		}
		if a.opt.From.IsZero() || !at.wall.Date.Before(a.opt.From) && !at.wall.Date.After(a.opt.To) {
			a.rep.warn(CodeOverride, int(d.line), "RECURRENCE-ID", at.wall.String(), fmt.Sprintf("the series of line %d has no such occurrence; the event is kept", m.line), "check RECURRENCE-ID and EXDATE")
		}
		if !at.date && !m.start.isDate() {
			at = located{wall: base.Local(unixUTC(at.at)), zone: base}
		}
		e.ID = a.baseID(e) + "#" + at.key()
		a.emit(e, d)
	}
}

// base returns the zone in whose wall time the rules of a series run.
func (a *assembly) base(m *draft) (calendar.Zone, bool) {
	if m.start.form == formUTC {
		return a.utcZone(), true
	}
	l, ok := a.locate(m.start, m.cal)
	return l.zone, ok
}

// recurrenceSet returns the occurrences in the window, widened by reach seconds at
// both ends, sorted by instant, each once.
func (a *assembly) recurrenceSet(m *draft, base calendar.Zone, reach int64) ([]occurrence, bool) {
	var set []occurrence
	from, to := a.window()
	from, to = from-reach, to+reach
	if a.opt.From.IsZero() {
		a.settleEndless(m, &to)
	}
	for i := range m.set().rules {
		r := &m.rules[i]
		n := 0
		add := func(local int64) bool {
			if n++; n > a.lim.Series {
				a.rep.ask(CodeLimit, r.line, "RRULE", wallOf(local).String(), fmt.Sprintf("more than %d occurrences of one rule in the span; this one and the later ones are left out", a.lim.Series), "ask for a shorter span, or raise the limit on series")
				return false
			}
			set = append(set, occurrence{located: a.inBase(local, m, base)})
			return len(set) <= a.lim.Events
		}
		after := a.until(r, m, base)
		if after != nil && after(m.start.local) {
			a.rep.warn(CodeRule, r.line, "UNTIL", wallOf(r.until.local).String(), "the rule ends before its start: it gives no occurrence", "correct UNTIL, or remove the event")
			continue
		}
		matched, err := a.run(r, m, after, from, to, add)
		switch {
		case len(set) > a.lim.Events:
			a.full = true
			return nil, false
		case err == errWork && a.meter.used > a.meter.limit:
			a.stop = true
			a.rep.fail(CodeLimit, r.line, "RRULE", "", err.Error(), "shorten the rules, or raise the limit on work")
			return nil, false
		case err == errWork:
			a.rep.ask(CodeLimit, r.line, "RRULE", "", fmt.Sprintf("the rule needs more work than %d, a part of the limit of the file; of its occurrences only those found by then are used", ruleWork(a.lim)), "shorten the rule, or raise the limit on work")
		case err != nil:
			a.rep.ask(CodeRule, r.line, "RRULE", "", err.Error()+"; the event does not repeat by it", "export the dates one by one")
			add(m.start.local)
		case !matched:
			a.rep.warn(CodeRuleStart, r.line, "RRULE", wallOf(m.start.local).String(), "the rule does not give the start of the event; the start counts as its first occurrence", "start the event on a day of its rule")
		}
	}
	if len(m.set().rules) == 0 {
		set = append(set, occurrence{located: a.inBase(m.start.local, m, base)})
	}
	for _, rd := range m.set().rdates {
		if rd.isDate() && !m.start.isDate() && !rd.hasDur && rd.end.form == formNone {
			a.rep.ask(CodeRule, int(rd.line), "RDATE", wallOf(rd.local).String(), "a date in a series of times: read as the time of the start on that date", "write it with its time")
			rd.moment.local += m.start.local - floorDay(m.start.local)*daySeconds
			rd.moment.form, rd.moment.zone = m.start.form, m.start.zone
		}
		if rd.isDate() != m.start.isDate() {
			if !m.start.isDate() || rd.form == formNone {
				a.rep.ask(CodeRule, int(rd.line), "RDATE", wallOf(rd.local).String(), "start and RDATE are not both dates or both times; it is left out", "write both in the same way")
				continue
			}
			a.rep.ask(CodeRule, int(rd.line), "RDATE", wallOf(rd.local).String(), "a time in a series of dates: read as its date", "write it as a date")
			rd = period{moment: moment{local: floorDay(rd.local) * daySeconds, form: formDate, line: rd.line}}
		}
		l, ok := a.member(rd.moment, m.cal, base)
		if !ok {
			return nil, false
		}
		if len(set) > a.lim.Events {
			a.full = true
			return nil, false
		}
		set = append(set, occurrence{l, rd.end, rd.dur, rd.hasDur})
	}
	slices.SortStableFunc(set, func(x, y occurrence) int {
		switch {
		case x.at < y.at:
			return -1
		case x.at > y.at:
			return 1
		}
		return 0
	})
	return slices.CompactFunc(set, func(x, y occurrence) bool { return x.at == y.at }), true
}

// member locates an RDATE, EXDATE or RECURRENCE-ID. One without a zone is read in
// that of its series, whatever the zone of the calendar.
func (a *assembly) member(m moment, cal int32, base calendar.Zone) (located, bool) {
	switch m.form {
	case formDate:
		return located{wall: wallOf(m.local), zone: base, at: m.local, local: m.local, fit: calendar.Exact, date: true}, true
	case formFloating:
		return inZone(m.local, base), true
	}
	return a.locate(m, cal)
}

// inBase places a local time of the base zone.
func (a *assembly) inBase(local int64, m *draft, base calendar.Zone) located {
	switch {
	case m.start.isDate():
		return located{wall: wallOf(local), zone: base, at: local, local: local, fit: calendar.Exact, date: true}
	case m.start.form == formUTC:
		return located{wall: wallOf(local), zone: base, at: local, local: local, fit: calendar.Exact}
	}
	return inZone(local, base)
}

// window is the span asked for in local seconds, with two days to spare for the
// distance between zones; inWindow decides.
func (a *assembly) window() (from, to int64) {
	if a.opt.From.IsZero() || a.opt.To.IsZero() {
		return firstLocal, lastLocal
	}
	return int64(a.opt.From.DayNumber()-2) * daySeconds, int64(a.opt.To.DayNumber()+3) * daySeconds
}

// run expands one rule of a series, within its share of the work.
func (a *assembly) run(r *rule, m *draft, after func(int64) bool, from, to int64, emit func(int64) bool) (matched bool, err error) {
	share := meter{limit: min(ruleWork(a.lim), a.meter.limit-a.meter.used)}
	matched, err = r.expand(m.start.local, m.start.isDate(), from, to, after, &share, emit)
	a.meter.used += share.used
	return matched, err
}

// ruleWork is the part of Limits.Work that one rule may use, so that one that is
// out of hand does not take the others with it.
func ruleWork(l Limits) int64 { return l.Work/10 + 1 }

// settleEndless gives rules without an end one, where no span of dates was asked
// for: the last date that the file itself names, but a year at least.
func (a *assembly) settleEndless(m *draft, to *int64) {
	for i := range m.set().rules {
		r := &m.rules[i]
		if !r.endless() {
			continue
		}
		*to = max(a.lastNamed(), m.start.local+yearSeconds)
		a.rep.ask(CodeRuleEndless, r.line, "RRULE", "", fmt.Sprintf("the rule has no end, and no span of dates was asked for; it is followed to %s", wallOf(min(*to, lastLocal)).Date), "ask for a span of dates, or add COUNT or UNTIL")
		return
	}
}

const yearSeconds = 365 * daySeconds

// lastNamed is the latest start that an event of the file gives by itself.
func (a *assembly) lastNamed() int64 {
	if a.latest == 0 {
		a.latest = math.MinInt64 / 4
		for i := range a.drafts {
			if d := &a.drafts[i]; d.start.form != formNone {
				a.latest = max(a.latest, d.start.local)
			}
		}
	}
	return a.latest
}

// until returns the test whether a local time of a series lies after the UNTIL of
// a rule. UNTIL is an instant for events with a zone (section 3.3.10).
func (a *assembly) until(r *rule, m *draft, base calendar.Zone) func(int64) bool {
	if !r.hasUntil {
		return nil
	}
	until := r.until.local
	isDate := m.start.isDate()
	if isDate != r.until.isDate() && r.line > 0 {
		a.rep.warn(CodeRule, r.line, "UNTIL", "", "UNTIL and the start are not both dates or both times; a date counts to its end", "write both in the same way")
	}
	if r.until.isDate() && !isDate {
		until += daySeconds - 1
	}
	if r.until.form != formUTC || isDate || m.start.form == formUTC {
		return func(local int64) bool { return local > until }
	}
	return func(local int64) bool {
		if local < until-2*daySeconds {
			return false
		}
		return inZone(local, base).at > until
	}
}

// instance is an occurrence that nothing overrides.
func (a *assembly) instance(m *draft, occ occurrence) (calendar.Event, bool) {
	e := a.blank(m)
	place := occ.located
	if m.start.form == formUTC && !place.date {
		place = a.fromInstant(place.at, a.utcHome(m.start, m.cal))
	}
	e.Start, e.Zone, e.DateOnly = place.wall, place.zone, place.date
	if !a.yearOK(e.Start, m) {
		return e, false
	}
	if !a.inWindow(e) && m.repeats() {
		return e, true
	}
	a.warnFit("DTSTART", m.start, place)
	switch {
	case occ.end.form != formNone:
		end, ok := a.member(occ.end, m.cal, place.zone)
		return e, ok && a.endAt(&e, m, place, end)
	case occ.hasDur:
		own := draft{line: m.line, cal: m.cal, dur: occ.dur, durLine: m.line}
		return e, a.setEnd(&e, &own, place)
	}
	return e, a.sameLength(&e, m, place)
}

// sameLength sets the end of an occurrence at a place other than the start of its
// draft. Section 3.8.5.3: with DTEND, each occurrence lasts exactly as long as the
// first.
func (a *assembly) sameLength(e *calendar.Event, d *draft, place located) bool {
	if place.date || d.end.form == formNone {
		return a.setEnd(e, d, place)
	}
	start, ok := a.locate(d.start, d.cal)
	if !ok {
		return false
	}
	if start.at == place.at {
		return a.setEnd(e, d, place)
	}
	end, ok := a.locate(d.end, d.cal)
	if !ok {
		return false
	}
	if end.fit == calendar.Doubled && end.at < start.at {
		end.at = end.gapped.Later.Unix()
	}
	return a.endAt(e, d, place, a.fromInstant(place.at+end.at-start.at, end.zone))
}

// excluded returns the test whether EXDATE or EXRULE removes an occurrence.
func (a *assembly) excluded(m *draft, base calendar.Zone, set []occurrence) func(occurrence) bool {
	if m.series == nil || len(m.exdates)+len(m.exRules) == 0 {
		return func(occurrence) bool { return false }
	}
	at, days := map[int64]bool{}, map[int64]bool{}
	for _, x := range m.exdates {
		if x.isDate() {
			days[floorDay(x.local)] = true
			continue
		}
		if l, ok := a.member(x, m.cal, base); ok {
			if m.start.isDate() {
				days[floorDay(l.local)] = true
			} else {
				at[l.at] = true
			}
		}
	}
	from, to := a.window()
	last := m.start.local
	for _, o := range set {
		last = max(last, o.local)
	}
	to = min(to, last+2*daySeconds)
	for i := range m.exRules {
		r := &m.exRules[i]
		n := 0
		_, err := a.run(r, m, a.until(r, m, base), from, to, func(local int64) bool {
			at[a.inBase(local, m, base).at] = true
			n++
			return n < a.lim.Events
		})
		if err != nil {
			a.rep.ask(CodeRule, r.line, "EXRULE", "", err.Error()+"; it takes nothing more away", "export the dates one by one")
		}
	}
	return func(o occurrence) bool { return at[o.at] || days[floorDay(o.local)] }
}

// overrideIndex finds overrides by the instant, or by the date, that they change.
func (a *assembly) overrideIndex(m *draft, ds []*draft, base calendar.Zone) (byInstant, byDate map[int64]int, ok bool) {
	if len(ds) == 0 {
		return nil, nil, true
	}
	byInstant, byDate = map[int64]int{}, map[int64]int{}
	for i, d := range ds {
		if d.recurID.form == formNone {
			continue
		}
		l, found := a.member(d.recurID, d.cal, base)
		if !found {
			return nil, nil, false
		}
		into, key := byInstant, l.at
		if l.date || m.start.isDate() {
			into, key = byDate, floorDay(l.local)
		}
		if j, twice := into[key]; twice {
			old, cur := ds[j], d
			if old.seq > cur.seq || old.seq == cur.seq && old.stamp > cur.stamp {
				old, cur = cur, old
				ds[i] = nil
			} else {
				ds[j] = nil
				into[key] = i
			}
			a.rep.warn(CodeDuplicate, int(old.line), "RECURRENCE-ID", l.wall.String(), fmt.Sprintf("an older version of the occurrence of line %d; it is not used", cur.line), "remove the older one")
			continue
		}
		into[key] = i
	}
	return byInstant, byDate, true
}

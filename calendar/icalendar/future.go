package icalendar

import (
	"slices"

	"example.org/weft/calendar"
)

// future is a change with RANGE=THISANDFUTURE (section 3.2.13): it holds for the
// occurrence that it names and for all later ones that no change of their own
// names, up to the next such change. They keep their ids.
type future struct {
	draft *draft
	from  int64 // instant of the named occurrence
	// shift is how much later the clock shows the change than the occurrence that it
	// names, each in its own zone: what moves from 18:00 to 19:00 stays at 19:00
	// through clock changes, also where it moves to another zone.
	shift int64
}

// futures are sorted by from.
type futures []future

// futureChanges finds the changes among the overrides of a series that hold for
// later occurrences too.
func (a *assembly) futureChanges(m *draft, overrides []*draft, base calendar.Zone) futures {
	var out futures
	for _, d := range overrides {
		if !d.future {
			continue
		}
		named, ok := a.member(d.recurID, d.cal, base)
		if !ok {
			continue
		}
		local := named.local
		switch {
		case named.date && !m.start.isDate(): // the occurrence of that date
			local += m.start.local - floorDay(m.start.local)*daySeconds
			named.at = inZone(floorDay(local)*daySeconds, base).at
		case !named.date && !named.zone.Equal(base):
			local = localOf(base.Local(unixUTC(named.at)))
		}
		out = append(out, future{d, named.at, d.start.local - local})
	}
	slices.SortStableFunc(out, func(x, y future) int {
		switch {
		case x.from < y.from:
			return -1
		case x.from > y.from:
			return 1
		}
		if x.draft.seq != y.draft.seq {
			return x.draft.seq - y.draft.seq
		}
		return int(min(1, max(-1, x.draft.stamp-y.draft.stamp)))
	})
	return out
}

// reach is the largest shift in either direction.
func (fs futures) reach() (most int64) {
	for _, f := range fs {
		most = max(most, f.shift, -f.shift)
	}
	return min(most, foreverSeconds)
}

// at returns the change that holds for the occurrence at an instant, or nil.
func (fs futures) at(at int64) *future {
	for i := len(fs) - 1; i >= 0; i-- {
		if fs[i].from <= at {
			return &fs[i]
		}
	}
	return nil
}

// shifted is an occurrence to which such a change applies: its shift, its length,
// its words and status.
func (a *assembly) shifted(f *future, occ occurrence) (calendar.Event, bool) {
	d := f.draft
	local := occ.local + f.shift
	asDate := d.start.isDate()
	if asDate {
		local = floorDay(local) * daySeconds
	}
	e := a.blank(d)
	if local < firstLocal || local > lastLocal {
		return e, false
	}
	moved := d.start
	moved.local = local
	place, ok := a.locate(moved, d.cal)
	if !ok {
		return e, false
	}
	e.Start, e.Zone, e.DateOnly = place.wall, place.zone, asDate
	if !a.yearOK(e.Start, d) {
		return e, false
	}
	if !a.inWindow(e) {
		return e, true
	}
	a.warnFit("DTSTART", d.start, place)
	return e, a.sameLength(&e, d, place)
}

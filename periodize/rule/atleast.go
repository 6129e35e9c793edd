package rule

import (
	"slices"

	"example.org/weft/calendar"
)

// Need says what [AtLeast] asks for: so many of the sessions picked in any run
// of dates. Numbers out of range are taken as the nearest in it.
type Need struct {
	Least  int // 1 to 3 dates with such a session
	Dates  int // length of the run: 2 to 60, for three of them 2 to 28
	Points int // for each date at whose end the run up to it holds fewer
	Which  Which
	// Events count as well, such as games that are played; the zero Match is none.
	Events Match
	// Before are dates before the first on which there was such a session. A run
	// that reaches back behind the earliest of them, or without them behind the
	// first date, is not judged: what was there is not known.
	Before []calendar.Date
}

// AtLeast makes an aim: in any run of so many dates there are at least so many
// dates with one of the sessions picked. It cannot be a limit, because resting
// is always allowed.
func AtLeast(id, doc string, n Need) Custom {
	n.Least = min(max(n.Least, 1), 3)
	most := 60
	if n.Least == 3 {
		most = 28
	}
	n.Dates = min(max(n.Dates, 2), most)
	n.Points = min(max(n.Points, 1), HighestPoints)
	n.Before = slices.Clone(n.Before)
	m := &atLeast{n}
	return Custom{ID: id, Doc: doc, Memory: m, Plain: m.plain}
}

type atLeast struct{ Need }

// The state holds how many dates ago the latest fitting dates were, six bits
// each, today as 1, the latest lowest; 0 is none within the run. Above them
// stands how many dates are known, up to the length of the run, and a bit that
// says that the first date was reached; 0 is before it. Six bits hold 60 and
// one more.
const (
	atLeastBits    = 6
	atLeastMask    = 1<<atLeastBits - 1
	atLeastKnown   = 3 * atLeastBits
	atLeastStarted = 4 * atLeastBits
	atLeastToday   = 4*atLeastBits + 1 // today has one already
)

func (m *atLeast) Init() uint64 { return 0 }

// start is the state in front of the first date.
func (m *atLeast) start(state uint64, first calendar.Date) uint64 {
	if state != 0 {
		return state
	}
	state = 1 << atLeastStarted
	known, ages := 0, []int{}
	for _, b := range m.Before {
		if ago := first.DaysSince(b); ago > 0 {
			known = max(known, ago)
			if ago < m.Dates && !slices.Contains(ages, ago) {
				ages = append(ages, ago)
			}
		}
	}
	slices.Sort(ages)
	for i := 0; i < min(len(ages), m.Least); i++ {
		state |= uint64(ages[i]) << (i * atLeastBits)
	}
	return state | uint64(min(known, m.Dates))<<atLeastKnown
}

// mark enters today as a date with a fitting session.
func (m *atLeast) mark(state uint64) uint64 {
	if state>>atLeastToday&1 == 1 {
		return state
	}
	ages := state & (1<<(m.Least*atLeastBits) - 1)
	kept := ages << atLeastBits & (1<<(m.Least*atLeastBits) - 1)
	return state&^ages | kept | 1<<atLeastToday
}

func (m *atLeast) Step(state uint64, d Day, s Session) (uint64, Verdict) {
	state = m.start(state, d.Date)
	if m.Which.fits(s) {
		state = m.mark(state)
	}
	return state, Verdict{}
}

func (m *atLeast) EndDay(state uint64, d Day) (uint64, Verdict) {
	state = m.start(state, d.Date)
	if m.counts(d) {
		state = m.mark(state)
	}
	known := min(int(state>>atLeastKnown&atLeastMask)+1, m.Dates)
	n := 0
	next := uint64(1)<<atLeastStarted | uint64(known)<<atLeastKnown
	today := state>>atLeastToday&1 == 1
	if today {
		n++
	}
	for i := 0; i < m.Least; i++ {
		ago := state >> (i * atLeastBits) & atLeastMask
		switch {
		case today && i == 0:
			ago = 0
		case ago == 0:
			continue
		default:
			n++
		}
		if int(ago)+1 < m.Dates {
			next |= (ago + 1) << (i * atLeastBits)
		}
	}
	if known < m.Dates || n >= m.Least {
		return next, Verdict{}
	}
	return next, Verdict{Points: m.Points}
}

// counts reports whether an event of the date counts as a session.
func (m *atLeast) counts(d Day) bool {
	return m.Events != (Match{}) && slices.ContainsFunc(d.Events, func(e calendar.Placed) bool { return e.Active() && m.Events.fits(e) })
}

func (m *atLeast) plain(days []Day) []Finding {
	if len(days) == 0 {
		return nil
	}
	fits, first := map[calendar.Date]bool{}, days[0].Date
	for _, b := range m.Before {
		if b.Before(days[0].Date) {
			fits[b] = true
			if b.Before(first) {
				first = b
			}
		}
	}
	for _, d := range days {
		if m.counts(d) || slices.ContainsFunc(d.Sessions, m.Which.fits) {
			fits[d.Date] = true
		}
	}
	var out []Finding
	for _, d := range days {
		from := d.Date.AddDays(1 - m.Dates)
		n := 0
		for x := from; !x.After(d.Date); x = x.AddDays(1) {
			if fits[x] {
				n++
			}
		}
		if !from.Before(first) && n < m.Least {
			out = append(out, Finding{d.Date, -1, Verdict{Points: m.Points}})
		}
	}
	return out
}

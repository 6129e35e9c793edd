package rule

import (
	"slices"
	"strings"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

// Match picks events: by kind, by title, or by both. Titles are compared without
// regard to case.
type Match struct {
	Kind  calendar.Kind
	Title string
}

func (m Match) fits(e calendar.Placed) bool {
	return (m.Kind == "" || m.Kind == e.Kind) && (m.Title == "" || strings.EqualFold(m.Title, e.Title))
}

// Which picks sessions: by kind, by weekday, by clock. A zero field picks all.
type Which struct {
	Kinds    []season.Kind
	Days     []time.Weekday
	From, To calendar.Clock // sessions that take any time of From to To; both zero is any
}

func (w Which) fits(s Session) bool {
	if len(w.Kinds) > 0 && !slices.Contains(w.Kinds, s.Kind) {
		return false
	}
	if len(w.Days) > 0 && !slices.Contains(w.Days, s.Date.Weekday()) {
		return false
	}
	return (w.From == 0 && w.To == 0) || (s.From < w.To && w.From < s.To)
}

// Forbid makes a rule that forbids sessions.
func Forbid(id, doc string, w Which) Custom {
	return Custom{ID: id, Doc: doc, Single: func(_ Day, s Session) Verdict { return Verdict{Forbid: w.fits(s)} }}
}

// After makes a rule that forbids sessions which start less than some time after
// the end of an event of the same date or the date before, such as a night
// shift.
func After(id, doc string, event Match, least time.Duration, w Which) Custom {
	return Custom{ID: id, Doc: doc, Single: func(d Day, s Session) Verdict {
		near := func(e calendar.Placed) bool {
			gap := s.Start.Sub(e.Span.End)
			return event.fits(e) && gap >= 0 && gap < least
		}
		return Verdict{Forbid: w.fits(s) && (slices.ContainsFunc(d.Events, near) || slices.ContainsFunc(d.Before, near))}
	}}
}

// Costs makes a rule of a price for each session picked: a preference.
func Costs(id, doc string, points int, w Which) Custom {
	return Custom{ID: id, Doc: doc, Single: func(_ Day, s Session) Verdict {
		if w.fits(s) {
			return Verdict{Points: points}
		}
		return Verdict{}
	}}
}

// AtMost makes a rule that allows no more than so many of the sessions picked in
// any run of dates, 1 to 10. Points zero makes it a limit; else each further
// session costs so much.
func AtMost(id, doc string, most, dates, points int, w Which) Custom {
	m := &atMost{most: most, dates: min(max(dates, 1), 10), points: points, which: w}
	return Custom{ID: id, Doc: doc, Memory: m, Plain: m.plain}
}

type atMost struct {
	most, dates, points int
	which               Which
}

// The state holds the counts of the dates before, three bits each, the latest
// lowest, and above them that of today.
func (m *atMost) Init() uint64 { return 0 }

const today = 40

func (m *atMost) Step(state uint64, _ Day, s Session) (uint64, Verdict) {
	if !m.which.fits(s) {
		return state, Verdict{}
	}
	n := min(state>>today+1, 7)
	sum := int(n)
	for k := 0; k < m.dates-1; k++ {
		sum += int(state >> (3 * k) & 7)
	}
	state = state&(1<<today-1) | n<<today
	if sum <= m.most {
		return state, Verdict{}
	}
	return state, m.verdict()
}

func (m *atMost) verdict() Verdict {
	if m.points > 0 {
		return Verdict{Points: m.points}
	}
	return Verdict{Forbid: true}
}

func (m *atMost) EndDay(state uint64, _ Day) (uint64, Verdict) {
	past := (state<<3 | state>>today) & (1<<(3*(m.dates-1)) - 1)
	return past, Verdict{}
}

func (m *atMost) plain(days []Day) []Finding {
	var out []Finding
	for i, d := range days {
		before := 0
		for k := max(0, i-m.dates+1); k < i; k++ {
			n := 0
			for _, s := range days[k].Sessions {
				if m.which.fits(s) {
					n++
				}
			}
			before += min(n, 7)
		}
		n := 0
		for x, s := range d.Sessions {
			if !m.which.fits(s) {
				continue
			}
			if n++; before+min(n, 7) > m.most {
				out = append(out, Finding{d.Date, x, m.verdict()})
			}
		}
	}
	return out
}

// Apart makes a rule that keeps the sessions picked at least so many hours
// apart, from the end of one to the start of the next. Points zero makes it a
// limit; else each pair nearer costs so much.
func Apart(id, doc string, least time.Duration, points int, w Which) Custom {
	m := &apart{least: int64(least / time.Minute), points: points, which: w}
	return Custom{ID: id, Doc: doc, Memory: m, Plain: m.plain}
}

type apart struct {
	least  int64 // minutes
	points int
	which  Which
}

// The state is the end of the last session in minutes, 0 once it no longer
// matters.
func (m *apart) Init() uint64 { return 0 }

func minutes(t time.Time) int64 { return t.Unix() / 60 }

func (m *apart) near(end int64, s Session) bool { return minutes(s.Start)-end < m.least }

func (m *apart) verdict() Verdict {
	if m.points > 0 {
		return Verdict{Points: m.points}
	}
	return Verdict{Forbid: true}
}

func (m *apart) Step(state uint64, _ Day, s Session) (uint64, Verdict) {
	if !m.which.fits(s) {
		return state, Verdict{}
	}
	var v Verdict
	if state != 0 && m.near(int64(state), s) {
		v = m.verdict()
	}
	return uint64(minutes(s.End)), v
}

// EndDay forgets an end that lies so far back that no session of a later date
// can be too near: a date is at least 23 hours long.
func (m *apart) EndDay(state uint64, d Day) (uint64, Verdict) {
	if state == 0 {
		return 0, Verdict{}
	}
	next := int64(d.Date.DayNumber()+1)*1440 - 14*60 // no zone is further ahead
	if next-int64(state) >= m.least {
		return 0, Verdict{}
	}
	return state, Verdict{}
}

func (m *apart) plain(days []Day) []Finding {
	var out []Finding
	var last *Session
	for _, d := range days {
		for x := range d.Sessions {
			s := &d.Sessions[x]
			if !m.which.fits(*s) {
				continue
			}
			if last != nil && m.near(minutes(last.End), *s) {
				out = append(out, Finding{d.Date, x, m.verdict()})
			}
			last = s
		}
	}
	return out
}

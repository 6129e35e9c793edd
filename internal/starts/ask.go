package starts

import (
	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

// What the planner asks about single sessions when it explains a plan.

// NextGame returns the first game that starts after an instant, -1 if none does.
func (f *Facts) NextGame(at int64) int { return f.nextGame(at) }

// Between reports whether an instant lies between two games nearer to each other
// than between-games allows, and which two.
func (f *Facts) Between(at int64) (before, after int, ok bool) {
	before, after, ok, _ = f.between(at)
	return before, after, ok
}

// NoWayBack are the trips that leave home for another zone and of which no way
// back is known.
func (f *Facts) NoWayBack() []int { return f.noWayBack }

// Local is what the clock shows at the place of a slot, nil where it is the plan's.
func (m *Model) Local(s *Slot) *season.Local {
	return m.local(m.zoneOf(s.Place, s.From), s.From, s.To)
}

// LocalGame is the same of a game.
func (m *Model) LocalGame(e *Event) *season.Local { return m.local(e.Zone, e.From, e.To) }

func (m *Model) local(z calendar.Zone, from, to int64) *season.Local {
	here := m.Zone.Local(Instant(from)) == z.Local(Instant(from)) && m.Zone.Local(Instant(to)) == z.Local(Instant(to))
	if here {
		return nil
	}
	return &season.Local{Zone: z.Name(), Start: z.Local(Instant(from)), End: z.Local(Instant(to))}
}

// Clocks are the changes of the athlete's clock on journeys in the period.
func (m *Model) Clocks() []season.Clock {
	first, last := m.Days[m.From].From, m.Days[m.To-1].To
	var out []season.Clock
	for i, s := range m.stays {
		if i+1 < len(m.stays) && m.stays[i+1].from <= first || s.from >= last {
			continue
		}
		if i > 0 || len(out) > 0 {
			out = append(out, season.Clock{From: m.Time(s.from), Zone: s.zone.Name()})
		}
	}
	return out
}

// Bounds are the limits that bound the starts of a date whatever is tried there:
// open hours, the latest end and exams.
func (f *Facts) Bounds(i int) []Breach {
	d := &f.Days[i]
	out := []Breach{{"open-hours", -1}, {latestEnd(d), -1}}
	if d.Exam && f.Set.On("exam-date") {
		out = append(out, Breach{"exam-date", f.examOn(d)})
	}
	return out
}

// Usual is the usual length of a kind in minutes.
func (f *Facts) Usual(k season.Kind) int {
	_, usual, _ := f.lengths(k)
	return usual
}

// Breaches returns the static limits a session at this start would break; open
// hours are taken to hold.
func (f *Facts) Breaches(s *Slot) []Breach { return f.breaches(s, true) }

// BreachesAt is Breaches with the open hours looked at too.
func (m *Model) BreachesAt(s *Slot) []Breach {
	at, ok := m.Index(s.Day)
	if !ok {
		return nil
	}
	d := &m.Days[at]
	room := roomy{athlete: m.athleteSpans(d)}
	for _, p := range m.Places {
		room.places = append(room.places, m.placeSpans(d, p))
	}
	return m.breaches(s, m.open(s, room))
}

// Offset is what the athlete's clock shows from a minute on, in seconds east of
// UTC.
type Offset struct {
	From    int64
	Seconds int
}

// Offsets are those of the athlete's clock over the dates whose facts are kept.
func (f *Facts) Offsets() []Offset {
	first, last := f.Days[0].From-3*1440, f.Days[len(f.Days)-1].To+3*1440
	var out []Offset
	for i, s := range f.stays {
		from, to := max(s.from, first), last
		if i+1 < len(f.stays) {
			to = min(to, f.stays[i+1].from)
		}
		if from >= to {
			continue
		}
		seconds, _ := s.zone.OffsetAt(Instant(from))
		out = append(out, Offset{from, seconds})
		for _, t := range s.zone.Transitions(calendar.Span{Start: Instant(from + 1), End: Instant(to)}) {
			out = append(out, Offset{floorMinutes(t.At), t.Offset})
		}
	}
	return out
}

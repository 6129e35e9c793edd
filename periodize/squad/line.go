package squad

import (
	"cmp"
	"slices"

	"example.org/weft/calendar"
	"example.org/weft/internal/starts"
)

// The line says who comes first where not all can be served: who had the fewest
// lifts in the last 7 dates, then who played the fewest minutes in them, then the
// smallest id. It decides only among plans of the squad that are equally good by
// points. In later weeks, of which no log tells yet, the line moves on by a third,
// so that who was last becomes first.

// standing is what places an athlete in the line.
type standing struct {
	id      string
	lifts   int
	minutes int
	known   bool // the minutes are
}

// before reports the order of the line.
func (s standing) compare(o standing) int {
	if c := cmp.Compare(s.lifts, o.lifts); c != 0 {
		return c
	}
	if s.known != o.known {
		if s.known {
			return -1
		}
		return 1
	}
	if c := cmp.Compare(s.minutes, o.minutes); c != 0 {
		return c
	}
	return cmp.Compare(s.id, o.id)
}

// lookBack is how many dates before today count.
const lookBack = 7

// standingOf counts an athlete's lifts and minutes of the last dates.
func standingOf(a *Athlete, m *starts.Model) standing {
	s := standing{id: a.id(), known: len(a.Played) > 0}
	today := calendar.DateOf(starts.Instant(m.Now), m.Zone).DayNumber()
	recent := func(day int) bool { return day >= today-lookBack && day < today }
	count := func(x *starts.Slot) {
		if x.Done && x.Kind.Lift() && recent(x.Day) {
			s.lifts++
		}
	}
	for i := range m.History {
		count(&m.History[i])
	}
	for i := range m.Choices {
		for j := range m.Choices[i].Slots {
			count(&m.Choices[i].Slots[j])
		}
	}
	for _, p := range a.Played {
		for i := range m.Events {
			if e := &m.Events[i]; e.ID == p.Event && recent(e.Day) {
				s.minutes += p.Minutes
			}
		}
	}
	return s
}

// lineOf returns the place of each athlete in the line, 0 is first.
func lineOf(all []standing) []int {
	order := make([]int, len(all))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(a, b int) int { return all[a].compare(all[b]) })
	out := make([]int, len(all))
	for place, i := range order {
		out[i] = place
	}
	return out
}

// third is how far a line moves on in a week.
func third(n int) int { return (n + 2) / 3 }

// inWeek is a place in the line so many weeks later.
func inWeek(place, week, n int) int { return (place + week*third(n)) % n }

// turn is whose turn it is to take a poor slot in a week, counted from no year in
// particular so that the next plan goes on where this one ends: n-1 is first.
func turn(id, week, n int) int { return (id + week*third(n)) % n }

package squad

import (
	"cmp"
	"slices"
	"strings"

	"example.org/weft/calendar"
	"example.org/weft/internal/starts"
)

// The line says who comes first where not all can be served: who had the fewest
// lifts in the last 7 dates, then who played the fewest minutes in them, then the
// smallest id. It decides only among plans of the squad that are equally good by
// points. In later weeks, of which no log tells yet, the line of each team moves on by
// a third, so that who was last in it becomes first, and the teams take turns: those
// who have the same games want the same slots, and so it is among them that the places
// have to go round.

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

// inWeek is a place in a line of n so many weeks later.
func inWeek(place, week, n int) int { return (place + week*third(n)) % n }

// weekly returns the place of each athlete in the line so many weeks later. place is
// that of the first week, team says who has the same games.
func weekly(place, team []int, week int) []int {
	if week == 0 {
		return place
	}
	size := map[int]int{}
	for _, t := range team {
		size[t]++
	}
	order := make([]int, len(place))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(a, b int) int { return place[a] - place[b] })
	seen := map[int]int{}
	rank := make([]int, len(place)) // within the team, moved on
	for _, i := range order {
		rank[i] = inWeek(seen[team[i]], week, size[team[i]])
		seen[team[i]]++
	}
	slices.SortFunc(order, func(a, b int) int { // by how far through the team, exactly
		if c := cmp.Compare(rank[a]*size[team[b]], rank[b]*size[team[a]]); c != 0 {
			return c
		}
		return place[a] - place[b]
	})
	out := make([]int, len(place))
	for at, i := range order {
		out[i] = at
	}
	return out
}

// teamsOf gives everybody the number of a team: of those who have the same games. Who
// has games of its own is in one with the others of whom that is true.
func teamsOf(all []*Athlete) []int {
	const alone = -1
	count := map[string]int{}
	keys := make([]string, len(all))
	for i, a := range all {
		var games []string
		for _, e := range a.Season.Events {
			if e.Kind == calendar.Game && e.Active() {
				games = append(games, e.Start.String()+" "+e.ID)
			}
		}
		slices.Sort(games)
		keys[i] = strings.Join(games, "\n")
		count[keys[i]]++
	}
	number := map[string]int{}
	out := make([]int, len(all))
	for i, k := range keys {
		if count[k] == 1 {
			out[i] = alone
			continue
		}
		if _, ok := number[k]; !ok {
			number[k] = len(number)
		}
		out[i] = number[k]
	}
	return out
}

package season

import (
	"slices"

	"example.org/weft/calendar"
)

// repeat says why an event of a list is not used, or needs a look.
type repeat int

const (
	repeatSame     repeat = iota + 1 // the same id and content again
	repeatOlder                      // a higher revision stands before it
	repeatReplaced                   // a higher revision stands after it
	repeatConflict                   // the same id and revision, other content; both kept
	repeatTwin                       // another id, the same content
	repeatCousin                     // another id, the same occasion, other end or status; both kept
)

// merge finds events that a list holds more than once. It returns the indices
// of those to use, in order. Which of several equal ones is used does not depend
// on the order of the list, up to their content. Report, if not nil, learns of
// each repetition and the event it repeats.
func merge(events []calendar.Event, report func(kind repeat, i, of int)) []int {
	if report == nil {
		report = func(repeat, int, int) {}
	}
	newest := map[string]int{} // the first of the highest revision
	for i, e := range events {
		if j, ok := newest[e.ID]; !ok || e.Revision > events[j].Revision {
			newest[e.ID] = i
		}
	}
	kept := make([]int, 0, len(events))
	if len(newest) == len(events) { // the usual list has each id once
		for i := range events {
			kept = append(kept, i)
		}
		return twins(events, kept, report)
	}
	used := map[string][]int{} // by id
	for i, e := range events {
		j := newest[e.ID]
		switch {
		case e.Revision < events[j].Revision && j < i:
			report(repeatOlder, i, j)
			continue
		case e.Revision < events[j].Revision:
			report(repeatReplaced, i, j)
			continue
		}
		group := used[e.ID]
		if k := slices.IndexFunc(group, func(k int) bool { return sameContent(events[k], e) }); k >= 0 {
			report(repeatSame, i, group[k])
			continue
		}
		if len(group) > 0 {
			report(repeatConflict, i, group[0])
			if len(group) >= maxConflicts {
				continue
			}
		}
		used[e.ID] = append(group, i)
		kept = append(kept, i)
	}
	return twins(events, kept, report)
}

// maxConflicts bounds the work on a list whose events all have one id; such a
// list is an error anyway.
const maxConflicts = 8

// occasion is what makes an event the one it is, as in its ContentID.
type occasion struct {
	kind                              calendar.Kind
	team, zone, home, opponent, title string
	start                             calendar.Wall
	dateOnly                          bool
}

func occasionOf(e *calendar.Event) occasion {
	o := occasion{e.Kind, e.Team, e.Zone.Name(), e.Home, e.Opponent, e.Title, e.Start, e.DateOnly}
	if o.opponent != "" {
		o.title = ""
	}
	return o
}

// twins finds one occasion under two ids.
func twins(events []calendar.Event, kept []int, report func(repeat, int, int)) []int {
	first := make(map[occasion]int, len(kept)) // the first of each
	further := map[occasion][]int{}            // those of other content
	drop := map[int]bool{}
	for _, i := range kept {
		e := events[i]
		key := occasionOf(&e)
		f, ok := first[key]
		if !ok {
			first[key] = i
			continue
		}
		group := append([]int{f}, further[key]...)
		k := slices.IndexFunc(group, func(k int) bool {
			a, b := events[k], e
			a.ID, b.ID = "", ""
			return sameContent(a, b)
		})
		switch {
		case k >= 0 && events[group[k]].ID == e.ID:
		case k >= 0 && e.ID < events[group[k]].ID:
			report(repeatTwin, group[k], i)
			drop[group[k]] = true
			if k == 0 {
				first[key] = i
			} else {
				further[key][k-1] = i
			}
		case k >= 0:
			report(repeatTwin, i, group[k])
			drop[i] = true
		default:
			if events[f].ID != e.ID {
				report(repeatCousin, i, f)
			}
			if len(group) < maxConflicts {
				further[key] = append(further[key], i)
			}
		}
	}
	if len(drop) == 0 {
		return kept
	}
	return slices.DeleteFunc(kept, func(i int) bool { return drop[i] })
}

// sameContent compares all that planning uses of two events.
func sameContent(a, b calendar.Event) bool {
	return a.ID == b.ID && a.Kind == b.Kind && a.Team == b.Team && a.Title == b.Title &&
		a.DateOnly == b.DateOnly && a.Start == b.Start && a.HasEnd == b.HasEnd && (!a.HasEnd || a.End == b.End) &&
		a.Zone.Equal(b.Zone) && a.EndZone.Equal(b.EndZone) &&
		a.HasActualEnd == b.HasActualEnd && (!a.HasActualEnd || a.ActualEnd == b.ActualEnd) &&
		a.Status.Settled() == b.Status.Settled() && a.Importance.Settled() == b.Importance.Settled() &&
		a.Hard == b.Hard && a.Home == b.Home && a.Opponent == b.Opponent &&
		a.Competition == b.Competition && a.Round == b.Round
}

// settled returns the events with ids and zones filled in.
func settled(events []calendar.Event, home calendar.Zone) []calendar.Event {
	out := slices.Clone(events)
	for i := range out {
		e := &out[i]
		if e.Zone.IsZero() {
			e.Zone = home
		}
		if e.ID == "" {
			e.ID = e.ContentID()
		}
	}
	return out
}

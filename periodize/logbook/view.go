package logbook

import (
	"cmp"
	"maps"
	"slices"
	"strings"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

// View is what holds now for one athlete. It shares memory with the log it came
// from, and is not to be changed.
type View struct {
	Athlete string
	// Entries are those that count, in the order of time. Voids and confirmations
	// are not among them.
	Entries   []Entry
	Disputed  []Dispute
	Questions []season.Note

	confirmed map[string]bool // ids
}

// Dispute is one thing of which different things are told. None of its entries
// counts, and whether it happened is unknown.
type Dispute struct {
	ID      string  // the first of its ids that does not only replace another
	Entries []Entry // in the order of time
}

// View is what holds now for one athlete; empty for one of whom nothing is told.
func (l Log) View(athlete string) View { return NewFold(l.Of(athlete)).View(athlete) }

// Confirmed reports whether somebody confirmed the values of an entry.
func (v View) Confirmed(id string) bool { return v.confirmed[id] }

// single leaves one entry for each planned session: the one that says all that
// the others say, such as an athlete's sets beside a coach's "was there". Where
// there is none, none counts.
func (v *View) single() {
	first := make(map[string]int, len(v.Entries))
	twice := map[string][]Entry{}
	for i := range v.Entries {
		s, ok := v.Entries[i].What.(Session)
		if !ok || s.Planned == "" {
			continue
		}
		j, seen := first[s.Planned]
		if !seen {
			first[s.Planned] = i
			continue
		}
		if len(twice[s.Planned]) == 0 {
			twice[s.Planned] = append(twice[s.Planned], v.Entries[j])
		}
		twice[s.Planned] = append(twice[s.Planned], v.Entries[i])
	}
	if len(twice) == 0 {
		return
	}
	drop := map[string]bool{}
	for _, planned := range slices.Sorted(maps.Keys(twice)) {
		list := twice[planned]
		var best *Entry
		for i := range list {
			e := &list[i]
			if !slices.ContainsFunc(list, func(o Entry) bool { return !covers(e, &o) }) &&
				(best == nil || cmp.Or(told(e, best), strings.Compare(e.ID, best.ID)) < 0) {
				best = e
			}
		}
		for i := range list {
			drop[list[i].ID] = best == nil || list[i].ID != best.ID
		}
		if best == nil {
			v.Disputed = append(v.Disputed, Dispute{list[0].ID, list})
			n := note("question-twice", "planned", planned)
			n.Subject = season.Subject{Session: planned, Dates: []calendar.Date{list[0].Date()}}
			v.Questions = append(v.Questions, n)
		}
	}
	v.Entries = slices.DeleteFunc(v.Entries, func(e Entry) bool { return drop[e.ID] })
}

// covers reports whether what one entry tells of a session holds all that
// another tells of it.
func covers(a, b *Entry) bool {
	x, ok := a.What.(Session)
	y, also := b.What.(Session)
	if !ok || !also || a.Date() != b.Date() || x.Session != y.Session {
		return false
	}
	return (y.State == x.State || y.State == Unknown) &&
		(!y.Rating.Known || y.Rating == x.Rating) && (!y.Minutes.Known || y.Minutes == x.Minutes) &&
		(len(y.Sets) == 0 || slices.Equal(x.Sets, y.Sets)) &&
		(!b.HasEnd || !a.HasEnd || a.End == b.End)
}

// sessions calls f for each session that counts, in the order of time.
func (v *View) sessions(f func(e *Entry, s *Session)) {
	for i := range v.Entries {
		if s, ok := v.Entries[i].What.(Session); ok {
			f(&v.Entries[i], &s)
		}
	}
}

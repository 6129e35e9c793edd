package logbook

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"
	"time"

	"example.org/weft/calendar"
)

// Log is a set of entries. It never changes: [Merge] makes a new one. The zero
// value is empty.
//
// An id names one entry of an athlete. Two entries with one id that say
// different things are both kept, and neither counts until a later entry
// replaces or voids that id; see [Log.Clashes]. The same facts told twice under
// one id are one entry, told at the first of both instants.
type Log struct {
	list []Entry // by athlete, id, facts; settled and checked
}

// NewLog makes a log of entries in any order. The error is a *season.InputError
// with every problem; paths count the entries, as in /entries/3/sets/0/load. An
// entry without an id gets its [Entry.ContentID].
func NewLog(entries ...Entry) (Log, error) {
	var f finder
	l := newLog(&f, entries, time.Time{})
	if err := f.failed(); err != nil {
		return Log{}, err
	}
	return l, nil
}

func newLog(f *finder, entries []Entry, now time.Time) Log {
	if len(entries) > MaxEntries {
		f.err(CodeLimit, "/entries", fmt.Sprint(len(entries)), fmt.Sprintf("more than %d entries", MaxEntries), "split the log by athlete")
		return Log{}
	}
	list := make([]Entry, 0, len(entries))
	for i := range entries {
		e := entries[i]
		if plain(e.What) && e.ID == "" {
			e.ID = pendingID
		}
		fatal := f.fatal
		c := checker{now: now, say: func(class calendar.Class, code, field, value, reason, remedy string) {
			f.put(calendar.Problem{Code: code, Class: class, Path: fmt.Sprintf("/entries/%d/%s", i, field), Value: value, Reason: reason, Remedy: remedy})
		}}
		c.entry(&e)
		if f.fatal > fatal {
			continue
		}
		e = e.settled()
		if e.ID == pendingID {
			e.ID = ""
			e.ID = e.ContentID()
		}
		list = append(list, e)
	}
	return Log{united(list)}
}

// pendingID stands for the id that an entry gets once it has been checked.
const pendingID = "pending"

func compareIDs(a, b *Entry) int {
	if c := strings.Compare(a.Athlete, b.Athlete); c != 0 {
		return c
	}
	return strings.Compare(a.ID, b.ID)
}

// told orders by who told it first.
func told(a, b *Entry) int {
	return cmp.Or(a.Recorded.Compare(b.Recorded), strings.Compare(string(a.Source), string(b.Source)))
}

// united is a list sorted, with repetitions taken out. Pointers are sorted, since
// entries are large.
func united(list []Entry) []Entry {
	order := make([]*Entry, len(list))
	for i := range list {
		order[i] = &list[i]
	}
	if !slices.IsSortedFunc(order, compareIDs) {
		slices.SortFunc(order, compareIDs)
	}
	return unique(order)
}

// unique is a sorted list with repetitions taken out.
func unique(order []*Entry) []Entry {
	out := make([]Entry, 0, len(order))
	for from := 0; from < len(order); {
		to := from + 1
		for to < len(order) && compareIDs(order[from], order[to]) == 0 {
			to++
		}
		if to-from == 1 {
			out = append(out, *order[from])
		} else {
			out = append(out, distinct(order[from:to])...)
		}
		from = to
	}
	return out
}

// distinct leaves one of each of the entries of one id that say the same, in the
// order of what they say.
func distinct(same []*Entry) []Entry {
	if len(same) == 2 && equalFacts(same[0], same[1]) {
		if told(same[1], same[0]) < 0 {
			return []Entry{*same[1]}
		}
		return []Entry{*same[0]}
	}
	texts := make(map[string]*Entry, len(same))
	for _, e := range same {
		t := facts(e)
		if x, ok := texts[t]; !ok || told(e, x) < 0 {
			texts[t] = e
		}
	}
	var out []Entry
	for _, t := range slices.Sorted(maps.Keys(texts)) {
		out = append(out, *texts[t])
	}
	return out
}

// equalFacts reports whether two settled entries say the same, whoever told it
// when.
func equalFacts(a, b *Entry) bool {
	if a.ID != b.ID || a.Athlete != b.Athlete || a.Replaces != b.Replaces || a.Start != b.Start || a.DateOnly != b.DateOnly ||
		a.HasEnd != b.HasEnd || a.End != b.End || !a.Zone.Equal(b.Zone) {
		return false
	}
	switch x := a.What.(type) {
	case Session:
		y, ok := b.What.(Session)
		return ok && x.Planned == y.Planned && x.Session == y.Session && x.State == y.State && x.Rating == y.Rating &&
			x.Minutes == y.Minutes && slices.Equal(x.Sets, y.Sets)
	case Test:
		y, ok := b.What.(Test)
		return ok && x.Name == y.Name && x.Protocol == y.Protocol && x.Unit == y.Unit && x.Value == y.Value && slices.Equal(x.Trials, y.Trials)
	case Remark:
		y, ok := b.What.(Remark)
		return ok && x.Text == y.Text && x.Session == y.Session && slices.Equal(x.Days, y.Days)
	}
	return a.What == b.What // the other types can be compared
}

// Entries returns all entries, those that were corrected among them, sorted by
// athlete, id and what they say.
func (l Log) Entries() []Entry {
	out := make([]Entry, len(l.list))
	for i, e := range l.list {
		out[i] = e.settled()
	}
	return out
}

// Len is the number of entries.
func (l Log) Len() int { return len(l.list) }

// Athletes returns the ids of the athletes, sorted.
func (l Log) Athletes() []string {
	var out []string
	for i := range l.list {
		if a := l.list[i].Athlete; len(out) == 0 || out[len(out)-1] != a {
			out = append(out, a)
		}
	}
	return out
}

// Of returns the entries of one athlete as a log of their own.
func (l Log) Of(athlete string) Log {
	from, _ := slices.BinarySearchFunc(l.list, athlete, func(e Entry, a string) int { return strings.Compare(e.Athlete, a) })
	to := from
	for to < len(l.list) && l.list[to].Athlete == athlete {
		to++
	}
	return Log{l.list[from:to:to]}
}

// AsOf returns what had been told by an instant. A sheet printed then came from
// it, and still does however much is told later.
func (l Log) AsOf(t time.Time) Log {
	var out []Entry
	for i := range l.list {
		if !l.list[i].Recorded.After(t) {
			out = append(out, l.list[i])
		}
	}
	return Log{out}
}

// Future returns the problems of entries that were told, and so may have
// happened, after now.
func (l Log) Future(now time.Time) []calendar.Problem {
	var f finder
	for i := range l.list {
		if e := &l.list[i]; e.Recorded.After(now) {
			f.err(CodeFuture, fmt.Sprintf("/entries/%d/recorded", i), instantText(e.Recorded), "told after now, "+instantText(now), "check the instant, or the now that was given")
		}
	}
	return f.problems()
}

// Clash is one id under which different things are told.
type Clash struct {
	Athlete string
	ID      string
	Entries []Entry // sorted by what they say
}

// Clashes lists the ids under which different things are told.
func (l Log) Clashes() []Clash {
	var out []Clash
	for i := 1; i < len(l.list); i++ {
		a, b := &l.list[i-1], &l.list[i]
		if compareIDs(a, b) != 0 {
			continue
		}
		if n := len(out); n > 0 && out[n-1].Athlete == b.Athlete && out[n-1].ID == b.ID {
			out[n-1].Entries = append(out[n-1].Entries, b.settled())
			continue
		}
		out = append(out, Clash{b.Athlete, b.ID, []Entry{a.settled(), b.settled()}})
	}
	return out
}

func sortDays(days []time.Weekday) {
	slices.SortFunc(days, func(a, b time.Weekday) int { return cmp.Compare((a+6)%7, (b+6)%7) })
}

// cloned copies a list; an empty one is nil.
func cloned[T any](list []T) []T {
	if len(list) == 0 {
		return nil
	}
	return slices.Clone(list)
}

package logbook

import (
	"slices"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

// linkWithin is how far from the planned start a session of another kind may have
// begun to be the planned one: common practice, no source.
const linkWithin = 90 * time.Minute

// Link says that an entry that named nothing is taken for what was planned.
type Link struct {
	Kind  Kind
	Entry string // id
	To    string // planned session or event
}

// Linked is a view in which sessions, games and practices that were told without a
// name are those of a plan and a calendar, as most tables tell them. Of each date
// the nameless entries of one kind are paired, in the order of time, with what was
// planned of that kind and of which nothing is told, if there are as many of both.
// One session left over that began within 90 minutes of the one planned session
// left over is that one, done as another kind. All others stay what they were:
// sessions that nobody planned.
//
// Links lists what was taken for what, in the order of time. The log is not
// changed; naming what an entry is about settles it for good.
func (v View) Linked(issued []season.Session, events []calendar.Placed) (linked View, links []Link) {
	linked = v
	linked.Entries = slices.Clone(v.Entries)
	l := linker{told: map[string]bool{}, entries: linked.Entries}
	for i := range v.Entries {
		l.told[nameOf(&v.Entries[i])] = true
	}
	for _, d := range v.Disputed {
		for i := range d.Entries {
			l.told[nameOf(&d.Entries[i])] = true
		}
	}
	for _, s := range issued {
		l.plan(slot{s.Date, OfSession, s.Kind, s.ID, s.Start})
	}
	for i := range events {
		e := &events[i]
		if !e.Active() {
			continue
		}
		switch e.Kind {
		case calendar.Game:
			l.plan(slot{e.Date, OfGame, "", e.ID, e.Span.Start})
		case calendar.Practice, calendar.Skills:
			l.plan(slot{e.Date, OfPractice, "", e.ID, e.Span.Start})
		}
	}
	l.pair()
	for i := range l.to {
		if to := l.to[i]; to != "" {
			links = append(links, Link{linked.Entries[i].What.Kind(), linked.Entries[i].ID, to})
		}
	}
	return linked, links
}

// slot is what was planned on a date.
type slot struct {
	date    calendar.Date
	kind    Kind
	session season.Kind
	id      string
	start   time.Time
}

// sort is what has to be alike to be paired.
func (s slot) sort() slot { return slot{date: s.date, kind: s.kind, session: s.session} }

type linker struct {
	entries []Entry
	told    map[string]bool // names; "" among them
	slots   map[slot][]slot // untold, by date and kind
	to      []string        // name that an entry gets
}

func nameOf(e *Entry) string {
	t, _ := thingOf(e)
	return t.name
}

func (l *linker) plan(s slot) {
	if s.id == "" || l.told[s.id] {
		return
	}
	l.told[s.id] = true // once
	if l.slots == nil {
		l.slots = map[slot][]slot{}
	}
	l.slots[s.sort()] = append(l.slots[s.sort()], s)
}

// nameless lists entries without a name by date and kind, in the order of time.
func (l *linker) nameless() (by map[slot][]int, order []slot) {
	by = map[slot][]int{}
	for i := range l.entries {
		e := &l.entries[i]
		t, ok := thingOf(e)
		if !ok || t.name != "" {
			continue
		}
		s := slot{date: e.Date(), kind: t.kind, session: t.of}
		if by[s] == nil {
			order = append(order, s)
		}
		by[s] = append(by[s], i)
	}
	return by, order
}

func (l *linker) pair() {
	l.to = make([]string, len(l.entries))
	by, order := l.nameless()
	for _, s := range order {
		free, list := l.slots[s], by[s]
		if len(free) != len(list) || len(list) > 1 && slices.ContainsFunc(list, func(i int) bool { return l.entries[i].DateOnly }) {
			continue
		}
		slices.SortStableFunc(free, func(a, b slot) int { return a.start.Compare(b.start) })
		for k, i := range list {
			l.link(i, free[k].id)
		}
		delete(l.slots, s)
		by[s] = nil
	}
	l.otherKind(by, order)
}

// otherKind pairs what is left of a date's sessions, if it is one of each.
func (l *linker) otherKind(by map[slot][]int, order []slot) {
	left, free := map[calendar.Date][]int{}, map[calendar.Date][]slot{}
	var dates []calendar.Date
	for _, s := range order {
		if s.kind == OfSession && len(by[s]) > 0 {
			if left[s.date] == nil {
				dates = append(dates, s.date)
			}
			left[s.date] = append(left[s.date], by[s]...)
		}
	}
	for s, list := range l.slots {
		if s.kind == OfSession {
			free[s.date] = append(free[s.date], list...)
		}
	}
	for _, d := range dates {
		if len(left[d]) != 1 || len(free[d]) != 1 {
			continue
		}
		at, ok := l.entries[left[d][0]].At()
		if gap := at.Sub(free[d][0].start); ok && gap <= linkWithin && -gap <= linkWithin {
			l.link(left[d][0], free[d][0].id)
		}
	}
}

func (l *linker) link(i int, id string) {
	l.to[i] = id
	switch w := l.entries[i].What.(type) {
	case Session:
		w.Planned = id
		l.entries[i].What = w
	case Game:
		w.Event = id
		l.entries[i].What = w
	case Practice:
		w.Event = id
		l.entries[i].What = w
	}
}

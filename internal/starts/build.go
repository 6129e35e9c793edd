package starts

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize/rule"
	"example.org/weft/periodize/season"
)

// Build derives the facts, the forced sessions and the options of every date.
// newest is the plan issued last, whose past is fixed; reference the one that
// changes are counted against. Both are nil if nothing was issued.
func Build(req *season.Request, set *rule.Set, newest, reference *season.Plan) (*Model, []calendar.Problem) {
	return BuildPart(req, set, newest, reference, Part{To: req.Period.Days() - 1})
}

// Part says what of a model is built.
type Part struct {
	From, To int             // layers that get options, both included
	Ignore   map[Breach]bool // limits that are not looked at
	Custom   []rule.Custom
	Slots    []PlaceSlots
}

// BuildPart is Build for a part of the season, with rules of one's own.
func BuildPart(req *season.Request, set *rule.Set, newest, reference *season.Plan, part Part) (*Model, []calendar.Problem) {
	facts, problems := NewFacts(req, set)
	if len(problems) > 0 {
		return nil, problems
	}
	facts.Ignore = part.Ignore
	facts.custom = part.Custom
	m := &Model{Facts: facts, Places: Places(req)}
	for _, p := range m.Places {
		m.PlaceIDs = append(m.PlaceIDs, p.ID)
	}
	m.placeIDs = m.PlaceIDs
	for _, p := range m.Places {
		m.placeZones = append(m.placeZones, p.Zone)
	}
	facts.setSlots(part.Slots)
	forced := m.past(req, newest)
	if reference != nil {
		m.HasIssued = true
		for i := range reference.Sessions {
			if s := m.SlotOf(&reference.Sessions[i]); s.From >= m.Now {
				m.Reference = append(m.Reference, s)
			}
		}
	}
	pins := map[int][]season.Pin{}
	for _, p := range req.Pins {
		pins[p.Date.DayNumber()] = append(pins[p.Date.DayNumber()], p)
	}
	m.Choices = make([]Choices, m.To-m.From)
	for i := max(part.From, 0); i <= part.To && i < len(m.Choices); i++ {
		n := m.Days[m.From+i].N
		var extra []Slot
		for _, r := range m.Reference {
			if r.Day == n {
				r.ID, r.Issued = "", true
				extra = append(extra, r)
			}
		}
		m.choices(i, forced[n], extra, pins[n])
	}
	facts.scratch = scratch{}
	return m, nil
}

// past gathers the sessions that cannot change: the log's, and those of the
// issued plan that started before now and are not logged as missed. What lies
// before the period becomes history.
func (m *Model) past(req *season.Request, newest *season.Plan) map[int][]Slot {
	forced := map[int][]Slot{}
	put := func(s Slot) {
		s.Forced, s.Done = true, true
		if s.Day < m.Days[m.From].N {
			m.History = append(m.History, s)
			return
		}
		forced[s.Day] = append(forced[s.Day], s)
	}
	logged := map[string]bool{}
	for _, l := range req.Log {
		// An unplanned session goes into the next plan under its own id.
		for _, id := range []string{l.Session, l.ID} {
			if id != "" {
				logged[id] = true
			}
		}
		if l.Missed {
			continue
		}
		z := l.Zone
		if z.IsZero() {
			z = m.Zone
		}
		s := Slot{Kind: l.Kind, Logged: true, Place: m.placeOf(req, l.Session), From: floorMinutes(z.Resolve(l.Start).Instant), ID: l.Session}
		if s.ID == "" {
			s.ID = l.ID
		}
		_, usual, _ := m.lengths(l.Kind)
		s.To = s.From + int64(usual)
		if l.HasEnd {
			s.To = ceilMinutes(z.Resolve(l.End).Instant)
		}
		m.clocks(&s)
		put(s)
	}
	if newest != nil {
		for i := range newest.Sessions {
			r := &newest.Sessions[i]
			if s := m.SlotOf(r); s.From < m.Now && !logged[r.ID] {
				put(s)
			}
		}
	}
	SortSlots(m.History)
	for n := range forced {
		SortSlots(forced[n])
	}
	return forced
}

// placeOf is where a session was issued to take place; the first place if it
// never was.
func (m *Model) placeOf(req *season.Request, session string) int {
	for i := len(req.Issued) - 1; i >= 0 && session != ""; i-- {
		for j := range req.Issued[i].Sessions {
			if s := &req.Issued[i].Sessions[j]; s.ID == session {
				return m.SlotOf(s).Place
			}
		}
	}
	return 0
}

// SlotOf returns the slot of a session of an issued plan.
func (m *Model) SlotOf(r *season.Session) Slot {
	s := Slot{Kind: r.Kind, From: floorMinutes(r.Start), To: ceilMinutes(r.End), ID: r.ID, Pinned: r.Pinned}
	for p, id := range m.PlaceIDs {
		if id == r.Place {
			s.Place = p
		}
	}
	m.clocks(&s)
	return s
}

func (m *Model) clocks(s *Slot) {
	s.Day = m.dateAt(s.From).DayNumber()
	m.Facts.clocks(s)
}

// SortSlots sorts slots by start, then kind, then id.
func SortSlots(s []Slot) {
	slices.SortStableFunc(s, func(a, b Slot) int {
		return cmp.Or(cmp.Compare(a.From, b.From), cmp.Compare(order(a.Kind), order(b.Kind)), cmp.Compare(a.ID, b.ID))
	})
}

// choices fills one date: the slots, and the options made of them.
func (m *Model) choices(i int, done []Slot, extra []Slot, pins []season.Pin) {
	c := &m.Choices[i]
	d := &m.Days[m.From+i]
	found, blocked := m.generate(m.From+i, m.Places, extra)
	c.Blocked = blocked
	fixed := append([]Slot(nil), done...)
	only := season.Kind("")
	for _, p := range pins {
		switch {
		case p.None:
			found = nil
		case p.Start != nil && p.Kind != "" && !m.shown(d, p):
			m.Unshown = append(m.Unshown, p)
		case p.Start != nil && p.Kind != "":
			if s, ok := m.pinned(d, p); ok {
				fixed = append(fixed, s)
			}
		case p.Kind != "":
			only = p.Kind
		}
	}
	if only != "" && d.To > m.Now {
		found = m.only(d, only, found)
	}
	SortSlots(fixed)
	if len(fixed) > 0 || slices.ContainsFunc(found, func(s Slot) bool { return s.Forced }) {
		room := roomy{athlete: m.athleteSpans(d)}
		for _, p := range m.Places {
			room.places = append(room.places, m.placeSpans(d, p))
		}
		for x := range fixed {
			s := &fixed[x]
			s.Breaches = m.breaches(s, s.Logged || m.open(s, room))
			s.Costs = m.charges(s)
		}
		for x := range found {
			if s := &found[x]; s.Forced {
				s.Breaches = m.breaches(s, m.open(s, room))
				s.Costs = m.charges(s)
			}
		}
	}
	if c.Slots = found; len(fixed) > 0 {
		c.Slots = append(fixed, found...)
	}
	base := make([]int, len(fixed))
	for x := range base {
		base[x] = x
	}
	most := m.Set.Value("sessions-a-date")
	if d.Break {
		most = m.Set.Value("sessions-a-date-break")
	}
	mostLifts := m.Set.Value("lifts-a-date")
	apart := int64(m.Set.Value("sessions-apart")) * 60
	join := func(a ...int) ([]int, bool) {
		opt := append(append(m.scratch.option[:0], base...), a...)
		m.scratch.option = opt
		if len(opt) > 1 {
			slices.SortStableFunc(opt, func(x, y int) int { return cmp.Compare(c.Slots[x].From, c.Slots[y].From) })
		}
		if only != "" {
			ok := false
			for _, s := range opt {
				ok = ok || c.Slots[s].Kind == only
			}
			if !ok {
				return nil, false
			}
		}
		if len(a) > 0 {
			if len(opt) > most {
				return nil, false
			}
			lifts := 0
			for _, s := range opt {
				if c.Slots[s].Kind.Lift() {
					lifts++
				}
			}
			for _, s := range a {
				if c.Slots[s].Kind.Lift() && lifts > mostLifts {
					return nil, false
				}
			}
			for x := 1; x < len(opt); x++ {
				if c.Slots[opt[x]].From-c.Slots[opt[x-1]].To < apart {
					return nil, false
				}
			}
		}
		return m.scratch.keep(opt), true
	}
	c.Options = make([][]int, 0, len(c.Slots)+1)
	for x := len(fixed); x < len(c.Slots); x++ {
		if opt, ok := join(x); ok {
			c.Options = append(c.Options, opt)
		}
	}
	for x := len(fixed); x < len(c.Slots) && len(fixed)+2 <= most; x++ {
		for y := x + 1; y < len(c.Slots); y++ {
			if opt, ok := join(x, y); ok {
				c.Options = append(c.Options, opt)
			}
		}
	}
	if opt, ok := join(); ok {
		c.Options = append(c.Options, opt)
	}
	if len(c.Options) == 0 { // a pinned kind that fits beside nothing: rest is always possible
		c.Options = append(c.Options, base)
	}
	// Forced sessions may already break what one date allows.
	for x := range fixed {
		if x >= most {
			fixed[x].Breaches = append(fixed[x].Breaches, Breach{"sessions-a-date", -1})
		} else if x > 0 && fixed[x].From-fixed[x-1].To < apart {
			fixed[x].Breaches = append(fixed[x].Breaches, Breach{"sessions-apart", -1})
		}
	}
	lifts := 0
	for x := range fixed {
		if fixed[x].Kind.Lift() {
			if lifts++; lifts > mostLifts {
				fixed[x].Breaches = append(fixed[x].Breaches, Breach{"lifts-a-date", -1})
			}
		}
	}
	copy(c.Slots, fixed)
}

// only keeps the starts of a pinned kind, and adds one that is forced: it stands
// in if every other would break a limit over days, and says what it breaks.
func (m *Model) only(d *Day, kind season.Kind, found []Slot) []Slot {
	var some []Slot
	for _, s := range found {
		if s.Kind == kind {
			s.Pinned = true
			some = append(some, s)
		}
	}
	at := calendar.Clock(d.Prefer * 60)
	pin := season.Pin{Date: d.Date, Kind: kind, Start: &at}
	forced, ok := m.pinned(d, pin)
	if len(some) == 0 && ok && !m.shown(d, pin) {
		m.Unshown = append(m.Unshown, pin)
		return nil
	}
	if len(some) > 0 {
		best := 0
		for i := range some {
			if m.better(d, &some[i], &some[best]) {
				best = i
			}
		}
		forced, ok = some[best], true
		forced.Forced, forced.Costs = true, nil
	}
	if ok {
		some = append(some, forced)
	}
	return some
}

func (m *Model) pinned(d *Day, p season.Pin) (Slot, bool) {
	_, usual, _ := m.lengths(p.Kind)
	if d.Exam {
		usual = min(usual, m.Set.Value("exam-minutes"))
	}
	s := Slot{Kind: p.Kind, Forced: true, Pinned: true, Place: m.placeNumber(p.Place)}
	s.From, _ = m.At(d, s.Place, *p.Start)
	if _, _, tight, _ := m.between(s.From); tight && p.Kind == season.Recovery {
		usual = min(usual, m.Set.Value("between-games-recovery"))
	}
	s.To = s.From + int64(usual)
	if s.From < m.Now || d.From >= d.To {
		return s, false // neither the past can be pinned nor a date that the clock skips
	}
	m.clocks(&s)
	return s, true
}

// shown reports whether the clock at the place of a pin shows its start.
func (m *Model) shown(d *Day, p season.Pin) bool {
	_, ok := m.At(d, m.placeNumber(p.Place), *p.Start)
	return ok
}

// placeNumber is the index of a place, 0 of one that is not named.
func (m *Model) placeNumber(id string) int {
	for i, x := range m.PlaceIDs {
		if x == id {
			return i
		}
	}
	return 0
}

// Crowded returns a problem for each date with more logged, issued or pinned
// sessions than MostADate.
func (m *Model) Crowded() []calendar.Problem {
	var out []calendar.Problem
	for i := range m.Choices {
		n := 0
		for s := range m.Choices[i].Slots {
			if m.Choices[i].Slots[s].Forced {
				n++
			}
		}
		if n > MostADate {
			out = append(out, calendar.Problem{Code: "date-crowded", Class: calendar.ClassError, Path: "/log", Value: m.Days[m.From+i].Date.String(),
				Reason: fmt.Sprintf("%d sessions on one date, at most %d", n, MostADate), Remedy: "merge repeated entries"})
		}
	}
	return out
}

// Time returns the instant of a minute in the plan's zone.
func (m *Model) Time(minute int64) time.Time { return Instant(minute).In(m.Zone.Location()) }

package squad

import (
	"cmp"
	"slices"
	"time"

	"example.org/weft/periodize/season"
)

// slipOf says what of a plan is otherwise than in the one issued last, as people read
// it: date by date. A session that is gone and one that is new are one change if they
// are on one date, or of one kind and at most three dates apart. The causes are those
// of the athlete's own list, which goes by the sessions' ids.
func slipOf(p, last *season.Plan) Slip {
	out := Slip{Changes: []season.Change{}, Places: []PlaceChange{}}
	var was, is []*season.Session
	for i := range last.Sessions {
		if s := &last.Sessions[i]; p.Period.Contains(s.Date) {
			was = append(was, s)
		}
	}
	for i := range p.Sessions {
		is = append(is, &p.Sessions[i])
	}
	causes := map[string][]season.Note{}
	for _, c := range p.Changes {
		causes[c.Session] = c.Cause
	}
	pair := func(fits func(a, b *season.Session) bool) {
		for i, a := range was {
			for j, b := range is {
				if a == nil || b == nil || !fits(a, b) {
					continue
				}
				out.change(a, b, causes)
				was[i], is[j] = nil, nil
				break
			}
		}
	}
	pair(func(a, b *season.Session) bool { return a.Start.Equal(b.Start) && a.Kind == b.Kind })
	pair(func(a, b *season.Session) bool { return a.Date == b.Date && a.Kind == b.Kind })
	pair(func(a, b *season.Session) bool { return a.Date == b.Date })
	pair(func(a, b *season.Session) bool {
		n := a.Date.DaysSince(b.Date)
		return a.Kind == b.Kind && max(n, -n) <= nearDates
	})
	for _, s := range was {
		if s != nil {
			out.change(s, nil, causes)
		}
	}
	for _, s := range is {
		if s != nil {
			out.change(nil, s, causes)
		}
	}
	slices.SortStableFunc(out.Changes, func(a, b season.Change) int { return cmp.Compare(first(&a).Unix(), first(&b).Unix()) })
	slices.SortStableFunc(out.Places, func(a, b PlaceChange) int { return a.Start.Compare(b.Start) })
	return out
}

// change adds what became of a session: nil stands for none.
func (x *Slip) change(was, is *season.Session, causes map[string][]season.Note) {
	switch {
	case is == nil:
		from := was.Start
		x.Changes = append(x.Changes, season.Change{Change: season.Dropped, Session: was.ID, Kind: was.Kind, From: &from, Cause: causes[was.ID]})
		return
	case was == nil:
		to := is.Start
		x.Changes = append(x.Changes, season.Change{Change: season.Added, Session: is.ID, Kind: is.Kind, To: &to, Cause: causes[is.ID]})
		return
	}
	if was.Place != is.Place {
		x.Places = append(x.Places, PlaceChange{Session: is.ID, Start: is.Start, From: was.Place, To: is.Place})
	}
	from, to := was.Start, is.Start
	c := season.Change{Change: season.Moved, Session: is.ID, Kind: is.Kind, From: &from, To: &to, Cause: causes[is.ID]}
	if len(c.Cause) == 0 {
		c.Cause = causes[was.ID]
	}
	if was.Kind != is.Kind {
		c.OldKind = was.Kind
		if from.Equal(to) {
			c.Change = season.Replaced
		}
	} else if from.Equal(to) {
		return
	}
	x.Changes = append(x.Changes, c)
}

// first is when a change begins to matter.
func first(c *season.Change) time.Time {
	if c.To == nil || (c.From != nil && c.From.Before(*c.To)) {
		return *c.From
	}
	return *c.To
}

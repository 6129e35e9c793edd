package periodize

import (
	"sort"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/internal/starts"
	"example.org/weft/periodize/season"
)

// issued returns the plan issued last, and the one that changes are counted
// against: the latest whose events of the dates not yet lived equal today's, so
// that a game moved away and back restores the plan before; else the last.
func issued(req *season.Request) (newest, reference *season.Plan) {
	n := len(req.Issued)
	if n == 0 {
		return nil, nil
	}
	newest = &req.Issued[n-1]
	today := req.Period.From
	if !req.Now.IsZero() {
		if d := calendar.DateOf(req.Now, req.Athlete.Zone); d.After(today) {
			today = d
		}
	}
	ahead := func(days []season.DayHash) map[calendar.Date]string {
		out := map[calendar.Date]string{}
		for _, d := range days {
			if !d.Date.Before(today) && req.Period.Contains(d.Date) {
				out[d.Date] = d.Hash
			}
		}
		return out
	}
	want := ahead(season.EventsDigest(req.Events, req.Period))
	for i := n - 1; i >= 0; i-- {
		got := ahead(req.Issued[i].EventsDigest)
		same := len(got) == len(want)
		for d, h := range want {
			same = same && got[d] == h
		}
		if same {
			return newest, &req.Issued[i]
		}
	}
	return newest, newest
}

// changes lists the difference to the plan issued last, session by session, in
// order of the earlier of its two starts.
func (w *work) changes(p *season.Plan) {
	n := len(w.req.Issued)
	if n == 0 {
		return
	}
	last := &w.req.Issued[n-1]
	old := map[string]*season.Session{}
	for i := range last.Sessions {
		s := &last.Sessions[i]
		if p.Period.Contains(s.Date) {
			old[s.ID] = s
		}
	}
	causes := w.causes(last)
	seen := map[string]bool{}
	for i := range p.Sessions {
		s := &p.Sessions[i]
		seen[s.ID] = true
		o, ok := old[s.ID]
		to := s.Start
		c := season.Change{Session: s.ID, Kind: s.Kind, To: &to}
		if !ok {
			c.Change, c.Cause = season.Added, w.near(causes, s.Date, s.Date)
			p.Changes = append(p.Changes, c)
			continue
		}
		from := o.Start
		c.From = &from
		switch {
		case o.Start.Equal(s.Start) && o.Kind == s.Kind:
			c.Change = season.Unchanged
		case o.Start.Equal(s.Start):
			c.Change, c.OldKind, c.Cause = season.Replaced, o.Kind, w.causeOf(o, causes, s.Date)
		default:
			c.Change, c.Cause = season.Moved, w.causeOf(o, causes, s.Date)
			if o.Kind != s.Kind {
				c.OldKind = o.Kind
			}
		}
		p.Changes = append(p.Changes, c)
	}
	for i := range last.Sessions {
		o := &last.Sessions[i]
		if old[o.ID] == nil || seen[o.ID] {
			continue
		}
		from := o.Start
		p.Changes = append(p.Changes, season.Change{Change: season.Dropped, Session: o.ID, Kind: o.Kind, From: &from, Cause: w.causeOf(o, causes, o.Date)})
	}
	first := func(c *season.Change) time.Time {
		if c.To == nil || c.From != nil && c.From.Before(*c.To) {
			return *c.From
		}
		return *c.To
	}
	sort.SliceStable(p.Changes, func(i, j int) bool { return first(&p.Changes[i]).Before(first(&p.Changes[j])) })
}

// cause is what changed since the plan was issued, and where.
type cause struct {
	note  season.Note
	dates []calendar.Date
}

// nearDates is how far from what changed a session may stand to be changed by it.
const nearDates = 28

// near returns the notes of what changed near a change, the nearest first.
func (w *work) near(causes []cause, from, to calendar.Date) []season.Note {
	off := func(c *cause) int {
		best := nearDates + 1
		for _, d := range c.dates {
			for _, x := range []calendar.Date{from, to} {
				n := d.DaysSince(x)
				best = min(best, max(n, -n))
			}
		}
		return best
	}
	var some []cause
	for i := range causes {
		if off(&causes[i]) <= nearDates {
			some = append(some, causes[i])
		}
	}
	sort.SliceStable(some, func(i, j int) bool { return off(&some[i]) < off(&some[j]) })
	var out []season.Note
	for _, c := range some {
		out = append(out, c.note)
	}
	if len(out) == 0 {
		out = append(out, season.NewNote("cause-other", season.Subject{}, "", nil))
	}
	return out
}

// causeOf says why an issued session does not stand as it was: the limit it
// would break now, and what changed in the calendar near it; or that the log
// says otherwise.
func (w *work) causeOf(o *season.Session, causes []cause, to calendar.Date) []season.Note {
	for _, l := range w.req.Log {
		if l.Session == o.ID {
			return []season.Note{season.NewNote("cause-log", season.Subject{Session: o.ID}, "", nil)}
		}
	}
	near := w.near(causes, o.Date, to)
	s := w.model.SlotOf(o)
	if broken := w.model.BreachesAt(&s); len(broken) > 0 {
		b := broken[0]
		sub := season.Subject{Session: o.ID}
		if b.Event < 0 {
			return append([]season.Note{season.NewNote("cause-limit-alone", sub, b.Rule, season.Values{"rule": season.Str(b.Rule)})}, near...)
		}
		sub.Event = w.model.Events[b.Event].ID
		return append([]season.Note{season.NewNote("cause-limit", sub, b.Rule, season.Values{
			"rule": season.Str(b.Rule), "event": season.Str(sub.Event)})}, near...)
	}
	return near
}

// causes names what changed in the calendar since the plan was issued: games
// moved, added, gone, and the dates not yet over on which other events changed.
func (w *work) causes(last *season.Plan) []cause {
	var out []cause
	games := map[calendar.Date]bool{} // dates of games that changed
	say := func(code string, event string, values season.Values, dates ...calendar.Date) {
		for _, d := range dates {
			games[d] = true
		}
		values["event"] = season.Str(event)
		out = append(out, cause{season.NewNote(code, season.Subject{Event: event, Dates: dates}, "", values), dates})
	}
	now := map[string]*starts.Event{}
	for _, g := range w.model.Games {
		now[w.model.Events[g].ID] = &w.model.Events[g]
	}
	wall := func(t time.Time) season.Value {
		return season.Str(t.In(w.model.Zone.Location()).Format("2006-01-02 15:04"))
	}
	before := map[string]bool{}
	for _, g := range last.Games {
		before[g.ID] = true
		e, ok := now[g.ID]
		switch {
		case !ok:
			say("cause-game-gone", g.ID, season.Values{"date": season.Str(g.Date.String())}, g.Date)
		case !w.model.Time(e.From).Equal(g.Start):
			say("cause-game-moved", g.ID, season.Values{"from": wall(g.Start), "to": wall(w.model.Time(e.From))}, g.Date, e.Date)
		}
	}
	for _, g := range w.model.Games {
		e := &w.model.Events[g]
		if !before[e.ID] && w.model.Period.Contains(e.Date) {
			say("cause-game-new", e.ID, season.Values{"date": season.Str(e.Date.String())}, e.Date)
		}
	}
	was, is := map[calendar.Date]string{}, map[calendar.Date]string{}
	for _, d := range last.EventsDigest {
		was[d.Date] = d.Hash
	}
	for _, d := range season.EventsDigest(w.req.Events, w.model.Period) {
		is[d.Date] = d.Hash
	}
	for i := w.model.From; i < w.model.To; i++ {
		d := w.model.Days[i].Date
		if w.model.Days[i].To <= w.model.Now {
			continue // that a game has been played is no news
		}
		if was[d] != is[d] && !games[d] && last.Period.Contains(d) {
			out = append(out, cause{season.NewNote("cause-events", season.Subject{Dates: []calendar.Date{d}}, "",
				season.Values{"date": season.Str(d.String())}), []calendar.Date{d}})
		}
	}
	return out
}

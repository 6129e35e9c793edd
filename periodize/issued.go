package periodize

import (
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
// order of start.
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
	cause := w.cause(last)
	seen := map[string]bool{}
	for i := range p.Sessions {
		s := &p.Sessions[i]
		seen[s.ID] = true
		o, ok := old[s.ID]
		to := s.Start
		c := season.Change{Session: s.ID, Kind: s.Kind, To: &to}
		if !ok {
			c.Change, c.Cause = season.Added, cause
			p.Changes = append(p.Changes, c)
			continue
		}
		from := o.Start
		c.From = &from
		switch {
		case o.Start.Equal(s.Start) && o.Kind == s.Kind:
			c.Change = season.Unchanged
		case o.Start.Equal(s.Start):
			c.Change, c.OldKind, c.Cause = season.Replaced, o.Kind, w.causeOf(o, cause)
		default:
			c.Change, c.Cause = season.Moved, w.causeOf(o, cause)
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
		p.Changes = append(p.Changes, season.Change{Change: season.Dropped, Session: o.ID, Kind: o.Kind, From: &from, Cause: w.causeOf(o, cause)})
	}
}

// causeOf says why an issued session does not stand as it was: the limit it
// would break now, else what changed in the calendar.
func (w *work) causeOf(o *season.Session, cause []season.Note) []season.Note {
	s := w.model.SlotOf(o)
	for _, b := range w.model.Breaches(&s) {
		sub := season.Subject{Session: o.ID}
		if b.Event >= 0 {
			sub.Event = w.model.Events[b.Event].ID
		}
		return append([]season.Note{season.NewNote("cause-limit", sub, b.Rule, season.Values{
			"rule": season.Str(b.Rule), "event": season.Str(sub.Event)})}, cause...)
	}
	return cause
}

// cause names what changed in the calendar since the plan was issued: games
// moved, added, gone.
func (w *work) cause(last *season.Plan) []season.Note {
	var out []season.Note
	now := map[string]*starts.Event{}
	for _, g := range w.model.Games {
		now[w.model.Events[g].ID] = &w.model.Events[g]
	}
	before := map[string]bool{}
	for _, g := range last.Games {
		before[g.ID] = true
		e, ok := now[g.ID]
		sub := season.Subject{Event: g.ID, Dates: []calendar.Date{g.Date}}
		switch {
		case !ok:
			out = append(out, season.NewNote("cause-game-gone", sub, "", season.Values{"event": season.Str(g.ID), "date": season.Str(g.Date.String())}))
		case !w.model.Time(e.From).Equal(g.Start):
			sub.Dates = append(sub.Dates, e.Date)
			out = append(out, season.NewNote("cause-game-moved", sub, "", season.Values{"event": season.Str(g.ID),
				"from": season.Str(g.Start.In(w.model.Zone.Location()).Format("2006-01-02 15:04")),
				"to":   season.Str(w.model.Time(e.From).Format("2006-01-02 15:04"))}))
		}
	}
	for _, g := range w.model.Games {
		e := &w.model.Events[g]
		if !before[e.ID] && w.model.Period.Contains(e.Date) {
			out = append(out, season.NewNote("cause-game-new", season.Subject{Event: e.ID, Dates: []calendar.Date{e.Date}}, "",
				season.Values{"event": season.Str(e.ID), "date": season.Str(e.Date.String())}))
		}
	}
	if len(out) == 0 {
		out = append(out, season.NewNote("cause-other", season.Subject{}, "", nil))
	}
	return out
}

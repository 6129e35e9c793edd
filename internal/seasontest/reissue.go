package seasontest

import (
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
	"pgregory.net/rapid"
)

// Later returns the request some dates on: the plan is issued, now lies in the
// middle, some sessions are logged as done or missed, and unless nothing
// happens, games have moved. ok is false if the plan ends before now.
func Later(t *rapid.T, o Options, req *season.Request, plan *season.Plan, happens bool) (next *season.Request, ok bool) {
	m := &maker{t: t, o: o, zone: req.Athlete.Zone, from: req.Period.From, days: req.Period.Days()}
	out := *req
	out.Issued = append(append([]season.Plan(nil), req.Issued...), *plan)
	out.Log = append([]season.Done(nil), req.Log...)
	out.Events = append([]calendar.Event(nil), req.Events...)
	at := m.from.AddDays(m.int("nowOn", 0, m.days-1))
	clockAt := clock(pick(m, "nowAt", 12*60, 0, 17*60+20, 23*60))
	r := m.zone.Resolve(calendar.Wall{Date: at, Clock: clockAt})
	if r.Fit != calendar.Exact {
		return nil, false
	}
	out.Now = r.Instant
	if !happens {
		return &out, true
	}
	for i := range plan.Sessions {
		s := &plan.Sessions[i]
		if !s.End.Before(out.Now) || s.State == season.DoneState {
			continue
		}
		w := m.zone.Local(s.Start)
		if m.zone.Resolve(w).Fit != calendar.Exact {
			continue
		}
		switch m.int("lived", 0, 4) {
		case 0:
			out.Log = append(out.Log, season.Done{ID: "l-" + s.ID, Session: s.ID, Kind: s.Kind, Start: w, Missed: true})
		case 1: // done, half an hour late, as another kind perhaps
			if o.Plain {
				continue
			}
			d := season.Done{ID: "l-" + s.ID, Session: s.ID, Kind: pick(m, "livedKind", s.Kind, season.FullBody, season.Recovery), Start: w.AddMinutes(30)}
			d.End, d.HasEnd = d.Start.AddMinutes(40), true
			if ends(m.zone, d.End).After(out.Now) {
				continue
			}
			out.Log = append(out.Log, d)
		case 2:
			if o.Plain {
				continue
			}
			d := season.Done{ID: "l-" + s.ID, Session: s.ID, Kind: s.Kind, Start: w}
			d.End, d.HasEnd = w.AddMinutes(s.Minutes), true
			if ends(m.zone, d.End).After(out.Now) || m.zone.Resolve(d.End).Fit != calendar.Exact {
				continue
			}
			out.Log = append(out.Log, d)
		}
	}
	for range m.int("edits", 0, 2) {
		if len(out.Events) == 0 {
			break
		}
		i := m.int("edited", 0, len(out.Events)-1)
		e := &out.Events[i]
		if e.DateOnly {
			continue
		}
		switch m.int("edit", 0, 2) {
		case 0:
			e.Status = calendar.Cancelled
		case 1: // moved by days
			by := pick(m, "by", 1, -1, 2, -2)
			moved := *e
			moved.Start.Date = e.Start.Date.AddDays(by)
			moved.End.Date = e.End.Date.AddDays(by)
			moved.ActualEnd, moved.HasActualEnd = calendar.Wall{}, false
			if !e.HasEnd {
				moved.End = calendar.Wall{}
			}
			if e.Zone.Resolve(moved.Start).Fit == calendar.Exact && e.EndZone.IsZero() && (!e.HasEnd || e.Zone.Resolve(moved.End).Fit == calendar.Exact) {
				*e = moved
			}
		default:
			if e.Kind == calendar.Game {
				e.Importance = calendar.Important
			}
		}
	}
	return &out, true
}

func ends(z calendar.Zone, w calendar.Wall) time.Time { return z.Resolve(w).Instant }

// Shift returns the request with everything moved by whole weeks. It does not
// move the month of birth.
func Shift(req *season.Request, weeks int) *season.Request {
	days := 7 * weeks
	date := func(d calendar.Date) calendar.Date {
		if d.IsZero() {
			return d
		}
		return d.AddDays(days)
	}
	wall := func(w calendar.Wall) calendar.Wall { w.Date = date(w.Date); return w }
	span := func(p season.Period) season.Period { return season.Period{From: date(p.From), To: date(p.To)} }
	out := *req
	out.Period = span(req.Period)
	if !req.Now.IsZero() {
		out.Now = req.Now.Add(time.Duration(days) * 24 * time.Hour)
	}
	out.Athlete.Holds = nil
	for _, h := range req.Athlete.Holds {
		h.From, h.Until, h.ClearedOn = date(h.From), date(h.Until), date(h.ClearedOn)
		out.Athlete.Holds = append(out.Athlete.Holds, h)
	}
	out.Events = nil
	for _, e := range req.Events {
		e.Start, e.End, e.ActualEnd = wall(e.Start), wall(e.End), wall(e.ActualEnd)
		out.Events = append(out.Events, e)
	}
	out.Places = nil
	for _, p := range req.Places {
		var closed []season.Period
		for _, c := range p.Closed {
			closed = append(closed, span(c))
		}
		p.Closed = closed
		out.Places = append(out.Places, p)
	}
	out.Club = nil
	for _, c := range req.Club {
		var before []calendar.Date
		for _, d := range c.Before {
			before = append(before, date(d))
		}
		c.Before = before
		out.Club = append(out.Club, c)
	}
	out.Log = nil
	for _, d := range req.Log {
		d.Start, d.End = wall(d.Start), wall(d.End)
		out.Log = append(out.Log, d)
	}
	out.Pins = nil
	for _, p := range req.Pins {
		p.Date = date(p.Date)
		out.Pins = append(out.Pins, p)
	}
	return &out
}

// Permuted returns the request with every list in another order.
func Permuted(t *rapid.T, req *season.Request) *season.Request {
	out := *req
	out.Events = shuffled(t, req.Events)
	out.Places = shuffled(t, req.Places)
	for i := range out.Places {
		out.Places[i].Hours = shuffled(t, out.Places[i].Hours)
		out.Places[i].Closed = shuffled(t, out.Places[i].Closed)
	}
	out.Rules = shuffled(t, req.Rules)
	out.Log = shuffled(t, req.Log)
	out.Pins = shuffled(t, req.Pins)
	out.Athlete.Hours = shuffled(t, req.Athlete.Hours)
	for i := range out.Athlete.Hours {
		out.Athlete.Hours[i].Days = shuffled(t, out.Athlete.Hours[i].Days)
	}
	out.Athlete.Prefer = shuffled(t, req.Athlete.Prefer)
	out.Athlete.Holds = shuffled(t, req.Athlete.Holds)
	out.Athlete.OptIns = shuffled(t, req.Athlete.OptIns)
	return &out
}

func shuffled[T any](t *rapid.T, list []T) []T {
	if len(list) < 2 {
		return append([]T(nil), list...)
	}
	return rapid.Permutation(list).Draw(t, "order")
}

package exercise

import (
	"example.org/weft/calendar"
	"example.org/weft/load"
	"example.org/weft/periodize/season"
)

// NextLoad is what a log says of the load of an exercise after the last session
// in which it was lifted: a step more, the same, or less. Package logbook makes
// them of what was done.
type NextLoad struct {
	Exercise string        // id or name
	Date     calendar.Date // of that session
	Last     load.Mass     // lifted in it
	Load     load.Mass     // that comes next; 0: the last was too heavy, and nothing lighter can be built
	// Reps and Left are what the card of that session asked for, and so what Load
	// is for. Reps of 0 are not known, and then nothing follows from Load.
	Reps, Left int
	Why        season.Note // which set on which date, and how it compares with what was asked for
}

func (n *NextLoad) usable() bool {
	return n.Last > 0 && n.Last <= load.MaxMass && n.Load >= 0 && n.Load <= load.MaxMass && n.Reps >= 0 && n.Reps <= 1000 &&
		n.Left >= 0 && n.Left <= 30 && !n.Date.IsZero()
}

// nextOf finds what comes next of each exercise, by the newest session.
func nextOf(in *Input, c *compiled) map[int]*NextLoad {
	out := map[int]*NextLoad{}
	for i := range in.History.Next {
		n := &in.History.Next[i]
		e := c.find(n.Exercise)
		if e == nil || n.Reps == 0 {
			continue
		}
		if x := out[e.at]; x == nil || n.Date.After(x.Date) || n.Date.Equal(x.Date) && n.Load < x.Load {
			out[e.at] = n
		}
	}
	return out
}

// logged gives the load that the log says comes next, turned into today's
// repetitions by the curve where others were asked for. A maximum that is told for
// that date or a later one goes before it. A beginner's load is never worked out
// for other repetitions, since that goes by way of a maximum.
func (a *asked) logged(e *entry, d dose, cut int) (weight, bool) {
	n := a.next[e.at]
	if n == nil {
		return weight{}, false
	}
	age := a.in.Session.Date.DaysSince(n.Date)
	if age < 0 || age > staleAfter || a.toldSince(e, n.Date) {
		return weight{}, false
	}
	if n.Load == 0 {
		return weight{effort: effortOf(d.left), why: n.Why}, true
	}
	raw, off, same := n.Load, "", d.high == n.Reps && d.left == n.Left
	if a.gap >= gapSetLess && n.Last < raw {
		raw, off = n.Last, ", no progress credited after the gap"
	}
	if !same {
		rating, ok := load.EffortLeaving(load.Reps(d.left))
		est, known := a.curve.OneRepMax(raw, load.Reps(n.Reps+n.Left))
		if a.beginner || !ok || !known {
			return weight{}, false
		}
		if raw, ok = a.curve.LoadAt(est.Load, load.Reps(d.reps), rating); !ok {
			return weight{}, false
		}
	}
	if most, ok := a.mostOfMinor(e); ok && raw > most {
		raw, off = most, off+", not over 80 % under 18"
	}
	if cut > 0 {
		off += lessText(cut)
	}
	raw = a.underWritten(e, raw*load.Mass(100-cut)/100)
	got, ok := a.kit.atMost(e, raw)
	if !ok {
		return weight{effort: effortOf(d.left), why: note("load-light", "raw", raw)}, true
	}
	w := weight{grams: &season.Grams{Grams: int64(got)}, mass: got, effort: leave(d.left), why: n.Why}
	switch {
	case same && got == n.Load:
	case same:
		w.why = note("load-next", "next", n.Load, "date", n.Date, "age", age, "off", off, "raw", raw)
	default:
		w.why = note("load-next-other", "next", n.Load, "date", n.Date, "age", age, "asked", n.Reps, "leaving", n.Left, "reps", d.reps, "left", d.left,
			"off", off, "curve", a.curve.String(), "raw", raw)
	}
	return w, true
}

// toldSince reports whether a maximum of an exercise was tested or given on a date
// or after it.
func (a *asked) toldSince(e *entry, d calendar.Date) bool {
	for _, r := range a.records[e.at] {
		if r.kind != "set" && !r.date.Before(d) && !r.date.After(a.in.Session.Date) {
			return true
		}
	}
	return false
}

// mostOfMinor is the most that somebody under 18 lifts of an exercise, if anything
// is known of its maximum.
func (a *asked) mostOfMinor(e *entry) (load.Mass, bool) {
	if !a.minor || a.beginner {
		return 0, false
	}
	list := a.records[e.at]
	for i := len(list) - 1; i >= 0; i-- {
		if r := list[i]; r.max > 0 && !r.date.After(a.in.Session.Date) && a.in.Session.Date.DaysSince(r.date) <= staleAfter {
			return load.Percent(youthMost).Of(r.max)
		}
	}
	return 0, false
}

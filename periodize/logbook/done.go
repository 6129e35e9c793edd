package logbook

import (
	"slices"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize/exercise"
	"example.org/weft/periodize/season"
)

// Done is the log in the form in which a request carries it: sessions that were
// done or missed. Those that nobody knows of and those of which two things are
// told are left out; of a planned one the planner then takes the most there can
// have been, so that its limits hold either way.
func (v View) Done() []season.Done {
	var out []season.Done
	v.sessions(func(e *Entry, s *Session) {
		if s.State != Done && s.State != Missed {
			return
		}
		d := season.Done{ID: e.ID, Session: s.Planned, Kind: s.Session, Start: e.Start, Zone: e.Zone, Missed: s.State == Missed}
		switch {
		case e.HasEnd:
			d.End, d.HasEnd = e.End, true
		case s.Minutes.Known && s.Minutes.Value > 0:
			if at, ok := e.At(); ok {
				d.End, d.HasEnd = e.Zone.Local(at.Add(time.Duration(s.Minutes.Value)*time.Minute)), true
			}
		}
		out = append(out, d)
	})
	return out
}

// History is what a builder of cards needs of the time before Given.Today. What
// the log does not tell is left out, and so unknown: a lift that was not logged
// gives no date, and a gap in training is taken for longer rather than shorter.
//
// Of each session and exercise it has one set, which speaks for the others: the
// middle work set by what it is worth, for a learner the hardest at the heaviest
// load. Implausible sets, and sets that are no evidence because nobody told what
// was left, are not among them. Cards are those of sessions that were done, so
// that after sessions missed the next in order is built, and nothing twice.
//
// Next is what [View.Progress] says of each lift, so that cards advance, hold or
// drop by what was done.
//
// Tests of the log are no sets: see [Maxima].
func (v View) History(g Given) (exercise.History, error) {
	g = g.settled(&v)
	if err := g.check(); err != nil {
		return exercise.History{}, err
	}
	var h exercise.History
	monday := calendar.WeekStart(g.Today, time.Monday)
	done := map[string]bool{}
	n := names{g.Catalogue, map[string]*exercise.Exercise{}}
	for i := range v.Entries {
		e := &v.Entries[i]
		date := e.Date()
		switch x := e.What.(type) {
		case Game:
			if x.Minutes.Known && date.Before(g.Today) {
				h.Played = append(h.Played, exercise.Played{Date: date, Minutes: x.Minutes.Value})
			}
		case Session:
			if x.State != Done || !date.Before(g.Today) {
				continue
			}
			done[x.Planned] = true
			if x.Session.Lift() {
				h.Lifts = append(h.Lifts, date)
			}
			for j := range x.Sets {
				y := n.find(x.Sets[j].Exercise)
				if date.Before(monday) || y == nil || x.Sets[j].Ramp {
					continue
				}
				if h.WeekSets == nil {
					h.WeekSets, h.WeekPatterns = map[exercise.Region]int{}, map[exercise.Pattern]int{}
				}
				h.WeekSets[y.Pattern.Region()]++
				h.WeekPatterns[y.Pattern]++
			}
		}
	}
	for i := range g.Cards {
		if c := &g.Cards[i]; c.Session != "" && done[c.Session] && c.Date.Before(g.Today) {
			h.Cards = append(h.Cards, *c)
		}
	}
	slices.SortStableFunc(h.Cards, func(a, b exercise.Card) int { return a.Date.Compare(b.Date) })
	learner := g.Athlete.TrainingAgeMonths < 12
	before := g
	before.Today = g.Today.AddDays(-1)
	list, _ := v.tracks(&before, "")
	for _, t := range list {
		for _, x := range t.values {
			if x.ref.entry != nil && x.news {
				h.Sets = append(h.Sets, v.doneSet(t.exercise.ID, x.ref.out()))
			}
		}
		if next, ok := t.lift(&before).NextLoad(); ok {
			h.Next = append(h.Next, next)
		}
		// The newest session decides whether a learner goes up.
		if w, _ := t.last(&before); learner && w != nil {
			r := w.reached(&before, t.exercise.ID)
			h.Sets = slices.DeleteFunc(h.Sets, func(d exercise.DoneSet) bool {
				return d.Exercise == t.exercise.ID && d.Date == w.entry.Date()
			})
			if r.worst.Set.Reps.Value > 0 {
				h.Sets = append(h.Sets, v.doneSet(t.exercise.ID, r.worst))
			}
		}
	}
	return h, nil
}

func (v *View) doneSet(id string, r SetRef) exercise.DoneSet {
	d := exercise.DoneSet{Exercise: id, Date: r.Date, Load: r.Set.Load.Value, Reps: r.Set.Reps.Value, Left: -1, Confirmed: v.confirmed[r.Entry]}
	if left, ok := r.Set.Reserve(); ok {
		d.Left = int(left) // half a repetition left is none
	}
	return d
}

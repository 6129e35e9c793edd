package logbook

import (
	"cmp"
	"slices"
	"strings"

	"example.org/weft/calendar"
	"example.org/weft/load"
	"example.org/weft/periodize/exercise"
	"example.org/weft/periodize/season"
)

// track is all that the log tells of one lift, oldest first.
type track struct {
	exercise exercise.Exercise
	work     []work
	values   []value
	asked    []season.Note
	doubt    doubt
	filter   filter
}

// doubt is the value that was asked about last, so that others like it are not
// asked about one by one.
type doubt struct {
	mass load.Mass
	last value // what it was far from
	more int
	kv   []any // of its question
}

// work is what was done of a lift in one session, implausible sets left out.
type work struct {
	entry   *Entry
	session *Session
	sets    []ref // work sets with load and repetitions
}

// finds an exercise by what a log calls it, each name once.
type names struct {
	catalogue exercise.Catalogue
	found     map[string]*exercise.Exercise
}

func (n *names) find(name string) *exercise.Exercise {
	x, ok := n.found[name]
	if !ok {
		if y, known := n.catalogue.Find(name); known {
			x = &y
		}
		n.found[name] = x
	}
	return x
}

// tracks gathers the lifts of a view, sorted by the ids of the exercises, and
// the names that are no exercise. only, unless it is "", is the one lift wanted.
func (v *View) tracks(g *Given, only string) (out []*track, unknown []string) {
	n := names{g.Catalogue, map[string]*exercise.Exercise{}}
	byID := map[string]*track{}
	get := func(name string) *track {
		x := n.find(name)
		if x == nil {
			if !slices.Contains(unknown, name) {
				unknown = append(unknown, name)
			}
			return nil
		}
		if only != "" && x.ID != only {
			return nil
		}
		t := byID[x.ID]
		if t == nil {
			t = &track{exercise: *x}
			byID[x.ID] = t
			out = append(out, t)
		}
		return t
	}
	for _, m := range g.Athlete.Maxima {
		if t := get(m.Exercise); t != nil && !m.Date.After(g.Today) {
			spread := load.Mass(m.Grams) * originUnknown / 1000
			if m.Kind == "tested" {
				spread = load.Mass(m.Grams) * testError / 1000
			}
			t.values = append(t.values, value{date: m.Date, max: load.Mass(m.Grams), spread: spread, tested: m.Kind == "tested"})
		}
	}
	for i := range v.Entries {
		e := &v.Entries[i]
		if e.Date().After(g.Today) {
			continue
		}
		switch x := e.What.(type) {
		case Session:
			if x.State == Done {
				gather(e, x, get)
			}
		case Test:
			m, ok := x.Mass()
			if !ok || !strings.EqualFold(x.Protocol, OneRepMax) {
				continue
			}
			if t := get(x.Name); t != nil {
				t.values = append(t.values, value{date: e.Date(), at: second(e), id: e.ID, max: m, spread: m * testError / 1000, tested: true})
			}
		}
	}
	slices.SortFunc(out, func(a, b *track) int { return strings.Compare(a.exercise.ID, b.exercise.ID) })
	slices.Sort(unknown)
	for _, t := range out {
		t.settle(v, g)
	}
	return out, unknown
}

// gather adds the sets of a session to the lifts they are of.
func gather(e *Entry, s Session, get func(string) *track) {
	var t *track
	var kept *Session
	last := ""
	for i := range s.Sets {
		set := &s.Sets[i]
		if set.Exercise != last || t == nil {
			last = set.Exercise
			if t = get(last); t == nil {
				continue
			}
		}
		if set.Ramp || !set.Load.Known || !set.Reps.Known {
			continue
		}
		if k := len(t.work); k == 0 || t.work[k-1].entry != e {
			if kept == nil {
				kept = new(Session)
				*kept = s
			}
			t.work = append(t.work, work{e, kept, make([]ref, 0, min(4, len(s.Sets)))})
		}
		w := &t.work[len(t.work)-1]
		w.sets = append(w.sets, ref{e, set, i})
	}
}

// settle tells plausible values from others and follows them to an estimate.
func (t *track) settle(v *View, g *Given) {
	given := t.values
	t.values = nil
	slices.SortStableFunc(given, func(a, b value) int {
		return cmp.Or(a.date.Compare(b.date), cmp.Compare(a.at, b.at), strings.Compare(a.id, b.id), cmp.Compare(a.max, b.max))
	})
	kept := t.work[:0]
	var buffer [16]value
	for _, w := range t.work {
		for len(given) > 0 && given[0].date.Compare(w.entry.Date()) <= 0 {
			t.accept(v, given[0])
			given = given[1:]
		}
		var list []value
		if w.sets, list = t.plausible(v, g, &w, buffer[:0]); len(w.sets) == 0 {
			continue
		}
		kept = append(kept, w)
		if x, ok := middle(list); ok {
			last, known := t.reference()
			x.news = !x.floor || !known || x.max > last.max
			t.values = append(t.values, x)
			t.filter.take(x)
		}
	}
	t.work = kept
	for _, x := range given {
		t.accept(v, x)
	}
}

// accept takes a test or a maximum that was given, unless it is implausible.
func (t *track) accept(v *View, x value) {
	if last, ok := t.reference(); ok && x.id != "" && !v.confirmed[x.id] && far(&last, &x) {
		t.ask(near(x.max).String(), x.max, x.date, &last, x.id)
		return
	}
	t.values = append(t.values, x)
	t.filter.take(x)
}

// reference is the value that a new one is compared with: the newest one that is
// more than a lower bound, or a newer lower bound above it.
func (t *track) reference() (best value, ok bool) {
	for i := len(t.values) - 1; i >= 0; i-- {
		x := t.values[i]
		if !ok || x.max > best.max {
			best, ok = x, true
		}
		if !x.floor {
			return best, true
		}
	}
	return best, ok
}

// far reports whether a value is implausible after another: more than 15 % above
// it within 4 weeks, or 2.2 times as much, or, unless it is a lower bound, less
// than its 2.2th part.
func far(last, x *value) bool {
	a, b := int64(last.max), int64(x.max)
	near := x.date.DaysSince(last.date) <= jumpDates
	return near && b*100 > a*jumpMost || b*100 >= a*poundsFold || !x.floor && a*100 >= b*poundsFold
}

// plausible leaves out the sets of a session that are implausible, with one
// question for all of them, and adds the values of the others to a list.
func (t *track) plausible(v *View, g *Given, w *work, list []value) ([]ref, []value) {
	last, known := t.reference()
	sure := v.confirmed[w.entry.ID]
	date, at := w.entry.Date(), second(w.entry)
	kept, asked := w.sets[:0], false
	for _, r := range w.sets {
		x := value{date: date, at: at, id: w.entry.ID, ref: r}
		var ok bool
		x.max, x.spread, x.floor, ok = g.rated(r.set)
		if !sure && (ok && known && far(&last, &x) || !ok && known && r.set.Load.Value*100 >= last.max*poundsFold || w.slip(r.set.Load.Value)) {
			if !asked {
				asked = true
				t.ask(r.out().String(), r.set.Load.Value, date, &last, w.entry.ID)
			}
			continue
		}
		kept = append(kept, r)
		if ok {
			list = append(list, x)
		}
	}
	return kept, list
}

// slip reports whether a load is ten times the next lighter one of its session,
// as a decimal point left out makes it.
func (w *work) slip(m load.Mass) bool {
	next := load.Mass(0)
	for _, r := range w.session.Sets {
		if o := r.Load.Value; r.Exercise == w.sets[0].set.Exercise && o < m {
			next = max(next, o)
		}
	}
	return next > 0 && m >= tenfold*next
}

// alikeMost is how much one of two values may be above the other, in percent, to be
// asked about with it: common practice, no source.
const alikeMost = 130

// ask asks about a value, with those before it that are like it and as far from the
// same one.
func (t *track) ask(what string, m load.Mass, date calendar.Date, last *value, entry string) {
	d := &t.doubt
	a, b := int64(d.mass), int64(m)
	if a > 0 && a*100 <= b*alikeMost && b*100 <= a*alikeMost && d.last.date == last.date && d.last.max == last.max {
		d.more++
		n := note("question-jumps", append([]any{"more", d.more}, d.kv...)...)
		n.Subject.Dates = append(t.asked[len(t.asked)-1].Subject.Dates, date)
		t.asked[len(t.asked)-1] = n
		return
	}
	before := "what stands beside it"
	if last.max > 0 {
		before = "the " + near(last.max).String() + " of " + last.date.String()
	}
	*d = doubt{mass: m, last: *last, kv: []any{"exercise", t.exercise.Name, "what", what, "date", date, "before", before, "entry", entry}}
	n := note("question-jump", d.kv...)
	n.Subject.Dates = []calendar.Date{date}
	t.asked = append(t.asked, n)
}

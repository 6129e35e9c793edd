package logbook

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

// thing is what an entry may tell of together with others: a session of a kind, a
// game or a practice, by the name of the planned session or event.
type thing struct {
	kind Kind
	of   season.Kind
	name string
}

// thingOf is what an entry tells of; ok is false for kinds that are told as often as
// wanted.
func thingOf(e *Entry) (t thing, ok bool) {
	t.kind = e.What.Kind()
	switch w := e.What.(type) {
	case Session:
		t.of, t.name = w.Session, w.Planned
	case Game:
		t.name = w.Event
	case Practice:
		t.name = w.Event
	default:
		return thing{}, false
	}
	return t, true
}

// stretch is the time that an entry takes, as far as it is told: from its start to
// its end, else for its minutes, else for one. Of a game minutes are those on the
// field.
type stretch struct {
	entry    int
	from, to int64 // seconds
	thing
}

// longest is how long a stretch can be.
const longest = int64(MaxMinutes) * 60

func stretchOf(e *Entry) (s stretch, ok bool) {
	if s.thing, ok = thingOf(e); !ok || e.DateOnly {
		return s, false
	}
	s.from = second(e)
	minutes := Maybe[int]{}
	switch w := e.What.(type) {
	case Session:
		minutes = w.Minutes
	case Practice:
		minutes = w.Minutes
	}
	s.to = s.from + 60*int64(max(minutes.Value, 1))
	if end, told := e.ended(); told {
		s.to = end.Unix()
	}
	return s, true
}

// unions joins numbers to groups, each known by its lowest.
type unions []int

func (u unions) root(i int) int {
	for u[i] != i {
		u[i] = u[u[i]]
		i = u[i]
	}
	return i
}

func (u unions) join(i, j int) {
	i, j = u.root(i), u.root(j)
	u[max(i, j)] = min(i, j)
}

// together joins the entries that tell of one thing: that name the same planned
// session, game or practice; or that are of one kind and take place at one time, the
// one without a name and the other one with the only name that is told at that
// time, or with none. nil where none do. Among more than a hundred entries of half a
// day times say nothing.
func (v *View) together() (u unions) {
	join := func(i, j int) {
		if u == nil {
			u = make(unions, len(v.Entries))
			for k := range u {
				u[k] = k
			}
		}
		u.join(i, j)
	}
	named := make(map[string][3]int, len(v.Entries)) // first of each name, plus one, by kind
	list := make([]stretch, 0, len(v.Entries))
	for i := range v.Entries {
		t, ok := thingOf(&v.Entries[i])
		if !ok {
			continue
		}
		if s, ok := stretchOf(&v.Entries[i]); ok {
			s.entry = i
			list = append(list, s)
		}
		if t.name == "" {
			continue
		}
		k := slices.Index(joinable[:], t.kind)
		first := named[t.name]
		if first[k] > 0 {
			join(i, first[k]-1)
			continue
		}
		first[k] = i + 1
		named[t.name] = first
	}
	for i := range list {
		if list[i].name == "" {
			atOneTime(list, i, join)
		}
	}
	return u
}

// joinable are the kinds of which several entries may tell one thing.
var joinable = [3]Kind{OfSession, OfGame, OfPractice}

// mostAround is how many entries around an entry are looked at. Where there are more
// in half a day it is not known of which it tells.
const mostAround = 100

// atOneTime joins an entry without a name to those of its kind and time. They stand
// in the order of their starts.
func atOneTime(list []stretch, i int, join func(i, j int)) {
	x := &list[i]
	var like []int
	names := ""
	from := i
	for from > 0 && list[from-1].from > x.from-longest {
		if from--; i-from > mostAround {
			return
		}
	}
	for j := from; j < len(list) && list[j].from < x.to; j++ {
		o := &list[j]
		if j-i > mostAround {
			return
		}
		if j == i || o.kind != x.kind || o.of != x.of || o.to <= x.from {
			continue
		}
		like = append(like, o.entry)
		switch {
		case o.name == "" || o.name == names:
		case names == "":
			names = o.name
		default:
			return
		}
	}
	for _, j := range like {
		join(x.entry, j)
	}
}

// single leaves one entry for each thing of which several tell, such as an athlete's
// sets beside a coach's rating: what they tell is put together. Where they
// contradict each other none counts.
func (v *View) single() {
	u := v.together()
	if u == nil {
		return
	}
	same := map[int][]int{}
	var roots []int
	for i := range u {
		r := u.root(i)
		if r == i {
			continue
		}
		if same[r] == nil {
			same[r] = []int{r}
			roots = append(roots, r)
		}
		same[r] = append(same[r], i)
	}
	slices.Sort(roots)
	drop := make([]bool, len(v.Entries))
	for _, r := range roots {
		v.settle(same[r], drop)
	}
	kept := v.Entries[:0:0]
	for i := range v.Entries {
		if !drop[i] {
			kept = append(kept, v.Entries[i])
		}
	}
	v.Entries = kept
}

// idsShown is how many ids a question names.
const idsShown = 5

// settle puts together what a list of entries tells of one thing, or disputes them.
func (v *View) settle(list []int, drop []bool) {
	for _, i := range list {
		drop[i] = true
	}
	if i, ok := v.agreed(list); ok {
		drop[i] = false
		return
	}
	d := Dispute{ID: v.Entries[list[0]].ID, together: true}
	planned, ids := "", []string{}
	for _, i := range list {
		e := v.Entries[i]
		d.Entries = append(d.Entries, e)
		ids = append(ids, e.ID)
		if s, ok := e.What.(Session); ok && planned == "" {
			planned = s.Planned
		}
	}
	v.Disputed = append(v.Disputed, d)
	e := &d.Entries[0]
	if n := len(ids) - idsShown; n > 0 {
		ids = append(ids[:idsShown], fmt.Sprintf("%d more", n))
	}
	n := note("question-together", "kind", string(e.What.Kind()), "start", startText(e), "entries", strings.Join(ids, ", "))
	if planned != "" {
		n = note("question-twice", "planned", planned)
	}
	n.Subject = season.Subject{Session: planned, Dates: []calendar.Date{e.Date()}}
	v.Questions = append(v.Questions, n)
}

// agreed makes one entry of those that contradict each other in nothing: the first
// told of those with sets, else the first told, with what only others tell.
func (v *View) agreed(list []int) (best int, ok bool) {
	best = -1
	rank := func(e *Entry) int {
		if s, ok := e.What.(Session); ok && len(s.Sets) > 0 {
			return 0
		}
		return 1
	}
	for _, i := range list {
		e := &v.Entries[i]
		if best >= 0 {
			o := &v.Entries[best]
			if cmp.Or(cmp.Compare(rank(e), rank(o)), told(e, o), strings.Compare(e.ID, o.ID)) >= 0 {
				continue
			}
		}
		best = i
	}
	e := v.Entries[best]
	for _, i := range list {
		if !e.add(&v.Entries[i]) {
			return 0, false
		}
	}
	v.Entries[best] = e
	return best, true
}

// add takes what another entry tells of the same thing. ok is false if the two
// contradict each other.
func (e *Entry) add(o *Entry) (ok bool) {
	switch {
	case e.Date() != o.Date() || e.HasEnd && o.HasEnd && e.End != o.End:
		return false
	case !e.HasEnd && e.Start == o.Start && e.DateOnly == o.DateOnly:
		e.End, e.HasEnd = o.End, o.HasEnd
	}
	switch x := e.What.(type) {
	case Session:
		y, same := o.What.(Session)
		ok = same && x.Session == y.Session && addName(&x.Planned, y.Planned) && addName(&x.State, y.State, Unknown) &&
			addValue(&x.Rating, y.Rating) && addValue(&x.Minutes, y.Minutes) && (len(y.Sets) == 0 || len(x.Sets) == 0 || slices.Equal(x.Sets, y.Sets))
		if len(x.Sets) == 0 {
			x.Sets = y.Sets
		}
		e.What = x
	case Game:
		y, same := o.What.(Game)
		ok = same && addName(&x.Event, y.Event) && addValue(&x.Minutes, y.Minutes) && addValue(&x.Rating, y.Rating)
		e.What = x
	case Practice:
		y, same := o.What.(Practice)
		ok = same && addName(&x.Event, y.Event) && addValue(&x.Minutes, y.Minutes) && addValue(&x.Rating, y.Rating) && addValue(&x.Sprinted, y.Sprinted)
		e.What = x
	}
	return ok
}

// addName takes a word where none is told; ok is false where another is.
func addName[T ~string](to *T, from T, none ...T) (ok bool) {
	unknown := func(s T) bool { return s == "" || slices.Contains(none, s) }
	if unknown(*to) {
		*to = from
	}
	return unknown(from) || *to == from
}

// addValue takes a value where none is told; ok is false where another is.
func addValue[T comparable](to *Maybe[T], from Maybe[T]) (ok bool) {
	if !to.Known {
		*to = from
	}
	return !from.Known || *to == from
}

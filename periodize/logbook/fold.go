package logbook

import (
	"cmp"
	"slices"
	"strings"

	"example.org/weft/periodize/season"
)

// Fold is a log folded to what holds now, athlete by athlete, that takes one more
// entry without folding all again. The zero value is empty. It is not safe for
// concurrent use while entries are added.
//
// An entry corrects another if it replaces or voids its id, and may be corrected
// in turn. What holds for an id is this:
//
//   - without a correction, what is said under it; if that is two things, it is
//     disputed;
//   - with corrections, what holds for these: a void takes the id out, a
//     replacement stands in its place, and one that is itself voided is as if it
//     had never been;
//   - if they disagree, are disputed, go in a circle, or are more than [MaxChain]
//     deep, it is disputed.
//
// An id that is not in the log, and that entries replace, is held to say nothing
// itself.
type Fold struct {
	people map[string]*person
}

type person struct {
	groups map[string]*group
	known  []*record // what counts, in the order of time
}

// group is all that is said under one id.
type group struct {
	id      string
	records []*record // by what they say
	by      []*record // those that correct this id, by id
	state   status
	holds   *record // what stands
	found   bool    // state and holds are up to date
}

// record is one entry with what became of it.
type record struct {
	Entry
	at     int64 // seconds of its instant
	home   *group
	looped bool
	shown  bool // among what counts
}

type status uint8

const (
	stands   status = iota
	gone            // voided
	disputed        // also where corrections go in a circle
)

// NewFold folds a log.
func NewFold(l Log) *Fold {
	f := &Fold{people: map[string]*person{}}
	for from := 0; from < len(l.list); {
		athlete := l.list[from].Athlete
		to := from
		for to < len(l.list) && l.list[to].Athlete == athlete {
			to++
		}
		f.people[athlete] = newPerson(l.list[from:to])
		from = to
	}
	return f
}

func newPerson(list []Entry) *person {
	p := &person{groups: make(map[string]*group, len(list))}
	records := make([]record, len(list))
	groups := make([]group, 0, len(list))
	for i := range list {
		r := &records[i]
		r.Entry, r.at = list[i], second(&list[i])
		if i > 0 && list[i].ID == list[i-1].ID {
			r.home = records[i-1].home
		} else {
			groups = append(groups, group{id: r.ID})
			r.home = &groups[len(groups)-1]
			p.groups[r.ID] = r.home
		}
		r.home.records = append(r.home.records, r)
	}
	var touched []*group // those that corrections touch
	for i := range records {
		if g := p.link(&records[i]); g != nil {
			touched = append(touched, g)
		}
	}
	for i := range groups {
		g := &groups[i]
		if len(g.records) == 1 && len(g.by) == 0 && g.records[0].target() == "" {
			g.state, g.holds, g.found = stands, g.records[0], true
			g.holds.shown = g.holds.What.Kind().Dated()
			continue
		}
		touched = append(touched, g)
	}
	p.resolve(touched)
	p.known = make([]*record, 0, len(records))
	for i := range records {
		if records[i].shown {
			p.known = append(p.known, &records[i])
		}
	}
	slices.SortFunc(p.known, byTime)
	return p
}

// link enters a correction with its target. It returns the group of the target
// if the log has nothing else under its id yet.
func (p *person) link(r *record) (missing *group) {
	t := r.target()
	if t == "" {
		return nil
	}
	g := p.groups[t]
	if g == nil {
		g = &group{id: t}
		p.groups[t], missing = g, g
	}
	i, _ := slices.BinarySearchFunc(g.by, r, byID)
	g.by = slices.Insert(g.by, i, r)
	return missing
}

// byID does not write out what entries say unless it must.
func byID(a, b *record) int {
	if c := strings.Compare(a.ID, b.ID); c != 0 || a == b {
		return c
	}
	return strings.Compare(facts(&a.Entry), facts(&b.Entry))
}

func toldFirst(a, b *record) int {
	if c := told(&a.Entry, &b.Entry); c != 0 {
		return c
	}
	return byID(a, b)
}

func byTimeAndID(a, b *record) int {
	if c := byTime(a, b); c != 0 {
		return c
	}
	return byID(a, b)
}

func byTime(a, b *record) int {
	if a.at != b.at {
		return cmp.Compare(a.at, b.at)
	}
	if c := strings.Compare(string(a.What.Kind()), string(b.What.Kind())); c != 0 {
		return c
	}
	return strings.Compare(a.ID, b.ID)
}

func second(e *Entry) int64 {
	at, ok := e.At()
	if !ok {
		return 0
	}
	return at.Unix()
}

// Add takes one more entry, as if the log had held it from the start. An entry
// without an id gets its [Entry.ContentID]. The error is a *season.InputError,
// and then nothing has changed.
func (f *Fold) Add(e Entry) error {
	l, err := NewLog(e)
	if err != nil {
		return err
	}
	e = l.list[0]
	if f.people == nil {
		f.people = map[string]*person{}
	}
	p := f.people[e.Athlete]
	if p == nil {
		p = newPerson(nil)
		f.people[e.Athlete] = p
	}
	p.add(e)
	return nil
}

func (p *person) add(e Entry) {
	g := p.groups[e.ID]
	if g == nil {
		g = &group{id: e.ID}
		p.groups[e.ID] = g
	}
	for _, r := range g.records {
		if equalFacts(&r.Entry, &e) {
			if told(&e, &r.Entry) >= 0 {
				return
			}
			// Told earlier than was known: who of several corrections counts may
			// change.
			r.Recorded, r.Source = e.Recorded, e.Source
			p.renew(g)
			return
		}
	}
	r := &record{Entry: e, at: second(&e), home: g}
	g.records = append(g.records, r)
	if len(g.records) > 1 {
		slices.SortFunc(g.records, func(a, b *record) int { return strings.Compare(facts(&a.Entry), facts(&b.Entry)) })
	}
	p.link(r)
	p.renew(g)
}

// renew finds anew what holds for all ids that corrections join to one.
func (p *person) renew(g *group) {
	part := p.joined(g)
	var was []*record
	for _, g := range part {
		for _, r := range g.records {
			if r.shown {
				was = append(was, r)
			}
		}
	}
	p.resolve(part)
	for _, r := range was {
		if i, ok := slices.BinarySearchFunc(p.known, r, byTime); ok && !r.shown {
			p.known = slices.Delete(p.known, i, i+1)
		}
	}
	for _, g := range part {
		for _, r := range g.records {
			if i, ok := slices.BinarySearchFunc(p.known, r, byTime); r.shown && !ok {
				p.known = slices.Insert(p.known, i, r)
			}
		}
	}
}

// View is what holds now for one athlete; empty for one of whom nothing is told.
func (f *Fold) View(athlete string) View {
	v := View{Athlete: athlete}
	p := f.people[athlete]
	if p == nil {
		return v
	}
	v.Entries = make([]Entry, len(p.known))
	for i, r := range p.known {
		v.Entries[i] = r.Entry
	}
	p.open(&v)
	v.single()
	return v
}

// Athletes returns the ids of the athletes, sorted.
func (f *Fold) Athletes() []string {
	var out []string
	for a, p := range f.people {
		if len(p.groups) > 0 {
			out = append(out, a)
		}
	}
	slices.Sort(out)
	return out
}

// open gathers what is disputed, confirmed and asked.
func (p *person) open(v *View) {
	var ids []string
	for id, g := range p.groups {
		if len(g.by) > 0 || len(g.records) > 1 || g.records[0].target() != "" || g.records[0].What.Kind() == OfConfirm {
			ids = append(ids, id)
		}
	}
	slices.Sort(ids)
	listed := map[*group]bool{}
	for _, id := range ids {
		g := p.groups[id]
		for _, r := range g.records {
			of := r.target()
			if c, ok := r.What.(Confirm); ok {
				of = c.Of
				if g.state == stands && g.holds == r {
					if v.confirmed == nil {
						v.confirmed = map[string]bool{}
					}
					v.confirmed[of] = true
				}
			}
			if t := p.groups[of]; of != "" && (t == nil || len(t.records) == 0) {
				v.Questions = append(v.Questions, note("log-target", "id", id, "of", of))
			}
		}
		if g.state == disputed && !listed[g] && p.root(g) {
			p.dispute(v, g, listed)
		}
	}
}

// dispute lists all that corrections join to a disputed id as one dispute.
func (p *person) dispute(v *View, g *group, listed map[*group]bool) {
	d := Dispute{ID: g.id}
	code := "question-clash"
	var all []*record
	for _, part := range p.joined(g) {
		listed[part] = true
		if len(part.by) > 0 {
			code = "question-corrections"
		}
		for _, r := range part.records {
			if part.state != gone && r.What.Kind().Dated() && !r.shown {
				all = append(all, r)
			}
		}
	}
	slices.SortFunc(all, byTimeAndID)
	for _, r := range all {
		d.Entries = append(d.Entries, r.Entry)
	}
	v.Disputed = append(v.Disputed, d)
	v.Questions = append(v.Questions, about(note(code, "id", g.id), all))
}

// about names the dates and the session of the entries a note is about.
func about(n season.Note, records []*record) season.Note {
	for _, r := range records {
		if d := r.Date(); !d.IsZero() && !slices.Contains(n.Subject.Dates, d) {
			n.Subject.Dates = append(n.Subject.Dates, d)
		}
		if s, ok := r.What.(Session); ok && n.Subject.Session == "" {
			n.Subject.Session = s.Planned
		}
	}
	return n
}

package handout

import (
	"strings"
	"time"

	"example.org/weft/periodize/rule"
	"example.org/weft/periodize/season"
)

// slipRoom is how many changes a page of a slip has.
const slipRoom = 14

// Slip says what is not as it was handed out: the news, each change with its
// cause, and whom to tell which times. The plan that was handed out is the last
// of the request's issued ones. No cause is about health.
func (b *Book) Slip() Sheet {
	const title = "Change of plan"
	if p, ok := b.refused(); ok {
		return b.sheet("slip", title, p)
	}
	s := slip{b: b, old: b.handedOut(), free: map[string][]string{}, taken: map[string][]string{}}
	var rows [][]string
	kept := 0
	for _, c := range b.plan.Changes {
		if c.Change == season.Unchanged && !s.elsewhere(c) {
			kept++
			continue
		}
		rows = append(rows, s.row(c))
		s.tell(c)
	}
	first := page{}
	if news := s.news(); len(news) > 0 {
		first = append(first, heading("News"), more(news, 6))
	}
	if len(b.plan.Changes) == 0 && b.issued() == nil {
		return b.sheet("slip", title, page{paragraph("No plan was handed out before this one.")})
	}
	if len(rows) == 0 {
		return b.sheet("slip", title, append(first, paragraph("Nothing changes against the plan handed out before."), paragraph(count(kept, "session")+" as before.")))
	}
	first = append(first, heading("What changes"))
	var pages []page
	for len(rows) > slipRoom {
		pages = append(pages, append(first, changeTable(rows[:slipRoom])))
		first, rows = nil, rows[slipRoom:]
	}
	first = append(first, changeTable(rows), paragraph(count(kept, "session")+" as before."),
		heading("Tell"), append(list{"the athlete"}, more(s.places(), 6)...), keyOf(s.kinds))
	return b.sheet("slip", title, append(pages, first)...)
}

func changeTable(rows [][]string) table {
	return table{head: []string{"What", "As handed out", "Now", "Because"}, rows: rows}
}

// handedOut are the sessions of the plan issued last, by id.
func (b *Book) handedOut() map[string]*season.Session {
	out := map[string]*season.Session{}
	if p := b.issued(); p != nil {
		for i := range p.Sessions {
			out[p.Sessions[i].ID] = &p.Sessions[i]
		}
	}
	return out
}

func (b *Book) issued() *season.Plan {
	if n := len(b.req.Issued); n > 0 {
		return &b.req.Issued[n-1]
	}
	return nil
}

// slip is a change slip on its way.
type slip struct {
	b           *Book
	old         map[string]*season.Session
	kinds       []season.Kind // of what changes
	order       []string      // of places
	free, taken map[string][]string
}

func (s *slip) now(id string) *season.Session {
	for i := range s.b.plan.Sessions {
		if s.b.plan.Sessions[i].ID == id {
			return &s.b.plan.Sessions[i]
		}
	}
	return nil
}

// elsewhere reports whether a session that starts as before has another place or
// another end.
func (s *slip) elsewhere(c season.Change) bool {
	o, x := s.old[c.Session], s.now(c.Session)
	return o != nil && x != nil && (o.Place != x.Place || !o.End.Equal(x.End))
}

func (s *slip) row(c season.Change) []string {
	what := kindWord(c.Kind)
	s.kinds = append(s.kinds, c.Kind, c.OldKind)
	if c.OldKind != "" && c.OldKind != c.Kind {
		what = kindWord(c.OldKind) + " becomes " + what
	}
	o, x := s.old[c.Session], s.now(c.Session)
	moved := o != nil && x != nil && o.Place != x.Place
	return []string{what, s.cell(c.From, o, moved), s.cell(c.To, x, moved), s.because(c)}
}

// cell is a date with times, and the place if that has changed.
func (s *slip) cell(at *time.Time, x *season.Session, place bool) string {
	if at == nil {
		return "-"
	}
	out := dayText(s.b.zone.Local(*at).Date) + " " + s.b.clock(*at)
	if x != nil && x.Start.Equal(*at) {
		out = dayText(x.Date) + " " + s.b.sessionThere(x).clocks()
	}
	if place && x != nil && x.Place != "" {
		out += ", " + clip(x.Place, 20)
	}
	return out
}

// because is the cause of a change in words that anybody may read.
func (s *slip) because(c season.Change) string {
	for _, n := range c.Cause {
		switch n.Code {
		case "cause-limit", "cause-limit-alone":
			why := wayWords[rule.Family(n.Rule)]
			switch {
			case n.Rule == "hold":
				return "ask the coach"
			case why == "":
				return "a rule forbids it now"
			}
			if e, ok := s.b.byID[n.Subject.Event]; ok {
				why += " (" + s.b.name(e) + ", " + dayText(e.Date) + ")"
			}
			return why
		case "cause-game-moved", "cause-game-gone", "cause-game-new":
			return s.game(n.Subject.Event)
		case "cause-events":
			return "other events that day"
		case "cause-log":
			return "it was done otherwise"
		}
	}
	return "hours, places or rules changed"
}

// game is the name of a game that may be gone.
func (s *slip) game(id string) string {
	if e, ok := s.b.byID[id]; ok {
		return s.b.name(e)
	}
	if p := s.b.issued(); p != nil {
		for _, g := range p.Games {
			if g.ID == id && g.Title != "" {
				return clip(g.Title, 28)
			}
		}
	}
	return "a game"
}

// news are the changes of fixtures behind the changes, each once. A game that is
// gone and a new one of the same name is one that has moved: lists without ids
// give it another.
func (s *slip) news() (out []string) {
	var notes []season.Note
	seen := map[string]bool{}
	fresh := map[string]season.Note{}
	for _, c := range s.b.plan.Changes {
		for _, n := range c.Cause {
			if key := n.Code + " " + n.Subject.Event; !seen[key] && strings.HasPrefix(n.Code, "cause-game-") {
				seen[key] = true
				notes = append(notes, n)
				if n.Code == "cause-game-new" {
					fresh[s.game(n.Subject.Event)] = n
				}
			}
		}
	}
	moved := map[string]bool{}
	for _, n := range notes {
		name := s.game(n.Subject.Event)
		if x, ok := fresh[name]; ok && n.Code == "cause-game-gone" && !moved[name] {
			moved[name] = true
			out = append(out, name+" moves from "+s.before(n.Subject.Event)+" to "+s.start(x.Subject.Event)+".")
		}
	}
	for _, n := range notes {
		name := s.game(n.Subject.Event)
		switch {
		case moved[name]:
		case n.Code == "cause-game-moved":
			out = append(out, name+" moves from "+s.before(n.Subject.Event)+" to "+s.start(n.Subject.Event)+".")
		case n.Code == "cause-game-gone":
			out = append(out, name+" of "+s.before(n.Subject.Event)+" is off.")
		case n.Code == "cause-game-new":
			out = append(out, name+" on "+s.start(n.Subject.Event)+" is new.")
		}
	}
	return out
}

func (s *slip) start(id string) string {
	e, ok := s.b.byID[id]
	switch {
	case !ok:
		return "another date"
	case e.DateOnly:
		return dayYear(e.Date)
	}
	return s.b.moment(e.Span.Start)
}

// before is when a game began in the plan handed out.
func (s *slip) before(id string) string {
	if p := s.b.issued(); p != nil {
		for _, g := range p.Games {
			switch {
			case g.ID != id:
			case g.DateOnly:
				return dayYear(g.Date)
			default:
				return s.b.moment(g.Start)
			}
		}
	}
	return "another date"
}

// tell collects what a place must know: which times are free, which taken.
func (s *slip) tell(c season.Change) {
	o, x := s.old[c.Session], s.now(c.Session)
	if c.Change == season.Dropped {
		x = nil
	}
	if o != nil && x != nil && o.Place == x.Place && o.Start.Equal(x.Start) && o.End.Equal(x.End) {
		return // the same room at the same time
	}
	note := func(y *season.Session, to map[string][]string) {
		if y == nil {
			return
		}
		if s.free[y.Place] == nil && s.taken[y.Place] == nil {
			s.order = append(s.order, y.Place)
		}
		to[y.Place] = append(to[y.Place], dayText(y.Date)+" "+s.b.sessionThere(y).clocks())
	}
	note(o, s.free)
	note(x, s.taken)
}

func (s *slip) places() (out []string) {
	for _, p := range s.order {
		var parts []string
		if f := s.free[p]; len(f) > 0 {
			parts = append(parts, "no longer "+strings.Join(f, ", "))
		}
		if n := s.taken[p]; len(n) > 0 {
			parts = append(parts, "now "+strings.Join(n, ", "))
		}
		name := clip(p, 40)
		if name == "" {
			name = "the gym"
		}
		out = append(out, name+": "+strings.Join(parts, "; "))
	}
	return out
}

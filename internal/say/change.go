package say

import (
	"slices"
	"strings"

	"example.org/weft/periodize/season"
)

// Change sets a plan beside the one handed out before it.
type Change struct {
	Issued   *season.Plan // nil if none was handed out
	old, now map[string]*season.Session
}

// NewChange compares a plan with the last of the issued ones.
func NewChange(plan *season.Plan, issued []season.Plan) *Change {
	c := &Change{now: byID(plan.Sessions)}
	if n := len(issued); n > 0 {
		c.Issued = &issued[n-1]
		c.old = byID(c.Issued.Sessions)
	}
	return c
}

func byID(sessions []season.Session) map[string]*season.Session {
	out := make(map[string]*season.Session, len(sessions))
	for i := range sessions {
		if s := &sessions[i]; out[s.ID] == nil {
			out[s.ID] = s
		}
	}
	return out
}

// Sessions are the session of a change as handed out and as planned now, nil where
// there is none.
func (c *Change) Sessions(x season.Change) (old, now *season.Session) {
	return c.old[x.Session], c.now[x.Session]
}

// Elsewhere reports whether a session that starts as before has another place or
// another end.
func (c *Change) Elsewhere(x season.Change) bool {
	o, n := c.Sessions(x)
	return o != nil && n != nil && (o.Place != n.Place || !o.End.Equal(n.End))
}

// Game is the name that a game had in the plan handed out.
func (c *Change) Game(id string, most int) string {
	if c.Issued != nil {
		for _, g := range c.Issued.Games {
			if g.ID == id && g.Title != "" {
				return Clip(g.Title, most)
			}
		}
	}
	return "a game"
}

// Move is a game that is gone and a new one of the same name.
type Move struct{ Name, Gone, New string }

// Moves are the games that have moved, in a list without ids, which gives them
// others. Of several games of a name that are gone the first is taken, of several
// new ones the last.
type Moves []Move

// MovesOf finds the moves among the causes of changes.
func MovesOf(causes []season.Note, name func(event string) string) (out Moves) {
	fresh := map[string]string{}
	for _, n := range causes {
		if n.Code == "cause-game-new" {
			fresh[name(n.Subject.Event)] = n.Subject.Event
		}
	}
	for _, n := range causes {
		if n.Code != "cause-game-gone" {
			continue
		}
		m := Move{Name: name(n.Subject.Event), Gone: n.Subject.Event}
		var isNew bool
		if m.New, isNew = fresh[m.Name]; isNew && !out.Have(m.Name) {
			out = append(out, m)
		}
	}
	return out
}

// Have reports whether a game of a name has moved.
func (m Moves) Have(name string) bool {
	return slices.ContainsFunc(m, func(x Move) bool { return x.Name == name })
}

// Rooms collects what places must know: which times are free, which taken. The
// zero value is ready for use.
type Rooms struct {
	order       []string
	free, taken map[string][]string
}

// Add takes the places of a session as handed out and as it is now; nil for none.
func (r *Rooms) Add(old, now *season.Session, when func(*season.Session) string) {
	if old != nil && now != nil && old.Place == now.Place && old.Start.Equal(now.Start) && old.End.Equal(now.End) {
		return // the same room at the same time
	}
	if r.free == nil {
		r.free, r.taken = map[string][]string{}, map[string][]string{}
	}
	note := func(s *season.Session, to map[string][]string) {
		if s == nil {
			return
		}
		if r.free[s.Place] == nil && r.taken[s.Place] == nil {
			r.order = append(r.order, s.Place)
		}
		to[s.Place] = append(to[s.Place], when(s))
	}
	note(old, r.free)
	note(now, r.taken)
}

// Lines are one for each place.
func (r *Rooms) Lines() (out []string) {
	for _, p := range r.order {
		var parts []string
		if f := r.free[p]; len(f) > 0 {
			parts = append(parts, "no longer "+strings.Join(f, ", "))
		}
		if n := r.taken[p]; len(n) > 0 {
			parts = append(parts, "now "+strings.Join(n, ", "))
		}
		name := Clip(p, 40)
		if name == "" {
			name = "the gym"
		}
		out = append(out, name+": "+strings.Join(parts, "; "))
	}
	return out
}

package main

import (
	"fmt"
	"strings"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

// slip is what a coach hands on when a plan has changed: the news, what is not
// as it was handed out, and whom to tell.
func (s *sheet) slip() {
	if len(s.plan.Changes) == 0 {
		return
	}
	s.title("CHANGES against the plan handed out before")
	old := s.handedOut()
	t := message{free: map[string][]string{}, taken: map[string][]string{}}
	var kept []season.Change
	changed := 0
	news := s.news()
	for i, n := range news {
		label := "  News       "
		if i > 0 {
			label = strings.Repeat(" ", len(label))
		}
		s.hang(label, n)
	}
	for _, c := range s.plan.Changes {
		if c.Change == season.Unchanged && !s.elsewhere(c, old) {
			kept = append(kept, c)
			continue
		}
		changed++
		label, text := s.changeText(c, old)
		s.hang("  "+pad(label, 10)+" ", text)
		t.add(s, c, old)
	}
	s.line(fmt.Sprintf("  %s unchanged%s", count(len(kept), "session"), map[bool]string{true: " (-v lists them)"}[len(kept) > 0 && !s.verbose]))
	if s.verbose {
		for _, c := range kept {
			s.line("             " + s.moment(*c.From) + "  " + kindWord(c.Kind))
		}
	}
	if changed == 0 {
		return
	}
	s.hang("  Tell       ", "the athlete: "+count(changed, "session")+" not as handed out")
	for _, place := range t.places() {
		s.hang("             ", place)
	}
}

// handedOut are the sessions of the plan issued last, by id.
func (s *sheet) handedOut() map[string]*season.Session {
	out := map[string]*season.Session{}
	if n := len(s.in.request.Issued); n > 0 {
		for i := range s.in.request.Issued[n-1].Sessions {
			x := &s.in.request.Issued[n-1].Sessions[i]
			out[x.ID] = x
		}
	}
	return out
}

// planned is the session of an id as planned now.
func (s *sheet) planned(id string) *season.Session {
	for i := range s.plan.Sessions {
		if s.plan.Sessions[i].ID == id {
			return &s.plan.Sessions[i]
		}
	}
	return nil
}

// elsewhere reports whether a session that starts as before has another place or
// another end.
func (s *sheet) elsewhere(c season.Change, old map[string]*season.Session) bool {
	o, x := old[c.Session], s.planned(c.Session)
	return o != nil && x != nil && (o.Place != x.Place || !o.End.Equal(x.End))
}

// changeText says one change: what it is, from when to when, and why.
func (s *sheet) changeText(c season.Change, old map[string]*season.Session) (label, text string) {
	label, text = string(c.Change), kindWord(c.Kind)
	switch {
	case c.Change == season.Moved:
		text += " from " + s.moment(*c.From) + " to " + s.moment(*c.To)
		if c.OldKind != "" {
			text += ", was " + kindWord(c.OldKind)
		}
	case c.Change == season.Replaced:
		text = s.moment(*c.From) + ": " + kindWord(c.OldKind) + " becomes " + kindWord(c.Kind)
	case c.Change == season.Unchanged:
		label = "other"
		text += " of " + s.moment(*c.From)
	case c.From != nil:
		text += " of " + s.moment(*c.From)
	case c.To != nil:
		text += " on " + s.moment(*c.To)
	}
	if o, x := old[c.Session], s.planned(c.Session); o != nil && x != nil {
		if o.Place != x.Place {
			text += ", at " + clip(x.Place, 20) + " instead of " + clip(o.Place, 20)
		}
		if c.Change == season.Unchanged && !o.End.Equal(x.End) {
			text += ", " + s.stretch(x.Start, x.End) + " instead of " + s.clocks(o.Start, o.End)
		}
	}
	if why := s.because(c); why != "" {
		text += "; " + why
	}
	return label, text
}

// because is the reason of one change: the limit the old session would break,
// else what it follows from.
func (s *sheet) because(c season.Change) string {
	for _, n := range c.Cause {
		switch n.Code {
		case "cause-limit", "cause-limit-alone":
			why := limitWord(n.Rule)
			if e, ok := s.byID[n.Subject.Event]; ok {
				why += " (" + s.name(e) + ", " + dayText(e.Date) + ")"
			}
			return why
		case "cause-game-moved", "cause-game-gone", "cause-game-new":
			return "because of " + s.eventName(n.Subject.Event)
		default:
			return s.noteText(n)
		}
	}
	return "hours or places changed"
}

// eventName is the name of an event that may be gone.
func (s *sheet) eventName(id string) string {
	if e, ok := s.byID[id]; ok {
		return s.name(e)
	}
	if n := len(s.in.request.Issued); n > 0 {
		for _, g := range s.in.request.Issued[n-1].Games {
			if g.ID == id && g.Title != "" {
				return clip(g.Title, 24)
			}
		}
	}
	return "a game"
}

// news are the changes of the calendar that the changes follow from, each once.
// A game that is gone and one that is new against the same opponent is one that
// has moved: lists without ids give it another.
func (s *sheet) news() []string {
	var notes []season.Note
	seen := map[string]bool{}
	for _, c := range s.plan.Changes {
		for _, n := range c.Cause {
			if key := n.Code + n.Subject.Event + n.Text; !seen[key] {
				seen[key] = true
				notes = append(notes, n)
			}
		}
	}
	fresh := map[string]season.Note{} // by name
	for _, n := range notes {
		if n.Code == "cause-game-new" {
			fresh[s.eventName(n.Subject.Event)] = n
		}
	}
	var out []string
	merged := map[string]bool{}
	for _, n := range notes {
		name := s.eventName(n.Subject.Event)
		if x, ok := fresh[name]; ok && n.Code == "cause-game-gone" && !merged[name] {
			merged[name] = true
			out = append(out, name+" moved from "+s.handedStart(n.Subject.Event)+" to "+s.start(x.Subject.Event))
		}
	}
	for _, n := range notes {
		name := s.eventName(n.Subject.Event)
		switch n.Code {
		case "cause-game-moved":
			out = append(out, name+" moved from "+s.wallText(n.Values["from"].Text)+" to "+s.wallText(n.Values["to"].Text))
		case "cause-game-gone":
			if !merged[name] {
				out = append(out, name+" of "+s.handedStart(n.Subject.Event)+" is off")
			}
		case "cause-game-new":
			if !merged[name] {
				out = append(out, name+" on "+s.start(n.Subject.Event)+" is new")
			}
		case "cause-events":
			out = append(out, s.noteText(n))
		}
	}
	return out
}

// start is when an event begins, handedStart when a game began in the plan
// handed out.
func (s *sheet) start(id string) string {
	e, ok := s.byID[id]
	switch {
	case !ok:
		return "another date"
	case e.DateOnly:
		return dayYear(e.Date)
	}
	return s.moment(e.Span.Start)
}

func (s *sheet) handedStart(id string) string {
	if n := len(s.in.request.Issued); n > 0 {
		for _, g := range s.in.request.Issued[n-1].Games {
			switch {
			case g.ID != id:
			case g.DateOnly:
				return dayYear(g.Date)
			default:
				return s.moment(g.Start)
			}
		}
	}
	return "another date"
}

// wallText writes the wall time of a note as the sheet does.
func (s *sheet) wallText(text string) string {
	w, err := calendar.ParseWall(strings.Replace(text, " ", "T", 1))
	if err != nil {
		return text
	}
	return dayYear(w.Date) + " " + hhmm(w.Clock)
}

// message collects what a place must know: which times are free, which taken.
type message struct {
	order       []string
	free, taken map[string][]string
}

func (t *message) add(s *sheet, c season.Change, old map[string]*season.Session) {
	o, x := old[c.Session], s.planned(c.Session)
	if c.Change == season.Dropped {
		x = nil
	}
	if o != nil && x != nil && o.Place == x.Place && o.Start.Equal(x.Start) && o.End.Equal(x.End) {
		return // the same room at the same time
	}
	note := func(place string, to map[string][]string, start, end time.Time) {
		if t.free[place] == nil && t.taken[place] == nil {
			t.order = append(t.order, place)
		}
		to[place] = append(to[place], dayText(calendar.DateOf(start, s.zoneAt(start)))+" "+s.stretch(start, end))
	}
	if o != nil {
		note(o.Place, t.free, o.Start, o.End)
	}
	if x != nil {
		note(x.Place, t.taken, x.Start, x.End)
	}
}

func (t *message) places() []string {
	var out []string
	for _, p := range t.order {
		var parts []string
		if f := t.free[p]; len(f) > 0 {
			parts = append(parts, "no longer "+strings.Join(f, ", "))
		}
		if n := t.taken[p]; len(n) > 0 {
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

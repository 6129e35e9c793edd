package main

import (
	"fmt"
	"strings"

	"example.org/weft/calendar"
	"example.org/weft/internal/say"
	"example.org/weft/periodize/season"
)

// slip is what a coach hands on when a plan has changed: the news, what is not
// as it was handed out, and whom to tell.
func (s *sheet) slip() {
	if len(s.plan.Changes) == 0 {
		return
	}
	s.title("CHANGES against the plan handed out before")
	var rooms say.Rooms
	var kept []season.Change
	changed := 0
	news := s.news()
	for i, n := range news {
		label := "  News       "
		if i > 0 {
			label = strings.Repeat(" ", len(label))
		}
		s.Hang(label, n)
	}
	for _, c := range s.plan.Changes {
		if c.Change == season.Unchanged && !s.handed.Elsewhere(c) {
			kept = append(kept, c)
			continue
		}
		changed++
		label, text := s.changeText(c)
		s.Hang("  "+say.Pad(label, 10)+" ", text)
		s.tell(&rooms, c)
	}
	s.Line(fmt.Sprintf("  %s unchanged%s", say.Count(len(kept), "session"), map[bool]string{true: " (-v lists them)"}[len(kept) > 0 && !s.verbose]))
	if s.verbose {
		for _, c := range kept {
			s.Line("             " + s.moment(*c.From) + "  " + say.Kind(c.Kind))
		}
	}
	if changed == 0 {
		return
	}
	s.Hang("  Tell       ", "the athlete: "+say.Count(changed, "session")+" not as handed out")
	for _, place := range rooms.Lines() {
		s.Hang("             ", place)
	}
}

// changeText says one change: what it is, from when to when, and why.
func (s *sheet) changeText(c season.Change) (label, text string) {
	label, text = string(c.Change), say.Kind(c.Kind)
	switch {
	case c.Change == season.Moved:
		text += " from " + s.moment(*c.From) + " to " + s.moment(*c.To)
		if c.OldKind != "" {
			text += ", was " + say.Kind(c.OldKind)
		}
	case c.Change == season.Replaced:
		text = s.moment(*c.From) + ": " + say.Kind(c.OldKind) + " becomes " + say.Kind(c.Kind)
	case c.Change == season.Unchanged:
		label = "other"
		text += " of " + s.moment(*c.From)
	case c.From != nil:
		text += " of " + s.moment(*c.From)
	case c.To != nil:
		text += " on " + s.moment(*c.To)
	}
	if o, x := s.handed.Sessions(c); o != nil && x != nil {
		if o.Place != x.Place {
			text += ", at " + say.Clip(x.Place, 20) + " instead of " + say.Clip(o.Place, 20)
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
				why += " (" + s.name(e) + ", " + say.Day(e.Date) + ")"
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
	return s.handed.Game(id, 24)
}

// news are the changes of the calendar that the changes follow from, each once.
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
	var out []string
	moves := say.MovesOf(notes, s.eventName)
	for _, m := range moves {
		out = append(out, m.Name+" moved from "+s.handedStart(m.Gone)+" to "+s.start(m.New))
	}
	for _, n := range notes {
		name := s.eventName(n.Subject.Event)
		switch n.Code {
		case "cause-game-moved":
			out = append(out, name+" moved from "+s.wallText(n.Values["from"].Text)+" to "+s.wallText(n.Values["to"].Text))
		case "cause-game-gone":
			if !moves.Have(name) {
				out = append(out, name+" of "+s.handedStart(n.Subject.Event)+" is off")
			}
		case "cause-game-new":
			if !moves.Have(name) {
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
		return say.DayYear(e.Date)
	}
	return s.moment(e.Span.Start)
}

func (s *sheet) handedStart(id string) string {
	if s.handed.Issued != nil {
		for _, g := range s.handed.Issued.Games {
			switch {
			case g.ID != id:
			case g.DateOnly:
				return say.DayYear(g.Date)
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
	return say.DayYear(w.Date) + " " + say.Clock(w.Clock)
}

// tell notes what the places must know.
func (s *sheet) tell(rooms *say.Rooms, c season.Change) {
	o, x := s.handed.Sessions(c)
	if c.Change == season.Dropped {
		x = nil
	}
	rooms.Add(o, x, func(y *season.Session) string {
		return say.Day(calendar.DateOf(y.Start, s.zoneAt(y.Start))) + " " + s.stretch(y.Start, y.End)
	})
}

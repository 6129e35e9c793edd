package handout

import (
	"strings"
	"time"

	"example.org/weft/internal/say"
	"example.org/weft/periodize/rule"
	"example.org/weft/periodize/season"
)

// slipRoom is what a page has for news, changes and whom to tell, in tenths of a
// millimetre: the rest is headings and the key. Measured in print.
var slipRoom = [...]int{A4: 1900, Letter: 1720}

// slipTold is how many letters of times each place is told; the rest stands above.
const slipTold = 300

// Slip says what is not as it was handed out: the news, each change with its
// cause, and whom to tell which times. The plan that was handed out is the last
// of the request's issued ones. No cause is about health.
func (b *Book) Slip() Sheet {
	const title = "Change of plan"
	if p, ok := b.refused(); ok {
		return b.sheet("slip", title, p)
	}
	s := slip{b: b, Change: say.NewChange(b.plan, b.req.Issued)}
	var rows [][]string
	kept := 0
	for _, c := range b.plan.Changes {
		if c.Change == season.Unchanged && !s.Elsewhere(c) {
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
	if len(b.plan.Changes) == 0 && s.Issued == nil {
		return b.sheet("slip", title, page{paragraph("No plan was handed out before this one.")})
	}
	if len(rows) == 0 {
		return b.sheet("slip", title, append(first, paragraph("Nothing changes against the plan handed out before."), paragraph(say.Count(kept, "session")+" as before.")))
	}
	first = append(first, heading("What changes"))
	key := keyOf(s.kinds)
	room, used := slipRoom[b.opt.Paper], 60*len(more(s.news(), 6))
	var pages []page
	for n := 0; n < len(rows); {
		if used += slipHigh(rows[n]); used > room && n > 0 {
			pages = append(pages, append(first, changeTable(rows[:n]), key))
			first, rows, used, n = nil, rows[n:], 0, 0
			continue
		}
		n++
	}
	tell := append(list{"the athlete"}, more(s.told(), 6)...)
	for _, x := range tell {
		used += 54 * (1 + len(x)/75)
	}
	first = append(first, changeTable(rows))
	if used+160 > room {
		pages, first = append(pages, append(first, key)), nil
	}
	first = append(first, paragraph(say.Count(kept, "session")+" as before."), heading("Tell"), tell, key)
	return b.sheet("slip", title, append(pages, first)...)
}

// slipHigh is about what a row of changes takes in print.
func slipHigh(row []string) int {
	lines := 1
	for i, letters := range []int{17, 27, 27, 30} {
		lines = max(lines, 1+len(row[i])/letters)
	}
	return 22 + 49*lines
}

// told is what each place must know. Times beyond what a page has room for stand
// among the changes.
func (s *slip) told() (out []string) {
	for _, x := range s.rooms.Lines() {
		if len(x) > slipTold {
			x = x[:slipTold]
			x = x[:max(strings.LastIndex(x, ", "), 0)] + " and more, as above"
		}
		out = append(out, x)
	}
	return out
}

func changeTable(rows [][]string) table {
	return table{head: []string{"What", "As handed out", "Now", "Because"}, rows: rows}
}

// slip is a change slip on its way.
type slip struct {
	*say.Change
	b     *Book
	kinds []season.Kind // of what changes
	rooms say.Rooms
}

func (s *slip) row(c season.Change) []string {
	what := say.Kind(c.Kind)
	s.kinds = append(s.kinds, c.Kind, c.OldKind)
	if c.OldKind != "" && c.OldKind != c.Kind {
		what = say.Kind(c.OldKind) + " becomes " + what
	}
	o, x := s.Sessions(c)
	moved := o != nil && x != nil && o.Place != x.Place
	return []string{what, s.cell(c.From, o, moved), s.cell(c.To, x, moved), s.because(c)}
}

// cell is a date with times, and the place if that has changed.
func (s *slip) cell(at *time.Time, x *season.Session, place bool) string {
	if at == nil {
		return "-"
	}
	out := say.Day(s.b.zone.Local(*at).Date) + " " + s.b.clock(*at)
	if x != nil && x.Start.Equal(*at) {
		out = say.Day(x.Date) + " " + s.b.sessionThere(x).clocks()
	}
	if place && x != nil && x.Place != "" {
		out += ", " + say.Clip(x.Place, 20)
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
				why += " (" + s.b.name(e) + ", " + say.Day(e.Date) + ")"
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
	return s.Game(id, 28)
}

// news are the changes of fixtures behind the changes, each once.
func (s *slip) news() (out []string) {
	var notes []season.Note
	seen := map[string]bool{}
	for _, c := range s.b.plan.Changes {
		for _, n := range c.Cause {
			if key := n.Code + " " + n.Subject.Event; !seen[key] && strings.HasPrefix(n.Code, "cause-game-") {
				seen[key] = true
				notes = append(notes, n)
			}
		}
	}
	moves := say.MovesOf(notes, s.game)
	for _, m := range moves {
		out = append(out, m.Name+" moves from "+s.before(m.Gone)+" to "+s.start(m.New)+".")
	}
	for _, n := range notes {
		name := s.game(n.Subject.Event)
		switch {
		case moves.Have(name):
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
		return say.DayYear(e.Date)
	}
	return s.b.moment(e.Span.Start)
}

// before is when a game began in the plan handed out.
func (s *slip) before(id string) string {
	if s.Issued != nil {
		for _, g := range s.Issued.Games {
			switch {
			case g.ID != id:
			case g.DateOnly:
				return say.DayYear(g.Date)
			default:
				return s.b.moment(g.Start)
			}
		}
	}
	return "another date"
}

// tell notes what the places must know.
func (s *slip) tell(c season.Change) {
	o, x := s.Sessions(c)
	if c.Change == season.Dropped {
		x = nil
	}
	s.rooms.Add(o, x, func(y *season.Session) string { return say.Day(y.Date) + " " + s.b.sessionThere(y).clocks() })
}

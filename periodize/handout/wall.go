package handout

import (
	"cmp"
	"slices"
	"strings"

	"example.org/weft/calendar"
	"example.org/weft/internal/say"
	"example.org/weft/periodize/season"
)

// The wall sheet is read from three metres: capitals of a 250th of that, 12 mm
// (common practice, no source; 200th to 250th is what people say). A typeface of
// 17.6 mm has them: capitals are 0.688 of it in Liberation Sans, as measured in
// print, and more in other common ones. Key, cautions and the line that names the
// plan are for who stands before it.
const (
	wallLetter   = "17.6mm"
	wallCapitals = "12 mm"
	wallLines    = 5    // of names, on a page below its two heads
	wallAcross   = 1440 // width of a page, see ems: the narrower of both papers
	wallBold     = 112  // of a hundred: how much wider bold letters are
)

// Label is a short public name: of an athlete, a team or a place.
type Label string

// Wall is what hangs on the wall for a squad: who trains when and what. It has
// no field that could hold anything about health; a session that was changed on
// the day is Modified, and nothing says why.
type Wall struct {
	Team    Label
	Zone    Label // of all times
	Rules   Label // version of the rules
	From    calendar.Date
	To      calendar.Date
	Plans   []Label // ids
	Entries []WallEntry
	Paper   Paper
	Example bool // the data are invented
}

// WallEntry is a session of one athlete.
type WallEntry struct {
	Athlete  Label
	Date     calendar.Date
	From, To calendar.Clock
	Kind     season.Kind
	Place    Label
	Modified bool // see the athlete's own card
}

// NewWall puts the sessions of some plans from one date to another on a wall.
// The athletes are called as their books call them. The error is a
// *[season.InputError]: no plan, or plans of several zones, whose times would not
// stand side by side.
func NewWall(team Label, from, to calendar.Date, books ...*Book) (Wall, error) {
	var problems []calendar.Problem
	bad := func(path, value, reason, remedy string) {
		problems = append(problems, calendar.Problem{Code: "handout", Class: calendar.ClassError, Path: path, Value: value, Reason: reason, Remedy: remedy})
	}
	if len(books) == 0 {
		bad("books", "", "there is nobody to put on a wall", "give at least one plan")
	}
	if to.Before(from) || from.IsZero() {
		bad("to", to.String(), "these are no dates from "+from.String()+" on", "give the first date and then the last")
	}
	w := Wall{Team: team, From: from, To: to}
	for i, b := range books {
		switch {
		case b == nil:
			bad("books/"+itoa(i), "", "there is no plan here", "leave it out")
			continue
		case w.Zone != "" && string(w.Zone) != b.plan.Zone:
			bad("books/"+itoa(i), b.plan.Zone, "the wall has the times of "+string(w.Zone), "make a wall for each zone")
			continue
		}
		w.Zone, w.Rules, w.Paper = Label(b.plan.Zone), Label(b.identity().rules), b.opt.Paper
		w.Example = w.Example || b.opt.Example
		w.Plans = append(w.Plans, Label(b.plan.ID))
		w.Entries = append(w.Entries, b.wallEntries(from, to)...)
	}
	if len(problems) > 0 {
		return Wall{}, &season.InputError{Problems: problems}
	}
	return w, nil
}

func (b *Book) wallEntries(from, to calendar.Date) (out []WallEntry) {
	for i := range b.plan.Sessions {
		s := &b.plan.Sessions[i]
		if s.Date.Before(from) || s.Date.After(to) || s.State == season.DoneState {
			continue
		}
		t := b.sessionThere(s)
		out = append(out, WallEntry{
			Athlete: Label(b.who()), Date: s.Date, From: t.start.Clock, To: t.end.Clock,
			Kind: s.Kind, Place: Label(s.Place), Modified: stateWord(s.State) == "modified",
		})
	}
	return out
}

const modified = " modified"

// wallGroup is who does the same at the same time at the same place.
type wallGroup struct {
	first WallEntry
	names []string
}

// groups of the entries, in order of time.
func (w Wall) groups() (out []wallGroup) {
	entries := slices.Clone(w.Entries)
	slices.SortStableFunc(entries, func(x, y WallEntry) int {
		return cmp.Or(x.Date.Compare(y.Date), cmp.Compare(x.From, y.From), cmp.Compare(x.To, y.To), strings.Compare(string(x.Kind), string(y.Kind)),
			strings.Compare(string(x.Place), string(y.Place)), strings.Compare(string(x.Athlete), string(y.Athlete)))
	})
	for _, e := range entries {
		name := clipEms(string(e.Athlete), wallAcross)
		if e.Modified {
			name = clipEms(string(e.Athlete), wallAcross-ems(modified)) + modified
		}
		if n := len(out); n > 0 && out[n-1].same(e) {
			out[n-1].names = append(out[n-1].names, name)
			continue
		}
		out = append(out, wallGroup{e, []string{name}})
	}
	return out
}

func (g wallGroup) same(e WallEntry) bool {
	f := g.first
	return f.Date == e.Date && f.From == e.From && f.To == e.To && f.Kind == e.Kind && f.Place == e.Place
}

// Sheet is the wall as landscape pages, one for each group that trains together,
// in letters that can be read from three metres.
func (w Wall) Sheet() Sheet {
	ids := make([]string, len(w.Plans))
	for i, p := range w.Plans {
		id := string(p)
		if len(w.Plans) > 1 { // what an id says of the rules stands beside it
			id, _, _ = strings.Cut(id, "-")
		}
		ids[i] = say.Clip(id, 40)
	}
	plan := listed(ids)
	s := Sheet{
		paper: w.Paper, wide: true, class: "wall", title: "Gym", who: say.Clip(string(w.Team), 40), fine: true,
		id: identity{period: say.BetweenYear(w.From, w.To) + ", letters " + wallCapitals + " high", zone: say.Clip(string(w.Zone), 40), plan: plan, rules: say.Clip(string(w.Rules), 60), example: w.Example},
	}
	for _, g := range w.groups() {
		for rest := g.lines(); ; rest = rest[wallLines:] {
			p := wallPage{g.first, rest[:min(wallLines, len(rest))]}
			s.pages = append(s.pages, page{p, p.key()})
			if len(rest) <= wallLines {
				break
			}
		}
	}
	if len(s.pages) == 0 {
		s.pages = []page{{paragraph("No sessions from " + say.Day(w.From) + " to " + say.Day(w.To) + ".")}}
	}
	return s
}

// lines sets names side by side as far as a line goes.
func (g wallGroup) lines() (out [][]string) {
	const half = wallAcross/2 - 20
	for i := 0; i < len(g.names); i++ {
		row := []string{g.names[i]}
		if ems(g.names[i]) <= half && i+1 < len(g.names) && ems(g.names[i+1]) <= half {
			i++
			row = append(row, g.names[i])
		}
		out = append(out, row)
	}
	return out
}

// wallPage is a group of who trains together.
type wallPage struct {
	first WallEntry
	names [][]string
}

// key explains the words of the page.
func (p wallPage) key() keyBlock {
	out := keyOf([]season.Kind{p.first.Kind})
	for _, row := range p.names {
		for _, n := range row {
			if strings.HasSuffix(n, modified) {
				return append(out, keyEntry{word: "modified", meaning: "not as written: see your own card"})
			}
		}
	}
	return out
}

func (p wallPage) head() (when, what string) {
	e := p.first
	word := "session"
	if e.Kind.Known() {
		word = say.Kind(e.Kind)
	}
	return say.Day(e.Date) + "  " + say.Clock(e.From) + "-" + say.Clock(e.To), word
}

func (p wallPage) html(m *markup) {
	when, what := p.head()
	m.el("p", when, "class", "big when")
	m.open("p", "class", "big what")
	m.markOf(p.first.Kind)
	m.el("b", what)
	if p.first.Place != "" {
		m.text(" " + clipEms(string(p.first.Place), wallAcross-120-ems(what)*wallBold/100))
	}
	m.close("p")
	m.open("ul", "class", "big names")
	for _, row := range p.names {
		for _, n := range row {
			class := ""
			if len(row) == 1 && ems(n) > wallAcross/2-20 {
				class = "whole"
			}
			m.el("li", n, "class", class)
		}
	}
	m.close("ul")
}

func (p wallPage) text(l *say.Page) {
	when, what := p.head()
	l.Line(when + "  " + strings.TrimSpace(what+"  "+say.Clip(string(p.first.Place), 24)))
	for _, row := range p.names {
		for _, n := range row {
			l.Line("    " + n)
		}
	}
}

package main

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.org/weft/calendar"
	"example.org/weft/internal/say"
	"example.org/weft/periodize/season"
)

// sheet is the text of a plan on its way.
type sheet struct {
	page
	in      *input
	plan    *season.Plan
	handed  *say.Change // against the plan issued last
	verbose bool
	zone    calendar.Zone
	games   []calendar.Placed          // active, in order of time
	byID    map[string]calendar.Placed // all events
	usual   string                     // the place of most sessions
}

// text prints a plan for people.
func text(in *input, plan *season.Plan, verbose bool) []byte {
	s := newSheet(in, plan, verbose)
	s.head()
	s.slip()
	s.notes("NOTHING MAY BE PLANNED", plan.Refusals)
	s.notes("QUESTIONS: the plan stands on these assumptions", plan.Questions)
	s.facts()
	s.weeks()
	s.missed()
	s.notes("FINDINGS", s.findings())
	s.notes("WARNINGS", plan.Warnings)
	s.foot()
	return []byte(s.String())
}

func newSheet(in *input, plan *season.Plan, verbose bool) *sheet {
	s := &sheet{page: page{say.Page{Width: width}}, handed: say.NewChange(plan, in.request.Issued), in: in, plan: plan, verbose: verbose, zone: in.request.Athlete.Zone, byID: map[string]calendar.Placed{}}
	for _, p := range in.placed {
		s.byID[p.ID] = p
		if p.Kind == calendar.Game && p.Active() {
			s.games = append(s.games, p)
		}
	}
	s.usual = say.UsualPlace(plan.Sessions)
	return s
}

func (s *sheet) head() {
	p := s.plan
	title := "SEASON PLAN  " + say.Clip(s.in.request.Athlete.ID, 40)
	if s.in.demo {
		title = say.Pad(title, width-16) + "Invented example"
	}
	s.Line(title)
	s.Line(strings.Repeat("=", width))
	period := fmt.Sprintf("%s to %s, %s", say.DayYear(p.Period.From), say.DayYear(p.Period.To), say.Count(p.Period.Days(), "date"))
	if s.in.period != "" {
		period += " (" + s.in.period + ")"
	}
	s.fact("Period", period)
	times := "local in " + p.Zone
	if len(p.Clocks) > 0 {
		times += "; on journeys local there, with the zone"
	}
	s.fact("Times", times)
	if s.zone.DayStart(p.Period.From).Before(p.Now) {
		s.fact("As of", s.moment(p.Now)+": what began before is fixed")
	}
	switch {
	case p.Outcome == season.Refused:
		s.fact("Outcome", "refused: nothing may be planned, see below")
	case p.Proof == season.Proved:
		s.fact("Outcome", fmt.Sprintf("planned, and proved: of the starts considered no plan misses less (%d points)", p.Cost.Points))
	default:
		s.fact("Outcome", fmt.Sprintf("planned: the best found (%d points); no plan has fewer than %d", p.Cost.Points, p.Cost.Bound))
	}
	if p.Cost.Broken > 0 {
		s.fact("", fmt.Sprintf("%s broken by what was pinned or already done, see the findings", say.Count(int(p.Cost.Broken), "limit")))
	}
	s.fact("Sessions", s.sums())
	if len(s.in.request.Places) > 1 && s.usual != "" {
		s.fact("Place", say.Clip(s.usual, 40)+", where a line names no other")
	}
	if s.in.demo {
		s.fact("Demo", "club, athlete, opponents and dates are made up")
	}
	if s.in.request.Athlete.Born == (season.YearMonth{}) {
		s.fact("Age", "NOT KNOWN: planned as for a beginner of 13 to 15 years, with fewer and earlier sessions")
	}
}

// sums counts the sessions by kind.
func (s *sheet) sums() string {
	n := map[season.Kind]int{}
	for _, x := range s.plan.Sessions {
		n[x.Kind]++
	}
	var parts []string
	for _, k := range season.Kinds() {
		if n[k] > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", n[k], say.Kind(k)))
		}
	}
	if len(parts) == 0 {
		return "none"
	}
	return fmt.Sprintf("%d: %s", len(s.plan.Sessions), strings.Join(parts, ", "))
}

// notes prints one line a note.
func (s *sheet) notes(title string, notes []season.Note) {
	if len(notes) == 0 {
		return
	}
	s.title(title)
	for _, n := range notes {
		s.Hang("  - ", s.noteText(n))
	}
}

// noteText is the text of a note with games by their names: an id made from
// content tells a reader nothing.
func (s *sheet) noteText(n season.Note) string {
	out := n.Text
	for _, name := range sortedKeys(n.Values) {
		v := n.Values[name]
		e, ok := s.byID[v.Text]
		if !ok || !v.IsText || v.Text == "" {
			continue
		}
		if name == "event" || name == "other" || len(v.Text) >= 8 {
			out = replaceWord(out, v.Text, s.name(e)+" on "+say.Day(e.Date))
		}
	}
	return s.datesIn(out)
}

// replaceWord replaces a word, and not a part of a longer one.
func replaceWord(text, old, new string) string {
	part := func(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) || r == '-' || r == '_' }
	var out strings.Builder
	for {
		i := strings.Index(text, old)
		if i < 0 || old == "" {
			return out.String() + text
		}
		before, _ := utf8.DecodeLastRuneInString(text[:i])
		after, _ := utf8.DecodeRuneInString(text[i+len(old):])
		out.WriteString(text[:i])
		if i > 0 && part(before) || i+len(old) < len(text) && part(after) {
			out.WriteString(old)
		} else {
			out.WriteString(new)
		}
		text = text[i+len(old):]
	}
}

// name is what people call an event.
func (s *sheet) name(e calendar.Placed) string { return say.Name(e.Event, say.Event(e.Event), 24) }

// findings leaves out what the facts of the season and the weeks show already.
func (s *sheet) findings() []season.Note {
	var out []season.Note
	for _, n := range s.plan.Findings {
		if s.verbose || n.Code != "finding-break" && n.Code != "finding-open-week" {
			out = append(out, n)
		}
	}
	return out
}

// foot holds what every sheet says once.
func (s *sheet) foot() {
	s.title("HOW TO READ")
	for _, l := range []string{
		"A lift is any session but recovery. Full-body: strength for the whole body, the most volume. Trimmed: one set less. " +
			"Primer: short and fast, fresh at the end. Recovery: easy. Post-game: 30 min straight after a game.",
		`"49 h to X": full hours from the end of the session to the start of the next game. "21:00?": the end is assumed. "-": nothing on this date.`,
	} {
		s.Hang("  ", l)
	}
	s.cautions()
	s.Line("")
	s.Hang("", fmt.Sprintf("rules %s   engine %d   revision %d   plan %s", s.plan.RulesVersion, s.plan.Engine, s.plan.Revision, s.plan.ID))
}

// cautions are printed on every sheet to train from.
func (s *sheet) cautions() {
	s.title("BEFORE YOU TRAIN")
	for _, l := range []string{
		"Pain above 5 of 10, sharp, at night, or a limp: stop, and tell an adult in charge.",
		"Fever, anything in the chest, fainting, a knock to the head: no training until a clinician allows it.",
		"Under 18: only with a qualified adult present.",
		"Warm up for 10 to 15 minutes. Weights are where to start: keep the stated repetitions in reserve.",
		"The rules rest on averages of adults, not on measurements of you.",
		"This plan is no medical advice and clears nobody to play.",
	} {
		s.Hang("  - ", l)
	}
}

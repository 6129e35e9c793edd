package season

import (
	"errors"
	"fmt"
	"slices"
	"time"

	"example.org/weft/calendar"
)

func (c *checker) events() {
	home := c.r.Athlete.Zone
	events := settled(c.r.Events, home)
	var games []placedGame
	open := openTimes{dateOnly: -1, noEnd: -1, exam: -1}
	for i, e := range events {
		path := at("events", i)
		c.eventTexts(path, c.r.Events[i])
		p, ok := c.eventTime(path, e)
		if !ok || !e.Active() {
			continue
		}
		if c.r.Period.Contains(p.Date) {
			open.count(i, p)
		}
		if e.Kind == calendar.Game && !e.DateOnly && e.Status != calendar.Played {
			games = append(games, placedGame{i, p})
		}
	}
	kept := merge(events, func(kind repeat, i, of int) { c.repetition(events, kind, i, of) })
	c.overlaps(games, kept)
	c.openQuestions(events, open)
}

func (c *checker) eventTexts(path string, e calendar.Event) {
	c.id(path+"/id", e.ID, false)
	if !e.Kind.Known() {
		c.choice(path+"/kind", string(e.Kind), kindWords())
	}
	if e.Status != "" && !e.Status.Known() {
		c.choice(path+"/status", string(e.Status), statusWords())
	}
	if e.Importance != "" && !e.Importance.Known() {
		c.choice(path+"/importance", string(e.Importance), importanceWords())
	}
	if e.Home != "" {
		c.choice(path+"/home", e.Home, homeWords())
	}
	if e.Revision < 0 || e.Revision > maxSetting {
		c.err(CodeRange, path+"/revision", fmt.Sprint(e.Revision), "a revision is a whole number from 0", "give 0 if there is none")
	}
	for _, f := range [...]struct{ field, text string }{{"/team", e.Team}, {"/title", e.Title}, {"/opponent", e.Opponent},
		{"/competition", e.Competition}, {"/round", e.Round}} {
		if f.text != "" { // most are, and seasons are checked by the thousand
			c.words(path+f.field, f.text)
		}
	}
}

// eventTime checks the times of an event and places it. ok is false if it cannot
// be placed.
func (c *checker) eventTime(path string, e calendar.Event) (calendar.Placed, bool) {
	if e.Zone.IsZero() {
		return calendar.Placed{}, false // reported once, at the athlete
	}
	ok := true
	if e.DateOnly {
		if e.HasActualEnd {
			c.warn(CodeUnusedEnd, path+"/actualEnd", e.ActualEnd.String(), "an actual end is not used where the start has no time of day", "give the time of the start")
		}
		ok = c.date(path+"/start", e.Start.Date, true)
		if e.HasEnd {
			ok = c.date(path+"/end", e.End.Date.AddDays(-1), true) && ok
		}
		if e.Start.Clock != 0 || e.HasEnd && e.End.Clock != 0 {
			c.err(CodeWall, path+"/start", e.Start.String(), "a date-only event with a time of day", "leave the clock times at 0, or unset DateOnly")
			ok = false
		}
	} else {
		endZone := e.EndZone
		if endZone.IsZero() {
			endZone = e.Zone
		}
		ok = c.wall(path+"/start", e.Zone, e.Start)
		if e.HasEnd {
			ok = c.wallEnd(path+"/end", endZone, e.End) && ok
		}
		if e.HasActualEnd {
			ok = c.wallEnd(path+"/actualEnd", endZone, e.ActualEnd) && ok
		}
	}
	if !ok || !e.Kind.Known() || c.unread(path+"/end") || c.unread(path+"/actualEnd") || c.unread(path+"/zone") || c.unread(path+"/endZone") {
		return calendar.Placed{}, false
	}
	if e.HasActualEnd && e.HasEnd && !e.DateOnly {
		// Place looks at the actual end alone; a wrong planned one is wrong too.
		planned := e
		planned.HasActualEnd = false
		if _, ok := c.place(path, planned); !ok {
			return calendar.Placed{}, false
		}
	}
	return c.place(path, e)
}

func (c *checker) place(path string, e calendar.Event) (calendar.Placed, bool) {
	p, err := calendar.Place(e, calendar.Assumptions{})
	if err == nil {
		if d := p.Span.Duration(); !e.DateOnly && d > calendar.MaxGame && (e.Kind == calendar.Practice || e.Kind == calendar.Skills || e.Kind == calendar.Exam) {
			c.warn(CodeEventLong, path+"/end", e.End.String(), fmt.Sprintf("the %s lasts %s, more than 12 h", e.Kind, hoursText(d)), "check date and time of start and end")
		}
		return p, true
	}
	var v *calendar.ValueError
	field, code := path+"/end", CodeEnd
	if errors.As(err, &v) && v.What == "actual end" {
		field = path + "/actualEnd"
	}
	if !e.DateOnly && tooLong(e) {
		code = CodeGameLong
	}
	if v != nil && v.What == "end" && !e.HasEnd {
		code = CodeMissing
	}
	if v != nil && e.DateOnly && v.What == "end" && e.HasEnd {
		// Said in terms of the last date, as people write it.
		shown := *v
		shown.Value = e.End.Date.AddDays(-1).String()
		if e.Kind != calendar.Game || !e.End.Date.After(e.Start.Date) {
			shown.Remedy = "give a last date on or after the first"
		}
		c.value(code, field, &shown)
		return p, false
	}
	c.value(code, field, err)
	return p, false
}

// tooLong reports whether an event ends, in elapsed time, over 12 h after its
// start.
func tooLong(e calendar.Event) bool {
	if e.Kind != calendar.Game {
		return false
	}
	e.Kind = calendar.Busy
	p, err := calendar.Place(e, calendar.Assumptions{})
	return err == nil && p.Span.Duration() > calendar.MaxGame
}

func hoursText(d time.Duration) string {
	return fmt.Sprintf("%d h %02d", int64(d.Hours()), int64(d.Minutes())%60)
}

func (c *checker) repetition(events []calendar.Event, kind repeat, i, of int) {
	path, id, other := at("events", i, "id"), events[i].ID, events[of].ID
	where := at("events", of)
	switch kind {
	case repeatSame:
		c.warn(CodeRepeated, path, id, "the same event stands at "+where+": it is used once", "leave one out")
	case repeatOlder:
		c.warn(CodeRevisionOld, path, id, fmt.Sprintf("revision %d after revision %d at %s: it is not used", events[i].Revision, events[of].Revision, where), "leave the older one out")
	case repeatReplaced:
		c.warn(CodeReplaced, path, id, fmt.Sprintf("revision %d at %s replaces it", events[of].Revision, where), "leave the older one out")
	case repeatConflict:
		c.err(CodeIDTwice, path, id, "the event at "+where+" has the same id and other content", "give each event an id of its own, or the newer one a higher revision")
	case repeatTwin:
		c.warn(CodeEventTwice, path, id, "the event "+calendar.Inert(other)+" at "+where+" has the same content: "+calendar.Inert(min(id, other))+" is used", "leave one out")
	case repeatCousin:
		c.ask(CodeEventTwice, path, id, "the event "+calendar.Inert(other)+" at "+where+" looks like the same occasion, with another end, status or importance: both are kept free", "which one is right?")
	}
}

type placedGame struct {
	index int
	calendar.Placed
}

// overlaps asks about games that are played at the same time.
func (c *checker) overlaps(games []placedGame, kept []int) {
	use := make(map[int]bool, len(kept))
	for _, i := range kept {
		use[i] = true
	}
	games = slices.DeleteFunc(games, func(g placedGame) bool { return !use[g.index] })
	slices.SortStableFunc(games, func(a, b placedGame) int { return a.Span.Compare(b.Span) })
	longest := -1 // the game that ends last so far
	for i, g := range games {
		if longest >= 0 && games[longest].Span.Overlaps(g.Span) && games[longest].ID != g.ID {
			c.ask(CodeGamesOverlap, at("events", g.index, "start"), g.Start.String(),
				"the game "+calendar.Inert(g.ID)+" overlaps the game "+calendar.Inert(games[longest].ID)+": both are kept free", "which one is played?")
		}
		if longest < 0 || g.Span.End.After(games[longest].Span.End) {
			longest = i
		}
	}
}

// openTimes counts what one question each covers.
type openTimes struct {
	dateOnly, dateOnlyCount int // index of the first, and how many
	noEnd, noEndCount       int
	exam, examCount         int
}

func (o *openTimes) count(i int, p calendar.Placed) {
	switch {
	case p.Kind == calendar.Exam:
		if p.DateOnly && p.EndAssumed {
			if o.exam < 0 {
				o.exam = i
			}
			o.examCount++
		}
	case p.Kind != calendar.Game:
	case p.DateOnly:
		if o.dateOnly < 0 {
			o.dateOnly = i
		}
		o.dateOnlyCount++
	case p.EndAssumed:
		if o.noEnd < 0 {
			o.noEnd = i
		}
		o.noEndCount++
	}
}

func (c *checker) openQuestions(events []calendar.Event, o openTimes) {
	a := calendar.Assumptions{}.Settled()
	if o.dateOnlyCount > 0 {
		c.ask(CodeDateOnly, at("events", o.dateOnly, "start"), events[o.dateOnly].Start.Date.String(),
			fmt.Sprintf("%d of the games have no start: they take %s to %s of their date", o.dateOnlyCount, a.DateOnlyFrom, a.DateOnlyTo), "when do they start?")
	}
	if o.noEndCount > 0 {
		c.ask(CodeGameEnd, at("events", o.noEnd, "end"), "",
			fmt.Sprintf("%d of the games have no end: %d minutes are assumed", o.noEndCount, a.GameMinutes), "how long do the games take?")
	}
	if o.examCount > 0 {
		c.ask(CodeExamTime, at("events", o.exam, "start"), events[o.exam].Start.Date.String(),
			fmt.Sprintf("%d of the exams have no start: they take %s to %s of their date", o.examCount, a.ExamFrom, a.ExamTo), "when are they?")
	}
}

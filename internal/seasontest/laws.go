package seasontest

import (
	"fmt"
	"time"

	"example.org/weft/periodize/season"
)

// Check returns every breach of a law by the plan, each with the law's number;
// nil if there is none. Sessions that people pinned or have done may break
// limits: those are only looked at for staying as they are.
func Check(planJSON []byte, req *season.Request) []string {
	r, err := read(planJSON, req)
	if err != nil {
		return []string{"unreadable: " + err.Error()}
	}
	c := &check{reader: r}
	c.shape()
	c.completed()
	for _, s := range r.sessions {
		if !s.history {
			c.stated(s)
		}
		if s.forced() {
			continue
		}
		c.aroundGames(s)
		c.room(s)
		c.person(s)
	}
	c.windows()
	c.missed()
	return c.found
}

type check struct {
	*reader
	found []string
}

func (c *check) say(law int, s *session, format string, args ...any) {
	text := fmt.Sprintf("law %d: ", law)
	if s != nil {
		text += fmt.Sprintf("%s %s (%s): ", s.Kind, s.local.Format("2006-01-02 15:04"), s.localTo.Format("15:04"))
	}
	c.found = append(c.found, text+fmt.Sprintf(format, args...))
}

// shape: what the fields of a session say agrees.
func (c *check) shape() {
	ids := map[string]bool{}
	for i := range c.plan.Sessions {
		s := &c.plan.Sessions[i]
		switch {
		case s.ID == "" || ids[s.ID]:
			c.say(6, s, "id %q empty or used twice", s.ID)
		case s.Date != dateText(s.day):
			c.say(8, s, "stated date %s", s.Date)
		case !s.End.Equal(s.Start.Add(time.Duration(s.Minutes) * time.Minute)):
			c.say(10, s, "stated minutes %d", s.Minutes)
		case s.day < c.from || s.day > c.to:
			c.say(8, s, "outside the period")
		case s.HeavyLowerBody != s.heavy():
			c.say(1, s, "stated heavy %v", s.HeavyLowerBody)
		case !s.forced() && s.Start.Before(c.now):
			c.say(3, s, "planned before now")
		case i > 0 && s.Start.Before(c.plan.Sessions[i-1].Start):
			c.say(6, s, "out of order")
		}
		ids[s.ID] = true
	}
}

// completed: law 3. What was done, or issued and past, stands as it was.
func (c *check) completed() {
	stands := func(kind string, start, end time.Time) bool {
		for i := range c.plan.Sessions {
			s := &c.plan.Sessions[i]
			if s.Kind == kind && s.Start.Equal(start) && s.End.Equal(end) && s.State == "done" {
				return true
			}
		}
		return false
	}
	logged := map[string]bool{}
	done := 0
	for _, l := range c.req.Log {
		logged[l.Session], logged[l.ID] = true, true // one that was not planned keeps its own id
		if l.Missed {
			continue
		}
		z := c.zone
		if !l.Zone.IsZero() {
			z = l.Zone.Location()
		}
		start := at(l.Start, z)
		end := start.Add(time.Duration(c.usual(string(l.Kind))) * time.Minute)
		if l.HasEnd {
			end = at(l.End, z)
		}
		if day := c.dayAt(start); day < c.from || day > c.to {
			continue
		}
		done++
		if place := c.issuedPlace(l.Session); place != "" && !c.standsAt(place, start) {
			c.say(3, nil, "logged %s at %s has left its place %q", l.Kind, start.In(c.zone).Format("2006-01-02 15:04"), place)
		}
		if !stands(string(l.Kind), start, end) {
			c.say(3, nil, "logged %s at %s does not stand in the plan", l.Kind, start.In(c.zone).Format("2006-01-02 15:04"))
		}
	}
	if n := len(c.req.Issued); n > 0 {
		for _, s := range c.req.Issued[n-1].Sessions {
			if day := c.dayAt(s.Start); !s.Start.Before(c.now) || logged[s.ID] || day < c.from || day > c.to {
				continue
			}
			done++
			if !stands(string(s.Kind), s.Start, s.End) {
				c.say(3, nil, "issued %s of %s, past and not logged, does not stand in the plan", s.Kind, s.Date)
			}
		}
	}
	for i := range c.plan.Sessions {
		if c.plan.Sessions[i].State == "done" {
			done--
		}
	}
	if done != 0 {
		c.say(3, nil, "%d sessions too few are stated as done", done)
	}
}

// issuedPlace is where the plan issued last put a session.
func (c *check) issuedPlace(id string) string {
	if n := len(c.req.Issued); n > 0 && id != "" {
		for _, s := range c.req.Issued[n-1].Sessions {
			if s.ID == id {
				return s.Place
			}
		}
	}
	return ""
}

func (c *check) standsAt(place string, start time.Time) bool {
	for i := range c.plan.Sessions {
		if s := &c.plan.Sessions[i]; s.Start.Equal(start) && s.Place == place {
			return true
		}
	}
	return false
}

// neighbours are the game that ended last before a session and the one that
// starts first after its start.
func (c *check) neighbours(s *session) (before, after *event) {
	for _, g := range c.games {
		if !g.end.After(s.Start) && (before == nil || !g.end.Before(before.end)) {
			before = g
		}
		if after == nil && g.start.After(s.Start) {
			after = g
		}
	}
	return before, after
}

// shortBetween says whether a session is a short recovery session between two
// games less than a day apart, and whether between-games forbids it.
func (c *check) shortBetween(s *session) (short, forbidden bool) {
	before, after := c.neighbours(s)
	if before == nil || after == nil {
		return false, false
	}
	gap := after.start.Sub(before.end)
	short = s.Kind == "recovery" && s.Minutes <= c.value("between-games-recovery", 30)
	return short && gap < 24*time.Hour, gap < c.hours("between-games", 24) && !short
}

func (c *check) aroundGames(s *session) {
	served, hurt := false, false
	short, forbidden := c.shortBetween(s)
	for _, g := range c.games {
		gap := g.start.Sub(s.End)
		if g.start.After(s.Start) {
			if s.heavy() && gap < c.hours("heavy-before-game", 24) {
				c.say(1, s, "heavy, %s before %s", gap, g.id)
			}
			if s.full() && gap < c.hours("full-before-game", 48) && !c.off("full-before-game") {
				c.say(1, s, "full-size, %s before %s", gap, g.id)
			}
			if s.Kind == "eccentric" && gap < c.hours("eccentric-before-game", 72) && !c.off("eccentric-before-game") {
				c.say(1, s, "eccentric, %s before %s", gap, g.id)
			}
			hurt = hurt || gap < c.hours("primer-latest", 12)
			if g.day == s.day && !short && !c.off("game-date") {
				c.say(1, s, "on the date of %s, before it", g.id)
			}
		} else if g.day == s.day && !c.off("game-date") && s.Kind != "post-game" && s.Kind != "recovery" {
			c.say(1, s, "on the date of %s, after it", g.id)
		}
		if gap >= c.hours("primer-latest", 12) && gap <= c.hours("primer-earliest", 36) && g.day > s.day {
			served = true
		}
	}
	if s.Kind == "primer" && (!served || hurt) {
		c.say(1, s, "primer outside its window")
	}
	if forbidden && !c.off("between-games") {
		c.say(5, s, "between two games")
	}
	before, after := c.neighbours(s)
	if before == nil {
		if s.Kind == "post-game" {
			c.say(12, s, "post-game without a game")
		}
		return
	}
	since := s.Start.Sub(before.end)
	if s.full() && since < c.hours("after-game-full", 24) && !c.off("after-game-full") {
		c.say(1, s, "full-size, %s after %s", since, before.id)
	}
	if s.Kind == "trimmed-full-body" && since < c.hours("after-game-trimmed", 12) && !c.off("after-game-trimmed") {
		c.say(1, s, "trimmed, %s after %s", since, before.id)
	}
	if s.Kind != "post-game" {
		return
	}
	if !c.req.Athlete.OptedIn(season.OptPostGame) || c.age(s.day) < c.value("post-game-age", 16) {
		c.say(12, s, "post-game not chosen or too young")
	}
	if since > time.Duration(c.value("post-game", 60))*time.Minute || before.dateOnly || before.ifNecessary || before.day != s.day {
		c.say(2, s, "post-game not right after a game that is sure to be played")
	}
	for _, g := range c.games {
		if g.day == before.day+1 {
			c.say(1, s, "post-game with a game on the next date")
		}
	}
	if after != nil && after.start.Sub(s.End) < c.hours("post-game-next", 36) {
		c.say(1, s, "post-game too near the next game")
	}
}

// room: law 2, and lengths, sleep, exams, travel.
func (c *check) room(s *session) {
	before, _ := c.neighbours(s)
	for _, e := range c.events {
		own := s.Kind == "post-game" && e == before
		to := e.blockTo
		if own {
			to = e.end
		}
		if s.Start.Before(to) && e.blockFrom.Before(s.End) {
			c.say(2, s, "overlaps %s", e.id)
		}
		sleep := e.kind == "game" || e.kind == "practice" || e.kind == "skills" || e.kind == "travel"
		id, need := "sleep", c.hours("sleep", 9)
		if c.age(s.day) < 18 {
			id, need = "sleep-minor", c.hours("sleep-minor", 10)
		}
		if sleep && !own && !c.off(id) && e.endClock > 21*60 && !e.end.After(s.Start) && s.Start.Sub(e.blockTo) < need {
			c.say(2, s, "%s after %s which ended late", s.Start.Sub(e.blockTo), e.id)
		}
		if e.longHaul && s.Kind == "full-body" && !c.off("long-haul") && !e.end.After(s.Start) && s.Start.Sub(e.end) < c.hours("long-haul", 24) {
			c.say(2, s, "full-body soon after the long trip %s", e.id)
		}
	}
	if !c.open(s) || !c.there(s) {
		c.say(2, s, "outside open hours of %q or the athlete", s.Place)
	}
	least, most := map[string]int{"full-body": 35, "trimmed-full-body": 35, "primer": 30, "recovery": 30, "post-game": 30, "eccentric": 45}[s.Kind],
		map[string]int{"full-body": 60, "trimmed-full-body": 50, "primer": 40, "recovery": 45, "post-game": 30, "eccentric": 60}[s.Kind]
	if before, after := c.neighbours(s); s.Kind == "recovery" && before != nil && after != nil {
		if after.start.Sub(before.end) < 24*time.Hour {
			least = 20
		}
		if after.start.Sub(before.end) < c.hours("between-games", 24) {
			most = c.value("between-games-recovery", 30)
		}
	}
	if exam := c.lastExam(s.day); exam != nil {
		least, most = 20, c.value("exam-minutes", 30)
		if s.full() {
			c.say(2, s, "full-size on an exam date")
		}
		if !c.off("exam-date") && (s.Start.Before(exam.end) || clockAt(s.localTo, s.day) > c.value("exam-date", 19*60+30)) {
			c.say(2, s, "before the exam, or late on its date")
		}
	}
	if s.Minutes < least || s.Minutes > most {
		c.say(2, s, "%d minutes", s.Minutes)
	}
}

func (c *check) lastExam(day int) *event {
	var last *event
	for _, e := range c.events {
		if e.kind == "exam" && e.day == day && (last == nil || e.end.After(last.end)) {
			last = e
		}
	}
	return last
}

// open compares clock times on the wall.
func (c *check) open(s *session) bool {
	in := func(list []season.Hours, from, to int) bool {
		covered := make([]bool, 1441) // minutes of the date that are open
		for _, h := range list {
			for _, d := range h.Days {
				if d == weekdayOf(s.day) {
					for m := int(h.From) / 60; m < int(h.To)/60; m++ {
						covered[m] = true
					}
				}
			}
		}
		for m := from; m < to; m++ {
			if m >= 1440 || !covered[m] {
				return false
			}
		}
		return true
	}
	place := len(c.req.Places) == 0
	for _, p := range c.req.Places {
		if p.ID != s.Place {
			continue
		}
		from, to := clockAt(s.local, s.day), clockAt(s.localTo, s.day)
		place = from >= 0 && (len(p.Hours) == 0 && to <= 1440 || in(p.Hours, from, to))
		for _, closed := range p.Closed {
			if dayNumber(closed.From.String()) <= s.day && s.day <= dayNumber(closed.To.String()) {
				place = false
			}
		}
	}
	if s.Kind == "post-game" {
		return place
	}
	z, hours := c.zoneAt(s.Start), c.req.Athlete.Hours
	from, to := clockAt(s.Start.In(z), s.day), clockAt(s.End.In(z), s.day)
	if len(hours) > 0 {
		return place && in(hours, from, to)
	}
	// No hours given: 07:00 to 22:00, for minors on school days from 15:30.
	first := 7 * 60
	if wd := weekdayOf(s.day); c.age(s.day) < 18 && wd != time.Saturday && wd != time.Sunday {
		first = 15*60 + 30
	}
	return place && from >= first
}

package season

import (
	"fmt"
	"slices"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/load"
)

// plan checks a plan that comes from outside, as far as a reader of plans relies
// on it. path is "" for a plan on its own.
func (c *checker) plan(path string, p Plan) {
	if p.Schema != Schema {
		c.err(CodeSchemaNewer, path+"/schema", fmt.Sprint(p.Schema), fmt.Sprintf("this version knows schema %d", Schema), "hand back a plan of this version")
		return
	}
	c.id(path+"/id", p.ID, true)
	c.counts(path+"/revision", p.Revision)
	c.counts(path+"/engine", p.Engine)
	c.instant(path+"/now", p.Now)
	c.choice(path+"/outcome", string(p.Outcome), outcomes())
	if p.Proof != "" { // a refused plan proves nothing
		c.choice(path+"/proof", string(p.Proof), proofs())
	}
	c.words(path+"/rulesVersion", p.RulesVersion)
	c.period(path+"/period", p.Period)
	zone := c.planZone(path+"/zone", p.Zone)
	c.cost(path+"/cost", p.Cost)
	if c.most(path+"/eventsDigest", len(p.EventsDigest), MaxNotes) {
		for i, h := range p.EventsDigest {
			c.date(path+at("eventsDigest", i, "date"), h.Date, true)
			c.id(path+at("eventsDigest", i, "hash"), h.Hash, true)
		}
	}
	if c.most(path+"/games", len(p.Games), MaxEvents) {
		for i, g := range p.Games {
			c.game(path+at("games", i), g)
		}
	}
	if c.most(path+"/sessions", len(p.Sessions), MaxSessions) {
		c.sessions(path+"/sessions", p.Sessions, zone)
	}
	if c.most(path+"/missed", len(p.Missed), MaxNotes) {
		for i, m := range p.Missed {
			c.missed(path+at("missed", i), m)
		}
	}
	c.notes(path+"/findings", p.Findings)
	c.notes(path+"/questions", p.Questions)
	c.notes(path+"/refusals", p.Refusals)
	c.notes(path+"/warnings", p.Warnings)
	if c.most(path+"/changes", len(p.Changes), MaxNotes) {
		for i, h := range p.Changes {
			c.change(path+at("changes", i), h)
		}
	}
}

// planZone loads the zone of a plan. The athlete's own is known even where it is
// made of a calendar's own transitions.
func (c *checker) planZone(path, name string) calendar.Zone {
	if home := c.r.Athlete.Zone; !home.IsZero() && home.Name() == name {
		return home
	}
	z, err := calendar.LoadZone(name)
	if err != nil {
		c.value(CodeZone, path, err)
	}
	return z
}

func (c *checker) counts(path string, n int) {
	if n < 0 || n > maxSetting {
		c.err(CodeRange, path, fmt.Sprint(n), "outside 0 to 1000000000", "check the number")
	}
}

func (c *checker) points(path string, n int64) {
	if n < -maxPoints || n > maxPoints {
		c.err(CodeRange, path, fmt.Sprint(n), "beyond 2 to the power of 53", "check the number")
	}
}

func (c *checker) instant(path string, t time.Time) bool {
	switch {
	case t.IsZero():
		c.err(CodeMissing, path, "", "there is no instant", "give one such as 2026-11-08T14:00:00+01:00")
		return false
	case !saneInstant(t):
		c.err(CodeInstant, path, fmt.Sprint(t.Year()), "the year is outside 1900 to 2199", "check the year")
		return false
	}
	return true
}

// span checks two instants, and that the date is that of the start in some zone.
func (c *checker) span(path string, start, end time.Time, date calendar.Date, longest time.Duration) {
	startOK, endOK := c.instant(path+"/start", start), c.instant(path+"/end", end)
	if startOK && endOK {
		switch d := end.Sub(start); {
		case d <= 0:
			c.err(CodeEnd, path+"/end", instantText(end), "it ends at or before its start at "+instantText(start), "give an end after the start")
		case d > longest:
			c.err(CodeEnd, path+"/end", instantText(end), "it lasts "+hoursText(d)+", more than "+hoursText(longest), "check date and time of start and end")
		}
	}
	if c.date(path+"/date", date, true) && startOK {
		// The instant is sane, so a whole number of days since 1970 fits.
		if days := date.DayNumber() - int(floorDiv(start.Unix(), 86400)); days < -1 || days > 1 {
			c.err(CodeContradiction, path+"/date", date.String(), "it is not the date of the start at "+instantText(start), "give the local date of the start")
		}
	}
}

func floorDiv(a, b int64) int64 {
	q := a / b
	if a%b < 0 {
		q--
	}
	return q
}

func (c *checker) cost(path string, p Cost) {
	c.points(path+"/broken", p.Broken)
	c.points(path+"/points", p.Points)
	c.points(path+"/bound", p.Bound)
	if c.most(path+"/byRule", len(p.ByRule), MaxOverrides) {
		for i, r := range p.ByRule {
			c.id(path+at("byRule", i, "rule"), r.Rule, true)
			c.points(path+at("byRule", i, "broken"), r.Broken)
			c.points(path+at("byRule", i, "points"), r.Points)
		}
	}
}

func (c *checker) game(path string, g PlanGame) {
	c.id(path+"/id", g.ID, true)
	c.long(path+"/title", g.Title)
	// A date-only game may take all of its date.
	c.span(path, g.Start, g.End, g.Date, 25*time.Hour)
	if !g.Importance.Known() {
		c.choice(path+"/importance", string(g.Importance), importanceWords())
	}
	if !g.Status.Known() {
		c.choice(path+"/status", string(g.Status), statusWords())
	}
}

func (c *checker) sessions(path string, list []Session, zone calendar.Zone) {
	seen := map[string]int{}
	for i, s := range list {
		p := path + at(i)
		c.id(p+"/id", s.ID, true)
		if j, ok := seen[s.ID]; ok && s.ID != "" {
			c.err(CodeIDTwice, p+"/id", s.ID, "the session at "+path+at(j)+" has the same id", "give each session an id of its own")
		}
		seen[s.ID] = i
		c.span(p, s.Start, s.End, s.Date, calendar.MaxGame)
		c.counts(p+"/minutes", s.Minutes)
		c.counts(p+"/sessionLoad", s.SessionLoad)
		c.words(p+"/place", s.Place)
		c.choice(p+"/kind", string(s.Kind), sessionKinds())
		if s.State != "" {
			c.choice(p+"/state", string(s.State), states())
		}
		if c.most(p+"/gameDay", len(s.GameDay), MaxHours) {
			for j, g := range s.GameDay {
				c.words(p+at("gameDay", j, "event"), g.Event)
				if g.Days < -maxOffsetDays || g.Days > maxOffsetDays {
					c.err(CodeRange, p+at("gameDay", j, "days"), fmt.Sprint(g.Days), "more dates than the calendar has", "check the number")
				}
			}
		}
		c.notes(p+"/why", s.Why)
		if c.most(p+"/parts", len(s.Parts), MaxHours) {
			for j, part := range s.Parts {
				c.part(p+at("parts", j), part)
			}
		}
	}
}

func (c *checker) part(path string, p Part) {
	c.words(path+"/name", p.Name)
	c.counts(path+"/minutes", p.Minutes)
	if !c.most(path+"/exercises", len(p.Exercises), MaxHours) {
		return
	}
	for i, e := range p.Exercises {
		q := path + at("exercises", i)
		c.words(q+"/name", e.Name)
		c.words(q+"/pattern", e.Pattern)
		c.words(q+"/side", e.Side)
		c.counts(q+"/sets", e.Sets)
		c.words(q+"/reps", e.Reps)
		c.words(q+"/effort", e.Effort)
		c.counts(q+"/rest", e.Rest)
		if e.Load != nil && (e.Load.Grams < 0 || e.Load.Grams > int64(load.MaxMass)) {
			c.err(CodeRange, q+"/load/grams", fmt.Sprint(e.Load.Grams), "a load is from 0 to 10000 kg", "check the number")
		}
		if e.Evidence != nil {
			c.note(q+"/evidence", *e.Evidence)
		}
	}
}

func (c *checker) missed(path string, m Missed) {
	c.id(path+"/aim", m.Aim, true)
	fromOK, toOK := c.date(path+"/from", m.From, false), c.date(path+"/to", m.To, false)
	if fromOK && toOK && !m.From.IsZero() && !m.To.IsZero() && m.To.Before(m.From) {
		c.err(CodeSpan, path+"/to", m.To.String(), "it ends before it begins on "+m.From.String(), "give a last date on or after the first")
	}
	c.words(path+"/event", m.Event)
	c.words(path+"/session", m.Session)
	c.long(path+"/text", m.Text)
	c.counts(path+"/wanted", m.Wanted)
	c.counts(path+"/got", m.Got)
	c.points(path+"/points", m.Points)
	if c.most(path+"/inTheWay", len(m.InTheWay), MaxNotes) {
		for i, w := range m.InTheWay {
			c.id(path+at("inTheWay", i, "rule"), w.Rule, true)
			c.words(path+at("inTheWay", i, "event"), w.Event)
		}
	}
}

func (c *checker) notes(path string, list []Note) {
	if c.most(path, len(list), MaxNotes) {
		for i, n := range list {
			c.note(path+at(i), n)
		}
	}
}

// note does not ask whether the code is known: a plan of a later engine may have
// new ones, and carries its own text.
func (c *checker) note(path string, n Note) {
	c.id(path+"/code", n.Code, true)
	c.choice(path+"/class", string(n.Class), noteClasses())
	c.words(path+"/rule", n.Rule)
	c.long(path+"/text", n.Text)
	c.words(path+"/subject/session", n.Subject.Session)
	c.words(path+"/subject/event", n.Subject.Event)
	if c.most(path+"/subject/dates", len(n.Subject.Dates), MaxPeriodDays) {
		for i, d := range n.Subject.Dates {
			c.date(path+"/subject/dates"+at(i), d, true)
		}
	}
	if c.most(path+"/values", len(n.Values), MaxHours) {
		names := make([]string, 0, len(n.Values))
		for name := range n.Values {
			names = append(names, name)
		}
		slices.Sort(names)
		for _, name := range names {
			c.words(path+"/values", name)
			c.long(path+"/values", n.Values[name].Text)
		}
	}
}

// long checks a text that a plan is made of.
func (c *checker) long(path, s string) { c.chars(path, s, MaxNoteRunes, false) }

func (c *checker) change(path string, h Change) {
	c.id(path+"/session", h.Session, true)
	c.choice(path+"/change", string(h.Change), changeKinds())
	c.choice(path+"/kind", string(h.Kind), sessionKinds())
	if h.OldKind != "" {
		c.choice(path+"/oldKind", string(h.OldKind), sessionKinds())
	}
	if h.From != nil {
		c.instant(path+"/from", *h.From)
	}
	if h.To != nil {
		c.instant(path+"/to", *h.To)
	}
	c.notes(path+"/cause", h.Cause)
}

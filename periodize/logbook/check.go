package logbook

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

	"example.org/weft/calendar"
	"example.org/weft/internal/intake"
	"example.org/weft/load"
)

// checker finds what is wrong with one entry. What a reader could not read it
// names in bad, so that nothing is reported twice.
type checker struct {
	say report
	now time.Time // zero: only what follows from the entry itself
	bad map[string]bool
}

func (c *checker) add(class calendar.Class, code, field, value, reason, remedy string) {
	if !c.bad[field] {
		c.say(class, code, field, value, reason, remedy)
	}
}

func (c *checker) err(code, field, value, reason, remedy string) {
	c.add(calendar.ClassError, code, field, value, reason, remedy)
}

func (c *checker) entry(e *Entry) {
	c.id("id", e.ID, true)
	c.id("athlete", e.Athlete, false)
	c.id("replaces", e.Replaces, false)
	if e.Source != "" {
		c.word("source", string(e.Source), words(Sources()))
	}
	if e.Replaces != "" && e.Replaces == e.ID {
		c.err(CodeContradiction, "replaces", e.Replaces, "an entry that replaces itself", "name the entry that was wrong")
	}
	c.recorded(e.Recorded)
	if e.What == nil {
		c.err(CodeMissing, "kind", "", "the entry tells nothing", oneOf("", words(Kinds())))
		return
	}
	if !plain(e.What) {
		c.err(CodeKind, "kind", "", "a pointer to a kind of entry", "give the value itself")
		return
	}
	if e.What.Kind().Dated() {
		c.time(e)
	} else if !e.Start.IsZero() || e.HasEnd || e.Replaces != "" {
		c.err(CodeContradiction, "kind", string(e.What.Kind()), "an entry about another one has no time of its own and replaces none", "leave start, end and replaces out")
	}
	switch w := e.What.(type) {
	case Session:
		c.session(e, w)
	case Game:
		c.played(w.Event, w.Minutes, w.Rating, MaxPlayed)
	case Practice:
		c.played(w.Event, w.Minutes, w.Rating, MaxMinutes)
	case Wellness:
		c.wellness(w)
	case BodyMass:
		if w.Mass < 15*load.Kilogram || w.Mass > 400*load.Kilogram {
			c.err(CodeRange, "bodyMass", hidden, "a body mass is 15 to 400 kg", "check number and unit")
		}
	case Test:
		c.test(w)
	case Remark:
		c.remark(w)
	case Void:
		c.about("of", w.Of, e.ID)
		c.text("reason", w.Reason)
	case Confirm:
		c.about("of", w.Of, e.ID)
	}
}

// plain reports whether an entry holds one of the types of this package, and not
// a pointer to one, which would be another thing to compare.
func plain(w What) bool {
	switch w.(type) {
	case Session, Game, Practice, Wellness, BodyMass, Test, Remark, Void, Confirm:
		return true
	}
	return false
}

func (c *checker) recorded(t time.Time) {
	switch {
	case t.IsZero():
		c.err(CodeMissing, "recorded", "", "it is not said when this was told", "give the instant, such as 2026-11-08T18:30:00+01:00")
	case t.UTC().Year() <= calendar.FirstYear || t.UTC().Year() >= calendar.LastYear:
		c.err(CodeInstant, "recorded", strconv.Itoa(t.UTC().Year()), "the year is outside 1900 to 2199", "check the year")
	case !c.now.IsZero() && t.After(c.now):
		c.err(CodeFuture, "recorded", instantText(t), "told after now, "+instantText(c.now), "check the instant, or the now that was given")
	}
}

// time checks start, end and zone, and that nothing is told before it happened.
func (c *checker) time(e *Entry) {
	if e.Zone.IsZero() {
		c.err(CodeZone, "zone", "", "no time zone given", "name the place, such as Europe/Berlin")
	} else if e.Zone.Custom() {
		c.err(CodeZone, "zone", e.Zone.Name(), "a zone made of its own transitions cannot be kept by its name", "use an IANA zone such as Europe/Berlin")
	}
	switch {
	case e.Start.IsZero():
		c.err(CodeMissing, "start", "", "there is no date", "give a date and a time such as 2026-11-08T14:00")
		return
	case e.DateOnly && e.Start.Clock != 0:
		c.err(CodeContradiction, "start", e.Start.String(), "a date alone, and a time of day", "leave one of them out")
	case e.DateOnly && e.What.Kind() == OfSession:
		c.err(CodeMissing, "start", e.Start.Date.String(), "a session has a time of day", "give the time it started, such as "+e.Start.Date.String()+"T17:00")
	}
	start, ok := c.wall("start", e.Zone, e.Start, e.DateOnly)
	if ok && !e.Recorded.IsZero() && start.After(e.Recorded) {
		c.err(CodeFuture, "start", startText(e), "it was told at "+instantText(e.Recorded)+", before it happened", "log what was done, after it was done")
		return
	}
	if !e.HasEnd {
		return
	}
	switch k := e.What.Kind(); {
	case e.DateOnly || k != OfSession && k != OfGame && k != OfPractice:
		c.err(CodeEnd, "end", e.End.String(), "only sessions, games and practices with a time of day have an end", "leave it out")
		return
	}
	end, endOK := c.wall("end", e.Zone, e.End, false)
	switch {
	case !ok || !endOK:
	case !end.After(start):
		c.err(CodeEnd, "end", e.End.String(), "it ends at or before its start at "+e.Start.String(), "give an end after the start, or none")
	case end.Sub(start) > calendar.MaxGame:
		c.err(CodeEnd, "end", e.End.String(), "more than 12 h after its start", "check date and time of start and end")
	case !e.Recorded.IsZero() && end.After(e.Recorded):
		c.err(CodeFuture, "end", e.End.String(), "it was told at "+instantText(e.Recorded)+", before it had ended", "log what was done, after it was done")
	}
}

// wall resolves a wall time; ok is false if it does not occur.
func (c *checker) wall(field string, z calendar.Zone, w calendar.Wall, dateOnly bool) (at time.Time, ok bool) {
	if y, _, _ := w.Date.YMD(); w.IsZero() || y <= calendar.FirstYear || y >= calendar.LastYear {
		c.err(CodeDate, field, w.String(), "no date, or one outside 1901 to 2198", "check the year")
		return at, false
	}
	if !w.Clock.Valid() {
		c.err(CodeClock, field, w.Clock.String(), "there is no such time of day", "give a time from 00:00 to 24:00")
		return at, false
	}
	if z.IsZero() {
		return at, false
	}
	if dateOnly {
		return z.DayStart(w.Date), true
	}
	r := z.Resolve(w)
	switch r.Fit {
	case calendar.Skipped:
		c.err(CodeTimeSkipped, field, w.String(), "the clock in "+z.Name()+" jumps over this time",
			"give "+z.Local(r.Earlier).String()+" or "+z.Local(r.Later).String())
		return at, false
	case calendar.Doubled:
		c.add(calendar.ClassQuestion, CodeTimeDoubled, field, w.String(), "the clock in "+z.Name()+" shows this time twice: the first is used",
			"move it by an hour if the second is meant")
	}
	return r.Instant, true
}

func (c *checker) about(field, of, self string) {
	c.id(field, of, true)
	if of != "" && of == self {
		c.err(CodeContradiction, field, of, "an entry about itself", "name another entry")
	}
}

func (c *checker) word(field, word string, allowed []string) bool {
	if slices.Contains(allowed, word) {
		return true
	}
	if word == "" {
		c.err(CodeMissing, field, "", "no word is given", oneOf(word, allowed))
		return false
	}
	c.err(CodeChoice, field, word, "the word is not known here", oneOf(word, allowed))
	return false
}

func (c *checker) id(field, s string, needed bool) {
	if s == "" {
		if needed {
			c.err(CodeMissing, field, "", "it is not given", "give one")
		}
		return
	}
	c.chars(field, s, s, maxID)
}

// text checks a free text. A person's own words may tell of health.
func (c *checker) text(field, s string) { c.chars(field, s, hidden, maxText) }

func (c *checker) chars(field, s, shown string, most int) {
	switch {
	case !utf8.ValidString(s):
		c.err(CodeEncoding, field, shown, "the text is not UTF-8", "give it as UTF-8")
	case utf8.RuneCountInString(s) > most:
		c.err(CodeLength, field, shown, fmt.Sprintf("more than %d characters", most), "shorten it")
	case strings.ContainsRune(s, 0):
		c.err(CodeControl, field, shown, "the text holds the character NUL", "remove it")
	case strings.IndexFunc(s, intake.Controls) >= 0:
		c.add(calendar.ClassWarning, CodeControl, field, shown, "the text holds a character that controls how text is shown", "remove it if it is not meant")
	}
}

var dayWords = [...]string{"mon", "tue", "wed", "thu", "fri", "sat", "sun"}

func dayWord(d time.Weekday) string { return dayWords[(int(d)%7+6)%7] }

func dayOf(word string) (time.Weekday, bool) {
	i := slices.Index(dayWords[:], strings.ToLower(word))
	return time.Weekday((i + 1) % 7), i >= 0
}

// startText is the start as it is written: a date alone for a DateOnly entry.
func startText(e *Entry) string {
	if e.DateOnly {
		return e.Start.Date.String()
	}
	return e.Start.String()
}

func instantText(t time.Time) string { return t.UTC().Format(time.RFC3339Nano) }

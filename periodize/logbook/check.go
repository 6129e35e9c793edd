package logbook

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"example.org/weft/calendar"
	"example.org/weft/load"
	"example.org/weft/periodize/season"
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

func (c *checker) session(e *Entry, s Session) {
	c.id("planned", s.Planned, false)
	c.word("session", string(s.Session), words(season.Kinds()))
	c.word("state", string(s.State), words(States()))
	c.minutes(s.Minutes, MaxMinutes)
	c.rating(s.Rating)
	if s.State != Done && s.State != "" && (len(s.Sets) > 0 || s.Rating.Known || s.Minutes.Known || e.HasEnd) {
		c.err(CodeContradiction, "state", string(s.State), "a session that is "+string(s.State)+", and what was done in it", "say that it was done, or leave sets, rating, minutes and end out")
	}
	if len(s.Sets) > MaxSets {
		c.err(CodeLimit, "sets", strconv.Itoa(len(s.Sets)), fmt.Sprintf("more than %d sets", MaxSets), "split the session")
		return
	}
	for i := range s.Sets {
		c.set(fmt.Sprintf("sets/%d/", i), &s.Sets[i])
	}
}

func (c *checker) set(path string, s *Set) {
	c.id(path+"exercise", s.Exercise, true)
	if m := s.Load; m.Known && (m.Value < 0 || m.Value > load.MaxMass) {
		c.err(CodeRange, path+"load", strconv.FormatInt(int64(m.Value), 10)+" g", "a load is 0 to 10000 kg", "check number and unit")
	}
	if r := s.Reps; r.Known && (r.Value < 0 || r.Value > MaxReps) {
		c.err(CodeRange, path+"reps", strconv.Itoa(r.Value), "repetitions are 0 to 1000", "check the number")
	} else if r.Known && r.Value == 0 && !s.Failed && !c.bad[path+"failed"] {
		c.err(CodeContradiction, path+"reps", "0", "no repetition was done, and none failed", "say that the set failed, or leave the set out")
	}
	if l := s.Left; l.Known && (l.Value < 0 || l.Value > MaxLeft) {
		c.err(CodeRange, path+"left", strconv.Itoa(l.Value), "repetitions left are 0 to 30", "check the number, or leave it out if it was not told")
	}
	if e := float64(s.Effort); e != 0 && (!(e >= 1 && e <= 10) || e*2 != float64(int(e*2))) {
		c.err(CodeRange, path+"effort", strconv.FormatFloat(e, 'g', -1, 64), "an effort is 1 to 10, in halves", "check the number, or leave it out if it was not told")
		return
	}
	switch r, ok := s.Effort.Reserve(load.TenMinus); {
	case s.Failed && s.Left.Known && s.Left.Value > 0:
		c.err(CodeContradiction, path+"left", strconv.Itoa(s.Left.Value), "a repetition failed, and others were left", "leave one of them out")
	case s.Failed && s.Effort != 0 && s.Effort < 9:
		c.err(CodeContradiction, path+"effort", strconv.FormatFloat(float64(s.Effort), 'g', -1, 64), "a repetition failed, and the rating leaves some", "leave one of them out")
	case ok && s.Left.Known && (r-load.Reps(s.Left.Value) > 1 || load.Reps(s.Left.Value)-r > 1):
		c.add(calendar.ClassQuestion, CodeReserve, path+"left", strconv.Itoa(s.Left.Value), fmt.Sprintf("the rating leaves %g: the repetitions told are used", float64(r)), "leave the wrong one out")
	}
}

func (c *checker) played(event string, minutes Maybe[int], rating Maybe[load.SessionRating], most int) {
	c.id("event", event, false)
	c.minutes(minutes, most)
	c.rating(rating)
}

func (c *checker) minutes(m Maybe[int], most int) {
	if m.Known && (m.Value < 0 || m.Value > most) {
		c.err(CodeRange, "minutes", strconv.Itoa(m.Value), fmt.Sprintf("minutes are 0 to %d", most), "check the number, or leave it out if it is not known")
	}
}

func (c *checker) rating(r Maybe[load.SessionRating]) {
	if x := float64(r.Value); r.Known && (!(x >= 0 && x <= 10) || load.SessionRating(float64(tenths(r.Value))/10) != r.Value) {
		c.err(CodeRange, "rating", strconv.FormatFloat(x, 'g', -1, 64), "a rating is 0 to 10, with at most one decimal", "check the number, or leave it out if it is not known")
	}
}

// tenths is a rating from 0 to 10 in tenths.
func tenths(r load.SessionRating) int { return int(float64(r)*10 + 0.5) }

func (c *checker) wellness(w Wellness) {
	low, high := w.Scale.Range()
	if !c.word("scale", string(w.Scale), words(Scales())) {
		return
	}
	told := false
	for _, q := range w.ratings() {
		told = told || q.rating.Known || c.bad[q.name]
		switch {
		case !q.rating.Known:
		case q.name == "mood" && w.Scale == HooperScale:
			c.err(CodeContradiction, q.name, hidden, "the scale does not ask for it", "leave it out")
		case q.rating.Value < low || q.rating.Value > high:
			c.err(CodeRange, q.name, hidden, fmt.Sprintf("a rating of this scale is %d to %d", low, high), "check the number, or leave it out if it was not told")
		}
	}
	if !told {
		c.err(CodeMissing, "scale", string(w.Scale), "no rating is given", "give at least one of sleep, fatigue, stress, soreness, mood")
	}
}

type wellnessRating struct {
	name   string
	rating Maybe[int]
}

func (w Wellness) ratings() [5]wellnessRating {
	return [5]wellnessRating{{"sleep", w.Sleep}, {"fatigue", w.Fatigue}, {"stress", w.Stress}, {"soreness", w.Soreness}, {"mood", w.Mood}}
}

func (c *checker) test(t Test) {
	c.id("name", t.Name, true)
	c.id("protocol", t.Protocol, false)
	c.word("unit", string(t.Unit), words(Units()))
	value := func(field string, m Milli) {
		if m < 0 || m > maxValue {
			c.err(CodeRange, field, strconv.FormatFloat(m.Float(), 'f', -1, 64), "a result is 0 to 1000000000", "check number and unit")
		}
	}
	value("value", t.Value)
	if len(t.Trials) > MaxTrials {
		c.err(CodeLimit, "trials", strconv.Itoa(len(t.Trials)), fmt.Sprintf("more than %d trials", MaxTrials), "leave some out")
		return
	}
	for i, m := range t.Trials {
		value(fmt.Sprintf("trials/%d", i), m)
	}
}

func (c *checker) remark(r Remark) {
	c.text("text", r.Text)
	if r.Session != "" {
		c.word("session", string(r.Session), words(season.Kinds()))
	}
	seen := [7]bool{}
	for i, d := range r.Days {
		field := fmt.Sprintf("days/%d", i)
		if d < time.Sunday || d > time.Saturday {
			c.err(CodeRange, field, strconv.Itoa(int(d)), "there is no such day of the week", "use time.Sunday to time.Saturday")
			continue
		}
		if seen[d] {
			c.err(CodeContradiction, field, dayWord(d), "the day is named twice", "leave one out")
		}
		seen[d] = true
	}
	if r.Text == "" && r.Session == "" && len(r.Days) == 0 {
		c.err(CodeMissing, "text", "", "the note says nothing", "write what was noticed")
	}
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
	case strings.IndexFunc(s, controls) >= 0:
		c.add(calendar.ClassWarning, CodeControl, field, shown, "the text holds a character that controls how text is shown", "remove it if it is not meant")
	}
}

// controls reports characters that have no business in a name.
func controls(r rune) bool {
	return unicode.IsControl(r) && r != '\t' && r != '\n' && r != '\r' ||
		r >= 0x202A && r <= 0x202E || r >= 0x2066 && r <= 0x2069 || r == 0x2028 || r == 0x2029 || r == 0xFEFF
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

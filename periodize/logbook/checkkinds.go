package logbook

import (
	"fmt"
	"strconv"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/load"
	"example.org/weft/periodize/season"
)

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

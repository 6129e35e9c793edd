package logbook

import (
	"fmt"
	"strings"

	"example.org/weft/calendar"
	"example.org/weft/load"
	"example.org/weft/periodize/season"
)

// cells reads the cells of one row.
type cells struct {
	t    *tableReader
	row  row
	used map[string]bool
	bad  map[string]bool // fields, as the checks name them, that could not be read
}

func (c *cells) get(column string) string {
	c.used[column] = true
	i, ok := c.t.at[column]
	if !ok || i >= len(c.row.cells) {
		return ""
	}
	return unguard(c.row.cells[i])
}

func (c *cells) fail(code, column, value, reason, remedy string) {
	c.t.fail(c.row.line, code, column, value, reason, remedy)
}

// shape reports cells under no column name.
func (c *cells) shape() {
	last := 0
	for i, s := range c.row.cells {
		if s != "" {
			last = i + 1
		}
	}
	if n := c.t.width; last > n {
		c.fail(CodeTable, "", c.row.cells[last-1], fmt.Sprintf("%d cells under %d column names", last, n), "put cells that hold a separator in quotes")
	}
}

// unused reports cells that say nothing about what the row is.
func (c *cells) unused() {
	for _, name := range columnOrder {
		if i, ok := c.t.at[name]; ok && !c.used[name] && i < len(c.row.cells) && c.row.cells[i] != "" {
			c.t.say(c.row.line, calendar.ClassWarning, CodeUnused, name, c.row.cells[i], "the column says nothing about a row of this kind: it is not read", "leave the cell empty, or check the kind")
		}
	}
}

// word reads one of the allowed words, without regard to case.
func (c *cells) word(column, empty string, allowed []string) string {
	s := c.get(column)
	if s == "" {
		return empty
	}
	for _, w := range allowed {
		if strings.EqualFold(s, w) {
			return w
		}
	}
	c.fail(CodeChoice, column, s, "no word of this column", oneOf(s, allowed))
	c.bad[column] = true
	return ""
}

func (c *cells) entry(kind Kind, athlete string) Entry {
	e := Entry{ID: c.get("id"), Athlete: athlete, Recorded: c.t.Recorded}
	e.Source = Source(c.word("source", string(c.t.Source), words(Sources())))
	if s := c.get("recorded"); s != "" {
		t, err := parseInstant(s)
		e.Recorded = t
		c.failed("recorded", "recorded", CodeInstant, s, err)
	}
	if !kind.Dated() {
		of := c.get("of")
		e.What = Confirm{Of: of}
		if kind == OfVoid {
			e.What = Void{Of: of, Reason: c.get("reason")}
		}
		return e
	}
	e.Replaces = c.get("replaces")
	c.times(&e)
	e.What = c.dated(kind)
	return e
}

// failed reports the error of a parser and remembers the field.
func (c *cells) failed(column, field, code, value string, err error) {
	if err == nil {
		return
	}
	reason, remedy := because(err)
	if privateColumn(column) {
		reason, remedy = "it cannot be read", "check number and unit"
	}
	c.fail(code, column, value, reason, remedy)
	c.bad[field] = true
}

func (c *cells) times(e *Entry) {
	e.Zone = c.t.Zone
	if s := c.get("tz"); s != "" {
		z, err := c.t.zones.Load(s)
		e.Zone = z
		c.failed("tz", "zone", CodeZone, s, err)
	}
	if s := c.get("date"); s != "" {
		d, err := calendar.ParseDate(s)
		e.Start.Date = d
		c.failed("date", "start", CodeDate, s, err)
	}
	if s := c.get("time"); s != "" {
		k, err := calendar.ParseClock(s)
		e.Start.Clock = k
		c.failed("time", "start", CodeClock, s, err)
	} else {
		e.DateOnly = true
	}
	s := c.get("end")
	if s == "" {
		return
	}
	e.HasEnd = true
	if strings.Contains(s, "T") {
		w, err := calendar.ParseWall(s)
		e.End = w
		c.failed("end", "end", CodeWall, s, err)
		return
	}
	k, err := calendar.ParseClock(s)
	e.End = calendar.Wall{Date: e.Start.Date, Clock: k}
	if c.failed("end", "end", CodeClock, s, err); err == nil && k <= e.Start.Clock && !e.Start.IsZero() {
		e.End.Date = e.Start.Date.AddDays(1) // over 12 h is found by the checks
	}
}

func (c *cells) dated(kind Kind) What {
	switch kind {
	case OfSession:
		return Session{Planned: c.get("planned"), Session: season.Kind(c.word("session", "", words(season.Kinds()))),
			State: State(c.word("state", string(Done), words(States()))), Rating: c.rating(), Minutes: c.count("minutes", "minutes", c.bad, MaxMinutes)}
	case OfGame:
		return Game{Event: c.get("event"), Minutes: c.count("minutes", "minutes", c.bad, MaxPlayed), Rating: c.rating()}
	case OfPractice:
		p := Practice{Event: c.get("event"), Minutes: c.count("minutes", "minutes", c.bad, MaxMinutes), Rating: c.rating()}
		if c.get("sprinted") != "" {
			p.Sprinted = Told(c.yes("sprinted"))
		}
		return p
	case OfWellness:
		w := Wellness{Scale: Scale(c.word("scale", "", words(Scales())))}
		w.Sleep, w.Fatigue = c.count("sleep", "sleep", c.bad, 7), c.count("fatigue", "fatigue", c.bad, 7)
		w.Stress, w.Soreness = c.count("stress", "stress", c.bad, 7), c.count("soreness", "soreness", c.bad, 7)
		w.Mood = c.count("mood", "mood", c.bad, 7)
		return w
	case OfBodyMass:
		s := c.get("body_mass")
		if s == "" {
			return BodyMass{}
		}
		m, err := load.ParseMass(s)
		c.failed("body_mass", "bodyMass", CodeMass, s, err)
		return BodyMass{m}
	case OfTest:
		t := Test{Name: c.get("name"), Protocol: c.get("protocol"), Unit: Unit(c.word("unit", "", words(Units())))}
		if s := c.get("value"); s == "" {
			c.fail(CodeMissing, "value", "", "the test has no result", "give the result in its unit")
		} else {
			t.Value = c.milli("value", s)
		}
		for _, s := range strings.Fields(c.get("trials")) {
			t.Trials = append(t.Trials, c.milli("trials", s))
		}
		return t
	}
	r := Remark{Text: c.get("text"), Session: season.Kind(c.word("session", "", words(season.Kinds())))}
	for _, s := range strings.Fields(c.get("days")) {
		d, ok := dayOf(s)
		if !ok {
			c.fail(CodeChoice, "days", s, "no day of the week", "write days apart by spaces: mon thu")
			continue
		}
		r.Days = append(r.Days, d)
	}
	return r
}

// set reads a set. What cannot be read is named in bad by its path.
func (c *cells) set(path string, bad map[string]bool) Set {
	s := Set{Exercise: c.get("exercise")}
	c.get("source")
	c.get("recorded")
	if m := c.get("load"); m != "" {
		v, err := load.ParseMass(m)
		s.Load = Maybe[load.Mass]{v, err == nil}
		if err != nil {
			c.failed("load", "load", CodeMass, m, err)
			bad[path+"load"] = true
		}
	}
	s.Reps, s.Left = c.count("reps", path+"reps", bad, MaxReps), c.count("left", path+"left", bad, MaxLeft)
	if e := c.get("effort"); e != "" {
		n, reason := decimal(e, 1, 100)
		if reason == "" && n < 10 {
			reason = "an effort is 1 to 10, in halves"
		}
		if reason != "" {
			c.fail(CodeNumber, "effort", e, reason, "give 1 to 10 in halves, such as 8.5")
			bad[path+"effort"] = true
		} else {
			s.Effort = load.Effort(float64(n) / 10)
		}
	}
	s.Failed, s.Ramp = c.yes("failed"), c.yes("ramp")
	bad[path+"failed"] = c.bad["failed"]
	return s
}

func (c *cells) yes(column string) bool {
	return c.word(column, "no", []string{"yes", "no"}) == "yes"
}

func (c *cells) count(column, field string, bad map[string]bool, most int64) Maybe[int] {
	s := c.get(column)
	if s == "" {
		return Maybe[int]{}
	}
	n, reason := decimal(s, 0, most)
	if reason != "" {
		c.fail(CodeNumber, column, s, reason, fmt.Sprintf("give a whole number from 0 to %d, or nothing if it is not known", most))
		bad[field] = true
		return Maybe[int]{}
	}
	return Told(int(n))
}

func (c *cells) rating() Maybe[load.SessionRating] {
	s := c.get("rating")
	if s == "" {
		return Maybe[load.SessionRating]{}
	}
	n, reason := decimal(s, 1, 100)
	if reason != "" {
		c.fail(CodeNumber, "rating", s, reason, "give 0 to 10 with at most one decimal, or nothing if it is not known")
		c.bad["rating"] = true
		return Maybe[load.SessionRating]{}
	}
	return Told(load.SessionRating(float64(n) / 10))
}

func (c *cells) milli(column, s string) Milli {
	n, reason := decimal(s, 3, maxValue)
	if reason != "" {
		c.fail(CodeNumber, column, s, reason, "give a number with at most 3 decimals and a point, such as 38.2")
		c.bad[column] = true
	}
	return Milli(n)
}

// decimal reads a plain number with a decimal point as a whole number of units
// of 10^-places, at most most. reason says why it cannot.
func decimal(s string, places int, most int64) (n int64, reason string) {
	whole, fraction, point := strings.Cut(s, ".")
	fraction = strings.TrimRight(fraction, "0")
	switch {
	case strings.HasPrefix(s, "-"):
		return 0, "a negative number"
	case strings.Contains(s, ","):
		return 0, "a comma in the number"
	case whole == "" || strings.Trim(whole+fraction, "0123456789") != "" || point && strings.HasSuffix(s, "."):
		return 0, "not a plain number"
	case len(fraction) > places:
		return 0, fmt.Sprintf("more than %d decimals", places)
	}
	whole = strings.TrimLeft(whole, "0")
	if len(whole) > 15 {
		return 0, "out of range"
	}
	for _, d := range []byte(whole + fraction + strings.Repeat("0", places-len(fraction))) {
		n = n*10 + int64(d-'0')
	}
	if n > most {
		return 0, "out of range"
	}
	return n, ""
}

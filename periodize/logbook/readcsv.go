package logbook

import (
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"example.org/weft/calendar"
	"example.org/weft/load"
	"example.org/weft/periodize/season"
)

// kindSet is the kind of a row that is a set of a session.
const kindSet = "set"

// columnOrder is the columns of a table, in the order in which they are listed.
var columnOrder = [...]string{
	"kind", "id", "date", "time", "tz", "end", "athlete", "recorded", "source", "replaces", "of", "reason",
	"planned", "session", "state", "rating", "minutes", "exercise", "load", "reps", "left", "effort", "failed", "ramp",
	"event", "sprinted", "scale", "sleep", "fatigue", "stress", "soreness", "mood", "body_mass",
	"name", "protocol", "unit", "value", "trials", "text", "days",
}

// Columns returns the names of the columns that Reader.CSV knows, in a fixed
// order.
func Columns() []string { return slices.Clone(columnOrder[:]) }

// privateColumn reports whether no problem may show what stands in a column.
func privateColumn(c string) bool {
	switch c {
	case "sleep", "fatigue", "stress", "soreness", "mood", "body_mass", "text", "reason":
		return true
	}
	return false
}

// CSV reads a log as a table. The name of the table is used in the problems, as
// in "log.csv:12". The error is a *season.InputError with every problem found,
// or that of r; without one, the problems are questions and warnings.
//
// The first row names the columns, in any order and case; only kind is needed in
// every table. Each row is an entry, or a set of one:
//
//	kind      session, set, game, practice, wellness, body-mass, test, note, void, confirm
//	id        stable name; empty: one made from the content
//	date      2026-11-08
//	time, end 17:00; an end may be of the next date
//	tz        IANA name; empty: Reader.Zone
//	athlete   empty: Reader.Athlete
//	recorded  2026-11-08T18:40:00+01:00; empty: Reader.Recorded
//	source    athlete, coach, staff, device, import; empty: Reader.Source
//	replaces  id of the entry this row corrects
//	of        of a set: id of its session; of void and confirm: id of the entry
//	session   full-body ...; of a note too
//	state     done (if empty), missed, unknown
//	rating, minutes          CR-10 in tenths at most, whole minutes
//	exercise, load, reps, left, effort, failed, ramp      of a set; load with its unit: 60 kg, 135 lb
//	planned, event, sprinted, reason, text                free text; sprinted, failed and ramp yes or no
//	days                     mon thu
//	scale, sleep, fatigue, stress, soreness, mood, body_mass
//	name, protocol, unit, value, trials                   of a test; trials apart by spaces
//
// Sets stand in the order of their rows, and belong to the last session above
// them with the id they name, else to the first below. Comma, semicolon and tab
// may separate the cells.
func (rd Reader) CSV(r io.Reader, name string) (Log, []calendar.Problem, error) {
	lim := rd.Limits.filled()
	t := &tableReader{Reader: rd, table: table{finder: &finder{}, name: name}, zones: map[string]calendar.Zone{}}
	data, err := io.ReadAll(io.LimitReader(r, lim.Bytes+1))
	if err != nil {
		return Log{}, nil, fmt.Errorf("logbook: %s: %w", calendar.Inert(name), err)
	}
	if int64(len(data)) > lim.Bytes {
		t.fail(0, CodeLimit, "", "", fmt.Sprintf("more than %d bytes", lim.Bytes), "split the table")
		return Log{}, nil, t.failed()
	}
	var list []Entry
	var lines []int
	if t.split(data, lim) && t.header(rd.Columns, rd.Strict) {
		list, lines = t.entries(lim)
	}
	if err := t.failed(); err != nil {
		return Log{}, nil, err
	}
	l := t.gather(list, func(i int) (string, int) { return t.path(lines[i]), lines[i] })
	return l, t.problems(), nil
}

// tableReader turns the rows of a table into entries.
type tableReader struct {
	table
	Reader
	zones map[string]calendar.Zone
}

// drafted is an entry on the way, with the lines it was read from.
type drafted struct {
	entry Entry
	line  int
	bad   map[string]bool
	sets  []Set
	at    []int // lines of the sets
}

func (t *tableReader) entries(lim Limits) (list []Entry, lines []int) {
	type key struct{ athlete, id string }
	var drafts []*drafted
	sessions := map[key][]*drafted{}
	type setRow struct {
		cells *cells
		of    key
		index int
	}
	var sets []setRow
	for i, r := range t.rows {
		c := &cells{t: t, row: r, used: map[string]bool{}, bad: map[string]bool{}}
		c.shape()
		kind := c.word("kind", "", append(words(Kinds()), kindSet))
		athlete := c.get("athlete")
		if athlete == "" {
			athlete = t.Athlete
		}
		switch {
		case kind == "" && !c.bad["kind"]:
			t.fail(r.line, CodeMissing, "kind", "", "the row does not say what it is", oneOf("", append(words(Kinds()), kindSet)))
		case kind == "":
		case kind == kindSet:
			sets = append(sets, setRow{c, key{athlete, c.get("of")}, i})
		default:
			if len(drafts) == lim.Entries {
				t.fail(r.line, CodeLimit, "", "", fmt.Sprintf("more than %d entries", lim.Entries), "split the table by athlete")
				return nil, nil
			}
			d := &drafted{entry: c.entry(Kind(kind), athlete), line: r.line, bad: c.bad}
			c.unused()
			drafts = append(drafts, d)
			if kind == string(OfSession) {
				k := key{athlete, d.entry.ID}
				sessions[k] = append(sessions[k], d)
			}
		}
	}
	for _, s := range sets {
		of := sessions[s.of]
		if s.of.id == "" || len(of) == 0 {
			t.fail(s.cells.row.line, CodeSetOf, "of", s.of.id, "there is no session of this athlete with this id in the table", "name the id of the session in the column of")
			continue
		}
		j := 0
		for j+1 < len(of) && of[j+1].line < s.cells.row.line {
			j++
		}
		d := of[j]
		d.sets, d.at = append(d.sets, s.cells.set(fmt.Sprintf("sets/%d/", len(d.sets)), d.bad)), append(d.at, s.cells.row.line)
		s.cells.unused()
	}
	for _, d := range drafts {
		t.check(d)
		list, lines = append(list, d.entry), append(lines, d.line)
	}
	return list, lines
}

// check completes an entry and reports what is wrong with it, each problem at
// the row and column it came from.
func (t *tableReader) check(d *drafted) {
	e := &d.entry
	if s, ok := e.What.(Session); ok {
		s.Sets = d.sets
		e.What = s
	}
	noID := e.ID == ""
	if noID {
		e.ID = pendingID
	}
	fatal := t.fatal
	c := checker{now: t.Now, bad: d.bad, say: func(class calendar.Class, code, field, value, reason, remedy string) {
		line := d.line
		parts := strings.Split(field, "/")
		if len(parts) == 3 && parts[0] == "sets" {
			if i, err := strconv.Atoi(parts[1]); err == nil && i < len(d.at) {
				line = d.at[i]
			}
			parts[0] = parts[2]
		}
		column := parts[0]
		switch column {
		case "start":
			column = "date"
			if code == CodeMissing && !e.Start.IsZero() {
				column = "time"
			}
		case "zone":
			column = "tz"
		case "bodyMass":
			column = "body_mass"
		}
		t.say(line, class, code, column, value, reason, remedy)
	}}
	c.entry(e)
	if noID && t.fatal == fatal {
		e.ID = ""
		e.ID = e.ContentID()
	}
}

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
	return c.row.cells[i]
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
		z, err := loadZone(c.t.zones, s)
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

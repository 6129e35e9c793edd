package logbook

import (
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"example.org/weft/calendar"
	"example.org/weft/internal/intake"
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
// may separate the cells. An apostrophe before one of = + - @ or a space, at the
// begin of a cell, is taken off, as is one behind a space at its end.
func (rd Reader) CSV(r io.Reader, name string) (Log, []calendar.Problem, error) {
	lim := rd.Limits.filled()
	t := &tableReader{Reader: rd, table: table{finder: &finder{}, name: name}, zones: intake.Zones{}}
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
	zones intake.Zones
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

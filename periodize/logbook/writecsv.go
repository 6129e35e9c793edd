package logbook

import (
	"encoding/csv"
	"fmt"
	"io"
	"strconv"
	"strings"
)

// WriteCSV writes a log as a table that Reader.CSV reads back to an equal log:
// comma, CRLF line ends, UTF-8, the columns that any entry needs, sorted as by
// [Log.WriteJSON], sets below their session. Every row names its zone, athlete and
// source where the entry has them, so that the reader's defaults change nothing,
// unless an entry has none.
//
// A cell that a spreadsheet would take for a formula gets an apostrophe in front,
// and one that begins or ends with a space an apostrophe there; the reader takes
// them off. The error is that of w, or a *season.InputError that lists the texts
// with a carriage return, which no table keeps, or says that there are more rows
// than [MaxRows]: then nothing is written.
func (l Log) WriteCSV(w io.Writer) error {
	var f finder
	var rows [][]cell
	used := map[string]bool{"kind": true, "id": true}
	for i := range l.list {
		for _, r := range rowsOf(&l.list[i]) {
			for _, c := range r {
				used[c.column] = true
				if strings.ContainsRune(c.text, '\r') {
					f.err(CodeControl, fmt.Sprintf("/entries/%d/%s", i, c.column), hidden, "the text holds a carriage return, which a table does not keep", "take it out, or write the log as JSON")
				}
			}
			rows = append(rows, r)
		}
	}
	if len(rows) > MaxRows {
		f.err(CodeLimit, "/entries", strconv.Itoa(len(rows)), fmt.Sprintf("more than %d rows, which no reader takes", MaxRows), "write the log of each athlete by itself, see Of")
	}
	if err := f.failed(); err != nil {
		return err
	}
	var head []string
	at := map[string]int{}
	for _, c := range columnOrder {
		if used[c] {
			at[c] = len(head)
			head = append(head, c)
		}
	}
	out := csv.NewWriter(w)
	out.UseCRLF = true
	if err := out.Write(head); err != nil {
		return err
	}
	line := make([]string, len(head))
	for _, r := range rows {
		clear(line)
		for _, c := range r {
			line[at[c.column]] = guard(c.text)
		}
		if err := out.Write(line); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

// cell is a text under a column.
type cell struct{ column, text string }

// rowsOf are the rows of an entry that has passed the checks, without empty cells.
func rowsOf(e *Entry) (rows [][]cell) {
	var r []cell
	put := func(column, text string) {
		if text != "" {
			r = append(r, cell{column, text})
		}
	}
	w := wireOf(e)
	for _, c := range []cell{{"kind", string(w.Kind)}, {"id", w.ID}, {"athlete", w.Athlete}, {"recorded", w.Recorded}, {"source", string(w.Source)},
		{"replaces", w.Replaces}, {"of", w.Of}, {"reason", w.Reason}, {"tz", w.Zone}, {"planned", w.Planned}, {"event", w.Event}, {"session", w.Session},
		{"state", string(w.State)}, {"rating", string(w.Rating)}, {"minutes", countText(w.Minutes)}, {"sprinted", yesText(w.Sprinted)},
		{"scale", string(w.Scale)}, {"sleep", countText(w.Sleep)}, {"fatigue", countText(w.Fatigue)}, {"stress", countText(w.Stress)},
		{"soreness", countText(w.Soreness)}, {"mood", countText(w.Mood)}, {"body_mass", w.BodyMass},
		{"name", w.Name}, {"protocol", w.Protocol}, {"unit", string(w.Unit)}, {"value", string(w.Value)}, {"text", w.Text}, {"days", strings.Join(w.Days, " ")}} {
		put(c.column, c.text)
	}
	var trials []string
	for _, t := range w.Trials {
		trials = append(trials, string(t))
	}
	put("trials", strings.Join(trials, " "))
	if w.Kind.Dated() {
		put("date", e.Start.Date.String())
		if !e.DateOnly {
			put("time", e.Start.Clock.String())
		}
		if e.HasEnd {
			put("end", endText(e))
		}
	}
	rows = append(rows, r)
	for _, s := range w.Sets {
		r = nil
		for _, c := range []cell{{"kind", kindSet}, {"of", w.ID}, {"athlete", w.Athlete}, {"exercise", s.Exercise}, {"load", s.Load},
			{"reps", countText(s.Reps)}, {"left", countText(s.Left)}, {"effort", string(s.Effort)}, {"failed", flagText(s.Failed)}, {"ramp", flagText(s.Ramp)}} {
			put(c.column, c.text)
		}
		rows = append(rows, r)
	}
	return rows
}

// endText is the time of day where that means the end, else date and time.
func endText(e *Entry) string {
	if e.End.Date == e.Start.Date && e.End.Clock > e.Start.Clock {
		return e.End.Clock.String()
	}
	return e.End.String()
}

func countText(n *int) string {
	if n == nil {
		return ""
	}
	return strconv.Itoa(*n)
}

func yesText(b *bool) string {
	switch {
	case b == nil:
		return ""
	case *b:
		return "yes"
	}
	return "no"
}

func flagText(b bool) string {
	if b {
		return "yes"
	}
	return ""
}

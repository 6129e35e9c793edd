package season

import (
	"strings"

	"example.org/weft/calendar"
	"example.org/weft/internal/intake"
	"example.org/weft/internal/jsonread"
)

func kindWords() (out []string) {
	for _, k := range calendar.Kinds() {
		out = append(out, string(k))
	}
	return out
}

func statusWords() (out []string) {
	for _, s := range calendar.Statuses() {
		out = append(out, string(s))
	}
	return out
}

func importanceWords() (out []string) {
	for _, i := range calendar.Importances() {
		out = append(out, string(i))
	}
	return out
}

func homeWords() []string { return []string{calendar.AtHome, calendar.AtAway, calendar.AtNeutral} }

func (d *decoder) event(v jsonread.Value, home calendar.Zone) calendar.Event {
	o := v.Object()
	e := calendar.Event{ID: d.optionalID(o.Optional("id"))}
	kind, _ := o.Required("kind").Enum(kindWords()...)
	e.Kind = calendar.Kind(kind)
	e.Team = d.words(o.Optional("team"))
	e.Title = d.words(o.Optional("title"))
	e.Start, e.DateOnly = d.moment(o.Required("start"))
	if end := o.Optional("end"); end.Present() {
		d.end(end, &e)
	}
	if zone := o.Optional("zone"); zone.Present() {
		e.Zone = d.zone(zone)
	} else {
		e.Zone = home
	}
	e.EndZone = d.zone(o.Optional("endZone"))
	if end := o.Optional("actualEnd"); end.Present() {
		e.ActualEnd, e.HasActualEnd = d.wall(end), true
	}
	if s := o.Optional("status"); s.Present() {
		word, _ := s.Enum(statusWords()...)
		e.Status = calendar.Status(word)
	}
	if i := o.Optional("importance"); i.Present() {
		word, _ := i.Enum(importanceWords()...)
		e.Importance = calendar.Importance(word)
	}
	e.Hard = intake.Flag(o.Optional("hard"))
	if h := o.Optional("home"); h.Present() {
		e.Home, _ = h.Enum(homeWords()...)
	}
	e.Opponent = d.words(o.Optional("opponent"))
	e.Competition = d.words(o.Optional("competition"))
	e.Round = d.words(o.Optional("round"))
	if r := o.Optional("revision"); r.Present() {
		n, _ := r.Int(0, maxSetting)
		e.Revision = int(n)
	}
	o.Done()
	if e.ID == "" && o.OK() {
		e.ID = e.ContentID()
	}
	return e
}

// moment reads a wall time, or a date alone.
func (d *decoder) moment(v jsonread.Value) (w calendar.Wall, dateOnly bool) {
	d.text(v, CodeWall, "a date and a time such as 2026-11-08T14:00, or a date", false, func(s string) (err error) {
		w, dateOnly, err = parseMoment(s)
		return err
	})
	return w, dateOnly
}

func parseMoment(s string) (w calendar.Wall, dateOnly bool, err error) {
	if strings.ContainsAny(s, "T ") {
		w, err = calendar.ParseWall(s)
		return w, false, err
	}
	w.Date, err = calendar.ParseDate(s)
	return w, true, err
}

// end reads the end of an event, which is as exact as its start.
func (d *decoder) end(v jsonread.Value, e *calendar.Event) {
	w, dateOnly := d.moment(v)
	if w.IsZero() {
		return
	}
	if !e.Start.IsZero() && dateOnly != e.DateOnly {
		v.Report(jsonread.Error, CodeEnd, "one of start and end has a time of day, the other has none", "give both with a time, such as 2026-11-08T14:00, or both without")
		return
	}
	if dateOnly {
		// Written as the last date, held as the midnight that ends it.
		w.Date = w.Date.AddDays(1)
	}
	e.End, e.HasEnd = w, true
}

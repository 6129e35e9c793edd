package logbook

import (
	"time"

	"example.org/weft/calendar"
	"example.org/weft/internal/intake"
	"example.org/weft/internal/jsonread"
	"example.org/weft/load"
)

func (d *decoder) set(v jsonread.Value, path string) Set {
	o := v.Object()
	if !o.OK() {
		d.bad[path+"exercise"] = true
		return Set{}
	}
	s := Set{}
	if x := o.Optional("exercise"); x.Present() {
		var ok bool
		s.Exercise, ok = x.String(1, maxID)
		d.bad[path+"exercise"] = !ok
	}
	s.Load = d.mass(o, "load", path+"load")
	if x := o.Optional("reps"); x.Present() {
		s.Reps = d.countOf(x, path+"reps", MaxReps)
	}
	if x := o.Optional("left"); x.Present() {
		s.Left = d.countOf(x, path+"left", MaxLeft)
	}
	if x := o.Optional("effort"); x.Present() {
		n, ok := x.Decimal(1, 10, 100)
		s.Effort = load.Effort(float64(n) / 10)
		d.bad[path+"effort"] = !ok
	}
	s.Failed = d.flag(o, "failed", path+"failed")
	s.Ramp = d.flag(o, "ramp", path+"ramp")
	o.Done()
	return s
}

func (d *decoder) id(o *jsonread.Fields, name string) string {
	v := o.Optional(name)
	if !v.Present() {
		return ""
	}
	s, ok := v.String(1, maxID)
	d.bad[name] = !ok
	return s
}

func (d *decoder) words(o *jsonread.Fields, name string) string {
	v := o.Optional(name)
	if !v.Present() {
		return ""
	}
	s, ok := v.String(0, maxText)
	d.bad[name] = !ok
	return s
}

// choice reads a word; a missing one is left to the checks.
func (d *decoder) choice(o *jsonread.Fields, name string, allowed []string) string {
	v := o.Optional(name)
	if !v.Present() {
		return ""
	}
	s, ok := v.Enum(allowed...)
	d.bad[name] = !ok
	return s
}

func (d *decoder) rating(o *jsonread.Fields) Maybe[load.SessionRating] {
	v := o.Optional("rating")
	if !v.Present() {
		return Maybe[load.SessionRating]{}
	}
	n, ok := v.Decimal(1, 0, 100)
	d.bad["rating"] = !ok
	return Maybe[load.SessionRating]{load.SessionRating(float64(n) / 10), ok}
}

func (d *decoder) count(o *jsonread.Fields, name string, most int64) Maybe[int] {
	v := o.Optional(name)
	if !v.Present() {
		return Maybe[int]{}
	}
	return d.countOf(v, name, most)
}

func (d *decoder) countOf(v jsonread.Value, field string, most int64) Maybe[int] {
	n, ok := v.Int(0, most)
	d.bad[field] = !ok
	return Maybe[int]{int(n), ok}
}

func (d *decoder) milli(v jsonread.Value, field string) Milli {
	n, ok := v.Decimal(3, 0, maxValue)
	d.bad[field] = !ok
	return Milli(n)
}

func (d *decoder) flag(o *jsonread.Fields, name, field string) bool {
	v := o.Optional(name)
	if !v.Present() {
		return false
	}
	b, ok := v.Bool()
	d.bad[field] = !ok
	return b
}

func (d *decoder) mass(o *jsonread.Fields, name, field string) (m Maybe[load.Mass]) {
	v := o.Optional(name)
	if !v.Present() {
		return m
	}
	if v.Kind() == jsonread.Number {
		v.Report(jsonread.Error, CodeMass, "a load without a unit", `write it as text with its unit, such as "100 kg"`)
		d.bad[field] = true
		return m
	}
	m.Known = d.text(v, field, CodeMass, `a mass such as "100 kg" or "225 lb"`, func(s string) (err error) {
		m.Value, err = load.ParseMass(s)
		return err
	})
	return m.settled()
}

func (d *decoder) zone(v jsonread.Value, field string) (out calendar.Zone) {
	d.text(v, field, CodeZone, "a zone such as Europe/Berlin", func(s string) (err error) {
		out, err = d.zones.Load(s)
		return err
	})
	return out
}

func (d *decoder) instant(v jsonread.Value, field string) (out time.Time) {
	d.text(v, field, CodeInstant, "an instant such as 2026-11-08T14:00:00+01:00", func(s string) (err error) {
		out, err = parseInstant(s)
		return err
	})
	return out
}

// parseInstant reads an instant of RFC 3339, in UTC.
func parseInstant(s string) (time.Time, error) {
	t, bad := intake.Instant(s)
	if bad != nil {
		return time.Time{}, bad
	}
	return t.UTC(), nil
}

// text reads a string with a parser.
func (d *decoder) text(v jsonread.Value, field, code, want string, parse func(string) error) bool {
	ok := intake.Text(v, maxID, code, want, field == "bodyMass", parse)
	if !ok {
		d.bad[field] = true
	}
	return ok
}

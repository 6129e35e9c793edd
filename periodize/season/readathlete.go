package season

import (
	"time"

	"example.org/weft/calendar"
	"example.org/weft/internal/intake"
	"example.org/weft/internal/jsonread"
	"example.org/weft/load"
)

// maxTrainingMonths is 80 years.
const maxTrainingMonths = 80 * 12

// weekdays are the words of days, Monday first.
var weekdays = [...]string{"mon", "tue", "wed", "thu", "fri", "sat", "sun"}

func dayWord(d time.Weekday) string { return weekdays[(int(d)%7+6)%7] }

func (d *decoder) athlete(v jsonread.Value) Athlete {
	o := v.Object()
	a := Athlete{ID: d.optionalID(o.Optional("id")), TrainingAgeMonths: -1}
	if b := o.Optional("born"); b.Present() {
		a.Born = d.month(b)
	}
	a.Zone = d.zone(o.Required("zone"))
	if t := o.Optional("trainingAgeYears"); t.Present() {
		// Whole months, rounded down: the protective side of every threshold.
		if hundredths, ok := t.Decimal(2, 0, maxTrainingMonths*100/12); ok {
			a.TrainingAgeMonths = int(hundredths * 12 / 100)
		}
	}
	a.Role = d.words(o.Optional("role"))
	a.Hours = intake.List(o.Optional("hours"), MaxHours, d.hours)
	a.Prefer = intake.List(o.Optional("prefer"), MaxHours, d.prefer)
	a.Maxima = intake.List(o.Optional("maxima"), MaxMaxima, d.maximum)
	a.Restrictions = intake.List(o.Optional("restrictions"), MaxRestrictions, d.restriction)
	a.Holds = intake.List(o.Optional("holds"), MaxHolds, d.hold)
	a.OptIns = intake.List(o.Optional("optIns"), MaxOptIns, func(v jsonread.Value) OptIn {
		s, _ := v.Enum(optInWords()...)
		return OptIn(s)
	})
	o.Done()
	return a
}

func optIns() []OptIn { return []OptIn{OptPostGame, OptLowRepSets} }

func optInWords() (out []string) {
	for _, o := range optIns() {
		out = append(out, string(o))
	}
	return out
}

// month reads 2007-03.
func (d *decoder) month(v jsonread.Value) (out YearMonth) {
	d.text(v, CodeMonth, "a month such as 2007-03", false, func(s string) error {
		y, err := parseMonth(s)
		out = y
		return err
	})
	return out
}

func parseMonth(s string) (YearMonth, error) {
	bad := &calendar.ValueError{What: "month", Value: s, Reason: "not a month as year and month", Remedy: "write 2007-03 for March 2007"}
	if _, err := calendar.ParseDate(s); err == nil {
		bad.Reason, bad.Remedy = "a full date of birth is not needed", "leave the day out: "+s[:7]
		return YearMonth{}, bad
	}
	if len(s) != 7 {
		return YearMonth{}, bad
	}
	day, err := calendar.ParseDate(s + "-01")
	if err != nil {
		return YearMonth{}, bad
	}
	y, m, _ := day.YMD()
	return YearMonth{Year: y, Month: m}, nil
}

func (d *decoder) hours(v jsonread.Value) Hours {
	o := v.Object()
	h := Hours{Days: d.days(o.Required("days")), From: d.clock(o.Required("from")), To: d.clock(o.Required("to"))}
	o.Done()
	return h
}

func (d *decoder) prefer(v jsonread.Value) Prefer {
	o := v.Object()
	p := Prefer{Days: d.days(o.Required("days")), Start: d.clock(o.Required("start"))}
	o.Done()
	return p
}

func (d *decoder) days(v jsonread.Value) []time.Weekday {
	return intake.List(v, 7, func(v jsonread.Value) time.Weekday {
		s, _ := v.Enum(weekdays[:]...)
		for i, w := range weekdays {
			if w == s {
				return time.Weekday((i + 1) % 7)
			}
		}
		return time.Monday
	})
}

func (d *decoder) maximum(v jsonread.Value) Maximum {
	o := v.Object()
	m := Maximum{Exercise: d.id(o.Required("exercise")), Grams: d.mass(o.Required("load")), Date: d.date(o.Required("date"), false)}
	m.Kind, _ = o.Required("kind").Enum(maximumKinds()...)
	o.Done()
	return m
}

func maximumKinds() []string { return []string{"tested", "estimated"} }

// mass reads "100 kg", "225 lb" or {"grams": 100000}.
func (d *decoder) mass(v jsonread.Value) int64 {
	switch v.Kind() {
	case jsonread.Object:
		o := v.Object()
		n, _ := o.Required("grams").Int(0, int64(load.MaxMass))
		o.Done()
		return n
	case jsonread.Number:
		v.Report(jsonread.Error, CodeMass, "a load without a unit", `write it as text with its unit, such as "100 kg"`)
		return 0
	}
	var out load.Mass
	d.text(v, CodeMass, `a load such as "100 kg" or "225 lb"`, false, func(s string) (err error) {
		out, err = load.ParseMass(s)
		return err
	})
	return int64(out)
}

func sides() []string { return []string{"left", "right", "both"} }

func (d *decoder) restriction(v jsonread.Value) Restriction {
	o := v.Object()
	r := Restriction{Region: d.id(o.Required("region")), From: d.date(o.Required("from"), true)}
	if s := o.Optional("side"); s.Present() {
		r.Side, _ = s.Enum(sides()...)
	}
	if t := o.Optional("to"); t.Present() {
		r.To = d.date(t, true)
	}
	r.By = d.words(o.Optional("by"))
	o.Done()
	return r
}

func (d *decoder) hold(v jsonread.Value) Hold {
	o := v.Object()
	h := Hold{From: d.date(o.Required("from"), true), ClearedBy: d.words(o.Optional("clearedBy"))}
	if u := o.Optional("until"); u.Present() {
		h.Until = d.date(u, true)
	}
	if c := o.Optional("clearedOn"); c.Present() {
		h.ClearedOn = d.date(c, true)
	}
	o.Done()
	return h
}

package exercise

import (
	"bytes"
	"encoding/json"
	"io"

	"example.org/weft/calendar"
	"example.org/weft/internal/intake"
	"example.org/weft/internal/jsonread"
	"example.org/weft/periodize/season"
)

// ReadCheckIn reads a report of the day as JSON:
//
//	{"schema": 1, "sleepMinutes": 430, "energy": 6, "ill": false, "signs": ["fever"],
//	  "soreness": [{"region": "thigh", "side": "left", "level": 3}],
//	  "pain": [{"region": "groin", "side": "left", "pain": 3, "since": "2026-11-08", "cough": false, "squeezeBelow": 12}],
//	  "minutes": 20, "kit": ["kettlebell 16 kg"]}
//
// Nothing is required; what is left out is unknown, not zero. Of signs, soreness
// and pain, sleep and energy no problem shows what was written. A text of at most
// MaxReportBytes is read. The error is a *season.InputError with every problem.
// Even then the check-in holds what could be read, since a sign of illness in it
// still counts: hand it to [Builder.Today], which looks for that first.
func (c Catalogue) ReadCheckIn(r io.Reader) (CheckIn, []calendar.Problem, error) {
	t := open(r, MaxReportBytes, "sleepMinutes", "energy", "ill", "signs", "soreness", "pain")
	var in CheckIn
	if o, ok := t.object(); ok {
		in = t.checkIn(c, o)
		o.Done()
		t.more = append(t.more, in.problems("")...)
	}
	problems, err := t.end()
	return in, problems, err
}

// unreadable is a sign that is no word. It holds like any other.
const unreadable Sign = "a sign that could not be read"

func (t *text) checkIn(c Catalogue, o *jsonread.Fields) CheckIn {
	in := CheckIn{SleepMinutes: reading(o.Optional("sleepMinutes")), Energy: reading(o.Optional("energy")), Ill: intake.Flag(o.Optional("ill"))}
	in.Signs = intake.List(o.Optional("signs"), mostComplaints, func(v jsonread.Value) Sign {
		s, ok := v.String(1, season.MaxIDRunes)
		if !ok {
			return unreadable
		}
		return Sign(s)
	})
	in.Soreness = intake.List(o.Optional("soreness"), mostComplaints, func(v jsonread.Value) Soreness {
		s := v.Object()
		x := Soreness{Region: short(s.Required("region")), Side: short(s.Optional("side")), Level: number(s.Required("level"), -wide, wide)}
		s.Done()
		return x
	})
	in.Pain = intake.List(o.Optional("pain"), mostComplaints, complaintOf)
	in.Minutes = number(o.Optional("minutes"), -wide, wide)
	if v := o.Optional("kit"); v.Present() {
		k := t.kit(c, v, "/kit")
		in.Kit = &k
	}
	return in
}

// wide lets a number of the report through to the check of its range, so that 11
// of 10 is a problem and still holds the session.
const wide = 1_000_000

func reading(v jsonread.Value) Reading {
	if !v.Present() {
		return Reading{}
	}
	n, ok := v.Int(-wide, wide)
	return Reading{int(n), ok}
}

func complaintOf(v jsonread.Value) Complaint {
	o := v.Object()
	x := Complaint{Region: short(o.Required("region")), Side: short(o.Optional("side")), Pain: number(o.Required("pain"), -wide, wide),
		Since: date(o.Optional("since")), Cough: intake.Flag(o.Optional("cough"))}
	if s := o.Optional("squeezeBelow"); s.Present() {
		x.SqueezeBelow, x.Squeezed = number(s, -wide, wide), true
	}
	o.Done()
	return x
}

type wireSoreness struct {
	Region string `json:"region"`
	Side   string `json:"side,omitempty"`
	Level  int    `json:"level"`
}

type wireComplaint struct {
	Region  string `json:"region"`
	Side    string `json:"side,omitempty"`
	Pain    int    `json:"pain"`
	Since   string `json:"since,omitempty"`
	Cough   bool   `json:"cough,omitempty"`
	Squeeze *int   `json:"squeezeBelow,omitempty"`
}

type wireCheckIn struct {
	Schema   int             `json:"schema"`
	Sleep    *int            `json:"sleepMinutes,omitempty"`
	Energy   *int            `json:"energy,omitempty"`
	Ill      bool            `json:"ill,omitempty"`
	Signs    []Sign          `json:"signs,omitempty"`
	Soreness []wireSoreness  `json:"soreness,omitempty"`
	Pain     []wireComplaint `json:"pain,omitempty"`
	Minutes  int             `json:"minutes,omitempty"`
	Kit      *wireKit        `json:"kit,omitempty"`
}

// MarshalJSON writes what ReadCheckIn reads. The dates of complaints are those of
// the session and are not written.
func (r CheckIn) MarshalJSON() ([]byte, error) {
	if problems := r.problems(""); len(problems) > 0 {
		return nil, &season.InputError{Problems: problems}
	}
	w := wireCheckIn{Schema: Schema, Ill: r.Ill, Signs: r.Signs, Minutes: r.Minutes}
	known := func(x Reading) *int {
		if !x.Known {
			return nil
		}
		return &x.N
	}
	w.Sleep, w.Energy = known(r.SleepMinutes), known(r.Energy)
	for _, s := range r.Soreness {
		w.Soreness = append(w.Soreness, wireSoreness(s))
	}
	for _, p := range r.Pain {
		x := wireComplaint{Region: p.Region, Side: p.Side, Pain: p.Pain, Cough: p.Cough, Squeeze: known(Reading{p.SqueezeBelow, p.Squeezed})}
		if !p.Since.IsZero() {
			x.Since = p.Since.String()
		}
		w.Pain = append(w.Pain, x)
	}
	if r.Kit != nil {
		k := r.Kit.wire()
		w.Kit = &k
	}
	return json.Marshal(w)
}

// UnmarshalJSON reads what [Catalogue.ReadCheckIn] of the built-in catalogue
// reads. With an error it still takes what could be read, since a sign of illness
// counts.
func (r *CheckIn) UnmarshalJSON(b []byte) error {
	in, _, err := Catalogue{}.ReadCheckIn(bytes.NewReader(b))
	*r = in
	return err
}

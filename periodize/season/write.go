package season

import (
	"encoding/json"
	"fmt"
	"strconv"
	"strings"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/load"
)

// MarshalJSON writes what ReadRequest reads. The order of lists is kept: the
// bytes of Canonical do not depend on it. What was only kept for messages and
// for other formats, Source and Unknown of events, is not written.
//
// The error is an *InputError: zones that have no IANA name, and dates, clock
// times or instants that could not be read back.
func (r Request) MarshalJSON() ([]byte, error) {
	e := encoder{zone: zoneName}
	e.unwritable(r)
	w := e.request(r)
	if err := failed(e.problems()); err != nil {
		return nil, err
	}
	return json.Marshal(w)
}

type wireRequest struct {
	Schema  int               `json:"schema"`
	Period  wirePeriod        `json:"period"`
	Now     string            `json:"now,omitempty"`
	Athlete wireAthlete       `json:"athlete"`
	Events  []wireEvent       `json:"events,omitempty"`
	Places  []wirePlace       `json:"places,omitempty"`
	Rules   []Override        `json:"rules,omitempty"`
	Club    []wireClubRule    `json:"club,omitempty"`
	Log     []wireDone        `json:"log,omitempty"`
	Issued  []json.RawMessage `json:"issued,omitempty"`
	Pins    []wirePin         `json:"pins,omitempty"`
}

type wirePeriod struct {
	From string `json:"from"`
	To   string `json:"to"`
}

type wireAthlete struct {
	ID               string            `json:"id,omitempty"`
	Born             string            `json:"born,omitempty"`
	Zone             string            `json:"zone"`
	TrainingAgeYears json.RawMessage   `json:"trainingAgeYears,omitempty"`
	Role             string            `json:"role,omitempty"`
	Hours            []wireHours       `json:"hours,omitempty"`
	Prefer           []wirePrefer      `json:"prefer,omitempty"`
	Maxima           []wireMaximum     `json:"maxima,omitempty"`
	Restrictions     []wireRestriction `json:"restrictions,omitempty"`
	Holds            []wireHold        `json:"holds,omitempty"`
	OptIns           []OptIn           `json:"optIns,omitempty"`
}

type wireHours struct {
	Days []string `json:"days"`
	From string   `json:"from"`
	To   string   `json:"to"`
}

type wirePrefer struct {
	Days  []string `json:"days"`
	Start string   `json:"start"`
}

type wireMaximum struct {
	Exercise string `json:"exercise"`
	Load     string `json:"load"`
	Kind     string `json:"kind"`
	Date     string `json:"date"`
}

type wireRestriction struct {
	Region string `json:"region"`
	Side   string `json:"side,omitempty"`
	From   string `json:"from"`
	To     string `json:"to,omitempty"`
	By     string `json:"by,omitempty"`
}

type wireHold struct {
	From      string `json:"from"`
	Until     string `json:"until,omitempty"`
	ClearedBy string `json:"clearedBy,omitempty"`
	ClearedOn string `json:"clearedOn,omitempty"`
}

type wireEvent struct {
	ID          string `json:"id,omitempty"`
	Kind        string `json:"kind"`
	Team        string `json:"team,omitempty"`
	Title       string `json:"title,omitempty"`
	Start       string `json:"start"`
	End         string `json:"end,omitempty"`
	Zone        string `json:"zone,omitempty"`
	EndZone     string `json:"endZone,omitempty"`
	ActualEnd   string `json:"actualEnd,omitempty"`
	Status      string `json:"status,omitempty"`
	Importance  string `json:"importance,omitempty"`
	Hard        bool   `json:"hard,omitempty"`
	Home        string `json:"home,omitempty"`
	Opponent    string `json:"opponent,omitempty"`
	Competition string `json:"competition,omitempty"`
	Round       string `json:"round,omitempty"`
	Revision    int    `json:"revision,omitempty"`
}

type wirePlace struct {
	ID     string       `json:"id"`
	Hours  []wireHours  `json:"hours,omitempty"`
	Closed []wirePeriod `json:"closed,omitempty"`
	Kit    *[]string    `json:"kit,omitempty"`
	Away   bool         `json:"away,omitempty"`
	Zone   string       `json:"zone,omitempty"`
}

type wireDone struct {
	ID      string `json:"id,omitempty"`
	Session string `json:"session,omitempty"`
	Kind    string `json:"kind"`
	Start   string `json:"start"`
	End     string `json:"end,omitempty"`
	Zone    string `json:"zone,omitempty"`
	Missed  bool   `json:"missed,omitempty"`
}

type wirePin struct {
	Date  string `json:"date"`
	Kind  string `json:"kind,omitempty"`
	Start string `json:"start,omitempty"`
	Place string `json:"place,omitempty"`
	None  bool   `json:"none,omitempty"`
}

// encoder turns a request into its written form; it never fails. What could not
// be read back is found by unwritable.
type encoder struct {
	finder
	zone func(calendar.Zone) string
}

func zoneName(z calendar.Zone) string { return z.Name() }

func each[S, T any](in []S, f func(S) T) []T {
	if len(in) == 0 {
		return nil
	}
	out := make([]T, len(in))
	for i, x := range in {
		out[i] = f(x)
	}
	return out
}

func (e *encoder) request(r Request) wireRequest {
	return wireRequest{
		Schema: Schema, Period: wirePeriodOf(r.Period), Now: instantText(r.Now), Athlete: e.athlete(r.Athlete),
		Events: each(r.Events, e.event), Places: each(r.Places, e.place), Rules: r.Rules, Club: each(r.Club, wireClubOf),
		Log: each(r.Log, e.done), Issued: each(r.Issued, planText), Pins: each(r.Pins, wirePinOf),
	}
}

// instantText writes an instant in UTC, "" if it is unset.
func instantText(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return t.UTC().Format(time.RFC3339Nano)
}

// planText is total: a plan that cannot be written stands for itself by what is
// wrong with it.
func planText(p Plan) json.RawMessage {
	b, err := json.Marshal(p)
	if err != nil {
		b, _ = json.Marshal(p.ID + ": " + err.Error())
	}
	return b
}

func wirePeriodOf(p Period) wirePeriod { return wirePeriod{p.From.String(), p.To.String()} }

func wireHoursOf(h Hours) wireHours {
	return wireHours{each(h.Days, dayWord), h.From.String(), h.To.String()}
}

func (e encoder) place(p Place) wirePlace {
	w := wirePlace{ID: p.ID, Hours: each(p.Hours, wireHoursOf), Closed: each(p.Closed, wirePeriodOf), Away: p.Away, Zone: e.zone(p.Zone)}
	if p.Kit != nil {
		w.Kit = &p.Kit
	}
	return w
}

func wirePinOf(p Pin) wirePin {
	w := wirePin{Date: p.Date.String(), Kind: string(p.Kind), Place: p.Place, None: p.None}
	if p.Start != nil {
		w.Start = p.Start.String()
	}
	return w
}

func (e *encoder) athlete(a Athlete) wireAthlete {
	w := wireAthlete{
		ID: a.ID, Born: a.Born.String(), Zone: e.zone(a.Zone), Role: a.Role, OptIns: a.OptIns,
		Hours:  each(a.Hours, wireHoursOf),
		Prefer: each(a.Prefer, func(p Prefer) wirePrefer { return wirePrefer{each(p.Days, dayWord), p.Start.String()} }),
		Maxima: each(a.Maxima, func(m Maximum) wireMaximum {
			return wireMaximum{m.Exercise, load.Mass(m.Grams).String(), m.Kind, m.Date.String()}
		}),
		Restrictions: each(a.Restrictions, func(r Restriction) wireRestriction {
			return wireRestriction{r.Region, r.Side, r.From.String(), r.To.String(), r.By}
		}),
		Holds: each(a.Holds, func(h Hold) wireHold {
			return wireHold{h.From.String(), h.Until.String(), h.ClearedBy, h.ClearedOn.String()}
		}),
	}
	if a.TrainingAgeMonths >= 0 {
		w.TrainingAgeYears = json.RawMessage(yearsText(a.TrainingAgeMonths))
	}
	return w
}

// yearsText writes months as years with two decimals at most, rounded up, so
// that reading, which rounds down, returns the same months.
func yearsText(months int) string {
	hundredths := (int64(months)*100 + 11) / 12
	s := fmt.Sprintf("%d.%02d", hundredths/100, hundredths%100)
	return strings.TrimSuffix(strings.TrimRight(s, "0"), ".")
}

func (e *encoder) event(v calendar.Event) wireEvent {
	w := wireEvent{
		ID: v.ID, Kind: string(v.Kind), Team: v.Team, Title: v.Title, Start: v.Start.String(),
		Zone: e.zone(v.Zone), EndZone: e.zone(v.EndZone), Status: string(v.Status), Importance: string(v.Importance),
		Hard: v.Hard, Home: v.Home, Opponent: v.Opponent, Competition: v.Competition, Round: v.Round, Revision: v.Revision,
	}
	if v.HasEnd {
		w.End = v.End.String()
	}
	if v.DateOnly {
		w.Start = v.Start.Date.String()
		if v.HasEnd {
			w.End = v.End.Date.AddDays(-1).String()
		}
	}
	if v.HasActualEnd {
		w.ActualEnd = v.ActualEnd.String()
	}
	return w
}

func (e *encoder) done(v Done) wireDone {
	w := wireDone{ID: v.ID, Session: v.Session, Kind: string(v.Kind), Start: v.Start.String(), Zone: e.zone(v.Zone), Missed: v.Missed}
	if v.HasEnd {
		w.End = v.End.String()
	}
	return w
}

// unwritable finds what would not survive being written.
func (e *encoder) unwritable(r Request) {
	zone := func(path string, z calendar.Zone) {
		if z.Custom() {
			e.err(CodeZone, path, z.Name(), "a zone made of its own transitions cannot be written as a name", "use an IANA zone such as Europe/Berlin")
		}
	}
	date := func(path string, d calendar.Date) {
		if y, _, _ := d.YMD(); !d.IsZero() && (y < calendar.FirstYear || y > calendar.LastYear) {
			e.err(CodeDate, path, d.String(), "the year is outside 1900 to 2199", "check the year")
		}
	}
	clock := func(path string, c calendar.Clock) {
		if !c.Valid() {
			e.err(CodeClock, path, c.String(), "there is no such time of day", "give a time from 00:00 to 24:00")
		}
	}
	wall := func(path string, w calendar.Wall) {
		date(path, w.Date)
		clock(path, w.Clock)
	}
	hours := func(path string, list []Hours) {
		for i, h := range list {
			clock(path+at(i, "from"), h.From)
			clock(path+at(i, "to"), h.To)
		}
	}
	if !r.Now.IsZero() && !saneInstant(r.Now) {
		e.err(CodeInstant, "/now", strconv.Itoa(r.Now.Year()), "the year is outside 1900 to 2199", "check the year")
	}
	date("/period/from", r.Period.From)
	date("/period/to", r.Period.To)
	zone("/athlete/zone", r.Athlete.Zone)
	hours("/athlete/hours", r.Athlete.Hours)
	for i, p := range r.Athlete.Prefer {
		clock(at("athlete", "prefer", i, "start"), p.Start)
	}
	for i, m := range r.Athlete.Maxima {
		date(at("athlete", "maxima", i, "date"), m.Date)
	}
	for i, c := range r.Club {
		clock(at("club", i, "from"), c.From)
		clock(at("club", i, "to"), c.To)
		for j, d := range c.Before {
			date(at("club", i, "before", j), d)
		}
	}
	for i, v := range r.Events {
		zone(at("events", i, "zone"), v.Zone)
		zone(at("events", i, "endZone"), v.EndZone)
		wall(at("events", i, "start"), v.Start)
		if v.HasEnd {
			wall(at("events", i, "end"), v.End)
		}
		if v.HasActualEnd {
			wall(at("events", i, "actualEnd"), v.ActualEnd)
		}
	}
	for i, p := range r.Places {
		zone(at("places", i, "zone"), p.Zone)
		hours(at("places", i, "hours"), p.Hours)
		for j, c := range p.Closed {
			date(at("places", i, "closed", j, "from"), c.From)
			date(at("places", i, "closed", j, "to"), c.To)
		}
	}
	for i, v := range r.Log {
		zone(at("log", i, "zone"), v.Zone)
		wall(at("log", i, "start"), v.Start)
		if v.HasEnd {
			wall(at("log", i, "end"), v.End)
		}
	}
	for i, p := range r.Issued {
		if _, err := json.Marshal(p); err != nil {
			e.err(CodeDate, at("issued", i), p.ID, err.Error(), "check the dates of the plan")
		}
	}
	for i, p := range r.Pins {
		date(at("pins", i, "date"), p.Date)
		if p.Start != nil {
			clock(at("pins", i, "start"), *p.Start)
		}
	}
}

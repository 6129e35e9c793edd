package squad

import (
	"encoding/json"
	"errors"
	"strconv"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

type wireRequest struct {
	Schema     int           `json:"schema"`
	Period     season.Period `json:"period"`
	Now        string        `json:"now,omitempty"`
	Athletes   []wireAthlete `json:"athletes"`
	Halls      []wireHall    `json:"halls"`
	Coaches    []wireCoach   `json:"coaches,omitempty"`
	Ratios     []wireRatio   `json:"ratios,omitempty"`
	HomePoints int           `json:"homePoints,omitempty"`
	KindPoints int           `json:"kindPoints,omitempty"`
	MovePoints int           `json:"movePoints,omitempty"`
	Issued     *Plan         `json:"issued,omitempty"`
	Affected   []string      `json:"affected,omitempty"`
}

// wireAthlete has what own names, and what only a squad knows.
type wireAthlete struct {
	Athlete        json.RawMessage `json:"athlete"`
	Events         json.RawMessage `json:"events,omitempty"`
	Places         json.RawMessage `json:"places,omitempty"`
	Rules          json.RawMessage `json:"rules,omitempty"`
	Club           json.RawMessage `json:"club,omitempty"`
	Log            json.RawMessage `json:"log,omitempty"`
	Issued         json.RawMessage `json:"issued,omitempty"`
	Pins           json.RawMessage `json:"pins,omitempty"`
	Played         []Played        `json:"played,omitempty"`
	SupervisedHome bool            `json:"supervisedHome,omitempty"`
	Target         *season.Plan    `json:"target,omitempty"`
	TopUps         []TopUp         `json:"topUps,omitempty"`
}

type wireHall struct {
	ID            string          `json:"id"`
	Hours         []wireHours     `json:"hours"`
	Closed        []season.Period `json:"closed,omitempty"`
	Kit           *[]string       `json:"kit,omitempty"` // empty is a bare floor, none a gym
	Away          bool            `json:"away,omitempty"`
	Zone          string          `json:"zone,omitempty"`
	Capacity      int             `json:"capacity"`
	SlotMinutes   int             `json:"slotMinutes"`
	ChangeMinutes int             `json:"changeMinutes"`
}

type wireCoach struct {
	ID    string          `json:"id"`
	Hall  string          `json:"hall,omitempty"`
	Hours []wireHours     `json:"hours,omitempty"`
	Away  []season.Period `json:"away,omitempty"`
}

type wireRatio struct {
	Under    int `json:"under,omitempty"`
	Athletes int `json:"athletes"`
}

type wireHours struct {
	Days []string `json:"days"`
	From string   `json:"from"`
	To   string   `json:"to"`
}

// MarshalJSON writes what ReadRequest reads. The order of lists is kept. What a
// request of package season does not write of an athlete is not written here, nor
// what an athlete's own request says of period and now.
//
// The error is a *season.InputError: zones that have no IANA name, and dates, clock
// times or instants that could not be read back.
func (r Request) MarshalJSON() ([]byte, error) {
	u := unwritable{}
	w := wireRequest{Schema: Schema, Period: r.Period, Ratios: []wireRatio{}, HomePoints: r.HomePoints, KindPoints: r.KindPoints, MovePoints: r.MovePoints, Issued: r.Issued, Affected: r.Affected,
		Athletes: []wireAthlete{}, Halls: []wireHall{}}
	u.period("/period", r.Period)
	if !r.Now.IsZero() {
		w.Now = r.Now.Format(time.RFC3339Nano)
		if y := r.Now.UTC().Year(); y <= calendar.FirstYear || y >= calendar.LastYear {
			u.add(season.CodeInstant, "/now", strconv.Itoa(y), "the year is outside 1900 to 2199", "check the year")
		}
	}
	for i := range r.Halls {
		w.Halls = append(w.Halls, u.hall("/halls/"+strconv.Itoa(i), &r.Halls[i]))
	}
	for i := range r.Coaches {
		c, path := &r.Coaches[i], "/coaches/"+strconv.Itoa(i)
		w.Coaches = append(w.Coaches, wireCoach{c.ID, c.Hall, u.hours(path+"/hours", c.Hours), u.periods(path+"/away", c.Away)})
	}
	for _, x := range r.Ratios {
		w.Ratios = append(w.Ratios, wireRatio(x))
	}
	for i := range r.Athletes {
		a, err := r.wire(&r.Athletes[i])
		var bad *season.InputError
		if errors.As(err, &bad) {
			for _, p := range bad.Problems {
				if whole, ok := ofAll("/athletes/0" + p.Path); ok && whole == p.Path {
					continue // the squad's own, found above
				}
				p.Path = "/athletes/" + strconv.Itoa(i) + p.Path
				u = append(u, p)
			}
		} else if err != nil {
			return nil, err
		}
		w.Athletes = append(w.Athletes, a)
	}
	if len(u) > 0 {
		return nil, &season.InputError{Problems: u}
	}
	return json.Marshal(w)
}

// wire is an athlete as it is written.
func (r *Request) wire(a *Athlete) (wireAthlete, error) {
	w := wireAthlete{}
	req := a.Season
	req.Period, req.Now = r.Period, r.Now
	b, err := json.Marshal(req)
	if err != nil {
		return w, err
	}
	if err := json.Unmarshal(b, &w); err != nil {
		return w, err
	}
	w.Played, w.SupervisedHome, w.Target, w.TopUps = a.Played, a.SupervisedHome, a.Target, a.TopUps
	return w, nil
}

// unwritable are the problems of what would not survive being written.
type unwritable []calendar.Problem

func (u *unwritable) add(code, path, value, reason, remedy string) {
	*u = append(*u, calendar.Problem{Code: code, Class: calendar.ClassError, Path: path, Value: value, Reason: reason, Remedy: remedy})
}

func (u *unwritable) hall(path string, h *Hall) wireHall {
	if h.Place.Zone.Custom() {
		u.add(season.CodeZone, path+"/zone", h.Place.Zone.Name(), "a zone made of its own transitions cannot be written as a name", "use an IANA zone such as Europe/Berlin")
	}
	w := wireHall{ID: h.Place.ID, Hours: append([]wireHours{}, u.hours(path+"/hours", h.Place.Hours)...), Closed: u.periods(path+"/closed", h.Place.Closed),
		Away: h.Place.Away, Zone: h.Place.Zone.Name(), Capacity: h.Capacity, SlotMinutes: h.SlotMinutes, ChangeMinutes: h.ChangeMinutes}
	if h.Place.Kit != nil {
		w.Kit = &h.Place.Kit
	}
	return w
}

func (u *unwritable) hours(path string, list []season.Hours) []wireHours {
	var out []wireHours
	for i, h := range list {
		if !h.From.Valid() || !h.To.Valid() {
			u.add(season.CodeClock, path+"/"+strconv.Itoa(i), h.From.String()+"-"+h.To.String(), "there is no such time of day", "give times from 00:00 to 24:00")
		}
		w := wireHours{Days: []string{}, From: h.From.String(), To: h.To.String()}
		for _, d := range h.Days {
			w.Days = append(w.Days, weekdays[(int(d)%7+6)%7])
		}
		out = append(out, w)
	}
	return out
}

func (u *unwritable) periods(path string, list []season.Period) []season.Period {
	for i, p := range list {
		u.period(path+"/"+strconv.Itoa(i), p)
	}
	return list
}

func (u *unwritable) period(path string, p season.Period) {
	if !p.From.IsZero() && !sane(p.From) || !p.To.IsZero() && !sane(p.To) {
		u.add(season.CodeDate, path, p.From.String()+" "+p.To.String(), "the year is outside 1900 to 2199", "check the year")
	}
}

// MarshalJSON writes what ReadPlan reads. Empty lists are [], never null.
func (p Plan) MarshalJSON() ([]byte, error) {
	type plain Plan
	w := plain(p)
	w.Athletes = some(w.Athletes)
	w.Slots = append([]Slot{}, w.Slots...)
	for i := range w.Slots {
		w.Slots[i].Kinds, w.Slots[i].Seats = some(w.Slots[i].Kinds), some(w.Slots[i].Seats)
	}
	w.LeftOut = some(w.LeftOut)
	w.Moved = append([]Slip{}, w.Moved...)
	for i := range w.Moved {
		w.Moved[i].Changes, w.Moved[i].Places = some(w.Moved[i].Changes), some(w.Moved[i].Places)
	}
	w.Findings, w.Assumed = some(w.Findings), some(w.Assumed)
	return json.Marshal(w)
}

// some returns the list, or an empty one for nil.
func some[T any](list []T) []T {
	if list == nil {
		return []T{}
	}
	return list
}

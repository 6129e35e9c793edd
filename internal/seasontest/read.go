package seasontest

import (
	"encoding/json"
	"fmt"
	"sort"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

// plan is what the laws are about, read from the JSON of a plan.
type plan struct {
	Outcome string `json:"outcome"`
	Zone    string `json:"zone"`
	Period  struct{ From, To string }
	Cost    struct {
		Broken, Points, Bound int64
		ByRule                []struct {
			Rule           string
			Broken, Points int64
		}
	}
	Sessions []session
	Missed   []struct {
		Aim, From, To, Event, Session, Text string
		Points                              int64
		InTheWay                            []struct{ Rule, Event string }
	}
	Findings []struct{ Code, Rule string }
}

type session struct {
	ID, Place, Kind, State, Date string
	Start, End                   time.Time
	Minutes                      int
	Pinned, HeavyLowerBody       bool
	Local                        *struct{ Zone, Start, End string }

	day            int       // dates since 1970
	local, localTo time.Time // by the clock of the place
	history        bool      // before the period, from the log
}

func (s *session) forced() bool { return s.Pinned || s.State == "done" || s.history }
func (s *session) lift() bool   { return s.Kind != "recovery" }
func (s *session) heavy() bool {
	switch s.Kind {
	case "full-body", "trimmed-full-body", "post-game", "eccentric":
		return true
	}
	return false
}
func (s *session) full() bool { return s.Kind == "full-body" || s.Kind == "eccentric" }

// event is an active event on the time line.
type event struct {
	kind                  string
	start, end            time.Time
	day                   int // local date of its start
	endClock              int // local minutes since midnight of that date
	dateOnly, ifNecessary bool
	blockFrom, blockTo    time.Time
	longHaul              bool
	id                    string
	zone, endZone         *time.Location
}

// reader holds plan and request in plain rows.
type reader struct {
	req      *season.Request
	plan     plan
	zone     *time.Location
	from, to int
	sessions []*session // history first, by start
	events   []*event   // by start
	games    []*event
	now      time.Time

	lostDays map[int]bool // what lost has answered
	visits   []visit
	trips    []trip
	journeys []trip // and visits of games: no place at home is in reach
}

func dayOf(t time.Time) int {
	_, offset := t.Zone()
	local := t.Unix() + int64(offset)
	if local < 0 {
		local -= 86399
	}
	return int(local / 86400)
}

func dayNumber(s string) int {
	t, err := time.Parse("2006-01-02", s)
	if err != nil {
		return -1 << 30
	}
	return int(t.Unix() / 86400)
}

func dateText(day int) string { return time.Unix(int64(day)*86400, 0).UTC().Format("2006-01-02") }

func weekdayOf(day int) time.Weekday { return time.Unix(int64(day)*86400, 0).UTC().Weekday() }

// at is the instant of a wall time that exists once.
func at(w calendar.Wall, z *time.Location) time.Time {
	minutes := int(w.Clock) / 60
	if minutes == 1440 {
		w, minutes = calendar.Wall{Date: w.Date.AddDays(1)}, 0
	}
	t, err := time.ParseInLocation("2006-01-02 15:04:05", fmt.Sprintf("%s %02d:%02d:%02d", w.Date, minutes/60, minutes%60, int(w.Clock)%60), z)
	if err != nil {
		return time.Time{}
	}
	return t
}

// dayStart is the first instant of a date: midnight, or what a clock change
// makes of it.
func dayStart(day int, z *time.Location) time.Time {
	t, _ := time.ParseInLocation("2006-01-02 15:04", dateText(day)+" 12:00", z)
	for dayOf(t.Add(-time.Minute).In(z)) == day {
		t = t.Add(-time.Minute)
	}
	return t
}

func read(planJSON []byte, req *season.Request) (*reader, error) {
	r := &reader{req: req}
	if err := json.Unmarshal(planJSON, &r.plan); err != nil {
		return nil, err
	}
	var err error
	if r.zone, err = time.LoadLocation(r.plan.Zone); err != nil {
		return nil, err
	}
	r.from, r.to = dayNumber(r.plan.Period.From), dayNumber(r.plan.Period.To)
	for i := range req.Events {
		if e := r.event(&req.Events[i]); e != nil {
			r.events = append(r.events, e)
		}
	}
	sort.SliceStable(r.events, func(i, j int) bool {
		a, b := r.events[i], r.events[j]
		if !a.start.Equal(b.start) {
			return a.start.Before(b.start)
		}
		return a.end.Before(b.end)
	})
	for _, e := range r.events {
		if e.kind == "game" {
			r.games = append(r.games, e)
		}
	}
	r.where()
	r.now = req.Now
	if r.now.IsZero() { // the first instant of the period where the athlete is
		r.now = dayStart(r.from, r.zone)
		if len(r.visits) > 0 {
			for r.now = r.now.Add(-27 * time.Hour); r.dayAt(r.now) < r.from; {
				r.now = r.now.Add(time.Minute)
			}
		}
	}
	for _, l := range req.Log {
		z := r.zone
		if !l.Zone.IsZero() {
			z = l.Zone.Location()
		}
		s := &session{ID: l.ID, Kind: string(l.Kind), Start: at(l.Start, z), history: true}
		s.End = s.Start.Add(time.Duration(r.usual(s.Kind)) * time.Minute)
		if l.HasEnd {
			s.End = at(l.End, z)
		}
		if r.place(s); s.day < r.from && !l.Missed {
			r.sessions = append(r.sessions, s)
		}
	}
	for i := range r.plan.Sessions {
		s := &r.plan.Sessions[i]
		r.place(s)
		r.sessions = append(r.sessions, s)
	}
	sort.SliceStable(r.sessions, func(i, j int) bool { return r.sessions[i].Start.Before(r.sessions[j].Start) })
	return r, nil
}

func (r *reader) place(s *session) {
	z := r.clockOf(s)
	s.local, s.localTo = s.Start.In(z), s.End.In(z)
	s.day = r.dayAt(s.Start)
}

func (r *reader) usual(kind string) int {
	switch kind {
	case "full-body":
		return r.value("minutes-full-body", 55)
	case "trimmed-full-body":
		return r.value("minutes-trimmed", 45)
	case "primer":
		return r.value("minutes-primer", 35)
	case "recovery":
		return r.value("minutes-recovery", 40)
	case "eccentric":
		return r.value("minutes-eccentric", 60)
	}
	return 30
}

// clockAt is local minutes since midnight of a date.
func clockAt(t time.Time, day int) int { return (dayOf(t)-day)*1440 + t.Hour()*60 + t.Minute() }

func (r *reader) event(e *calendar.Event) *event {
	if e.Status == calendar.Cancelled || e.Status == calendar.Postponed {
		return nil
	}
	zone := r.zone
	if !e.Zone.IsZero() {
		zone = e.Zone.Location()
	}
	endZone := zone
	if !e.EndZone.IsZero() {
		endZone = e.EndZone.Location()
	}
	out := &event{zone: zone, endZone: endZone, id: e.ID, kind: string(e.Kind), dateOnly: e.DateOnly, ifNecessary: e.Status == calendar.IfNecessary}
	day := dayNumber(e.Start.Date.String())
	switch {
	case e.DateOnly && e.Kind == calendar.Game:
		nine, ten := e.Start, e.Start
		nine.Clock, ten.Clock = 9*3600, 22*3600
		out.start, out.end = at(nine, zone), at(ten, zone)
	case e.DateOnly && e.Kind == calendar.Exam && (!e.HasEnd || dayNumber(e.End.Date.String()) == day+1):
		eight, five := e.Start, e.Start
		eight.Clock, five.Clock = 8*3600, 17*3600
		out.start, out.end = at(eight, zone), at(five, zone)
	case e.DateOnly:
		last := day + 1
		if e.HasEnd {
			last = dayNumber(e.End.Date.String())
		}
		out.start, out.end = dayStart(day, zone), dayStart(last, endZone)
	default:
		out.start = at(e.Start, zone)
		assumed := map[calendar.Kind]int{calendar.Game: r.value("game-minutes", 120), calendar.Practice: 90, calendar.Skills: 60, calendar.Travel: 180, calendar.Exam: 120}
		switch {
		case e.HasActualEnd:
			out.end = at(e.ActualEnd, endZone)
		case e.HasEnd:
			out.end = at(e.End, endZone)
		default:
			out.end = out.start.Add(time.Duration(assumed[e.Kind]) * time.Minute)
		}
	}
	out.day = dayOf(out.start.In(zone))
	out.endClock = clockAt(out.end.In(endZone), min(out.day, dayOf(out.end.In(endZone))))
	if e.Kind == calendar.Travel {
		_, a := out.end.In(zone).Zone()
		_, b := out.end.In(endZone).Zone()
		out.longHaul = out.end.Sub(out.start) >= 6*time.Hour || max(a-b, b-a) >= 6*3600
	}
	before, after := 0, 0
	switch e.Kind {
	case calendar.Game:
		before, after = r.value("buffer-game-before", 45), r.value("buffer-game-after", 15)
	case calendar.Practice, calendar.Skills:
		before, after = r.value("buffer-practice-before", 15), r.value("buffer-practice-after", 15)
	case calendar.Travel:
		before, after = r.value("buffer-travel-before", 0), r.value("buffer-travel-after", 30)
	case calendar.Exam:
		before, after = r.value("buffer-exam-before", 30), r.value("buffer-exam-after", 0)
	}
	out.blockFrom = out.start.Add(-time.Duration(before) * time.Minute)
	out.blockTo = out.end.Add(time.Duration(after) * time.Minute)
	return out
}

// value is a number of the request's rules, or the default.
func (r *reader) value(id string, usual int) int {
	for _, o := range r.req.Rules {
		if o.Rule == id && o.Value != nil {
			return *o.Value
		}
	}
	return usual
}

func (r *reader) hours(id string, usual int) time.Duration {
	return time.Duration(r.value(id, usual)) * time.Hour
}

func (r *reader) off(id string) bool {
	for _, o := range r.req.Rules {
		if o.Rule == id && o.Off {
			return true
		}
	}
	return false
}

package seasontest

import (
	"fmt"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize/rule"
	"example.org/weft/periodize/season"
	"pgregory.net/rapid"
)

// Options say what kind of season is drawn. The zero value draws all there is,
// of 7 to 24 dates.
type Options struct {
	MinDates, MaxDates int      // of the period
	Zones              []string // nil: Zones
	Plain              bool     // nothing that people force or mark oddly: no pins, overrides, holds, no log but of what was planned
	Steady             bool     // age and training age keep their class over the period and the weeks around it
	Tight              bool     // few open hours, so that few plans exist
}

// Zones are those of random seasons: with clock changes at night, at midnight
// and of half an hour, without any, and far from UTC on both sides.
var Zones = []string{
	"Europe/Amsterdam", "America/New_York", "Australia/Lord_Howe", "Africa/Cairo", "America/Santiago",
	"Pacific/Auckland", "Asia/Kolkata", "UTC", "Pacific/Kiritimati",
}

// FixedZones have no clock change in the years of random seasons.
var FixedZones = []string{"Asia/Kolkata", "UTC", "Pacific/Kiritimati"}

// starts of periods: plain weeks, and weeks around the clock changes of Zones.
var firstDates = []string{
	"2026-11-09", "2026-11-12", "2027-01-11", "2026-10-19", "2026-10-21", "2027-03-22", "2027-03-08", "2026-10-26",
	"2026-09-01", "2026-09-21", "2027-03-29", "2027-04-19", "2026-12-28", "2028-02-23",
}

type maker struct {
	t    *rapid.T
	o    Options
	zone calendar.Zone
	from calendar.Date
	days int
	req  *season.Request
	n    int
}

func (m *maker) int(label string, lo, hi int) int { return rapid.IntRange(lo, hi).Draw(m.t, label) }

// odds is true once in n draws.
func (m *maker) odds(label string, n int) bool { return m.int(label, 0, n-1) == n-1 }

func pick[T any](m *maker, label string, from ...T) T {
	return from[m.int(label, 0, len(from)-1)]
}

// Zone loads a zone; the test fails if there is none.
func Zone(name string) calendar.Zone {
	z, err := calendar.LoadZone(name)
	if err != nil {
		panic(err) // of a test: the zone data is missing
	}
	return z
}

// Date reads a date of a test.
func Date(s string) calendar.Date {
	d, err := calendar.ParseDate(s)
	if err != nil {
		panic(err) // of a test
	}
	return d
}

// Request draws a valid request without issued plans.
func Request(t *rapid.T, o Options) *season.Request {
	if o.MaxDates == 0 {
		o.MinDates, o.MaxDates = 7, 24
	}
	if o.Zones == nil {
		o.Zones = Zones
	}
	m := &maker{t: t, o: o, req: &season.Request{Schema: season.Schema}}
	m.zone = Zone(pick(m, "zone", o.Zones...))
	m.from = Date(pick(m, "from", firstDates...)).AddDays(m.int("later", 0, 3))
	m.days = m.int("dates", o.MinDates, o.MaxDates)
	m.req.Period = season.Period{From: m.from, To: m.from.AddDays(m.days - 1)}
	m.athlete()
	m.places()
	m.games()
	m.others()
	m.journey()
	if !o.Plain {
		m.holds()
		m.history()
		m.pins()
		m.rules()
	}
	return m.req
}

func (m *maker) athlete() {
	a := &m.req.Athlete
	a.ID, a.Zone, a.TrainingAgeMonths = "a", m.zone, -1
	year, month, _ := m.from.YMD()
	age := pick(m, "age", 25, 17, 15, 13, 0, 19, 16, 12)
	if age > 0 {
		born := month // comes of another age within the period, now and then
		if m.o.Steady || !m.odds("birthday", 3) {
			born = (month+5)%12 + 1
		}
		a.Born = season.YearMonth{Year: year - age, Month: born}
		if born > month {
			a.Born.Year--
		}
	}
	if !m.odds("trainingUnknown", 5) {
		a.TrainingAgeMonths = pick(m, "training", 36, 24, 12, 11, 0)
		if age > 0 && a.TrainingAgeMonths > age*12 {
			a.TrainingAgeMonths = 0
		}
	}
	if m.odds("postGame", 2) {
		a.OptIns = append(a.OptIns, season.OptPostGame)
	}
	switch {
	case m.o.Tight || m.odds("hours", 2):
		for range m.int("hourRows", 1, 3) {
			a.Hours = append(a.Hours, m.hours())
		}
	}
	if m.odds("prefer", 4) {
		a.Prefer = append(a.Prefer, season.Prefer{Days: m.weekdays("preferDays"), Start: clock(pick(m, "preferAt", 18*60, 7*60, 12*60+30))})
	}
}

func clock(minutes int) calendar.Clock { return calendar.Clock(minutes * 60) }

func (m *maker) weekdays(label string) []time.Weekday {
	bits := m.int(label, 1, 127)
	var out []time.Weekday
	for d := time.Sunday; d <= time.Saturday; d++ {
		if bits>>int(d)&1 == 1 {
			out = append(out, d)
		}
	}
	return out
}

func (m *maker) hours() season.Hours {
	spans := [][2]int{{16 * 60, 19 * 60}, {17 * 60, 18 * 60}, {6 * 60, 8 * 60}, {9 * 60, 21 * 60}, {0, 24 * 60}, {12 * 60, 13*60 + 5}, {19 * 60, 22*60 + 30}, {15*60 + 30, 20*60 + 30}}
	if m.o.Tight {
		spans = spans[:3]
	}
	x := pick(m, "hours", spans...)
	return season.Hours{Days: m.weekdays("days"), From: clock(x[0]), To: clock(x[1])}
}

func (m *maker) places() {
	n := pick(m, "places", 1, 0, 2)
	for i := range n {
		p := season.Place{ID: fmt.Sprintf("place-%d", i+1)}
		for range m.int("placeRows", 0, 2) {
			p.Hours = append(p.Hours, m.hours())
		}
		if m.odds("closed", 3) {
			at := m.from.AddDays(m.int("closedFrom", 0, m.days-1))
			p.Closed = append(p.Closed, season.Period{From: at, To: at.AddDays(m.int("closedDays", 0, 4))})
		}
		m.req.Places = append(m.req.Places, p)
	}
}

// event adds an event whose wall times exist once.
func (m *maker) event(e calendar.Event, startMinute, minutes int) {
	m.n++
	e.ID = fmt.Sprintf("e%02d", m.n)
	e.Opponent = fmt.Sprintf("Team %d", m.n) // no two are alike
	if e.Zone.IsZero() {
		e.Zone = m.zone
	}
	e.Start.Date = e.Start.Date.AddDays(startMinute / 1440)
	e.Start.Clock = clock(startMinute % 1440)
	if e.Zone.Resolve(e.Start).Fit != calendar.Exact {
		return
	}
	if minutes > 0 {
		e.End, e.HasEnd = e.Start.AddMinutes(minutes), true
		if e.Zone.Resolve(e.End).Fit != calendar.Exact {
			return
		}
	}
	m.req.Events = append(m.req.Events, e)
}

func (m *maker) games() {
	at := m.from.AddDays(-m.int("firstGame", 0, 12))
	last := m.from.AddDays(m.days + 9)
	for n := 0; !at.After(last) && n < 14; n++ {
		m.game(at, -1)
		switch m.int("next", 0, 9) {
		case 0, 1:
			at = at.AddDays(1) // back to back
		case 2:
			m.game(at, pick(m, "second", 18*60, 20*60+30)) // two on one date
			at = at.AddDays(m.int("gap", 2, 8))
		case 3:
			at = at.AddDays(m.int("long", 8, 17))
		default:
			at = at.AddDays(m.int("gap", 2, 8))
		}
		if m.odds("stop", 9) {
			return
		}
	}
}

func (m *maker) game(on calendar.Date, start int) {
	e := calendar.Event{Kind: calendar.Game, Start: calendar.Wall{Date: on}}
	e.Status = pick(m, "status", calendar.Confirmed, "", calendar.Provisional, calendar.IfNecessary, calendar.Cancelled, calendar.Postponed)
	e.Importance = pick(m, "importance", calendar.Normal, calendar.Important, "")
	if start < 0 && m.odds("dateOnly", 8) {
		m.n++
		e.ID, e.Opponent, e.Zone, e.DateOnly = fmt.Sprintf("e%02d", m.n), fmt.Sprintf("Team %d", m.n), m.zone, true
		m.req.Events = append(m.req.Events, e)
		return
	}
	if start < 0 {
		start = pick(m, "start", 15*60, 19*60, 10*60, 13*60+7, 20*60+15, 22*60+45, 11*60)
	}
	if m.odds("away", 10) {
		e.Zone = Zone(pick(m, "awayZone", "America/New_York", "Europe/London", "Asia/Kolkata"))
	}
	before := len(m.req.Events)
	m.event(e, start, pick(m, "minutes", 100, 0, 75, 150))
	if len(m.req.Events) > before && m.odds("overtime", 8) {
		g := &m.req.Events[before]
		g.ActualEnd, g.HasActualEnd = g.Start.AddMinutes(170), true
		if g.Zone.Resolve(g.ActualEnd).Fit != calendar.Exact {
			g.HasActualEnd, g.ActualEnd = false, calendar.Wall{}
		}
	}
}

func (m *maker) others() {
	if m.odds("practices", 2) { // fixed weekdays
		days := m.weekdays("practiceDays")
		start, minutes := pick(m, "practiceAt", 19*60, 17*60+30, 20*60), pick(m, "practiceMinutes", 90, 75, 110)
		for d := m.from.AddDays(-8); !d.After(m.from.AddDays(m.days + 8)); d = d.AddDays(1) {
			for _, wd := range days {
				if wd == d.Weekday() {
					e := calendar.Event{Kind: pick(m, "kind", calendar.Practice, calendar.Practice, calendar.Skills), Start: calendar.Wall{Date: d}}
					e.Hard = m.odds("hard", 4) && !(m.o.Plain && e.Kind == calendar.Skills)
					m.event(e, start, minutes)
				}
			}
		}
	}
	for range m.int("others", 0, 4) {
		d := m.from.AddDays(m.int("otherOn", -2, m.days))
		e := calendar.Event{Start: calendar.Wall{Date: d}}
		switch m.int("otherKind", 0, 5) {
		case 0:
			e.Kind = calendar.Exam
			m.event(e, pick(m, "examAt", 9*60, 13*60, 16*60), pick(m, "examMinutes", 180, 0, 60))
		case 1:
			e.Kind = calendar.Travel
			e.EndZone = Zone(pick(m, "to", "America/New_York", "Asia/Kolkata", m.zone.Name()))
			m.event(e, pick(m, "travelAt", 8*60, 14*60, 19*60, 22*60), 0)
			m.travelEnd(pick(m, "travelMinutes", 150, 380, 700))
		case 2:
			e.Kind = pick(m, "block", calendar.Closure, calendar.Busy)
			m.event(e, pick(m, "blockAt", 8*60, 16*60), pick(m, "blockMinutes", 240, 60, 1500))
		case 3:
			e.Kind, e.DateOnly = pick(m, "block", calendar.Closure, calendar.Busy, calendar.Exam), true
			e.End, e.HasEnd = calendar.Wall{Date: d.AddDays(m.int("blockDays", 1, 5))}, true
			m.n++
			e.ID, e.Title, e.Zone = fmt.Sprintf("e%02d", m.n), fmt.Sprintf("Block %d", m.n), m.zone
			m.req.Events = append(m.req.Events, e)
		case 4:
			e.Kind = calendar.Busy
			m.event(e, pick(m, "busyAt", 17*60, 18*60+40), pick(m, "busyMinutes", 45, 130))
		default:
			e.Kind, e.Hard = calendar.Practice, m.odds("hard", 2)
			m.event(e, pick(m, "practiceAt", 9*60+30, 21*60), 90)
		}
	}
}

// travelEnd gives the last event an end in its end zone so many minutes after
// its start.
func (m *maker) travelEnd(minutes int) {
	e := &m.req.Events[len(m.req.Events)-1]
	if e.Kind != calendar.Travel || e.HasEnd {
		return
	}
	end := e.Zone.Resolve(e.Start).Instant.Add(time.Duration(minutes) * time.Minute)
	w := e.EndZone.Local(end)
	if e.EndZone.Resolve(w).Fit == calendar.Exact {
		e.End, e.HasEnd = w, true
		return
	}
	e.EndZone = calendar.Zone{}
}

func (m *maker) holds() {
	if !m.odds("hold", 6) {
		return
	}
	h := season.Hold{From: m.from.AddDays(m.int("holdFrom", -5, m.days-1))}
	if h.From.Before(m.from) && m.odds("cleared", 2) {
		h.ClearedBy, h.ClearedOn = "physiotherapist", m.from
	}
	m.req.Athlete.Holds = append(m.req.Athlete.Holds, h)
}

// history logs sessions of the dates before the period.
func (m *maker) history() {
	for range m.int("history", 0, 3) {
		at := calendar.Wall{Date: m.from.AddDays(-m.int("ago", 1, 8)), Clock: clock(pick(m, "doneAt", 17*60, 9*60, 20*60))}
		if m.zone.Resolve(at).Fit != calendar.Exact {
			continue
		}
		m.n++
		d := season.Done{ID: fmt.Sprintf("h%02d", m.n), Kind: pick(m, "doneKind", season.Kinds()...), Start: at, Missed: m.odds("missed", 5)}
		if m.odds("doneEnd", 2) {
			d.End, d.HasEnd = at.AddMinutes(50), true
		}
		m.req.Log = append(m.req.Log, d)
	}
}

func (m *maker) pins() {
	seen := map[calendar.Date]bool{}
	for range m.int("pins", 0, 2) {
		p := season.Pin{Date: m.from.AddDays(m.int("pinOn", 0, m.days-1))}
		if seen[p.Date] {
			continue
		}
		seen[p.Date] = true
		switch m.int("pinKind", 0, 3) {
		case 0:
			p.None = true
		case 1:
			p.Kind = pick(m, "pinned", season.Kinds()...)
		default:
			p.Kind = pick(m, "pinned", season.Kinds()...)
			c := clock(pick(m, "pinAt", 17*60, 10*60, 21*60+30, 6*60, 18*60))
			p.Start = &c
			if m.zone.Resolve(calendar.Wall{Date: p.Date, Clock: c}).Fit != calendar.Exact {
				continue
			}
			if len(m.req.Places) > 0 {
				p.Place = m.req.Places[0].ID
			}
		}
		m.req.Pins = append(m.req.Pins, p)
	}
}

func (m *maker) rules() {
	if !m.odds("rules", 3) {
		return
	}
	for range m.int("overrides", 1, 3) {
		o := pick(m, "override", overrides...)
		more := append(append([]season.Override(nil), m.req.Rules...), o)
		if _, problems := rule.New(more); len(problems) == 0 { // neither twice nor contradicting
			m.req.Rules = more
		}
	}
}

func value(id string, n int) season.Override {
	return season.Override{Rule: id, Value: &n, By: "head coach", Reason: "trial"}
}

func off(id string) season.Override {
	return season.Override{Rule: id, Off: true, By: "head coach", Reason: "trial"}
}

func points(id string, n int) season.Override { return season.Override{Rule: id, Points: &n} }

var overrides = []season.Override{
	value("heavy-before-game", 30), value("full-before-game", 60), value("full-before-game", 36), value("eccentric-before-game", 60),
	value("primer-latest", 8), value("primer-earliest", 30), value("between-games", 30), value("after-game-full", 12), value("after-game-full", 40),
	value("after-game-trimmed", 20), value("post-game-next", 48), value("post-game-age", 15), value("latest-end", 23*60), value("latest-end-minor", 20*60+15),
	value("latest-end-15", 19*60), value("sleep", 7), value("sleep-minor", 12), value("sessions-a-date", 2), value("sessions-a-date-break", 1),
	value("sessions-apart", 4), value("exam-count", 1), value("lifts-in-7", 2), value("lifts-in-7", 4), value("lifts-in-7-beginner", 1),
	value("heavy-gap", 60), value("heavy-gap", 30), value("no-free-date", 1), value("eccentric-place", 1), value("eccentric-count", 1),
	value("buffer-game-after", 60), value("buffer-practice-before", 45), value("game-minutes", 90), value("week-start", 0), value("week-start", 4),
	value("empty-run", 2), value("lift-run", 2), value("recovery-least", 1), value("recovery-most", 2), value("prefer-weekday", 18*60),
	value("near-game", 60), value("minutes-full-body", 45), value("minutes-recovery", 30), value("start-time", 30),
	off("full-before-game"), off("eccentric-before-game"), off("between-games"), off("game-date"), off("after-game-full"), off("after-game-trimmed"),
	off("double-fixture"), off("sleep"), off("exam-date"), off("exam-count"), off("long-haul"), off("minor-lift-dates"), off("free-date"), off("no-free-date"),
	off("primer"), off("recovery-after"), off("lift-run"), off("size"), off("change"),
	points("primer", 2500), points("recovery-count", 0), points("start-time", 70), points("second-lift", 10), points("change", 60), points("lift-run", 300),
	points("size", 9), points("near-game", 400), points("break-session", 500), points("hard-day", 200), points("primer-timing", 300), points("practice-order", 40),
}

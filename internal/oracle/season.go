package oracle

import (
	"fmt"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

// Options say what sort of season is drawn.
type Options struct {
	Days      int  // of the period
	Congested bool // a game every two or three dates
	Plain     bool // no pins, log, holds or changed rules
	Load      bool // weekly load band and ramp, 4 and 3 points a block
	Rolling   bool // rolling count and rolling load, 3 and 2 points
	Stress    bool // every aim at random points
	Tight     bool // open two hours a day, so that a date has few options
}

type maker struct {
	*Source
	o    Options
	req  *season.Request
	zone calendar.Zone
	from calendar.Date
	busy map[int]bool // day numbers with a game
	n    int
}

// Request draws a valid season: one seed, one season.
func Request(seed uint64, o Options) (*season.Request, error) {
	m := &maker{Source: NewSource(seed), o: o, req: &season.Request{Schema: season.Schema}, busy: map[int]bool{}}
	zone, err := calendar.LoadZone(pick(m.Source, "Europe/Amsterdam", "America/New_York", "UTC", "Australia/Lord_Howe", "Asia/Kolkata"))
	if err != nil {
		return nil, err
	}
	first, err := calendar.ParseDate(pick(m.Source, "2026-08-31", "2026-09-28", "2026-10-19", "2027-01-04", "2027-03-15"))
	if err != nil {
		return nil, err
	}
	m.zone, m.from = zone, first.AddDays(m.Int(0, 6))
	if m.Odds(2) { // most periods begin with a week
		m.from = first
	}
	m.req.Period = season.Period{From: m.from, To: m.from.AddDays(o.Days - 1)}
	m.athlete()
	m.games()
	m.practices()
	m.others()
	m.points()
	if !o.Plain {
		m.past()
		m.pins()
		m.holds()
		m.values()
	}
	return m.req, nil
}

func at(minutes int) calendar.Clock { return calendar.Clock(minutes * 60) }

var (
	workdays = []time.Weekday{time.Monday, time.Tuesday, time.Wednesday, time.Thursday, time.Friday}
	weekend  = []time.Weekday{time.Saturday, time.Sunday}
	allDays  = append([]time.Weekday{time.Sunday, time.Saturday}, workdays...)
)

func (m *maker) athlete() {
	a := &m.req.Athlete
	a.ID, a.Zone = "a", m.zone
	year, month, _ := m.from.YMD()
	age := pick(m.Source, 24, 19, 30, 22, 17, 16, 15, 13)
	a.Born = season.YearMonth{Year: year - age, Month: (month+m.Int(3, 8))%12 + 1}
	if a.Born.Month > month {
		a.Born.Year--
	}
	a.TrainingAgeMonths = min(pick(m.Source, 60, 36, 30, 24, 18, 12, 6), age*6)
	if m.Odds(2) {
		a.OptIns = append(a.OptIns, season.OptPostGame)
	}
	switch {
	case m.o.Tight:
		a.Hours = []season.Hours{{Days: allDays, From: at(16 * 60), To: at(18 * 60)}}
	case m.Odds(2):
		a.Hours = []season.Hours{
			{Days: workdays, From: at(pick(m.Source, 6*60+30, 15*60, 16*60)), To: at(pick(m.Source, 19*60, 20*60+30, 22*60))},
			{Days: weekend, From: at(8 * 60), To: at(22 * 60)},
		}
	}
	if m.Odds(5) {
		a.Prefer = []season.Prefer{{Days: workdays, Start: at(pick(m.Source, 7*60, 12*60+30, 18*60))}}
	}
	if m.Odds(3) {
		p := season.Place{ID: "club", Hours: []season.Hours{{Days: allDays, From: at(7 * 60), To: at(21 * 60)}}}
		if m.Odds(2) {
			d := m.from.AddDays(m.Int(0, m.o.Days-1))
			p.Closed = []season.Period{{From: d, To: d.AddDays(m.Int(0, 3))}}
		}
		m.req.Places = append(m.req.Places, p)
		if m.Odds(3) {
			m.req.Places = append(m.req.Places, season.Place{ID: "home"})
		}
	}
}

// event adds an event whose wall times exist once in its zone.
func (m *maker) event(kind calendar.Kind, d calendar.Date, start, minutes int, set func(*calendar.Event)) {
	m.n++
	e := calendar.Event{ID: fmt.Sprintf("e%03d", m.n), Kind: kind, Title: fmt.Sprintf("%s %d", kind, m.n), Zone: m.zone,
		Start: calendar.Wall{Date: d, Clock: at(start)}}
	if set != nil {
		set(&e)
	}
	if !e.DateOnly {
		e.End, e.HasEnd = e.Start.AddMinutes(minutes), true
		if m.zone.Resolve(e.Start).Fit != calendar.Exact || m.zone.Resolve(e.End).Fit != calendar.Exact {
			return
		}
	}
	m.req.Events = append(m.req.Events, e)
}

func (m *maker) game(d calendar.Date) {
	m.busy[d.DayNumber()] = true
	start := pick(m.Source, 15*60, 14*60+30, 19*60+30, 20*60, 11*60)
	set := func(e *calendar.Event) {
		e.Opponent = fmt.Sprintf("Team %d", m.n)
		e.Status = pick(m.Source, calendar.Confirmed, calendar.Confirmed, calendar.Confirmed, calendar.Provisional,
			calendar.Confirmed, calendar.Confirmed, calendar.IfNecessary, calendar.Confirmed, calendar.Postponed, calendar.Cancelled)
		e.Importance = pick(m.Source, calendar.Normal, calendar.Normal, calendar.Normal, calendar.Important)
		if m.Odds(15) {
			e.DateOnly, e.Start.Clock = true, 0
		}
	}
	m.event(calendar.Game, d, start, pick(m.Source, 105, 115, 120), set)
}

func (m *maker) games() {
	last := m.from.AddDays(m.o.Days + 9)
	if m.o.Congested {
		for d := m.from.AddDays(-m.Int(0, 6)); !d.After(last); {
			m.game(d)
			d = d.AddDays(pick(m.Source, 1, 2, 2, 3, 3, 3, 4, 5))
			if m.Odds(25) {
				d = d.AddDays(m.Int(7, 13))
			}
		}
		return
	}
	usual := pick(m.Source, time.Saturday, time.Sunday)
	pause := 1 << 30 // day number at which a break begins
	if m.o.Days >= 56 || m.Odds(4) {
		pause = m.from.DayNumber() + m.Int(0, m.o.Days-1)
	}
	length := m.Int(10, 21)
	for d := m.from.AddDays(-7); !d.After(last); d = d.AddDays(1) {
		if n := d.DayNumber(); n >= pause && n < pause+length {
			continue
		}
		switch wd := d.Weekday(); {
		case wd == usual && !m.Odds(7), (wd == time.Tuesday || wd == time.Wednesday) && m.Odds(8):
			m.game(d)
			if m.Odds(20) {
				m.game(d) // two on one date
			}
		case wd == time.Friday && m.Odds(14):
			m.game(d)
		}
	}
}

func (m *maker) practices() {
	start := pick(m.Source, 19*60, 18*60+30, 17*60, 10*60)
	hard := pick(m.Source, workdays...)
	on := map[time.Weekday]bool{}
	for range m.Int(0, 4) {
		on[pick(m.Source, workdays...)] = true
	}
	skills := pick(m.Source, workdays...)
	for d := m.from.AddDays(-8); !d.After(m.from.AddDays(m.o.Days + 8)); d = d.AddDays(1) {
		if !on[d.Weekday()] || m.busy[d.DayNumber()] || m.Odds(12) {
			continue
		}
		kind := calendar.Practice
		if d.Weekday() == skills {
			kind = calendar.Skills
		}
		m.event(kind, d, start, 90, func(e *calendar.Event) { e.Hard = kind == calendar.Practice && d.Weekday() == hard })
	}
}

func (m *maker) others() {
	month := (m.o.Days + 27) / 28
	day := func() calendar.Date { return m.from.AddDays(m.Int(0, m.o.Days-1)) }
	for range month {
		for range m.Int(0, 2) {
			m.event(calendar.Busy, day(), pick(m.Source, 8*60, 17*60, 18*60+40), pick(m.Source, 60, 130, 300), nil)
		}
		if m.Odds(3) {
			m.event(calendar.Travel, day(), pick(m.Source, 8*60, 14*60, 20*60), pick(m.Source, 120, 180, 420), nil)
		}
		if m.Odds(6) {
			d := day()
			m.event(calendar.Closure, d, 0, 0, func(e *calendar.Event) {
				e.DateOnly, e.HasEnd, e.End = true, true, calendar.Wall{Date: d.AddDays(m.Int(1, 4))}
			})
		}
	}
	for range (month + 1) / 2 {
		if m.Odds(2) {
			continue
		}
		d := day()
		for i := range 5 {
			if m.Odds(3) {
				continue
			}
			m.event(calendar.Exam, d.AddDays(i), pick(m.Source, 9*60, 13*60), 120, nil)
		}
	}
}

package squad

import (
	"fmt"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

func date(s string) calendar.Date {
	d, err := calendar.ParseDate(s)
	if err != nil {
		panic(err) // of a test
	}
	return d
}

func zoneOf(name string) calendar.Zone {
	z, err := calendar.LoadZone(name)
	if err != nil {
		panic(err) // of a test: the zone data is missing
	}
	return z
}

func clock(hour, minute int) calendar.Clock { return calendar.Clock(hour*3600 + minute*60) }

var (
	workdays = []time.Weekday{time.Monday, time.Tuesday, time.Wednesday, time.Thursday, time.Friday}
	weekend  = []time.Weekday{time.Saturday, time.Sunday}
	allDays  = append([]time.Weekday{time.Saturday, time.Sunday}, workdays...)
)

// club is an invented club of adults in three teams, with one hall.
func club(n, days, capacity int) *Request {
	zone := zoneOf("Europe/Oslo")
	from := date("2026-11-09")
	r := &Request{Period: season.Period{From: from, To: from.AddDays(days - 1)}}
	r.Halls = []Hall{{Place: season.Place{ID: "hall", Hours: []season.Hours{
		{Days: workdays, From: clock(15, 0), To: clock(19, 30)}, {Days: weekend, From: clock(9, 0), To: clock(12, 0)}}},
		Capacity: capacity, SlotMinutes: 60, ChangeMinutes: 5}}
	for i := range n {
		a := Athlete{}
		a.Season.Athlete = season.Athlete{ID: fmt.Sprintf("a%02d", i+1), Born: season.YearMonth{Year: 1996 + i%8, Month: 1 + i%12}, Zone: zone,
			TrainingAgeMonths: 24 + i%25*3, Hours: []season.Hours{{Days: allDays, From: clock(9+i%3, 0), To: clock(21, 0)}}}
		a.Season.Places = []season.Place{{ID: "home"}}
		a.Season.Events = teamEvents(zone, from, days, i%3)
		r.Athletes = append(r.Athletes, a)
	}
	return r
}

// teamEvents are practices on Tuesday and Thursday and a game at the weekend, for
// one team also every other Wednesday.
func teamEvents(zone calendar.Zone, from calendar.Date, days, team int) []calendar.Event {
	var out []calendar.Event
	for i := range days {
		d := from.AddDays(i)
		e := calendar.Event{Zone: zone, HasEnd: true}
		wd := d.Weekday()
		switch {
		case wd == time.Tuesday || wd == time.Thursday:
			e.ID, e.Kind, e.Hard = fmt.Sprintf("p%d", i), calendar.Practice, wd == time.Thursday && team == 1
			e.Start = calendar.Wall{Date: d, Clock: clock(19, 15) - calendar.Clock(1800*team)}
			e.End = e.Start.AddMinutes(90)
		case wd == time.Saturday && team < 2, wd == time.Sunday && team == 2, wd == time.Wednesday && team == 0 && i%14 < 7:
			e.ID, e.Kind = fmt.Sprintf("g%d", i), calendar.Game
			e.Start = calendar.Wall{Date: d, Clock: clock(15, 30*team)}
			e.End = e.Start.AddMinutes(105)
		default:
			continue
		}
		out = append(out, e)
	}
	return out
}

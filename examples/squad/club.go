package main

import (
	"fmt"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/internal/demo"
	"example.org/weft/periodize/season"
	"example.org/weft/periodize/squad"
)

// The club, its teams, athletes and dates are made up.

const (
	homeZone  = "Europe/Copenhagen"
	firstDate = "2026-10-05" // a Monday; the clocks change within
	dates     = 28
)

var (
	workdays = []time.Weekday{time.Monday, time.Tuesday, time.Wednesday, time.Thursday, time.Friday}
	weekend  = []time.Weekday{time.Saturday, time.Sunday}
)

// team is one team of the club.
type team struct {
	id       string
	athletes int
	born     int // year of the eldest
	years    int // over which they are spread
	training int // months of the least trained
	practice []practice
	games    []string // local starts, by date
	from     string   // on work days, when they are free
}

type practice struct {
	day   time.Weekday
	start string
	hard  bool
}

var teams = []team{
	{id: "m", athletes: 12, born: 1996, years: 9, training: 36, from: "14:00",
		practice: []practice{{time.Monday, "19:00", false}, {time.Tuesday, "18:30", true}, {time.Thursday, "19:00", false}},
		games:    []string{"2026-10-10T16:00", "2026-10-14T19:30", "2026-10-17T18:00", "2026-10-24T16:00", "2026-10-31T15:00", "2026-11-07T16:00"}},
	{id: "w", athletes: 11, born: 1998, years: 8, training: 30, from: "15:00",
		practice: []practice{{time.Tuesday, "19:00", false}, {time.Wednesday, "18:30", true}, {time.Friday, "18:00", false}},
		games:    []string{"2026-10-11T14:00", "2026-10-18T15:00", "2026-10-25T14:00", "2026-10-28T19:00", "2026-11-01T14:00", "2026-11-08T14:00"}},
	{id: "u", athletes: 7, born: 2009, years: 2, training: 14, from: "15:30",
		practice: []practice{{time.Monday, "17:30", false}, {time.Thursday, "17:00", true}},
		games:    []string{"2026-10-10T11:00", "2026-10-17T12:00", "2026-10-24T11:00", "2026-10-31T12:00", "2026-11-07T11:00"}},
}

// club builds the request. Its constants are checked by a test: what they could not
// say would be missing from the request, and refused.
func club(places int) *squad.Request {
	zone, _ := calendar.LoadZone(homeZone)
	from := demo.Date(firstDate)
	r := &squad.Request{
		Period: season.Period{From: from, To: from.AddDays(dates - 1)},
		Halls: []squad.Hall{{
			Place: season.Place{ID: "hall", Kit: []string{"barbell", "rack", "bench", "dumbbells"}, Hours: []season.Hours{
				{Days: workdays, From: demo.Clock("15:00"), To: demo.Clock("19:00")},
				{Days: weekend, From: demo.Clock("09:30"), To: demo.Clock("12:00")}}},
			Capacity: places, SlotMinutes: 55, ChangeMinutes: 5}},
		Coaches: []squad.Coach{
			{ID: "c1", Hours: []season.Hours{{Days: append(append([]time.Weekday{}, workdays...), weekend...), From: demo.Clock("09:00"), To: demo.Clock("20:00")}}},
			{ID: "c2", Hours: []season.Hours{{Days: []time.Weekday{time.Monday, time.Wednesday}, From: demo.Clock("15:00"), To: demo.Clock("19:00")}}}},
		Ratios: []squad.Ratio{{Under: 18, Athletes: 6}, {Athletes: 12}},
	}
	for _, t := range teams {
		events := t.events(zone, r.Period)
		for i := range t.athletes {
			a := squad.Athlete{}
			a.Season.Athlete = season.Athlete{ID: fmt.Sprintf("%s%02d", t.id, i+1), Zone: zone,
				Born: season.YearMonth{Year: t.born + i*5%t.years, Month: 1 + i*7%12}, TrainingAgeMonths: t.training + i*11%25,
				Hours: []season.Hours{{Days: workdays, From: demo.Clock(t.from), To: demo.Clock("21:30")}, {Days: weekend, From: demo.Clock("09:00"), To: demo.Clock("20:00")}},
				Role:  role(i)}
			a.Season.Places = []season.Place{{ID: "home"}}
			a.Season.Events = events
			r.Athletes = append(r.Athletes, a)
		}
	}
	return r
}

func role(i int) string {
	if i == 0 {
		return "goalkeeper"
	}
	return ""
}

// events are a team's practices and games, those of the week after too, so that the
// last week knows what it prepares for.
func (t *team) events(zone calendar.Zone, p season.Period) []calendar.Event {
	var out []calendar.Event
	add := func(kind calendar.Kind, id string, start calendar.Wall, minutes int, hard bool) {
		e := calendar.Event{ID: id, Kind: kind, Zone: zone, Start: start, HasEnd: true, Hard: hard}
		e.End = start.AddMinutes(minutes)
		out = append(out, e)
	}
	busy := map[calendar.Date]bool{}
	for _, g := range t.games {
		w := demo.Wall(g)
		busy[w.Date] = true
		add(calendar.Game, t.id+"-"+w.Date.String(), w, 95, false)
	}
	for d := p.From; !d.After(p.To); d = d.AddDays(1) {
		for _, x := range t.practice {
			if d.Weekday() == x.day && !busy[d] {
				add(calendar.Practice, t.id+"p-"+d.String(), calendar.Wall{Date: d, Clock: demo.Clock(x.start)}, 90, x.hard)
			}
		}
	}
	return out
}

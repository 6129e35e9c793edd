package main

import (
	"fmt"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

var (
	workdays = []time.Weekday{time.Monday, time.Tuesday, time.Wednesday, time.Thursday, time.Friday}
	weekend  = []time.Weekday{time.Saturday, time.Sunday}
)

// athlete is an invented adult who works by day, with a gym that is closed on
// Tuesdays, Fridays and Saturdays.
func athlete(zone calendar.Zone, period season.Period, events []calendar.Event) *season.Request {
	return &season.Request{
		Schema: season.Schema, Period: period, Events: events,
		Athlete: season.Athlete{ID: "whatif-1", Born: season.YearMonth{Year: bornYear(period), Month: 3}, Zone: zone, TrainingAgeMonths: 48,
			Hours: []season.Hours{{Days: workdays, From: clock(16, 0), To: clock(19, 0)}, {Days: weekend, From: clock(9, 0), To: clock(13, 0)}}},
		Places: []season.Place{{ID: "gym", Hours: []season.Hours{
			{Days: []time.Weekday{time.Monday, time.Wednesday, time.Thursday}, From: clock(7, 0), To: clock(19, 0)},
			{Days: []time.Weekday{time.Sunday}, From: clock(9, 0), To: clock(18, 0)}}}},
	}
}

func clock(h, m int) calendar.Clock { return calendar.Clock(h*3600 + m*60) }

// demo is a season of an invented volleyball club: a game a week on Saturday or
// Sunday, a cup game every fourth week, two practices a week, and a best of five of
// which the last two games are played only if they are needed.
func demo() *season.Request {
	zone, _ := calendar.LoadZone("Europe/Stockholm")
	from, _ := calendar.ParseDate("2026-09-28")
	const weeks = 26
	var events []calendar.Event
	add := func(id string, kind calendar.Kind, title string, on calendar.Date, at calendar.Clock, minutes int) *calendar.Event {
		e := calendar.Event{ID: id, Kind: kind, Zone: zone, Start: calendar.Wall{Date: on, Clock: at}, HasEnd: true}
		e.End = e.Start.AddMinutes(minutes)
		if kind == calendar.Game {
			e.Opponent = title
		} else {
			e.Title = title
		}
		events = append(events, e)
		return &events[len(events)-1]
	}
	opponents := []string{"Granvik", "Lerhamn", "Ostra Bruk", "Kvarnby", "Talludden", "Hedesund Norr", "Sjomarken"}
	for w := range weeks {
		monday := from.AddDays(7 * w)
		if w == 12 || w == 13 {
			continue // the winter break
		}
		if w < weeks-3 {
			add(fmt.Sprintf("g%02d", w+1), calendar.Game, opponents[w%7], monday.AddDays(5+w%2), clock(15, 0), 110)
			if w%4 == 2 {
				add(fmt.Sprintf("cup%02d", w+1), calendar.Game, "cup: "+opponents[(w+3)%7], monday.AddDays(2), clock(19, 0), 110)
			}
		}
		for i, d := range []int{0, 3} {
			if w < weeks-3 || i == 0 {
				e := add(fmt.Sprintf("p%02d-%d", w+1, i+1), calendar.Practice, "practice", monday.AddDays(d), clock(16, 45), 90)
				e.Hard = i == 1 && w%2 == 0
			}
		}
	}
	last := from.AddDays(7 * (weeks - 3))
	for i, d := range []int{2, 5, 8, 11, 15} {
		e := add(fmt.Sprintf("final%d", i+1), calendar.Game, "final: Granvik", last.AddDays(d), clock(18, 30), 110)
		e.Competition = "final"
		e.Importance = calendar.Important
		if i >= 3 {
			e.Status = calendar.IfNecessary
		}
	}
	return athlete(zone, season.Period{From: from, To: from.AddDays(7*weeks - 1)}, events)
}

// bornYear makes the athlete 24 in the first year of the season.
func bornYear(p season.Period) int {
	year, _, _ := p.From.YMD()
	return year - 24
}

package demo

import (
	"fmt"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

const (
	athlete   = "demo-17"
	homeZone  = "Europe/Copenhagen"
	firstDate = "2026-08-31"
	lastDate  = "2027-05-16"
)

// Season builds the request. Its constants are checked by a test, not at run
// time: what they could not say would be missing from the request, and refused.
func Season() *season.Request {
	home, _ := calendar.LoadZone(homeZone)
	b := builder{home: home, taken: map[calendar.Date]bool{}}
	for _, g := range games {
		b.game(g)
	}
	b.flights()
	b.exams()
	b.free()
	b.practices(Date(firstDate), Date("2026-12-17"))
	b.practices(Date("2027-01-04"), Date(lastDate))
	week := []time.Weekday{time.Monday, time.Tuesday, time.Wednesday, time.Thursday, time.Friday}
	weekend := []time.Weekday{time.Saturday, time.Sunday}
	all := append(append([]time.Weekday{}, week...), weekend...)
	return &season.Request{
		Schema: season.Schema,
		Period: season.Period{From: Date(firstDate), To: Date(lastDate)},
		Athlete: season.Athlete{
			ID: athlete, Born: season.YearMonth{Year: 2006, Month: 4}, Zone: home, TrainingAgeMonths: 36, Role: "left back",
			Hours: []season.Hours{
				{Days: week, From: Clock("15:00"), To: Clock("22:00")},
				{Days: weekend, From: Clock("09:00"), To: Clock("22:00")},
			},
			Prefer: []season.Prefer{{Days: week, Start: Clock("15:45")}, {Days: weekend, Start: Clock("10:15")}},
			OptIns: []season.OptIn{season.OptPostGame},
			Maxima: []season.Maximum{ // tested in the last weeks before the season
				{Exercise: "back-squat", Grams: 135_000, Kind: "tested", Date: Date("2026-08-25")},
				{Exercise: "trap-bar-deadlift", Grams: 165_000, Kind: "tested", Date: Date("2026-08-27")},
				{Exercise: "hip-thrust", Grams: 147_500, Kind: "estimated", Date: Date("2026-08-27")},
				{Exercise: "bench-press", Grams: 90_000, Kind: "tested", Date: Date("2026-08-25")},
				{Exercise: "bent-over-row", Grams: 82_500, Kind: "estimated", Date: Date("2026-08-27")},
			},
		},
		Events: b.events,
		Places: []season.Place{
			{
				ID: "gym",
				Hours: []season.Hours{
					{Days: week, From: Clock("06:30"), To: Clock("21:30")},
					{Days: weekend, From: Clock("08:30"), To: Clock("18:00")},
				},
				Closed: []season.Period{{From: Date("2026-12-24"), To: Date("2026-12-26")}, {From: Date("2026-12-31"), To: Date("2027-01-01")}},
			},
			{ID: "hall", Hours: []season.Hours{{Days: all, From: Clock("12:00"), To: Clock("22:00")}},
				Closed: []season.Period{{From: Date("2026-12-19"), To: Date("2027-01-03")}}},
		},
	}
}

type builder struct {
	home   calendar.Zone
	events []calendar.Event
	taken  map[calendar.Date]bool // dates without practice
}

func (b *builder) add(e calendar.Event) { b.events = append(b.events, e) }

// game adds a game and, for an away game, the road there and back.
func (b *builder) game(g game) {
	e := calendar.Event{
		ID: g.id, Kind: calendar.Game, Team: "Ulvesund", Zone: b.home, Home: g.at, Opponent: g.opponent,
		Status: g.status, Importance: g.importance, Competition: g.competition,
	}
	if g.zone != "" {
		e.Zone, _ = calendar.LoadZone(g.zone)
	}
	e.Start.Date = Date(g.date)
	if g.time == "" {
		e.DateOnly = true
	} else {
		e.Start.Clock = Clock(g.time)
		if g.minutes > 0 {
			e.End, e.HasEnd = e.Start.AddMinutes(g.minutes), true
		}
	}
	b.add(e)
	if !e.Active() {
		return
	}
	b.taken[e.Start.Date] = true
	if g.road == 0 {
		return
	}
	there := calendar.Event{ID: g.id + "-there", Kind: calendar.Travel, Title: "bus to " + g.opponent, Zone: b.home, HasEnd: true,
		Start: e.Start.AddMinutes(-75 - g.road), End: e.Start.AddMinutes(-75)}
	back := calendar.Event{ID: g.id + "-back", Kind: calendar.Travel, Title: "bus home", Zone: b.home, HasEnd: true,
		Start: e.End.AddMinutes(50), End: e.End.AddMinutes(50 + g.road)}
	b.add(there)
	b.add(back)
}

// flights are the trip to the one game in another zone.
func (b *builder) flights() {
	iceland, _ := calendar.LoadZone("Atlantic/Reykjavik")
	b.add(calendar.Event{ID: "flight-there", Kind: calendar.Travel, Title: "flight to Hraunvik", Zone: b.home, EndZone: iceland,
		Start: Wall("2026-11-20T12:20"), End: Wall("2026-11-20T14:35"), HasEnd: true})
	b.add(calendar.Event{ID: "flight-back", Kind: calendar.Travel, Title: "flight home", Zone: iceland, EndZone: b.home,
		Start: Wall("2026-11-22T10:40"), End: Wall("2026-11-22T14:50"), HasEnd: true})
	b.taken[Date("2026-11-20")] = true
}

func (b *builder) exams() {
	for i, x := range []struct{ start, end, title string }{
		{"2027-01-11T09:00", "2027-01-11T13:00", "statistics"},
		{"2027-01-13T09:00", "2027-01-13T12:00", "physiology"},
		{"2027-01-14T13:15", "2027-01-14T15:30", "history"},
	} {
		e := calendar.Event{ID: fmt.Sprintf("exam-%d", i+1), Kind: calendar.Exam, Title: x.title, Zone: b.home,
			Start: Wall(x.start), End: Wall(x.end), HasEnd: true}
		b.add(e)
		b.taken[e.Start.Date] = true
	}
}

// free are the family days of the winter break.
func (b *builder) free() {
	b.add(calendar.Event{ID: "family-days", Kind: calendar.Busy, Title: "family days", Zone: b.home, DateOnly: true,
		Start: calendar.Wall{Date: Date("2026-12-24")}, End: calendar.Wall{Date: Date("2026-12-27")}, HasEnd: true})
}

// practices are Monday, a hard one on Tuesday, Thursday, and a short one for
// skills on Friday; none on the dates of games and exams.
func (b *builder) practices(from, to calendar.Date) {
	for d := from; !d.After(to); d = d.AddDays(1) {
		e := calendar.Event{ID: "practice-" + d.String(), Kind: calendar.Practice, Zone: b.home, HasEnd: true}
		var start string
		minutes := 90
		switch d.Weekday() {
		case time.Monday:
			start = "18:15"
		case time.Tuesday:
			start, minutes, e.Hard = "18:30", 105, true
		case time.Thursday:
			start = "18:30"
		case time.Friday:
			start, minutes, e.Kind = "17:30", 60, calendar.Skills
		default:
			continue
		}
		if b.taken[d] {
			continue
		}
		e.Start = calendar.Wall{Date: d, Clock: Clock(start)}
		e.End = e.Start.AddMinutes(minutes)
		b.add(e)
	}
}

// Date reads a date of an example. What is none is unset, as with Clock and Wall,
// and makes the example's request a bad one.
func Date(s string) calendar.Date {
	d, _ := calendar.ParseDate(s)
	return d
}

// Clock reads a time of day.
func Clock(s string) calendar.Clock {
	c, _ := calendar.ParseClock(s)
	return c
}

// Wall reads a wall time.
func Wall(s string) calendar.Wall {
	w, _ := calendar.ParseWall(s)
	return w
}

package calendar_test

import (
	"fmt"
	"time"

	"example.org/weft/calendar"
)

func ExampleParseDate() {
	d, err := calendar.ParseDate("2026-11-08")
	fmt.Println(d, d.Weekday(), err)
	_, err = calendar.ParseDate("03/04/2027")
	fmt.Println(err)
	// Output:
	// 2026-11-08 Sunday <nil>
	// error: date "03/04/2027" - day and month cannot be told apart; write 2027-04-03 if the day comes first, 2027-03-04 if the month does
}

func ExampleNewDate() {
	_, err := calendar.NewDate(2027, 2, 29)
	fmt.Println(err)
	// Output:
	// error: date "2027-2-29" - February 2027 has no day 29; give a day that exists, from 1900-01-01 to 2199-12-31
}

func ExampleWeekStart() {
	d, _ := calendar.ParseDate("2026-11-08")
	fmt.Println(calendar.WeekStart(d, time.Monday), calendar.WeekStart(d, time.Sunday))
	// Output: 2026-11-02 2026-11-08
}

func ExampleParseClock() {
	c, _ := calendar.ParseClock("19:45")
	fmt.Println(c, int(c))
	_, err := calendar.ParseClock("7:45pm")
	fmt.Println(err)
	// Output:
	// 19:45 71100
	// error: time "7:45pm" - not a time on the 24-hour clock as HH:MM; write 19:45 if that is meant
}

func ExampleLoadZone() {
	_, err := calendar.LoadZone("Europe/Berlln")
	fmt.Println(err)
	_, err = calendar.LoadZone("+01:00")
	fmt.Println(err)
	// Output:
	// error: zone "Europe/Berlln" - unknown time zone; did you mean Europe/Berlin?
	// error: zone "+01:00" - a fixed offset knows no clock changes; name the place, such as Europe/Berlin
}

func ExampleSuggestZones() {
	fmt.Println(calendar.SuggestZones("new york"))
	// Output: [America/New_York]
}

// The clocks of Berlin jump from 02:00 to 03:00 on one of these dates, and show
// 02:30 twice on the other.
func ExampleZone_Resolve() {
	z, _ := calendar.LoadZone("Europe/Berlin")
	for _, s := range []string{"2026-11-14T19:45", "2027-03-28T02:30", "2026-10-25T02:30"} {
		w, _ := calendar.ParseWall(s)
		r := z.Resolve(w)
		fmt.Println(w, r.Fit, r.Instant.Format(time.RFC3339))
	}
	// Output:
	// 2026-11-14T19:45 exact 2026-11-14T18:45:00Z
	// 2027-03-28T02:30 skipped 2027-03-28T01:30:00Z
	// 2026-10-25T02:30 doubled 2026-10-25T00:30:00Z
}

func ExampleZone_Transitions() {
	z, _ := calendar.LoadZone("Europe/Berlin")
	from, _ := calendar.ParseDate("2026-08-01")
	to, _ := calendar.ParseDate("2027-06-30")
	for _, t := range z.Transitions(calendar.Span{Start: z.DayStart(from), End: z.DayStart(to)}) {
		fmt.Println(t.At.Format(time.RFC3339), t.Offset, t.Abbrev)
	}
	// Output:
	// 2026-10-25T01:00:00Z 3600 CET
	// 2027-03-28T01:00:00Z 7200 CEST
}

func ExampleNewRuleZone() {
	at := time.Unix(1_800_000_000, 0)
	z, err := calendar.NewRuleZone("Clubhouse", calendar.Transition{Offset: 3600, Abbrev: "A"}, []calendar.Transition{{At: at, Offset: 5400, Abbrev: "B"}})
	fmt.Println(z, err, z.Local(at.Add(-time.Second)), z.Local(at))
	// Output: Clubhouse <nil> 2027-01-15T08:59:59 2027-01-15T09:30
}

func ExamplePlace() {
	z, _ := calendar.LoadZone("Europe/Berlin")
	start, _ := calendar.ParseWall("2026-11-14T22:30")
	p, err := calendar.Place(calendar.Event{Kind: calendar.Game, Start: start, Zone: z}, calendar.Assumptions{})
	if err != nil {
		fmt.Println(err)
		return
	}
	blocked := p.Blocked(nil)
	fmt.Println(p.Date, p.EndAssumed, z.Local(p.Span.End), z.Local(blocked.Start), z.Local(blocked.End))
	// Output: 2026-11-14 true 2026-11-15T00:30 2026-11-14T21:45 2026-11-15T00:45
}

// One night in autumn has an hour more.
func ExampleGap() {
	z, _ := calendar.LoadZone("Europe/Berlin")
	a, _ := calendar.ParseWall("2026-10-24T16:45")
	b, _ := calendar.ParseWall("2026-10-25T16:00")
	end, start := z.Resolve(a).Instant, z.Resolve(b).Instant
	fmt.Println(calendar.Gap(calendar.Span{Start: end, End: end}, calendar.Span{Start: start, End: start}))
	// Output: 24h15m0s
}

func ExampleSubtract() {
	at := func(h int) time.Time { return time.Unix(int64(h)*3600, 0).UTC() }
	open := []calendar.Span{{Start: at(8), End: at(20)}}
	busy := []calendar.Span{{Start: at(12), End: at(13)}, {Start: at(6), End: at(9)}}
	for _, s := range calendar.Subtract(open, busy) {
		fmt.Println(s.Start.Hour(), s.End.Hour())
	}
	// Output:
	// 9 12
	// 13 20
}

func ExampleGameDay() {
	d, _ := calendar.ParseDate("2026-11-16")
	games := []calendar.Date{d.AddDays(-2), d.AddDays(2), d.AddDays(9)}
	fmt.Println(calendar.GameDay(d, games))
	// Output: [G+2 G-2]
}

func ExampleGameDates() {
	var events []calendar.Event
	for _, x := range []struct {
		kind   calendar.Kind
		status calendar.Status
		start  string
	}{
		{calendar.Practice, calendar.Confirmed, "2026-11-02T18:30"},
		{calendar.Game, calendar.Cancelled, "2026-11-28T16:00"},
		{calendar.Game, calendar.Provisional, "2026-11-21T16:00"},
		{calendar.Game, calendar.Confirmed, "2026-11-07T16:00"},
	} {
		start, err := calendar.ParseWall(x.start)
		if err != nil {
			fmt.Println(err)
			return
		}
		events = append(events, calendar.Event{Kind: x.kind, Status: x.status, Start: start})
	}
	fmt.Println(calendar.GameDates(events))
	// Output: 2026-11-07 2026-11-21
}

func ExampleGameFreeRuns() {
	d, _ := calendar.ParseDate("2026-12-19")
	for _, r := range calendar.GameFreeRuns([]calendar.Date{d, d.AddDays(8), d.AddDays(30)}, calendar.Date{}, calendar.Date{}) {
		fmt.Println(r.From, r.To, r.Days, r.Class)
	}
	// Output:
	// 2026-12-20 2026-12-26 7 open-week
	// 2026-12-28 2027-01-17 21 break
}

func ExampleFactsOf() {
	z, _ := calendar.LoadZone("Europe/Berlin")
	var games []calendar.Placed
	for _, s := range []string{"2026-11-14T19:45", "2026-11-15T18:00", "2026-11-19T19:45"} {
		start, _ := calendar.ParseWall(s)
		p, _ := calendar.Place(calendar.Event{ID: s[:10], Kind: calendar.Game, Start: start, Zone: z}, calendar.Assumptions{})
		games = append(games, p)
	}
	f := calendar.FactsOf(games, calendar.Date{}, calendar.Date{})
	for _, p := range f.BackToBack {
		fmt.Println(p.First, p.Second, p.Elapsed)
	}
	for _, s := range f.ThreeInSeven {
		fmt.Println(s.From, s.To, len(s.Games))
	}
	// Output:
	// 2026-11-14 2026-11-15 20h15m0s
	// 2026-11-14 2026-11-19 3
}

func ExampleNearest() {
	fmt.Println(calendar.Nearest("canceled", []string{"confirmed", "cancelled"}))
	// Output: cancelled true
}

func ExampleInert() {
	fmt.Println(calendar.Inert("Rooks\x1b[2J"))
	// Output: Rooks\x1b[2J
}

func ExampleAssumed() {
	z, _ := calendar.LoadZone("Europe/Berlin")
	start, _ := calendar.ParseWall("2026-11-14T19:45")
	p, _ := calendar.Place(calendar.Event{ID: "g1", Kind: calendar.Game, Start: start, Zone: z}, calendar.Assumptions{})
	for _, q := range calendar.Assumed([]calendar.Placed{p}, calendar.Assumptions{}, "games.csv") {
		fmt.Println(q)
	}
	// Output: games.csv: question: end "g1" - 1 game without an end: 120 minutes assumed; give the ends, or the usual length of a game
}

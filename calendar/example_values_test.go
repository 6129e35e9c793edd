package calendar_test

import (
	"errors"
	"fmt"
	"time"

	"example.org/weft/calendar"
)

func ExampleNewClock() {
	c, err := calendar.NewClock(19, 5)
	fmt.Println(c, err)
	_, err = calendar.NewClock(24, 1)
	fmt.Println(err != nil)
	// Output:
	// 19:05 <nil>
	// true
}

func ExampleClock_Valid() {
	fmt.Println(calendar.EndOfDay.Valid(), (calendar.EndOfDay + 1).Valid())
	// Output: true false
}

func ExampleDateOf() {
	tokyo, err := calendar.LoadZone("Asia/Tokyo")
	if err != nil {
		fmt.Println(err)
		return
	}
	at := time.Date(2026, 11, 8, 20, 30, 0, 0, time.UTC)
	fmt.Println(calendar.DateOf(at, tokyo))
	// Output: 2026-11-09
}

func ExampleLater() {
	d := calendar.DateFromDayNumber(20_766)
	fmt.Println(calendar.Later(d, d.AddDays(-13)), calendar.Earlier(d, d.AddDays(-13)))
	// Output: 2026-11-09 2026-10-27
}

func ExampleDateFromDayNumber() {
	d := calendar.DateFromDayNumber(20_766)
	fmt.Println(d, d.DayNumber(), d.AddDays(22).DaysSince(d))
	// Output: 2026-11-09 20766 22
}

func ExampleWall_AddMinutes() {
	w, err := calendar.ParseWall("2026-11-13T22:15")
	fmt.Println(w.AddMinutes(110), err)
	// Output: 2026-11-14T00:05 <nil>
}

func ExampleUnion() {
	at := time.Date(2026, 11, 8, 14, 0, 0, 0, time.UTC)
	span := func(from, to time.Duration) calendar.Span {
		return calendar.Span{Start: at.Add(from * time.Minute), End: at.Add(to * time.Minute)}
	}
	for _, s := range calendar.Union(span(90, 120), span(0, 45), span(45, 75)) {
		fmt.Println(s.Start.Format("15:04"), s.Duration())
	}
	// Output:
	// 14:00 1h15m0s
	// 15:30 30m0s
}

func ExampleSpan_Overlaps() {
	at := time.Date(2026, 11, 8, 14, 0, 0, 0, time.UTC)
	game := calendar.Span{Start: at, End: at.Add(105 * time.Minute)}
	after := calendar.Span{Start: game.End, End: game.End.Add(30 * time.Minute)}
	fmt.Println(game.Overlaps(after), game.Grow(0, 15*time.Minute).Overlaps(after))
	// Output: false true
}

func ExampleAssumptions_Settled() {
	a := calendar.Assumptions{GameMinutes: 95}.Settled()
	fmt.Println(a.GameMinutes, a.PracticeMinutes, a.DateOnlyFrom)
	fmt.Println(len(calendar.Assumptions{GameMinutes: -5}.Check()))
	// Output:
	// 95 90 09:00
	// 1
}

func ExampleEvent_Active() {
	e := calendar.Event{Kind: calendar.Game, Opponent: "Tarn Ottermark"}
	fmt.Println(e.Active(), e.Status.Settled(), e.Importance.Settled())
	e.Status = calendar.Postponed
	fmt.Println(e.Active(), e.Kind.Known(), calendar.Status("maybe").Known())
	// Output:
	// true confirmed unknown
	// false true false
}

func ExampleValueError() {
	_, err := calendar.ParseDate("2027-02-29")
	var value *calendar.ValueError
	if errors.As(err, &value) {
		p := value.Problem("date", "fixtures.csv:7", "date")
		fmt.Println(p.Class, p.Path, p.Value)
	}
	// Output: error fixtures.csv:7 2027-02-29
}

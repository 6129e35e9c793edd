package season_test

import (
	"encoding/json"
	"fmt"
	"strings"

	"pgregory.net/rapid"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

// drawClubRule draws rules of which most are in order.
func drawClubRule(t *rapid.T) season.ClubRule {
	r := season.ClubRule{ID: rapid.SampledFrom([]string{"own", "late-lifts"}).Draw(t, "id"), Says: name(t, "says"),
		Shape: rapid.SampledFrom(season.ClubShapes()).Draw(t, "shape")}
	if rapid.Bool().Draw(t, "kinds") {
		r.Kinds = rapid.SliceOfNDistinct(rapid.SampledFrom(season.Kinds()), 1, 3, rapid.ID).Draw(t, "which")
	}
	if rapid.Bool().Draw(t, "on days") {
		r.Days = drawDays(t)
	}
	if rapid.Bool().Draw(t, "clock") {
		r.From, r.To = clockOf(t, 0, 700), clockOf(t, 701, 1440)
	}
	if r.Shape != season.ClubForbid && r.Shape != season.ClubAfter || number(t, 0, 9, "wrong") == 0 {
		r.Points = number(t, 0, 90, "points")
	}
	switch r.Shape {
	case season.ClubAfter:
		r.Minutes, r.EventTitle = number(t, 1, 1440, "minutes"), "night shift"
		r.EventKind = rapid.SampledFrom([]calendar.Kind{"", calendar.Busy}).Draw(t, "event")
	case season.ClubApart:
		r.Minutes = number(t, 1, 9000, "minutes")
	case season.ClubAtMost:
		r.Most, r.Dates = number(t, 0, 6, "most"), number(t, 1, 10, "dates")
	case season.ClubAtLeast:
		r.Points++
		r.Least, r.Dates = number(t, 1, 3, "least"), number(t, 2, 28, "dates")
		r.EventKind = rapid.SampledFrom([]calendar.Kind{"", calendar.Game}).Draw(t, "counts")
		for range number(t, 0, 3, "before") {
			r.Before = append(r.Before, drawDate(t))
		}
	}
	return r
}

func ExampleClubRule() {
	req, problems, err := season.RequestReader{}.Read(strings.NewReader(`{
		"schema": 1, "period": {"from": "2026-11-09", "to": "2026-11-15"},
		"athlete": {"born": "2001-05", "zone": "Europe/Oslo", "trainingAgeYears": 3},
		"club": [{"id": "school-hall", "says": "the hall is let on Thursdays from 16:00", "shape": "forbid", "days": ["thu"], "from": "16:00"}]}`))
	if err != nil {
		fmt.Println(err)
		return
	}
	b, err := json.Marshal(req.Club[0].To)
	fmt.Println(len(problems), req.Club[0].Shape, string(b), err)
	// Output: 0 forbid "24:00" <nil>
}

func ExampleClubRule_MarshalJSON() {
	b, err := json.Marshal(season.ClubRule{ID: "heavy", Shape: season.ClubAtLeast, Kinds: []season.Kind{season.FullBody}, Points: 40, Least: 1, Dates: 10,
		Before: []calendar.Date{day("2026-11-06")}})
	fmt.Println(string(b), err)
	// Output: {"id":"heavy","shape":"at-least","kinds":["full-body"],"points":40,"least":1,"dates":10,"before":["2026-11-06"]} <nil>
}

func ExampleClubShapes() {
	fmt.Println(season.ClubShapes())
	// Output: [forbid cost after at-most apart at-least]
}

package main

import (
	"fmt"
	"slices"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
	"example.org/weft/periodize/whatif"
)

// variants are the questions: what an analyst would change first.
func variants(base *season.Request) []whatif.Variant {
	tuesday := season.Hours{Days: []time.Weekday{time.Tuesday}, From: clock(15, 30), To: clock(20, 0)}
	monday := season.Hours{Days: []time.Weekday{time.Monday}, From: 0, To: calendar.EndOfDay}
	sixty := 60
	always := calendar.Date{}
	out := []whatif.Variant{
		{Name: "gym open on Tuesdays", Change: whatif.OpenHours("gym", tuesday)},
		{Name: "gym closed on Mondays", Change: whatif.CloseHours("gym", monday)},
		{Name: "half an hour longer", Change: whatif.Longer(30)},
		{Name: "one practice more, Wednesdays 17:00", Change: whatif.AddWeekly(time.Wednesday, clock(17, 0), 90, false, always, always)},
		{Name: "60 hours before a game, not 48", Change: whatif.SetRule(season.Override{Rule: "full-before-game", Value: &sixty})},
		{Name: "sessions after games", Change: whatif.OptIn(season.OptPostGame)},
		{Name: "as a beginner", Change: whatif.TrainingAge(6)},
	}
	if slices.ContainsFunc(base.Events, func(e calendar.Event) bool {
		return e.Kind == calendar.Practice && e.Start.Date.Weekday() == time.Thursday
	}) {
		out = append(out, whatif.Variant{Name: "no practice on Thursdays", Change: whatif.DropPractices(time.Thursday, always, always)})
	}
	games := slices.DeleteFunc(slices.Clone(base.Events), func(e calendar.Event) bool { return e.Kind != calendar.Game || !e.Active() })
	slices.SortFunc(games, func(a, b calendar.Event) int { return a.Start.Compare(b.Start) })
	for i, g := range games {
		if i%5 != 2 || g.Status == calendar.Played { // some of them
			continue
		}
		id := g.ID
		if id == "" {
			id = g.ContentID()
		}
		out = append(out, whatif.Variant{Name: fmt.Sprintf("%s two days earlier", nameOf(g)), Change: whatif.MoveDays(id, -2)})
	}
	return out
}

func nameOf(g calendar.Event) string {
	if g.Opponent != "" {
		return g.Start.Date.String() + " " + g.Opponent
	}
	return g.Start.Date.String() + " " + g.ID
}

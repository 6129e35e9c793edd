package season_test

import (
	"fmt"
	"time"

	"pgregory.net/rapid"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

func drawNote(t *rapid.T) season.Note {
	c := rapid.SampledFrom(season.Codes()).Draw(t, "code")
	values := season.Values{}
	for i, p := range c.Params {
		if i%2 == 0 {
			values[p] = season.Int(int64(number(t, -9, 99, p)))
		} else {
			values[p] = season.Str(name(t, p))
		}
	}
	return season.NewNote(c.Code, season.Subject{Event: "g1", Dates: slice(t, 2, "dates", drawDate)}, "size", values)
}

func drawSession(t *rapid.T, zone calendar.Zone, id string) season.Session {
	start := time.Unix(1791763200+60*int64(number(t, 0, 100_000, "start")), 0).In(zone.Location())
	kind := rapid.SampledFrom(season.Kinds()).Draw(t, "kind")
	s := season.Session{
		ID: id, Start: start, End: start.Add(time.Duration(number(t, 20, 60, "minutes")) * time.Minute),
		Date: calendar.DateOf(start, zone), Minutes: 45, Place: "gym", Kind: kind, State: season.AsWritten,
		Pinned: rapid.Bool().Draw(t, "pinned"), HeavyLowerBody: kind.HeavyLowerBody(), SessionLoad: number(t, 0, 400, "load"),
		GameDay: []season.GameOffset{{Event: "g1", Days: number(t, -9, 9, "offset")}}, Why: slice(t, 2, "why", drawNote),
	}
	if rapid.Bool().Draw(t, "local") {
		there := drawZone(t)
		s.Local = &season.Local{Zone: there.Name(), Start: there.Local(s.Start), End: there.Local(s.End)}
	}
	if rapid.Bool().Draw(t, "parts") {
		note := drawNote(t)
		s.Parts = []season.Part{{Name: "warm-up", Minutes: 12, Exercises: []season.Exercise{{
			Name: "squat", Pattern: "lower", Side: "both", Sets: 3, Reps: "4-6", Load: &season.Grams{Grams: 60_000},
			Effort: "two left", Rest: 120, Evidence: &note,
		}}}, {Name: "main", Minutes: 33}}
	}
	return s
}

func drawPlan(t *rapid.T) season.Plan {
	zone, from := drawZone(t), drawDate(t)
	start := time.Unix(1791763200, 0).In(zone.Location())
	p := season.Plan{
		Schema: season.Schema, ID: "plan", Revision: number(t, 0, 9, "revision"), Engine: 1, Now: start,
		Outcome: season.Planned, Proof: rapid.SampledFrom([]season.Proof{season.Proved, season.Bounded, ""}).Draw(t, "proof"),
		Cost:   season.Cost{Broken: 1, Points: -3, Bound: -4, ByRule: []season.RuleCost{{Rule: "size", Points: -3}}},
		Period: season.Period{From: from, To: from.AddDays(6)}, Zone: zone.Name(), RulesVersion: "r1",
		EventsDigest: []season.DayHash{{Date: from, Hash: "abc"}},
		Games: []season.PlanGame{{
			ID: "g1", Start: start, End: start.Add(2 * time.Hour), Date: calendar.DateOf(start, zone), DateOnly: true, EndAssumed: true,
			Importance: calendar.Important, Status: calendar.Confirmed, Title: name(t, "title"),
		}},
		Findings: slice(t, 2, "findings", drawNote), Questions: slice(t, 2, "questions", drawNote),
		Refusals: slice(t, 1, "refusals", drawNote), Warnings: slice(t, 1, "warnings", drawNote),
		Missed: []season.Missed{{
			Aim: "primer", From: from, To: from, Event: "g1", Session: "s1", Wanted: 1, Points: 240, Text: name(t, "text"),
			InTheWay: []season.InTheWay{{Rule: "hours", Event: "g1"}},
		}, {Aim: "size"}},
	}
	for i := range number(t, 0, 3, "sessions") {
		p.Sessions = append(p.Sessions, drawSession(t, zone, fmt.Sprint("s", i)))
	}
	if rapid.Bool().Draw(t, "clocks") {
		p.Clocks = []season.Clock{{From: start, Zone: drawZone(t).Name()}}
	}
	if rapid.Bool().Draw(t, "changes") {
		end := start.Add(time.Hour)
		p.Changes = []season.Change{{Change: season.Moved, Session: "s1", Kind: season.Primer, OldKind: season.Recovery, From: &start, To: &end, Cause: slice(t, 1, "cause", drawNote)}}
	}
	return p
}

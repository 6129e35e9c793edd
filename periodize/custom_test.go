package periodize

import (
	"context"
	"errors"
	"fmt"
	"testing"
	"time"

	"pgregory.net/rapid"

	"example.org/weft/calendar"
	"example.org/weft/internal/seasontest"
	"example.org/weft/periodize/rule"
	"example.org/weft/periodize/season"
)

// drawCustom draws rules of one's own of every shape.
func drawCustom(t *rapid.T) []rule.Custom {
	which := func() rule.Which {
		w := rule.Which{}
		if rapid.Bool().Draw(t, "kinds") {
			w.Kinds = rapid.SliceOfDistinct(rapid.SampledFrom(season.Kinds()), rapid.ID[season.Kind]).Draw(t, "which")
		}
		if rapid.Bool().Draw(t, "days") {
			w.Days = []time.Weekday{time.Weekday(rapid.IntRange(0, 6).Draw(t, "day")), time.Weekday(rapid.IntRange(0, 6).Draw(t, "other"))}
		}
		if rapid.IntRange(0, 3).Draw(t, "clock") == 0 {
			w.From, w.To = 6*3600, calendar.Clock(rapid.IntRange(8, 18).Draw(t, "to"))*3600
		}
		return w
	}
	points := func() int { return rapid.SampledFrom([]int{0, 1, 7, 90}).Draw(t, "points") }
	var out []rule.Custom
	for i := rapid.IntRange(1, 3).Draw(t, "rules"); i > 0; i-- {
		id := fmt.Sprintf("own-%d", i)
		switch rapid.IntRange(0, 5).Draw(t, "shape") {
		case 0:
			out = append(out, rule.Forbid(id, "", which()))
		case 1:
			out = append(out, rule.Costs(id, "", points(), which()))
		case 2:
			out = append(out, rule.AtMost(id, "", rapid.IntRange(0, 4).Draw(t, "most"), rapid.IntRange(1, 10).Draw(t, "dates"), points(), which()))
		case 3:
			out = append(out, rule.Apart(id, "", time.Duration(rapid.IntRange(10, 100).Draw(t, "hours"))*time.Hour, points(), which()))
		case 4:
			out = append(out, rule.AtLeast(id, "", rule.Need{Least: rapid.IntRange(1, 3).Draw(t, "least"), Dates: rapid.IntRange(2, 6).Draw(t, "dates"),
				Points: points(), Which: which(), Events: rule.Match{Kind: calendar.Game}}))
		default:
			out = append(out, rule.After(id, "", rule.Match{Kind: calendar.Practice}, 20*time.Hour, which()))
		}
	}
	return out
}

// drawClub draws rules that a request carries.
func drawClub(t *rapid.T, period season.Period) []season.ClubRule {
	var out []season.ClubRule
	for i := rapid.IntRange(0, 2).Draw(t, "club"); i > 0; i-- {
		r := season.ClubRule{ID: fmt.Sprintf("club-%d", i), Shape: rapid.SampledFrom(season.ClubShapes()).Draw(t, "club shape"),
			Kinds: rapid.SliceOfDistinct(rapid.SampledFrom(season.Kinds()), rapid.ID[season.Kind]).Draw(t, "club kinds")}
		switch r.Shape {
		case season.ClubCost:
			r.Points = rapid.IntRange(1, 90).Draw(t, "points")
		case season.ClubAfter:
			r.EventKind, r.Minutes = calendar.Practice, rapid.IntRange(1, season.MaxClubAfter).Draw(t, "after")
		case season.ClubAtMost:
			r.Most, r.Dates = rapid.IntRange(0, season.MaxClubMost).Draw(t, "most"), rapid.IntRange(1, season.MaxClubDates).Draw(t, "dates")
		case season.ClubApart:
			r.Minutes, r.Points = rapid.IntRange(1, season.MaxClubMinutes).Draw(t, "apart"), rapid.IntRange(0, 50).Draw(t, "points")
		case season.ClubAtLeast:
			r.Least, r.Dates, r.Points = rapid.IntRange(1, season.MaxClubLeast).Draw(t, "least"), rapid.IntRange(2, 6).Draw(t, "dates"), rapid.IntRange(1, 50).Draw(t, "points")
			r.EventKind = rapid.SampledFrom([]calendar.Kind{"", calendar.Game}).Draw(t, "event")
			for range rapid.IntRange(0, 2).Draw(t, "before") {
				r.Before = append(r.Before, period.From.AddDays(-rapid.IntRange(1, 9).Draw(t, "ago")))
			}
		}
		out = append(out, r)
	}
	return out
}

// With rules of one's own too, the engine finds the best of all plans, and their
// number: the rules are judged here by their plain definitions.
func TestEveryPlanWithOwnRules(t *testing.T) {
	seasons := 0
	onSeasons(t, 100, func(t *rapid.T) {
		o := seasontest.Options{MinDates: 1, MaxDates: 6}
		req := seasontest.Request(t, o)
		req.Club = drawClub(t, req.Period)
		p := &Planner{Rules: drawCustom(t)}
		w, err := p.prepare(req)
		if err != nil {
			t.Fatal(err)
		}
		plans := int64(1)
		for i := range w.model.Choices {
			if plans *= int64(len(w.model.Choices[i].Options)); plans > 3000 {
				t.Skip("too many plans")
			}
		}
		if w.refused() {
			t.Skip("refused")
		}
		want := everyPlan(t, w.model)
		w.model.NoTies = true
		if err := w.compile(); err != nil {
			t.Fatal(err)
		}
		g, err := w.compiled.Explore(context.Background(), w.static, w.settings())
		if err != nil {
			t.Fatal(err)
		}
		broken, points := split(g.Best().Cost)
		if broken != want.broken || points != want.points || int64(g.Count()) != want.optima {
			t.Fatalf("engine %d broken %d points %d plans, every plan %+v\n%s", broken, points, g.Count(), want, shown(&w.req))
		}
		if _, err := p.Plan(context.Background(), req); err != nil {
			t.Fatalf("%v\n%s", err, shown(&w.req))
		}
		seasons++
	})
	if !testing.Short() && (seasons < 20) {
		t.Errorf("only %d seasons were small enough", seasons)
	}
}

// endless remembers every session there ever was.
type endless struct{}

func (endless) Init() uint64 { return 1 }
func (endless) Step(s uint64, _ rule.Day, x rule.Session) (uint64, rule.Verdict) {
	return s*31 + uint64(x.Start.Unix()), rule.Verdict{}
}
func (endless) EndDay(s uint64, _ rule.Day) (uint64, rule.Verdict) { return s, rule.Verdict{} }

func TestOwnRulesAreRefused(t *testing.T) {
	z, err := calendar.LoadZone("Europe/Oslo")
	if err != nil {
		t.Fatal(err)
	}
	from, _ := calendar.ParseDate("2026-09-07")
	req := &season.Request{Period: season.Period{From: from, To: from.AddDays(200)}, Athlete: season.Athlete{ID: "a", Zone: z}}
	none := func([]rule.Day) []rule.Finding { return nil }
	for code, rules := range map[string][]rule.Custom{
		"custom-states": {{ID: "endless", Memory: endless{}, Plain: none}},
		"custom-plain":  {{ID: "no-plain", Memory: endless{}}},
		"custom-taken":  {rule.Forbid("empty-run", "", rule.Which{})},
		"custom-id":     {rule.Forbid("Not An Id", "", rule.Which{})},
		"custom-empty":  {{ID: "nothing"}},
		"custom-twice":  {rule.Forbid("twice", "", rule.Which{}), rule.Forbid("twice", "", rule.Which{})},
	} {
		_, err := (&Planner{Rules: rules}).Plan(context.Background(), req)
		var bad *season.InputError
		if !errors.As(err, &bad) || bad.Problems[0].Code != code {
			t.Errorf("%s: error %v", code, err)
		}
	}
}

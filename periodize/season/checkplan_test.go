package season_test

import (
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

// A plan built in Go meets the same checks as one that was read.
func TestValidatePlan(t *testing.T) {
	sample := func() season.Plan {
		return rapid.Custom(drawPlan).Filter(func(p season.Plan) bool {
			return len(p.Sessions) > 1 && len(p.Sessions[0].Parts) > 0 && len(p.Changes) > 0 && len(p.Findings) > 0
		}).Example(1)
	}
	good := sample()
	if list := good.Validate(); !usable(list) {
		t.Fatal(list)
	}
	far := day("2199-12-31").AddDays(1)
	for _, c := range []struct {
		code, path string
		change     func(*season.Plan)
	}{
		{season.CodeSchemaNewer, "/schema", func(p *season.Plan) { p.Schema = 0 }},
		{season.CodeMissing, "/id", func(p *season.Plan) { p.ID = "" }},
		{season.CodeRange, "/revision", func(p *season.Plan) { p.Revision = -1 }},
		{season.CodeMissing, "/now", func(p *season.Plan) { p.Now = time.Time{} }},
		{season.CodeInstant, "/now", func(p *season.Plan) { p.Now = p.Now.AddDate(1000, 0, 0) }},
		{season.CodeChoice, "/outcome", func(p *season.Plan) { p.Outcome = "" }},
		{season.CodeChoice, "/proof", func(p *season.Plan) { p.Proof = "x" }},
		{season.CodeDate, "/period/to", func(p *season.Plan) { p.Period.To = far }},
		{season.CodeZone, "/zone", func(p *season.Plan) { p.Zone = "" }},
		{season.CodeRange, "/cost/points", func(p *season.Plan) { p.Cost.Points = 1<<53 + 1 }},
		{season.CodeRange, "/cost/bound", func(p *season.Plan) { p.Cost.Bound = -1<<53 - 1 }},
		{season.CodeMissing, "/cost/byRule/0/rule", func(p *season.Plan) { p.Cost.ByRule = []season.RuleCost{{}} }},
		{season.CodeMissing, "/eventsDigest/0/date", func(p *season.Plan) { p.EventsDigest = []season.DayHash{{Hash: "x"}} }},
		{season.CodeChoice, "/games/0/importance", func(p *season.Plan) { p.Games[0].Importance = "x" }},
		{season.CodeChoice, "/games/0/status", func(p *season.Plan) { p.Games[0].Status = "x" }},
		{season.CodeEnd, "/games/0/end", func(p *season.Plan) { p.Games[0].End = p.Games[0].Start }},
		{season.CodeIDTwice, "/sessions/1/id", func(p *season.Plan) { p.Sessions[1].ID = p.Sessions[0].ID }},
		{season.CodeContradiction, "/sessions/0/date", func(p *season.Plan) { p.Sessions[0].Date = p.Sessions[0].Date.AddDays(3) }},
		{season.CodeContradiction, "/sessions/0/date", func(p *season.Plan) { p.Sessions[0].Date = p.Sessions[0].Date.AddDays(-3) }},
		{season.CodeEnd, "/sessions/0/end", func(p *season.Plan) { p.Sessions[0].End = p.Sessions[0].Start.Add(13 * time.Hour) }},
		{season.CodeChoice, "/sessions/0/kind", func(p *season.Plan) { p.Sessions[0].Kind = "x" }},
		{season.CodeChoice, "/sessions/0/state", func(p *season.Plan) { p.Sessions[0].State = "x" }},
		{season.CodeRange, "/sessions/0/gameDay/0/days", func(p *season.Plan) { p.Sessions[0].GameDay[0].Days = 1 << 30 }},
		{season.CodeRange, "/sessions/0/parts/0/minutes", func(p *season.Plan) { p.Sessions[0].Parts[0].Minutes = -1 }},
		{season.CodeRange, "/sessions/0/parts/0/exercises/0/load/grams", func(p *season.Plan) { p.Sessions[0].Parts[0].Exercises[0].Load.Grams = -1 }},
		{season.CodeChoice, "/sessions/0/parts/0/exercises/0/evidence/class", func(p *season.Plan) { p.Sessions[0].Parts[0].Exercises[0].Evidence.Class = "x" }},
		{season.CodeMissing, "/missed/0/aim", func(p *season.Plan) { p.Missed[0].Aim = "" }},
		{season.CodeMissing, "/missed/0/inTheWay/0/rule", func(p *season.Plan) { p.Missed[0].InTheWay[0].Rule = "" }},
		{season.CodeMissing, "/findings/0/code", func(p *season.Plan) { p.Findings[0].Code = "" }},
		{season.CodeEncoding, "/findings/0/values", func(p *season.Plan) {
			p.Findings[0].Values = season.Values{"a": {Text: "\xff", IsText: true}}
		}},
		{season.CodeMissing, "/findings/0/subject/dates/0", func(p *season.Plan) { p.Findings[0].Subject.Dates = []calendar.Date{{}} }},
		{season.CodeChoice, "/changes/0/change", func(p *season.Plan) { p.Changes[0].Change = "x" }},
		{season.CodeMissing, "/changes/0/from", func(p *season.Plan) { p.Changes[0].From = &time.Time{} }},
	} {
		p := sample()
		c.change(&p)
		var errs []calendar.Problem
		for _, x := range p.Validate() {
			if x.Class == calendar.ClassError {
				errs = append(errs, x)
			}
		}
		if len(errs) != 1 || errs[0].Code != c.code || errs[0].Path != c.path {
			t.Errorf("%s %s: %v", c.code, c.path, errs)
		}
	}
}

// An instant keeps its offset, and never takes on the zone of the machine.
func TestInstantsHaveNoMachineZone(t *testing.T) {
	before := time.Local
	time.Local = zoneOf("Europe/Berlin").Location()
	defer func() { time.Local = before }()
	plan, err := season.ReadPlan(strings.NewReader(planDoc("")))
	if err != nil {
		t.Fatal(err)
	}
	if name, offset := plan.Now.Zone(); name != "" || offset != 3600 {
		t.Errorf("zone %q, offset %d", name, offset)
	}
	req, err := season.ReadRequest(strings.NewReader(doc("", "")))
	if err != nil {
		t.Fatal(err)
	}
	if req.Now.Location() != time.UTC {
		t.Errorf("now in %s", req.Now.Location())
	}
}

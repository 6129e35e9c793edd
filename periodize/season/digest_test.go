package season_test

import (
	"errors"
	"testing"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

func ptr[T any](v T) *T { return &v }

// full is a request in which everything is set.
func full() season.Request {
	berlin := zoneOf("Europe/Berlin")
	return season.Request{
		Schema: season.Schema,
		Period: season.Period{From: day("2026-11-09"), To: day("2026-12-06")},
		Now:    time.Unix(1794207600, 0).UTC(),
		Athlete: season.Athlete{
			ID: "a7", Born: season.YearMonth{Year: 2007, Month: 3}, Zone: berlin, TrainingAgeMonths: 30, Role: "keeper",
			Hours:        []season.Hours{{Days: []time.Weekday{time.Monday, time.Sunday}, From: 9 * 3600, To: 20 * 3600}},
			Prefer:       []season.Prefer{{Days: []time.Weekday{time.Tuesday}, Start: 17 * 3600}},
			Maxima:       []season.Maximum{{Exercise: "squat", Grams: 102_500, Kind: "tested", Date: day("2026-09-14")}},
			Restrictions: []season.Restriction{{Region: "knee", Side: "left", From: day("2026-10-17"), To: day("2026-12-18"), By: "physio"}},
			Holds:        []season.Hold{{From: day("2026-10-13"), Until: day("2026-10-20"), ClearedBy: "doctor", ClearedOn: day("2026-10-19")}},
			OptIns:       []season.OptIn{season.OptPostGame},
		},
		Events: []calendar.Event{
			{
				ID: "g1", Kind: calendar.Game, Team: "U20", Title: "cup", Start: wall("2026-11-14T18:00"), End: wall("2026-11-14T20:00"), HasEnd: true,
				Zone: berlin, EndZone: zoneOf("Europe/Dublin"), ActualEnd: wall("2026-11-14T20:15"), HasActualEnd: true, Status: calendar.Provisional,
				Importance: calendar.Important, Home: calendar.AtAway, Opponent: "Tarn Ottermark", Competition: "cup", Round: "2", Revision: 3,
			},
			{ID: "p1", Kind: calendar.Practice, Start: wall("2026-11-17T19:00"), Zone: berlin, Hard: true},
		},
		Places: []season.Place{{
			ID: "gym", Hours: []season.Hours{{Days: []time.Weekday{time.Friday}, From: 6 * 3600, To: 22 * 3600}},
			Closed: []season.Period{{From: day("2026-11-20"), To: day("2026-11-21")}}, Kit: []string{"bar"},
		}},
		Rules:  []season.Override{{Rule: "size", Value: ptr(3), Points: ptr(40), By: "coach", Reason: "test"}},
		Log:    []season.Done{{ID: "l1", Session: "s1", Kind: season.Primer, Start: wall("2026-11-03T17:00"), End: wall("2026-11-03T17:35"), HasEnd: true, Zone: berlin}},
		Issued: []season.Plan{{Schema: season.Schema, ID: "p0"}},
		Pins:   []season.Pin{{Date: day("2026-11-19"), Kind: season.FullBody, Start: ptr(calendar.Clock(17 * 3600)), Place: "gym"}},
	}
}

// Each single change gives another digest.
func TestDigestSeesEverything(t *testing.T) {
	seen := map[string]string{full().Digest(): "unchanged"}
	other := zoneOf("America/Halifax")
	for name, change := range map[string]func(*season.Request){
		"from": func(r *season.Request) { r.Period.From = day("2026-11-10") }, "to": func(r *season.Request) { r.Period.To = day("2026-12-07") },
		"now": func(r *season.Request) { r.Now = r.Now.Add(time.Second) }, "no now": func(r *season.Request) { r.Now = time.Time{} },
		"id": func(r *season.Request) { r.Athlete.ID = "a8" }, "born": func(r *season.Request) { r.Athlete.Born.Month = 4 },
		"zone": func(r *season.Request) { r.Athlete.Zone = other }, "training": func(r *season.Request) { r.Athlete.TrainingAgeMonths++ },
		"unknown training": func(r *season.Request) { r.Athlete.TrainingAgeMonths = -1 }, "role": func(r *season.Request) { r.Athlete.Role = "" },
		"hours days": func(r *season.Request) { r.Athlete.Hours[0].Days = r.Athlete.Hours[0].Days[:1] }, "hours from": func(r *season.Request) { r.Athlete.Hours[0].From++ },
		"hours to": func(r *season.Request) { r.Athlete.Hours[0].To++ }, "prefer": func(r *season.Request) { r.Athlete.Prefer[0].Start++ },
		"prefer days": func(r *season.Request) { r.Athlete.Prefer[0].Days = []time.Weekday{time.Wednesday} }, "grams": func(r *season.Request) { r.Athlete.Maxima[0].Grams++ },
		"exercise": func(r *season.Request) { r.Athlete.Maxima[0].Exercise = "pull" }, "maximum kind": func(r *season.Request) { r.Athlete.Maxima[0].Kind = "estimated" },
		"maximum date": func(r *season.Request) { r.Athlete.Maxima[0].Date = day("2026-09-15") }, "region": func(r *season.Request) { r.Athlete.Restrictions[0].Region = "hip" },
		"side": func(r *season.Request) { r.Athlete.Restrictions[0].Side = "right" }, "restricted from": func(r *season.Request) { r.Athlete.Restrictions[0].From = day("2026-10-18") },
		"restricted to": func(r *season.Request) { r.Athlete.Restrictions[0].To = calendar.Date{} }, "restricted by": func(r *season.Request) { r.Athlete.Restrictions[0].By = "" },
		"hold from": func(r *season.Request) { r.Athlete.Holds[0].From = day("2026-10-14") }, "hold until": func(r *season.Request) { r.Athlete.Holds[0].Until = calendar.Date{} },
		"cleared by": func(r *season.Request) { r.Athlete.Holds[0].ClearedBy = "" }, "cleared on": func(r *season.Request) { r.Athlete.Holds[0].ClearedOn = day("2026-10-20") },
		"opt-ins": func(r *season.Request) { r.Athlete.OptIns = nil }, "event id": func(r *season.Request) { r.Events[0].ID = "g2" },
		"kind": func(r *season.Request) { r.Events[0].Kind = calendar.Busy }, "team": func(r *season.Request) { r.Events[0].Team = "" },
		"title": func(r *season.Request) { r.Events[0].Title = "" }, "start": func(r *season.Request) { r.Events[0].Start.Clock++ },
		"end": func(r *season.Request) { r.Events[0].End.Clock++ }, "no end": func(r *season.Request) { r.Events[0].HasEnd = false },
		"event zone": func(r *season.Request) { r.Events[0].Zone = other }, "end zone": func(r *season.Request) { r.Events[0].EndZone = other },
		"actual end": func(r *season.Request) { r.Events[0].ActualEnd.Clock++ }, "no actual end": func(r *season.Request) { r.Events[0].HasActualEnd = false },
		"status": func(r *season.Request) { r.Events[0].Status = calendar.Confirmed }, "importance": func(r *season.Request) { r.Events[0].Importance = calendar.Normal },
		"hard": func(r *season.Request) { r.Events[1].Hard = false }, "home": func(r *season.Request) { r.Events[0].Home = calendar.AtHome },
		"opponent": func(r *season.Request) { r.Events[0].Opponent = "x" }, "competition": func(r *season.Request) { r.Events[0].Competition = "x" },
		"round": func(r *season.Request) { r.Events[0].Round = "x" }, "revision": func(r *season.Request) { r.Events[0].Revision++ },
		"event gone": func(r *season.Request) { r.Events = r.Events[:1] }, "place": func(r *season.Request) { r.Places[0].ID = "hall" },
		"place hours": func(r *season.Request) { r.Places[0].Hours = nil }, "closed": func(r *season.Request) { r.Places[0].Closed[0].To = day("2026-11-22") },
		"away": func(r *season.Request) { r.Places[0].Away = true }, "place zone": func(r *season.Request) { r.Places[0].Zone = other },
		"kit": func(r *season.Request) { r.Places[0].Kit = []string{"bench"} }, "rule": func(r *season.Request) { r.Rules[0].Rule = "x" },
		"value": func(r *season.Request) { r.Rules[0].Value = ptr(4) }, "no value": func(r *season.Request) { r.Rules[0].Value = nil },
		"points": func(r *season.Request) { r.Rules[0].Points = ptr(41) }, "off": func(r *season.Request) { r.Rules[0].Off = true },
		"by": func(r *season.Request) { r.Rules[0].By = "x" }, "reason": func(r *season.Request) { r.Rules[0].Reason = "x" },
		"log id": func(r *season.Request) { r.Log[0].ID = "l2" }, "log session": func(r *season.Request) { r.Log[0].Session = "" },
		"log kind": func(r *season.Request) { r.Log[0].Kind = season.Recovery }, "log start": func(r *season.Request) { r.Log[0].Start.Clock++ },
		"log end": func(r *season.Request) { r.Log[0].HasEnd = false }, "log zone": func(r *season.Request) { r.Log[0].Zone = other },
		"missed": func(r *season.Request) { r.Log[0].Missed = true }, "issued": func(r *season.Request) { r.Issued[0].Revision++ },
		"pin date": func(r *season.Request) { r.Pins[0].Date = day("2026-11-20") }, "pin kind": func(r *season.Request) { r.Pins[0].Kind = season.Primer },
		"pin start": func(r *season.Request) { r.Pins[0].Start = nil }, "pin place": func(r *season.Request) { r.Pins[0].Place = "" },
		"pin none": func(r *season.Request) { r.Pins[0].None = true },
	} {
		r := full()
		change(&r)
		d := r.Digest()
		if before, ok := seen[d]; ok {
			t.Errorf("%s and %s have one digest", name, before)
		}
		seen[d] = name
	}
}

// What Canonical settles is the same request.
func TestDigestOfTheSame(t *testing.T) {
	want := full().Digest()
	for name, change := range map[string]func(*season.Request){
		"schema": func(r *season.Request) { r.Schema = 0 },
		"zone of an instant": func(r *season.Request) {
			r.Now = r.Now.In(time.FixedZone("", 3600))
		},
		"zone of an event": func(r *season.Request) { r.Events[1].Zone = calendar.Zone{} },
		"zone of a log":    func(r *season.Request) { r.Log[0].Zone = calendar.Zone{} },
		"source":           func(r *season.Request) { r.Events[0].Source = "a.ics:4" },
		"unused clock": func(r *season.Request) {
			r.Log[0].End, r.Events[1].End = wall("2026-11-03T17:35"), wall("2026-11-03T17:35")
		},
	} {
		r := full()
		change(&r)
		if got := r.Digest(); got != want {
			t.Errorf("%s: another digest", name)
		}
	}
}

// A zone of a calendar's own transitions has no name to write, but a digest.
func TestCustomZone(t *testing.T) {
	zone := func(offset int) calendar.Zone {
		z, err := calendar.NewRuleZone("Club", calendar.Transition{Offset: 3600}, []calendar.Transition{{At: time.Unix(1790000000, 0), Offset: offset}})
		if err != nil {
			t.Fatal(err)
		}
		return z
	}
	a, b := full(), full()
	a.Events[0].Zone, b.Events[0].Zone = zone(7200), zone(7260)
	if a.Digest() == b.Digest() || a.Digest() == full().Digest() {
		t.Error("zones of one name and other clock changes have one digest")
	}
	same := full()
	same.Events[0].Zone = zone(7200)
	if a.Digest() != same.Digest() {
		t.Error("equal zones have two digests")
	}
	period := full().Period
	if x, y := season.EventsDigest(a.Events, period), season.EventsDigest(b.Events, period); x[0] == y[0] || x[1] != y[1] {
		t.Error(x, y)
	}
	_, err := a.MarshalJSON()
	var bad *season.InputError
	if !errors.As(err, &bad) || len(bad.Problems) != 1 || bad.Problems[0].Path != "/events/0/zone" || bad.Problems[0].Code != season.CodeZone {
		t.Error(err)
	}
	a.Athlete.Zone = zone(7200)
	a.Issued[0].Zone = "Club"
	for _, p := range a.Validate() {
		if p.Code == season.CodeZone {
			t.Error(p)
		}
	}
}

// Each date an event touches has it in its digest; a game only its own date.
func TestEventsDigestDates(t *testing.T) {
	berlin := zoneOf("Europe/Berlin")
	at := func(kind calendar.Kind, start, end string) calendar.Event {
		return calendar.Event{Kind: kind, Zone: berlin, Start: wall(start), End: wall(end), HasEnd: true}
	}
	for name, c := range map[string]struct {
		event calendar.Event
		want  []string
	}{
		"game past midnight":   {at(calendar.Game, "2026-11-14T22:30", "2026-11-15T00:45"), []string{"2026-11-14"}},
		"trip":                 {at(calendar.Travel, "2026-11-13T22:30", "2026-11-15T07:45"), []string{"2026-11-13", "2026-11-14", "2026-11-15"}},
		"until midnight":       {at(calendar.Busy, "2026-11-13T22:30", "2026-11-14T00:00"), []string{"2026-11-13"}},
		"until 24:00":          {at(calendar.Busy, "2026-11-13T22:30", "2026-11-13T24:00"), []string{"2026-11-13"}},
		"from 24:00":           {at(calendar.Busy, "2026-11-13T24:00", "2026-11-14T02:00"), []string{"2026-11-14"}},
		"ends before it began": {at(calendar.Busy, "2026-11-13T22:30", "2026-11-11T00:00"), []string{"2026-11-13"}},
		"before and into":      {at(calendar.Closure, "2026-11-01T00:00", "2026-11-11T00:00"), []string{"2026-11-09", "2026-11-10"}},
		"cancelled": {func() calendar.Event {
			e := at(calendar.Game, "2026-11-14T22:30", "2026-11-15T00:45")
			e.Status = calendar.Cancelled
			return e
		}(), nil},
		"dates": {calendar.Event{Kind: calendar.Closure, Zone: berlin, DateOnly: true, Start: calendar.Wall{Date: day("2026-11-21")}, End: calendar.Wall{Date: day("2026-11-24")}, HasEnd: true},
			[]string{"2026-11-21", "2026-11-22"}},
	} {
		var got []string
		for _, d := range season.EventsDigest([]calendar.Event{c.event}, season.Period{From: day("2026-11-09"), To: day("2026-11-22")}) {
			got = append(got, d.Date.String())
		}
		if len(got) != len(c.want) {
			t.Errorf("%s: %v, want %v", name, got, c.want)
			continue
		}
		for i := range got {
			if got[i] != c.want[i] {
				t.Errorf("%s: %v, want %v", name, got, c.want)
			}
		}
	}
}

// Events that contradict each other, and days named twice, have an order too.
func TestDigestOrderOfTies(t *testing.T) {
	a, b := full(), full()
	twin := a.Events[0]
	twin.Title = "final"
	a.Events = append(a.Events, twin)
	b.Events = append([]calendar.Event{twin}, b.Events...)
	b.Athlete.Hours[0].Days = []time.Weekday{time.Sunday, time.Monday, time.Sunday}
	if a.Digest() != b.Digest() || len(a.Canonical().Events) != 3 {
		t.Error("the order of contradicting events, or a day named twice, is seen")
	}
	once, twice := full().Events, append(full().Events, full().Events...)
	if x, y := season.EventsDigest(once, full().Period), season.EventsDigest(twice, full().Period); x[0] != y[0] || x[1] != y[1] {
		t.Error("an event given twice is seen")
	}
}

package bridge

import (
	"context"
	"encoding/json"
	"strings"
	"testing"

	"example.org/weft/calendar"
	invented "example.org/weft/internal/demo"
	"example.org/weft/internal/say"
	"example.org/weft/periodize"
	"example.org/weft/periodize/season"
)

// TestPlanIsTheLibrarys: the plan that the page saves has the bytes that the
// library writes for the same request.
func TestPlanIsTheLibrarys(t *testing.T) {
	var p periodize.Planner
	plan, err := p.Plan(context.Background(), invented.Season())
	if err != nil {
		t.Fatal(err)
	}
	want, err := json.MarshalIndent(plan, "", "  ")
	if err != nil {
		t.Fatal(err)
	}
	if got := call[Saved](t, example(t), "plan", nil); got.Text != string(want)+"\n" {
		t.Errorf("%d bytes, want %d", len(got.Text), len(want)+1)
	}
}

// TestMoveIsAReplan: what is accepted is what Replan gives against the plan that
// was there.
func TestMoveIsAReplan(t *testing.T) {
	var p periodize.Planner
	d := example(t)
	first, err := p.Plan(context.Background(), invented.Season())
	if err != nil {
		t.Fatal(err)
	}
	next, err := season.Apply(*invented.Season(), season.Move("g21", "2026-12-17T18:45"))
	if err != nil {
		t.Fatal(err)
	}
	want, err := p.Replan(context.Background(), &next, first)
	if err != nil {
		t.Fatal(err)
	}
	slip := call[Slip](t, d, "move", moveArgs{ID: "g21", To: "2026-12-17T18:45", Do: "move"})
	changed := 0
	for _, c := range want.Changes {
		if c.Change != season.Unchanged {
			changed++
		}
	}
	if len(slip.Changes) != changed || slip.Unchanged != len(want.Changes)-changed || changed == 0 {
		t.Errorf("%d changes and %d unchanged, want %d of %d", len(slip.Changes), slip.Unchanged, changed, len(want.Changes))
	}
	if !strings.Contains(slip.News, "Vestbjerg moves from Fri 18 Dec 20:15 to Thu 17 Dec 18:45") {
		t.Errorf("news: %s", slip.News)
	}
	v := call[View](t, d, "accept", nil)
	if len(v.Weeks) != 37 {
		t.Errorf("%d weeks", len(v.Weeks))
	}
	got := sessions(d.plan)
	if want := sessions(want); got != want {
		t.Errorf("sessions differ from those of Replan:\n%s\n%s", got, want)
	}
}

func sessions(p *season.Plan) string {
	var b strings.Builder
	for _, s := range p.Sessions {
		b.WriteString(s.ID + " " + s.Start.String() + " " + string(s.Kind) + "\n")
	}
	return b.String()
}

// TestSavedRequestComesBack: a request that is saved and opened gives the same
// plan, also after a change with its issued plan.
func TestSavedRequestComesBack(t *testing.T) {
	d := example(t)
	call[Slip](t, d, "move", moveArgs{ID: "g14", To: "2026-11-09T17:30", Do: "move"})
	call[View](t, d, "accept", nil)
	call[Slip](t, d, "pin", pinArgs{Date: "2026-11-11", Kind: "recovery", Start: "16:30"})
	v := call[View](t, d, "accept", nil)
	if len(v.Pins) != 1 || v.Pins[0].Text != "Recovery on Wed 11 Nov at 16:30" {
		t.Errorf("pins: %v", v.Pins)
	}
	saved := call[Saved](t, d, "save", nil)
	other := new(Desk)
	w := call[View](t, other, "open", openArgs{Files: []file{{Name: "request.json", Text: saved.Text}}})
	if w.Plan.ID != v.Plan.ID || sessions(other.plan) != sessions(d.plan) {
		t.Errorf("plan %s comes back as %s", v.Plan.ID, w.Plan.ID)
	}
	if w.Invented {
		t.Error("a file of somebody's is called invented")
	}
	if again := call[Saved](t, other, "save", nil); again.Text != saved.Text {
		t.Error("the request is saved in another way")
	}
	call[View](t, d, "restore", restoreArgs{Request: saved.Text, Invented: true})
	if !d.invented || d.plan.ID != v.Plan.ID {
		t.Error("restored as something else")
	}
}

// TestDiscarded: a proposal that nobody accepts leaves everything as it was.
func TestDiscarded(t *testing.T) {
	d := example(t)
	before := call[Saved](t, d, "save", nil)
	call[Slip](t, d, "move", moveArgs{ID: "g14", Do: "cancel"})
	call[Empty](t, d, "discard", nil)
	wrongs(t, d, "accept", nil)
	if after := call[Saved](t, d, "save", nil); after.Text != before.Text {
		t.Error("the request changed")
	}
}

// TestEverySessionIsExplained: each session of the plan stands in a week, has a
// reason and a card of its length, and each of its choices can be tried.
func TestEverySessionIsExplained(t *testing.T) {
	d := example(t)
	v := call[View](t, d, "demo", nil)
	shown := map[string]Item{}
	games := 0
	for _, w := range v.Weeks {
		if len(w.Days) != 7 {
			t.Fatalf("week %d has %d days", w.Number, len(w.Days))
		}
		for _, x := range w.Days {
			for _, it := range x.Items {
				switch it.Type {
				case "session":
					shown[it.ID] = it
				case "game":
					games++
				}
			}
		}
	}
	if len(shown) != len(d.plan.Sessions) || games != 48 { // one is postponed
		t.Errorf("%d sessions of %d, %d games", len(shown), len(d.plan.Sessions), games)
	}
	for i := 3; i < len(d.plan.Sessions); i += 29 {
		s := d.plan.Sessions[i]
		a := call[About](t, d, "session", sessionArgs{ID: s.ID})
		if len(a.Why) == 0 || a.Card == nil || a.Card.Minutes != s.Minutes || len(a.Possible)+len(a.Forbidden) == 0 {
			t.Errorf("%s: %d reasons, card %v, %d possible, %d forbidden", s.ID, len(a.Why), a.Card, len(a.Possible), len(a.Forbidden))
		}
		for _, c := range a.Forbidden {
			if len(c.Limits) == 0 {
				t.Errorf("%s: %s is forbidden by nothing", s.ID, c.Title)
			}
		}
	}
}

// TestPrices: the price of a choice is what the plan costs more once it is fixed.
func TestPrices(t *testing.T) {
	d := example(t)
	id := ""
	for _, s := range d.plan.Sessions {
		if s.Date.String() == "2026-10-15" {
			id = s.ID
		}
	}
	a := call[About](t, d, "session", sessionArgs{ID: id})
	checked := 0
	for _, c := range a.Possible {
		if !c.Taking || c.Start == "" {
			continue
		}
		next := *invented.Season()
		date, err := calendar.ParseDate(c.Date)
		if err != nil {
			t.Fatal(err)
		}
		clock, err := calendar.ParseClock(c.Start)
		if err != nil {
			t.Fatal(err)
		}
		next.Pins = []season.Pin{{Date: date, Kind: season.Kind(c.Kind), Start: &clock, Place: c.Place}}
		plan, err := d.planner.Plan(context.Background(), &next)
		if err != nil {
			t.Fatal(err)
		}
		more := plan.Cost.Points - d.plan.Cost.Points
		want := map[bool]string{true: "as good", false: say.Count(int(more), "point")}[more == 0]
		if more > periodize.Slack && strings.HasPrefix(c.Price, "over") {
			want = c.Price
		}
		if c.Price != want {
			t.Errorf("%s %s costs %s, planned %s", c.Title, c.When, c.Price, want)
		}
		checked++
	}
	if checked < 2 {
		t.Errorf("%d choices", checked)
	}
}

// TestReportIsForgotten: a sore spot changes the card, by the written thresholds,
// and stands in nothing that is saved.
func TestReportIsForgotten(t *testing.T) {
	d := example(t)
	before := call[Saved](t, d, "save", nil)
	var s season.Session
	for _, x := range d.plan.Sessions {
		if x.Date.String() == "2026-10-15" {
			s = x
		}
	}
	for _, c := range []struct {
		pain  int
		state string
		card  bool
	}{{0, "as written", true}, {2, "as written", true}, {3, "swapped", true}, {5, "swapped", true}, {6, "held", false}, {10, "held", false}} {
		got := call[Today](t, d, "report", reportArgs{Session: s.ID, Region: "adductors", Side: "left", Pain: c.pain})
		if got.State != c.state || (got.Card != nil) != c.card || got.Clearance != (c.state == "held") {
			t.Errorf("pain %d: %s, card %v, clearance %v", c.pain, got.State, got.Card != nil, got.Clearance)
		}
		if c.state == "swapped" && (len(got.Out) == 0 || len(got.In) == 0 || got.Card.Minutes != s.Minutes) {
			t.Errorf("pain %d: out %v, in %v, %d minutes", c.pain, got.Out, got.In, got.Card.Minutes)
		}
	}
	if after := call[Saved](t, d, "save", nil); after.Text != before.Text {
		t.Error("a report stands in the request")
	}
	wrong := wrongs(t, d, "report", reportArgs{Session: s.ID, Region: "secret word", Side: "left", Pain: 3})
	for _, p := range wrong {
		if strings.Contains(p.Value+p.Reason+p.Where+p.Remedy, "secret") {
			t.Errorf("a problem shows what was reported: %v", p)
		}
	}
}

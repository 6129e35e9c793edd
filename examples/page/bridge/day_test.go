package bridge

import (
	"encoding/json"
	"strings"
	"testing"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

// sessionOn is the session of a date of the plan on the desk.
func sessionOn(t *testing.T, d *Desk, date string) season.Session {
	t.Helper()
	for _, s := range d.plan.Sessions {
		if s.Date.String() == date {
			return s
		}
	}
	t.Fatalf("no session on %s", date)
	return season.Session{}
}

// itemOn finds what a date of a view holds, by type and id.
func itemOn(v View, date, kind, id string) *Item {
	for _, w := range v.Weeks {
		for _, x := range w.Days {
			for i := range x.Items {
				if it := &x.Items[i]; x.Date == date && it.Type == kind && (id == "" || it.ID == id) {
					return it
				}
			}
		}
	}
	return nil
}

// TestDayIsADraft: a report shows what becomes of the rest of the plan and changes
// nothing; confirmed, the session is done and says that it was swapped, and no
// file says why; what was before can be brought back.
func TestDayIsADraft(t *testing.T) {
	d := example(t)
	before, plan := call[Saved](t, d, "save", nil), d.plan.ID
	s := sessionOn(t, d, "2026-10-15")
	got := call[Today](t, d, "report", reportArgs{Session: s.ID, Region: "adductors", Side: "left", Pain: 4, Minutes: 30})
	if got.Rest == nil || got.Rest.Unchanged+len(got.Rest.Changes) == 0 || got.Rest.Off != 0 {
		t.Fatalf("the rest: %+v", got.Rest)
	}
	if d.plan.ID != plan || call[Saved](t, d, "save", nil).Text != before.Text {
		t.Error("a report that nobody confirmed changed something")
	}
	v := call[View](t, d, "accept", nil)
	it := itemOn(v, "2026-10-15", "session", s.ID)
	if it == nil || it.State != "done" || it.Became != got.State || got.State == "as written" {
		t.Errorf("the session is shown as %+v, the day was %s", it, got.State)
	}
	saved := call[Saved](t, d, "save", nil)
	for _, secret := range []string{"adductor", "swapped", "eased", "groin", "pain", "sore"} {
		if strings.Contains(saved.Text, secret) {
			t.Errorf("the request says %q", secret)
		}
	}
	if len(saved.Days) != 1 || saved.Days[0].Session != s.ID {
		t.Errorf("days: %+v", saved.Days)
	}
	v = call[View](t, d, "restore", restoreArgs{Request: before.Text, Invented: true, Days: before.Days})
	if it := itemOn(v, "2026-10-15", "session", s.ID); it == nil || it.State != "as written" || it.Became != "" || d.plan.ID != plan {
		t.Errorf("taken back: %+v", it)
	}
	v = call[View](t, d, "restore", restoreArgs{Request: saved.Text, Invented: true, Days: saved.Days})
	if it := itemOn(v, "2026-10-15", "session", s.ID); it == nil || it.Became != got.State {
		t.Errorf("done again: %+v", it)
	}
}

// TestHeldDay: what is off is counted; confirmed, the session stands in its week as
// held, and nothing is planned until somebody clears it.
func TestHeldDay(t *testing.T) {
	d := example(t)
	s := sessionOn(t, d, "2026-10-15")
	got := call[Today](t, d, "report", reportArgs{Session: s.ID, Region: "adductors", Side: "left", Pain: 7})
	if got.State != "held" || got.Rest == nil || got.Rest.Off < 100 {
		t.Fatalf("%s, %+v", got.State, got.Rest)
	}
	v := call[View](t, d, "accept", nil)
	if it := itemOn(v, "2026-10-15", "held", s.ID); it == nil || it.State != "held" || it.When != "15:45–16:40" || it.Title != "Full-body" {
		t.Errorf("the held session is shown as %+v", it)
	}
	for _, s := range d.plan.Sessions {
		if s.Date.String() >= "2026-10-15" {
			t.Fatalf("a session on %s though on hold: %s", s.Date, v.Plan.Outcome)
		}
	}
	if strings.Contains(call[Saved](t, d, "save", nil).Text, "adductor") {
		t.Error("the request says why")
	}
	v = call[View](t, d, "demo", nil)
	if itemOn(v, "2026-10-15", "held", "") != nil {
		t.Error("the mark outlives the request")
	}
}

// TestSigns: a sign holds the day, whatever the pain.
func TestSigns(t *testing.T) {
	d := example(t)
	for _, sign := range choicesOf().Signs {
		got := call[Today](t, d, "report", reportArgs{Session: sessionOn(t, d, "2026-10-15").ID, Sign: sign})
		if got.State != "held" || !got.Clearance {
			t.Errorf("%s: %s", sign, got.State)
		}
	}
}

// abroad is a fortnight with a journey over six hours of clock to the west.
const abroad = `{"schema": 1, "period": {"from": "2026-11-09", "to": "2026-11-29"},
	"athlete": {"id": "a7", "born": "2001-05", "zone": "Europe/Lisbon", "trainingAgeYears": 4},
	"places": [{"id": "gym"}, {"id": "hotel", "away": true}],
	"events": [
	{"id": "out", "kind": "travel", "start": "2026-11-13T10:00", "end": "2026-11-13T13:00", "zone": "Europe/Lisbon", "endZone": "America/Halifax"},
	{"id": "g1", "kind": "game", "start": "2026-11-17T19:00", "end": "2026-11-17T20:45", "zone": "America/Halifax"},
	{"id": "back", "kind": "travel", "start": "2026-11-19T18:00", "end": "2026-11-20T05:30", "zone": "America/Halifax", "endZone": "Europe/Lisbon"}]}`

// TestTimesThere: on a journey sessions and games show the clock on the spot and
// say whose it is, at home they do not; a choice there is tried by that clock.
func TestTimesThere(t *testing.T) {
	d := new(Desk)
	text, err := json.Marshal(abroad)
	if err != nil {
		t.Fatal(err)
	}
	v := call[View](t, d, "restore", map[string]json.RawMessage{"request": text})
	away, home := 0, 0
	for _, s := range d.plan.Sessions {
		it := itemOn(v, s.Date.String(), "session", s.ID)
		if it == nil {
			t.Fatalf("no session %s on %s", s.ID, s.Date)
		}
		zone := "Europe/Lisbon"
		if s.Local != nil {
			zone = s.Local.Zone
		}
		z, err := calendar.LoadZone(zone)
		if err != nil {
			t.Fatal(err)
		}
		if want := z.Local(s.Start).Clock.String()[:5]; it.Start != want {
			t.Errorf("%s %s is shown at %s, the clock there says %s", s.Date, s.Kind, it.Start, want)
		}
		switch it.There {
		case "":
			home++
		case "time in America/Halifax":
			away++
		default:
			t.Errorf("%s: %q", s.Date, it.There)
		}
	}
	if away < 2 || home < 4 {
		t.Fatalf("%d sessions away, %d at home", away, home)
	}
	if g := itemOn(v, "2026-11-17", "game", "g1"); g == nil || g.When != "19:00–20:45" || g.There != "time in America/Halifax" {
		t.Errorf("the game is shown as %+v", g)
	}
	tried := false
	for _, s := range d.plan.Sessions {
		if s.Local == nil || tried {
			continue
		}
		a := call[About](t, d, "session", sessionArgs{ID: s.ID})
		for _, c := range a.Possible {
			if !c.Taking || c.Start == "" || !strings.Contains(c.When, "Halifax") {
				continue
			}
			tried = true
			call[Slip](t, d, "pin", pinArgs{Date: c.Date, Kind: c.Kind, Start: c.Start, Place: c.Place})
			w := call[View](t, d, "accept", nil)
			found := false
			for _, x := range d.plan.Sessions {
				it := itemOn(w, c.Date, "session", x.ID)
				found = found || it != nil && it.Kind == c.Kind && it.Start == c.Start && it.There != ""
			}
			if !found {
				t.Errorf("%s at %s was tried and is not there", c.Title, c.Start)
			}
			break
		}
	}
	if !tried {
		t.Error("nothing could be tried away")
	}
}

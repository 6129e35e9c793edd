package say_test

import (
	"testing"
	"time"

	"example.org/weft/internal/say"
	"example.org/weft/periodize/season"
	"github.com/google/go-cmp/cmp"
)

func hour(n int) time.Time { return time.Unix(0, 0).Add(time.Duration(n) * time.Hour).UTC() }

func TestChange(t *testing.T) {
	sessions := func(list ...season.Session) []season.Session { return list }
	issued := []season.Plan{
		{Sessions: sessions(season.Session{ID: "z"})},
		{Games: []season.PlanGame{{ID: "g7", Title: "Hessel\nStrand"}, {ID: "g8"}}, Sessions: sessions(
			season.Session{ID: "a", Place: "gym", End: hour(17)},
			season.Session{ID: "b", Place: "gym", End: hour(41)},
			season.Session{ID: "c", Place: "gym", End: hour(65)},
			season.Session{ID: "d", Place: "gym", End: hour(90)})},
	}
	plan := &season.Plan{Sessions: sessions(
		season.Session{ID: "a", Place: "hall", End: hour(17)},
		season.Session{ID: "b", Place: "gym", End: hour(42)},
		season.Session{ID: "c", Place: "gym", End: hour(65)},
		season.Session{ID: "e", Place: "gym", End: hour(99)})}
	c := say.NewChange(plan, issued)
	if c.Issued != &issued[1] {
		t.Error("not the last plan handed out")
	}
	for id, want := range map[string][3]bool{"a": {true, true, true}, "b": {true, true, true}, "c": {true, true, false}, "d": {true, false, false}, "e": {false, true, false}, "z": {}} {
		x := season.Change{Session: id}
		old, now := c.Sessions(x)
		if got := [3]bool{old != nil, now != nil, c.Elsewhere(x)}; got != want {
			t.Errorf("%s: %v, not %v", id, got, want)
		}
	}
	for id, want := range map[string]string{"g7": "Hessel..", "g8": "a game", "g9": "a game"} {
		if got := c.Game(id, 9); got != want {
			t.Errorf("%s: %q", id, got)
		}
	}
	if none := say.NewChange(plan, nil); none.Issued != nil || none.Game("g7", 9) != "a game" {
		t.Error("a plan handed out where there is none")
	}
}

func TestMoves(t *testing.T) {
	names := map[string]string{"1": "Tornby", "2": "Tornby", "3": "Tornby", "4": "Tornby", "5": "Lyngmose", "6": "Hessel Strand", "7": "Brakhavn"}
	var causes []season.Note
	for _, x := range [][2]string{{"gone", "1"}, {"new", "2"}, {"gone", "5"}, {"new", "3"}, {"gone", "4"}, {"new", "6"}, {"moved", "7"}} {
		causes = append(causes, season.Note{Code: "cause-game-" + x[0], Subject: season.Subject{Event: x[1]}})
	}
	got := say.MovesOf(causes, func(id string) string { return names[id] })
	if d := cmp.Diff(say.Moves{{Name: "Tornby", Gone: "1", New: "3"}}, got); d != "" {
		t.Error(d)
	}
	if !got.Have("Tornby") || got.Have("Lyngmose") {
		t.Error("the wrong games have moved")
	}
}

func TestRooms(t *testing.T) {
	var r say.Rooms
	if r.Lines() != nil {
		t.Error("no place is told anything")
	}
	s := func(place string, start int) *season.Session {
		return &season.Session{Place: place, Start: hour(start), End: hour(start + 1)}
	}
	when := func(x *season.Session) string { return x.Start.Format("02 15:04") }
	r.Add(s("gym", 17), s("gym", 17), when)
	r.Add(s("gym", 17), s("hall", 41), when)
	r.Add(nil, s("", 20), when)
	r.Add(s("gym", 65), nil, when)
	r.Add(s("hall", 18), s("gym", 19), when)
	want := []string{
		"gym: no longer 01 17:00, 03 17:00; now 01 19:00",
		"hall: no longer 01 18:00; now 02 17:00",
		"the gym: now 01 20:00",
	}
	if d := cmp.Diff(want, r.Lines()); d != "" {
		t.Error(d)
	}
}

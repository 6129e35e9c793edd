package season_test

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

func editRequest() season.Request {
	berlin := zoneOf("Europe/Berlin")
	game := func(id, start, end string, status calendar.Status) calendar.Event {
		e := calendar.Event{ID: id, Kind: calendar.Game, Start: wall(start), Zone: berlin, Status: status}
		if end != "" {
			e.End, e.HasEnd = wall(end), true
		}
		return e
	}
	req := season.Request{
		Period:  season.Period{From: day("2026-11-02"), To: day("2026-11-29")},
		Athlete: season.Athlete{Zone: berlin},
		Events: []calendar.Event{
			game("game-07", "2026-11-07T15:00", "2026-11-07T17:00", calendar.Confirmed),
			game("game-14", "2026-11-14T23:30", "2026-11-15T01:30:30", calendar.Postponed),
			game("game-20", "2026-11-20T18:00", "", calendar.Cancelled),
			game("game-01", "2026-11-01T18:00", "2026-11-01T20:00", calendar.Played),
			{ID: "tournament", Kind: calendar.Game, Start: calendar.Wall{Date: day("2026-11-21")}, DateOnly: true},
			{ID: "closed", Kind: calendar.Closure, Start: calendar.Wall{Date: day("2026-11-23")}, DateOnly: true, End: calendar.Wall{Date: day("2026-11-26")}, HasEnd: true},
			{Kind: calendar.Practice, Start: wall("2026-11-03T19:00")},
		},
	}
	req.Events[0].ActualEnd, req.Events[0].HasActualEnd = wall("2026-11-07T17:20"), true
	return req
}

// event is the first event of an id.
func event(r season.Request, id string) calendar.Event {
	i := slices.IndexFunc(r.Events, func(e calendar.Event) bool { return e.ID == id })
	if i < 0 {
		return calendar.Event{}
	}
	return r.Events[i]
}

func TestMove(t *testing.T) {
	for _, c := range []struct {
		id, to, start, end string
		dateOnly           bool
		status             calendar.Status
	}{
		{"game-07", "2026-11-05T19:45", "2026-11-05T19:45", "2026-11-05T21:45", false, calendar.Confirmed},
		{"game-07", "2026-11-05T23:00", "2026-11-05T23:00", "2026-11-06T01:00", false, calendar.Confirmed},
		{"game-07", "2026-11-05", "2026-11-05T00:00", "", true, calendar.Confirmed},
		{"game-14", "2026-11-17T19:45:10", "2026-11-17T19:45:10", "2026-11-17T21:45:40", false, calendar.Confirmed},
		{"tournament", "2026-11-22T10:00", "2026-11-22T10:00", "", false, ""},
		{"tournament", "2026-11-22", "2026-11-22T00:00", "", true, ""},
		{"closed", "2026-11-24", "2026-11-24T00:00", "2026-11-27T00:00", true, ""},
	} {
		next, err := season.Apply(editRequest(), season.Move(c.id, c.to))
		if err != nil {
			t.Errorf("%s to %s: %v", c.id, c.to, err)
			continue
		}
		e := event(next, c.id)
		end := ""
		if e.HasEnd {
			end = e.End.String()
		}
		if e.Start.String() != c.start || end != c.end || e.DateOnly != c.dateOnly || e.Status != c.status || e.HasActualEnd || e.Revision != 1 {
			t.Errorf("%s to %s: %+v", c.id, c.to, e)
		}
	}
}

func TestStatusEdits(t *testing.T) {
	req := editRequest()
	settled, err := season.Apply(req)
	if err != nil {
		t.Fatal(err)
	}
	practice := settled.Events[6].ID // made of its content, zone and all
	next, err := season.Apply(req, season.Cancel("game-07"), season.Confirm("game-20"), season.Postpone(practice), season.Edit{}, season.Postpone("game-20"))
	if err != nil {
		t.Fatal(err)
	}
	for id, want := range map[string]calendar.Status{"game-07": calendar.Cancelled, "game-20": calendar.Postponed, practice: calendar.Postponed} {
		if got := event(next, id).Status; got != want {
			t.Errorf("%s: %s, want %s", id, got, want)
		}
	}
	if got := event(next, "game-20").Revision; got != 2 {
		t.Errorf("revision %d after two edits", got)
	}
}

// Of several revisions of an event the one in force is edited.
func TestEditOfRevision(t *testing.T) {
	req := editRequest()
	newer := req.Events[0]
	newer.Revision, newer.Start = 4, wall("2026-11-08T15:00")
	newer.HasEnd, newer.HasActualEnd = false, false
	req.Events = append(req.Events, newer)
	next, err := season.Apply(req, season.Move("game-07", "2026-11-09T15:00"))
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, e := range next.Canonical().Events {
		if e.ID == "game-07" {
			got = append(got, fmt.Sprint(e.Start, " ", e.Revision))
		}
	}
	if diff := cmp.Diff([]string{"2026-11-09T15:00 5"}, got); diff != "" {
		t.Error(diff)
	}
}

func TestBadEdits(t *testing.T) {
	req := editRequest()
	_, err := season.Apply(req,
		season.Move("game-7", "2026-11-05T19:45"),
		season.Cancel("gmae-14"),
		season.Confirm("nothing like it"),
		season.Move("game-07", "05/11/2026"),
		season.Move("game-07", "2027-03-28T02:30"),
		season.Move("game-20", "2026-11-05T19:45"),
		season.Move("game-01", "2026-11-05T19:45"),
		season.Add(calendar.Event{ID: "game-07", Kind: calendar.Game, Start: wall("2026-11-28T14:00")}),
		season.Add(calendar.Event{ID: "game-28", Kind: "match", Start: wall("2026-11-28T14:00"), End: wall("2026-11-28T13:00"), HasEnd: true}),
		season.Add(calendar.Event{ID: "game-29", Kind: calendar.Game, Start: wall("2026-11-28T14:00"), End: wall("2026-11-28T13:00"), HasEnd: true}),
	)
	var bad *season.InputError
	if !errors.As(err, &bad) {
		t.Fatal(err)
	}
	want := []string{
		`event-unknown /edits/0: error: "game-7" - there is no event of this id; did you mean game-07?`,
		`event-unknown /edits/1: error: "gmae-14" - there is no event of this id; did you mean game-14?`,
		`event-unknown /edits/2: error: "nothing like it" - there is no event of this id; use one of: closed, game-01, game-07, game-14, game-20, practice-4z5x6fedscss4uxg, tournament`,
		`wall /edits/3: error: "05/11/2026" - day and month cannot be told apart; write 2026-11-05 if the day comes first, 2026-05-11 if the month does`,
		`time-skipped /edits/4/start: error: "2027-03-28T02:30" - the clock in Europe/Berlin jumps over this time; give 2027-03-28T01:59 or 2027-03-28T03:00`,
		`edit /edits/5: error: "game-20" - a cancelled event does not move; confirm it first, if that is meant`,
		`edit /edits/6: error: "game-01" - a played event does not move; confirm it first, if that is meant`,
		`id-twice /edits/7/id: error: "game-07" - the request has an event of this id; move or confirm that one, or give another id`,
		`choice /edits/8/kind: error: "match" - the word is not known here; use one of: game, practice, skills, travel, exam, closure, busy`,
		`end /edits/9/end: error: "2026-11-28T13:00" - it ends before it starts at 2026-11-28T14:00; give an end after the start`,
	}
	if diff := cmp.Diff(want, lines(bad.Problems)); diff != "" {
		t.Error(diff)
	}
	if _, err := season.Apply(season.Request{}, season.Add(calendar.Event{Kind: calendar.Exam, Start: wall("2026-11-28T14:00")})); err == nil {
		t.Error("an event without a zone")
	}
	if _, err := season.Apply(season.Request{}, season.Cancel("x")); err == nil {
		t.Error("an event of an empty request")
	}
}

// Edits leave the old request alone, and doing nothing does nothing.
func TestApplyKeepsTheOld(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		req := drawRequest(t)
		before := marshal(t, req)
		var edits []season.Edit
		for range number(t, 0, 4, "edits") {
			id := rapid.SampledFrom([]string{"g1", "g2", "p1", "zz"}).Draw(t, "id")
			edits = append(edits, rapid.SampledFrom([]season.Edit{
				season.Move(id, drawWall(t).String()), season.Move(id, drawDate(t).String()), season.Cancel(id),
				season.Confirm(id), season.Postpone(id), season.Add(drawEvent(t)),
			}).Draw(t, "edit"))
		}
		next, err := season.Apply(req, edits...)
		if !bytes.Equal(before, marshal(t, req)) {
			t.Fatal("the old request has changed")
		}
		if err != nil {
			if diff := cmp.Diff(req, next, equal); diff != "" {
				t.Fatal("a failed edit left something: ", diff)
			}
			return
		}
		if len(edits) == 0 && next.Digest() != req.Digest() {
			t.Fatal("no edit, another request")
		}
		// What could be planned can still be planned, but for one id twice: the
		// edited one is then the newer one.
		if usable(req.Validate()) && !usable(next.Validate()) {
			t.Fatal(next.Validate())
		}
	})
}

func ExampleEdit_String() {
	fmt.Println(season.Move("g7", "2026-11-05T19:45"))
	fmt.Println(season.Cancel("g7"))
	fmt.Println(season.Edit{})
	// Output:
	// move g7 to 2026-11-05T19:45
	// cancel g7
	// nothing
}

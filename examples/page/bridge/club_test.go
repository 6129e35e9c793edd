package bridge

import (
	"slices"
	"strings"
	"testing"

	"example.org/weft/periodize/season"
)

// TestClubRules: rules of simple shapes are added, planned with, said in plain
// words and taken out again; what was there stays to the byte.
func TestClubRules(t *testing.T) {
	d := example(t)
	s := settingsOf(d.req)
	s.Club = []ClubRule{
		{Says: "the hall is let", Shape: "forbid", Days: "Thu", Hours: "15:00-18:00"},
		{Shape: "cost", Kinds: []string{"full-body", "eccentric"}, Days: "Mon-Wed", Points: "35"},
		{Says: "Two evenings!", Shape: "at-most", Most: "2", Dates: "7", Hours: "18:00 to 24:00", Points: "15"},
		{Shape: "at-least", Kinds: []string{"primer"}, Least: "1", Dates: "9", Points: "20"},
		{Shape: "apart", Kinds: []string{"full-body"}, Apart: "60"},
		{Shape: "after", After: "exam", Apart: "5"},
		{Shape: "after", After: "exam", Apart: "3"},
	}
	v := call[View](t, d, "set", s)
	want := []string{
		"the hall is let. No session on Thu between 15:00 and 18:00; a limit",
		"Rather no full-body or eccentric on Mon-Wed; an aim, 35 points each time",
		"Two evenings. At most 2 in any 7 dates: session between 18:00 and 24:00; an aim, 15 points each time",
		"On 1 of any 9 dates at least: primer; an aim, 20 points each time",
		"At least 60 h between two: full-body; a limit",
		"No session within 5 h after an event of the kind exam; a limit",
		"No session within 3 h after an event of the kind exam; a limit",
	}
	var got []string
	ids := map[string]bool{}
	for _, r := range v.Settings.Club {
		got = append(got, r.Text)
		ids[r.ID] = true
	}
	if !slices.Equal(got, want) {
		t.Errorf("said as\n%s", strings.Join(got, "\n"))
	}
	if len(ids) != len(want) || !ids["own-the-hall-is-let"] || !ids["own-after-2"] {
		t.Errorf("ids: %v", ids)
	}
	for _, x := range d.plan.Sessions {
		if at := d.req.Athlete.Zone.Local(x.Start).Clock; x.Date.Weekday() == 4 && at >= 15*3600 && at < 18*3600 {
			t.Errorf("%s: a session though the hall is let", x.Date)
		}
	}
	a := call[About](t, d, "date", dateArgs{Date: "2026-10-15"})
	said := false
	for _, c := range a.Forbidden {
		said = said || strings.Contains(strings.Join(c.Limits, " "), "the hall is let")
	}
	if !said {
		t.Errorf("what stands in the way has no words of the club: %+v", a.Forbidden)
	}
	before := call[Saved](t, d, "save", nil)
	call[View](t, d, "set", settingsOf(d.req))
	if after := call[Saved](t, d, "save", nil); after.Text != before.Text {
		t.Error("rules that nobody touched changed")
	}
	s = settingsOf(d.req)
	s.Club = s.Club[2:3]
	call[View](t, d, "set", s)
	if c := d.req.Club; len(c) != 1 || c[0].Shape != season.ClubAtMost || c[0].Most != 2 || c[0].From != 18*3600 || c[0].To != 24*3600 {
		t.Errorf("left: %+v", d.req.Club)
	}
}

// TestClubFaults: everything wrong at once, by field, and nothing changes.
func TestClubFaults(t *testing.T) {
	d := example(t)
	before := call[Saved](t, d, "save", nil)
	for _, c := range []struct {
		rule  ClubRule
		where string
	}{
		{ClubRule{Shape: "sometimes"}, "club/0/shape"},
		{ClubRule{ID: "nobodys"}, "club/0/id"},
		{ClubRule{Shape: "cost"}, "club/0/points"},
		{ClubRule{Shape: "cost", Points: "12.5"}, "club/0/points"},
		{ClubRule{Shape: "cost", Points: "99999999999999999999"}, "club/0/points"},
		{ClubRule{Shape: "forbid", Days: "Someday"}, "club/0/days"},
		{ClubRule{Shape: "forbid", Hours: "late"}, "club/0/hours"},
		{ClubRule{Shape: "forbid", Hours: "08:00-09:00; 10:00-11:00"}, "club/0/hours"},
		{ClubRule{Shape: "at-most", Most: "2"}, "club/0/dates"},
		{ClubRule{Shape: "at-most", Most: "2", Dates: "99"}, "/club/0/dates"},
		{ClubRule{Shape: "apart", Apart: "9000"}, "/club/0/minutes"},
		{ClubRule{Shape: "forbid", Kinds: []string{"marathon"}}, "/club/0/kinds/0"},
	} {
		s := settingsOf(d.req)
		s.Club = []ClubRule{c.rule}
		found := wrongs(t, d, "set", s)
		if !slices.ContainsFunc(found, func(p Problem) bool { return p.Where == c.where }) {
			t.Errorf("%+v: %+v", c.rule, found)
		}
		for _, p := range found {
			if p.Reason == "" || p.Remedy == "" {
				t.Errorf("%+v: %+v", c.rule, p)
			}
		}
	}
	if after := call[Saved](t, d, "save", nil); after.Text != before.Text {
		t.Error("the request changed")
	}
}

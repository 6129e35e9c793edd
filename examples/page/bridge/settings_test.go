package bridge

import (
	"context"
	"encoding/json"
	"strings"
	"testing"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize/rule"
	"example.org/weft/periodize/season"
)

func clock(t *testing.T, s string) calendar.Clock {
	t.Helper()
	c, err := calendar.ParseClock(s)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func TestHoursAsWritten(t *testing.T) {
	for _, c := range []struct{ text, back string }{
		{"Mon-Fri 15:00-21:30; Sat 09:00-18:00", "Mon-Fri 15:00-21:30; Sat 09:00-18:00"},
		{"monday, WEDNESDAY and fri 07:15 to 08:45", "Mon, Wed, Fri 07:15-08:45"},
		{"Fri-Mon 10:00–12:30", "Mon, Fri-Sun 10:00-12:30"},
		{"every day 06:00-24:00", "every day 06:00-24:00"},
		{"17:00-19:00", "every day 17:00-19:00"},
		{"Tuesdays: 16:00 - 17:05\nthurs 16:00-18:10", "Tue 16:00-17:05; Thu 16:00-18:10"},
		{" ; ", ""},
	} {
		var r reader
		got := r.hours("hours", c.text)
		if len(r.problems) > 0 || hoursText(got) != c.back {
			t.Errorf("%q is read as %q, want %q; %v", c.text, hoursText(got), c.back, r.problems)
		}
		if again := r.hours("hours", hoursText(got)); hoursText(again) != hoursText(got) {
			t.Errorf("%q does not come back: %q", c.text, hoursText(again))
		}
	}
}

func TestHoursThatAreNone(t *testing.T) {
	for _, text := range []string{"Mon-Fri", "Mon 15:00", "Noday 15:00-16:00", "Mon 25:00-26:00", "Mo 15:00-16:00", "Mon-Xyz 15:00-16:00", "Mon 15-16", strings.Repeat("Mon 15:00-16:00;", 1000)} {
		var r reader
		r.hours("hours", text)
		if len(r.problems) == 0 {
			t.Errorf("%.40q has nothing wrong", text)
		}
		for _, p := range r.problems {
			if p.Path != "hours" || p.Reason == "" || p.Remedy == "" {
				t.Errorf("%.40q: %v", text, p)
			}
		}
	}
}

// TestSettingsComeBack: what the form shows and sends back unchanged changes
// nothing, not even the bytes of the request.
func TestSettingsComeBack(t *testing.T) {
	d := example(t)
	before := call[Saved](t, d, "save", nil)
	v := call[View](t, d, "set", settingsOf(d.req))
	if after := call[Saved](t, d, "save", nil); after.Text != before.Text {
		t.Errorf("the request changed:\n%s\n%s", before.Text, after.Text)
	}
	if !v.Invented {
		t.Error("the example is no longer called invented")
	}
}

func TestSettingsChange(t *testing.T) {
	d := example(t)
	s := settingsOf(d.req)
	s.Born, s.TrainingAge, s.Zone, s.Role = "2009-07", "1,5", "Atlantic/Reykjavik", " keeper "
	s.From, s.To, s.Now = "2026-09-07", "2026-11-29", "2026-09-09T13:20"
	s.Hours, s.Prefer, s.OptIns = "every day 14:00-20:00", "Sat, Sun 11:00", nil
	s.Places = []Place{{ID: "cellar", Hours: "Mon-Thu 16:00-20:15", Closed: "2026-10-12 to 2026-10-16; 2026-11-11", Kit: "rack, bench, bar 20 kg"}}
	s.Rules = []Changed{{ID: "full-before-game", Value: "60"}, {ID: "latest-end", Value: "21:15"}, {ID: "second-lift", Points: "700"}}
	call[View](t, d, "set", s)
	r := d.req
	if r.Athlete.Born != (season.YearMonth{Year: 2009, Month: 7}) || r.Athlete.TrainingAgeMonths != 18 || r.Athlete.Role != "keeper" || r.Athlete.Zone.Name() != "Atlantic/Reykjavik" {
		t.Errorf("athlete: %+v", r.Athlete)
	}
	if len(r.Athlete.Hours) != 1 || len(r.Athlete.Hours[0].Days) != 7 || r.Athlete.Hours[0].To != clock(t, "20:00") || len(r.Athlete.OptIns) != 0 {
		t.Errorf("hours: %+v", r.Athlete.Hours)
	}
	if len(r.Athlete.Prefer) != 1 || r.Athlete.Prefer[0].Days[0] != time.Saturday {
		t.Errorf("prefer: %+v", r.Athlete.Prefer)
	}
	if want := time.Unix(1788960000, 0); !r.Now.Equal(want) { // 2026-09-09T13:20Z, Iceland keeps UTC
		t.Errorf("now: %v, want %v", r.Now, want.UTC())
	}
	if p := r.Places; len(p) != 1 || len(p[0].Closed) != 2 || p[0].Closed[1].From != p[0].Closed[1].To || len(p[0].Kit) != 3 {
		t.Errorf("places: %+v", r.Places)
	}
	set, _ := rule.New(r.Rules)
	if set.Value("full-before-game") != 60 || set.Value("latest-end") != 21*60+15 || set.Points("second-lift") != 700 {
		t.Errorf("rules: %+v", r.Rules)
	}
	again := settingsOf(r)
	if again.Hours != "every day 14:00-20:00" || again.TrainingAge != "1.5" || again.Now != "2026-09-09T13:20" || again.Places[0].Closed != "2026-10-12 to 2026-10-16; 2026-11-11" {
		t.Errorf("written back as %+v", again)
	}
}

// TestSettingsFaults: everything wrong at once, by field, and nothing changes.
func TestSettingsFaults(t *testing.T) {
	d := example(t)
	before := call[Saved](t, d, "save", nil)
	s := settingsOf(d.req)
	s.Born, s.TrainingAge, s.Zone, s.From, s.Now = "2007", "many", "Europe/Copenhagn", "1 Sep", "noon"
	s.Hours, s.Prefer = "Mon 15:00", "Mon"
	s.Places = append(s.Places, Place{Hours: "always"})
	s.Rules = []Changed{{ID: "heavy-before-game", Value: "2"}, {ID: "post-game-age", Value: "14"}, {ID: "lifts-in-7", Value: "x"}}
	where := map[string]bool{}
	for _, p := range wrongs(t, d, "set", s) {
		where[p.Where] = true
		if p.Where == "zone" && !strings.Contains(p.Remedy, "Europe/Copenhagen") {
			t.Errorf("zone: %s", p.Remedy)
		}
	}
	for _, w := range []string{"born", "trainingAge", "zone", "from", "now", "hours", "prefer", "places/2/id", "places/2/hours", "rules/lifts-in-7"} {
		if !where[w] {
			t.Errorf("nothing is said of %s: %v", w, where)
		}
	}
	for _, id := range []string{"heavy-before-game", "post-game-age"} {
		found := false
		for w := range where {
			found = found || strings.HasPrefix(w, "rules/"+id)
		}
		if !found {
			t.Errorf("nothing is said of %s: %v", id, where)
		}
	}
	if after := call[Saved](t, d, "save", nil); after.Text != before.Text {
		t.Error("the request changed")
	}
}

// TestFixtures: a table alone makes a season of whole weeks for an athlete of
// whom nothing is known; a second file adds to it.
func TestFixtures(t *testing.T) {
	d := example(t)
	table := "date,time,tz,opponent\n2027-02-13,15:40,Europe/Oslo,Nordvik\n2027-03-02,19:15,Europe/Oslo,Granmo\n"
	v := call[View](t, d, "open", openArgs{Files: []file{{"games.csv", table}}})
	if v.Invented || v.Plan.Games != 2 || v.Settings.From != "2027-02-08" || v.Settings.To != "2027-03-07" || v.Settings.Zone != "Europe/Oslo" || v.Settings.Born != "" {
		t.Errorf("%+v %+v", v.Plan, v.Settings)
	}
	asked := false
	for _, n := range v.Notes {
		asked = asked || n.Class == "question" && strings.Contains(n.Text, "age")
	}
	if !asked {
		t.Errorf("nobody asks for the age: %v", v.Notes)
	}
	ics := strings.ReplaceAll(`BEGIN:VCALENDAR
VERSION:2.0
PRODID:-//example//EN
BEGIN:VEVENT
UID:x1@example.org
DTSTAMP:20270101T000000Z
DTSTART;TZID=Europe/Oslo:20270220T170000
DTEND;TZID=Europe/Oslo:20270220T184500
SUMMARY:Selbu Vest
END:VEVENT
END:VCALENDAR
`, "\n", "\r\n")
	if v = call[View](t, d, "open", openArgs{Files: []file{{"", ics}}}); v.Plan.Games != 3 {
		t.Errorf("%d games after the second file", v.Plan.Games)
	}
	if v = call[View](t, d, "open", openArgs{Files: []file{{"games.csv", table}}, Fresh: true}); v.Plan.Games != 2 {
		t.Errorf("%d games after beginning anew", v.Plan.Games)
	}
}

// FuzzCall: whatever the page sends, the answer is a reply, and the desk still has
// its plan.
func FuzzCall(f *testing.F) {
	for _, s := range [][2]string{
		{"open", `{"files":[{"name":"a.csv","text":"date,time,tz\n2027-02-13,15:40,Europe/Oslo\n"}]}`},
		{"open", `{"files":[{"name":"a.json","text":"{\"schema\":1}"}]}`}, {"set", `{"from":"2026-09-07","hours":"Mon-Fri 15:00-21:00"}`},
		{"move", `{"id":"g1","to":"2026-11-13T19:30"}`}, {"pin", `{"date":"2026-11-10","kind":"primer","start":"17:00"}`},
		{"date", `{"date":"2026-11-10"}`}, {"report", `{"session":"x","region":"knee","pain":-3}`},
		{"sheet", `{"sheet":"month","date":"2026-11-10"}`}, {"unpin", `{"index":-1}`}, {"restore", `{"request":"["}`}, {"accept", ``}, {"nothing", `[1`},
	} {
		f.Add(s[0], []byte(s[1]))
	}
	const small = `{"schema":1,"period":{"from":"2026-11-09","to":"2026-11-15"},"athlete":{"id":"a","born":"2001-05","zone":"Europe/Oslo","trainingAgeYears":4},
		"events":[{"id":"g1","kind":"game","start":"2026-11-14T18:00","end":"2026-11-14T19:45"}]}`
	restore, err := json.Marshal(restoreArgs{Request: small})
	if err != nil {
		f.Fatal(err)
	}
	f.Fuzz(func(t *testing.T, name string, args []byte) {
		var d Desk
		d.Call(context.Background(), "restore", restore, nil)
		if d.plan == nil {
			t.Fatal("no plan to begin with")
		}
		var r Reply
		text := d.Call(context.Background(), name, args, nil)
		if err := json.Unmarshal(text, &r); err != nil {
			t.Fatalf("%q: %v", text, err)
		}
		if d.plan == nil || d.req == nil {
			t.Error("the desk is empty")
		}
		if r.Fault != "" {
			t.Errorf("%s %q: a fault: %s", name, args, r.Fault)
		}
	})
}

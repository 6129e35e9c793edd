package seasontest_test

import (
	"fmt"
	"strings"
	"testing"

	"example.org/weft/internal/seasontest"
	"example.org/weft/periodize/season"
)

// The checker must be able to fail: each plan, written by hand, breaks what its
// name says, and the first breaks nothing.
func TestCheckFinds(t *testing.T) {
	request := func(athlete string) *season.Request {
		req, err := season.ReadRequest(strings.NewReader(`{"schema": 1, "period": {"from": "2026-11-09", "to": "2026-11-22"},
		 "athlete": {"id": "a", "born": ` + athlete + `, "zone": "Europe/Amsterdam", "trainingAgeYears": 3, "hours": [{"days": ["mon","tue","wed","thu","fri","sat","sun"], "from": "07:00", "to": "22:00"}]},
		 "events": [{"id": "g1", "kind": "game", "start": "2026-11-14T19:00", "end": "2026-11-14T20:40"}, {"id": "g2", "kind": "game", "start": "2026-11-15T16:00", "end": "2026-11-15T17:40"},
		  {"id": "g3", "kind": "game", "start": "2026-11-09T15:00", "end": "2026-11-09T16:40"},
		  {"id": "p1", "kind": "practice", "start": "2026-11-12T20:00", "end": "2026-11-12T21:30"}]}`))
		if err != nil {
			t.Fatal(err)
		}
		return req
	}
	const adult, child = `"2000-02"`, `"2011-02"`
	for _, c := range []struct{ name, born, sessions, want string }{
		{"lawful", adult, "10 18:00 55 full-body, 12 17:00 55 full-body, 13 17:00 35 primer", ""},
		{"heavy 22 h before", adult, "13 20:00 45 trimmed-full-body", "law 1"},
		{"full-size 47 h before", adult, "12 19:05 55 full-body", "law 1"},
		{"primer on the game date", adult, "14 08:00 35 primer", "law 1"},
		{"primer for nothing", adult, "18 17:00 35 primer", "law 1"},
		{"overlap", adult, "12 19:30 40 recovery", "law 2: recovery"},
		{"closed", adult, "10 06:30 40 recovery", "law 2"},
		{"sleep", adult, "13 06:30 40 recovery", "ended late"},
		{"too long", adult, "17 17:00 75 full-body", "law 2"},
		{"four lifts", adult, "16 18:00 55 full-body, 18 17:00 55 full-body, 20 17:00 55 full-body, 22 17:00 55 full-body", "law 4"},
		{"consecutive", adult, "17 17:00 55 full-body, 18 17:00 55 full-body", "law 4"},
		{"two on a date", adult, "17 08:00 40 recovery, 17 17:00 40 recovery", "law 4"},
		{"between games", adult, "15 09:00 40 recovery", "law 5"},
		{"not chosen", adult, "15 17:45 30 post-game", "law 12"},
		{"late for a child", child, "17 19:30 40 recovery", "law 12"},
		{"no free date", child, "16 17:00 40 recovery, 17 17:00 40 recovery, 18 17:00 40 recovery, 19 17:00 40 recovery, 20 17:00 40 recovery, 21 17:00 40 recovery, 22 17:00 40 recovery", "law 12"},
	} {
		t.Run(c.name, func(t *testing.T) {
			found := seasontest.Check([]byte(plan(t, c.sessions)), request(c.born))
			if c.want == "" && len(found) > 0 || c.want != "" && !strings.Contains(strings.Join(found, "\n"), c.want) {
				t.Errorf("found %q, want %q", found, c.want)
			}
		})
	}
	t.Run("done and gone", func(t *testing.T) {
		req := request(adult)
		req.Now = seasontest.Zone("Europe/Amsterdam").DayStart(seasontest.Date("2026-11-12"))
		req.Issued = []season.Plan{{Sessions: []season.Session{{ID: "x", Kind: season.Recovery, Date: seasontest.Date("2026-11-10"),
			Start: req.Now.AddDate(0, 0, -2), End: req.Now.AddDate(0, 0, -2).Add(40 * 60e9)}}}}
		if found := seasontest.Check([]byte(plan(t, "13 17:00 35 primer")), req); !strings.Contains(strings.Join(found, "\n"), "law 3") {
			t.Errorf("found %q", found)
		}
	})
}

// plan writes sessions of November 2026: day, start, minutes, kind.
func plan(t *testing.T, sessions string) string {
	t.Helper()
	var rows []string
	for i, s := range strings.Split(sessions, ", ") {
		var day, hour, minute, minutes int
		var kind string
		if _, err := fmt.Sscanf(s, "%d %d:%d %d %s", &day, &hour, &minute, &minutes, &kind); err != nil {
			t.Fatal(err)
		}
		end := hour*60 + minute + minutes
		rows = append(rows, fmt.Sprintf(`{"id": "s%d", "start": "2026-11-%02dT%02d:%02d:00+01:00", "end": "2026-11-%02dT%02d:%02d:00+01:00", "date": "2026-11-%02d",
		 "minutes": %d, "place": "gym", "kind": %q, "state": "as-written", "heavyLowerBody": %v}`, i, day, hour, minute, day, end/60, end%60, day, minutes, kind,
			kind != "primer" && kind != "recovery"))
	}
	return `{"outcome": "planned", "zone": "Europe/Amsterdam", "period": {"from": "2026-11-09", "to": "2026-11-22"}, "cost": {}, "sessions": [` + strings.Join(rows, ",") + `]}`
}

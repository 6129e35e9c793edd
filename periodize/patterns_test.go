package periodize

import (
	"context"
	"fmt"
	"strings"
	"testing"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/internal/seasontest"
	"example.org/weft/periodize/season"
)

// Two patterns every coach would expect of the defaults: common practice, no
// source. Each stands in the middle of five alike weeks, so that nothing at the
// edge of the calendar matters.

// weekly is five weeks of games on the given weekdays (0 is Monday) from
// Monday 2026-11-02 on, for an adult of three years' training.
func weekly(start string, days ...int) *season.Request {
	zone := seasontest.Zone("Europe/Amsterdam")
	first := seasontest.Date("2026-11-02")
	req := &season.Request{Schema: season.Schema, Period: season.Period{From: first, To: first.AddDays(34)},
		Athlete: season.Athlete{ID: "a", Born: season.YearMonth{Year: 2001, Month: 3}, Zone: zone, TrainingAgeMonths: 36}}
	clock, err := calendar.ParseClock(start)
	if err != nil {
		panic(err)
	}
	for week := -1; week <= 5; week++ {
		for _, d := range days {
			at := calendar.Wall{Date: first.AddDays(7*week + d), Clock: clock}
			req.Events = append(req.Events, calendar.Event{ID: "g" + at.Date.String(), Kind: calendar.Game, Start: at,
				End: at.AddMinutes(100), HasEnd: true, Zone: zone})
		}
	}
	return req
}

// byDay lists the kinds of the sessions of the five weeks, Monday to Sunday,
// week by week.
func byDay(t *testing.T, req *season.Request) [5][7][]season.Session {
	t.Helper()
	var p Planner
	plan, err := p.Plan(context.Background(), req)
	if err != nil {
		t.Fatal(err)
	}
	if plan.Proof != season.Proved || plan.Cost.Broken != 0 {
		t.Fatalf("proof %s, %d limits broken", plan.Proof, plan.Cost.Broken)
	}
	var out [5][7][]season.Session
	for _, s := range plan.Sessions {
		n := s.Date.DaysSince(req.Period.From)
		out[n/7][n%7] = append(out[n/7][n%7], s)
	}
	return out
}

func kinds(week [7][]season.Session) string {
	days := []string{"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"}
	var out []string
	for d, list := range week {
		for _, s := range list {
			out = append(out, fmt.Sprintf("%s %s %s", days[d], s.Start.Format("15:04"), s.Kind))
		}
	}
	return strings.Join(out, ", ")
}

func count(week [7][]season.Session, which func(season.Kind) bool) int {
	n := 0
	for _, list := range week {
		for _, s := range list {
			if which(s.Kind) {
				n++
			}
		}
	}
	return n
}

func only(k season.Kind) func(season.Kind) bool { return func(x season.Kind) bool { return x == k } }

// has reports whether the date holds one session, of this kind.
func has(list []season.Session, k season.Kind) bool { return len(list) == 1 && list[0].Kind == k }

// Games on two separated evenings of the week, three and four days apart, an
// adult, no post-game sessions. Common practice, no source.
func TestPatternTwoSeparatedEvenings(t *testing.T) {
	for _, days := range [][2]int{{1, 4}, {2, 5}, {0, 3}, {2, 6}} { // Tuesday and Friday, ...
		t.Run(fmt.Sprint(days), func(t *testing.T) {
			weeks := byDay(t, weekly("19:00", days[0], days[1]))
			for n := 1; n <= 3; n++ {
				w := weeks[n]
				a, b := days[0], days[1]
				for _, game := range []int{a, b} {
					if before := (game + 6) % 7; !has(w[before], season.Primer) {
						t.Errorf("week %d: no primer on the day before a game: %s", n, kinds(w))
					}
					if len(w[game]) > 0 {
						t.Errorf("week %d: gym on a game date: %s", n, kinds(w))
					}
				}
				if got := count(w, season.Kind.Lift); got != 3 {
					t.Errorf("week %d: %d lifts, want 3: %s", n, got, kinds(w))
				}
				if got := count(w, only(season.Recovery)); got != 2 {
					t.Errorf("week %d: %d recovery sessions, want 2: %s", n, got, kinds(w))
				}
				if got := count(w, only(season.FullBody)); got != 1 {
					t.Errorf("week %d: %d full-body sessions, want 1: %s", n, got, kinds(w))
				}
				for d, list := range w {
					for _, s := range list {
						if s.Kind != season.FullBody {
							continue
						}
						next := a + 7 // the game behind the gap that holds it
						if d < a {
							next = a
						} else if d < b {
							next = b
						}
						longer := next == b && b-a == 4 || next != b && b-a == 3
						game := s.Start.AddDate(0, 0, next-d)
						game = time.Date(game.Year(), game.Month(), game.Day(), 19, 0, 0, 0, game.Location())
						if !longer || game.Sub(s.End) < 48*time.Hour {
							t.Errorf("week %d: full-body not in the longer gap, or ending %s before its game: %s", n, game.Sub(s.End), kinds(w))
						}
					}
				}
			}
		})
	}
}

// Games on two successive evenings, then five days, without and with post-game
// sessions. Common practice, no source.
func TestPatternSuccessiveEvenings(t *testing.T) {
	for _, postGame := range []bool{false, true} {
		for _, first := range []int{4, 5, 1} { // Friday and Saturday, ...
			t.Run(fmt.Sprint(postGame, first), func(t *testing.T) {
				req := weekly("19:00", first, first+1)
				if postGame {
					req.Athlete.OptIns = []season.OptIn{season.OptPostGame}
				}
				weeks := byDay(t, req)
				var days [35][]season.Session
				for n := range days {
					days[n] = weeks[n/7][n%7]
				}
				for n := 1; n <= 3; n++ {
					a := 7*n + first // the first game of the pair
					text := kinds(weeks[n]) + " | " + kinds(weeks[n+1])
					if !has(days[a-1], season.Primer) {
						t.Errorf("no primer on the day before the pair: %s", text)
					}
					if !has(days[a+2], season.Recovery) {
						t.Errorf("no recovery on the day after the pair: %s", text)
					}
					for _, s := range append(append([]season.Session(nil), days[a]...), days[a+1]...) {
						between := s.Start.Before(time.Date(s.Start.Year(), s.Start.Month(), s.Start.Day(), 19, 0, 0, 0, s.Start.Location())) || s.Date == req.Period.From.AddDays(a)
						if between && s.Kind != season.Recovery {
							t.Errorf("%s between the two games: %s", s.Kind, text)
						}
						if s.Kind != season.Recovery && !(postGame && s.Kind == season.PostGame) {
							t.Errorf("%s on a game date: %s", s.Kind, text)
						}
					}
					full := 0
					for d := a + 2; d < a+7; d++ {
						for _, s := range days[d%35] {
							if d >= 35 || s.Kind != season.FullBody && s.Kind != season.Trimmed {
								continue
							}
							full++
							game := s.Start.AddDate(0, 0, a+7-d)
							game = time.Date(game.Year(), game.Month(), game.Day(), 19, 0, 0, 0, game.Location())
							if gap := game.Sub(s.End); gap < 48*time.Hour {
								t.Errorf("a full-body session ends %s before the next pair: %s", gap, text)
							}
						}
					}
					if n < 3 && (full < 1 && !postGame || full > 2) {
						t.Errorf("%d full-body sessions between two pairs: %s", full, text)
					}
				}
				for n := 0; n+7 <= 35; n++ {
					lifts := 0
					for d := n; d < n+7; d++ {
						for _, s := range days[d] {
							if s.Kind.Lift() {
								lifts++
							}
						}
					}
					if lifts > 3 {
						t.Errorf("%d lifts in the 7 dates from %s", lifts, req.Period.From.AddDays(n))
					}
				}
			})
		}
	}
}

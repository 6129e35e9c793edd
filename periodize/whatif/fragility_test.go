package whatif_test

import (
	"bytes"
	"context"
	"encoding/csv"
	"slices"
	"strings"
	"testing"

	"example.org/weft/calendar"
	"example.org/weft/internal/seasontest"
	"example.org/weft/periodize"
	"example.org/weft/periodize/season"
	"example.org/weft/periodize/whatif"
	"pgregory.net/rapid"
)

// Each move is what planning the moved game against the base plan gives, by
// hand; a free move leaves the base plan as good as it was.
func TestFragility(t *testing.T) {
	base := club(3)
	base.Events[0].Status = calendar.Played
	ctx := context.Background()
	var first string
	for _, workers := range []int{1, 2, 8} {
		f := whatif.Fragility{Sweep: whatif.Sweep{Workers: workers}}
		got, err := f.Run(ctx, base)
		if err != nil {
			t.Fatal(err)
		}
		text := all(t, got)
		if first == "" {
			first = text
		}
		if text != first {
			t.Errorf("%d workers: other bytes", workers)
		}
		if len(got.Fixtures) != 3 || got.Fixtures[0].Event != "m02" {
			t.Fatalf("fixtures %+v", got.Fixtures)
		}
		planner := periodize.Planner{Brief: true}
		broken, free := 0, 0
		for _, x := range got.Fixtures {
			for _, m := range x.Moves {
				req, _, err := whatif.Apply(*base, whatif.MoveDays(x.Event, m.Days))
				if err != nil {
					t.Fatal(err)
				}
				next, err := planner.Replan(ctx, &req, got.Plan)
				if err != nil {
					t.Fatal(err)
				}
				changes := 0
				for _, c := range next.Changes {
					switch c.Change {
					case season.Unchanged:
					case season.Moved: // leaves one start and takes another
						changes += 2
					default:
						changes++
					}
				}
				if m.Problem != "" || m.Changed > changes {
					t.Errorf("%s %+d: problem %q, %d changed, the plan says %d", x.Event, m.Days, m.Problem, m.Changed, changes)
				}
				if (m.Changed == 0) != (changes == 0) {
					t.Errorf("%s %+d: %d changed, the plan says %d", x.Event, m.Days, m.Changed, changes)
				}
				broken += len(m.Breaks)
				if slices.Contains(got.Free, whatif.FreeMove{Event: x.Event, Date: x.Date, Days: m.Days}) {
					free++
					e, err := planner.Evaluate(ctx, &req, got.Plan)
					if err != nil || !e.Legal || len(m.Breaks) > 0 || m.Changed > 0 {
						t.Errorf("%s %+d is not free: %+v %v", x.Event, m.Days, e, err)
					}
				}
			}
		}
		if free != len(got.Free) || broken == 0 {
			t.Errorf("%d free moves, %d listed; %d limits broken", free, len(got.Free), broken)
		}
		for i := 1; i < len(got.Weeks); i++ {
			a, b := got.Weeks[i-1], got.Weeks[i]
			if a.Breaks*b.Moves < b.Breaks*a.Moves {
				t.Errorf("week %s stands before %s, which breaks more", a.From, b.From)
			}
		}
	}
}

// A trip that moves along with its game.
func TestFragilityWith(t *testing.T) {
	base := club(1)
	bus := game("bus", "", "2026-11-07T09:00", 240, base.Athlete.Zone) // left where it is, it takes the hours after the moved game
	bus.Kind, bus.Title = calendar.Travel, "bus"
	base.Events = append(base.Events, bus)
	f := whatif.Fragility{Days: []int{-1}, With: map[string][]string{"g01": {"bus"}}}
	got, err := f.Run(context.Background(), base)
	if err != nil {
		t.Fatal(err)
	}
	alone := whatif.Fragility{Days: []int{-1}}
	other, err := alone.Run(context.Background(), base)
	if err != nil {
		t.Fatal(err)
	}
	if len(got.Fixtures) != 1 || len(got.Fixtures[0].Moves) != 1 || got.Fixtures[0].Moves[0].Problem != "" {
		t.Fatalf("%+v", got.Fixtures)
	}
	if all(t, got) == all(t, other) {
		t.Error("it makes no difference that the bus moves along")
	}
	f.With["g01"] = []string{"nobody"}
	base.Events[0].Opponent = "=SUM(A1)\x1b"
	if got, err = f.Run(context.Background(), base); err != nil || got.Fixtures[0].Moves[0].Problem == "" {
		t.Errorf("an unknown trip: %+v %v", got, err)
	}
	var b bytes.Buffer
	if err := whatif.WriteMoves(&b, got); err != nil {
		t.Fatal(err)
	}
	table, err := csv.NewReader(&b).ReadAll()
	if err != nil || len(table) != 2 {
		t.Fatalf("%v %v", table, err)
	}
	for i, cell := range table[1] {
		if filled := i < 5; filled != (cell != "") || strings.HasPrefix(cell, "=") || calendar.Inert(cell) != cell {
			t.Errorf("%s is %q", table[0][i], cell)
		}
	}
	if err := whatif.WriteMoves(&b, nil); err != nil || strings.Count(b.String(), "\n") != 1 {
		t.Errorf("nothing: %q %v", b.String(), err)
	}
}

// Over random seasons nothing fails, and the sums of the weeks are those of the
// fixtures.
func TestFragilityOfRandomSeasons(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		req := seasontest.Request(t, seasontest.Options{MinDates: 7, MaxDates: 14})
		f := whatif.Fragility{Days: []int{1}}
		got, err := f.Run(context.Background(), req)
		if err != nil {
			t.Fatal(err)
		}
		changed, moves, ids := 0, 0, 0
		for _, x := range got.Fixtures {
			for _, m := range x.Moves {
				changed -= m.Changed
				if m.Problem == "" {
					moves--
				}
			}
			ids--
		}
		for _, w := range got.Weeks {
			changed += w.Changed
			moves += w.Moves
			ids += len(w.Fixtures)
		}
		if changed != 0 || moves != 0 || ids != 0 {
			t.Fatalf("weeks and fixtures differ: %d changed, %d moves, %d fixtures", changed, moves, ids)
		}
	})
}

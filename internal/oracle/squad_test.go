package oracle

import (
	"context"
	"testing"
	"time"

	"example.org/weft/periodize/season"
	"example.org/weft/periodize/squad"
)

// TestSquadAgainstTheJointModel: small squads whose hall is far too small, planned
// athlete by athlete at prices, and as one program by CBC.
func TestSquadAgainstTheJointModel(t *testing.T) {
	seeds := 6
	if testing.Short() {
		seeds = 2
	}
	crowded := 0
	for _, o := range []SquadOptions{{5, 14, 1, false}, {5, 14, 2, false}, {5, 14, 2, true}, {7, 7, 2, true}} {
		for seed := range uint64(seeds) {
			r, err := Squad(7001+seed*13+uint64(o.Capacity), o)
			if err != nil {
				t.Fatal(err)
			}
			p := squad.Planner{Nodes: 2000}
			plan, err := p.Plan(context.Background(), r)
			if err != nil {
				t.Fatalf("%+v seed %d: %v", o, seed, err)
			}
			j, err := NewJoint(r)
			if err != nil {
				t.Fatal(err)
			}
			cbc, err := RunCBC(context.Background(), j.Program, t.TempDir(), "squad", 4*time.Minute)
			needs(t, err)
			if !cbc.Proved {
				t.Errorf("%+v seed %d: cbc did not prove its answer", o, seed)
				continue
			}
			if plan.Points != cbc.Points || plan.Bound > cbc.Points || plan.Proof != season.Proved {
				t.Errorf("%+v seed %d: %d points, bound %d, %s; cbc %d", o, seed, plan.Points, plan.Bound, plan.Proof, cbc.Points)
			}
			if plan.Points > plan.Alone {
				crowded++
			}
			t.Logf("%+v seed %d: %d points, alone %d, %+v; cbc %v", o, seed, plan.Points, plan.Alone, plan.Work, cbc.CPU)
		}
	}
	if crowded < 2*seeds {
		t.Errorf("the hall was too small for only %d squads", crowded)
	}
}

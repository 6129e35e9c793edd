package main

import (
	"context"
	"fmt"
	"os"
	"regexp"
	"runtime"
	"time"

	"example.org/weft/internal/oracle"
	"example.org/weft/periodize/squad"
)

// squadCores is how many athletes are planned at the same time.
const squadCores = 2

// squads compares squads of 30 athletes over 28 dates with 8 places, planned at
// prices on two cores, with CBC on the joint model, which has a limit; and shows
// how larger ones grow. Times are of the clock: the work is on two cores.
func squads(dir string, seed uint64, limit time.Duration) error {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	old := runtime.GOMAXPROCS(squadCores)
	defer runtime.GOMAXPROCS(old)
	for i := range uint64(3) {
		o := oracle.SquadOptions{Athletes: 30, Days: 28, Capacity: 8, Mixed: false}
		r, err := squadOnce(seed+i, o)
		if err != nil {
			return err
		}
		j, err := oracle.NewJoint(r)
		if err != nil {
			return err
		}
		start := time.Now()
		ctx, cancel := context.WithTimeout(context.Background(), limit+2*time.Minute)
		cbc, err := oracle.RunCBC(ctx, j.Program, dir, fmt.Sprintf("squad-%d", i), limit)
		cancel()
		if err != nil {
			fmt.Printf("  cbc on the joint model, %d numbers and %d rows: no plan after %.1f s: %.120v\n", len(j.Program.Vars), len(j.Program.Rows), time.Since(start).Seconds(), err)
			continue
		}
		bound := "unknown"
		if b := lowerBound.FindStringSubmatch(cbc.Log); b != nil {
			bound = b[1]
		}
		fmt.Printf("  cbc on the joint model, %d numbers and %d rows: proved %v, %d points, bound %s, %.1f s\n",
			len(j.Program.Vars), len(j.Program.Rows), cbc.Proved, cbc.Points, bound, time.Since(start).Seconds())
	}
	for _, o := range []oracle.SquadOptions{{Athletes: 30, Days: 28, Capacity: 4}, {Athletes: 30, Days: 56, Capacity: 8}, {Athletes: 60, Days: 28, Capacity: 12},
		{Athletes: 60, Days: 56, Capacity: 12}, {Athletes: 100, Days: 28, Capacity: 20}, {Athletes: 100, Days: 56, Capacity: 20}} {
		if _, err := squadOnce(seed, o); err != nil {
			return err
		}
	}
	return nil
}

var lowerBound = regexp.MustCompile(`(?m)^(?:Lower bound|Best possible):\s+([-0-9.e+]+)`)

func squadOnce(seed uint64, o oracle.SquadOptions) (*squad.Request, error) {
	r, err := oracle.Squad(seed, o)
	if err != nil {
		return nil, err
	}
	p := squad.Planner{Workers: squadCores}
	start := time.Now()
	plan, err := p.Plan(context.Background(), r)
	if err != nil {
		return nil, err
	}
	fmt.Printf("squad of %d, %d dates, %d places: %d points (%d with the hall alone), gap %d, %.1f s on %d cores, %d nodes, %d rounds, %d columns\n",
		o.Athletes, o.Days, o.Capacity, plan.Points, plan.Alone, plan.Gap, time.Since(start).Seconds(), squadCores, plan.Work.Nodes, plan.Work.Rounds, plan.Work.Columns)
	return r, nil
}

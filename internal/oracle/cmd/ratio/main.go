package main

import (
	"context"
	"flag"
	"fmt"
	"os"
	"runtime/pprof"
	"sort"
	"syscall"
	"time"

	"example.org/weft/internal/layered"
	"example.org/weft/internal/oracle"
)

func cpu() time.Duration {
	var r syscall.Rusage
	syscall.Getrusage(syscall.RUSAGE_SELF, &r)
	return time.Duration(r.Utime.Nano() + r.Stime.Nano())
}

func main() {
	days := flag.Int("days", 210, "")
	n := flag.Int("n", 10, "")
	seed := flag.Uint64("seed", 1, "")
	prof := flag.String("prof", "", "")
	load := flag.Bool("load", true, "")
	stress := flag.Bool("stress", false, "")
	ties := flag.Bool("ties", true, "")
	reps := flag.Int("reps", 7, "")
	flag.Parse()
	if *prof != "" {
		f, _ := os.Create(*prof)
		pprof.StartCPUProfile(f)
		defer pprof.StopCPUProfile()
	}
	for i := 0; i < *n; i++ {
		o := oracle.Options{Days: *days, Plain: true, Load: *load, Congested: i%3 == 2, Stress: *stress}
		req, err := oracle.Request(*seed*1000+uint64(i), o)
		if err != nil {
			panic(err)
		}
		c, err := oracle.NewCase(req, nil, !*ties)
		if err != nil {
			fmt.Println(i, err)
			continue
		}
		var tr, tc, ts []time.Duration
		var sol *layered.Solution
		var names []string
		var states []int
		for k := 0; k < *reps; k++ {
			a := cpu()
			p, nm := c.Problem()
			names = nm
			b := cpu()
			m, err := layered.Compile(p, layered.Settings{})
			if err != nil {
				panic(err)
			}
			d := cpu()
			sol, err = m.Solve(context.Background(), c.Static, layered.Settings{})
			if err != nil {
				panic(err)
			}
			e := cpu()
			states = m.States()
			tr, tc, ts = append(tr, b-a), append(tc, d-b), append(ts, e-d)
		}
		med := func(x []time.Duration) time.Duration {
			sort.Slice(x, func(i, j int) bool { return x[i] < x[j] })
			return x[len(x)/2].Round(time.Microsecond)
		}
		br, pt := oracle.Cost(sol.Cost)
		opts := 0
		for i := range c.Static {
			opts += len(c.Static[i])
		}
		fmt.Printf("%d age%v tr%v opts %d: rules %v compile %v solve %v | status %d broken %d points %d nodes %d edges %d beam %d final %d order", i, req.Athlete.Born.Year, req.Athlete.TrainingAgeMonths, opts, med(tr), med(tc), med(ts), sol.Status, br, pt, sol.Stats.Nodes, sol.Stats.Edges, sol.Stats.BeamWork, sol.Stats.Final)
		for _, r := range sol.Stats.Rules {
			fmt.Printf(" %s:%d", names[r], states[r])
		}
		fmt.Println()
	}
}

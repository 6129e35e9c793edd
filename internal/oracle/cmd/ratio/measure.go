package main

import (
	"context"
	"fmt"
	"os"
	"runtime"
	"slices"
	"strings"
	"syscall"
	"time"

	"example.org/weft/internal/layered"
	"example.org/weft/internal/oracle"
)

// measured is the middle of several solves, rules compiled each time.
type measured struct {
	cpu, wall       time.Duration
	cost            int64
	nodes           int64
	options, states int
	proved          bool
}

func measure(c *oracle.Case, reps int) (measured, error) {
	var out measured
	var cpus, walls []time.Duration
	for k := range reps + 1 {
		if k == 1 {
			runtime.GC()
		}
		a, start := processor(), time.Now()
		p, _ := c.Problem()
		m, err := layered.Compile(p, layered.Settings{})
		if err != nil {
			return out, err
		}
		s, err := m.Solve(context.Background(), c.Static, layered.Settings{})
		if err != nil {
			return out, err
		}
		if wall, cpu := time.Since(start), processor()-a; k > 0 { // the first one warms up
			cpus, walls = append(cpus, cpu), append(walls, wall)
		}
		out.cost, out.nodes, out.proved = s.Cost, s.Stats.Nodes, s.Status == layered.Proved
		out.options, out.states = 0, 0
		for _, n := range p.Options {
			out.options += n
		}
		for _, n := range m.States() {
			out.states += n
		}
	}
	out.cpu, out.wall = middle(cpus), middle(walls)
	return out, nil
}

// processor is the time this process has had of the processor.
func processor() time.Duration {
	var r syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &r); err != nil {
		return 0
	}
	return time.Duration(r.Utime.Nano() + r.Stime.Nano())
}

func middle[T time.Duration | float64](x []T) T {
	x = slices.Sorted(slices.Values(x))
	if len(x)%2 == 0 {
		return (x[len(x)/2-1] + x[len(x)/2]) / 2
	}
	return x[len(x)/2]
}

func least(x []float64) float64 { return slices.Min(x) }

func loadAverage() string {
	b, err := os.ReadFile("/proc/loadavg")
	if err != nil {
		return "unknown"
	}
	return strings.Join(strings.Fields(string(b))[:3], " ")
}

// grow shows how time and work grow with the length of the period.
func grow(seed uint64, reps int) error {
	for _, days := range []int{28, 56, 112, 210, 300, 400} {
		var cpus []time.Duration
		var states, nodes []float64
		for i := range 5 {
			req, err := oracle.Request(seed*7+uint64(i), oracle.Options{Days: days, Load: true, Plain: true})
			if err != nil {
				return err
			}
			c, err := oracle.NewCase(req, nil, false)
			if err != nil {
				return err
			}
			m, err := measure(c, reps/3)
			if err != nil {
				return err
			}
			cpus = append(cpus, m.cpu)
			states, nodes = append(states, float64(m.states)), append(nodes, float64(m.nodes))
		}
		d := middle(cpus)
		fmt.Printf("%d dates: median %.1f ms, %.3f ms a date, %.0f states, %.0f nodes\n", days, d.Seconds()*1000, d.Seconds()*1000/float64(days), middle(states), middle(nodes))
	}
	return nil
}

// stress solves seasons with random points for all aims.
func stress(seed uint64) error {
	for _, sort := range []struct{ days, n int }{{28, 100}, {210, 20}} {
		var cpus []time.Duration
		proved := 0
		for i := range sort.n {
			req, err := oracle.Request(seed*11+uint64(i), oracle.Options{Days: sort.days, Load: true, Plain: true, Stress: true, Congested: i%3 == 2})
			if err != nil {
				return err
			}
			c, err := oracle.NewCase(req, nil, false)
			if err != nil {
				return err
			}
			m, err := measure(c, 1)
			if err != nil {
				return err
			}
			if m.proved {
				proved++
			}
			cpus = append(cpus, m.cpu)
		}
		slices.Sort(cpus)
		high := cpus[(len(cpus)*95+99)/100-1]
		fmt.Printf("random points, %d dates: median %.1f ms, 95th percentile %.1f ms, %.1f times, worst %.1f ms, proved %d/%d\n", sort.days,
			middle(cpus).Seconds()*1000, high.Seconds()*1000, high.Seconds()/middle(cpus).Seconds(), cpus[len(cpus)-1].Seconds()*1000, proved, sort.n)
	}
	return nil
}

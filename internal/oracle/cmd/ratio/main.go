// Ratio compares the engine with CBC on fresh random seasons of 28 and 210 dates:
// one thread each, in one run, equal optima checked. Times are of the processor,
// so that a busy machine does not change the ratio; what the clock said stands
// beside them.
//
// It leaves the request, the model, the plan and a row of the table of each
// season in a folder, and ends with one line of ratios, CBC over engine.
package main

import (
	"context"
	"encoding/csv"
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strconv"
	"time"

	"example.org/weft/internal/oracle"
	"example.org/weft/periodize"
)

func main() {
	dir := flag.String("dir", "ratio", "folder for what is left behind")
	seed := flag.Uint64("seed", 20261108, "seed of the seasons")
	n := flag.Int("n", 10, "seasons of each length")
	reps := flag.Int("reps", 9, "solves of which the median counts")
	limit := flag.Duration("limit", 15*time.Minute, "time given to CBC for one season")
	growth := flag.Bool("growth", true, "also show random points and longer seasons")
	seasons := flag.Int("many", 1000, "also plan so many seasons side by side; 0 is none")
	instead := flag.Bool("squads", false, "compare squads instead, with the joint model in CBC; takes minutes")
	joint := flag.Duration("joint", 90*time.Second, "time given to CBC for one squad")
	flag.Parse()
	runtime.GOMAXPROCS(1)
	work := func() error { return run(*dir, *seed, *n, *reps, *limit, *growth, *seasons) }
	if *instead {
		work = func() error { return squads(*dir, *seed, *joint) }
	}
	if err := work(); err != nil {
		fmt.Fprintln(os.Stderr, "ratio:", err)
		os.Exit(1)
	}
}

// outcome is the comparison over one season.
type outcome struct {
	name                 string
	options, rows        int
	engine, wall, plain  time.Duration
	cbc, cbcWall         time.Duration
	broken, points       int64
	cbcBroken, cbcPoints int64
	nodes                int64
	equal                bool
}

func (o *outcome) ratio() float64 { return o.cbc.Seconds() / o.engine.Seconds() }

func run(dir string, seed uint64, n, reps int, limit time.Duration, growth bool, seasons int) error {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	f, err := os.Create(filepath.Join(dir, "ratio.csv"))
	if err != nil {
		return err
	}
	defer f.Close()
	table := csv.NewWriter(f)
	defer table.Flush()
	table.Write([]string{"season", "options", "rows", "nodes", "engine_cpu_ms", "engine_wall_ms", "engine_no_ties_cpu_ms", "cbc_cpu_ms", "cbc_wall_ms",
		"ratio", "engine_broken", "engine_points", "cbc_broken", "cbc_points", "equal"})
	fmt.Printf("seed %d, %d seasons of each length, load of the machine %s\n", seed, n, loadAverage())
	var ratios [2][]float64
	var cbc []time.Duration // of whole seasons, by the clock
	equal := 0
	for k, days := range []int{28, 210} {
		for i := range n {
			o := oracle.Options{Days: days, Load: true, Congested: i%3 == 2, Plain: i%4 != 3}
			name := fmt.Sprintf("d%d-%02d", days, i)
			out, err := compare(dir, name, seed*1_000_003+uint64(days)*1000+uint64(i), o, reps, limit)
			if err != nil {
				return fmt.Errorf("%s: %w", name, err)
			}
			ratios[k] = append(ratios[k], out.ratio())
			if days == 210 {
				cbc = append(cbc, out.cbcWall)
			}
			if out.equal {
				equal++
			}
			ms := func(d time.Duration) string { return strconv.FormatFloat(d.Seconds()*1000, 'f', 3, 64) }
			num := func(v int64) string { return strconv.FormatInt(v, 10) }
			table.Write([]string{name, num(int64(out.options)), num(int64(out.rows)), num(out.nodes), ms(out.engine), ms(out.wall), ms(out.plain),
				ms(out.cbc), ms(out.cbcWall), strconv.FormatFloat(out.ratio(), 'f', 2, 64),
				num(out.broken), num(out.points), num(out.cbcBroken), num(out.cbcPoints), strconv.FormatBool(out.equal)})
			table.Flush()
			fmt.Printf("%s: %d options, engine %s ms (clock %s, without ties %s), cbc %s ms (clock %s), ratio %.1f, %d broken %d points, equal %v\n", name, out.options,
				ms(out.engine), ms(out.wall), ms(out.plain), ms(out.cbc), ms(out.cbcWall), out.ratio(), out.broken, out.points, out.equal)
		}
	}
	if growth {
		if err := grow(seed, reps); err != nil {
			return err
		}
		if err := stress(seed); err != nil {
			return err
		}
	}
	if seasons > 0 {
		if err := many(seed, seasons, middle(cbc)); err != nil {
			return err
		}
	}
	fmt.Printf("month-median=%.1f month-worst=%.1f season-median=%.1f season-worst=%.1f equal=%d/%d\n",
		middle(ratios[0]), least(ratios[0]), middle(ratios[1]), least(ratios[1]), equal, 2*n)
	return table.Error()
}

// compare solves one season both ways.
func compare(dir, name string, seed uint64, o oracle.Options, reps int, limit time.Duration) (*outcome, error) {
	req, err := oracle.Request(seed, o)
	if err != nil {
		return nil, err
	}
	if err := write(dir, name+".request.json", req); err != nil {
		return nil, err
	}
	plan, err := (&periodize.Planner{}).Plan(context.Background(), req)
	if err != nil {
		return nil, err
	}
	if err := write(dir, name+".plan.json", plan); err != nil {
		return nil, err
	}
	out := &outcome{name: name}
	plain, err := oracle.NewCase(req, nil, true)
	if err != nil {
		return nil, err
	}
	without, err := measure(plain, reps)
	if err != nil {
		return nil, err
	}
	out.plain = without.cpu
	c, err := oracle.NewCase(req, nil, false)
	if err != nil {
		return nil, err
	}
	m, err := measure(c, reps)
	if err != nil {
		return nil, err
	}
	out.engine, out.wall, out.nodes, out.options = m.cpu, m.wall, m.nodes, m.options
	out.broken, out.points = oracle.Cost(m.cost)
	program, _ := oracle.Encode(plain)
	out.rows = len(program.Rows)
	ctx, cancel := context.WithTimeout(context.Background(), limit+time.Minute)
	defer cancel()
	cbc, err := oracle.RunCBC(ctx, program, dir, name, limit)
	if err != nil {
		return nil, err
	}
	out.cbc, out.cbcWall, out.cbcBroken, out.cbcPoints = max(cbc.CPU, time.Millisecond), cbc.Wall, cbc.Broken, cbc.Points
	b, p := oracle.Cost(without.cost)
	out.equal = cbc.Proved && m.proved && without.proved && b == out.broken && p == out.points &&
		out.broken == cbc.Broken && out.points == cbc.Points && plan.Cost.Broken == out.broken && plan.Cost.Points == out.points
	return out, nil
}

func write(dir, name string, v any) error {
	b, err := json.MarshalIndent(v, "", " ")
	if err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(dir, name), append(b, '\n'), 0o644)
}

package main

import (
	"context"
	"fmt"
	"iter"
	"runtime"
	"time"

	"example.org/weft/internal/oracle"
	"example.org/weft/periodize/season"
	"example.org/weft/periodize/whatif"
)

// many plans whole seasons side by side, each the same club with other luck, and
// compares their time with that of one season in CBC. Here the clock counts, and
// up to two cores, each with a worker.
func many(seed uint64, seasons int, cbc time.Duration) error {
	cores := min(2, runtime.NumCPU())
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(0))
	req, err := oracle.Request(seed*13, oracle.Options{Days: 210, Load: true, Plain: true})
	if err != nil {
		return err
	}
	luck := whatif.Lottery{Seed: seed, Rates: whatif.Rates{Postponed: 60, Through: 500, Needed: 500}}
	drawn := func(n int) iter.Seq[whatif.Variant] {
		return func(yield func(whatif.Variant) bool) {
			for i := range n {
				change, _ := luck.Draw(req, i)
				if !yield(whatif.Variant{Name: fmt.Sprintf("season %d", i+1), Change: change}) {
					return
				}
			}
		}
	}
	few := max(seasons/10, 1)
	small, err := sweep(req, drawn(few), few, cores)
	if err != nil {
		return err
	}
	all, err := sweep(req, drawn(seasons), seasons, cores)
	if err != nil {
		return err
	}
	var gains, costs []float64
	for range 5 {
		one, err := sweep(req, drawn(2*few), 2*few, 1)
		if err != nil {
			return err
		}
		two, err := sweep(req, drawn(2*few), 2*few, cores)
		if err != nil {
			return err
		}
		gains = append(gains, one.wall.Seconds()/two.wall.Seconds())
		costs = append(costs, two.cpu.Seconds()/one.cpu.Seconds())
	}
	fmt.Printf("%d seasons on %d cores: %.1f s, %.1f times the median season of CBC; against one core %.2f times as fast, for %.2f times the processor time (medians of %d)\n",
		seasons, cores, all.wall.Seconds(), all.wall.Seconds()/cbc.Seconds(), middle(gains), middle(costs), len(gains))
	// What is held is what two workers keep for their next plan, as large as the
	// hardest season so far made it.
	fmt.Printf("garbage %.1f MB a season, collected %d times; in use at the end, garbage aside, and at most with it: %d and %d MB with %d seasons, %d and %d with %d\n",
		float64(all.garbage)/1e6/float64(seasons), all.collected, small.held>>20, small.most>>20, few, all.held>>20, all.most>>20, seasons)
	return nil
}

// swept is what a sweep took.
type swept struct {
	wall, cpu time.Duration
	most      uint64 // bytes of the heap in use, looked at after every 25 results
	held      uint64 // the same after a collection at the last result
	garbage   uint64 // bytes allocated in all
	collected uint32
}

// sweep plans n seasons on so many cores.
func sweep(req *season.Request, seasons iter.Seq[whatif.Variant], n, workers int) (*swept, error) {
	runtime.GOMAXPROCS(workers)
	var out swept
	var m runtime.MemStats
	all := whatif.Sweep{Workers: workers, Progress: func(p whatif.Progress) {
		if p.Done%25 == 0 {
			runtime.ReadMemStats(&m)
			out.most = max(out.most, m.HeapInuse)
		}
		if p.Done == n+1 {
			runtime.GC()
			runtime.ReadMemStats(&m)
			out.held = m.HeapInuse
		}
	}}
	runtime.GC()
	runtime.ReadMemStats(&m)
	garbage, collected := m.TotalAlloc, m.NumGC
	start, cpu := time.Now(), processor()
	for r, err := range all.Run(context.Background(), req, seasons) {
		if err != nil {
			return nil, fmt.Errorf("%s: %w", r.Name, err)
		}
	}
	out.wall, out.cpu = time.Since(start), processor()-cpu
	runtime.ReadMemStats(&m)
	out.garbage, out.collected = m.TotalAlloc-garbage, m.NumGC-collected
	return &out, nil
}

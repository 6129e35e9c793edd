package main

import (
	"context"
	"fmt"
	"iter"
	"runtime"
	"runtime/debug"
	"time"

	"example.org/weft/internal/oracle"
	"example.org/weft/periodize/whatif"
)

// many plans whole seasons side by side, each the same club with other luck, and
// compares their time with that of one season in CBC. Here the clock counts, and
// up to two cores, each with a worker.
func many(seed uint64, seasons int, cbc time.Duration) error {
	cores := min(2, runtime.NumCPU())
	defer debug.SetGCPercent(debug.SetGCPercent(400)) // as examples/whatif does
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
	// plan returns the time of n seasons on some cores, and the most memory in use
	// between two of them.
	plan := func(n, workers int) (time.Duration, uint64, error) {
		runtime.GOMAXPROCS(workers)
		var most uint64
		var m runtime.MemStats
		sweep := whatif.Sweep{Workers: workers, Progress: func(p whatif.Progress) {
			if p.Done%25 == 0 {
				runtime.ReadMemStats(&m)
				most = max(most, m.HeapInuse)
			}
		}}
		runtime.GC()
		start := time.Now()
		for r, err := range sweep.Run(context.Background(), req, drawn(n)) {
			if err != nil {
				return 0, 0, fmt.Errorf("%s: %w", r.Name, err)
			}
		}
		return time.Since(start), most, nil
	}
	few := max(seasons/5, 1)
	_, small, err := plan(few, cores)
	if err != nil {
		return err
	}
	all, large, err := plan(seasons, cores)
	if err != nil {
		return err
	}
	var gains []float64
	for range 5 {
		one, _, err := plan(few, 1)
		if err != nil {
			return err
		}
		two, _, err := plan(few, cores)
		if err != nil {
			return err
		}
		gains = append(gains, one.Seconds()/two.Seconds())
	}
	fmt.Printf("%d seasons on %d cores: %.1f s, %.1f times the median season of CBC; against one core %.2f times as fast (median of %d); memory in use %d MB, with %d seasons %d MB\n",
		seasons, cores, all.Seconds(), all.Seconds()/cbc.Seconds(), middle(gains), len(gains), large>>20, few, small>>20)
	return nil
}

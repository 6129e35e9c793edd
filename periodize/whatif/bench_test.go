package whatif_test

import (
	"context"
	"fmt"
	"iter"
	"runtime"
	"testing"

	"example.org/weft/periodize/whatif"
)

// Fifty whole seasons of 30 weeks: the base and 49 variants, each a game moved by
// a day or two.
func BenchmarkSweepOf50Seasons(b *testing.B) {
	base := club(30)
	var list []whatif.Change
	for i := range 49 {
		list = append(list, whatif.MoveDays(fmt.Sprintf("g%02d", 1+i%30), []int{-2, -1, 1, 2}[i%4]))
	}
	for _, workers := range []int{1, 2} {
		b.Run(fmt.Sprintf("workers=%d", workers), func(b *testing.B) {
			sweep := whatif.Sweep{Workers: workers}
			b.ReportAllocs()
			for range b.N {
				n := 0
				for r, err := range sweep.Run(context.Background(), base, variants(list...)) {
					if err != nil || r.Plan == nil {
						b.Fatal(err)
					}
					n++
				}
				if n != 50 {
					b.Fatal(n)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Milliseconds())/float64(50*b.N), "ms/season")
		})
	}
}

// Memory that a sweep holds does not grow with the number of variants: what is in
// use after a collection, at the tenth result and at the last.
func TestSweepMemoryIsFlat(t *testing.T) {
	base := club(4)
	held := func(n int) (early, late uint64) {
		var m runtime.MemStats
		sweep := whatif.Sweep{Workers: 2, Progress: func(p whatif.Progress) {
			if p.Done == 10 || p.Done == n {
				runtime.GC()
				runtime.ReadMemStats(&m)
				early, late = late, m.HeapAlloc
			}
		}}
		for _, err := range sweep.Run(context.Background(), base, moved(n-1)) {
			if err != nil {
				t.Fatal(err)
			}
		}
		return early, late
	}
	early, late := held(300)
	t.Logf("%d KB in use after 10 results, %d KB after 300", early>>10, late>>10)
	// 290 plans of a month, if they were held, would be some 12 MB.
	if late > early+2<<20 {
		t.Errorf("%d KB in use after 10 results, %d KB after 300", early>>10, late>>10)
	}
}

// moved are n variants of a month: each game in turn on another date.
func moved(n int) iter.Seq[whatif.Variant] {
	return func(yield func(whatif.Variant) bool) {
		for i := range n {
			if !yield(whatif.Variant{Change: whatif.MoveDays(fmt.Sprintf("g%02d", 1+i%4), []int{-2, -1, 1, 2}[i/4%4])}) {
				return
			}
		}
	}
}

// A month and so many variants of it: the garbage of each, and what is in use after
// a collection at the last result, less what was before.
func BenchmarkSweepMemory(b *testing.B) {
	base := club(4)
	for _, n := range []int{100, 1000, 4000} {
		b.Run(fmt.Sprintf("variants=%d", n), func(b *testing.B) {
			var before, after, m runtime.MemStats
			sweep := whatif.Sweep{Workers: 2, Progress: func(p whatif.Progress) {
				if p.Done == n+1 {
					runtime.GC()
					runtime.ReadMemStats(&m)
				}
			}}
			runtime.GC()
			runtime.ReadMemStats(&before)
			for range b.N {
				for _, err := range sweep.Run(context.Background(), base, moved(n)) {
					if err != nil {
						b.Fatal(err)
					}
				}
			}
			runtime.ReadMemStats(&after)
			b.ReportMetric(float64(m.HeapAlloc-min(m.HeapAlloc, before.HeapAlloc))/1024, "held-KB")
			b.ReportMetric(float64(after.TotalAlloc-before.TotalAlloc)/float64(b.N*n)/1024, "garbage-KB/variant")
		})
	}
}

// A month with two branches known after two weeks.
func BenchmarkFork(b *testing.B) {
	base := club(4)
	f := whatif.Fork{Workers: 1, Known: instant(base.Athlete.Zone, "2026-11-16T08:00"), Branches: []whatif.Branch{
		{Name: "as it is"}, {Name: "a day earlier", Change: whatif.MoveDays("g03", -1)}}}
	b.ReportAllocs()
	plans := 0
	for range b.N {
		got, err := f.Run(context.Background(), base)
		if err != nil {
			b.Fatal(err)
		}
		plans = got.Plans
	}
	b.ReportMetric(float64(plans), "plans")
}

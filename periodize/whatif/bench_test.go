package whatif_test

import (
	"context"
	"fmt"
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

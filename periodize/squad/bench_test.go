package squad

import (
	"context"
	"fmt"
	"testing"
)

// BenchmarkPlan plans invented clubs: the hall that is roomy, and one so small that
// a third cannot come when they would.
func BenchmarkPlan(b *testing.B) {
	for _, x := range []struct{ athletes, days, capacity int }{{5, 14, 2}, {30, 28, 8}, {30, 28, 4}, {30, 56, 8}, {60, 28, 12}, {100, 28, 20}} {
		b.Run(fmt.Sprintf("%dx%d/capacity%d", x.athletes, x.days, x.capacity), func(b *testing.B) {
			req := club(x.athletes, x.days, x.capacity)
			p := Planner{Workers: 2}
			for i := 0; i < b.N; i++ {
				plan, err := p.Plan(context.Background(), req)
				if err != nil {
					b.Fatal(err)
				}
				b.ReportMetric(float64(plan.Gap), "gap/op")
				b.ReportMetric(float64(plan.Work.Rounds), "rounds/op")
				b.ReportMetric(float64(plan.Work.Nodes), "nodes/op")
			}
		})
	}
}

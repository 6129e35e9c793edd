package oracle

import (
	"context"
	"testing"

	"example.org/weft/internal/layered"
	"example.org/weft/internal/starts"
)

// small is a season of few plans: short, or with few open hours.
func small(t *testing.T, seed uint64) *Case {
	t.Helper()
	o := Options{Days: 4 + int(seed%10), Tight: seed%4 != 0, Congested: seed%3 == 1, Load: seed%5 == 2, Rolling: seed%5 == 3, Stress: seed%7 == 4}
	if o.Tight {
		o.Days += 4
	}
	req, err := Request(seed, o)
	if err != nil {
		t.Fatal(err)
	}
	var c *Case
	if seed%6 == 0 { // planned again
		c, err = Reissued(req, true)
	} else {
		c, err = NewCase(req, nil, true)
	}
	if err != nil {
		t.Fatalf("seed %d: %v\n%+v", seed, err, req)
	}
	return c
}

// The optimum, the number of optima, and the price of every option, against all
// plans judged from the definitions.
func TestEveryPlan(t *testing.T) {
	seeds, most := uint64(400), int64(3000)
	if deep() {
		seeds, most = 4000, 6000
	}
	var seasons, plans, prices, broken int64
	for seed := uint64(1); seed <= seeds; seed++ {
		c := small(t, seed)
		want, ok, err := c.Best(most)
		if err != nil {
			t.Fatalf("seed %d: %v\n%s", seed, err, shown(c))
		}
		if !ok {
			continue
		}
		m, err := c.Compile()
		if err != nil {
			t.Fatal(err)
		}
		// Broken limits are dearer than any slack: all plans that break no more
		// are in the graph.
		const slack = 60
		g, err := m.Explore(context.Background(), c.Static, layered.Settings{Slack: slack * starts.Point})
		if want.Legal == 0 {
			if err != layered.ErrInfeasible {
				t.Errorf("seed %d: no legal plan, engine %v", seed, err)
			}
			continue
		}
		if err != nil {
			t.Fatalf("seed %d: %v\n%s", seed, err, shown(c))
		}
		b, pt := Cost(g.Best().Cost)
		if b != want.Broken || pt != want.Points || g.Count() != uint64(want.Optima) {
			t.Errorf("seed %d: engine %d broken, %d points, %d optima; all plans %d, %d, %d\n%s",
				seed, b, pt, g.Count(), want.Broken, want.Points, want.Optima, shown(c))
		}
		seasons, plans, broken = seasons+1, plans+want.Plans, broken+int64(s2i(b > 0))
		for l := range c.Static {
			extra, exact := g.Prices(l)
			for o, least := range want.Least[l] {
				more := (least[0]-want.Broken)*starts.Broken + (least[1]-want.Points)*starts.Point
				if least[0] < 0 {
					more = layered.Inf
				}
				near := more <= slack*starts.Point
				if exact[o] != near || near && extra[o] != more {
					t.Errorf("seed %d date %d option %d: price %d exact %v, all plans %d", seed, l, o, extra[o], exact[o], more)
				}
				prices++
				if o%5 == int(seed%5) { // one solve of its own
					s, err := m.Force(context.Background(), c.Static, layered.Settings{}, l, o)
					if err != nil {
						t.Fatal(err)
					}
					if s.Cost >= layered.Inf && more < layered.Inf || s.Cost < layered.Inf && s.Cost-g.Best().Cost != more {
						t.Errorf("seed %d date %d option %d: forced %d, all plans %d", seed, l, o, s.Cost-g.Best().Cost, more)
					}
				}
			}
		}
	}
	t.Logf("%d seasons, %d plans judged, %d prices, %d seasons with broken limits", seasons, plans, prices, broken)
	if seasons < int64(seeds)/10 || prices < 1000 {
		t.Errorf("too few seasons: %d, prices %d", seasons, prices)
	}
}

// The plan that CBC finds costs what CBC says, by the judge, and prices of longer
// seasons are those of forced solves.
func TestPricesForced(t *testing.T) {
	seeds := uint64(12)
	if deep() {
		seeds = 150
	}
	checked := 0
	for seed := uint64(1); seed <= seeds; seed++ {
		c, _ := drawn(t, seed)
		m, err := c.Compile()
		if err != nil {
			t.Fatal(err)
		}
		const slack = 50 * starts.Point
		g, err := m.Explore(context.Background(), c.Static, layered.Settings{Slack: slack})
		if err == layered.ErrInfeasible {
			continue
		}
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		for l := range c.Static {
			extra, exact := g.Prices(l)
			for o := range extra {
				if (uint64(o)+seed+uint64(l))%4 != 0 {
					continue
				}
				s, err := m.Force(context.Background(), c.Static, layered.Settings{}, l, o)
				if err != nil {
					t.Fatal(err)
				}
				more := s.Cost - g.Best().Cost
				if s.Status == layered.Infeasible {
					more = layered.Inf
				}
				if exact[o] && more != extra[o] || !exact[o] && more <= slack {
					t.Errorf("seed %d date %d option %d: price %d exact %v, forced %d", seed, l, o, extra[o], exact[o], more)
				}
				checked++
			}
		}
	}
	t.Logf("%d prices", checked)
}

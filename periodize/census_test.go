package periodize

import (
	"context"

	"example.org/weft/internal/judge"
	"example.org/weft/internal/seasontest"
	"example.org/weft/internal/starts"
	"example.org/weft/periodize/season"
	"pgregory.net/rapid"
)

// census is every plan of a season as the judge sees it, without the engine.
type census struct {
	m     *starts.Model
	plans []counted
	best  judge.Verdict
}

type counted struct {
	options        []int
	broken, points int64
}

func censusOf(t *rapid.T, m *starts.Model) *census {
	t.Helper()
	c := &census{m: m}
	eachPlan(t, m, func(options []int, v judge.Verdict) {
		c.plans = append(c.plans, counted{append([]int(nil), options...), v.Broken, v.Points})
		if n := len(c.plans); n == 1 || v.Broken < c.best.Broken || v.Broken == c.best.Broken && v.Points < c.best.Points {
			c.best = v
		}
	})
	return c
}

// price is what the best plan of a sort costs more than the best of all; ok is
// false if there is none that breaks no more limits.
func (c *census) price(is func(options []int) bool) (extra int64, ok bool) {
	for _, p := range c.plans {
		if p.broken == c.best.Broken && is(p.options) && (!ok || p.points-c.best.Points < extra) {
			extra, ok = p.points-c.best.Points, true
		}
	}
	return extra, ok
}

// holds reports whether an option has a session of a kind that is not fixed.
func (c *census) holds(l, o int, k season.Kind) bool {
	ch := &c.m.Choices[l]
	for _, y := range ch.Options[o] {
		if ch.Slots[y].Kind == k && !ch.Slots[y].Forced {
			return true
		}
	}
	return false
}

func (c *census) alone(l, o int, k season.Kind) bool {
	return len(c.m.Choices[l].Options[o]) == 1 && c.m.Choices[l].Slots[c.m.Choices[l].Options[o][0]].Kind == k
}

func sumOf(costs []season.RuleCost) int64 {
	var n int64
	for _, c := range costs {
		n += c.Points
	}
	return n
}

// small draws a season of few plans, now and then one that was issued before.
func small(t *rapid.T, most int64) *work {
	o := short(t, 2)
	req := seasontest.Request(t, o)
	if rapid.IntRange(0, 2).Draw(t, "later") == 2 {
		if next, ok := seasontest.Later(t, o, req, planOf(t, req), true); ok {
			req = next
		}
	}
	w, ok := narrowed(t, req, most)
	if !ok || w.refused() {
		t.Skip("too many plans, or none")
	}
	return w
}

func explored(t *rapid.T, req *season.Request) *Exploration {
	t.Helper()
	var p Planner
	x, err := p.Explore(context.Background(), req)
	if err != nil {
		t.Fatalf("%v\n%s", err, shown(req))
	}
	return x
}

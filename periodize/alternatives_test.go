package periodize

import (
	"bytes"
	"context"
	"sort"
	"testing"

	"example.org/weft/calendar"
	"example.org/weft/internal/starts"
	"example.org/weft/periodize/season"
	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// Prices, other dates, the most different plan and the number of equals are
// those of all plans, judged one by one.
func TestQuestionsEveryPlan(t *testing.T) {
	var seasons, plans, exact, atLeast, elsewhere int
	onSeasons(t, 120, func(t *rapid.T) {
		w := small(t, rapid.SampledFrom([]int64{100, 400, 1500}).Draw(t, "most"))
		c := censusOf(t, w.model)
		req := &w.req
		x := explored(t, req)
		if a, b := jsonOf(t, x.Plan()), jsonOf(t, planOf(t, req)); !bytes.Equal(a, b) {
			t.Fatalf("explored and planned differ: %s", cmp.Diff(string(b), string(a)))
		}
		if p := x.Plan().Cost; p.Broken != c.best.Broken || p.Points != c.best.Points {
			t.Fatalf("plan %+v, of %d plans the best has %d %d\n%s", p, len(c.plans), c.best.Broken, c.best.Points, shown(req))
		}
		seasons, plans = seasons+1, plans+len(c.plans)
		for l := range w.model.Choices {
			date := req.Period.From.AddDays(l)
			e, n := checkOnDate(t, c, x, l, date)
			exact, atLeast = exact+e, atLeast+n
		}
		for _, s := range x.Plan().Sessions {
			elsewhere += checkElsewhere(t, c, x, s)
		}
		checkDifferent(t, c, x)
		optima := uint64(0)
		for _, p := range c.plans {
			if p.broken == c.best.Broken && p.points == c.best.Points {
				optima++
			}
		}
		var p Planner
		if n, err := p.Equals(context.Background(), req); err != nil || n != optima {
			t.Fatalf("equals %d %v, of all plans %d are as good\n%s", n, err, optima, shown(req))
		}
	})
	t.Logf("%d seasons, %d lawful plans, %d exact prices, %d beyond the slack, %d other dates", seasons, plans, exact, atLeast, elsewhere)
	if !testing.Short() && (seasons < 60 || exact < 100 || atLeast < 50 || elsewhere < 20) {
		t.Errorf("too few of a sort")
	}
}

func checkOnDate(t *rapid.T, c *census, x *Exploration, l int, date calendar.Date) (exact, atLeast int) {
	t.Helper()
	got, err := x.OnDate(date)
	if err != nil {
		t.Fatal(err)
	}
	ch := &c.m.Choices[l]
	planned := kindsOf(ch, x.w.solution.Options[l])
	want := map[string]bool{}
	for o := range ch.Options {
		if k := kindsOf(ch, o); k != planned {
			want[k] = true
		}
	}
	if len(got) != len(want) {
		t.Fatalf("%s: %d alternatives, of %d sorts\n%s", date, len(got), len(want), shown(&x.w.req))
	}
	last := Alternative{}
	for i, a := range got {
		if i > 0 && !a.AtLeast && a.Price < last.Price {
			t.Errorf("%s: not in order: %+v after %+v", date, a, last)
		}
		last = a
		kinds := append([]season.Kind(nil), a.With...)
		if a.Kind != "" {
			kinds = append(kinds, a.Kind)
		}
		extra, ok := c.price(func(o []int) bool { return sameKinds(ch, o[l], kinds) })
		if a.AtLeast {
			atLeast++
			if ok && extra <= Slack || a.Price != Slack+1 || len(a.Costs) > 0 {
				t.Fatalf("%s %v: stated as at least %d, of all plans %d (%v)\n%s", date, kinds, a.Price, extra, ok, shown(&x.w.req))
			}
			continue
		}
		exact++
		if !ok || a.Price != extra || sumOf(a.Costs) != a.Price {
			t.Fatalf("%s %v: price %d, costs %v, of all plans %d (%v)\n%s", date, kinds, a.Price, a.Costs, extra, ok, shown(&x.w.req))
		}
		if a.Kind != "" {
			checkStands(t, x, a)
		}
	}
	return exact, atLeast
}

// checkStands: a start that is offered is one, in the zone of the plan.
func checkStands(t *rapid.T, x *Exploration, a Alternative) {
	t.Helper()
	s := x.w.model.SlotOf(&season.Session{Kind: a.Kind, Start: a.Start, End: a.End, Place: a.Place})
	if b := x.w.model.BreachesAt(&s); len(b) > 0 || s.Day != a.Date.DayNumber() {
		t.Fatalf("offered %+v breaks %v", a, b)
	}
}

func sameKinds(ch *starts.Choices, o int, kinds []season.Kind) bool {
	var have []season.Kind
	for _, y := range ch.Options[o] {
		have = append(have, ch.Slots[y].Kind)
	}
	sorted := func(k []season.Kind) []season.Kind {
		k = append([]season.Kind{}, k...)
		sort.Slice(k, func(i, j int) bool { return k[i] < k[j] })
		return k
	}
	return cmp.Equal(sorted(have), sorted(kinds))
}

func checkElsewhere(t *rapid.T, c *census, x *Exploration, s season.Session) (n int) {
	t.Helper()
	l, _ := x.w.layer(s.Date.DayNumber())
	got, err := x.Elsewhere(context.Background(), s.ID)
	if s.Pinned || s.State == season.DoneState {
		if err == nil && len(got) > 0 {
			t.Fatalf("%s is fixed and yet could stand elsewhere: %v", s.ID, got)
		}
		return 0
	}
	if err != nil {
		t.Fatalf("%v\n%s", err, shown(&x.w.req))
	}
	without := func(o []int) bool {
		for _, y := range c.m.Choices[l].Options[o[l]] {
			if c.m.Choices[l].Slots[y].Kind == s.Kind {
				return false
			}
		}
		return true
	}
	low, ok := c.price(without)
	byDate := map[calendar.Date]Alternative{}
	for _, a := range got {
		byDate[a.Date] = a
		if a.Kind != s.Kind || a.AtLeast {
			t.Fatalf("%s elsewhere: %+v", s.ID, a)
		}
		checkStands(t, x, a)
	}
	for k := max(0, l-6); k <= min(len(c.m.Choices)-1, l+6); k++ {
		date := x.w.req.Period.From.AddDays(k)
		if k == l || x.has(k, s.Kind) {
			continue
		}
		extra, there := c.price(func(o []int) bool { return without(o) && c.alone(k, o[k], s.Kind) })
		a, found := byDate[date]
		delete(byDate, date)
		if found && (!there || a.Price != extra || sumOf(a.Costs) != a.Price) {
			t.Fatalf("%s on %s: price %d, costs %v, of all plans %d (%v)\n%s", s.ID, date, a.Price, a.Costs, extra, there, shown(&x.w.req))
		}
		if !found && there && ok && extra-low <= Slack {
			t.Fatalf("%s could stand on %s for %d, which is not said\n%s", s.ID, date, extra, shown(&x.w.req))
		}
		if found {
			n++
		}
	}
	if len(byDate) > 0 {
		t.Fatalf("%s elsewhere, more than six dates off or beside one of its kind: %v", s.ID, byDate)
	}
	return n
}

func checkDifferent(t *rapid.T, c *census, x *Exploration) {
	t.Helper()
	other, apart, err := x.Different(context.Background())
	if err != nil {
		t.Fatalf("%v\n%s", err, shown(&x.w.req))
	}
	if d := other.Cost.Points - x.Plan().Cost.Points; d < 0 || d > Slack+1 || other.Cost.Broken != x.Plan().Cost.Broken {
		t.Fatalf("different plan: %+v against %+v", other.Cost, x.Plan().Cost)
	}
	stands := map[string]bool{}
	for _, s := range x.Plan().Sessions {
		stands[s.Start.String()+string(s.Kind)] = true
	}
	n := 0
	for _, s := range other.Sessions {
		if !stands[s.Start.String()+string(s.Kind)] {
			n++
		}
	}
	most := 0
	for _, p := range c.plans {
		if p.broken != c.best.Broken || p.points-c.best.Points > Slack {
			continue
		}
		k := 0
		for _, s := range slotsOf(c.m, p.options) {
			if !stands[c.m.Time(s.From).String()+string(s.Kind)] {
				k++
			}
		}
		most = max(most, k)
	}
	if n != apart || n < most {
		t.Fatalf("%d sessions are other, %d stated, of all plans one has %d\n%s", n, apart, most, shown(&x.w.req))
	}
	lawful(t, &x.w.req, proved(other))
}

// proved is a plan for a checker that wants a proof.
func proved(p *season.Plan) *season.Plan {
	out := *p
	out.Proof = season.Proved
	return &out
}

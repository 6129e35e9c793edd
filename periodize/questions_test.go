package periodize

import (
	"bytes"
	"context"
	"errors"
	"sort"
	"strings"
	"testing"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/internal/judge"
	"example.org/weft/internal/layered"
	"example.org/weft/internal/seasontest"
	"example.org/weft/internal/starts"
	"example.org/weft/periodize/rule"
	"example.org/weft/periodize/season"
	"github.com/google/go-cmp/cmp"
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
	p := parameters(m.Set)
	options := make([]int, len(m.Choices))
	for {
		v, err := judge.Judge(judgeInput(m, slotsOf(m, options)), p)
		if err != nil {
			t.Fatal(err)
		}
		if len(v.Illegal) == 0 {
			c.plans = append(c.plans, counted{append([]int(nil), options...), v.Broken, v.Points})
			if n := len(c.plans); n == 1 || v.Broken < c.best.Broken || v.Broken == c.best.Broken && v.Points < c.best.Points {
				c.best = v
			}
		}
		i := 0
		for ; i < len(options); i++ {
			if options[i]++; options[i] < len(m.Choices[i].Options) {
				break
			}
			options[i] = 0
		}
		if i == len(options) {
			return c
		}
	}
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
	o := seasontest.Options{MinDates: 2, MaxDates: 9, Plain: random.Plain, Tight: rapid.Bool().Draw(t, "tight")}
	if rapid.IntRange(0, 3).Draw(t, "long") == 3 { // breaks are long
		o.MinDates, o.MaxDates, o.Tight = 10, 18, true
	}
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

// Why not: where it is possible the price is that of all plans, else no plan has
// it without a broken limit.
func TestWhyNotEveryPlan(t *testing.T) {
	var possible, forbidden, planned int
	onSeasons(t, 100, func(t *rapid.T) {
		w := small(t, 150)
		c := censusOf(t, w.model)
		x := explored(t, &w.req)
		pinned := map[calendar.Date]bool{}
		for _, p := range w.req.Pins {
			pinned[p.Date] = true
		}
		for l := range w.model.Choices {
			date := w.req.Period.From.AddDays(l)
			if pinned[date] {
				continue
			}
			for _, k := range season.Kinds() {
				a, err := x.WhyNot(context.Background(), date, k, nil)
				if err != nil {
					t.Fatalf("%v\n%s", err, shown(&w.req))
				}
				if a.Planned {
					planned++
					continue
				}
				extra, ok := c.price(func(o []int) bool { return c.holds(l, o[l], k) })
				if a.Possible != ok || a.Possible && (a.Price != extra || sumOf(a.Costs) != a.Price || len(a.Limits) > 0) {
					t.Fatalf("%s %s: %+v, of all plans %d (%v)\nplan %s\n%s", date, k, a, extra, ok, sketch(x.w.slots), shown(&w.req))
				}
				if a.Text == "" || !a.Possible && len(a.Limits) == 0 && x.w.model.Days[x.w.model.From+l].From > x.w.model.Now {
					t.Fatalf("%s %s: no reason: %+v\n%s", date, k, a, shown(&w.req))
				}
				if ok {
					possible++
				} else {
					forbidden++
				}
			}
		}
	})
	t.Logf("%d possible, %d forbidden, %d planned", possible, forbidden, planned)
	if !testing.Short() && (possible < 100 || forbidden < 100) {
		t.Error("too few of a sort")
	}
}

// Why not at a start: the limits that are named are those that the judge finds
// when the session stands there, and the price is that of the plan with it
// pinned.
func TestWhyNotAtStart(t *testing.T) {
	var possible, forbidden int
	onSeasons(t, 120, func(t *rapid.T) {
		req := seasontest.Request(t, seasontest.Options{MinDates: 7, MaxDates: 14, Plain: random.Plain})
		if rapid.Bool().Draw(t, "open") {
			req = open(req)
		}
		x := explored(t, req)
		if x.Plan().Outcome == season.Refused {
			t.Skip("refused")
		}
		req = &x.w.req
		date := req.Period.From.AddDays(rapid.IntRange(0, req.Period.Days()-1).Draw(t, "on"))
		k := rapid.SampledFrom(season.Kinds()).Draw(t, "kind")
		at := calendar.Clock(rapid.SampledFrom([]int{6, 8, 10, 12, 15, 16, 17, 18, 19, 20, 21}).Draw(t, "hour") * 3600)
		if req.Athlete.Zone.Resolve(calendar.Wall{Date: date, Clock: at}).Fit != calendar.Exact {
			t.Skip("no such time")
		}
		a, err := x.WhyNot(context.Background(), date, k, &at)
		if err != nil {
			t.Fatalf("%v\n%s", err, shown(req))
		}
		if a.Planned {
			return
		}
		if !a.Start.Equal(req.Athlete.Zone.Resolve(calendar.Wall{Date: date, Clock: at}).Instant) {
			t.Fatalf("asked for %s %s, answered %+v", date, at, a)
		}
		next := *req
		next.Pins = []season.Pin{}
		for _, p := range req.Pins {
			if p.Date != date {
				next.Pins = append(next.Pins, p)
			}
		}
		loose, err := x.w.planner.prepare(&next)
		if err != nil {
			t.Fatal(err)
		}
		if err := loose.solve(context.Background()); err != nil {
			t.Fatal(err)
		}
		next.Pins = append(next.Pins, season.Pin{Date: date, Kind: k, Start: &at})
		plan := planOf(t, &next)
		var session *season.Session
		for i := range plan.Sessions {
			if s := &plan.Sessions[i]; s.Start.Equal(a.Start) && s.Kind == k {
				session = s
			}
		}
		if session == nil {
			t.Fatalf("not in the plan with the pin: %+v\n%s", a, shown(&next))
		}
		if !session.End.Equal(a.End) || len(req.Places) > 1 {
			return // the pin has its usual length and the first place, the answer what breaks least
		}
		p := Planner{}
		e, err := p.Evaluate(context.Background(), &next, plan)
		if err != nil {
			t.Fatal(err)
		}
		if !e.Legal || e.Points != plan.Cost.Points {
			t.Fatalf("evaluated %+v, planned %+v", e, plan.Cost)
		}
		got, want := map[string]bool{}, map[string]bool{}
		for _, y := range a.Limits {
			got[rule.Family(y.Rule)] = true
		}
		for _, b := range e.Broken {
			want[rule.Family(b.Rule)] = true
		}
		broken, _ := split(loose.solution.Cost)
		if plan.Cost.Broken == broken { // what was broken without it is not its doing
			want = map[string]bool{}
		} else if broken > 0 {
			return
		}
		if d := cmp.Diff(want, got); d != "" {
			t.Fatalf("%s %s %s: limits of the judge and of the answer %s\n%s", date, at, k, d, shown(&next))
		}
		if a.Possible {
			possible++
			if want := plan.Cost.Points - x.Plan().Cost.Points; a.Price != want || sumOf(a.Costs) != want {
				t.Fatalf("%s %s %s: price %d %v, planned again %d\n%s", date, at, k, a.Price, a.Costs, want, shown(&next))
			}
		} else {
			forbidden++
		}
	})
	t.Logf("%d possible, %d forbidden", possible, forbidden)
	if !testing.Short() && (possible < 5 || forbidden < 30) {
		t.Error("too few of a sort")
	}
}

// What forbids a kind on a date forbids it at every start of five minutes, and
// each limit that is named forbids one of them.
func TestWhyNotEveryStart(t *testing.T) {
	tried, named := 0, 0
	onSeasons(t, 60, func(t *rapid.T) {
		req := seasontest.Request(t, seasontest.Options{MinDates: 7, MaxDates: 14, Plain: true})
		x := explored(t, req)
		if x.Plan().Outcome == season.Refused {
			t.Skip("refused")
		}
		m := x.w.model
		l := rapid.IntRange(0, len(m.Choices)-1).Draw(t, "on")
		date := req.Period.From.AddDays(l)
		k := rapid.SampledFrom(season.Kinds()).Draw(t, "kind")
		a, err := x.WhyNot(context.Background(), date, k, nil)
		if err != nil || a.Possible || !a.Start.IsZero() {
			return
		}
		tried++
		broken := map[string]bool{}
		day := req.Athlete.Zone.DaySpan(date)
		for s := day.Start; s.Before(day.End); s = s.Add(15 * time.Minute) {
			for _, n := range []int{m.Usual(k), 35, 20} {
				for _, place := range m.PlaceIDs {
					slot := m.SlotOf(&season.Session{Kind: k, Start: s, End: s.Add(time.Duration(n) * time.Minute), Place: place})
					v, err := verdictOf(m, []starts.Slot{slot})
					if err != nil {
						t.Fatal(err)
					}
					if len(v.Illegal) == 0 {
						t.Fatalf("%s %s is forbidden by %v, and yet lawful at %s for %d min\n%s", date, k, a.Limits, s, n, shown(req))
					}
					for _, b := range v.Illegal {
						broken[b.Rule] = true
					}
				}
			}
		}
		for _, y := range a.Limits {
			named++
			if !broken[rule.Family(y.Rule)] {
				t.Fatalf("%s %s: %s forbids no start; %v do\n%s", date, k, y.Rule, broken, shown(req))
			}
		}
	})
	t.Logf("%d forbidden, %d limits named", tried, named)
	if !testing.Short() && (tried < 15) {
		t.Error("too few")
	}
}

// What stands in the way of an aim is enough by itself: whatever else is relaxed,
// the aim is missed. Relaxed itself it is in the way no more: the aim is kept, or
// something else is named.
func TestObstacles(t *testing.T) {
	misses, empty, others, relaxed, kept := 0, 0, 0, 0, 0
	sizes := map[int]int{}
	onSeasons(t, 120, func(t *rapid.T) {
		req := seasontest.Request(t, seasontest.Options{MinDates: 7, MaxDates: 14, Plain: true})
		if rapid.IntRange(0, 3).Draw(t, "open") > 0 { // else the hours are in the way of all
			req = open(req)
		}
		x := explored(t, req)
		if x.Plan().Outcome == season.Refused {
			t.Skip("refused")
		}
		for _, m := range x.Plan().Missed {
			if m.Session != "" {
				continue
			}
			ways, err := x.Obstacles(context.Background(), m)
			if err != nil {
				t.Fatalf("%v\n%s", err, shown(req))
			}
			misses++
			sizes[len(ways)]++
			if (len(ways) == 0) != asGoodWith(t, x, m) {
				t.Fatalf("in the way of %s of %s: %v\n%s", m.Aim, m.From, ways, shown(req))
			}
			if len(ways) == 0 {
				empty++
			}
			if len(ways) == 1 && ways[0].Rule == m.Aim {
				t.Fatalf("nothing is past, and yet nothing can be taken away for %s of %s\n%s", m.Aim, m.From, shown(req))
			}
			limits, seen := true, map[season.InTheWay]bool{}
			for _, y := range ways {
				r, ok := rule.Find(y.Rule)
				if !ok || seen[y] {
					t.Fatalf("in the way of %s of %s: %v\n%s", m.Aim, m.From, ways, shown(req))
				}
				seen[y] = true
				limits = limits && r.Kind == rule.Limit
			}
			if limits && len(ways) > 0 {
				other := rapid.SampledFrom(loosened).Draw(t, "other")
				next, ok := seasontestValid(req, other)
				for _, y := range ways {
					ok = ok && rule.Family(y.Rule) != rule.Family(other.Rule) && (y.Event == "" || !strings.HasPrefix(other.Rule, "buffer"))
				}
				if ok && runsAlike(req, next) {
					others++
					if y := explored(t, next); !missedIn(y, m) {
						t.Fatalf("%v alone is said to be in the way of %s of %s, and yet it is kept with %s relaxed\n%s", ways, m.Aim, m.From, other.Rule, shown(req))
					}
				}
			}
			if len(ways) != 1 || ways[0].Event != "" {
				continue
			}
			next, ok := without(req, ways[0].Rule)
			if !ok {
				continue
			}
			relaxed++
			y := explored(t, next)
			if !missedIn(y, m) {
				kept++
				continue
			}
			if _, same := y.missOf(m); !same {
				continue // the run is another one
			}
			again, err := y.Obstacles(context.Background(), m)
			if err != nil {
				t.Fatal(err)
			}
			for _, z := range again {
				if z == ways[0] {
					t.Fatalf("%v is still in the way of %s of %s without it\n%s", z, m.Aim, m.From, shown(req))
				}
			}
		}
	})
	t.Logf("%d misses, obstacles by number %v, %d with another limit relaxed, %d with it relaxed, then %d kept", misses, sizes, others, relaxed, kept)
	if !testing.Short() && (misses < 40 || empty == 0 || others < 10 || kept < 5) {
		t.Error("too few of a sort")
	}
}

// missedIn reports whether a plan misses an aim too: a run that is cut short and
// still too long counts, on whatever dates it begins and ends.
func missedIn(x *Exploration, m season.Missed) bool {
	if m.Aim == "empty-run" || m.Aim == "lift-run" {
		for _, y := range x.verdict.Misses {
			if y.Aim == m.Aim && y.From <= m.To.DayNumber() && m.From.DayNumber() <= y.To {
				return true
			}
		}
		return false
	}
	_, ok := x.missOf(m)
	return ok
}

// open is the request with all hours open.
func open(req *season.Request) *season.Request {
	out := *req
	out.Athlete.Hours = []season.Hours{{Days: []time.Weekday{0, 1, 2, 3, 4, 5, 6}, From: 0, To: calendar.EndOfDay}}
	out.Places = append([]season.Place(nil), req.Places...)
	for i := range out.Places {
		out.Places[i].Hours, out.Places[i].Closed = nil, nil
	}
	return &out
}

// runsAlike reports whether the aims of two requests ask for the same.
func runsAlike(a, b *season.Request) bool {
	var p Planner
	x, err1 := p.prepare(a)
	y, err2 := p.prepare(b)
	if err1 != nil || err2 != nil {
		return false
	}
	for i := range x.model.Days {
		if x.model.Days[i].Restricted != y.model.Days[i].Restricted || x.model.Days[i].PrimerFor != y.model.Days[i].PrimerFor {
			return false
		}
	}
	return true
}

// without is the request without one limit, if it can be switched off.
func without(req *season.Request, id string) (*season.Request, bool) {
	if id == "open-hours" {
		return open(req), true
	}
	return seasontestValid(req, disabled(id))
}

// asGoodWith reports whether a plan of the same points keeps an aim over dates.
func asGoodWith(t *rapid.T, x *Exploration, m season.Missed) bool {
	t.Helper()
	miss, ok := x.missOf(m)
	if !ok {
		return true
	}
	w := x.w
	first := w.model.Days[w.model.From].N
	s, err := w.stretch(miss.From-first, miss.To-first)
	if err != nil {
		t.Fatal(err)
	}
	which, _ := wantedKinds(m.Aim)
	table, err := layered.CompileRule(s.options, w.need(miss, s, which), w.settings())
	if err != nil {
		t.Fatal(err)
	}
	sol, err := s.solve(context.Background(), w.static[s.from:s.to+1], &table)
	if err != nil {
		t.Fatal(err)
	}
	return sol.Status != layered.Infeasible && pointsOf(sol.Cost) <= pointsOf(s.cost())
}

// Questions that have no answer say so.
func TestNoExploration(t *testing.T) {
	ctx := context.Background()
	req, err := season.ReadRequest(bytes.NewReader([]byte(weekRequest)))
	if err != nil {
		t.Fatal(err)
	}
	held := *req
	held.Athlete.Holds = []season.Hold{{From: seasontest.Date("2026-11-01")}}
	for name, x := range map[string]func() (*Exploration, error){
		"refused": func() (*Exploration, error) { p := Planner{}; return p.Explore(ctx, &held) },
		"bounded": func() (*Exploration, error) { p := Planner{MaxNodes: 1}; return p.Explore(ctx, req) },
	} {
		t.Run(name, func(t *testing.T) {
			x, err := x()
			if err != nil {
				t.Fatal(err)
			}
			if x.Plan() == nil {
				t.Fatal("no plan")
			}
			if _, err := x.OnDate(req.Period.From); !errors.Is(err, ErrNoExploration) {
				t.Error(err)
			}
			if _, err := x.Elsewhere(ctx, "x"); !errors.Is(err, ErrNoExploration) {
				t.Error(err)
			}
			if _, _, err := x.Different(ctx); !errors.Is(err, ErrNoExploration) {
				t.Error(err)
			}
			_, err = x.WhyNot(ctx, req.Period.From, season.Recovery, nil)
			if (name == "refused") != errors.Is(err, ErrNoExploration) || name == "bounded" && err != nil {
				t.Error(err)
			}
		})
	}
	p := Planner{}
	if _, err := p.Equals(ctx, &held); !errors.Is(err, ErrNoExploration) {
		t.Error(err)
	}
	x, err := p.Explore(ctx, req)
	if err != nil {
		t.Fatal(err)
	}
	late := calendar.Clock(25 * 3600)
	for name, f := range map[string]func() error{
		"date before": func() error { _, err := x.OnDate(req.Period.From.AddDays(-1)); return err },
		"date unset":  func() error { _, err := x.OnDate(calendar.Date{}); return err },
		"no session":  func() error { _, err := x.Elsewhere(ctx, "nobody"); return err },
		"no kind":     func() error { _, err := x.WhyNot(ctx, req.Period.From, "yoga", nil); return err },
		"no date":     func() error { _, err := x.WhyNot(ctx, calendar.Date{}, season.Primer, nil); return err },
		"no clock":    func() error { _, err := x.WhyNot(ctx, req.Period.From, season.Primer, &late); return err },
		"not missed":  func() error { _, err := x.Obstacles(ctx, season.Missed{Aim: "primer"}); return err },
		"no plan":     func() error { _, err := p.Evaluate(ctx, req, nil); return err },
		"odd sessions": func() error {
			_, err := p.Evaluate(ctx, req, &season.Plan{Sessions: make([]season.Session, 2)})
			return err
		},
	} {
		if f() == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

const weekRequest = `{"schema": 1, "period": {"from": "2026-11-09", "to": "2026-11-15"},
 "athlete": {"id": "a1", "born": "2001-03", "zone": "Europe/Amsterdam", "trainingAgeYears": 3, "hours": [{"days": ["mon", "tue", "wed", "thu", "fri", "sat", "sun"], "from": "16:00", "to": "20:00"}]},
 "places": [{"id": "gym"}, {"id": "hall"}],
 "events": [{"id": "g1", "kind": "game", "start": "2026-11-08T14:00", "end": "2026-11-08T15:40"},
  {"id": "g2", "kind": "game", "start": "2026-11-15T14:00", "end": "2026-11-15T15:40"}]}`

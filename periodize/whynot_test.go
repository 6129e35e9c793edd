package periodize

import (
	"context"
	"testing"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/internal/seasontest"
	"example.org/weft/internal/starts"
	"example.org/weft/periodize/rule"
	"example.org/weft/periodize/season"
	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

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
		if there, ok := x.w.model.At(&x.w.model.Days[date.DayNumber()-x.w.model.First], 0, at); !ok || !starts.Instant(there).Equal(req.Athlete.Zone.Resolve(calendar.Wall{Date: date, Clock: at}).Instant) {
			t.Skip("on a journey, by another clock")
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
		day := &m.Days[m.From+l] // by the athlete's clock
		for s := starts.Instant(day.From); s.Before(starts.Instant(day.To)); s = s.Add(15 * time.Minute) {
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

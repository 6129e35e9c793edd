package periodize

import (
	"context"
	"fmt"
	"testing"

	"example.org/weft/calendar"
	"example.org/weft/internal/judge"
	"example.org/weft/internal/layered"
	"example.org/weft/internal/seasontest"
	"example.org/weft/internal/starts"
	"example.org/weft/periodize/season"
	"pgregory.net/rapid"
)

// best is what all plans of a season say together.
type best struct {
	broken, points int64
	optima, plans  int64
}

// eachPlan judges each combination of the options of all dates from the
// definitions. Plans that a session breaks which nobody forced do not count. The
// options are the caller's until it returns.
func eachPlan(t *rapid.T, m *starts.Model, see func(options []int, v judge.Verdict)) (plans int64) {
	t.Helper()
	p := parameters(m.Set)
	options := make([]int, len(m.Choices))
	for {
		v, err := judge.Judge(judgeInput(m, slotsOf(m, options)), p)
		if err != nil {
			t.Fatal(err)
		}
		judgeCustom(m, slotsOf(m, options), &v)
		plans++
		if len(v.Illegal) == 0 {
			see(options, v)
		}
		i := 0
		for ; i < len(options); i++ {
			if options[i]++; options[i] < len(m.Choices[i].Options) {
				break
			}
			options[i] = 0
		}
		if i == len(options) {
			return plans
		}
	}
}

// everyPlan keeps the best of all plans.
func everyPlan(t *rapid.T, m *starts.Model) best {
	t.Helper()
	out := best{broken: 1 << 62}
	out.plans = eachPlan(t, m, func(_ []int, v judge.Verdict) {
		switch {
		case v.Broken == out.broken && v.Points == out.points:
			out.optima++
		case v.Broken < out.broken || v.Broken == out.broken && v.Points < out.points:
			out.broken, out.points, out.optima = v.Broken, v.Points, 1
		}
	})
	return out
}

// short are the options of a season of few plans.
func short(t *rapid.T, least int) seasontest.Options {
	o := seasontest.Options{MinDates: least, MaxDates: 9, Plain: random.Plain, Tight: rapid.Bool().Draw(t, "tight")}
	if rapid.IntRange(0, 3).Draw(t, "long") == 3 { // breaks are long
		o.MinDates, o.MaxDates, o.Tight = 10, 18, true
	}
	return o
}

func slotsOf(m *starts.Model, options []int) []starts.Slot {
	var out []starts.Slot
	for i, o := range options {
		for _, s := range m.Choices[i].Options[o] {
			out = append(out, m.Choices[i].Slots[s])
		}
	}
	return out
}

func product(m *starts.Model) int64 {
	n := int64(1)
	for i := range m.Choices {
		if n *= int64(len(m.Choices[i].Options)); n > 1<<40 {
			return n
		}
	}
	return n
}

// narrowed closes the dates with the most options until at most so many plans
// are left. ok is false if no closing helps.
func narrowed(t *rapid.T, req *season.Request, most int64) (*work, bool) {
	t.Helper()
	out := *req
	if len(out.Places) == 0 {
		out.Places = []season.Place{{ID: "gym"}}
	}
	shut := map[int]bool{}
	for {
		var p Planner
		w, err := p.prepare(&out)
		if err != nil {
			t.Fatalf("%v\n%s", err, shown(&out))
		}
		if product(w.model) <= most {
			return w, true
		}
		widest := -1
		for i := range w.model.Choices {
			if !shut[i] && (widest < 0 || len(w.model.Choices[i].Options) > len(w.model.Choices[widest].Options)) {
				widest = i
			}
		}
		if widest < 0 {
			return nil, false
		}
		shut[widest] = true
		date := out.Period.From.AddDays(widest)
		places := append([]season.Place(nil), out.Places...)
		for i := range places {
			places[i].Closed = append(append([]season.Period(nil), places[i].Closed...), season.Period{From: date, To: date})
		}
		out.Places = places
	}
}

// The engine finds the optimum of all plans, as the judge sees them.
func TestEveryPlan(t *testing.T) {
	var plans, twice, forced, seasons int64
	onSeasons(t, 200, func(t *rapid.T) {
		o := short(t, 1)
		req := seasontest.Request(t, o)
		if rapid.Bool().Draw(t, "later") {
			plan := planOf(t, req)
			if next, ok := seasontest.Later(t, o, req, plan, true); ok {
				req = next
			}
		}
		most := rapid.SampledFrom([]int64{100, 400, 1000, 20000}).Draw(t, "most")
		if most == 20000 && rapid.IntRange(0, 9).Draw(t, "large") > 0 {
			most = 300
		}
		w, ok := narrowed(t, req, most)
		if !ok {
			t.Skip("too many plans")
		}
		if w.refused() {
			t.Skip("refused")
		}
		if err := w.compile(); err != nil {
			t.Fatalf("%v\n%s", err, shown(&w.req))
		}
		s, err := w.compiled.Solve(context.Background(), w.static, w.settings())
		if err != nil {
			t.Fatalf("%v\n%s", err, shown(&w.req))
		}
		want := everyPlan(t, w.model)
		if s.Status != layered.Proved {
			t.Fatalf("status %d, of %d plans the best has %d broken, %d points\n%s", s.Status, want.plans, want.broken, want.points, shown(&w.req))
		}
		got := best{plans: want.plans}
		got.broken, got.points = split(s.Cost)
		w.model.NoTies = true // points alone decide
		if err := w.compile(); err != nil {
			t.Fatal(err)
		}
		g, err := w.compiled.Explore(context.Background(), w.static, w.settings())
		if err != nil {
			t.Fatal(err)
		}
		got.optima = int64(g.Count())
		if got != want {
			t.Fatalf("engine %+v, every plan %+v\nsessions %s\nrequest %s", got, want, sketch(w.chosen(s.Options)), shown(&w.req))
		}
		seasons++
		plans += want.plans
		if w.model.HasIssued {
			twice++
		}
		if want.broken > 0 {
			forced++
		}
	})
	t.Logf("%d seasons, %d plans judged, %d seasons with an issued plan, %d with limits broken by pins or the past", seasons, plans, twice, forced)
	if !testing.Short() && (seasons < 100 || twice < 20 || forced < 10 && !random.Plain) {
		t.Errorf("too few seasons of a sort: %d, %d, %d", seasons, twice, forced)
	}
}

// sketch is one word a session, for messages.
func sketch(slots []starts.Slot) string {
	out := ""
	for _, s := range slots {
		out += fmt.Sprintf("%s %02d:%02d %s; ", calendar.DateFromDayNumber(s.Day), s.StartClock/60, s.StartClock%60, s.Kind)
	}
	return out
}

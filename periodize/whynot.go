package periodize

import (
	"context"
	"fmt"
	"sort"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/internal/judge"
	"example.org/weft/internal/layered"
	"example.org/weft/internal/starts"
	"example.org/weft/periodize/rule"
	"example.org/weft/periodize/season"
)

// Answer says why a session is not in the plan.
type Answer struct {
	Planned  bool              // it is in the plan
	Possible bool              // some plan has it and breaks no further limit; else Limits says what forbids it
	Limits   []season.InTheWay // limits it would break; empty too if its time is over
	Price    int64             // points the best plan with it costs more
	Costs    []season.RuleCost // by rule
	Start    time.Time         // where it would stand; zero if it has no start at all
	End      time.Time
	Text     string
}

// WhyNot says why the plan has no session of a kind on a date: the limits that
// forbid it, or what it would cost. Without a start the best one is taken, and
// the limits are those that any sensible start breaks. With a start the session
// has its usual length, or the longest that breaks no limit by itself, at the
// place where it breaks fewest.
//
// What is pinned on the date is taken away first, so that the price can be less
// than nothing. It is exact if the plan is proved, else the difference of the
// best plans found.
func (x *Exploration) WhyNot(ctx context.Context, date calendar.Date, kind season.Kind, start *calendar.Clock) (*Answer, error) {
	w := x.w
	if x.plan.Outcome == season.Refused {
		return nil, ErrNoExploration
	}
	l, ok := w.layer(date.DayNumber())
	if !ok || date.IsZero() {
		return nil, dateError(date, w.model.Period)
	}
	if !kind.Known() {
		return nil, fmt.Errorf("periodize: %q is no kind of session; the kinds are %v", kind, season.Kinds())
	}
	if start != nil && (*start < 0 || *start >= calendar.EndOfDay) {
		return nil, fmt.Errorf("periodize: %d is no start of a session: give a time of day before 24:00", *start)
	}
	c := &w.model.Choices[l]
	for _, y := range c.Options[w.solution.Options[l]] {
		s := &c.Slots[y]
		if s.Kind == kind && (start == nil || s.StartClock == int(*start)/60) {
			return &Answer{Planned: true, Possible: true, Limits: []season.InTheWay{}, Start: w.model.Time(s.From), End: w.model.Time(s.To), Text: "it is in the plan"}, nil
		}
	}
	w, base, err := x.unpinned(ctx, date)
	if err != nil {
		return nil, err
	}
	c = &w.model.Choices[l]
	var found []int
	for y := range c.Slots {
		if s := &c.Slots[y]; !s.Forced && s.Kind == kind && (start == nil || s.StartClock == int(*start)/60) {
			found = append(found, y)
		}
	}
	switch {
	case len(found) > 0:
		return x.chosenAt(ctx, w, base, l, found)
	case start != nil:
		s := w.slotAt(date, kind, *start)
		if s.From < w.model.Now {
			return &Answer{Limits: []season.InTheWay{}, Text: "it would start before now"}, nil
		}
		return x.forced(ctx, w, base, l, s)
	}
	return w.blocked(l, kind), nil
}

// unpinned is the work without what is pinned on a date, and what its best plan
// breaks; the same as the plan's if nothing is pinned.
func (x *Exploration) unpinned(ctx context.Context, date calendar.Date) (*work, judge.Verdict, error) {
	req := x.w.req
	req.Pins = nil
	for _, p := range x.w.req.Pins {
		if p.Date != date {
			req.Pins = append(req.Pins, p)
		}
	}
	if len(req.Pins) == len(x.w.req.Pins) {
		return x.w, x.verdict, nil
	}
	w, err := x.w.planner.prepare(&req)
	if err != nil {
		return nil, judge.Verdict{}, err
	}
	if err := w.solve(ctx); err != nil {
		return nil, judge.Verdict{}, err
	}
	v, err := verdictOf(w.model, w.slots)
	if err != nil {
		return nil, v, &FaultError{err.Error()}
	}
	return w, v, nil
}

// blocked says what forbids every sensible start of a kind on a date.
func (w *work) blocked(l int, kind season.Kind) *Answer {
	a := &Answer{Limits: []season.InTheWay{}}
	d := &w.model.Days[w.model.From+l]
	switch ways := w.model.Choices[l].Blocked[kind]; {
	case d.To <= w.model.Now:
		a.Text = "the date is past"
		return a
	case kind == season.PostGame && (len(d.Games) == 0 || !w.model.Athlete.OptedIn(season.OptPostGame)):
		a.Limits = append(a.Limits, season.InTheWay{Rule: "post-game"})
	default:
		for _, b := range ways {
			a.Limits = append(a.Limits, w.way(b.Rule, b.Event))
		}
	}
	sortInWay(a.Limits)
	a.Text = "forbidden: " + waysText(a.Limits)
	if len(a.Limits) == 0 {
		a.Text = "no time is left on the date"
	}
	return a
}

// slotAt is a session at a start: of all places and lengths the one that breaks
// the fewest limits by itself, the first place and the greatest length of equals.
func (w *work) slotAt(date calendar.Date, kind season.Kind, start calendar.Clock) starts.Slot {
	m := w.model
	var best starts.Slot
	for i, place := range m.PlaceIDs {
		at, _ := m.At(&m.Days[date.DayNumber()-m.First], i, start)
		from := starts.Instant(at)
		for n := m.Usual(kind); n >= min(20, m.Usual(kind)); n -= 5 {
			s := m.SlotOf(&season.Session{Kind: kind, Start: from, End: from.Add(time.Duration(n) * time.Minute), Place: place})
			s.Breaches = m.BreachesAt(&s)
			if best.To == 0 || len(s.Breaches) < len(best.Breaches) {
				best = s
			}
		}
	}
	return best
}

// chosenAt prices the best plan with one of some candidates of a date. If what is
// fixed allows none of them, the cheapest is forced, to see what it breaks.
func (x *Exploration) chosenAt(ctx context.Context, w *work, base judge.Verdict, l int, slots []int) (*Answer, error) {
	c := &w.model.Choices[l]
	is := map[int]bool{}
	for _, y := range slots {
		is[y] = true
	}
	static := append([][]int64(nil), w.static...)
	row := make([]int64, len(static[l]))
	any := false
	for o := range row {
		row[o] = layered.Inf
		for _, y := range c.Options[o] {
			if is[y] {
				row[o], any = static[l][o], true
			}
		}
	}
	static[l] = row
	if any {
		s, err := w.compiled.Solve(ctx, static, w.settings())
		if err != nil {
			return nil, engineError(err)
		}
		if s.Status != layered.Infeasible {
			for _, y := range c.Options[s.Options[l]] {
				if is[y] {
					return x.answer(w, base, w.chosen(s.Options), &c.Slots[y])
				}
			}
		}
	}
	best := slots[0]
	for _, y := range slots {
		if c.Slots[y].Points() < c.Slots[best].Points() {
			best = y
		}
	}
	return x.forced(ctx, w, base, l, c.Slots[best])
}

// forced plans once more with a session that stands whatever it breaks.
func (x *Exploration) forced(ctx context.Context, w *work, base judge.Verdict, l int, s starts.Slot) (*Answer, error) {
	s.Forced, s.Pinned, s.ID = true, true, ""
	m := *w.model
	m.Choices = append([]starts.Choices(nil), m.Choices...)
	c := &m.Choices[l]
	slots := append([]starts.Slot{s}, c.Slots...)
	starts.SortSlots(slots)
	var fixed, free []int
	for i := range slots {
		if slots[i].Forced {
			fixed = append(fixed, i)
		} else {
			free = append(free, i)
		}
	}
	c.Slots, c.Options = slots, nil
	for _, y := range free {
		option := append(append([]int(nil), fixed...), y)
		sort.Ints(option)
		if fits(&m, l, option) {
			c.Options = append(c.Options, option)
		}
	}
	c.Options = append(c.Options, fixed)
	with := &work{planner: w.planner, req: w.req, set: w.set, model: &m, reference: w.reference}
	if err := with.solve(ctx); err != nil {
		return nil, err
	}
	return x.answer(with, base, with.slots, &s)
}

// fits reports whether the sessions of an option may stand on one date.
func fits(m *starts.Model, l int, option []int) bool {
	c := &m.Choices[l]
	most := m.Set.Value("sessions-a-date")
	if m.Days[m.From+l].Break {
		most = m.Set.Value("sessions-a-date-break")
	}
	apart := int64(m.Set.Value("sessions-apart")) * 60
	lifts := 0
	for i, y := range option {
		s := &c.Slots[y]
		if s.Kind.Lift() {
			lifts++
		}
		if i > 0 && s.From-c.Slots[option[i-1]].To < apart {
			return false
		}
	}
	return len(option) <= most && lifts <= m.Set.Value("lifts-a-date")
}

// answer compares sessions that hold s with the plan; base is what is broken
// without s.
func (x *Exploration) answer(w *work, base judge.Verdict, slots []starts.Slot, s *starts.Slot) (*Answer, error) {
	v, err := verdictOf(w.model, slots)
	if err != nil {
		return nil, &FaultError{err.Error()}
	}
	a := &Answer{Limits: []season.InTheWay{}, Start: w.model.Time(s.From), End: w.model.Time(s.To)}
	static := map[string]bool{}
	seen := map[season.InTheWay]bool{}
	add := func(y season.InTheWay) {
		if !seen[y] {
			seen[y] = true
			a.Limits = append(a.Limits, y)
		}
	}
	for _, b := range s.Breaches { // the rows, where the judge knows the family
		static[rule.Family(b.Rule)] = true
		add(w.way(b.Rule, b.Event))
	}
	for _, b := range newBreaches(base, v) {
		if !static[b.Rule] {
			add(w.way(b.Rule, b.Event))
		}
	}
	sortInWay(a.Limits)
	if len(a.Limits) > 0 {
		a.Text = "forbidden: " + waysText(a.Limits)
		return a, nil
	}
	a.Possible = true
	a.Price = v.Points - x.verdict.Points
	a.Costs = difference(x.verdict, v)
	a.Text = inWords(a.Price, a.Costs)
	return a, nil
}

// newBreaches returns those breaches of b that are more than a has of the rule.
func newBreaches(a, b judge.Verdict) []judge.Breach {
	left := map[string]int{}
	for _, x := range a.Breaches {
		left[x.Rule]++
	}
	var out []judge.Breach
	for _, x := range b.Breaches {
		if left[x.Rule] > 0 {
			left[x.Rule]--
			continue
		}
		out = append(out, x)
	}
	return out
}

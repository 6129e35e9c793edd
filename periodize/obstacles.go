package periodize

import (
	"context"
	"errors"

	"example.org/weft/internal/history"
	"example.org/weft/internal/judge"
	"example.org/weft/internal/layered"
	"example.org/weft/internal/starts"
	"example.org/weft/periodize/rule"
	"example.org/weft/periodize/season"
)

// mostObstacles bounds the work of one question: each obstacle is tried once and
// verified once, by a small solve.
const mostObstacles = 240

// obstacle is one thing that may stand in the way: a limit with the event it
// protects, a limit over days, or an aim that is dearer.
type obstacle struct {
	way    season.InTheWay
	static *starts.Breach // a limit on single sessions
	rule   string         // a limit over days, by family, or an aim
}

// Obstacles returns a smallest set of rules and events that together stand in
// the way of a missed aim: if on the dates around it only these counted, the aim
// would still be missed, and if any one of them did not count either, it would be
// kept. Where two things forbid it each by itself, one of them is the answer, the
// same every time: taking that one away shows the other. The choices of the plan
// more than ten dates away stay as they are.
//
// Nothing stands in the way, and the answer is empty, if a plan with as few points
// keeps the aim. The aim itself is the answer where nothing that can be taken away
// stands in its way: its dates are past, or fixed. Where too much does to be tried,
// more than 240 things, the answer is that of Missed.
//
// It is for aims over dates; what made a single session less convenient is named
// in Missed already, and returned as it is.
func (x *Exploration) Obstacles(ctx context.Context, m season.Missed) ([]season.InTheWay, error) {
	if x.plan.Outcome == season.Refused {
		return nil, ErrNoExploration
	}
	if m.Session != "" {
		return m.InTheWay, nil
	}
	w := x.w
	miss, ok := x.missOf(m)
	if !ok {
		return nil, errors.New("periodize: the plan does not miss this aim")
	}
	first := w.model.Days[w.model.From].N
	from, to := miss.From-first, miss.To-first
	which, _ := wantedKinds(miss.Aim)
	w.mu.Lock()
	defer w.mu.Unlock()
	base, err := w.stretch(from, to)
	if err != nil {
		return nil, err
	}
	t := &trial{ctx: ctx, w: w, base: base, miss: miss, which: which}
	all := t.candidates(from, to)
	if missed, err := t.missed(all, all); err != nil || !missed {
		return []season.InTheWay{}, err
	}
	// One limit can hide another: look again without those that are known.
	for {
		missed, err := t.missed(all, nil)
		if err != nil {
			return nil, err
		}
		if !missed {
			break
		}
		more, err := t.hidden(all, from, to)
		if err != nil {
			return nil, err
		}
		if len(more) == 0 {
			return []season.InTheWay{{Rule: miss.Aim}}, nil
		}
		all = append(more, all...)
	}
	if len(all) > mostObstacles {
		return m.InTheWay, nil
	}
	kept := all
	for i := 0; i < len(kept); {
		without := append(append([]obstacle(nil), kept[:i]...), kept[i+1:]...)
		missed, err := t.missed(all, without)
		if err != nil {
			return nil, err
		}
		if missed {
			kept = without
		} else {
			i++
		}
	}
	out := []season.InTheWay{}
	for _, o := range kept {
		out = append(out, o.way)
	}
	sortInWay(out)
	return out, nil
}

// missOf finds the judge's miss behind a missed aim of the plan.
func (x *Exploration) missOf(m season.Missed) (judge.Miss, bool) {
	for _, y := range joinRuns(x.verdict.Misses) {
		if y.Aim == m.Aim && y.From == m.From.DayNumber() && y.To == m.To.DayNumber() {
			return y, true
		}
	}
	return judge.Miss{}, false
}

// trial asks whether an aim would still be missed if only some obstacles stood.
type trial struct {
	ctx   context.Context
	w     *work
	base  *stretch
	miss  judge.Miss
	which func(season.Kind) bool
}

// candidates lists what may stand in the way between two layers, in a fixed
// order: limits on single sessions first, then limits over days, then aims. Those
// that bound the starts of a date come before all, so that a smallest set has them
// only if it needs them: no start that was tried shows them.
func (t *trial) candidates(from, to int) []obstacle {
	w := t.w
	var out []obstacle
	seen := map[season.InTheWay]bool{}
	add := func(o obstacle) {
		if !seen[o.way] {
			seen[o.way] = true
			out = append(out, o)
		}
	}
	for l := from; l <= to; l++ {
		for _, b := range w.model.Bounds(w.model.From + l) {
			b := b
			add(obstacle{way: w.way(b.Rule, b.Event), static: &b})
		}
	}
	for _, o := range t.blocked(w.model, from, to) {
		add(o)
	}
	for _, n := range w.rules {
		// Also those that forbid nothing yet: they may once others are gone.
		if limits(n) {
			f := rule.Family(n.IDs[0])
			add(obstacle{way: season.InTheWay{Rule: f}, rule: f})
		}
	}
	for _, r := range rule.Table() {
		if r.Kind == rule.Aim && r.ID != t.miss.Aim && w.set.Points(r.ID) > 0 {
			add(obstacle{way: season.InTheWay{Rule: r.ID}, rule: r.ID})
		}
	}
	return out
}

// blocked lists the limits that forbid single sessions of the wanted kinds.
func (t *trial) blocked(m *starts.Model, from, to int) []obstacle {
	var out []obstacle
	for l := from; l <= to; l++ {
		for _, k := range season.Kinds() {
			if !t.which(k) {
				continue
			}
			for _, b := range m.Choices[l].Blocked[k] {
				b := b
				out = append(out, obstacle{way: t.w.way(b.Rule, b.Event), static: &b})
			}
		}
	}
	return out
}

// hidden lists the limits on single sessions that show once all others are gone.
func (t *trial) hidden(all []obstacle, from, to int) ([]obstacle, error) {
	m, _, err := t.relaxed(all, nil)
	if err != nil {
		return nil, err
	}
	seen := map[season.InTheWay]bool{}
	for _, o := range all {
		seen[o.way] = true
	}
	var out []obstacle
	for _, o := range t.blocked(m, from, to) {
		if !seen[o.way] {
			seen[o.way] = true
			out = append(out, o)
		}
	}
	return out, nil
}

// missed reports whether the aim is missed by every best plan of the stretch if
// of all obstacles only some stand.
func (t *trial) missed(all, standing []obstacle) (bool, error) {
	m, gone, err := t.relaxed(all, standing)
	if err != nil {
		return false, err
	}
	s := &stretch{w: t.w, from: t.base.from, to: t.base.to, model: m}
	static := m.Static()[s.from : s.to+1]
	var named []history.Named
	for _, n := range append(history.Rules(m), memories(m)...) {
		if !gone[rule.Family(n.IDs[0])] || !limits(n) {
			named = append(named, n)
		}
	}
	if err := s.cut(named); err != nil {
		return false, err
	}
	free, err := s.solve(t.ctx, static, nil)
	if err != nil {
		return false, err
	}
	n, err := layered.CompileRule(s.options, t.w.need(t.miss, s, t.which), t.w.settings())
	if err != nil {
		return false, &FaultError{err.Error()}
	}
	kept, err := s.solve(t.ctx, static, &n)
	if err != nil {
		return false, err
	}
	return kept.Status == layered.Infeasible || pointsOf(kept.Cost) > pointsOf(free.Cost), nil
}

// relaxed is the model of the stretch if of all obstacles only some stand, and
// the limits over days that do not.
func (t *trial) relaxed(all, standing []obstacle) (*starts.Model, map[string]bool, error) {
	stands := map[season.InTheWay]bool{}
	for _, o := range standing {
		stands[o.way] = true
	}
	ignore := map[starts.Breach]bool{}
	var off []string
	gone := map[string]bool{}
	for _, o := range all {
		if stands[o.way] {
			continue
		}
		if o.static != nil {
			ignore[*o.static] = true
		} else {
			off = append(off, o.rule)
			gone[o.rule] = true
		}
	}
	newest, reference := issued(&t.w.req)
	m, problems := starts.BuildPart(&t.w.req, t.w.set.Without(off...), newest, reference,
		starts.Part{From: t.base.from, To: t.base.to, Ignore: ignore, Custom: t.w.custom, Slots: timesOf(t.w.planner.Slots)})
	if len(problems) > 0 {
		return nil, nil, &FaultError{problems[0].Error()}
	}
	return m, gone, nil
}

package squad

import (
	"context"
	"errors"
	"math"
	"slices"
	"sync"
	"sync/atomic"

	"example.org/weft/calendar"
	"example.org/weft/internal/columns"
	"example.org/weft/internal/layered"
	"example.org/weft/internal/starts"
	"example.org/weft/periodize"
	"example.org/weft/periodize/season"
)

// Schema is the version of the plan's format, Engine is raised when the same
// request may give another plan.
const (
	Schema = 1
	Engine = 2
)

// Planner plans squads. The zero value is ready; it holds no state and is safe
// for concurrent use.
type Planner struct {
	// Workers is how many athletes are planned at the same time; 0 is 1. It
	// changes no plan.
	Workers int
	// MaxNodes bounds the counted work of one athlete's solve, see
	// periodize.Planner.
	MaxNodes int64
	// Nodes bounds the search for the squad; 0 is DefaultNodes, or ReplanNodes where a
	// plan was issued. A plan that needs more is returned with proof "bounded" and its
	// gap.
	Nodes int
	// Progress is told how far the search is; nil says nothing. It is called from
	// one goroutine at a time.
	Progress func(Progress)
}

// The size of the search if none is given. Whether one person fewer could be moved is
// seldom proved by more nodes, and those who wait for the change are many.
const (
	DefaultNodes = 60
	ReplanNodes  = 20
)

// Progress says how far a plan is. Points and Bound are those of the search, 0
// while there are none.
type Progress struct {
	Rounds, Nodes int
	Points, Bound int64
	Done          int // athletes whose plans are written
}

// Plan plans a squad. The error is a *season.InputError for a request that cannot
// be planned, the context's error if it was cancelled, or a
// *periodize.FaultError. That a hall is full is not an error: who is left out, and
// what it costs, is part of the plan.
func (p *Planner) Plan(ctx context.Context, req *Request) (*Plan, error) {
	w, err := p.prepare(ctx, req)
	if err != nil {
		return nil, err
	}
	if err := w.search(ctx); err != nil {
		return nil, err
	}
	return w.write(ctx)
}

// work is a squad on its way to a plan.
type work struct {
	planner *Planner
	req     *Request
	notes   []calendar.Problem
	grid    *grid
	members []*member
	limits  []int64
	coached bool             // rows count coaches, besides those that count athletes
	alone   []columns.Column // the best plan of each with the halls alone
	result  *columns.Result
	prices  []int64 // of the rows, in units of cost
	forced  []int64 // sessions in each slot that nobody can move
}

func (p *Planner) prepare(ctx context.Context, req *Request) (*work, error) {
	if req == nil {
		return nil, &season.InputError{Problems: []calendar.Problem{{Code: CodeMissing, Class: calendar.ClassError,
			Reason: "there is no request", Remedy: "pass a request"}}}
	}
	w := &work{planner: p}
	var bad []calendar.Problem
	for _, x := range req.Validate() {
		if x.Class == calendar.ClassError || x.Class == calendar.ClassRefusal {
			bad = append(bad, x)
		} else {
			w.notes = append(w.notes, x)
		}
	}
	if len(bad) > 0 {
		return nil, &season.InputError{Problems: bad}
	}
	req = req.canonical()
	w.req = req
	minors := slices.ContainsFunc(req.Athletes, func(a Athlete) bool { return req.age(&a) < 18 })
	w.grid = newGrid(req, req.Athletes[0].Season.Athlete.Zone, minors)
	if n := len(w.grid.slots); n > MaxSlots {
		return nil, &season.InputError{Problems: []calendar.Problem{{Code: CodeLimit, Class: calendar.ClassError, Path: "/halls",
			Reason: "the halls have more slots than can be planned", Remedy: "plan fewer dates, or cut longer slots"}}}
	}
	w.members = make([]*member, len(req.Athletes))
	err := w.each(ctx, func(i int) error {
		m, err := join(req, &req.Athletes[i], w.grid, p.MaxNodes)
		w.members[i] = m
		return err
	})
	if err != nil {
		return nil, err
	}
	return w, w.lay(ctx)
}

// each does something for every athlete, several at the same time. The error of
// the first of them counts, in the order of the request.
func (w *work) each(ctx context.Context, do func(i int) error) error {
	errs := make([]error, len(w.members))
	var next atomic.Int64
	var wg sync.WaitGroup
	for range min(max(w.planner.Workers, 1), len(errs)) {
		wg.Add(1)
		go func() {
			defer wg.Done()
			for {
				i := int(next.Add(1)) - 1
				if i >= len(errs) {
					return
				}
				if errs[i] = ctx.Err(); errs[i] == nil {
					errs[i] = do(i)
				}
			}
		}()
	}
	wg.Wait()
	return errors.Join(errs...)
}

// lay finds the limits of the rows, the line, the ties, and what each athlete
// would do with the halls alone.
func (w *work) lay(ctx context.Context) error {
	standings := make([]standing, len(w.members))
	if err := w.each(ctx, func(i int) error {
		m := w.members[i]
		m.number = i
		standings[i] = standingOf(m.athlete, m.ready.Model)
		if !m.ready.Refused {
			m.lay(w.req, w.grid)
		}
		return nil
	}); err != nil {
		return err
	}
	for i, place := range lineOf(standings) {
		w.members[i].line = place
	}
	w.rows()
	t := newTies(w.members)
	w.alone = make([]columns.Column, len(w.members))
	return w.each(ctx, func(i int) error {
		m := w.members[i]
		if m.ready.Refused {
			return nil
		}
		m.tie(t)
		a, err := m.ask(ctx, make([]int64, len(w.limits)), nil, w.settings())
		if err != nil {
			return engineError(err)
		}
		if a.None {
			return &periodize.FaultError{What: "no plan at all, though resting is always possible"}
		}
		m.settle(a.Columns[0].Cost / starts.Broken)
		if err := m.hold(ctx, w.req, w.settings()); err != nil {
			return engineError(err)
		}
		w.alone[i] = m.weigh(m.answer, make([]int64, len(w.limits)), nil).Columns[0]
		return nil
	})
}

// settle takes out of the costs what is broken whatever is chosen.
func (m *member) settle(broken int64) {
	m.broken = broken
	m.answer.Bound -= broken * starts.Broken
	m.answer.Columns[0].Cost -= broken * starts.Broken
}

func (w *work) settings() layered.Settings { return layered.Settings{MaxNodes: w.planner.MaxNodes} }

// rows finds what each slot allows: so many athletes and, where they are not all
// of one ratio, so many shares of a coach. A share is 1 over the ratio; the row
// counts in parts that make every share whole.
func (w *work) rows() {
	slots := w.grid.slots
	w.forced = make([]int64, len(slots))
	same, parts := true, int64(1)
	for _, m := range w.members {
		for _, s := range m.fixed {
			w.forced[s]++
		}
		same = same && m.ratio == w.members[0].ratio
		parts = min(lcm(parts, int64(m.ratio)), mostParts)
	}
	watched := slices.ContainsFunc(slots, func(s slot) bool { return s.coaches >= 0 })
	w.coached = watched && !same
	w.limits = make([]int64, len(slots))
	for i, s := range slots {
		w.limits[i] = int64(s.places) - w.forced[i]
		if watched && same {
			w.limits[i] = min(int64(s.places), int64(s.coaches*w.members[0].ratio)) - w.forced[i]
		}
		w.limits[i] = max(w.limits[i], 0)
	}
	if !w.coached {
		return
	}
	for _, s := range slots {
		w.limits = append(w.limits, parts*int64(s.coaches))
	}
	for _, m := range w.members {
		m.weight = (parts + int64(m.ratio) - 1) / int64(m.ratio)
		for _, s := range m.fixed {
			at := len(slots) + s
			w.limits[at] = max(0, w.limits[at]-m.weight)
		}
	}
}

// binding are the limits without those that others imply: where so few fit by places
// that the coaches can watch any of them, or the other way round.
func (w *work) binding() []int64 {
	out := slices.Clone(w.limits)
	if !w.coached {
		return out
	}
	light, heavy := int64(math.MaxInt64), int64(0)
	for _, m := range w.members {
		light, heavy = min(light, m.weight), max(heavy, m.weight)
	}
	n := len(w.grid.slots)
	for i := range n {
		switch places, watched := w.limits[i], w.limits[n+i]; {
		case places*heavy <= watched:
			out[n+i] = columns.NoLimit
		case watched/light <= places:
			out[i] = columns.NoLimit
		}
	}
	return out
}

// mostParts is how finely a coach is divided; shares that do not come out whole
// are rounded up.
const mostParts = 1_000_000

func lcm(a, b int64) int64 {
	x, y := a, b
	for y != 0 {
		x, y = y, x%y
	}
	return a / x * b
}

// engineError tells cancelling from faults.
func engineError(err error) error {
	if errors.Is(err, context.Canceled) || errors.Is(err, context.DeadlineExceeded) {
		return err
	}
	return &periodize.FaultError{What: err.Error()}
}

package whatif

import (
	"context"
	"errors"
	"fmt"
	"iter"
	"runtime"
	"sync"

	"example.org/weft/calendar"
	"example.org/weft/periodize"
	"example.org/weft/periodize/season"
)

// Variant is a named change to a base request. Without a name it is called by
// what it does.
type Variant struct {
	Name   string
	Change Change // nil changes nothing
}

func (v Variant) name() string {
	switch {
	case v.Name != "":
		return v.Name
	case v.Change != nil:
		return v.Change.String()
	}
	return "nothing"
}

// Sweep plans a request and variants of it. The zero value is ready. It is safe
// for concurrent use.
type Sweep struct {
	// Planner makes the plans; nil is one that leaves out what stood in the way of
	// missed aims.
	Planner *periodize.Planner
	// Workers is how many plans are made at the same time; 0 is one for each
	// processor that may be used. It changes no result.
	Workers int
	// Issued plans each variant as a change to the base plan: what was planned
	// there stays where it costs little. Otherwise each is planned from scratch.
	Issued bool
	// Kept asks for the edges of an athlete's qualities in each row; nil leaves
	// them out.
	Kept *Kept
	// Progress, if not nil, is called after each result, before it is handed on,
	// and by one goroutine only.
	Progress func(Progress)
}

// Progress says how far a sweep is.
type Progress struct {
	Done   int    // results so far, the base included
	Failed int    // of these, without a plan
	Name   string // of the last one
}

// Result is the plan of a variant. Index 0 is the base, named "base".
type Result struct {
	Index   int
	Name    string
	Touched Touched
	Plan    *season.Plan
	Row     Row
}

// VariantError says that one variant has no plan; the sweep goes on.
type VariantError struct {
	Index int
	Name  string
	Err   error
}

// Error names the variant and what is wrong.
func (e *VariantError) Error() string {
	return fmt.Sprintf("whatif: %s: %v", calendar.Inert(e.Name), e.Err)
}

// Unwrap returns the error of the change or of the planner.
func (e *VariantError) Unwrap() error { return e.Err }

// baseName is what the base is called.
const baseName = "base"

func (s *Sweep) planner() *periodize.Planner {
	if s.Planner != nil {
		return s.Planner.Reuse()
	}
	return (&periodize.Planner{Brief: true}).Reuse()
}

func (s *Sweep) workers() int {
	if s.Workers > 0 {
		return min(s.Workers, 1024)
	}
	return runtime.GOMAXPROCS(0)
}

// Run plans the base and then each variant, and yields the results in that
// order. Not more than two variants a worker are held at a time.
//
// A variant that cannot be planned yields a result without a plan and a
// [VariantError], and the sweep goes on. Any other error, that of the base or of
// the context, is the last thing yielded. If the loop ends early, so does the
// planning.
func (s *Sweep) Run(ctx context.Context, base *season.Request, variants iter.Seq[Variant]) iter.Seq2[Result, error] {
	return func(yield func(Result, error) bool) {
		s.run(ctx, base, variants, yield)
	}
}

func (s *Sweep) run(ctx context.Context, base *season.Request, variants iter.Seq[Variant], yield func(Result, error) bool) {
	planner := s.planner()
	first := Result{Name: baseName, Touched: Touched{}.settled()}
	plan, err := planner.Plan(ctx, base)
	if err != nil {
		yield(first, err)
		return
	}
	first.Plan = plan
	first.Row = RowOf(plan, base.Rules, nil)
	first.Row.Name = baseName
	s.edges(&first.Row, plan, base)
	done := Progress{}
	report := func(name string, failed bool) {
		done.Done++
		if failed {
			done.Failed++
		}
		done.Name = name
		if s.Progress != nil {
			s.Progress(done)
		}
	}
	report(baseName, false)
	if !yield(first, nil) {
		return
	}
	if variants == nil {
		return
	}
	one := func(ctx context.Context, job numbered) answer {
		r, err := s.variant(ctx, planner, base, plan, job)
		return answer{r, err}
	}
	for a := range ordered(ctx, s.workers(), number(variants), one) {
		var failed *VariantError
		if a.err != nil && !errors.As(a.err, &failed) {
			yield(a.result, a.err)
			return
		}
		report(a.result.Name, a.err != nil)
		if !yield(a.result, a.err) {
			return
		}
	}
	if err := ctx.Err(); err != nil {
		yield(Result{}, fmt.Errorf("whatif: sweep not finished: %w", err))
	}
}

type numbered struct {
	index   int
	variant Variant
}

type answer struct {
	result Result
	err    error
}

func number(variants iter.Seq[Variant]) iter.Seq[numbered] {
	return func(yield func(numbered) bool) {
		n := 0
		for v := range variants {
			n++
			if !yield(numbered{n, v}) {
				return
			}
		}
	}
}

func (s *Sweep) variant(ctx context.Context, planner *periodize.Planner, base *season.Request, plan *season.Plan, job numbered) (Result, error) {
	r := Result{Index: job.index, Name: job.variant.name(), Touched: Touched{}.settled()}
	r.Row = Row{Index: r.Index, Name: r.Name, Missed: []AimMissed{}}
	fail := func(err error) (Result, error) {
		if ctx.Err() != nil {
			return r, fmt.Errorf("whatif: sweep not finished: %w", ctx.Err())
		}
		r.Row.Error = err.Error()
		return r, &VariantError{r.Index, r.Name, err}
	}
	req, touched, err := Apply(*base, job.variant.Change)
	if err != nil {
		return fail(err)
	}
	r.Touched = touched
	var last *season.Plan
	if s.Issued {
		last = plan
	}
	p, err := planner.Replan(ctx, &req, last)
	if err != nil {
		return fail(err)
	}
	r.Plan = p
	r.Row = RowOf(p, req.Rules, plan)
	r.Row.Index, r.Row.Name = r.Index, r.Name
	s.edges(&r.Row, p, &req)
	return r, nil
}

func (s *Sweep) edges(r *Row, plan *season.Plan, req *season.Request) {
	if s.Kept != nil {
		r.Edges = EdgesOf(plan, req, *s.Kept)
	}
}

// ordered does the work of each job on some workers and yields the answers in
// the order of the jobs. At most two jobs a worker are under way; the next is
// asked for when there is room. When the loop ends or the context is done, no
// further job begins, and all workers have ended before it returns.
func ordered[J, A any](ctx context.Context, workers int, jobs iter.Seq[J], work func(context.Context, J) A) iter.Seq[A] {
	return func(yield func(A) bool) {
		ctx, cancel := context.WithCancel(ctx)
		type task struct {
			job J
			out chan A
		}
		todo := make(chan task)
		var wait sync.WaitGroup
		for range workers {
			wait.Add(1)
			go func() {
				defer wait.Done()
				for t := range todo {
					t.out <- work(ctx, t.job)
				}
			}()
		}
		next, stop := iter.Pull(jobs)
		defer func() {
			cancel()
			close(todo)
			wait.Wait()
			stop()
		}()
		var pending []task
		var offered *task // taken from jobs, waiting for a worker
		for {
			if offered == nil && len(pending) < 2*workers && ctx.Err() == nil {
				if j, ok := next(); ok {
					offered = &task{j, make(chan A, 1)}
				}
			}
			if offered == nil && len(pending) == 0 {
				return
			}
			var give chan task
			var head chan A
			var t task
			if offered != nil {
				give, t = todo, *offered
			}
			if len(pending) > 0 {
				head = pending[0].out
			}
			select {
			case give <- t:
				pending = append(pending, t)
				offered = nil
			case a := <-head:
				pending = pending[1:]
				if !yield(a) {
					return
				}
			}
		}
	}
}

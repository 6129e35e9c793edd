package squad

import (
	"context"
)

// Replan plans a squad again after something changed: a place less, a hall that
// closes, a game of some of them that moves. Against the plan issued last, what is
// past stays, the next 24 hours stay unless they have become unsafe, and the fewest
// people are moved of those whose own calendar did not change; each of those costs
// Request.MovePoints. Those whose calendar changed, and who are named in Affected, are planned
// as periodize.Planner.Replan does, with as few changes as keep their aims.
//
// Plan.Moved has a slip for each athlete that something changes for. Without a last
// plan it is Plan.
func (p *Planner) Replan(ctx context.Context, req *Request, last *Plan) (*Plan, error) {
	if req == nil || last == nil {
		return p.Plan(ctx, req)
	}
	next := *req
	next.Issued = last
	return p.Plan(ctx, &next)
}

// slips lists what changes for whom.
func (w *work) slips(out *Plan) {
	if w.req.Issued == nil {
		return
	}
	for i := range out.Athletes {
		a := &out.Athletes[i]
		last := w.req.Issued.planOf(a.Athlete)
		if last == nil {
			continue
		}
		if w.req.loose(w.members[i].athlete) {
			compare(a.Plan, last)
		}
		slip := slipOf(a.Plan, last)
		slip.Athlete, slip.Affected = a.Athlete, w.members[i].issued == nil
		if len(slip.Changes)+len(slip.Places) > 0 {
			out.Moved = append(out.Moved, slip)
		}
	}
}

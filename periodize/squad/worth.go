package squad

import (
	"context"
	"fmt"
	"slices"

	"example.org/weft/calendar"
	"example.org/weft/internal/starts"
	"example.org/weft/periodize/season"
)

// Offer is something a squad could get more of.
type Offer string

// The offers: one more place in every slot of a hall, one more coach whenever it is
// open, and 30 minutes more at the end of each opening.
const (
	OnePlace      Offer = "place"
	OneCoach      Offer = "coach"
	ThirtyMinutes Offer = "minutes"
)

// moreMinutes is what ThirtyMinutes adds.
const moreMinutes = 30

// Worth is what an offer would buy in the period.
type Worth struct {
	Offer Offer  `json:"offer"`
	Hall  string `json:"hall"`
	// Estimate is what the prices of the slots say, in points. A place or a coach
	// saves no more than that beyond what the plan was short of its bound; of new
	// minutes the price of the slot before them is only a hint.
	Estimate int64 `json:"estimate"`
	// Points are saved for sure: the squad was planned with it. Negative only if
	// one of the plans is not proved.
	Points int64 `json:"points"`
	// Lifts are how many more there are in the halls, and Sessions how many more of
	// any kind anywhere, over the period; LiftsAWeek is Lifts a week in tenths, and
	// Served how many fewer are left out.
	Lifts      int          `json:"lifts"`
	Sessions   int          `json:"sessions"`
	Served     int          `json:"served"`
	LiftsAWeek int          `json:"liftsAWeekTenths"`
	Proof      season.Proof `json:"proof"` // proved if both plans are
}

// Worth plans a squad with a little more of each thing it shares, hall by hall, and
// says what that would buy: first by the prices that the slots of the plan have,
// then by planning with it. Everybody may be moved for it, also where a plan was
// issued. A coach is offered only where somebody has to watch.
func (p *Planner) Worth(ctx context.Context, req *Request) ([]Worth, error) {
	w, err := p.prepare(ctx, req)
	if err != nil {
		return nil, err
	}
	free := *w.req
	free.Affected = nil
	for i := range free.Athletes {
		free.Affected = append(free.Affected, free.Athletes[i].id())
	}
	if w, err = p.prepare(ctx, &free); err != nil {
		return nil, err
	}
	if err := w.search(ctx); err != nil {
		return nil, err
	}
	base, err := w.write(ctx)
	if err != nil {
		return nil, err
	}
	out := []Worth{}
	for h := range free.Halls {
		for _, offer := range []Offer{OnePlace, OneCoach, ThirtyMinutes} {
			more, ok := free.with(offer, h, w.watched())
			if !ok {
				continue
			}
			v, err := p.prepare(ctx, more)
			if err != nil {
				return nil, err
			}
			if err := v.search(ctx); err != nil {
				return nil, err
			}
			plan, err := v.write(ctx)
			if err != nil {
				return nil, err
			}
			x := Worth{Offer: offer, Hall: free.Halls[h].Place.ID, Estimate: w.suggests(v), Points: base.Points - plan.Points, Proof: season.Proved}
			lifts, sessions := w.req.count(base)
			moreLifts, moreSessions := w.req.count(plan)
			x.Lifts, x.Sessions = moreLifts-lifts, moreSessions-sessions
			x.Served = len(base.LeftOut) - len(plan.LeftOut)
			x.LiftsAWeek = 70 * x.Lifts / free.Period.Days()
			if base.Proof != season.Proved || plan.Proof != season.Proved {
				x.Proof = season.Bounded
			}
			out = append(out, x)
		}
	}
	return out, nil
}

// watched reports whether somebody has to watch the slots.
func (w *work) watched() bool {
	return slices.ContainsFunc(w.grid.slots, func(s slot) bool { return s.coaches >= 0 })
}

// with is the request with an offer taken, false if there is nothing to take.
func (r *Request) with(offer Offer, hall int, watched bool) (*Request, bool) {
	out := *r
	out.Halls = slices.Clone(r.Halls)
	h := &out.Halls[hall]
	switch offer {
	case OnePlace:
		h.Capacity++
		return &out, h.Capacity <= MaxCapacity
	case OneCoach:
		if !watched || len(r.Coaches)+2 > MaxCoaches {
			return nil, false
		}
		out.Coaches = slices.Clone(r.Coaches)
		if len(out.Coaches) == 0 { // the one that was assumed
			for i := range out.Halls {
				out.Coaches = append(out.Coaches, Coach{ID: "assumed " + fmt.Sprint(i), Hall: out.Halls[i].Place.ID})
			}
		}
		id := "one more"
		for slices.ContainsFunc(out.Coaches, func(c Coach) bool { return c.ID == id }) {
			id += " still"
		}
		out.Coaches = append(out.Coaches, Coach{ID: id, Hall: h.Place.ID})
		return &out, true
	}
	more := false
	h.Place.Hours = slices.Clone(h.Place.Hours)
	for i := range h.Place.Hours {
		x := &h.Place.Hours[i]
		to := min(x.To+moreMinutes*60, calendar.EndOfDay)
		more = more || to > x.To
		x.To = to
	}
	return &out, more
}

// suggests is what the prices say of a squad with more room: each slot's price for
// every place it gains. A new slot has the price of the last one before it on its
// date.
func (w *work) suggests(more *work) int64 {
	old := map[[2]int64]int{}
	for i, s := range w.grid.slots {
		old[[2]int64{int64(s.hall), s.from}] = i
	}
	n, now := len(w.grid.slots), len(more.grid.slots)
	var sum int64
	for j, s := range more.grid.slots {
		i, ok := old[[2]int64{int64(s.hall), s.from}]
		if !ok {
			for k, o := range w.grid.slots {
				if o.hall == s.hall && o.date == s.date && o.from < s.from {
					i, ok = k, true
				}
			}
			if ok {
				sum += w.prices[i] * more.limits[j]
			}
			continue
		}
		sum += w.prices[i] * (more.limits[j] - w.limits[i])
		if w.coached && more.coached {
			sum += w.prices[n+i] * (more.limits[now+j] - w.limits[n+i])
		}
	}
	return sum / starts.Point
}

// count counts the lifts in halls and all sessions of a plan.
func (r *Request) count(p *Plan) (lifts, sessions int) {
	for i := range p.Athletes {
		for j := range p.Athletes[i].Plan.Sessions {
			s := &p.Athletes[i].Plan.Sessions[j]
			sessions++
			if s.Kind.Lift() && r.hall(s.Place) >= 0 {
				lifts++
			}
		}
	}
	return lifts, sessions
}

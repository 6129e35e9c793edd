package squad

import (
	"cmp"
	"slices"
)

// canonical is a copy in which nothing depends on the order of the input. It shares
// the athletes' own requests.
func (r *Request) canonical() *Request {
	out := *r
	out.Athletes = slices.Clone(r.Athletes)
	slices.SortStableFunc(out.Athletes, func(a, b Athlete) int { return cmp.Compare(a.id(), b.id()) })
	out.Halls = slices.Clone(r.Halls)
	slices.SortStableFunc(out.Halls, func(a, b Hall) int { return cmp.Compare(a.Place.ID, b.Place.ID) })
	for i := range out.Halls { // a hall stays where it is when athletes travel
		if h := &out.Halls[i].Place; h.Zone.IsZero() && len(r.Athletes) > 0 {
			h.Zone = r.Athletes[0].Season.Athlete.Zone
		}
	}
	out.Coaches = slices.Clone(r.Coaches)
	slices.SortStableFunc(out.Coaches, func(a, b Coach) int { return cmp.Compare(a.ID, b.ID) })
	out.Ratios = slices.Clone(r.Ratios)
	slices.SortStableFunc(out.Ratios, func(a, b Ratio) int { return cmp.Compare(a.Under, b.Under) })
	out.Affected = slices.Clone(r.Affected)
	slices.Sort(out.Affected)
	return &out
}

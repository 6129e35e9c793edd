package layered

import "fmt"

// CheckGroups holds the hints of a Grouper against the rule itself: in every
// reachable state, options of one group must lead to the same state at the same
// cost. It is for tests; at most maxStates states of a layer are looked at.
func CheckGroups(options []int, r Rule, maxStates int) error {
	g, ok := r.(Grouper)
	if !ok {
		return nil
	}
	type answer struct {
		next uint64
		cost int64
	}
	cur := []uint64{r.Init()}
	for l, n := range options {
		seen := map[uint64]bool{}
		var after []uint64
		for _, s := range cur {
			said := map[uint64]answer{}
			for o := 0; o < n; o++ {
				next, cost := r.Step(l, o, s)
				a := answer{next, cost}
				if cost >= Inf {
					a = answer{cost: Inf} // where it would lead does not matter
				}
				key := g.Group(l, o)
				if was, ok := said[key]; ok && was != a {
					return fmt.Errorf("layered: layer %d, state %d: option %d answers %v, another of its group %d answers %v", l, s, o, a, key, was)
				}
				said[key] = a
				if cost < Inf && !seen[next] && len(after) < maxStates {
					seen[next] = true
					after = append(after, next)
				}
			}
		}
		cur = after
	}
	return nil
}

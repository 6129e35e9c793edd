package layered

// Different returns the plan of the graph that differs most from a given one:
// differ(layer, option) says how much a choice counts, at least zero. Among
// plans that differ equally the cheapest is returned. Only plans within the
// slack of the best are there. apart is how much it differs.
//
// Each node keeps, for each amount of difference still to come, the cheapest way
// to the end: the work is nodes times the largest difference.
func (e *Graph) Different(differ func(layer, option int) int) (plan Plan, apart int) {
	g := e.g
	byGroup := e.optionsByGroup()
	type way struct {
		cost   int64
		option int32
		to     int32
	}
	ways := make([][]way, len(g.fore)) // by difference to come
	for i := int(g.layer[len(g.layer)-2]); i < len(ways); i++ {
		ways[i] = []way{{option: -1}}
	}
	for l := g.layers() - 1; l >= 0; l-- {
		for i := g.layer[l]; i < g.layer[l+1]; i++ {
			var mine []way
			room := g.low() + e.slack - g.fore[i]
			for _, x := range g.out(i) {
				for _, o := range byGroup[l][x.group] {
					d := max(differ(l, int(o)), 0)
					c := x.cost + e.over(l, int(o))
					for k, t := range ways[x.to] {
						if t.cost >= Inf || c+t.cost > room {
							continue
						}
						for len(mine) <= k+d {
							mine = append(mine, way{cost: Inf})
						}
						if m := &mine[k+d]; c+t.cost < m.cost {
							*m = way{c + t.cost, o, x.to}
						}
					}
				}
			}
			ways[i] = mine
		}
	}
	top := len(ways[0]) - 1
	for top > 0 && ways[0][top].cost >= Inf {
		top--
	}
	plan = Plan{Cost: ways[0][top].cost + e.m.base, Options: make([]int, g.layers())}
	n, left := int32(0), top
	for l := range plan.Options {
		t := ways[n][left]
		plan.Options[l] = int(t.option)
		n, left = t.to, left-max(differ(l, int(t.option)), 0)
	}
	return plan, top
}

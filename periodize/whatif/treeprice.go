package whatif

import (
	"context"
	"slices"

	"example.org/weft/periodize/season"
)

// prices tells what it costs not to know each decision sooner: the difference to
// the tree in which it is known together with the one before it, the first at once.
// Whatever is shared in the tree may be shared there too, so that tree costs no
// more, and no price is negative.
func (w *forking) prices(ctx context.Context, out *TreePlan) error {
	groups, root, best, proved, most := w.groups, w.root, w.best, w.proved, w.most
	defer func() {
		w.share(root)
		w.best, w.proved, w.bound, w.most = best, proved, out.Bound, most
	}()
	for i, g := range groups {
		s := &out.Stages[i]
		s.Proof = season.Proved
		if out.Price == 0 && proved {
			continue // nobody could do better
		}
		sooner := []*group{toldSooner(root, g)}
		apart := []int{} // branches that are known at once
		if g == root {
			sooner, apart = nil, slices.Clone(g.leaves)
			for _, k := range g.kids {
				sooner = append(sooner, &group{leaves: k.leaves, from: w.now, until: k.until, kids: k.kids})
				apart = slices.DeleteFunc(apart, func(i int) bool { return slices.Contains(k.leaves, i) })
			}
		}
		var c cost
		exact := proved
		for _, i := range apart {
			c.broken += w.ends[i].weight * w.knowing[i].Cost.Broken
			c.points += w.ends[i].weight * w.alone[i]
			exact = exact && w.knowing[i].Proof == season.Proved
		}
		w.most = w.plans + most
		for _, r := range sooner {
			w.share(r)
			if err := w.search(ctx); err != nil {
				return err
			}
			c.broken += w.best.cost.broken
			c.points += w.best.cost.points
			exact = exact && w.proved
		}
		if c.compare(best.cost) < 0 {
			s.Price = min(max(0, best.cost.points-c.points), out.Price)
		}
		if !exact {
			s.Proof = season.Bounded
		}
	}
	return nil
}

// toldSooner returns a tree in which the branches of a group are told apart when
// it is known that it is one of these.
func toldSooner(root, g *group) *group {
	out := &group{leaves: root.leaves, from: root.from, until: root.until}
	for _, k := range root.kids {
		if k != g {
			out.kids = append(out.kids, toldSooner(k, g))
			continue
		}
		for _, x := range k.kids {
			out.kids = append(out.kids, &group{leaves: x.leaves, from: root.until, until: x.until, kids: x.kids})
		}
	}
	return out
}

package whatif

import (
	"fmt"
)

// Series returns the branches of a series whose last games are played only if
// they are needed, given in order: none of them, the first, the first two, up to
// all. Each has weight 1.
func Series(ids ...string) []Branch {
	var out []Branch
	for n := range len(ids) + 1 {
		b := Branch{Name: fmt.Sprintf("%d more", n), Weight: 1}
		if n == 0 {
			b.Name = "over"
		}
		var changes []Change
		for i, id := range ids {
			if i < n {
				changes = append(changes, Confirm(id))
			} else {
				changes = append(changes, Cancel(id))
			}
		}
		b.Change = Compose(b.Name, changes...)
		out = append(out, b)
	}
	return out
}

// Knockout returns two branches of weight 1: the games are played, or none of
// them is.
func Knockout(ids ...string) []Branch {
	var on, off []Change
	for _, id := range ids {
		on, off = append(on, Confirm(id)), append(off, Cancel(id))
	}
	return []Branch{{Name: "through", Change: Compose("through", on...), Weight: 1}, {Name: "out", Change: Compose("out", off...), Weight: 1}}
}

// Starts returns a branch of weight 1 for each possible start of an event, wall
// times or dates as in [Move].
func Starts(id string, walls ...string) []Branch {
	var out []Branch
	for _, wall := range walls {
		out = append(out, Branch{Name: wall, Change: Move(id, wall), Weight: 1})
	}
	return out
}

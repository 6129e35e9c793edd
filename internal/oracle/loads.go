package oracle

import (
	"example.org/weft/internal/starts"
	"example.org/weft/periodize/season"
)

// rating is the effort of a kind, of ten.
var rating = map[season.Kind]int{season.FullBody: 6, season.Trimmed: 6, season.Eccentric: 7, season.PostGame: 6, season.Primer: 5, season.Recovery: 2}

// block is the step of session load.
const block = 50

// blocks is rating times minutes in blocks, to the nearest, halves up.
func blocks(s *starts.Slot) int {
	return (2*rating[s.Kind]*int(s.To-s.From) + block) / (2 * block)
}

// loads writes the optional rules.
func (k *coder) loads() {
	set := k.m.Set
	least, most := set.Value("week-load-least")/block, set.Value("week-load-most")/block
	for _, w := range k.weeks() {
		if w < 0 || w+7 > k.days() {
			continue
		}
		if p := set.Points("week-load"); p > 0 {
			k.band(k.weekSum(w, blocks), least, most, p)
		}
		if p := set.Points("load-ramp"); p > 0 && w >= 7 {
			k.ramp(k.weekSum(w, blocks), k.weekSum(w-7, blocks), set.Value("load-ramp")/block, p)
		}
	}
	if p := set.Points("rolling-count"); p > 0 {
		k.rolling(7, func(*starts.Slot) int { return 1 }, set.Value("rolling-count"), p)
	}
	if p := set.Points("rolling-load"); p > 0 {
		k.rolling(3, blocks, set.Value("rolling-load")/block, p)
	}
}

// ramp charges each unit by which two sums differ more than allowed.
func (k *coder) ramp(a, b []Term, most int, points int64) {
	z := k.add(Var{Points: points, Upper: max(k.high(a), k.high(b)), Loose: true})
	up, down := []Term{{z, -1}}, []Term{{z, -1}}
	for _, t := range a {
		up, down = append(up, t), append(down, Term{t.Var, -t.Coef})
	}
	for _, t := range b {
		up, down = append(up, Term{t.Var, -t.Coef}), append(down, t)
	}
	k.row(up, AtMost, int64(most))
	k.row(down, AtMost, int64(most))
}

// rolling charges each unit of the sum over so many dates beyond a limit, on each
// date.
func (k *coder) rolling(dates int, n func(*starts.Slot) int, most int, points int64) {
	for l := 0; l < k.days(); l++ {
		right := int64(most)
		var row []Term
		for d := l - dates + 1; d <= l; d++ {
			if d < 0 {
				for i := range k.m.History {
					if s := &k.m.History[i]; s.Day == k.day(d).N {
						right -= int64(n(s))
					}
				}
				continue
			}
			row = k.sum(row, d, func(o option) int {
				sum := 0
				for _, s := range o.slots {
					sum += n(s)
				}
				return sum
			})
		}
		if high := k.high(row); high > right {
			z := k.add(Var{Points: points, Upper: high - right, Loose: true})
			k.row(append(row, Term{z, -1}), AtMost, right)
		}
	}
}

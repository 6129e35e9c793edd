package starts

import (
	"example.org/weft/periodize/season"
)

// few keeps the starts that are considered: the cheapest, nearest to the
// preferred time; for kinds whose clock time rules over days look at, the
// earliest and the latest too, which leave most room after and before them; and
// on break dates the best start beside the best one. For a kind that no rule over
// days times, no other start could make a plan better. It changes its argument.
func (f *Facts) few(d *Day, k season.Kind, legal []Slot) []Slot {
	if len(legal) < 2 {
		return legal
	}
	if f.remembers() { // a rule of one's own may look at the clock
		return distinct(legal)
	}
	best := 0
	for i := range legal {
		if f.better(d, &legal[i], &legal[best]) {
			best = i
		}
	}
	keep := make([]bool, len(legal))
	keep[best] = true
	for i := range legal {
		if legal[i].Issued {
			keep[i] = true
		}
	}
	if heavy(k) || d.Break {
		early, late := 0, 0
		for i := range legal {
			a, e, l := &legal[i], &legal[early], &legal[late]
			if a.From < e.From || (a.From == e.From && f.better(d, a, e)) {
				early = i
			}
			if a.To > l.To || (a.To == l.To && f.better(d, a, l)) {
				late = i
			}
		}
		keep[early], keep[late] = true, true
		if d.Break { // the best beside the best: long enough before or after it
			apart := int64(f.Set.Value("sessions-apart")) * 60
			before, after := -1, -1
			for i := range legal {
				a := &legal[i]
				if a.To+apart <= legal[best].From && (before < 0 || f.better(d, a, &legal[before])) {
					before = i
				}
				if a.From >= legal[best].To+apart && (after < 0 || f.better(d, a, &legal[after])) {
					after = i
				}
			}
			if before >= 0 {
				keep[before] = true
			}
			if after >= 0 {
				keep[after] = true
			}
		}
	}
	out := legal[:0]
	for i := range legal {
		if keep[i] {
			dup := false
			for j := range out {
				if out[j].From == legal[i].From && out[j].To == legal[i].To && out[j].Place == legal[i].Place {
					dup = true
				}
			}
			if !dup {
				out = append(out, legal[i])
			}
		}
	}
	return out
}

// remembers reports whether a rule over days of one's own is there.
func (f *Facts) remembers() bool {
	for _, c := range f.custom {
		if c.Memory != nil {
			return true
		}
	}
	return false
}

// distinct leaves out slots that stand twice.
func distinct(legal []Slot) []Slot {
	var out []Slot
next:
	for _, s := range legal {
		for i := range out {
			if out[i].From == s.From && out[i].To == s.To && out[i].Place == s.Place {
				continue next
			}
		}
		out = append(out, s)
	}
	return out
}

// better orders starts of one kind on one date.
func (f *Facts) better(d *Day, a, b *Slot) bool {
	if x, y := a.Points(), b.Points(); x != y {
		return x < y
	}
	if x, y := f.tie(d, a), f.tie(d, b); x != y {
		return x < y
	}
	if a.Minutes() != b.Minutes() {
		return a.Minutes() > b.Minutes()
	}
	return a.From < b.From
}

// changeMinutes is how long after a game a post-game session starts if it can.
// Common practice, no source.
const changeMinutes = 15

// eccentricTie is what a full-body session costs among equals where an eccentric
// one would be allowed.
const eccentricTie = 8

// afterGameTie is what a trimmed session within a day after a game costs among
// equals: more than an easy session more.
const afterGameTie = 96

// tie is what decides between plans of equal points: fewer sessions, then full
// lengths, starts near the preferred time, and the first place.
func (f *Facts) tie(d *Day, s *Slot) int64 {
	far := int64(s.StartClock - d.Prefer)
	if s.Kind == season.PostGame {
		if own := f.previousGame(s.From); own >= 0 {
			far = s.From - f.Events[own].To - changeMinutes
		}
	}
	if far < 0 {
		far = -far
	}
	t := 64 + min((far+14)/15, 30) + 4*min(int64(s.Place), 3)
	if s.Kind == season.Trimmed {
		if last := f.previousGame(s.From); last >= 0 && s.From-f.Events[last].To < 24*60 {
			t += afterGameTie
		}
	}
	if s.Kind == season.FullBody && f.eccentricAllowed(d) {
		t += eccentricTie
	}
	if _, usual, _ := f.lengths(s.Kind); s.Minutes() < usual && !d.Exam {
		t += 8 * (int64(usual-s.Minutes()) / step)
	}
	return t
}

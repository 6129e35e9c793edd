package judge

import (
	"cmp"
	"slices"
)

// slot is what plan and issued plan hold at one start: indices into Sessions
// and Issued.
type slot struct {
	start       int64
	now, issued []int
}

// change: as few changes as possible to an issued plan. Of two sessions at one
// start only the kind is compared; what started before now is past.
func change(s *season) []Miss {
	if !s.HasIssued {
		return nil
	}
	var misses []Miss
	for _, sl := range s.slots() {
		misses = append(misses, s.changes(sl)...)
	}
	return misses
}

// slots pairs the sessions of the period that have not started, by start.
func (s *season) slots() []slot {
	byStart := map[int64]*slot{}
	get := func(start int64) *slot {
		sl := byStart[start]
		if sl == nil {
			sl = &slot{start: start}
			byStart[start] = sl
		}
		return sl
	}
	for _, r := range s.sessions {
		if s.judged(r) && r.Start >= s.Now {
			sl := get(r.Start)
			sl.now = append(sl.now, r.index)
		}
	}
	for i, r := range s.Issued {
		if s.inside(r.Date) && r.Start >= s.Now {
			sl := get(r.Start)
			sl.issued = append(sl.issued, i)
		}
	}
	var slots []slot
	for _, sl := range byStart {
		slices.SortStableFunc(sl.issued, func(a, b int) int { return compareSessions(s.Issued[a], s.Issued[b]) })
		slots = append(slots, *sl)
	}
	slices.SortFunc(slots, func(a, b slot) int { return cmp.Compare(a.start, b.start) })
	return slots
}

// changes gives one miss for each changed session of a slot: sessions of equal
// kind are the same, a pair of different ones is one change, and what is left
// over was added or dropped.
func (s *season) changes(sl slot) []Miss {
	now, issued := slices.Clone(sl.now), slices.Clone(sl.issued)
	for k := Kind(0); k < kinds; k++ {
		for {
			i := slices.IndexFunc(now, func(x int) bool { return s.Sessions[x].Kind == k })
			j := slices.IndexFunc(issued, func(x int) bool { return s.Issued[x].Kind == k })
			if i < 0 || j < 0 {
				break
			}
			now, issued = slices.Delete(now, i, i+1), slices.Delete(issued, j, j+1)
		}
	}
	var misses []Miss
	for i := range max(len(now), len(issued)) {
		m := s.missed(Change, 0, 0, 0, 1, 1)
		if sl.start < s.Now+s.p.SoonMinutes {
			m.Points = s.p.SoonPoints
		}
		if i < len(issued) {
			m.Issued = issued[i]
			m.From = s.Issued[issued[i]].Date
		}
		if i < len(now) {
			m.Session = now[i]
			m.From = s.Sessions[now[i]].Date
		}
		m.To = m.From
		misses = append(misses, m)
	}
	return misses
}

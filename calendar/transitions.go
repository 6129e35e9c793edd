package calendar

import "time"

// maxListed bounds the work and the answer of Transitions.
const maxListed = 20_000

// Transitions returns the changes of offset in a span, in order: each with the
// instant, in UTC, from which the new offset holds. Changes of the name or of the
// daylight flag alone are not listed. The answer ends at 20,000 changes; it is
// empty if the zone is unset or the span empty.
//
// Use it instead of walking [time.Time.ZoneBounds], whose end may lie before the
// instant asked about on the last day of a leap year.
func (z Zone) Transitions(s Span) []Transition {
	if z.loc == nil || !s.Valid() {
		return nil
	}
	// Seconds that reach beyond these lie outside the years 1 to 9999.
	from := max(s.Start.Unix(), -epochDay*86400)
	until := min(s.End.Unix(), (lastDay-epochDay+1)*86400)
	if s.End.Nanosecond() > 0 {
		until++
	}
	var out []Transition
	// The segment before the span says whether its first instant is a change.
	for seg := z.segmentAt(from - 1); seg.to < until && len(out) < maxListed; {
		next := z.segmentAt(seg.to)
		if next.offset != seg.offset && next.from >= from {
			t := utc(next.from)
			name, _ := t.In(z.loc).Zone()
			out = append(out, Transition{At: t, Offset: int(next.offset), DST: t.In(z.loc).IsDST(), Abbrev: name})
		}
		seg = next
	}
	return out
}

// OffsetAt returns the seconds east of UTC at an instant; ok is false if the zone
// is unset.
func (z Zone) OffsetAt(t time.Time) (seconds int, ok bool) {
	if z.loc == nil {
		return 0, false
	}
	return int(z.offsetAt(t.Unix())), true
}

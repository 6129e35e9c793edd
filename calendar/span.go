package calendar

import (
	"slices"
	"time"
)

// Span is a half-open stretch of time [Start, End) between two instants.
type Span struct {
	Start, End time.Time
}

// Valid reports whether the span is not empty: Start is before End.
func (s Span) Valid() bool { return s.Start.Before(s.End) }

// Duration returns the elapsed time, 0 if the span is empty. It saturates at
// about 292 years, as [time.Time.Sub] does.
func (s Span) Duration() time.Duration {
	if !s.Valid() {
		return 0
	}
	return s.End.Sub(s.Start)
}

// Contains reports whether the instant lies in the span; the end does not.
func (s Span) Contains(t time.Time) bool {
	return !t.Before(s.Start) && t.Before(s.End)
}

// Covers reports whether all of o lies in s. An empty o is covered by nothing.
func (s Span) Covers(o Span) bool {
	return o.Valid() && !o.Start.Before(s.Start) && !o.End.After(s.End)
}

// Overlaps reports whether the spans share an instant. Touching spans do not.
func (s Span) Overlaps(o Span) bool {
	return s.Valid() && o.Valid() && s.Start.Before(o.End) && o.Start.Before(s.End)
}

// Intersect returns what both spans cover; ok is false if that is nothing.
func (s Span) Intersect(o Span) (out Span, ok bool) {
	if !s.Overlaps(o) {
		return Span{}, false
	}
	out = s
	if o.Start.After(out.Start) {
		out.Start = o.Start
	}
	if o.End.Before(out.End) {
		out.End = o.End
	}
	return out, true
}

// Grow returns the span made longer at both ends.
func (s Span) Grow(before, after time.Duration) Span {
	return Span{s.Start.Add(-before), s.End.Add(after)}
}

// Compare orders by start, then by end.
func (s Span) Compare(o Span) int {
	if c := s.Start.Compare(o.Start); c != 0 {
		return c
	}
	return s.End.Compare(o.End)
}

// Equal reports whether both ends are the same instants, in whatever zone.
func (s Span) Equal(o Span) bool { return s.Start.Equal(o.Start) && s.End.Equal(o.End) }

// Union returns the smallest sorted list of disjoint spans that covers the same
// instants. Empty spans are dropped, touching ones joined. The input may be in
// any order and is not changed.
func Union(spans ...Span) []Span {
	var in []Span
	for _, s := range spans {
		if s.Valid() {
			in = append(in, s)
		}
	}
	slices.SortFunc(in, Span.Compare)
	var out []Span
	for _, s := range in {
		if n := len(out); n > 0 && !s.Start.After(out[n-1].End) {
			if s.End.After(out[n-1].End) {
				out[n-1].End = s.End
			}
			continue
		}
		out = append(out, s)
	}
	return out
}

// Subtract returns what from covers and take does not, as a sorted list of
// disjoint spans. The lists may be in any order and are not changed.
func Subtract(from, take []Span) []Span {
	var out []Span
	cuts := Union(take...)
	for _, s := range Union(from...) {
		for len(cuts) > 0 && !cuts[0].End.After(s.Start) {
			cuts = cuts[1:]
		}
		rest := s
		for _, c := range cuts {
			if !c.Start.Before(rest.End) {
				break
			}
			if c.Start.After(rest.Start) {
				out = append(out, Span{rest.Start, c.Start})
			}
			rest.Start = c.End
			if !rest.Valid() {
				break
			}
		}
		if rest.Valid() {
			out = append(out, rest)
		}
	}
	return out
}

// Gap returns the elapsed time from the end of a to the start of b, negative if
// b starts before a ends.
func Gap(a, b Span) time.Duration { return b.Start.Sub(a.End) }

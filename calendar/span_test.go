package calendar_test

import (
	"testing"
	"time"

	"example.org/weft/calendar"
	"pgregory.net/rapid"
)

// The plain definition of a list of spans: the set of its minutes.
func minutes(spans []calendar.Span) (set [64]bool) {
	for _, s := range spans {
		for i := range set {
			set[i] = set[i] || s.Contains(time.Unix(int64(60*i), 0))
		}
	}
	return set
}

func TestSpanSets(t *testing.T) {
	list := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) calendar.Span {
		a, b := rapid.Int64Range(0, 62).Draw(t, "a"), rapid.Int64Range(0, 62).Draw(t, "b")
		return calendar.Span{Start: time.Unix(60*a, 0), End: time.Unix(60*b, 0)} // some are empty or reversed
	}), 0, 8)
	rapid.Check(t, func(t *rapid.T) {
		a, b := list.Draw(t, "from"), list.Draw(t, "take")
		inA, inB := minutes(a), minutes(b)
		union, rest := calendar.Union(a...), calendar.Subtract(a, b)
		if minutes(union) != inA {
			t.Fatalf("union %v", union)
		}
		want := inA
		for i := range want {
			want[i] = inA[i] && !inB[i]
		}
		if minutes(rest) != want {
			t.Fatalf("difference %v", rest)
		}
		for _, out := range [][]calendar.Span{union, rest} {
			for i, s := range out {
				if !s.Valid() || i > 0 && s.Start.Before(out[i-1].End) {
					t.Fatalf("not sorted and disjoint: %v", out)
				}
			}
		}
		for i := 1; i < len(union); i++ {
			if union[i].Start.Equal(union[i-1].End) {
				t.Fatalf("touching spans are not joined: %v", union)
			}
		}
		for _, s := range a {
			for _, o := range b {
				both, ok := s.Intersect(o)
				if ok != s.Overlaps(o) || ok != o.Overlaps(s) || ok != both.Valid() {
					t.Fatalf("%v and %v: %v %v", s, o, both, ok)
				}
				x, y := minutes([]calendar.Span{s}), minutes([]calendar.Span{o})
				for i := range x {
					x[i] = x[i] && y[i]
				}
				if ok && minutes([]calendar.Span{both}) != x {
					t.Fatalf("%v and %v share %v", s, o, both)
				}
				if s.Covers(o) != (o.Valid() && s.Valid() && ok && both.Equal(o)) {
					t.Fatalf("%v covers %v", s, o)
				}
			}
		}
	})
}

func TestSpan(t *testing.T) {
	s := calendar.Span{Start: time.Unix(0, 0), End: time.Unix(3600, 0)}
	if s.Contains(s.End) || !s.Contains(s.Start) || s.Duration() != time.Hour {
		t.Error("not half-open")
	}
	touching := calendar.Span{Start: s.End, End: s.End.Add(time.Hour)}
	if s.Overlaps(touching) || calendar.Gap(s, touching) != 0 || calendar.Gap(touching, s) != -2*time.Hour {
		t.Error("touching spans overlap")
	}
	if u := calendar.Union(touching, s); len(u) != 1 || u[0].Duration() != 2*time.Hour {
		t.Errorf("touching spans are not joined: %v", u)
	}
	if (calendar.Span{Start: s.End, End: s.Start}).Duration() != 0 {
		t.Error("a reversed span lasts")
	}
	if g := s.Grow(time.Minute, time.Hour); g.Duration() != 2*time.Hour+time.Minute {
		t.Error(g)
	}
}

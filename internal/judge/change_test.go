package judge

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
)

func TestChange(t *testing.T) {
	// Now is noon of day 3.
	issued := func(sessions ...Session) edit {
		return func(in *Input) { in.HasIssued, in.Now, in.Issued = true, instant(3, 12, 0), sessions }
	}
	type want struct {
		Day, Session, Issued int
		Points               int64
	}
	a, b := ses(FullBody, 6, 17, 0, 45), ses(Primer, 8, 17, 0, 30)
	kind := func(s Session, k Kind) Session { s.Kind = k; return s }
	longer := a
	longer.End++
	longer.Place = 7
	for _, c := range []struct {
		name string
		in   Input
		want []want
	}{
		{"nothing issued", with(a, b), nil},
		{"the same", with(a, b, issued(b, a)), nil},
		{"length and place are no change", with(longer, issued(a)), nil},
		{"added", with(a, b, issued(a)), []want{{8, 1, -1, 5}}},
		{"dropped", with(b, issued(a, b)), []want{{6, -1, 0, 5}}},
		{"another kind", with(kind(a, Trimmed), issued(a)), []want{{6, 0, 0, 5}}},
		{"moved by a minute", with(ses(FullBody, 6, 17, 1, 45), issued(a)), []want{{6, -1, 0, 5}, {6, 0, -1, 5}}},
		{"two at one start, one the same", with(a, kind(a, Primer), issued(kind(a, Recovery), a)), []want{{6, 1, 0, 5}}},
		{"one for two at one start", with(kind(a, Primer), issued(kind(a, Recovery), a)), []want{{6, 0, 1, 5}, {6, -1, 0, 5}}},
		{"the past", with(ses(Primer, 3, 11, 59, 30), issued(ses(Recovery, 3, 11, 58, 30))), nil},
		{"now", with(ses(Primer, 3, 12, 0, 30), issued()), []want{{3, 0, -1, 10000}}},
		{"a minute inside 24 h", with(issued(ses(Primer, 4, 11, 59, 30))), []want{{4, -1, 0, 10000}}},
		{"24 h", with(issued(ses(Primer, 4, 12, 0, 30))), []want{{4, -1, 0, 5}}},
		{"outside the period", with(until(7), b, issued(ses(Primer, 9, 17, 0, 30))), nil},
		{"forced ones too", with(forced(a), issued()), []want{{6, 0, -1, 5}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			var got []want
			for _, m := range missing(judge(t, c.in), Change) {
				got = append(got, want{m.From - monday, m.Session, m.Issued, m.Points})
				if m.From != m.To || m.Event != -1 || m.Wanted != 0 || m.Got != 1 {
					t.Errorf("%+v", m)
				}
			}
			if d := cmp.Diff(c.want, got, cmpopts.EquateEmpty()); d != "" {
				t.Error(d)
			}
		})
	}
}

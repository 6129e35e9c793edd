package judge

import "testing"

// priced switches on the aims that are off by default.
func priced() Parameters {
	p := Default()
	for _, id := range []string{WeekLoad, LoadRamp, RollingCount, RollingLoad} {
		p.Points[id] = 1
	}
	return p
}

// Blocks of 50: full-body 55 min x 6 = 330 -> 7; 50 x 6 = 300 -> 6; primer 35 x 5
// = 175, half way, -> 4; recovery 40 x 2 = 80 -> 2.
func TestLoadAims(t *testing.T) {
	full := func(day int) Session { return ses(FullBody, day, 17, 0, 55) }
	primer := func(day int) Session { return ses(Primer, day, 17, 0, 35) }
	easy := func(day int) Session { return ses(Recovery, day, 17, 0, 40) }
	two := func(in *Input) { in.To = monday + 13 }
	tests := []struct {
		name string
		in   Input
		aim  string
		want int64
	}{
		// 7 + 4 + 2 = 13 in the first week, 0 in the second: 10 is the least.
		{"band below", with(two, full(0), primer(2), easy(4)), WeekLoad, 10},
		{"band met", with(two, full(0), primer(2), full(7), primer(9)), WeekLoad, 0},
		// 2 more blocks than 6 a week: 7 + 4 = 11 against 0 is 5 beyond 6.
		{"ramp", with(two, full(0), primer(2)), LoadRamp, 5},
		{"ramp held", with(two, full(0), primer(2), full(9)), LoadRamp, 0},
		{"six in seven dates", with(until(6), easy(0), easy(1), easy(2), easy(3), easy(4), easy(5)), RollingCount, 2},
		{"five in seven dates", with(until(6), easy(0), easy(1), easy(2), easy(3), easy(4)), RollingCount, 0},
		{"history counts", with(from(6), until(6), easy(0), easy(1), easy(2), easy(3), easy(4), easy(6)), RollingCount, 1},
		// 900 units are 18 blocks in three dates: 7 + 7 + 7 = 21.
		{"three full dates", with(until(4), full(0), full(1), full(2)), RollingLoad, 3},
		{"two full dates", with(until(4), full(0), full(2)), RollingLoad, 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			v, err := Judge(tt.in, priced())
			if err != nil {
				t.Fatal(err)
			}
			var got int64
			for _, r := range v.ByRule {
				if r.Rule == tt.aim {
					got = r.Points
				}
			}
			if got != tt.want {
				t.Errorf("%s: %d points, want %d", tt.aim, got, tt.want)
			}
		})
	}
	v, err := Judge(with(two, full(0)), Default())
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range v.Misses {
		if m.Aim == WeekLoad {
			t.Error("an aim without a price is looked at")
		}
	}
}

package load_test

import (
	"fmt"
	"math"
	"slices"
	"testing"
	"time"

	"example.org/weft/load"
	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

func close9(a, b float64) bool {
	return math.Abs(a-b) <= 1e-9*math.Max(1, math.Max(math.Abs(a), math.Abs(b)))
}

var anyCurve = rapid.Custom(func(t *rapid.T) load.Curve {
	c := rapid.SampledFrom(load.Curves()).Draw(t, "curve")
	if rapid.Bool().Draw(t, "beyond 12") {
		c = c.Beyond12()
	}
	return c
})

var anyMass = rapid.Custom(func(t *rapid.T) load.Mass {
	return load.Mass(rapid.Int64Range(1000, 300_000).Draw(t, "grams"))
})

var halfReps = rapid.Custom(func(t *rapid.T) load.Reps {
	return load.Reps(rapid.IntRange(2, 30).Draw(t, "half repetitions")) / 2
})

func TestEpleyAndBrzyckiMeetAtTen(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := anyMass.Draw(t, "load")
		r := load.Reps(rapid.Float64Range(1.001, 36).Draw(t, "repetitions"))
		e, ok1 := load.Epley.Beyond12().Percent(r)
		b, ok2 := load.Brzycki.Beyond12().Percent(r)
		if !ok1 || !ok2 {
			t.Fatal("undefined")
		}
		// A larger 1RM is a smaller percentage.
		if r < 10 && e.Percent >= b.Percent || r > 10 && e.Percent <= b.Percent {
			t.Fatalf("at %v: Epley %v, Brzycki %v", r, e.Percent, b.Percent)
		}
		atTen, _ := load.Epley.OneRepMax(w, 10)
		brzycki, _ := load.Brzycki.OneRepMax(w, 10)
		if d := atTen.Load - brzycki.Load; d < -1 || d > 1 {
			t.Fatalf("at 10: %v and %v", atTen.Load, brzycki.Load)
		}
	})
}

func TestPercentFallsAndInverts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyCurve.Draw(t, "curve")
		r := load.Reps(rapid.Float64Range(1, 36).Draw(t, "repetitions"))
		i, ok := c.Percent(r)
		if !ok {
			if _, ok := c.Percent(r + 1); ok {
				t.Fatal("defined again further on")
			}
			return
		}
		if next, ok := c.Percent(r + 0.25); ok && next.Percent >= i.Percent {
			t.Fatalf("%v at %v, %v a quarter later", i.Percent, r, next.Percent)
		}
		back, ok := c.Reps(i.Percent)
		if !ok || math.Abs(float64(back.Reps-r)) > 1e-6 {
			t.Fatalf("%v repetitions came back as %v, %v", r, back.Reps, ok)
		}
		if back.Interpolated && back.Curve != load.Handbook && back.Curve != load.Handbook.Beyond12() {
			t.Fatal("an equation was interpolated")
		}
	})
}

func TestLoadForInvertsOneRepMax(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, w, r := anyCurve.Draw(t, "curve"), anyMass.Draw(t, "load"), halfReps.Draw(t, "repetitions")
		e, ok := c.OneRepMax(w, r)
		if !ok {
			return
		}
		if e.Load < w {
			t.Fatalf("maximum %v under the load %v", e.Load, w)
		}
		back, ok := c.LoadFor(e.Load, r)
		// The estimate is rounded to a gram either way, the load down.
		if d := w - back; !ok || d < -1 || d > 1 {
			t.Fatalf("%v x %v came back as %v", w, r, back)
		}
	})
}

func TestPercentIsConstantOnAntiDiagonals(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyCurve.Draw(t, "curve")
		reps := load.Reps(rapid.IntRange(1, 12).Draw(t, "repetitions"))
		e := load.Effort(rapid.IntRange(10, 18).Draw(t, "half rating")) / 2
		a, ok1 := c.PercentAt(reps, e)
		b, ok2 := c.PercentAt(reps+1, e+1)
		if ok1 != ok2 || ok1 && a != b {
			t.Fatalf("%v and %v", a, b)
		}
		harder, ok := c.PercentAt(reps, e+0.5)
		if ok1 && (!ok || harder.Percent <= a.Percent) {
			t.Fatalf("%v at %v, %v at %v", a.Percent, e, harder.Percent, e+0.5)
		}
		top, ok := c.PercentAt(1, 10)
		if !ok || top.Percent != 100 {
			t.Fatalf("one at 10 is %v", top)
		}
	})
}

func TestEffortAndReserveAreInverse(t *testing.T) {
	for half := 10; half <= 20; half++ {
		e := load.Effort(half) / 2
		left, ok := e.Reserve(load.TenMinus)
		back, ok2 := load.EffortLeaving(left)
		if !ok || !ok2 || back != e {
			t.Errorf("%v leaves %v, which is %v", e, left, back)
		}
		if low, high, ok := e.ReserveBand(); ok && e != 9.5 && (left < low || left > high) {
			t.Errorf("%v leaves %v, outside %v to %v", e, left, low, high)
		}
	}
}

func TestMonotonyOfEqualDays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.IntRange(1, 6).Draw(t, "days of load")
		x := rapid.Float64Range(1, 2000).Draw(t, "load")
		order := rapid.Permutation([]int{0, 1, 2, 3, 4, 5, 6}).Draw(t, "order")
		var days [7]load.DayLoad
		for i, o := range order {
			days[i] = load.Known(0)
			if o < k {
				days[i] = load.Known(load.AU(x))
			}
		}
		w, ok := load.Week(days, load.Sample)
		m, ok2 := w.Monotony()
		if want := math.Sqrt(6 * float64(k) / (7 * float64(7-k))); !ok || !ok2 || !close9(m, want) {
			t.Fatalf("%v, want %v", m, want)
		}
		s, ok := w.Strain()
		if !ok || !close9(float64(s), float64(w.Total)*m) {
			t.Fatalf("strain %v", s)
		}
	})
}

func TestCoupledAndUncoupledAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		loads := rapid.SliceOfN(rapid.Float64Range(1, 1000), 28, 40).Draw(t, "loads")
		c, ok1 := load.Coupled(known(loads...))
		u, ok2 := load.Uncoupled(known(loads...))
		cr, ok3 := c.Ratio()
		ur, ok4 := u.Ratio()
		if !ok1 || !ok2 || !ok3 || !ok4 {
			t.Fatal("undefined")
		}
		conv, ok := load.CoupledFromUncoupled(ur)
		back, ok2 := load.UncoupledFromCoupled(cr)
		if !ok || !ok2 || !close9(conv, cr) || !close9(back, ur) {
			t.Fatalf("coupled %v and %v, uncoupled %v and %v", cr, conv, ur, back)
		}
	})
}

func TestImpulseClosedForms(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := load.ImpulseModel{
			Tau2: load.Days(rapid.Float64Range(2, 30).Draw(t, "tau2")),
			K1:   rapid.Float64Range(0.1, 5).Draw(t, "k1"),
		}
		m.Tau1 = m.Tau2 * load.Days(rapid.Float64Range(1.1, 6).Draw(t, "tau1 over tau2"))
		m.K2 = m.K1 * rapid.Float64Range(1.05, 4).Draw(t, "k2 over k1")
		neutral, ok1 := m.NeutralAfter()
		peak, ok2 := m.PeakAfter()
		if !ok1 || !ok2 || !(0 < neutral && neutral < peak) {
			t.Fatalf("t_n %v, t_g %v", neutral, peak)
		}
		at := func(d load.Days) float64 {
			r, ok := m.Response(d)
			if !ok {
				t.Fatal("no response")
			}
			return r
		}
		if math.Abs(at(neutral)) > 1e-9*m.K2 {
			t.Fatalf("response at t_n is %v", at(neutral))
		}
		if top := at(peak); top < at(peak*0.9) || top < at(peak*1.1) || top <= 0 {
			t.Fatalf("t_g is not the peak: %v, %v, %v", at(peak*0.9), top, at(peak*1.1))
		}
		// One load and rest follow the response.
		n := rapid.IntRange(1, 60).Draw(t, "days")
		s, ok := m.After(append(known(100), slices.Repeat(known(0), n-1)...))
		if !ok || math.Abs(s.Performance-100*at(load.Days(n))) > 1e-7 {
			t.Fatalf("day %d: %v, want %v", n, s.Performance, 100*at(load.Days(n)))
		}
	})
}

func TestChancesSumToHundred(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := rapid.Float64Range(-20, 20).Draw(t, "change")
		swc := rapid.Float64Range(0, 5).Draw(t, "smallest worthwhile change")
		te := rapid.Float64Range(0.05, 10).Draw(t, "typical error")
		n1, n2 := rapid.IntRange(1, 5).Draw(t, "n1"), rapid.IntRange(1, 5).Draw(t, "n2")
		c, ok := load.ChangeProbabilities(d, swc, te, n1, n2)
		if !ok || !close9(float64(c.Higher+c.Trivial+c.Lower), 100) || min(c.Higher, c.Trivial, c.Lower) < 0 {
			t.Fatalf("%+v", c)
		}
		mirror, _ := load.ChangeProbabilities(-d, swc, te, n1, n2)
		if c.Higher != mirror.Lower || c.Lower != mirror.Higher {
			t.Fatalf("%+v and its mirror %+v", c, mirror)
		}
	})
}

func TestHeartRateReserveInverts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rest := load.BPM(rapid.Float64Range(35, 90).Draw(t, "rest"))
		max := load.BPM(rapid.Float64Range(150, 220).Draw(t, "max"))
		p := load.Percent(rapid.Float64Range(0, 99.9).Draw(t, "percent"))
		rate, ok := load.AtReserve(rest, max, p)
		back, ok2 := load.ReserveShare(rest, max, rate)
		if !ok || !ok2 || !close9(float64(back), float64(p)) {
			t.Fatalf("%v came back as %v", p, back)
		}
	})
}

func TestVelocityInverts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := rapid.SampledFrom([]load.VelocityCurve{load.BenchPressVelocity, load.FullSquatVelocity}).Draw(t, "curve")
		p := load.Percent(rapid.Float64Range(30.001, 100).Draw(t, "percent"))
		v, ok := c.Velocity(p)
		back, ok2 := c.Percent(v)
		if !ok || !ok2 || !close9(float64(back), float64(p)) {
			t.Fatalf("%v at %v came back as %v", p, v, back)
		}
	})
}

func TestVelocityLineRecoversALine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		slope := rapid.Float64Range(-0.03, -0.002).Draw(t, "slope")
		max := rapid.Float64Range(60, 200).Draw(t, "1RM in kg")
		shares := rapid.SliceOfNDistinct(rapid.IntRange(30, 95), 2, 8, rapid.ID).Draw(t, "percent")
		var lifts []load.LoadVelocity
		for _, s := range shares {
			m := load.Mass(max * 10 * float64(s))
			lifts = append(lifts, load.LoadVelocity{Load: m, Velocity: load.MetresPerSecond(0.2 + slope*(m.Kilograms()-max))})
		}
		l, ok := load.FitVelocityLine(lifts)
		got, ok2 := l.OneRepMax(0.2)
		if !ok || !ok2 || math.Abs(l.Slope-slope) > 1e-9 || math.Abs(got.Kilograms()-max) > 0.002 || l.RSquared < 0.999999 {
			t.Fatalf("%+v, 1RM %v, want %v kg", l, got, max)
		}
	})
}

func TestJumpHeightGrowsWithTheSquare(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := time.Duration(rapid.Int64Range(1e6, 1e9).Draw(t, "flight"))
		one, ok1 := load.JumpHeight(d)
		two, ok2 := load.JumpHeight(2 * d)
		if !ok1 || !ok2 || !close9(float64(two), 4*float64(one)) {
			t.Fatalf("%v and %v", one, two)
		}
	})
}

func TestMassTextRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := load.Mass(rapid.Int64Range(0, int64(load.MaxMass)).Draw(t, "grams"))
		back, err := load.ParseMass(m.String())
		if err != nil || back != m {
			t.Fatalf("%v came back as %v, %v", m, back, err)
		}
		hundredths := rapid.Int64Range(0, 2_000_000).Draw(t, "hundredths of a pound")
		text := fmt.Sprintf("%d.%02d lb", hundredths/100, hundredths%100)
		lb, err := load.ParseMass(text)
		if err != nil {
			t.Fatal(err)
		}
		again, err := load.ParseMass(lb.Text(load.InPounds))
		if err != nil || again != lb {
			t.Fatalf("%s is %v, written %s", text, lb, lb.Text(load.InPounds))
		}
		if d := lb.Pounds() - float64(hundredths)/100; math.Abs(d) > 0.0012 {
			t.Fatalf("%s is off by %v", text, d)
		}
	})
}

func TestMassJSONRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := load.Mass(rapid.Int64Range(0, int64(load.MaxMass)).Draw(t, "grams"))
		b, err := m.MarshalJSON()
		if err != nil {
			t.Fatal(err)
		}
		var back load.Mass
		if err := back.UnmarshalJSON(b); err != nil || back != m {
			t.Fatalf("%s came back as %v, %v", b, back, err)
		}
	})
}

func TestDaysRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := load.Day(rapid.Int32Range(-719162, 2932896).Draw(t, "day"))
		back, err := load.ParseDay(d.String())
		if err != nil || back != d {
			t.Fatalf("%v came back as %v, %v", d, back, err)
		}
		n := rapid.IntRange(-1000, 1000).Draw(t, "days")
		if e, ok := d.Plus(n); ok {
			if f, ok := e.Plus(-n); !ok || f != d {
				t.Fatalf("%v plus and minus %d is %v", d, n, f)
			}
		}
	})
}

func TestWeeklySetsIgnoresOrder(t *testing.T) {
	patterns := rapid.SliceOfN(rapid.SampledFrom([]load.Pattern{"push", "pull", "lower", "trunk"}), 0, 3)
	work := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) load.Work {
		return load.Work{Sets: rapid.IntRange(0, 6).Draw(t, "sets"), Direct: patterns.Draw(t, "direct"), Indirect: patterns.Draw(t, "indirect")}
	}), 0, 8)
	rapid.Check(t, func(t *rapid.T) {
		w := work.Draw(t, "work")
		a, ok := load.WeeklySets(w)
		shuffled := rapid.Permutation(w).Draw(t, "shuffled")
		b, ok2 := load.WeeklySets(shuffled)
		if !ok || !ok2 {
			t.Fatal("undefined")
		}
		if d := cmp.Diff(a, b); d != "" {
			t.Fatal(d)
		}
		for _, row := range a {
			if row.Total != load.Sets(row.Direct)+0.5*load.Sets(row.Indirect) {
				t.Fatalf("%+v", row)
			}
		}
	})
}

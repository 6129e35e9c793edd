package load_test

import (
	"math"
	"reflect"
	"testing"
	"time"

	"example.org/weft/load"
)

// finite fails if a result holds NaN or an infinity anywhere, defined or not.
func finite(t *testing.T, name string, ok bool, results ...any) {
	t.Helper()
	for _, r := range results {
		if bad := badNumber(reflect.ValueOf(r)); bad {
			t.Errorf("%s: %v, %v", name, r, ok)
		}
	}
}

func badNumber(v reflect.Value) bool {
	switch v.Kind() {
	case reflect.Float64:
		return math.IsNaN(v.Float()) || math.IsInf(v.Float(), 0)
	case reflect.Struct:
		for i := range v.NumField() {
			if badNumber(v.Field(i)) {
				return true
			}
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			if badNumber(v.Index(i)) {
				return true
			}
		}
	}
	return false
}

func FuzzNumbers(f *testing.F) {
	f.Add(100.0, 5.0, 8.0, int64(100_000), 5, uint8(1))
	f.Add(math.NaN(), math.Inf(1), math.Inf(-1), int64(math.MinInt64), -1, uint8(255))
	f.Add(math.MaxFloat64, -math.MaxFloat64, 5e-324, int64(math.MaxInt64), math.MaxInt32, uint8(128))
	f.Add(0.0, 1.0, 36.0, int64(1), 0, uint8(7))
	f.Add(1e9, 1e-300, 9.5, int64(load.MaxMass), 1000, uint8(130))
	f.Fuzz(func(t *testing.T, x, y, z float64, m int64, n int, k uint8) {
		mass, d := load.Mass(m), load.Day(n)

		c, g := load.Curve(k), load.Regression(k)
		for _, reps := range []load.Reps{load.Reps(x), load.Reps(y), load.Reps(z)} {
			e, ok := c.OneRepMax(mass, reps)
			finite(t, "OneRepMax", ok, e.Load, float64(e.Reps))
			e, ok = g.OneRepMax(mass, reps)
			finite(t, "Regression.OneRepMax", ok, e.Load, float64(e.Reps))
			i, ok := c.Percent(reps)
			finite(t, "Percent", ok, i)
			w, ok := c.LoadFor(mass, reps)
			if ok && (w < 0 || w > mass) {
				t.Errorf("LoadFor(%d, %v) = %d", mass, reps, w)
			}
			_, ok = load.RaterError(reps, k%2 == 0)
			ef, ok2 := load.EffortLeaving(reps)
			finite(t, "EffortLeaving", ok && ok2, ef)
			lo, hi, ok := load.Progression(mass, reps)
			if ok && (lo < mass || hi < lo) {
				t.Errorf("Progression(%d) = %d, %d", mass, lo, hi)
			}
		}
		i, ok := c.Reps(load.Percent(y))
		finite(t, "Reps", ok, i)
		i, ok = c.PercentAt(load.Reps(x), load.Effort(z))
		finite(t, "PercentAt", ok, i)
		e, ok := c.OneRepMaxAt(mass, load.Reps(x), load.Effort(z))
		finite(t, "OneRepMaxAt", ok, e.Load)
		_, ok = c.LoadAt(mass, load.Reps(x), load.Effort(z))
		left, ok2 := load.Effort(z).Reserve(load.ReserveRule(k))
		low, high, ok3 := load.Effort(z).ReserveBand()
		finite(t, "Effort", ok && ok2 && ok3, left, low, high)
		_, _, _, _ = c.String(), c.Source(), g.String(), g.Source()

		zone, ok := load.Prilepin(load.Percent(x))
		finite(t, "Prilepin", ok, zone)
		fs, ok := load.CheckPrilepin(n, int(k), load.Percent(x))
		finite(t, "CheckPrilepin", ok, fs)
		fs, ok = load.Goal(k).Check(n, n, load.Percent(x), time.Duration(m))
		finite(t, "Goal.Check", ok, fs)
		v, ok := load.TotalVolumeLoad([]load.SetGroup{{n, int(k), mass}, {int(k), n, mass}})
		if ok && v < 0 {
			t.Errorf("TotalVolumeLoad = %d", v)
		}
		rv, ok := load.TotalRelativeVolume([]load.RelativeGroup{{n, int(k), load.Percent(x)}})
		finite(t, "TotalRelativeVolume", ok, rv)
		load.WeeklySets([]load.Work{{Sets: n, Direct: []load.Pattern{"push"}}})
		load.Sets(x).Band()
		dur, ok := load.Outline{time.Duration(m), []load.Block{{n, int(k), time.Duration(m), time.Duration(m)}}, time.Duration(m)}.Duration()
		if ok && dur < 0 {
			t.Errorf("Duration = %v", dur)
		}
		pm, ok := load.Percent(x).Of(mass)
		if ok && pm < 0 {
			t.Errorf("Of = %d", pm)
		}
		minutes, ok := load.MinutesOf(time.Duration(m))
		finite(t, "MinutesOf", ok, minutes)

		au, ok := load.SessionLoad(load.SessionRating(x), load.Minutes(y))
		finite(t, "SessionLoad", ok, au)
		days := make([]load.DayLoad, 28+int(k%10))
		for i := range days {
			days[i] = load.Known(load.AU([]float64{x, y, z, 0, 100}[(i*i+int(k))%5]))
			days[i].Known = i != n
		}
		w, ok := load.Week([7]load.DayLoad(days[:7]), load.Divisor(k%3))
		mono, ok2 := w.Monotony()
		strain, ok3 := w.Strain()
		finite(t, "Week", ok && ok2 && ok3, w, mono, strain)
		for _, f := range []func([]load.DayLoad) (load.AcuteChronic, bool){
			load.Coupled, load.Uncoupled,
			func(d []load.DayLoad) (load.AcuteChronic, bool) {
				return load.Exponential(d, load.Seed{Given: k%2 == 0, Acute: load.AU(x), Chronic: load.AU(z)})
			},
		} {
			a, ok := f(days)
			r, ok2 := a.Ratio()
			finite(t, "acute and chronic", ok && ok2, a, r)
		}
		r, ok := load.CoupledFromUncoupled(x)
		finite(t, "CoupledFromUncoupled", ok, r)
		r, ok = load.UncoupledFromCoupled(x)
		finite(t, "UncoupledFromCoupled", ok, r)
		model := load.ImpulseModel{load.Days(x), load.Days(y), z, x, y}
		s, ok := model.After(days)
		finite(t, "After", ok, s)
		r, ok = model.Response(load.Days(z))
		finite(t, "Response", ok, r)
		td, ok := model.NeutralAfter()
		finite(t, "NeutralAfter", ok, td)
		td, ok = model.PeakAfter()
		finite(t, "PeakAfter", ok, td)
		if series, err := load.NewSeries([]load.Dated{{d, load.AU(x)}}, d, d+load.Day(k)); err == nil {
			series.At(load.Day(math.MaxInt32))
			series.Days(load.Day(math.MinInt32), int(k))
			series.Week(d, load.Sample)
		}

		bpm, ok := load.MaxHeartRate(k % 4).At(load.Years(x))
		finite(t, "MaxHeartRate", ok, bpm)
		bpm, ok = load.AtReserve(load.BPM(x), load.BPM(y), load.Percent(z))
		finite(t, "AtReserve", ok, bpm)
		share, ok := load.ReserveShare(load.BPM(x), load.BPM(y), load.BPM(z))
		finite(t, "ReserveShare", ok, share)
		ti, ok := load.TrainingImpulse(load.Minutes(x), 60, load.BPM(y), load.BPM(z), load.TrimpWeights(k%3))
		finite(t, "TrainingImpulse", ok, ti)
		_, _ = load.Quality(k).ResidualAfter(d)
		_ = d.String()
		_, _ = d.Plus(int(m))

		rt, ok := load.TypicalError([]float64{x, y, z}, []float64{y, z, x})
		finite(t, "TypicalError", ok, rt)
		rm, ok := load.TypicalError([]load.Mass{mass, load.Mass(n)}, []load.Mass{load.Mass(n), mass})
		finite(t, "TypicalError of masses", ok, rm)
		q, ok := load.SmallestWorthwhileChange([]float64{x, y, z})
		finite(t, "SmallestWorthwhileChange", ok, q)
		q, ok = load.ErrorOf(x, load.Percent(y))
		finite(t, "ErrorOf", ok, q)
		q, ok = load.MinimalDetectableChange(x)
		finite(t, "MinimalDetectableChange", ok, q)
		if mdc, ok := load.MinimalDetectableChange(mass); ok && mdc < 0 {
			t.Errorf("MinimalDetectableChange(%d) = %d", mass, mdc)
		}
		load.CompareTests(x, y, z)
		ch, ok := load.ChangeProbabilities(x, y, z, n, int(k))
		finite(t, "ChangeProbabilities", ok, ch)
		h, ok := load.JumpHeight(time.Duration(m))
		finite(t, "JumpHeight", ok, h)
		var b load.Baseline
		b.Add(x)
		b.Add(y)
		zs, ok := b.Z(z)
		mean, ok2 := b.Mean()
		sd, ok3 := b.SD()
		finite(t, "Baseline", ok && ok2 && ok3, zs, mean, sd)
		wz, ok := load.WellnessZ([]load.McLeanScore{load.McLeanScore(n), load.McLeanScore(k)}, load.McLeanScore(m))
		finite(t, "WellnessZ", ok, wz)
		load.Hooper{n, int(k), 1, 7}.Score()
		load.WeeklyBodyMass([7]load.BodyMass{{mass, true}, {load.Mass(n), k%2 == 0}})
		_, _ = load.WithinHydration(mass, load.Mass(n))

		p, ok := load.VelocityCurve(k % 3).Percent(load.MetresPerSecond(x))
		finite(t, "VelocityCurve.Percent", ok, p)
		vel, ok := load.VelocityCurve(k % 3).Velocity(load.Percent(x))
		finite(t, "VelocityCurve.Velocity", ok, vel)
		line, ok := load.FitVelocityLine([]load.LoadVelocity{{mass, load.MetresPerSecond(x)}, {load.Mass(n), load.MetresPerSecond(y)}, {1000, 1}})
		finite(t, "FitVelocityLine", ok, line)
		line.OneRepMax(load.MetresPerSecond(z))
		load.VelocityLine{Intercept: load.MetresPerSecond(x), Slope: y}.OneRepMax(load.MetresPerSecond(z))
		_, _ = load.CoachesNeeded(n, int(k))
		_, _ = load.HoursOverAge(load.Years(x), time.Duration(m))
		load.ConsecutiveDays([]load.Day{d, d + 1, math.MaxInt32, math.MinInt32})
		_, _ = load.Congested(time.Duration(m))
		load.FixedAtMost(mass, []load.Mass{load.Mass(n), 1000})

		for _, x := range []float64{x, y, z} {
			if kg, err := load.Kilograms(x); err == nil && (kg < 0 || kg > load.MaxMass) {
				t.Errorf("Kilograms(%v) = %d", x, kg)
			}
			if lb, err := load.Pounds(x); err == nil && (lb < 0 || lb > load.MaxMass) {
				t.Errorf("Pounds(%v) = %d", x, lb)
			}
		}
		_, _ = mass.String(), mass.Text(load.Unit(k))
	})
}

func FuzzParseMass(f *testing.F) {
	for _, s := range []string{"100 kg", "225 lb", "0.5 g", "-1 kg", "NaN kg", "1e3 kg", "100", "9999999.999999999 lb", "\x00", "1,5 kg"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		m, err := load.ParseMass(s)
		if err != nil {
			if reasons(err) == nil || m != 0 {
				t.Errorf("%q: %d, %v", s, m, err)
			}
			return
		}
		if m < 0 || m > load.MaxMass {
			t.Errorf("%q is %d", s, m)
		}
		if back, err := load.ParseMass(m.String()); err != nil || back != m {
			t.Errorf("%q is %v, which is %v", s, m, back)
		}
	})
}

func FuzzMassJSON(f *testing.F) {
	for _, s := range []string{`"100 kg"`, `{"grams":1}`, `{"grams":1,"grams":2}`, `null`, `1`, `{`, `"\ud800 kg"`} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, b []byte) {
		m := load.Mass(-1)
		if err := m.UnmarshalJSON(b); err != nil {
			if m != -1 || reasons(err) == nil {
				t.Errorf("%q: %d, %v", b, m, err)
			}
			return
		}
		out, err := m.MarshalJSON()
		var back load.Mass
		if err != nil || back.UnmarshalJSON(out) != nil || back != m {
			t.Errorf("%q is %d, written %s", b, m, out)
		}
	})
}

func FuzzParseDay(f *testing.F) {
	for _, s := range []string{"2026-11-08", "2026-02-29", "0000-01-01", "9999-12-31", "1969-12-31", "-001-01-01"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		if d, err := load.ParseDay(s); err == nil && d.String() != s {
			t.Errorf("%q is %v", s, d)
		}
	})
}

func FuzzRack(f *testing.F) {
	f.Add(int64(20_000), int64(25_000), 1, int64(20_000), 2, int64(100_000))
	f.Add(int64(20_412), int64(20_412), 5, int64(1), 3, int64(61_235))
	f.Add(int64(-1), int64(0), -1, int64(math.MaxInt64), math.MaxInt32, int64(math.MinInt64))
	f.Fuzz(func(t *testing.T, bar, disc1 int64, pairs1 int, disc2 int64, pairs2 int, target int64) {
		r, err := load.NewRack(load.Mass(bar), []load.Disc{{load.Mass(disc1), pairs1}, {load.Mass(disc2), pairs2}})
		if err != nil {
			if reasons(err) == nil {
				t.Errorf("error %T says nothing", err)
			}
			return
		}
		l, ok := r.AtMost(load.Mass(target))
		if ok != (target >= bar) || ok && l.Total > load.Mass(target) {
			t.Errorf("at most %d: %+v, %v", target, l.Total, ok)
		}
		if up, ok := r.Above(l.Total); ok && l.Total > 0 && up.Total <= load.Mass(target) {
			t.Errorf("%v is at most %d too", up.Total, target)
		}
	})
}

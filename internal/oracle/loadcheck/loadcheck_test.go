package loadcheck

import (
	"math"
	"testing"

	"example.org/weft/load"
	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
	"pgregory.net/rapid"
)

func agree(t *rapid.T, name string, got, want float64) {
	t.Helper()
	if !(math.Abs(got-want) <= 1e-9*math.Max(1, math.Abs(want))) {
		t.Fatalf("%s: %v, second opinion %v", name, got, want)
	}
}

func values(t *rapid.T, name string, low, high float64, least, most int) []float64 {
	return rapid.SliceOfN(rapid.Float64Range(low, high), least, most).Draw(t, name)
}

func known(xs []float64) []load.DayLoad {
	days := make([]load.DayLoad, len(xs))
	for i, x := range xs {
		days[i] = load.Known(load.AU(x))
	}
	return days
}

func TestWeek(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		xs := values(t, "loads", 0, 1500, 7, 7)
		mean, sd := stat.MeanStdDev(xs, nil)
		if sd < 1e-3 {
			return
		}
		sample, ok1 := load.Week([7]load.DayLoad(known(xs)), load.Sample)
		population, ok2 := load.Week([7]load.DayLoad(known(xs)), load.Population)
		m, ok3 := sample.Monotony()
		strain, ok4 := sample.Strain()
		if !ok1 || !ok2 || !ok3 || !ok4 {
			t.Fatal("undefined")
		}
		agree(t, "mean", float64(sample.Mean), mean)
		agree(t, "sample SD", float64(sample.SD), sd)
		agree(t, "population SD", float64(population.SD), stat.PopStdDev(xs, nil))
		agree(t, "monotony", m, mean/sd)
		agree(t, "strain", float64(strain), 7*mean*mean/sd)
	})
}

func TestWindows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		xs := values(t, "loads", 1, 1500, 28, 60)
		last := xs[len(xs)-28:]
		c, ok1 := load.Coupled(known(xs))
		u, ok2 := load.Uncoupled(known(xs))
		if !ok1 || !ok2 {
			t.Fatal("undefined")
		}
		agree(t, "acute", float64(c.Acute), stat.Mean(last[21:], nil))
		agree(t, "chronic, coupled", float64(c.Chronic), stat.Mean(last, nil))
		agree(t, "chronic, uncoupled", float64(u.Chronic), stat.Mean(last[:21], nil))
		// The exponential average as a weighted mean of all days.
		weights := make([]float64, len(xs))
		for i := range weights {
			weights[i] = 2.0 / 29 * math.Pow(1-2.0/29, float64(len(xs)-1-i))
		}
		weights[0] = math.Pow(1-2.0/29, float64(len(xs)-1))
		e, ok := load.Exponential(known(xs), load.Seed{})
		if !ok {
			t.Fatal("undefined")
		}
		agree(t, "exponential", float64(e.Chronic), stat.Mean(xs, weights))
	})
}

func TestRetest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := values(t, "first", 20, 300, 2, 40)
		b := values(t, "second", 20, 300, len(a), len(a))
		differences, ratios := make([]float64, len(a)), make([]float64, len(a))
		for i := range a {
			differences[i], ratios[i] = b[i]-a[i], math.Log(b[i]/a[i])
		}
		r, ok := load.TypicalError(a, b)
		if !ok || !r.CVDefined {
			t.Fatal("undefined")
		}
		mean, sd := stat.MeanStdDev(differences, nil)
		agree(t, "mean change", r.MeanChange, mean)
		agree(t, "SD of differences", r.SDDifference, sd)
		agree(t, "typical error", r.TypicalError, sd/math.Sqrt2)
		agree(t, "coefficient of variation", float64(r.CV), 100*(math.Exp(stat.StdDev(ratios, nil)/math.Sqrt2)-1))
		swc, ok := load.SmallestWorthwhileChange(a)
		if !ok {
			t.Fatal("undefined")
		}
		agree(t, "smallest worthwhile change", swc, 0.2*stat.StdDev(a, nil))
	})
}

func TestChances(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := rapid.Float64Range(-20, 20).Draw(t, "change")
		swc := rapid.Float64Range(0, 5).Draw(t, "swc")
		te := rapid.Float64Range(0.1, 10).Draw(t, "te")
		n1, n2 := rapid.IntRange(1, 5).Draw(t, "n1"), rapid.IntRange(1, 5).Draw(t, "n2")
		truth := distuv.Normal{Mu: d, Sigma: te * math.Sqrt(1/float64(n1)+1/float64(n2))}
		c, ok := load.ChangeProbabilities(d, swc, te, n1, n2)
		if !ok {
			t.Fatal("undefined")
		}
		agree(t, "higher", float64(c.Higher), 100*truth.Survival(swc))
		agree(t, "lower", float64(c.Lower), 100*truth.CDF(-swc))
		agree(t, "trivial", float64(c.Trivial), 100*(truth.CDF(swc)-truth.CDF(-swc)))
	})
}

func TestMinimalDetectableChange(t *testing.T) {
	// 1.96 is the quantile of the normal distribution to two decimals.
	if q := (distuv.Normal{Sigma: 1}).Quantile(0.975); math.Abs(q-1.96) > 5e-5 {
		t.Fatalf("quantile %v", q)
	}
	got, ok := load.MinimalDetectableChange(1.0)
	if want := 1.96 * math.Sqrt(2); !ok || math.Abs(got-want) > 1e-12 {
		t.Errorf("%v, second opinion %v", got, want)
	}
}

func TestVelocityLine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		loads := rapid.SliceOfNDistinct(rapid.Int64Range(20_000, 200_000), 2, 12, rapid.ID).Draw(t, "grams")
		vs := values(t, "velocities", 0.1, 1.6, len(loads), len(loads))
		lifts := make([]load.LoadVelocity, len(loads))
		xs := make([]float64, len(loads))
		for i := range loads {
			lifts[i] = load.LoadVelocity{Load: load.Mass(loads[i]), Velocity: load.MetresPerSecond(vs[i])}
			xs[i] = float64(loads[i]) / 1000
		}
		intercept, slope := stat.LinearRegression(xs, vs, nil, false)
		l, ok := load.FitVelocityLine(lifts)
		if ok != (slope < 0) && math.Abs(slope) > 1e-12 {
			t.Fatalf("defined %v at slope %v", ok, slope)
		}
		if !ok {
			return
		}
		// Lifts a gram apart leave a slope few digits.
		if stat.StdDev(xs, nil) < 0.5 {
			return
		}
		agree(t, "slope", l.Slope, slope)
		agree(t, "intercept", float64(l.Intercept), intercept)
		agree(t, "share explained", l.RSquared, stat.RSquared(xs, vs, nil, intercept, slope))
	})
}

func TestBaseline(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		xs := values(t, "values", 0, 30, 2, 60)
		today := rapid.Float64Range(0, 30).Draw(t, "today")
		mean, sd := stat.MeanStdDev(xs, nil)
		if sd < 0.1 {
			return
		}
		var b load.Baseline
		for _, x := range xs {
			b.Add(x)
		}
		z, ok := b.Z(today)
		if !ok {
			t.Fatal("undefined")
		}
		agree(t, "z", z, stat.StdScore(today, mean, sd))
	})
}

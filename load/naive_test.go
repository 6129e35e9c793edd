package load_test

import (
	"math"
	"slices"
	"testing"

	"example.org/weft/load"
	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// anyDays is a log in which about one day in twelve is unknown.
var anyDays = rapid.SliceOfN(rapid.Custom(func(t *rapid.T) load.DayLoad {
	switch rapid.IntRange(0, 11).Draw(t, "kind") {
	case 0:
		return load.DayLoad{}
	case 1, 2:
		return load.Known(0)
	}
	// In tenths, so that unequal loads differ by more than rounding does.
	return load.Known(load.AU(rapid.IntRange(0, 15_000).Draw(t, "load in tenths")) / 10)
}), 0, 90)

// The plain definitions, straight from the words.

func naiveMean(days []load.DayLoad) (float64, bool) {
	sum := 0.0
	for _, d := range days {
		if !d.Known {
			return 0, false
		}
		sum += float64(d.Load)
	}
	return sum / float64(len(days)), len(days) > 0
}

func naiveMonotony(days []load.DayLoad) (float64, bool) {
	if len(days) < 7 {
		return 0, false
	}
	days = days[len(days)-7:]
	mean, ok := naiveMean(days)
	if !ok {
		return 0, false
	}
	var squares float64
	for _, d := range days {
		squares += math.Pow(float64(d.Load)-mean, 2)
	}
	sd := math.Sqrt(squares / 6)
	return mean / sd, sd > 1e-9
}

func naiveWindows(days []load.DayLoad) (coupled, uncoupled float64, ok bool) {
	if len(days) < 28 {
		return 0, 0, false
	}
	days = days[len(days)-28:]
	acute, ok1 := naiveMean(days[21:])
	all, ok2 := naiveMean(days)
	before, ok3 := naiveMean(days[:21])
	return acute / all, acute / before, ok1 && ok2 && ok3 && all > 0 && before > 0
}

// naiveExponential expands the recurrence into weights of the known days.
func naiveExponential(days []load.DayLoad, n float64) (float64, bool) {
	if len(days) == 0 || !days[len(days)-1].Known {
		return 0, false
	}
	var knownDays []float64
	for _, d := range days {
		if d.Known {
			knownDays = append(knownDays, float64(d.Load))
		}
	}
	lambda := 2 / (n + 1)
	last := len(knownDays) - 1
	e := math.Pow(1-lambda, float64(last)) * knownDays[0]
	for i := 1; i <= last; i++ {
		e += lambda * math.Pow(1-lambda, float64(last-i)) * knownDays[i]
	}
	return e, true
}

func naiveImpulse(m load.ImpulseModel, days []load.DayLoad) (float64, bool) {
	p := m.P0
	for i, d := range days {
		if !d.Known {
			return 0, false
		}
		t := float64(len(days) - i)
		p += float64(d.Load) * (m.K1*math.Exp(-t/float64(m.Tau1)) - m.K2*math.Exp(-t/float64(m.Tau2)))
	}
	return p, true
}

func TestStreamingEqualsDefinitions(t *testing.T) {
	model := load.ImpulseModel{Tau1: 42, Tau2: 9, K1: 1, K2: 1.7, P0: 300}
	rapid.Check(t, func(t *rapid.T) {
		days := anyDays.Draw(t, "days")
		tracker, err := load.NewTracker(load.TrackerOptions{AcuteChronic: true, Impulse: model})
		if err != nil {
			t.Fatal(err)
		}
		same := func(name string, got float64, ok bool, want float64, wantOK bool) {
			t.Helper()
			if ok != wantOK || ok && math.Abs(got-want) > 1e-8*math.Max(1, math.Abs(want)) {
				t.Fatalf("%s: %v, %v, want %v, %v", name, got, ok, want, wantOK)
			}
		}
		for i, d := range days {
			if counts := tracker.Add(d); counts != d.Known {
				t.Fatalf("day %d counts %v", i, counts)
			}
			so := days[:i+1]

			w, ok := tracker.Week()
			m, ok2 := w.Monotony()
			want, wantOK := naiveMonotony(so)
			same("monotony", m, ok && ok2, want, wantOK)

			c, ok := tracker.Coupled()
			cr, ok2 := c.Ratio()
			u, ok3 := tracker.Uncoupled()
			ur, ok4 := u.Ratio()
			wantC, wantU, wantOK := naiveWindows(so)
			same("coupled", cr, ok && ok2 && ok3 && ok4, wantC, wantOK)
			same("uncoupled", ur, ok && ok2 && ok3 && ok4, wantU, wantOK)

			e, ok := tracker.Exponential()
			want, wantOK = naiveExponential(so, 7)
			same("acute", float64(e.Acute), ok, want, wantOK)
			want, wantOK = naiveExponential(so, 28)
			same("chronic", float64(e.Chronic), ok, want, wantOK)
			run := 0
			for k := i; k >= 0 && days[k].Known; k-- {
				run++
			}
			if ok && e.WarmingUp != (run < 28) {
				t.Fatalf("warming up %v after %d known days", e.WarmingUp, run)
			}

			s, ok := tracker.Impulse()
			want, wantOK = naiveImpulse(model, so)
			same("performance", s.Performance, ok, want, wantOK)
		}
	})
}

func TestStreamingEqualsSlices(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		days := anyDays.Draw(t, "days")
		var month load.RollingMonth
		var rolling load.RollingWeek
		for i, d := range days {
			month.Add(d)
			rolling.Add(d)
			a, ok1 := month.Coupled()
			b, ok2 := load.Coupled(days[:i+1])
			if a != b || ok1 != ok2 {
				t.Fatalf("coupled %v and %v", a, b)
			}
			a, ok1 = month.Uncoupled()
			b, ok2 = load.Uncoupled(days[:i+1])
			if a != b || ok1 != ok2 {
				t.Fatalf("uncoupled %v and %v", a, b)
			}
			if i >= 6 {
				v, ok1 := rolling.Week(load.Population)
				w, ok2 := load.Week([7]load.DayLoad(days[i-6:i+1]), load.Population)
				if v != w || ok1 != ok2 {
					t.Fatalf("week %v and %v", v, w)
				}
			}
		}
	})
}

func TestSeriesEqualsItsEntries(t *testing.T) {
	const from = load.Day(20_000)
	rapid.Check(t, func(t *rapid.T) {
		entries := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) load.Dated {
			return load.Dated{Day: from + load.Day(rapid.IntRange(-3, 15).Draw(t, "day")), Load: load.AU(rapid.IntRange(0, 900).Draw(t, "load"))}
		}), 0, 30).Draw(t, "entries")
		s, err := load.NewSeries(entries, from, from+12)
		if err != nil {
			t.Fatal(err)
		}
		for d := from - 4; d < from+17; d++ {
			var want load.DayLoad
			for _, e := range entries {
				if e.Day == d && d >= from && d <= from+12 {
					want.Known = true
					want.Load += e.Load
				}
			}
			if got := s.At(d); got != want {
				t.Fatalf("%v is %v, want %v", d, got, want)
			}
		}
		last := from + load.Day(rapid.IntRange(0, 14).Draw(t, "last"))
		days := s.Days(last, 7)
		for i, d := range days {
			if d != s.At(last-6+load.Day(i)) {
				t.Fatalf("day %d of the week to %v", i, last)
			}
		}
		a, ok1 := s.Week(last, load.Sample)
		b, ok2 := load.Week([7]load.DayLoad(days), load.Sample)
		if a != b || ok1 != ok2 {
			t.Fatal("week of the series differs")
		}
	})
}

func TestBaselineEqualsDefinition(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		xs := rapid.SliceOfN(rapid.Float64Range(-1000, 1000), 0, 60).Draw(t, "values")
		var b load.Baseline
		for _, x := range xs {
			b.Add(x)
		}
		sum, squares := 0.0, 0.0
		for _, x := range xs {
			sum += x
		}
		mean := sum / float64(len(xs))
		for _, x := range xs {
			squares += (x - mean) * (x - mean)
		}
		got, ok := b.Mean()
		if ok != (len(xs) > 0) || ok && math.Abs(got-mean) > 1e-9*1000 {
			t.Fatalf("mean %v, want %v", got, mean)
		}
		sd, ok := b.SD()
		if want := math.Sqrt(squares / float64(len(xs)-1)); ok != (len(xs) > 1) || ok && math.Abs(sd-want) > 1e-6 {
			t.Fatalf("standard deviation %v, want %v", sd, want)
		}
	})
}

// A day's update of every series allocates nothing.
func TestUpdateAllocatesNothing(t *testing.T) {
	tracker, err := load.NewTracker(load.TrackerOptions{AcuteChronic: true, Impulse: load.DefaultImpulseModel()})
	if err != nil {
		t.Fatal(err)
	}
	var b load.Baseline
	n := 0
	allocs := testing.AllocsPerRun(1000, func() {
		n++
		tracker.Add(load.Known(load.AU(n % 7 * 100)))
		tracker.Week()
		tracker.Coupled()
		tracker.Uncoupled()
		tracker.Exponential()
		tracker.Impulse()
		b.Add(float64(n % 5))
		b.Z(3)
	})
	if allocs != 0 {
		t.Errorf("%v allocations a day", allocs)
	}
}

// bruteForce tries every number of pairs of every disc.
func bruteForce(bar load.Mass, discs []load.Disc) map[load.Mass]bool {
	sides := map[load.Mass]bool{0: true}
	for _, d := range discs {
		next := map[load.Mass]bool{}
		for s := range sides {
			for k := 0; k <= d.Pairs; k++ {
				next[s+load.Mass(k)*d.Mass] = true
			}
		}
		sides = next
	}
	totals := map[load.Mass]bool{}
	for s := range sides {
		totals[bar+2*s] = true
	}
	return totals
}

func TestRackEqualsBruteForce(t *testing.T) {
	// Among them discs in pounds, whose grams share no useful divisor.
	kinds := []load.Mass{25_000, 20_000, 15_000, 10_000, 5000, 2500, 1250, 500, 20_412, 4536, 1135}
	stock := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) load.Disc {
		return load.Disc{Mass: rapid.SampledFrom(kinds).Draw(t, "mass"), Pairs: rapid.IntRange(0, 3).Draw(t, "pairs")}
	}), 0, 5)
	rapid.Check(t, func(t *rapid.T) {
		discs := stock.Draw(t, "discs")
		bar := rapid.SampledFrom([]load.Mass{load.MensBar, load.WomensBar, 20_412}).Draw(t, "bar")
		rack, err := load.NewRack(bar, discs)
		if err != nil {
			t.Fatal(err)
		}
		totals := bruteForce(bar, discs)
		target := load.Mass(rapid.Int64Range(10_000, 400_000).Draw(t, "target"))
		best, above := load.Mass(-1), load.Mass(-1)
		for m := range totals {
			if m <= target && m > best {
				best = m
			}
			if m > target && (above < 0 || m < above) {
				above = m
			}
		}
		l, ok := rack.AtMost(target)
		if ok != (best >= 0) || ok && l.Total != best {
			t.Fatalf("at most %v: %v, %v, want %v", target, l.Total, ok, best)
		}
		if ok {
			checkLoading(t, l, bar, discs)
		}
		l, ok = rack.Above(target)
		if ok != (above >= 0) || ok && l.Total != above {
			t.Fatalf("above %v: %v, %v, want %v", target, l.Total, ok, above)
		}
		if ok {
			checkLoading(t, l, bar, discs)
		}
	})
}

// checkLoading takes the discs from the stock one by one.
func checkLoading(t *rapid.T, l load.Loading, bar load.Mass, discs []load.Disc) {
	total, left := bar, map[load.Mass]int{}
	for _, d := range discs {
		left[d.Mass] += d.Pairs
	}
	for _, m := range l.PerSide {
		total += 2 * m
		if left[m]--; left[m] < 0 {
			t.Fatalf("not enough discs of %v in %v", m, l.PerSide)
		}
	}
	if total != l.Total || l.Bar != bar || !slices.IsSortedFunc(l.PerSide, func(a, b load.Mass) int { return int(b - a) }) {
		t.Fatalf("%+v", l)
	}
}

func TestRackTakesDiscsInAnyOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		discs := rapid.Permutation(load.IWFDiscs()).Draw(t, "discs")
		a, err1 := load.NewRack(load.MensBar, discs)
		b, err2 := load.NewRack(load.MensBar, load.IWFDiscs())
		if err1 != nil || err2 != nil {
			t.Fatal(err1, err2)
		}
		target := load.Mass(rapid.Int64Range(20_000, 600_000).Draw(t, "target"))
		x, _ := a.AtMost(target)
		y, _ := b.AtMost(target)
		if d := cmp.Diff(x, y); d != "" {
			t.Fatal(d)
		}
		if gap := target - x.Total; gap < 0 || gap >= load.Kilogram {
			t.Fatalf("%v for %v", x.Total, target)
		}
	})
}

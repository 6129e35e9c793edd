package load_test

import (
	"fmt"

	"example.org/weft/load"
)

func ExampleSessionLoad() {
	fmt.Println(load.SessionLoad(7, 60))
	fmt.Println(load.SessionLoad(11, 60))
	// Output:
	// 420 true
	// 0 false
}

func ExampleSessionRating_Anchor() {
	fmt.Println(load.SessionRating(4).Anchor())
	// Output: fairly demanding true
}

func ExampleKnown() {
	fmt.Println(load.Known(0) == load.DayLoad{}) // a rest day is not an unknown day
	// Output: false
}

func ExampleWeek() {
	w, ok := load.Week([7]load.DayLoad{
		load.Known(300), load.Known(480), load.Known(0), load.Known(450), load.Known(120), load.Known(630), load.Known(0),
	}, load.Sample)
	monotony, _ := w.Monotony()
	strain, _ := w.Strain()
	fmt.Printf("total %v, mean %.1f, monotony %.3f, strain %.0f, %v\n", w.Total, float64(w.Mean), monotony, float64(strain), ok)

	_, ok = load.Week([7]load.DayLoad{load.Known(300)}, load.Sample) // six unknown days
	fmt.Println(ok)
	// Output:
	// total 1980, mean 282.9, monotony 1.133, strain 2243, true
	// false
}

func ExampleRollingWeek() {
	var r load.RollingWeek
	for _, l := range []load.AU{900, 300, 480, 0, 450, 120, 630, 0} {
		r.Add(load.Known(l))
	}
	w, ok := r.Week(load.Sample)
	fmt.Println(w.Total, ok)
	// Output: 1980 true
}

// monthOf is three even weeks and a harder one.
func monthOf() []load.DayLoad {
	var days []load.DayLoad
	for i := range 28 {
		l := load.AU(300)
		if i >= 21 {
			l = 500
		}
		days = append(days, load.Known(l))
	}
	return days
}

func ExampleCoupled() {
	a, ok := load.Coupled(monthOf())
	ratio, defined := a.Ratio()
	fmt.Printf("%v %v %.3f %v %v\n", a.Acute, a.Chronic, ratio, ok, defined)
	// Output: 500 350 1.429 true true
}

func ExampleUncoupled() {
	a, ok := load.Uncoupled(monthOf())
	ratio, defined := a.Ratio()
	fmt.Printf("%v %v %.3f %v %v\n", a.Acute, a.Chronic, ratio, ok, defined)
	// Output: 500 300 1.667 true true
}

func ExampleExponential() {
	a, ok := load.Exponential(monthOf(), load.Seed{})
	ratio, defined := a.Ratio()
	fmt.Printf("%.3f, warming up %v, %v %v\n", ratio, a.WarmingUp, ok, defined)
	// Output: 1.250, warming up false, true true
}

func ExampleCoupledFromUncoupled() {
	fmt.Println(load.CoupledFromUncoupled(1.8))
	// Output: 1.5 true
}

func ExampleUncoupledFromCoupled() {
	u, ok := load.UncoupledFromCoupled(1.5)
	fmt.Printf("%.1f %v\n", u, ok)
	// Output: 1.8 true
}

func ExampleExponentialLoad() {
	e := load.ExponentialLoad{Seed: load.Seed{Given: true, Acute: 300, Chronic: 300}}
	e.Add(load.Known(600))
	a, ok := e.Load()
	fmt.Printf("%v %.2f, warming up %v, %v\n", a.Acute, float64(a.Chronic), a.WarmingUp, ok)
	e.Add(load.DayLoad{}) // unknown
	_, ok = e.Load()
	fmt.Println(ok)
	// Output:
	// 375 320.69, warming up true, true
	// false
}

func ExampleRollingMonth() {
	var r load.RollingMonth
	for _, d := range monthOf() {
		r.Add(d)
	}
	a, ok := r.Coupled()
	b, ok2 := r.Uncoupled()
	fmt.Println(a.Chronic, ok, b.Chronic, ok2)
	// Output: 350 true 300 true
}

func ExampleNewSeries() {
	monday := load.Day(20_458) // 2026-01-05
	s, err := load.NewSeries([]load.Dated{
		{monday, 300}, {monday, 120}, // two sessions
		{monday + 1, 0}, // a rest day
	}, monday, monday+6)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(s.At(monday), s.At(monday+1), s.At(monday+2))
	fmt.Println(s.Days(monday+1, 3))
	_, ok := s.Week(monday+6, load.Sample)
	fmt.Println(ok) // five days are unknown
	// Output:
	// {420 true} {0 true} {0 false}
	// [{0 false} {420 true} {0 true}]
	// false
}

func ExampleImpulseModel_After() {
	m := load.DefaultImpulseModel()
	m.P0 = 500
	var days []load.DayLoad
	for _, l := range []load.AU{100, 0, 100, 0, 50, 0, 0} {
		days = append(days, load.Known(l))
	}
	s, ok := m.After(days)
	fmt.Printf("%.3f %.3f %.3f %v\n", float64(s.Fitness), float64(s.Fatigue), s.Performance, ok)
	// Output: 221.853 175.299 371.256 true
}

func ExampleDefaultImpulseModel() {
	m := load.DefaultImpulseModel()
	neutral, ok1 := m.NeutralAfter()
	peak, ok2 := m.PeakAfter()
	fmt.Printf("%.2f %v, %.2f %v\n", float64(neutral), ok1, float64(peak), ok2)
	for _, t := range []load.Days{1, 16, 40} {
		r, ok := m.Response(t)
		fmt.Printf("%.3f %v\n", r, ok)
	}
	// Output:
	// 15.60 true, 40.31 true
	// -0.893 true
	// 0.012 true
	// 0.272 true
}

func ExampleImpulse() {
	s := load.Impulse{Model: load.DefaultImpulseModel()}
	s.Add(load.Known(100))
	state, ok := s.State()
	fmt.Printf("%.2f %.2f %v\n", float64(state.Fitness), float64(state.Fatigue), ok)
	// Output: 97.80 93.55 true
}

func ExampleNewTracker() {
	t, err := load.NewTracker(load.TrackerOptions{AcuteChronic: true, Impulse: load.DefaultImpulseModel()})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, d := range monthOf() {
		t.Add(d)
	}
	t.Add(load.Known(0))
	w, ok := t.Week()
	fmt.Println(w.Total, ok)
	c, _ := t.Coupled()
	u, _ := t.Uncoupled()
	e, _ := t.Exponential()
	s, _ := t.Impulse()
	fmt.Printf("%.1f %.1f %.1f %.0f\n", float64(c.Acute), float64(u.Chronic), float64(e.Acute), float64(s.Fitness))
	// Output:
	// 3000 true
	// 428.6 309.5 355.0 7303
}

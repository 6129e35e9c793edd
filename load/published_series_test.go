package load_test

import (
	"fmt"
	"math"
	"testing"

	"example.org/weft/load"
)

func TestPublishedSessionLoad(t *testing.T) {
	p := paper{"Foster et al. 2001, JSCR 15:109-115", seen}
	au, ok := load.SessionLoad(7, 60)
	exact(t, p, "rating 7 for 60 minutes", fmt.Sprint(au, ok), "420 true")
	for _, r := range []load.SessionRating{0, 1, 2, 3, 4, 5, 7, 10} {
		_, ok := r.Anchor()
		exact(t, p, fmt.Sprintf("%v is anchored", r), ok, true)
	}
	for _, r := range []load.SessionRating{6, 8, 9} {
		_, ok := r.Anchor()
		p.undefined(t, fmt.Sprintf("anchor of %v", r), ok)
	}
}

func TestPublishedMonotony(t *testing.T) {
	p := paper{"Foster 1998, MSSE 30:1164-1168", secondaryDerived}
	for _, r := range []struct {
		days        [7]load.DayLoad
		divisor     load.Divisor
		name        string
		total, mean float64
		sd          float64
		monotony    float64
		strain      float64
	}{
		{week(300, 480, 0, 450, 120, 630, 0), load.Sample, "first week, sample", 1980, 282.9, 249.7, 1.133, 2243},
		{week(300, 480, 0, 450, 120, 630, 0), load.Population, "first week, population", 1980, 282.9, 231.2, 1.223, 2422},
		{week(0, 360, 300, 180, 420, 150, 630), load.Sample, "second week, sample", 2040, 291.4, 0, 1.418, 2894},
		{week(0, 360, 300, 180, 420, 150, 630), load.Population, "second week, population", 2040, 291.4, 0, 1.532, 3125},
	} {
		w, ok := load.Week(r.days, r.divisor)
		m, ok1 := w.Monotony()
		s, ok2 := w.Strain()
		p.near(t, r.name+" total", float64(w.Total), ok, r.total)
		p.near(t, r.name+" mean", float64(w.Mean), ok, r.mean)
		if r.sd > 0 {
			p.near(t, r.name+" standard deviation", float64(w.SD), ok, r.sd)
		}
		p.near(t, r.name+" monotony", m, ok1, r.monotony)
		p.near(t, r.name+" strain", float64(s), ok2, r.strain)
	}
	for k, want := range []float64{0.3780, 0.5855, 0.8018, 1.069, 1.464, 2.268} {
		var days [7]load.DayLoad
		for i := range days {
			days[i] = load.Known(0)
			if i <= k {
				days[i] = load.Known(330)
			}
		}
		w, _ := load.Week(days, load.Sample)
		m, ok := w.Monotony()
		p.near(t, fmt.Sprintf("%d equal days and rest", k+1), m, ok, want)
	}
	for _, load0 := range []float64{0, 0.1, 330} {
		w, ok := load.Week(week(load0, load0, load0, load0, load0, load0, load0), load.Sample)
		_, defined := w.Monotony()
		p.undefined(t, fmt.Sprintf("monotony of seven days of %v", load0), defined || !ok)
		_, defined = w.Strain()
		p.undefined(t, fmt.Sprintf("strain of seven days of %v", load0), defined)
	}
	missing := week(300, 480, 0, 450, 120, 630, 0)
	missing[2] = load.DayLoad{}
	_, ok := load.Week(missing, load.Sample)
	p.undefined(t, "a week with an unknown day", ok)

	sample, _ := load.Week(week(300, 480, 0, 450, 120, 630, 0), load.Sample)
	population, _ := load.Week(week(300, 480, 0, 450, 120, 630, 0), load.Population)
	a, _ := sample.Monotony()
	b, _ := population.Monotony()
	p.near6(t, "population over sample", b/a, true, 1.08012)
}

// fourWeeks spreads weekly totals evenly.
func fourWeeks(totals ...float64) []load.DayLoad {
	var days []load.DayLoad
	for _, t := range totals {
		for range 7 {
			days = append(days, load.Known(load.AU(t/7)))
		}
	}
	return days
}

func TestPublishedAcuteChronic(t *testing.T) {
	williams := paper{"Williams et al. 2017, BJSM 51:209-210", seen}
	days := fourWeeks(3, 3, 3, 5)
	c, ok := load.Coupled(days)
	coupled, _ := c.Ratio()
	williams.near(t, "weeks 3, 3, 3, 5 coupled (daily pattern inferred)", coupled, ok, 1.429)
	exact(t, williams, "weeks 3, 3, 3, 5 coupled as printed", math.Round(100*coupled)/100, 1.43)
	e, ok := load.Exponential(days, load.Seed{})
	exponential, _ := e.Ratio()
	williams.near(t, "weeks 3, 3, 3, 5 exponential (daily pattern inferred)", exponential, ok, 1.250)
	exact(t, williams, "28 known days are warmed up", e.WarmingUp, false)

	d := paper{williams.source, derived}
	u, ok := load.Uncoupled(days)
	uncoupled, _ := u.Ratio()
	d.near(t, "weeks 3, 3, 3, 5 uncoupled", uncoupled, ok, 1.667)
	zero, ok := load.Exponential(days, load.Seed{Given: true})
	fromZero, _ := zero.Ratio()
	d.near(t, "weeks 3, 3, 3, 5 exponential, seed 0", fromZero, ok, 1.399)

	ten := known(100, 0, 0, 0, 0, 0, 0, 0, 0, 0)
	e, ok = load.Exponential(ten, load.Seed{})
	d.near(t, "100 then nine zeros, acute", float64(e.Acute), ok, 7.508)
	exact(t, williams, "ten known days are warming up", e.WarmingUp, true)
	one, ok := load.Exponential(known(1), load.Seed{Given: true})
	d.near6(t, "lambda of 7 days", float64(one.Acute), ok, 0.2500)
	d.near6(t, "lambda of 28 days", float64(one.Chronic), ok, 0.0689655)

	for _, x := range []float64{0.1, 300, 1e9 / 3} {
		constant := fourWeeks(7*x, 7*x, 7*x, 7*x)
		for name, f := range map[string]func([]load.DayLoad) (load.AcuteChronic, bool){
			"coupled": load.Coupled, "uncoupled": load.Uncoupled,
			"exponential": func(d []load.DayLoad) (load.AcuteChronic, bool) { return load.Exponential(d, load.Seed{}) },
		} {
			a, ok := f(constant)
			r, ok2 := a.Ratio()
			exact(t, d, fmt.Sprintf("constant %v, %s", x, name), fmt.Sprint(r, ok, ok2), "1 true true")
		}
	}
	conv, ok := load.CoupledFromUncoupled(1.8)
	d.near(t, "coupled of uncoupled 1.8", conv, ok, 1.5)
	conv, ok = load.UncoupledFromCoupled(1.5)
	d.near(t, "uncoupled of coupled 1.5", conv, ok, 1.8)

	_, ok = load.Coupled(days[1:])
	d.undefined(t, "coupled of 27 days", ok)
	_, ok = load.Uncoupled(days[1:])
	d.undefined(t, "uncoupled of 27 days", ok)
	rest, ok := load.Coupled(fourWeeks(0, 0, 0, 0))
	_, defined := rest.Ratio()
	d.undefined(t, "the ratio of four weeks of rest", defined || !ok)
	days[20] = load.DayLoad{}
	_, ok = load.Coupled(days)
	d.undefined(t, "coupled with an unknown day", ok)
}

func TestPublishedImpulseResponse(t *testing.T) {
	p := paper{"Banister et al. 1975; Morton et al. 1990, J Appl Physiol 69:1171-1177", memoryDerived}
	m := load.DefaultImpulseModel()
	exact(t, paper{p.source, memory}, "default constants", fmt.Sprint(m.Tau1, m.Tau2, m.K1, m.K2), "45 15 1 2")
	m.P0 = 500
	loads := known(100, 0, 100, 0, 50, 0, 0)
	one, ok := m.After(loads[:1])
	p.near(t, "day 1 G", float64(one.Fitness), ok, 97.80)
	p.near(t, "day 1 H", float64(one.Fatigue), ok, 93.55)
	p.near(t, "day 1 p", one.Performance, ok, 410.7)
	two, ok := m.After(loads[:2])
	p.near(t, "day 2 p", two.Performance, ok, 420.6)
	four, ok := m.After(loads[:4])
	p.near(t, "day 4 p", four.Performance, ok, 358.9)
	seven, ok := m.After(loads)
	p.near6(t, "day 7 G", float64(seven.Fitness), ok, 221.853)
	p.near6(t, "day 7 H", float64(seven.Fatigue), ok, 175.299)
	p.near6(t, "day 7 p", seven.Performance, ok, 371.256)

	f := paper{"Fitz-Clarke et al. 1991, J Appl Physiol 71:1151-1158", memoryDerived}
	neutral, ok := m.NeutralAfter()
	f.near(t, "t_n", float64(neutral), ok, 15.60)
	peak, ok := m.PeakAfter()
	f.near(t, "t_g", float64(peak), ok, 40.31)
	exact(t, paper{f.source, memory}, "about 16 and 40 days", fmt.Sprint(math.Round(float64(neutral)), math.Round(float64(peak))), "16 40")

	for _, r := range []struct {
		name  string
		model load.ImpulseModel
	}{
		{"k2 = k1", load.ImpulseModel{Tau1: 45, Tau2: 15, K1: 2, K2: 2}},
		{"k1 = 0", load.ImpulseModel{Tau1: 45, Tau2: 15, K2: 2}},
		{"tau1 below tau2", load.ImpulseModel{Tau1: 15, Tau2: 45, K1: 1, K2: 2}},
		{"tau1 = tau2", load.ImpulseModel{Tau1: 15, Tau2: 15, K1: 1, K2: 2}},
	} {
		_, ok := r.model.NeutralAfter()
		f.undefined(t, "t_n, "+r.name, ok)
		_, ok = r.model.PeakAfter()
		f.undefined(t, "t_g, "+r.name, ok)
	}
	_, ok = load.ImpulseModel{Tau1: 15, Tau2: 15, K1: 1, K2: 2}.After(loads)
	p.undefined(t, "the model with tau1 = tau2", ok)
	loads[3] = load.DayLoad{}
	_, ok = m.After(loads)
	p.undefined(t, "the model after an unknown day", ok)
}

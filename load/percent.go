package load

// Intensity is a point of a [Curve]: a percentage of the one-repetition
// maximum and the repetitions to failure that belong to it.
type Intensity struct {
	Percent      Percent `json:"percent"`
	Reps         Reps    `json:"reps"`
	Curve        Curve   `json:"curve"`
	Interpolated bool    `json:"interpolated"` // between two rows of a table
	Doubtful     bool    `json:"doubtful"`     // more than 10 repetitions
}

// handbookRows are the tabulated repetitions and percentages. Via secondary
// text; the row of 12 from memory.
var handbookRows = [...]struct{ reps, percent float64 }{
	{1, 100}, {2, 95}, {3, 93}, {4, 90}, {5, 87}, {6, 85}, {7, 83}, {8, 80}, {9, 77}, {10, 75}, {11, 70}, {12, 67}, {15, 65},
}

// Percent is the percentage of the one-repetition maximum that can be lifted
// for so many repetitions, 100 for one. Between two rows the table is
// interpolated linearly, and the result says so (derived). Not rounded.
// Undefined below 1 repetition, above 15 for the table, above 12 for the
// equations (36 with [Curve.Beyond12]).
//
// Source: see the [Curve].
func (c Curve) Percent(reps Reps) (Intensity, bool) {
	if !c.known() || !within(float64(reps), 1, float64(c.limit())) {
		return Intensity{}, false
	}
	i := Intensity{Percent: 100, Reps: reps, Curve: c, Doubtful: reps > doubtfulReps}
	switch {
	case reps == 1:
	case c.base() == Handbook:
		p, between := handbookPercent(float64(reps))
		i.Percent, i.Interpolated = Percent(p), between
	default:
		i.Percent = Percent(c.equation(float64(reps)))
	}
	return i, true
}

// Reps is the most repetitions that a percentage of the one-repetition maximum
// allows, the inverse of [Curve.Percent], not rounded. Equations that give less
// than 100 % for one repetition allow one from there to 100 %. Undefined above
// 100 % and below the percentage of the most repetitions that Percent takes.
//
// Source: see the [Curve]; the inverse is derived.
func (c Curve) Reps(p Percent) (Intensity, bool) {
	if !c.known() || !within(float64(p), 0, 100) {
		return Intensity{}, false
	}
	last, _ := c.Percent(c.limit())
	if p < last.Percent {
		return Intensity{}, false
	}
	i := Intensity{Percent: p, Curve: c}
	switch {
	case c.base() == Handbook:
		r, between := handbookReps(float64(p))
		i.Reps, i.Interpolated = Reps(r), between
	case float64(p) >= c.equation(1):
		i.Reps = 1
	default:
		// Rounding in the last place may overshoot the ends of the range.
		i.Reps = max(1, min(Reps(c.inverse(float64(p))), c.limit()))
	}
	i.Doubtful = i.Reps > doubtfulReps
	return i, true
}

// LoadFor is the load that a one-repetition maximum allows for so many
// repetitions to failure, rounded down to the gram. Undefined where
// [Curve.Percent] is, and for a maximum that is not above 0 and at most
// [MaxMass].
//
// Source: see the [Curve].
func (c Curve) LoadFor(max Mass, reps Reps) (Mass, bool) {
	i, ok := c.Percent(reps)
	if !ok || !max.positive() {
		return 0, false
	}
	return i.Percent.Of(max)
}

func handbookPercent(r float64) (p float64, between bool) {
	for k := 1; k < len(handbookRows); k++ {
		a, b := handbookRows[k-1], handbookRows[k]
		switch {
		case r == b.reps:
			return b.percent, false
		case r < b.reps:
			return a.percent + (r-a.reps)/(b.reps-a.reps)*(b.percent-a.percent), true
		}
	}
	return handbookRows[0].percent, false
}

func handbookReps(p float64) (r float64, between bool) {
	for k := 1; k < len(handbookRows); k++ {
		a, b := handbookRows[k-1], handbookRows[k]
		switch {
		case p == a.percent:
			return a.reps, false
		case p > b.percent:
			return a.reps + (a.percent-p)/(a.percent-b.percent)*(b.reps-a.reps), true
		}
	}
	return handbookRows[len(handbookRows)-1].reps, false
}

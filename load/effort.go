package load

import "math"

// Effort is a rating of perceived exertion of a set by repetitions in reserve,
// 1 to 10 in halves: 10 leaves none, 8 leaves two. Store the rating and derive
// the reserve. It is not the rating of a whole session: see [SessionRating].
//
// Source: Zourdos et al. 2016, JSCR 30:267-275, reprinted by Helms et al. 2016,
// Strength Cond J 38(4):42-49, via secondary text.
type Effort float64

// ReserveRule says how a rating becomes one number of repetitions in reserve.
type ReserveRule uint8

// The rules. They differ at 9.5 alone.
const (
	// TenMinus is 10 minus the rating, as charts have it: 9.5 leaves half a
	// repetition. Common practice, no source.
	TenMinus ReserveRule = iota
	// AsPublished gives none at 9.5: the load could rise, the repetitions
	// could not (Zourdos et al. 2016, via secondary text).
	AsPublished
)

func (e Effort) valid() bool {
	return within(float64(e), 1, 10) && float64(e)*2 == math.Trunc(float64(e)*2)
}

// Reserve is the repetitions left, from 5 down to 0. Undefined for ratings
// below 5, to which the scale gives no number, above 10 and between halves, and
// for an unknown rule.
//
// Source: see the [ReserveRule].
func (e Effort) Reserve(rule ReserveRule) (Reps, bool) {
	if !e.valid() || e < 5 || rule > AsPublished {
		return 0, false
	}
	if rule == AsPublished && e == 9.5 {
		return 0, true
	}
	return Reps(10 - e), true
}

// ReserveBand is the repetitions left in the words of the scale: 8.5 leaves
// one to two, 5 to 6 leave four to six. Undefined below 5, at 6.5, for which
// the scale has no words, above 10 and between halves.
//
// Source: Zourdos et al. 2016, via secondary text.
func (e Effort) ReserveBand() (low, high Reps, ok bool) {
	switch e {
	case 10, 9.5:
		return 0, 0, true
	case 9, 8, 7:
		return Reps(10 - e), Reps(10 - e), true
	case 8.5, 7.5:
		return Reps(9.5 - e), Reps(10.5 - e), true
	case 6, 5.5, 5:
		return 4, 6, true
	}
	return 0, 0, false
}

// EffortLeaving is the rating of a set that leaves so many repetitions: 10
// minus the reserve. Undefined outside 0 to 5 and between halves.
//
// Source: derived from Zourdos et al. 2016.
func EffortLeaving(reserve Reps) (Effort, bool) {
	e := Effort(10 - reserve)
	if !e.valid() || e < 5 {
		return 0, false
	}
	return e, true
}

// RaterError is how far a rating of so many repetitions left may be off,
// either way: one repetition when 0 to 5 remain, two when up to 10 do, and two
// for novices and youth throughout. From 7 on the study found more than two,
// so two is a lower bound there. Undefined outside 0 to 10.
//
// Source: Hackett et al. 2017, seen; between 5 and 7, novices and youth: common
// practice, no source.
func RaterError(left Reps, noviceOrYouth bool) (Reps, bool) {
	switch {
	case !within(float64(left), 0, 10):
		return 0, false
	case noviceOrYouth || left > 5:
		return 2, true
	}
	return 1, true
}

// PercentAt is the percentage of the one-repetition maximum for so many
// repetitions at a rating: that of the repetitions to failure, reps + 10 -
// rating. It is constant along (reps + 1, rating + 1) and, for one repetition
// at 10, 100. Not rounded. Undefined where [Curve.Percent] is for that sum, for
// fewer than 1 repetition, and for ratings below 5, above 10 and between
// halves.
//
// Source: derived from the [Curve] and Zourdos et al. 2016.
func (c Curve) PercentAt(reps Reps, e Effort) (Intensity, bool) {
	total, ok := toFailure(reps, e)
	if !ok {
		return Intensity{}, false
	}
	return c.Percent(total)
}

// OneRepMaxAt estimates the one-repetition maximum from a set that was rated,
// as [Curve.OneRepMax] does from reps + 10 - rating repetitions. Undefined as
// there and in [Curve.PercentAt].
//
// Source: derived from the [Curve] and Zourdos et al. 2016.
func (c Curve) OneRepMaxAt(w Mass, reps Reps, e Effort) (Estimate, bool) {
	total, ok := toFailure(reps, e)
	if !ok {
		return Estimate{}, false
	}
	return c.OneRepMax(w, total)
}

// LoadAt is the load for so many repetitions at a rating, rounded down to the
// gram. Undefined as in [Curve.LoadFor] and [Curve.PercentAt].
//
// Source: derived from the [Curve] and Zourdos et al. 2016.
func (c Curve) LoadAt(max Mass, reps Reps, e Effort) (Mass, bool) {
	total, ok := toFailure(reps, e)
	if !ok {
		return 0, false
	}
	return c.LoadFor(max, total)
}

func toFailure(reps Reps, e Effort) (Reps, bool) {
	left, ok := e.Reserve(TenMinus)
	if !ok || !(reps >= 1) {
		return 0, false
	}
	return reps + left, true
}

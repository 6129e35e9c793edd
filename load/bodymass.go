package load

// BodyMass is one day's body mass. The zero value is a day of which nothing is
// known.
type BodyMass struct {
	Mass  Mass
	Known bool
}

// WeeklyBodyMass is the mean of a week's known days, to the nearest gram, ties
// down, and how many there were. Undefined without a known day, and if one is
// not above 0 and at most [MaxMass]. A mean to watch; this package never sets
// one to reach, least of all for minors.
//
// Source: common practice, no source.
func WeeklyBodyMass(week [7]BodyMass) (mean Mass, days int, ok bool) {
	var sum Mass
	for _, d := range week {
		switch {
		case !d.Known:
		case !d.Mass.positive():
			return 0, 0, false
		default:
			sum += d.Mass
			days++
		}
	}
	if days == 0 {
		return 0, 0, false
	}
	mean, ok = roundGrams(float64(sum) / float64(days))
	return mean, days, ok
}

// WithinHydration reports whether a body mass is within 2 % of a baseline, as it
// may be by fluid alone; both edges are. Undefined unless both are above 0 and
// at most [MaxMass].
//
// Source: ACSM 2007, MSSE 39:377-390, seen.
func WithinHydration(baseline, today Mass) (stable, ok bool) {
	if !baseline.positive() || !today.positive() {
		return false, false
	}
	d := int64(today - baseline)
	if d < 0 {
		d = -d
	}
	return d*50 <= int64(baseline), true
}

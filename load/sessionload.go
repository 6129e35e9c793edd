package load

// SessionRating is an athlete's rating of a whole session on the CR-10 scale,
// 0 to 10. It is not the rating of a set: see [Effort].
type SessionRating float64

// Anchor puts a rating of the scale into our own words; 6, 8, 9 and all values
// between whole numbers have none.
//
// Source: Foster et al. 2001, JSCR 15:109-115, seen; wording ours.
func (r SessionRating) Anchor() (string, bool) {
	switch r {
	case 0:
		return "at rest", true
	case 1:
		return "hardly any effort", true
	case 2:
		return "light", true
	case 3:
		return "medium", true
	case 4:
		return "fairly demanding", true
	case 5:
		return "demanding", true
	case 7:
		return "very demanding", true
	case 10:
		return "all that was there", true
	}
	return "", false
}

// SessionLoad is rating x minutes, not rounded. Undefined for a rating outside
// 0 to 10 and minutes outside 0 to 1440.
//
// Source: Foster 1998, MSSE 30:1164-1168; Foster et al. 2001, JSCR 15:109-115,
// seen.
func SessionLoad(r SessionRating, m Minutes) (AU, bool) {
	if !within(float64(r), 0, 10) || !within(float64(m), 0, 1440) {
		return 0, false
	}
	return AU(r) * AU(m), true
}

// MaxDayLoad bounds the load of a day, so that sums stay finite.
const MaxDayLoad AU = 1e9

// DayLoad is the load of one day. The zero value is a day of which nothing is
// known; a rest day is Known(0).
type DayLoad struct {
	Load  AU
	Known bool
}

// Known is a day whose load is known, 0 on a rest day.
func Known(load AU) DayLoad { return DayLoad{Load: load, Known: true} }

// value is the load, if the day is known and its load from 0 to MaxDayLoad.
func (d DayLoad) value() (float64, bool) {
	return float64(d.Load), d.Known && within(float64(d.Load), 0, float64(MaxDayLoad))
}

func allKnown(days []DayLoad) bool {
	for _, d := range days {
		if _, ok := d.value(); !ok {
			return false
		}
	}
	return true
}

// Divisor is that of the standard deviation. The sources of monotony do not
// state theirs.
type Divisor uint8

// The divisors.
const (
	Sample     Divisor = iota // n - 1
	Population                // n; monotony is then sqrt(7/6) = 1.08012 times as large
)

// WeekLoad sums up seven known days.
type WeekLoad struct {
	Total, Mean, SD AU
}

// Week sums up seven days, not rounded. Undefined if a day is unknown (an
// unknown day is not a rest day) or its load is outside 0 to [MaxDayLoad], and
// for an unknown divisor.
//
// Source: Foster 1998, MSSE 30:1164-1168, via secondary text.
func Week(days [7]DayLoad, d Divisor) (WeekLoad, bool) {
	if d > Population || !allKnown(days[:]) {
		return WeekLoad{}, false
	}
	at := func(i int) float64 { return float64(days[i].Load) }
	total := 0.0
	for i := range days {
		total += at(i)
	}
	n := len(days)
	if d == Sample {
		n--
	}
	mean := meanOf(len(days), at)
	return WeekLoad{AU(total), AU(mean), AU(sdOf(len(days), n, mean, at))}, true
}

// Monotony is the mean of the day loads over their standard deviation, not
// rounded. Undefined if all days are equal.
//
// Source: Foster 1998, MSSE 30:1164-1168, via secondary text.
func (w WeekLoad) Monotony() (float64, bool) {
	return quotient(float64(w.Mean), float64(w.SD))
}

// Strain is the week's load times its monotony, which is not rounded before.
// Undefined where the monotony is.
//
// Source: Foster 1998, MSSE 30:1164-1168, via secondary text.
func (w WeekLoad) Strain() (AU, bool) {
	m, ok := w.Monotony()
	s := float64(w.Total) * m
	if !ok || !finite(s) {
		return 0, false
	}
	return AU(s), true
}

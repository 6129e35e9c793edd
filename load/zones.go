package load

// PrilepinZone is a row of Prilepin's table: how many repetitions a set and in
// all belong to a band of percentages, in one session and exercise.
type PrilepinZone struct {
	From, To            Percent // from From to below To; the last row to 100 and over
	RepsLow, RepsHigh   int     // repetitions a set
	TotalLow, TotalHigh int     // repetitions in all
	Optimum             int     // best repetitions in all
}

// prilepinRows: the edges are the choice of copyists; half-open bands make them
// unambiguous. The last upper edge leaves room for loads over the maximum.
var prilepinRows = [...]PrilepinZone{
	{0, 70, 3, 6, 18, 30, 24},
	{70, 80, 3, 6, 12, 24, 18},
	{80, 90, 2, 4, 10, 20, 15},
	{90, 110, 1, 2, 4, 10, 7},
}

// Prilepin is the row of Prilepin's table that holds a percentage of the
// one-repetition maximum: 79.99 is in the second row, 80 in the third.
// Undefined at 0 and below, and from 110.
//
// Source: weightlifting literature of the 1970s, via secondary text.
func Prilepin(p Percent) (PrilepinZone, bool) {
	if !(p > 0) {
		return PrilepinZone{}, false
	}
	for _, z := range prilepinRows {
		if p < z.To {
			return z, true
		}
	}
	return PrilepinZone{}, false
}

// ZoneCode says in which way an exercise leaves its zone.
type ZoneCode string

// The ways to leave a zone.
const (
	RepsPerSetLow  ZoneCode = "reps-per-set-low"
	RepsPerSetHigh ZoneCode = "reps-per-set-high"
	TotalRepsLow   ZoneCode = "total-reps-low"
	TotalRepsHigh  ZoneCode = "total-reps-high"
	SetsLow        ZoneCode = "sets-low"
	SetsHigh       ZoneCode = "sets-high"
	PercentTooLow  ZoneCode = "percent-low"
	PercentTooHigh ZoneCode = "percent-high"
	RestTooShort   ZoneCode = "rest-short"
	RestTooLong    ZoneCode = "rest-long"
)

// mostCounted bounds sets and repetitions.
const mostCounted = 1000

// ZoneFinding is one way in which an exercise leaves its zone: what it has and
// the limit it passes, in percent, repetitions, sets or seconds by its code.
type ZoneFinding struct {
	Code  ZoneCode `json:"code"`
	Got   float64  `json:"got"`
	Limit float64  `json:"limit"`
}

// CheckPrilepin compares sets of reps at a percentage with Prilepin's table;
// no findings mean that it fits. Undefined where [Prilepin] is and for sets or
// repetitions outside 1 to 1000.
//
// Source: see [Prilepin].
func CheckPrilepin(sets, reps int, p Percent) ([]ZoneFinding, bool) {
	z, ok := Prilepin(p)
	if !ok || !counted(sets) || !counted(reps) {
		return nil, false
	}
	var fs findings
	fs.between(RepsPerSetLow, RepsPerSetHigh, float64(reps), float64(z.RepsLow), float64(z.RepsHigh))
	fs.between(TotalRepsLow, TotalRepsHigh, float64(sets*reps), float64(z.TotalLow), float64(z.TotalHigh))
	return fs, true
}

func counted(n int) bool { return n >= 1 && n <= mostCounted }

type findings []ZoneFinding

// between finds a value outside low to high.
func (fs *findings) between(under, over ZoneCode, got, low, high float64) {
	switch {
	case got < low:
		*fs = append(*fs, ZoneFinding{under, got, low})
	case got > high:
		*fs = append(*fs, ZoneFinding{over, got, high})
	}
}

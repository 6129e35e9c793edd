package load

import (
	"cmp"
	"math"
	"slices"
	"strconv"
)

// SetGroup is sets of equal repetitions and load.
type SetGroup struct {
	Sets, Reps int
	Load       Mass
}

// VolumeLoad is sets times repetitions times load, in gram-repetitions. It is
// not a [Mass]: nothing weighs 5640 kg.
type VolumeLoad int64

// String is the volume load in kilograms, as it is spoken of: "5640 kg".
func (v VolumeLoad) String() string { return thousandths(int64(v)) + " kg" }

// Kilograms is the volume load in kilogram-repetitions.
func (v VolumeLoad) Kilograms() float64 { return float64(v) / 1000 }

func (g SetGroup) valid() bool {
	return g.Sets >= 0 && g.Sets <= mostCounted && g.Reps >= 0 && g.Reps <= mostCounted && g.Load.valid()
}

// TotalVolumeLoad is the sum of sets x repetitions x load, exact. Undefined if
// a count is outside 0 to 1000, a load is negative or over [MaxMass], or the
// sum does not fit.
//
// Source: derived from the definition of volume load.
func TotalVolumeLoad(groups []SetGroup) (VolumeLoad, bool) {
	var sum int64
	for _, g := range groups {
		if !g.valid() {
			return 0, false
		}
		v := int64(g.Sets) * int64(g.Reps) * int64(g.Load)
		if v > math.MaxInt64-sum {
			return 0, false
		}
		sum += v
	}
	return VolumeLoad(sum), true
}

// RelativeGroup is sets of equal repetitions at a percentage of the
// one-repetition maximum.
type RelativeGroup struct {
	Sets, Reps int
	Percent    Percent
}

// RelativeVolume is repetitions weighted by their percentage of the
// one-repetition maximum: ten repetitions at 80 % are 8. It compares athletes of
// different strength.
type RelativeVolume float64

// TotalRelativeVolume is the sum of sets x repetitions x percent / 100, not
// rounded. Undefined if a count is outside 0 to 1000 or a percentage outside 0
// to 110.
//
// Source: McMaster et al. 2013, Sports Med 43:367-384, seen (sets x
// repetitions x intensity).
func TotalRelativeVolume(groups []RelativeGroup) (RelativeVolume, bool) {
	var sum RelativeVolume
	for _, g := range groups {
		if !(SetGroup{Sets: g.Sets, Reps: g.Reps}).valid() || !within(float64(g.Percent), 0, 110) {
			return 0, false
		}
		sum += RelativeVolume(g.Sets*g.Reps) * RelativeVolume(g.Percent) / 100
	}
	return sum, true
}

// Pattern is a movement pattern, such as push, pull, lower body or trunk. Any
// name may be used.
type Pattern string

// Work is the sets of one exercise in a week: the patterns it is meant for and
// those it trains along the way.
type Work struct {
	Sets     int
	Direct   []Pattern
	Indirect []Pattern
}

// PatternSets is a week's sets of one movement pattern.
type PatternSets struct {
	Pattern  Pattern `json:"pattern"`
	Direct   int     `json:"direct"`
	Indirect int     `json:"indirect"`
	Total    Sets    `json:"total"` // indirect sets counted half
}

// WeeklySets counts sets by movement pattern, in the order of the names.
// Indirect sets count half in the total. A pattern that an exercise names more
// than once counts once, and as direct if it is both. Undefined if an exercise
// has sets outside 0 to 1000, or a count passes a million.
//
// Source: fractional counting after Pelland et al. 2024, preprint, seen.
func WeeklySets(work []Work) ([]PatternSets, bool) {
	const most = 1_000_000
	rows := map[Pattern]PatternSets{}
	count := func(p Pattern, direct, indirect int) bool {
		row := rows[p]
		row.Direct += direct
		row.Indirect += indirect
		rows[p] = row
		return row.Direct <= most && row.Indirect <= most
	}
	for _, w := range work {
		if w.Sets < 0 || w.Sets > mostCounted {
			return nil, false
		}
		for i, p := range w.Direct {
			if !slices.Contains(w.Direct[:i], p) && !count(p, w.Sets, 0) {
				return nil, false
			}
		}
		for i, p := range w.Indirect {
			if !slices.Contains(w.Indirect[:i], p) && !slices.Contains(w.Direct, p) && !count(p, 0, w.Sets) {
				return nil, false
			}
		}
	}
	all := make([]PatternSets, 0, len(rows))
	for p, row := range rows {
		row.Pattern, row.Total = p, Sets(row.Direct)+Sets(row.Indirect)/2
		all = append(all, row)
	}
	slices.SortFunc(all, func(a, b PatternSets) int { return cmp.Compare(a.Pattern, b.Pattern) })
	return all, true
}

// SetsBand is a band of weekly sets.
type SetsBand uint8

// The bands of weekly sets of one muscle or exercise.
const (
	FewSets    SetsBand = iota // below 5
	MediumSets                 // 5 to below 10
	ManySets                   // 10 or more
)

// String is the band in words.
func (b SetsBand) String() string {
	switch b {
	case FewSets:
		return "below 5"
	case MediumSets:
		return "5 to 9"
	case ManySets:
		return "10 or more"
	}
	return "band " + strconv.Itoa(int(b))
}

// Band is the band of a week's sets. More sets gave more muscle (a graded
// relation, with a trend across the bands); for strength, medium and high weekly
// sets were only slightly better than low ones. Undefined for a negative or
// infinite count.
//
// Source: Schoenfeld et al. 2017, J Sports Sci 35:1073-1082, seen; Ralston et
// al. 2017, Sports Med 47:2585-2601, seen.
func (s Sets) Band() (SetsBand, bool) {
	switch {
	case !finite(float64(s)) || s < 0:
		return 0, false
	case s < 5:
		return FewSets, true
	case s < 10:
		return MediumSets, true
	}
	return ManySets, true
}

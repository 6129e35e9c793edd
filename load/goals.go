package load

import "time"

// Goal is what an exercise is dosed for.
type Goal uint8

// The goals of the handbook.
const (
	Strength Goal = iota
	Power
	Hypertrophy
	MuscularEndurance
)

// String is the goal in words.
func (g Goal) String() string {
	switch g {
	case Strength:
		return "strength"
	case Power:
		return "power"
	case Hypertrophy:
		return "hypertrophy"
	case MuscularEndurance:
		return "muscular endurance"
	}
	return "unknown goal"
}

// Dose is what a goal asks of one exercise. All ends belong to it.
type Dose struct {
	PercentLow, PercentHigh Percent
	RepsLow, RepsHigh       int
	SetsLow, SetsHigh       int
	RestLow, RestHigh       time.Duration
}

// openReps stands for "or more" in the handbook's rows.
const openReps = mostCounted

// Dose is the handbook's row for the goal. Where it says "at most" or "at
// least", the other end is the natural one: 0 rest, 1 repetition, 100 %, and
// 1000 repetitions for "or more". Undefined for an unknown goal.
//
// Source: Essentials of Strength Training and Conditioning (NSCA), via
// secondary text.
func (g Goal) Dose() (Dose, bool) {
	switch g {
	case Strength:
		return Dose{85, 100, 1, 6, 2, 6, 2 * time.Minute, 5 * time.Minute}, true
	case Power:
		// The row has no rest of its own; that of strength is used.
		return Dose{75, 90, 1, 5, 3, 5, 2 * time.Minute, 5 * time.Minute}, true
	case Hypertrophy:
		return Dose{67, 85, 6, 12, 3, 6, 30 * time.Second, 90 * time.Second}, true
	case MuscularEndurance:
		return Dose{0, 67, 12, openReps, 2, 3, 0, 30 * time.Second}, true
	}
	return Dose{}, false
}

// Check compares an exercise with the goal's row; no findings mean that it
// fits. Undefined for an unknown goal, for sets or repetitions outside 1 to
// 1000, for a percentage that is not above 0 and at most 110, and for a
// negative rest.
//
// Source: see [Goal.Dose].
func (g Goal) Check(sets, reps int, p Percent, rest time.Duration) ([]ZoneFinding, bool) {
	d, ok := g.Dose()
	if !ok || !counted(sets) || !counted(reps) || !(p > 0 && p <= 110) || rest < 0 {
		return nil, false
	}
	var fs findings
	fs.between(PercentTooLow, PercentTooHigh, float64(p), float64(d.PercentLow), float64(d.PercentHigh))
	fs.between(RepsPerSetLow, RepsPerSetHigh, float64(reps), float64(d.RepsLow), float64(d.RepsHigh))
	fs.between(SetsLow, SetsHigh, float64(sets), float64(d.SetsLow), float64(d.SetsHigh))
	fs.between(RestTooShort, RestTooLong, rest.Seconds(), d.RestLow.Seconds(), d.RestHigh.Seconds())
	return fs, true
}

// InSeasonFrequency is how many strength sessions a week a season leaves room
// for: 1 to 3.
//
// Source: Essentials of Strength Training and Conditioning (NSCA), from memory.
func InSeasonFrequency() (low, high int) { return 1, 3 }

// TrainingStatus is how far a lifter has come.
type TrainingStatus uint8

// The statuses with a weekly frequency.
const (
	Novice TrainingStatus = iota
	Intermediate
)

// WeeklyFrequency is the recommended training days a week: 2 to 3 for a novice,
// 3 to 4 for an intermediate lifter. Undefined for an unknown status.
//
// Source: ACSM position stand 2009, MSSE 41:687-708, seen.
func (s TrainingStatus) WeeklyFrequency() (low, high int, ok bool) {
	switch s {
	case Novice:
		return 2, 3, true
	case Intermediate:
		return 3, 4, true
	}
	return 0, 0, false
}

// NoviceLoad is the load of a novice as a repetition maximum: 8 to 12.
//
// Source: ACSM position stand 2009, MSSE 41:687-708, seen.
func NoviceLoad() (low, high Reps) { return 8, 12 }

// Progression is the next load after an athlete did repsOver repetitions more
// than asked for: 2 to 10 % more, each rounded down to the gram. Undefined for
// less than one repetition over, and for a load that is not above 0 or whose
// raise is over [MaxMass].
//
// Source: ACSM position stand 2009, MSSE 41:687-708, seen (one to two
// repetitions over the target).
func Progression(current Mass, repsOver Reps) (low, high Mass, ok bool) {
	if !(repsOver >= 1) || !current.positive() {
		return 0, 0, false
	}
	low, ok1 := Percent(102).Of(current)
	high, ok2 := Percent(110).Of(current)
	if !ok1 || !ok2 {
		return 0, 0, false
	}
	return low, high, true
}

// Taper is the shape of the taper that helped most, across studies of
// competitive athletes: length, how much less volume, intensity and frequency
// kept.
type Taper struct {
	Length                       Days
	VolumeReductionLow           Percent
	VolumeReductionHigh          Percent
	KeepIntensity, KeepFrequency bool
	Source                       string
}

// BestTaper is two weeks with 41 to 60 % less volume at kept intensity and
// frequency.
//
// Source: Bosquet et al. 2007, MSSE 39:1358-1365, seen.
func BestTaper() Taper {
	return Taper{14, 41, 60, true, true, "Bosquet et al. 2007, MSSE 39:1358-1365"}
}

package load

// The windows of the acute and the chronic load, in days.
const (
	acuteDays   = 7
	chronicDays = 28
)

// AcuteChronic is the recent load of an athlete beside what came before, in AU
// a day. It describes; it is no measure of risk, and nothing in this package
// plans by it.
type AcuteChronic struct {
	Acute, Chronic AU
	// WarmingUp says that an exponential average rests on fewer than 28 known
	// days since its start or since the last unknown day.
	WarmingUp bool
}

// Ratio is acute over chronic load, not rounded. Undefined if the chronic load
// is 0.
//
// It does no better than acute load over a constant: Lolli et al. 2019, BJSM
// 53:921-922, seen; Impellizzeri et al. 2020, J Athl Train 55:893-901, and 2021,
// Sports Med 51:581-592, seen.
func (a AcuteChronic) Ratio() (float64, bool) {
	return quotient(float64(a.Acute), float64(a.Chronic))
}

// Coupled compares the mean of the last 7 days with that of the last 28, those
// 7 among them. Not rounded. Undefined for fewer than 28 days, or if one of the
// last 28 is unknown or outside 0 to [MaxDayLoad].
//
// Source: worked example of Williams et al. 2017, BJSM 51:209-210, seen.
func Coupled(days []DayLoad) (AcuteChronic, bool) {
	return windows(days, chronicDays)
}

// Uncoupled compares the mean of the last 7 days with that of the 21 before
// them. Not rounded. Undefined as [Coupled] is.
//
// Source: derived from the definition.
func Uncoupled(days []DayLoad) (AcuteChronic, bool) {
	return windows(days, chronicDays-acuteDays)
}

// windows averages the last 7 of 28 days, and the first n of them.
func windows(days []DayLoad, n int) (AcuteChronic, bool) {
	if len(days) < chronicDays {
		return AcuteChronic{}, false
	}
	days = days[len(days)-chronicDays:]
	if !allKnown(days) {
		return AcuteChronic{}, false
	}
	acute := meanOf(acuteDays, func(i int) float64 { return float64(days[chronicDays-acuteDays+i].Load) })
	chronic := meanOf(n, func(i int) float64 { return float64(days[i].Load) })
	return AcuteChronic{Acute: AU(acute), Chronic: AU(chronic)}, true
}

// CoupledFromUncoupled turns an uncoupled ratio u into the coupled one of the
// same days, 4u/(3 + u). Undefined for a negative or infinite ratio.
//
// Source: derived.
func CoupledFromUncoupled(u float64) (float64, bool) {
	if !(u >= 0) || !finite(4*u) {
		return 0, false
	}
	return 4 * u / (3 + u), true
}

// UncoupledFromCoupled turns a coupled ratio c into the uncoupled one of the
// same days, 3c/(4 - c). Undefined below 0 and from 4, which no uncoupled ratio
// gives.
//
// Source: derived.
func UncoupledFromCoupled(c float64) (float64, bool) {
	if !(c >= 0 && c < 4) {
		return 0, false
	}
	return quotient(3*c, 4-c)
}

// Seed is what exponential averages start from. The zero value starts them at
// the first day's load; Seed{Given: true} starts them at 0.
type Seed struct {
	Given          bool
	Acute, Chronic AU // before the first day, if Given
}

func (s Seed) valid() bool {
	return !s.Given || within(float64(s.Acute), 0, float64(MaxDayLoad)) && within(float64(s.Chronic), 0, float64(MaxDayLoad))
}

// Exponential gives the exponentially weighted averages after the last day:
// E(t) = lambda L(t) + (1 - lambda) E(t - 1), lambda = 2/(N + 1), N = 7 and 28,
// so 0.25 and 0.0689655. Not rounded. The source states no seed: it is a
// parameter. An unknown day leaves the averages as they are, is itself
// undefined, and starts the warming up again. Undefined for no days, if the
// last is unknown or outside 0 to [MaxDayLoad], and for a seed outside it.
//
// Source: Williams et al. 2017, BJSM 51:209-210, seen; seed and unknown days
// are our choice.
func Exponential(days []DayLoad, seed Seed) (AcuteChronic, bool) {
	e := ExponentialLoad{Seed: seed}
	for _, d := range days {
		e.Add(d)
	}
	return e.Load()
}

// ExponentialLoad is [Exponential] a day at a time. The zero value is ready.
type ExponentialLoad struct {
	Seed Seed // may be set before the first day

	acute, chronic float64
	started        bool
	current        bool // the last day was known
	run            int  // known days since the start or the last unknown one
}

// Add appends a day. It reports whether the day has a load that counts; if not
// it is taken as unknown. It allocates nothing.
func (e *ExponentialLoad) Add(d DayLoad) bool {
	x, ok := d.value()
	e.current = ok
	if !ok {
		e.run = 0
		return false
	}
	if !e.started {
		e.started = true
		e.acute, e.chronic = x, x
		if e.Seed.Given {
			e.acute, e.chronic = float64(e.Seed.Acute), float64(e.Seed.Chronic)
		}
	}
	// In this form equal loads leave the average exactly as it is.
	e.acute += (x - e.acute) * 2 / (acuteDays + 1)
	e.chronic += (x - e.chronic) * 2 / (chronicDays + 1)
	e.run = min(e.run+1, chronicDays)
	return true
}

// Load is the averages after the last day added, undefined as in
// [Exponential].
func (e *ExponentialLoad) Load() (AcuteChronic, bool) {
	if !e.current || !e.Seed.valid() {
		return AcuteChronic{}, false
	}
	return AcuteChronic{AU(e.acute), AU(e.chronic), e.run < chronicDays}, true
}

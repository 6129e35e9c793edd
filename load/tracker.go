package load

// TrackerOptions says what a [Tracker] keeps. The zero value keeps the week
// alone.
type TrackerOptions struct {
	Divisor Divisor // of the standard deviation of a week
	// AcuteChronic asks for acute and chronic loads. They describe, they are
	// no measure of risk.
	AcuteChronic bool
	Seed         Seed // of the exponential averages
	// Impulse asks for the impulse-response model, if its time constants are
	// set.
	Impulse ImpulseModel
}

// Tracker follows the daily loads of one athlete. The zero value keeps the
// week; [NewTracker] takes options. A day's update allocates nothing.
type Tracker struct {
	options     TrackerOptions
	week        RollingWeek
	month       RollingMonth
	exponential ExponentialLoad
	impulse     Impulse
}

// NewTracker checks the options and starts before the first day. Refused: an
// unknown divisor, a seed outside 0 to [MaxDayLoad], a model out of its ranges.
func NewTracker(o TrackerOptions) (*Tracker, error) {
	var ps problems
	if o.Divisor > Population {
		ps.add("divisor", itoa(int(o.Divisor)), "no such divisor", "use Sample or Population")
	}
	if !o.Seed.valid() {
		ps.add("seed", ftoa(float64(o.Seed.Acute))+", "+ftoa(float64(o.Seed.Chronic)), "not loads from 0 to 1e9 AU", "give daily loads, or leave the seed out")
	}
	if o.Impulse != (ImpulseModel{}) && !o.Impulse.valid() {
		ps.add("impulse", ftoa(float64(o.Impulse.Tau1))+" and "+ftoa(float64(o.Impulse.Tau2))+" days", "a model out of its ranges, or equal time constants", "start from DefaultImpulseModel")
	}
	if len(ps) > 0 {
		return nil, ps.err()
	}
	return &Tracker{options: o, exponential: ExponentialLoad{Seed: o.Seed}, impulse: Impulse{Model: o.Impulse}}, nil
}

// Add appends a day. It reports whether the day has a load that counts; if not
// it is taken as unknown.
func (t *Tracker) Add(d DayLoad) bool {
	ok := t.week.Add(d)
	if t.options.AcuteChronic {
		t.month.Add(d)
		t.exponential.Add(d)
	}
	if t.options.Impulse.Tau1 > 0 {
		t.impulse.Add(d)
	}
	return ok
}

// Week is the last seven days, as by [Week].
func (t *Tracker) Week() (WeekLoad, bool) { return t.week.Week(t.options.Divisor) }

// Coupled is that of the last 28 days; undefined unless asked for.
func (t *Tracker) Coupled() (AcuteChronic, bool) {
	if !t.options.AcuteChronic {
		return AcuteChronic{}, false
	}
	return t.month.Coupled()
}

// Uncoupled is that of the last 28 days; undefined unless asked for.
func (t *Tracker) Uncoupled() (AcuteChronic, bool) {
	if !t.options.AcuteChronic {
		return AcuteChronic{}, false
	}
	return t.month.Uncoupled()
}

// Exponential is the averages after the last day; undefined unless asked for.
func (t *Tracker) Exponential() (AcuteChronic, bool) {
	if !t.options.AcuteChronic {
		return AcuteChronic{}, false
	}
	return t.exponential.Load()
}

// Impulse is the state of the model on the coming day; undefined unless a model
// was given.
func (t *Tracker) Impulse() (ImpulseState, bool) { return t.impulse.State() }

package load

import "math"

// ImpulseModel is the impulse-response model of training: each load raises
// fitness by K1 and fatigue by K2, which decay with the time constants Tau1 and
// Tau2. It is for shape and ranking only: nothing it gives is a predicted
// performance.
type ImpulseModel struct {
	Tau1, Tau2 Days    // decay of fitness and fatigue, above 0, at most 3650, different
	K1, K2     float64 // weights, 0 to 1e6
	P0         float64 // performance without training, within 1e9
}

// DefaultImpulseModel has the usual constants: 45 and 15 days, weights 1 and 2,
// P0 0.
//
// Source: Banister et al. 1975; Morton et al. 1990, J Appl Physiol
// 69:1171-1177, from memory.
func DefaultImpulseModel() ImpulseModel {
	return ImpulseModel{Tau1: 45, Tau2: 15, K1: 1, K2: 2}
}

func (m ImpulseModel) valid() bool {
	tau := func(d Days) bool { return d > 0 && d <= 3650 }
	return tau(m.Tau1) && tau(m.Tau2) && m.Tau1 != m.Tau2 &&
		within(m.K1, 0, 1e6) && within(m.K2, 0, 1e6) && within(m.P0, -1e9, 1e9)
}

// ImpulseState is the state of the model on one day, before that day's load
// acts. Fitness and fatigue are sums of decayed loads, not yet weighted.
type ImpulseState struct {
	Fitness, Fatigue AU
	Performance      float64 // P0 + K1 fitness - K2 fatigue
}

// After is the state on the day after the last of the given days:
// G(n) = (G(n-1) + w(n-1)) e^(-1/Tau1), H likewise with Tau2, both 0 before the
// first day. Not rounded. Undefined if a day is unknown, since its load would
// still act, or outside 0 to [MaxDayLoad], and for a model out of its ranges or
// with equal time constants.
//
// Source: Banister et al. 1975; Calvert et al. 1976, IEEE Trans SMC 6:94-102;
// Morton et al. 1990, J Appl Physiol 69:1171-1177, from memory.
func (m ImpulseModel) After(days []DayLoad) (ImpulseState, bool) {
	s := Impulse{Model: m}
	for _, d := range days {
		s.Add(d)
	}
	return s.State()
}

// Response is what one unit of load adds to performance t days later:
// K1 e^(-t/Tau1) - K2 e^(-t/Tau2), not rounded. Undefined for a negative or
// infinite time and for a model out of its ranges.
//
// Source: derived from the model.
func (m ImpulseModel) Response(t Days) (float64, bool) {
	if !m.valid() || !(t >= 0) || !finite(float64(t)) {
		return 0, false
	}
	return m.K1*math.Exp(-float64(t/m.Tau1)) - m.K2*math.Exp(-float64(t/m.Tau2)), true
}

// NeutralAfter is t_n, how long a load lowers performance:
// K ln(K2/K1), K = Tau1 Tau2/(Tau1 - Tau2). Not rounded. Undefined unless
// K2 > K1 > 0 and Tau1 > Tau2.
//
// Source: Fitz-Clarke et al. 1991, J Appl Physiol 71:1151-1158, from memory
// (about 16 days with the default constants); closed form derived.
func (m ImpulseModel) NeutralAfter() (Days, bool) {
	return m.closedForm(m.K2 / m.K1)
}

// PeakAfter is t_g, when a load helps most: K ln(K2 Tau1/(K1 Tau2)), K as in
// [ImpulseModel.NeutralAfter]. Not rounded. Undefined unless K2 > K1 > 0 and
// Tau1 > Tau2.
//
// Source: Fitz-Clarke et al. 1991, J Appl Physiol 71:1151-1158, from memory
// (about 40 days with the default constants); closed form derived.
func (m ImpulseModel) PeakAfter() (Days, bool) {
	return m.closedForm(m.K2 / m.K1 * float64(m.Tau1/m.Tau2))
}

func (m ImpulseModel) closedForm(ratio float64) (Days, bool) {
	if !m.valid() || !(m.K2 > m.K1 && m.K1 > 0 && m.Tau1 > m.Tau2) {
		return 0, false
	}
	d := float64(m.Tau1*m.Tau2/(m.Tau1-m.Tau2)) * math.Log(ratio)
	return Days(d), finite(d)
}

// Impulse is [ImpulseModel.After] a day at a time. Set the model before the
// first day; without a valid one nothing is defined.
type Impulse struct {
	Model ImpulseModel

	fitness, fatigue float64
	decay1, decay2   float64
	ready            bool
	unknown          bool
}

// Add appends a day. It reports whether the day has a load that counts; if not,
// the state is undefined from there on. It allocates nothing.
func (s *Impulse) Add(d DayLoad) bool {
	x, ok := d.value()
	if !ok || s.unknown {
		s.unknown = true
		return ok
	}
	if !s.ready {
		s.ready = true
		s.decay1 = math.Exp(-1 / float64(s.Model.Tau1))
		s.decay2 = math.Exp(-1 / float64(s.Model.Tau2))
	}
	s.fitness = (s.fitness + x) * s.decay1
	s.fatigue = (s.fatigue + x) * s.decay2
	return true
}

// State is the state on the day after the last one added, undefined as in
// [ImpulseModel.After].
func (s *Impulse) State() (ImpulseState, bool) {
	if s.unknown || !s.Model.valid() {
		return ImpulseState{}, false
	}
	return ImpulseState{
		Fitness:     AU(s.fitness),
		Fatigue:     AU(s.fatigue),
		Performance: s.Model.P0 + s.Model.K1*s.fitness - s.Model.K2*s.fatigue,
	}, true
}

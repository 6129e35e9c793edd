package load

// Quality is what training leaves behind.
type Quality uint8

// The qualities that have a residual effect.
const (
	AerobicEndurance Quality = iota
	MaximalStrength
	GlycolyticEndurance
	StrengthEndurance
	MaximalSpeed
)

// String is the quality in words.
func (q Quality) String() string {
	switch q {
	case AerobicEndurance:
		return "aerobic endurance"
	case MaximalStrength:
		return "maximal strength"
	case GlycolyticEndurance:
		return "anaerobic glycolytic endurance"
	case StrengthEndurance:
		return "strength endurance"
	case MaximalSpeed:
		return "maximal speed"
	}
	return "unknown quality"
}

// Residual is how many days a quality stays after the last sufficient stimulus,
// as middle and spread: maximal strength 30 +/- 5. Undefined for an unknown
// quality. An expert table for trained adults, not measured on the athlete: a
// band, never a cliff.
//
// Source: Issurin and Lustig 2004; Issurin 2010, Sports Med 40:189-206, via
// secondary text.
func (q Quality) Residual() (days, spread int, ok bool) {
	switch q {
	case AerobicEndurance, MaximalStrength:
		return 30, 5, true
	case GlycolyticEndurance:
		return 18, 4, true
	case StrengthEndurance:
		return 15, 5, true
	case MaximalSpeed:
		return 5, 3, true
	}
	return 0, 0, false
}

// ResidualBand is the dates between which a quality fades.
type ResidualBand struct {
	Early, Middle, Late Day
}

// ResidualAfter is the band after the date of the last sufficient stimulus.
// Undefined where [Quality.Residual] is, and if a date is outside the years 1 to
// 9999.
//
// Source: see [Quality.Residual].
func (q Quality) ResidualAfter(last Day) (ResidualBand, bool) {
	days, spread, ok := q.Residual()
	early, ok1 := last.Plus(days - spread)
	middle, ok2 := last.Plus(days)
	late, ok3 := last.Plus(days + spread)
	if !ok || !ok1 || !ok2 || !ok3 {
		return ResidualBand{}, false
	}
	return ResidualBand{early, middle, late}, true
}

// ResidualPhase is where a date lies in a band.
type ResidualPhase uint8

// The phases. A quality is not gone when its band has passed: strength in
// particular fades slowly (see the detraining studies in [Studies]).
const (
	Retained ResidualPhase = iota // before the early edge
	Fading                        // from the early to the late edge
	BandOver                      // after the late edge
)

// String is the phase in words.
func (p ResidualPhase) String() string {
	switch p {
	case Retained:
		return "retained"
	case Fading:
		return "fading"
	case BandOver:
		return "band over"
	}
	return "unknown phase"
}

// Phase is where a date lies in the band; both edges belong to it.
func (b ResidualBand) Phase(on Day) ResidualPhase {
	switch {
	case on < b.Early:
		return Retained
	case on <= b.Late:
		return Fading
	}
	return BandOver
}

package exercise

// Exercise is one entry of a [Catalogue].
type Exercise struct {
	ID      string // small letters and hyphens; what maxima, logs and prehab name
	Name    string // as printed
	Pattern Pattern
	Role    Role
	// Sided exercises are done one side after the other. In Apart ones the
	// other side is not loaded, so that a sore arm need not end the pattern.
	Sided, Apart bool
	// Kit lists what is needed, all of it; "dumbbell|kettlebell" is either.
	Kit     []string
	Load    Implement
	Tissues []Tissue // loaded so that a complaint there rules it out
	// Gentle tissues are reloaded so lightly that a mild complaint keeps or
	// brings in the exercise, never a restriction.
	Gentle    []Tissue
	Skill     int  // 0: anyone, 1: after some weeks, 2: after a year, 3: after three years
	Eccentric bool // emphasis on lowering
	Impact    int  // 0: none, 1: landings, 2: hard landings
	Heavy     bool // heavy lower-body work at the main dose
	Easier    []string
	Harder    []string
	Seconds   int  // of one repetition, or of one hold
	Hold      bool // Seconds is one hold: repetitions are holds
	Reps      int  // repetitions where the usual dose does not fit; 0: the usual dose
}

// level is what an athlete's training age allows, in steps of Skill.
const mostSkill = 3

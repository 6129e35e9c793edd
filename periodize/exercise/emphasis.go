package exercise

// emphasis is what the calendar makes of a strength session, beside its kind and
// the eccentric sessions of a break: it follows games, never the week's number.
// Common practice, no source.
type emphasis uint8

const (
	emphasisNone  emphasis = iota
	emphasisFast           // a game within two dates: power first, legs spared
	emphasisBuild          // in a break: a full second round
)

func (a *asked) emphasis() emphasis {
	s := &a.in.Session
	if !s.Kind.HeavyLowerBody() {
		return emphasisNone
	}
	for _, g := range s.GameDay {
		if g.Days == -1 || g.Days == -2 {
			return emphasisFast
		}
	}
	if a.in.Week.Break && !a.in.Exam {
		return emphasisBuild
	}
	return emphasisNone
}

// examSets is how many sets a session on an exam date aims at: its share of half
// of what the three weeks before had; ok is false if that is not known.
func (a *asked) examSets() (aim int, ok bool) {
	w := &a.in.Week
	if !a.in.Exam || w.Usual == 0 || w.Lifts == 0 || !a.in.Session.Kind.Lift() {
		return 0, false
	}
	return max(w.Usual/2-w.Sets, 0) / w.Lifts, true
}

// inExams finds the filling whose sets are nearest to what exams leave, more
// rounds first: later lifts of the week make up for it.
func (a *asked) inExams(minutes int) (groups []group, picks []chosen, cost int) {
	aim, _ := a.examSets()
	best, off := 2, -1
	for r := 3; r >= 1; r-- {
		a.examRounds = r
		_, picks, _ := a.best(minutes)
		n := 0
		for _, p := range picks {
			for _, o := range p.options {
				if o.e != nil {
					n += p.rounds
				}
			}
		}
		if d := max(n-aim, aim-n); off < 0 || d < off {
			best, off = r, d
		}
	}
	a.examRounds = best
	return a.best(minutes)
}

package whatif

import (
	"fmt"
	"slices"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

// optIn adds or takes an opt-in.
type optIn struct {
	what season.OptIn
	out  bool
}

// OptIn says that the athlete chose something, such as post-game sessions.
func OptIn(o season.OptIn) Change { return optIn{o, false} }

// OptOut takes an opt-in back.
func OptOut(o season.OptIn) Change { return optIn{o, true} }

func (c optIn) String() string {
	if c.out {
		return "opted out of " + calendar.Inert(string(c.what))
	}
	return "opted in to " + calendar.Inert(string(c.what))
}

func (c optIn) apply(e *editor) {
	if c.what != season.OptPostGame && c.what != season.OptLowRepSets {
		e.bad(season.CodeChoice, string(c.what), "there is no such opt-in", fmt.Sprintf("use %s or %s", season.OptPostGame, season.OptLowRepSets))
		return
	}
	list := slices.DeleteFunc(slices.Clone(e.req.Athlete.OptIns), func(o season.OptIn) bool { return o == c.what })
	if !c.out {
		list = append(list, c.what)
	}
	e.req.Athlete.OptIns = list
	e.touched.Athlete = append(e.touched.Athlete, "optIns")
}

// hold keeps the athlete out.
type hold struct{ hold season.Hold }

// Hold keeps the athlete from every session from a date until a named role
// clears it. A clearance counts once it is given, so a hold that begins after now
// has no end: for an absence of some days, [Add] a busy event.
func Hold(h season.Hold) Change { return hold{h} }

func (c hold) String() string {
	text := "held from " + c.hold.From.String()
	if !c.hold.ClearedOn.IsZero() {
		text += ", cleared on " + c.hold.ClearedOn.String()
	}
	return text
}

func (c hold) apply(e *editor) {
	e.req.Athlete.Holds = append(slices.Clone(e.req.Athlete.Holds), c.hold)
	e.touched.Athlete = append(e.touched.Athlete, "holds")
}

// trainingAge sets the training age.
type trainingAge struct{ months int }

// TrainingAge sets the months of regular supervised strength training, 0 or
// more.
func TrainingAge(months int) Change { return trainingAge{months} }

func (c trainingAge) String() string { return fmt.Sprintf("training age %d months", c.months) }

func (c trainingAge) apply(e *editor) {
	if c.months < 0 || c.months > 1200 {
		e.bad(season.CodeRange, fmt.Sprint(c.months), "a training age is 0 to 1200 months", "give full months")
		return
	}
	e.req.Athlete.TrainingAgeMonths = c.months
	e.touched.Athlete = append(e.touched.Athlete, "trainingAge")
}

package logbook

import (
	"cmp"
	"slices"
	"strings"

	"example.org/weft/calendar"
	"example.org/weft/load"
	"example.org/weft/periodize/season"
)

// What is enough to keep a quality. The studies behind the table of residual
// effects do not state it: common practice, no source, where nothing else stands.
const (
	// enoughMinutes of a strength session; shorter ones were broken off.
	enoughMinutes = 20
	// heavyReps and heavyLeft bound a set that keeps maximal strength: that the
	// relative load is kept is what counts, one set an exercise is enough (Spiering
	// et al. 2021, JSCR 35:1449-1458, seen); the two numbers are those of beginners'
	// cards.
	heavyReps = 8
	heavyLeft = 3
	// manyReps and manySets bound work for strength endurance.
	manyReps = 8
	manySets = 2
	// Minutes on the field.
	sprintMinutes   = 15 // of a game that holds sprints at full speed
	gameMinutes     = 45 // of a game for the endurances
	practiceMinutes = 60 // of a practice for aerobic endurance
	hardMinutes     = 45 // of a hard practice for the glycolytic one
	easyRating      = 3  // a practice or game below it keeps nothing
	hardRating      = 7  // a practice from it on is a hard one
)

// Qualities returns the qualities that have a residual effect, in the order of
// package load.
func Qualities() []load.Quality {
	return []load.Quality{load.AerobicEndurance, load.MaximalStrength, load.GlycolyticEndurance, load.StrengthEndurance, load.MaximalSpeed}
}

// Sufficient says in words what counts as enough to keep a quality, and where
// that comes from; "" for an unknown quality.
func Sufficient(q load.Quality) (words, source string) {
	const practice = "common practice, no source"
	switch q {
	case load.AerobicEndurance:
		return "45 min of a game, or a practice of 60 min that was not easy; recovery sessions are too short and too easy", practice
	case load.MaximalStrength:
		return "a full-body, trimmed, post-game or eccentric session; where repetitions left are told, a set of 8 or fewer with at most 3 left",
			"one session a week and one set an exercise are enough if the relative load is kept: Spiering et al. 2021, JSCR 35:1449-1458, seen; the rest common practice, no source"
	case load.GlycolyticEndurance:
		return "45 min of a game, or 45 min of a practice that was marked hard or rated 7 or more", practice
	case load.StrengthEndurance:
		return "a full-body or eccentric session; where sets are told, sure only with two work sets of 8 repetitions or more", practice
	case load.MaximalSpeed:
		return "a primer with its sprints, 15 min of a game on the field, or a practice of which somebody says that there were sprints at full speed", practice
	}
	return "", ""
}

// Stimulus is a date on which a quality was trained enough to keep it, or may
// have been.
type Stimulus struct {
	Date calendar.Date // unset: there is none
	Sure bool          // false: it may have been enough, or not have happened
	Of   string        // "full-body", "game", "practice"
	ID   string        // of the entry, else of the planned session or event
}

// answer is how well a question is settled.
type answer uint8

const (
	no answer = iota
	perhaps
	yes
)

func (a answer) atMost(b answer) answer { return min(a, b) }

// enough is what one thing that was done, or will be, says of each quality.
type enough [5]answer

func (e enough) atMost(a answer) enough {
	for q := range e {
		e[q] = e[q].atMost(a)
	}
	return e
}

// ofKind is what a session of a kind holds, if it is done as it is written.
func ofKind(k season.Kind) (e enough) {
	switch k {
	case season.FullBody, season.Eccentric:
		e[load.MaximalStrength], e[load.StrengthEndurance] = yes, yes
	case season.Trimmed, season.PostGame:
		e[load.MaximalStrength] = yes
	case season.Primer:
		e[load.MaximalSpeed] = yes
	}
	return e
}

// ofSession is what a logged session says.
func ofSession(s *Session) enough {
	e := ofKind(s.Session)
	switch {
	case s.State == Missed, s.State == Done && s.Minutes.Known && s.Minutes.Value < enoughMinutes:
		return enough{}
	case s.State != Done:
		return e.atMost(perhaps)
	}
	rated, heavy, reps, many := false, false, false, 0
	for i := range s.Sets {
		x := &s.Sets[i]
		if x.Ramp || !x.Reps.Known {
			continue
		}
		reps = true
		if x.Reps.Value >= manyReps {
			many++
		}
		left, ok := x.Reserve()
		rated = rated || ok
		heavy = heavy || ok && left <= heavyLeft && x.Reps.Value <= heavyReps && x.Reps.Value > 0
	}
	if rated && !heavy {
		e[load.MaximalStrength] = no
	}
	if reps && many < manySets {
		e[load.StrengthEndurance] = e[load.StrengthEndurance].atMost(perhaps) // often only the main lifts are logged
	}
	return e
}

// lasted says whether something took so many minutes at least.
func lasted(minutes Maybe[int], least int) answer {
	switch {
	case !minutes.Known:
		return perhaps
	case minutes.Value < least:
		return no
	}
	return yes
}

// ofGame is what so many minutes of a game say.
func ofGame(minutes Maybe[int], rating Maybe[load.SessionRating]) (e enough) {
	e[load.MaximalSpeed] = lasted(minutes, sprintMinutes)
	if !rating.Known || rating.Value >= easyRating {
		e[load.AerobicEndurance], e[load.GlycolyticEndurance] = lasted(minutes, gameMinutes), lasted(minutes, gameMinutes)
	}
	return e
}

// ofPractice is what a practice says; hard is whether it was marked so.
func ofPractice(minutes Maybe[int], rating Maybe[load.SessionRating], sprinted Maybe[bool], hard bool) (e enough) {
	switch {
	case minutes.Known && minutes.Value == 0:
		return e
	case !sprinted.Known:
		e[load.MaximalSpeed] = perhaps
	case sprinted.Value:
		e[load.MaximalSpeed] = yes
	}
	if !rating.Known || rating.Value >= easyRating {
		e[load.AerobicEndurance] = lasted(minutes, practiceMinutes)
	}
	switch {
	case rating.Known && rating.Value >= hardRating, !rating.Known && hard:
		e[load.GlycolyticEndurance] = lasted(minutes, hardMinutes)
	case !rating.Known:
		e[load.GlycolyticEndurance] = lasted(minutes, hardMinutes).atMost(perhaps)
	}
	return e
}

// ofEvent is what a game or practice of the calendar says of which nothing is
// told. plays is how many minutes of a game the athlete is expected to play.
func ofEvent(p *calendar.Placed, plays Maybe[int]) enough {
	length := int(p.Span.Duration().Minutes())
	switch p.Kind {
	case calendar.Game:
		return ofGame(plays, Maybe[load.SessionRating]{})
	case calendar.Practice:
		return ofPractice(Told(length), Maybe[load.SessionRating]{}, Maybe[bool]{}, p.Hard)
	}
	return enough{}
}

// said is one dated thing with what it says.
type said struct {
	date   calendar.Date
	of, id string
	enough
}

// past is all that was done, or may have been, up to and with the date of today.
func (s *Setting) past(v *View) []said {
	var out []said
	told := map[string]bool{} // planned sessions and events of which something is told
	hard := map[string]bool{}
	for i := range s.Events {
		hard[s.Events[i].ID] = s.Events[i].Hard
	}
	take := func(e *Entry, most answer) {
		x := said{date: e.Date(), id: e.ID}
		switch w := e.What.(type) {
		case Session:
			told[w.Planned] = true
			x.of, x.enough = string(w.Session), ofSession(&w)
		case Game:
			told[w.Event] = true
			x.of, x.enough = "game", ofGame(w.Minutes, w.Rating)
		case Practice:
			told[w.Event] = true
			x.of, x.enough = "practice", ofPractice(w.Minutes, w.Rating, w.Sprinted, hard[w.Event])
		default:
			return
		}
		x.enough = x.atMost(most)
		if x.enough != (enough{}) && !x.date.After(s.Today) {
			out = append(out, x)
		}
	}
	for i := range v.Entries {
		take(&v.Entries[i], yes)
	}
	for _, d := range v.Disputed {
		for i := range d.Entries {
			take(&d.Entries[i], perhaps)
		}
	}
	for _, p := range s.Issued {
		if p.Date.Before(s.Today) && !told[p.ID] {
			out = append(out, said{p.Date, string(p.Kind), p.ID, ofKind(p.Kind).atMost(perhaps)})
		}
	}
	for i := range s.Events {
		if e := &s.Events[i]; e.Active() && e.Date.Before(s.Today) && !told[e.ID] {
			out = append(out, said{e.Date, string(e.Kind), e.ID, ofEvent(e, s.Plays).atMost(perhaps)})
		}
	}
	return out
}

// ahead is what a plan and the calendar hold from today on, without what is told
// already. Sessions and practices are taken as done the way they are written.
func (s *Setting) ahead(v *View, plan *season.Plan) []said {
	if plan == nil {
		return nil
	}
	told := map[string]bool{}
	for i := range v.Entries {
		switch w := v.Entries[i].What.(type) {
		case Session:
			told[w.Planned] = true
		case Game:
			told[w.Event] = true
		case Practice:
			told[w.Event] = true
		}
	}
	var out []said
	for _, p := range plan.Sessions {
		if !p.Date.Before(s.Today) && !told[p.ID] && p.State != season.Held {
			out = append(out, said{p.Date, string(p.Kind), p.ID, ofKind(p.Kind)})
		}
	}
	for i := range s.Events {
		if e := &s.Events[i]; e.Active() && !e.Date.Before(s.Today) && !e.Date.After(plan.Period.To) && !told[e.ID] {
			x := said{e.Date, string(e.Kind), e.ID, ofEvent(e, s.Plays)}
			if e.Status.Settled() != calendar.Confirmed && e.Status.Settled() != calendar.Played {
				x.enough = x.atMost(perhaps) // it may not take place
			}
			out = append(out, x)
		}
	}
	return out
}

// stimuli picks those of a quality, in the order of time. A date counts once: by
// what is sure, else by what may be.
func stimuli(list []said, q load.Quality) []Stimulus {
	var out []Stimulus
	for _, x := range list {
		if x.enough[q] != no {
			out = append(out, Stimulus{x.date, x.enough[q] == yes, x.of, x.id})
		}
	}
	slices.SortFunc(out, func(a, b Stimulus) int {
		sure := func(s Stimulus) int {
			if s.Sure {
				return 0
			}
			return 1
		}
		return cmp.Or(a.Date.Compare(b.Date), cmp.Compare(sure(a), sure(b)), strings.Compare(a.Of, b.Of), strings.Compare(a.ID, b.ID))
	})
	return slices.CompactFunc(out, func(a, b Stimulus) bool { return a.Date == b.Date })
}

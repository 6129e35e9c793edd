package exercise

import (
	"example.org/weft/calendar"
	"example.org/weft/load"
	"example.org/weft/periodize/season"
)

// Builder makes cards. The zero value is ready: the built-in catalogue and
// Epley's equation. It holds no state and is safe for concurrent use.
type Builder struct {
	Catalogue Catalogue
	// Curve relates repetitions and maxima; nil is [load.Epley].
	Curve *load.Curve
}

// Session makes the card of one session. The error is a *season.InputError with
// every problem of the input; a hold that nobody has cleared, an illness and an
// age under 12 are refusals among them. The same input gives the same card.
func (b Builder) Session(in Input) (Card, error) {
	a, err := b.ask(&in)
	if err != nil {
		return Card{}, err
	}
	return a.build(), nil
}

// ask makes an input ready.
func (b Builder) ask(in *Input) (*asked, error) {
	c := b.Catalogue.data()
	problems := in.problems(c)
	if len(problems) == 0 {
		problems = refusals(in)
	}
	if len(problems) > 0 {
		return nil, &season.InputError{Problems: problems}
	}
	a := b.prepared(in, c)
	a.start()
	return a, nil
}

// prepared is what does not depend on the session.
func (b Builder) prepared(in *Input, c *compiled) *asked {
	a := &asked{in: in, c: c, kit: in.Kit.ready(c), curve: load.Epley, avoid: names(c, in.Profile.Avoid), ws: newWorkspace(c)}
	if b.Curve != nil {
		a.curve = *b.Curve
	}
	var questions []season.Note
	a.records, a.last, questions = recordsOf(in, c, a.curve)
	a.notes = questions
	a.next = nextOf(in, c)
	a.has = make([]bool, len(c.list))
	for at, list := range a.records {
		a.has[at] = len(list) > 0
	}
	for at := range a.last {
		a.has[at] = true
	}
	for at := range a.next {
		a.has[at] = true
	}
	a.proven = make([]bool, len(c.list))
	for _, d := range in.History.Sets {
		if e := c.find(d.Exercise); e != nil && d.Reps+max(d.Left, 0) >= e.Reps {
			a.proven[e.at] = true
		}
	}
	return a
}

// start reads the rest of the input.
func (a *asked) start() {
	a.who()
	a.before()
	if a.bar.restrictions(a.in.Athlete.Restrictions, a.in.Session.Date) {
		a.say("question-side")
	}
	a.open(a.in.History.Reports, a.in.Session.Date)
	kind := a.in.Session.Kind
	if a.in.Exam {
		a.say("card-exam")
	}
	if a.in.Congested && kind.HeavyLowerBody() && !a.beginner { // a beginner does two sets anyway
		a.say("card-congested")
	}
	switch a.emphasis() {
	case emphasisFast:
		a.say("card-fast")
	case emphasisBuild:
		a.say("card-build")
	}
	switch kind {
	case season.Trimmed:
		a.say("card-trimmed")
	case season.Eccentric:
		a.say("card-eccentric")
	}
	if a.keeper && kind == season.Primer {
		a.say("card-keeper")
	}
	if m, ok := a.played(); ok {
		switch {
		case kind == season.PostGame && m < benchUnder:
			a.say("card-bench", "minutes", m)
		case kind == season.PostGame && m >= starterFrom:
			a.say("card-starter", "minutes", m)
		case kind == season.Recovery && m < benchUnder:
			a.say("card-bench-recovery", "minutes", m)
		}
	}
}

// refusals are reasons for no card at all.
func refusals(in *Input) []calendar.Problem {
	var out []calendar.Problem
	add := func(code, reason, remedy string) {
		out = append(out, calendar.Problem{Code: code, Class: calendar.ClassRefusal, Path: "/session", Reason: reason, Remedy: remedy})
	}
	d := in.Session.Date
	if held(in.Athlete.Holds, d) {
		add("hold", "on hold until a named clinician clears it", "no session until somebody is named who cleared it")
	}
	if ill(in.History.Illness, &in.Session) {
		add("not-fit", "no session on this date", "wait for a whole free date, then ask again")
	}
	if age, ok := in.Athlete.Born.AgeOn(d); ok && age < 12 {
		add("under-12", "under 12 years: bodyweight skills with a qualified coach only, no card is made", "let the coach lead")
	}
	return out
}

// held reports whether a hold stands on a date. A date that was expected ends
// nothing; a clearance does.
func held(list []season.Hold, d calendar.Date) bool {
	for _, h := range list {
		if !d.Before(h.From) && (h.ClearedBy == "" || h.ClearedOn.IsZero() || d.Before(h.ClearedOn)) {
			return true
		}
	}
	return false
}

// warmMinutes is the least warm-up: 10 minutes as a rule, less in short
// sessions and straight after a game.
func (a *asked) warmMinutes() int {
	m := a.in.Session.Minutes
	switch k := a.in.Session.Kind; {
	case k == season.Recovery:
		return 0
	case k == season.PostGame && m >= 20:
		return 5
	case m >= 40 && a.older:
		return 12
	case m >= 30:
		return 10
	case m >= 20:
		return 6
	case m >= 12:
		return 4
	}
	return 3
}

// Limits of what is left over after the work.
const (
	mostWarm   = 15
	mostEasy   = 30 // minutes of the easy piece
	leastEasy  = 4
	mostLonger = 60 // seconds of further rest after a set of the main lift
	// mostBetween is in seconds, from set to set of the main lift: the handbook's
	// 2 to 5 minutes for strength (NSCA Essentials, via secondary text).
	mostBetween = 300
	mostClose   = 8 // minutes of easy mobility at the end; more is spare time
)

// build makes the card.
func (a *asked) build() Card {
	s := &a.in.Session
	warm := a.warmMinutes()
	budget := s.Minutes - warm
	if s.Kind == season.Recovery {
		budget = max(min(s.Minutes/2, s.Minutes-leastEasy), 0)
	}
	search := a.best
	if _, ok := a.examSets(); ok {
		search = a.inExams
	}
	groups, picks, cost := search(budget)
	card := Card{Session: s.ID, Date: s.Date, Kind: s.Kind, State: season.AsWritten, Cost: cost, Blocks: make([]Block, 0, maxGroups+2)}
	used := 0
	for _, p := range picks {
		used += p.minutes
	}
	left := s.Minutes - warm - used
	if s.Kind == season.Recovery {
		easy := min(left, mostEasy)
		card.Blocks = append(card.Blocks, a.easyPiece(easy))
		left -= easy
	} else {
		more := 0
		if warm >= 10 {
			more = min(left, 2)
			if a.older || left > 6 {
				more = min(left, mostWarm-warm)
			}
		}
		if a.shrink {
			more = 0
		}
		left -= more
		card.Blocks = append(card.Blocks, a.warmUp(warm+more, picks))
		if warm < 10 && s.Kind != season.PostGame {
			a.say("card-warm-short", "minutes", warm)
		}
	}
	for i := range groups {
		if picks[i].rounds == 0 {
			continue
		}
		b := a.block(&groups[i], &picks[i])
		if longer := min(left, b.mayRest()); longer > 0 && !a.shrink {
			b.longer(longer)
			left -= longer
		}
		card.Blocks = append(card.Blocks, b)
	}
	if left > 0 && !a.shrink {
		card.Blocks = append(card.Blocks, a.ending(min(left, mostClose), left))
	}
	for _, b := range card.Blocks {
		card.Minutes += b.Minutes
	}
	if a.shrink && left > 0 {
		a.say("card-spare", "minutes", left)
	}
	a.omissions(&card)
	a.volume(&card)
	card.Notes = append(card.Notes, a.notes...)
	return card
}

// mayRest is how many minutes more a block may rest after its main lift: a minute a
// round, and no more than mostBetween from one set to the next.
func (b *Block) mayRest() int {
	between, main := 0, false
	for i := range b.Items {
		it := &b.Items[i]
		switch it.Slot {
		case slotRamp:
			continue
		case slotMain:
			main = true
		default:
			between += it.Seconds
		}
		between += it.Exercise.Rest
	}
	if !main {
		return 0
	}
	return max(min(mostLonger, mostBetween-between), 0) * b.Rounds / 60
}

// longer spreads further minutes over the rests of the main lift.
func (b *Block) longer(minutes int) {
	for i := range b.Items {
		if b.Items[i].Slot == slotMain {
			b.Items[i].Exercise.Rest += minutes * 60 / b.Rounds
			b.Minutes += minutes
			return
		}
	}
}

// ending is what is left at the end.
func (a *asked) ending(minutes, left int) Block {
	b := Block{Name: "Easy mobility and breathing", Minutes: left}
	if left > minutes {
		a.say("card-spare", "minutes", left-minutes)
		b.Name = "Easy mobility and breathing, then free"
	}
	return b
}

// whole are the regions of a complete full-body session.
var whole = [...]Region{Lower, Push, Pull, Trunk}

// omissions states which of the four regions a full-body card lacks, and why.
func (a *asked) omissions(card *Card) {
	if k := card.Kind; !k.HeavyLowerBody() {
		return
	}
	for _, r := range whole {
		if card.trains(r) {
			continue
		}
		card.Omitted = append(card.Omitted, r)
		var all []Pattern
		for _, p := range patternRegions {
			if p.region == r {
				all = append(all, p.pattern)
			}
		}
		reason := "kit, body and training age leave no exercise for it"
		if a.any(all) {
			reason = "the minutes do not reach"
		}
		a.say("card-omits", "region", string(r), "reason", reason)
	}
}

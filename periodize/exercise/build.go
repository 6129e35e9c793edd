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
	if a.in.Congested && kind.Lift() {
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
	mostClose  = 8  // minutes of easy mobility at the end; more is spare time
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
		if longer := min(left, picks[i].rounds*mostLonger/60); longer > 0 && groups[i].slots[0].name == slotMain && picks[i].options[0].e != nil && !a.shrink {
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

// block turns a choice into a part of the card.
func (a *asked) block(g *group, p *chosen) Block {
	b := Block{Name: g.name, Minutes: p.minutes, Rounds: p.rounds, Items: make([]Item, 0, len(p.options)+rampSets)}
	for i := range p.options {
		o := &p.options[i]
		if o.e == nil {
			continue
		}
		it := a.item(&g.slots[i], o, p.rounds)
		if o.once > 0 {
			b.Items = append(b.Items, a.ramp(o, &it)...)
		}
		b.Items = append(b.Items, it)
	}
	return b
}

func (a *asked) item(s *slot, o *option, sets int) Item {
	e := o.e
	w := a.weigh(e, o.dose)
	x := season.Exercise{Name: e.Name, Pattern: string(e.Pattern), Sets: sets, Reps: o.dose.text(e), Load: w.grams, Effort: w.effort, Rest: o.dose.rest}
	if w.why.Code != "" {
		n := w.why
		x.Evidence = &n
	}
	switch {
	case o.side != "":
		x.Side = o.side
	case e.Sided:
		x.Side = "each"
	}
	if a.slow(e, s.class) {
		x.Effort += ", 4 s down"
	}
	if s.class == classSprint && e.Impact > 0 {
		x.Effort = "fast, fresh each time: walk back and wait"
	}
	it := Item{ID: e.ID, Slot: s.name, Exercise: x, Seconds: o.dose.secs, Reps: o.dose.high, Left: o.dose.left, Why: a.why(s, o)}
	if s.class <= classStrength {
		it.Easier, it.Harder = a.relative(e.Easier), a.relative(e.Harder)
	}
	return it
}

func (a *asked) why(s *slot, o *option) season.Note {
	e := o.e
	switch {
	case o.side != "":
		return note("pick-one-side", "side", o.side)
	case a.keep != nil && a.keep.uses(e.ID):
		return note("pick-kept")
	case s.class == classMain && a.continues(e):
		return note("pick-continued", "date", a.mem.mains[e.Pattern].since)
	case s.class == classMain && a.hasRecord(e):
		return note("pick-maximum")
	case s.class == classMain && a.mem.last != "" && a.mem.last != e.Pattern:
		return note("pick-alternate")
	case a.cards > 0 && a.used[e.at] == 0:
		return note("pick-varied")
	case a.alone(s):
		return note("pick-only")
	}
	return note("pick-fits")
}

// continues reports whether an exercise is the main lift of its pattern in this
// block.
func (a *asked) continues(e *entry) bool {
	m, ok := a.mem.bound(e.Pattern, a.in.Session.Date, a.in.Week.BlockFrom)
	return ok && m.id == e.ID
}

// alone reports whether nothing else could stand in a slot.
func (a *asked) alone(s *slot) bool {
	n := 0
	for _, p := range s.patterns {
		for _, i := range a.c.slots[p] {
			if _, ok := a.option(s, &a.c.list[i]); ok {
				n++
			}
		}
	}
	return n == 1
}

const rampSets = 2

// ramp is the lighter sets before the first work set of a bar lift: half and
// three quarters of the work load, rounded down to what can be built.
func (a *asked) ramp(o *option, work *Item) []Item {
	out := make([]Item, 0, rampSets)
	for _, r := range [rampSets]struct{ reps, percent int }{{5, 50}, {3, 75}} {
		x := season.Exercise{Name: o.e.Name + ", lighter", Pattern: string(o.e.Pattern), Sets: 1, Rest: 60,
			Reps: dose{reps: r.reps}.text(&entry{}), Effort: "easy and quick"}
		n := note("load-ramp", "percent", r.percent)
		if work.Exercise.Load != nil {
			if m, ok := a.kit.atMost(o.e, load.Mass(work.Exercise.Load.Grams)*load.Mass(r.percent)/100); ok {
				x.Load = &season.Grams{Grams: int64(m)}
				x.Evidence = &n
			}
		}
		out = append(out, Item{ID: o.e.ID, Slot: slotRamp, Exercise: x, Seconds: r.reps * o.e.Seconds, Reps: r.reps, Left: -1, Why: note("pick-ramp")})
	}
	return out
}

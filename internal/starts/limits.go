package starts

import (
	"iter"
	"sort"

	"example.org/weft/calendar"
	"example.org/weft/periodize/rule"
	"example.org/weft/periodize/season"
)

// Breach is a limit that a session would break, and the event that makes it, -1
// if none does.
type Breach struct {
	Rule  string
	Event int
}

// Slot is a session at a start: a candidate, or one that is forced by the past
// or a pin.
type Slot struct {
	Kind                 season.Kind
	From, To             int64
	Day                  int // day number of its local date
	StartClock, EndClock int
	Place                int
	Forced               bool
	Pinned               bool
	Done                 bool   // logged as done, or issued and past
	Logged               bool   // logged as done
	Issued               bool   // a choice of the plan issued before
	ID                   string // of what was issued or logged

	Breaches []Breach // of forced ones; a candidate has none
	Costs    []Charge
}

// Charge is a static cost of a slot in points.
type Charge struct {
	Rule   string
	Points int64
	Event  int
}

// Minutes is the length of the slot.
func (s *Slot) Minutes() int { return int(s.To - s.From) }

// Points is the sum of the static costs.
func (s *Slot) Points() int64 {
	var n int64
	for _, c := range s.Costs {
		n += c.Points
	}
	return n
}

func heavy(k season.Kind) bool { return k.HeavyLowerBody() }

func full(k season.Kind) bool { return k == season.FullBody || k == season.Eccentric }

// lengths are the shortest, usual and longest minutes of a kind.
func (f *Facts) lengths(k season.Kind) (least, usual, most int) {
	switch k {
	case season.FullBody:
		return 35, f.fullMinutes, 60
	case season.Trimmed:
		return 35, f.Set.Value("minutes-trimmed"), 50
	case season.Primer:
		return 30, f.Set.Value("minutes-primer"), 40
	case season.Recovery:
		return 30, f.Set.Value("minutes-recovery"), 45
	case season.PostGame:
		return 30, 30, 30
	default:
		return 45, f.Set.Value("minutes-eccentric"), 60
	}
}

// previousGame returns the game with the largest end at or before an instant.
func (f *Facts) previousGame(at int64) int {
	best := -1
	for _, g := range f.gamesNear(at) {
		if f.Events[g].To <= at && (best < 0 || f.Events[g].To > f.Events[best].To) {
			best = g
		}
	}
	return best
}

// nextGame returns the game with the smallest start after an instant.
func (f *Facts) nextGame(at int64) int {
	i := sort.Search(len(f.Games), func(i int) bool { return f.Events[f.Games[i]].From > at })
	if i == len(f.Games) {
		return -1
	}
	return f.Games[i]
}

// gamesNear returns the games that end before an instant or soon after: those
// that start at most 25 dates before it. Games are at most 13 hours long.
func (f *Facts) gamesNear(at int64) []int {
	lo := sort.Search(len(f.Games), func(i int) bool { return f.Events[f.Games[i]].From >= at-25*1440 })
	hi := sort.Search(len(f.Games), func(i int) bool { return f.Events[f.Games[i]].From >= at })
	if lo == hi && lo > 0 {
		lo--
	}
	return f.Games[lo:hi]
}

// closeMinutes: two games nearer to each other, end to start, are close. What is
// allowed between them keeps to this number and not to between-games, so that to
// relax that limit takes nothing away.
const closeMinutes = 24 * 60

// between says what an instant lies between: the game that ended last and the one
// that starts next, whether these are nearer than between-games (tight), and
// whether they are close (near).
func (f *Facts) between(from int64) (before, after int, tight, near bool) {
	before, after = f.previousGame(from), f.nextGame(from)
	if before < 0 || after < 0 {
		return before, after, false, false
	}
	gap := f.Events[after].From - f.Events[before].To
	return before, after, gap < int64(f.Set.Value("between-games"))*60, gap < closeMinutes
}

// recoveryLengths are the shortest, usual and longest minutes of a recovery
// session between two games.
func (f *Facts) recoveryLengths(tight, near bool) (least, usual, most int) {
	least, usual, most = f.lengths(season.Recovery)
	short := f.Set.Value("between-games-recovery")
	if tight {
		usual, most = min(usual, short), short
	}
	if near {
		least = shortRecovery
	}
	return least, usual, most
}

// shortRecovery is the shortest recovery session between close games. Common
// practice, no source.
const shortRecovery = 20

// breaches returns every static limit that a slot breaks. Open hours are known
// to the caller, which passes whether they hold.
func (f *Facts) breaches(s *Slot, open bool) []Breach { return f.appendBreaches(nil, s, open) }

// appendBreaches is breaches in the memory of out, which is empty.
func (f *Facts) appendBreaches(out []Breach, s *Slot, open bool) []Breach {
	set := f.Set
	hit := func(id string, event int) {
		if f.Ignore[Breach{id, event}] {
			return
		}
		for _, b := range out {
			if rule.Family(b.Rule) == rule.Family(id) { // counted once
				return
			}
		}
		out = append(out, Breach{id, event})
	}
	hours := func(id string) int64 { return int64(set.Value(id)) * 60 }
	at, ok := f.Index(s.Day)
	if !ok {
		return out
	}
	d := &f.Days[at]
	k := s.Kind
	before := f.previousGame(s.From)

	// Overlap.
	for i := range f.eventsNear(s.From, s.To) {
		e := &f.Events[i]
		to := e.BlockTo
		if k == season.PostGame && i == before {
			to = e.To
		}
		if s.From < to && e.BlockFrom < s.To {
			hit("event-overlap", i)
		}
	}
	if !open {
		hit("open-hours", -1)
	}
	if id := latestEnd(d); s.EndClock > set.Value(id) {
		hit(id, -1)
	}
	least, _, most := f.lengths(k)
	g1, _, tight, near := f.between(s.From)
	switch {
	case d.Exam:
		least, most = 20, set.Value("exam-minutes")
		if full(k) {
			hit("session-length", -1)
		}
	case k == season.Recovery:
		least, _, most = f.recoveryLengths(tight, near)
	}
	if n := s.Minutes(); n < least || n > most {
		hit("session-length", -1)
	}
	// Before games.
	for x := sort.Search(len(f.Games), func(i int) bool { return f.Events[f.Games[i]].From > s.From }); x < len(f.Games); x++ {
		g := f.Games[x]
		gap := f.Events[g].From - s.To
		if gap >= 240*60 {
			break
		}
		if heavy(k) && gap < hours("heavy-before-game") {
			hit("heavy-before-game", g)
		}
		if full(k) && gap < hours("full-before-game") && set.On("full-before-game") {
			hit("full-before-game", g)
		}
		if k == season.Eccentric && gap < hours("eccentric-before-game") && set.On("eccentric-before-game") {
			hit("eccentric-before-game", g)
		}
		if k == season.Primer && gap < hours("primer-latest") && set.On("primer-latest") {
			hit("primer-latest", g)
		}
		if f.Events[g].Day == s.Day && set.On("game-date") {
			if !(near && k == season.Recovery && s.Minutes() <= set.Value("between-games-recovery")) {
				hit("game-date", g)
			}
		}
	}
	if k == season.Primer && set.On("primer-earliest") && f.primerGame(s) < 0 {
		hit("primer-earliest", -1)
	}
	// After games.
	if len(d.Games) > 0 && set.On("game-date") && k != season.PostGame && k != season.Recovery {
		if last := d.Games[len(d.Games)-1]; f.Events[last].From <= s.From {
			hit("game-date", last)
		}
	}
	if tight && set.On("between-games") && !(k == season.Recovery && s.Minutes() <= set.Value("between-games-recovery")) {
		hit("between-games", g1)
	}
	if before >= 0 {
		gap := s.From - f.Events[before].To
		if full(k) && gap < hours("after-game-full") && set.On("after-game-full") {
			hit("after-game-full", before)
		}
		if k == season.Trimmed && gap < hours("after-game-trimmed") && set.On("after-game-trimmed") {
			hit("after-game-trimmed", before)
		}
	}
	if k == season.PostGame {
		f.postGame(s, d, before, hit)
	}
	sleep := "sleep"
	if d.Minor {
		sleep = "sleep-minor"
	}
	if set.On(sleep) {
		for i := range f.eventsNear(s.From-16*60, s.From) {
			e := &f.Events[i]
			switch e.Kind {
			case calendar.Game, calendar.Practice, calendar.Skills, calendar.Travel:
			default:
				continue
			}
			if e.EndClock <= 21*60 || e.To > s.From || (k == season.PostGame && i == before) {
				continue
			}
			if s.From-e.BlockTo < hours(sleep) {
				hit(sleep, i)
			}
		}
	}
	if d.Exam && set.On("exam-date") && (s.From < d.ExamEnd || s.EndClock > set.Value("exam-date")) {
		hit("exam-date", f.examOn(d))
	}
	if d.Minor && set.On("double-fixture") && at > 0 {
		if games := f.Days[f.livedBefore(at)].Games; len(games) > 1 {
			hit("double-fixture", games[0])
		}
	}
	if k == season.Eccentric && !f.eccentricAllowed(d) {
		hit("eccentric-place", -1)
	}
	if k == season.FullBody && set.On("long-haul") {
		for i := range f.eventsNear(s.From-97*60, s.From) {
			e := &f.Events[i]
			if e.LongHaul && e.To <= s.From && s.From-e.To < hours("long-haul") {
				hit("long-haul", i)
			}
		}
	}
	if d.Hold {
		hit("hold", -1)
	}
	for _, c := range f.custom {
		if c.Single != nil && c.Single(f.RuleDay(at), f.RuleSession(s)).Forbid {
			hit(c.ID, -1)
		}
	}
	return out
}

// latestEnd is the row that says when a date ends for the athlete.
func latestEnd(d *Day) string {
	switch {
	case d.Age <= 15:
		return "latest-end-15"
	case d.Minor:
		return "latest-end-minor"
	}
	return "latest-end"
}

func (f *Facts) eccentricAllowed(d *Day) bool {
	return d.Break && d.FirstHalf && !d.Minor && f.TrainAge >= 12*f.Set.Value("eccentric-place")
}

func (f *Facts) postGame(s *Slot, d *Day, own int, hit func(string, int)) {
	set := f.Set
	switch {
	case !f.Athlete.OptedIn(season.OptPostGame), own < 0:
		hit("post-game", -1)
		return
	case s.From-f.Events[own].To > int64(set.Value("post-game")), f.Events[own].DateOnly, f.Events[own].Day != s.Day, f.Events[own].Status == calendar.IfNecessary:
		hit("post-game", own)
	}
	if d.Age < set.Value("post-game-age") {
		hit("post-game-age", own)
	}
	if set.On("post-game-next") {
		if f.Game(f.Events[own].Day + 1) {
			hit("post-game-next", own)
		}
		if next := f.nextGame(s.From); next >= 0 && f.Events[next].From-s.To < int64(set.Value("post-game-next"))*60 {
			hit("post-game-next", next)
		}
	}
}

// primerGame returns the game that a primer is for: it ends inside the window
// before it, on an earlier date. -1 if there is none.
func (f *Facts) primerGame(s *Slot) int {
	lo, hi := int64(f.Set.Value("primer-latest"))*60, int64(f.Set.Value("primer-earliest"))*60
	for x := sort.Search(len(f.Games), func(i int) bool { return f.Events[f.Games[i]].From > s.From }); x < len(f.Games); x++ {
		g := f.Games[x]
		gap := f.Events[g].From - s.To
		if gap > hi {
			break
		}
		if gap >= lo && f.Events[g].Day > s.Day {
			return g
		}
	}
	return -1
}

func (f *Facts) examOn(d *Day) int {
	for i := range f.Events {
		if f.Events[i].Kind == calendar.Exam && f.Events[i].Day == d.N && f.Events[i].To == d.ExamEnd {
			return i
		}
	}
	return -1
}

// eventsNear yields the indices of events whose buffered span may touch
// [from, to).
func (f *Facts) eventsNear(from, to int64) iter.Seq[int] {
	return func(yield func(int) bool) {
		lo := sort.Search(len(f.Events), func(i int) bool { return f.Events[i].From >= from-f.longest() })
		for i := lo; i < len(f.Events) && f.Events[i].From < to+9*60; i++ {
			if f.Events[i].BlockTo > from && !yield(i) {
				return
			}
		}
	}
}

// longest is the most minutes from the start of an event to the end of its
// buffer: how far back a search must look.
func (f *Facts) longest() int64 {
	if f.span == 0 {
		f.span = 1
		for i := range f.Events {
			f.span = max(f.span, f.Events[i].BlockTo-f.Events[i].From)
		}
	}
	return f.span
}

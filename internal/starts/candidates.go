package starts

import (
	"cmp"
	"slices"
	"sort"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

// step is the grid of starts, in minutes.
const step = 5

// Blocked says what stood in the way of a kind on a date: every limit that a
// sensible start of it broke, each with its event.
type Blocked map[season.Kind][]Breach

// Choices are the options of one date.
type Choices struct {
	Slots   []Slot
	Options [][]int // each a list of slots in order of start; the last is the fewest possible
	Blocked Blocked
}

// generate finds the candidates of every kind on a date. Past starts are left
// out. extra are starts that must be among them if they are legal: those of the
// plan issued before.
func (f *Facts) generate(i int, places []season.Place, extra []Slot) ([]Slot, Blocked) {
	d := &f.Days[i]
	blocked := Blocked{}
	if d.To <= f.Now {
		return nil, blocked
	}
	room := roomy{athlete: f.athleteSpans(d)}
	for _, p := range places {
		room.places = append(room.places, f.placeSpans(d, p))
	}
	var taken []span
	for e := range f.eventsNear(d.From, d.To) {
		ev := &f.Events[e]
		if f.Ignore[Breach{"event-overlap", e}] {
			continue
		}
		taken = append(taken, span{ev.BlockFrom, ev.BlockTo})
	}
	plain := f.unslotted(room)
	free := make([][]span, len(plain.places))
	for p := range free {
		free[p] = subtract(intersect(plain.places[p], plain.athlete), taken)
	}
	out := f.scratch.found[:0]
	for _, k := range [...]season.Kind{season.FullBody, season.Eccentric, season.Trimmed, season.Primer, season.Recovery, season.PostGame} {
		legal := f.legal(f.scratch.legal[:0], i, k, plain, free, blocked)
		for _, x := range extra {
			if x.Kind != k || x.From < f.Now || f.hasSlots(x.Place) {
				continue
			}
			x := x
			if len(f.breaches(&x, f.open(&x, room))) == 0 {
				x.Costs = f.charges(&x)
				legal = append(legal, x)
			}
		}
		f.scratch.legal = legal
		out = append(out, f.few(d, k, legal)...)
		out = append(out, f.slotted(i, k, room, extra, blocked)...)
	}
	slices.SortStableFunc(out, func(a, b Slot) int {
		return cmp.Or(cmp.Compare(a.From, b.From), cmp.Compare(order(a.Kind), order(b.Kind)), cmp.Compare(a.To, b.To), cmp.Compare(a.Place, b.Place))
	})
	f.scratch.found = out
	if len(out) == 0 {
		return nil, blocked
	}
	return slices.Clone(out), blocked
}

// scratch is what the search for candidates of one date reuses for the next.
type scratch struct {
	legal, found []Slot
	hits         []Breach
	option       []int
	room         []int // for options that are kept: one piece of memory for many
}

// keep copies an option out of the scratch.
func (s *scratch) keep(option []int) []int {
	if len(s.room) < len(option) {
		s.room = make([]int, max(512, len(option)))
	}
	out := s.room[:len(option):len(option)]
	s.room = s.room[len(option):]
	copy(out, option)
	return out
}

// order is the place of a kind in [season.Kinds].
func order(k season.Kind) int {
	switch k {
	case season.FullBody:
		return 0
	case season.Trimmed:
		return 1
	case season.Primer:
		return 2
	case season.Recovery:
		return 3
	case season.PostGame:
		return 4
	case season.Eccentric:
		return 5
	}
	return 99
}

// legal tries the sensible starts of a kind on a date and returns those that
// break no limit, in the memory of out; what the others broke goes to blocked.
// free is what events and the athlete's hours leave of each place.
func (f *Facts) legal(out []Slot, i int, k season.Kind, room roomy, free [][]span, blocked Blocked) []Slot {
	d := &f.Days[i]
	tried := false
	try := func(from, to int64, place int) {
		if from < f.Now || from < d.From || from >= d.To || slices.ContainsFunc(out, func(s Slot) bool { return s.From == from && s.To == to }) {
			return
		}
		s := Slot{Kind: k, From: from, To: to, Day: d.N, Place: place}
		f.clocks(&s)
		b := f.appendBreaches(f.scratch.hits[:0], &s, f.open(&s, room))
		f.scratch.hits = b
		if len(b) == 0 {
			out = append(out, s)
			out[len(out)-1].Costs = f.charges(&s)
			return
		}
		tried = true
		for _, x := range b {
			note(blocked, k, x)
		}
	}
	for p := range room.places {
		open := free[p]
		if k == season.PostGame {
			open = room.places[p]
		}
		for _, w := range open {
			f.starts(d, k, p, w, func(from, to int64) { try(from, to, p) })
		}
	}
	if len(out) == 0 && !tried {
		f.why(d, k, room, blocked)
	}
	return out
}

func note(b Blocked, k season.Kind, x Breach) {
	for _, y := range b[k] {
		if y == x {
			return
		}
	}
	b[k] = append(b[k], x)
}

// why names what leaves no room for a kind on a date at all.
func (f *Facts) why(d *Day, k season.Kind, room roomy, blocked Blocked) {
	open := false
	for _, p := range room.places {
		if len(intersect(p, room.athlete)) > 0 {
			open = true
		}
	}
	if !open {
		note(blocked, k, Breach{"open-hours", -1})
	}
	any := false
	for e := range f.eventsNear(d.From, d.To) {
		if f.Events[e].BlockFrom < d.To {
			note(blocked, k, Breach{"event-overlap", e})
			any = true
		}
	}
	if !any && open {
		note(blocked, k, Breach{"open-hours", -1})
	}
}

// starts calls try with the sensible starts and ends of a kind in a free window of
// a place.
func (f *Facts) starts(d *Day, k season.Kind, place int, w span, try func(from, to int64)) {
	zone := f.zoneOf(place, w.from)
	least, usual, _ := f.lengths(k)
	if d.Exam {
		least, usual = 20, min(usual, f.Set.Value("exam-minutes"))
	}
	up := func(m int64) int64 { return (m + step - 1) / step * step }
	down := func(m int64) int64 { return m / step * step }
	// The window never reaches past the latest end.
	latest := f.Set.Value(latestEnd(d))
	if d.Exam && f.Set.On("exam-date") && !f.Ignore[Breach{"exam-date", f.examOn(d)}] {
		latest = min(latest, f.Set.Value("exam-date"))
		w.from = max(w.from, d.ExamEnd)
	}
	if !f.Ignore[Breach{latestEnd(d), -1}] {
		w.to = min(w.to, clockIn(zone, d, calendar.Clock(latest*60)))
	}
	w.from = max(w.from, f.Now)
	if k == season.PostGame {
		for _, g := range d.Games {
			e := &f.Events[g]
			for _, change := range []int64{changeMinutes, 0} {
				from := up(max(e.To+change, w.from))
				if from+int64(usual) <= w.to && from-e.To <= int64(f.Set.Value("post-game")) {
					try(from, from+int64(usual))
				}
			}
		}
		return
	}
	short := 0 // a length that is allowed where the usual one is not
	if k == season.Recovery {
		_, _, tight, near := f.between(w.from)
		from, to, _ := f.recoveryLengths(tight, near)
		usual = min(usual, to)
		if !d.Exam {
			least = from
		}
		if near && !tight {
			short = f.Set.Value("between-games-recovery")
		}
	}
	at := func(from int64) {
		from = up(max(from, w.from))
		to := min(from+int64(usual), down(w.to))
		if to-from >= int64(least) {
			try(from, to)
		}
		if to = from + int64(short); short >= least && to <= w.to {
			try(from, to)
		}
	}
	until := func(to int64) {
		to = down(min(to, w.to))
		from := max(to-int64(usual), up(w.from))
		if to-from >= int64(least) {
			try(from, to)
		}
		if from = to - int64(short); short >= least && from >= w.from {
			try(from, to)
		}
	}
	prefer := clockIn(zone, d, calendar.Clock(d.Prefer*60))
	at(w.from)
	until(w.to)
	if w.from <= prefer && prefer <= w.to {
		at(prefer)
		tolerance := int64(f.Set.Value("start-time"))
		at(prefer - tolerance)
		at(prefer + tolerance)
	}
	if d.Break { // room for two sessions
		apart := int64(f.Set.Value("sessions-apart"))*60 + 60
		at(prefer - apart)
		at(prefer + apart)
	}
	inside := func(m int64) bool { return w.from < m && m < w.to }
	hours := func(id string) int64 { return int64(f.Set.Value(id)) * 60 }
	for x := sort.Search(len(f.Games), func(i int) bool { return f.Events[f.Games[i]].From > w.from }); x < len(f.Games); x++ {
		gs := f.Events[f.Games[x]].From
		if gs > w.to+240*60 {
			break
		}
		for _, id := range []string{"heavy-before-game", "full-before-game", "eccentric-before-game", "primer-latest", "primer-timing", "important-48h", "near-game"} {
			if id == "important-48h" && !f.Events[f.Games[x]].Important {
				continue
			}
			if m := gs - hours(id); inside(m) {
				until(m)
			}
		}
		if m := gs - hours("primer-earliest") - int64(usual); k == season.Primer && inside(m) {
			at(m)
		}
	}
	for e := range f.eventsNear(w.from-100*60, w.to) {
		ev := &f.Events[e]
		var edges []int64
		switch ev.Kind {
		case calendar.Game:
			edges = []int64{ev.To + hours("after-game-full"), ev.To + hours("after-game-trimmed"), ev.BlockTo + hours("sleep"), ev.BlockTo + hours("sleep-minor")}
		case calendar.Practice, calendar.Skills:
			edges = []int64{ev.To + hours("practice-order"), ev.BlockTo + hours("sleep"), ev.BlockTo + hours("sleep-minor")}
		case calendar.Travel:
			edges = []int64{ev.BlockTo + hours("sleep"), ev.BlockTo + hours("sleep-minor"), ev.To + hours("long-haul")}
		}
		for _, m := range edges {
			if inside(m) {
				at(m)
			}
		}
	}
}

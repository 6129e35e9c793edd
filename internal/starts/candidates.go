package starts

import (
	"sort"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

// step is the grid of starts, in minutes.
const step = 5

// span is a half-open stretch of minutes.
type span struct{ from, to int64 }

// Blocked says what stood in the way of a kind on a date: every limit that a
// sensible start of it broke, each with its event.
type Blocked map[season.Kind][]Breach

// Options of one date.
type Choices struct {
	Slots   []Slot
	Options [][]int // each a list of slots in order of start; the last is the fewest possible
	Blocked Blocked
}

// roomy is what the places and the athlete's hours leave of a date, by place.
type roomy struct {
	athlete []span
	places  [][]span
}

// DefaultHours are assumed where an athlete names none: 07:00 to 22:00, for
// minors on school days from 15:30. Common practice, no source.
const (
	defaultFrom       = 7 * 60
	defaultFromSchool = 15*60 + 30
)

func (f *Facts) clock(d *Day, c calendar.Clock) int64 {
	if c >= calendar.EndOfDay {
		return d.To
	}
	return floorMinutes(f.Zone.Resolve(calendar.Wall{Date: d.Date, Clock: c}).Instant)
}

// athleteSpans returns the athlete's hours of a date, merged.
func (f *Facts) athleteSpans(d *Day) []span {
	if f.Ignore[Breach{"open-hours", -1}] {
		return []span{{d.From, d.To}}
	}
	wd := d.Date.Weekday()
	if len(f.Athlete.Hours) == 0 {
		from := defaultFrom
		if d.Minor && wd != time.Saturday && wd != time.Sunday {
			from = defaultFromSchool
		}
		return []span{{f.clock(d, calendar.Clock(from*60)), d.To}}
	}
	return f.hours(d, f.Athlete.Hours, wd)
}

func (f *Facts) hours(d *Day, hours []season.Hours, wd time.Weekday) []span {
	var out []span
	for _, h := range hours {
		for _, day := range h.Days {
			if day == wd {
				if s := (span{f.clock(d, h.From), f.clock(d, h.To)}); s.from < s.to {
					out = append(out, s)
				}
			}
		}
	}
	return merge(out)
}

func merge(spans []span) []span {
	sort.Slice(spans, func(i, j int) bool {
		return spans[i].from < spans[j].from || (spans[i].from == spans[j].from && spans[i].to < spans[j].to)
	})
	var out []span
	for _, s := range spans {
		if n := len(out); n > 0 && s.from <= out[n-1].to {
			out[n-1].to = max(out[n-1].to, s.to)
			continue
		}
		out = append(out, s)
	}
	return out
}

func intersect(a, b []span) []span {
	var out []span
	for i, j := 0, 0; i < len(a) && j < len(b); {
		lo, hi := max(a[i].from, b[j].from), min(a[i].to, b[j].to)
		if lo < hi {
			out = append(out, span{lo, hi})
		}
		if a[i].to < b[j].to {
			i++
		} else {
			j++
		}
	}
	return out
}

func subtract(a, take []span) []span {
	take = merge(append([]span(nil), take...))
	var out []span
	for _, s := range a {
		at := s.from
		for _, t := range take {
			if t.to <= at || t.from >= s.to {
				continue
			}
			if t.from > at {
				out = append(out, span{at, t.from})
			}
			at = max(at, t.to)
		}
		if at < s.to {
			out = append(out, span{at, s.to})
		}
	}
	return out
}

func (f *Facts) placeSpans(d *Day, p season.Place) []span {
	if f.Ignore[Breach{"open-hours", -1}] {
		return []span{{d.From, d.To}}
	}
	for _, c := range p.Closed {
		if c.Contains(d.Date) {
			return nil
		}
	}
	open := []span{{d.From, d.To}}
	if len(p.Hours) > 0 {
		open = f.hours(d, p.Hours, d.Date.Weekday())
	}
	if p.Away {
		return intersect(open, f.away)
	}
	return subtract(open, f.away)
}

// awayMinutes is how long after an away game the athlete is taken to be on the
// way home, where no trip says so. Common practice, no source.
const awayMinutes = 180

// tripMinutes is how long before and after an away game a trip may lie and still
// belong to it. Common practice, no source.
const tripMinutes = 3 * 1440

// trips finds when the athlete is away: from the end of a trip to the start of
// the next where an away game lies soon after the one and before the other, else from the start of an away
// game until some time after its end.
func (f *Facts) trips() {
	last := -1
	var games []int // away games since the last trip
	for i := range f.Events {
		e := &f.Events[i]
		switch {
		case e.Kind == calendar.Game && e.Home == calendar.AtAway:
			games = append(games, i)
			f.away = append(f.away, span{e.From, e.To + awayMinutes})
		case e.Kind == calendar.Travel:
			if last >= 0 && len(games) > 0 && f.Events[games[0]].From-f.Events[last].To <= tripMinutes &&
				e.From-f.Events[games[len(games)-1]].To <= tripMinutes {
				f.away = append(f.away, span{f.Events[last].To, e.From})
				// The trip home is known: no guess is needed.
				for _, g := range games {
					f.home = append(f.home, span{e.To, f.Events[g].To + awayMinutes})
				}
			}
			last, games = i, nil
		}
	}
	var home []span
	for _, h := range f.home {
		if h.from < h.to {
			home = append(home, h)
		}
	}
	f.away = subtract(merge(f.away), home)
}

// Places returns the places of a request, or the one that stands for none.
func Places(req *season.Request) []season.Place {
	if len(req.Places) > 0 {
		return req.Places
	}
	return []season.Place{{ID: "gym"}}
}

// Spans returns what is open in the period and a date around it: the athlete's
// hours, and each place's. For the judge.
func (f *Facts) Spans(places []season.Place) (athlete [][2]int64, place [][][2]int64) {
	place = make([][][2]int64, len(places))
	for i := f.From; i < f.To; i++ {
		d := &f.Days[i]
		for _, s := range f.athleteSpans(d) {
			athlete = append(athlete, [2]int64{s.from, s.to})
		}
		for p := range places {
			for _, s := range f.placeSpans(d, places[p]) {
				place[p] = append(place[p], [2]int64{s.from, s.to})
			}
		}
	}
	return athlete, place
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
	for _, e := range f.eventsNear(d.From, d.To) {
		ev := &f.Events[e]
		if f.Ignore[Breach{"event-overlap", e}] {
			continue
		}
		taken = append(taken, span{ev.BlockFrom, ev.BlockTo})
	}
	var out []Slot
	for _, k := range []season.Kind{season.FullBody, season.Eccentric, season.Trimmed, season.Primer, season.Recovery, season.PostGame} {
		legal := f.legal(i, k, room, taken, blocked)
		for _, x := range extra {
			if x.Kind != k || x.From < f.Now {
				continue
			}
			x := x
			if len(f.breaches(&x, f.open(&x, room))) == 0 {
				x.Costs = f.charges(&x)
				legal = append(legal, x)
			}
		}
		out = append(out, f.few(d, k, legal)...)
	}
	sort.SliceStable(out, func(a, b int) bool {
		x, y := &out[a], &out[b]
		if x.From != y.From {
			return x.From < y.From
		}
		if x.Kind != y.Kind {
			return order(x.Kind) < order(y.Kind)
		}
		if x.To != y.To {
			return x.To < y.To
		}
		return x.Place < y.Place
	})
	return out, blocked
}

func order(k season.Kind) int {
	for i, x := range season.Kinds() {
		if x == k {
			return i
		}
	}
	return 99
}

// open reports whether a slot lies inside the hours of its place and, but for a
// post-game session, of the athlete.
func (f *Facts) open(s *Slot, room roomy) bool {
	in := func(spans []span) bool {
		for _, o := range spans {
			if o.from <= s.From && s.To <= o.to {
				return true
			}
		}
		return false
	}
	if s.Place < 0 || s.Place >= len(room.places) || !in(room.places[s.Place]) {
		return false
	}
	return s.Kind == season.PostGame || in(room.athlete)
}

// legal tries the sensible starts of a kind on a date and returns those that
// break no limit; what the others broke goes to blocked.
func (f *Facts) legal(i int, k season.Kind, room roomy, taken []span, blocked Blocked) []Slot {
	d := &f.Days[i]
	var out []Slot
	seen := map[[2]int64]bool{}
	tried := false
	try := func(from, to int64, place int) {
		if from < f.Now || seen[[2]int64{from, to}] || from < d.From || from >= d.To {
			return
		}
		s := Slot{Kind: k, From: from, To: to, Day: d.N, Place: place}
		s.StartClock, s.EndClock = clockOn(f.Zone, from, d.N), clockOn(f.Zone, to, d.N)
		b := f.breaches(&s, f.open(&s, room))
		if len(b) == 0 {
			seen[[2]int64{from, to}] = true
			s.Costs = f.charges(&s)
			out = append(out, s)
			return
		}
		tried = true
		for _, x := range b {
			note(blocked, k, x)
		}
	}
	for p := range room.places {
		free := room.places[p]
		if k != season.PostGame {
			free = subtract(intersect(free, room.athlete), taken)
		}
		for _, w := range free {
			f.starts(d, k, w, func(from, to int64) { try(from, to, p) })
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
	for _, e := range f.eventsNear(d.From, d.To) {
		if f.Events[e].BlockFrom < d.To {
			note(blocked, k, Breach{"event-overlap", e})
			any = true
		}
	}
	if !any && open {
		note(blocked, k, Breach{"open-hours", -1})
	}
}

// starts calls try with the sensible starts and ends of a kind in a free window.
func (f *Facts) starts(d *Day, k season.Kind, w span, try func(from, to int64)) {
	least, usual, _ := f.lengths(k)
	if d.Exam {
		least, usual = 20, min(usual, f.Set.Value("exam-minutes"))
	}
	up := func(m int64) int64 { return (m + step - 1) / step * step }
	down := func(m int64) int64 { return m / step * step }
	// The window never reaches past the latest end.
	latest := f.Set.Value("latest-end")
	if d.Minor {
		latest = f.Set.Value("latest-end-minor")
	}
	if d.Age <= 15 {
		latest = f.Set.Value("latest-end-15")
	}
	if d.Exam {
		latest = min(latest, f.Set.Value("exam-date"))
		w.from = max(w.from, d.ExamEnd)
	}
	if !f.Ignore[Breach{"latest-end", -1}] && !f.Ignore[Breach{"latest-end-minor", -1}] && !f.Ignore[Breach{"latest-end-15", -1}] {
		w.to = min(w.to, f.clock(d, calendar.Clock(latest*60)))
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
	if k == season.Recovery {
		if _, _, tight := f.between(w.from); tight {
			least, usual = 20, min(usual, f.Set.Value("between-games-recovery"))
		}
	}
	at := func(from int64) {
		from = up(max(from, w.from))
		to := min(from+int64(usual), down(w.to))
		if to-from >= int64(least) {
			try(from, to)
		}
	}
	until := func(to int64) {
		to = down(min(to, w.to))
		from := max(to-int64(usual), up(w.from))
		if to-from >= int64(least) {
			try(from, to)
		}
	}
	prefer := f.clock(d, calendar.Clock(d.Prefer*60))
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
	for _, e := range f.eventsNear(w.from-100*60, w.to) {
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

// few keeps the starts that can matter: the cheapest, nearest to the preferred
// time; and for kinds whose clock time rules over days look at, the earliest and
// the latest too, which allow most before and after them, each the cheapest of
// its hour. Every other start of the kind on this date is no better in any plan.
func (f *Facts) few(d *Day, k season.Kind, legal []Slot) []Slot {
	if len(legal) < 2 {
		return legal
	}
	if f.remembers() { // a rule of one's own may look at the clock
		return distinct(legal)
	}
	best := 0
	for i := range legal {
		if f.better(d, &legal[i], &legal[best]) {
			best = i
		}
	}
	keep := map[int]bool{best: true}
	for i := range legal {
		if legal[i].Issued {
			keep[i] = true
		}
	}
	if heavy(k) || d.Break {
		early, late := 0, 0
		for i := range legal {
			a, e, l := &legal[i], &legal[early], &legal[late]
			if a.From < e.From || (a.From == e.From && f.better(d, a, e)) {
				early = i
			}
			if a.To > l.To || (a.To == l.To && f.better(d, a, l)) {
				late = i
			}
		}
		keep[early], keep[late] = true, true
		if d.Break { // the best beside the best: long enough before or after it
			apart := int64(f.Set.Value("sessions-apart")) * 60
			before, after := -1, -1
			for i := range legal {
				a := &legal[i]
				if a.To+apart <= legal[best].From && (before < 0 || f.better(d, a, &legal[before])) {
					before = i
				}
				if a.From >= legal[best].To+apart && (after < 0 || f.better(d, a, &legal[after])) {
					after = i
				}
			}
			if before >= 0 {
				keep[before] = true
			}
			if after >= 0 {
				keep[after] = true
			}
		}
	}
	var out []Slot
	for i := range legal {
		if keep[i] {
			dup := false
			for j := range out {
				if out[j].From == legal[i].From && out[j].To == legal[i].To && out[j].Place == legal[i].Place {
					dup = true
				}
			}
			if !dup {
				out = append(out, legal[i])
			}
		}
	}
	return out
}

// remembers reports whether a rule over days of one's own is there.
func (f *Facts) remembers() bool {
	for _, c := range f.custom {
		if c.Memory != nil {
			return true
		}
	}
	return false
}

// distinct leaves out slots that stand twice.
func distinct(legal []Slot) []Slot {
	var out []Slot
next:
	for _, s := range legal {
		for i := range out {
			if out[i].From == s.From && out[i].To == s.To && out[i].Place == s.Place {
				continue next
			}
		}
		out = append(out, s)
	}
	return out
}

// better orders starts of one kind on one date.
func (f *Facts) better(d *Day, a, b *Slot) bool {
	if x, y := a.Points(), b.Points(); x != y {
		return x < y
	}
	if x, y := f.tie(d, a), f.tie(d, b); x != y {
		return x < y
	}
	if a.Minutes() != b.Minutes() {
		return a.Minutes() > b.Minutes()
	}
	return a.From < b.From
}

// changeMinutes is how long after a game a post-game session starts if it can.
// Common practice, no source.
const changeMinutes = 15

// eccentricTie is what a full-body session costs among equals where an eccentric
// one would be allowed.
const eccentricTie = 8

// afterGameTie is what a trimmed session within a day after a game costs among
// equals: more than an easy session more.
const afterGameTie = 96

// tie is what decides between plans of equal points: fewer sessions, then full
// lengths, starts near the preferred time, and the first place.
func (f *Facts) tie(d *Day, s *Slot) int64 {
	far := int64(s.StartClock - d.Prefer)
	if s.Kind == season.PostGame {
		if own := f.previousGame(s.From); own >= 0 {
			far = s.From - f.Events[own].To - changeMinutes
		}
	}
	if far < 0 {
		far = -far
	}
	t := 64 + min((far+14)/15, 30) + 4*min(int64(s.Place), 3)
	if s.Kind == season.Trimmed {
		if last := f.previousGame(s.From); last >= 0 && s.From-f.Events[last].To < 24*60 {
			t += afterGameTie
		}
	}
	if s.Kind == season.FullBody && f.eccentricAllowed(d) {
		t += eccentricTie
	}
	if _, usual, _ := f.lengths(s.Kind); s.Minutes() < usual && !d.Exam {
		t += 8 * (int64(usual-s.Minutes()) / step)
	}
	return t
}

package whatif

import (
	"cmp"
	"slices"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

// Draw returns season n, from 0, of the lottery's seed as a change to the base,
// and how many games were postponed.
func (l *Lottery) Draw(base *season.Request, n int) (Change, int) {
	rates := l.Rates.settled()
	random := stream(l.Seed, n)
	var sure, open []calendar.Event
	taken := map[calendar.Date]bool{}
	for _, v := range base.Canonical().Events {
		if v.Kind != calendar.Game || !v.Active() {
			continue
		}
		taken[v.Start.Date] = true
		if v.Status == calendar.Played || !base.Period.Contains(v.Start.Date) || !ahead(base, v) {
			continue
		}
		if v.Status == calendar.Provisional || v.Status == calendar.IfNecessary {
			open = append(open, v)
		} else {
			sure = append(sure, v)
		}
	}
	byStart := func(a, b calendar.Event) int { return cmp.Or(a.Start.Compare(b.Start), cmp.Compare(a.ID, b.ID)) }
	slices.SortStableFunc(sure, byStart)
	slices.SortStableFunc(open, byStart)
	var changes []Change
	postponed := 0
	for _, v := range sure {
		if !random.odds(rates.Postponed) {
			continue
		}
		postponed++
		changes = append(changes, later(v, rates, base.Period, taken, random))
	}
	changes = append(changes, playedOut(open, rates, random)...)
	return Compose("", changes...), postponed
}

// later postpones a game to a date without one.
func later(v calendar.Event, rates Rates, period season.Period, taken map[calendar.Date]bool, random *source) Change {
	var free []int
	for d := rates.LaterFrom; d <= rates.LaterTo; d++ {
		on := v.Start.Date.AddDays(d)
		w := v.Start
		w.Date = on
		if !taken[on] && period.Contains(on) && (v.DateOnly || v.Zone.Resolve(w).Fit == calendar.Exact) {
			free = append(free, d)
		}
	}
	if len(free) == 0 {
		return Postpone(v.ID)
	}
	days := free[random.below(len(free))]
	taken[v.Start.Date.AddDays(days)] = true
	return MoveDays(v.ID, days)
}

// round is one round that is not sure.
type round struct {
	chain string // of the rounds that follow from each other
	label string
	games []calendar.Event
}

// roundsOf puts games that are not sure, in order of time, into rounds, in order of
// their first games; see [Rates].
func roundsOf(open []calendar.Event) []*round {
	var out []*round
	last := map[string]*round{} // of each competition
	for _, v := range open {
		r := last[v.Competition]
		if r == nil || v.Status == calendar.Provisional && v.Round != r.label {
			r = &round{label: v.Round}
			if v.Round != "" {
				r.chain = "of " + v.Competition
			}
			last[v.Competition] = r
			out = append(out, r)
		}
		r.games = append(r.games, v)
	}
	return out
}

// playedOut plays the rounds that are not sure.
func playedOut(open []calendar.Event, rates Rates, random *source) []Change {
	var out []Change
	lost := map[string]bool{} // chains
	for _, r := range roundsOf(open) {
		// A round of if-necessary games only is the end of one that is sure.
		reached := !lost[r.chain]
		if slices.ContainsFunc(r.games, func(v calendar.Event) bool { return v.Status == calendar.Provisional }) {
			reached = random.odds(rates.Through) && reached // drawn in any case: rounds do not shift each other's luck
			lost[r.chain] = !reached
		}
		needed := true
		for _, v := range r.games {
			if v.Status == calendar.IfNecessary {
				needed = random.odds(rates.Needed) && needed
			}
			if reached && (v.Status == calendar.Provisional || needed) {
				out = append(out, Confirm(v.ID))
			} else {
				out = append(out, Cancel(v.ID))
			}
		}
	}
	return out
}

// RatesOf counts how often games were moved or lost between two states of a
// club's fixture list. Games are matched by id; those that are left, where that
// names one of them on each list, by opponent, home or away, and competition.
// Counted is the rate of postponed games, moved to whatever date or lost, rounded
// half up, and by how many dates those that moved later did; the rest of usual is
// kept. Without a game on both lists ok is false.
func RatesOf(before, after []calendar.Event, usual Rates) (rates Rates, ok bool) {
	old, now := gamesOf(before), gamesOf(after)
	type pair struct{ a, b *calendar.Event }
	var pairs []pair
	match := func(name func(v *calendar.Event) string) {
		found := byName(now, name)
		for k, v := range byName(old, name) {
			if w := found[k]; v != nil && w != nil {
				pairs = append(pairs, pair{v, w})
			}
		}
		for _, p := range pairs {
			old = slices.DeleteFunc(old, func(v *calendar.Event) bool { return v == p.a })
			now = slices.DeleteFunc(now, func(v *calendar.Event) bool { return v == p.b })
		}
	}
	match(func(v *calendar.Event) string { return v.ID })
	match(func(v *calendar.Event) string { return v.Opponent + "\x00" + v.Home + "\x00" + v.Competition })
	games, moved, first, last := 0, 0, 0, 0
	for _, p := range pairs {
		if !p.a.Active() {
			continue
		}
		games++
		days := 0
		if p.b.Active() {
			days = p.b.Start.Date.DaysSince(p.a.Start.Date)
		}
		if !p.b.Active() || days != 0 {
			moved++
		}
		if days > 0 {
			if first == 0 || days < first {
				first = days
			}
			last = max(last, days)
		}
	}
	if games == 0 {
		return usual, false
	}
	usual.Postponed = (2*1000*moved + games) / (2 * games)
	if first > 0 {
		usual.LaterFrom, usual.LaterTo = min(first, season.MaxPeriodDays), min(last, season.MaxPeriodDays)
	}
	return usual, true
}

func gamesOf(list []calendar.Event) (out []*calendar.Event) {
	for i := range list {
		if list[i].Kind == calendar.Game {
			out = append(out, &list[i])
		}
	}
	return out
}

// byName indexes games; a name of several stands for none.
func byName(list []*calendar.Event, name func(v *calendar.Event) string) map[string]*calendar.Event {
	out := map[string]*calendar.Event{}
	for _, v := range list {
		k := name(v)
		if _, twice := out[k]; twice {
			out[k] = nil
			continue
		}
		out[k] = v
	}
	return out
}

package seasontest

import "time"

// age in full years, born on the last day of the month; 13 if unknown.
func (c *check) age(day int) int {
	b := c.req.Athlete.Born
	if b.Year == 0 {
		return 13
	}
	today := time.Unix(int64(day)*86400, 0).UTC()
	years := today.Year() - b.Year
	birthdayPassed := int(today.Month()) > b.Month || int(today.Month()) == b.Month && today.AddDate(0, 0, 1).Month() != today.Month()
	if !birthdayPassed {
		years--
	}
	return years
}

func (c *check) minor(day int) bool { return c.age(day) < 18 }

// months of training; 0 if age or training age is unknown.
func (c *check) months() int {
	if c.req.Athlete.Born.Year == 0 {
		return 0
	}
	return max(c.req.Athlete.TrainingAgeMonths, 0)
}

// person: law 12 for single sessions, holds, eccentric sessions.
func (c *check) person(s *session) {
	latest := c.value("latest-end", 22*60)
	if c.minor(s.day) {
		latest = c.value("latest-end-minor", 20*60+30)
	}
	if c.age(s.day) <= 15 {
		latest = c.value("latest-end-15", 20*60)
	}
	if clockAt(s.localTo, s.day) > latest {
		c.say(12, s, "ends too late")
	}
	if c.minor(s.day) && !c.off("double-fixture") && c.gamesOn(s.day-1) >= 2 {
		c.say(12, s, "on the date after two games")
	}
	if s.Kind == "eccentric" {
		run, at := c.run(s.day)
		if run < 10 || at >= (run+1)/2 || c.minor(s.day) || c.months() < 12*c.value("eccentric-place", 2) {
			c.say(12, s, "eccentric has no place here")
		}
	}
	for _, h := range c.req.Athlete.Holds {
		if s.day >= dayNumber(h.From.String()) && (h.ClearedBy == "" || s.day < dayNumber(h.ClearedOn.String())) {
			c.say(12, s, "under a hold")
		}
	}
}

func (c *check) gamesOn(day int) int {
	n := 0
	for _, g := range c.games {
		if g.day == day {
			n++
		}
	}
	return n
}

// run is the length of the run of game-free dates between two known games that
// holds a date, clipped to the period, and the date's place in it; 0 if none.
func (c *check) run(day int) (length, at int) {
	if day < c.from || day > c.to || c.gamesOn(day) > 0 {
		return 0, 0
	}
	before, after := false, false
	for _, g := range c.games {
		before = before || g.day < day
		after = after || g.day > day
	}
	if !before || !after {
		return 0, 0
	}
	first, last := day, day
	for first > c.from && c.gamesOn(first-1) == 0 {
		first--
	}
	for last < c.to && c.gamesOn(last+1) == 0 {
		last++
	}
	for d := first; d <= last; d++ {
		if c.lost(d) {
			continue
		}
		if length++; d < day {
			at++
		}
	}
	return length, at
}

// free: no game, practice or skills starts on the date, and it is lived.
func (c *check) free(day int) bool {
	if c.lost(day) {
		return false
	}
	for _, e := range c.events {
		if e.day == day && (e.kind == "game" || e.kind == "practice" || e.kind == "skills") {
			return false
		}
	}
	return true
}

// between are the sessions of the dates from to to, in order.
func (c *check) between(from, to int, which func(*session) bool) []*session {
	var out []*session
	for _, s := range c.sessions {
		if from <= s.day && s.day <= to && which(s) {
			out = append(out, s)
		}
	}
	return out
}

func all(*session) bool { return true }

// tooMany: every session beyond the first so many must be forced.
func (c *check) tooMany(law int, list []*session, most int, what string) {
	for i, s := range list {
		if i >= most && !s.forced() {
			c.say(law, s, "number %d of %s, at most %d", i+1, what, most)
		}
	}
}

// windows: laws 4 and 12 over several dates.
func (c *check) windows() {
	for w := c.from - 6; w <= c.to; w++ {
		limit := c.value("lifts-in-7-break", 4)
		anyFree := false
		for d := w; d < w+7; d++ {
			if n, _ := c.run(d); n < 7 {
				limit = c.value("lifts-in-7", 3)
			}
			anyFree = anyFree || c.free(d)
		}
		if c.months() < 12 || c.age(w+6) < 14 {
			limit = min(limit, c.value("lifts-in-7-beginner", 2))
		}
		window := "lifts in 7 dates from " + dateText(w)
		c.tooMany(4, c.between(w, w+6, (*session).lift), limit, window)
		if anyFree {
			c.freeDate(w)
		} else if !c.off("no-free-date") {
			for i, s := range c.between(w, w+6, all) {
				if most := c.value("no-free-date", 2); i >= most && !s.forced() && c.minor(s.day) {
					c.say(12, s, "number %d in 7 dates without a free one from %s", i+1, dateText(w))
				}
			}
		}
	}
	c.pairs()
	for d := c.from; d <= c.to; d++ {
		limit := c.value("sessions-a-date", 1)
		if n, _ := c.run(d); n >= 10 {
			limit = c.value("sessions-a-date-break", 2)
		}
		today := c.between(d, d, all)
		c.tooMany(4, c.between(d, d, (*session).lift), c.value("lifts-a-date", 1), "lifts on a date")
		c.tooMany(4, today, limit, "sessions on a date")
		for i := 1; i < len(today); i++ {
			if !today[i].forced() && today[i].Start.Sub(today[i-1].End) < c.hours("sessions-apart", 6) {
				c.say(4, today[i], "too soon after the one before on its date")
			}
		}
	}
	for d := c.from - 6; d <= c.to; d++ {
		if int(weekdayOf(d)) != c.value("week-start", 1) {
			continue
		}
		c.tooMany(4, c.between(d, d+6, func(s *session) bool { return s.Kind == "eccentric" }), c.value("eccentric-count", 2), "eccentric sessions of a week")
		if !c.off("exam-count") {
			c.tooMany(2, c.between(d, d+6, func(s *session) bool { return c.lastExam(s.day) != nil }), c.value("exam-count", 2), "sessions on exam dates of a week")
		}
	}
}

// freeDate: of the calendar-free dates of a window a minor keeps one.
func (c *check) freeDate(w int) {
	if c.off("free-date") {
		return
	}
	var last []*session
	for d := w; d < w+7; d++ {
		if !c.free(d) {
			continue
		}
		last = c.between(d, d, all)
		if len(last) == 0 {
			return
		}
	}
	for _, s := range last {
		if !s.forced() && c.minor(s.day) {
			c.say(12, s, "takes the last free date of 7 from %s", dateText(w))
		}
	}
}

// pairs: heavy sessions apart, lifts of minors on non-consecutive dates.
func (c *check) pairs() {
	var heavy, lift *session
	for _, s := range c.sessions {
		if s.heavy() {
			if heavy != nil && !s.forced() && (s.day-heavy.day <= 1 || s.Start.Sub(heavy.End) < c.hours("heavy-gap", 40)) {
				c.say(4, s, "too soon after the heavy session of %s", dateText(heavy.day))
			}
			heavy = s
		}
		if s.lift() {
			if lift != nil && !s.forced() && c.minor(s.day) && s.day-lift.day <= 1 && !c.off("minor-lift-dates") {
				c.say(12, s, "on or after the date of another lift")
			}
			lift = s
		}
	}
}

// missed: law 13, and that the parts of the cost add up.
func (c *check) missed() {
	events := map[string]bool{}
	for _, e := range c.req.Events {
		events[e.ID] = true
	}
	var sum, parts, brokenParts int64
	for _, m := range c.plan.Missed {
		sum += m.Points
		if len(m.InTheWay) == 0 || m.Text == "" {
			c.say(13, nil, "%s of %s to %s names nothing in its way", m.Aim, m.From, m.To)
		}
		for _, w := range m.InTheWay {
			if w.Rule == "" || w.Event != "" && !events[w.Event] {
				c.say(13, nil, "%s of %s to %s names rule %q event %q", m.Aim, m.From, m.To, w.Rule, w.Event)
			}
		}
	}
	broken := 0
	for _, f := range c.plan.Findings {
		if f.Code == "finding-broken" {
			broken++
		}
	}
	for _, r := range c.plan.Cost.ByRule {
		parts += r.Points
		brokenParts += r.Broken
		if r.Rule == "change" {
			sum += r.Points
		}
	}
	if c.plan.Outcome != "planned" {
		return
	}
	if sum != c.plan.Cost.Points || parts != c.plan.Cost.Points {
		c.say(16, nil, "misses cost %d, rules %d, the plan states %d", sum, parts, c.plan.Cost.Points)
	}
	if int64(broken) != c.plan.Cost.Broken || brokenParts != c.plan.Cost.Broken {
		c.say(16, nil, "%d broken limits are findings, rules have %d, the plan states %d", broken, brokenParts, c.plan.Cost.Broken)
	}
}

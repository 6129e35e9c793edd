package periodize

import (
	"strconv"
	"strings"

	"example.org/weft/calendar"
	"example.org/weft/internal/judge"
	"example.org/weft/periodize/season"
)

// findings says what a coach should look at.
func (w *work) findings(p *season.Plan, v judge.Verdict) {
	m := w.model
	say := func(code, rule string, sub season.Subject, values season.Values) {
		p.Findings = append(p.Findings, season.NewNote(code, sub, rule, values))
	}
	str := func(d calendar.Date) season.Value { return season.Str(d.String()) }
	w.broken(p, v)
	for _, o := range w.set.Overrides() {
		what := "off"
		if o.Value != nil {
			what = strconv.Itoa(*o.Value)
		}
		if o.Points != nil {
			what += " " + strconv.Itoa(*o.Points) + " points"
		}
		by, reason := o.By, o.Reason
		if by == "" {
			by = "by nobody named"
		}
		if reason == "" {
			reason = "no reason given"
		}
		say("finding-override", o.Rule, season.Subject{}, season.Values{"rule": season.Str(o.Rule), "what": season.Str(strings.TrimSpace(what)),
			"by": season.Str(by), "reason": season.Str(reason)})
	}
	w.known(say, str)
	for _, r := range m.Runs {
		code := "finding-open-week"
		if r.Class == calendar.Break {
			code = "finding-break"
		}
		say(code, "", season.Subject{Dates: []calendar.Date{r.From, r.To}}, season.Values{"days": season.Int(int64(r.Days)), "from": str(r.From), "to": str(r.To)})
	}
	for i := m.From; i < m.To; i++ {
		d := &m.Days[i]
		if d.Lost {
			say("finding-lost-date", "empty-run", season.Subject{Dates: []calendar.Date{d.Date}}, season.Values{"date": str(d.Date)})
		}
		if d.Minor && len(d.Games) > 1 {
			say("finding-double-fixture", "double-fixture", season.Subject{Event: m.Events[d.Games[0]].ID, Dates: []calendar.Date{d.Date}},
				season.Values{"date": str(d.Date)})
		}
	}
	w.organised(say, str)
	w.noFreeDates(say, str)
	w.gaps(say, str)
}

// broken names the limits that fixed sessions break.
func (w *work) broken(p *season.Plan, v judge.Verdict) {
	m := w.model
	offset := len(m.History)
	for _, b := range v.Breaches {
		s := &w.slots[b.Session-offset]
		date := calendar.DateFromDayNumber(s.Day)
		sub := season.Subject{Session: s.ID, Dates: []calendar.Date{date}}
		if b.Event >= 0 {
			sub.Event = m.Events[b.Event].ID
		}
		p.Findings = append(p.Findings, season.NewNote("finding-broken", sub, b.Rule, season.Values{"rule": season.Str(b.Rule), "kind": season.Str(string(s.Kind)), "date": season.Str(date.String())}))
	}
}

type sayFunc func(code, rule string, sub season.Subject, values season.Values)

// known says how far the fixtures reach.
func (w *work) known(say sayFunc, str func(calendar.Date) season.Value) {
	m := w.model
	var first, last calendar.Date
	for _, g := range m.Games {
		if d := m.Events[g].Date; m.Period.Contains(d) {
			if first.IsZero() {
				first = d
			}
			last = d
		}
	}
	if first.IsZero() {
		say("finding-no-games", "", season.Subject{Dates: []calendar.Date{m.Period.From, m.Period.To}}, nil)
		return
	}
	if first.DaysSince(m.Period.From) >= calendar.OpenWeekDays {
		say("finding-unknown-before", "", season.Subject{Dates: []calendar.Date{first}}, season.Values{"date": str(first)})
	}
	if m.Period.To.DaysSince(last) >= calendar.OpenWeekDays {
		say("finding-unknown-after", "", season.Subject{Dates: []calendar.Date{last}}, season.Values{"date": str(last)})
	}
}

// organised compares a minor's organised hours of a week with the age.
// Jayanthi et al. 2015, AJSM 43:794-801: an association, not a threshold.
func (w *work) organised(say sayFunc, str func(calendar.Date) season.Value) {
	m := w.model
	if !m.AgeKnown {
		return
	}
	for i := m.From; i < m.To; i++ {
		d := &m.Days[i]
		if !d.WholeWeek || !d.WeekLast || !d.Minor {
			continue
		}
		var minutes int64
		for j := range m.Events {
			e := &m.Events[j]
			if e.Day > d.N-7 && e.Day <= d.N && !e.DateOnly &&
				(e.Kind == calendar.Game || e.Kind == calendar.Practice || e.Kind == calendar.Skills) {
				minutes += e.To - e.From
			}
		}
		for j := range w.slots {
			if s := &w.slots[j]; s.Day > d.N-7 && s.Day <= d.N {
				minutes += s.To - s.From
			}
		}
		if minutes > int64(d.Age)*60 {
			from := d.Date.AddDays(-6)
			say("finding-hours-over-age", "", season.Subject{Dates: []calendar.Date{from, d.Date}}, season.Values{
				"hours": season.Str(hours(minutes)), "minutes": season.Int(minutes), "from": str(from), "age": season.Int(int64(d.Age))})
		}
	}
}

// noFreeDates names the runs of seven and more dates of a minor without a date
// free of games and practice.
func (w *work) noFreeDates(say sayFunc, str func(calendar.Date) season.Value) {
	m := w.model
	for i := m.From; i < m.To; {
		j := i
		for j < m.To && !m.Days[j].Free && m.Days[j].Minor {
			j++
		}
		if j-i >= 7 {
			from, to := m.Days[i].Date, m.Days[j-1].Date
			say("finding-no-free-date", "no-free-date", season.Subject{Dates: []calendar.Date{from, to}}, season.Values{"from": str(from), "to": str(to)})
		}
		i = max(j, i+1)
	}
}

// gaps names long runs without a full-body session and without a lift.
func (w *work) gaps(say sayFunc, str func(calendar.Date) season.Value) {
	m := w.model
	run := func(which func(season.Kind) bool, found func(from, to calendar.Date, days int)) {
		has := map[int]bool{}
		for i := range w.slots {
			if which(w.slots[i].Kind) {
				has[w.slots[i].Day] = true
			}
		}
		for i := m.From; i < m.To; {
			j := i
			for j < m.To && !has[m.Days[j].N] {
				j++
			}
			if j > i {
				days := 0
				for _, d := range m.Days[i:j] {
					if !d.Lost {
						days++
					}
				}
				found(m.Days[i].Date, m.Days[j-1].Date, days)
			}
			i = max(j, i+1)
		}
	}
	run(season.Kind.HeavyLowerBody, func(from, to calendar.Date, days int) {
		code := ""
		switch {
		case days >= 14:
			code = "finding-no-full-body-14"
		case days >= 7:
			code = "finding-no-full-body-7"
		default:
			return
		}
		say(code, "week-full-body", season.Subject{Dates: []calendar.Date{from, to}}, season.Values{"from": str(from), "to": str(to), "days": season.Int(int64(days))})
	})
	run(season.Kind.Lift, func(from, to calendar.Date, days int) {
		if days >= 6 {
			say("finding-lift-run", "lift-run", season.Subject{Dates: []calendar.Date{from, to}}, season.Values{"from": str(from), "to": str(to), "days": season.Int(int64(days))})
		}
	})
}

// questions says what was assumed.
func (w *work) questions(p *season.Plan) {
	m := w.model
	ask := func(code string, sub season.Subject, values season.Values) {
		p.Questions = append(p.Questions, season.NewNote(code, sub, "", values))
	}
	switch {
	case !m.AgeKnown:
		ask("question-age", season.Subject{}, nil)
	case m.Athlete.TrainingAgeMonths < 0:
		ask("question-training-age", season.Subject{}, nil)
	}
	if len(m.Athlete.Hours) == 0 {
		assumed := "07:00 to the latest end"
		if m.Days[m.From].Minor {
			assumed = "15:30 on Monday to Friday, 07:00 on other days, to the latest end,"
		}
		ask("question-hours", season.Subject{}, season.Values{"assumed": season.Str(assumed)})
	}
	ends, dates := 0, 0
	for _, g := range m.Games {
		e := &m.Events[g]
		if !m.Period.Contains(e.Date) {
			continue
		}
		switch {
		case e.DateOnly:
			dates++
		case e.EndAssumed:
			ends++
		}
		if e.Fit == calendar.Doubled {
			ask("question-doubled", season.Subject{Event: e.ID}, season.Values{"event": season.Str(e.ID)})
		}
	}
	for _, i := range m.NoWayBack() {
		if e := &m.Events[i]; m.Period.Contains(e.Date) {
			ask("question-way-back", season.Subject{Event: e.ID, Dates: []calendar.Date{e.Date}}, season.Values{"event": season.Str(e.ID)})
		}
	}
	if ends > 0 {
		ask("question-game-end", season.Subject{}, season.Values{"count": season.Int(int64(ends)), "minutes": season.Int(int64(m.Set.Value("game-minutes")))})
	}
	if dates > 0 {
		ask("question-date-only", season.Subject{}, season.Values{"count": season.Int(int64(dates))})
	}
	exams := 0
	for i := range m.Events {
		if e := &m.Events[i]; e.Kind == calendar.Exam && e.DateOnly && e.EndAssumed && m.Period.Contains(e.Date) {
			exams++
		}
	}
	if exams > 0 {
		ask("question-exam-time", season.Subject{}, season.Values{"count": season.Int(int64(exams))})
	}
	for x := 0; x < len(m.Games); x++ {
		for y := x + 1; y < len(m.Games); y++ {
			a, b := &m.Events[m.Games[x]], &m.Events[m.Games[y]]
			if b.From >= a.To {
				break
			}
			if a.DateOnly || b.DateOnly {
				continue
			}
			ask("question-clash", season.Subject{Event: a.ID, Dates: []calendar.Date{a.Date}},
				season.Values{"event": season.Str(a.ID), "other": season.Str(b.ID)})
		}
	}
	for _, x := range m.Unshown {
		p.Warnings = append(p.Warnings, season.NewNote("warning-pin-time", season.Subject{Dates: []calendar.Date{x.Date}}, "",
			season.Values{"date": season.Str(x.Date.String()), "start": season.Str(x.Start.String())}))
	}
	p.Warnings = append(p.Warnings, w.inputNotes()...)
}

// inputNotes passes on what reading and checking the request said, but for what
// the plan asks in its own words.
func (w *work) inputNotes() []season.Note {
	var out []season.Note
	for _, x := range w.notes {
		switch x.Code {
		case season.CodeAgeMissing, season.CodeTrainingMissing, season.CodeDateOnly, season.CodeGameEnd, season.CodeExamTime, season.CodeGamesOverlap, season.CodeTimeDoubled:
			continue
		}
		code := "warning-input"
		if x.Class == calendar.ClassQuestion {
			code = "question-input"
		}
		out = append(out, season.NewNote(code, season.Subject{}, "", season.Values{"text": season.Str(x.Error()), "code": season.Str(x.Code)}))
	}
	return out
}

package oracle

import (
	"example.org/weft/calendar"
	"example.org/weft/internal/judge"
	"example.org/weft/internal/starts"
	"example.org/weft/periodize/season"
)

var kinds = map[season.Kind]judge.Kind{
	season.FullBody: judge.FullBody, season.Trimmed: judge.Trimmed, season.Primer: judge.Primer,
	season.Recovery: judge.Recovery, season.PostGame: judge.PostGame, season.Eccentric: judge.Eccentric,
}

var events = map[calendar.Kind]judge.EventKind{
	calendar.Game: judge.Game, calendar.Practice: judge.Practice, calendar.Skills: judge.Skills,
	calendar.Travel: judge.Travel, calendar.Exam: judge.Exam, calendar.Closure: judge.Closure, calendar.Busy: judge.Busy,
}

// parameters are the judge's own defaults with the changes that drawn seasons
// make.
func (c *Case) parameters() judge.Parameters {
	p := judge.Default()
	set := c.Model.Set
	for id := range p.Points {
		p.Points[id] = set.Points(id)
	}
	p.HeavyGap = int64(set.Value("heavy-gap")) * 60
	p.EmptyDates, p.LiftFreeDates = set.Value("empty-run"), set.Value("lift-run")
	p.Lifts, p.LiftsRun, p.LiftsBeginner = set.Value("lifts-in-7"), set.Value("lifts-in-7-break"), set.Value("lifts-in-7-beginner")
	p.RecoveryMin, p.BreakFullBodies = set.Value("recovery-least"), set.Value("break-session")
	p.ExamSessions = set.Value("exam-count")
	p.WeekLoad = judge.Range{Min: int64(set.Value("week-load-least")), Max: int64(set.Value("week-load-most"))}
	p.LoadRamp, p.RollingCount, p.RollingLoad = int64(set.Value("load-ramp")), set.Value("rolling-count"), int64(set.Value("rolling-load"))
	return p
}

// fixed is what the judge needs to know besides the sessions.
func (c *Case) fixed() judge.Input {
	m := c.Model
	in := judge.Input{
		From: m.Period.From.DayNumber(), To: m.Period.To.DayNumber(), FirstWeekday: m.Set.Value("week-start"),
		Athlete: judge.Athlete{
			BornYear: m.Athlete.Born.Year, BornMonth: m.Athlete.Born.Month, AgeKnown: m.Athlete.Born.Year != 0,
			TrainingAgeMonths: m.Athlete.TrainingAgeMonths, PostGame: m.Athlete.OptedIn(season.OptPostGame),
		},
		HasIssued: m.HasIssued, Now: m.Now,
	}
	for _, h := range m.Athlete.Holds {
		in.Athlete.Holds = append(in.Athlete.Holds, judge.DateSpan{From: h.From.DayNumber(), Endless: true})
	}
	for i := range m.Events {
		e := &m.Events[i]
		in.Events = append(in.Events, judge.Event{ID: e.ID, Kind: events[e.Kind], Start: e.From, End: e.To, Date: e.Day,
			StartClock: e.StartClock, EndClock: e.EndClock, Important: e.Important, Hard: e.Hard, LongHaul: e.LongHaul,
			DateOnly: e.DateOnly && e.Kind == calendar.Game, IfNeeded: e.Status == calendar.IfNecessary})
	}
	in.Sessions = sessions(m.History)
	in.Issued = sessions(m.Reference)
	athlete, places := m.Spans(m.Places)
	in.AthleteOpen = spans(athlete)
	for _, p := range places {
		in.PlaceOpen = append(in.PlaceOpen, spans(p))
	}
	for i := m.From; i < m.To; i++ {
		in.PreferredStart = append(in.PreferredStart, m.Days[i].Prefer)
	}
	return in
}

func spans(rows [][2]int64) []judge.Span {
	var out []judge.Span
	for _, s := range rows {
		out = append(out, judge.Span{Start: s[0], End: s[1]})
	}
	return out
}

func sessions(slots []starts.Slot) []judge.Session {
	var out []judge.Session
	for i := range slots {
		s := &slots[i]
		out = append(out, judge.Session{ID: s.ID, Kind: kinds[s.Kind], Start: s.From, End: s.To, Date: s.Day,
			StartClock: s.StartClock, EndClock: s.EndClock, Place: s.Place, Forced: s.Forced, Done: s.Logged})
	}
	return out
}

// Judge judges the plan that options choose from the definitions.
func (c *Case) Judge(options []int) (judge.Verdict, error) {
	in := c.fixed()
	in.Sessions = append(in.Sessions, sessions(c.Slots(options))...)
	return judge.Judge(in, c.parameters())
}

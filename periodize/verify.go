package periodize

import (
	"fmt"
	"sort"

	"example.org/weft/calendar"
	"example.org/weft/internal/judge"
	"example.org/weft/internal/starts"
	"example.org/weft/periodize/rule"
	"example.org/weft/periodize/season"
)

var judgeKind = map[season.Kind]judge.Kind{
	season.FullBody: judge.FullBody, season.Trimmed: judge.Trimmed, season.Primer: judge.Primer,
	season.Recovery: judge.Recovery, season.PostGame: judge.PostGame, season.Eccentric: judge.Eccentric,
}

var judgeEvent = map[calendar.Kind]judge.EventKind{
	calendar.Game: judge.Game, calendar.Practice: judge.Practice, calendar.Skills: judge.Skills,
	calendar.Travel: judge.Travel, calendar.Exam: judge.Exam, calendar.Closure: judge.Closure, calendar.Busy: judge.Busy,
}

// parameters writes the rule set in the judge's words.
func parameters(set *rule.Set) judge.Parameters {
	p := judge.Default()
	minutes := func(id string) int64 { return int64(set.Value(id)) * 60 }
	off := func(id string, m int64) int64 {
		if !set.On(id) {
			return 0
		}
		return m
	}
	for id := range p.Points {
		p.Points[id] = set.Points(id)
	}
	for _, id := range []string{"full-before-game", "eccentric-before-game", "between-games", "game-date", "double-fixture",
		"exam-date", "exam-count", "long-haul", "minor-lift-dates", "free-date", "no-free-date"} {
		if !set.On(id) {
			p.Disabled = append(p.Disabled, id)
		}
	}
	p.LatestEnd, p.LatestEndMinor, p.LatestEndYoung = set.Value("latest-end"), set.Value("latest-end-minor"), set.Value("latest-end-15")
	p.ExamLength.Max = int64(set.Value("exam-minutes"))
	p.BetweenLength.Max, p.BetweenRecovery = int64(set.Value("between-games-recovery")), int64(set.Value("between-games-recovery"))
	p.HeavyBeforeGame, p.FullBeforeGame, p.EccentricBeforeGame = minutes("heavy-before-game"), minutes("full-before-game"), minutes("eccentric-before-game")
	p.PrimerWindow = judge.Range{Min: minutes("primer-latest"), Max: minutes("primer-earliest")}
	p.BetweenGames = minutes("between-games")
	p.AfterGameFull, p.AfterGameTrimmed = off("after-game-full", minutes("after-game-full")), off("after-game-trimmed", minutes("after-game-trimmed"))
	p.PostGameAge, p.PostGameWithin, p.PostGameNext = set.Value("post-game-age"), int64(set.Value("post-game")), minutes("post-game-next")
	p.Sleep, p.SleepMinor = off("sleep", minutes("sleep")), off("sleep-minor", minutes("sleep-minor"))
	p.ExamEndClock, p.ExamSessions = set.Value("exam-date"), set.Value("exam-count")
	p.LongHaulArrive = minutes("long-haul")
	p.Lifts, p.LiftsRun, p.LiftsBeginner = set.Value("lifts-in-7"), set.Value("lifts-in-7-break"), set.Value("lifts-in-7-beginner")
	p.HeavyGap = minutes("heavy-gap")
	p.SessionsADate, p.SessionsADateBreak, p.SameDateGap = set.Value("sessions-a-date"), set.Value("sessions-a-date-break"), minutes("sessions-apart")
	p.LiftsADate = set.Value("lifts-a-date")
	p.NoFreeDateSessions = set.Value("no-free-date")
	p.EccentricMonths, p.Eccentrics = 12*set.Value("eccentric-place"), set.Value("eccentric-count")
	p.EmptyDates, p.LiftFreeDates = set.Value("empty-run"), set.Value("lift-run")
	p.RecoveryMin, p.RecoveryMax = set.Value("recovery-least"), set.Value("recovery-most")
	p.ImportantNear, p.OtherNear, p.PrimerPreferred = minutes("important-48h"), minutes("near-game"), minutes("primer-timing")
	p.PreferredWorkday, p.PreferredFree, p.StartTolerance = set.Value("prefer-weekday"), set.Value("prefer-weekend"), set.Value("start-time")
	p.PracticeGap = minutes("practice-order")
	p.BreakFullBodies = set.Value("break-session")
	p.WeekLoad = judge.Range{Min: int64(set.Value("week-load-least")), Max: int64(set.Value("week-load-most"))}
	p.LoadRamp, p.RollingCount, p.RollingLoad = int64(set.Value("load-ramp")), set.Value("rolling-count"), int64(set.Value("rolling-load"))
	p.LoadBlock = starts.LoadBlock
	for kind, k := range judgeKind {
		p.Rating[k] = int64(starts.Rating(kind))
	}
	p.SoonMinutes, p.SoonPoints = starts.Soon, starts.SoonPoints
	buffers := starts.Buffers(set)
	for kind, b := range buffers {
		p.BufferBefore[judgeEvent[kind]] = int64(b.Before.Minutes())
		p.BufferAfter[judgeEvent[kind]] = int64(b.After.Minutes())
	}
	return p
}

// judgeInput writes a plan in the judge's plain rows: sessions of the history
// first, then those of the plan in order of start.
func judgeInput(m *starts.Model, slots []starts.Slot) judge.Input {
	in := judge.Input{
		From: m.Period.From.DayNumber(), To: m.Period.To.DayNumber(), FirstWeekday: m.Set.Value("week-start"),
		Athlete: judge.Athlete{
			BornYear: m.Athlete.Born.Year, BornMonth: m.Athlete.Born.Month, AgeKnown: m.AgeKnown,
			TrainingAgeMonths: m.Athlete.TrainingAgeMonths, PostGame: m.Athlete.OptedIn(season.OptPostGame),
		},
		HasIssued: m.HasIssued, Now: m.Now,
	}
	for _, o := range m.Offsets() {
		in.Offsets = append(in.Offsets, judge.Offset{From: o.From, Seconds: o.Seconds})
	}
	for _, h := range m.Athlete.Holds {
		s := judge.DateSpan{From: h.From.DayNumber(), Endless: true}
		if h.ClearedBy != "" && !h.ClearedOn.IsZero() {
			s.Endless, s.To = false, h.ClearedOn.DayNumber()-1
		}
		if s.Endless || s.To >= s.From {
			in.Athlete.Holds = append(in.Athlete.Holds, s)
		}
	}
	for i := range m.Events {
		e := &m.Events[i]
		in.Events = append(in.Events, judge.Event{ID: e.ID, Kind: judgeEvent[e.Kind], Start: e.From, End: e.To, Date: e.Day,
			StartClock: e.StartClock, EndClock: e.EndClock, Important: e.Important, Hard: e.Hard, LongHaul: e.LongHaul,
			DateOnly: e.DateOnly && e.Kind == calendar.Game, IfNeeded: e.Status == calendar.IfNecessary})
	}
	add := func(s *starts.Slot) judge.Session {
		return judge.Session{ID: s.ID, Kind: judgeKind[s.Kind], Start: s.From, End: s.To, Date: s.Day,
			StartClock: s.StartClock, EndClock: s.EndClock, Place: s.Place, Forced: s.Forced, Done: s.Logged}
	}
	for i := range m.History {
		in.Sessions = append(in.Sessions, add(&m.History[i]))
	}
	for i := range slots {
		in.Sessions = append(in.Sessions, add(&slots[i]))
	}
	for i := range m.Reference {
		in.Issued = append(in.Issued, add(&m.Reference[i]))
	}
	athlete, places := m.Spans(m.Places)
	for _, s := range athlete {
		in.AthleteOpen = append(in.AthleteOpen, judge.Span{Start: s[0], End: s[1]})
	}
	for _, p := range places {
		var row []judge.Span
		for _, s := range p {
			row = append(row, judge.Span{Start: s[0], End: s[1]})
		}
		in.PlaceOpen = append(in.PlaceOpen, row)
	}
	for i := m.From; i < m.To; i++ {
		in.PreferredStart = append(in.PreferredStart, m.Days[i].Prefer)
	}
	return in
}

// FaultError says that the engine and the judge disagree about a plan: a fault
// of this library, never of the input. No plan is returned with it.
type FaultError struct {
	What string
}

// Error names the difference.
func (e *FaultError) Error() string {
	return "periodize: fault: engine and judge disagree: " + e.What + "; please report it with the request"
}

// verdictOf judges sessions from the definitions.
func verdictOf(m *starts.Model, slots []starts.Slot) (judge.Verdict, error) {
	v, err := judge.Judge(judgeInput(m, slots), parameters(m.Set))
	if err == nil {
		judgeCustom(m, slots, &v)
	}
	return v, err
}

// verify judges a plan from the definitions and compares.
func verify(m *starts.Model, slots []starts.Slot, broken, points int64) (judge.Verdict, error) {
	in := judgeInput(m, slots)
	v, err := verdictOf(m, slots)
	if err != nil {
		return v, &FaultError{err.Error()}
	}
	if len(v.Illegal) > 0 {
		b := v.Illegal[0]
		s := in.Sessions[b.Session]
		return v, &FaultError{fmt.Sprintf("%d limits broken, the first is %s by the session of %s", len(v.Illegal), b.Rule, calendar.DateFromDayNumber(s.Date))}
	}
	if v.Broken != broken || v.Points != points {
		rows := append([]judge.RuleCost(nil), v.ByRule...)
		sort.Slice(rows, func(i, j int) bool { return rows[i].Rule < rows[j].Rule })
		return v, &FaultError{fmt.Sprintf("engine %d broken %d points, judge %d broken %d points %v", broken, points, v.Broken, v.Points, rows)}
	}
	return v, nil
}

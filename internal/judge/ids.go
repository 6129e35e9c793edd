package judge

// Ids of the limits, in the order in which they are judged.
const (
	EventOverlap        = "event-overlap"
	OpenHours           = "open-hours"
	LatestEnd           = "latest-end"
	SessionLength       = "session-length"
	HeavyBeforeGame     = "heavy-before-game"
	FullBeforeGame      = "full-before-game"
	EccentricBeforeGame = "eccentric-before-game"
	PrimerWindow        = "primer-window"
	GameDate            = "game-date"
	BetweenGames        = "between-games"
	AfterGame           = "after-game"
	PostGameLimit       = "post-game"
	Sleep               = "sleep"
	ExamDate            = "exam-date"
	ExamCount           = "exam-count"
	DoubleFixture       = "double-fixture"
	LiftsIn7            = "lifts-in-7"
	HeavyGap            = "heavy-gap"
	MinorLiftDates      = "minor-lift-dates"
	SessionsADate       = "sessions-a-date"
	LiftsADate          = "lifts-a-date"
	FreeDate            = "free-date"
	NoFreeDate          = "no-free-date"
	EccentricPlace      = "eccentric-place"
	EccentricCount      = "eccentric-count"
	LongHaul            = "long-haul"
	Hold                = "hold"
)

// Ids of the aims, in the order in which they are judged.
const (
	EmptyRun        = "empty-run"
	WeekFullBody    = "week-full-body"
	SecondLift      = "second-lift"
	SecondFullBody  = "second-full-body"
	PrimerImportant = "primer-important"
	PrimerAim       = "primer"
	RecoveryAfter   = "recovery-after"
	RecoveryCount   = "recovery-count"
	Important48h    = "important-48h"
	NearGame        = "near-game"
	PrimerTiming    = "primer-timing"
	Size            = "size"
	StartTime       = "start-time"
	PracticeOrder   = "practice-order"
	HardDay         = "hard-day"
	LiftRun         = "lift-run"
	BreakSession    = "break-session"
	Change          = "change"
	WeekLoad        = "week-load"
	LoadRamp        = "load-ramp"
	RollingCount    = "rolling-count"
	RollingLoad     = "rolling-load"
)

// limit is one prohibition: whether a session breaks it, and where.
type limit struct {
	id    string
	check func(*season, *session) (finding, bool)
}

// aim is one need: what of it a plan misses.
type aim struct {
	id     string
	misses func(*season) []Miss
	off    bool // not looked at while its price is 0
}

func limits() []limit {
	return []limit{
		{EventOverlap, eventOverlap},
		{OpenHours, openHours},
		{LatestEnd, latestEnd},
		{SessionLength, sessionLength},
		{HeavyBeforeGame, heavyBeforeGame},
		{FullBeforeGame, fullBeforeGame},
		{EccentricBeforeGame, eccentricBeforeGame},
		{PrimerWindow, primerWindow},
		{GameDate, gameDate},
		{BetweenGames, betweenGames},
		{AfterGame, afterGame},
		{PostGameLimit, postGame},
		{Sleep, sleep},
		{ExamDate, examDate},
		{ExamCount, examCount},
		{DoubleFixture, doubleFixture},
		{LiftsIn7, liftsIn7},
		{HeavyGap, heavyGap},
		{MinorLiftDates, minorLiftDates},
		{SessionsADate, sessionsADate},
		{LiftsADate, liftsADate},
		{FreeDate, freeDate},
		{NoFreeDate, noFreeDate},
		{EccentricPlace, eccentricPlace},
		{EccentricCount, eccentricCount},
		{LongHaul, longHaul},
		{Hold, hold},
	}
}

func aims() []aim {
	return []aim{
		{EmptyRun, emptyRun, false},
		{WeekFullBody, weekFullBody, false},
		{SecondLift, secondLift, false},
		{SecondFullBody, secondFullBody, false},
		{PrimerImportant, primerImportant, false},
		{PrimerAim, primerOther, false},
		{RecoveryAfter, recoveryAfter, false},
		{RecoveryCount, recoveryCount, false},
		{Important48h, important48h, false},
		{NearGame, nearGame, false},
		{PrimerTiming, primerTiming, false},
		{Size, size, false},
		{StartTime, startTime, false},
		{PracticeOrder, practiceOrder, false},
		{HardDay, hardDay, false},
		{LiftRun, liftRun, false},
		{BreakSession, breakSession, false},
		{Change, change, false},
		{WeekLoad, weekLoad, true},
		{LoadRamp, loadRamp, true},
		{RollingCount, rollingCount, true},
		{RollingLoad, rollingLoad, true},
	}
}

// Limits returns the ids of all limits in the order in which they are judged.
func Limits() []string {
	var ids []string
	for _, l := range limits() {
		ids = append(ids, l.id)
	}
	return ids
}

// Aims returns the ids of all aims in the order in which they are judged.
func Aims() []string {
	var ids []string
	for _, a := range aims() {
		ids = append(ids, a.id)
	}
	return ids
}

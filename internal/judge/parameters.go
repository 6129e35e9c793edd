package judge

// Range is an inclusive range of minutes.
type Range struct{ Min, Max int64 }

func (r Range) holds(minutes int64) bool { return r.Min <= minutes && minutes <= r.Max }

// Parameters are the numbers of the rules: minutes unless the name says years,
// months, dates or clock. Use [Default] and change what differs. Windows of
// seven dates and the club week of seven dates are not parameters.
type Parameters struct {
	Disabled []string         // ids of rules that are not judged
	Points   map[string]int64 // price of one miss, for every aim

	// People.
	AdultAge       int // years; younger is a minor
	AssumedAge     int // years, where the age is unknown
	BeginnerMonths int // training age below which one is a beginner
	BeginnerAge    int // years below which a beginner's restrictions hold in any case

	// Runs of game-free dates.
	OpenWeekDates int
	BreakDates    int

	// Events and hours.
	BufferBefore   [eventKinds]int64
	BufferAfter    [eventKinds]int64
	LatestEnd      int // clock
	LatestEndMinor int // clock
	LatestEndYoung int // clock
	YoungAge       int // years; up to this age LatestEndYoung holds
	Length         [kinds]Range
	ExamLength     Range // replaces Length on exam dates
	BetweenLength  Range // of recovery between two games: Min between close ones, Max between those nearer than BetweenGames

	// Games.
	HeavyBeforeGame     int64
	FullBeforeGame      int64
	EccentricBeforeGame int64
	PrimerWindow        Range
	BetweenGames        int64 // between two games nearer than this, end to start, only short recovery
	LostDate            int64 // a date of which less is lived is lost
	CloseGames          int64 // between two games nearer than this short recovery is allowed
	BetweenRecovery     int64 // longest recovery session that is short
	AfterGameFull       int64
	AfterGameTrimmed    int64
	PostGameAge         int // years
	PostGameWithin      int64
	PostGameNext        int64

	// Sleep, school, travel.
	LateClock      int   // clock; an event that ends later is followed by sleep
	Sleep          int64 // 0: not asked
	SleepMinor     int64
	ExamEndClock   int
	ExamSessions   int // a club week
	DoubleFixture  int // games on one date
	LongHaulArrive int64

	// Windows.
	Lifts              int // in any seven dates
	LiftsRun           int // where all seven lie in a break or an open week
	LiftsBeginner      int
	HeavyDates         int // heavy sessions at most this many dates apart are too near
	HeavyGap           int64
	MinorLiftDates     int // lifts of a minor at most this many dates apart are too near
	SessionsADate      int
	SessionsADateBreak int
	SameDateGap        int64
	LiftsADate         int
	NoFreeDateSessions int
	EccentricMonths    int // training age
	Eccentrics         int // a club week

	// Aims.
	EmptyDates       int // in a row
	WeekLifts        int
	WeekFullBodies   int
	RecoveryMin      int // a club week
	RecoveryMax      int
	ImportantNear    int64
	OtherNear        int64
	PrimerPreferred  int64
	SizeTrimmed      int64 // times the price of "size"
	SizePostGame     int64
	PreferredWorkday int // clock, Monday to Friday
	PreferredFree    int // clock, Saturday and Sunday
	StartTolerance   int
	PracticeGap      int64
	LiftFreeDates    int // in a row
	BreakFullBodies  int // a club week
	SoonMinutes      int64
	SoonPoints       int64 // price of a change inside SoonMinutes from now

	// Aims that are off by default, in units of effort rating times minutes.
	Rating       [kinds]int64 // CR-10
	LoadBlock    int64        // the step in which load is counted
	WeekLoad     Range
	LoadRamp     int64
	RollingCount int
	RollingLoad  int64
}

const hour = 60

// Default returns the published numbers. They are common practice and have no
// other source.
func Default() Parameters {
	return Parameters{
		Points: map[string]int64{
			EmptyRun:        2240,
			WeekFullBody:    1120,
			SecondLift:      560,
			SecondFullBody:  120,
			PrimerImportant: 320,
			PrimerAim:       240,
			RecoveryAfter:   60,
			RecoveryCount:   30,
			Important48h:    2500,
			NearGame:        1,
			PrimerTiming:    1,
			Size:            1,
			StartTime:       1,
			PracticeOrder:   1,
			HardDay:         2,
			LiftRun:         1,
			BreakSession:    3,
			Change:          5,
			WeekLoad:        0,
			LoadRamp:        0,
			RollingCount:    0,
			RollingLoad:     0,
		},

		AdultAge:       18,
		AssumedAge:     13,
		BeginnerMonths: 12,
		BeginnerAge:    14,

		OpenWeekDates: 7,
		BreakDates:    10,

		BufferBefore:   [eventKinds]int64{Game: 45, Practice: 15, Skills: 15, Travel: 0, Exam: 30},
		BufferAfter:    [eventKinds]int64{Game: 15, Practice: 15, Skills: 15, Travel: 30, Exam: 0},
		LatestEnd:      22 * hour,
		LatestEndMinor: 20*hour + 30,
		LatestEndYoung: 20 * hour,
		YoungAge:       15,
		Length: [kinds]Range{
			FullBody:  {35, 60},
			Trimmed:   {35, 50},
			Primer:    {30, 40},
			Recovery:  {30, 45},
			PostGame:  {30, 30},
			Eccentric: {45, 60},
		},
		ExamLength:    Range{20, 30},
		BetweenLength: Range{20, 30},

		HeavyBeforeGame:     24 * hour,
		FullBeforeGame:      48 * hour,
		EccentricBeforeGame: 72 * hour,
		PrimerWindow:        Range{12 * hour, 36 * hour},
		BetweenGames:        24 * hour,
		LostDate:            120,
		CloseGames:          24 * hour,
		BetweenRecovery:     30,
		AfterGameFull:       24 * hour,
		AfterGameTrimmed:    12 * hour,
		PostGameAge:         16,
		PostGameWithin:      60,
		PostGameNext:        36 * hour,

		LateClock:      21 * hour,
		Sleep:          9 * hour,
		SleepMinor:     10 * hour,
		ExamEndClock:   19*hour + 30,
		ExamSessions:   2,
		DoubleFixture:  2,
		LongHaulArrive: 24 * hour,

		Lifts:              3,
		LiftsRun:           4,
		LiftsBeginner:      2,
		HeavyDates:         1,
		HeavyGap:           40 * hour,
		MinorLiftDates:     1,
		SessionsADate:      1,
		SessionsADateBreak: 2,
		SameDateGap:        6 * hour,
		LiftsADate:         1,
		NoFreeDateSessions: 2,
		EccentricMonths:    24,
		Eccentrics:         2,

		EmptyDates:       3,
		WeekLifts:        2,
		WeekFullBodies:   2,
		RecoveryMin:      2,
		RecoveryMax:      3,
		ImportantNear:    48 * hour,
		OtherNear:        48 * hour,
		PrimerPreferred:  24 * hour,
		SizeTrimmed:      1,
		SizePostGame:     2,
		PreferredWorkday: 17 * hour,
		PreferredFree:    10 * hour,
		StartTolerance:   90,
		PracticeGap:      3 * hour,
		LiftFreeDates:    3,
		BreakFullBodies:  3,
		SoonMinutes:      24 * hour,
		SoonPoints:       10000,

		Rating:       [kinds]int64{FullBody: 6, Trimmed: 6, Primer: 5, Recovery: 2, PostGame: 6, Eccentric: 7},
		LoadBlock:    50,
		WeekLoad:     Range{500, 1500},
		LoadRamp:     300,
		RollingCount: 5,
		RollingLoad:  900,
	}
}

package rule

// Kind says what a row of the table is.
type Kind string

const (
	// Limit: a prohibition. Resting satisfies it, so no plan breaks one; only
	// pins and the past can, and the plan then says so.
	Limit Kind = "limit"
	// Aim: a need. Missing it costs points and is reported with what stood in
	// its way.
	Aim Kind = "aim"
	// Fact: a number the others are computed with.
	Fact Kind = "fact"
)

// Side says in which direction a value is changed to make a rule looser.
type Side int8

// The sides.
const (
	Higher Side = 1  // a higher value is looser
	Lower  Side = -1 // a lower value is looser
	Either Side = 0  // neither is
)

// Row is one number of the rule table.
type Row struct {
	ID       string // stable
	Kind     Kind
	Unit     string // "hours", "minutes", "count", "clock minutes", "years"; "" without a value
	Default  int    // in Unit
	Min, Max int    // what an override may set
	Points   int    // of an aim: what one miss costs by default
	Priority int    // of an aim: 1 is the first to be kept; 0 has no place of its own
	Loose    Side
	// Minors marks a safeguard of minors: it may be tightened freely, and
	// loosened only with a named adult and a reason, which are printed.
	Minors bool
	// Fixed rows cannot be switched off.
	Fixed  bool
	Source string
	Doc    string
}

const practice = "common practice, no source"

// HighestPoints is the most one miss may be set to cost.
const HighestPoints = 10_000

// Version names the table. It changes whenever a default does.
const Version = "1"

// Table returns a copy of the rule table in its fixed order: limits, then aims
// by priority, then facts. Aims without points are off until an override gives
// them some.
func Table() []Row { return append([]Row(nil), table...) }

// Family returns the id under which a row is judged and counted: rows that are
// numbers of one rule share it.
func Family(id string) string {
	switch id {
	case "latest-end-minor", "latest-end-15":
		return "latest-end"
	case "sleep-minor":
		return "sleep"
	case "primer-latest", "primer-earliest":
		return "primer-window"
	case "after-game-full", "after-game-trimmed":
		return "after-game"
	case "post-game-next", "post-game-age":
		return "post-game"
	case "lifts-in-7-break", "lifts-in-7-beginner":
		return "lifts-in-7"
	case "sessions-a-date-break", "sessions-apart":
		return "sessions-a-date"
	}
	return id
}

var table = []Row{
	// Around a game, by elapsed time.
	{ID: "heavy-before-game", Kind: Limit, Unit: "hours", Default: 24, Min: 24, Max: 168, Loose: Lower, Fixed: true,
		Source: "Thomas et al. 2018, MSSE 50:2526-2535; the number is " + practice,
		Doc:    "heavy lower-body work ends at least this long before a game"},
	{ID: "full-before-game", Kind: Limit, Unit: "hours", Default: 48, Min: 24, Max: 168, Loose: Lower,
		Source: "Helland et al. 2020, PeerJ 8:e10044; the number is " + practice,
		Doc:    "a full-size session ends at least this long before a game; nearer only trimmed or post-game"},
	{ID: "eccentric-before-game", Kind: Limit, Unit: "hours", Default: 72, Min: 48, Max: 240, Loose: Lower,
		Source: "Thomas et al. 2018, MSSE 50:2526-2535; the number is " + practice,
		Doc:    "an eccentric session ends at least this long before a game"},
	{ID: "primer-latest", Kind: Limit, Unit: "hours", Default: 12, Min: 4, Max: 35, Loose: Lower,
		Fixed: true, Source: "Harrison et al. 2019, Sports Med 49:1501-1514 (1-48 h); the number is " + practice,
		Doc: "a primer ends at least this long before a game, on an earlier date than the game"},
	{ID: "primer-earliest", Kind: Limit, Unit: "hours", Default: 36, Min: 13, Max: 48, Loose: Higher,
		Fixed: true, Source: "Harrison et al. 2019, Sports Med 49:1501-1514 (1-48 h); the number is " + practice,
		Doc: "a primer ends at most this long before its game"},
	{ID: "between-games", Kind: Limit, Unit: "hours", Default: 24, Min: 12, Max: 72, Loose: Lower, Source: practice,
		Doc: "between the end of a game and the start of the next nearer than this, nothing but a short recovery session"},
	{ID: "between-games-recovery", Kind: Limit, Unit: "minutes", Default: 30, Min: 20, Max: 45, Loose: Higher, Fixed: true, Source: practice,
		Doc: "longest recovery session between two such games"},
	{ID: "game-date", Kind: Limit, Source: practice,
		Doc: "no session before the game on its date, but a short recovery session between two games; after it only post-game or recovery"},
	{ID: "after-game-full", Kind: Limit, Unit: "hours", Default: 24, Min: 0, Max: 96, Loose: Lower,
		Source: "West et al. 2014, JSCR 28:194-200; the number is " + practice,
		Doc:    "a full-size or eccentric session starts at least this long after the end of a game"},
	{ID: "after-game-trimmed", Kind: Limit, Unit: "hours", Default: 12, Min: 0, Max: 96, Loose: Lower, Source: practice,
		Doc: "a trimmed session starts at least this long after the end of a game"},
	{ID: "post-game", Kind: Limit, Unit: "minutes", Default: 60, Min: 15, Max: 120, Loose: Higher, Fixed: true, Source: practice,
		Doc: "a post-game session is opted in to, starts within this time of the actual end, on the date of a game that is sure to be played"},
	{ID: "post-game-next", Kind: Limit, Unit: "hours", Default: 36, Min: 24, Max: 96, Loose: Lower, Fixed: true, Source: practice,
		Doc: "a post-game session only if the next game is at least this far off, and not on the next date"},
	{ID: "post-game-age", Kind: Limit, Unit: "years", Default: 16, Min: 14, Max: 99, Loose: Lower, Minors: true, Fixed: true, Source: practice,
		Doc: "youngest age for a post-game session"},
	{ID: "double-fixture", Kind: Limit, Minors: true, Source: practice,
		Doc: "a minor has no session on the date after two games on one date"},
	// The day.
	{ID: "event-overlap", Kind: Limit, Fixed: true, Source: practice,
		Doc: "a session overlaps no event and none of its buffers"},
	{ID: "open-hours", Kind: Limit, Fixed: true, Source: practice,
		Doc: "a session lies inside the athlete's hours and those of its place"},
	{ID: "session-length", Kind: Limit, Fixed: true, Source: practice,
		Doc: "a session is as long as its kind allows, door to door"},
	{ID: "latest-end", Kind: Limit, Unit: "clock minutes", Default: 22 * 60, Min: 12 * 60, Max: 24 * 60, Loose: Higher, Fixed: true, Source: practice,
		Doc: "latest end of a session, adults"},
	{ID: "latest-end-minor", Kind: Limit, Unit: "clock minutes", Default: 20*60 + 30, Min: 12 * 60, Max: 24 * 60, Loose: Higher, Minors: true, Fixed: true, Source: practice,
		Doc: "latest end of a session, under 18"},
	{ID: "latest-end-15", Kind: Limit, Unit: "clock minutes", Default: 20 * 60, Min: 12 * 60, Max: 24 * 60, Loose: Higher, Minors: true, Fixed: true, Source: practice,
		Doc: "latest end of a session, up to 15 years"},
	{ID: "sleep", Kind: Limit, Unit: "hours", Default: 9, Min: 6, Max: 14, Loose: Lower, Source: practice,
		Doc: "from the end, with buffer, of a game, practice or trip that ends after 21:00 to the next session"},
	{ID: "sleep-minor", Kind: Limit, Unit: "hours", Default: 10, Min: 6, Max: 14, Loose: Lower, Minors: true, Source: practice,
		Doc: "the same for minors"},
	{ID: "sessions-a-date", Kind: Limit, Unit: "count", Default: 1, Min: 1, Max: 2, Loose: Higher, Fixed: true, Source: practice,
		Doc: "sessions on one date"},
	{ID: "sessions-a-date-break", Kind: Limit, Unit: "count", Default: 2, Min: 1, Max: 2, Loose: Higher, Fixed: true, Source: practice,
		Doc: "sessions on one date in a break"},
	{ID: "lifts-a-date", Kind: Limit, Unit: "count", Default: 1, Min: 1, Max: 2, Loose: Higher, Fixed: true, Source: practice,
		Doc: "lifts on one date"},
	{ID: "sessions-apart", Kind: Limit, Unit: "hours", Default: 6, Min: 3, Max: 12, Loose: Lower, Fixed: true, Source: practice,
		Doc: "from the end of a session to the start of the next on the same date"},
	{ID: "exam-date", Kind: Limit, Unit: "clock minutes", Default: 19*60 + 30, Min: 12 * 60, Max: 24 * 60, Loose: Higher, Source: practice,
		Doc: "on exam dates no session before the exam, none that ends later than this"},
	{ID: "exam-minutes", Kind: Limit, Unit: "minutes", Default: 30, Min: 20, Max: 60, Loose: Higher, Fixed: true, Source: practice,
		Doc: "longest session on an exam date; it wins over the kinds' lengths"},
	{ID: "exam-count", Kind: Limit, Unit: "count", Default: 2, Min: 0, Max: 7, Loose: Higher, Source: practice,
		Doc: "sessions on exam dates in one week"},
	{ID: "long-haul", Kind: Limit, Unit: "hours", Default: 24, Min: 0, Max: 96, Loose: Lower, Source: practice,
		Doc: "no full-body session this long after arriving from a trip of 6 zones or 6 hours"},
	{ID: "hold", Kind: Limit, Fixed: true, Source: practice,
		Doc: "no session while a hold is not cleared by a named clinician"},
	// Over days.
	{ID: "lifts-in-7", Kind: Limit, Unit: "count", Default: 3, Min: 1, Max: 5, Loose: Higher, Fixed: true,
		Source: "handbook frequency in season 1-3 a week (NSCA Essentials, from memory)",
		Doc:    "lifts in any 7 dates"},
	{ID: "lifts-in-7-break", Kind: Limit, Unit: "count", Default: 4, Min: 1, Max: 6, Loose: Higher, Fixed: true, Source: practice,
		Doc: "the same where all 7 dates lie in a break or an open week"},
	{ID: "lifts-in-7-beginner", Kind: Limit, Unit: "count", Default: 2, Min: 1, Max: 3, Loose: Higher, Minors: true, Fixed: true,
		Source: "Lloyd et al. 2014, BJSM 48:498-505 (2-3 a week, via secondary text)",
		Doc:    "the same for beginners and under 14"},
	{ID: "heavy-gap", Kind: Limit, Unit: "hours", Default: 40, Min: 24, Max: 96, Loose: Lower, Fixed: true, Source: practice,
		Doc: "heavy lower-body sessions: never on consecutive dates, at least this long from the end of one to the start of the next"},
	{ID: "minor-lift-dates", Kind: Limit, Minors: true,
		Source: "Lloyd et al. 2014, BJSM 48:498-505 (non-consecutive days, via secondary text)",
		Doc:    "lifts of minors on non-consecutive dates"},
	{ID: "free-date", Kind: Limit, Minors: true,
		Source: "AAP 2007, Pediatrics 119:1242-1245 (a day off a week, via secondary text)",
		Doc:    "minors: in any 7 dates with a date free of games and practice, one such date has no session"},
	{ID: "no-free-date", Kind: Limit, Unit: "count", Default: 2, Min: 0, Max: 3, Loose: Higher, Minors: true, Source: practice,
		Doc: "minors without such a date: most sessions in those 7 dates"},
	{ID: "eccentric-place", Kind: Limit, Unit: "years", Default: 2, Min: 1, Max: 20, Loose: Lower, Minors: true, Fixed: true, Source: practice,
		Doc: "eccentric sessions only in the first half of a break, for adults with this training age"},
	{ID: "eccentric-count", Kind: Limit, Unit: "count", Default: 2, Min: 0, Max: 3, Loose: Higher, Fixed: true, Source: practice,
		Doc: "eccentric sessions in one week"},

	// Aims, in the order in which they are kept.
	{ID: "important-48h", Kind: Aim, Unit: "hours", Default: 48, Min: 24, Max: 96, Points: 2500, Priority: 1, Source: practice,
		Doc: "no heavy lower-body work this near an important game"},
	{ID: "empty-run", Kind: Aim, Unit: "dates", Default: 3, Min: 1, Max: 14, Points: 2240, Priority: 2, Source: practice,
		Doc: "longest run of dates without a session; each date beyond it is a miss"},
	{ID: "week-full-body", Kind: Aim, Points: 1120, Priority: 3,
		Source: "Ronnestad et al. 2011, JSCR 25:2653-2660 (one session a week kept strength)",
		Doc:    "a full-body, trimmed, post-game or eccentric session in each week"},
	{ID: "second-lift", Kind: Aim, Points: 560, Priority: 4, Source: practice,
		Doc: "two lifts in each week"},
	{ID: "primer-important", Kind: Aim, Points: 320, Priority: 5, Source: "Harrison et al. 2019, Sports Med 49:1501-1514",
		Doc: "a primer on the day before an important game"},
	{ID: "primer", Kind: Aim, Points: 240, Priority: 6, Source: "Harrison et al. 2019, Sports Med 49:1501-1514",
		Doc: "a primer on the day before another game"},
	{ID: "second-full-body", Kind: Aim, Points: 120, Priority: 7, Source: practice,
		Doc: "a second full-body, trimmed, post-game or eccentric session in each week"},
	{ID: "recovery-after", Kind: Aim, Points: 60, Priority: 8, Source: practice,
		Doc: "a recovery session on the day after a game, the second of a back-to-back"},
	{ID: "recovery-count", Kind: Aim, Points: 30, Priority: 9, Source: practice,
		Doc: "two to three recovery sessions in each week, not counting those on the date of a game; each one short or beyond is a miss"},
	{ID: "recovery-least", Kind: Fact, Unit: "count", Default: 2, Min: 0, Max: 7, Source: practice, Doc: "fewest recovery sessions aimed at in a week"},
	{ID: "recovery-most", Kind: Fact, Unit: "count", Default: 3, Min: 0, Max: 7, Source: practice, Doc: "most recovery sessions aimed at in a week"},
	// Convenience: at most 20 points a week together.
	{ID: "break-session", Kind: Aim, Unit: "count", Default: 3, Min: 0, Max: 4, Points: 3, Priority: 10, Source: practice,
		Doc: "full-body sessions in a week that lies wholly in a break"},
	{ID: "near-game", Kind: Aim, Unit: "hours", Default: 48, Min: 24, Max: 96, Points: 1, Priority: 10,
		Source: "Thomas et al. 2018, MSSE 50:2526-2535", Doc: "heavy lower-body work not this near a game"},
	{ID: "size", Kind: Aim, Points: 1, Priority: 10, Source: practice,
		Doc: "full-size over trimmed (one miss) over post-game (two)"},
	{ID: "primer-timing", Kind: Aim, Unit: "hours", Default: 24, Min: 12, Max: 36, Points: 1, Priority: 10, Source: practice,
		Doc: "a primer ends at least this long before its game"},
	{ID: "start-time", Kind: Aim, Unit: "minutes", Default: 90, Min: 0, Max: 720, Points: 1, Priority: 10, Source: practice,
		Doc: "a session starts at most this far from the preferred start"},
	{ID: "practice-order", Kind: Aim, Unit: "hours", Default: 3, Min: 0, Max: 12, Points: 1, Priority: 10, Source: practice,
		Doc: "a lift comes before the practice of its date, or this long after it"},
	{ID: "hard-day", Kind: Aim, Points: 2, Priority: 10, Source: practice,
		Doc: "no full-size session on the date of a hard practice"},
	{ID: "lift-run", Kind: Aim, Unit: "dates", Default: 3, Min: 1, Max: 14, Points: 1, Priority: 10, Source: practice,
		Doc: "longest run of dates without a lift; each date beyond it is a miss"},
	{ID: "change", Kind: Aim, Points: 5, Priority: 11, Source: practice,
		Doc: "a choice of the plan issued before is kept; inside the next 24 hours this comes first"},

	// Off by default: they cost nothing until an override gives them points. They
	// remember sums, so a plan takes longer with them: see the benchmarks.
	{ID: "week-load", Kind: Aim, Max: 0, Points: 0, Priority: 12, Source: practice,
		Doc: "expected session load of a week inside week-load-least to week-load-most; each 50 units outside is a miss"},
	{ID: "week-load-least", Kind: Fact, Unit: "load units", Default: 500, Min: 0, Max: 3000, Source: practice, Doc: "least session load of a week, effort rating x minutes"},
	{ID: "week-load-most", Kind: Fact, Unit: "load units", Default: 1500, Min: 0, Max: 3000, Source: practice, Doc: "most session load of a week, effort rating x minutes"},
	{ID: "load-ramp", Kind: Aim, Unit: "load units", Default: 300, Min: 0, Max: 3000, Points: 0, Priority: 12, Source: practice,
		Doc: "session load changes by at most this from one week to the next; each 50 units beyond is a miss"},
	{ID: "rolling-count", Kind: Aim, Unit: "count", Default: 5, Min: 0, Max: 14, Points: 0, Priority: 12, Source: practice,
		Doc: "sessions in any 7 dates; each one beyond is a miss, on each date"},
	{ID: "rolling-load", Kind: Aim, Unit: "load units", Default: 900, Min: 0, Max: 3000, Points: 0, Priority: 12, Source: practice,
		Doc: "session load of any 3 dates; each 50 units beyond is a miss, on each date"},

	// Facts.
	{ID: "buffer-game-before", Kind: Fact, Unit: "minutes", Default: 45, Min: 0, Max: 480, Source: practice, Doc: "kept free before a game"},
	{ID: "buffer-game-after", Kind: Fact, Unit: "minutes", Default: 15, Min: 0, Max: 480, Source: practice, Doc: "kept free after a game; not for its own post-game session"},
	{ID: "buffer-practice-before", Kind: Fact, Unit: "minutes", Default: 15, Min: 0, Max: 480, Source: practice, Doc: "kept free before practice and skills"},
	{ID: "buffer-practice-after", Kind: Fact, Unit: "minutes", Default: 15, Min: 0, Max: 480, Source: practice, Doc: "kept free after practice and skills"},
	{ID: "buffer-travel-before", Kind: Fact, Unit: "minutes", Default: 0, Min: 0, Max: 480, Source: practice, Doc: "kept free before travel"},
	{ID: "buffer-travel-after", Kind: Fact, Unit: "minutes", Default: 30, Min: 0, Max: 480, Source: practice, Doc: "kept free after travel"},
	{ID: "buffer-exam-before", Kind: Fact, Unit: "minutes", Default: 30, Min: 0, Max: 480, Source: practice, Doc: "kept free before an exam"},
	{ID: "buffer-exam-after", Kind: Fact, Unit: "minutes", Default: 0, Min: 0, Max: 480, Source: practice, Doc: "kept free after an exam"},
	{ID: "game-minutes", Kind: Fact, Unit: "minutes", Default: 120, Min: 20, Max: 720, Source: practice, Doc: "length of a game whose end is not known"},
	{ID: "prefer-weekday", Kind: Fact, Unit: "clock minutes", Default: 17 * 60, Min: 0, Max: 24 * 60, Source: practice, Doc: "preferred start on school and work days"},
	{ID: "prefer-weekend", Kind: Fact, Unit: "clock minutes", Default: 10 * 60, Min: 0, Max: 24 * 60, Source: practice, Doc: "preferred start on other days"},
	{ID: "week-start", Kind: Fact, Unit: "weekday", Default: 1, Min: 0, Max: 6, Source: practice, Doc: "first day of the club's week, 0 is Sunday"},
	{ID: "minutes-full-body", Kind: Fact, Unit: "minutes", Default: 55, Min: 35, Max: 60, Source: practice, Doc: "usual length door to door"},
	{ID: "minutes-beginner", Kind: Fact, Unit: "minutes", Default: 45, Min: 35, Max: 60, Source: practice, Doc: "the same for beginners and under 14, at most"},
	{ID: "minutes-trimmed", Kind: Fact, Unit: "minutes", Default: 45, Min: 35, Max: 50, Source: practice, Doc: "usual length door to door"},
	{ID: "minutes-primer", Kind: Fact, Unit: "minutes", Default: 35, Min: 30, Max: 40, Source: practice, Doc: "usual length door to door"},
	{ID: "minutes-recovery", Kind: Fact, Unit: "minutes", Default: 40, Min: 30, Max: 45, Source: practice, Doc: "usual length door to door"},
	{ID: "minutes-eccentric", Kind: Fact, Unit: "minutes", Default: 60, Min: 45, Max: 60, Source: practice, Doc: "usual length door to door"},
}

// Package load answers "how much": masses, repetitions, efforts, session
// loads, heart rates and their published equations, each with its source.
//
// # Contract
//
// A value carries its unit in its type: a [Mass] is whole grams, a [Percent]
// runs from 0 to 100, an [AU] is rating times minutes, an [Effort] (lifting,
// by repetitions in reserve) is not a [SessionRating] (CR-10). What the
// compiler keeps apart cannot be mixed.
//
// Undefined is a second result. Every function that can be undefined returns
// ok = false outside the range its comment states; no function returns NaN,
// an infinity or a silent zero, and none panics. Input in words (masses,
// dates, stocks of discs) is refused with an [InputError] that lists every
// problem with its remedy.
//
// An unknown day is not a rest day. The zero [DayLoad] is unknown; a rest day
// is a known load of 0.
//
// Estimates are masses rounded to the nearest gram, ties down. Prescribed
// loads always round down: [Percent.Of], [Curve.LoadFor] and [Curve.LoadAt]
// to the gram, [Rack.AtMost] and [FixedAtMost] to what there is to lift. All
// other results are not rounded; their last binary digits may differ between
// processors, so print them with the digits they deserve.
//
// Everything is a plain value, safe to copy; only the streaming types
// ([RollingWeek], [RollingMonth], [ExponentialLoad], [Impulse], [Tracker],
// [Baseline]) hold state, and a day's update of them allocates nothing. A
// [Rack] never changes and may be shared. The package depends on the standard
// library alone and reads no clock, file or environment.
//
// # Sources
//
// Each comment names the source and how far it was traced: "seen" (in the
// paper, its abstract or the standard), "via secondary text", "from memory",
// "derived" (algebra from the above) or "common practice, no source".
//
// # What it is not for
//
// It predicts no injury and no performance, diagnoses nothing and clears
// nobody. A ratio of acute to chronic load is a description and not a risk:
// it does no better than acute load over a constant (Lolli et al. 2019;
// Impellizzeri et al. 2020, 2021), so nothing here plans by it and [Tracker]
// leaves it out unless asked. The injury studies in [Studies] are group
// results, never a promise to one athlete. No equation starts from body mass,
// and no function sets a body mass to reach.
//
// # Accuracy
//
// A one-repetition maximum estimated from repetitions correlates with the
// lifted one at r = 0.82 to 0.98 (Mayhew et al. 1995, seen: 220 men); the
// lifted one itself repeats with a coefficient of variation of 4.2 % (median,
// 0.5 to 12.1 %; Grgic et al. 2020, seen). Equations disagree by several
// kilograms: name the one used, keep to it, and trust no estimate from more
// than 10 repetitions. Raters of repetitions in reserve are off by
// one near failure and by more than two far from it. Nearly all of these
// numbers come from adults.
//
// # How to start
//
// Estimate a maximum from a set, take a working load from it, build it:
//
//	best, ok := load.Epley.OneRepMaxAt(60*load.Kilogram, 6, 8) // 60 kg x 6 at RPE 8
//	work, ok := load.Epley.LoadAt(best.Load, 5, 8)             // five with two in reserve
//	rack, err := load.NewRack(20*load.Kilogram, load.GymDiscs())
//	bar, ok := rack.AtMost(work)                               // 60 kg: 20 a side
//
// Follow a season a day at a time with a [Tracker]; ask about one week with
// [Week], about a dated log with [NewSeries], about a test with
// [TypicalError], [MinimalDetectableChange] and [ChangeProbabilities].
package load

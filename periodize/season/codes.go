package season

import "strings"

// codes lists every note a plan can carry. Parameters are read off the text.
var codes = func() map[string]NoteCode {
	out := map[string]NoteCode{}
	add := func(class NoteClass, code, text string) {
		c := NoteCode{Code: code, Class: class, Text: text}
		for rest := text; ; {
			_, after, ok := strings.Cut(rest, "{")
			if !ok {
				break
			}
			name, tail, _ := strings.Cut(after, "}")
			c.Params = append(c.Params, name)
			rest = tail
		}
		out[code] = c
	}
	// Why a session stands where it stands.
	add(Why, "why-first-full-body", "first full-body session of the week, ends {hours} before the next game")
	add(Why, "why-second-full-body", "second full-body session of the week, ends {hours} before the next game")
	add(Why, "why-full-body-open", "full-body session, no game known after it in this plan")
	add(Why, "why-extra-full-body", "a further full-body session, room for it in the break")
	add(Why, "why-trimmed", "trimmed: ends {hours} before the next game, so one set less and no eccentric emphasis")
	add(Why, "why-trimmed-short", "trimmed: the room here is {minutes} minutes")
	add(Why, "why-primer", "fresh for the game: ends {hours} before it")
	add(Why, "why-primer-late", "fresh for the game: ends {hours} before it, less than the 24 h preferred")
	add(Why, "why-recovery-after", "recovery on the day after the game")
	add(Why, "why-recovery-between", "easy and short, between two games less than 24 h apart")
	add(Why, "why-recovery-count", "recovery, one of two to three in a week")
	add(Why, "why-recovery-run", "recovery, so that no run of empty dates gets longer than {days}")
	add(Why, "why-post-game", "straight after the game, {hours} before the next one, so that the lift does not need a day of its own")
	add(Why, "why-post-game-open", "straight after the game, so that the lift does not need a day of its own")
	add(Why, "why-trimmed-hard", "trimmed: a hard practice is on the same date")
	add(Why, "why-trimmed-after", "trimmed: {hours} after the end of the last game")
	add(Why, "why-eccentric", "eccentric emphasis, first half of a break of {days} dates")
	add(Why, "why-second-lift", "second lift of the week")
	add(Why, "why-before-practice", "before the practice of the same date")
	add(Why, "why-short-exam", "exam date: at most {minutes} minutes")
	add(Why, "why-pinned", "pinned")
	add(Why, "why-done", "done, fixed")
	add(Why, "why-frozen", "issued and already past, not logged")
	add(Why, "why-issued", "kept from the plan issued before")
	add(Why, "why-shortened", "{minutes} minutes, as long as the room allows")
	add(Finding, "finding-no-full-body-7", "no full-body session from {from} to {to}, {days} dates")
	add(Finding, "finding-no-full-body-14", "no full-body session from {from} to {to}, {days} dates: strength is at stake")
	add(Finding, "finding-broken", "{rule} is broken by the {kind} session of {date}, which was pinned or is already past")
	add(Finding, "finding-double-fixture", "two games on {date}: whether a minor plays both is for the responsible adults to decide, the gym cannot mend it")
	add(Finding, "finding-hours-over-age", "{hours} organised hours in the week from {from}, more than the age of {age} years")
	add(Finding, "finding-no-free-date", "no date without game or practice from {from} to {to}: at most 2 sessions were placed in it")
	add(Finding, "finding-lift-run", "no lift from {from} to {to}, {days} dates")
	add(Finding, "finding-break", "break of {days} game-free dates, {from} to {to}")
	add(Finding, "finding-open-week", "open week of {days} game-free dates, {from} to {to}: a fourth lift is allowed")
	add(Finding, "finding-unknown-before", "no game is known before {date}: dates before it are taken as ordinary ones, not as a break")
	add(Finding, "finding-unknown-after", "no game is known after {date}: dates after it are taken as ordinary ones, not as a break")
	add(Finding, "finding-lost-date", "{date} is hardly lived, because of a trip between time zones or a change of the clock: it counts as no empty date and as no free one")
	add(Finding, "finding-no-games", "no game is known in the period: the plan covers no fixtures")
	add(Finding, "finding-override", "{rule} is changed for this plan: {what}; {by}: {reason}")
	add(Question, "question-age", "the age is not known: the safeguards of a 13- to 15-year-old beginner are used. How old is the athlete?")
	add(Question, "question-training-age", "the training age is not known: a beginner's rules are used. How many years of regular supervised strength training?")
	add(Question, "question-hours", "no hours are given: {assumed} assumed. When can the athlete train?")
	add(Question, "question-game-end", "games without an end: {count}, {minutes} minutes each are assumed. How long do they take?")
	add(Question, "question-date-only", "games without a start: {count}, each takes 09:00 to 22:00 of its date. When do they start?")
	add(Question, "question-doubled", "the wall time of {event} occurs twice on that date: the first is used")
	add(Question, "question-clash", "{event} and {other} overlap: both are kept free. Which one is played?")
	add(Question, "question-way-back", "{event} leads elsewhere and no trip home from there is known: the athlete is taken to be at home after it. When is the trip home?")
	add(Question, "question-input", "{text}")
	add(Warning, "warning-input", "{text}")
	add(Warning, "warning-pin-time", "the pin of {date} at {start} is not used: where the athlete is then, no clock shows that time on that date")
	// Why a session of the plan issued before does not stand.
	add(Why, "cause-limit", "as issued it would now break {rule} ({event})")
	add(Why, "cause-limit-alone", "as issued it would now break {rule}")
	add(Why, "cause-game-moved", "{event} moved from {from} to {to}")
	add(Why, "cause-game-gone", "{event} of {date} is no longer played then")
	add(Why, "cause-game-new", "{event} on {date} is new")
	add(Why, "cause-events", "other events on {date} than when the plan was issued")
	add(Why, "cause-log", "the log says otherwise")
	add(Why, "cause-other", "hours, places, rules or the log changed")
	add(Refusal, "refusal-under-12", "under 12 years: bodyweight skills with a qualified coach only, no plan is made")
	add(Refusal, "refusal-hold", "on hold until a clinician clears it: no session is placed from {from} on")
	return out
}()

package logbook

import "example.org/weft/periodize/season"

// moreCodes are the notes about what is kept, tests, loads and findings.
func moreCodes(add func(class season.NoteClass, code, text string)) {
	// What is kept.
	add(season.Why, "retention-table", "the dates are a band of an expert table of trained adults, not measured on this athlete; nothing ends at an edge")
	add(season.Warning, "retention-young", "under 18, or of unknown age: the table was not made for growing athletes, who may gain and lose otherwise")
	add(season.Warning, "retention-newcomer", "{months} months of strength training: the table was not made for newcomers, whose gains are newer and less settled")
	add(season.Warning, "retention-unknown", "training age unknown: the table was made for trained adults")
	add(season.Why, "keep-strength", "a heavy strength session in any {dates} dates, to keep maximal strength")
	add(season.Why, "keep-strength-endurance", "a full-body or eccentric session in any {dates} dates, to keep strength endurance")
	add(season.Why, "keep-speed", "a primer, or a game played, in any {dates} dates, to keep speed")
	add(season.Finding, "keep-proposed", "{quality} reaches the edge of its band on {date} under this plan: with this rule each date from the edge on costs {points} points; leave it out to end it")
	// Tests.
	add(season.Question, "question-test", "{test}: {value} on {date} is far from {before} and is not used. Is it right, and in which unit? Confirm or replace {entry}")
	add(season.Why, "error-own", "{pairs} pairs of the athlete's own repeats")
	add(season.Finding, "test-higher", "{test}: {from} on {before}, {to} on {date}: higher by more than its noise of {detectable} (typical error {error}; {source})")
	add(season.Finding, "test-lower", "{test}: {from} on {before}, {to} on {date}: lower by more than its noise of {detectable} (typical error {error}; {source})")
	add(season.Finding, "test-same", "{test}: {from} on {before}, {to} on {date}: no change, two tests of one athlete mostly differ by as much (typical error {error}, noise {detectable}; {source})")
	add(season.Finding, "test-unclear", "{test}: {from} on {before}, {to} on {date}: unclear, within its noise of {detectable} (typical error {error}; {source}); test again within a week")
	add(season.Finding, "test-first", "{test}: {from} on {before}, {to} on {date}: unclear, the second maximum of a lift is higher by practice alone (typical error {error}, noise {detectable}; {source}); test again within a week")
	add(season.Finding, "test-no-error", "{test}: {from} on {before}, {to} on {date}: unclear, its typical error is not known; {pairs} of {least} pairs of own repeats so far")
	add(season.Refusal, "test-refused", "no maximal test: under 14, of unknown age, or less than a year of strength training")
	// Loads.
	add(season.Warning, "load-ratio", "the ratio of recent to earlier load is no better than recent load over a constant, and no measure of risk: Lolli et al. 2019, BJSM 53:921-922; Impellizzeri et al. 2020, J Athl Train 55:893-901. Nothing is planned by it")
	add(season.Why, "load-empty", "a date with nothing planned, nothing in the calendar and nothing told counts as a rest day")
	add(season.Question, "question-mass", "the weighing of {date} is far from the one before and is not used. Is it right, and in which unit? Confirm or replace {entry}")
	// Body mass, of adults. No values: these are health data.
	add(season.Finding, "mass-below", "body mass is lower than fluid explains for two weeks, up to that of {week}: ask how eating, sleep and training go together; a clinician if it goes on")
	add(season.Finding, "mass-above", "body mass is higher than fluid explains for two weeks, up to that of {week}: nothing to do where that is wanted")
	add(season.Finding, "mass-gain", "less than half of the off-season's gain is left in the week of {week}: ask how eating, sleep and training go together")
	// Notes of a person.
	add(season.Why, "remark-rule", "note of {whom} of {date}: rather no {kind}{days}; void the note to end it")
	add(season.Question, "remark-unplaced", "the note of {whom} of {date} ({entry}) names neither a kind of session nor a day and changes nothing: is it about some?")
	// What needs somebody.
	add(season.Question, "ask-entries", "open questions about the log, which hold back what rests on it: {entries}")
	add(season.Question, "ask-unlogged", "planned sessions of the last {dates} dates of which nothing is told: {sessions}")
	add(season.Question, "ask-silent", "nothing is told of any session, practice or game since {date}, {days} days ago: what was done?")
	add(season.Finding, "kept-fading", "{quality} was last trained enough {days} days ago, on {date}: it fades between {early} and {late}")
	add(season.Finding, "kept-ahead", "{quality}, last on {last}, reaches the edge of its band on {date} under this plan")
	add(season.Why, "kept-next", "next planned: {of} on {date}")
	add(season.Why, "kept-none", "nothing is planned that trains it")
	add(season.Finding, "lifts-fell", "{lifts} lifts are worth less than {dates} dates ago, by more than their estimates are uncertain")
	add(season.Why, "lift-fell", "{exercise}: {max} now, {before} (at least {low}) {dates} dates ago")
	add(season.Finding, "lifts-missed", "{missed} of {planned} lifts of the last {dates} dates were missed")
	add(season.Finding, "wellness-run", "{mornings} told mornings in a row, {from} to {to}, were clearly worse than this athlete's own {usual} before")
	add(season.Finding, "load-monotony", "the week of {week} was the heaviest of four ({load}) and had little variety (monotony {tenths})")
	// What to do.
	add(season.Why, "todo-answer", "answer them: confirm, replace or void the entries named")
	add(season.Why, "todo-log", "ask once, and log what was done or missed")
	add(season.Why, "todo-train", "keep the next session that trains it; where there is none, plan one. One session with the usual load is enough, nothing is made up")
	add(season.Why, "todo-plan", "plan a session that trains it before that date, or give the planner the aim to keep it")
	add(season.Why, "todo-retest", "repeat the test within a week before anything is changed; then ask about sleep, soreness and what was missed")
	add(season.Why, "todo-ease", "take the loads down as printed, and ask about sleep, soreness and games; a clinician if there is pain")
	add(season.Why, "todo-missed", "ask what stood in the way, and plan around it; nothing is made up")
	add(season.Why, "todo-ask", "ask the athlete alone, before the next hard session; the check-in of the day decides what changes; a clinician if it goes on")
	add(season.Why, "todo-vary", "make the easy dates easier before anything else")
	add(season.Why, "todo-mass", "talk with the athlete alone; set nothing to reach")
}

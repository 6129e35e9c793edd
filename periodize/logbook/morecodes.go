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
}

package calendar

import (
	"slices"
	"strings"
)

// ZoneNames returns the names of the IANA time zone data 2025c, sorted. It is the
// list that suggestions are drawn from; whether LoadZone can load a name is
// decided by the zone data of the program.
func ZoneNames() []string { return strings.Split(ianaNames, "\n") }

// ianaName reports whether the list of names holds the name.
func ianaName(name string) bool { return ianaFold(name) == name && name != "" }

// ianaFold returns the listed name that equals the given one but for case.
func ianaFold(name string) string {
	for rest := ianaNames; rest != ""; {
		var line string
		line, rest, _ = strings.Cut(rest, "\n")
		if len(line) == len(name) && strings.EqualFold(line, name) {
			return line
		}
	}
	return ""
}

// unknownZone is the error of a name that no zone has.
func unknownZone(name string) *ValueError {
	e := &ValueError{What: "zone", Value: name, Reason: "unknown time zone", Remedy: "name the place, such as Europe/Berlin"}
	if near := SuggestZones(name); len(near) > 0 {
		e.Remedy = "did you mean " + strings.Join(near, " or ") + "?"
	}
	return e
}

// SuggestZones returns up to three IANA names close to what was written, nearest
// first: the same name in other case or with spaces, a place without its region,
// or a few letters off. The list is that of the IANA data 2025c.
func SuggestZones(name string) []string {
	if name == "" || len(name) > 64 {
		return nil
	}
	want := foldZone(name)
	type hit struct {
		distance int
		name     string
	}
	var hits []hit
	for rest := ianaNames; rest != ""; {
		var line string
		line, rest, _ = strings.Cut(rest, "\n")
		have := foldZone(line)
		place := have[strings.LastIndexByte(have, '/')+1:]
		wantPlace := want[strings.LastIndexByte(want, '/')+1:]
		d := distance(want, have)
		if place != have || wantPlace != want {
			// A right place under a wrong or missing region is nearer than any typo
			// of more than one letter.
			d = min(d, 1+distance(wantPlace, place))
		}
		if d <= 1+len(want)/6 && refuseZoneShape(line) == "" {
			hits = append(hits, hit{d, line})
		}
	}
	slices.SortFunc(hits, func(a, b hit) int {
		if a.distance != b.distance {
			return a.distance - b.distance
		}
		return strings.Compare(a.name, b.name)
	})
	var out []string
	for _, h := range hits {
		if len(out) == 3 || h.distance > hits[0].distance+1 {
			break
		}
		out = append(out, h.name)
	}
	return out
}

func foldZone(s string) string {
	return strings.ToLower(strings.NewReplacer(" ", "_", "\\", "/").Replace(strings.TrimSpace(s)))
}

// distance counts the letters to insert, delete or replace.
func distance(a, b string) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := 1; i <= len(a); i++ {
		diag := row[0]
		row[0] = i
		for j := 1; j <= len(b); j++ {
			cost := 1
			if a[i-1] == b[j-1] {
				cost = 0
			}
			diag, row[j] = row[j], min(diag+cost, row[j]+1, row[j-1]+1)
		}
	}
	return row[len(b)]
}

// Nearest returns the candidate closest to a mistyped word, without regard to
// case; ok is false if none is close. Of equally close ones it is the first.
func Nearest(word string, among []string) (name string, ok bool) {
	if word == "" || len(word) > 64 {
		return "", false
	}
	word = strings.ToLower(word)
	best := 2 + len(word)/4
	for _, a := range among {
		if len(a) > 128 {
			continue
		}
		if d := distance(word, strings.ToLower(a)); d < best && d < max(len(a), len(word)) {
			best, name, ok = d, a, true
		}
	}
	return name, ok
}

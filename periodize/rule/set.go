package rule

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"sort"
	"strconv"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

// Set is the rule table with a request's overrides: what a plan is made by. It
// is immutable.
type Set struct {
	index   map[string]int
	value   []int
	points  []int
	off     []bool
	version string
	notes   []season.Override
}

// Default returns the table as it stands.
func Default() *Set {
	s, _ := New(nil)
	return s
}

// New applies overrides to the table. It returns every problem there is, and no
// set if one of them is an error: an unknown id, a value out of range, points
// for what is no aim, a fixed row switched off, a safeguard of minors loosened
// without a named adult and a reason, one id twice, or rows that contradict one
// another.
func New(overrides []season.Override) (*Set, []calendar.Problem) {
	s := &Set{index: make(map[string]int, len(table)), version: Version}
	ids := make([]string, 0, len(table))
	for i, r := range table {
		s.index[r.ID] = i
		ids = append(ids, r.ID)
		s.value = append(s.value, r.Default)
		s.points = append(s.points, r.Points)
		s.off = append(s.off, false)
	}
	var problems []calendar.Problem
	bad := func(i int, code, field, value, reason, remedy string) {
		problems = append(problems, calendar.Problem{Code: code, Class: calendar.ClassError,
			Path: "/rules/" + strconv.Itoa(i), Field: field, Value: value, Reason: reason, Remedy: remedy})
	}
	seen := map[string]bool{}
	for i, o := range overrides {
		at, ok := s.index[o.Rule]
		if !ok {
			remedy := "see the rule table for the ids"
			if near, ok := calendar.Nearest(o.Rule, ids); ok {
				remedy = "did you mean " + strconv.Quote(near) + "?"
			}
			bad(i, "rule-unknown", "rule", o.Rule, "there is no such rule", remedy)
			continue
		}
		if seen[o.Rule] {
			bad(i, "rule-twice", "rule", o.Rule, "the rule is changed twice", "keep one of the two")
			continue
		}
		seen[o.Rule] = true
		r := table[at]
		loosened := o.Off
		if o.Value == nil && o.Points == nil && !o.Off {
			bad(i, "rule-nothing", "rule", o.Rule, "nothing is changed", "give a value, points, or off")
		}
		if o.Off && (r.Fixed || r.Kind == Fact) {
			bad(i, "rule-fixed", "off", o.Rule, "this rule cannot be switched off", "change its value instead")
		}
		if o.Value != nil {
			switch {
			case r.Unit == "":
				bad(i, "rule-value", "value", strconv.Itoa(*o.Value), "the rule has no value", "leave value out")
			case *o.Value < r.Min || *o.Value > r.Max:
				bad(i, "rule-range", "value", strconv.Itoa(*o.Value),
					fmt.Sprintf("out of range for %s", r.ID), fmt.Sprintf("give %d to %d %s", r.Min, r.Max, r.Unit))
			default:
				s.value[at] = *o.Value
				if int(r.Loose)*(*o.Value-r.Default) > 0 {
					loosened = true
				}
			}
		}
		if o.Points != nil {
			switch {
			case r.Kind != Aim:
				bad(i, "rule-points", "points", strconv.Itoa(*o.Points), "only aims have points", "leave points out")
			case *o.Points < 0 || *o.Points > HighestPoints:
				bad(i, "rule-points-range", "points", strconv.Itoa(*o.Points), "out of range", fmt.Sprintf("give 0 to %d", HighestPoints))
			default:
				s.points[at] = *o.Points
			}
		}
		if r.Minors && loosened && (o.By == "" || o.Reason == "") {
			bad(i, "rule-safeguard", "by", o.Rule, "a safeguard of minors is loosened without a named adult and a reason",
				"give by and reason, or tighten it instead")
		}
		s.off[at] = o.Off
		s.notes = append(s.notes, o)
	}
	pairs := [][2]string{
		{"primer-latest", "primer-earliest"}, {"recovery-least", "recovery-most"},
		{"lifts-in-7-beginner", "lifts-in-7"}, {"lifts-in-7", "lifts-in-7-break"},
		{"heavy-before-game", "full-before-game"}, {"full-before-game", "eccentric-before-game"},
		{"latest-end-15", "latest-end-minor"}, {"latest-end-minor", "latest-end"},
		{"sessions-a-date", "sessions-a-date-break"}, {"sleep", "sleep-minor"},
		{"break-session", "lifts-in-7-break"}, {"week-load-least", "week-load-most"},
	}
	for _, p := range pairs {
		if lo, hi := s.Value(p[0]), s.Value(p[1]); lo > hi {
			problems = append(problems, calendar.Problem{Code: "rule-contradiction", Class: calendar.ClassError, Path: "/rules",
				Field: p[0], Value: strconv.Itoa(lo), Reason: fmt.Sprintf("contradicts %s, which is %d: at least %d and at most %d", p[1], hi, lo, hi),
				Remedy: "make " + p[0] + " at most " + p[1]})
		}
	}
	if len(problems) > 0 {
		return nil, problems
	}
	if len(s.notes) > 0 {
		sort.Slice(s.notes, func(i, j int) bool { return s.notes[i].Rule < s.notes[j].Rule })
		h := sha256.New()
		for _, o := range s.notes {
			at := s.index[o.Rule]
			fmt.Fprintf(h, "%q %d %d %v\n", o.Rule, s.value[at], s.points[at], s.off[at])
		}
		s.version += "+" + hex.EncodeToString(h.Sum(nil)[:4])
	}
	return s, nil
}

// Version names the table and, after a plus sign, a digest of what was changed.
func (s *Set) Version() string { return s.version }

// Value returns a row's number in its unit; 0 for an unknown id.
func (s *Set) Value(id string) int {
	if i, ok := s.index[id]; ok {
		return s.value[i]
	}
	return 0
}

// Points returns what one miss of an aim costs; 0 if it is off or unknown.
func (s *Set) Points(id string) int64 {
	if i, ok := s.index[id]; ok && !s.off[i] {
		return int64(s.points[i])
	}
	return 0
}

// On reports whether a rule is known and not switched off.
func (s *Set) On(id string) bool {
	i, ok := s.index[id]
	return ok && !s.off[i]
}

// Overrides returns what was changed, sorted by rule.
func (s *Set) Overrides() []season.Override { return append([]season.Override(nil), s.notes...) }

// Without returns a copy in which the rows with these ids are switched off and
// cost nothing: for asking what would be possible without them.
func (s *Set) Without(ids ...string) *Set {
	out := *s
	out.off, out.points = append([]bool(nil), s.off...), append([]int(nil), s.points...)
	for _, id := range ids {
		if i, ok := s.index[id]; ok {
			out.off[i], out.points[i] = true, 0
		}
	}
	return &out
}

// Find returns a row of the table by id.
func Find(id string) (Row, bool) {
	for _, r := range table {
		if r.ID == id {
			return r, true
		}
	}
	return Row{}, false
}

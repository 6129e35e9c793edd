package rule

import (
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

// Session is a session as a rule of your own sees it.
type Session struct {
	Kind       season.Kind
	Start, End time.Time // instants, in the plan's zone
	Date       calendar.Date
	From, To   calendar.Clock // local; To is 24:00 at the latest
	Place      string
	Fixed      bool // past or pinned: what it breaks is reported, not forbidden
}

// Minutes is the length of the session.
func (s Session) Minutes() int { return int(s.End.Sub(s.Start) / time.Minute) }

// Day is a date of the period: its events, and its sessions in order of start.
type Day struct {
	Date     calendar.Date
	Events   []calendar.Placed // that start on the date
	Before   []calendar.Placed // that started on the date before
	Sessions []Session
}

// Verdict is what a rule says: forbidden, or a price in points. The zero value
// says nothing.
type Verdict struct {
	Forbid bool
	Points int // 0 to HighestPoints
}

// Memory is a rule over days, as an automaton: it remembers a number, sees each
// session in order of start, and the end of each date.
//
// It must be a pure function of its arguments and remember little: more than
// MostStates different numbers on one date are refused when a plan is made. It
// may forbid a session, never the end of a date, so that resting is always
// allowed; a price may stand at either.
type Memory interface {
	Init() uint64
	Step(state uint64, d Day, s Session) (uint64, Verdict)
	EndDay(state uint64, d Day) (uint64, Verdict)
}

// MostStates is how many states a Memory may have on one date.
const MostStates = 4096

// Finding is one thing a plain definition finds in a plan.
type Finding struct {
	Date    calendar.Date
	Session int // index into the sessions of that date, -1 for the date itself
	Verdict Verdict
}

// Custom is a rule of your own. It is planned with as exactly as the built-in
// ones, and every plan is judged by it again.
type Custom struct {
	// ID names the rule in costs and missed aims: lower-case words joined by
	// hyphens, and none of the table's.
	ID string
	// Doc says the aim or the limit in words.
	Doc string
	// Single is what one session costs by itself, or whether it is forbidden.
	Single func(Day, Session) Verdict
	// Memory is a rule over days. It needs Plain.
	Memory Memory
	// Plain is the definition that Memory makes fast: it looks at all dates at
	// once. Package ruletest compares the two; every plan does too.
	Plain func([]Day) []Finding

	club bool // came with the request
}

// CheckCustom returns what is wrong with rules of one's own: ids that are
// missing, malformed, taken or twice, rules that say nothing, and a memory
// without its plain definition.
func CheckCustom(rules []Custom) []calendar.Problem {
	var out []calendar.Problem
	bad := func(r Custom, code, reason, remedy string) {
		p := calendar.Problem{Code: code, Class: calendar.ClassError, Path: "/custom", Field: "ID", Value: r.ID, Reason: reason, Remedy: remedy}
		if r.club {
			p.Path, p.Field = "/club", "id"
		}
		out = append(out, p)
	}
	seen := map[string]bool{}
	for _, r := range rules {
		_, taken := Find(r.ID)
		switch {
		case !wellFormed(r.ID):
			bad(r, "custom-id", "not an id", "use lower-case letters, digits and hyphens, at most 64")
		case taken || Family(r.ID) != r.ID || families[r.ID]:
			bad(r, "custom-taken", "a rule of the table has this id", "choose another")
		case seen[r.ID]:
			bad(r, "custom-twice", "two rules have this id", "choose another")
		}
		seen[r.ID] = true
		switch {
		case r.Single == nil && r.Memory == nil:
			bad(r, "custom-empty", "the rule says nothing", "give Single or Memory")
		case r.Memory != nil && r.Plain == nil:
			bad(r, "custom-plain", "a memory without its plain definition", "give Plain")
		case r.Memory == nil && r.Plain != nil:
			bad(r, "custom-memory", "a plain definition without a memory", "give Memory, or leave Plain out")
		}
	}
	return out
}

var families = map[string]bool{"primer-window": true, "after-game": true, "between-games": true, "session-length": true}

func wellFormed(id string) bool {
	if id == "" || len(id) > 64 || id[0] == '-' || id[len(id)-1] == '-' {
		return false
	}
	for _, c := range id {
		if !(c >= 'a' && c <= 'z' || c >= '0' && c <= '9' || c == '-') {
			return false
		}
	}
	return true
}

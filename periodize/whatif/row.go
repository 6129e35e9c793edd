package whatif

import (
	"cmp"
	"slices"
	"strconv"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

// Row is one plan as a row of a table. Weeks are the whole weeks of the period,
// by the request's first day of the week; weekly figures leave out the rest.
type Row struct {
	Index   int            `json:"index"` // 0 is the base
	Name    string         `json:"name"`
	Error   string         `json:"error,omitempty"` // why there is no plan; then all else is zero
	Outcome season.Outcome `json:"outcome,omitempty"`
	Proof   season.Proof   `json:"proof,omitempty"`
	Points  int64          `json:"points"`
	Bound   int64          `json:"bound"`  // no plan has fewer points
	Broken  int64          `json:"broken"` // limits broken by pins or the past

	Weeks         int         `json:"weeks"`
	Lifts         int         `json:"lifts"`         // in the weeks
	FullBody      int         `json:"fullBody"`      // in the weeks: full-body, trimmed, post-game, eccentric
	WeeksUnderTwo int         `json:"weeksUnderTwo"` // with fewer than two lifts
	WeeksWithout  int         `json:"weeksWithout"`  // without a full-body session
	WeeksBelow    int         `json:"weeksBelow"`    // one of the two: below the weekly minimum
	Sessions      int         `json:"sessions"`      // in the period
	Minutes       int         `json:"minutes"`       // of these, door to door
	LongestEmpty  int         `json:"longestEmpty"`  // dates in a row without a session, in the period
	LongestNoLift int         `json:"longestNoLift"` // dates in a row without a lift, in the period
	Missed        []AimMissed `json:"missed"`        // sorted by aim
	Changes       int         `json:"changes"`       // sessions that stand otherwise than in the base plan
	// Edges are those of [EdgesOf], where a sweep was told what was done.
	Edges []Edge `json:"edges,omitempty"`
}

// AimMissed counts the misses of one aim.
type AimMissed struct {
	Aim    string `json:"aim"`
	Count  int    `json:"count"`
	Points int64  `json:"points"`
	// Causes say how many of the misses each rule stood in the way of, the most
	// frequent first: several can stand in the way of one. A brief planner, the
	// default of a sweep, does not look for them.
	Causes []Cause `json:"causes,omitempty"`
}

// Cause is a rule that stood in the way of some misses of an aim.
type Cause struct {
	Rule  string `json:"rule"`
	Count int    `json:"count"`
}

// LiftsAWeek is the mean, in hundredths, rounded half up. Without a whole week ok
// is false.
func (r Row) LiftsAWeek() (hundredths int, ok bool) { return mean(r.Lifts, r.Weeks) }

// FullBodyAWeek is the mean, in hundredths, rounded half up. Without a whole week
// ok is false.
func (r Row) FullBodyAWeek() (hundredths int, ok bool) { return mean(r.FullBody, r.Weeks) }

func mean(n, of int) (hundredths int, ok bool) {
	if of <= 0 {
		return 0, false
	}
	return (2*100*n + of) / (2 * of), true
}

// MissedCount returns how often an aim was missed, and the points of it.
func (r Row) MissedCount(aim string) (count int, points int64) {
	for _, m := range r.Missed {
		if m.Aim == aim {
			return m.Count, m.Points
		}
	}
	return 0, 0
}

// RowOf measures a plan. Rules are the request's; base is the plan that changes
// are counted against, nil for none.
func RowOf(plan *season.Plan, rules []season.Override, base *season.Plan) Row {
	r := Row{Missed: []AimMissed{}}
	if plan == nil {
		return r
	}
	first := weekStart(rules)
	r.Outcome, r.Proof = plan.Outcome, plan.Proof
	r.Points, r.Bound, r.Broken = plan.Cost.Points, plan.Cost.Bound, plan.Cost.Broken
	r.Missed = missedAims(plan)
	if base != nil {
		r.Changes = changed(base, plan)
	}
	r.Sessions = len(plan.Sessions)
	sessions, lifts := map[calendar.Date]bool{}, map[calendar.Date]bool{}
	inWeek, heavyInWeek := map[calendar.Date]int{}, map[calendar.Date]int{}
	for i := range plan.Sessions {
		s := &plan.Sessions[i]
		r.Minutes += s.Minutes
		sessions[s.Date] = true
		week := calendar.WeekStart(s.Date, first)
		if s.Kind.Lift() {
			lifts[s.Date] = true
			inWeek[week]++
		}
		if s.Kind.HeavyLowerBody() {
			heavyInWeek[week]++
		}
	}
	r.LongestEmpty, r.LongestNoLift = longestWithout(plan.Period, sessions), longestWithout(plan.Period, lifts)
	week := calendar.WeekStart(plan.Period.From, first)
	if week.Before(plan.Period.From) {
		week = week.AddDays(7)
	}
	for ; plan.Period.Days() > 0 && !week.AddDays(6).After(plan.Period.To); week = week.AddDays(7) {
		r.Weeks++
		r.Lifts += inWeek[week]
		r.FullBody += heavyInWeek[week]
		if inWeek[week] < 2 {
			r.WeeksUnderTwo++
		}
		if heavyInWeek[week] == 0 {
			r.WeeksWithout++
		}
		if inWeek[week] < 2 || heavyInWeek[week] == 0 {
			r.WeeksBelow++
		}
	}
	return r
}

func longestWithout(p season.Period, on map[calendar.Date]bool) int {
	longest, run := 0, 0
	for i := range p.Days() {
		if run++; on[p.From.AddDays(i)] {
			run = 0
		}
		longest = max(longest, run)
	}
	return longest
}

func missedAims(plan *season.Plan) []AimMissed {
	out := []AimMissed{}
	for i := range plan.Missed {
		m := &plan.Missed[i]
		at, ok := slices.BinarySearchFunc(out, m.Aim, func(a AimMissed, aim string) int { return cmp.Compare(a.Aim, aim) })
		if !ok {
			out = slices.Insert(out, at, AimMissed{Aim: m.Aim})
		}
		out[at].Count++
		out[at].Points += m.Points
		out[at].Causes = withCauses(out[at].Causes, m.InTheWay)
	}
	for i := range out {
		slices.SortFunc(out[i].Causes, func(a, b Cause) int { return cmp.Or(cmp.Compare(b.Count, a.Count), cmp.Compare(a.Rule, b.Rule)) })
	}
	return out
}

// withCauses counts the rules that stood in the way of one miss, each once.
func withCauses(list []Cause, way []season.InTheWay) []Cause {
	for i, w := range way {
		if slices.ContainsFunc(way[:i], func(x season.InTheWay) bool { return x.Rule == w.Rule }) {
			continue
		}
		at := slices.IndexFunc(list, func(c Cause) bool { return c.Rule == w.Rule })
		if at < 0 {
			at = len(list)
			list = append(list, Cause{Rule: w.Rule})
		}
		list[at].Count++
	}
	return list
}

// changed counts the sessions that stand otherwise, as the planner counts
// changes: one for each start at which the kinds differ.
func changed(a, b *season.Plan) int {
	n := 0
	for _, d := range Diff(a, b) {
		if d.Changed {
			n++
		}
	}
	return n
}

// Difference is a start at which one of two plans, or both, have a session.
type Difference struct {
	Date    calendar.Date `json:"date"`
	Start   time.Time     `json:"start"`
	A       season.Kind   `json:"a,omitempty"` // "" is no session
	B       season.Kind   `json:"b,omitempty"`
	Changed bool          `json:"changed"`
}

// Diff lists the sessions of two plans side by side, in order of start. Only
// start and kind are compared.
func Diff(a, b *season.Plan) []Difference {
	type cell struct {
		start, other int // indices, -1 for none
	}
	at := map[int64][]cell{}
	var starts []int64
	put := func(p *season.Plan, second bool) {
		if p == nil {
			return
		}
		used := map[int64]int{}
		for i := range p.Sessions {
			t := p.Sessions[i].Start.Unix()
			list := at[t]
			if len(list) == 0 {
				starts = append(starts, t)
			}
			switch n := used[t]; {
			case !second:
				list = append(list, cell{i, -1})
			case n < len(list):
				list[n].other = i
			default:
				list = append(list, cell{-1, i})
			}
			used[t]++
			at[t] = list
		}
	}
	put(a, false)
	put(b, true)
	slices.Sort(starts)
	out := []Difference{}
	for _, t := range starts {
		for _, c := range at[t] {
			d := Difference{}
			if c.start >= 0 {
				s := &a.Sessions[c.start]
				d.Date, d.Start, d.A = s.Date, s.Start, s.Kind
			}
			if c.other >= 0 {
				s := &b.Sessions[c.other]
				d.Date, d.Start, d.B = s.Date, s.Start, s.Kind
			}
			d.Changed = d.A != d.B
			out = append(out, d)
		}
	}
	return out
}

// decimal writes hundredths.
func decimal(hundredths int, ok bool) string {
	if !ok {
		return ""
	}
	s := strconv.Itoa(hundredths % 100)
	if len(s) < 2 {
		s = "0" + s
	}
	return strconv.Itoa(hundredths/100) + "." + s
}

package periodize

import (
	"context"
	"fmt"
	"sort"
	"strings"

	"example.org/weft/calendar"
	"example.org/weft/internal/judge"
	"example.org/weft/internal/layered"
	"example.org/weft/internal/starts"
	"example.org/weft/periodize/rule"
	"example.org/weft/periodize/season"
)

// missed lists the aims the judge found missed, each with what stood in its way.
func (w *work) missed(ctx context.Context, v judge.Verdict) ([]season.Missed, error) {
	out := []season.Missed{}
	offset := len(w.model.History)
	misses := joinRuns(v.Misses)
	w.points = map[string]int64{}
	for _, r := range v.ByRule {
		w.points[r.Rule] = r.Points
	}
	for i, x := range misses {
		if w.planner.Progress != nil && !w.planner.Brief {
			w.planner.Progress(i, len(misses))
		}
		if x.Aim == "change" {
			continue // listed as changes
		}
		m := season.Missed{Aim: x.Aim, From: calendar.DateFromDayNumber(x.From), To: calendar.DateFromDayNumber(x.To),
			Wanted: x.Wanted, Got: x.Got, Points: x.Points, InTheWay: []season.InTheWay{}}
		if x.Event >= 0 {
			m.Event = w.model.Events[x.Event].ID
		}
		if x.Session >= offset {
			m.Session = w.slots[x.Session-offset].ID
		}
		_, known := rule.Find(x.Aim)
		switch {
		case w.planner.Brief:
		case !known:
			m.InTheWay = []season.InTheWay{{Rule: x.Aim}}
		case m.Session != "":
			m.InTheWay = w.forSession(x.Aim, &w.slots[x.Session-offset], x.Event)
		default:
			ways, err := w.forDates(ctx, x)
			if err != nil {
				return nil, err
			}
			m.InTheWay = ways
		}
		m.Text = w.missedText(&m)
		out = append(out, m)
	}
	if w.planner.Progress != nil && !w.planner.Brief {
		w.planner.Progress(len(misses), len(misses))
	}
	return out, nil
}

// joinRuns makes one miss of the dates of one long run.
func joinRuns(in []judge.Miss) []judge.Miss {
	var out []judge.Miss
	for _, x := range in {
		if n := len(out); n > 0 && (x.Aim == "empty-run" || x.Aim == "lift-run") && out[n-1].Aim == x.Aim && out[n-1].From == x.From {
			x.Points += out[n-1].Points
			out[n-1] = x
			continue
		}
		out = append(out, x)
	}
	return out
}

// forSession: what made a session less convenient than it could be. That is the
// event the charge names; for a size, what forbids the larger session.
func (w *work) forSession(aim string, s *starts.Slot, event int) []season.InTheWay {
	var out []season.InTheWay
	if aim == "size" {
		larger := season.FullBody
		if s.Kind == season.FullBody {
			larger = season.Eccentric
		}
		at, ok := w.model.Index(s.Day)
		if ok && at >= w.model.From && at < w.model.To {
			for _, b := range w.model.Choices[at-w.model.From].Blocked[larger] {
				out = append(out, w.way(b.Rule, b.Event))
			}
		}
		sortInWay(out)
	}
	if aim == "start-time" {
		at, ok := w.model.Index(s.Day)
		if ok {
			other := *s
			d := &w.model.Days[at]
			shift := int64(d.Prefer - s.StartClock)
			other.From, other.To, other.Forced = s.From+shift, s.To+shift, false
			other.StartClock, other.EndClock = s.StartClock+int(shift), s.EndClock+int(shift)
			for _, b := range w.model.BreachesAt(&other) {
				out = append(out, w.way(b.Rule, b.Event))
			}
		}
	}
	if len(out) == 0 {
		out = append(out, w.way(aim, event))
	}
	return out
}

// forDates: what stood in the way of an aim over dates: what an exact second
// look at the dates around it names, then the limits that forbid every start of
// the wanted kinds on some of its dates. Explore can ask for a smallest set.
func (w *work) forDates(ctx context.Context, x judge.Miss) ([]season.InTheWay, error) {
	switch x.Aim {
	case judge.WeekLoad, judge.LoadRamp, judge.RollingLoad, judge.RollingCount:
		// Sums and windows: what they are made of stands in the plan itself.
		return []season.InTheWay{{Rule: x.Aim}}, nil
	}
	from, to := x.From-w.model.Days[w.model.From].N, x.To-w.model.Days[w.model.From].N
	which, kinds := wantedKinds(x.Aim)
	var out []season.InTheWay
	seen := map[season.InTheWay]bool{}
	add := func(y season.InTheWay) {
		if !seen[y] {
			seen[y] = true
			out = append(out, y)
		}
	}
	var static []season.InTheWay
	possible := false
	for l := from; l <= to; l++ {
		c := &w.model.Choices[l]
		here := false
		for s := range c.Slots {
			here = here || which(c.Slots[s].Kind)
		}
		possible = possible || here
		if here {
			continue
		}
		for _, k := range kinds {
			for _, b := range c.Blocked[k] {
				static = append(static, w.way(b.Rule, b.Event))
			}
		}
	}
	if possible {
		s, err := w.stretch(from, to)
		if err != nil {
			return nil, err
		}
		ways, err := s.inWay(ctx, w.need(x, s, which))
		if err != nil {
			return nil, err
		}
		for _, y := range ways {
			add(y)
		}
	}
	// What decided comes first, then what left so little room.
	sortInWay(static)
	for _, y := range static {
		add(y)
	}
	if len(out) == 0 {
		out = append(out, season.InTheWay{Rule: x.Aim}) // nothing but its own price
	}
	return out, nil
}

// wantedKinds: which kinds satisfy an aim, and those whose limits explain best.
func wantedKinds(aim string) (func(season.Kind) bool, []season.Kind) {
	switch aim {
	case "primer", "primer-important":
		return func(k season.Kind) bool { return k == season.Primer }, []season.Kind{season.Primer}
	case "recovery-after", "recovery-count":
		return func(k season.Kind) bool { return k == season.Recovery }, []season.Kind{season.Recovery}
	case "week-full-body", "second-full-body", "break-session":
		return season.Kind.HeavyLowerBody, []season.Kind{season.Trimmed}
	case "second-lift", "lift-run":
		return season.Kind.Lift, []season.Kind{season.Trimmed, season.Primer}
	}
	return func(season.Kind) bool { return true }, []season.Kind{season.Recovery, season.Trimmed}
}

// need is the rule that forbids missing the aim.
func (w *work) need(x judge.Miss, s *stretch, which func(season.Kind) bool) layered.Rule {
	from, to := x.From-w.model.Days[w.model.From].N-s.from, x.To-w.model.Days[w.model.From].N-s.from
	n := &need{s: s, which: which, from: from, to: to}
	switch {
	case x.Aim == "empty-run" || x.Aim == "lift-run":
		n.longest = x.Wanted
	case x.Got > x.Wanted:
		n.least, n.most = 0, x.Wanted
	default:
		n.least, n.most = x.Wanted, -1
	}
	return n
}

// need counts the sessions of a sort between two layers, or the dates without
// one, and forbids what would miss an aim.
type need struct {
	s           *stretch
	which       func(season.Kind) bool
	from, to    int
	least, most int
	longest     int // of a run; 0 if sessions are counted
}

func (n *need) Init() uint64 { return 0 }

func (n *need) count(l, o int) int {
	c := &n.s.model.Choices[n.s.from+l]
	k := 0
	for _, x := range c.Options[o] {
		if n.which(c.Slots[x].Kind) {
			k++
		}
	}
	return k
}

func (n *need) Group(l, o int) uint64 { return uint64(n.count(l, o)) }

func (n *need) Step(l, o int, state uint64) (uint64, int64) {
	if l < n.from || l > n.to {
		return 0, 0
	}
	k := n.count(l, o)
	if n.longest > 0 {
		if k > 0 {
			return 0, 0
		}
		if int(state) >= n.longest {
			return 0, layered.Inf
		}
		return state + 1, 0
	}
	got := int(state) + k
	if n.most >= 0 && got > n.most {
		return 0, layered.Inf
	}
	if l == n.to {
		if got < n.least {
			return 0, layered.Inf
		}
		return 0, 0
	}
	if n.most < 0 {
		got = min(got, n.least)
	}
	return uint64(got), 0
}

func sortInWay(x []season.InTheWay) {
	sort.SliceStable(x, func(i, j int) bool {
		if x[i].Rule != x[j].Rule {
			return x[i].Rule < x[j].Rule
		}
		return x[i].Event < x[j].Event
	})
}

// missedText says a miss in a sentence.
func (w *work) missedText(m *season.Missed) string {
	r, ok := rule.Find(m.Aim)
	if !ok {
		r.Doc = w.model.CustomDoc(m.Aim)
	}
	var b strings.Builder
	if m.From == m.To {
		fmt.Fprintf(&b, "%s: %s", m.From, r.Doc)
	} else {
		fmt.Fprintf(&b, "%s to %s: %s", m.From, m.To, r.Doc)
	}
	if m.Session == "" {
		fmt.Fprintf(&b, ": wanted %d, got %d", m.Wanted, m.Got)
	}
	if len(m.InTheWay) > 0 {
		b.WriteString("; in the way: ")
	}
	for i, y := range m.InTheWay {
		if i > 0 {
			b.WriteString(", ")
		}
		b.WriteString(y.Rule)
		if y.Event != "" {
			b.WriteString(" (" + calendar.Inert(y.Event) + ")")
		}
	}
	return b.String()
}

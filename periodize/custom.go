package periodize

import (
	"slices"
	"sort"
	"strconv"
	"strings"

	"example.org/weft/calendar"
	"example.org/weft/internal/history"
	"example.org/weft/internal/judge"
	"example.org/weft/internal/layered"
	"example.org/weft/internal/starts"
	"example.org/weft/periodize/rule"
	"example.org/weft/periodize/season"
)

// memory is a rule over days of one's own, as the engine reads it.
type memory struct {
	m    *starts.Model
	rule rule.Memory
	days []rule.Day         // of each layer
	opts [][][]rule.Session // of each layer and option
}

// memories makes engine rules of the memories among the model's own rules.
func memories(m *starts.Model) []history.Named {
	var out []history.Named
	for _, c := range m.Custom() {
		if c.Memory == nil {
			continue
		}
		r := &memory{m: m, rule: c.Memory}
		for i := range m.Choices {
			ch := &m.Choices[i]
			r.days = append(r.days, m.RuleDay(m.From+i))
			row := make([][]rule.Session, len(ch.Options))
			for o, opt := range ch.Options {
				for _, s := range opt {
					row[o] = append(row[o], m.RuleSession(&ch.Slots[s]))
				}
			}
			r.opts = append(r.opts, row)
		}
		out = append(out, history.Named{IDs: []string{c.ID}, Rule: r})
	}
	return out
}

func (r *memory) Init() uint64 { return r.rule.Init() }

func (r *memory) Step(l, o int, state uint64) (uint64, int64) {
	var cost int64
	say := func(v rule.Verdict, fixed bool) {
		switch {
		case cost >= layered.Inf:
		case v.Forbid && !fixed:
			cost = layered.Inf
		case v.Forbid:
			cost += starts.Broken
		default:
			cost += int64(clampPoints(v.Points)) * starts.Point
		}
	}
	d := r.days[l]
	for _, s := range r.opts[l][o] {
		next, v := r.rule.Step(state, d, s)
		state = next
		say(v, s.Fixed)
	}
	next, v := r.rule.EndDay(state, d)
	v.Forbid = false
	say(v, true)
	return next, cost
}

func clampPoints(n int) int { return max(0, min(n, rule.HighestPoints)) }

// tooManyStates is the problem of a memory without bounds.
func tooManyStates(err error) error {
	return &season.InputError{Problems: []calendar.Problem{{Code: "custom-states", Class: calendar.ClassError, Path: "/custom",
		Reason: "a rule remembers too much: " + err.Error(), Remedy: "remember less: at most " + strconv.Itoa(rule.MostStates) + " states on a date"}}}
}

// judgeCustom adds to a verdict what the rules of one's own find, by their plain
// definitions.
func judgeCustom(m *starts.Model, slots []starts.Slot, v *judge.Verdict) {
	if len(m.Custom()) == 0 {
		return
	}
	offset := len(m.History)
	days := make([]rule.Day, m.To-m.From)
	index := make([][]int, len(days)) // of the sessions of each date
	for i := range days {
		days[i] = m.RuleDay(m.From + i)
	}
	first := m.Days[m.From].N
	for i := range slots {
		if l := slots[i].Day - first; l >= 0 && l < len(days) {
			days[l].Sessions = append(days[l].Sessions, m.RuleSession(&slots[i]))
			index[l] = append(index[l], i)
		}
	}
	for _, c := range m.Custom() {
		cost := judge.RuleCost{Rule: c.ID}
		enter := func(l, session int, x rule.Verdict) {
			date := first + l
			at := -1
			if session >= 0 && session < len(index[l]) {
				at = index[l][session]
			}
			switch {
			case x.Forbid && at >= 0:
				b := judge.Breach{Rule: c.ID, Session: at + offset, Event: -1, From: date, To: date}
				if slots[at].Forced {
					v.Breaches = append(v.Breaches, b)
					cost.Broken++
				} else {
					v.Illegal = append(v.Illegal, b)
					cost.Illegal++
				}
			case !x.Forbid && x.Points > 0:
				p := int64(clampPoints(x.Points))
				miss := judge.Miss{Aim: c.ID, From: date, To: date, Session: -1, Event: -1, Issued: -1, Got: 1, Points: p}
				if at >= 0 {
					miss.Session = at + offset
				}
				v.Misses = append(v.Misses, miss)
				cost.Points += p
			}
		}
		if c.Single != nil {
			for l := range days {
				d := days[l]
				d.Sessions = nil // as when the choice was made
				for s := range days[l].Sessions {
					enter(l, s, c.Single(d, days[l].Sessions[s]))
				}
			}
		}
		if c.Memory != nil {
			for _, f := range c.Plain(days) {
				if l := f.Date.DayNumber() - first; l >= 0 && l < len(days) {
					enter(l, f.Session, f.Verdict)
				}
			}
		}
		if cost.Broken+cost.Illegal+cost.Points > 0 {
			v.ByRule = append(v.ByRule, cost)
			v.Broken += cost.Broken
			v.Points += cost.Points
		}
	}
	sort.SliceStable(v.ByRule, func(i, j int) bool { return v.ByRule[i].Rule < v.ByRule[j].Rule })
	sort.SliceStable(v.Breaches, func(i, j int) bool { return v.Breaches[i].Session < v.Breaches[j].Session })
}

// rulesVersion names the table, its overrides, and rules of one's own by id.
func (w *work) rulesVersion() string {
	v := w.set.Version()
	var ids []string
	for _, c := range w.model.Custom() {
		ids = append(ids, c.ID)
	}
	slices.Sort(ids)
	if len(ids) > 0 {
		v += "+" + strings.Join(ids, "+")
	}
	return v
}

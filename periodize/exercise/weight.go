package exercise

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"

	"example.org/weft/calendar"
	"example.org/weft/load"
	"example.org/weft/periodize/season"
)

// Trust in what was lifted.
const (
	staleAfter = 84 // dates
	jumpDates  = 28
	jumpMost   = 115 // percent of the value before, within jumpDates
	poundsFold = 220 // percent of the value before: pounds taken for kilograms
	youthMost  = 80  // percent of the maximum for minors: Lloyd et al. 2014, from memory
)

// record is one value of the maximum of an exercise.
type record struct {
	max       load.Mass
	low, high load.Mass
	kind      string // "tested", "estimated", "set"
	set       DoneSet
	date      calendar.Date
	confirmed bool
}

// recordsOf gathers what is known of each exercise, oldest first, implausible
// values left out with a question. last is the last set of each.
func recordsOf(in *Input, c *compiled, curve load.Curve) (records map[int][]record, last map[int]DoneSet, questions []season.Note) {
	records, last = map[int][]record{}, map[int]DoneSet{}
	for _, m := range in.Athlete.Maxima {
		if e := c.find(m.Exercise); e != nil {
			kind := "estimated"
			if m.Kind == "tested" {
				kind = "tested"
			}
			records[e.at] = append(records[e.at], record{max: load.Mass(m.Grams), kind: kind, date: m.Date})
		}
	}
	novice := in.Athlete.TrainingAgeMonths < 12
	for _, d := range in.History.Sets {
		e := c.find(d.Exercise)
		if e == nil || d.Load == 0 {
			continue
		}
		if x, ok := last[e.at]; !ok || d.Date.After(x.Date) || d.Date.Equal(x.Date) && d.Load > x.Load {
			last[e.at] = d
		}
		r := record{kind: "set", set: d, date: d.Date, confirmed: d.Confirmed}
		left := load.Reps(max(d.Left, 0))
		est, ok := curve.OneRepMax(d.Load, load.Reps(d.Reps)+left)
		if ok {
			r.max, r.low, r.high = est.Load, est.Load, est.Load
			off, known := load.RaterError(left, novice)
			if !known {
				off = 2
			}
			if x, ok := curve.OneRepMax(d.Load, max(load.Reps(d.Reps)+left-off, 1)); ok {
				r.low = x.Load
			}
			if x, ok := curve.OneRepMax(d.Load, min(load.Reps(d.Reps)+left+off, 12)); ok {
				r.high = x.Load
			}
		}
		records[e.at] = append(records[e.at], r)
	}
	at := make([]int, 0, len(records))
	for i := range records {
		at = append(at, i)
	}
	slices.Sort(at)
	for _, i := range at {
		list := records[i]
		slices.SortStableFunc(list, func(x, y record) int {
			return cmp.Or(x.date.Compare(y.date), cmp.Compare(x.max, y.max))
		})
		kept := list[:0]
		for _, r := range list {
			if n := len(kept); n > 0 && !r.confirmed && r.max > 0 {
				p := kept[n-1]
				near := r.date.DaysSince(p.date) <= jumpDates
				if p.max > 0 && (near && int64(r.max)*100 > int64(p.max)*jumpMost || int64(r.max)*100 >= int64(p.max)*poundsFold) {
					questions = append(questions, note("question-jump", "exercise", c.list[i].Name, "load", shown(r), "date", r.date, "last", shown(p)))
					if x, ok := last[i]; ok && x == r.set {
						delete(last, i)
					}
					continue
				}
			}
			kept = append(kept, r)
		}
		records[i] = kept
	}
	return records, last, questions
}

func shown(r record) string {
	if r.kind == "set" {
		return setText(r.set)
	}
	return r.max.String()
}

func setText(d DoneSet) string {
	s := fmt.Sprintf("%s x %d", d.Load, d.Reps)
	if d.Left >= 0 {
		s += fmt.Sprintf(", %d left", d.Left)
	}
	return s
}

// weight is what a card says about the load of one exercise.
type weight struct {
	grams  *season.Grams
	effort string
	why    season.Note
	mass   load.Mass
}

func effortOf(left int) string {
	switch left {
	case 2:
		return "a weight you could lift 2 more times"
	case 3:
		return "a weight you could lift 3 more times"
	case 4:
		return "a weight you could lift 4 more times"
	}
	return "a weight you could lift " + strconv.Itoa(left) + " more times"
}

func leave(left int) string {
	switch left {
	case 2:
		return "leave 2 repetitions"
	case 3:
		return "leave 3 repetitions"
	case 4:
		return "leave 4 repetitions"
	}
	return "leave " + strconv.Itoa(left) + " repetitions"
}

// slowCut is how many percent a lift that is lowered for four seconds weighs less.
// Common practice, no source.
const slowCut = 10

// weigh finds the kilograms of an exercise, or the effort that stands for them.
func (a *asked) weigh(e *entry, d dose, slow bool) weight {
	cut := a.cut
	if slow {
		cut = max(cut, slowCut)
	}
	byEffort := func(code string, kv ...any) weight {
		if e.Load == Band {
			return weight{effort: "a band that leaves " + strconv.Itoa(d.left) + " repetitions", why: note(code, kv...)}
		}
		return weight{effort: effortOf(d.left), why: note(code, kv...)}
	}
	switch {
	case e.Load == Body && e.Role == Powerful && e.Impact > 0:
		return weight{effort: "full effort, soft landing"}
	case e.Load == Body && e.Role == Powerful:
		return weight{effort: "fast"}
	case e.Load == Body:
		if e.Hold || d.left < 0 {
			return weight{}
		}
		return weight{effort: "at least " + strconv.Itoa(d.left) + " left", why: note("load-body", "left", d.left)}
	case e.Role == Powerful:
		return weight{effort: "light and fast"}
	case e.quick():
		return weight{effort: "fast, stop before it slows"}
	case e.Hold:
		return weight{effort: "a weight you could hold twice as long"}
	case d.left < 0:
		return weight{effort: "light and smooth"}
	case e.Load == Untracked || len(a.kit.fixed(e)) == 0 && e.Load != Bar && e.Load != TrapBar:
		return byEffort("load-unlisted", "left", d.left)
	case a.firstSet:
		return byEffort("load-restart", "left", d.left)
	}
	if w, ok := a.logged(e, d, cut); ok {
		return w
	}
	if a.beginner {
		return a.learner(e, d)
	}
	today := a.in.Session.Date
	list := a.records[e.at]
	for i := len(list) - 1; i >= 0; i-- {
		r := list[i]
		if r.date.After(today) {
			continue
		}
		age := today.DaysSince(r.date)
		if age > staleAfter {
			return byEffort("load-stale", "age", age)
		}
		if r.max == 0 {
			return byEffort("load-too-many")
		}
		rating, ok := load.EffortLeaving(load.Reps(d.left))
		if !ok {
			return byEffort("load-none", "left", d.left)
		}
		raw, ok := a.curve.LoadAt(r.max, load.Reps(d.reps), rating)
		if !ok {
			return byEffort("load-none", "left", d.left)
		}
		off := ""
		if most, _ := load.Percent(youthMost).Of(r.max); a.minor && raw > most {
			raw, off = most, ", not over 80 % under 18"
		}
		percent := strconv.FormatFloat(float64(raw)*100/float64(r.max), 'f', 0, 64)
		if cut > 0 {
			off += lessText(cut)
		}
		raw = a.underWritten(e, raw*load.Mass(100-cut)/100)
		got, ok := a.kit.atMost(e, raw)
		if !ok {
			return byEffort("load-light", "raw", raw)
		}
		w := weight{grams: &season.Grams{Grams: int64(got)}, mass: got, effort: leave(d.left)}
		switch r.kind {
		case "tested":
			w.why = note("load-tested", "max", r.max, "date", r.date, "age", age, "reps", d.reps, "left", d.left,
				"percent", percent, "off", off, "curve", a.curve.String(), "raw", raw)
		case "set":
			w.why = note("load-set", "max", r.max, "low", r.low, "high", r.high, "curve", a.curve.String(), "set", setText(r.set),
				"date", r.date, "age", age, "reps", d.reps, "left", d.left, "off", off, "raw", raw)
		default:
			w.why = note("load-estimated", "max", r.max, "date", r.date, "age", age, "reps", d.reps, "left", d.left, "off", off, "curve", a.curve.String(), "raw", raw)
		}
		return w
	}
	if most, one := a.kit.heaviest(e); one || most > 0 && most <= lightMost(e) {
		return weight{effort: "the " + most.String() + " there is: stop with " + strconv.Itoa(d.left) + " left", why: note("load-heaviest", "load", most, "left", d.left)}
	}
	return byEffort("load-none", "left", d.left)
}

func lessText(percent int) string { return ", less " + strconv.Itoa(percent) + " %" }

// lightMost is the heaviest load that is light for an athlete with a year of
// training: there repetitions rise, not the load. Common practice, no source.
func lightMost(e *entry) load.Mass {
	if e.region == Lower {
		return 24 * kg
	}
	return 12 * kg
}

// light reports whether the kit has nothing heavy enough for the usual
// repetitions of an exercise.
func (a *asked) light(e *entry) bool {
	if a.beginner || a.hasRecord(e) || e.Hold || e.quick() || e.Load != Single && e.Load != Pair {
		return false
	}
	most, _ := a.kit.heaviest(e)
	return most > 0 && most <= lightMost(e)
}

// underWritten keeps an eased load at least as far under the written one as the
// day asks, whatever rounding did to that.
func (a *asked) underWritten(e *entry, m load.Mass) load.Mass {
	if a.keep == nil || a.eased == 0 {
		return m
	}
	for _, b := range a.keep.Blocks {
		for _, it := range b.Items {
			if it.ID == e.ID && it.Slot != slotRamp && it.Exercise.Load != nil {
				m = min(m, load.Mass(it.Exercise.Load.Grams)*load.Mass(100-a.eased)/100)
			}
		}
	}
	return m
}

// learner gives a beginner the load last lifted, or the smallest step more if
// all repetitions of the band were done with enough left; never from a maximum.
// A step of more than 10 % is not taken (ACSM position stand 2009, MSSE
// 41:687-708: 2 to 10 %): repetitions rise first.
func (a *asked) learner(e *entry, d dose) weight {
	x, ok := a.last[e.at]
	age := 0
	if ok {
		age = a.in.Session.Date.DaysSince(x.Date)
	}
	if !ok || age < 0 || age > staleAfter {
		return weight{effort: effortOf(d.left), why: note("load-learning", "left", d.left)}
	}
	target := x.Load * load.Mass(100-a.cut) / 100
	code := "load-last"
	if a.cut == 0 && a.less == 0 && a.gap < gapSetLess && x.Reps >= d.high && x.Left >= d.left {
		if up, ok := a.kit.above(e, x.Load); ok && up*100 <= x.Load*110 {
			target, code = up, "load-step"
		}
	}
	target = a.underWritten(e, target)
	got, ok := a.kit.atMost(e, target)
	if !ok {
		return weight{effort: effortOf(d.left), why: note("load-light", "raw", target)}
	}
	return weight{grams: &season.Grams{Grams: int64(got)}, mass: got, effort: leave(d.left),
		why: note(code, "set", setText(x), "date", x.Date, "age", age, "reps", d.reps)}
}

package logbook

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"

	"example.org/weft/calendar"
	"example.org/weft/load"
	"example.org/weft/periodize/season"
)

const (
	// RepeatWithin is how many dates two results may be apart to be taken as one
	// test repeated, with no change between them: common practice, no source.
	RepeatWithin = 7
	// LeastRepeats is how many pairs of such results an athlete's own typical error
	// needs. Fewer say too little: common practice, no source.
	LeastRepeats = 6
)

// Verdict says whether a test has changed by more than its noise.
type Verdict string

// The verdicts. Of unchanged athletes about 5 in 100 get yes, 68 no, and the rest
// unclear, if the typical error is right.
const (
	Yes     Verdict = "yes"     // by more than the minimal detectable change of 95 %
	No      Verdict = "no"      // by no more than two tests of one athlete mostly differ
	Unclear Verdict = "unclear" // in between, or no typical error is known
)

// Noise is the typical error of a test as a club knows it.
type Noise struct {
	Name, Protocol string
	Unit           Unit
	Error          Milli
	Source         string // printed with the verdict
}

// TestOptions say how results are compared. The zero value is ready.
type TestOptions struct {
	// Since picks the result to compare with: the first from this date on. Unset:
	// the one before the newest.
	Since calendar.Date
	// Noise is used where the athlete has too few repeats of their own, before that
	// of the literature.
	Noise []Noise
}

// Result is one result of a test.
type Result struct {
	Entry string // id
	Date  calendar.Date
	Value Milli
}

// Change is the newest result of a test beside an earlier one.
type Change struct {
	Name, Protocol string
	Unit           Unit
	Before, After  Result
	Difference     Milli // After less Before
	Verdict        Verdict
	// Error is the typical error and Detectable the change that 95 % of unchanged
	// athletes stay within; both 0 if no error is known.
	Error, Detectable Milli
	Pairs             int         // of own repeats behind Error; 0: it is of another source
	Why               season.Note // with the source of the error
}

// Changes compares the newest result of each test, a name with its protocol and
// unit, with an earlier one that is no repeat of it, sorted by name. Tests with
// one result are left out.
//
// The typical error is that of the athlete's own repeats, where there are
// [LeastRepeats] pairs: then the quantile of Student's t for their number stands
// for 1.96. Else it is the club's, else that of the literature, of adults and by
// name: for a lifted maximum 4.2 % (Grgic et al. 2020, seen); for a "countermovement
// jump" or "squat jump" in cm and a "10 m sprint" or "20 m sprint" in s of which
// the protocol says "best of 3", 2.6 % (Moir et al. 2004, seen; heights of a jump
// mat, times of light gates); for a countermovement jump of any other protocol
// 5.8 % (Alves Souza et al. 2020, seen). Else nothing is known and the verdict is
// unclear. The equations are those of Hopkins 2000, see [load.TypicalError].
//
// A maximum is not called higher than the very first one that is logged: the
// second is higher by practice alone. In the repeated maxima of Hammarstrom et al.
// 2020 (J Physiol 598:543, open data) it was by 9 % before any training.
//
// A result more than 2.2 times the one before, or less than that part of it, is
// left out and asked about until it is confirmed.
func (v View) Changes(o TestOptions) (changes []Change, questions []season.Note) {
	type key struct {
		name, protocol string
		unit           Unit
	}
	results := map[key][]Result{}
	var keys []key
	for i := range v.Entries {
		e := &v.Entries[i]
		t, ok := e.What.(Test)
		if !ok || t.Value <= 0 {
			continue
		}
		k := key{t.Name, t.Protocol, t.Unit}
		list := results[k]
		if n := len(list); n == 0 {
			keys = append(keys, k)
		} else if b := list[n-1]; !v.confirmed[e.ID] && (int64(t.Value)*100 > int64(b.Value)*poundsFold || int64(t.Value)*poundsFold < int64(b.Value)*100) {
			q := note("question-test", "test", t.Name, "date", e.Date(), "value", inUnit(t.Value, t.Unit), "before", inUnit(b.Value, t.Unit), "entry", e.ID)
			q.Subject.Dates = []calendar.Date{e.Date()}
			questions = append(questions, q)
			continue
		}
		results[k] = append(list, Result{e.ID, e.Date(), t.Value})
	}
	slices.SortFunc(keys, func(a, b key) int {
		return cmp.Or(strings.Compare(a.name, b.name), strings.Compare(a.protocol, b.protocol), strings.Compare(string(a.unit), string(b.unit)))
	})
	for _, k := range keys {
		list := results[k]
		c := Change{Name: k.name, Protocol: k.protocol, Unit: k.unit, After: list[len(list)-1]}
		before, ok := earlier(list, o.Since)
		if !ok {
			continue
		}
		c.Before = before
		c.Difference = c.After.Value - c.Before.Value
		c.judge(list, o.Noise)
		changes = append(changes, c)
	}
	return changes, questions
}

// earlier picks the result that the newest is compared with.
func earlier(list []Result, since calendar.Date) (Result, bool) {
	newest := list[len(list)-1]
	apart := func(r Result) bool { return newest.Date.DaysSince(r.Date) > RepeatWithin }
	if !since.IsZero() {
		for _, r := range list {
			if !r.Date.Before(since) {
				return r, apart(r)
			}
		}
		return Result{}, false
	}
	for i := len(list) - 2; i >= 0; i-- {
		if apart(list[i]) {
			return list[i], true
		}
	}
	return Result{}, false
}

// OwnError is the typical error of an athlete's own repeats: results of one test
// that follow each other within [RepeatWithin] dates, taken in pairs. ok is false
// for fewer than [LeastRepeats] of them.
func OwnError(results []Result) (e load.Retest[Milli], ok bool) {
	var first, second []Milli
	for i := 0; i+1 < len(results); i++ {
		if results[i+1].Date.DaysSince(results[i].Date) <= RepeatWithin {
			first, second = append(first, results[i].Value), append(second, results[i+1].Value)
			i++ // each result is in one pair
		}
	}
	if len(first) < LeastRepeats {
		return load.Retest[Milli]{Pairs: len(first)}, false
	}
	return load.TypicalError(first, second)
}

func (c *Change) judge(list []Result, given []Noise) {
	own, enough := OwnError(list)
	source, quantile := "", 0.0
	switch i := slices.IndexFunc(given, func(n Noise) bool {
		return n.Name == c.Name && n.Protocol == c.Protocol && n.Unit == c.Unit && n.Error > 0
	}); {
	case enough && own.TypicalError > 0:
		c.Error, c.Pairs, quantile = own.TypicalError, own.Pairs, student(own.Pairs-1)
		source = note("error-own", "pairs", own.Pairs).Text
	case i >= 0:
		c.Error, source = given[i].Error, given[i].Source
	default:
		var cv load.Percent
		cv, source = published(c.Name, c.Protocol, c.Unit)
		c.Error, _ = load.ErrorOf(c.Before.Value, cv)
	}
	c.Verdict = Unclear
	kv := []any{"test", c.Name, "from", inUnit(c.Before.Value, c.Unit), "to", inUnit(c.After.Value, c.Unit), "before", c.Before.Date, "date", c.After.Date}
	if c.Error <= 0 {
		c.Why = note("test-no-error", append(kv, "pairs", own.Pairs, "least", LeastRepeats)...)
		return
	}
	c.Detectable, _ = load.MinimalDetectableChange(c.Error)
	if quantile > 0 {
		c.Detectable = Milli(math.Round(float64(c.Error) * math.Sqrt2 * quantile))
	}
	size := max(c.Difference, -c.Difference)
	usual := float64(size) <= math.Sqrt2*float64(c.Error)
	code := "test-unclear"
	switch {
	case c.Protocol == OneRepMax && c.Before == list[0] && !usual && c.Difference > 0:
		code = "test-first"
	case size > c.Detectable && c.Difference > 0:
		c.Verdict, code = Yes, "test-higher"
	case size > c.Detectable:
		c.Verdict, code = Yes, "test-lower"
	case usual:
		c.Verdict, code = No, "test-same"
	}
	c.Why = note(code, append(kv, "error", inUnit(threeDigits(c.Error), c.Unit), "detectable", inUnit(threeDigits(c.Detectable), c.Unit), "source", source)...)
	c.Why.Subject.Dates = []calendar.Date{c.Before.Date, c.After.Date}
}

// published is the coefficient of variation of a test in the literature, 0 if there
// is none here.
func published(name, protocol string, unit Unit) (cv load.Percent, source string) {
	study := ""
	best := strings.Contains(strings.ToLower(protocol), "best of 3")
	switch name = strings.ToLower(name); {
	case protocol == OneRepMax && (unit == InKilograms || unit == InPounds):
		study = "Grgic"
	case best && unit == InCm && (name == "countermovement jump" || name == "squat jump"),
		best && unit == InSeconds && (name == "10 m sprint" || name == "20 m sprint"):
		study = "Moir"
	case unit == InCm && name == "countermovement jump":
		study = "Alves Souza"
	default:
		return 0, ""
	}
	for _, s := range load.Studies(load.Reliability) {
		if strings.HasPrefix(s.Source, study) {
			return load.Percent(s.Value), s.Source
		}
	}
	return 0, ""
}

// student is the quantile of Student's t that 2.5 % lie above: for 5 to 30 degrees
// of freedom from the usual table, beyond them that of 30, which is a little too
// wide.
func student(degrees int) float64 {
	table := [...]float64{2.571, 2.447, 2.365, 2.306, 2.262, 2.228, 2.201, 2.179, 2.160, 2.145, 2.131, 2.120, 2.110,
		2.101, 2.093, 2.086, 2.080, 2.074, 2.069, 2.064, 2.060, 2.056, 2.052, 2.048, 2.045, 2.042}
	return table[min(max(degrees-5, 0), len(table)-1)]
}

func inUnit(m Milli, u Unit) string { return decimalText(m) + " " + string(u) }

// threeDigits rounds to three digits that count: an error is not known to more.
func threeDigits(m Milli) Milli {
	unit := Milli(1)
	for m >= 1000*unit {
		unit *= 10
	}
	return (m + unit/2) / unit * unit
}

// decimalText is a value as it is written, without zeros at its end.
func decimalText(m Milli) string {
	sign := ""
	if m < 0 {
		sign, m = "-", -m
	}
	whole, rest := strconv.Itoa(int(m/1000)), strconv.Itoa(int(m%1000 + 1000))[1:]
	if rest = strings.TrimRight(rest, "0"); rest != "" {
		whole += "." + rest
	}
	return sign + whole
}

package oracle

import (
	"example.org/weft/internal/starts"
	"example.org/weft/periodize/season"
)

// coder writes a season as an integer program, rule by rule, from the words of
// the rules: a number for each option of each date, exactly one of a date taken.
type coder struct {
	*Program
	m     *starts.Model
	x     [][]int    // variable of each option
	dates [][]option // what each option holds
	broke map[breach]int
}

type option struct{ slots []*starts.Slot }

// breach is one limit broken by one forced session, the first, second, .. of its
// date.
type breach struct {
	rule      string
	date, nth int
}

// Encode writes a case as an integer program. choices are the variables of the
// options of each date.
func Encode(c *Case) (program *Program, choices [][]int) {
	k := &coder{Program: &Program{}, m: c.Model, broke: map[breach]int{}}
	for l := range c.Model.Choices {
		row := &c.Model.Choices[l]
		var options []option
		var vars []int
		var one []Term
		for o, opt := range row.Options {
			var x option
			for _, s := range opt {
				x.slots = append(x.slots, &row.Slots[s])
			}
			options = append(options, x)
			broken, points := Cost(c.Static[l][o])
			v := k.add(Var{Broken: broken, Points: points, Upper: 1})
			vars, one = append(vars, v), append(one, Term{v, 1})
		}
		k.x, k.dates = append(k.x, vars), append(k.dates, options)
		k.row(one, Exactly, 1)
	}
	k.limits()
	k.aims()
	k.loads()
	return k.Program, k.x
}

func (k *coder) day(l int) *starts.Day { return &k.m.Days[k.m.From+l] }

func (k *coder) days() int { return len(k.dates) }

// sum is a term for each option of a date for which n is not zero.
func (k *coder) sum(terms []Term, l int, n func(o option) int) []Term {
	for o, x := range k.dates[l] {
		if c := n(x); c != 0 {
			terms = append(terms, Term{k.x[l][o], int64(c)})
		}
	}
	return terms
}

// most is the largest n of a date.
func (k *coder) most(l int, n func(o option) int) int64 {
	best := 0
	for o, x := range k.dates[l] {
		if k.Vars[k.x[l][o]].Upper > 0 {
			best = max(best, n(x))
		}
	}
	return int64(best)
}

func (k *coder) forbid(l, o int) { k.Vars[k.x[l][o]].Upper = 0 }

// breach returns the variable that says that a forced session breaks a limit.
func (k *coder) breach(rule string, l, nth int) int {
	b := breach{rule, l, nth}
	v, ok := k.broke[b]
	if !ok {
		v = k.add(Var{Broken: 1, Upper: 1})
		k.broke[b] = v
	}
	return v
}

// forced is the most forced sessions that an option of a date has. Which they are
// may differ: of a pinned kind the start is free.
func (k *coder) forced(l int) int {
	n := 0
	for _, x := range k.dates[l] {
		n = max(n, x.count(func(s *starts.Slot) bool { return s.Forced }))
	}
	return n
}

// pinned returns a forced session of an option, nil if it has fewer.
func (o option) pinned(i int) *starts.Slot {
	for _, s := range o.slots {
		if s.Forced {
			if i == 0 {
				return s
			}
			i--
		}
	}
	return nil
}

type which func(*starts.Slot) bool

func lift(s *starts.Slot) bool     { return s.Kind != season.Recovery }
func heavy(s *starts.Slot) bool    { return s.Kind != season.Recovery && s.Kind != season.Primer }
func recovery(s *starts.Slot) bool { return s.Kind == season.Recovery }
func every(*starts.Slot) bool      { return true }

func (o option) count(is which) int {
	n := 0
	for _, s := range o.slots {
		if is(s) {
			n++
		}
	}
	return n
}

// upTo counts the sessions of an option up to one of them, that one included.
func (o option) upTo(is which, last *starts.Slot) int {
	n := 0
	for _, s := range o.slots {
		if is(s) {
			n++
		}
		if s == last {
			break
		}
	}
	return n
}

// lastFree counts the sessions up to the last one that is not forced; 0 if there
// is none.
func (o option) lastFree(is which) int {
	for i := len(o.slots) - 1; i >= 0; i-- {
		if s := o.slots[i]; is(s) && !s.Forced {
			return o.upTo(is, s)
		}
	}
	return 0
}

// before counts the sessions of the past on a date.
func (k *coder) before(day int, is which) int {
	n := 0
	for i := range k.m.History {
		if s := &k.m.History[i]; s.Day == day && is(s) {
			n++
		}
	}
	return n
}

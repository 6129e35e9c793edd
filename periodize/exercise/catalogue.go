package exercise

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

// Limits of a catalogue.
const (
	MaxExercises = 2000
	maxKitWords  = 64
	maxIDBytes   = 64
	maxNameBytes = 120
)

// Catalogue is a set of exercises. The zero value is the built-in one. It never
// changes; [Catalogue.With] makes a new one.
type Catalogue struct{ own *compiled }

// entry is an exercise as the search reads it.
type entry struct {
	Exercise
	at     int
	region Region
	loads  tissueMask
	gentle tissueMask
	kit    []uint64 // each: any of these
	harder []int    // relatives of the same pattern, by place
}

// compiled is a catalogue with its indexes.
type compiled struct {
	list  []entry
	at    map[string]int // by id, and by name in small letters
	words []string       // of kit, bit by bit
	slots map[Pattern][]int
}

// compile takes a list that has passed check.
func compile(list []Exercise) *compiled {
	c := &compiled{at: map[string]int{}, slots: map[Pattern][]int{}}
	for i, x := range list {
		e := entry{Exercise: x, at: i, region: x.Pattern.Region(), loads: maskOf(x.Tissues), gentle: maskOf(x.Gentle)}
		for _, k := range x.Kit {
			var m uint64
			for _, w := range strings.Split(k, "|") {
				m |= 1 << c.word(w)
			}
			e.kit = append(e.kit, m)
		}
		c.list = append(c.list, e)
		if _, ok := c.at[plainWord(x.Name)]; !ok {
			c.at[plainWord(x.Name)] = i
		}
		c.slots[x.Pattern] = append(c.slots[x.Pattern], i)
	}
	for i, x := range list { // an id wins over a name
		c.at[x.ID] = i
	}
	for i := range c.list {
		e := &c.list[i]
		for _, id := range e.Harder {
			if at, ok := c.at[id]; ok && c.list[at].Pattern == e.Pattern {
				e.harder = append(e.harder, at)
			}
		}
	}
	return c
}

func (c *compiled) word(w string) int {
	i := slices.Index(c.words, w)
	if i < 0 {
		c.words = append(c.words, w)
		i = len(c.words) - 1
	}
	return i
}

func (c Catalogue) data() *compiled {
	if c.own == nil {
		return builtin
	}
	return c.own
}

// find takes an id or a printed name in any case.
func (c *compiled) find(name string) *entry {
	i, ok := c.at[plainWord(name)]
	if !ok {
		return nil
	}
	return &c.list[i]
}

// Find returns an exercise by its id, or by its name in small or capital
// letters.
func (c Catalogue) Find(name string) (Exercise, bool) {
	e := c.data().find(name)
	if e == nil {
		return Exercise{}, false
	}
	return clone(e.Exercise), true
}

// All lists the exercises in their fixed order, which also breaks ties.
func (c Catalogue) All() []Exercise {
	d := c.data()
	out := make([]Exercise, len(d.list))
	for i := range d.list {
		out[i] = clone(d.list[i].Exercise)
	}
	return out
}

// KitWords lists the words for kit that the exercises use, sorted.
func (c Catalogue) KitWords() []string {
	out := slices.Clone(c.data().words)
	slices.Sort(out)
	return out
}

func clone(x Exercise) Exercise {
	x.Kit, x.Tissues, x.Gentle = slices.Clone(x.Kit), slices.Clone(x.Tissues), slices.Clone(x.Gentle)
	x.Easier, x.Harder = slices.Clone(x.Easier), slices.Clone(x.Harder)
	return x
}

// NewCatalogue makes a catalogue of these exercises alone. The error is a
// *season.InputError with every problem.
func NewCatalogue(list []Exercise) (Catalogue, error) {
	own := make([]Exercise, len(list))
	for i := range list {
		own[i] = clone(list[i])
	}
	if problems := check(own); len(problems) > 0 {
		return Catalogue{}, &season.InputError{Problems: problems}
	}
	return Catalogue{compile(own)}, nil
}

// With is the catalogue with more exercises; one whose id is there already
// takes its place. The error is a *season.InputError with every problem.
func (c Catalogue) With(more ...Exercise) (Catalogue, error) {
	list := c.All()
	first := len(list)
	for _, x := range more {
		if i := slices.IndexFunc(list[:first], func(y Exercise) bool { return y.ID == x.ID }); i >= 0 {
			list[i] = x
		} else {
			list = append(list, x)
		}
	}
	return NewCatalogue(list)
}

type faults struct{ list []calendar.Problem }

func (f *faults) add(code, path, value, reason, remedy string) {
	if len(f.list) < season.MaxProblems {
		f.list = append(f.list, calendar.Problem{Code: code, Class: calendar.ClassError, Path: path, Value: value, Reason: reason, Remedy: remedy})
	}
}

// check finds what is wrong with a catalogue.
func check(list []Exercise) []calendar.Problem {
	var f faults
	if len(list) == 0 || len(list) > MaxExercises {
		f.add("catalogue-size", "/exercises", strconv.Itoa(len(list)), "a catalogue has 1 to 2000 exercises", "give at least one, and split what is more")
		return f.list
	}
	ids := map[string]int{}
	words := map[string]bool{}
	for i, x := range list {
		path := fmt.Sprintf("/exercises/%d", i)
		if !wordLike(x.ID) || len(x.ID) > maxIDBytes {
			f.add("exercise-id", path+"/id", x.ID, "an id is small letters, digits and hyphens, at most 64", `write one such as "back-squat"`)
		} else if j, ok := ids[x.ID]; ok {
			f.add("exercise-twice", path+"/id", x.ID, fmt.Sprintf("number %d has the same id", j), "give each exercise an id of its own")
		}
		ids[x.ID] = i
		if x.Name == "" || len(x.Name) > maxNameBytes || calendar.Inert(x.Name) != x.Name {
			f.add("exercise-name", path+"/name", x.Name, "a name is printable and 1 to 120 bytes long", "give the name that is printed on the card")
		}
		checkWords(&f, path, x)
		for _, k := range x.Kit {
			for _, w := range strings.Split(k, "|") {
				if !wordLike(w) {
					f.add("kit-word", path+"/kit", k, "a word for kit is small letters, digits and hyphens", `write "bar", or "dumbbell|kettlebell" for either`)
				}
				words[w] = true
			}
		}
		checkNumbers(&f, path, x)
	}
	if len(words) > maxKitWords {
		f.add("kit-words", "/exercises", strconv.Itoa(len(words)), "more than 64 words for kit", "use fewer")
	}
	for i, x := range list {
		for _, r := range append(slices.Clone(x.Easier), x.Harder...) {
			if _, ok := ids[r]; !ok || r == x.ID {
				f.add("exercise-unknown", fmt.Sprintf("/exercises/%d", i), r, "a relative is another exercise of the catalogue", suggestion(r, ids))
			}
		}
	}
	return f.list
}

func suggestion(name string, ids map[string]int) string {
	among := make([]string, 0, len(ids))
	for id := range ids {
		among = append(among, id)
	}
	slices.Sort(among)
	if near, ok := calendar.Nearest(name, among); ok {
		return "did you mean " + near + "?"
	}
	return "name an exercise of the catalogue"
}

func checkWords(f *faults, path string, x Exercise) {
	if x.Pattern.Region() == "" {
		f.add("pattern-unknown", path+"/pattern", string(x.Pattern), "no such movement pattern", "use one of Patterns")
	}
	if !slices.Contains(roles, x.Role) {
		f.add("role-unknown", path+"/role", string(x.Role), "no such role", "use main, accessory, corrective, power or easy")
	}
	if !slices.Contains(implements, x.Load) {
		f.add("load-unknown", path+"/load", string(x.Load), "no such implement", "use body if nothing is lifted")
	}
	for _, t := range slices.Concat(x.Tissues, x.Gentle) {
		if !slices.Contains(tissues, t) {
			f.add("tissue-unknown", path+"/tissues", string(t), "no such tissue", "use one of Tissues")
		}
	}
	if maskOf(x.Tissues)&maskOf(x.Gentle) != 0 {
		f.add("tissue-twice", path+"/gentle", "", "a tissue is both loaded and only gently loaded", "keep it in one of the lists")
	}
	if x.Apart && !x.Sided {
		f.add("side-contradiction", path+"/apart", "", "the other side rests, and there are no sides", "mark it as sided")
	}
}

func checkNumbers(f *faults, path string, x Exercise) {
	number := func(field string, n, low, high int) {
		if n < low || n > high {
			f.add("number-range", path+"/"+field, strconv.Itoa(n), fmt.Sprintf("outside %d to %d", low, high), "check the number")
		}
	}
	number("skill", x.Skill, 0, mostSkill)
	number("impact", x.Impact, 0, 2)
	number("seconds", x.Seconds, 1, 120)
	number("reps", x.Reps, 0, 30)
	if x.Heavy && x.Pattern.Region() != Lower {
		f.add("heavy-contradiction", path+"/heavy", "", "heavy lower-body work of another region", "mark lower-body exercises only")
	}
}

func wordLike(s string) bool {
	if s == "" {
		return false
	}
	for i := 0; i < len(s); i++ {
		if c := s[i]; !(c >= 'a' && c <= 'z' || c >= '0' && c <= '9' || c == '-') {
			return false
		}
	}
	return true
}

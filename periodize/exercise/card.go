package exercise

import (
	"slices"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

// Card is a session that an athlete can train from. It is the athlete's own; on
// a wall hangs [Card.Wall].
type Card struct {
	Session string // id
	Date    calendar.Date
	Kind    season.Kind
	State   season.State
	Minutes int // the sum of the blocks
	Blocks  []Block
	Omitted []Region // of push, pull, lower and trunk, each with a note
	Notes   []season.Note
	Cost    int // of the choice, by the stated costs
}

// Block is a part of a session: exercises done in turn, round after round.
type Block struct {
	Name    string
	Minutes int
	Rounds  int
	Items   []Item
}

// Item is one exercise of a block.
type Item struct {
	ID       string
	Slot     string // what it is there for, such as "main lower"
	Exercise season.Exercise
	Seconds  int // of the work of one set, both sides together
	Reps     int // of one set, or holds
	Left     int // repetitions to leave in reserve; -1 where that means nothing
	Why      season.Note
	Easier   string // names of relatives that fit kit and body, "" if there is none
	Harder   string
}

// Parts is the card in the form in which plans carry it.
func (c Card) Parts() []season.Part {
	n, loads := 0, 0
	for i := range c.Blocks {
		n += len(c.Blocks[i].Items)
		for j := range c.Blocks[i].Items {
			if c.Blocks[i].Items[j].Exercise.Load != nil {
				loads++
			}
		}
	}
	out := make([]season.Part, len(c.Blocks))
	all, grams := make([]season.Exercise, 0, n), make([]season.Grams, 0, loads)
	for i := range c.Blocks {
		b := &c.Blocks[i]
		first := len(all)
		for j := range b.Items {
			x := b.Items[j].Exercise
			if x.Load != nil {
				grams = append(grams, *x.Load)
				x.Load = &grams[len(grams)-1]
			}
			all = append(all, x)
		}
		out[i] = season.Part{Name: b.Name, Minutes: b.Minutes}
		if len(b.Items) > 0 {
			out[i].Exercises = all[first:len(all):len(all)]
		}
	}
	return out
}

// Regions lists the regions the card trains, in their fixed order.
func (c Card) Regions() []Region {
	var out []Region
	for _, p := range patternRegions {
		if !slices.Contains(out, p.region) && c.trains(p.region) {
			out = append(out, p.region)
		}
	}
	return out
}

// Main lists the exercises that name a session in a line: the main lower lift,
// push and pull, of a primer the sprint and the jump, of recovery the easy piece.
func (c Card) Main() []Item {
	slots := []string{slotMain, slotTest, slotPush, slotPull}
	switch c.Kind {
	case season.Primer:
		slots = []string{slotSprint, slotPower}
	case season.Recovery:
		slots = []string{slotEasy}
	}
	var out []Item
	for _, slot := range slots {
		if it := c.item(slot); it != nil {
			out = append(out, *it)
		}
	}
	return out
}

func (c *Card) trains(r Region) bool {
	for i := range c.Blocks {
		for j := range c.Blocks[i].Items {
			if c.Blocks[i].Rounds > 0 && Pattern(c.Blocks[i].Items[j].Exercise.Pattern).Region() == r {
				return true
			}
		}
	}
	return false
}

// Sets counts the work sets by region, warm-up and ramp sets left out.
func (c Card) Sets() map[Region]int {
	out := map[Region]int{}
	c.eachSet(func(p Pattern, sets int) { out[p.Region()] += sets })
	return out
}

// item finds the item of a slot.
func (c *Card) item(slot string) *Item {
	for i := range c.Blocks {
		for j := range c.Blocks[i].Items {
			if c.Blocks[i].Items[j].Slot == slot {
				return &c.Blocks[i].Items[j]
			}
		}
	}
	return nil
}

func (c *Card) uses(id string) bool {
	for _, b := range c.Blocks {
		if slices.ContainsFunc(b.Items, func(it Item) bool { return it.ID == id }) {
			return true
		}
	}
	return false
}

// works reports whether an exercise is in the work of a card, warm-up left out.
func (c *Card) works(id string) bool {
	for _, b := range c.Blocks {
		if b.Rounds > 0 && slices.ContainsFunc(b.Items, func(it Item) bool { return it.ID == id }) {
			return true
		}
	}
	return false
}

// WallCard is what may hang on a wall. It has no field that could hold why.
type WallCard struct {
	Session  string
	Kind     season.Kind
	Minutes  int
	Modified bool       // see the athlete's own card
	Lines    []WallLine // none if modified
}

// WallLine is one exercise on a wall.
type WallLine struct {
	Block, Name string
	Sets        int
	Reps        string
}

// Wall is the card as it may hang on a wall: without loads and notes, and a card
// that was changed on the day says that and no more.
func (c Card) Wall() WallCard {
	w := WallCard{Session: c.Session, Kind: c.Kind, Minutes: c.Minutes}
	if c.State != season.AsWritten && c.State != season.DoneState {
		return WallCard{Session: c.Session, Kind: c.Kind, Modified: true}
	}
	for _, b := range c.Blocks {
		for _, it := range b.Items {
			if it.Slot != slotPrehab {
				w.Lines = append(w.Lines, WallLine{b.Name, it.Exercise.Name, it.Exercise.Sets, it.Exercise.Reps})
			}
		}
	}
	return w
}

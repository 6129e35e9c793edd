package bridge

import (
	"fmt"

	"example.org/weft/calendar"
	"example.org/weft/internal/say"
	"example.org/weft/load"
	"example.org/weft/periodize/exercise"
	"example.org/weft/periodize/season"
)

// Card is what is done in a session.
type Card struct {
	Session string   `json:"session"`
	Date    string   `json:"date"`
	Title   string   `json:"title"`
	State   string   `json:"state"`
	Minutes int      `json:"minutes"`
	Blocks  []Block  `json:"blocks"`
	Notes   []string `json:"notes"`
}

// Block is a part of a card: exercises done in turn.
type Block struct {
	Name    string `json:"name"`
	Minutes int    `json:"minutes"`
	Rounds  int    `json:"rounds"`
	Items   []Line `json:"items"`
}

// card lines use [Line]: Kind is the exercise's id, Text its name, Change its
// dose, Why its load and the evidence for it.

func cardView(c exercise.Card) *Card {
	out := &Card{Session: c.Session, Date: say.Day(c.Date), Title: kindWord(c.Kind), State: stateWords[c.State], Minutes: c.Minutes,
		Blocks: []Block{}, Notes: notes(c.Notes)}
	for _, b := range c.Blocks {
		block := Block{Name: calendar.Inert(b.Name), Minutes: b.Minutes, Rounds: b.Rounds, Items: []Line{}}
		for _, it := range b.Items {
			block.Items = append(block.Items, itemLine(it))
		}
		out.Blocks = append(out.Blocks, block)
	}
	return out
}

func itemLine(it exercise.Item) Line {
	x := it.Exercise
	l := Line{Kind: it.ID, Text: calendar.Inert(x.Name), Change: x.Reps}
	if x.Sets > 1 {
		l.Change = fmt.Sprintf("%d × %s", x.Sets, x.Reps)
	}
	if x.Side != "" {
		l.Text += ", " + x.Side
	}
	switch {
	case x.Load != nil && x.Effort != "":
		l.Why = load.Mass(x.Load.Grams).String() + ", " + x.Effort
	case x.Load != nil:
		l.Why = load.Mass(x.Load.Grams).String()
	default:
		l.Why = x.Effort
	}
	return l
}

// club is what cards need besides the plan.
func (d *Desk) club() (exercise.Club, error) {
	club := exercise.Club{Athlete: d.req.Athlete, Kits: map[string]exercise.Kit{}}
	for _, p := range d.req.Places {
		if p.Kit == nil {
			continue // an ordinary gym
		}
		kit, found := exercise.Catalogue{}.ParseKit(p.Kit)
		if failed(found) {
			return club, &season.InputError{Problems: found}
		}
		club.Kits[p.ID] = kit
	}
	return club, nil
}

// fill makes the cards of the plan, once.
func (d *Desk) fill() error {
	if d.cards != nil {
		return nil
	}
	club, err := d.club()
	if err != nil {
		return err
	}
	_, cards, err := exercise.Builder{}.Season(*d.plan, club)
	if err != nil {
		return err
	}
	d.cards = append([]exercise.Card{}, cards...)
	return nil
}

// cardOf is the card of a session; nil for one that is past or may not be held.
func (d *Desk) cardOf(s *season.Session) (*exercise.Card, error) {
	if err := d.fill(); err != nil {
		return nil, err
	}
	for i := range d.cards {
		if d.cards[i].Session == s.ID {
			return &d.cards[i], nil
		}
	}
	return nil, nil
}

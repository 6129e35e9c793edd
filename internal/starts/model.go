package starts

import (
	"example.org/weft/periodize/season"
)

// Units of the engine's costs. One broken limit weighs more than all points a
// plan can have, one point more than all its ties. The ties of 400 dates are less
// than 2^17: at most 154 for each of two sessions on each of them, see tie. With
// every aim at its highest price they have less than 2^26 points.
const (
	Point  = int64(1) << 17
	Broken = int64(1) << 43
)

// MostADate is how many sessions of the log or of a plan one date may have, so
// that their broken limits stay countable.
const MostADate = 24

// Model is everything the engine chooses from.
type Model struct {
	*Facts
	Places    []season.Place
	PlaceIDs  []string
	History   []Slot // sessions before the period
	Choices   []Choices
	Reference []Slot // sessions of the plan issued before, from now on
	HasIssued bool
	Unshown   []season.Pin // pins whose start no clock shows on their date
	NoTies    bool         // points alone decide: for counting plans
}

// Rating is the expected effort of a session of a kind, CR-10. Common practice,
// no source.
func Rating(k season.Kind) int {
	switch k {
	case season.Eccentric:
		return 7
	case season.Primer:
		return 5
	case season.Recovery:
		return 2
	}
	return 6
}

// LoadBlock is the step in which rules over days count session load.
const LoadBlock = 50

// Load is the expected session load of a slot: rating times minutes.
func (s *Slot) Load() int { return Rating(s.Kind) * s.Minutes() }

// Blocks is the load in steps of LoadBlock, to the nearest, ties up.
func (s *Slot) Blocks() int { return (s.Load() + LoadBlock/2) / LoadBlock }

// Static returns the static cost of each option of each date of the period.
func (m *Model) Static() [][]int64 {
	out := make([][]int64, len(m.Choices))
	for i := range m.Choices {
		c := &m.Choices[i]
		d := &m.Days[m.From+i]
		row := make([]int64, len(c.Options))
		for o, opt := range c.Options {
			var n int64
			for _, s := range opt {
				slot := &c.Slots[s]
				n += slot.Points()*Point + m.tieOf(d, slot) + int64(len(slot.Breaches))*Broken
			}
			row[o] = n + (m.askCost(d, c, opt)+m.changeCost(d, c, opt))*Point
		}
		out[i] = row
	}
	return out
}

func (m *Model) tieOf(d *Day, s *Slot) int64 {
	if m.NoTies {
		return 0
	}
	return m.tie(d, s)
}

// Soon is how long an issued plan stays fixed unless it has become unsafe, in
// minutes, and SoonPoints what a change inside it costs.
const (
	Soon       = 24 * 60
	SoonPoints = 10_000
)

// changeCost is what an option changes of the plan issued before, in points.
func (m *Model) changeCost(d *Day, c *Choices, option []int) int64 {
	if !m.HasIssued {
		return 0
	}
	var n int64
	price := func(at int64) {
		if at < m.Now {
			return
		}
		if at < m.Now+Soon {
			n += SoonPoints
			return
		}
		n += m.Set.Points("change")
	}
	for _, s := range option {
		slot := &c.Slots[s]
		if slot.Done {
			continue
		}
		same := false
		for i := range m.Reference {
			r := &m.Reference[i]
			if r.From == slot.From {
				if r.Kind != slot.Kind {
					price(slot.From)
				}
				same = true
				break
			}
		}
		if !same {
			price(slot.From)
		}
	}
	for i := range m.Reference {
		r := &m.Reference[i]
		if r.Day != d.N {
			continue
		}
		kept := false
		for _, s := range option {
			if c.Slots[s].From == r.From {
				kept = true
			}
		}
		if !kept {
			price(r.From)
		}
	}
	return n
}

// askCost is what an option misses of the primer and the recovery session that
// are aimed at on this date, in points.
func (m *Model) askCost(d *Day, c *Choices, option []int) int64 {
	primer, recovery := false, false
	for _, s := range option {
		primer = primer || c.Slots[s].Kind == season.Primer
		recovery = recovery || c.Slots[s].Kind == season.Recovery
	}
	var n int64
	if d.PrimerFor >= 0 && !primer {
		n += m.Set.Points(d.PrimerRule)
	}
	if d.RecoveryFrom >= 0 && !recovery {
		n += m.Set.Points("recovery-after")
	}
	return n
}

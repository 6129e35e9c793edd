package starts

import (
	"example.org/weft/periodize/season"
)

// Units of the engine's costs. One broken limit weighs more than all points
// there can be, one point more than all ties there can be.
const (
	TieBits  = 20
	Point    = int64(1) << TieBits
	Broken   = int64(1) << 47
	MaxPlain = Broken / Point // points a plan may have in all
)

// Model is everything the engine chooses from.
type Model struct {
	*Facts
	Places    []season.Place
	PlaceIDs  []string
	History   []Slot // sessions before the period
	Choices   []Choices
	Reference []Slot // sessions of the plan issued before, from now on
	HasIssued bool
}

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
				n += slot.Points()*Point + m.tie(d, slot) + int64(len(slot.Breaches))*Broken
			}
			row[o] = n + (m.askCost(d, c, opt)+m.changeCost(d, c, opt))*Point
		}
		out[i] = row
	}
	return out
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

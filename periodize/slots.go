package periodize

import (
	"slices"
	"time"

	"example.org/weft/internal/history"
	"example.org/weft/internal/starts"
	"example.org/weft/periodize/season"
)

// PlaceSlots cut the time of a place into slots: a session there begins with one
// of them and ends within it, and there is none at other times. Opening hours
// and every other limit hold as well. A session that is longer than the slot is
// cut to it, if its kind allows.
type PlaceSlots struct {
	Place string // id of a place of the request
	Times []SlotTime
}

// SlotTime is one slot of a place. Kinds are those that may stand there, nil
// stands for all but the post-game session, which waits for no slot.
type SlotTime struct {
	Start, End time.Time
	Kinds      []season.Kind
}

// timesOf turns the slots of a planner into minutes, in order. Where a slot does
// not begin or end on a whole minute it counts from the next and to the last.
func timesOf(slots []PlaceSlots) []starts.PlaceSlots {
	var out []starts.PlaceSlots
	for _, p := range slots {
		row := starts.PlaceSlots{Place: p.Place}
		for _, t := range p.Times {
			from, to := starts.Minutes(t.Start, true), starts.Minutes(t.End, false)
			if from < to {
				row.Times = append(row.Times, starts.SlotTime{From: from, To: to, Kinds: t.Kinds})
			}
		}
		slices.SortStableFunc(row.Times, func(a, b starts.SlotTime) int { return int(a.From - b.From) })
		out = append(out, row)
	}
	return out
}

// Ready returns a request as the engine sees it, to be solved many times with
// other costs of single sessions. It is for package squad: what it returns is
// internal and may change at any time.
func (p *Planner) Ready(req *season.Request) (*history.Ready, error) {
	w, err := p.prepare(req)
	if err != nil {
		return nil, err
	}
	out := &history.Ready{Request: w.req, Model: w.model, Notes: w.notes}
	if w.refused() {
		out.Refused = true
		return out, nil
	}
	if err := w.compile(); err != nil {
		return nil, err
	}
	out.Compiled = w.compiled
	return out, nil
}

package starts

import (
	"slices"
	"sort"
	"time"

	"example.org/weft/periodize/season"
)

// PlaceSlots are the only times at which sessions can stand at a place: it is
// shared, and its time is cut into slots.
type PlaceSlots struct {
	Place string
	Times []SlotTime // in order of start
}

// SlotTime is one slot, in minutes since 1970-01-01T00:00Z. A session begins with
// it and ends within it. Kinds are those that may stand there; nil is all but the
// post-game session, which waits for no slot.
type SlotTime struct {
	From, To int64
	Kinds    []season.Kind
}

// setSlots tells which places have slots, by their index. A place without any is
// open by its hours.
func (f *Facts) setSlots(slots []PlaceSlots) {
	f.slots = nil
	for _, s := range slots {
		for p, id := range f.placeIDs {
			if id != s.Place {
				continue
			}
			if f.slots == nil {
				f.slots = map[int][]SlotTime{}
			}
			f.slots[p] = s.Times
		}
	}
}

func (f *Facts) hasSlots(place int) bool {
	_, ok := f.slots[place]
	return ok
}

// unslotted is the room at places without slots.
func (f *Facts) unslotted(room roomy) roomy {
	if len(f.slots) == 0 {
		return room
	}
	places := slices.Clone(room.places)
	for p := range places {
		if f.hasSlots(p) {
			places[p] = nil
		}
	}
	room.places = places
	return room
}

// slotted returns the legal sessions of a kind in the slots of a date. All are
// kept: which slot is best depends on who else wants it.
func (f *Facts) slotted(i int, k season.Kind, room roomy, extra []Slot, blocked Blocked) []Slot {
	if len(f.slots) == 0 || k == season.PostGame {
		return nil
	}
	d := &f.Days[i]
	var out []Slot
	for p := range f.placeIDs {
		times := f.slots[p]
		first := sort.Search(len(times), func(j int) bool { return times[j].From >= d.From })
		for j := first; j < len(times) && times[j].From < d.To; j++ {
			if times[j].From < f.Now || (times[j].Kinds != nil && !slices.Contains(times[j].Kinds, k)) {
				continue
			}
			if s, ok := f.inSlot(d, k, p, times[j], room, extra, blocked); ok {
				out = append(out, s)
			}
		}
	}
	return out
}

// inSlot is the session of a kind in one slot: of the length it was issued with,
// else its usual length or what the slot leaves of it, else the short one between
// close games.
func (f *Facts) inSlot(d *Day, k season.Kind, place int, t SlotTime, room roomy, extra []Slot, blocked Blocked) (Slot, bool) {
	_, usual, _ := f.lengths(k)
	if d.Exam {
		usual = min(usual, f.Set.Value("exam-minutes"))
	}
	issued := int64(0)
	for _, x := range extra {
		if x.Kind == k && x.Place == place && x.From == t.From && x.To <= t.To {
			issued = x.To - x.From
		}
	}
	lengths := []int64{issued, min(int64(usual), t.To-t.From) / step * step}
	if k == season.Recovery {
		lengths = append(lengths, min(int64(f.Set.Value("between-games-recovery")), lengths[1]))
	}
	for n, minutes := range lengths {
		if minutes <= 0 {
			continue
		}
		s := Slot{Kind: k, From: t.From, To: t.From + minutes, Day: d.N, Place: place, Issued: minutes == issued}
		f.clocks(&s)
		b := f.breaches(&s, f.open(&s, room))
		if len(b) == 0 {
			s.Costs = f.charges(&s)
			return s, true
		}
		if n == 1 {
			for _, x := range b {
				note(blocked, k, x)
			}
		}
	}
	return Slot{}, false
}

// Minutes turns an instant into whole minutes since 1970-01-01T00:00Z, the next
// or the last.
func Minutes(t time.Time, up bool) int64 {
	if up {
		return ceilMinutes(t)
	}
	return floorMinutes(t)
}

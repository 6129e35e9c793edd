package exercise

import (
	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

// hold finds the reasons for no session today. It looks at what is usable and
// leaves faults of the rest to others, so that none of them hides a hold.
func hold(in *Input, r *CheckIn) (Held, bool) {
	var h Held
	say := func(clearance bool, code string, kv ...any) {
		h.Why = append(h.Why, note(code, kv...))
		h.Clearance = h.Clearance || clearance
	}
	d := in.Session.Date
	if held(in.Athlete.Holds, d) {
		h.Why = append(h.Why, note("hold-standing"))
	}
	if age, ok := in.Athlete.Born.AgeOn(d); ok && age < 12 {
		say(false, "hold-under-12")
	}
	for _, s := range r.Signs {
		say(true, "hold-sign", "sign", string(s))
	}
	for _, p := range r.Pain {
		groin := false
		if m, ok := regionMask(p.Region); ok {
			groin = m&maskOf([]Tissue{Adductors, HipFlexors, Abdomen}) != 0
		}
		switch {
		case p.Pain >= painHold:
			say(true, "hold-pain")
		case p.Cough && groin:
			say(true, "hold-cough")
		default:
			continue
		}
		h.Physio = append(h.Physio, physio(p))
	}
	if len(h.Why) > 0 {
		h.Free = []calendar.Date{d}
	}
	if r.Ill || ill(in.History.Illness, &in.Session) {
		say(false, "hold-ill")
		h.Free = []calendar.Date{d}
		if r.Ill {
			h.Free = append(h.Free, d.AddDays(1))
		}
	}
	if h.Clearance {
		h.Hold = season.Hold{From: d}
	}
	return h, len(h.Why) > 0
}

func physio(p Complaint) season.Note {
	side := p.Side
	if side == "" {
		side = "side not told"
	}
	return note("day-physio", "region", p.Region, "side", side, "pain", p.Pain)
}

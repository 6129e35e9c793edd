package exercise

import (
	"slices"

	"example.org/weft/load"
	"example.org/weft/periodize/season"
)

// Thresholds of the day. Common practice, no source.
const (
	sleepLittle  = 5 * 60 // minutes
	energyLittle = 3      // of 10
	soreEase     = 4
	soreSwap     = 7
	cutSome      = 5 // percent of load
	cutMore      = 10
	// shortFull is under how many minutes a full-body session is held as its
	// shorter kind; the lengths of kinds are those of the rules.
	shortFull = 35
)

// Today turns the report of the day into a session, or into none. in is the
// input the card was written from, its history without that card; written is the
// card. The steps, in this order: holds (a standing hold, a sign, pain above 5 of
// 10, groin pain when coughing, illness, an age under 12), restrictions by named
// roles, open and new complaints, soreness, sleep and energy, minutes and kit.
// Nothing here clears anybody.
//
// The error is a *season.InputError for an input or a report that cannot be
// used; a hold is told even then.
func (b Builder) Today(in Input, written Card, report CheckIn) (Result, error) {
	if h, ok := hold(&in, &report); ok {
		return h, nil
	}
	c := b.Catalogue.data()
	problems := append(in.problems(c), report.problems("/checkIn")...)
	if len(problems) > 0 {
		return nil, &season.InputError{Problems: problems}
	}
	if report.Kit != nil {
		in.Kit = *report.Kit
	}
	planned := in.Session.Minutes
	if report.Minutes > 0 && report.Minutes < planned {
		in.Session.Minutes = report.Minutes
	}
	a := b.prepared(&in, c)
	var day Day
	say := func(code string, kv ...any) { day.Why = append(day.Why, note(code, kv...)) }
	a.who()
	a.before()
	if a.bar.restrictions(in.Athlete.Restrictions, in.Session.Date) {
		day.Questions = append(day.Questions, note("question-side"))
	}
	if a.bar.left|a.bar.right != 0 {
		say("day-restriction")
	}
	if a.open(in.History.Reports, in.Session.Date) {
		say("day-not-clear")
	}
	a.complaints(&report, &day, say)
	eased := a.ease(&report, say)
	less := in.Session.Minutes < planned
	if less {
		say("day-minutes", "minutes", in.Session.Minutes, "planned", planned)
	}
	a.shorterKind(eased, less, say)
	other := false
	if report.Kit != nil {
		other = !a.keepsKit(&written)
		if other {
			say("day-kit")
		}
	}
	barred := a.barsAny(&written)
	if !barred && !eased && !less && !other {
		if len(day.Why) == 0 {
			say("day-as-written")
		}
		day.Card = a.sparing(written)
		return AsWritten{day}, nil
	}
	a.notes = nil
	a.keep = &written
	a.shrink = eased
	if in.Session.Minutes < MinMinutes {
		in.Session.Minutes = MinMinutes
	}
	card := a.build()
	day.Card = card
	a.changes(&written, &card, say)
	if barred || other {
		day.Card.State = season.Swapped
		return Swapped{day}, nil
	}
	day.Card.State = season.Eased
	return Eased{day}, nil
}

// complaints bars what today's pain and soreness rule out.
func (a *asked) complaints(r *CheckIn, day *Day, say func(string, ...any)) {
	d := a.in.Session.Date
	for _, p := range r.Pain {
		m, _ := regionMask(p.Region)
		if p.Pain > 0 && p.Side == "" {
			day.Questions = append(day.Questions, note("question-side"))
		}
		switch {
		case p.Pain >= painModify:
			a.bar.add(m, p.Side)
			a.bar.gentle |= m
			say("day-pain-modify")
			day.Physio = append(day.Physio, physio(p))
		case p.Pain > 0:
			a.bar.tender |= m
			say("day-pain-continue")
		}
		if p.Squeezed && p.SqueezeBelow > squeezeMost {
			x := maskOf([]Tissue{Adductors})
			a.bar.add(x, p.Side)
			a.bar.gentle |= x
			say("day-squeeze")
		}
		if p.Pain > 0 && (!p.Since.IsZero() && d.DaysSince(p.Since) >= referAfter || a.third(p)) {
			day.Refer = true
			say("day-refer")
			if p.Pain < painModify {
				day.Physio = append(day.Physio, physio(p))
			}
		}
	}
	for _, s := range r.Soreness {
		m, _ := regionMask(s.Region)
		switch {
		case s.Level >= soreSwap:
			a.bar.add(m, s.Side)
			say("day-soreness-swap")
		case s.Level > 0:
			a.bar.tender |= m
		}
	}
}

// third reports whether the part was complained of in each of the two weeks
// before, so that this is the third.
func (a *asked) third(p Complaint) bool {
	m, _ := regionMask(p.Region)
	var weeks [3]bool
	for _, r := range a.in.History.Reports {
		y, _ := regionMask(r.Region)
		if r.Pain == 0 || y&m == 0 || r.Date.IsZero() || !sameSide(r.Side, p.Side) {
			continue
		}
		if n := a.in.Session.Date.DaysSince(r.Date); n > 0 && n/7 < len(weeks) {
			weeks[n/7] = true
		}
	}
	return weeks[1] && weeks[2]
}

// ease takes sets and load off for soreness, sleep and energy.
func (a *asked) ease(r *CheckIn, say func(string, ...any)) bool {
	cut := 0
	for _, s := range r.Soreness {
		if s.Level >= soreEase && s.Level < soreSwap {
			say("day-soreness-ease")
			cut = cutSome
			break
		}
	}
	sleepy := r.SleepMinutes.Known && r.SleepMinutes.N < sleepLittle
	tired := r.Energy.Known && r.Energy.N <= energyLittle
	if sleepy {
		say("day-sleep")
		cut = cutSome
	}
	if tired {
		say("day-energy")
		cut = cutSome
	}
	if sleepy && tired {
		say("day-both")
		cut = cutMore
	}
	if cut == 0 {
		return false
	}
	a.cut, a.eased = max(a.cut, cut), cut
	return true
}

// shorterKind makes a trimmed session of a full-size one: by definition the same
// with one set less on each exercise and no eccentric emphasis. Other kinds just
// lose a set.
func (a *asked) shorterKind(eased, less bool, say func(string, ...any)) {
	s := &a.in.Session
	full := s.Kind == season.FullBody || s.Kind == season.Eccentric
	switch {
	case full && (eased || less && s.Minutes < shortFull):
		s.Kind = season.Trimmed
		say("day-shorter-kind")
	case eased:
		a.less++
	}
}

// barsAny reports whether the card holds an exercise that is ruled out.
func (a *asked) barsAny(c *Card) bool {
	for _, b := range c.Blocks {
		for _, it := range b.Items {
			if e := a.c.find(it.ID); e != nil {
				if side, ok := a.bar.allows(e); !ok || side != "" && it.Exercise.Side != side {
					return true
				}
			}
		}
	}
	return false
}

// changes says of each exercise of the written work that is gone why, and what
// stands in its slot.
func (a *asked) changes(was, is *Card, say func(string, ...any)) {
	for i := range was.Blocks {
		for j := range was.Blocks[i].Items {
			it := &was.Blocks[i].Items[j]
			if was.Blocks[i].Rounds == 0 || it.Slot == slotRamp || is.uses(it.ID) {
				continue
			}
			reason := "the rest is built anew around it"
			if e := a.c.find(it.ID); e != nil {
				side, ok := a.bar.allows(e)
				switch {
				case !ok || side != "":
					reason = "it loads a part that is to be spared"
				case !a.kit.fits(e):
					reason = "the kit for it is not there"
				case a.in.Session.Minutes < was.Minutes:
					reason = "for time"
				case e.loads&a.bar.tender != 0:
					reason = "it loads a tender part"
				}
			}
			if x := is.item(it.Slot); x != nil && !was.uses(x.ID) {
				say("day-instead", "exercise", it.Exercise.Name, "reason", reason, "instead", x.Exercise.Name)
			} else {
				say("day-out", "exercise", it.Exercise.Name, "reason", reason)
			}
		}
	}
}

// sparing is the card as written, but for relatives that are ruled out today.
func (a *asked) sparing(c Card) Card {
	c.State = season.AsWritten
	c.Blocks = slices.Clone(c.Blocks)
	ok := func(name string) bool {
		e := a.c.find(name)
		if e == nil {
			return name == ""
		}
		side, ok := a.bar.allows(e)
		return ok && side == ""
	}
	for i := range c.Blocks {
		items := slices.Clone(c.Blocks[i].Items)
		for j := range items {
			if it := &items[j]; !ok(it.Easier) {
				it.Easier = ""
			}
			if it := &items[j]; !ok(it.Harder) {
				it.Harder = ""
			}
		}
		c.Blocks[i].Items = items
	}
	return c
}

// keepsKit reports whether the kit of today does all that the card asks, with
// the loads it asks.
func (a *asked) keepsKit(c *Card) bool {
	for _, b := range c.Blocks {
		for _, it := range b.Items {
			e := a.c.find(it.ID)
			if e == nil || !a.kit.fits(e) {
				return false
			}
			if it.Exercise.Load != nil {
				w := it.Exercise.Load.Grams
				if got, ok := a.kit.atMost(e, load.Mass(w)); !ok || got != load.Mass(w) {
					return false
				}
			}
		}
	}
	return true
}

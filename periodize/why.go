package periodize

import (
	"fmt"

	"example.org/weft/calendar"
	"example.org/weft/internal/starts"
	"example.org/weft/periodize/season"
)

// hours prints minutes as hours: "49 h 05".
func hours(minutes int64) string {
	if minutes%60 == 0 {
		return fmt.Sprintf("%d h", minutes/60)
	}
	return fmt.Sprintf("%d h %02d", minutes/60, minutes%60)
}

// why says in notes why the session stands where it stands, the main reason
// first.
func (w *work) why(i int) []season.Note {
	m := w.model
	s := &w.slots[i]
	var out []season.Note
	subject := season.Subject{Session: s.ID}
	say := func(code, rule string, event int, values season.Values) {
		sub := subject
		if event >= 0 {
			sub.Event = m.Events[event].ID
		}
		out = append(out, season.NewNote(code, sub, rule, values))
	}
	at, ok := m.Index(s.Day)
	if !ok {
		return out
	}
	d := &m.Days[at]
	next := m.NextGame(s.From)
	var gap int64
	if next >= 0 {
		gap = m.Events[next].From - s.To
	}
	toGame := season.Values{"hours": season.Str(hours(gap)), "minutes": season.Int(gap)}
	if s.Done {
		if s.Logged {
			say("why-done", "", -1, nil)
		} else {
			say("why-frozen", "", -1, nil)
		}
	}
	if s.Pinned {
		say("why-pinned", "", -1, nil)
	}
	switch s.Kind {
	case season.FullBody, season.Trimmed, season.Eccentric:
		nth := w.nth(i, func(k season.Kind) bool { return k.HeavyLowerBody() })
		if s.Kind == season.Eccentric {
			say("why-eccentric", "eccentric-place", -1, season.Values{"days": season.Int(int64(d.RunDays))})
		}
		switch {
		case nth > 2:
			say("why-extra-full-body", "break-session", -1, nil)
		case next < 0:
			say("why-full-body-open", "week-full-body", -1, nil)
		case nth == 1:
			say("why-first-full-body", "week-full-body", next, toGame)
		default:
			say("why-second-full-body", "second-full-body", next, toGame)
		}
		if s.Kind == season.Trimmed {
			w.whyTrimmed(s, d, next, gap, say)
		}
	case season.PostGame:
		if next >= 0 {
			say("why-post-game", "post-game", next, toGame)
		} else {
			say("why-post-game-open", "post-game", -1, nil)
		}
	case season.Primer:
		code := "why-primer"
		if next >= 0 && gap < int64(m.Set.Value("primer-timing"))*60 {
			code = "why-primer-late"
		}
		if next >= 0 {
			say(code, "primer", next, toGame)
		}
		if !w.hasSecondLift(i) && w.nth(i, season.Kind.Lift) == 2 {
			say("why-second-lift", "second-lift", -1, nil)
		}
	case season.Recovery:
		_, after, tight := m.Between(s.From)
		switch {
		case tight:
			say("why-recovery-between", "between-games", after, nil)
		case d.RecoveryFrom >= 0:
			say("why-recovery-after", "recovery-after", d.RecoveryFrom, nil)
		case w.nth(i, func(k season.Kind) bool { return k == season.Recovery }) <= m.Set.Value("recovery-least") && !d.Restricted:
			say("why-recovery-count", "recovery-count", -1, nil)
		default:
			say("why-recovery-run", "empty-run", -1, season.Values{"days": season.Int(int64(m.Set.Value("empty-run")))})
		}
	}
	if s.Kind.Lift() && w.beforePractice(s) {
		say("why-before-practice", "practice-order", -1, nil)
	}
	if d.Exam && !s.Done {
		say("why-short-exam", "exam-minutes", -1, season.Values{"minutes": season.Int(int64(m.Set.Value("exam-minutes")))})
	} else if n := m.Usual(s.Kind); s.Minutes() < n && !s.Forced && s.Kind != season.Recovery {
		say("why-shortened", "session-length", -1, season.Values{"minutes": season.Int(int64(s.Minutes()))})
	}
	if w.unchanged(s) {
		say("why-issued", "change", -1, nil)
	}
	return out
}

// whyTrimmed says why the session is not full-size: the first limit that a
// full-size session would break on that date.
func (w *work) whyTrimmed(s *starts.Slot, d *starts.Day, next int, gap int64, say func(string, string, int, season.Values)) {
	m := w.model
	if next >= 0 && gap < int64(m.Set.Value("full-before-game"))*60 {
		say("why-trimmed", "full-before-game", next, season.Values{"hours": season.Str(hours(gap)), "minutes": season.Int(gap)})
		return
	}
	if d.HardDay {
		say("why-trimmed-hard", "hard-day", -1, nil)
		return
	}
	full := *s
	full.Kind, full.Forced = season.FullBody, false
	for _, b := range m.Breaches(&full) {
		if b.Rule == "after-game-full" {
			since := s.From - m.Events[b.Event].To
			say("why-trimmed-after", b.Rule, b.Event, season.Values{"hours": season.Str(hours(since)), "minutes": season.Int(since)})
			return
		}
	}
	if !d.Exam {
		say("why-trimmed-short", "session-length", -1, season.Values{"minutes": season.Int(int64(s.Minutes()))})
	}
}

// nth counts sessions of a sort in the same week up to and with this one.
func (w *work) nth(i int, which func(season.Kind) bool) int {
	week := w.week(w.slots[i].Day)
	n := 0
	for j := 0; j <= i; j++ {
		if w.week(w.slots[j].Day) == week && which(w.slots[j].Kind) {
			n++
		}
	}
	return n
}

func (w *work) week(day int) int {
	if at, ok := w.model.Index(day); ok {
		return w.model.Days[at].Week
	}
	return -1
}

// hasSecondLift reports whether the week has two lifts without this one.
func (w *work) hasSecondLift(i int) bool {
	week := w.week(w.slots[i].Day)
	n := 0
	for j := range w.slots {
		if j != i && w.week(w.slots[j].Day) == week && w.slots[j].Kind.Lift() {
			n++
		}
	}
	return n >= 2
}

func (w *work) beforePractice(s *starts.Slot) bool {
	for i := range w.model.Events {
		e := &w.model.Events[i]
		if (e.Kind == calendar.Practice || e.Kind == calendar.Skills) && e.Day == s.Day && e.From >= s.To {
			return true
		}
	}
	return false
}

// unchanged reports whether the session stands as it was issued.
func (w *work) unchanged(s *starts.Slot) bool {
	if s.Done {
		return false
	}
	for j := range w.model.Reference {
		r := &w.model.Reference[j]
		if r.From == s.From && r.Kind == s.Kind {
			return true
		}
	}
	return false
}

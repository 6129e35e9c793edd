package handout

import "example.org/weft/calendar"

// key explains the marks that occur.
func (s *strip) key() (out []keyEntry) {
	out = append(out, s.gameKey()...)
	out = append(out, s.b.kindKey(s.b.plan.Period.From, s.b.plan.Period.To)...)
	shades := map[shadeKind]bool{}
	for _, h := range s.shades {
		shades[h.kind] = true
	}
	for k := shadeBreak; k <= shadeDense; k++ {
		if shades[k] {
			out = append(out, keyEntry{func(m *markup) { m.path("hatch", shadeHatch(k, box{0, 0, 16, 16})) }, "", shadeWords[k], shadeMeanings[k]})
		}
	}
	return out
}

func (s *strip) gameKey() (out []keyEntry) {
	seen := map[string]bool{}
	show := func(e calendar.Placed, letter, word, meaning string) {
		if !seen[word] {
			seen[word] = true
			out = append(out, keyEntry{func(m *markup) { m.gameMark(e, 8, 8, 16) }, letter, word, meaning})
		}
	}
	plain := func(e calendar.Event) calendar.Placed { return calendar.Placed{Event: e} }
	list := func(of func(e calendar.Placed) bool, f func(e calendar.Placed)) {
		for _, g := range s.b.games {
			if s.b.plan.Period.Contains(g.Date) && of(g) {
				f(g)
				return
			}
		}
	}
	for _, at := range []struct{ home, word string }{{calendar.AtHome, "game at home"}, {calendar.AtAway, "game away"}, {calendar.AtNeutral, "game elsewhere"}, {"", "game"}} {
		list(func(e calendar.Placed) bool { return e.Home == at.home }, func(calendar.Placed) {
			show(plain(calendar.Event{Home: at.home}), "", at.word, "")
		})
	}
	if len(out) > 0 {
		out[0].letter = "G"
	}
	list(func(e calendar.Placed) bool { return e.Importance == calendar.Important }, func(e calendar.Placed) {
		show(plain(calendar.Event{Home: e.Home, Importance: calendar.Important}), "", "bar", "important")
	})
	list(func(e calendar.Placed) bool { return e.Status == calendar.Provisional }, func(e calendar.Placed) {
		show(plain(calendar.Event{Home: e.Home, Status: calendar.Provisional}), "g", "hollow", "not certain")
	})
	list(func(e calendar.Placed) bool { return e.Status == calendar.IfNecessary }, func(e calendar.Placed) {
		show(plain(calendar.Event{Home: e.Home, Status: calendar.IfNecessary}), "g", "dashed", "only if needed")
	})
	if s.any(func(e calendar.Placed) bool { return e.Kind == calendar.Practice || e.Kind == calendar.Skills }) {
		out = append(out, keyEntry{func(m *markup) { m.rect("ink", box{7, 6, 2, 3}) }, "p", "practice", ""})
	}
	if s.any(func(e calendar.Placed) bool { return e.Hard }) {
		out = append(out, keyEntry{func(m *markup) { m.rect("ink", box{6, 5, 4, 4}) }, "", "hard practice", ""})
	}
	return out
}

func (s *strip) any(of func(e calendar.Placed) bool) bool {
	for d := s.b.plan.Period.From; !d.After(s.b.plan.Period.To); d = d.AddDays(1) {
		for _, e := range s.b.at(d).events {
			if of(e) {
				return true
			}
		}
	}
	return false
}

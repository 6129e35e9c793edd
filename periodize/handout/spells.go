package handout

import (
	"fmt"

	"example.org/weft/calendar"
)

// shadeKind is why dates are shaded.
type shadeKind uint8

const (
	shadeBreak shadeKind = iota
	shadeTrip
	shadeExam
	shadeBusy
	shadeDense
)

var shadeWords = [...]string{
	shadeBreak: "break", shadeTrip: "trip", shadeExam: "exams", shadeBusy: "not free", shadeDense: "many games",
}

var shadeMeanings = [...]string{
	shadeBreak: "10 or more dates without a game",
	shadeTrip:  "on the road",
	shadeExam:  "exam dates",
	shadeBusy:  "closed or not free all day",
	shadeDense: "3 games in 7 dates, or 5 in 10",
}

// stretch is a run of dates that the strip shades.
type stretch struct {
	kind     shadeKind
	from, to calendar.Date
	word     string
}

// stretches of the period, by kind and then by date. Those of one kind that
// touch are one.
func (b *Book) stretches() []stretch {
	var out []stretch
	for _, r := range b.facts.Runs {
		if r.Class == calendar.Break {
			out = append(out, stretch{shadeBreak, r.From, r.To, "break"})
		}
	}
	for _, k := range []struct {
		shade shadeKind
		of    func(e calendar.Placed) bool
	}{
		{shadeTrip, func(e calendar.Placed) bool { return e.Kind == calendar.Travel }},
		{shadeExam, func(e calendar.Placed) bool { return e.Kind == calendar.Exam }},
		{shadeBusy, b.wholeDay},
	} {
		out = append(out, b.runs(k.shade, k.of)...)
	}
	return append(out, b.dense()...)
}

// runs joins the dates on which events of a kind lie.
func (b *Book) runs(k shadeKind, of func(e calendar.Placed) bool) (out []stretch) {
	for d := b.plan.Period.From; !d.After(b.plan.Period.To); d = d.AddDays(1) {
		found := false
		for _, e := range b.at(d).events {
			found = found || of(e)
		}
		if !found {
			continue
		}
		if n := len(out); n > 0 && out[n-1].to.AddDays(1) == d {
			out[n-1].to = d
			continue
		}
		out = append(out, stretch{k, d, d, shadeWords[k]})
	}
	return out
}

// wholeDay reports whether an event leaves nothing of at least one date.
func (b *Book) wholeDay(e calendar.Placed) bool {
	if e.Kind != calendar.Closure && e.Kind != calendar.Busy {
		return false
	}
	first, _ := b.dates(e)
	day := b.zone.DaySpan(first)
	return e.Span.Covers(day) || e.Span.Covers(b.zone.DaySpan(first.AddDays(1)))
}

// dense are the congested spells, those that overlap joined.
func (b *Book) dense() (out []stretch) {
	in := map[calendar.Date]bool{}
	for _, s := range append(append([]calendar.Spell(nil), b.facts.ThreeInSeven...), b.facts.FiveInTen...) {
		for d := s.From; !d.After(s.To); d = d.AddDays(1) {
			in[d] = true
		}
	}
	for d := b.plan.Period.From; !d.After(b.plan.Period.To); d = d.AddDays(1) {
		if !in[d] {
			continue
		}
		if n := len(out); n > 0 && out[n-1].to.AddDays(1) == d {
			out[n-1].to = d
			continue
		}
		out = append(out, stretch{kind: shadeDense, from: d, to: d})
	}
	for i := range out {
		n := 0
		for _, g := range b.games {
			if !g.Date.Before(out[i].from) && !g.Date.After(out[i].to) {
				n++
			}
		}
		out[i].word = fmt.Sprintf("%d games in %d", n, out[i].to.DaysSince(out[i].from)+1)
	}
	return out
}

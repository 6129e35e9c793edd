package season

import (
	"example.org/weft/calendar"
	"example.org/weft/internal/intake"
	"example.org/weft/internal/jsonread"
)

func (d *decoder) clubRule(v jsonread.Value) ClubRule {
	o := v.Object()
	r := ClubRule{ID: d.id(o.Required("id")), Says: d.words(o.Optional("says"))}
	var shapes []string
	for _, s := range ClubShapes() {
		shapes = append(shapes, string(s))
	}
	shape, _ := o.Required("shape").Enum(shapes...)
	r.Shape = ClubShape(shape)
	r.Kinds = intake.List(o.Optional("kinds"), len(Kinds()), d.kind)
	if days := o.Optional("days"); days.Present() {
		r.Days = d.days(days)
	}
	from, to := o.Optional("from"), o.Optional("to")
	if from.Present() || to.Present() {
		r.To = calendar.EndOfDay // one alone is open to the end of the day, or from its beginning
	}
	if from.Present() {
		r.From = d.clock(from)
	}
	if to.Present() {
		r.To = d.clock(to)
	}
	number := func(name string, most int64) int {
		n := o.Optional(name)
		if !n.Present() {
			return 0
		}
		i, _ := n.Int(0, most)
		return int(i)
	}
	r.Points = number("points", MaxClubPoints)
	r.Minutes = number("minutes", MaxClubMinutes)
	r.Most = number("most", MaxClubMost)
	r.Least = number("least", MaxClubLeast)
	r.Dates = number("dates", MaxClubRun)
	r.Before = intake.List(o.Optional("before"), MaxClubBefore, func(v jsonread.Value) calendar.Date { return d.date(v, false) })
	if e := o.Optional("event"); e.Present() {
		f := e.Object()
		if k := f.Optional("kind"); k.Present() {
			word, _ := k.Enum(kindWords()...)
			r.EventKind = calendar.Kind(word)
		}
		r.EventTitle = d.words(f.Optional("title"))
		f.Done()
	}
	o.Done()
	return r
}

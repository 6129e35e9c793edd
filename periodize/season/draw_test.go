package season_test

import (
	"fmt"
	"slices"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

// equal compares values as programs see them: a missing list is an empty one.
var equal = cmp.Options{cmpopts.EquateEmpty(), cmpopts.EquateComparable(calendar.Date{})}

func zoneOf(name string) calendar.Zone {
	z, err := calendar.LoadZone(name)
	if err != nil {
		panic(err)
	}
	return z
}

func day(s string) calendar.Date {
	d, err := calendar.ParseDate(s)
	if err != nil {
		panic(err)
	}
	return d
}

func wall(s string) calendar.Wall {
	w, err := calendar.ParseWall(s)
	if err != nil {
		panic(err)
	}
	return w
}

func number(t *rapid.T, least, most int, what string) int {
	return rapid.IntRange(least, most).Draw(t, what)
}

func name(t *rapid.T, what string) string {
	return rapid.SampledFrom([]string{"", "a", "keeper", "Tarn Ottermark", "<b>x</b>", "öß\u202e", "tab\there", `quote " \ `, "\x1b[31m"}).Draw(t, what)
}

func clockOf(t *rapid.T, least, most int) calendar.Clock {
	return calendar.Clock(60 * number(t, least, most, "minutes"))
}

func drawZone(t *rapid.T) calendar.Zone {
	return zoneOf(rapid.SampledFrom([]string{"Europe/Berlin", "America/Halifax", "Australia/Lord_Howe", "Asia/Kathmandu", "UTC"}).Draw(t, "zone"))
}

// drawDate is near the clock changes of autumn 2026.
func drawDate(t *rapid.T) calendar.Date { return day("2026-10-12").AddDays(number(t, 0, 60, "date")) }

func drawWall(t *rapid.T) calendar.Wall {
	return calendar.Wall{Date: drawDate(t), Clock: clockOf(t, 0, 24*60)}
}

func slice[T any](t *rapid.T, most int, what string, draw func(*rapid.T) T) []T {
	out := make([]T, number(t, 0, most, what))
	for i := range out {
		out[i] = draw(t)
	}
	return out
}

func drawDays(t *rapid.T) []time.Weekday {
	return rapid.SliceOfNDistinct(rapid.Map(rapid.IntRange(0, 6), func(i int) time.Weekday { return time.Weekday(i) }), 1, 7, rapid.ID).Draw(t, "days")
}

func drawHours(t *rapid.T) season.Hours {
	return season.Hours{Days: drawDays(t), From: clockOf(t, 0, 700), To: clockOf(t, 701, 1440)}
}

func drawEvent(t *rapid.T) calendar.Event {
	e := calendar.Event{
		ID:    rapid.SampledFrom([]string{"", "g1", "g2", "g3", "p1", "p2"}).Draw(t, "id"),
		Kind:  rapid.SampledFrom(calendar.Kinds()).Draw(t, "kind"),
		Start: drawWall(t), Team: name(t, "team"), Title: name(t, "title"), Opponent: name(t, "opponent"),
		Status:     rapid.SampledFrom(append(calendar.Statuses(), "")).Draw(t, "status"),
		Importance: rapid.SampledFrom(append(calendar.Importances(), "")).Draw(t, "importance"),
		Hard:       rapid.Bool().Draw(t, "hard"), Home: rapid.SampledFrom([]string{"", "home", "away", "neutral"}).Draw(t, "home"),
		Source: rapid.SampledFrom([]string{"", "a.ics:3", "b.csv:9"}).Draw(t, "source"), Competition: name(t, "competition"), Round: name(t, "round"), Revision: number(t, 0, 2, "revision"),
	}
	if rapid.Bool().Draw(t, "own zone") {
		e.Zone = drawZone(t)
	}
	if e.DateOnly = number(t, 0, 3, "date only") == 0; e.DateOnly {
		e.Start.Clock = 0
	}
	closed := e.Kind == calendar.Closure || e.Kind == calendar.Busy
	switch {
	case e.DateOnly && e.Kind != calendar.Game && rapid.Bool().Draw(t, "end"):
		e.End, e.HasEnd = calendar.Wall{Date: e.Start.Date.AddDays(number(t, 1, 5, "days"))}, true
	case !e.DateOnly && (closed || rapid.Bool().Draw(t, "end")):
		e.End, e.HasEnd = e.Start.AddMinutes(number(t, 30, 600, "length")), true
		if rapid.Bool().Draw(t, "actual end") {
			e.ActualEnd, e.HasActualEnd = e.Start.AddMinutes(number(t, 30, 600, "actual length")), true
		}
	}
	return e
}

func drawDone(t *rapid.T) season.Done {
	d := season.Done{
		ID: rapid.SampledFrom([]string{"", "l1", "l2", "l3"}).Draw(t, "id"), Session: name(t, "session"),
		Kind: rapid.SampledFrom(season.Kinds()).Draw(t, "kind"), Start: drawWall(t), Missed: rapid.Bool().Draw(t, "missed"),
	}
	if rapid.Bool().Draw(t, "own zone") {
		d.Zone = drawZone(t)
	}
	if rapid.Bool().Draw(t, "end") {
		d.End, d.HasEnd = d.Start.AddMinutes(number(t, 20, 90, "length")), true
	}
	return d
}

func drawPin(t *rapid.T) season.Pin {
	p := season.Pin{Date: drawDate(t), None: number(t, 0, 3, "none") == 0}
	if p.None {
		return p
	}
	p.Kind = rapid.SampledFrom(season.Kinds()).Draw(t, "kind")
	p.Place = rapid.SampledFrom([]string{"", "gym", "home"}).Draw(t, "place")
	if rapid.Bool().Draw(t, "start") {
		c := clockOf(t, 360, 1300)
		p.Start = &c
	}
	return p
}

func drawPlace(t *rapid.T, id string) season.Place {
	var zone calendar.Zone
	if rapid.Bool().Draw(t, "zoned") {
		zone = drawZone(t)
	}
	return season.Place{
		ID: id, Zone: zone, Away: rapid.Bool().Draw(t, "away"), Hours: slice(t, 2, "hours", drawHours), Kit: slice(t, 2, "kit", func(t *rapid.T) string {
			return rapid.SampledFrom([]string{"bar", "bench", "bands"}).Draw(t, "kit")
		}),
		Closed: slice(t, 2, "closed", func(t *rapid.T) season.Period {
			from := drawDate(t)
			return season.Period{From: from, To: from.AddDays(number(t, 0, 9, "closed"))}
		}),
	}
}

func drawAthlete(t *rapid.T) season.Athlete {
	a := season.Athlete{
		ID: rapid.SampledFrom([]string{"", "a7"}).Draw(t, "athlete"), Zone: drawZone(t), Role: name(t, "role"),
		TrainingAgeMonths: number(t, -1, 130, "months"), Hours: slice(t, 3, "hours", drawHours),
		Prefer: slice(t, 2, "prefer", func(t *rapid.T) season.Prefer {
			return season.Prefer{Days: drawDays(t), Start: clockOf(t, 0, 1440)}
		}),
		Maxima: slice(t, 3, "maxima", func(t *rapid.T) season.Maximum {
			return season.Maximum{
				Exercise: rapid.SampledFrom([]string{"squat", "bench press"}).Draw(t, "exercise"), Grams: int64(number(t, 1, 10_000_000, "grams")),
				Kind: rapid.SampledFrom([]string{"tested", "estimated"}).Draw(t, "kind"), Date: drawDate(t),
			}
		}),
		Restrictions: slice(t, 2, "restrictions", func(t *rapid.T) season.Restriction {
			r := season.Restriction{Region: "knee", Side: rapid.SampledFrom([]string{"", "left", "both"}).Draw(t, "side"), From: drawDate(t), By: name(t, "by")}
			if rapid.Bool().Draw(t, "to") {
				r.To = r.From.AddDays(number(t, 0, 30, "to"))
			}
			return r
		}),
		Holds: slice(t, 2, "holds", func(t *rapid.T) season.Hold {
			h := season.Hold{From: drawDate(t)}
			if rapid.Bool().Draw(t, "cleared") {
				h.ClearedBy, h.ClearedOn = "team doctor", h.From.AddDays(number(t, 0, 30, "cleared on"))
			}
			return h
		}),
	}
	if rapid.Bool().Draw(t, "opted in") {
		a.OptIns = []season.OptIn{season.OptPostGame}
	}
	if rapid.Bool().Draw(t, "born") {
		a.Born = season.YearMonth{Year: number(t, 1980, 2013, "year"), Month: number(t, 1, 12, "month")}
	}
	return a
}

// drawRequest returns requests of which about half can be planned; the others
// have faults that only show when fields are held against each other.
func drawRequest(t *rapid.T) season.Request {
	r := drawAnyRequest(t)
	if number(t, 0, 2, "as it is") == 0 {
		return r
	}
	r.Period.To = calendar.Later(r.Period.From, r.Period.To)
	r.Now = time.Unix(1800000000, 0).UTC() // 15 January 2027, after all that is drawn
	for i := range r.Events {
		if r.Events[i].ID != "" {
			r.Events[i].ID += fmt.Sprint("-", i)
		}
	}
	for i := range r.Log {
		r.Log[i].ID = fmt.Sprint("l", i)
	}
	for i := range r.Club {
		r.Club[i].ID += fmt.Sprint("-", i)
	}
	r.Rules, r.Pins = r.Rules[:min(1, len(r.Rules))], r.Pins[:min(1, len(r.Pins))]
	return r
}

func drawAnyRequest(t *rapid.T) season.Request {
	from := drawDate(t)
	r := season.Request{
		Period: season.Period{From: from, To: from.AddDays(number(t, -1, 40, "days"))}, Athlete: drawAthlete(t),
		Events: slice(t, 6, "events", drawEvent), Log: slice(t, 3, "log", drawDone), Pins: slice(t, 3, "pins", drawPin),
		Club: slice(t, 2, "club", drawClubRule),
		Rules: slice(t, 3, "rules", func(t *rapid.T) season.Override {
			v := number(t, 0, 900, "value")
			o := season.Override{Rule: rapid.SampledFrom([]string{"lifts-a-week", "size"}).Draw(t, "rule"), By: name(t, "by"), Reason: name(t, "reason")}
			switch number(t, 0, 2, "override") {
			case 0:
				o.Value = &v
			case 1:
				o.Points = &v
			case 2:
				o.Off = true
			}
			return o
		}),
	}
	if rapid.Bool().Draw(t, "now") {
		r.Now = time.Unix(1791763200+int64(number(t, 0, 6_000_000, "now")), 0).UTC()
	}
	if rapid.Bool().Draw(t, "places") {
		r.Places = []season.Place{drawPlace(t, "gym"), drawPlace(t, "home")}
	}
	if number(t, 0, 4, "issued") == 0 {
		r.Issued = []season.Plan{drawPlan(t)}
	}
	return r
}

func shuffle[T any](t *rapid.T, list []T, what string) []T {
	if len(list) == 0 {
		return nil
	}
	return rapid.Permutation(list).Draw(t, what)
}

// shuffled returns the same request in another order, some of it given twice.
func shuffled(t *rapid.T, r season.Request) season.Request {
	twice := func(n int) bool { return n > 0 && rapid.Bool().Draw(t, "twice") }
	if twice(len(r.Events)) {
		again := r.Events[0]
		again.Source = "c.json:1"
		r.Events = append(slices.Clone(r.Events), again)
	}
	if twice(len(r.Log)) {
		r.Log = append(slices.Clone(r.Log), r.Log[0])
	}
	if twice(len(r.Pins)) {
		r.Pins = append(slices.Clone(r.Pins), r.Pins[0])
	}
	r.Events, r.Log, r.Pins = shuffle(t, r.Events, "events"), shuffle(t, r.Log, "log"), shuffle(t, r.Pins, "pins")
	r.Places, r.Rules = shuffle(t, r.Places, "places"), shuffle(t, r.Rules, "rules")
	if twice(len(r.Club)) {
		r.Club = append(slices.Clone(r.Club), r.Club[0])
	}
	r.Club = slices.Clone(shuffle(t, r.Club, "club"))
	for i := range r.Club {
		r.Club[i].Days, r.Club[i].Kinds = shuffle(t, r.Club[i].Days, "days"), shuffle(t, r.Club[i].Kinds, "kinds")
	}
	r.Athlete.Hours, r.Athlete.Prefer = shuffle(t, r.Athlete.Hours, "hours"), shuffle(t, r.Athlete.Prefer, "prefer")
	r.Athlete.Maxima, r.Athlete.Holds = shuffle(t, r.Athlete.Maxima, "maxima"), shuffle(t, r.Athlete.Holds, "holds")
	r.Athlete.Restrictions = shuffle(t, r.Athlete.Restrictions, "restrictions")
	r.Athlete.Hours = slices.Clone(r.Athlete.Hours)
	for i := range r.Athlete.Hours {
		r.Athlete.Hours[i].Days = shuffle(t, r.Athlete.Hours[i].Days, "days")
	}
	r.Places = slices.Clone(r.Places)
	for i := range r.Places {
		r.Places[i].Kit, r.Places[i].Closed = shuffle(t, r.Places[i].Kit, "kit"), shuffle(t, r.Places[i].Closed, "closed")
	}
	return r
}

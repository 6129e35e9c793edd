package oracle

import (
	"fmt"
	"slices"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/internal/starts"
	"example.org/weft/periodize/rule"
	"example.org/weft/periodize/season"
	"example.org/weft/periodize/squad"
)

// SquadOptions say what sort of squad is drawn.
type SquadOptions struct {
	Athletes, Days, Capacity int
	Mixed                    bool // minors among the adults, two ratios, one coach
}

// Squad draws a squad that shares one hall: one seed, one squad. Everybody is in
// one of three teams, with small differences of their own.
func Squad(seed uint64, o SquadOptions) (*squad.Request, error) {
	s := NewSource(seed)
	zone, err := calendar.LoadZone(pick(s, "Europe/Amsterdam", "America/New_York", "Asia/Kolkata"))
	if err != nil {
		return nil, err
	}
	from, err := calendar.ParseDate(pick(s, "2026-10-19", "2026-11-09", "2027-01-11", "2027-03-08")) // some with a clock change
	if err != nil {
		return nil, err
	}
	r := &squad.Request{Period: season.Period{From: from, To: from.AddDays(o.Days - 1)}}
	opens := pick(s, 15*60+30, 16*60, 17*60)
	hall := squad.Hall{Place: season.Place{ID: "hall", Hours: []season.Hours{{Days: workdays, From: at(opens), To: at(opens + pick(s, 100, 150, 205))}}},
		Capacity: o.Capacity, SlotMinutes: pick(s, 45, 50, 60), ChangeMinutes: pick(s, 0, 5, 10)}
	if s.Odds(2) {
		hall.Place.Hours = append(hall.Place.Hours, season.Hours{Days: weekend, From: at(10 * 60), To: at(12 * 60)})
	}
	if s.Odds(3) {
		hall.Place.Closed = []season.Period{{From: from.AddDays(3), To: from.AddDays(3)}}
	}
	r.Halls = []squad.Hall{hall}
	if o.Mixed {
		r.Ratios = []squad.Ratio{{Under: 18, Athletes: 2}, {Under: 0, Athletes: 3}}
		r.Coaches = []squad.Coach{{ID: "c1"}}
	}
	teams := make([][]calendar.Event, 3)
	for t := range teams {
		teams[t] = teamEvents(s, zone, r.Period)
	}
	for i := range o.Athletes {
		a := squad.Athlete{}
		year, _, _ := from.YMD()
		age := pick(s, 21, 24, 27, 30)
		if o.Mixed && s.Odds(2) {
			age = pick(s, 14, 16)
		}
		a.Season.Athlete = season.Athlete{ID: fmt.Sprintf("a%02d", i), Zone: zone, Born: season.YearMonth{Year: year - age, Month: 2}, TrainingAgeMonths: pick(s, 6, 20, 36)}
		if s.Odds(3) {
			a.Season.Athlete.Hours = []season.Hours{{Days: allDays, From: at(9 * 60), To: at(pick(s, 18*60, 20*60))}}
		}
		if s.Odds(2) {
			a.Season.Places = []season.Place{{ID: "home"}}
		}
		a.Season.Events = teams[s.Int(0, 2)]
		r.Athletes = append(r.Athletes, a)
	}
	return r, nil
}

func teamEvents(s *Source, zone calendar.Zone, p season.Period) []calendar.Event {
	var out []calendar.Event
	game := pick(s, time.Saturday, time.Sunday, time.Friday)
	train := []time.Weekday{pick(s, time.Monday, time.Tuesday), pick(s, time.Wednesday, time.Thursday)}
	start := pick(s, 18*60+30, 19*60)
	for d := p.From.AddDays(-7); !d.After(p.To.AddDays(7)); d = d.AddDays(1) {
		e := calendar.Event{ID: fmt.Sprintf("e%d", d.DayNumber()), Zone: zone, HasEnd: true}
		switch wd := d.Weekday(); {
		case wd == game && !s.Odds(6), wd == time.Wednesday && s.Odds(5):
			e.Kind, e.Start = calendar.Game, calendar.Wall{Date: d, Clock: at(pick(s, 14*60, 19*60+30))}
			e.End = e.Start.AddMinutes(105)
		case slices.Contains(train, wd):
			e.Kind, e.Start = calendar.Practice, calendar.Wall{Date: d, Clock: at(start)}
			e.End = e.Start.AddMinutes(90)
		default:
			continue
		}
		out = append(out, e)
	}
	return out
}

// Joint is a squad as one program: the seasons of all side by side, and a row for
// each slot of the hall.
type Joint struct {
	Program *Program
	Cases   []*Case
}

// NewJoint writes a squad of one hall as an integer program, from the words: the
// hall's time is cut into slots, a lift at home costs points, minors do not lift
// there, and of nobody's share of a coach there is more than one coach has.
func NewJoint(r *squad.Request) (*Joint, error) {
	j := &Joint{Program: &Program{}}
	h := r.Halls[0]
	zone := r.Athletes[0].Season.Athlete.Zone
	times := slotTimes(h, zone, r.Period)
	slot := map[int64]int{}
	for i, t := range times {
		slot[t.From] = i
	}
	seats, shares := make([][]Term, len(times)), make([][]Term, len(times))
	for i := range r.Athletes {
		a := &r.Athletes[i]
		req := a.Season
		req.Period = r.Period
		req.Places = append([]season.Place{h.Place}, a.Season.Places...)
		c := &Case{Request: req.Canonical()}
		set, problems := rule.New(nil)
		if len(problems) > 0 {
			return nil, fmt.Errorf("oracle: %s", problems[0].Reason)
		}
		c.Model, problems = starts.BuildPart(&c.Request, set, nil, nil, starts.Part{To: r.Period.Days() - 1,
			Slots: []starts.PlaceSlots{{Place: h.Place.ID, Times: times}}})
		if len(problems) > 0 {
			return nil, fmt.Errorf("oracle: %s: %s", problems[0].Path, problems[0].Reason)
		}
		c.Model.NoTies = true
		c.Static = c.Model.Static()
		j.Cases = append(j.Cases, c)
		age, _ := req.Athlete.Born.AgeOn(r.Period.From)
		for l := range c.Model.Choices {
			for o, opt := range c.Model.Choices[l].Options {
				for _, s := range opt {
					x := &c.Model.Choices[l].Slots[s]
					if c.Model.PlaceIDs[x.Place] != h.Place.ID && x.Kind.Lift() {
						c.Static[l][o] += squad.DefaultHomePoints * starts.Point
					}
				}
			}
		}
		one, choices := Encode(c)
		first := j.include(one)
		for l := range c.Model.Choices {
			for o, opt := range c.Model.Choices[l].Options {
				v := first + choices[l][o]
				for _, s := range opt {
					x := &c.Model.Choices[l].Slots[s]
					if c.Model.PlaceIDs[x.Place] != h.Place.ID {
						if age < 18 && x.Kind.Lift() {
							j.Program.Vars[v].Upper = 0
						}
						continue
					}
					n := slot[x.From]
					seats[n] = append(seats[n], Term{v, 1})
					shares[n] = append(shares[n], Term{v, shareOf(r, age)})
				}
			}
		}
	}
	for n := range times {
		j.Program.row(seats[n], AtMost, int64(h.Capacity))
		if len(r.Coaches) > 0 {
			j.Program.row(shares[n], AtMost, wholeCoach*int64(len(r.Coaches)))
		}
	}
	return j, nil
}

// wholeCoach is divisible by every ratio that is drawn.
const wholeCoach = 60

func shareOf(r *squad.Request, age int) int64 {
	if len(r.Ratios) == 0 {
		return 0
	}
	if age < r.Ratios[0].Under {
		return int64(wholeCoach / r.Ratios[0].Athletes)
	}
	return int64(wholeCoach / r.Ratios[1].Athletes)
}

// include adds another program and returns the number of its first variable.
func (j *Joint) include(p *Program) int {
	first := len(j.Program.Vars)
	for _, v := range p.Vars {
		j.Program.add(v)
	}
	for _, r := range p.Rows {
		row := Row{Sense: r.Sense, Right: r.Right}
		for _, t := range r.Terms {
			row.Terms = append(row.Terms, Term{t.Var + first, t.Coef})
		}
		j.Program.Rows = append(j.Program.Rows, row)
	}
	return first
}

// slotTimes cuts the hours of a hall that opens at most once a date.
func slotTimes(h squad.Hall, zone calendar.Zone, p season.Period) []starts.SlotTime {
	var out []starts.SlotTime
	for d := p.From; !d.After(p.To); d = d.AddDays(1) {
		for _, x := range h.Place.Hours {
			closed := slices.ContainsFunc(h.Place.Closed, func(c season.Period) bool { return c.Contains(d) })
			if closed || !slices.Contains(x.Days, d.Weekday()) {
				continue
			}
			at := zone.Resolve(calendar.Wall{Date: d, Clock: x.From}).Instant
			end := zone.Resolve(calendar.Wall{Date: d, Clock: x.To}).Instant
			for !at.Add(time.Duration(h.SlotMinutes) * time.Minute).After(end) {
				out = append(out, starts.SlotTime{From: at.Unix() / 60, To: at.Unix()/60 + int64(h.SlotMinutes)})
				at = at.Add(time.Duration(h.SlotMinutes+h.ChangeMinutes) * time.Minute)
			}
		}
	}
	return out
}

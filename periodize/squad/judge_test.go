package squad

import (
	"context"
	"testing"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize"
	"example.org/weft/periodize/season"
)

// check judges a plan of a squad from the words, by loops over sessions: no code of
// the planner but each athlete's Evaluate.
func check(t interface {
	Helper()
	Errorf(string, ...any)
}, r *Request, p *Plan) {
	t.Helper()
	type times struct{ from, to time.Time }
	var points int64
	there := map[string]map[string]times{} // by hall, then athlete and session
	for _, h := range r.Halls {
		there[h.Place.ID] = map[string]times{}
	}
	for i := range r.Athletes {
		a := &r.Athletes[i]
		plan := p.planOf(a.Season.Athlete.ID)
		if plan == nil {
			t.Errorf("%s has no plan", a.Season.Athlete.ID)
			continue
		}
		if points += plan.Cost.Points; plan.Outcome == season.Refused {
			continue
		}
		for _, s := range plan.Sessions {
			if m, ok := there[s.Place]; ok && s.State != season.DoneState {
				m[a.Season.Athlete.ID+" "+s.ID] = times{s.Start, s.End}
			}
			if _, hall := there[s.Place]; !hall && s.Kind.Lift() && !a.SupervisedHome {
				if age, ok := a.Season.Athlete.Born.AgeOn(s.Date); !ok || age < 18 {
					t.Errorf("%s, a minor, lifts alone on %s", a.Season.Athlete.ID, s.Date)
				}
			}
		}
		req := r.seasonOf(a)
		e, err := (&periodize.Planner{Rules: r.rulesFor(a)}).Evaluate(context.Background(), &req, plan)
		if err != nil || !e.Legal || e.Points != plan.Cost.Points {
			t.Errorf("%s: judged %+v, error %v, plan says %d points", a.Season.Athlete.ID, e, err, plan.Cost.Points)
		}
	}
	if points != p.Points || p.Bound > p.Points || p.Gap != p.Points-p.Bound {
		t.Errorf("points %d, said %d, bound %d, gap %d", points, p.Points, p.Bound, p.Gap)
	}
	zone := r.Athletes[0].Season.Athlete.Zone
	for _, h := range r.Halls {
		starts := slotStarts(h, zone, r.Period)
		for who, x := range there[h.Place.ID] {
			end, ok := starts[x.from.Unix()]
			if !ok || x.to.Unix() > end {
				t.Errorf("%s: %s to %s is in no slot", who, x.from, x.to)
			}
		}
		for at, end := range starts {
			if at < r.Now.Unix() && !r.Now.IsZero() {
				continue // what is past is past
			}
			n, shares := 0, 0.0 // of everybody between the start of a slot and its end
			for i := range r.Athletes {
				a := &r.Athletes[i]
				for _, s := range p.planOf(a.Season.Athlete.ID).Sessions {
					if s.Place == h.Place.ID && s.Start.Unix() < end && at < s.End.Unix() {
						n++
						shares += 1 / float64(r.ratio(a))
					}
				}
			}
			coaches := coachesAt(r, h, zone, at, end)
			if n > h.Capacity || (coaches >= 0 && shares > float64(coaches)+1e-9) {
				t.Errorf("%s at %s: %d athletes, %g shares of %d coaches", h.Place.ID, time.Unix(at, 0).In(zone.Location()), n, shares, coaches)
			}
		}
	}
	for _, s := range p.Slots {
		for _, seat := range s.Seats {
			found := false
			for _, x := range p.planOf(seat.Athlete).Sessions {
				found = found || (x.ID == seat.Session && x.Kind == seat.Kind && x.Place == s.Hall && x.Start.Equal(s.Start))
			}
			if !found {
				t.Errorf("%+v in %s %s is in no plan", seat, s.Hall, s.Start)
			}
		}
	}
}

// slotStarts cuts the hours of a hall: start and end of each slot, in seconds.
func slotStarts(h Hall, zone calendar.Zone, p season.Period) map[int64]int64 {
	out := map[int64]int64{}
	for d := p.From; !d.After(p.To); d = d.AddDays(1) {
		for _, x := range h.Place.Hours {
			open := false
			for _, day := range x.Days {
				open = open || day == d.Weekday()
			}
			for _, c := range h.Place.Closed {
				open = open && !c.Contains(d)
			}
			if !open {
				continue
			}
			at := zone.Resolve(calendar.Wall{Date: d, Clock: x.From}).Instant.Unix()
			end := zone.Resolve(calendar.Wall{Date: d, Clock: x.To}).Instant.Unix()
			for ; at+int64(h.SlotMinutes)*60 <= end; at += int64(h.SlotMinutes+h.ChangeMinutes) * 60 {
				out[at] = at + int64(h.SlotMinutes)*60
			}
		}
	}
	return out
}

func coachesAt(r *Request, h Hall, zone calendar.Zone, at, end int64) int {
	if len(r.Coaches) == 0 {
		for i := range r.Athletes {
			if age, ok := r.Athletes[i].Season.Athlete.Born.AgeOn(r.Period.From); !ok || age < 18 {
				return 1
			}
		}
		return -1
	}
	n := 0
	from, to := zone.Local(time.Unix(at, 0)), zone.Local(time.Unix(end, 0))
	for _, c := range r.Coaches {
		if c.Hall != "" && c.Hall != h.Place.ID {
			continue
		}
		there := len(c.Hours) == 0
		if !there { // minute by minute: hours may adjoin
			there = true
			for at := from.Clock; at < to.Clock; at += 60 {
				now := false
				for _, x := range c.Hours {
					for _, day := range x.Days {
						now = now || (day == from.Date.Weekday() && x.From <= at && at+60 <= x.To)
					}
				}
				there = there && now
			}
		}
		for _, x := range c.Away {
			there = there && !x.Contains(from.Date)
		}
		if there {
			n++
		}
	}
	return n
}

func TestJudgeFindsFaults(t *testing.T) {
	r := rink(9, clock(16, 45))
	p := plan(t, r)
	var seats []Seat
	for _, s := range on(p, "2026-11-19") {
		seats = append(seats, s.Seats...)
	}
	if len(seats) != 8 {
		t.Fatalf("%d seats", len(seats))
	}
	r.Halls[0].Capacity = 7
	quiet := &counter{}
	check(quiet, r, p)
	if quiet.n == 0 {
		t.Error("eight in seven places, and the judge says nothing")
	}
}

type counter struct{ n int }

func (c *counter) Helper()               {}
func (c *counter) Errorf(string, ...any) { c.n++ }

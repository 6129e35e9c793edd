package periodize

import (
	"context"
	"fmt"

	"example.org/weft/calendar"
	"example.org/weft/internal/layered"
	"example.org/weft/internal/starts"
	"example.org/weft/periodize/season"
)

// plan turns a solution into a plan, after the judge has agreed.
func (w *work) plan(ctx context.Context) (*season.Plan, error) {
	broken, points := split(w.solution.Cost)
	_, bound := split(w.solution.Bound)
	if w.solution.Status == layered.Proved {
		bound = points
	}
	verdict, err := verify(w.model, w.slots, broken, points)
	if err != nil {
		return nil, err
	}
	p := w.frame()
	p.Outcome = season.Planned
	p.Proof = season.Proved
	if w.solution.Status != layered.Proved {
		p.Proof = season.Bounded
	}
	p.Cost = season.Cost{Broken: broken, Points: points, Bound: bound, ByRule: []season.RuleCost{}}
	for _, r := range verdict.ByRule {
		p.Cost.ByRule = append(p.Cost.ByRule, season.RuleCost{Rule: r.Rule, Broken: r.Broken, Points: r.Points})
	}
	w.name()
	w.sessions(p)
	if p.Missed, err = w.missed(ctx, verdict); err != nil {
		return nil, err
	}
	w.findings(p, verdict)
	w.questions(p)
	w.changes(p)
	return p, nil
}

// frame is what every plan carries, also a refused one. Lists are empty, never
// null in JSON.
func (w *work) frame() *season.Plan {
	m := w.model
	p := &season.Plan{
		Schema: season.Schema, ID: w.req.Digest() + "-" + w.rulesVersion(), Engine: Engine,
		Now: m.Time(m.Now), Period: m.Period, Zone: m.Zone.Name(), Clocks: m.Clocks(), RulesVersion: w.rulesVersion(),
		EventsDigest: season.EventsDigest(w.req.Events, m.Period),
		Games:        []season.PlanGame{}, Sessions: []season.Session{}, Missed: []season.Missed{},
		Findings: []season.Note{}, Questions: []season.Note{}, Refusals: []season.Note{}, Warnings: []season.Note{},
		Changes: []season.Change{},
	}
	p.Cost.ByRule = []season.RuleCost{}
	if n := len(w.req.Issued); n > 0 {
		p.Revision = w.req.Issued[n-1].Revision + 1
	}
	for _, g := range m.Games {
		e := &m.Events[g]
		if !m.Period.Contains(e.Date) {
			continue
		}
		p.Games = append(p.Games, season.PlanGame{ID: e.ID, Start: m.Time(e.From), End: m.Time(e.To), Date: e.Date,
			DateOnly: e.DateOnly, EndAssumed: e.EndAssumed, Importance: e.Importance.Settled(), Status: e.Status.Settled(),
			Title: title(e), Local: m.LocalGame(e)})
	}
	return p
}

// title is what a person calls a game.
func title(e *starts.Event) string {
	t := e.Opponent
	if t == "" {
		t = e.Title
	}
	return calendar.Inert(t)
}

// refused reports whether no session may be planned at all.
func (w *work) refused() bool {
	first := &w.model.Days[w.model.From]
	return (w.model.AgeKnown && first.Age < 12) || w.heldThroughout()
}

// heldThroughout: every date from now on lies in a hold.
func (w *work) heldThroughout() bool {
	any := false
	for i := w.model.From; i < w.model.To; i++ {
		d := &w.model.Days[i]
		if d.To <= w.model.Now {
			continue
		}
		if !d.Hold {
			return false
		}
		any = true
	}
	return any
}

// refusal is the plan that plans nothing: what is past, and why no more.
func (w *work) refusal() *season.Plan {
	p := w.frame()
	p.Outcome = season.Refused
	p.Proof = season.Proved
	for i := range w.model.Choices {
		c := &w.model.Choices[i]
		for s := range c.Slots {
			if c.Slots[s].Done { // not what is pinned: nothing is planned
				w.slots = append(w.slots, c.Slots[s])
			}
		}
	}
	w.name()
	w.sessions(p)
	first := &w.model.Days[w.model.From]
	if w.model.AgeKnown && first.Age < 12 {
		p.Refusals = append(p.Refusals, season.NewNote("refusal-under-12", season.Subject{}, "", nil))
	}
	if w.heldThroughout() {
		from := w.model.Period.From
		for i := w.model.From; i < w.model.To; i++ {
			if w.model.Days[i].To > w.model.Now {
				from = w.model.Days[i].Date
				break
			}
		}
		p.Refusals = append(p.Refusals, season.NewNote("refusal-hold", season.Subject{Dates: []calendar.Date{from}}, "hold",
			season.Values{"from": season.Str(from.String())}))
	}
	if verdict, err := verdictOf(w.model, w.slots); err == nil {
		// What is past may have broken limits; that is never hidden.
		p.Cost.Broken = verdict.Broken
		for _, r := range verdict.ByRule {
			if r.Broken > 0 {
				p.Cost.ByRule = append(p.Cost.ByRule, season.RuleCost{Rule: r.Rule, Broken: r.Broken})
			}
		}
		w.broken(p, verdict)
	}
	w.questions(p)
	w.changes(p)
	return p
}

// name gives every session its id: the one it was issued or logged with, that of
// the issued session it replaces or was moved from, else a new one from date and
// kind.
func (w *work) name() {
	m := w.model
	used := map[string]bool{}
	for i := range w.slots {
		if w.slots[i].ID != "" {
			used[w.slots[i].ID] = true
		}
	}
	free := func(fits func(r, s *starts.Slot) bool) {
		for i := range w.slots {
			s := &w.slots[i]
			if s.ID != "" {
				continue
			}
			best := -1
			for j := range m.Reference {
				r := &m.Reference[j]
				if r.ID == "" || used[r.ID] || !fits(r, s) {
					continue
				}
				if best < 0 || apart(r, s) < apart(&m.Reference[best], s) {
					best = j
				}
			}
			if best >= 0 {
				s.ID = m.Reference[best].ID
				used[s.ID] = true
			}
		}
	}
	free(func(r, s *starts.Slot) bool { return r.From == s.From && r.Kind == s.Kind })
	free(func(r, s *starts.Slot) bool { return r.From == s.From })
	free(func(r, s *starts.Slot) bool { return r.Kind == s.Kind && apart(r, s) <= movedMinutes })
	taken := map[string]bool{}
	for _, p := range w.req.Issued { // an id once issued never means another session
		for i := range p.Sessions {
			taken[p.Sessions[i].ID] = true
		}
	}
	for i := range w.slots {
		s := &w.slots[i]
		if s.ID != "" {
			continue
		}
		id := fmt.Sprintf("%s-%s", calendar.DateFromDayNumber(s.Day), s.Kind)
		for n := 2; used[id] || taken[id]; n++ {
			id = fmt.Sprintf("%s-%s-%d", calendar.DateFromDayNumber(s.Day), s.Kind, n)
		}
		s.ID = id
		used[id] = true
	}
}

// movedMinutes is how far a session may move and still be the same session: less
// than a week.
const movedMinutes = 7*1440 - 1

func apart(a, b *starts.Slot) int64 {
	d := a.From - b.From
	if d < 0 {
		return -d
	}
	return d
}

func (w *work) sessions(p *season.Plan) {
	m := w.model
	games := newGameDays(m)
	for i := range w.slots {
		s := &w.slots[i]
		out := season.Session{
			ID: s.ID, Start: m.Time(s.From), End: m.Time(s.To), Date: calendar.DateFromDayNumber(s.Day), Minutes: s.Minutes(),
			Kind: s.Kind, State: season.AsWritten, Pinned: s.Pinned, HeavyLowerBody: s.Kind.HeavyLowerBody(),
			SessionLoad: s.Load(), GameDay: games.around(s.Day), Why: []season.Note{},
		}
		if s.Place >= 0 && s.Place < len(m.PlaceIDs) {
			out.Place = m.PlaceIDs[s.Place]
		}
		out.Local = m.Local(s)
		if s.Done {
			out.State = season.DoneState
		}
		out.Why = w.why(i)
		p.Sessions = append(p.Sessions, out)
	}
}

// gameDays are the dates of games, and the first game of each.
type gameDays struct {
	dates []calendar.Date
	first map[calendar.Date]string
}

func newGameDays(m *starts.Model) gameDays {
	g := gameDays{first: map[calendar.Date]string{}}
	for _, i := range m.Games { // in order of time
		e := &m.Events[i]
		if _, ok := g.first[e.Date]; !ok {
			g.first[e.Date] = e.ID
			g.dates = append(g.dates, e.Date)
		}
	}
	return g
}

// around names the games nearest to a date.
func (g gameDays) around(n int) []season.GameOffset {
	out := []season.GameOffset{}
	for _, o := range calendar.GameDay(calendar.DateFromDayNumber(n), g.dates) {
		out = append(out, season.GameOffset{Event: g.first[o.Game], Days: o.Days})
	}
	return out
}

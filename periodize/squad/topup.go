package squad

import (
	"cmp"
	"slices"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize/rule"
	"example.org/weft/periodize/season"
)

// The plan issued last says that a date is fixed 24 hours ahead. Minutes of a game
// come later than that, so for who tops up it is no more than a wish: a session that
// was not in it costs ChangePoints, and what is past counts as done.

// RuleChange is that wish, and ChangePoints what the rule change costs by default.
const (
	RuleChange   = "squad-change"
	ChangePoints = 5
)

// loose reports whether an athlete still has a top-up to come.
func (r *Request) loose(a *Athlete) bool {
	today := r.Period.From
	if zone := a.Season.Athlete.Zone; !r.Now.IsZero() && !zone.IsZero() {
		today = calendar.DateOf(r.Now, zone)
	}
	return r.Issued != nil && slices.ContainsFunc(a.TopUps, func(t TopUp) bool { return !t.Date.Before(today) })
}

// lived are the sessions of an issued plan that are past and not in the log, as
// entries of it.
func (a *Athlete) lived(p *season.Plan, now time.Time) []season.Done {
	zone := a.Season.Athlete.Zone
	var out []season.Done
	for i := range p.Sessions {
		s := &p.Sessions[i]
		known := slices.ContainsFunc(a.Season.Log, func(d season.Done) bool { return d.Session == s.ID || d.ID == s.ID })
		if !s.Start.Before(now) || known || zone.IsZero() {
			continue
		}
		out = append(out, season.Done{Session: s.ID, Kind: s.Kind, Start: zone.Local(s.Start), End: zone.Local(s.End), HasEnd: true})
	}
	return out
}

// changeRule is the wish for the plan issued last.
func changeRule(p *season.Plan) rule.Custom {
	return rule.Custom{ID: RuleChange, Doc: "few changes to the plan issued last", Single: func(_ rule.Day, s rule.Session) rule.Verdict {
		if slices.ContainsFunc(p.Sessions, func(x season.Session) bool { return x.Kind == s.Kind && x.Start.Equal(s.Start) }) {
			return rule.Verdict{}
		}
		return rule.Verdict{Points: ChangePoints}
	}}
}

// compare fills in what a plan made without the issued one changes of it, session
// by session and by id.
func compare(p, last *season.Plan) {
	p.Revision = last.Revision + 1
	old := map[string]*season.Session{}
	for i := range last.Sessions {
		if s := &last.Sessions[i]; p.Period.Contains(s.Date) {
			old[s.ID] = s
		}
	}
	for i := range p.Sessions {
		s := &p.Sessions[i]
		to := s.Start
		c := season.Change{Change: season.Added, Session: s.ID, Kind: s.Kind, To: &to}
		if o := old[s.ID]; o != nil {
			from := o.Start
			c.From, c.Change = &from, season.Moved
			if o.Start.Equal(s.Start) {
				c.Change = season.Unchanged
			}
			if o.Kind != s.Kind {
				c.OldKind = o.Kind
				if c.Change == season.Unchanged {
					c.Change = season.Replaced
				}
			}
			delete(old, s.ID)
		}
		p.Changes = append(p.Changes, c)
	}
	for i := range last.Sessions {
		if o := &last.Sessions[i]; old[o.ID] != nil {
			from := o.Start
			p.Changes = append(p.Changes, season.Change{Change: season.Dropped, Session: o.ID, Kind: o.Kind, From: &from})
		}
	}
	slices.SortStableFunc(p.Changes, func(a, b season.Change) int { return cmp.Compare(first(&a).Unix(), first(&b).Unix()) })
}

// topUpRule is the aim of an athlete's top-ups, and the limit that comes with it.
func topUpRule(list []TopUp) rule.Custom {
	m := &topUps{due: map[calendar.Date]bool{}}
	played := map[string]bool{}
	for _, x := range list {
		m.due[x.Date] = true
		played[x.Event] = played[x.Event] || x.Minutes > 0
	}
	return rule.Custom{ID: RuleTopUp, Doc: "who played little lifts on the day after the game", Memory: m, Plain: m.plain,
		Single: func(d rule.Day, s rule.Session) rule.Verdict {
			soon := func(e calendar.Placed) bool {
				gap := s.Start.Sub(e.Span.End)
				return played[e.ID] && gap >= 0 && gap < fullAfter
			}
			full := s.Kind == season.FullBody || s.Kind == season.Eccentric
			return rule.Verdict{Forbid: full && (slices.ContainsFunc(d.Events, soon) || slices.ContainsFunc(d.Before, soon))}
		}}
}

// fullAfter is how long after minutes in a game no full-size session stands, as
// after a game.
const fullAfter = 24 * time.Hour

// topUps remembers whether there was a lift on a date.
type topUps struct{ due map[calendar.Date]bool }

func (t *topUps) Init() uint64 { return 0 }

func (t *topUps) Step(state uint64, d rule.Day, s rule.Session) (uint64, rule.Verdict) {
	if t.due[d.Date] && s.Kind.Lift() {
		return 1, rule.Verdict{}
	}
	return state, rule.Verdict{}
}

func (t *topUps) EndDay(state uint64, d rule.Day) (uint64, rule.Verdict) {
	if t.due[d.Date] && state == 0 {
		return 0, rule.Verdict{Points: TopUpPoints}
	}
	return 0, rule.Verdict{}
}

func (t *topUps) plain(days []rule.Day) []rule.Finding {
	var out []rule.Finding
	for _, d := range days {
		lift := slices.ContainsFunc(d.Sessions, func(s rule.Session) bool { return s.Kind.Lift() })
		if t.due[d.Date] && !lift {
			out = append(out, rule.Finding{Date: d.Date, Session: -1, Verdict: rule.Verdict{Points: TopUpPoints}})
		}
	}
	return out
}

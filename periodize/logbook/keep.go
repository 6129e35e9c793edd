package logbook

import (
	"example.org/weft/calendar"
	"example.org/weft/load"
	"example.org/weft/periodize/rule"
	"example.org/weft/periodize/season"
)

// KeptBy are the kinds of session that keep a quality, if they are done as
// written; none for those that only the sport keeps.
func KeptBy(q load.Quality) (out []season.Kind) {
	if q > load.MaximalSpeed {
		return nil
	}
	for _, k := range season.Kinds() {
		if ofKind(k)[q] == yes {
			out = append(out, k)
		}
	}
	return out
}

// edgeOf is how many dates after its last stimulus a quality is told to fade: for
// maximal strength the early edge of its band, for the others, whose bands are short
// or which the sport keeps, the late one. ok is false for an unknown quality.
func edgeOf(q load.Quality) (dates int, ok bool) {
	days, spread, ok := q.Residual()
	if q == load.MaximalStrength {
		return days - spread, ok
	}
	return days + spread, ok
}

// edge picks the edge of a band that edgeOf counts to.
func (b Band) edge(q load.Quality) calendar.Date {
	if q == load.MaximalStrength {
		return b.Early
	}
	return b.Late
}

// KeepRule makes an aim that a request carries in its Club: each date on which a
// quality lies as far back as an edge of its band costs so many points, that of
// maximal strength the early edge, else the late one, where [View.Findings] tells
// of it. What is sure of the log before the first date of the period, from, is in
// the rule; sessions of the period count by themselves, and games if the athlete is
// expected to play enough of them. ok is false for a quality that no kind of session
// keeps.
//
// To take the aim back, leave the rule out.
func KeepRule(v View, s Setting, q load.Quality, points int, from calendar.Date) (aim season.ClubRule, ok bool) {
	days, known := edgeOf(q)
	kinds := KeptBy(q)
	if !known || len(kinds) == 0 {
		return season.ClubRule{}, false
	}
	s = s.settled(&v)
	aim = season.ClubRule{Shape: season.ClubAtLeast, Kinds: kinds, Least: 1, Dates: days, Points: min(max(points, 1), season.MaxClubPoints)}
	// The last one is enough: a run that reaches behind it holds it.
	for _, x := range stimuli(s.past(&v), q) {
		if x.Sure && x.Date.Before(from) {
			aim.Before = []calendar.Date{x.Date}
		}
	}
	if ofGame(s.Plays, Maybe[load.SessionRating]{})[q] == yes {
		aim.EventKind = calendar.Game
	}
	code := "keep-strength"
	switch q {
	case load.StrengthEndurance:
		code = "keep-strength-endurance"
	case load.MaximalSpeed:
		code = "keep-speed"
	}
	aim.ID, aim.Says = code, note(code, "dates", days).Text
	return aim, true
}

// Keep is KeepRule for a planner that is handed rules in Rules, and not with the
// request.
func Keep(v View, s Setting, q load.Quality, points int) (aim rule.Custom, ok bool) {
	s = s.settled(&v)
	r, ok := KeepRule(v, s, q, points, calendar.Date{})
	if !ok {
		return rule.Custom{}, false
	}
	n := rule.Need{Least: r.Least, Dates: r.Dates, Points: r.Points, Which: rule.Which{Kinds: r.Kinds}, Events: rule.Match{Kind: r.EventKind}}
	for _, x := range stimuli(s.past(&v), q) { // where the period begins is not known here
		if x.Sure {
			n.Before = append(n.Before, x.Date)
		}
	}
	return rule.AtLeast(r.ID, r.Says, n), true
}

// Proposal is an aim that a plan may be given, because without it a quality
// reaches the edge of its band. Nothing is planned by it until somebody puts its
// rule into a request, and taking the rule out ends it.
type Proposal struct {
	Quality load.Quality
	Edge    calendar.Date // first date at the edge
	Rule    season.ClubRule
	Why     season.Note
}

// Proposals are aims for the qualities that a plan lets reach the edge that
// [KeepRule] keeps them from, also if all was done that may have been. Points are
// what each date from the edge on shall cost. There are none for the young and for
// newcomers, for whom the bands were not made.
func Proposals(v View, s Setting, plan *season.Plan, points int) (out []Proposal) {
	if plan == nil {
		return nil
	}
	s = s.settled(&v)
	if len(s.caveats()) > 1 {
		return nil
	}
	for _, r := range Edges(v, s, plan) {
		edge := r.Ahead.Later.edge(r.Quality)
		if edge.IsZero() {
			continue
		}
		aim, ok := KeepRule(v, s, r.Quality, points, plan.Period.From)
		if !ok {
			continue
		}
		n := note("keep-proposed", "quality", r.Quality, "date", edge, "points", aim.Points)
		n.Subject.Dates = []calendar.Date{edge}
		out = append(out, Proposal{r.Quality, edge, aim, n})
	}
	return out
}

package whatif

import (
	"strings"

	"example.org/weft/calendar"
	"example.org/weft/load"
	"example.org/weft/periodize/logbook"
	"example.org/weft/periodize/season"
)

// Kept says from what it is told when the qualities of an athlete reach the edge
// of what training leaves behind: see [logbook.Edges].
type Kept struct {
	View  logbook.View       // what was done
	Plays logbook.Maybe[int] // minutes of a game that the athlete is expected to play
}

// Edge is the first date of a plan on which a quality was last trained so long ago
// that it may begin to fade: the early edge of a band of trained adults, never a
// cliff. A date is nil where the plan does not let it come so far, or where
// nothing is known from which it could be counted. Where Later stands alone, what
// is sure does not tell, and it may be sooner.
type Edge struct {
	Quality string         `json:"quality"`
	Sooner  *calendar.Date `json:"sooner,omitempty"` // by what is sure alone, never after Later
	Later   *calendar.Date `json:"later,omitempty"`  // if what nobody told of was done, and all games are played
}

// EdgesOf tells the edges under a plan of a request, in the order of
// [logbook.Qualities]. What the plan has before its now is past, and counts as the
// log tells it; its sessions from then on and the practices of the request count
// as done.
func EdgesOf(plan *season.Plan, req *season.Request, k Kept) []Edge {
	if plan == nil || req == nil {
		return nil
	}
	s := logbook.Setting{Today: calendar.DateOf(plan.Now, req.Athlete.Zone), Athlete: req.Athlete, Plays: k.Plays}
	if s.Today.Before(plan.Period.From) {
		s.Today = plan.Period.From
	}
	if n := len(req.Issued); n > 0 {
		s.Issued = req.Issued[n-1].Sessions
	}
	for _, e := range req.Canonical().Events {
		if p, err := calendar.Place(e, calendar.Assumptions{}); err == nil { // a plan was made of them
			s.Events = append(s.Events, p)
		}
	}
	var out []Edge
	for _, r := range logbook.Edges(k.View, s, plan) {
		e := Edge{r.Quality.String(), dateOrNil(r.Ahead.Sooner.Early), dateOrNil(r.Ahead.Later.Early)}
		if e.Sooner != nil && e.Later != nil && e.Sooner.After(*e.Later) {
			e.Sooner = nil // counted from something later, since nothing before is sure
		}
		out = append(out, e)
	}
	return out
}

func dateOrNil(d calendar.Date) *calendar.Date {
	if d.IsZero() {
		return nil
	}
	return &d
}

func dateText(d *calendar.Date) string {
	if d == nil {
		return ""
	}
	return d.String()
}

// edgeColumns are the names of the columns of edges in a table.
func edgeColumns() (out []string) {
	for _, q := range logbook.Qualities() {
		name := strings.ReplaceAll(q.String(), " ", "_")
		out = append(out, "edge_sooner_"+name, "edge_later_"+name)
	}
	return out
}

// edgeCells are the cells below them, empty where there is no date.
func (r *Row) edgeCells() (out []string) {
	for _, q := range logbook.Qualities() {
		sooner, later := "", ""
		for _, e := range r.Edges {
			if e.Quality == q.String() {
				sooner, later = dateText(e.Sooner), dateText(e.Later)
			}
		}
		out = append(out, sooner, later)
	}
	return out
}

// edgeText names maximal strength and speed alone, which are what strength
// sessions are for; all are in the other formats.
func edgeText(list []Edge) string {
	var parts []string
	for _, q := range []load.Quality{load.MaximalStrength, load.MaximalSpeed} {
		for _, e := range list {
			switch {
			case e.Quality != q.String() || e.Sooner == nil && e.Later == nil:
			case e.Sooner == nil:
				parts = append(parts, e.Quality+" "+e.Later.String()+" or sooner")
			case e.Later == nil:
				parts = append(parts, e.Quality+" "+e.Sooner.String()+" or not")
			case *e.Later != *e.Sooner:
				parts = append(parts, e.Quality+" "+e.Sooner.String()+" to "+e.Later.String())
			default:
				parts = append(parts, e.Quality+" "+e.Sooner.String())
			}
		}
	}
	if len(parts) == 0 {
		return ""
	}
	return "at its edge: " + strings.Join(parts, ", ")
}

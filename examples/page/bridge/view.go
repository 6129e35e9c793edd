package bridge

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/internal/say"
	"example.org/weft/periodize/rule"
	"example.org/weft/periodize/season"
)

// View is a plan as the page shows it.
type View struct {
	Invented bool      `json:"invented"`
	Plan     Facts     `json:"plan"`
	Strip    string    `json:"strip"` // HTML of package handout, which escapes all input
	Weeks    []Week    `json:"weeks"`
	Settings Settings  `json:"settings"`
	Notes    []Said    `json:"notes"`
	Read     []Problem `json:"read,omitempty"` // questions and warnings of the files
	Pins     []PinText `json:"pins"`
}

// Facts are the head of a plan.
type Facts struct {
	ID       string `json:"id"`
	Outcome  string `json:"outcome"`
	Proof    string `json:"proof"`
	Points   int64  `json:"points"`
	Bound    int64  `json:"bound"`
	Broken   int64  `json:"broken"`
	Period   string `json:"period"`
	Zone     string `json:"zone"`
	Rules    string `json:"rules"`
	Engine   int    `json:"engine"`
	Revision int    `json:"revision"`
	Athlete  string `json:"athlete"`
	Counts   string `json:"counts"`
	Games    int    `json:"games"`
}

// Week is a row of the plan.
type Week struct {
	Number  int    `json:"number"`
	Title   string `json:"title"`
	Summary string `json:"summary"`
	Month   string `json:"month"` // of its first date
	Days    []Day  `json:"days"`
}

// Day is one date. Outside the period it only fills its week.
type Day struct {
	Date    string   `json:"date"`
	Title   string   `json:"title"`
	Number  int      `json:"number"`
	Weekday string   `json:"weekday"`
	In      bool     `json:"in"`
	Past    bool     `json:"past"`
	Marks   []string `json:"marks"` // break, open week, crowded
	Items   []Item   `json:"items"`
}

// Item is one thing on a date.
type Item struct {
	Type      string `json:"type"` // game, event, session, held, closed
	ID        string `json:"id"`
	Kind      string `json:"kind"`
	Title     string `json:"title"`
	Text      string `json:"text"` // what it is about, or why it is there
	Start     string `json:"start"`
	End       string `json:"end"`
	When      string `json:"when"`  // start and end, or what stands for them, by the clock there
	There     string `json:"there"` // whose clock it is, "" for the plan's own
	Wall      string `json:"wall"`  // start in the event's own zone, as a game is moved by
	Place     string `json:"place"`
	State     string `json:"state"`
	Became    string `json:"became"` // eased or swapped, of a session that is done
	Off       bool   `json:"off"`    // called off
	Home      string `json:"home"`   // of a game
	Movable   bool   `json:"movable"`
	Pinned    bool   `json:"pinned"`
	Important bool   `json:"important"`

	at   time.Time
	rank int
}

// Said is a note of the plan.
type Said struct {
	Class string `json:"class"`
	Text  string `json:"text"`
}

// PinText is a choice that somebody made.
type PinText struct {
	Index int    `json:"index"`
	Text  string `json:"text"`
}

// view shows the plan on the desk.
func (d *Desk) view() View {
	v := View{Invented: d.invented, Plan: d.facts(), Settings: settingsOf(d.req), Notes: []Said{}, Read: problemsOf(d.notes), Pins: d.pins()}
	for _, list := range [][]season.Note{d.plan.Refusals, d.plan.Questions, d.plan.Warnings, d.plan.Findings} {
		for _, n := range list {
			v.Notes = append(v.Notes, Said{string(n.Class), calendar.Inert(n.Text)})
		}
	}
	v.Weeks = d.weeks()
	if b, err := d.book(); err == nil { // else the page goes without the picture
		v.Strip = b.Strip().HTML()
	}
	return v
}

func (d *Desk) facts() Facts {
	p := d.plan
	f := Facts{ID: p.ID, Outcome: string(p.Outcome), Proof: string(p.Proof), Points: p.Cost.Points, Bound: p.Cost.Bound, Broken: p.Cost.Broken,
		Period: spanText(p.Period.From, p.Period.To), Zone: p.Zone, Rules: p.RulesVersion, Engine: p.Engine, Revision: p.Revision,
		Athlete: calendar.Inert(d.req.Athlete.ID), Games: len(p.Games)}
	var parts []string
	for _, k := range season.Kinds() {
		n := 0
		for _, s := range p.Sessions {
			if s.Kind == k {
				n++
			}
		}
		if n > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", n, say.Kind(k)))
		}
	}
	f.Counts = say.Count(len(p.Sessions), "session")
	if len(parts) > 0 {
		f.Counts += ": " + listOf(parts)
	}
	return f
}

// placed puts the events of a request on the time line, each id once.
func placed(req *season.Request) []calendar.Placed {
	r := req.Canonical()
	set, _ := rule.New(r.Rules)
	a := calendar.Assumptions{}
	if set != nil {
		a.GameMinutes = set.Value("game-minutes")
	}
	var out []calendar.Placed
	for _, e := range r.Events {
		if e.Zone.IsZero() {
			e.Zone = r.Athlete.Zone
		}
		if p, err := calendar.Place(e, a); err == nil { // what cannot be placed was refused
			out = append(out, p)
		}
	}
	slices.SortStableFunc(out, calendar.ComparePlaced)
	return out
}

func (d *Desk) weekStart() time.Weekday {
	if set, _ := rule.New(d.req.Rules); set != nil {
		return time.Weekday(set.Value("week-start"))
	}
	return time.Monday
}

// weeks are whole weeks, the first and last filled with dates outside the period.
func (d *Desk) weeks() []Week {
	zone, period := d.req.Athlete.Zone, d.plan.Period
	events := placed(d.req)
	items := map[calendar.Date][]Item{}
	for _, e := range events {
		d.eventItems(e, zone, items)
	}
	for _, p := range d.req.Places {
		for _, c := range p.Closed {
			for x := calendar.Later(c.From, period.From); !x.After(c.To) && !x.After(period.To); x = x.AddDays(1) {
				items[x] = append(items[x], Item{Type: "closed", Kind: "closed", Title: "Closed", Text: calendar.Inert(p.ID), When: "all day", at: zone.DayStart(x), rank: -1})
			}
		}
	}
	for i := range d.plan.Sessions {
		s := &d.plan.Sessions[i]
		items[s.Date] = append(items[s.Date], d.sessionItem(s))
	}
	d.heldItems(items)
	marks := marksOf(events, period)
	var out []Week
	for from := calendar.WeekStart(period.From, d.weekStart()); !from.After(period.To); from = from.AddDays(7) {
		w := Week{Number: len(out) + 1, Title: spanText(from, from.AddDays(6)), Month: say.Month(from)}
		for i := range 7 {
			x := from.AddDays(i)
			_, _, n := x.YMD()
			day := Day{Date: x.String(), Title: say.Day(x), Number: n, Weekday: say.Weekday(x), In: period.Contains(x),
				Past: !zone.DaySpan(x).End.After(d.plan.Now), Marks: marks[x], Items: items[x]}
			slices.SortStableFunc(day.Items, func(a, b Item) int {
				return cmp.Or(a.at.Compare(b.at), cmp.Compare(a.rank, b.rank), cmp.Compare(a.ID, b.ID))
			})
			w.Days = append(w.Days, day)
		}
		w.Summary = d.summary(from, from.AddDays(6))
		out = append(out, w)
	}
	return out
}

// summary counts what a week holds.
func (d *Desk) summary(from, to calendar.Date) string {
	games, lifts, recovery := 0, 0, 0
	for _, g := range d.plan.Games {
		if !g.Date.Before(from) && !g.Date.After(to) {
			games++
		}
	}
	for _, s := range d.plan.Sessions {
		switch {
		case s.Date.Before(from) || s.Date.After(to):
		case s.Kind.Lift():
			lifts++
		default:
			recovery++
		}
	}
	return fmt.Sprintf("%s, %s, %d recovery", say.Count(games, "game"), say.Count(lifts, "lift"), recovery)
}

// marksOf says what kind of dates these are.
func marksOf(placed []calendar.Placed, p season.Period) map[calendar.Date][]string {
	out := map[calendar.Date][]string{}
	f := calendar.FactsOf(placed, p.From, p.To)
	put := func(from, to calendar.Date, mark string) {
		for x := from; !x.After(to); x = x.AddDays(1) {
			if !slices.Contains(out[x], mark) {
				out[x] = append(out[x], mark)
			}
		}
	}
	for _, r := range f.Runs {
		switch r.Class {
		case calendar.Break:
			put(r.From, r.To, "break")
		case calendar.OpenWeek:
			put(r.From, r.To, "open week")
		}
	}
	for _, s := range f.ThreeInSeven {
		put(s.From, s.To, "crowded")
	}
	return out
}

// eventItems puts an event on each date it touches.
func (d *Desk) eventItems(e calendar.Placed, zone calendar.Zone, items map[calendar.Date][]Item) {
	it := Item{Type: "event", ID: e.ID, Kind: string(e.Kind), Title: eventWord(e.Event), Text: name(e.Event), Wall: e.Start.String(),
		Off: !e.Active(), State: string(e.Status.Settled()), at: e.Span.Start, rank: 1}
	if e.DateOnly {
		it.Wall = e.Start.Date.String()
	}
	if e.Kind == calendar.Game {
		it.Type, it.Important, it.Home = "game", e.Importance == calendar.Important, e.Home
		it.Movable = e.Status != calendar.Cancelled && e.Status != calendar.Played && e.Span.Start.After(d.plan.Now)
		if more := gameNotes(e.Event); more != "" {
			it.Place = more
		}
	}
	first, last := calendar.DateOf(e.Span.Start, zone), calendar.DateOf(e.Span.End.Add(-time.Nanosecond), zone)
	if e.Kind == calendar.Game { // a game belongs to the date on which it starts
		first, last = e.Date, e.Date
	}
	period := d.plan.Period
	for x := calendar.Later(first, period.From.AddDays(-6)); !x.After(last) && !x.After(period.To.AddDays(6)); x = x.AddDays(1) {
		one := it
		day := zone.DaySpan(x)
		from, to := zone.Local(e.Span.Start), zone.Local(e.Span.End)
		if e.Kind == calendar.Game && e.Zone.Local(e.Span.Start) != from {
			from, to = e.Zone.Local(e.Span.Start), e.Zone.Local(e.Span.End)
			one.There = thereText(e.Zone.Name())
		}
		switch {
		case e.Kind == calendar.Game && e.DateOnly:
			one.When = "time open"
		case e.DateOnly && !e.EndAssumed || !e.Span.Start.After(day.Start) && !e.Span.End.Before(day.End):
			one.When = "all day"
		default:
			one.Start, one.End = say.Clock(from.Clock), say.Clock(to.Clock)
			one.When = one.Start + "–" + one.End
		}
		if x != first {
			one.at = day.Start
		}
		items[x] = append(items[x], one)
	}
}

func (d *Desk) sessionItem(s *season.Session) Item {
	from, to, zone := d.sessionThere(s)
	it := Item{Type: "session", ID: s.ID, Kind: string(s.Kind), Title: kindWord(s.Kind), Start: from, End: to, There: thereText(zone),
		Place: calendar.Inert(s.Place), State: stateWords[s.State], Pinned: s.Pinned, at: s.Start, rank: 2}
	it.When = it.Start + "–" + it.End
	if m := d.marked(s.ID); m != nil && s.State == season.DoneState {
		it.Became = stateWords[season.State(m.State)]
	}
	if len(s.Why) > 0 {
		it.Text = calendar.Inert(s.Why[0].Text)
	}
	return it
}

// Explained is what planning in full adds to what was shown.
type Explained struct {
	Plan   string `json:"plan"` // the id of the plan it is about
	Missed []Miss `json:"missed"`
}

// Miss is an aim that was not kept.
type Miss struct {
	Text   string   `json:"text"`
	Dates  string   `json:"dates"`
	Date   string   `json:"date"`
	Points int64    `json:"points"`
	InWay  []string `json:"inWay"`
}

// explain plans in full: what stood in the way of each missed aim.
func (d *Desk) explain(ctx context.Context, stage Stage) (any, error) {
	x, err := d.explore(ctx, stage)
	if err != nil {
		return nil, err
	}
	out := Explained{Plan: x.Plan().ID, Missed: []Miss{}}
	names := namesOf(d.req)
	for _, m := range x.Plan().Missed {
		miss := Miss{Text: calendar.Inert(m.Text), Dates: spanText(m.From, m.To), Date: m.From.String(), Points: m.Points, InWay: names.inWay(m.InTheWay)}
		out.Missed = append(out.Missed, miss)
	}
	slices.SortStableFunc(out.Missed, func(a, b Miss) int {
		return cmp.Or(cmp.Compare(b.Points, a.Points), cmp.Compare(a.Date, b.Date))
	})
	return out, nil
}

// eventNames are the names of events with their dates, by id.
func eventNames(events []calendar.Placed) map[string]string {
	out := map[string]string{}
	for _, e := range events {
		n := name(e.Event)
		if n == "" {
			n = lower(eventWord(e.Event))
		}
		out[e.ID] = n + ", " + say.Day(e.Date)
	}
	return out
}

// inWay gathers what stands in the way by rule: each rule once, with its events.
func (names names) inWay(list []season.InTheWay) []string {
	var order []string
	events := map[string][]string{}
	for _, w := range list {
		if _, ok := events[w.Rule]; !ok {
			order = append(order, w.Rule)
			events[w.Rule] = []string{}
		}
		if n := names.events[w.Event]; n != "" {
			events[w.Rule] = append(events[w.Rule], n)
		}
	}
	out := []string{}
	for _, r := range order {
		text := names.rule(r)
		if len(events[r]) > 0 {
			text += " (" + listOf(events[r]) + ")"
		}
		out = append(out, text)
	}
	return out
}

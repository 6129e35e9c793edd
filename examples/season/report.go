package main

import (
	"encoding/json"
	"fmt"
	"strings"

	"example.org/weft/calendar"
	"example.org/weft/internal/say"
	"example.org/weft/load"
	"example.org/weft/periodize/logbook"
	"example.org/weft/periodize/season"
)

// reportWeeks are the weeks whose load is printed.
const reportWeeks = 10

// report prints what the log says up to now, and what follows from it for the
// plan. It is for the coach: body mass and wellness are not in it. with plans once
// more with one further rule of the club's.
func report(in *input, plan *season.Plan, with func(season.ClubRule) (*season.Plan, error)) ([]byte, error) {
	s := newSheet(in, plan, false)
	p := in.past
	r := &reporter{sheet: s, past: p}
	title := "SEASON REPORT  " + say.Clip(in.request.Athlete.ID, 40)
	if in.demo {
		title = say.Pad(title, width-16) + "Invented example"
	}
	s.Line(title)
	s.Line(strings.Repeat("=", width))
	s.fact("As of", s.moment(plan.Now))
	if in.demo {
		s.fact("Demo", "club, athlete, opponents, dates and log are made up")
	}
	if err := r.findings(); err != nil {
		return nil, err
	}
	r.done()
	r.lifts()
	r.kept()
	if err := r.tests(); err != nil {
		return nil, err
	}
	r.loads()
	r.preferences()
	if err := r.proposals(with); err != nil {
		return nil, err
	}
	s.title("HOW TO READ")
	s.Hang("  ", "\"3 to 5\": what is told, and that with all that is not told of. Body mass and wellness are the athlete's own: none of their values is here. "+
		"Nothing in this report predicts injury, diagnoses, or clears anybody to play.")
	s.cautions()
	return []byte(s.String()), nil
}

type reporter struct {
	*sheet
	past *past
}

// findings come first: what needs somebody.
func (r *reporter) findings() error {
	list, err := r.past.view.Findings(logbook.Attention{Setting: r.past.setting, Plan: r.plan, Given: r.past.given, EmptyIsRest: true})
	if err != nil {
		return err
	}
	r.title("WHAT NEEDS SOMEBODY")
	if len(list) == 0 {
		r.Line("  Nothing.")
	}
	for _, f := range list {
		r.Hang(fmt.Sprintf("  %d. ", f.Rank), sentence(r.noteText(f.Note)))
		for i, e := range f.Evidence {
			if i == 3 {
				r.Line(fmt.Sprintf("     - and %d more", len(f.Evidence)-i))
				break
			}
			r.Hang("     - ", r.noteText(e))
		}
		r.Hang("     > ", f.Todo.Text)
	}
	return nil
}

// sentence begins a text with a capital letter.
func sentence(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// bounds are a count of which a part is not known.
func bounds(b logbook.Bounds) string {
	if b.Least == b.Most {
		return fmt.Sprint(b.Least)
	}
	return fmt.Sprintf("%d to %d", b.Least, b.Most)
}

func (r *reporter) done() {
	today := r.past.setting.Today
	from := r.plan.Period.From
	for _, s := range r.past.setting.Issued {
		if s.Date.Before(from) {
			from = s.Date
		}
	}
	if e := r.past.view.Entries; len(e) > 0 && e[0].Date().Before(from) {
		from = e[0].Date()
	}
	r.title("WHAT WAS DONE")
	if !from.Before(today) {
		r.Line("  Nothing lies behind yet.")
		return
	}
	t := r.past.view.Tally(logbook.Past{Period: season.Period{From: from, To: today.AddDays(-1)}, Planned: r.past.setting.Issued, Now: r.plan.Now, Zone: r.zone})
	games, minutes, untold := 0, 0, 0
	for i := range r.past.view.Entries {
		e := &r.past.view.Entries[i]
		if g, ok := e.What.(logbook.Game); ok && !e.Date().After(today) {
			games++
			if minutes += g.Minutes.Value; !g.Minutes.Known {
				untold++
			}
		}
	}
	r.fact("  Dates", fmt.Sprintf("%s to %s, %s", say.Day(from), say.Day(today.AddDays(-1)), say.Count(today.DaysSince(from), "date")))
	r.fact("  Lifts", bounds(t.Lifts)+" done")
	r.fact("  Sessions", fmt.Sprintf("%s done, %d missed, %d of which nothing is told", bounds(t.Sessions), t.Missed, len(t.Unlogged)))
	r.fact("  Longest empty", bounds(t.EmptyRun)+" dates without a session")
	text := fmt.Sprintf("%s logged, %d minutes on the field", say.Count(games, "game"), minutes)
	if untold > 0 {
		text += fmt.Sprintf(", of %d not told", untold)
	}
	r.fact("  Games", text)
	if n := len(r.past.links); n > 0 {
		r.fact("  No names", say.Count(n, "row")+" without a name taken for what was planned or in the calendar then; where that is wrong, name it under planned or event")
	}
}

var stepWords = map[logbook.Step]string{logbook.Advance: "up to", logbook.Hold: "stay at", logbook.Drop: "down to", logbook.NoStep: "first set decides"}

func (r *reporter) lifts() {
	r.title("LIFTS")
	if len(r.past.lifts) == 0 {
		r.Line("  No lift is logged.")
	}
	for _, l := range r.past.lifts {
		worth, step := "-", stepWords[l.Step]
		if e := l.Estimate; e.Known && !e.Stale {
			worth = e.Max.String()
			if e.Floor {
				worth = "at least " + worth
			} else {
				worth += " (" + e.Low.String() + " to " + e.High.String() + ")"
			}
		}
		if l.Next.Known {
			step += " " + l.Next.Value.String()
		}
		r.Line("  " + say.Pad(say.Clip(l.Name, 34), 35) + say.Pad(rounded(worth), 32) + step)
		r.Hang("     - ", r.datesIn(l.Why.Text))
	}
	for _, w := range r.past.warnings {
		r.Hang("  ! ", w.Text)
	}
}

// rounded shortens masses to whole grams of their last digit: an estimate is not
// known to the gram.
func rounded(s string) string {
	words := strings.Fields(s)
	for i, w := range words {
		trimmed := strings.Trim(w, "()")
		if dot := strings.IndexByte(trimmed, '.'); dot > 0 && strings.Trim(trimmed, "0123456789.") == "" {
			words[i] = strings.Replace(w, trimmed, trimmed[:dot], 1)
		}
	}
	return strings.Join(words, " ")
}

func (r *reporter) kept() {
	list := logbook.Edges(r.past.view, r.past.setting, r.plan)
	bare := *r.plan
	bare.Sessions = nil
	without := logbook.Edges(r.past.view, r.past.setting, &bare)
	r.title("WHAT IS KEPT, BY A BAND OF TRAINED ADULTS")
	r.Line("  " + say.Pad("", 67) + "first date of the band, and its last")
	r.Line("  " + say.Pad("quality", 32) + say.Pad("last trained", 19) + say.Pad("band", 16) + say.Pad("this plan", 16) + "no sessions")
	for i, k := range list {
		last, fades := "not known", "-"
		switch {
		case k.Sure.Known():
			last, fades = say.Short(k.Sure.Date), say.Between(k.Sure.Band.Early, k.Sure.Band.Late)
			if k.Perhaps.Date != k.Sure.Date {
				last += " or " + say.Short(k.Perhaps.Date)
			}
		case k.Perhaps.Known():
			last, fades = "perhaps "+say.Short(k.Perhaps.Date), say.Between(k.Perhaps.Band.Early, k.Perhaps.Band.Late)
		}
		r.Line("  " + say.Pad(k.Quality.String(), 32) + say.Pad(last, 19) + say.Pad(fades, 16) + say.Pad(edges(k), 16) + edges(without[i]))
	}
	for _, n := range list[0].Notes {
		r.Hang("  - ", n.Text)
	}
	for _, q := range []load.Quality{load.MaximalStrength, load.MaximalSpeed} {
		words, _ := logbook.Sufficient(q)
		r.Hang("  - ", "enough for "+q.String()+": "+words)
	}
}

// edges are the first dates on which the band is entered and left: by what is
// sure, else by what may be.
func edges(k logbook.Retention) string {
	a := k.Ahead.Sooner
	if !k.Sure.Known() && a == (logbook.Band{}) {
		if a = k.Ahead.Later; !k.Perhaps.Known() && a == (logbook.Band{}) {
			return "not known"
		}
	}
	short := func(d calendar.Date) string {
		if d.IsZero() {
			return "never"
		}
		return say.Between(d, d)
	}
	if a == (logbook.Band{}) {
		return "never"
	}
	return short(a.Early) + ", " + short(a.Late)
}

func (r *reporter) tests() error {
	changes, asked := r.past.view.Changes(logbook.TestOptions{})
	r.title("TESTS")
	if len(changes) == 0 {
		r.Line("  No test is logged twice.")
	}
	for _, c := range changes {
		r.Hang("  "+say.Pad(string(c.Verdict), 9), r.datesIn(c.Why.Text))
	}
	for _, q := range asked {
		r.Hang("  ? ", r.datesIn(q.Text))
	}
	ahead := *r.plan
	ahead.Now = r.plan.Now
	dates, refused, err := logbook.TestDates(&ahead, logbook.Testing{Last: lastTest(&r.past.view), Athlete: r.in.request.Athlete})
	if err != nil {
		return err
	}
	for _, n := range refused {
		r.Hang("  ! ", n.Text)
	}
	var next []string
	for _, d := range dates {
		text := say.Day(d.Date)
		if d.Late {
			text += " (late)"
		}
		next = append(next, text)
	}
	r.Hang("  Next dates: ", listed(next, 6)+"; 4 to 8 weeks apart, 48 h or more before a game, not on the day after one")
	for _, d := range dates {
		pin, ok, err := d.Pin(&ahead)
		if err != nil {
			return err
		}
		if !ok || pin.Start == nil {
			continue
		}
		pin.Place = "" // wherever it is open then
		b, err := json.Marshal(pin)
		if err != nil {
			return err
		}
		r.Hang("  ", "To hold the lift of "+say.Day(d.Date)+" for a test, put among the \"pins\" of the request:")
		r.Hang("    ", spaced(b))
		break
	}
	return nil
}

func lastTest(v *logbook.View) (d calendar.Date) {
	for i := range v.Entries {
		if _, ok := v.Entries[i].What.(logbook.Test); ok {
			d = v.Entries[i].Date()
		}
	}
	return d
}

func (r *reporter) loads() {
	today := r.past.setting.Today
	week := calendar.WeekStart(today, r.plan.Period.From.Weekday())
	from := week.AddDays(-7 * reportWeeks)
	if len(r.past.view.Entries) == 0 {
		from = week
	} else if first := r.past.view.Entries[0].Date(); first.After(from) {
		from = calendar.WeekStart(first, week.Weekday())
	}
	first := week.Weekday()
	pic := r.past.view.Loads(logbook.LoadOptions{Setting: r.past.setting, Period: season.Period{From: from, To: week.AddDays(-1)}, Week: &first, EmptyIsRest: true})
	r.title("LOAD BY WEEK, SESSION RATING x MINUTES")
	if len(pic.Weeks) == 0 {
		r.Line("  No whole week lies behind.")
		return
	}
	r.Line("  " + say.Pad("week from", 12) + say.Pad("lifts", 13) + say.Pad("practice", 13) + say.Pad("games", 13) + say.Pad("all", 13) + say.Pad("not told", 10) + say.Pad("monotony", 10) + "strain")
	for _, w := range pic.Weeks {
		monotony, strain := "-", "-"
		if w.Monotony.Known {
			monotony = fmt.Sprintf("%.2f", w.Monotony.Value)
		}
		if w.Strain.Known {
			strain = fmt.Sprintf("%.0f", float64(w.Strain.Value))
		}
		missing := "-"
		if w.Missing > 0 {
			missing = say.Count(w.Missing, "date")
		}
		r.Line("  " + say.Pad(say.Between(w.From, w.From), 12) + say.Pad(loadText(w.Lifts), 13) + say.Pad(loadText(w.Practices), 13) + say.Pad(loadText(w.Games), 13) +
			say.Pad(loadText(w.Total), 13) + say.Pad(missing, 10) + say.Pad(monotony, 10) + strain)
	}
	r.Hang("  - ", "a week with a date that is not told has no monotony and no strain (Foster 1998)")
	for _, n := range pic.Notes {
		r.Hang("  - ", n.Text)
	}
}

func loadText(x logbook.Range) string {
	switch {
	case x.Known():
		return fmt.Sprintf("%.0f", float64(x.Most))
	case x.Open:
		return fmt.Sprintf("%.0f or more", float64(x.Least))
	}
	return fmt.Sprintf("%.0f-%.0f", float64(x.Least), float64(x.Most))
}

func (r *reporter) preferences() {
	if len(r.past.prefer)+len(r.past.unplaced)+len(r.past.aims) == 0 {
		return
	}
	r.title("NOTES AND AIMS THAT CHANGE THE PLAN")
	for _, p := range r.past.prefer {
		r.Hang("  - ", fmt.Sprintf("%s (%d points a session, entry %s)", r.datesIn(p.Rule.Says), p.Rule.Points, p.Entry))
	}
	for _, a := range r.past.aims {
		r.Hang("  - ", fmt.Sprintf("%s (%d points for each date without; leave out -keep to end it)", a.Says, a.Points))
	}
	for _, n := range r.past.unplaced {
		r.Hang("  ? ", r.datesIn(n.Text))
	}
}

// proposals are aims that keep what the plan lets fade, as rules that a request
// carries: nobody has put them in yet. Those with which the plan does no better
// are not among them.
func (r *reporter) proposals(with func(season.ClubRule) (*season.Plan, error)) error {
	list := logbook.Proposals(r.past.view, r.past.setting, r.plan, keepPoints)
	if len(r.in.request.Club) >= season.MaxClubRules {
		return nil
	}
	told := false
	for _, p := range list {
		if r.in.has(p.Rule.ID) {
			continue
		}
		plan, err := with(p.Rule)
		if err != nil {
			return err
		}
		then := "never"
		for _, o := range logbook.Proposals(r.past.view, r.past.setting, plan, keepPoints) {
			if o.Quality == p.Quality {
				then = "on " + say.Day(o.Edge)
				if !o.Edge.After(p.Edge) {
					then = ""
				}
			}
		}
		if then == "" {
			continue
		}
		if !told {
			r.title("AIMS THE PLAN MAY BE GIVEN")
			r.Hang("  ", "As a rule in \"club\" of the request; -keep puts in those of maximal strength and speed. Nothing is planned by them before.")
			told = true
		}
		r.Hang("  - ", r.datesIn(p.Why.Text)+"; planned so, it does "+then)
		p.Rule.Says = "" // the only text with spaces, at which lines break
		b, err := json.Marshal(p.Rule)
		if err != nil {
			return err
		}
		r.Hang("    ", spaced(b))
	}
	return nil
}

// spaced puts spaces into a JSON text whose strings have none, so that lines break
// between its parts.
func spaced(b []byte) string {
	var out strings.Builder
	inside := false
	for _, c := range b {
		out.WriteByte(c)
		switch {
		case c == '"':
			inside = !inside
		case !inside && (c == ':' || c == ','):
			out.WriteByte(' ')
		}
	}
	return out.String()
}

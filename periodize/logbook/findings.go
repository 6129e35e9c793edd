package logbook

import (
	"slices"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/load"
	"example.org/weft/periodize/season"
)

// When something is worth a coach's attention. Common practice, no source, where
// nothing else stands.
const (
	findingsShort  = 7  // entries of a list, if nothing else is asked
	lookBack       = 14 // dates
	lookAhead      = 21
	leastPlanned   = 3   // lifts of which at least half were missed
	monotonyHigh   = 2.0 // Foster 1998, MSSE 30:1164-1168, from memory
	monotonyBefore = 3   // whole weeks that the week's load has to exceed
	monotonyMore   = 130 // percent of the heaviest of them that it has to reach
	leastFallen    = 2   // lifts that are worth less together
	fallenSince    = 28  // dates
)

// Attention says what a coach's list is made from.
type Attention struct {
	Setting
	Plan  *season.Plan // what is ahead; nil is none
	Given Given        // cards and kit, for the lifts; Today and Athlete are those of the setting
	Tests TestOptions
	Off   season.Period // the off-season that body mass is compared with
	Most  int           // entries of the list; 0 is 7
	// EmptyIsRest is that of [LoadOptions].
	EmptyIsRest bool
}

// Finding is one thing that needs somebody, with what it rests on and what to do.
type Finding struct {
	Rank     int // 1 is the first to look at
	Note     season.Note
	Evidence []season.Note
	Todo     season.Note
}

// Findings are what needs a coach's attention, most pressing first: questions that
// hold back other answers, what fades, tests that fell, lifts that are worth
// less, lifts missed, mornings in a row worse than the athlete's own usual, weeks
// without variety, body mass of adults. The list is short, and empty when nothing
// is wrong. It says nothing of injury, and holds no values of health.
//
// Of what is not known the harmless reading is taken: that something was not
// logged is a question, never an alarm.
//
// Of 9600 weeks of 400 simulated athletes with whom nothing was wrong 131 had a
// finding, 1.4 of 100: 0.9 a test (2.5 of 100 tests fall by more than their noise by
// chance, and stay news for three weeks), 0.2 half of the lifts missed, as had
// happened, 0.1 a quality that fades, 0.1 mornings, 0.04 a week without variety,
// none lifts that are worth less. A loss of 3 % a week was found within three to
// four weeks.
//
// The error is that of [View.Progress].
func (v View) Findings(a Attention) ([]Finding, error) {
	a.Setting = a.Setting.settled(&v)
	v = v.until(a.Today)
	a.Given.Today, a.Given.Athlete = a.Today, a.Athlete
	lifts, _, err := v.Progress(a.Given)
	if err != nil {
		return nil, err
	}
	before := a.Given
	before.Today = a.Today.AddDays(-fallenSince)
	then, _, err := v.Progress(before)
	if err != nil {
		return nil, err
	}
	changes, asked := v.Changes(a.Tests)
	var f findings
	mass, adult := v.BodyMass(MassOptions{Today: a.Today, Born: a.Athlete.Born, Off: a.Off})
	f.questions(&v, lifts, slices.Concat(asked, mass.Questions))
	f.unlogged(&v, &a)
	f.retention(&v, &a)
	f.tests(changes, a.Today)
	f.lifts(lifts, then)
	f.missed(&v, &a)
	f.wellness(&v, a.Today)
	f.loads(&v, &a)
	if adult && a.Off.Days() > 0 {
		for _, n := range mass.Findings {
			f.add(n, "todo-mass")
		}
	}
	most := a.Most
	if most <= 0 {
		most = findingsShort
	}
	if len(f) > most {
		f = f[:most]
	}
	for i := range f {
		f[i].Rank = i + 1
	}
	return f, nil
}

// findings is a list in the order in which its kinds are looked for.
type findings []Finding

func (f *findings) add(n season.Note, todo string, evidence ...season.Note) {
	*f = append(*f, Finding{Note: n, Evidence: evidence, Todo: note(todo)})
}

// questions gathers what stays unused until somebody answers.
func (f *findings) questions(v *View, lifts []Lift, others []season.Note) {
	list := slices.Concat(v.Questions, others)
	for _, l := range lifts {
		list = append(list, l.Questions...)
	}
	if len(list) > 0 {
		f.add(note("ask-entries", "entries", len(list)), "todo-answer", list...)
	}
}

// unlogged asks once for all planned sessions of which nothing is told.
func (f *findings) unlogged(v *View, a *Attention) {
	t := v.Tally(a.past(lookBack))
	if len(t.Questions) > 0 {
		f.add(note("ask-unlogged", "sessions", len(t.Questions), "dates", lookBack), "todo-log", t.Questions...)
	}
}

// past is the last dates that have ended, as a tally takes them.
func (a *Attention) past(dates int) Past {
	z := a.Athlete.Zone
	return Past{Period: season.Period{From: a.Today.AddDays(-dates), To: a.Today.AddDays(-1)}, Planned: a.Issued, Now: z.DayStart(a.Today), Zone: z}
}

// retention tells of a quality that fades whatever was not logged, or that the
// plan lets fade: maximal strength from the early edge of its band, the others,
// whose bands are short or which the sport keeps, when it is over. A quality of
// which nothing is known is not told at all, and what no session of the plan keeps
// is not told ahead. Of the young and of newcomers only strength is told, when its
// band is over. Where the log has been silent for longer than a fortnight there
// is one question, and no alarm.
func (f *findings) retention(v *View, a *Attention) {
	if last := v.told(); !last.IsZero() && a.Today.DaysSince(last) > lookBack {
		n := note("ask-silent", "date", last, "days", a.Today.DaysSince(last))
		n.Subject.Dates = []calendar.Date{last}
		f.add(n, "todo-log")
		return
	}
	for _, r := range Edges(*v, a.Setting, a.Plan) {
		early := r.Quality == load.MaximalStrength
		p, edge := r.Perhaps, r.Ahead.Later.edge(r.Quality)
		switch {
		case !p.Known():
		case a.outside() && (!early || p.Phase != load.BandOver):
		case p.Phase == load.BandOver || p.Phase == load.Fading && early:
			n := note("kept-fading", "quality", r.Quality, "days", p.Days, "date", p.Date, "early", p.Band.Early, "late", p.Band.Late)
			n.Subject.Dates = []calendar.Date{p.Date}
			f.add(n, "todo-train", a.next(v, r.Quality), r.Notes[0])
		case len(KeptBy(r.Quality)) > 0 && !edge.IsZero() && edge.DaysSince(a.Today) <= lookAhead:
			n := note("kept-ahead", "quality", r.Quality, "date", edge, "last", p.Date)
			n.Subject.Dates = []calendar.Date{edge}
			f.add(n, "todo-plan", r.Notes[0])
		}
	}
}

// outside reports whether the table of what is kept was made for others than this
// athlete: then only strength not trained for longer than its band is told.
func (a *Attention) outside() bool {
	return len(a.caveats()) > 1
}

// told is the date of the newest session, practice or game that is told, also of
// those that were missed or are disputed.
func (v *View) told() (last calendar.Date) {
	take := func(e *Entry) {
		switch e.What.(type) {
		case Session, Practice, Game:
			if d := e.Date(); d.After(last) {
				last = d
			}
		}
	}
	for i := range v.Entries {
		take(&v.Entries[i])
	}
	for _, d := range v.Disputed {
		for i := range d.Entries {
			take(&d.Entries[i])
		}
	}
	return last
}

// next says when a plan trains a quality again.
func (a *Attention) next(v *View, q load.Quality) season.Note {
	for _, x := range stimuli(a.ahead(v, a.Plan), q) {
		return note("kept-next", "of", x.Of, "date", x.Date)
	}
	return note("kept-none")
}

// tests tells of results that are clearly worse, for so long as they are news.
func (f *findings) tests(changes []Change, today calendar.Date) {
	for _, c := range changes {
		worse := c.Difference < 0
		switch c.Unit {
		case InSeconds, InMillis:
			worse = !worse
		case InBeats:
			continue // either can be good
		}
		if c.Verdict == Yes && worse && today.DaysSince(c.After.Date) <= lookAhead {
			f.add(c.Why, "todo-retest")
		}
	}
}

// lifts tells of several lifts that are worth less than four weeks ago by more
// than their estimates are uncertain; a load that comes down is what progress is
// for.
func (f *findings) lifts(now, then []Lift) {
	var why []season.Note
	for _, l := range now {
		i := slices.IndexFunc(then, func(o Lift) bool { return o.Exercise == l.Exercise })
		if i < 0 || !l.Estimate.Known || !then[i].Estimate.Known || l.Estimate.Stale || then[i].Estimate.Stale || l.Estimate.Floor {
			continue
		}
		if e := then[i].Estimate; l.Estimate.Max < e.Low {
			n := note("lift-fell", "exercise", l.Name, "max", l.Estimate.Max, "before", e.Max, "low", e.Low, "dates", fallenSince)
			why = append(why, n, l.Basis)
		}
	}
	if len(why) >= 2*leastFallen {
		f.add(note("lifts-fell", "lifts", len(why)/2, "dates", fallenSince), "todo-ease", why...)
	}
}

// missed tells of a fortnight in which half of the lifts or more were missed.
func (f *findings) missed(v *View, a *Attention) {
	past := a.past(lookBack)
	kinds := map[string]season.Kind{}
	planned := 0
	for _, s := range a.Issued {
		if s.Kind.Lift() && past.Period.Contains(s.Date) && kinds[s.ID] == "" {
			kinds[s.ID] = s.Kind
			planned++
		}
	}
	missed := 0
	var dates []calendar.Date
	v.sessions(func(e *Entry, s *Session) {
		if s.State == Missed && s.Session.Lift() && past.Period.Contains(e.Date()) {
			missed++
			dates = append(dates, e.Date())
			if kinds[s.Planned] == "" {
				planned++ // of a plan that is not at hand
			}
		}
	})
	if planned >= leastPlanned && 2*missed >= planned {
		n := note("lifts-missed", "missed", missed, "planned", planned, "dates", lookBack)
		n.Subject.Dates = dates
		f.add(n, "todo-missed")
	}
}

// wellness tells of mornings in a row that were worse than usual, without a value.
func (f *findings) wellness(v *View, today calendar.Date) {
	run, ok := v.WellnessRun(today)
	if !ok || run.Mornings == 0 {
		return
	}
	n := note("wellness-run", "mornings", run.Mornings, "from", run.From, "to", run.To, "usual", run.Usual)
	n.Subject.Dates = []calendar.Date{run.From, run.To}
	f.add(n, "todo-ask")
}

// loads tells of the last whole week, if it was both heavier than the three before
// and without variety.
func (f *findings) loads(v *View, a *Attention) {
	monday := calendar.WeekStart(a.Today, time.Monday)
	from := monday.AddDays(-7 * (monotonyBefore + 1))
	if len(v.Entries) == 0 || v.Entries[0].Date().After(from) {
		return // before the log begins nothing is known
	}
	p := v.Loads(LoadOptions{Setting: a.Setting, EmptyIsRest: a.EmptyIsRest, Period: season.Period{From: from, To: monday.AddDays(-1)}})
	n := len(p.Weeks)
	if n != monotonyBefore+1 {
		return
	}
	w := p.Weeks[n-1]
	if !w.Monotony.Known || w.Monotony.Value < monotonyHigh {
		return
	}
	for _, b := range p.Weeks[:n-1] {
		if !b.Total.Known() || 100*w.Total.Most < monotonyMore*b.Total.Most {
			return
		}
	}
	x := note("load-monotony", "week", w.From, "load", int(w.Total.Most), "tenths", tenthsText(w.Monotony.Value))
	x.Subject.Dates = []calendar.Date{w.From}
	f.add(x, "todo-vary")
}

// tenthsText is a number with one decimal, rounded towards 0.
func tenthsText(x float64) string {
	return decimalText(Milli(x*10) * 100)
}

package exercise_test

import (
	"errors"
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/load"
	"example.org/weft/periodize/exercise"
	"example.org/weft/periodize/season"
)

func item(c exercise.Card, id string) (exercise.Item, bool) {
	for _, b := range c.Blocks {
		for _, it := range b.Items {
			if it.ID == id && it.Slot != "ramp-up" {
				return it, true
			}
		}
	}
	return exercise.Item{}, false
}

func hasNote(list []season.Note, code string) bool {
	return slices.ContainsFunc(list, func(n season.Note) bool { return n.Code == code })
}

// TestNoMaximum: 60 kg x 6 with two left is 8 to failure, 76.00 kg by Epley
// (derived); five with two left from it are 61.62 kg, rounded down to 60 kg on a
// 20 kg bar with one pair of each disc from 20 to 2.5 kg and 1.25 kg missing, and
// the same with it.
func TestNoMaximum(t *testing.T) {
	kit := exercise.Gym()
	kit.Discs = nil
	for _, m := range []load.Mass{20_000, 15_000, 10_000, 5000, 2500, 1250} {
		kit.Discs = append(kit.Discs, load.Disc{Mass: m, Pairs: 1})
	}
	in := exercise.Input{Session: session(season.FullBody, 55, "2026-11-10"), Athlete: adult(), Kit: kit}
	in.Profile.Avoid = avoidBut(t, exercise.Squat, "back-squat")
	in.Profile.Avoid = append(in.Profile.Avoid, avoidBut(t, exercise.Hinge, "")...)
	set := exercise.DoneSet{Exercise: "back-squat", Date: day("2026-11-02"), Load: 60 * load.Kilogram, Reps: 6, Left: 2}
	weigh := func(sets ...exercise.DoneSet) (season.Exercise, exercise.Card) {
		in.History.Sets = sets
		c, err := exercise.Builder{}.Session(in)
		if err != nil {
			t.Fatal(err)
		}
		it, ok := item(c, "back-squat")
		if !ok {
			t.Fatalf("no squat:\n%s", printed(c))
		}
		return it.Exercise, c
	}
	x, _ := weigh(set)
	if x.Load == nil || x.Load.Grams != 60_000 || x.Evidence.Code != "load-set" || x.Evidence.Values["max"].Text != "76 kg" ||
		!strings.HasPrefix(x.Evidence.Values["raw"].Text, "61.62") || x.Evidence.Values["curve"].Text != "epley" {
		t.Errorf("%+v, %+v", x.Load, x.Evidence)
	}
	if x, _ = weigh(); x.Load != nil || x.Evidence.Code != "load-none" || !strings.Contains(x.Effort, "2 more times") {
		t.Errorf("no log: %+v", x)
	}
	many := set
	many.Reps, many.Left = 20, 0
	if x, _ = weigh(many); x.Load != nil || x.Evidence.Code != "load-too-many" {
		t.Errorf("20 repetitions: %+v", x.Evidence)
	}
	old := set
	old.Date = day("2026-08-02") // 100 dates
	if x, _ = weigh(old); x.Load != nil || x.Evidence.Code != "load-stale" || x.Evidence.Values["age"].Number != 100 {
		t.Errorf("100 dates: %+v", x.Evidence)
	}
	slip := set
	slip.Load, slip.Date = 760*load.Kilogram, day("2026-11-05")
	x, c := weigh(set, slip)
	if x.Load == nil || x.Load.Grams != 60_000 || !hasNote(c.Notes, "question-jump") {
		t.Errorf("760 kg: %+v\n%s", x, printed(c))
	}
	slip.Load, slip.Confirmed = 66*load.Kilogram, false
	if x, _ = weigh(set, slip); x.Load == nil || x.Load.Grams != 67_500 && x.Load.Grams != 65_000 {
		t.Errorf("66 kg, a jump of 10 percent: %+v", x.Load)
	}
	in.Athlete.TrainingAgeMonths = -1
	if x, _ = func() (season.Exercise, exercise.Card) { in.History.Sets = nil; return anyMain(t, in) }(); x.Load != nil || !strings.Contains(x.Effort, "3 more times") {
		t.Errorf("unknown training age: %+v", x)
	}
}

func anyMain(t *testing.T, in exercise.Input) (season.Exercise, exercise.Card) {
	t.Helper()
	in.Profile.Avoid = nil
	c, err := exercise.Builder{}.Session(in)
	if err != nil {
		t.Fatal(err)
	}
	for _, b := range c.Blocks {
		for _, it := range b.Items {
			if it.Slot == "main lower" {
				return it.Exercise, c
			}
		}
	}
	t.Fatalf("no main lift:\n%s", printed(c))
	return season.Exercise{}, c
}

func avoidBut(t *testing.T, p exercise.Pattern, keep string) []string {
	t.Helper()
	var out []string
	for _, x := range (exercise.Catalogue{}).All() {
		if x.Pattern == p && x.ID != keep && x.Role == exercise.Main {
			out = append(out, x.ID)
		}
	}
	return out
}

// TestThirteen: a beginner of 13 does 2 sets of 6 to 8, supervised, without
// kilograms from a maximum; growing fast, without hard landings and lowering.
func TestThirteen(t *testing.T) {
	in := exercise.Input{Session: session(season.FullBody, 45, "2026-11-10"), Kit: exercise.Gym(),
		Athlete: season.Athlete{ID: "b", Born: season.YearMonth{Year: 2013, Month: 4}, Maxima: []season.Maximum{{Exercise: "goblet-squat", Grams: 40_000, Kind: "tested", Date: day("2026-11-01")}}}}
	in.Profile.GrowthSpurt = true
	c, err := exercise.Builder{}.Session(in)
	if err != nil {
		t.Fatal(err)
	}
	for _, b := range c.Blocks {
		for _, it := range b.Items {
			x, _ := exercise.Catalogue{}.Find(it.ID)
			if it.Exercise.Load != nil || it.Exercise.Sets > 2 || x.Impact == 2 || x.Skill > 0 || x.Load == exercise.Bar {
				t.Errorf("%+v", it.Exercise)
			}
		}
	}
	if x, _ := anyMain(t, in); x.Reps != "6-8" || x.Sets != 2 || !strings.Contains(x.Effort, "3 more times") {
		t.Errorf("%+v", x)
	}
	if !hasNote(c.Notes, "card-supervised") || !hasNote(c.Notes, "question-heel-knee") {
		t.Error(printed(c))
	}
	// Progress: the last load again, and one small step after eight with three left.
	in.History.Sets = []exercise.DoneSet{{Exercise: "goblet-squat", Date: day("2026-11-05"), Load: 20 * load.Kilogram, Reps: 8, Left: 3}}
	if x, _ := anyMain(t, in); x.Load == nil || x.Load.Grams != 22_000 || x.Evidence.Code != "load-step" {
		t.Errorf("%+v %+v", x.Load, x.Evidence)
	}
	in.History.Sets[0].Reps = 7
	if x, _ := anyMain(t, in); x.Load == nil || x.Load.Grams != 20_000 || x.Evidence.Code != "load-last" {
		t.Errorf("%+v %+v", x.Load, x.Evidence)
	}
	t.Log("\n" + printed(c))
}

// TestSoreGroin: left groin 3 of 10, squeeze 12 % under: swapped, complete, a
// hinge in a narrow stance and a short-lever squeeze in; back after two clear
// sessions.
func TestSoreGroin(t *testing.T) {
	in := exercise.Input{Session: session(season.FullBody, 55, "2026-11-10"), Athlete: adult(), Kit: exercise.Gym()}
	written, err := exercise.Builder{}.Session(in)
	if err != nil {
		t.Fatal(err)
	}
	groin := exercise.Complaint{Region: "groin", Side: "left", Pain: 3, SqueezeBelow: 12, Squeezed: true}
	today := func(p exercise.Complaint) exercise.Result {
		t.Helper()
		r, err := exercise.Builder{}.Today(in, written, exercise.CheckIn{Pain: []exercise.Complaint{p}})
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	s, ok := today(groin).(exercise.Swapped)
	if !ok {
		t.Fatal("not swapped")
	}
	if _, ok := item(s.Card, "adductor-squeeze"); !ok || len(s.Card.Omitted) > 0 || s.Card.Minutes != 55 || len(s.Physio) != 1 || s.Refer {
		t.Errorf("%v %v\n%s", s.Physio, s.Refer, printed(s.Card))
	}
	if x, _ := mainOf(s.Card); x.Pattern != "hinge" && x.Pattern != "squat" {
		t.Error(printed(s.Card))
	}
	for _, id := range []string{"lateral-lunge", "skater-jump", "lateral-bound", "sprint-10", "sumo-deadlift", "long-copenhagen", "short-copenhagen", "back-squat"} {
		if _, ok := item(s.Card, id); ok {
			t.Errorf("%s with a sore groin", id)
		}
	}
	t.Log("\n" + printed(s.Card))
	worse := groin
	worse.Pain = 6
	if h, ok := today(worse).(exercise.Held); !ok || !h.Clearance || h.Effect().Hold == nil || h.Effect().Lift {
		t.Error("6 of 10 is not held until cleared")
	}
	cough := groin
	cough.Cough = true
	if _, ok := today(cough).(exercise.Held); !ok {
		t.Error("pain when coughing is not held")
	}
	long := groin
	long.Since = day("2026-10-27")
	if s, ok := today(long).(exercise.Swapped); !ok || !s.Refer || !hasNote(s.Why, "day-refer") {
		t.Error("the third week is not referred")
	}
	side := groin
	side.Side = ""
	if s, ok := today(side).(exercise.Swapped); !ok || !hasNote(s.Questions, "question-side") {
		t.Error("no side is not asked")
	}
	// Next morning 0 of 10: lateral work stays out until the second clear one.
	in.Session = session(season.FullBody, 55, "2026-11-12")
	past := groin
	past.Date = day("2026-11-10")
	in.History.Reports = []exercise.Complaint{past}
	clear := exercise.Complaint{Region: "groin", Side: "left"}
	if r := today(clear); !hasNote(whyOf(r), "day-not-clear") || slices.ContainsFunc(itemsOf(r), func(it exercise.Item) bool { return loadsSore(it, "groin", "left") }) {
		t.Error("back at once")
	}
	for i, d := range []string{"2026-11-10", "2026-11-11"} {
		x := clear
		x.Date = day(d).AddDays(1)
		in.History.Reports = append(in.History.Reports, x)
		in.Session = session(season.FullBody, 55, "2026-11-14")
		if got := hasNote(whyOf(today(clear)), "day-not-clear"); got != (i == 0) {
			t.Errorf("after %d clear sessions: still out %v", i+1, got)
		}
	}
}

func whyOf(r exercise.Result) []season.Note {
	switch r := r.(type) {
	case exercise.AsWritten:
		return r.Why
	case exercise.Eased:
		return r.Why
	case exercise.Swapped:
		return r.Why
	case exercise.Held:
		return r.Why
	}
	return nil
}

func itemsOf(r exercise.Result) []exercise.Item {
	var c exercise.Card
	switch r := r.(type) {
	case exercise.AsWritten:
		c = r.Card
	case exercise.Eased:
		c = r.Card
	case exercise.Swapped:
		c = r.Card
	}
	var out []exercise.Item
	for _, b := range c.Blocks {
		out = append(out, b.Items...)
	}
	return out
}

func mainOf(c exercise.Card) (season.Exercise, bool) {
	for _, b := range c.Blocks {
		for _, it := range b.Items {
			if it.Slot == "main lower" {
				return it.Exercise, true
			}
		}
	}
	return season.Exercise{}, false
}

// TestExamWeek: two sessions of 30 minutes have 40 to 60 % of the sets of a
// usual week, and nothing new.
func TestExamWeek(t *testing.T) {
	plan := invented(4)
	plan.Sessions = slices.DeleteFunc(plan.Sessions, func(s season.Session) bool { return s.Kind == season.Recovery })
	exam := season.Note{Code: "why-short-exam", Class: season.Why}
	for i := range plan.Sessions {
		s := &plan.Sessions[i]
		if s.Date.After(day("2026-09-27")) {
			if s.Minutes = 30; s.Kind != season.Primer {
				s.Why = []season.Note{exam}
			}
			s.End = s.Start.Add(30 * time.Minute)
		}
	}
	_, cards, err := exercise.Builder{}.Season(plan, club())
	if err != nil {
		t.Fatal(err)
	}
	usual, exams, seen := 0, 0, map[string]bool{}
	for _, c := range cards {
		n := 0
		for _, s := range c.Sets() {
			n += s
		}
		if c.Date.After(day("2026-09-27")) {
			exams += n
			if c.Kind == season.Primer {
				continue
			}
			if !hasNote(c.Notes, "card-exam") || c.Minutes != 30 {
				t.Error(printed(c))
			}
			for id := range ids(c) {
				if !seen[id] {
					t.Errorf("%s is new in the exams", id)
				}
			}
		} else {
			usual += n
		}
		for _, b := range c.Blocks {
			for _, it := range b.Items {
				seen[it.ID] = true
			}
		}
	}
	if percent := exams * 100 / (usual / 3); percent < 40 || percent > 60 {
		t.Errorf("%d sets in the exam week, %d a week before: %d %%", exams, usual/3, percent)
	}
}

// TestBreakBlock: an eccentric session lowers slowly, a trimmed one never.
func TestBreakBlock(t *testing.T) {
	for _, kind := range []season.Kind{season.Eccentric, season.Trimmed} {
		c, err := exercise.Builder{}.Session(exercise.Input{Session: session(kind, 50, "2026-12-22"), Athlete: adult(), Kit: exercise.Gym()})
		if err != nil {
			t.Fatal(err)
		}
		slow := 0
		for _, b := range c.Blocks {
			for _, it := range b.Items {
				if x, _ := (exercise.Catalogue{}).Find(it.ID); x.Eccentric && b.Rounds > 0 {
					slow++
				}
			}
		}
		if (slow > 0) != (kind == season.Eccentric) {
			t.Errorf("%s: %d exercises lower slowly\n%s", kind, slow, printed(c))
		}
		home, err := exercise.Builder{}.Session(exercise.Input{Session: session(kind, 50, "2026-12-22"), Athlete: adult()})
		if err != nil || len(home.Omitted) > 0 {
			t.Errorf("at home without kit: %v\n%s", err, printed(home))
		}
	}
}

// TestTwentyMinutes: a sore groin, 20 minutes and one kettlebell make a session
// with all four regions; 12 minutes and a corridor do too.
func TestTwentyMinutes(t *testing.T) {
	in := exercise.Input{Session: session(season.FullBody, 55, "2026-11-10"), Athlete: adult(), Kit: exercise.Gym()}
	written, err := exercise.Builder{}.Session(in)
	if err != nil {
		t.Fatal(err)
	}
	for _, x := range []struct {
		minutes int
		kit     exercise.Kit
		pain    []exercise.Complaint
	}{
		{20, exercise.Kit{Kettlebells: []load.Mass{16 * load.Kilogram}}, []exercise.Complaint{{Region: "groin", Side: "left", Pain: 3}}},
		{12, exercise.Kit{Words: []string{"corridor"}}, nil},
	} {
		r, err := exercise.Builder{}.Today(in, written, exercise.CheckIn{Minutes: x.minutes, Kit: &x.kit, Pain: x.pain})
		if err != nil {
			t.Fatal(err)
		}
		s, ok := r.(exercise.Swapped)
		if !ok || len(s.Card.Omitted) > 0 || s.Card.Minutes != x.minutes || !hasNote(s.Why, "day-minutes") || !hasNote(s.Why, "day-kit") {
			t.Errorf("%v\n%s", r.State(), printed(s.Card))
		}
		t.Log("\n" + printed(s.Card))
	}
}

func TestGaps(t *testing.T) {
	in := exercise.Input{Session: session(season.FullBody, 55, "2026-11-10"), Athlete: club().Athlete, Kit: exercise.Gym()}
	sets := func(gap int) (rounds int, grams int64, code string) {
		in.History.Lifts = []calendar.Date{in.Session.Date.AddDays(-gap - 1)}
		x, c := anyMain(t, in)
		for _, n := range c.Notes {
			if strings.HasPrefix(n.Code, "card-restart") {
				code = n.Code
			}
		}
		if x.Load != nil {
			grams = x.Load.Grams
		}
		return x.Sets, grams, code
	}
	r, full, code := sets(6)
	if r != 3 || full == 0 || code != "" {
		t.Errorf("6 dates: %d %d %s", r, full, code)
	}
	if r, g, code := sets(7); r != 2 || g != full || code != "card-restart" {
		t.Errorf("7 dates: %d %d %s", r, g, code)
	}
	if r, g, code := sets(14); r != 2 || g >= full || g < full*86/100 || code != "card-restart-14" {
		t.Errorf("14 dates: %d %d %s", r, g, code)
	}
	if r, g, code := sets(28); r != 2 || g != 0 || code != "card-restart-28" {
		t.Errorf("28 dates: %d %d %s", r, g, code)
	}
	// Ill from the 1st to the 4th: nothing on the 5th, reduced from the 6th to
	// the 9th, as before from the 10th.
	in.History = exercise.History{Illness: []exercise.Illness{{From: day("2026-11-01"), To: day("2026-11-04")}}}
	for date, want := range map[string]string{"2026-11-05": "refused", "2026-11-06": "reduced", "2026-11-09": "reduced", "2026-11-10": ""} {
		in.Session = session(season.FullBody, 55, date)
		c, err := exercise.Builder{}.Session(in)
		got := ""
		if err != nil {
			got = "refused"
		} else if hasNote(c.Notes, "card-after-illness") {
			got = "reduced"
		}
		if got != want {
			t.Errorf("%s: %q, want %q", date, got, want)
		}
	}
}

func TestHoldsStand(t *testing.T) {
	in := exercise.Input{Session: session(season.FullBody, 55, "2026-11-10"), Athlete: adult(), Kit: exercise.Gym()}
	written, err := exercise.Builder{}.Session(in)
	if err != nil {
		t.Fatal(err)
	}
	in.Athlete.Holds = []season.Hold{{From: day("2026-10-01"), Until: day("2026-10-20")}}
	r, err := exercise.Builder{}.Today(in, written, exercise.CheckIn{})
	if _, ok := r.(exercise.Held); !ok || err != nil {
		t.Error("a hold past its date is lost")
	}
	if _, err := (exercise.Builder{}).Session(in); err == nil {
		t.Error("a card in a hold")
	}
	in.Athlete.Holds[0].ClearedBy, in.Athlete.Holds[0].ClearedOn = "physician", day("2026-11-01")
	if r, err := (exercise.Builder{}).Today(in, written, exercise.CheckIn{}); err != nil || r.State() != season.AsWritten {
		t.Error("a cleared hold stands")
	}
	for _, s := range exercise.Signs() {
		// A fault elsewhere in the report hides no sign.
		r, err := exercise.Builder{}.Today(in, written, exercise.CheckIn{Signs: []exercise.Sign{s}, Minutes: 3})
		if h, ok := r.(exercise.Held); !ok || err != nil || !h.Clearance || h.Hold.ClearedBy != "" {
			t.Errorf("%s: %v %v", s, r, err)
		}
	}
}

func TestBadInput(t *testing.T) {
	in := exercise.Input{Session: season.Session{Kind: "leg-day", Minutes: 5}, Kit: exercise.Kit{Bar: 700 * load.Kilogram, Dumbbells: []load.Mass{-1}}}
	in.Profile.Prehab = []string{"short-copenhagn"}
	in.Athlete.Maxima = []season.Maximum{{Exercise: "squad", Grams: -5}}
	in.Athlete.Restrictions = []season.Restriction{{Region: "secretplace", Side: "upside"}}
	in.History.Sets = []exercise.DoneSet{{Exercise: "nothing", Reps: 0}}
	in.History.Reports = []exercise.Complaint{{Region: "secretplace", Side: "upside", Pain: 11}}
	_, err := exercise.Builder{}.Session(in)
	var bad *season.InputError
	if !errors.As(err, &bad) {
		t.Fatal(err)
	}
	codes := map[string]bool{}
	for _, p := range bad.Problems {
		codes[p.Code] = true
		if p.Path == "" || p.Reason == "" || p.Remedy == "" {
			t.Errorf("%+v lacks something", p)
		}
	}
	for _, c := range []string{"kind-unknown", "minutes-range", "date-missing", "kit-plates", "kit-mass", "exercise-unknown", "maximum-range", "region-unknown", "side-unknown", "set-range", "pain-range"} {
		if !codes[c] {
			t.Errorf("no %s in\n%v", c, err)
		}
	}
	if s := err.Error(); strings.Contains(s, "secret") || strings.Contains(s, "upside") || strings.Contains(s, "11") {
		t.Errorf("private values in\n%s", s)
	}
	if !strings.Contains(err.Error(), "did you mean short-copenhagen?") {
		t.Error(err)
	}
	kit, problems := exercise.Catalogue{}.ParseKit([]string{"bar 20", "dumbbells 4-10 kg by 2 kg", "kettlebel", "discs 10 kg x 2", "discs 5"})
	if len(problems) != 3 || len(kit.Dumbbells) != 4 || len(kit.Discs) != 1 || kit.Discs[0].Pairs != 2 {
		t.Errorf("%v\n%+v", problems, kit)
	}
}

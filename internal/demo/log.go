package demo

import (
	"fmt"
	"hash/fnv"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/load"
	"example.org/weft/periodize/exercise"
	"example.org/weft/periodize/logbook"
	"example.org/weft/periodize/season"
)

// Now is the instant up to which the invented log tells what was done: a Monday
// morning in November.
func Now() time.Time {
	home, _ := calendar.LoadZone(homeZone)
	return home.Resolve(Wall("2026-11-09T08:00")).Instant
}

// maxima are what the athlete can lift once at the start, in kilograms, with what
// can be lifted in a hand. Others are logged without a load.
var maxima = map[string]int{
	"back-squat": 138, "front-squat": 116, "trap-bar-deadlift": 168, "deadlift": 158, "romanian-deadlift": 128, "hip-thrust": 150,
	"bench-press": 92, "dumbbell-bench-press": 36, "incline-dumbbell-press": 31, "bent-over-row": 84, "chest-supported-row": 33,
}

// Log is what the invented athlete told up to Now of a plan made before the
// season, with its cards: most sessions done and two missed, some not told of, a
// weight typed wrong, tests, and a note. Nothing in it is drawn: the same plan
// gives the same log.
func Log(plan *season.Plan, cards []exercise.Card) []logbook.Entry {
	b := diary{until: Now(), cards: map[string]exercise.Card{}}
	b.home, _ = calendar.LoadZone(homeZone)
	for _, c := range cards {
		b.cards[c.Session] = c
	}
	for i := range plan.Sessions {
		b.session(&plan.Sessions[i])
	}
	for _, e := range Season().Events {
		b.event(e)
	}
	for _, x := range []struct {
		date  string
		value logbook.Milli
	}{{"2026-09-01", 37_400}, {"2026-09-03", 38_100}, {"2026-10-13", 38_600}, {"2026-10-15", 37_900}} {
		b.add("jump-"+x.date, Wall(x.date+"T15:30"), logbook.FromStaff, logbook.Test{Name: "countermovement jump", Protocol: "hands on hips, best of 3", Unit: logbook.InCm, Value: x.value})
	}
	b.add("note-1", Wall("2026-10-23T09:10"), logbook.FromAthlete, logbook.Remark{Text: "flat after Thursday primers", Session: season.Primer, Days: []time.Weekday{time.Thursday}})
	return b.entries
}

type diary struct {
	home     calendar.Zone
	until    time.Time
	cards    map[string]exercise.Card
	typo     bool // the wrong weight is in
	sessions int
	entries  []logbook.Entry
}

// add tells something on the evening of its date.
func (b *diary) add(id string, at calendar.Wall, who logbook.Source, w logbook.What) {
	told := b.home.Resolve(calendar.Wall{Date: at.Date, Clock: Clock("23:40")}).Instant
	if told.Before(b.until) {
		b.entries = append(b.entries, logbook.Entry{ID: id, Athlete: athlete, Recorded: told, Source: who, Start: at, Zone: b.home, What: w})
	}
}

// pick is a number below n that belongs to a name.
func pick(name string, n int) int {
	h := fnv.New32a()
	_, _ = h.Write([]byte(name))
	return int(h.Sum32()>>7) % n
}

func (b *diary) session(s *season.Session) {
	at := b.home.Local(s.Start)
	day := at.Date.String()
	x := logbook.Session{Planned: s.ID, Session: s.Kind, State: logbook.Done}
	switch {
	case day == "2026-10-20" || day == "2026-11-02":
		x.State = logbook.Missed
	case day == "2026-10-08" || day == "2026-11-05":
		return // nothing is told of these
	default:
		x.Minutes = logbook.Told(s.Minutes - pick(s.ID, 3)*2)
		x.Rating = logbook.Told(load.SessionRating(map[season.Kind]int{season.FullBody: 6, season.Trimmed: 5, season.Primer: 4, season.Recovery: 2, season.PostGame: 6, season.Eccentric: 7}[s.Kind] + pick(day, 2)))
		if s.Kind.HeavyLowerBody() {
			x.Sets = b.sets(day, s.ID)
		}
	}
	b.sessions++
	b.add(fmt.Sprintf("lift-%03d", b.sessions), at, logbook.FromAthlete, x)
}

// sets are those of the main lifts of a card: a load for which about as many
// repetitions are left as are asked for, told as they came.
func (b *diary) sets(day, session string) (out []logbook.Set) {
	c := b.cards[session]
	for _, it := range c.Main() {
		kg := maxima[it.ID]
		if kg == 0 || it.Left < 0 {
			continue
		}
		// A third of a percent more each week, by Epley's equation.
		weeks := Date(day).DaysSince(Date(firstDate)) / 7
		grams := load.Mass(kg*1000) * load.Mass(1000+3*weeks) / 1000
		can, ok := load.Epley.LoadFor(grams, load.Reps(it.Reps+it.Left))
		if !ok {
			continue
		}
		step := 2500 * load.Gram
		weight := can / step * step
		for k := range it.Exercise.Sets {
			left := it.Left
			switch pick(day+it.ID, 4) {
			case 0:
				left++ // a good day
			case 1:
				left -= k / 2 // the last set is the hardest
			}
			s := logbook.Set{Exercise: it.ID, Load: logbook.Told(weight), Reps: logbook.Told(it.Reps), Left: logbook.Told(max(left, 0))}
			if day > "2026-10-25" && !b.typo && it.ID == "back-squat" {
				s.Load, b.typo = logbook.Told(weight*10), true // one zero too many
			}
			out = append(out, s)
		}
	}
	return out
}

// event tells of a game or practice of the calendar.
func (b *diary) event(e calendar.Event) {
	if !e.Active() || e.DateOnly {
		return
	}
	at := e.Start
	if e.Zone.Name() != homeZone {
		return
	}
	switch e.Kind {
	case calendar.Game:
		b.add("game-"+e.ID, at, logbook.FromCoach, logbook.Game{Event: e.ID, Minutes: logbook.Told(28 + pick(e.ID, 30)), Rating: logbook.Told(load.SessionRating(7 + pick(e.ID, 3)))})
	case calendar.Practice:
		x := logbook.Practice{Event: e.ID, Minutes: logbook.Told(85 + pick(e.ID, 15)), Rating: logbook.Told(load.SessionRating(4 + pick(e.ID, 2)))}
		if e.Hard {
			x.Rating, x.Sprinted = logbook.Told(load.SessionRating(7)), logbook.Told(true)
		}
		if pick(e.ID, 17) == 3 {
			return // not told
		}
		b.add("log-"+e.ID, at, logbook.FromAthlete, x)
	case calendar.Skills:
		b.add("log-"+e.ID, at, logbook.FromAthlete, logbook.Practice{Event: e.ID, Minutes: logbook.Told(55), Rating: logbook.Told(load.SessionRating(3)), Sprinted: logbook.Told(false)})
	}
}

package bridge

import (
	"slices"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/internal/say"
	"example.org/weft/periodize/exercise"
	"example.org/weft/periodize/season"
)

// DayMark says what became of a session on its day: the plan calls one that took
// place done, and has none that was held. It lives as long as the page does and
// stands in no file.
type DayMark struct {
	Session string    `json:"session"`
	Kind    string    `json:"kind"`
	Date    string    `json:"date"`
	Place   string    `json:"place"`
	Start   time.Time `json:"start"`
	End     time.Time `json:"end"`
	State   string    `json:"state"` // of season.State
}

// markOf is the mark of a session whose day led to a result, nil for one that
// stays as it was written.
func markOf(s *season.Session, result exercise.Result) *DayMark {
	if result.State() == season.AsWritten {
		return nil
	}
	return &DayMark{Session: s.ID, Kind: string(s.Kind), Date: s.Date.String(), Place: s.Place, Start: s.Start, End: s.End, State: string(result.State())}
}

// marked is the mark of a session, nil if there is none.
func (d *Desk) marked(id string) *DayMark {
	for i := range d.days {
		if d.days[i].Session == id {
			return &d.days[i]
		}
	}
	return nil
}

// heldItems are the sessions that were held and so are in the plan no more.
func (d *Desk) heldItems(items map[calendar.Date][]Item) {
	for _, m := range d.days {
		date, err := calendar.ParseDate(m.Date)
		if err != nil || m.State != string(season.Held) || d.find(m.Session) != nil {
			continue
		}
		from, to := d.clockAt(m.Start), d.clockAt(m.End)
		items[date] = append(items[date], Item{Type: "held", ID: m.Session, Kind: m.Kind, Title: upper(say.Kind(season.Kind(m.Kind))),
			Start: from.text, End: to.text, When: from.text + "–" + to.text, Place: calendar.Inert(m.Place), State: stateWords[season.Held], Off: true, at: m.Start, rank: 2})
	}
}

// keepDays drops the marks of dates that a plan does not have.
func keepDays(days []DayMark, p season.Period) []DayMark {
	return slices.DeleteFunc(slices.Clone(days), func(m DayMark) bool {
		date, err := calendar.ParseDate(m.Date)
		return err != nil || !p.Contains(date)
	})
}

package logbook

import (
	"bytes"
	"crypto/sha256"
	"encoding/base32"
	"encoding/json"
	"strconv"
	"strings"

	"example.org/weft/calendar"
	"example.org/weft/load"
)

// Schema is the version of the format written here.
const Schema = 1

// wireEntry is an entry as it is written. Field order is that of the text.
type wireEntry struct {
	ID       string          `json:"id,omitempty"`
	Athlete  string          `json:"athlete,omitempty"`
	Kind     Kind            `json:"kind"`
	Recorded string          `json:"recorded,omitempty"`
	Source   Source          `json:"source,omitempty"`
	Replaces string          `json:"replaces,omitempty"`
	Of       string          `json:"of,omitempty"`
	Reason   string          `json:"reason,omitempty"`
	Start    string          `json:"start,omitempty"`
	End      string          `json:"end,omitempty"`
	Zone     string          `json:"zone,omitempty"`
	Planned  string          `json:"planned,omitempty"`
	Event    string          `json:"event,omitempty"`
	Session  string          `json:"session,omitempty"`
	State    State           `json:"state,omitempty"`
	Rating   json.RawMessage `json:"rating,omitempty"`
	Minutes  *int            `json:"minutes,omitempty"`
	Sprinted *bool           `json:"sprinted,omitempty"`
	Sets     []wireSet       `json:"sets,omitempty"`

	Scale    Scale  `json:"scale,omitempty"`
	Sleep    *int   `json:"sleep,omitempty"`
	Fatigue  *int   `json:"fatigue,omitempty"`
	Stress   *int   `json:"stress,omitempty"`
	Soreness *int   `json:"soreness,omitempty"`
	Mood     *int   `json:"mood,omitempty"`
	BodyMass string `json:"bodyMass,omitempty"`

	Name     string            `json:"name,omitempty"`
	Protocol string            `json:"protocol,omitempty"`
	Unit     Unit              `json:"unit,omitempty"`
	Value    json.RawMessage   `json:"value,omitempty"`
	Trials   []json.RawMessage `json:"trials,omitempty"`

	Text string   `json:"text,omitempty"`
	Days []string `json:"days,omitempty"`
}

type wireSet struct {
	Exercise string          `json:"exercise"`
	Load     string          `json:"load,omitempty"`
	Reps     *int            `json:"reps,omitempty"`
	Left     *int            `json:"left,omitempty"`
	Effort   json.RawMessage `json:"effort,omitempty"`
	Failed   bool            `json:"failed,omitempty"`
	Ramp     bool            `json:"ramp,omitempty"`
}

func pointer[T comparable](m Maybe[T]) *T {
	if !m.Known {
		return nil
	}
	v := m.Value
	return &v
}

// fixedText writes a whole number of units of 10^-places as a decimal number.
func fixedText(n int64, places int) json.RawMessage {
	s := strconv.FormatInt(n, 10)
	if len(s) <= places {
		s = strings.Repeat("0", places-len(s)+1) + s
	}
	s = s[:len(s)-places] + "." + s[len(s)-places:]
	return json.RawMessage(strings.TrimSuffix(strings.TrimRight(s, "0"), "."))
}

func ratingText(r Maybe[load.SessionRating]) json.RawMessage {
	if !r.Known {
		return nil
	}
	return fixedText(int64(tenths(r.Value)), 1)
}

// wireOf is total for an entry that has passed the checks.
func wireOf(e *Entry) wireEntry {
	w := wireEntry{ID: e.ID, Athlete: e.Athlete, Kind: e.What.Kind(), Source: e.Source, Replaces: e.Replaces, Zone: e.Zone.Name()}
	if !e.Recorded.IsZero() {
		w.Recorded = instantText(e.Recorded)
	}
	w.Start = startText(e)
	if e.HasEnd {
		w.End = e.End.String()
	}
	switch x := e.What.(type) {
	case Session:
		w.Planned, w.Session, w.State, w.Minutes, w.Rating = x.Planned, string(x.Session), x.State, pointer(x.Minutes), ratingText(x.Rating)
		for i := range x.Sets {
			w.Sets = append(w.Sets, wireSetOf(&x.Sets[i]))
		}
	case Game:
		w.Event, w.Minutes, w.Rating = x.Event, pointer(x.Minutes), ratingText(x.Rating)
	case Practice:
		w.Event, w.Minutes, w.Rating, w.Sprinted = x.Event, pointer(x.Minutes), ratingText(x.Rating), pointer(x.Sprinted)
	case Wellness:
		w.Scale, w.Sleep, w.Fatigue, w.Stress, w.Soreness, w.Mood = x.Scale, pointer(x.Sleep), pointer(x.Fatigue), pointer(x.Stress), pointer(x.Soreness), pointer(x.Mood)
	case BodyMass:
		w.BodyMass = x.Mass.String()
	case Test:
		w.Name, w.Protocol, w.Unit, w.Value = x.Name, x.Protocol, x.Unit, fixedText(int64(x.Value), 3)
		for _, t := range x.Trials {
			w.Trials = append(w.Trials, fixedText(int64(t), 3))
		}
	case Remark:
		w.Text, w.Session = x.Text, string(x.Session)
		for _, d := range x.Days {
			w.Days = append(w.Days, dayWord(d))
		}
	case Void:
		w.Of, w.Reason = x.Of, x.Reason
	case Confirm:
		w.Of = x.Of
	}
	return w
}

func wireSetOf(s *Set) wireSet {
	w := wireSet{Exercise: s.Exercise, Reps: pointer(s.Reps), Left: pointer(s.Left), Failed: s.Failed, Ramp: s.Ramp}
	if s.Load.Known {
		w.Load = s.Load.Value.String()
	}
	if s.Effort != 0 {
		w.Effort = fixedText(int64(float64(s.Effort)*10+0.5), 1)
	}
	return w
}

// encoded writes a value of this file, which always can be written, without the
// escapes that only web pages need.
func encoded(v any) []byte {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(v); err != nil {
		return nil
	}
	return bytes.TrimRight(b.Bytes(), "\n")
}

// facts is what an entry says as text, without who told it and when.
func facts(e *Entry) string {
	w := wireOf(e)
	w.Recorded, w.Source = "", ""
	return string(encoded(w))
}

// ContentID returns an id made of what the entry says, its own id, the instant
// it was told and its source left out: the same facts told twice have one id. It
// is "" for an entry that tells nothing.
func (e Entry) ContentID() string {
	if !plain(e.What) {
		return ""
	}
	e = e.settled()
	w := wireOf(&e)
	w.ID, w.Recorded, w.Source = "", "", ""
	sum := sha256.Sum256(encoded(w))
	return string(w.Kind) + "-" + strings.ToLower(base32.StdEncoding.WithPadding(base32.NoPadding).EncodeToString(sum[:10]))
}

// settled is the one form of an entry: instants in UTC, days from Monday on,
// lists that share no memory, empty ones nil.
func (e Entry) settled() Entry {
	e.Recorded = e.Recorded.UTC().Round(0)
	if !e.HasEnd {
		e.End = calendar.Wall{}
	}
	switch w := e.What.(type) {
	case Session:
		w.Sets = cloned(w.Sets)
		w.Rating, w.Minutes = w.Rating.settled(), w.Minutes.settled()
		for i := range w.Sets {
			s := &w.Sets[i]
			s.Load, s.Reps, s.Left = s.Load.settled(), s.Reps.settled(), s.Left.settled()
		}
		e.What = w
	case Game:
		w.Rating, w.Minutes = w.Rating.settled(), w.Minutes.settled()
		e.What = w
	case Practice:
		w.Rating, w.Minutes, w.Sprinted = w.Rating.settled(), w.Minutes.settled(), w.Sprinted.settled()
		e.What = w
	case Wellness:
		w.Sleep, w.Fatigue, w.Stress = w.Sleep.settled(), w.Fatigue.settled(), w.Stress.settled()
		w.Soreness, w.Mood = w.Soreness.settled(), w.Mood.settled()
		e.What = w
	case Test:
		w.Trials = cloned(w.Trials)
		e.What = w
	case Remark:
		w.Days = cloned(w.Days)
		sortDays(w.Days)
		e.What = w
	}
	return e
}

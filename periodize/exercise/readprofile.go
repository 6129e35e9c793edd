package exercise

import (
	"bytes"
	"encoding/json"
	"io"

	"example.org/weft/calendar"
	"example.org/weft/internal/intake"
)

// mostNamed bounds the lists of a profile.
const mostNamed = 200

// ReadProfile reads a profile as JSON:
//
//	{"schema": 1, "prehab": ["short-copenhagen"], "avoid": ["Bench press"], "growthSpurt": true}
//
// Nothing is required. Exercises are named by id or printed name, and must be of
// the catalogue. A text of at most MaxReportBytes is read. The error is a
// *season.InputError with every problem; without one, the problems are warnings.
func (c Catalogue) ReadProfile(r io.Reader) (Profile, []calendar.Problem, error) {
	t := open(r, MaxReportBytes, "growthSpurt")
	var p Profile
	if o, ok := t.object(); ok {
		p = Profile{Prehab: words(o.Optional("prehab"), mostNamed), Avoid: words(o.Optional("avoid"), mostNamed), GrowthSpurt: intake.Flag(o.Optional("growthSpurt"))}
		o.Done()
		t.more = append(t.more, p.problems(c.data(), "")...)
	}
	problems, err := t.end()
	if err != nil {
		return Profile{}, nil, err
	}
	return p, problems, nil
}

// MarshalJSON writes what ReadProfile reads.
func (p Profile) MarshalJSON() ([]byte, error) {
	return json.Marshal(struct {
		Schema      int      `json:"schema"`
		Prehab      []string `json:"prehab,omitempty"`
		Avoid       []string `json:"avoid,omitempty"`
		GrowthSpurt bool     `json:"growthSpurt,omitempty"`
	}{Schema, p.Prehab, p.Avoid, p.GrowthSpurt})
}

// UnmarshalJSON reads what [Catalogue.ReadProfile] of the built-in catalogue
// reads.
func (p *Profile) UnmarshalJSON(b []byte) error {
	got, _, err := Catalogue{}.ReadProfile(bytes.NewReader(b))
	if err != nil {
		return err
	}
	*p = got
	return nil
}

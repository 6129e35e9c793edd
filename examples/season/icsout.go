package main

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"strings"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/calendar/icalendar"
	"example.org/weft/internal/say"
	"example.org/weft/periodize/season"
)

// writeCalendar writes the sessions as a calendar, and those that the plan
// handed out before had and this one has not, as cancelled. Of the athlete it
// holds no more than a digest of the id.
func writeCalendar(w io.Writer, in *input, plan *season.Plan) error {
	s := newSheet(in, plan, false)
	c := icalendar.Calendar{Name: "Strength training"}
	if in.demo {
		c.Name = "Strength training (invented example)"
	}
	for i := range plan.Sessions {
		x := &plan.Sessions[i]
		e := s.entry(x.ID, x.Kind, x.Start, x.End)
		for _, n := range x.Why {
			e.Description += upper(s.noteText(n)) + ". "
		}
		e.Location = x.Place
		c.Entries = append(c.Entries, e)
	}
	for _, change := range plan.Changes {
		if change.Change != season.Dropped || change.From == nil {
			continue
		}
		e := s.entry(change.Session, change.Kind, *change.From, s.issuedEnd(change))
		e.Cancelled = true
		c.Entries = append(c.Entries, e)
	}
	return icalendar.Write(w, c)
}

func (s *sheet) entry(id string, kind season.Kind, from, to time.Time) icalendar.Entry {
	e := icalendar.Entry{
		UID: s.uid(id), Zone: s.zone, Start: s.zone.Local(from), End: s.zone.Local(to),
		Summary: upper(say.Kind(kind)) + fmt.Sprintf(", %d min", int(to.Sub(from).Minutes())), Categories: []string{"training"},
		Sequence: s.plan.Revision, Stamp: s.plan.Now,
	}
	if kind == "" || !to.After(from) {
		e.End = calendar.Wall{}
		e.Summary = upper(say.Kind(kind))
	}
	// A wall time that occurs twice means the first; the second needs UTC.
	if !s.zone.Resolve(e.Start).Instant.Equal(from) {
		if utc, err := calendar.LoadZone("UTC"); err == nil {
			e.Zone, e.Start = utc, utc.Local(from)
			if !e.End.IsZero() {
				e.End = utc.Local(to)
			}
		}
	}
	return e
}

// issuedEnd looks up when a dropped session would have ended.
func (s *sheet) issuedEnd(c season.Change) time.Time {
	for i := len(s.in.request.Issued) - 1; i >= 0; i-- {
		for _, x := range s.in.request.Issued[i].Sessions {
			if x.ID == c.Session && x.Start.Equal(*c.From) {
				return x.End
			}
		}
	}
	return *c.From
}

// uid is the same for a session in every plan of an athlete, wherever it moves.
func (s *sheet) uid(session string) string {
	athlete := sha256.Sum256([]byte(s.in.request.Athlete.ID))
	if len(session) > 200 || calendar.Inert(session) != session || strings.TrimSpace(session) != session || session == "" {
		sum := sha256.Sum256([]byte(session))
		session = hex.EncodeToString(sum[:12])
	}
	return session + "." + hex.EncodeToString(athlete[:8]) + "@weft.example.org"
}

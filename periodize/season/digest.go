package season

import (
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"hash"
	"slices"
	"strings"
	"time"

	"example.org/weft/calendar"
)

// Digest returns 16 letters and digits made from all of the request. It does not
// depend on the order of its lists, Issued aside, nor on anything that Canonical
// settles. Requests of other content have, in practice, other digests.
func (r Request) Digest() string {
	enc := encoder{zone: zoneText(map[calendar.Zone]string{})}
	b, err := json.Marshal(enc.request(r.Canonical()))
	if err != nil {
		b = []byte(err.Error())
	}
	return short(sha256.Sum256(b))
}

// EventsDigest returns, for each date of the period that has any, the digest of
// the active events on it, sorted by date: a game counts to the local date on
// which it starts, any other event to each local date it touches. An unset
// period covers every date. Digests do not depend on the order of the events,
// nor on the period, so that those of two plans can be compared date by date.
func EventsDigest(events []calendar.Event, period Period) []DayHash {
	all := period == Period{}
	zones := zoneText(map[calendar.Zone]string{})
	type entry struct {
		text        string
		first, last calendar.Date
	}
	var entries []entry
	for _, e := range events {
		if !e.Active() || e.Start.IsZero() {
			continue
		}
		first, last := eventDates(e)
		if all {
			last = calendar.Earlier(last, first.AddDays(MaxPeriodDays))
		} else {
			first, last = calendar.Later(first, period.From), calendar.Earlier(last, period.To)
		}
		if !last.Before(first) {
			entries = append(entries, entry{eventHash(e, zones), first, last})
		}
	}
	slices.SortFunc(entries, func(a, b entry) int { return strings.Compare(a.text, b.text) })
	byDate := map[calendar.Date]hash.Hash{}
	for i, e := range entries {
		if i > 0 && e.text == entries[i-1].text {
			continue
		}
		for d := e.first; !d.After(e.last) && !d.IsZero(); d = d.AddDays(1) {
			h := byDate[d]
			if h == nil {
				h = sha256.New()
				byDate[d] = h
			}
			h.Write([]byte(e.text))
		}
	}
	out := make([]DayHash, 0, len(byDate))
	for d, h := range byDate {
		out = append(out, DayHash{Date: d, Hash: short([sha256.Size]byte(h.Sum(nil)))})
	}
	slices.SortFunc(out, func(a, b DayHash) int { return a.Date.Compare(b.Date) })
	return out
}

// eventDates returns the first and the last local date of an event.
func eventDates(e calendar.Event) (first, last calendar.Date) {
	start := e.Start.AddMinutes(0)
	first, last = start.Date, start.Date
	if e.Kind == calendar.Game || !e.HasEnd {
		return first, last
	}
	// An event that ends at midnight does not touch the date that begins then.
	end := e.End.AddMinutes(0)
	last = end.Date
	if end.Clock == 0 {
		last = last.AddDays(-1)
	}
	return first, calendar.Later(first, last)
}

// eventHash is the digest of what planning uses of an event; titles and
// opponents do not move a session.
func eventHash(e calendar.Event, zone func(calendar.Zone) string) string {
	if e.ID == "" {
		e.ID = e.ContentID()
	}
	end, actual := "", ""
	if e.HasEnd {
		end = e.End.String()
	}
	if e.HasActualEnd {
		actual = e.ActualEnd.String()
	}
	b, err := json.Marshal([]string{
		e.ID, string(e.Kind), e.Start.String(), end, actual, zone(e.Zone), zone(e.EndZone),
		string(e.Status.Settled()), string(e.Importance.Settled()), fmt.Sprint(e.DateOnly, e.Hard),
	})
	if err != nil {
		b = []byte(err.Error())
	}
	return short(sha256.Sum256(b))
}

// zoneText writes a zone so that zones with other clock changes have other
// texts: the name of an IANA zone, name and changes of a custom one.
func zoneText(known map[calendar.Zone]string) func(calendar.Zone) string {
	return func(z calendar.Zone) string {
		if !z.Custom() {
			return z.Name()
		}
		if s, ok := known[z]; ok {
			return s
		}
		h := sha256.New()
		// 100 years on either side of 2000, in steps from change to change.
		t, end := time.Unix(-2208988800, 0).In(z.Location()), int64(7258118400)
		for t.Unix() < end {
			_, off := t.Zone()
			fmt.Fprintln(h, t.Unix(), off)
			_, next := t.ZoneBounds()
			if next.IsZero() || !next.After(t) {
				break
			}
			t = next
		}
		s := z.Name() + " " + short([sha256.Size]byte(h.Sum(nil)))
		known[z] = s
		return s
	}
}

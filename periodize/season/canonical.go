package season

import (
	"cmp"
	"crypto/sha256"
	"encoding/base32"
	"encoding/json"
	"slices"
	"strings"
	"time"

	"example.org/weft/calendar"
)

// Canonical returns a copy in which nothing depends on the order of the input:
// lists are sorted (Issued is not, its order says which plan is newest), exact
// repetitions and older revisions of events are left out, schema, ids and zones
// are filled in. Permuted requests give equal copies. The request is not
// changed, and the copy shares no memory with it but that of Issued.
func (r Request) Canonical() Request {
	r.Schema = Schema
	if !r.Now.IsZero() {
		r.Now = r.Now.UTC()
	}
	home := r.Athlete.Zone
	r.Athlete = r.Athlete.canonical()

	enc := encoder{zone: zoneText(map[calendar.Zone]string{})}
	events := settled(r.Events, home)
	sortBy(events, func(e *calendar.Event) startKey {
		return startKey{startSecond(e.Zone, e.Start), string(e.Kind), e.ID, e.Revision}
	}, func(e *calendar.Event) string { return enc.text(enc.event(*e)) + enc.text([]any{e.Source, e.Unknown}) })
	kept := merge(events, nil)
	r.Events = make([]calendar.Event, 0, len(kept))
	for _, i := range kept {
		e := events[i]
		e.Unknown = slices.Clone(e.Unknown)
		r.Events = append(r.Events, e)
	}

	r.Places = unique(each(r.Places, Place.canonical), func(p Place) string { return enc.text(enc.place(p)) })
	r.Rules = unique(each(r.Rules, Override.clone), func(o Override) string { return enc.text(o) })

	r.Club = unique(each(r.Club, ClubRule.canonical), func(c ClubRule) string { return enc.text(wireClubOf(c)) })

	log := slices.Clone(r.Log)
	for i := range log {
		if log[i].Zone.IsZero() {
			log[i].Zone = home
		}
		if log[i].ID == "" {
			log[i].ID = log[i].ContentID()
		}
	}
	r.Log = nil
	sortBy(log, func(d *Done) startKey {
		return startKey{startSecond(d.Zone, d.Start), string(d.Kind), d.ID, 0}
	}, func(d *Done) string { return enc.text(enc.done(*d)) })
	for i, d := range log {
		if i == 0 || !sameDone(d, log[i-1]) {
			r.Log = append(r.Log, d)
		}
	}

	r.Pins = unique(each(r.Pins, Pin.clone), func(p Pin) string { return enc.text(wirePinOf(p)) })
	r.Issued = slices.Clone(r.Issued)
	return r
}

func (a Athlete) canonical() Athlete {
	var enc encoder
	a.Hours = canonicalHours(a.Hours)
	a.Prefer = unique(each(a.Prefer, func(p Prefer) Prefer {
		p.Days = canonicalDays(p.Days)
		return p
	}), func(p Prefer) string { return enc.text(each(p.Days, mondayFirst)) + p.Start.String() })
	a.Maxima = uniqueKey(a.Maxima, func(m Maximum) string {
		return m.Exercise + "\x00" + m.Date.String() + "\x00" + m.Kind + "\x00" + enc.text(m.Grams)
	})
	a.Restrictions = uniqueKey(a.Restrictions, func(r Restriction) string {
		return strings.Join([]string{r.Region, r.Side, r.From.String(), r.To.String(), r.By}, "\x00")
	})
	a.Holds = uniqueKey(a.Holds, func(h Hold) string {
		return strings.Join([]string{h.From.String(), h.Until.String(), h.ClearedOn.String(), h.ClearedBy}, "\x00")
	})
	a.OptIns = uniqueKey(a.OptIns, func(o OptIn) string { return string(o) })
	return a
}

func (p Place) canonical() Place {
	p.Hours = canonicalHours(p.Hours)
	p.Closed = uniqueKey(p.Closed, func(c Period) string { return c.From.String() + " " + c.To.String() })
	p.Kit = uniqueKey(p.Kit, func(k string) string { return k })
	return p
}

func (o Override) clone() Override {
	o.Value, o.Points = clonePointer(o.Value), clonePointer(o.Points)
	return o
}

func (p Pin) clone() Pin {
	p.Start = clonePointer(p.Start)
	return p
}

func clonePointer[T any](p *T) *T {
	if p == nil {
		return nil
	}
	v := *p
	return &v
}

func canonicalHours(list []Hours) []Hours {
	var enc encoder
	return unique(each(list, func(h Hours) Hours {
		h.Days = canonicalDays(h.Days)
		return h
	}), func(h Hours) string {
		return enc.text(each(h.Days, mondayFirst)) + h.From.String() + h.To.String()
	})
}

func mondayFirst(d time.Weekday) int { return (int(d)%7 + 13) % 7 }

func canonicalDays(days []time.Weekday) []time.Weekday {
	out := slices.Clone(days)
	slices.SortFunc(out, func(a, b time.Weekday) int { return cmp.Compare(mondayFirst(a), mondayFirst(b)) })
	return slices.Compact(out)
}

// startKey orders what has a start.
type startKey struct {
	second   int64
	kind, id string
	revision int
}

func (k startKey) compare(o startKey) int {
	return cmp.Or(cmp.Compare(k.second, o.second), cmp.Compare(k.kind, o.kind), cmp.Compare(k.id, o.id),
		cmp.Compare(k.revision, o.revision))
}

// startSecond is the instant of a start; without a zone the wall time as if it
// were UTC.
func startSecond(z calendar.Zone, w calendar.Wall) int64 {
	if r := z.Resolve(w); r.Fit != calendar.Unresolved {
		return r.Instant.Unix()
	}
	return int64(w.Date.DayNumber())*86400 + int64(w.Clock)
}

// sortBy sorts by a key that is computed once for each element, and the few with
// equal keys by a text that says all of an element.
func sortBy[T any](list []T, key func(*T) startKey, text func(*T) string) {
	type entry struct {
		key  startKey
		item *T
	}
	entries := make([]entry, len(list))
	copied := slices.Clone(list)
	for i := range copied {
		entries[i] = entry{key(&copied[i]), &copied[i]}
	}
	slices.SortStableFunc(entries, func(a, b entry) int {
		if c := a.key.compare(b.key); c != 0 {
			return c
		}
		return strings.Compare(text(a.item), text(b.item))
	})
	for i, e := range entries {
		list[i] = *e.item
	}
}

// unique sorts its argument in place by a key that says all of an element, and
// drops repetitions.
func unique[T any](list []T, key func(T) string) []T {
	type entry struct {
		key  string
		item T
	}
	entries := make([]entry, len(list))
	for i, x := range list {
		entries[i] = entry{key(x), x}
	}
	slices.SortStableFunc(entries, func(a, b entry) int { return strings.Compare(a.key, b.key) })
	out := list[:0]
	for i, e := range entries {
		if i == 0 || e.key != entries[i-1].key {
			out = append(out, e.item)
		}
	}
	if len(out) == 0 {
		return nil
	}
	return out
}

// uniqueKey is unique on a copy.
func uniqueKey[T any](list []T, key func(T) string) []T { return unique(slices.Clone(list), key) }

// text is JSON of plain structs, which cannot fail.
func (e *encoder) text(v any) string {
	b, err := json.Marshal(v)
	if err != nil {
		return err.Error()
	}
	return string(b)
}

// ContentID returns an id made of session, kind, start and zone.
func (d Done) ContentID() string {
	enc := encoder{zone: zoneText(map[calendar.Zone]string{})}
	d = Done{Session: d.Session, Kind: d.Kind, Start: d.Start, Zone: d.Zone}
	return "log-" + short(sha256.Sum256([]byte(enc.text(enc.done(d)))))
}

// short writes 80 bits of a hash in 16 letters and digits.
func short(sum [sha256.Size]byte) string {
	return strings.ToLower(base32.StdEncoding.WithPadding(base32.NoPadding).EncodeToString(sum[:10]))
}

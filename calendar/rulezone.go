package calendar

import (
	"encoding/binary"
	"fmt"
	"time"
)

// Transition is a change of offset of a custom zone.
type Transition struct {
	At     time.Time // the instant from which Offset holds
	Offset int       // seconds east of UTC, less than a day either way
	DST    bool
	Abbrev string // such as "CEST"; may be empty
}

const (
	maxTransitions  = 10_000
	maxOffset       = 24*60*60 - 1
	maxAbbrevLength = 32
)

// NewRuleZone returns a zone made from its own transitions, for calendars that
// bring their own time zone. The offset of first holds before the first
// transition (its At is not read); the last one holds for ever. Transitions must
// be in strictly rising order, 10,000 at most, with 250 different kinds of
// offset at most.
func NewRuleZone(name string, first Transition, transitions []Transition) (Zone, error) {
	refuse := func(value, reason, remedy string) (Zone, error) {
		return Zone{}, &ValueError{What: "zone", Value: value, Reason: reason, Remedy: remedy}
	}
	if name == "" {
		return refuse("", "a custom zone needs a name", "give it the TZID of its calendar")
	}
	if len(transitions) > maxTransitions {
		return refuse(name, fmt.Sprintf("%d transitions, the limit is %d", len(transitions), maxTransitions), "leave out the years nobody needs")
	}
	for i, t := range append([]Transition{first}, transitions...) {
		switch {
		case t.Offset > maxOffset || t.Offset < -maxOffset:
			return refuse(fmt.Sprint(t.Offset), "an offset of a day or more", "give the seconds east of UTC, within 23:59:59")
		case len(t.Abbrev) > maxAbbrevLength || !abbrevShape(t.Abbrev):
			return refuse(t.Abbrev, "not an abbreviation of a zone", "use up to 32 printable ASCII characters")
		case i >= 2 && !transitions[i-2].At.Before(t.At):
			return refuse(t.At.UTC().Format(time.RFC3339), "transitions out of order", "sort them by instant and give each instant once")
		case i >= 1 && t.At.Nanosecond() != 0:
			return refuse(t.At.UTC().Format(time.RFC3339Nano), "a transition inside a second", "give whole seconds")
		}
	}
	data, ok := tzif(first, transitions)
	if !ok {
		return refuse(name, "more than 250 kinds of offset", "leave out the years nobody needs")
	}
	loc, err := time.LoadLocationFromTZData(name, data)
	if err != nil {
		return refuse(name, "the transitions make no zone: "+err.Error(), "check offsets and instants")
	}
	return Zone{name: name, loc: loc, rules: string(data)}, nil
}

func abbrevShape(s string) bool {
	for i := 0; i < len(s); i++ {
		if s[i] < '!' || s[i] > '~' {
			return false
		}
	}
	return true
}

// tzif writes the transitions in the format of RFC 8536 (version 2, no rule for
// the time after the last one), which package time can read. So there is one
// kind of location, and one resolver, for all zones.
func tzif(first Transition, transitions []Transition) ([]byte, bool) {
	type local struct {
		offset int
		dst    bool
		abbrev string
	}
	// Type 0 is used by no transition: that makes it the one before the first.
	types := []local{{first.Offset, first.DST, first.Abbrev}}
	index := map[local]int{}
	times := make([]byte, 0, 8*len(transitions))
	kinds := make([]byte, 0, len(transitions))
	for _, t := range transitions {
		l := local{t.Offset, t.DST, t.Abbrev}
		k, ok := index[l]
		if !ok {
			k = len(types)
			if k > 250 {
				return nil, false
			}
			index[l] = k
			types = append(types, l)
		}
		times = binary.BigEndian.AppendUint64(times, uint64(t.At.Unix()))
		kinds = append(kinds, byte(k))
	}
	var infos, names []byte
	at := map[string]int{}
	for _, l := range types {
		i, ok := at[l.abbrev]
		if !ok {
			i = len(names)
			if i > 255 {
				return nil, false
			}
			at[l.abbrev] = i
			names = append(append(names, l.abbrev...), 0)
		}
		infos = binary.BigEndian.AppendUint32(infos, uint32(int32(l.offset)))
		dst := byte(0)
		if l.dst {
			dst = 1
		}
		infos = append(infos, dst, byte(i))
	}
	header := func(timeCount, typeCount, charCount int) []byte {
		h := append([]byte("TZif2"), make([]byte, 15)...)
		for _, n := range []int{0, 0, 0, timeCount, typeCount, charCount} {
			h = binary.BigEndian.AppendUint32(h, uint32(n))
		}
		return h
	}
	// The block for 32-bit readers is skipped by every reader of version 2.
	out := header(0, 1, 1)
	out = append(out, 0, 0, 0, 0, 0, 0, 0)
	out = append(out, header(len(transitions), len(types), len(names))...)
	out = append(out, times...)
	out = append(out, kinds...)
	out = append(out, infos...)
	out = append(out, names...)
	return append(out, '\n', '\n'), true
}

package calendar

import (
	"math"
	"time"
)

// Fit says how a wall time meets the clock of a zone.
type Fit uint8

const (
	Unresolved Fit = iota // zone or date unset, or a clock outside 00:00 to 24:00
	Exact                 // the wall time occurs once
	Skipped               // it never occurs: the clock jumps over it
	Doubled               // it occurs more than once
)

// String returns the name in lower case.
func (f Fit) String() string {
	switch f {
	case Exact:
		return "exact"
	case Skipped:
		return "skipped"
	case Doubled:
		return "doubled"
	}
	return "unresolved"
}

// Resolution is the answer of [Zone.Resolve]. All instants are in UTC.
type Resolution struct {
	Instant time.Time
	Fit     Fit

	// Doubled: the first and the last instant at which the clock shows the wall
	// time. Skipped: Earlier is the last whole minute shown before the gap, Later
	// the first instant after it. Exact: both equal Instant.
	Earlier, Later time.Time
}

// reach is longer than any offset from UTC; offsets of custom zones are limited
// to less than a day, those of the IANA data lie within 16 hours.
const reach = 25 * 60 * 60

// Resolve turns a wall time into an instant as RFC 5545, section 3.3.5, has it:
// a doubled wall time is the first of the two, a skipped one uses the offset from
// UTC before the gap. The answer follows from the offsets around the wall time
// alone, segment by segment, and not from [time.Date], which leaves open which
// offset it uses near a change.
//
// If the zone or the date is unset, Fit is Unresolved and the instants are zero.
func (z Zone) Resolve(w Wall) Resolution {
	if z.loc == nil || w.Date.IsZero() || !w.Clock.Valid() {
		return Resolution{}
	}
	local := w.seconds()
	var (
		first, last int64
		n           int
		gap         Resolution
	)
	prev, until := segment{}, local+reach
	for seg := z.segmentAt(local - reach); ; seg = z.segmentAt(seg.to) {
		if prev.to != 0 && gap.Fit == Unresolved && seg.from+prev.offset <= local && local < seg.from+seg.offset {
			gap = Resolution{
				Instant: utc(local - prev.offset), Fit: Skipped,
				// A custom zone may change twice within a minute.
				Earlier: utc(max(floorMinute(seg.from+prev.offset-1)-prev.offset, prev.from)),
				Later:   utc(seg.from),
			}
		}
		if x := local - seg.offset; x >= seg.from && x < seg.to {
			if n == 0 {
				first = x
			}
			last = x
			n++
		}
		if seg.to > until {
			break
		}
		prev = seg
	}
	switch {
	case n == 1:
		return Resolution{utc(first), Exact, utc(first), utc(first)}
	case n > 1:
		return Resolution{utc(first), Doubled, utc(first), utc(last)}
	}
	return gap
}

// segment is a stretch [from, to) of seconds since 1970 with one offset.
type segment struct{ from, to, offset int64 }

// segmentAt returns a segment that starts at an instant; its end may lie before
// the next change, but never behind it.
func (z Zone) segmentAt(at int64) segment {
	t := time.Unix(at, 0).In(z.loc)
	_, off := t.Zone()
	seg := segment{from: at, to: math.MaxInt64, offset: int64(off)}
	_, end := t.ZoneBounds()
	if end.IsZero() {
		return seg
	}
	if seg.to = end.Unix(); seg.to > at {
		return seg
	}
	// Beyond the tables of a zone, package time takes every year for 365 days
	// long, and on the last day of a leap year returns an end that has passed.
	// The bounds are no use there, so look for a change within the next hour.
	seg.to = at + 3600
	if z.offsetAt(seg.to) == seg.offset {
		return seg
	}
	lo, hi := at, seg.to
	for hi-lo > 1 {
		if mid := lo + (hi-lo)/2; z.offsetAt(mid) == seg.offset {
			lo = mid
		} else {
			hi = mid
		}
	}
	seg.to = hi
	return seg
}

func (z Zone) offsetAt(sec int64) int64 {
	_, off := time.Unix(sec, 0).In(z.loc).Zone()
	return int64(off)
}

func utc(sec int64) time.Time { return time.Unix(sec, 0).UTC() }

func floorMinute(sec int64) int64 {
	r := sec % 60
	if r < 0 {
		r += 60
	}
	return sec - r
}

// Local returns what the clock of the zone shows at an instant, to the second.
// It is unset if the zone is, or outside the years 1 to 9999.
func (z Zone) Local(t time.Time) Wall {
	if z.loc == nil {
		return Wall{}
	}
	_, off := t.In(z.loc).Zone()
	w, _ := wallAt(t.Unix() + int64(off))
	return w
}

// DayStart returns the first instant of a local date, in UTC. Where midnight is
// skipped it is the instant of the clock change. It is the zero time if zone or
// date is unset.
func (z Zone) DayStart(d Date) time.Time {
	r := z.Resolve(Wall{Date: d})
	if r.Fit == Skipped {
		return r.Later
	}
	return r.Instant
}

// DaySpan returns the instants of a local date: 23, 24 or 25 hours as a rule,
// none where a zone skipped the whole date.
func (z Zone) DaySpan(d Date) Span {
	return Span{z.DayStart(d), z.DayStart(d.AddDays(1))}
}

package load

import "time"

// Day is a calendar date as the number of days since 1970-01-01. It has no
// time of day and no zone.
type Day int32

// The dates a Day may stand for: the years 1 to 9999.
const (
	minDay Day = -719162
	maxDay Day = 2932896
)

const isoDate = "2006-01-02"

// ParseDay reads a date written as 2026-11-08.
func ParseDay(s string) (Day, error) {
	// Parse takes no other digits, separators or days of a month than the
	// layout has, but accepts the year 0.
	t, err := time.Parse(isoDate, s)
	d := Day(t.Unix() / 86400)
	if t.Unix() < 0 && t.Unix()%86400 != 0 {
		d--
	}
	if err != nil || len(s) != len(isoDate) || !d.valid() {
		var ps problems
		ps.add("", quoted(s), "not a date", "write year, month and day as 2026-11-08")
		return 0, ps.err()
	}
	return d, nil
}

// Plus is the date n days later, or earlier if n is negative. Undefined
// outside the years 1 to 9999.
func (d Day) Plus(n int) (Day, bool) {
	sum := int64(d) + int64(n)
	if !d.valid() || sum < int64(minDay) || sum > int64(maxDay) {
		return 0, false
	}
	return Day(sum), true
}

// String is the date as 2026-11-08, or "not a date" outside the years 1 to
// 9999.
func (d Day) String() string {
	if !d.valid() {
		return "not a date"
	}
	return time.Unix(int64(d)*86400, 0).UTC().Format(isoDate)
}

// MarshalText writes the date as 2026-11-08.
func (d Day) MarshalText() ([]byte, error) {
	if !d.valid() {
		var ps problems
		ps.add("", d.String(), "outside the years 1 to 9999", "check how the date was computed")
		return nil, ps.err()
	}
	return []byte(d.String()), nil
}

// UnmarshalText reads what MarshalText writes.
func (d *Day) UnmarshalText(b []byte) error {
	day, err := ParseDay(string(b))
	if err == nil {
		*d = day
	}
	return err
}

func (d Day) valid() bool { return d >= minDay && d <= maxDay }

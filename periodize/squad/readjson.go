package squad

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/internal/intake"
	"example.org/weft/internal/jsonread"
	"example.org/weft/periodize/season"
)

// RequestReader reads requests. The zero value is ready for use.
type RequestReader struct {
	Strict bool // unknown fields are errors, not warnings
	// Limits tighten what is accepted: Bytes of the whole text and PeriodDays of the
	// squad, the others of each athlete.
	Limits season.Limits
}

// ReadRequest reads a request with the zero RequestReader and drops its questions
// and warnings; Request.Validate finds again those that are not about the text
// itself.
func ReadRequest(r io.Reader) (*Request, error) {
	req, _, err := RequestReader{}.Read(r)
	return req, err
}

// Read reads one request as JSON and checks it as Request.Validate does. An athlete
// is an object with the fields of a request of package season but period, now and
// schema, which are the squad's, and played, supervisedHome, target and topUps; a hall
// has those of a place, and capacity, slotMinutes and changeMinutes. The error is a
// *season.InputError with every problem found; without one, the problems are the
// questions and warnings of a request that can be planned.
//
// Instants come back in UTC. What package season says of events without a zone, an id
// or an end holds here too.
func (rr RequestReader) Read(r io.Reader) (*Request, []calendar.Problem, error) {
	d := newDecoder(r, rr.Limits, rr.Strict)
	root := d.doc.Root()
	c := &checker{}
	if d.schema(root, c) {
		req := d.request(root)
		c.r = &req
		c.take(d)
		if root.Kind() == jsonread.Object {
			c.request(d.days())
		}
		if list := c.problems(); !stops(list) {
			return &req, list, nil
		}
		return nil, nil, &season.InputError{Problems: c.problems()}
	}
	c.take(d)
	return nil, nil, &season.InputError{Problems: c.problems()}
}

// UnmarshalJSON reads what ReadRequest reads.
func (r *Request) UnmarshalJSON(b []byte) error {
	req, err := ReadRequest(strings.NewReader(string(b)))
	if err != nil {
		return err
	}
	*r = *req
	return nil
}

// stops reports whether a list has an error or a refusal.
func stops(list []calendar.Problem) bool {
	return slices.ContainsFunc(list, func(p calendar.Problem) bool { return intake.Rank(p.Class) <= 1 })
}

// decoder takes a JSON text apart. What it cannot read it reports and leaves unset.
type decoder struct {
	doc    *jsonread.Document
	strict bool
	lim    season.Limits
	zones  intake.Zones
	inner  []calendar.Problem // of the texts inside, which package season reads
	failed map[string]bool    // paths of those that could not be read
}

func newDecoder(r io.Reader, lim season.Limits, strict bool) *decoder {
	if lim.Bytes <= 0 || lim.Bytes > season.MaxBytes {
		lim.Bytes = season.MaxBytes
	}
	opt := jsonread.Options{Limits: jsonread.Limits{Bytes: lim.Bytes}, Strict: strict, Private: []string{"restrictions", "holds", "wellness"}, Problems: MaxProblems}
	return &decoder{doc: jsonread.Read(r, opt), strict: strict, lim: lim, zones: intake.Zones{}, failed: map[string]bool{}}
}

// days is the most dates that a squad may have.
func (d *decoder) days() int {
	if n := d.lim.PeriodDays; n > 0 && n < MaxDays {
		return n
	}
	return MaxDays
}

// schema reports whether the text is of a version that can be read.
func (d *decoder) schema(root jsonread.Value, c *checker) bool {
	if !root.Present() || root.Kind() != jsonread.Object {
		root.Object()
		return root.Present()
	}
	v := root.Object().Optional("schema")
	if !v.Present() {
		if c != nil {
			c.add(calendar.ClassWarning, season.CodeSchemaMissing, "/schema", "", fmt.Sprintf("no schema is given: taken as %d", Schema), fmt.Sprintf(`add "schema": %d`, Schema))
		}
		return true
	}
	return intake.Schema(v, Schema, season.CodeSchemaNewer)
}

func (d *decoder) request(v jsonread.Value) Request {
	o := v.Object()
	o.Allow("schema")
	var r Request
	period, now := o.Required("period"), o.Optional("now")
	r.Period = d.period(period)
	if now.Present() {
		r.Now = d.instant(now).UTC()
	}
	r.Halls = intake.List(o.Required("halls"), MaxHalls, d.hall)
	r.Coaches = intake.List(o.Optional("coaches"), MaxCoaches, d.coach)
	r.Ratios = intake.List(o.Optional("ratios"), MaxRatios, d.ratio)
	r.HomePoints = d.count(o.Optional("homePoints"))
	r.KindPoints = d.count(o.Optional("kindPoints"))
	r.MovePoints = d.count(o.Optional("movePoints"))
	shared := d.shared(period, now, r.Halls)
	r.Athletes = intake.List(o.Required("athletes"), MaxAthletes, func(v jsonread.Value) Athlete { return d.athlete(v, shared) })
	if p := o.Optional("issued"); p.Present() {
		issued := d.plan(p)
		r.Issued = &issued
	}
	r.Affected = intake.List(o.Optional("affected"), MaxAthletes, d.id)
	o.Done()
	return r
}

func (d *decoder) period(v jsonread.Value) season.Period {
	o := v.Object()
	p := season.Period{From: d.date(o.Required("from")), To: d.date(o.Required("to"))}
	o.Done()
	return p
}

func (d *decoder) hall(v jsonread.Value) Hall {
	o := v.Object()
	h := Hall{Place: season.Place{ID: d.id(o.Required("id"))}}
	h.Place.Hours = intake.List(o.Required("hours"), season.MaxHours, d.hours)
	h.Place.Closed = intake.List(o.Optional("closed"), season.MaxClosed, d.period)
	kit := o.Optional("kit")
	if h.Place.Kit = intake.List(kit, season.MaxKit, d.id); h.Place.Kit == nil && kit.Kind() == jsonread.Array {
		h.Place.Kit = []string{} // nothing there is not the same as nothing said
	}
	h.Place.Away = intake.Flag(o.Optional("away"))
	h.Place.Zone = d.zone(o.Optional("zone"))
	h.Capacity = d.count(o.Required("capacity"))
	h.SlotMinutes = d.count(o.Required("slotMinutes"))
	h.ChangeMinutes = d.count(o.Optional("changeMinutes"))
	o.Done()
	return h
}

func (d *decoder) coach(v jsonread.Value) Coach {
	o := v.Object()
	c := Coach{ID: d.id(o.Required("id"))}
	if h := o.Optional("hall"); h.Present() {
		c.Hall = d.id(h)
	}
	c.Hours = intake.List(o.Optional("hours"), season.MaxHours, d.hours)
	c.Away = intake.List(o.Optional("away"), season.MaxClosed, d.period)
	o.Done()
	return c
}

func (d *decoder) ratio(v jsonread.Value) Ratio {
	o := v.Object()
	r := Ratio{Under: d.count(o.Optional("under")), Athletes: d.count(o.Required("athletes"))}
	o.Done()
	return r
}

// weekdays are the words of days, Monday first.
var weekdays = [...]string{"mon", "tue", "wed", "thu", "fri", "sat", "sun"}

func (d *decoder) hours(v jsonread.Value) season.Hours {
	o := v.Object()
	h := season.Hours{From: d.clock(o.Required("from")), To: d.clock(o.Required("to"))}
	h.Days = intake.List(o.Required("days"), len(weekdays), func(v jsonread.Value) time.Weekday {
		s, _ := v.Enum(weekdays[:]...)
		return time.Weekday((slices.Index(weekdays[:], s) + 1) % 7)
	})
	o.Done()
	return h
}

// text reads a string with a parser.
func (d *decoder) text(v jsonread.Value, code, want string, parse func(string) error) {
	intake.Text(v, season.MaxIDRunes, code, want, false, parse)
}

func (d *decoder) date(v jsonread.Value) (out calendar.Date) {
	d.text(v, season.CodeDate, "a date such as 2026-11-08", func(s string) (err error) {
		out, err = calendar.ParseDate(s)
		return err
	})
	return out
}

func (d *decoder) clock(v jsonread.Value) (out calendar.Clock) {
	d.text(v, season.CodeClock, "a time of day such as 17:30", func(s string) (err error) {
		out, err = calendar.ParseClock(s)
		return err
	})
	return out
}

// zone reads a zone, unset if absent.
func (d *decoder) zone(v jsonread.Value) (out calendar.Zone) {
	if v.Present() {
		d.text(v, season.CodeZone, "a zone such as Europe/Berlin", func(s string) (err error) {
			out, err = d.zones.Load(s)
			return err
		})
	}
	return out
}

// instant reads an instant as RFC 3339 writes it, with its offset kept.
func (d *decoder) instant(v jsonread.Value) (out time.Time) {
	d.text(v, season.CodeInstant, "an instant such as 2026-11-08T14:00:00+01:00", func(s string) error {
		t, bad := intake.Instant(s)
		if bad != nil {
			return bad
		}
		if y := t.UTC().Year(); y <= calendar.FirstYear || y >= calendar.LastYear {
			return intake.BadInstant(s, "the year is outside 1900 to 2199", "check the year")
		}
		if _, off := t.Zone(); off == 0 {
			out = t.UTC()
		} else { // the parser hands out the machine's own zone where the offset fits
			out = t.In(time.FixedZone("", off))
		}
		return nil
	})
	return out
}

// id reads a text that must not be empty.
func (d *decoder) id(v jsonread.Value) string {
	s, _ := v.String(1, season.MaxIDRunes)
	return s
}

// mostCount bounds whole numbers of a text; what of them makes sense is checked
// where they are used.
const mostCount = 1_000_000_000

// count reads a whole number, 0 if absent.
func (d *decoder) count(v jsonread.Value) int {
	if !v.Present() {
		return 0
	}
	n, _ := v.Int(0, mostCount)
	return int(n)
}

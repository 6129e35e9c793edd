package season

import (
	"fmt"
	"io"
	"strings"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/internal/intake"
	"example.org/weft/internal/jsonread"
)

// RequestReader reads requests. The zero value is ready for use.
type RequestReader struct {
	Strict bool // unknown fields are errors, not warnings
	Limits Limits
}

// ReadRequest reads a request with the zero RequestReader and drops its
// questions and warnings; Request.Validate finds again those that are not about
// the text itself.
func ReadRequest(r io.Reader) (*Request, error) {
	req, _, err := RequestReader{}.Read(r)
	return req, err
}

// Read reads one request as JSON and checks it as Request.Validate does. The
// error is an *InputError with every problem found; without one, the problems
// are the questions and warnings of a request that can be planned.
//
// Instants come back in UTC. An event without a zone takes the athlete's, and
// one without an id its [calendar.Event.ContentID]. A date-only end of an event
// names the last date of the event; in the result it is the midnight after it,
// as calendar.Event has it.
func (rr RequestReader) Read(r io.Reader) (*Request, []calendar.Problem, error) {
	lim := rr.Limits.filled()
	d := newDecoder(r, lim, rr.Strict)
	var f finder
	root := d.doc.Root()
	if d.schema(root, &f) {
		req := d.request(root.Object())
		f.take(d.doc)
		if errs, _ := d.doc.Counts(); root.Kind() == jsonread.Object && errs <= MaxProblems {
			checkRequest(&f, req, lim)
		}
		list := f.problems()
		if err := failed(list); err != nil {
			return nil, nil, err
		}
		return &req, list, nil
	}
	f.take(d.doc)
	return nil, nil, &InputError{Problems: f.problems()}
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

// decoder takes a JSON text apart. What it cannot read it reports and leaves
// unset.
type decoder struct {
	doc   *jsonread.Document
	lim   Limits
	zones intake.Zones
}

func newDecoder(r io.Reader, lim Limits, strict bool) *decoder {
	return &decoder{doc: jsonread.Read(r, lim.options(strict)), lim: lim, zones: intake.Zones{}}
}

// schema reports whether the text is of a version that can be read. A newer one
// is one problem: what else would be found in it may be no fault there.
func (d *decoder) schema(root jsonread.Value, warn *finder) bool {
	if !root.Present() || root.Kind() != jsonread.Object {
		root.Object()
		return root.Present()
	}
	o := root.Object()
	v := o.Optional("schema")
	if !v.Present() {
		if warn == nil {
			return true
		}
		warn.warn(CodeSchemaMissing, "/schema", "", fmt.Sprintf("no schema is given: taken as %d", Schema), fmt.Sprintf(`add "schema": %d`, Schema))
		return true
	}
	return intake.Schema(v, Schema, CodeSchemaNewer)
}

func (d *decoder) request(o *jsonread.Fields) Request {
	req := Request{Schema: Schema}
	o.Allow("schema")
	req.Period = d.period(o.Required("period"))
	if v := o.Optional("now"); v.Present() {
		req.Now = d.instant(v).UTC()
	}
	req.Athlete = d.athlete(o.Required("athlete"))
	req.Events = intake.List(o.Optional("events"), d.lim.Events, func(v jsonread.Value) calendar.Event { return d.event(v, req.Athlete.Zone) })
	req.Places = intake.List(o.Optional("places"), MaxPlaces, d.place)
	req.Rules = intake.List(o.Optional("rules"), MaxOverrides, d.override)
	req.Club = intake.List(o.Optional("club"), MaxClubRules, d.clubRule)
	req.Log = intake.List(o.Optional("log"), d.lim.Log, d.done)
	req.Issued = intake.List(o.Optional("issued"), d.lim.Issued, d.plan)
	req.Pins = intake.List(o.Optional("pins"), MaxPins, d.pin)
	o.Done()
	return req
}

func (d *decoder) period(v jsonread.Value) Period {
	o := v.Object()
	p := Period{From: d.date(o.Required("from"), false), To: d.date(o.Required("to"), false)}
	o.Done()
	return p
}

func (d *decoder) place(v jsonread.Value) Place {
	o := v.Object()
	p := Place{ID: d.id(o.Required("id"))}
	p.Hours = intake.List(o.Optional("hours"), MaxHours, d.hours)
	p.Closed = intake.List(o.Optional("closed"), MaxClosed, d.period)
	kit := o.Optional("kit")
	if p.Kit = intake.List(kit, MaxKit, d.id); p.Kit == nil && kit.Kind() == jsonread.Array {
		p.Kit = []string{} // nothing there is not the same as nothing said
	}
	p.Away, _ = o.Optional("away").Bool()
	p.Zone = d.zone(o.Optional("zone"))
	o.Done()
	return p
}

func (d *decoder) override(v jsonread.Value) Override {
	o := v.Object()
	r := Override{Rule: d.id(o.Required("rule")), Value: d.intPointer(o.Optional("value")), Points: d.intPointer(o.Optional("points"))}
	r.Off = intake.Flag(o.Optional("off"))
	r.By = d.words(o.Optional("by"))
	r.Reason = d.words(o.Optional("reason"))
	o.Done()
	return r
}

func (d *decoder) done(v jsonread.Value) Done {
	o := v.Object()
	e := Done{Session: d.optionalID(o.Optional("session")), Kind: d.kind(o.Required("kind")), Start: d.wall(o.Required("start"))}
	if end := o.Optional("end"); end.Present() {
		e.End, e.HasEnd = d.wall(end), true
	}
	e.Zone = d.zone(o.Optional("zone"))
	e.Missed = intake.Flag(o.Optional("missed"))
	e.ID = d.optionalID(o.Optional("id"))
	o.Done()
	return e
}

func (d *decoder) pin(v jsonread.Value) Pin {
	o := v.Object()
	p := Pin{Date: d.date(o.Required("date"), false), None: intake.Flag(o.Optional("none"))}
	if k := o.Optional("kind"); k.Present() {
		p.Kind = d.kind(k)
	}
	if s := o.Optional("start"); s.Present() {
		c := d.clock(s)
		p.Start = &c
	}
	p.Place = d.optionalID(o.Optional("place"))
	o.Done()
	return p
}

// text reads a string with a parser.
func (d *decoder) text(v jsonread.Value, code, want string, private bool, parse func(string) error) bool {
	return intake.Text(v, MaxIDRunes, code, want, private, parse)
}

func (d *decoder) date(v jsonread.Value, private bool) (out calendar.Date) {
	d.text(v, CodeDate, "a date such as 2026-11-08", private, func(s string) (err error) {
		out, err = calendar.ParseDate(s)
		return err
	})
	return out
}

func (d *decoder) clock(v jsonread.Value) (out calendar.Clock) {
	d.text(v, CodeClock, "a time of day such as 17:30", false, func(s string) (err error) {
		out, err = calendar.ParseClock(s)
		return err
	})
	return out
}

func (d *decoder) wall(v jsonread.Value) (out calendar.Wall) {
	d.text(v, CodeWall, "a date and a time such as 2026-11-08T14:00", false, func(s string) (err error) {
		out, err = calendar.ParseWall(s)
		return err
	})
	return out
}

// zone reads a zone, unset if absent.
func (d *decoder) zone(v jsonread.Value) (out calendar.Zone) {
	if !v.Present() {
		return out
	}
	d.text(v, CodeZone, "a zone such as Europe/Berlin", false, func(s string) (err error) {
		out, err = d.zones.Load(s)
		return err
	})
	return out
}

// instant reads an instant as RFC 3339 writes it, with its offset kept.
func (d *decoder) instant(v jsonread.Value) (out time.Time) {
	d.text(v, CodeInstant, "an instant such as 2026-11-08T14:00:00+01:00", false, func(s string) (err error) {
		out, err = parseInstant(s)
		return err
	})
	return out
}

func parseInstant(s string) (time.Time, error) {
	t, bad := intake.Instant(s)
	if bad != nil {
		return time.Time{}, bad
	}
	if !saneInstant(t) {
		return time.Time{}, intake.BadInstant(s, "the year is outside 1900 to 2199", "check the year")
	}
	_, off := t.Zone()
	if off == 0 {
		return t.UTC(), nil
	}
	// The parser hands out the machine's own zone where the offset fits.
	return t.In(time.FixedZone("", off)), nil
}

func saneInstant(t time.Time) bool {
	// One year inside the years of dates, so that local dates stay inside too.
	y := t.UTC().Year()
	return y > calendar.FirstYear && y < calendar.LastYear
}

func (d *decoder) kind(v jsonread.Value) Kind {
	words := make([]string, 0, len(Kinds()))
	for _, k := range Kinds() {
		words = append(words, string(k))
	}
	s, _ := v.Enum(words...)
	return Kind(s)
}

// id reads a text that must not be empty.
func (d *decoder) id(v jsonread.Value) string {
	s, _ := v.String(1, MaxIDRunes)
	return s
}

func (d *decoder) optionalID(v jsonread.Value) string {
	if !v.Present() {
		return ""
	}
	return d.id(v)
}

// words reads a free text, "" if absent.
func (d *decoder) words(v jsonread.Value) string {
	if !v.Present() {
		return ""
	}
	s, _ := v.String(0, MaxTextRunes)
	return s
}

// maxSetting bounds the value of a rule, its points and counters of a plan.
const maxSetting = 1_000_000_000

func (d *decoder) intPointer(v jsonread.Value) *int {
	if !v.Present() {
		return nil
	}
	n, ok := v.Int(0, maxSetting)
	if !ok {
		return nil
	}
	i := int(n)
	return &i
}

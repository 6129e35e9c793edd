package squad

import (
	"bytes"
	"encoding/json"
	"errors"

	"example.org/weft/internal/intake"
	"example.org/weft/internal/jsonread"
	"example.org/weft/periodize/season"
)

// An athlete is written as a request of package season without what the whole squad
// shares. Its text is put together again with that and read by the reader of that
// package, so that one athlete alone and one of a squad are read by the same rules;
// paths of problems are then those in the text of the squad.

// own are the fields of an athlete's request in the text of a squad.
var own = [...]string{"athlete", "events", "places", "rules", "club", "log", "issued", "pins"}

// shared is what the requests of all athletes have in common, as it is written.
type shared struct {
	period, now []byte
	halls       []string // their ids: pins may name them
}

func (d *decoder) shared(period, now jsonread.Value, halls []Hall) shared {
	var s shared
	s.period, _ = period.Raw()
	s.now, _ = now.Raw()
	for i := range halls {
		if id := halls[i].Place.ID; id != "" {
			s.halls = append(s.halls, id)
		}
	}
	return s
}

func (d *decoder) athlete(v jsonread.Value, s shared) Athlete {
	o := v.Object()
	if !o.OK() {
		d.failed[v.Pointer()] = true
		return Athlete{}
	}
	o.Required(own[0])
	parts := map[string][]byte{}
	for _, name := range own {
		if raw, ok := o.Optional(name).Raw(); ok {
			parts[name] = raw
		}
	}
	a := Athlete{SupervisedHome: intake.Flag(o.Optional("supervisedHome"))}
	a.Played = intake.List(o.Optional("played"), MaxPlayed, func(v jsonread.Value) Played {
		o := v.Object()
		p := Played{Event: d.id(o.Required("event")), Minutes: d.count(o.Required("minutes"))}
		o.Done()
		return p
	})
	a.TopUps = intake.List(o.Optional("topUps"), MaxPlayed, func(v jsonread.Value) TopUp {
		o := v.Object()
		t := TopUp{Event: d.id(o.Required("event")), Date: d.date(o.Required("date")), Minutes: d.count(o.Required("minutes"))}
		o.Done()
		return t
	})
	if t := o.Optional("target"); t.Present() {
		a.Target = d.seasonPlan(t)
	}
	o.Done()
	if parts[own[0]] == nil {
		d.failed[v.Pointer()] = true
		return a
	}
	rr := season.RequestReader{Strict: d.strict, Limits: d.lim}
	req, list, err := rr.Read(bytes.NewReader(s.request(parts)))
	var bad *season.InputError
	if errors.As(err, &bad) {
		list = bad.Problems
		d.failed[v.Pointer()] = true
	} else if req != nil {
		a.Season = *req
		a.Season.Places = a.Season.Places[:len(a.Season.Places)-s.added(parts["places"])]
		if len(a.Season.Places) == 0 {
			a.Season.Places = nil
		}
	}
	for _, p := range list {
		p.Path = v.Pointer() + p.Path
		d.inner = append(d.inner, p)
	}
	return a
}

// seasonPlan reads a plan of package season, nil if it is bad.
func (d *decoder) seasonPlan(v jsonread.Value) *season.Plan {
	raw, ok := v.Raw()
	if !ok {
		return nil
	}
	p, err := season.ReadPlan(bytes.NewReader(raw))
	var bad *season.InputError
	if errors.As(err, &bad) {
		for _, x := range bad.Problems {
			x.Path = v.Pointer() + x.Path
			d.inner = append(d.inner, x)
		}
	}
	return p
}

// request is the text of one athlete's request.
func (s shared) request(parts map[string][]byte) []byte {
	var b bytes.Buffer
	b.WriteString(`{"schema":1`)
	field := func(name string, raw []byte) {
		if raw != nil {
			b.WriteString(`,"` + name + `":`)
			b.Write(raw)
		}
	}
	field("period", s.period)
	field("now", s.now)
	for _, name := range own {
		raw := parts[name]
		if name == "places" {
			raw = s.places(raw)
		}
		field(name, raw)
	}
	b.WriteByte('}')
	return b.Bytes()
}

// missing are the halls that are not among the athlete's own places.
func (s shared) missing(raw []byte) []string {
	var places []struct {
		ID string `json:"id"`
	}
	if raw != nil && json.Unmarshal(raw, &places) != nil {
		return nil // to be reported as it stands
	}
	known := map[string]bool{}
	for _, p := range places {
		known[p.ID] = true
	}
	var out []string
	for _, id := range s.halls {
		if !known[id] {
			known[id] = true
			out = append(out, id)
		}
	}
	return out
}

// places adds the halls to the athlete's own places, behind them so that their
// numbers stay.
func (s shared) places(raw []byte) []byte {
	list := s.missing(raw)
	if len(list) == 0 {
		return raw
	}
	own := bytes.TrimSpace(bytes.TrimSuffix(bytes.TrimSpace(raw), []byte("]")))
	if len(own) == 0 {
		own = []byte("[")
	}
	out := bytes.Clone(own)
	for _, id := range list {
		if text, err := json.Marshal(id); err == nil {
			if out[len(out)-1] != '[' {
				out = append(out, ',')
			}
			out = append(append(append(out, `{"id":`...), text...), '}')
		}
	}
	return append(out, ']')
}

// added is how many places were added.
func (s shared) added(raw []byte) int { return len(s.missing(raw)) }

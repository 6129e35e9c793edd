package bridge

import (
	"context"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/internal/say"
	"example.org/weft/periodize/exercise"
	"example.org/weft/periodize/rule"
	"example.org/weft/periodize/season"
)

// Settings are what a person sets of a request, as texts of a form.
type Settings struct {
	ID          string     `json:"id"`
	Born        string     `json:"born"`        // 2007-03; "" is unknown
	TrainingAge string     `json:"trainingAge"` // years, halves allowed; "" is unknown
	Role        string     `json:"role"`
	Zone        string     `json:"zone"`
	From        string     `json:"from"`
	To          string     `json:"to"`
	Now         string     `json:"now"` // wall time in the zone; "": nothing is past
	Hours       string     `json:"hours"`
	Prefer      string     `json:"prefer"`
	OptIns      []string   `json:"optIns"`
	Places      []Place    `json:"places"`
	Rules       []Changed  `json:"rules"` // those that are not as the table has them
	Club        []ClubRule `json:"club"`  // the club's own
}

// Place is where sessions can be done.
type Place struct {
	ID     string `json:"id"`
	Hours  string `json:"hours"`
	Closed string `json:"closed"`
	Kit    string `json:"kit"` // "": an ordinary gym
	Away   bool   `json:"away"`
}

// Changed is a rule that somebody changed.
type Changed struct {
	ID     string `json:"id"`
	Value  string `json:"value"` // as printed: clock minutes as 20:30
	Points string `json:"points"`
	Off    bool   `json:"off"`
	By     string `json:"by"`
	Reason string `json:"reason"`
}

// Choices are the words that the forms offer.
type Choices struct {
	Zones   []string  `json:"zones"`
	Regions []string  `json:"regions"`
	Signs   []string  `json:"signs"`
	OptIns  []Option  `json:"optIns"`
	Rules   []RuleRow `json:"rules"`
	Kinds   []Option  `json:"kinds"`
	Sheets  []Option  `json:"sheets"`
	Shapes  []Shape   `json:"shapes"` // of a club's own rules
	Events  []Option  `json:"events"`
}

// Shape is what a club's own rule can do, with the fields that it has.
type Shape struct {
	Option
	Parts []string `json:"parts"`
}

// Option is a word of the library and what the page calls it.
type Option struct {
	ID    string `json:"id"`
	Text  string `json:"text"`
	About string `json:"about,omitempty"`
}

// RuleRow is a rule in plain words.
type RuleRow struct {
	ID      string `json:"id"`
	Kind    string `json:"kind"`
	Doc     string `json:"doc"`
	Unit    string `json:"unit"`
	Default string `json:"default"`
	Min     string `json:"min"`
	Max     string `json:"max"`
	Points  int    `json:"points"`
	Minors  bool   `json:"minors"`
	Fixed   bool   `json:"fixed"`
	Source  string `json:"source"`
}

func choicesOf() Choices {
	c := Choices{Zones: calendar.ZoneNames(), Regions: exercise.BodyWords()}
	for _, o := range []season.OptIn{season.OptPostGame, season.OptLowRepSets} {
		c.OptIns = append(c.OptIns, Option{ID: string(o), Text: optInWords[o]})
	}
	for _, s := range exercise.Signs() {
		c.Signs = append(c.Signs, string(s))
	}
	for _, k := range season.Kinds() {
		c.Kinds = append(c.Kinds, Option{ID: string(k), Text: kindWord(k)})
	}
	for _, s := range clubShapes {
		c.Shapes = append(c.Shapes, Shape{Option{ID: string(s.shape), Text: s.text}, s.parts})
	}
	for _, k := range calendar.Kinds() {
		c.Events = append(c.Events, Option{ID: string(k), Text: say.Event(calendar.Event{Kind: k})})
	}
	for _, x := range sheets {
		c.Sheets = append(c.Sheets, Option{x.id, x.text, x.about})
	}
	for _, r := range rule.Table() {
		row := RuleRow{ID: r.ID, Kind: string(r.Kind), Doc: r.Doc, Unit: r.Unit, Points: r.Points, Minors: r.Minors, Fixed: r.Fixed, Source: r.Source}
		if r.Unit != "" {
			row.Default, row.Min, row.Max = valueText(r, r.Default), valueText(r, r.Min), valueText(r, r.Max)
		}
		c.Rules = append(c.Rules, row)
	}
	return c
}

const clockUnit = "clock minutes"

func valueText(r rule.Row, n int) string {
	if r.Unit == clockUnit {
		return fmt.Sprintf("%02d:%02d", n/60, n%60)
	}
	return strconv.Itoa(n)
}

func settingsOf(req *season.Request) Settings {
	a := req.Athlete
	s := Settings{ID: a.ID, Born: a.Born.String(), Role: a.Role, Zone: a.Zone.Name(),
		From: req.Period.From.String(), To: req.Period.To.String(),
		Hours: hoursText(a.Hours), Prefer: preferText(a.Prefer), OptIns: []string{}, Places: []Place{}, Rules: []Changed{}, Club: clubOf(req)}
	if a.TrainingAgeMonths >= 0 {
		s.TrainingAge = strconv.FormatFloat(float64(a.TrainingAgeMonths)/12, 'f', -1, 64)
		if len(s.TrainingAge) > 5 {
			s.TrainingAge = s.TrainingAge[:5]
		}
	}
	if !req.Now.IsZero() {
		w := a.Zone.Local(req.Now)
		s.Now = w.Date.String() + "T" + say.Clock(w.Clock)
	}
	for _, o := range a.OptIns {
		s.OptIns = append(s.OptIns, string(o))
	}
	for _, p := range req.Places {
		s.Places = append(s.Places, Place{ID: p.ID, Hours: hoursText(p.Hours), Closed: spansText(p.Closed), Kit: kitText(p.Kit), Away: p.Away})
	}
	for _, o := range req.Rules {
		c := Changed{ID: o.Rule, Off: o.Off, By: o.By, Reason: o.Reason}
		if row, ok := rule.Find(o.Rule); ok && o.Value != nil {
			c.Value = valueText(row, *o.Value)
		}
		if o.Points != nil {
			c.Points = strconv.Itoa(*o.Points)
		}
		s.Rules = append(s.Rules, c)
	}
	return s
}

// set changes athlete, hours, places and rules, and plans again. Everything wrong
// is listed at once, by the name of its field.
func (d *Desk) set(ctx context.Context, s Settings, stage Stage) (any, error) {
	if d.req == nil {
		return nil, errNothing
	}
	var r reader
	next := *d.req
	next.Athlete = r.athlete(d.req.Athlete, s)
	next.Period = r.period(s)
	next.Now = r.now(d.req, s, next.Athlete.Zone)
	next.Places = r.places(d.req.Places, s.Places)
	next.Rules = r.rules(s.Rules)
	next.Club = r.club(d.req.Club, s.Club)
	if len(r.problems) > 0 {
		return nil, &season.InputError{Problems: r.problems}
	}
	return d.replace(ctx, &next, d.invented, stage)
}

func (r *reader) athlete(a season.Athlete, s Settings) season.Athlete {
	a.ID, a.Role = strings.TrimSpace(s.ID), strings.TrimSpace(s.Role)
	a.Born = r.month(s.Born)
	a.TrainingAgeMonths = r.trainingAge(s.TrainingAge, a.TrainingAgeMonths)
	if name := strings.TrimSpace(s.Zone); name != a.Zone.Name() {
		z, err := calendar.LoadZone(name)
		if err != nil {
			r.bad("zone", name, "it is no time zone", nearestZone(name))
		}
		a.Zone = z
	}
	if s.Hours != hoursText(a.Hours) {
		a.Hours = r.hours("hours", s.Hours)
	}
	if s.Prefer != preferText(a.Prefer) {
		a.Prefer = r.prefer("prefer", s.Prefer)
	}
	a.OptIns = nil
	for _, o := range s.OptIns {
		a.OptIns = append(a.OptIns, season.OptIn(o))
	}
	return a
}

func nearestZone(name string) string {
	if near := calendar.SuggestZones(name); len(near) > 0 {
		return "did you mean " + strings.Join(near[:min(3, len(near))], " or ") + "?"
	}
	return "name a place, such as Europe/Berlin"
}

func (r *reader) month(text string) season.YearMonth {
	text = strings.TrimSpace(text)
	if text == "" {
		return season.YearMonth{}
	}
	t, err := time.Parse("2006-01", text)
	if err != nil {
		r.bad("born", text, "it is no month", "write year and month, such as 2007-03; the day is not asked for")
	}
	return season.YearMonth{Year: t.Year(), Month: int(t.Month())}
}

func (r *reader) trainingAge(text string, before int) int {
	text = strings.TrimSpace(text)
	if text == "" {
		return -1
	}
	x, err := strconv.ParseFloat(strings.Replace(text, ",", ".", 1), 64)
	if err != nil || !(x >= 0 && x <= 80) {
		r.bad("trainingAge", text, "it is no number of years", "write years of regular supervised strength training, such as 2.5; leave it empty if unknown")
		return before
	}
	months := int(x*12 + 0.5)
	return months
}

func (r *reader) period(s Settings) season.Period {
	from, _ := r.date("from", s.From)
	to, _ := r.date("to", s.To)
	return season.Period{From: from, To: to}
}

// now keeps the instant as it is if its text was not touched.
func (r *reader) now(req *season.Request, s Settings, zone calendar.Zone) time.Time {
	if s.Now == settingsOf(req).Now {
		return req.Now
	}
	if strings.TrimSpace(s.Now) == "" {
		return time.Time{}
	}
	w, err := calendar.ParseWall(s.Now)
	if err != nil || zone.IsZero() {
		r.bad("now", s.Now, "it is no date and time", "write it as 2026-11-10T08:00")
		return time.Time{}
	}
	res := zone.Resolve(w)
	if res.Fit == calendar.Skipped {
		r.bad("now", s.Now, "the clocks jump over this time", "give an hour before or after it")
	}
	return res.Instant
}

// kitText is kit as it is written: "" for an ordinary gym.
func kitText(kit []string) string {
	if kit != nil && len(kit) == 0 {
		return "floor"
	}
	return strings.Join(kit, ", ")
}

// places reads the places of the form; what it has no field for stays as it was.
func (r *reader) places(before []season.Place, list []Place) []season.Place {
	var out []season.Place
	for i, p := range list {
		at := fmt.Sprintf("places/%d/", i)
		q := season.Place{ID: strings.TrimSpace(p.ID), Hours: r.hours(at+"hours", p.Hours), Closed: r.spans(at+"closed", p.Closed), Away: p.Away}
		if j := slices.IndexFunc(before, func(x season.Place) bool { return x.ID == q.ID }); j >= 0 {
			q.Zone = before[j].Zone
		}
		if q.ID == "" {
			r.bad(at+"id", "", "the place has no name", "write a short one, such as gym")
		}
		for _, w := range strings.FieldsFunc(p.Kit, func(c rune) bool { return c == ',' || c == ';' || c == '\n' }) {
			if w = strings.TrimSpace(w); w != "" {
				q.Kit = append(q.Kit, w)
			}
		}
		if len(q.Kit) > 0 {
			_, found := exercise.Catalogue{}.ParseKit(q.Kit)
			for _, x := range found {
				if x.Class == calendar.ClassError {
					r.bad(at+"kit", x.Value, x.Reason, x.Remedy)
				}
			}
		}
		out = append(out, q)
	}
	return out
}

// rules reads the rules that were changed. Whether they may be is for package
// rule to say.
func (r *reader) rules(list []Changed) []season.Override {
	var out []season.Override
	for _, c := range list {
		o := season.Override{Rule: c.ID, Off: c.Off, By: strings.TrimSpace(c.By), Reason: strings.TrimSpace(c.Reason)}
		row, ok := rule.Find(c.ID)
		if !ok {
			r.bad("rules/"+c.ID, c.ID, "there is no such rule", "reload the page")
			continue
		}
		if v := strings.TrimSpace(c.Value); v != "" {
			if n, ok := r.number("rules/"+c.ID, v, row.Unit == clockUnit); ok {
				o.Value = &n
			}
		}
		if v := strings.TrimSpace(c.Points); v != "" {
			if n, ok := r.number("rules/"+c.ID, v, false); ok {
				o.Points = &n
			}
		}
		if o.Value != nil || o.Points != nil || o.Off {
			out = append(out, o)
		}
	}
	_, found := rule.New(out)
	for _, p := range found {
		if i, rest, ok := indexOf(p.Path); ok && i < len(out) {
			p.Path = strings.TrimSuffix("rules/"+out[i].Rule+"/"+rest, "/")
		}
		r.problems = append(r.problems, p)
	}
	slices.SortStableFunc(out, func(a, b season.Override) int { return strings.Compare(a.Rule, b.Rule) })
	return out
}

// indexOf takes the index from a pointer such as /rules/3/value.
func indexOf(path string) (index int, rest string, ok bool) {
	tail, ok := strings.CutPrefix(path, "/rules/")
	if !ok {
		return 0, "", false
	}
	head, rest, _ := strings.Cut(tail, "/")
	n, err := strconv.Atoi(head)
	return n, rest, err == nil && n >= 0
}

func (r *reader) number(where, text string, clock bool) (int, bool) {
	if clock {
		c, ok := r.clock(where, text)
		return int(c) / 60, ok
	}
	n, err := strconv.Atoi(text)
	if err != nil {
		r.bad(where, text, "it is no whole number", "write digits only")
	}
	return n, err == nil
}

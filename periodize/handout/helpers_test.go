package handout_test

import (
	"context"
	"encoding/xml"
	"io"
	"strings"
	"testing"

	"example.org/weft/calendar"
	"example.org/weft/periodize"
	"example.org/weft/periodize/exercise"
	"example.org/weft/periodize/handout"
	"example.org/weft/periodize/season"
)

// fatal is what tests and properties share.
type fatal interface {
	Helper()
	Fatalf(format string, args ...any)
	Errorf(format string, args ...any)
}

func date(t fatal, s string) calendar.Date {
	t.Helper()
	d, err := calendar.ParseDate(s)
	if err != nil {
		t.Fatalf("%v", err)
	}
	return d
}

func read(t fatal, text string) *season.Request {
	t.Helper()
	req, err := season.ReadRequest(strings.NewReader(text))
	if err != nil {
		t.Fatalf("%v", err)
	}
	return req
}

func planned(t fatal, req *season.Request) *season.Plan {
	t.Helper()
	plan, err := new(periodize.Planner).Plan(context.Background(), req)
	if err != nil {
		t.Fatalf("%v", err)
	}
	return plan
}

func open(t fatal, req *season.Request, plan *season.Plan, opt handout.Options) *handout.Book {
	t.Helper()
	b, err := handout.New(req, plan, opt)
	if err != nil {
		t.Fatalf("%v", err)
	}
	return b
}

// shared are the sheets that others than athlete and physiotherapist may read,
// by name.
func shared(t fatal, b *handout.Book, plan *season.Plan) map[string]handout.Sheet {
	t.Helper()
	out := map[string]handout.Sheet{"strip": b.Season(), "slip": b.Slip()}
	add := func(name string, s handout.Sheet, err error) {
		t.Helper()
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		out[name] = s
	}
	for _, d := range b.Months() {
		s, err := b.Month(d)
		add("month "+d.String(), s, err)
	}
	for _, d := range b.Weeks() {
		s, err := b.Week(d)
		add("week "+d.String(), s, err)
		s, err = b.Coach(d)
		add("coach "+d.String(), s, err)
		s, err = b.Parent(d)
		add("parent "+d.String(), s, err)
	}
	w, err := handout.NewWall("Team", plan.Period.From, plan.Period.To, b)
	add("wall", w.Sheet(), err)
	return out
}

// cards are the session cards of a plan.
func cards(t fatal, req *season.Request, plan *season.Plan, b *handout.Book) []handout.Sheet {
	t.Helper()
	_, list, err := exercise.Builder{}.Season(*plan, exercise.Club{Athlete: req.Athlete})
	if err != nil {
		t.Fatalf("%v", err)
	}
	var out []handout.Sheet
	for _, c := range list {
		s, err := b.Session(c)
		if err != nil {
			t.Fatalf("%v", err)
		}
		out = append(out, s)
	}
	return out
}

// known are the elements and attributes of the sheets. None loads anything, runs
// anything or leads anywhere.
var known = map[string]bool{
	"root": true, "section": true, "header": true, "footer": true, "h1": true, "h2": true, "p": true, "b": true, "i": true, "span": true, "div": true,
	"ul": true, "li": true, "dl": true, "dt": true, "dd": true, "table": true, "caption": true, "thead": true, "tbody": true, "tr": true, "th": true, "td": true,
	"figure": true, "figcaption": true, "details": true, "summary": true,
	"svg": true, "g": true, "rect": true, "path": true, "circle": true, "text": true, "title": true,
	"@class": true, "@aria-label": true, "@aria-hidden": true, "@role": true, "@scope": true,
	"@data-date": true, "@data-session": true, "@data-event": true,
	"@viewBox": true, "@width": true, "@height": true, "@x": true, "@y": true, "@rx": true, "@d": true, "@cx": true, "@cy": true, "@r": true,
}

// parse reads a fragment by the rules of XML, which are stricter than those of
// HTML: it returns the words between the tags and the values of attributes.
func parse(t fatal, fragment string) (text string, values map[string][]string) {
	t.Helper()
	values = map[string][]string{}
	var b strings.Builder
	d := xml.NewDecoder(strings.NewReader("<root>" + fragment + "</root>"))
	for {
		token, err := d.Token()
		if err == io.EOF {
			return b.String(), values
		}
		if err != nil {
			t.Fatalf("%v in %.400s", err, fragment)
		}
		switch x := token.(type) {
		case xml.StartElement:
			if !known[x.Name.Local] {
				t.Errorf("an element %s", x.Name.Local)
			}
			for _, a := range x.Attr {
				if !known["@"+a.Name.Local] {
					t.Errorf("an attribute %s of %s", a.Name.Local, x.Name.Local)
				}
				values[a.Name.Local] = append(values[a.Name.Local], a.Value)
			}
		case xml.CharData:
			b.Write(x)
			b.WriteByte(' ')
		case xml.EndElement:
		default:
			t.Errorf("a token %T", token)
		}
	}
}

func TestParseIsStrict(t *testing.T) {
	for _, bad := range []string{"<p>a", "<p>a</b>", "<p onclick>a</p>", "a < b", "<p class=x>a</p>", "&nbsp;"} {
		d := xml.NewDecoder(strings.NewReader("<root>" + bad + "</root>"))
		var err error
		for err == nil {
			_, err = d.Token()
		}
		if err == io.EOF {
			t.Errorf("%q passes as well-formed", bad)
		}
	}
}

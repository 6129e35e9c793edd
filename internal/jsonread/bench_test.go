package jsonread_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"testing"

	"example.org/weft/internal/jsonread"
)

// season is an invented list of events of about n bytes.
func season(n int) []byte {
	var b bytes.Buffer
	b.WriteString(`{"schema": 1, "events": [`)
	for i := 0; b.Len() < n; i++ {
		if i > 0 {
			b.WriteString(",")
		}
		fmt.Fprintf(&b, "\n  {\"id\": \"g%d\", \"kind\": \"game\", \"team\": \"Löwen\", \"start\": \"2026-11-%02dT14:00\", \"end\": \"2026-11-%02dT16:00\", \"zone\": \"Europe/Berlin\", \"importance\": %d}", i, i%28+1, i%28+1, i%5+1)
	}
	b.WriteString("\n]}\n")
	return b.Bytes()
}

func BenchmarkRead5MB(b *testing.B) {
	text := season(5 << 20)
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	for range b.N {
		if d := jsonread.Read(bytes.NewReader(text), jsonread.Options{}); !d.OK() {
			b.Fatal(d.Problems())
		}
	}
}

func BenchmarkReadAndAsk5MB(b *testing.B) {
	text := season(5 << 20)
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	for range b.N {
		d := jsonread.Read(bytes.NewReader(text), jsonread.Options{})
		f := d.Root().Object()
		f.Required("schema").Int(1, 1)
		events, _ := f.Required("events").Array(1 << 20)
		for _, v := range events {
			e := v.Object()
			e.Required("id").String(1, 64)
			e.Required("kind").Enum("game", "practice")
			e.Optional("team").String(1, 64)
			e.Required("start").Text("a time", func(string) error { return nil })
			e.Optional("end").Text("a time", func(string) error { return nil })
			e.Optional("zone").String(1, 64)
			e.Optional("importance").Int(1, 5)
			e.Done()
		}
		f.Done()
		if len(d.Problems()) > 0 {
			b.Fatal(d.Problems())
		}
	}
}

// The same text through encoding/json, into structs and without positions.
func BenchmarkEncodingJSON5MB(b *testing.B) {
	text := season(5 << 20)
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	for range b.N {
		var out struct {
			Schema int
			Events []struct {
				ID, Kind, Team, Start, End, Zone string
				Importance                       int
			}
		}
		if err := json.Unmarshal(text, &out); err != nil {
			b.Fatal(err)
		}
	}
}

// A text in which nothing is right.
func BenchmarkHostile5MB(b *testing.B) {
	text := []byte("[" + string(bytes.Repeat([]byte(`{"a":nan,"\u0061":"\ud800"},`), 5<<20/28)) + "1]")
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	for range b.N {
		d := jsonread.Read(bytes.NewReader(text), jsonread.Options{})
		if len(d.Problems()) != jsonread.DefaultProblems+1 {
			b.Fatal(len(d.Problems()))
		}
	}
}

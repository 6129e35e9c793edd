package jsonread_test

import (
	"encoding/json"
	"fmt"
	"math"
	"math/big"
	"strings"
	"testing"
	"time"

	"example.org/weft/internal/jsonread"
	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// decoded turns a value into what encoding/json makes of it with UseNumber.
func decoded(v jsonread.Value) any {
	switch v.Kind() {
	case jsonread.Bool:
		b, _ := v.Bool()
		return b
	case jsonread.Number:
		raw, _ := v.Raw()
		return json.Number(raw)
	case jsonread.String:
		var out string
		v.Text("a string", func(s string) error { out = s; return nil })
		return out
	case jsonread.Array:
		list, _ := v.Array(math.MaxInt)
		out := []any{}
		for _, e := range list {
			out = append(out, decoded(e))
		}
		return out
	case jsonread.Object:
		members, _ := v.Object().Members(math.MaxInt)
		out := map[string]any{}
		for _, m := range members {
			out[m.Name] = decoded(m.Value)
		}
		return out
	}
	return nil
}

// values draws what encoding/json can hold.
func values(depth int) *rapid.Generator[any] {
	return rapid.Custom(func(t *rapid.T) any {
		kinds := 4
		if depth > 0 {
			kinds = 6
		}
		switch rapid.IntRange(0, kinds-1).Draw(t, "kind") {
		case 0:
			return rapid.Bool().Draw(t, "bool")
		case 1:
			return json.Number(fmt.Sprint(rapid.Int64().Draw(t, "int")))
		case 2:
			return rapid.StringMatching(`[^\x00-\x1f\x7f-\x9f\x{2028}-\x{202e}\x{2066}-\x{2069}\x{feff}]*`).Draw(t, "string")
		case 3:
			return json.Number(rapid.StringMatching(`-?(0|[1-9][0-9]{0,5})\.[0-9]{1,4}(e[+-]?[0-9]{1,2})?`).Draw(t, "float"))
		case 4:
			return rapid.SliceOfN(values(depth-1), 0, 5).Draw(t, "array")
		}
		return rapid.MapOfN(rapid.StringMatching(`[a-zé"\\/~ \t]{0,6}`), values(depth-1), 0, 20).Draw(t, "object")
	})
}

func TestRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := values(4).Draw(t, "value")
		b, err := json.Marshal(want)
		if err != nil {
			t.Fatal(err)
		}
		d := jsonread.Read(strings.NewReader(string(b)), jsonread.Options{Limits: jsonread.Limits{StringBytes: 1 << 20}})
		if list := d.Problems(); len(list) > 0 {
			t.Fatalf("%s: %v", b, list[0])
		}
		if diff := cmp.Diff(want, decoded(d.Root())); diff != "" {
			t.Fatal(diff)
		}
		if raw, ok := d.Root().Raw(); !ok || string(raw) != string(b) {
			t.Fatalf("raw %s, want %s", raw, b)
		}
	})
}

// Numbers against exact rationals.
func TestNumbersAreExact(t *testing.T) {
	check := func(t interface{ Fatalf(string, ...any) }, text string, places int, least, most int64) {
		d := jsonread.Read(strings.NewReader(text), jsonread.Options{})
		got, ok := d.Root().Decimal(places, least, most)
		exact, fine := new(big.Rat).SetString(text)
		if !fine {
			t.Fatalf("%s is no number", text)
		}
		scale := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(places)), nil)
		exact.Mul(exact, new(big.Rat).SetInt(scale))
		want := exact.IsInt() && exact.Num().IsInt64() && exact.Num().Int64() >= least && exact.Num().Int64() <= most
		if places == 0 && strings.Contains(text, ".") {
			want = false
		}
		if ok != want || ok && got != exact.Num().Int64() || ok == (len(d.Problems()) > 0) {
			t.Fatalf("%s to %d places in %d..%d: %d, %v, want %v; %v", text, places, least, most, got, ok, exact, d.Problems())
		}
	}
	for _, text := range []string{"0", "-0", "-0.0", "9223372036854775807", "9223372036854775808", "-9223372036854775808", "-9223372036854775809",
		"922337203685477580.7", "922337203685477580.8", "-922337203685477580.8", "-922337203685477580.9", "99999999999999999999999.0", "1.50", "1.05", "0.000000000000000001"} {
		for places := range 19 {
			check(t, text, places, math.MinInt64, math.MaxInt64)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`-?(0|[1-9][0-9]{0,20})(\.[0-9]{1,3}0{0,3})?`).Draw(t, "text")
		least := rapid.Int64().Draw(t, "least")
		check(t, text, rapid.IntRange(0, 18).Draw(t, "places"), least, rapid.Int64Min(least).Draw(t, "most"))
	})
}

// FuzzRead holds the reader to encoding/json on what is JSON and what it
// means, and to its own promises on everything else.
func FuzzRead(f *testing.F) {
	for _, c := range parsed {
		f.Add([]byte(c.text))
	}
	for _, c := range asked {
		f.Add([]byte(c.text))
	}
	f.Add([]byte(strings.Repeat("[", 40)))
	f.Add([]byte(`{"id":1,"id":{"id":[{}]},"ID":"\ud83d\ude00"}`))
	f.Add([]byte(`"\"\\\/\b\f\n\r\t\u00E9\uD83D\uDE00\uABCD"`))
	f.Fuzz(func(t *testing.T, b []byte) {
		opt := jsonread.Options{Limits: jsonread.Limits{Depth: 10000}, Private: []string{"secret"}} // the depth of encoding/json
		d := jsonread.Read(strings.NewReader(string(b)), opt)
		text := strings.TrimPrefix(string(b), "\uFEFF")
		for _, p := range d.Problems() {
			switch p.Code {
			case jsonread.CodeTooDeep, jsonread.CodeTooMany, jsonread.CodeTooLarge:
				return
			}
		}
		if json.Valid([]byte(text)) != d.WellFormed() {
			t.Fatalf("encoding/json says %v, we say %v", json.Valid([]byte(text)), d.Problems())
		}
		if d.WellFormed() && d.OK() {
			dec := json.NewDecoder(strings.NewReader(text))
			dec.UseNumber()
			var want any
			if err := dec.Decode(&want); err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff(want, decoded(d.Root())); diff != "" {
				t.Fatal(diff)
			}
		}

		readAll(d)
		list := d.Problems()
		errs, warns := d.Counts()
		if errs+warns < len(list)-1 || d.OK() != (errs == 0) || len(list) > jsonread.DefaultProblems+1 {
			t.Fatalf("%d errors, %d warnings, %d listed", errs, warns, len(list))
		}
		line, col := 0, 0
		for _, p := range list {
			if p.Code == jsonread.CodeMore {
				break
			}
			if p.Line < line || p.Line == line && p.Col < col {
				t.Fatalf("out of order: %v", list)
			}
			line, col = p.Line, p.Col
			if p.Reason == "" || p.Remedy == "" {
				t.Fatalf("no reason or remedy: %v", p)
			}
			for _, s := range []string{p.Pointer, p.Value, p.Reason, p.Remedy} {
				if strings.IndexFunc(s, func(r rune) bool { return r < ' ' || r == 0x7F || r == 0x202E || r == '<' }) >= 0 || len(p.Value) > 12*60 || len(p.Reason)+len(p.Remedy) > 12*600 {
					t.Fatalf("not inert: %q", p)
				}
			}
		}
		once, again := jsonread.Read(strings.NewReader(string(b)), opt), jsonread.Read(strings.NewReader(string(b)), opt)
		readAll(once)
		readAll(again)
		if diff := cmp.Diff(once.Problems(), again.Problems()); diff != "" {
			t.Fatalf("another reading differs: %s", diff)
		}
	})
}

// A private value leaves no trace, wherever it stands and whatever is wrong.
func TestPrivateLeavesNoTrace(t *testing.T) {
	const word = "asthma"
	for _, inside := range []string{
		`"asthma"`, `"asthma\u0000"`, `"asthma` + "\xff" + `"`, `"asthma\x"`, `"asthma\ud800"`, `"asthma` + "\n", `"asthma`, `asthma`, `asthma: 1`,
		`["asthma", NaN, 01asthma, {"asthma": 1, "asthma": nul}]`, `{"asthma": asthma}`, `{"asthma": 1, asthma}`, `{"Count": "asthma"}`, `{"asthma" 1}`, `[[[["asthma"`,
	} {
		for _, name := range []string{"secret", "Secret", "secrets", "sceret", "id", "kind", "when", "list", "rules", "home"} {
			text := `{"` + name + `": ` + inside + `, "count": "x"}`
			d := jsonread.Read(strings.NewReader(text), jsonread.Options{Private: []string{"secret", "id", "kind", "when", "list", "rules", "home"}})
			readAll(d)
			f := d.Root().Object().Optional(name).Object()
			f.Required("Asthma_")
			f.Done()
			members, _ := f.Members(9)
			for _, m := range members {
				m.Value.Int(3, 4)
			}
			list := d.Problems()
			if len(list) == 0 {
				t.Errorf("%s: nothing is wrong", text)
			}
			for _, p := range list {
				if strings.Contains(p.String(), word) {
					t.Errorf("%s: %v", text, p)
				}
			}
		}
	}
}

// Hostile texts of half a megabyte each are done in far less time than a
// quadratic reader would need: all pairs of its bytes are 10^11 steps.
func TestWorkIsLinear(t *testing.T) {
	const n = 1 << 19
	rep := func(s string) string { return strings.Repeat(s, n/len(s)) }
	numbered := func(format string) string {
		var b strings.Builder
		for i := 0; b.Len() < n; i++ {
			fmt.Fprintf(&b, format, i)
		}
		return b.String()
	}
	for name, text := range map[string]string{
		"brackets":        rep("["),
		"objects":         rep(`{"a":`),
		"duplicates":      `{` + rep(`"a":1,`) + `"a":1}`,
		"escaped names":   `{` + numbered(`"\u0061%d":1,`) + `"a":1}`,
		"unknown names":   `{` + numbered(`"traningAgeYaers%d":1,`) + `"a":1}`,
		"other case":      `{` + rep(`"COUNT":1,`) + `"a":1}`,
		"bad words":       `[` + rep(`nan,`) + `1]`,
		"deep words":      strings.Repeat(`{"restriction":[`, 16) + rep(`x,`),
		"nulls":           `{"list":[` + rep(`null,`) + `1]}`,
		"one bad word":    rep("a"),
		"one number":      rep("9"),
		"one string":      `"` + rep(`\ud800`) + `"`,
		"bad bytes":       `"` + rep("\xff") + `"`,
		"controls":        `["` + rep("\x1b") + `"]`,
		"long names":      `[` + rep(`{"`+strings.Repeat("n", 1000)+`":1},`) + `1]`,
		"one line end":    rep("\n"),
		"escapes in name": `{"` + rep(`\u0061`) + `":1,"` + rep(`\u0061`) + `":nan}`,
		"small maps":      `[{` + numbered(`"%d":1,`)[:n/4] + `"":1},` + rep(`{"\u0061":1,"b":2},`) + `1]`,
	} {
		start := time.Now()
		d := jsonread.Read(strings.NewReader(text), jsonread.Options{Private: []string{"secret", "restrictions"}, Limits: jsonread.Limits{Depth: n, StringBytes: 2 * n}})
		readAll(d)
		list, _ := d.Root().Array(n)
		for _, v := range list {
			v.Object().Done()
		}
		if len(d.Problems()) == 0 {
			t.Errorf("%s: nothing is wrong", name)
		}
		if took := time.Since(start); took > 5*time.Second {
			t.Errorf("%s: %v", name, took)
		} else {
			t.Logf("%-16s %v", name, took)
		}
	}
}

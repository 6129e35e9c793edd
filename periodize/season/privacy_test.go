package season_test

import (
	"encoding/json"
	"strings"
	"testing"

	"example.org/weft/periodize/season"
)

// What is known of a person's health is in no problem, however wrong it is.
func TestHealthIsNeverShown(t *testing.T) {
	const secret = "zyxxyz"
	long := strings.Repeat(secret, 1000)
	values := []string{
		`"` + secret + `"`, `"` + long + `"`, `"2026-13-77 ` + secret + `"`, `{"` + secret + `": "` + secret + `"}`, `["` + secret + `"]`,
		`"` + secret + `\u0000"`, `"` + secret + `\u001b"`, `"` + secret + `\q"`, `0` + secret, secret, `"` + secret + "\xff\"", `77777771`, `-77777771.5`, `null`,
	}
	check := func(where, text string) {
		_, problems, err := season.RequestReader{}.Read(strings.NewReader(text))
		shown := strings.Join(lines(problems), "\n")
		if err != nil {
			shown += err.Error()
		}
		if strings.Contains(shown, secret) || strings.Contains(shown, "7777777") {
			t.Errorf("%s shows %s", where, shown)
		}
	}
	for _, v := range values {
		for _, field := range []string{"region", "side", "from", "to", "by", secret} {
			row := map[string]string{"region": `"knee"`, "from": `"2026-10-01"`, "by": `"physio"`}
			row[field] = v
			check("restriction "+field, doc(`, "restrictions": [`+object(row)+`]`, ""))
		}
		for _, field := range []string{"from", "until", "clearedBy", "clearedOn", secret} {
			row := map[string]string{"from": `"2026-10-01"`}
			row[field] = v
			check("hold "+field, doc(`, "holds": [`+object(row)+`]`, ""))
		}
		check("restrictions", doc(`, "restrictions": `+v, ""))
		check("hold", doc(`, "holds": [`+v+`]`, ""))
		check("wellness", doc(`, "wellness": `+v, ""))
		check("Holds", doc(`, "Holds": [`+v+`]`, ""))
		check("holds elsewhere", doc("", `, "holds": [`+v+`]`))
	}

	req := season.Request{
		Period: season.Period{From: day("2026-11-09"), To: day("2026-11-15")},
		Athlete: season.Athlete{
			Zone:         zoneOf("Europe/Berlin"),
			Restrictions: []season.Restriction{{Region: long, Side: secret, By: secret + "\x00"}, {Region: secret + "\xff", By: secret + "\x1b"}},
			Holds:        []season.Hold{{ClearedBy: long, ClearedOn: day("2077-07-07")}, {From: day("2077-07-07"), Until: day("2026-01-01").AddDays(80_000)}},
		},
	}
	problems := req.Validate()
	if shown := strings.Join(lines(problems), "\n"); strings.Contains(shown, secret) || strings.Contains(shown, "2077") || len(problems) < 8 {
		t.Errorf("%d problems: %s", len(problems), shown)
	}
}

func object(row map[string]string) string {
	var parts []string
	for k, v := range row {
		name, _ := json.Marshal(k)
		parts = append(parts, string(name)+": "+v)
	}
	return "{" + strings.Join(parts, ", ") + "}"
}
